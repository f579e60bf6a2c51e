package shop

import (
	"math"

	"scantling/internal/board"
	"scantling/internal/geom"
)

// A point is where the two cuts of an end meet, for one of them.
type point struct {
	edge board.Side // the edge this cut runs to
	in   float64    // mm from that edge to the point
}

// pointOf returns the point of an end that is sawn to one by two upright cuts. The
// point is the very end of the blank.
func pointOf(b *board.Board, c board.Cut) (point, bool) {
	if c.Kind != board.EndCut {
		return point{}, false
	}
	cuts := b.End(c.Side)
	if len(cuts) != 2 || cuts[0].Plane.N.Y*cuts[1].Plane.N.Y >= 0 {
		return point{}, false
	}
	for _, o := range cuts {
		if math.Abs(o.Plane.N.Z) > geom.Same {
			return point{}, false
		}
	}
	p := point{edge: board.Near}
	end := geom.Vec{X: b.L * float64(c.Side-board.Start)}
	t, ok := c.Plane.Hit(end, geom.Vec{Y: 1})
	if p.in = t; c.Plane.N.Y > 0 {
		p.edge, p.in = board.Far, b.W.MM()-t
	}
	return p, ok && p.in > geom.Touch && p.in < b.W.MM()-geom.Touch
}
