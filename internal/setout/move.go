package setout

import (
	"scantling/internal/board"
	"scantling/internal/geom"
)

// Still returns the move that moves nothing.
func Still() Move { panic("setout: to come") }

// Mirror returns the mirror image in the plane square to axis's axis of the room
// at a coordinate: `mirror: left-right` is Mirror(Piece(), Right, 0).
func Mirror(room Room, axis Dir, about float64) Move { panic("setout: to come") }

// Turn returns the turn by angle radians about the upright (or other) axis of the
// room through a point, counter-clockwise seen from axis's head: `turn: 180°` is
// Turn(Piece(), Up, geom.Vec{}, π). Quarter turns are exact.
func Turn(room Room, axis Dir, through geom.Vec, angle float64) Move { panic("setout: to come") }

// Shift returns the move by v.
func Shift(v geom.Vec) Move { panic("setout: to come") }

// ShiftOnto returns the move along d that puts side's plane on target: each copy
// of `marks` and `every`. Fault: NeedsLevel if they are not parallel, NoCrossing
// if d runs along them.
func ShiftOnto(room Room, side, target geom.Plane, d Dir) (Move, error) { panic("setout: to come") }

// Steps returns how far from the start copies of `every: {each: D, to: Q}` lie:
// 0, D, 2D, … up to and including span mm, with 1e-6 in of grace. Fault: NoStep
// unless each is positive, TooMany above 1,000 copies.
func Steps(span, each float64) ([]float64, error) { panic("setout: to come") }

// Then returns the move that does m and then n.
func (m Move) Then(n Move) Move { panic("setout: to come") }

// Mirrors reports whether m changes hands.
func (m Move) Mirrors() bool { panic("setout: to come") }

// Point carries a point.
func (m Move) Point(p geom.Vec) geom.Vec { panic("setout: to come") }

// Way carries a direction.
func (m Move) Way(v geom.Vec) geom.Vec { panic("setout: to come") }

// Plane carries a plane.
func (m Move) Plane(p geom.Plane) geom.Plane { panic("setout: to come") }

// Word returns the word a side answers to after the move if it answered to d
// before: `right leg.left` is its inner edge (rule 8). Words change by permutation
// only; a turn that lands between two takes the nearest, ties as in Room.Nearest.
func (m Move) Word(d Dir) Dir { panic("setout: to come") }

// Room carries a room; a mirror makes it left-handed.
func (m Move) Room(r Room) Room { panic("setout: to come") }

// Frame carries an orientation. The run and the show face go where the move
// takes them; a mirror exchanges the Near and the Far edge.
func (m Move) Frame(f Frame) Frame { panic("setout: to come") }

// Side returns which side of the copy is the image of side s: Near and Far
// change places in a mirror.
func (m Move) Side(s board.Side) board.Side { panic("setout: to come") }

// Slab carries a hold of f.
func (m Move) Slab(f Frame, s Slab) Slab { panic("setout: to come") }

// Bar carries a bar.
func (m Move) Bar(b Bar) Bar { panic("setout: to come") }

// End carries an end.
func (m Move) End(e End) End { panic("setout: to come") }

// Board carries a board with its cuts: rotated, or its mirror image with a
// proper pose. Sides are renamed; ID and Spoken are the caller's.
func (m Move) Board(b *board.Board) *board.Board { panic("setout: to come") }

// SamePlace reports whether two boards lie on one another within geom.Touch:
// every corner of one at a corner of the other (rule 15).
func SamePlace(a, b *board.Board) bool { panic("setout: to come") }

// Furthest returns which of the home points lie furthest toward d of the room,
// ties within geom.Touch together (rule 14).
func Furthest(homes []geom.Vec, room Room, d Dir) []int { panic("setout: to come") }

// SamePlane reports whether two planes are one for a measure that a selector
// gives several of: within geom.Touch at the point near and 1e-9 rad.
func SamePlane(a, b geom.Plane, near geom.Vec) bool { panic("setout: to come") }
