package proof

import (
	"fmt"
	"strings"

	"scantling/internal/geom"
)

// past is how far, in mm, the open sides of a notch reach beyond the board.
const past = 100.0

// An opened is what the marks of a notch, housing or lap say.
type opened struct {
	deep  float64
	into  int             // the side it is let into
	along [2][]placedMark // where it begins and ends along the grain: one mark, or one on each of two edges
	cross [2]*float64     // how far in it begins and ends, from side
	side  int             // what cross is measured from
	datum int             // the end it is measured from
}

// A placedMark is a distance from an end along an arris of the board.
type placedMark struct {
	edge int
	mm   float64
}

// opening takes out a notch, housing or lap by its marks.
func (s *sheet) opening(bench *geom.Saw, i int, tag geom.Tag) error {
	c := &s.part.Cuts[i]
	if strings.Contains(c.Words.String(), "walls lean") {
		return fmt.Errorf("how its walls lean cannot be read from the page")
	}
	o := opened{into: showFace, datum: -1, side: -1, deep: s.size.Z}
	for _, m := range c.Marks {
		if err := s.openMark(&o, m); err != nil {
			return err
		}
	}
	axis := outOf(o.into | 1)
	n := outOf(o.into)
	top := 0.0 // of the side it is let into, along axis
	if o.into%2 == 1 {
		top = axis.Dot(s.size)
	}
	if c.Kind == "notch" {
		o.deep = axis.Dot(s.size) + past
	}
	surface := geom.Vec{}.Along(axis, top)
	prism := []geom.Plane{geom.Facing(surface.Along(n, past), n), geom.Facing(surface.Along(n, -o.deep), n.Negated())}
	if c.Kind != "notch" {
		s.walls = append(s.walls, wall{c.Kind, i, prism[1].Flipped(), surface.Along(n, -o.deep)})
	}
	// Along the grain.
	for far := range o.along {
		marks := o.along[far]
		e := outOf(max(o.datum, firstEnd)) // of the end measured from
		way := e                           // outward normal of this wall, out of the waste
		if far == 1 {
			way = e.Negated()
		}
		if len(marks) == 0 {
			at := geom.Vec{X: float64(s.size.X / 2)}.Along(way, float64(s.size.X/2)+past)
			prism = append(prism, geom.Facing(at, way))
			continue
		}
		var at [2]geom.Vec
		for k, m := range marks {
			rim := surface
			if m.edge%2 == 1 {
				rim = rim.Along(outOf(m.edge), outOf(m.edge).Dot(s.size)-outOf(m.edge).Dot(rim))
			}
			at[k] = s.onEnd(o.datum, rim).Along(e, -m.mm)
		}
		plane := geom.Facing(at[0], way)
		if len(marks) == 2 {
			line := at[1].Minus(at[0])
			normal := line.Cross(n)
			if normal.Dot(way) < 0 {
				normal = normal.Negated()
			}
			plane = geom.Facing(at[0], normal)
		}
		prism = append(prism, plane)
		s.walls = append(s.walls, wall{c.Kind, i, plane.Flipped(), at[0]})
	}
	// Across it.
	if o.side < 0 {
		for _, side := range s.flanks(o.into) {
			at := geom.Vec{}
			if side%2 == 1 {
				at = outOf(side).Times(outOf(side).Dot(s.size))
			}
			prism = append(prism, geom.Facing(at.Along(outOf(side), past), outOf(side)))
		}
	} else {
		out := outOf(o.side)
		edge := geom.Vec{}
		if o.side%2 == 1 {
			edge = out.Times(out.Dot(s.size))
		}
		begin := edge.Along(out, past)
		if o.cross[0] != nil {
			begin = edge.Along(out, -*o.cross[0])
			s.walls = append(s.walls, wall{c.Kind, i, geom.Facing(begin, out).Flipped(), begin})
		}
		end := edge.Along(out, -*o.cross[1])
		prism = append(prism, geom.Facing(begin, out), geom.Facing(end, out.Negated()))
		s.walls = append(s.walls, wall{c.Kind, i, geom.Facing(end, out.Negated()).Flipped(), end})
	}
	tags := make([]geom.Tag, len(prism))
	for k := range tags {
		tags[k] = tag
	}
	bench.Remove(prism, tags)
	return nil
}

// flanks returns the two sides along the grain beside a side.
func (s *sheet) flanks(into int) [2]int {
	if into >= underFace {
		return [2]int{nearEdge, farEdge}
	}
	return [2]int{underFace, showFace}
}

// openMark reads one mark of an opening.
func (s *sheet) openMark(o *opened, m Mark) error {
	mm, err := m.At.mm()
	if err != nil {
		return err
	}
	label := m.Label
	bad := fmt.Errorf("its mark %q cannot be read", m.Label)
	if into, ok := strings.CutPrefix(label, "deep, into the "); ok {
		o.deep = mm
		o.into, err = s.side(into)
		if err == nil && o.into <= otherEnd {
			err = bad
		}
		return err
	}
	rest, what, _ := strings.Cut(label, ", ")
	if from, ok := strings.CutPrefix(rest, "in from the "); ok {
		side, err := s.side(from)
		if err != nil || o.side >= 0 && o.side != side {
			return bad
		}
		o.side = side
		switch what {
		case "begins":
			o.cross[0] = &mm
		case "", "ends":
			o.cross[1] = &mm
		default:
			return bad
		}
		return nil
	}
	end, edge, ok := strings.Cut(strings.TrimPrefix(rest, "from the "), " along the ")
	if !ok {
		return bad
	}
	datum, err := s.side(end)
	if err != nil || datum > otherEnd || o.datum >= 0 && o.datum != datum {
		return bad
	}
	o.datum = datum
	rim, err := s.side(edge)
	if err != nil || rim <= otherEnd {
		return bad
	}
	switch what {
	case "begins":
		o.along[0] = append(o.along[0], placedMark{rim, mm})
	case "ends", "to":
		o.along[1] = append(o.along[1], placedMark{rim, mm})
	default:
		return bad
	}
	return nil
}
