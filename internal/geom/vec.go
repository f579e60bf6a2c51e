package geom

import "math"

// Vec is a point, in mm, or a direction.
type Vec struct{ X, Y, Z float64 }

// Plus returns v + w.
func (v Vec) Plus(w Vec) Vec { return Vec{v.X + w.X, v.Y + w.Y, v.Z + w.Z} }

// Minus returns v − w, the way from w to v.
func (v Vec) Minus(w Vec) Vec { return Vec{v.X - w.X, v.Y - w.Y, v.Z - w.Z} }

// Times returns v made s times as long.
func (v Vec) Times(s float64) Vec {
	return Vec{float64(v.X * s), float64(v.Y * s), float64(v.Z * s)}
}

// Along returns v + s·d: the point s times d away from v.
func (v Vec) Along(d Vec, s float64) Vec {
	return Vec{v.X + float64(d.X*s), v.Y + float64(d.Y*s), v.Z + float64(d.Z*s)}
}

// Dot returns the scalar product of v and w.
func (v Vec) Dot(w Vec) float64 {
	return float64(v.X*w.X) + float64(v.Y*w.Y) + float64(v.Z*w.Z)
}

// Cross returns the vector product of v and w, right-handed.
func (v Vec) Cross(w Vec) Vec {
	return Vec{
		float64(v.Y*w.Z) - float64(v.Z*w.Y),
		float64(v.Z*w.X) - float64(v.X*w.Z),
		float64(v.X*w.Y) - float64(v.Y*w.X),
	}
}

// Length returns the length of v.
func (v Vec) Length() float64 { return math.Sqrt(v.Dot(v)) }

// Distance returns how far v and w are apart.
func (v Vec) Distance(w Vec) float64 { return v.Minus(w).Length() }

// Unit returns v made one long; the zero vector stays zero.
func (v Vec) Unit() Vec {
	n := v.Length()
	if n == 0 {
		return v
	}
	return Vec{v.X / n, v.Y / n, v.Z / n}
}

// Negated returns −v.
func (v Vec) Negated() Vec { return Vec{-v.X, -v.Y, -v.Z} }

// Min returns the smaller of each coordinate of v and w.
func (v Vec) Min(w Vec) Vec {
	return Vec{min(v.X, w.X), min(v.Y, w.Y), min(v.Z, w.Z)}
}

// Max returns the larger of each coordinate of v and w.
func (v Vec) Max(w Vec) Vec {
	return Vec{max(v.X, w.X), max(v.Y, w.Y), max(v.Z, w.Z)}
}

// Box is an upright box in mm, empty unless Low ≤ High throughout.
type Box struct{ Low, High Vec }

// EmptyBox returns the box that holds nothing and to which points may be added.
func EmptyBox() Box {
	inf := math.Inf(1)
	return Box{Vec{inf, inf, inf}, Vec{-inf, -inf, -inf}}
}

// With returns the smallest box round b and p.
func (b Box) With(p Vec) Box { return Box{b.Low.Min(p), b.High.Max(p)} }

// Union returns the smallest box round b and c.
func (b Box) Union(c Box) Box { return Box{b.Low.Min(c.Low), b.High.Max(c.High)} }

// Size returns the box's width, depth and height in mm.
func (b Box) Size() Vec { return b.High.Minus(b.Low) }

// Middle returns the centre of the box.
func (b Box) Middle() Vec { return b.Low.Plus(b.High).Times(0.5) }

// Meets reports whether b and c lie within reach mm of one another along every
// axis. A negative reach asks for an overlap at least so deep.
func (b Box) Meets(c Box, reach float64) bool {
	return b.Low.X <= c.High.X+reach && c.Low.X <= b.High.X+reach &&
		b.Low.Y <= c.High.Y+reach && c.Low.Y <= b.High.Y+reach &&
		b.Low.Z <= c.High.Z+reach && c.Low.Z <= b.High.Z+reach
}
