package setout

import (
	"math"

	"scantling/internal/geom"
)

// An Anchor is "WHAT at P" of rule 11: the centre of the width, or the edge that
// looks toward Edge, passes through At. With Tucked it is "tucked into P": which
// edge passes through is found.
type Anchor struct {
	Centre bool
	Edge   Dir
	At     geom.Vec
	Tucked *Corner
}

// A Corner is what a board is tucked into: P is where Cut, the plane this end is
// cut to, meets Other. The board lies on the side of each where the other end's
// point lies, or, if that lies on it, where it faces.
type Corner struct{ Cut, Other geom.Plane }

// Between returns the orientation and the hold across the width of a bar run
// between two points, seen square to faces (rule 11), for a bar of the given
// width. words are those read at the default sizes; nil reads them now, and tie
// says that two were equally near.
//
// A tucked end takes the edge with which the board, cut there, enters neither
// plane of its corner. Opposite edges turn the run from PQ by ± asin(w/|PQ|), the
// same edges leave it along PQ: four pairings of two tucked ends, two of one.
//
// Fault: Short if opposite edges are asked and width ≥ |PQ|, or if P and Q are one
// point; Skew if neither edge looks toward an Anchor's word; NoTuck if every
// pairing enters a plane, TwoTucks if several enter none.
func Between(room Room, faces Dir, from, to Anchor, width float64, words *[6]Dir) (f Frame, across Slab, tie bool, err error) {
	s := stretched{room: room, face: room.Way(faces), from: from, to: to, width: width}
	line := to.At.Minus(from.At)
	line = line.Along(s.face, -line.Dot(s.face))
	if s.apart = line.Length(); s.apart <= geom.Touch {
		return f, across, false, &Fault{Kind: Short, Has: s.apart, Want: width}
	}
	s.way = line.Unit()
	s.aside = s.face.Cross(s.way)
	run, middle, err := s.fit()
	if err != nil {
		return f, across, false, err
	}
	if words == nil {
		var runs Dir
		runs, tie = room.nearestBut(run, faces.Axis(), -1)
		f = framed(room, run, s.face, runs, faces)
	} else {
		f = Frame{Run: run, Face: s.face, Edge: s.face.Cross(run), Words: *words}
	}
	return f, Slab{f.Edge, middle - float64(width/2), middle + float64(width/2)}, tie, nil
}

// stretched is a bar between two points, seen square to its face.
type stretched struct {
	room       Room
	face       geom.Vec
	way, aside geom.Vec // from P to Q, and a quarter turn left of that
	apart      float64  // |PQ|
	from, to   Anchor
	width      float64
}

// fit returns the run and where the centre line lies along face × run.
func (s *stretched) fit() (run geom.Vec, middle float64, err error) {
	firsts, ok := s.offsets(s.from)
	seconds, ok2 := s.offsets(s.to)
	if !ok || !ok2 {
		return run, 0, &Fault{Kind: Skew}
	}
	tucked := s.from.Tucked != nil || s.to.Tucked != nil
	fits, none := &Fault{Kind: TwoTucks}, &Fault{Kind: NoTuck, Has: math.Inf(1)}
	for _, first := range firsts {
		for _, second := range seconds {
			way, ok := s.turned(first - second)
			if !ok {
				continue
			}
			at := s.face.Cross(way).Dot(s.from.At) - first
			deep, where := s.enters(way, at)
			switch {
			case deep <= geom.Touch:
				fits.Runs = append(fits.Runs, way)
				run, middle = way, at
			case deep < none.Has:
				none.Has, none.At = deep, where
				fallthrough
			default:
				none.Runs = append(none.Runs, way)
			}
		}
	}
	switch {
	case len(fits.Runs) == 1:
		return run, middle, nil
	case len(fits.Runs) > 1:
		return run, middle, fits
	case tucked && none.Runs != nil:
		return run, middle, none
	}
	return run, middle, &Fault{Kind: Short, Has: s.apart, Want: s.width}
}

// offsets returns how far the anchor's line may lie from the centre line, toward
// aside.
func (s *stretched) offsets(a Anchor) ([]float64, bool) {
	half := s.width / 2
	switch toward := s.aside.Dot(s.room.Way(a.Edge)); {
	case a.Tucked != nil:
		return []float64{-half, half}, true
	case a.Centre:
		return []float64{0}, true
	case math.Abs(toward) > parallel:
		return []float64{math.Copysign(half, toward)}, true
	}
	return nil, false
}

// turned returns the run whose lines through P and Q lie so far from one another:
// it turns from PQ by asin(lines / |PQ|).
func (s *stretched) turned(lines float64) (geom.Vec, bool) {
	sin := lines / s.apart
	if math.Abs(sin) >= 1 {
		return geom.Vec{}, false
	}
	cos := math.Sqrt(1 - float64(sin*sin))
	return s.way.Times(cos).Along(s.aside, sin).Unit(), true
}

// enters returns how deep a bar, cut at its tucked ends, enters the planes of
// its corners, and where: it is judged at the corners the cuts leave.
func (s *stretched) enters(run geom.Vec, middle float64) (deep float64, where geom.Vec) {
	edge := s.face.Cross(run)
	for _, a := range [2]Anchor{s.from, s.to} {
		if a.Tucked == nil {
			continue
		}
		for _, off := range [2]float64{-s.width / 2, s.width / 2} {
			line := a.At.Along(edge, middle+off-edge.Dot(a.At))
			t, ok := a.Tucked.Cut.Hit(line, run)
			if !ok {
				return math.Inf(1), a.At
			}
			corner := line.Along(run, t)
			for _, b := range [2]Anchor{s.from, s.to} {
				if b.Tucked == nil {
					continue
				}
				if d := s.open(b).Over(corner); d > deep {
					deep, where = d, corner
				}
			}
		}
	}
	return deep, where
}

// open returns the other plane of a corner with the bar's side of it inside.
func (s *stretched) open(a Anchor) geom.Plane {
	far := s.to.At
	if a.At == far {
		far = s.from.At
	}
	p := a.Tucked.Other
	if p.Over(far) < -geom.Touch {
		return p
	}
	return p.Flipped()
}
