package setout

import (
	"math"

	"scantling/internal/board"
	"scantling/internal/geom"
	"scantling/internal/steady"
)

// Still returns the move that moves nothing.
func Still() Move { return Shift(geom.Vec{}) }

// Shift returns the move by v.
func Shift(v geom.Vec) Move {
	return Move{geom.Vec{X: 1}, geom.Vec{Y: 1}, geom.Vec{Z: 1}, v}
}

// Mirror returns the mirror image in the plane square to axis's axis of the room
// at a coordinate: `mirror: left-right` is Mirror(Piece(), Right, 0).
func Mirror(room Room, axis Dir, about float64) Move {
	p := room.Plane(grows(axis.Axis()), about)
	image := func(v geom.Vec) geom.Vec { return v.Along(p.N, -2*p.N.Dot(v)) }
	m := Still()
	return Move{image(m.X), image(m.Y), image(m.Z), p.N.Times(2 * p.D)}
}

// Turn returns the turn by angle radians about the line through a point along
// axis's way of the room, counter-clockwise seen from axis's head: `turn: 180°` is
// Turn(Piece(), Up, geom.Vec{}, π). Quarter turns about an axis of the piece are
// exact.
func Turn(room Room, axis Dir, through geom.Vec, angle float64) Move {
	k := room.Way(axis)
	sin, cos := snapped(steady.Sin(angle)), snapped(steady.Cos(angle))
	turn := func(v geom.Vec) geom.Vec { // Rodrigues, as geom.Turned
		return v.Times(cos).Along(k.Cross(v), sin).Along(k, float64(k.Dot(v)*(1-cos)))
	}
	m := Move{X: turn(geom.Vec{X: 1}), Y: turn(geom.Vec{Y: 1}), Z: turn(geom.Vec{Z: 1})}
	m.At = through.Minus(m.Way(through))
	return m
}

// snapped rounds a sine to a whole number when it misses it by rounding only:
// π in float64 is off by 1.2e-16.
func snapped(x float64) float64 {
	if r := math.Round(x); math.Abs(x-r) < 1e-15 {
		return r
	}
	return x
}

// ShiftOnto returns the move along d's way of the room that puts side's plane on
// target: each copy of `marks` and `every`. Fault: NeedsLevel if they are not
// parallel, NoCrossing if d runs along them.
func ShiftOnto(room Room, side, target geom.Plane, d Dir) (Move, error) {
	way := room.Way(d)
	along := side.N.Dot(way)
	switch {
	case !alongside(side.N, target.N):
		return Still(), &Fault{Kind: NeedsLevel}
	case math.Abs(along) < parallel:
		return Still(), &Fault{Kind: NoCrossing}
	}
	return Shift(way.Times((value(target, side.N) - side.D) / along)), nil
}

// grace is what counts at a threshold are kept by: 1e-6 in, in mm (rule 23).
const grace = 1e-6 * 25.4

// Steps returns how far from the start copies of `every: {each: D, to: Q}` lie:
// 0, D, 2D, … up to and including span mm, with 1e-6 in of grace. Fault: NoStep
// unless each is positive and span not negative, TooMany above 1,000 copies.
func Steps(span, each float64) ([]float64, error) {
	if !(each > grace && span >= -grace) {
		return nil, &Fault{Kind: NoStep, Has: each, Want: span}
	}
	const most = 1000
	n := math.Floor((span+grace)/each) + 1
	if !(n <= most) {
		return nil, &Fault{Kind: TooMany, Has: n, Want: most}
	}
	out := make([]float64, int(n))
	for i := range out {
		out[i] = float64(i) * each
	}
	return out, nil
}

// Carry returns the move that takes one room onto another with everything in it:
// what is said in a group, to where a copy of the group stands. It mirrors if one of
// the rooms is left-handed and the other is not.
func Carry(from, to Room) Move {
	way := func(v geom.Vec) geom.Vec { // by its coordinates in the one room
		return to.Right.Times(from.Right.Dot(v)).Along(to.Back, from.Back.Dot(v)).Along(to.Up, from.Up.Dot(v))
	}
	still := Still()
	m := Move{X: way(still.X), Y: way(still.Y), Z: way(still.Z)}
	m.At = to.At.Minus(m.Way(from.At))
	return m
}

// Undone returns the move that takes m back: what a group's copy reads of the piece,
// in the group's own room.
func (m Move) Undone() Move {
	back := Move{
		X: geom.Vec{X: m.X.X, Y: m.Y.X, Z: m.Z.X},
		Y: geom.Vec{X: m.X.Y, Y: m.Y.Y, Z: m.Z.Y},
		Z: geom.Vec{X: m.X.Z, Y: m.Y.Z, Z: m.Z.Z},
	}
	back.At = back.Way(m.At).Negated()
	return back
}

// Mean returns the home point of a group: the mean of its parts' (rule 14).
func Mean(homes []geom.Vec) geom.Vec {
	var sum geom.Vec
	for _, h := range homes {
		sum = sum.Plus(h)
	}
	return sum.Times(1 / math.Max(1, float64(len(homes))))
}

// Then returns the move that does m and then n.
func (m Move) Then(n Move) Move { return Move{n.Way(m.X), n.Way(m.Y), n.Way(m.Z), n.Point(m.At)} }

// Mirrors reports whether m changes hands.
func (m Move) Mirrors() bool { return m.X.Cross(m.Y).Dot(m.Z) < 0 }

// Point carries a point.
func (m Move) Point(p geom.Vec) geom.Vec { return m.Way(p).Plus(m.At) }

