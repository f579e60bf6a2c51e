package shop

import (
	"math"

	"scantling/internal/board"
	"scantling/internal/geom"
	"scantling/internal/steady"
)

// clearWidth returns the width of a housing between its walls, in mm: what the
// widest bit that goes into it measures.
func (s *shop) clearWidth(c board.Cut) float64 {
	size := c.High.Minus(c.Low)
	across := opens(c, board.Near) && opens(c, board.Far)
	if opens(c, board.Start) && opens(c, board.Finish) || size.Y < size.X && !across {
		return size.Y
	}
	return size.X
}

// slot says a long hole by the two holes it begins with.
func (s *shop) slot(b *board.Board, c board.Cut, r *CutReading) {
	if len(c.Arcs) == 0 {
		s.opening(b, c, r)
		return
	}
	bit := r.mark("bit", s.pen.Bit(2*c.Arcs[0].Radius, c.From))
	zero := endAt(b, board.Start, geom.Vec{Y: c.Arcs[0].Centre.Y, Z: b.T.MM()})
	end := "from the " + sideName(b, board.Start)
	in := r.mark("centres in from the "+sideName(b, board.Near), s.pen.Length(c.Arcs[0].Centre.Y, c.From))
	t := Words("Cut a slot through the " + sideName(b, c.Side) + ": drill " + map[bool]string{true: "a hole of ", false: "two holes of "}[len(c.Arcs) == 1]).Show(bit).Say(", centre ")
	for i, a := range c.Arcs {
		at := r.mark("centre "+end, s.pen.Length(a.Centre.X-zero, c.From))
		if i > 0 {
			t = t.Say(" and ")
		}
		t = t.Show(at)
	}
	between := "between"
	if len(c.Arcs) == 1 {
		between = "from there to the end"
	}
	r.Words = t.Say(" " + end + ", ").Show(in).Say(" in from the " + sideName(b, board.Near) + ", and saw out the wood " + between + ".")
}

// round says a round end or corner by the compass that draws it.
func (s *shop) round(b *board.Board, c board.Cut, r *CutReading) {
	a := c.Arcs[0]
	radius := r.mark("radius", s.pen.Length(a.Radius, c.From))
	end := "the " + sideName(b, c.Side)
	in := math.Abs(c.Plane.Over(a.Centre))
	if c.Kind == board.RoundEnd {
		centre := r.mark("centre from "+end+", in the middle of the width", s.pen.Length(in, c.From))
		r.Words = Words("Round " + end + ": set a compass to ").Show(radius).Say(", its point in the middle of the width ").Show(centre).Say(" from " + end)
		if half := float64(b.W.MM() / 2); a.Radius > half+geom.Same {
			// The shoulder: how far from the end the curve reaches an edge.
			low := r.mark("from "+end+" along the edges", s.pen.Length(a.Radius-math.Sqrt(float64(a.Radius*a.Radius)-float64(half*half)), c.From))
			r.Words = r.Words.Say("; it meets the edges ").Show(low).Say(" from " + end)
		}
		r.Words = r.Words.Say(". Draw it once on a template if there are several.")
		return
	}
	edge := board.Near
	if middle := a.Point((a.From + a.To) / 2); middle.Y > a.Centre.Y {
		edge = board.Far
	}
	side := "the " + sideName(b, edge)
	r.Words = Words("Round the corner of " + end + " and " + side + ": set a compass to ").Show(radius).Say(", its point ").Show(radius).
		Say(" from both. Draw it once on a template if there are several.")
}

// arch says a hollow edge by three points of its curve.
func (s *shop) arch(b *board.Board, c board.Cut, r *CutReading) {
	a := c.Arcs[0]
	arris := geom.Vec{Z: b.T.MM()}
	if c.Side == board.Far {
		arris.Y = b.W.MM()
	}
	edge := "the " + sideName(b, c.Side)
	from, to := c.Low.X-endAt(b, board.Start, arris), endAt(b, board.Finish, arris)-c.High.X
	first := r.mark("along "+edge+" from the "+sideName(b, board.Start), s.pen.Length(from, c.From))
	second := r.mark("along "+edge+" from the "+sideName(b, board.Finish), s.pen.Length(to, c.From))
	rise := r.mark("in from "+edge+", halfway", s.pen.Length(c.Depth, c.From))
	radius := r.mark("radius", s.pen.Length(a.Radius, c.From))
	quarter := r.mark("in from "+edge+", a quarter along", s.pen.Length(quarterRise(a), c.From))
	r.Words = Words("Hollow " + edge + " in one curve: from ").Show(first).Say(" from the " + sideName(b, board.Start) + " to ").Show(second).
		Say(" from the " + sideName(b, board.Finish) + ", ").Show(rise).Say(" in halfway and ").Show(quarter).
		Say(" in at the quarters; bend a thin strip through the marks and draw along it (a radius of ").Show(radius).Say(").")
}

// quarterRise returns how far an arch stands in from its chord a quarter along it.
func quarterRise(a board.Arc) float64 {
	half := steady.Sin((a.To-a.From)/2) * a.Radius
	return math.Sqrt(float64(a.Radius*a.Radius)-float64(half*half/4)) - math.Sqrt(math.Max(0, float64(a.Radius*a.Radius)-float64(half*half)))
}
