package proof

import (
	"fmt"
	"math"

	"scantling/internal/geom"
	"scantling/internal/steady"
)

// turned turns a board by its marks: by the first faces that lie true on one
// another, then about their normal by the next. free is the axis it may still turn
// about when only short or slanting faces hold it there, and held whether any do.
func turned(rough geom.Pose, marks []bearing) (p geom.Pose, free *geom.Vec, held bool) {
	p = rough
	var axis *geom.Vec
	for _, long := range []bool{true, false} { // long faces first
		for _, g := range marks {
			if g.mine == nil || g.theirs == nil || g.turns != long {
				continue
			}
			want := g.theirs.N
			if g.against {
				want = want.Negated()
			}
			have := p.OutWay(g.mine.plane.N)
			if axis == nil {
				p = between(have, want).Of(p)
				n := want
				axis = &n
				continue
			}
			a, b := have.Along(*axis, -have.Dot(*axis)), want.Along(*axis, -want.Dot(*axis))
			if a.Length() < 0.1 || b.Length() < 0.1 {
				continue
			}
			p = between(a.Unit(), b.Unit()).Of(p)
			if !long {
				return p, axis, true
			}
			return p, nil, true
		}
	}
	return p, axis, false
}

// between returns the least turn that carries one unit direction to another.
func between(from, to geom.Vec) geom.Pose {
	axis := from.Cross(to)
	sin, cos := axis.Length(), from.Dot(to)
	if sin < 1e-12 {
		if cos > 0 {
			return geom.Unmoved()
		}
		axis = from.Cross(geom.Vec{X: 1})
		if axis.Length() < 0.1 {
			axis = from.Cross(geom.Vec{Y: 1})
		}
	}
	return geom.Turned(axis, steady.Atan2(sin, cos))
}

// miss returns how far, in mm, a mark is from being kept.
func (g *bearing) miss(p geom.Pose) float64 {
	switch {
	case g.tips != nil: // tip to tip
		best := math.Inf(1)
		for _, c := range g.corners {
			for _, q := range g.tips {
				best = math.Min(best, p.Out(c).Distance(q))
			}
		}
		return best - g.off
	case g.theirs == nil: // my face, their corner
		h := p.OutPlane(g.mine.plane)
		return -h.Over(g.corner) - g.off
	case g.mine == nil: // my corner, their face
		best := math.Inf(1)
		for _, c := range g.corners {
			if d := g.theirs.Over(p.Out(c)) - g.off; abs(d) < abs(best) {
				best = d
			}
		}
		return best
	case g.against && !g.turns: // the first corner to touch
		best := math.Inf(1)
		if g.small {
			h := p.OutPlane(g.mine.plane)
			for _, c := range g.rim {
				best = math.Min(best, h.Over(c))
			}
			return best
		}
		for _, c := range g.mine.rim {
			best = math.Min(best, g.theirs.Over(p.Out(c)))
		}
		return best
	case g.small:
		h := p.OutPlane(g.mine.plane)
		if g.against {
			return h.Over(g.middle)
		}
		return -h.Over(g.middle) - g.off
	}
	return g.theirs.Over(p.Out(g.mine.middle)) - g.off
}

// along returns the direction a mark holds the board in.
func (g *bearing) along(p geom.Pose) geom.Vec {
	if g.theirs == nil {
		return p.OutWay(g.mine.plane.N)
	}
	if g.small && g.mine != nil {
		if n := p.OutWay(g.mine.plane.N); !g.against {
			return n
		} else {
			return n.Negated()
		}
	}
	return g.theirs.N
}

// moved moves a turned board so that its first three marks are kept.
func moved(p geom.Pose, marks []bearing) (geom.Pose, error) {
	for range 4 { // which corner touches first may change as it moves
		var planes [3]geom.Plane
		for i, g := range marks[:3] {
			n := g.along(p)
			planes[i] = geom.Plane{N: n, D: -g.miss(p)}
		}
		by, ok := geom.Meet(planes[0], planes[1], planes[2])
		if !ok {
			return p, fmt.Errorf("its marks leave it free to slide")
		}
		p = p.Moved(by)
	}
	return p, nil
}

// swing is how far, in radians, a board may stand off when its fourth mark turns it
// back: three degrees where a short face has turned it before, sixty where nothing
// has but what its sides are called.
var swings = map[bool]float64{true: 3 * degree, false: 60 * degree}

// swung turns a board about an axis until its fourth mark is kept too, or as nearly
// as the others let it: of several ways, by the least turn.
func swung(p geom.Pose, axis geom.Vec, held bool, marks []bearing) geom.Pose {
	miss := func(angle float64) float64 {
		q, err := moved(geom.Turned(axis, angle).Of(p), marks)
		if err != nil {
			return math.Inf(1)
		}
		return marks[3].miss(q)
	}
	const steps = 40
	best, least := 0.0, abs(miss(0))
	last := [2]float64{miss(0), miss(0)} // on either side
	for i := 1; i <= steps; i++ {
		for k, sign := range [2]float64{1, -1} {
			angle := sign * swings[held] * float64(i) / steps
			m := miss(angle)
			if (m < 0) != (last[k] < 0) {
				return geom.Turned(axis, between0(miss, angle-float64(sign*swings[held]/steps), angle)).Of(p)
			}
			last[k] = m
			if abs(m) < least-geom.Same {
				best, least = angle, abs(m)
			}
		}
	}
	for step := swings[held] / steps / 2; step > 1e-8 && least > geom.Same; step /= 2 {
		for _, angle := range [2]float64{best - step, best + step} {
			if m := abs(miss(angle)); m < least {
				best, least = angle, m
			}
		}
	}
	return geom.Turned(axis, best).Of(p)
}

// between0 returns where between a and b a function that changes sign there is 0.
func between0(f func(float64) float64, a, b float64) float64 {
	below := f(a) < 0
	for range 40 {
		middle := (a + b) / 2
		if (f(middle) < 0) == below {
			a = middle
		} else {
			b = middle
		}
	}
	return (a + b) / 2
}
