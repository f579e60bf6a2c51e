package drawing

import (
	"math"

	"scantling/internal/steady"
	"scantling/internal/typeset"
)

// A Figure is a drawing in mm of wood, y up, with its dimensions: the front of
// the piece, a part on the bench, a step. Sheet puts it on paper.
type Figure struct {
	Name, Title, Alt string
	Areas            []Area
	Lines            []Edge
	Dims             []Dim
	Running          []Running
	Notes            []Note
	Labels           []Lettering
}

// An Area is a toned face, painted before the lines, in order.
type Area struct {
	Loops [][]Place
	Tone  Tone
}

// An Edge is a line of the figure.
type Edge struct {
	A, B   Place
	Weight Weight
	Dash   Dash
	Ink    typeset.Ink
}

// A Note is words beside the figure with a leader to a place of it.
type Note struct {
	At   Place
	Side Side
	Text string
}

// A Lettering is words on a face: centred at a place, or starting or ending a
// little way from it.
type Lettering struct {
	At    Place
	Text  string
	Align typeset.Align
}

// bounds returns the smallest upright rectangle round all that is drawn.
func (f *Figure) bounds() (lo, hi Place) {
	inf := math.Inf(1)
	lo, hi = Place{inf, inf}, Place{-inf, -inf}
	take := func(p Place) {
		lo = Place{math.Min(lo.X, p.X), math.Min(lo.Y, p.Y)}
		hi = Place{math.Max(hi.X, p.X), math.Max(hi.Y, p.Y)}
	}
	for _, a := range f.Areas {
		for _, l := range a.Loops {
			for _, p := range l {
				take(p)
			}
		}
	}
	for _, e := range f.Lines {
		take(e.A)
		take(e.B)
	}
	if lo.X > hi.X {
		return Place{}, Place{}
	}
	return lo, hi
}

// Sheet puts the figure on paper no larger than width by height mm, as large as
// it goes with its dimensions round it. The sheet is only as high as it needs
// to be.
func (f *Figure) Sheet(width, height float64) *Sheet {
	lo, hi := f.bounds()
	m := mapping{scale: math.Inf(1), x0: lo.X, y0: lo.Y}
	// Margins depend on how labels stack, which depends on the scale: three
	// rounds settle it, and the last never enlarges.
	m.scale = math.Min(width/math.Max(hi.X-lo.X, 1), height/math.Max(hi.Y-lo.Y, 1))
	var sides [4][]rank
	var margin [4]float64
	for round := range 4 {
		for s := range sides {
			sides[s] = f.ranks(Side(s), m)
			margin[s] = 0.6
			if len(sides[s]) > 0 {
				margin[s] = firstLine
			}
			for _, r := range sides[s] {
				margin[s] += r.deep
			}
		}
		for _, n := range f.Notes {
			margin[n.Side] = math.Max(margin[n.Side], noteDepth(n, margin[n.Side]))
		}
		over := f.overhang(sides, m)
		for s := range margin {
			margin[s] = math.Max(margin[s], over[s])
		}
		fit := math.Min((width-margin[LeftOf]-margin[RightOf])/math.Max(hi.X-lo.X, 1),
			(height-margin[Above]-margin[Below])/math.Max(hi.Y-lo.Y, 1))
		if round == 0 {
			m.scale = fit
		} else {
			m.scale = math.Min(m.scale, fit)
		}
		m.left = margin[LeftOf]
		m.base = margin[Above] + float64((hi.Y-lo.Y)*m.scale)
	}
	w := margin[LeftOf] + float64((hi.X-lo.X)*m.scale) + margin[RightOf]
	// A narrow figure stands in the middle of the width it was given.
	m.left += float64((width - w) / 2)
	sh := &Sheet{W: width, H: m.base + margin[Below], Name: f.Name, Title: f.Title, Alt: f.Alt}
	g := &Group{Role: RoleFigure, Key: f.Name, Alt: f.Alt}
	sh.Add(g)
	for _, a := range f.Areas {
		fill := Fill{Tone: a.Tone}
		for _, l := range a.Loops {
			loop := make([]Point, len(l))
			for i, p := range l {
				loop[i] = m.point(p)
			}
			fill.Loops = append(fill.Loops, loop)
		}
		g.Add(fill)
	}
	for _, e := range f.Lines {
		g.Add(Stroke{Path: []Point{m.point(e.A), m.point(e.B)}, Weight: e.Weight, Dash: e.Dash, Ink: e.Ink})
	}
	edges := [4]float64{Below: m.base, Above: m.point(hi).Y, LeftOf: m.point(lo).X, RightOf: m.point(hi).X}
	for s, list := range sides {
		side := Side(s)
		at := edges[s] + float64(outward(side)*firstLine)
		for _, r := range list {
			line := at + float64(outward(side)*r.deep/2)
			if r.running != nil {
				line = at
			}
			drawRank(g, r, side, line, m)
			at += float64(outward(side) * r.deep)
		}
	}
	f.drawNotes(g, edges, sides, m)
	for _, l := range f.Labels {
		line, at := words(l.Text), m.point(l.At)
		switch l.Align {
		case typeset.Left:
			at.X += float64(line.Width/2) + 2
		case typeset.Right:
			at.X -= float64(line.Width/2) + 2
		}
		put(g, line, at)
	}
	lettersLast(g)
	return sh
}

