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
	numberHigh = 4.2 // a row of cut numbers above the bar
	tapeGap    = 1.0
	barTape    = 4.6
	markHigh   = 4.8 // a row of running marks under the tape
	kerfLeast  = 0.35
)

// bar is a board as it lies on the bench, a tape along its near edge.
type bar struct {
	board  shop.SawBoard
	strip  shop.Strip
	whole  bool    // the whole board is drawn, not a strip of it alone
	scale  float64 // paper for one mm of wood, along the board
	long   float64 // mm of wood
	kerf   float64 // mm of wood
	metric bool
	cut    int // number of the last cut that was drawn
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
		shared := i > 0 && math.Abs(p.SlantStart-slant) < near && p.Start-end < 1.5*b.kerf+math.Abs(p.SlantStart)*0.2+near
		if !shared && (p.Start > near || p.SlantStart != 0) {
			cs = append(cs, cut{at: p.Start, slant: p.SlantStart})
		}
		mark := p.Mark
		c := cut{at: p.End, slant: p.SlantEnd, mark: &mark}
		if p.End < b.long-near || p.SlantEnd != 0 {
			cs = append(cs, c)
		}
		end, slant = p.End, p.SlantEnd
	}
	return cs
}

// draw returns the bar's items with its top left corner at 0, 0, and its height.
func (b *bar) draw() (items []drawing.Item, high float64) {
	wide, near := b.strip.Wide, 0.0
	if b.whole {
		wide, near = b.board.Width, b.strip.Near
	}
	across := min(max(wide*barPerMM, barLeast), barMost) / wide
	cs := b.cuts()
	x := func(v float64) float64 { return float64(v * b.scale) }

	// Numbers of the cuts, in the order they are made.
	var numbers []tag
	for _, c := range cs {
		b.cut++
		numbers = append(numbers, tag{x: x(c.at + float64(c.slant*0.5)), line: typeset.Set(say(strconv.Itoa(b.cut), barSmall)...)})
	}
	rows := stack(numbers, x(b.long), 1.2)
	top := float64(float64(rows)*numberHigh) + 0.6
	far := top
	base := top + float64(wide*across) // the near edge
	for _, t := range numbers {
		items = append(items, drawing.Text{At: drawing.Point{X: t.start, Y: top - 1 - float64(float64(t.row)*numberHigh)}, Line: t.line})
		if t.row > 0 {
			items = append(items, drawing.Stroke{Path: []drawing.Point{{X: t.x, Y: top}, {X: t.x, Y: top - 0.6 - float64(float64(t.row)*numberHigh)}}, Weight: drawing.Hair})
		}
	}

	// The board: waste all over, then what is kept.
	items = append(items, drawing.Fill{Loops: [][]drawing.Point{drawing.Rect(0, far, x(b.long), base-far)}, Tone: drawing.ToneWaste})
	low := base - float64(near*across)
	high2 := low - float64(b.strip.Wide*across)
	quad := func(x0, s0, x1, s1 float64) []drawing.Point {
		return []drawing.Point{{X: x(x0), Y: low}, {X: x(x1), Y: low}, {X: x(x1 + s1), Y: high2}, {X: x(x0 + s0), Y: high2}}
	}
	last, lastSlant := 0.0, 0.0
	for _, p := range b.strip.Pieces {
		items = append(items, drawing.Fill{Loops: [][]drawing.Point{quad(p.Start, p.SlantStart, p.End, p.SlantEnd)}, Tone: drawing.ToneNew})
		last, lastSlant = p.End, p.SlantEnd
	}
	if b.strip.Left != nil {
		from := last + b.kerf
		if from < b.long {
			items = append(items, drawing.Fill{Loops: [][]drawing.Point{quad(from, lastSlant, b.long, 0)}, Tone: drawing.TonePaper})
			if l, ok := fit(x(b.long-from-max(lastSlant, 0))-1, say("left ", barPlain), figure(*b.strip.Left, barPlain)); ok {
				mid := x(from+max(lastSlant, 0)+b.long) / 2
				items = append(items, centred(l, mid, (low+high2)/2))
			}
		}
	}
	for _, r := range b.board.RipsAt {
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
		mid := x(p.Start+p.End+float64(p.SlantStart+p.SlantEnd)*0.5) / 2
		for _, st := range [2]typeset.Style{barStyle, barSmall} {
			l, ok := fit(room, say(p.Letter+"  ", st), []typeset.Span{{Text: p.Label, Style: st, Kind: typeset.Figure}})
			if !ok {
				l, ok = fit(room, say(p.Letter, st))
			}
			if ok {
				items = append(items, centred(l, mid, (low+high2)/2))
				break
			}
		}
	}

	tapeTop := base + tapeGap
	items = append(items, b.tape(tapeTop)...)
	under := tapeTop + barTape
	var tags []tag
	for _, c := range cs {
		if c.mark != nil {
			tags = append(tags, tag{x: x(c.at), line: typeset.Set(figure(*c.mark, barStyle)...)})
		}
	}
	rows = stack(tags, x(b.long), 1.6)
	for _, t := range tags {
		y := under + 2.2 + float64(float64(t.row+1)*markHigh) - 1.2
		items = append(items,
			drawing.Stroke{Path: []drawing.Point{{X: t.x, Y: tapeTop + 0.2}, {X: t.x, Y: y - t.line.Ascent - 0.5}}, Weight: drawing.Narrow, Ink: typeset.Live},
			drawing.Fill{Tone: drawing.ToneMark, Loops: [][]drawing.Point{{{X: t.x - 1.1, Y: under + 1.9}, {X: t.x + 1.1, Y: under + 1.9}, {X: t.x, Y: under}}}},
			drawing.Text{At: drawing.Point{X: t.start, Y: y}, Line: t.line})
	}
	return items, under + 2.2 + float64(float64(rows)*markHigh) + 0.6
}

