package drawing

import (
	"math"

	"scantling/internal/geom"
)

// A View is a way to look at the piece, orthographic: no lines run together.
// Right and Up lie along the paper, Toward points at the eye; the three are
// unit, square to one another, and Right × Up = Toward.
type View struct{ Right, Up, Toward geom.Vec }

// Front looks at the piece from the front, as a person standing there does.
func Front() View { return look(geom.Vec{Y: -1}) }

// FromRight looks from the right: the third-angle view that stands right of the
// front view on American drawings (ASME Y14.3).
func FromRight() View { return look(geom.Vec{X: 1}) }

// Top looks down; the front is at the foot of the paper.
func Top() View {
	return View{Right: geom.Vec{X: 1}, Up: geom.Vec{Y: 1}, Toward: geom.Vec{Z: 1}}
}

// Isometric looks from the front right corner along a cube's diagonal.
func Isometric() View { return look(geom.Vec{X: 1, Y: -1, Z: 1}) }

// Corner looks from the front right and a little above, so that the front shows
// widest: the view of the cover and of the steps.
func Corner() View { return look(geom.Vec{X: 0.62, Y: -1, Z: 0.52}) }

// Higher looks from the same side but steeply down, into a box.
func (v View) Higher() View {
	t := v.Toward
	t.Z = 1.2
	return look(t)
}

// FromLeft looks from the other side of the front.
func (v View) FromLeft() View {
	t := v.Toward
	t.X = -t.X
	return look(t)
}

// look returns the view with the eye far away in the direction toward and up
// upright on the paper.
func look(toward geom.Vec) View {
	t := toward.Unit()
	right := geom.Vec{Z: 1}.Cross(t).Unit()
	return View{Right: right, Up: t.Cross(right), Toward: t}
}

// Place returns where a point falls on the paper, in mm of wood.
func (v View) Place(p geom.Vec) Place { return Place{v.Right.Dot(p), v.Up.Dot(p)} }

// Depth returns how near to the eye a point lies, in mm.
func (v View) Depth(p geom.Vec) float64 { return v.Toward.Dot(p) }

// Turned returns the view of a piece that lies on the bench turned by the pose.
func (v View) Turned(by geom.Pose) View {
	return View{by.InWay(v.Right), by.InWay(v.Up), by.InWay(v.Toward)}
}

// A Line is a stretch of an edge on the paper, in mm of wood.
type Line struct {
	A, B    Place
	Visible bool
	Board   int  // index of the board it belongs to; of lines that fall together, the nearest
	Outline bool // only one of the two faces that meet there looks at the eye
}

// A Patch is a part of a face that can be seen, painted in order: later patches
// lie over earlier ones.
type Patch struct {
	Board int
	Loops [][]Place
	Light float64 // 0 to 1: how squarely the face looks up and at the eye
}

// Length returns the length of a line, in mm of wood.
func (l Line) Length() float64 {
	dx, dy := l.B.X-l.A.X, l.B.Y-l.A.Y
	return math.Sqrt(float64(dx*dx) + float64(dy*dy))
}
