package proof

import (
	"fmt"
	"strings"

	"scantling/internal/geom"
)

// cut makes every other cut of a sheet.
func (s *sheet) cut(bench *geom.Saw, i int, tag geom.Tag) error {
	c := &s.part.Cuts[i]
	said := strings.ToLower(c.Words.String())
	for _, m := range c.Marks {
		if !strings.Contains(said, m.At.Shown) {
			return fmt.Errorf("its sentence does not say %s, %s", m.At.Shown, m.Label)
		}
		for _, name := range s.names {
			if strings.Contains(m.Label, name) && !strings.Contains(said, name) {
				return fmt.Errorf("its sentence does not speak of the %s", name)
			}
		}
	}
	switch c.Kind {
	case "end", "second cut", "edge": // sawn before; a rounded edge takes nothing off that another board meets
		return nil
	case "taper":
		return s.tapered(bench, c, tag)
	case "notch", "housing", "half lap":
		return s.opening(bench, i, tag)
	case "slot":
		return s.slot(bench, c, tag)
	case "snip":
		return s.snip(bench, c, tag)
	case "round corner", "round end":
		return s.round(bench, c, tag)
	case "arch":
		return s.arch(bench, c, tag)
	}
	return fmt.Errorf("how it is made cannot be read from the page")
}

// tapered saws along the line through two marks on an edge.
func (s *sheet) tapered(bench *geom.Saw, c *Cut, tag geom.Tag) error {
	if len(c.Marks) < 2 {
		return fmt.Errorf("its line takes two marks, and %d are printed", len(c.Marks))
	}
	from, err := c.Marks[0].At.mm()
	if err != nil {
		return err
	}
	wide, err := c.Marks[1].At.mm()
	if err != nil {
		return err
	}
	at, along, ok := strings.Cut(strings.TrimPrefix(c.Marks[0].Label, "from the "), ", along the ")
	end, err1 := s.side(at)
	edge, err2 := s.side(along)
	if !ok || err1 != nil || err2 != nil || end > otherEnd {
		return fmt.Errorf("its first mark reads %q", c.Marks[0].Label)
	}
	thin, square, ok := strings.Cut(strings.TrimPrefix(c.Marks[1].Label, "at the "), ", square ")
	small, err1 := s.side(thin)
	if !ok || err1 != nil || small != 1-end {
		return fmt.Errorf("its second mark reads %q", c.Marks[1].Label)
	}
	o := outOf(edge)
	across := s.size.Y
	if edge >= underFace {
		across = s.size.Z
	}
	if square == "between the two tapers" {
		wide = (across + wide) / 2
	} else if from, err := s.side(strings.TrimPrefix(square, "from the ")); err != nil || from/2 != edge/2 || from == edge {
		return fmt.Errorf("its second mark reads %q", c.Marks[1].Label)
	}
	// The marks, on the show face or on the near edge.
	top := geom.Vec{Z: s.size.Z}
	if edge >= underFace {
		top = geom.Vec{}
	}
	rim := top.Along(o, o.Dot(s.size)-o.Dot(top)) // on the edge that is sawn
	if edge == nearEdge || edge == underFace {
		rim = top
		rim = rim.Along(o, -o.Dot(rim))
	}
	first := s.onEnd(end, rim)
	first = first.Along(outOf(end), -from)
	second := s.onEnd(1-end, rim.Along(o, wide-across))
	way := second.Minus(first)
	n := way.Cross(geom.Vec{Z: 1})
	if edge >= underFace {
		n = way.Cross(geom.Vec{Y: 1})
	}
	if n.Dot(o) < 0 {
		n = n.Negated()
	}
	plane := geom.Facing(first, n)
	if len(c.Marks) > 2 { // what it leaves along the cut
		along, err := c.Marks[2].At.mm()
		end := s.sides[1-end].N
		if square := float64(along * abs(end.X)); err != nil || edge <= farEdge && abs(square-wide) > Allowed {
			return fmt.Errorf("it cannot leave %s along the cut", c.Marks[2].At.Shown)
		}
	}
	bench.Keep(plane, tag)
	s.taper = append(s.taper, taper{edge, plane})
	return nil
}

// onEnd returns where the line along the grain through a point meets an end.
func (s *sheet) onEnd(end int, at geom.Vec) geom.Vec {
	t, _ := s.sides[end].Hit(at, geom.Vec{X: 1})
	at.X += t
	return at
}

// snip saws a corner off between two marks from it.
func (s *sheet) snip(bench *geom.Saw, c *Cut, tag geom.Tag) error {
	end, edge := -1, -1
	var along, across float64
	for _, m := range c.Marks {
		mm, err := m.At.mm()
		if err != nil {
			return err
		}
		k, err := s.side(strings.TrimPrefix(m.Label, "along the "))
		switch {
		case err != nil:
			return err
		case k <= otherEnd:
			end, across = k, mm
		default:
			edge, along = k, mm
		}
	}
	if end < 0 || edge < nearEdge || edge > farEdge {
		return fmt.Errorf("its corner is not said")
	}
	corner := s.onEnd(end, geom.Vec{Y: float64(s.size.Y * float64(edge-nearEdge)), Z: s.size.Z})
	inward := s.onEnd(end, corner.Along(outOf(edge), -across)).Minus(corner).Unit()
	a, b := corner.Along(outOf(end), -along), corner.Along(inward, across)
	n := b.Minus(a).Cross(geom.Vec{Z: 1})
	if n.Dot(corner.Minus(a)) < 0 {
		n = n.Negated()
	}
	bench.Keep(geom.Facing(a, n), tag)
	return nil
}
