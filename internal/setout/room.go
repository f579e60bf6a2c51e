package setout

import (
	"math"

	"scantling/internal/geom"
	"scantling/internal/steady"
)

var (
	dirWords  = [...]string{"left", "right", "front", "back", "down", "up"}
	sideWords = [...]string{"left", "right", "front", "back", "bottom", "top"}
)

// ParseDir reads a direction word: left, right, front, back, down, up.
func ParseDir(word string) (Dir, bool) { return find(dirWords[:], word) }

// ParseSide reads a side word: left, right, front, back, bottom, top.
func ParseSide(word string) (Dir, bool) { return find(sideWords[:], word) }

func find(words []string, word string) (Dir, bool) {
	for i, w := range words {
		if w == word {
			return Dir(i), true
		}
	}
	return 0, false
}

// Opposite returns the other direction on the same axis.
func (d Dir) Opposite() Dir { return d ^ 1 }

// Axis returns 0 for left and right, 1 for front and back, 2 for down and up.
func (d Dir) Axis() int { return int(d) / 2 }

// Sign returns +1 for right, back and up, the ways coordinates grow, else −1.
func (d Dir) Sign() float64 {
	if d&1 == 1 {
		return 1
	}
	return -1
}

// String returns the direction word: "down".
func (d Dir) String() string { return dirWords[d] }

// Side returns the side word: "bottom".
func (d Dir) Side() string { return sideWords[d] }

// grows returns the word of an axis toward which coordinates grow.
func grows(axis int) Dir { return Dir(2*axis + 1) }

// Piece returns the room of the whole piece.
func Piece() Room {
	return Room{Right: geom.Vec{X: 1}, Back: geom.Vec{Y: 1}, Up: geom.Vec{Z: 1}}
}

// Way returns the unit direction of a word in the room.
func (r Room) Way(d Dir) geom.Vec {
	way := [...]geom.Vec{r.Right, r.Back, r.Up}[d.Axis()]
	if d.Sign() < 0 {
		return way.Negated()
	}
	return way
}

// Point returns the point with the given coordinates in the room, in mm.
func (r Room) Point(right, back, up float64) geom.Vec {
	return r.At.Along(r.Right, right).Along(r.Back, back).Along(r.Up, up)
}

// Coordinate returns p's coordinate on d's axis of the room; it grows toward
// right, back and up whichever of the two words d is.
func (r Room) Coordinate(p geom.Vec, d Dir) float64 {
	return p.Minus(r.At).Dot(r.Way(grows(d.Axis())))
}

// Plane returns the plane square to d's axis at a coordinate, facing d: a
// position as a plane (rule 3). Room.Plane(Up, 0) of the piece is the floor.
func (r Room) Plane(d Dir, at float64) geom.Plane {
	n := r.Way(d)
	return geom.Plane{N: n, D: n.Dot(r.At) + float64(d.Sign()*at)}
}

// Read returns the coordinate on d's axis of a plane square to that axis: a
// square side read as a number. ok is false if it is not square to the axis.
func (r Room) Read(p geom.Plane, d Dir) (at float64, ok bool) {
	axis := r.Way(grows(d.Axis()))
	if !alongside(p.N, axis) {
		return 0, false
	}
	return value(p, axis) - axis.Dot(r.At), true
}

// ReadAt returns the coordinate on d's axis of p where it crosses the plane at:
// "P at level L" and "P at SIDE". If their crossing line is not square to the
// axis, the point of it on show is taken, the show face of the board whose side p
// is (rule 10); show may be nil when p belongs to no board. Fault: NoCrossing
// (parallel planes), Unsteady (show is needed and nil).
func (r Room) ReadAt(p, at geom.Plane, d Dir, show *geom.Plane) (float64, error) {
	axis := r.Way(grows(d.Axis()))
	x, err := crossing(p, at, axis, show)
	return x - axis.Dot(r.At), err
}

// crossing returns way·x for the x where p and at cross, or, if that is not one
// number, where show crosses them too.
func crossing(p, at geom.Plane, way geom.Vec, show *geom.Plane) (float64, error) {
	if alongside(p.N, at.N) {
		return 0, &Fault{Kind: NoCrossing}
	}
	x, along, ok := geom.Line(p, at)
	switch {
	case !ok:
		return 0, &Fault{Kind: NoCrossing}
	case math.Abs(along.Dot(way)) <= parallel:
	case show == nil:
		return 0, &Fault{Kind: Unsteady, At: x}
	default:
		if x, ok = geom.Meet(p, at, *show); !ok {
			return 0, &Fault{Kind: Unsteady}
		}
	}
	return way.Dot(x), nil
}

// Shift returns p moved by mm along d's way of the room: "D above P", "D left of
// P". A tilted p is moved along the axis, not square to itself (rule 3).
func (r Room) Shift(p geom.Plane, d Dir, by float64) geom.Plane {
	return p.Shifted(float64(p.N.Dot(r.Way(d)) * by))
}

// In returns side moved by mm square to itself into its board: "D in from S";
// a negative by is "D out from S". side must face out of its board, as all sides
// and ends of this package do.
func In(side geom.Plane, by float64) geom.Plane { return side.Shifted(-by) }

