package shop

import (
	"cmp"
	"math"
	"slices"

	"scantling/internal/board"
	"scantling/internal/design"
	"scantling/internal/geom"
	"scantling/internal/span"
)

// beyond words where a face lies, d mm beyond a point in the direction it looks:
// by a word of the room where it looks that way within 18 degrees.
func beyond(n geom.Vec, d float64) string {
	outward := d > 0
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
	return map[bool]string{true: " out past ", false: " in from "}[outward]
}

// corner fixes one direction that is left when no face of board i is square to
// it: by how far a corner of the board, at the given end or at either, stands from
// a face of a board there, or a face of the board from a corner there. Near
// asks for a face near that corner. ok is false if nothing looks that way.
//
// Of all such pairs it takes one that is not vague; then a corner a rule can be laid at, one that lies in the
// faces of the marks chosen before; then a board that is touched; then a face
// square to the direction; then the nearest.
func (s *shop) corner(i int, boards []int, touching int, chosen []placeMark, end *board.Side, near bool) (placeMark, bool) {
	b := s.piece.Boards[i]
	var best placeMark
	var rank [6]float64
	found := false
	consider := func(n int, normal, at geom.Vec, mm, away float64, vague bool, m placeMark) {
		left := remaining(chosen, normal)
		if least := map[bool]float64{true: math.Sqrt2 / 2, false: independent}[end == nil]; left.Length() < least {
			return
		}
		r := [6]float64{0, float64(len(chosen) - onMarks(at, chosen)), 0, math.Round(away / geom.Touch), math.Round((1 - left.Length()) * 1e3), math.Round(mm / geom.Touch)}
		if vague {
			r[0] = 1
		}
		if n >= touching {
			r[2] = 1
		}
		if !found || slices.Compare(r[:], rank[:]) < 0 {
			best, rank, found = m, r, true
			best.face, best.ref, best.way = geom.Facing(at, left), at, normal
		}
	}
	for n, k := range boards {
		other := s.piece.Boards[k]
		for _, g := range s.facings(k) {
			for _, c := range s.corners(i) {
				if end != nil && c.end != *end {
					continue
				}
				vague := g.vague(other, c.at)
				away := 0.0
				if end != nil {
					if away = nearestOf(g.rim, c.at); near && away > math.Max(extent(g.rim), rule) || vague {
						continue
					}
				}
				d := g.plane.Over(c.at)
				consider(n, g.plane.N, c.at, math.Abs(d), away, vague, placeMark{point: true, end: c.end, say: func() Text {
					if s.pen.Length(math.Abs(d), span.Set{}).Printed() == 0 {
						return Words(c.name(b.Board) + " flush with " + the(other, g.tag))
					}
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
				consider(n, f.plane.N, c.at, math.Abs(d), 0, f.vague(b, c.at), placeMark{say: func() Text {
					return Words(faceName(b.Board, f.tag) + " ").
						Show(s.pen.Length(math.Abs(d), between(b, other))).Say(beyond(f.plane.N, d) + "the " + c.name(other.Board) + " of the " + other.Spoken)
				}})
			}
		}
	}
	return best, found
}

// bothEnds marks a long board at its other end too if so far no two true faces turn
// it: half a degree at a short end is 1/8 in over 14 in. Of the marks that hold it
// across its length it takes the last, and a corner as far from there as any that a
// rule reaches.
func (s *shop) bothEnds(i int, boards []int, touching int, chosen []placeMark) []placeMark {
	b := s.piece.Boards[i]
	if b.L <= longestLine || len(chosen) < 3 {
		return chosen
	}
	turning, lies := 0, chosen[0].face.N
	for _, m := range chosen {
		if m.turns {
			turning, lies = turning+1, m.face.N
		}
	}
	if turning > 1 { // their directions are independent
		return chosen
	}
	for n := len(chosen) - 1; n >= 0; n-- {
		m := chosen[n]
		if m.turns || math.Abs(b.Pose.X.Dot(m.face.N)) > across {
			continue
		}
		others := append(append([]placeMark(nil), chosen[:n]...), chosen[n+1:]...)
		held := append(others, m)
		turns := func(far placeMark, ok bool) bool { return ok && math.Abs(swing(held, far, lies)) > b.L/8 }
		if far, ok := s.again(i, boards, m); turns(far, ok) {
			return append(held, far)
		}
		if far, ok := s.farCorner(i, boards, touching, m, others); turns(far, ok) {
			return append(held, far)
		}
		for _, far := range s.against(i, boards[:touching]) { // it goes between two
			if turns(far, lever(b, m.ref, far.ref)) {
				return append(held, far)
			}
		}
		if far, ok := s.tips(i, boards[:touching], others, m.ref); turns(far, ok) {
			return append(held, far)
		}
	}
	return chosen
}

// swing returns how far, in mm a radian, a board moves along mark far when it is
// turned about an axis and slides so that three marks hold.
func swing(held []placeMark, far placeMark, axis geom.Vec) float64 {
	moves := func(m placeMark) (n geom.Vec, mm float64) {
		if n = m.way; n == (geom.Vec{}) {
			n = m.face.N
		}
		return n, n.Dot(axis.Cross(m.ref.Minus(far.ref)))
	}
	var planes [3]geom.Plane
	for k, m := range held[:3] {
		n, mm := moves(m)
		planes[k] = geom.Plane{N: n, D: -mm}
	}
	slide, ok := geom.Meet(planes[0], planes[1], planes[2])
	if !ok {
		return 0
	}
	n, mm := moves(far)
	return mm + n.Dot(slide)
}

// farCorner returns a corner's mark far along board i from mark m: at an end that no
// mark has yet, else at the end further off.
func (s *shop) farCorner(i int, boards []int, touching int, m placeMark, others []placeMark) (far placeMark, found bool) {
	b := s.piece.Boards[i]
	fresh := false
	for _, end := range []board.Side{board.Start, board.Finish} {
		c, ok := s.corner(i, boards, touching, others, &end, !m.point)
		if !ok || !lever(b, m.ref, c.ref) {
			continue
		}
		isFresh := !slices.ContainsFunc(others, func(o placeMark) bool { return o.point && o.end == end })
		further := found && alongBoard(b, m.ref, c.ref) > alongBoard(b, m.ref, far.ref)+geom.Touch
		if !found || isFresh && !fresh || isFresh == fresh && further {
			far, found, fresh = c, true, isFresh
		}
	}
	return far, found
}

// lever reports whether two places lie far enough apart along a board to turn it by:
// a quarter of its length.
func lever(b *design.Board, p, q geom.Vec) bool {
	return alongBoard(b, p, q) >= b.L/4
}

// alongBoard returns how far apart two places lie along a board, in mm.
func alongBoard(b *design.Board, p, q geom.Vec) float64 {
	return math.Abs(b.Pose.In(p).X - b.Pose.In(q).X)
}

// tips returns the distance from a corner of board i far from ref to a corner of a
// board it touches, as a tape is held from tip to tip: of those that turn it nearly
// as well as any, the shortest.
func (s *shop) tips(i int, boards []int, others []placeMark, ref geom.Vec) (placeMark, bool) {
	b := s.piece.Boards[i]
	type tip struct {
		board    int
		c, q     cornerOf
		well, mm float64
	}
	var all []tip
	most := 0.0
	for _, k := range boards {
		for _, c := range s.corners(i) {
			for _, q := range s.corners(k) {
				way := c.at.Minus(q.at)
				if mm := way.Length(); lever(b, ref, c.at) && mm >= b.L/4 {
					all = append(all, tip{k, c, q, alongBoard(b, ref, c.at) * remaining(others, way.Unit()).Length(), mm})
					most = math.Max(most, all[len(all)-1].well)
				}
			}
		}
	}
	all = slices.DeleteFunc(all, func(t tip) bool { return t.well < float64(0.8*most) })
	if len(all) == 0 {
		return placeMark{}, false
	}
	t := slices.MinFunc(all, func(x, y tip) int { return cmp.Compare(math.Round(x.mm/geom.Touch), math.Round(y.mm/geom.Touch)) })
	other := s.piece.Boards[t.board]
	return placeMark{face: geom.Facing(t.c.at, t.c.at.Minus(t.q.at)), ref: t.c.at, say: func() Text {
		return Words(t.c.name(b.Board) + " ").Show(s.pen.Length(t.mm, between(b, other))).Say(" from the " + t.q.name(other.Board) + " of the " + other.Spoken)
	}}, true
}

// again returns a mark of the same face of board i as m, measured from another board
// far along it: of those, from the one whose face is nearest to it.
func (s *shop) again(i int, boards []int, m placeMark) (best placeMark, found bool) {
	b := s.piece.Boards[i]
	least := math.Inf(1)
	for _, f := range s.facings(i) {
		if m.point || math.Abs(math.Abs(f.plane.N.Dot(m.face.N))-1) > 1e-9 || math.Abs(f.plane.Over(m.face.Foot(geom.Vec{}))) > geom.Touch {
			continue
		}
		for _, k := range boards {
			other := s.piece.Boards[k]
			for _, g := range s.facings(k) {
				if !parallel(f.plane, g.plane) || !lever(b, m.ref, g.middle) {
					continue
				}
				d := off(f, g)
				if math.Abs(d) > least-geom.Touch {
					continue
				}
				least, found = math.Abs(d), true
				best = placeMark{face: f.plane, ref: g.middle, say: func() Text { return s.stands(b, f, other, g) }}
			}
		}
	}
	return best, found
}

// beside is how far, in mm, a line along an end sawn at an angle may be carried on: half
// a degree is 1/32 in over 3 1/2 in.
const beside = 3.5 * 25.4

// vague reports whether a face of b is an end sawn at an angle, and a point lies so
// far aside of it that the angle tells.
func (f *facing) vague(b *design.Board, at geom.Vec) bool {
	return !isTrue(b, f.tag, f.plane.N) && f.plane.Foot(at).Distance(f.plane.Foot(f.middle)) > beside
}

// rule is how far a framing square laid on a face reaches beyond it, in mm: its
// longer arm is 24 in. Source: common practice.
const rule = 24 * 25.4

// across is the most a direction may lean along a board, as a cosine, and still hold
// it across its length: just under that of a mitre.
const across = 0.7

// nearestOf returns how far a point is from the nearest of a face's corners, in mm.
func nearestOf(rim []geom.Vec, at geom.Vec) float64 {
	least := math.Inf(1)
	for _, v := range rim {
		least = math.Min(least, v.Distance(at))
	}
	return least
}

// extent returns how far the corners of a face are apart at most, in mm.
func extent(rim []geom.Vec) float64 {
	most := 0.0
	for _, v := range rim {
		for _, w := range rim {
			most = math.Max(most, v.Distance(w))
		}
	}
	return most
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
	if out, ok := s.points[i]; ok {
		return out
	}
	b := s.piece.Boards[i]
	var out []cornerOf
	for _, f := range b.Solid.Faces {
		side, own := sideOf(b.Board, f.Tag)
		if !own || !side.IsEnd() {
			continue
		}
		low, high := math.Inf(1), math.Inf(-1)
		for _, v := range f.Loops[0] {
			low, high = math.Min(low, v.Y), math.Max(high, v.Y)
		}
		if c := b.CutAt(f.Tag); c != nil { // the point is no corner of an edge
			if p, ok := pointOf(b.Board, *c); ok && p.edge == board.Near {
				high = math.Inf(1)
			} else if ok {
				low = math.Inf(-1)
			}
		}
		for _, v := range f.Loops[0] {
			switch {
			case v.Y < low+geom.Touch:
				out = append(out, cornerOf{b.Pose.Out(v), side, board.Near})
			case v.Y > high-geom.Touch:
				out = append(out, cornerOf{b.Pose.Out(v), side, board.Far})
			}
		}
	}
	s.points[i] = out
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
