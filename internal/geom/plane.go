package geom

import "math"

// Plane is a half space: the side N·p ≤ D is kept or inside, and the unit normal
// N points away from it. D is in mm.
type Plane struct {
	N Vec
	D float64
}

// Facing returns the plane through p whose outside lies toward n, which need not
// be unit.
func Facing(p, n Vec) Plane {
	u := n.Unit()
	return Plane{u, u.Dot(p)}
}

// Through returns the plane through three points, seen counter-clockwise from
// outside; its normal is zero if the three lie in a line.
func Through(a, b, c Vec) Plane { return Facing(a, b.Minus(a).Cross(c.Minus(a))) }

// Over returns how far p lies outside the plane, in mm; inside is negative.
func (h Plane) Over(p Vec) float64 { return h.N.Dot(p) - h.D }

// Flipped returns the plane with inside and outside exchanged.
func (h Plane) Flipped() Plane { return Plane{h.N.Negated(), -h.D} }

// Shifted returns the plane moved by d mm toward its outside.
func (h Plane) Shifted(d float64) Plane { return Plane{h.N, h.D + d} }

// Foot returns the point of the plane nearest to p.
func (h Plane) Foot(p Vec) Vec { return p.Along(h.N, -h.Over(p)) }

// Hit returns how many times d one must go from p to reach the plane. ok is
// false if d runs along it: leaves it by less than Same over 10 m.
func (h Plane) Hit(p, d Vec) (times float64, ok bool) {
	fall := h.N.Dot(d)
	if math.Abs(fall) <= float64(Same*1e-4)*d.Length() {
		return 0, false
	}
	return -h.Over(p) / fall, true
}

// Meet returns the point three planes share. ok is false if they share none or a
// line: if the box their unit normals span has a volume under 1e-10.
func Meet(a, b, c Plane) (at Vec, ok bool) {
	bc := b.N.Cross(c.N)
	det := a.N.Dot(bc)
	if math.Abs(det) <= 1e-10 {
		return Vec{}, false
	}
	sum := bc.Times(a.D).Plus(c.N.Cross(a.N).Times(b.D)).Plus(a.N.Cross(b.N).Times(c.D))
	return Vec{sum.X / det, sum.Y / det, sum.Z / det}, true
}

// Line returns the line two planes share, as a point on it and a unit direction;
// the point is the one nearest to the origin. ok is false for parallel planes.
func Line(a, b Plane) (at, way Vec, ok bool) {
	d := a.N.Cross(b.N)
	at, ok = Meet(a, b, Plane{d.Unit(), 0})
	return at, d.Unit(), ok
}

// NearestOn returns the point of the segment from a to b nearest to p.
func NearestOn(a, b, p Vec) Vec {
	d := b.Minus(a)
	n := d.Dot(d)
	if n == 0 {
		return a
	}
	return a.Along(d, math.Min(1, math.Max(0, p.Minus(a).Dot(d)/n)))
}
