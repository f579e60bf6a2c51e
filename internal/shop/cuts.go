package shop

import (
	"math"

	"scantling/internal/board"
	"scantling/internal/geom"
	"scantling/internal/phrase"
	"scantling/internal/steady"
)

// cut says a cut beside the ends, and the marks to lay it out by.
func (s *shop) cut(b *board.Board, c board.Cut) CutReading {
	r := CutReading{Kind: c.Kind.String(), Name: phrase.Spaced(c.Name)}
	switch c.Kind {
	case board.Taper:
		s.taper(b, c, &r)
	case board.Notch, board.Housing, board.HalfLap:
		s.opening(b, c, &r)
	case board.Slot:
		s.slot(b, c, &r)
	case board.RoundEnd, board.RoundCorner:
		s.round(b, c, &r)
	case board.Arch:
		s.arch(b, c, &r)
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
	over := 12 * 25.4
	if s.pen.Metric() {
		over = 300
	}
	steep, fall := slope(c.Plane, over)
	t := Words("Taper the " + edge + ": mark it ").Show(start).Say(" from its corner at the " + sideName(b, at) + "; at the " + sideName(b, other) + " mark ").
		Show(wide).Say(" square " + across + "; join the marks and saw outside the line. It runs ").
		Show(s.pen.Angle(steep, c.From)).Say(" off the grain, ").Show(s.pen.Length(fall, c.From)).Say(" in " + s.pen.pick("a foot", "300 mm"))
	if ends := b.End(other); len(ends) == 1 && !ends[0].Square && !c.Mark.Both {
		mitre, _ := board.Setting(ends[0].Plane)
		along := r.mark("along the cut of the "+sideName(b, other), s.pen.Length(c.Mark.Wide/steady.Cos(mitre), c.From.Union(ends[0].From)))
		t = t.Say(", and leaves ").Show(along).Say(" along the cut of the " + sideName(b, other))
	}
	r.Words = t.Say(".")
}

// opening says a notch or housing as it is marked out on one side of the board:
// how far along it begins and ends, how far in from the edge, how deep.
func (s *shop) opening(b *board.Board, c board.Cut, r *CutReading) {
	t := Words("Cut a notch through the thickness: ")
	switch c.Kind {
	case board.HalfLap:
		deep := r.mark("deep, into the "+sideName(b, c.Side), s.pen.Length(c.Depth, c.From))
		t = Words("Lap into the " + sideName(b, c.Side) + ", ").Show(deep).Say(" deep: ")
	case board.Housing:
		deep := r.mark("deep, into the "+sideName(b, c.Side), s.pen.Length(c.Depth, c.From))
		t = Words("Let into the " + sideName(b, c.Side) + ", ").Show(deep).Say(" deep: ")
	}
	switch lean := wallLean(c); {
	case c.Side.IsEnd():
		t = t.Add(s.across(b, c, r, board.Near, "")).Say(", ").Add(s.across(b, c, r, board.Under, ""))
	case halfDegree(lean) > 0 && !c.Bevels:
		low := lowSide(c.Side)
		t = t.Add(s.along(b, c, r, low)).Say("; ").Add(s.along(b, c, r, low.Opposite())).
			Say("; join them, ").Show(s.pen.Angle(lean, c.From)).Say(" off square").Add(s.across(b, c, r, low, ", "))
	default:
		low := lowSide(c.Side)
		edge := low
		if opens(c, low.Opposite()) && !opens(c, low) {
			edge = low.Opposite()
		}
		t = t.Add(s.along(b, c, r, edge)).Add(s.across(b, c, r, low, ", "))
		if c.Bevels {
			t = t.Say("; its walls lean ").Show(s.pen.Angle(lean, c.From)).Say(" with what goes there")
		}
	}
	switch {
	case c.Kind == board.HalfLap:
		t = t.Say("; it crosses " + meets(c.Meets) + " there")
	case c.Meets != "":
		t = t.Say("; it goes round " + meets(c.Meets))
	case c.Kind == board.Housing && c.Side.IsFace():
		t = t.Say(": with a straight bit of ").Show(s.pen.Bit(s.clearWidth(c), c.From)).Say(" or less, or a saw and a chisel")
	}
	r.Words = t.Say(".")
}

func opens(c board.Cut, side board.Side) bool {
	for _, o := range c.Open {
		if o == side {
			return true
		}
	}
	return false
}

// lowSide returns the first of the two sides, along the grain, that bound the
// side a cut is marked out on: the edges of a face, the faces of an edge.
func lowSide(side board.Side) board.Side {
	if side.IsFace() {
		return board.Near
	}
	return board.Under
}

// along says from where to where an opening runs, measured along the arris of
// the side it is marked out on and another side, from the end it opens at, or
// else from the start.
func (s *shop) along(b *board.Board, c board.Cut, r *CutReading, edge board.Side) Text {
	arris := geom.Vec{}
	for _, side := range []board.Side{c.Side, edge} {
		switch side {
		case board.Far:
			arris.Y = b.W.MM()
		case board.Show:
			arris.Z = b.T.MM()
		}
	}
	if opens(c, board.Start) && opens(c, board.Finish) {
		return Words("from end to end")
	}
	datum := board.Start
	if opens(c, board.Finish) && !opens(c, board.Start) {
		datum = board.Finish
	}
	begin, end := c.Low.X, c.High.X
	for _, wall := range c.Waste {
		if math.Abs(wall.N.X) < math.Sqrt2/2 {
			continue
		}
		hit, _ := wall.Hit(arris, geom.Vec{X: 1})
		if wall.N.X < 0 {
			begin = hit
		} else {
			end = hit
		}
	}
	zero := endAt(b, datum, arris)
	if begin, end = begin-zero, end-zero; datum == board.Finish {
		begin, end = -end, -begin
	}
	from := "from the " + sideName(b, datum) + " along the " + sideName(b, edge)
	if opens(c, datum) {
		return Text(nil).Show(r.mark(from+", to", s.pen.Length(end, c.From))).Say(" " + from)
	}
	return Words("from ").Show(r.mark(from+", begins", s.pen.Length(begin, c.From))).Say(" to ").
		Show(r.mark(from+", ends", s.pen.Length(end, c.From))).Say(" " + from)
}

// across says how far in an opening reaches, square to the grain, after comma.
func (s *shop) across(b *board.Board, c board.Cut, r *CutReading, low board.Side, comma string) Text {
	begin, end, width := c.Low.Y, c.High.Y, b.W.MM()
	if low.IsFace() {
		begin, end, width = c.Low.Z, c.High.Z, b.T.MM()
	}
	high := low.Opposite()
	in := func(side board.Side, mm float64) Text {
		return Words(comma).Show(r.mark("in from the "+sideName(b, side), s.pen.Length(mm, c.From))).Say(" in from the " + sideName(b, side))
	}
	switch {
	case opens(c, low) && opens(c, high):
		return Words(comma + "all the way across")
	case opens(c, low):
		return in(low, end)
	case opens(c, high):
		return in(high, width-begin)
	}
	if width-end < begin-geom.Same { // from the nearer side
		low, begin, end = high, width-end, width-begin
	}
	first := r.mark("in from the "+sideName(b, low)+", begins", s.pen.Length(begin, c.From))
	last := r.mark("in from the "+sideName(b, low)+", ends", s.pen.Length(end, c.From))
	return Words(comma + "from ").Show(first).Say(" to ").Show(last).Say(" in from the " + sideName(b, low))
}

// endAt returns the x at which an end's cut meets a line along the grain.
func endAt(b *board.Board, end board.Side, line geom.Vec) float64 {
	if line.X = 0; end == board.Finish {
		line.X = b.L
	}
	x := line.X
	for _, c := range b.End(end) {
		t, ok := c.Plane.Hit(line, geom.Vec{X: 1})
		if hit := line.X + t; ok && (end == board.Start && hit > x || end == board.Finish && hit < x) {
			x = hit
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
