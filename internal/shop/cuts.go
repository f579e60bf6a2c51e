package shop

import (
	"math"

	"scantling/internal/board"
	"scantling/internal/geom"
	"scantling/internal/steady"
)

// cut says a taper, notch, housing or snip, and the marks to lay it out by.
func (s *shop) cut(b *board.Board, c board.Cut) CutReading {
	r := CutReading{Kind: c.Kind.String(), Name: called(c.Name)}
	switch c.Kind {
	case board.Taper:
		s.taper(b, c, &r)
	case board.Notch, board.Housing:
		s.opening(b, c, &r)
	case board.Snip:
		s.snip(b, c, &r)
	}
	return r
}

func (r *CutReading) mark(label string, at Shown) Shown {
	r.Marks = append(r.Marks, Mark{label, at})
	return at
}

// taper says a taper by its two marks, which fix the line, then how steep it is
// and how wide that leaves the end measured along its own cut.
func (s *shop) taper(b *board.Board, c board.Cut, r *CutReading) {
	at, other := c.Mark.At, c.Mark.At.Opposite()
	edge := sideName(b, c.Side)
	across := "from the " + sideName(b, c.Side.Opposite())
	if c.Mark.Both {
		across = "between the two tapers"
	}
	start := r.mark("from the "+sideName(b, at)+", along the "+edge, s.pen.Length(c.Mark.From, c.From))
	wide := r.mark("at the "+sideName(b, other)+", square "+across, s.pen.Length(c.Mark.Wide, c.From))
	steep, fall := slope(c.Plane)
	t := Words("Taper the " + edge + ": mark it ").Show(start).Say(" from its corner at the " + sideName(b, at) + "; at the " + sideName(b, other) + " mark ").
		Show(wide).Say(" square " + across + "; join the marks and saw outside the line. It runs ").
		Show(s.pen.Angle(steep, c.From)).Say(" off the grain, ").Show(s.pen.Length(fall, c.From)).Say(" in a foot")
	if ends := b.End(other); len(ends) == 1 && !ends[0].Square && !c.Mark.Both {
		mitre, _ := board.Setting(ends[0].Plane)
		along := r.mark("along the cut of the "+sideName(b, other), s.pen.Length(c.Mark.Wide/steady.Cos(mitre), c.From.Union(ends[0].From)))
		t = t.Say(", and leaves ").Show(along).Say(" along the cut of the " + sideName(b, other))
	}
	r.Words = t.Say(".")
}

// opening says a notch or housing: how far along it begins and ends, how far in
// and how deep it goes.
func (s *shop) opening(b *board.Board, c board.Cut, r *CutReading) {
	opens := func(x board.Side) bool {
		for _, o := range c.Open {
			if o == x {
				return true
			}
		}
		return false
	}
	datum := board.Start
	if opens(board.Finish) && !opens(board.Start) {
		datum = board.Finish
	}
	// The edge along which the board is measured: the one it opens at.
	edge := board.Near
	if opens(board.Far) && !opens(board.Near) {
		edge = board.Far
	}
	begin, end := c.Low.X, c.High.X
	zero := endAt(b, datum, edge)
	if datum == board.Finish {
		begin, end = zero-end, zero-begin
	} else {
		begin, end = begin-zero, end-zero
	}
	from := "from the " + sideName(b, datum) + " along the " + sideName(b, edge)
	t := Words("Cut a notch through the thickness: ")
	if c.Kind == board.Housing {
		t = Words("Let into the " + sideName(b, c.Side) + ", ").Show(r.mark("deep, into the "+sideName(b, c.Side), s.pen.Length(c.Depth, c.From))).Say(" deep: ")
	}
	if opens(datum) {
		t = t.Show(r.mark(from+", to", s.pen.Length(end, c.From))).Say(" " + from)
	} else {
		t = t.Say("from ").Show(r.mark(from+", begins", s.pen.Length(begin, c.From))).Say(" to ").
			Show(r.mark(from+", ends", s.pen.Length(end, c.From))).Say(" " + from)
	}
	low, high, width := c.Low.Y, c.High.Y, b.W.MM()
	switch {
	case opens(board.Near) && opens(board.Far):
		t = t.Say(", right across")
	case opens(board.Near):
		t = t.Say(", ").Show(r.mark("in from the "+sideName(b, board.Near), s.pen.Length(high, c.From))).Say(" in from that edge")
	case opens(board.Far):
		t = t.Say(", ").Show(r.mark("in from the "+sideName(b, board.Far), s.pen.Length(width-low, c.From))).Say(" in from that edge")
	default:
		t = t.Say(", from ").Show(r.mark("in from the "+sideName(b, board.Near)+", begins", s.pen.Length(low, c.From))).Say(" to ").
			Show(r.mark("in from the "+sideName(b, board.Near)+", ends", s.pen.Length(high, c.From))).Say(" in from the " + sideName(b, board.Near))
	}
	if lean := wallLean(c); lean > 0.25 {
		t = t.Say("; its walls across the grain lean ").Show(s.pen.Angle(lean, c.From)).Say(" off square: take them from the board that goes there")
	}
	if c.Meets != "" {
		t = t.Say("; it goes round " + meets(c.Meets))
	}
	r.Words = t.Say(".")
}

// endAt returns the x at which an end cut meets an edge on the show face.
func endAt(b *board.Board, end, edge board.Side) float64 {
	x := 0.0
	if end == board.Finish {
		x = b.L
	}
	corner := geom.Vec{X: x, Z: b.T.MM()}
	if edge == board.Far {
		corner.Y = b.W.MM()
	}
	for _, c := range b.End(end) {
		if t, ok := c.Plane.Hit(corner, geom.Vec{X: 1}); ok && !c.Square {
			hit := corner.X + t
			if end == board.Start && hit > x || end == board.Finish && hit < x {
				x = hit
			}
		}
	}
	return x
}

// wallLean returns the largest angle, in degrees, by which a wall across the
// grain stands off square to it.
func wallLean(c board.Cut) float64 {
	worst := 0.0
	for _, p := range c.Waste {
		if x := math.Abs(p.N.X); x > math.Sqrt2/2 {
			worst = math.Max(worst, degrees(steady.Acos(math.Min(1, x))))
		}
	}
	return worst
}

// snip says a corner sawn off by its two marks from that corner.
func (s *shop) snip(b *board.Board, c board.Cut, r *CutReading) {
	end, edge := board.Start, board.Near
	corner := geom.Vec{Z: b.T.MM()}
	if c.Plane.N.X > 0 {
		end, corner.X = board.Finish, b.L
	}
	if c.Plane.N.Y > 0 {
		edge, corner.Y = board.Far, b.W.MM()
	}
	over := c.Plane.Over(corner)
	along := r.mark("along the "+sideName(b, edge), s.pen.Length(math.Abs(over/c.Plane.N.X), c.From))
	across := r.mark("along the "+sideName(b, end), s.pen.Length(math.Abs(over/c.Plane.N.Y), c.From))
	r.Words = Words("Saw off the corner of the " + sideName(b, end) + " and the " + sideName(b, edge) + ": mark ").Show(along).
		Say(" along the edge and ").Show(across).Say(" along the end, and join.")
}
