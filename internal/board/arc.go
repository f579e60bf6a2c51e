package board

import (
	"math"

	"scantling/internal/geom"
	"scantling/internal/steady"
)

// An Arc is part of a circle on the show face, seen from in front of it: x to the
// right, y up. It runs counter-clockwise from angle From to angle To, both in
// radians from x, and From < To. Centre.Z is 0. Lengths are mm.
type Arc struct {
	Centre   geom.Vec
	Radius   float64
	From, To float64
}

// Chord is how far, in mm, a chord of a curved cut lies off its arc at most: a
// quarter of the finest step on a tape (1/64 in = 0.4 mm), and more than a bandsaw
// keeps to.
const Chord = 0.1

// Point returns the point of the arc at an angle.
func (a Arc) Point(angle float64) geom.Vec {
	return a.Centre.Along(geom.Vec{X: steady.Cos(angle), Y: steady.Sin(angle)}, a.Radius)
}

// Length returns the length of the arc in mm.
func (a Arc) Length() float64 { return float64(a.Radius * (a.To - a.From)) }

// Points returns the ends of the fewest equal chords, even in number, that stay
// within Chord of the arc: chords of r·θ have a sagitta of r·(1 − cos θ/2). Its
// middle is a point of them.
func (a Arc) Points() []geom.Vec {
	most := 2 * steady.Acos(math.Max(0, 1-Chord/a.Radius))
	n := 2 * int(math.Max(1, math.Ceil((a.To-a.From)/(2*most)-1e-9)))
	out := make([]geom.Vec, n+1)
	for i := range out {
		out[i] = a.Point(a.From + float64((a.To-a.From)*float64(i)/float64(n)))
	}
	return out
}

// Chords returns the planes of the chords, facing away from the centre.
func (a Arc) Chords() []geom.Plane {
	at := a.Points()
	out := make([]geom.Plane, len(at)-1)
	for i := range out {
		out[i] = geom.Facing(at[i], at[i+1].Minus(at[i]).Cross(geom.Vec{Z: 1}))
	}
	return out
}

// mirrored returns the arc's image under y → w − y.
func (a Arc) mirrored(w float64) Arc {
	a.Centre.Y = w - a.Centre.Y
	a.From, a.To = -a.To, -a.From
	return a
}
