package shop

import (
	"math"

	"scantling/internal/board"
	"scantling/internal/design"
	"scantling/internal/geom"
	"scantling/internal/phrase"
	"scantling/internal/span"
)

const (
	// mostSwing is what every mitre saw reaches; many stop there, some at 50 or
	// 60 degrees. Source: common practice.
	mostSwing = 45.0
	// longestLine is the cut line, in mm, over which the quarter degree lost in
	// rounding to half a degree comes to the trade tolerance of 1/16 in:
	// 1/16 ÷ tan(1/4°) = 14.3 in.
	longestLine = 14 * 25.4
)

// sawCut says how an end is sawn; nil for a square one.
func (s *shop) sawCut(b *design.Board, c board.Cut) *SawCut {
	if c.Kind != board.EndCut || c.Square {
		return nil
	}
	v := setBlade(c.Plane, c.Side, b.W.MM(), b.T.MM())
	from := c.From.Union(b.Place)
	wide := from.Union(b.Section)
	r := &SawCut{
		End:      b.Sides[c.Side],
		Setting:  s.pen.Angle(v.mitre, from),
		Included: s.pen.Angle(90-halfDegree(v.mitre), from),
		Offset:   s.pen.Length(v.step, wide),
		Swing:    v.swing,
		FaceUp:   sideName(b.Board, board.Show),
		Fence:    sideName(b.Board, v.fence),
		Keep:     "left",
		Long:     sideName(b.Board, v.long),
		LongFace: sideName(b.Board, v.longFace),
		ExactDeg: v.mitre,
	}
	if v.keepRight {
		r.Keep = "right"
	}
	if halfDegree(v.bevel) > 0 {
		bevel, lean := s.pen.Angle(v.bevel, from), s.pen.Length(v.lean, wide)
		r.Bevel, r.BevelOffset = &bevel, &lean
	}
	// An angle too small for the scale that still shows on the tape is marked.
	unread := halfDegree(v.mitre) == 0 && r.Offset.Printed() > 0 || halfDegree(v.bevel) == 0 && v.lean > 25.4/32
	r.ByMarks = v.line > longestLine || unread
	r.Note = wayRound(v)
	if p, ok := pointOf(b.Board, c); ok {
		r.Offset = s.pen.Length(float64(v.step/b.W.MM())*p.in, wide)
		r.Marks = []Mark{{"the point from the " + sideName(b.Board, p.edge), s.pen.Length(p.in, wide)}}
	}
	r.Words = s.sawWords(b, c, v, r)
	return r
}

// halfDegree rounds to what a saw scale reads.
func halfDegree(degrees float64) float64 { return float64(math.Round(float64(degrees*2)) / 2) }

func wayRound(v blade) string {
	switch {
	case halfDegree(v.mitre) > mostSwing:
		return "Most mitre saws stop between 45 and 50 degrees. Mark this cut by its offset and saw to the line with a circular saw or a handsaw; or screw a straight block square to the fence, lay the part along the block and set the saw to the included angle instead, after a test on scrap."
	case halfDegree(v.bevel) > mostSwing:
		return "Most saws tilt no further than 45 degrees. Mark the line on face and edges and cut it with a handsaw."
	}
	return ""
}

