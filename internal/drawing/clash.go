package drawing

import (
	"fmt"
	"math"
	"sort"

	"scantling/internal/steady"
	"scantling/internal/typeset"
)

// Clash is something a reader could not read on a sheet.
type Clash struct {
	Kind ClashKind
	Text string // the text that suffers, as it reads
	With string // the other text, or what lies over it
	At   Point
}

// ClashKind tells what is wrong.
type ClashKind uint8

const (
	TextOnText ClashKind = iota // two texts overlap
	OffSheet                    // a text stands out past the sheet's edge
	LineOnText                  // a line runs through a text
	Covered                     // an area painted later covers a text
	Unknown                     // a character no face has
)

// String says the clash as a sentence.
func (c Clash) String() string {
	at := fmt.Sprintf("at %.1f, %.1f mm", c.At.X, c.At.Y)
	switch c.Kind {
	case TextOnText:
		return fmt.Sprintf("%q %s overlaps %q", c.Text, at, c.With)
	case OffSheet:
		return fmt.Sprintf("%q %s stands out past the edge of the sheet", c.Text, at)
	case LineOnText:
		return fmt.Sprintf("a line runs through %q %s", c.Text, at)
	case Unknown:
		return fmt.Sprintf("%q %s holds a character that no face has", c.Text, at)
	}
	return fmt.Sprintf("%q %s is covered by an area painted over it", c.Text, at)
}

// slack is how far boxes may share paper before they count as overlapping:
// boxes hold room for letters that reach higher than most, and a printed line
// is itself 0.13 mm wide.
const slack = 0.15 // mm

// Clashes returns everything on the sheet that could not be read: text over
// text, past the edge, crossed by a line, or covered. A text with a halo may
// stand on lines painted before it.
func (s *Sheet) Clashes() []Clash {
	var w clashWalk
	w.walk(s.Items)
	var out []Clash
	for _, t := range w.texts {
		for _, p := range t.box {
			if p.X < -slack || p.Y < -slack || p.X > s.W+slack || p.Y > s.H+slack {
				out = append(out, Clash{OffSheet, t.says, "", t.at})
				break
			}
		}
		if t.unknown {
			out = append(out, Clash{Unknown, t.says, "", t.at})
		}
	}
	sort.SliceStable(w.texts, func(i, j int) bool { return w.texts[i].y0 < w.texts[j].y0 })
	for i, a := range w.texts {
		for _, b := range w.texts[i+1:] {
			if b.y0 > a.y1-slack {
				break
			}
			if overlap(a.box[:], b.box[:]) > slack {
				out = append(out, Clash{TextOnText, a.says, b.says, a.at})
			}
		}
	}
	for _, t := range w.texts {
		for _, l := range w.lines {
			if (!t.halo || l.order > t.order) && overlap(t.box[:], l.ends[:]) > slack {
				out = append(out, Clash{LineOnText, t.says, "", t.at})
				break
			}
		}
		for _, f := range w.fills {
			if f.order > t.order && covers(f.loops, t.box) {
				out = append(out, Clash{Covered, t.says, "", t.at})
				break
			}
		}
	}
	return out
}

type textBox struct {
	says    string
	at      Point
	box     [4]Point
	y0, y1  float64
	order   int
	halo    bool
	unknown bool
}

type clashWalk struct {
	order int
	texts []textBox
	lines []struct {
		ends  [2]Point
		order int
	}
	fills []struct {
		loops [][]Point
		order int
	}
}

func (w *clashWalk) walk(items []Item) {
	for _, it := range items {
		w.order++
		switch it := it.(type) {
		case *Group:
			w.walk(it.Items)
		case Stroke:
			for i := range it.Path {
				j := i + 1
				if j == len(it.Path) {
					if !it.Closed {
						break
					}
					j = 0
				}
				w.lines = append(w.lines, struct {
					ends  [2]Point
					order int
				}{[2]Point{it.Path[i], it.Path[j]}, w.order})
			}
		case Fill:
			w.fills = append(w.fills, struct {
				loops [][]Point
				order int
			}{it.Loops, w.order})
		case Text:
			if len(it.Line.Runs) == 0 || it.Line.Width <= 0 {
				continue
			}
			t := textBox{says: it.Line.Says(), at: it.At, box: it.Box(), order: w.order, halo: it.Halo}
			for _, r := range it.Line.Runs {
				for _, g := range r.Glyphs {
					t.unknown = t.unknown || g.ID == 0
				}
			}
			t.y0, t.y1 = t.box[0].Y, t.box[0].Y
			for _, p := range t.box {
				t.y0, t.y1 = min(t.y0, p.Y), max(t.y1, p.Y)
			}
			w.texts = append(w.texts, t)
		}
	}
}

