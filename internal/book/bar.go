package book

import (
	"math"
	"strconv"

	"scantling/internal/drawing"
	"scantling/internal/shop"
	"scantling/internal/typeset"
)

// Sizes of a board bar, in mm of paper. Its length is to scale; its width is
// drawn larger, or a letter would find no room in it.
const (
	barPerMM   = 0.09 // paper across the board for one mm of wood
	barLeast   = 8.5
	barMost    = 17.0
	numberHigh = 4.4 // the row of cut numbers above the bar
	tapeGap    = 1.0
	barTape    = 4.6
	kerfLeast  = 0.35
)

// bar is a board as it lies on the bench, a tape along its near edge.
type bar struct {
	wide   float64      // mm: the board's
	ripsAt []shop.Shown // of its section
	strip  shop.Strip
	whole  bool    // the whole board is drawn, not a strip of it alone
	scale  float64 // paper for one mm of wood, along the board
	long   float64 // mm of wood
	kerf   float64 // mm of wood
	metric bool
	room   float64         // mm of paper the labels may take
	cut    int             // number of the last cut that was drawn
	bare   []shop.SawPiece // pieces too short for their letter
	tight  bool            // what is left is too short to say so on the bar
}

// cut is a line the saw takes.
type cut struct {
	at, slant float64 // mm of wood: on the near edge, and how much further at the far edge
	mark      *shop.Shown
}

// cuts returns the cuts of a strip from the datum end. Two pieces share a cut
// where the end of one and the start of the next lie a blade apart.
func (b *bar) cuts() (cs []cut) {
	const near = 0.5 // mm: marks are rounded
	end, slant := 0.0, 0.0
	for i, p := range b.strip.Pieces {
		if i > 0 && p.End <= end+near && p.Start < end {
			continue // beside the piece before: parted from it by a rip
		}
		shared := i > 0 && math.Abs(p.SlantStart-slant) < near && p.Start-end < float64(1.5*b.kerf)+float64(math.Abs(p.SlantStart)*0.2)+near
		if !shared && (p.Start > near || p.SlantStart != 0) {
			cs = append(cs, cut{at: p.Start, slant: b.through(p, p.SlantStart)})
		}
		mark := p.Mark
		c := cut{at: p.End, slant: b.through(p, p.SlantEnd), mark: &mark}
		if p.End < b.long-near || p.SlantEnd != 0 {
			cs = append(cs, c)
		}
		end, slant = p.End, p.SlantEnd
	}
	return cs
}

// through is how far a cut slants across the whole strip that slants so far
// across one piece.
func (b *bar) through(p shop.SawPiece, slant float64) float64 {
	if p.Wide == 0 {
		return slant
	}
	return float64(slant * (b.strip.Wide / p.Wide))
}