// sawWords says an end cut three ways: by the saw's setting, by the angle of the
// finished tip, and by an offset for pencil and rule.
func (s *shop) sawWords(b *design.Board, c board.Cut, v blade, r *SawCut) Text {
	t := Words(phrase.Begin(sideName(b.Board, c.Side)) + ": ")
	mitred, tilted := r.Offset.Printed() > 0 || v.swing != "" && halfDegree(v.mitre) > 0, r.Bevel != nil
	if !mitred && !tilted {
		return t.Say("saw it square; it is out of square by less than the tape shows.")
	}
	p, pointed := pointOf(b.Board, c)
	if pointed {
		t = t.Say("two cuts saw it to a point; mark that on the end, ").Show(r.Marks[0].At).Say(" from the " + sideName(b.Board, p.edge) + ". From there to this edge ")
	}
	switch {
	case r.ByMarks:
		t = t.Say("saw to a pencil line, since no scale is read finely enough for this cut. ")
	case mitred && tilted:
		t = t.Say("swing the saw ").Show(r.Setting).Say(" " + v.swing + " of zero and tilt the blade ").Show(*r.Bevel).Say(" to the left; try it on scrap. ")
	case mitred:
		t = t.Say("swing the saw ").Show(r.Setting).Say(" " + v.swing + " of zero. ")
	default:
		t = t.Say("leave the saw at zero and tilt the blade ").Show(*r.Bevel).Say(" to the left. ")
	}
	if !r.ByMarks {
		t = t.Say(phrase.Begin(r.FaceUp) + " up, " + r.Fence + " against the fence, the part " + r.Keep + " of the blade. ")
	}
	if mitred {
		switch {
		case r.ByMarks:
		case pointed:
			t = t.Say("It stands ").Show(r.Included).Say(" off the edge. Or by pencil: ")
		default:
			t = t.Say("The tip is ").Show(r.Included).Say(". Or by pencil: ")
		}
		if pointed {
			return t.Say("square across from the point, step ").Show(r.Offset).Say(" along the " + sideName(b.Board, p.edge) + " toward the middle of the part, and join.")
		}
		t = t.Say("square across from the long point on the " + sideName(b.Board, v.long) + ", step ").Show(r.Offset).
			Say(" along the " + sideName(b.Board, v.long.Opposite()) + " toward the middle of the part, and join.")
	}
	if tilted {
		if mitred {
			t = t.Say(" ")
		}
		t = t.Say("Over the thickness the line runs ").Show(*r.BevelOffset).Say(" back from the " + sideName(b.Board, v.longFace) + ".")
	}
	return t
}

// ends says in one clause how both ends of a part are cut, "" when square.
func (s *shop) ends(b *design.Board, r *Part) Text {
	a, z := r.Ends[0], r.Ends[1]
	angle := func(c *SawCut) Text {
		if c.ByMarks {
			return Words("to a marked line")
		}
		var t Text
		if halfDegree(c.ExactDeg) > 0 {
			t = t.Show(c.Setting)
		}
		if c.Bevel != nil {
			if t != nil {
				t = t.Say(" and ")
			}
			t = t.Show(*c.Bevel).Say(" of tilt")
		}
		return t
	}
	switch {
	case a == nil && z == nil:
		return nil
	case a == nil && z.Marks != nil:
		return Words(z.End + " end sawn to a point, " + b.Sides[board.Start] + " end square")
	case z == nil && a.Marks != nil:
		return Words(a.End + " end sawn to a point, " + b.Sides[board.Finish] + " end square")
	case a == nil:
		return Words(z.End + " end ").Add(angle(z)).Say(", " + b.Sides[board.Start] + " end square")
	case z == nil:
		return Words(a.End + " end ").Add(angle(a)).Say(", " + b.Sides[board.Finish] + " end square")
	case a.Marks != nil && z.Marks != nil:
		return Words("both ends sawn to a point")
	case r.Edge != nil:
		return Words("both ends ").Add(angle(a)).Say(", parallel")
	case opposed(b):
		return Words("both ends ").Add(angle(a)).Say(", opposite")
	}
	return Words(a.End + " end ").Add(angle(a)).Say(", " + z.End + " end ").Add(angle(z))
}

// opposed reports whether the two ends of a board are mirror images: a long side
// and a short one.
func opposed(b *design.Board) bool {
	start, finish := b.End(board.Start), b.End(board.Finish)
	if len(start) != 1 || len(finish) != 1 {
		return false
	}
	n, m := start[0].Plane.N, finish[0].Plane.N
	n.X = -n.X
	return n.Distance(m)*b.L <= geom.Alike
}

// lengthFrom returns the scalars the length of a board was computed from.
func lengthFrom(b *design.Board) span.Set {
	from := b.LengthFrom
	for _, c := range b.Cuts {
		if c.Kind == board.EndCut {
			from = from.Union(c.From)
		}
	}
	return from
}
