package stability

import (
	"math"

	"scantling/internal/cite"
	"scantling/internal/geom"
)

// A Test is one published or plain load case of stability.
type Test struct {
	Name  string
	Loads []Load
	Least float64 // the factor asked for
	From  cite.Source
}

// Seat is where people sit: of one seat the middle of its front edge and of its
// back, the ends of its width, and its height, mm. Front looks out of the seat,
// level, unit.
type Seat struct {
	FrontEdge, BackEdge geom.Vec
	Left, Right         geom.Vec // middles of the side edges
	Front               geom.Vec
	Back                bool // it has a back to lean on
}

var (
	en1022 = cite.Source{Work: "EN 1022:2018, stability of seating", Basis: cite.Read}
	behind = cite.Source{Work: "EN 1022:2018, rearward overturning", Basis: cite.Memory}
)

// SeatTests returns the published stability tests of a seat: 600 N down 60 mm
// behind the front edge with 20 N outward, the same at either side, and leaning
// back.
//
//	rearward: 600 N on the seat, level on the back F = 0.2857·(1000 − H), at least
//	80 N, 300 mm above the seat, H the seat's height
//
// Source: EN 1022:2018, forward and sideways read, rearward from memory.
func SeatTests(s Seat) []Test {
	down := func(at geom.Vec) Load { return Load{at, geom.Vec{Z: -600}} }
	out := func(at, way geom.Vec) Load { return Load{at, way.Times(20)} }
	tests := []Test{{"leaning forward", []Load{down(s.FrontEdge.Along(s.Front, -60)), out(s.FrontEdge, s.Front)}, 1, en1022}}
	side := s.Left.Minus(s.Right).Unit()
	tests = append(tests,
		Test{"leaning to the left", []Load{down(s.Left.Along(side, -60)), out(s.Left, side)}, 1, en1022},
		Test{"leaning to the right", []Load{down(s.Right.Along(side, 60)), out(s.Right, side.Negated())}, 1, en1022})
	if s.Back {
		height := s.BackEdge.Z
		push := math.Max(80, 0.2857*(1000-height))
		tests = append(tests, Test{"leaning back", []Load{
			down(s.BackEdge.Along(s.Front, 175)),
			{s.BackEdge.Plus(geom.Vec{Z: 300}), s.Front.Times(-push)},
		}, 1, behind})
	}
	return tests
}

// EdgeTests returns a weight on the edge of a top at each of the places given, 50
// mm in, as a table is tried.
//
// Source: EN 581-3:2017, vertical load at the edge, the greater of 200 to 400 N
// (from memory).
func EdgeTests(newton float64, edges map[string]geom.Vec, inward map[string]geom.Vec, order []string) []Test {
	var out []Test
	for _, name := range order {
		at := edges[name].Along(inward[name], 50)
		out = append(out, Test{"a weight on the " + name, []Load{{at, geom.Vec{Z: -newton}}}, 1,
			cite.Source{Work: "EN 581-3:2017, stability under a vertical load", Basis: cite.Memory}})
	}
	return out
}