// axes is the order in which ties between words are settled (rule 8).
var axes = [...]int{2, 0, 1}

// Nearest returns the word whose way in the room lies nearest to v; ties, within
// 1e-9, go to up or down, then right or left, then back or front (rule 8), and are
// reported.
func (r Room) Nearest(v geom.Vec) (d Dir, tie bool) { return r.nearestBut(v, -1, -1) }

// nearestBut is Nearest among the words not on the given axes.
func (r Room) nearestBut(v geom.Vec, not, nor int) (d Dir, tie bool) {
	best := -1.0
	for _, axis := range axes {
		if axis == not || axis == nor {
			continue
		}
		c := v.Dot(r.Way(grows(axis)))
		switch by := math.Abs(c) - best; {
		case by > parallel:
			best, tie, d = math.Abs(c), false, grows(axis)
			if c < 0 {
				d = d.Opposite()
			}
		case by >= -parallel:
			tie = true
		}
	}
	return d, tie
}

// TiltedRoom returns the room of a plane given by faces, through and lean or
// slope (rule 6a): the outer room tilted about the through-point by the smallest
// turn that makes its faces axis square to the plane. The END of a tilt is the end
// of the plane that moves, DIR is toward or from faces. A coordinate of through
// that the file leaves unnamed is the middle, 0.
//
// Fault: Skew if an END lies on the axis faced or a DIR does not, or two tilts
// have their ENDs on one axis; Steep unless every angle is under 89°.
func TiltedRoom(outer Room, faces Dir, through geom.Vec, tilts []Tilt) (Room, error) {
	f := outer.Way(faces)
	normal, used := f, faces.Axis()
	for i, t := range tilts {
		if t.End.Axis() == faces.Axis() || t.Toward.Axis() != faces.Axis() || i > 0 && t.End.Axis() == used {
			return Room{}, &Fault{Kind: Skew}
		}
		tan, err := tangent(t.Angle)
		if err != nil {
			return Room{}, err
		}
		used = t.End.Axis()
		// The plane holds the line END + tan·DIR, so its normal leans the other way.
		normal = normal.Along(outer.Way(t.End), -tan*f.Dot(outer.Way(t.Toward)))
	}
	room := tilted(outer, f, normal.Unit())
	room.At = through
	return room, nil
}

// SideRoom returns the room of a plane on a side of a board or a named cut, and
// the word it faces (rule 6b): the outer room tilted by the smallest turn that
// brings the nearest word to the way the side looks. With zero, its in-plane axis
// starts where zero crosses the side, the other at the outer room's middle;
// without, both do. Fault: NoCrossing if zero does not cross the side.
func SideRoom(outer Room, side geom.Plane, zero *geom.Plane) (Room, Dir, error) {
	faces, _ := outer.Nearest(side.N)
	room := tilted(outer, outer.Way(faces), side.N)
	one, other := grows((faces.Axis()+1)%3), grows((faces.Axis()+2)%3)
	a, b := outer.Plane(one, 0), outer.Plane(other, 0)
	if zero != nil {
		_, along, ok := geom.Line(side, *zero)
		if !ok {
			return Room{}, faces, &Fault{Kind: NoCrossing}
		}
		if math.Abs(along.Dot(outer.Way(one))) > math.Abs(along.Dot(outer.Way(other))) {
			b = *zero
		} else {
			a = *zero
		}
	}
	at, err := Where(side, a, b)
	room.At = at
	return room, faces, err
}

// tilted returns the room turned by the smallest turn that takes the unit
// direction from to the unit direction to.
func tilted(r Room, from, to geom.Vec) Room {
	k, c := from.Cross(to), from.Dot(to)
	turn := func(v geom.Vec) geom.Vec { // Rodrigues with sin·axis = k: v cos + k×v + k(k·v)/(1 + cos)
		return v.Times(c).Plus(k.Cross(v)).Along(k, k.Dot(v)/(1+c)).Unit()
	}
	return Room{r.At, turn(r.Right), turn(r.Back), turn(r.Up)}
}

// Where returns the point where three planes meet: "where A meets B" with the
// plane the point is wanted in, or "where A meets B meets C". Fault: NoCrossing.
func Where(a, b, c geom.Plane) (geom.Vec, error) {
	at, ok := geom.Meet(a, b, c)
	if !ok {
		return at, &Fault{Kind: NoCrossing}
	}
	return at, nil
}

// alongside reports whether two unit directions are parallel or opposed.
func alongside(a, b geom.Vec) bool { return a.Cross(b).Length() <= parallel }

// value returns n·x for the points x of a plane whose normal is n or −n.
func value(p geom.Plane, n geom.Vec) float64 {
	if p.N.Dot(n) < 0 {
		return -p.D
	}
	return p.D
}

// tangent returns tan of a tilt.
func tangent(angle float64) (float64, error) {
	if !(math.Abs(angle) < steepest) {
		return 0, &Fault{Kind: Steep, Has: angle, Want: steepest}
	}
	return steady.Tan(angle), nil
}

// steepest is the largest tilt, 89°: past it a board no longer runs the way its
// words say by any reading.
const steepest = 89 * math.Pi / 180