var barPlain = typeset.Style{Size: 9}

// fit sets spans as a line if they are no wider than room.
func fit(room float64, parts ...[]typeset.Span) (typeset.Line, bool) {
	l := typeset.Set(cat(parts...)...)
	return l, l.Width <= room
}

// centred puts a line with its middle at x, y.
func centred(l typeset.Line, x, y float64) drawing.Text {
	return drawing.Text{At: drawing.Point{X: typeset.Centre.Start(x, l), Y: y + l.Runs[0].Style.Size*typeset.Point*0.33}, Line: l}
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
	for n := 1; float64(float64(n)*unit) < b.long-unit/4; n++ {
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

// tag is a short line with a leader at x. stack gives it its row, 0 nearest, and
// its start.
type tag struct {
	x     float64
	line  typeset.Line
	start float64
	row   int
}

// stack puts tags, which stand in order of x, in as few rows as it takes that no
// tag touches another and no leader runs through one. It returns the number of
// rows.
func stack(tags []tag, width, gap float64) (rows int) {
	for i := range tags {
		t := &tags[i]
		t.start = min(max(t.x-t.line.Width/2, 0), max(0, width-t.line.Width))
		for t.row = 0; ; t.row++ {
			clear := true
			for _, o := range tags[:i] {
				switch {
				case o.row == t.row:
					clear = clear && (o.start+o.line.Width+gap <= t.start)
				case o.row < t.row:
					clear = clear && (t.x > o.start+o.line.Width+gap/2 || t.x < o.start-gap/2)
				default:
					clear = clear && (o.x < t.start-gap/2 || o.x > t.start+t.line.Width+gap/2)
				}
			}
			// A row below all others is clear unless a leader meets a tag above,
			// and then no deeper row helps.
			if clear || t.row > i {
				break
			}
		}
		rows = max(rows, t.row+1)
	}
	return rows
}