// Direction returns the cosine and sine of the text's turn, exact when it is
// upright.
func (t Text) Direction() (c, s float64) {
	switch t.Turn {
	case 0:
		return 1, 0
	case 90:
		return 0, 1
	}
	r := t.Turn * (math.Pi / 180)
	return steady.Cos(r), steady.Sin(r)
}

// Box returns the corners of the rectangle a text fills.
func (t Text) Box() [4]Point { return t.around(0) }

// Cleared returns the corners of the rectangle a halo clears behind a text.
func (t Text) Cleared() [4]Point { return t.around(0.4) }

// around is the box of the text grown by so many mm.
func (t Text) around(by float64) [4]Point {
	c, s := t.Direction()
	at := func(x, y float64) Point {
		return Point{t.At.X + float64(x*c) + float64(y*s), t.At.Y - float64(x*s) + float64(y*c)}
	}
	w, up, down := t.Line.Width, t.Line.Ascent, t.Line.Descent
	return [4]Point{at(-by, -up-by), at(w+by, -up-by), at(w+by, down+by), at(-by, down+by)}
}

// overlap returns how far two convex shapes lie into each other, in mm, along
// the side where they do so least; 0 or less when they are apart. A shape of two
// points is a line.
func overlap(a, b []Point) float64 {
	least := 1e9
	for _, s := range [2][]Point{a, b} {
		for i := range s {
			p, q := s[i], s[(i+1)%len(s)]
			nx, ny := q.Y-p.Y, p.X-q.X
			n := steady.Hypot(nx, ny)
			if n == 0 {
				continue
			}
			a0, a1 := extent(a, nx/n, ny/n)
			b0, b1 := extent(b, nx/n, ny/n)
			least = min(least, a1-b0, b1-a0)
		}
	}
	if len(b) == 2 { // along the line too: it may end before it reaches the box
		dx, dy := b[1].X-b[0].X, b[1].Y-b[0].Y
		if n := steady.Hypot(dx, dy); n > 0 {
			a0, a1 := extent(a, dx/n, dy/n)
			b0, b1 := extent(b, dx/n, dy/n)
			least = min(least, a1-b0, b1-a0)
		}
	}
	return least
}

func extent(ps []Point, nx, ny float64) (lo, hi float64) {
	lo, hi = 1e9, -1e9
	for _, p := range ps {
		d := float64(p.X*nx) + float64(p.Y*ny)
		lo, hi = min(lo, d), max(hi, d)
	}
	return lo, hi
}

// covers reports whether an area lies over a text: over its middle or one of
// its corners, drawn in a little.
func covers(loops [][]Point, box [4]Point) bool {
	var mid Point
	for _, p := range box {
		mid.X, mid.Y = mid.X+float64(p.X/4), mid.Y+float64(p.Y/4)
	}
	if inside(loops, mid) {
		return true
	}
	for _, p := range box {
		if inside(loops, Point{p.X + float64((mid.X-p.X)*0.1), p.Y + float64((mid.Y-p.Y)*0.1)}) {
			return true
		}
	}
	return false
}

// inside applies the even-odd rule.
func inside(loops [][]Point, p Point) bool {
	in := false
	for _, l := range loops {
		for i, a := range l {
			b := l[(i+1)%len(l)]
			if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+float64((b.X-a.X)*((p.Y-a.Y)/(b.Y-a.Y))) {
				in = !in
			}
		}
	}
	return in
}

// Label is a text set in one style that starts, ends or is centred at a point:
// the usual way to letter a drawing.
func Label(at Point, align typeset.Align, spans ...typeset.Span) Text {
	l := typeset.Set(spans...)
	return Text{At: Point{align.Start(at.X, l), at.Y}, Line: l}
}

// Start returns where a run of the text begins, on its baseline.
func (t Text) Start(r typeset.Run) Point {
	c, s := t.Direction()
	return Point{t.At.X + float64(r.X*c), t.At.Y - float64(r.X*s)}
}
