package setout

import (
	"scantling/internal/geom"
)

// ParseDir reads a direction word: left, right, front, back, down, up.
func ParseDir(word string) (Dir, bool) { panic("setout: to come") }

// ParseSide reads a side word: left, right, front, back, bottom, top.
func ParseSide(word string) (Dir, bool) { panic("setout: to come") }

// Opposite returns the other direction on the same axis.
func (d Dir) Opposite() Dir { return d ^ 1 }

// Axis returns 0 for left and right, 1 for front and back, 2 for down and up.
func (d Dir) Axis() int { return int(d) / 2 }

// Sign returns +1 for right, back and up, the ways coordinates grow.
func (d Dir) Sign() float64 { return float64(d&1)*2 - 1 }

// String returns the direction word: "down".
func (d Dir) String() string { return [...]string{"left", "right", "front", "back", "down", "up"}[d] }

// Side returns the side word: "bottom".
func (d Dir) Side() string { return [...]string{"left", "right", "front", "back", "bottom", "top"}[d] }

// Piece returns the room of the whole piece.
func Piece() Room {
	return Room{Right: geom.Vec{X: 1}, Back: geom.Vec{Y: 1}, Up: geom.Vec{Z: 1}}
}

// Way returns the unit direction of a word in the room.
func (r Room) Way(d Dir) geom.Vec { panic("setout: to come") }

// Point returns the point with the given coordinates in the room, in mm.
func (r Room) Point(right, back, up float64) geom.Vec { panic("setout: to come") }

// Coordinate returns p's coordinate on d's axis of the room; it grows toward
// right, back and up whichever of the two words d is.
func (r Room) Coordinate(p geom.Vec, d Dir) float64 { panic("setout: to come") }

// Plane returns the plane square to d's axis at a coordinate, facing d: a
// position as a plane (rule 3). Room.Plane(Up, 0) of the piece is the floor.
func (r Room) Plane(d Dir, at float64) geom.Plane { panic("setout: to come") }

// Read returns the coordinate on d's axis of a plane square to that axis: a
// square side read as a number. ok is false if it is not square to the axis.
func (r Room) Read(p geom.Plane, d Dir) (at float64, ok bool) { panic("setout: to come") }

// ReadAt returns the coordinate on d's axis of p where it crosses the plane at:
// "P at level L" and "P at SIDE". If their crossing line is not square to the
// axis, the point of it on show is taken, the show face of the board whose side p
// is (rule 10); show may be nil when p belongs to no board. Fault: NoCrossing
// (parallel planes), Unsteady (the line runs along the axis, or show is needed
// and nil).
func (r Room) ReadAt(p, at geom.Plane, d Dir, show *geom.Plane) (float64, error) {
	panic("setout: to come")
}

// Shift returns p moved by mm along d's way of the room: "D above P", "D left of
// P". A tilted p is moved along the axis, not square to itself (rule 3).
func (r Room) Shift(p geom.Plane, d Dir, by float64) geom.Plane { panic("setout: to come") }

// In returns side moved by mm square to itself into its board: "D in from S";
// a negative by is "D out from S". side must face out of its board, as all sides
// and ends of this package do.
func In(side geom.Plane, by float64) geom.Plane { return side.Shifted(-by) }

// Nearest returns the word whose way in the room lies nearest to v; ties, within
// 1e-9, go to up or down, then right or left, then back or front (rule 8), and are
// reported.
func (r Room) Nearest(v geom.Vec) (d Dir, tie bool) { panic("setout: to come") }

// TiltedRoom returns the room of a plane given by faces, through and lean or
// slope (rule 6a): the outer room tilted about the through-point, its faces axis
// square to the plane. tilts as in Orient: the END is the end of the plane that
// moves. A coordinate of through that the file leaves unnamed is the middle, 0.
func TiltedRoom(outer Room, faces Dir, through geom.Vec, tilts []Tilt) (Room, error) {
	panic("setout: to come")
}

// SideRoom returns the room of a plane on a side of a board or a named cut, and
// the word it faces (rule 6b): the outer room tilted by the smallest turn that
// brings the nearest word to the way the side looks. With zero, its in-plane axis
// starts where zero crosses the side, the other at the outer room's middle;
// without, both do.
func SideRoom(outer Room, side geom.Plane, zero *geom.Plane) (Room, Dir, error) {
	panic("setout: to come")
}

// Where returns the point where three planes meet: "where A meets B" with the
// plane the point is wanted in, or "where A meets B meets C". Fault: NoCrossing.
func Where(a, b, c geom.Plane) (geom.Vec, error) { panic("setout: to come") }
