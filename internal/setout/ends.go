package setout

import (
	"math"

	"scantling/internal/board"
	"scantling/internal/geom"
	"scantling/internal/steady"
)

// grazing is the least angle between an end plane and the run: under 10° a point
// is longer than 5.7 times the width, which no saw cuts and nobody wants.
const grazing = 10 * math.Pi / 180

// EndAt returns the end plane of a position, a side or any other plane, turned
// to face out of the end (rule 12). end is board.Start or Finish. Fault: Grazing
// if target lies under 10° to the run.
func EndAt(f Frame, end board.Side, target geom.Plane) (geom.Plane, error) {
	slant := f.Out(end).Dot(target.N)
	if angle := tipped(slant); angle < grazing-parallel {
		return target, &Fault{Kind: Grazing, Has: angle, Want: grazing, Side: end}
	}
	if slant < 0 {
		return target.Flipped(), nil
	}
	return target, nil
}

// EndClear is EndAt for {to: target, clearance: c}: c mm short of target, square
// to it.
func EndClear(f Frame, end board.Side, target geom.Plane, clearance float64) (geom.Plane, error) {
	p, err := EndAt(f, end, target)
	return p.Shifted(-clearance), err
}

// A Reach says which corner of a square end touches the plane it is cut to.
type Reach int8

const (
	Highest Reach = iota // the highest corner touches: a top stays under the plane
	Lowest               // the lowest corner touches: a foot stays above it
	Past                 // the corner that gets there last: the end is wholly past it
)

// EndSquare returns the end of {cut: square, highest|lowest|past: target}: square
// to the run, one corner touching target. Of corners equally high the one that
// gets there last counts. Fault: Grazing as for EndAt.
func EndSquare(b Bar, end board.Side, reach Reach, target geom.Plane) (geom.Plane, error) {
	if _, err := EndAt(b.Frame, end, target); err != nil {
		return target, err
	}
	out := b.Out(end)
	sign := 1.0
	if reach == Lowest {
		sign = -1
	}
	far, top := math.Inf(-1), math.Inf(-1)
	for _, corner := range b.arrises() {
		t, _ := target.Hit(corner, out)
		height := float64(sign * corner.Z)
		switch {
		case reach == Past, height > top-geom.Same && height < top+geom.Same:
			far = math.Max(far, t)
			top = math.Max(top, height)
		case height > top:
			far, top = t, height
		}
	}
	return geom.Facing(b.point(0, 0, 0).Along(out, far), out), nil
}

// arrises returns a point of each of the bar's four arrises, all on one plane
// square to the run through the piece's origin.
func (b Bar) arrises() [4]geom.Vec {
	return [4]geom.Vec{
		b.point(0, b.Width.Lo, b.Thick.Lo), b.point(0, b.Width.Hi, b.Thick.Lo),
		b.point(0, b.Width.Lo, b.Thick.Hi), b.point(0, b.Width.Hi, b.Thick.Hi),
	}
}

// EndTo returns the side of other that b's centre line meets first going out of
// end, and the end plane against it: "to PART". Fault: Misses if the line passes
// by, TwoSides if it meets an arris or one of b's arrises meets another side
// (arrises that pass by apart), Grazing as for EndAt.
func EndTo(b Bar, end board.Side, other Bar) (side board.Side, p geom.Plane, err error) {
	out := b.Out(end)
	side, tie, ok := other.entry(b.Centre(geom.Vec{}), out)
	switch {
	case !ok:
		return 0, p, &Fault{Kind: Misses}
	case tie:
		return side, p, &Fault{Kind: TwoSides, Side: side}
	}
	for _, corner := range b.arrises() {
		if s, tie, ok := other.entry(corner, out); ok && !tie && s != side {
			return side, p, &Fault{Kind: TwoSides, Side: side}
		}
	}
	p, err = EndAt(b.Frame, end, other.Plane(side))
	return side, p, err
}

// entry returns the side by which a line enters the endless bar; tie says that
// it enters over an arris.
func (b Bar) entry(at, way geom.Vec) (side board.Side, tie, ok bool) {
	in, out := math.Inf(-1), math.Inf(1)
	for s := board.Near; s <= board.Show; s++ {
		p := b.Plane(s)
		t, hits := p.Hit(at, way)
		switch {
		case !hits:
			if p.Over(at) > -geom.Touch { // runs along this side, outside or on it
				return 0, false, false
			}
		case p.N.Dot(way) > 0:
			out = math.Min(out, t)
		case t > in+geom.Touch:
			in, side, tie = t, s, false
		case t > in-geom.Touch:
			tie = true
		}
	}
	return side, tie, in < out-geom.Touch
}

// LooseSquare returns an end square to the run whose place follows from the
// length.
func LooseSquare(f Frame, end board.Side) End {
	return End{Planes: []geom.Plane{{N: f.Out(end)}}, Loose: true}
}

// LooseAngled returns an end sawn mitre radians across the show face and bevel
// radians through the thickness, whose place follows from the length:
// {mitre|bevel: angle, long point: side}. mitreLong is the edge that keeps the
// long point of the mitre, bevelLong the face that keeps that of the bevel; the
// one whose angle is 0 is not looked at. Fault: Skew if mitreLong is no edge or
// bevelLong no face; Grazing under 10° to the run.
func LooseAngled(f Frame, end board.Side, mitre float64, mitreLong board.Side, bevel float64, bevelLong board.Side) (End, error) {
	if mitre != 0 && !mitreLong.IsEdge() || bevel != 0 && !bevelLong.IsFace() {
		return End{}, &Fault{Kind: Skew, Side: end}
	}
	if worst := math.Max(math.Abs(mitre), math.Abs(bevel)); !(worst <= math.Pi/2-grazing) {
		return End{}, &Fault{Kind: Grazing, Has: math.Pi/2 - worst, Want: grazing, Side: end}
	}
	// The blade swings, then tips; the cut falls back from the side with the long
	// point, so its normal leans away from it. See board.Setting.
	n := f.Out(end).Times(steady.Cos(mitre))
	if mitre != 0 {
		n = n.Along(f.Out(mitreLong), -steady.Sin(mitre))
	}
	if bevel != 0 {
		n = n.Times(steady.Cos(bevel)).Along(f.Out(bevelLong), -steady.Sin(bevel))
	}
	p, err := EndAt(f, end, geom.Plane{N: n})
	return End{Planes: []geom.Plane{p}, Loose: true}, err
}
