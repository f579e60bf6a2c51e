package part

import (
	"math"

	"scantling/internal/board"
	"scantling/internal/geom"
)

// A shape is what makes boards alike, in the frame of the blank: its size, its
// flat sides, the holes drilled before it is built in, and its worked edges.
type shape struct {
	size   geom.Vec
	volume float64
	sides  []flat
	holes  []board.Hole
	edges  []worked
}

// A flat is all of a board's outside that lies in one plane.
type flat struct {
	plane geom.Plane
	area  float64
	foot  geom.Vec // a point of the plane within the board
}

// A worked edge is one arris under the router.
type worked struct {
	work  board.EdgeWork
	size  float64
	along board.Arris
}

func (s shape) square() bool { return math.Abs(s.size.Y-s.size.Z) <= geom.Alike }

// shapeOf gathers the flats of a board plane by plane: which cut made a face
// does not matter to the saw, nor does the order of corners round it.
func shapeOf(b *board.Board) shape {
	s := shape{size: geom.Vec{X: b.L, Y: b.W.MM(), Z: b.T.MM()}, volume: b.Solid.Volume}
	for _, h := range b.Holes {
		if h.When == board.Bench { // the others come when boards are clamped or built in
			s.holes = append(s.holes, h)
		}
	}
	for _, f := range b.Solid.Faces {
		s.add(flat{f.Plane, f.Area(), f.Loops[0][0]})
	}
	for _, e := range b.Edges {
		for _, a := range e.Along {
			s.edges = append(s.edges, worked{e.Work, e.Size.MM(), a})
		}
	}
	return s
}

// add joins faces that lie in one plane.
func (s *shape) add(f flat) {
	for i, g := range s.sides {
		if g.plane.N.Dot(f.plane.N) > 1-1e-12 && math.Abs(g.plane.Over(f.foot)) <= geom.Same {
			s.sides[i].area += f.area
			return
		}
	}
	s.sides = append(s.sides, f)
}

// alike reports whether s, carried by a symmetry of its blank, is t to within
// geom.Alike.
//
// Equal planes bound a region of equal cells; which of the cells are wood shows in
// the area on each plane and in the volume, so corners need not be matched.
func (s shape) alike(t shape, by Symmetry) bool {
	size := s.size
	if by.Quarter {
		size.Y, size.Z = size.Z, size.Y
	}
	if size.Distance(t.size) > geom.Alike || len(s.sides) != len(t.sides) ||
		len(s.holes) != len(t.holes) || len(s.edges) != len(t.edges) {
		return false
	}
	// An area may differ by a strip Alike wide along its outline, a volume by
	// one over the board's outside.
	girth := 2 * (size.X + size.Y + size.Z)
	if math.Abs(s.volume-t.volume) > geom.Alike*girth*girth/4 {
		return false
	}
	long := size.Length()
	taken := make([]bool, len(t.sides))
	for _, f := range s.sides {
		n, foot := by.way(f.plane.N), by.point(f.foot, size)
		match := func(g flat) bool {
			return n.Distance(g.plane.N)*long <= geom.Alike && math.Abs(g.plane.Over(foot)) <= geom.Alike &&
				math.Abs(f.area-g.area) <= geom.Alike*girth
		}
		if !claim(taken, t.sides, match) {
			return false
		}
	}
	taken = make([]bool, len(t.holes))
	for _, h := range s.holes {
		at, way := by.point(h.At, size), by.way(h.Way)
		match := func(g board.Hole) bool {
			same := g.Kind == h.Kind && math.Abs(g.Diameter-h.Diameter) <= geom.Alike
			if h.Depth == 0 && g.Depth == 0 { // through: drilled from either side
				off := at.Minus(g.At)
				return same && math.Abs(math.Abs(way.Dot(g.Way))-1) <= 1e-9 && off.Along(g.Way, -off.Dot(g.Way)).Length() <= geom.Alike
			}
			return same && math.Abs(g.Depth-h.Depth) <= geom.Alike && at.Distance(g.At) <= geom.Alike && way.Distance(g.Way)*long <= geom.Alike
		}
		if !claim(taken, t.holes, match) {
			return false
		}
	}
	taken = make([]bool, len(t.edges))
	for _, e := range s.edges {
		along := board.NewArris(by.Side(e.along[0]), by.Side(e.along[1]))
		match := func(g worked) bool {
			return g.work == e.work && g.along == along && math.Abs(g.size-e.size) <= geom.Alike
		}
		if !claim(taken, t.edges, match) {
			return false
		}
	}
	return true
}

// claim takes the first thing not yet taken that matches.
func claim[T any](taken []bool, things []T, match func(T) bool) bool {
	for i, x := range things {
		if !taken[i] && match(x) {
			taken[i] = true
			return true
		}
	}
	return false
}