// Way carries a direction.
func (m Move) Way(v geom.Vec) geom.Vec {
	return m.X.Times(v.X).Along(m.Y, v.Y).Along(m.Z, v.Z)
}

// Plane carries a plane.
func (m Move) Plane(p geom.Plane) geom.Plane {
	n := m.Way(p.N)
	return geom.Plane{N: n, D: p.D + n.Dot(m.At)}
}

// Word returns the word a side answers to after the move if it answered to d
// before: `right leg.left` is its inner edge (rule 8). Words change by permutation
// only; a turn that lands between two takes the nearest, ties as in Room.Nearest.
func (m Move) Word(d Dir) Dir {
	piece := Piece()
	taken := [2]int{-1, -1}
	for i, axis := range axes {
		to, _ := piece.nearestBut(m.Way(piece.Way(grows(axis))), taken[0], taken[1])
		if axis == d.Axis() {
			if d.Sign() < 0 {
				return to.Opposite()
			}
			return to
		}
		if i < 2 {
			taken[i] = to.Axis()
		}
	}
	panic("setout: a direction without an axis")
}

// Room carries a room; a mirror makes it left-handed.
func (m Move) Room(r Room) Room {
	return Room{m.Point(r.At), m.Way(r.Right), m.Way(r.Back), m.Way(r.Up)}
}

// Side returns which side of the copy is the image of side s: Near and Far
// change places in a mirror.
func (m Move) Side(s board.Side) board.Side {
	if s.IsEdge() && m.Mirrors() {
		return s.Opposite()
	}
	return s
}

// Frame carries an orientation. The run and the show face go where the move
// takes them; a mirror exchanges the Near and the Far edge.
func (m Move) Frame(f Frame) Frame {
	out := Frame{Run: m.Way(f.Run), Edge: m.edge(f), Face: m.Way(f.Face)}
	for s, w := range f.Words {
		out.Words[m.Side(board.Side(s))] = m.Word(w)
	}
	return out
}

// edge returns the way out of the copy's Far edge.
func (m Move) edge(f Frame) geom.Vec {
	if m.Mirrors() {
		return m.Way(f.Edge).Negated()
	}
	return m.Way(f.Edge)
}

// Slab carries a hold of a bar with orientation f.
func (m Move) Slab(f Frame, s Slab) Slab {
	n := m.Way(s.N)
	by := n.Dot(m.At)
	if m.Mirrors() && s.N == f.Edge {
		return Slab{n.Negated(), -s.Hi - by, -s.Lo - by}
	}
	return Slab{n, s.Lo + by, s.Hi + by}
}

// Bar carries a bar.
func (m Move) Bar(b Bar) Bar {
	return Bar{m.Frame(b.Frame), m.Slab(b.Frame, b.Width), m.Slab(b.Frame, b.Thick)}
}

// End carries an end.
func (m Move) End(e End) End {
	out := End{Loose: e.Loose, Meets: e.Meets}
	for _, p := range e.Planes {
		out.Planes = append(out.Planes, m.Plane(p))
	}
	return out
}

// Board carries a board with its cuts: rotated, or its mirror image with a
// proper pose. Sides are renamed; ID and Spoken are the caller's.
func (m Move) Board(b *board.Board) *board.Board {
	pose := geom.Pose{X: m.X, Y: m.Y, Z: m.Z, At: m.At}
	if m.Mirrors() { // mirror left and right first, then turn what is left of the move
		b = b.Mirrored(geom.Plane{N: geom.Vec{X: 1}})
		pose.X = pose.X.Negated()
	}
	out := b.Moved(pose)
	for s, word := range out.Sides {
		if d, ok := ParseSide(word); ok {
			out.Sides[s] = m.Word(d).Side()
		}
	}
	return out
}

// SamePlace reports whether two boards lie on one another within geom.Touch,
// notches apart: every corner of one at a corner of the other (rule 15).
func SamePlace(a, b *board.Board) bool {
	if a.Wood == nil || b.Wood == nil || len(a.Wood.Cells) != 1 || len(b.Wood.Cells) != 1 {
		return false
	}
	return cornersMeet(a, b) && cornersMeet(b, a)
}

// cornersMeet reports whether every corner of a lies at a corner of b.
func cornersMeet(a, b *board.Board) bool {
	for _, v := range a.Wood.Cells[0].Verts {
		at := b.Pose.In(a.Pose.Out(v))
		found := false
		for _, w := range b.Wood.Cells[0].Verts {
			if found = at.Distance(w) <= geom.Touch; found {
				break
			}
		}
		if !found {
			return false
		}
	}
	return true
}

// Furthest returns which of the home points lie furthest toward d of the room,
// ties within geom.Touch together (rule 14).
func Furthest(homes []geom.Vec, room Room, d Dir) []int {
	way, best := room.Way(d), math.Inf(-1)
	for _, h := range homes {
		best = math.Max(best, way.Dot(h))
	}
	var out []int
	for i, h := range homes {
		if way.Dot(h) >= best-geom.Touch {
			out = append(out, i)
		}
	}
	return out
}

// SamePlane reports whether two planes are one for a measure that a selector
// gives several of: within geom.Touch at the point near and 1e-9 rad. Planes that
// face opposite ways are two.
func SamePlane(a, b geom.Plane, near geom.Vec) bool {
	return a.N.Distance(b.N) <= parallel && math.Abs(a.Over(near)-b.Over(near)) <= geom.Touch
}