// lettersLast moves the letters over the lines, which break behind them.
func lettersLast(g *Group) {
	var lines, letters []Item
	for _, it := range g.Items {
		if _, ok := it.(Text); ok {
			letters = append(letters, it)
		} else {
			lines = append(lines, it)
		}
	}
	g.Items = append(lines, letters...)
}

// overhang returns how far labels at the ends of each side reach past the
// figure: a short dimension's label stands beyond its end.
func (f *Figure) overhang(sides [4][]rank, m mapping) (over [4]float64) {
	lo, hi := f.bounds()
	a, b := m.point(lo), m.point(hi)
	for s, list := range sides {
		side := Side(s)
		for _, r := range list {
			stretches := r.taken
			if r.running != nil {
				for _, mk := range append([]RunningMark{{r.running.Datum, "0"}}, r.running.Marks...) {
					t, _ := split(side, m.point(mk.At))
					l := label(mk.Text)
					half := l.Width / 2
					if !side.level() {
						half = height(l) / 2
					}
					stretches = append(stretches, [2]float64{t - half, t + half})
				}
			}
			for _, t := range stretches {
				if side.level() {
					over[LeftOf] = math.Max(over[LeftOf], a.X-t[0]+0.6)
					over[RightOf] = math.Max(over[RightOf], t[1]-b.X+0.6)
				} else {
					over[Above] = math.Max(over[Above], b.Y-t[0]+0.6)
					over[Below] = math.Max(over[Below], t[1]-a.Y+0.6)
				}
			}
		}
	}
	return over
}

const noteLeader = 5.0 // mm of paper from the outline to a note

func noteDepth(n Note, used float64) float64 {
	l := words(n.Text)
	if n.Side.level() {
		return used + noteLeader + height(l)
	}
	return used + noteLeader + l.Width + 1
}

// drawNotes writes the notes beyond the dimensions of their side, each level
// with its place as far as the ones before it leave room.
func (f *Figure) drawNotes(g *Group, edges [4]float64, sides [4][]rank, m mapping) {
	taken := [4]float64{math.Inf(-1), math.Inf(-1), math.Inf(-1), math.Inf(-1)}
	for _, n := range f.Notes {
		l := words(n.Text)
		out := outward(n.Side)
		from := edges[n.Side]
		for _, r := range sides[n.Side] {
			from += float64(out * r.deep)
		}
		if len(sides[n.Side]) > 0 {
			from += float64(out * firstLine)
		}
		at := m.point(n.At)
		t, _ := split(n.Side, at)
		half := l.Width / 2
		if !n.Side.level() {
			half = height(l) / 2
		}
		t = math.Max(t, taken[n.Side]+half+0.5)
		taken[n.Side] = t + half
		end := from + float64(out*(noteLeader-1))
		stroke(g, at, along(n.Side, t, end))
		g.Add(Fill{Tone: ToneDark, Loops: [][]Point{dot(at)}})
		deep := height(l)
		if !n.Side.level() {
			deep = l.Width
		}
		put(g, l, along(n.Side, t, end+float64(out*(0.8+float64(deep/2)))))
	}
}

func dot(at Point) []Point {
	const n, r = 8, 0.5
	loop := make([]Point, n)
	for i := range loop {
		s, c := sinCos(float64(i) / n)
		loop[i] = Point{at.X + float64(r*c), at.Y + float64(r*s)}
	}
	return loop
}

// sinCos of a part of a turn.
func sinCos(turn float64) (s, c float64) {
	a := float64(turn * 2 * math.Pi)
	return steady.Sin(a), steady.Cos(a)
}
