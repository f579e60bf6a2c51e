package setout

import (
	"math"

	"scantling/internal/board"
	"scantling/internal/geom"
)

// MitreWith returns the end plane of `mitre with PART` (rule 22): square through
// the thickness, from where the outer edges of a and other meet to where the inner
// ones do, facing out of a's end. The widths may differ. otherEnd is other's end
// that asks for the mitre with a; both boards lie on their side of the corner, so
// an edge is outer if it looks away from the other board.
//
// Fault: Askew, Apart or UnlikeThick unless the two lie in one plane and are
// equally thick; Misses if they run alike; Grazing if the cut is under 10° to the
// run of a.
func MitreWith(a Bar, end board.Side, other Bar, otherEnd board.Side) (geom.Plane, error) {
	if err := coplanar(a, other); err != nil {
		return geom.Plane{}, err
	}
	if alongside(a.Run, other.Run) {
		return geom.Plane{}, &Fault{Kind: Misses}
	}
	mine, theirs := a.outer(other.Out(otherEnd)), other.outer(a.Out(end))
	show := a.Plane(board.Show)
	out, ok := geom.Meet(a.Plane(mine), other.Plane(theirs), show)
	in, ok2 := geom.Meet(a.Plane(mine.Opposite()), other.Plane(theirs.Opposite()), show)
	if !ok || !ok2 {
		return geom.Plane{}, &Fault{Kind: Misses}
	}
	return EndAt(a.Frame, end, geom.Facing(out, in.Minus(out).Cross(a.Face)))
}

// outer returns the edge that looks away from a board which leaves the corner
// against out: the edge that looks most along it.
func (b Bar) outer(out geom.Vec) board.Side {
	if b.Edge.Dot(out) > 0 {
		return board.Far
	}
	return board.Near
}

// coplanar returns a Fault unless two bars lie between the same two planes.
func coplanar(a, b Bar) error {
	if !alongside(a.Face, b.Face) {
		return &Fault{Kind: Askew, Has: tipped(a.Face.Cross(b.Face).Length())}
	}
	if d := a.Thick.Size() - b.Thick.Size(); math.Abs(d) > geom.Touch {
		return &Fault{Kind: UnlikeThick, Has: a.Thick.Size(), Want: b.Thick.Size()}
	}
	if d := math.Abs(a.Thick.Middle().Over(b.Centre(geom.Vec{}))); d > geom.Touch {
		return &Fault{Kind: Apart, Has: d}
	}
	return nil
}

// MitreMate returns which of the bars an end of a is mitred with (rule 22): of
// those that lie in a's plane and cross it, the one whose centre line it meets
// furthest out of that end. Fault: TwoMates if two cross it there, Misses if none
// does; if none lies in its plane, the fault of the first.
func MitreMate(a Bar, end board.Side, others []Bar) (int, error) {
	best, far, ties := -1, math.Inf(-1), 1
	var fault error = &Fault{Kind: Misses}
	for i, b := range others {
		if err := coplanar(a, b); err != nil {
			if i == 0 {
				fault = err
			}
			continue
		}
		t, ok := b.Width.Middle().Hit(a.Centre(geom.Vec{}), a.Out(end))
		switch {
		case !ok || alongside(a.Run, b.Run):
		case t > far+geom.Touch:
			best, far, ties = i, t, 1
		case t > far-geom.Touch:
			ties++
		}
	}
	switch {
	case best < 0:
		return 0, fault
	case ties > 1:
		return best, &Fault{Kind: TwoMates, Count: ties}
	}
	return best, nil
}

// EndNearest returns the end of b that looks toward p from its home point: which
// end of a copy a corner at p belongs to.
func EndNearest(b Bar, home, p geom.Vec) board.Side {
	if p.Minus(home).Dot(b.Run) < 0 {
		return board.Start
	}
	return board.Finish
}

// CornerOf returns where the centre lines of two bars in one plane cross. ok is
// false if they run alike.
func CornerOf(a, b Bar) (at geom.Vec, ok bool) {
	return geom.Meet(a.Width.Middle(), b.Width.Middle(), a.Thick.Middle())
}
