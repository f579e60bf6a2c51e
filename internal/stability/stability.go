// Package stability answers whether a piece stands: which way it tips first, and
// by how much it does not.
//
// Start at Body.Tips. A body is its weight, its centre and the points it stands
// on; its foot outline is the convex hull of those. Under a set of loads it turns
// about one edge of the outline or it does not: what turns it out over the edge
// is set against what holds it down, and the margin is the one over the other. It
// tips at 1. Sliding is friction against push.
//
// Forces are N, lengths mm. Source: statics of a rigid body; the loads of the
// published tests are made in package stability's Test functions, each with its
// source.
package stability

import (
	"math"
	"slices"

	"scantling/internal/geom"
)

// A Body is what stands on a level floor.
type Body struct {
	Weight float64  // N
	Centre geom.Vec // of mass
	Feet   []geom.Vec
}

// A Load is a force on the body.
type Load struct {
	At, Force geom.Vec
}

// A Margin is how a body stands over one edge of its foot outline.
type Margin struct {
	From, To geom.Vec // the edge, with the body on its left
	Out      geom.Vec // level, the way it would tip
	Turns    float64  // N·mm over the edge
	Holds    float64  // N·mm against it
}

// Factor returns holds over turns: +Inf when nothing turns it, below 1 it tips.
func (m Margin) Factor() float64 {
	if m.Turns <= 0 {
		return math.Inf(1)
	}
	return m.Holds / m.Turns
}

// Outline returns the convex hull of the feet seen from above, counter-clockwise;
// fewer than three points enclose nothing.
func (b Body) Outline() []geom.Vec {
	points := slices.Clone(b.Feet)
	slices.SortFunc(points, func(p, q geom.Vec) int {
		switch {
		case p.X < q.X, p.X == q.X && p.Y < q.Y:
			return -1
		case p == q:
			return 0
		}
		return 1
	})
	points = slices.CompactFunc(points, func(p, q geom.Vec) bool { return p.Distance(q) < geom.Touch })
	if len(points) < 3 {
		return points
	}
	half := func(points []geom.Vec) (hull []geom.Vec) {
		for _, p := range points {
			for n := len(hull); n >= 2; n = len(hull) {
				a, c := hull[n-2], hull[n-1]
				if float64((c.X-a.X)*(p.Y-a.Y))-float64((c.Y-a.Y)*(p.X-a.X)) > geom.Same {
					break
				}
				hull = hull[:n-1]
			}
			hull = append(hull, p)
		}
		return hull[:len(hull)-1]
	}
	lower := half(points)
	slices.Reverse(points)
	return append(lower, half(points)...)
}

// Tips returns the body's margins over every edge of its foot outline under
// loads, least first. A body on fewer than three feet has none and stands by
// nothing.
//
// About an edge, the floor height below it: a force counts by its vertical part
// times its distance inside (it holds) or outside (it turns), and by its level
// part times its height.
func (b Body) Tips(loads ...Load) []Margin {
	hull := b.Outline()
	if len(hull) < 3 {
		return nil
	}
	all := append([]Load{{b.Centre, geom.Vec{Z: -b.Weight}}}, loads...)
	var out []Margin
	for i, p := range hull {
		q := hull[(i+1)%len(hull)]
		along := geom.Vec{X: q.X - p.X, Y: q.Y - p.Y}.Unit()
		m := Margin{From: p, To: q, Out: geom.Vec{X: along.Y, Y: -along.X}}
		for _, l := range all {
			past := l.At.Minus(p).Dot(m.Out) // outside the edge
			// The two parts are told apart: a push that holds must not hide one that turns.
			for _, part := range []float64{-l.Force.Z * past, l.Force.Dot(m.Out) * (l.At.Z - p.Z)} {
				if part > 0 {
					m.Turns += part
				} else {
					m.Holds -= part
				}
			}
		}
		out = append(out, m)
	}
	slices.SortStableFunc(out, func(a, b Margin) int {
		switch fa, fb := a.Factor(), b.Factor(); {
		case fa < fb:
			return -1
		case fa > fb:
			return 1
		}
		return 0
	})
	return out
}

// Slides returns the friction coefficient a body needs not to slide under loads:
// level push over pressure on the floor; +Inf when it is lifted.
func (b Body) Slides(loads ...Load) float64 {
	var push geom.Vec
	press := b.Weight
	for _, l := range loads {
		push = push.Plus(geom.Vec{X: l.Force.X, Y: l.Force.Y})
		press -= l.Force.Z
	}
	if press <= 0 {
		return math.Inf(1)
	}
	return push.Length() / press
}

// Rocks returns how far the odd foot of four stands off a floor the three others
// lie on, mm, when one leg is longMM longer or shorter than it should be: the four
// corners of a rectangle are on a plane only if their heights add up crosswise.
//
//	gap = |h₁ − h₂ + h₃ − h₄|, corners in order round the outline
//
// Source: geometry.
func Rocks(heights [4]float64) float64 {
	return math.Abs(heights[0] - heights[1] + heights[2] - heights[3])
}