// draw returns the bar's items with its top left corner at 0, 0, and its height.
func (b *bar) draw() ([]drawing.Item, float64) {
	var items []drawing.Item
	wide, near := b.strip.Wide, 0.0
	if b.whole {
		wide, near = b.wide, b.strip.Near
	}
	across := min(max(wide*barPerMM, barLeast), barMost) / wide
	cs := b.cuts()
	x := func(v float64) float64 { return float64(v * b.scale) }

	// Numbers of the cuts, in the order they are made.
	var numbers []tag
	for i, c := range cs {
		numbers = append(numbers, newTag(x(c.at+float64(c.slant*0.5)), typeset.Set(say(strconv.Itoa(b.cut+i+1), barSmall)...)))
	}
	b.cut += len(cs)
	moved := fan(numbers, x(b.long), 1)
	for every := 2; math.IsInf(moved, 1); every++ {
		var some []tag
		for i := 0; i < len(cs); i += every {
			some = append(some, numbers[i])
		}
		if moved = fan(some, x(b.long), 1); !math.IsInf(moved, 1) {
			numbers = some
		}
	}
	top := numberHigh
	if moved > shifted {
		top += 2.5
	}
	for _, t := range numbers {
		items = append(items, drawing.Text{At: drawing.Point{X: t.start, Y: numberHigh - 1.2}, Line: t.line})
		if moved > shifted {
			items = append(items, drawing.Stroke{Path: []drawing.Point{{X: t.x, Y: top}, {X: t.start + float64(t.wide/2), Y: numberHigh - 0.5}}, Weight: drawing.Hair})
		}
	}
	far := top
	base := top + float64(wide*across) // the near edge

	// The board: waste all over, then what is kept.
	items = append(items, drawing.Fill{Loops: [][]drawing.Point{drawing.Rect(0, far, x(b.long), base-far)}, Tone: drawing.ToneWaste})
	low := base - float64(near*across)
	high2 := low - float64(b.strip.Wide*across)
	quad := func(x0, s0, x1, s1, low, high float64) []drawing.Point {
		return []drawing.Point{{X: x(x0), Y: low}, {X: x(x1), Y: low}, {X: x(x1 + s1), Y: high}, {X: x(x0 + s0), Y: high}}
	}
	edges := func(p shop.SawPiece) (near, far float64) { // of a piece, on paper
		if p.Wide == 0 {
			return low, high2
		}
		near = low - float64((p.Near-b.strip.Near)*across)
		return near, near - float64(p.Wide*across)
	}
	last, lastSlant := 0.0, 0.0
	for _, p := range b.strip.Pieces {
		near, far := edges(p)
		outline := quad(p.Start, p.SlantStart, p.End, p.SlantEnd, near, far)
		items = append(items, drawing.Fill{Loops: [][]drawing.Point{outline}, Tone: drawing.ToneNew})
		if near-far < low-high2-0.01 { // ripped once it is cut off
			items = append(items, drawing.Stroke{Path: outline, Closed: true, Weight: drawing.Narrow})
		}
		last, lastSlant = p.End, p.SlantEnd
	}
	if b.strip.Left != nil {
		from := last + b.kerf
		if from < b.long {
			items = append(items, drawing.Fill{Loops: [][]drawing.Point{quad(from, lastSlant, b.long, 0, low, high2)}, Tone: drawing.TonePaper})
			room, mid := x(b.long-from-max(lastSlant, 0))-1, float64(x(from+max(lastSlant, 0)+b.long)/2)
			b.tight = true
			for _, st := range [2]typeset.Style{barPlain, barTight} {
				if l := typeset.Set(cat(say(b.leftover(), st), figure(*b.strip.Left, st))...); l.Width <= room {
					items = append(items, centred(l, mid, float64((low+high2)/2)))
					b.tight = false
					break
				}
			}
		}
	}
	for _, r := range b.ripsAt {
		if b.whole {
			y := base - float64(r.Exact.V/1e6*across)
			items = append(items, drawing.Stroke{Path: []drawing.Point{{X: 0, Y: y}, {X: x(b.long), Y: y}}, Weight: drawing.Wide})
		}
	}
	// The blade takes its width beyond the line, on the side of the waste.
	for _, c := range cs {
		k := max(x(b.kerf), kerfLeast)
		from, to := x(c.at), x(c.at+c.slant)
		if c.mark == nil {
			from, to = from-k, to-k
		}
		items = append(items, drawing.Fill{Tone: drawing.ToneDark, Loops: [][]drawing.Point{{
			{X: from, Y: low}, {X: from + k, Y: low}, {X: to + k, Y: high2}, {X: to, Y: high2}}}})
	}
	items = append(items, drawing.Stroke{Path: drawing.Rect(0, far, x(b.long), base-far), Closed: true})
	for _, p := range b.strip.Pieces {
		room := x(p.End+min(p.SlantEnd, 0)-p.Start-max(p.SlantStart, 0)) - 1
		mid := float64(x(p.Start+p.End+float64((p.SlantStart+p.SlantEnd)/2)) / 2)
		near, far := edges(p)
		if t, ok := pieceLabel(p, room, near-far-1, mid, float64((near+far)/2)); ok {
			items = append(items, t)
		} else {
			b.bare = append(b.bare, p)
		}
	}

	tapeTop := base + tapeGap
	items = append(items, b.tape(tapeTop)...)
	under := tapeTop + barTape
	marks, high := b.marks(cs, tapeTop, under)
	return append(items, marks...), high
}

// marks letters the tape with the running mark of each cut. Labels stand side by
// side, each as near its mark as the others let it; upright where that is too
// far.
func (b *bar) marks(cs []cut, tapeTop, under float64) (items []drawing.Item, high float64) {
	var tags []tag
	turn, moved, deep := 0.0, 0.0, 0.0
	for _, try := range [...]struct {
		style typeset.Style
		turn  float64
	}{{barStyle, 0}, {barStyle, 90}, {barSmall, 90}} {
		tags, deep = nil, 0
		for _, c := range cs {
			if c.mark == nil {
				continue
			}
			t := newTag(float64(c.at*b.scale), typeset.Set(figure(*c.mark, try.style)...))
			if try.turn != 0 {
				t.wide = t.line.Ascent + t.line.Descent
				deep = max(deep, t.line.Width)
			} else {
				deep = max(deep, t.line.Ascent+t.line.Descent)
			}
			tags = append(tags, t)
		}
		turn, moved = try.turn, fan(tags, b.room, 1.4)
		if moved < farthest {
			break
		}
	}
	top := under + 2.6
	if moved > shifted {
		top += 3
	}
	for _, t := range tags {
		mid := t.start + float64(t.wide/2)
		items = append(items,
			drawing.Stroke{Path: []drawing.Point{{X: t.x, Y: tapeTop}, {X: t.x, Y: tapeTop + 1.9}}, Weight: drawing.Narrow, Ink: typeset.Live},
			drawing.Fill{Tone: drawing.ToneMark, Loops: [][]drawing.Point{{{X: t.x - 1.1, Y: under + 1.9}, {X: t.x + 1.1, Y: under + 1.9}, {X: t.x, Y: under}}}})
		if moved > shifted {
			items = append(items, drawing.Stroke{Path: []drawing.Point{{X: t.x, Y: under + 1.9}, {X: mid, Y: top - 0.3}}, Weight: drawing.Hair, Ink: typeset.Live})
		}
		at := drawing.Point{X: t.start, Y: top + t.line.Ascent}
		if turn != 0 {
			at = drawing.Point{X: t.start + t.line.Ascent, Y: top + t.line.Width}
		}
		items = append(items, drawing.Text{At: at, Line: t.line, Turn: turn})
	}
	return items, top + deep + 0.6
}

