package joint

import (
	"scantling/internal/measure"
	"scantling/internal/screw"
)

// What a screw or nail needs of the wood it ends in. Source: common practice.
const (
	leastBite    = measure.Inch     // in the far board, across its grain
	leastEndBite = 2 * measure.Inch // in the far board's end grain
	tipCover     = measure.Inch / 4 // left beyond the tip
)

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

// roomsOf returns the degrees of room of a fastener, in mm.
func roomsOf(f screw.Fastener) (out [3]room) {
	d := f.Diameter().MM()
	large := 0
	if f.Diameter() >= measure.Inch/4 {
		large = 1
	}
	for i, r := range rooms[large] {
		out[i] = room{float64(r.edge * d), float64(r.end * d), float64(r.along * d), float64(r.across * d)}
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
