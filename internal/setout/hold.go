package setout

import (
	"math"

	"scantling/internal/board"
	"scantling/internal/geom"
	"scantling/internal/steady"
)

// Hold returns the slab of a bar whose side with the given word lies on target:
// `left: P` (rule 10). size is the bar's width for an edge, its thickness for a
// face. at is the level or the side of "at level L", "at SIDE", or nil. A target
// parallel to the side needs none. Otherwise side and target meet where target
// crosses at; if that line is not square to the side, at the point of it on show,
// the bar's own show face (needed only for an edge with two leans).
//
// Fault: EndHeld if word is an end; NeedsLevel if at is missing; NoCrossing if at
// does not cross target; Unsteady if show is needed and nil.
func Hold(f Frame, word Dir, size float64, target geom.Plane, at, show *geom.Plane) (Slab, error) {
	s := f.Side(word)
	if s.IsEnd() {
		return Slab{}, &Fault{Kind: EndHeld, Side: s}
	}
	n := f.across(s)
	x, err := held(n, target, at, show)
	return slab(n, s, x, size), err
}

// HoldMiddle holds the bar's centre on target: across the thickness if
// board.Show or Under is given as across, across the width if Near or Far. The
// rest is as in Hold.
func HoldMiddle(f Frame, across board.Side, size float64, target geom.Plane, at, show *geom.Plane) (Slab, error) {
	if across.IsEnd() {
		return Slab{}, &Fault{Kind: EndHeld, Side: across}
	}
	n := f.across(across)
	x, err := held(n, target, at, show)
	return Slab{n, x - float64(size/2), x + float64(size/2)}, err
}

// HoldPoint holds one side through a point: each half of `corner: front left at
// POINT`. Fault: EndHeld.
func HoldPoint(f Frame, word Dir, size float64, p geom.Vec) (Slab, error) {
	s := f.Side(word)
	if s.IsEnd() {
		return Slab{}, &Fault{Kind: EndHeld, Side: s}
	}
	n := f.across(s)
	return slab(n, s, n.Dot(p), size), nil
}

// HoldCentre holds the bar's centre through a point, across the thickness or the
// width as in HoldMiddle: each half of `centre: POINT`. Fault: EndHeld.
func HoldCentre(f Frame, across board.Side, size float64, p geom.Vec) (Slab, error) {
	n := f.across(across)
	return HoldMiddle(f, across, size, geom.Facing(p, n), nil, nil)
}

// across returns the direction of the slab that s bounds.
func (f Frame) across(s board.Side) geom.Vec {
	if s.IsFace() {
		return f.Face
	}
	return f.Edge
}

// held returns n·x for the x a side with normal ±n is held to.
func held(n geom.Vec, target geom.Plane, at, show *geom.Plane) (float64, error) {
	switch {
	case alongside(n, target.N):
		return value(target, n), nil
	case at == nil:
		return 0, &Fault{Kind: NeedsLevel}
	}
	return crossing(target, *at, n, show)
}

// slab returns the slab along n whose side s lies at x.
func slab(n geom.Vec, s board.Side, x, size float64) Slab {
	if s&1 == 1 {
		return Slab{n, x - size, x}
	}
	return Slab{n, x, x + size}
}

// Looks checks the word before a target: with against the side must face it
// (normals opposed), without (flush with) look the same way, to within 1e-6 rad,
// a hundredth of a millimetre in 10 m. Whether they touch is checked on the
// finished boards. Fault: NotFacing, NotFlush.
func Looks(side, target geom.Plane, against bool) error {
	const askew = 1e-6
	switch {
	case against && side.N.Plus(target.N).Length() > askew:
		return &Fault{Kind: NotFacing}
	case !against && side.N.Distance(target.N) > askew:
		return &Fault{Kind: NotFlush}
	}
	return nil
}

// Plane returns the slab's face toward its N (high) or the other, facing out.
func (s Slab) Plane(high bool) geom.Plane {
	if high {
		return geom.Plane{N: s.N, D: s.Hi}
	}
	return geom.Plane{N: s.N.Negated(), D: -s.Lo}
}

// Middle returns the plane midway, facing N.
func (s Slab) Middle() geom.Plane { return geom.Plane{N: s.N, D: float64((s.Lo + s.Hi) / 2)} }

// Size returns the slab's thickness in mm.
func (s Slab) Size() float64 { return s.Hi - s.Lo }

// SideOf returns the plane of an edge or face of a bar, facing out, from the one
// slab that fixes it: Width for edges, Thick for faces.
func SideOf(s Slab, side board.Side) geom.Plane { return s.Plane(side&1 == 1) }

// Plane returns the plane of an edge or face, facing out.
func (b Bar) Plane(s board.Side) geom.Plane {
	if s.IsFace() {
		return SideOf(b.Thick, s)
	}
	return SideOf(b.Width, s)
}

// Centre returns the point of the bar's centre line nearest to p.
func (b Bar) Centre(p geom.Vec) geom.Vec {
	return b.point(b.Run.Dot(p), b.Width.Middle().D, b.Thick.Middle().D)
}

// point returns the point with the given coordinates along the bar's own ways.
func (b Bar) point(run, edge, face float64) geom.Vec {
	return b.Run.Times(run).Along(b.Edge, edge).Along(b.Face, face)
}

// Home returns the bar's home point (rule 14): its centre line at the plane of
// its hold's "at level", or, with nil or a plane it does not cross, nearest to the
// room's origin.
func (b Bar) Home(room Room, at *geom.Plane) geom.Vec {
	home := b.Centre(room.At)
	if at != nil {
		if t, ok := at.Hit(home, b.Run); ok {
			return home.Along(b.Run, t)
		}
	}
	return home
}

// tipped returns the angle whose sine is |s|, in radians.
func tipped(s float64) float64 { return steady.Asin(math.Min(1, math.Abs(s))) }
