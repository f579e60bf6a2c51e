package geom

import (
	"math"

	"scantling/internal/steady"
)

// Pose says where a frame lies in another: its three unit axes, always
// right-handed, and its origin. A board's pose places the board in the piece; a
// mirrored board is a board with mirrored cuts, never a mirrored pose.
type Pose struct{ X, Y, Z, At Vec }

// Unmoved returns the pose that changes nothing.
func Unmoved() Pose {
	return Pose{X: Vec{1, 0, 0}, Y: Vec{0, 1, 0}, Z: Vec{0, 0, 1}}
}

// Turned returns the rotation by angle radians about an axis through the origin,
// counter-clockwise when the axis points at the eye. The axis need not be unit.
func Turned(axis Vec, angle float64) Pose {
	k := axis.Unit()
	s, c := steady.Sin(angle), steady.Cos(angle)
	turn := func(v Vec) Vec { // Rodrigues: v cos + (k×v) sin + k (k·v)(1 − cos)
		return v.Times(c).Plus(k.Cross(v).Times(s)).Plus(k.Times(float64(k.Dot(v) * (1 - c))))
	}
	return Pose{X: turn(Vec{1, 0, 0}), Y: turn(Vec{0, 1, 0}), Z: turn(Vec{0, 0, 1})}
}

// Out carries a point of the pose's own frame out into the frame round it.
func (p Pose) Out(v Vec) Vec { return p.OutWay(v).Plus(p.At) }

// OutWay carries a direction out.
func (p Pose) OutWay(v Vec) Vec {
	return Vec{
		float64(p.X.X*v.X) + float64(p.Y.X*v.Y) + float64(p.Z.X*v.Z),
		float64(p.X.Y*v.X) + float64(p.Y.Y*v.Y) + float64(p.Z.Y*v.Z),
		float64(p.X.Z*v.X) + float64(p.Y.Z*v.Y) + float64(p.Z.Z*v.Z),
	}
}

// In carries a point of the frame round the pose into the pose's own frame.
func (p Pose) In(v Vec) Vec { return p.InWay(v.Minus(p.At)) }

// InWay carries a direction in.
func (p Pose) InWay(v Vec) Vec { return Vec{p.X.Dot(v), p.Y.Dot(v), p.Z.Dot(v)} }

// OutPlane carries a plane of the pose's own frame out.
func (p Pose) OutPlane(h Plane) Plane {
	n := p.OutWay(h.N)
	return Plane{n, h.D + n.Dot(p.At)}
}

// InPlane carries a plane of the frame round the pose in.
func (p Pose) InPlane(h Plane) Plane {
	return Plane{p.InWay(h.N), h.D - h.N.Dot(p.At)}
}

// Of returns the pose of q carried out by p: p.Of(q).Out(v) is p.Out(q.Out(v)).
func (p Pose) Of(q Pose) Pose {
	return Pose{p.OutWay(q.X), p.OutWay(q.Y), p.OutWay(q.Z), p.Out(q.At)}
}

// From returns the pose of p as seen from q: q.Of(p.From(q)) is p.
func (p Pose) From(q Pose) Pose {
	return Pose{q.InWay(p.X), q.InWay(p.Y), q.InWay(p.Z), q.In(p.At)}
}

// Moved returns p with its origin moved by d.
func (p Pose) Moved(d Vec) Pose {
	p.At = p.At.Plus(d)
	return p
}

// Proper reports whether the axes of p are unit, square to one another and
// right-handed, to within 1e-9.
func (p Pose) Proper() bool {
	const noise = 1e-9 // a hundred turns in float64 cost 1e-14
	near := func(a, b float64) bool { return math.Abs(a-b) <= noise }
	return near(p.X.Dot(p.X), 1) && near(p.Y.Dot(p.Y), 1) && near(p.X.Dot(p.Y), 0) &&
		p.X.Cross(p.Y).Distance(p.Z) <= noise
}