// pieceLabel letters a piece as fully as its room allows.
func pieceLabel(p shop.SawPiece, room, high, midX, midY float64) (drawing.Text, bool) {
	full := func(st typeset.Style) typeset.Line {
		return typeset.Set(cat(say(p.Letter+"  ", st), []typeset.Span{{Text: p.Label, Style: st, Kind: typeset.Figure}})...)
	}
	for _, l := range [...]typeset.Line{full(barStyle), full(barSmall), typeset.Set(say(p.Letter, barStyle)...)} {
		if l.Width <= room {
			return centred(l, midX, midY), true
		}
	}
	if l := full(barSmall); l.Ascent+l.Descent <= room && l.Width <= high {
		return drawing.Text{At: drawing.Point{X: midX + float64(l.Ascent*0.42), Y: midY + float64(l.Width/2)}, Line: l, Turn: 90}, true
	}
	l := typeset.Set(say(p.Letter, barSmall)...)
	return centred(l, midX, midY), l.Width <= room+0.4
}

// What is left is lettered lighter than what is kept.
var (
	barPlain = typeset.Style{Size: 9}
	barTight = typeset.Style{Size: 7.5}
)

// centred puts a line with its middle at x, y.
func centred(l typeset.Line, x, y float64) drawing.Text {
	return drawing.Text{At: drawing.Point{X: typeset.Centre.Start(x, l), Y: y + float64(l.Runs[0].Style.Size*typeset.Point*0.33)}, Line: l}
}

// tape draws the tape along the near edge, an inch or a centimetre to a mark,
// with a number every foot or every 20 cm.
func (b *bar) tape(top float64) []drawing.Item {
	unit, every, half, count := 25.4, 12, 6, 1
	if b.metric {
		unit, every, half, count = 10, 20, 10, 10
	}
	width := float64(b.long * b.scale)
	items := tapeBody(0, top, width, barTape)
	clear := 0.0
	for n := 1; float64(float64(n)*unit) < b.long-float64(unit/4); n++ {
		at := float64(float64(float64(n)*unit) * b.scale)
		deep := 1.0
		switch {
		case n%every == 0:
			deep = barTape
			l := typeset.Set(say(strconv.Itoa(n*count), tapeStyle)...)
			if at+0.6+l.Width < width-0.4 && at > clear {
				items = append(items, drawing.Text{At: drawing.Point{X: at + 0.7, Y: top + barTape - 0.7}, Line: l})
				clear = at + l.Width + 1.2
			}
		case n%half == 0:
			deep = 1.7
		}
		items = append(items, tick(at, top, deep))
	}
	return items
}

// tag is a short line of type that belongs to a place x.
type tag struct {
	x     float64
	line  typeset.Line
	wide  float64 // along x
	start float64 // where it stands; fan finds it
}

func newTag(x float64, l typeset.Line) tag { return tag{x: x, line: l, wide: l.Width} }

const (
	shifted  = 0.4  // mm: a tag moved less needs no leader
	farthest = 14.0 // mm: a tag moved further is hard to follow back
)

// fan places tags, which stand in order of x, side by side within the width, so
// that the sum of the squares of their moves is least: tags that would overlap
// form a group that moves as one (pool adjacent violators, as in isotonic
// regression). It returns the longest move, +Inf if they find no room.
func fan(tags []tag, width, gap float64) float64 {
	type pool struct {
		first, n    int
		wants, wide float64 // sum of the starts wished for by its first tag; width with gaps
	}
	var pools []pool
	place := func(p pool) float64 {
		return min(max(p.wants/float64(p.n), 0), max(0, width-p.wide))
	}
	total := 0.0
	for i, t := range tags {
		p := pool{first: i, n: 1, wants: t.x - float64(t.wide/2), wide: t.wide}
		for len(pools) > 0 {
			q := pools[len(pools)-1]
			if place(q)+q.wide+gap <= place(p) {
				break
			}
			p = pool{q.first, q.n + p.n, q.wants + p.wants - float64(float64(p.n)*(q.wide+gap)), q.wide + gap + p.wide}
			pools = pools[:len(pools)-1]
		}
		pools = append(pools, p)
		total += t.wide + gap
	}
	far := 0.0
	for _, p := range pools {
		at := place(p)
		for i := p.first; i < p.first+p.n; i++ {
			tags[i].start = at
			far = max(far, math.Abs(at+float64(tags[i].wide/2)-tags[i].x))
			at += tags[i].wide + gap
		}
	}
	if total-gap > width+fits {
		return math.Inf(1)
	}
	return far
}

// leftover names what is left of a strip.
func (b *bar) leftover() string {
	if b.strip.Offcut != "" {
		return b.strip.Offcut + ", "
	}
	return "left "
}
