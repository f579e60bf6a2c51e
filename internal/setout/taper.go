package setout

import (
	"math"

	"scantling/internal/board"
	"scantling/internal/geom"
)

// TaperPlane returns the plane of a taper in piece coordinates, facing the waste
// (rule 19): it leaves the sawn side from mm along the side from its corner at end
// at, and reaches the point of the other end's cut that lies wide mm square from
// the opposite side. Corners are read on the show face (a tapered edge) or on the
// Near edge (a tapered face).
//
// It needs the two ends but not the board's length, so that others may read it
// before that is known; neither end may be Loose. Fault: EndHeld if side is an
// end, TooWide unless wide lies within the bar, BeyondEnd if from is negative or
// leaves no run.
func TaperPlane(b Bar, start, finish End, side, at board.Side, from, wide float64) (geom.Plane, error) {
	t, err := b.tapering([2]End{start, finish}, side, at)
	if err != nil {
		return geom.Plane{}, err
	}
	if !(wide > 0 && wide < t.size) {
		return geom.Plane{}, &Fault{Kind: TooWide, Has: wide, Want: t.size, Side: side}
	}
	edge := t.line(0)
	leaves := firstHit(t.near, edge, t.out) - from
	foot := t.line(t.size - wide)
	return t.plane(edge, leaves, foot, firstHit(t.far, foot, t.in), from)
}

// TaperBoth returns the planes of a taper on both sides, Near or Under first:
// symmetrical about the centre line, wide mm between them where the centre line
// meets the other end. from runs from whichever corner lies further in. Faults as
// for TaperPlane.
func TaperBoth(b Bar, start, finish End, side, at board.Side, from, wide float64) ([2]geom.Plane, error) {
	var out [2]geom.Plane
	ends := [2]End{start, finish}
	t, err := b.tapering(ends, side, at)
	if err != nil {
		return out, err
	}
	if !(wide > 0 && wide < t.size) {
		return out, &Fault{Kind: TooWide, Has: wide, Want: t.size, Side: side}
	}
	corner := min(firstHit(t.near, t.line(0), t.out), firstHit(t.near, t.line(t.size), t.out))
	reach := firstHit(t.far, t.line(t.size/2), t.in)
	for i, s := range [2]board.Side{side &^ 1, side | 1} {
		one, err := b.tapering(ends, s, at)
		if err != nil {
			return out, err
		}
		out[i], err = one.plane(one.line(0), corner-from, one.line((t.size-wide)/2), reach, from)
		if err != nil {
			return out, err
		}
	}
	return out, nil
}

// tapering is a bar seen square to the taper: lines along the run lie so far in
// from the sawn side.
type tapering struct {
	side      board.Side
	size      float64  // between the sawn side and the opposite one
	corner    geom.Vec // on the sawn side, where corners are read
	into      geom.Vec // from the sawn side into the wood
	third     geom.Vec // the way the taper runs square through
	out, in   geom.Vec // along the run: out of the end measured from, and back
	near, far []geom.Plane
}

func (b Bar) tapering(ends [2]End, side, at board.Side) (tapering, error) {
	if side.IsEnd() || !at.IsEnd() {
		return tapering{}, &Fault{Kind: EndHeld, Side: side}
	}
	t := tapering{side: side, size: b.Width.Size(), into: b.Out(side).Negated(), third: b.Face,
		out: b.Out(at), in: b.Out(at.Opposite()), near: ends[at].Planes, far: ends[at.Opposite()].Planes}
	read := b.Thick.Hi
	if side.IsFace() {
		t.size, t.third, read = b.Thick.Size(), b.Edge, b.Width.Lo
	}
	t.corner = b.point(0, 0, 0).Along(b.Out(side), b.Plane(side).D).Along(t.third, read)
	return t, nil
}

// line returns the point, level with the piece's origin along the run, of the
// line that lies so far in from the sawn side.
func (t tapering) line(in float64) geom.Vec { return t.corner.Along(t.into, in) }

// plane returns the plane square through from one line at a distance along out to
// another at a distance along in.
func (t tapering) plane(edge geom.Vec, leaves float64, foot geom.Vec, reaches, from float64) (geom.Plane, error) {
	if run := leaves + reaches; from < 0 || !(run > geom.Touch) {
		return geom.Plane{}, &Fault{Kind: BeyondEnd, Has: from, Want: from + run, Side: t.side}
	}
	return t.through(edge.Along(t.out, leaves), foot.Along(t.in, reaches)), nil
}

// through returns the plane square through two points that faces away from the
// wood.
func (t tapering) through(a, z geom.Vec) geom.Plane {
	n := t.third.Cross(z.Minus(a))
	if n.Dot(t.into) > 0 {
		n = n.Negated()
	}
	return geom.Facing(a, n)
}

// TaperCut returns the cut of a taper plane on a blank.
func (b Blank) TaperCut(name string, p geom.Plane, side board.Side, mark board.Mark) board.Cut {
	return board.Cut{Kind: board.Taper, Name: name, Side: side, Plane: b.Pose().InPlane(p), Mark: mark}
}

// SnipPlane returns the plane of a corner sawn off, in piece coordinates, facing
// the waste: it leaves a side of the bar along mm from its corner at an end, and
// reaches the point of that end's cut that lies across mm in, square from the side.
// The corner is read as for TaperPlane, and the end may not be Loose. Fault: EndHeld
// if side is an end or at is none, TooWide unless across lies within the bar,
// BeyondEnd unless along is more than
// Want, where the cut would lie in the end's own.
func SnipPlane(b Bar, end End, side, at board.Side, along, across float64) (geom.Plane, error) {
	t, err := b.tapering([2]End{end, end}, side, at)
	if err != nil {
		return geom.Plane{}, err
	}
	if !(across > 0 && across < t.size) {
		return geom.Plane{}, &Fault{Kind: TooWide, Has: across, Want: t.size, Side: side}
	}
	edge, foot := t.line(0), t.line(across)
	corner, reaches := firstHit(t.near, edge, t.out), firstHit(t.near, foot, t.out)
	if least := math.Max(0, corner-reaches); !(along > least) {
		return geom.Plane{}, &Fault{Kind: BeyondEnd, Has: along, Want: least, Side: side}
	}
	return t.through(edge.Along(t.out, corner-along), foot.Along(t.out, reaches)), nil
}

// SnipCut returns the cut of a snip plane at an end of a blank.
func (b Blank) SnipCut(name string, p geom.Plane, at board.Side) board.Cut {
	return board.Cut{Kind: board.Snip, Name: name, Side: at, Plane: b.Pose().InPlane(p)}
}
