package shop

import (
	"math"
	"slices"
	"strings"

	"scantling/internal/board"
	"scantling/internal/geom"
	"scantling/internal/phrase"
)

// hand is how much room, in mm, a hand with a sanding block or a brush wants in
// front of a face: 4 in. Source: common practice.
const hand = 4 * 25.4

// A shut is a side of a board that nobody reaches any more.
type shut struct {
	board int
	side  board.Side
}

// closings returns, by step, the sides that are out of reach once the step is
// done: those half of whose open wood, seen at places spread over it, then has
// another board in front of it nearer than a hand is thick. Wood that another board
// covers is not open.
func (s *shop) closings(together [][]int) [][]shut {
	out := make([][]shut, len(together))
	boxes := make([]geom.Box, len(s.piece.Boards))
	for i, b := range s.piece.Boards {
		boxes[i] = geom.EmptyBox()
		if b.Solid != nil {
			boxes[i] = b.Placed().Around()
		}
	}
	near := make([][]int, len(boxes))
	for _, p := range geom.Pairs(boxes, hand) {
		near[p[0]] = append(near[p[0]], p[1])
		near[p[1]] = append(near[p[1]], p[0])
	}
	never := len(together)
	for i, b := range s.piece.Boards {
		if b.Solid == nil || near[i] == nil {
			continue
		}
		meet := make([]int, len(near[i])) // when each comes near
		for k, j := range near[i] {
			meet[k] = slices.IndexFunc(together, func(now []int) bool { return now[i] != 0 && now[i] == now[j] })
			if meet[k] < 0 {
				meet[k] = never
			}
		}
		for side := board.Start; side <= board.Show; side++ {
			var when []int // by place: the step that shuts it
			for _, at := range places(b.Board, side) {
				covered, shuts := false, never
				way := b.Pose.OutWay(side.Out())
				for k, j := range near[i] {
					if meet[k] == never {
						continue
					}
					switch far := s.ahead(j, at, way); {
					case far <= geom.Touch:
						covered = true
					case far < hand:
						shuts = min(shuts, meet[k])
					}
				}
				if !covered {
					when = append(when, shuts)
				}
			}
			if len(when) == 0 {
				continue
			}
			slices.Sort(when)
			if n := when[(len(when)-1)/2]; n < never {
				out[n] = append(out[n], shut{i, side})
			}
		}
	}
	return out
}

// places are points spread over a side of a board, where it has wood.
func places(b *board.Board, side board.Side) []geom.Vec {
	size := [3]float64{b.L, b.W.MM(), b.T.MM()}
	axis := int(side) / 2
	u, v := (axis+1)%3, (axis+2)%3
	var out []geom.Vec
	for _, f := range b.Solid.Faces {
		if board.Side(f.Tag) != side || b.CutAt(f.Tag) != nil && !onSide(b, f.Tag, side) {
			continue
		}
		for i := range 4 {
			for k := range 2 {
				var c [3]float64
				c[u], c[v] = float64(size[u]*(float64(i)+0.5))/4, float64(size[v]*(float64(k)+0.5))/2
				if size[v] > size[u] {
					c[u], c[v] = float64(size[u]*(float64(k)+0.5))/2, float64(size[v]*(float64(i)+0.5))/4
				}
				if int(side)%2 == 1 {
					c[axis] = size[axis]
				}
				at := geom.Vec{X: c[0], Y: c[1], Z: c[2]}
				if within(f, at) {
					out = append(out, b.Pose.Out(at))
				}
			}
		}
	}
	return out
}

// onSide reports whether the cut that made a face is of a side.
func onSide(b *board.Board, t geom.Tag, side board.Side) bool {
	of, ok := sideOf(b, t)
	return ok && of == side
}

// within reports whether a point of a face's plane lies in the face.
func within(f geom.Face, at geom.Vec) bool {
	if math.Abs(f.Plane.Over(at)) > geom.Touch {
		return false
	}
	return slices.ContainsFunc(f.Pieces, func(poly []geom.Vec) bool {
		for i, p := range poly {
			q := poly[(i+1)%len(poly)]
			if q.Minus(p).Cross(at.Minus(p)).Dot(f.Plane.N) < -geom.Same {
				return false
			}
		}
		return true
	})
}

// ahead returns how far a board lies ahead of a point, in mm; infinite when it
// does not.
func (s *shop) ahead(i int, at, way geom.Vec) float64 {
	b := s.piece.Boards[i]
	here, along := b.Pose.In(at), b.Pose.InWay(way)
	best := math.Inf(1)
	for _, c := range b.Solid.Cells {
		if from, to := c.Ahead(here, along); to > from-geom.Touch && to > -geom.Touch {
			best = math.Min(best, from)
		}
	}
	return best
}

// sand names what to sand, and to finish where it is to be finished, before a
// step shuts it off.
func (s *shop) sand(sides []shut) Around {
	var names []string
	kinds := map[string]*[3]bool{}
	for _, x := range sides {
		name := phrase.Spaced(s.piece.Boards[x.board].Name)
		k := kinds[name]
		if k == nil {
			k = &[3]bool{}
			kinds[name] = k
			names = append(names, name)
		}
		switch {
		case x.side.IsFace():
			k[0] = true
		case x.side.IsEdge():
			k[1] = true
		default:
			k[2] = true
		}
	}
	var parts []string
	edges := false
	for _, name := range names {
		var what []string
		for i, word := range []string{"faces", "edges", "ends"} {
			if kinds[name][i] {
				what = append(what, word)
			}
		}
		edges = edges || kinds[name][1]
		parts = append(parts, name+" ("+strings.Join(what, ", ")+")")
	}
	if parts == nil {
		return Around{}
	}
	words := "where no hand gets in afterwards: " + phrase.List(parts)
	if edges {
		words += "; ease the sharp edges there too, but not where two boards meet"
	}
	if s.finished() {
		words += ", and give them their coats now"
	}
	return reading("sand", Words(words), practice)
}

// finished reports whether the piece gets a finish.
func (s *shop) finished() bool {
	with := s.piece.Finish.With
	return with != "" && with != "none"
}
