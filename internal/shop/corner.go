package shop

import (
	"math"
	"slices"

	"scantling/internal/board"
	"scantling/internal/geom"
)

// beyond words where a face lies, d mm beyond a point in the direction it looks:
// by a word of the room where it looks that way within 18 degrees.
func beyond(n geom.Vec, d float64) string {
	if d < 0 {
		n = n.Negated()
	}
	for _, w := range []struct {
		along float64
		words string
	}{{n.Z, "above"}, {-n.Z, "below"}, {n.X, "right of"}, {-n.X, "left of"}, {n.Y, "behind"}, {-n.Y, "in front of"}} {
		if w.along > 0.95 {
			return " " + w.words + " "
		}
	}
	return " from "
}

// corner fixes one direction that is left when no face of board i is square to
// it: by how far a corner of the board, at the given end or at either, stands from
// a face of a board there, or a face of the board from a corner there. ok is
// false if nothing looks that way.
//
// Of all such pairs it takes a corner a rule can be laid at, one that lies in the
// faces of the marks chosen before; then a board that is touched; then a face
// square to the direction; then the nearest.
func (s *shop) corner(i int, boards []int, touching int, chosen []placeMark, end *board.Side) (placeMark, bool) {
	b := s.piece.Boards[i]
	var best placeMark
	var rank [4]float64
	found := false
	consider := func(n int, normal, at geom.Vec, mm float64, m placeMark) {
		left := remaining(chosen, normal)
		if left.Length() < math.Sqrt2/2 {
			return
		}
		r := [4]float64{float64(len(chosen) - onMarks(at, chosen)), 0, math.Round((1 - left.Length()) * 1e3), math.Round(mm / geom.Touch)}
		if n >= touching {
			r[1] = 1
		}
		if !found || slices.Compare(r[:], rank[:]) < 0 {
			best, rank, found = m, r, true
			best.face = geom.Facing(at, left)
		}
	}
	for n, k := range boards {
		other := s.piece.Boards[k]
		for _, g := range s.facings(k) {
			for _, c := range s.corners(i) {
				if end != nil && c.end != *end {
					continue
				}
				d := g.plane.Over(c.at)
				consider(n, g.plane.N, c.at, math.Abs(d), placeMark{point: true, end: c.end, say: func() Text {
					return Words(c.name(b.Board) + " ").
						Show(s.pen.Length(math.Abs(d), between(b, other))).Say(inOrOut(d) + the(other, g.tag))
				}})
			}
		}
		if end != nil {
			continue
		}
		for _, f := range s.facings(i) {
			for _, c := range s.corners(k) {
				d := -f.plane.Over(c.at)
				consider(n, f.plane.N, c.at, math.Abs(d), placeMark{say: func() Text {
					return Words(faceName(b.Board, f.tag) + " ").
						Show(s.pen.Length(math.Abs(d), between(b, other))).Say(beyond(f.plane.N, d) + "the " + c.name(other.Board) + " of the " + other.Spoken)
				}})
			}
		}
	}
	return best, found
}

// farMark returns a mark at the other end of a long board that so far is turned
// by a short end or a corner alone: half a degree there is 1/8 in over 14 in.
func (s *shop) farMark(i int, boards []int, touching int, chosen []placeMark) (placeMark, bool) {
	b := s.piece.Boards[i]
	if b.L <= longestLine || len(chosen) < 3 || chosen[1].long || chosen[2].long {
		return placeMark{}, false
	}
	for n, m := range chosen {
		if m.point && math.Abs(b.Pose.X.Dot(m.face.N)) < math.Sqrt2/2 {
			others := append(append([]placeMark(nil), chosen[:n]...), chosen[n+1:]...)
			end := m.end.Opposite()
			return s.corner(i, boards, touching, others, &end)
		}
	}
	return placeMark{}, false
}

// A cornerOf is a corner of a board's end, in the piece.
type cornerOf struct {
	at        geom.Vec
	end, edge board.Side
}

func (c cornerOf) name(b *board.Board) string {
	return b.Sides[c.end] + " " + b.Sides[c.edge] + " corner"
}

// corners returns the corners of a board's two ends.
func (s *shop) corners(i int) []cornerOf {
	if out, ok := s.tips[i]; ok {
		return out
	}
	b := s.piece.Boards[i]
	var out []cornerOf
	for _, f := range b.Solid.Faces {
		side, own := sideOf(b.Board, f.Tag)
		if !own || !side.IsEnd() {
			continue
		}
		for _, v := range f.Loops[0] {
			edge := board.Near
			if v.Y > b.W.MM()/2 {
				edge = board.Far
			}
			out = append(out, cornerOf{b.Pose.Out(v), side, edge})
		}
	}
	s.tips[i] = out
	return out
}

// onMarks returns in how many of the chosen marks' faces a point lies.
func onMarks(at geom.Vec, chosen []placeMark) int {
	n := 0
	for _, m := range chosen {
		if math.Abs(m.face.Over(at)) <= geom.Touch {
			n++
		}
	}
	return n
}
