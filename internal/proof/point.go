package proof

import (
	"fmt"
	"strings"

	"scantling/internal/geom"
)

// A half is one of the two cuts of an end sawn to a point: it runs from the point to
// an edge.
type half struct {
	end, edge int
	plane     geom.Plane
	second    bool
}

// pointed reads where the point of an end lies, for one of its cuts: the edge this
// cut runs to, and how far in from there the point is.
func (s *sheet) pointed(c *Cut) (edge int, in float64, err error) {
	if len(c.Marks) != 1 {
		return 0, 0, fmt.Errorf("where its point lies is not said")
	}
	edge, err = s.side(strings.TrimPrefix(c.Marks[0].Label, "the point from the "))
	long, err1 := s.side(c.Long)
	if err != nil || err1 != nil || edge < nearEdge || edge > farEdge || long != edge^1 {
		return 0, 0, fmt.Errorf("its mark %q cannot be read", c.Marks[0].Label)
	}
	in, err = c.Marks[0].At.mm()
	if err == nil && (in <= 0 || in >= s.size.Y) {
		err = fmt.Errorf("its point is not on the board")
	}
	return edge, in, err
}

// points saws the ends that two cuts make a point of, each through the point as it is
// marked on the square end of the blank. The first cut's direction is known.
func (s *sheet) points(way Way) (bool, error) {
	for i := range s.part.Cuts {
		c := &s.part.Cuts[i]
		if c.Kind != "second cut" && (c.Kind != "end" || len(c.Marks) == 0) {
			continue
		}
		end, err := s.side(c.Name + " end")
		if err != nil || end > otherEnd {
			return true, fmt.Errorf("it has no such end as %q", c.Name)
		}
		h := half{end: end, second: c.Kind == "second cut"}
		var in float64
		if h.edge, in, err = s.pointed(c); err != nil {
			return true, fmt.Errorf("the %s end: %w", c.Name, err)
		}
		n := s.sides[end].N
		if h.second {
			if n, err = s.across(c, end, way); err != nil {
				return true, fmt.Errorf("the second cut of the %s end: %w", c.Name, err)
			}
		}
		at := geom.Vec{X: float64(s.size.X * float64(end)), Y: in}
		if h.edge == farEdge {
			at.Y = s.size.Y - in
		}
		if n.Dot(outOf(h.edge)) <= 0 {
			return true, fmt.Errorf("the %s end: its cut does not run to the %s", c.Name, s.names[h.edge])
		}
		if h.plane = geom.Facing(at, n); !h.second {
			s.sides[end] = h.plane
		}
		s.point = append(s.point, h)
	}
	for _, h := range s.point {
		other := 0
		for _, o := range s.point {
			if o.end == h.end && o.edge != h.edge && o.second != h.second {
				other++
			}
		}
		if other != 1 {
			return true, fmt.Errorf("its %s takes two cuts to a point", s.names[h.end])
		}
	}
	return len(s.point) > 0, nil
}

// halfCalled returns the cut of a pointed end toward an edge of the board in place.
func (b *standing) halfCalled(end, edge string) (face, error) {
	k, err1 := b.sideCalled(end)
	e, err2 := b.sideCalled(edge)
	for _, h := range b.sheet.point {
		if err1 == nil && err2 == nil && h.end == k && h.edge == e {
			return b.face(h.plane, false)
		}
	}
	return face{}, fmt.Errorf("the %s has no %s toward its %s", b.board.Called, end, edge)
}
