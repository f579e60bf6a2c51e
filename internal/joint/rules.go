package joint

import (
	"math"

	"scantling/internal/measure"
	"scantling/internal/screw"
)

// inchOf returns an inch for what is sold by the inch, 25 mm for what is sold by the
// millimetre.
func inchOf(w screw.Fastener) measure.Length {
	if w.Metric() {
		return 25 * measure.Millimetre
	}
	return measure.Inch
}

// biteOf returns how much of a screw or nail the far board must hold: an inch, two
// in end grain; of those thicker than no. 10 or 5 mm six diameters, of lag screws
// four, where that is more. What a structural screw wants beyond the inch its maker
// says.
//
// Source: common practice; AWC NDS 2018, 12.1.4 to 12.1.6, least penetration (from
// memory, the six diameters read in a public implementation).
func biteOf(w screw.Fastener, endGrain bool) measure.Length {
	least := inchOf(w)
	switch d := w.Diameter(); {
	case w.Family == screw.LagScrew:
		least = max(least, 4*d)
	case d > 5*measure.Millimetre && w.Family != screw.Structural:
		least = max(least, 6*d)
	}
	if endGrain {
		return max(least, 2*inchOf(w))
	}
	return least
}

// coverOf returns the wood left beyond the tip of a screw or nail: a quarter inch,
// 6 mm. Source: common practice.
func coverOf(w screw.Fastener) measure.Length {
	if w.Metric() {
		return 6 * measure.Millimetre
	}
	return measure.Inch / 4
}

// apartBy is the wood there should be between two fasteners that cross: 1/8 in,
// as far as a bit wanders over a hand's breadth. Source: common practice.
const apartBy = 25.4 / 8

// perPair is how many fasteners a pair takes when its pattern names no number:
// two at a crossing. Source: common practice.
const perPair = 2

// comfort is how far from a board's edge a fastener stands when nobody has said
// and there is room: a quarter of the width, at most an inch. Source: common
// practice.
const comfort = 25.4

// A room is how much wood a fastener wants round it, in diameters: to an edge and
// to an end of a board, and to the next fastener along and across the grain.
type room struct{ edge, end, along, across float64 }

// rooms are three degrees of room: what the standard gives full strength for, the
// least it allows, and the least that can be drilled at all. A pattern is laid
// with the first that fits, and what falls short of the first is said.
//
// Source: AWC NDS 2018 commentary, tables C12.1.5.7 and C12.1.6.6, prebored
// (under 1/4 in), and tables 12.5.1A to 12.5.1D (1/4 in and over), both from
// memory; the last degree, and 3 diameters between washers, common practice.
var rooms = [2][3]room{
	{{2.5, 10, 10, 5}, {2.5, 5, 5, 3}, {1.5, 1.5, 3, 3}},
	{{1.5, 4, 4, 3}, {1.5, 2, 3, 3}, {1, 1.5, 3, 3}},
}

// rim is the wood, in mm, that is left between a counterbore and an edge. Source:
// common practice, 1/8 in.
const rim = 25.4 / 8

// roomsOf returns the degrees of room of a fastener, in mm; one whose head or nut
// is sunk stands far enough from an edge for its counterbore.
func roomsOf(f screw.Fastener, sunk [2]float64) (out [3]room) {
	d := f.Diameter().MM()
	large := 0
	if f.Diameter() >= measure.Inch/4 {
		large = 1
	}
	for i, r := range rooms[large] {
		out[i] = room{float64(r.edge * d), float64(r.end * d), float64(r.along * d), float64(r.across * d)}
		if sunk != [2]float64{} {
			out[i].edge = math.Max(out[i].edge, float64(f.Counterbore().MM()/2)+rim)
			out[i].end = math.Max(out[i].end, out[i].edge)
		}
	}
	return out
}

// ruleOf names where the distances of a fastener come from.
func ruleOf(f screw.Fastener) string {
	if f.Diameter() >= measure.Inch/4 {
		return "AWC NDS 2018, tables 12.5.1A to 12.5.1D (from memory)"
	}
	return "AWC NDS 2018 commentary, tables C12.1.5.7 and C12.1.6.6, drilled (from memory)"
}
