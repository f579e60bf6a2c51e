package shop

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"scantling/internal/board"
	"scantling/internal/design"
	"scantling/internal/geom"
	"scantling/internal/snag"
	"scantling/internal/span"
)

// A place mark says one thing about where a board goes.
type placeMark struct {
	face  geom.Plane // of the board, in the piece: its normal is the direction fixed
	say   func() Text
	ref   geom.Vec   // where it is measured, in the piece
	way   geom.Vec   // of a corner's mark: the direction it is measured in
	turns bool       // both its faces are true enough to turn the board by
	end   board.Side // of a corner's mark: the end it is at
	point bool       // a corner's mark
	run   *run       // of a running mark
}

// independent is how much of a mark's direction, 0 to 1, must be new for it to
// fix a board further: 30 degrees. Of less, a small slip across makes a large one
// along.
const independent = 0.5

// fix returns the marks that fix board i against the boards that are there:
// first what it lies against, then what it is flush with, then how far it stands
// from something, until three independent directions are fixed. A long board that
// nothing true turns gets a mark at its other end too.
func (s *shop) fix(i int, here *ground) []Text {
	b := s.piece.Boards[i]
	boards, touching := s.near(i, here)
	var chosen []placeMark
	for _, look := range []func() []placeMark{
		func() []placeMark { return s.against(i, boards[:touching]) },
		func() []placeMark { return s.running(b, s.rowDatum(b, here)) },
		func() []placeMark { return s.flush(i, boards[:touching]) },
		func() []placeMark { return s.flush(i, boards[touching:]) },
		func() []placeMark { return s.away(i, boards[:touching]) },
		func() []placeMark { return s.away(i, boards[touching:]) },
	} {
		if len(chosen) == 3 {
			break
		}
		for _, m := range look() {
			if len(chosen) < 3 && newWay(chosen, m.face.N) {
				chosen = append(chosen, m)
			}
		}
	}
	for len(chosen) < 3 {
		m, ok := s.corner(i, boards, touching, chosen, nil, false)
		if !ok {
			break
		}
		chosen = append(chosen, m)
	}
	chosen = s.bothEnds(i, boards, touching, chosen)
	if len(chosen) < 3 {
		s.snags = append(s.snags, snag.Snag{Code: "marks-missing", Severity: snag.Advice, Boards: []string{string(b.ID)}, Tier: snag.Settled,
			What:  fmt.Sprintf("the plan cannot say in words where the %s goes: nothing there by then is square to it in %s", b.Spoken, plural(3-len(chosen), "direction")),
			Mends: []snag.Mend{snag.Say("add it in a step where what it fits against is there already")}})
	}
	var out []Text
	for n, m := range chosen {
		out = append(out, m.say())
		if m.run != nil {
			m.run.place = n
			s.runs[b.ID] = m.run
		}
	}
	return out
}

func plural(n int, what string) string {
	if n == 1 {
		return "one " + what
	}
	return number(n) + " " + what + "s"
}

// newWay reports whether a direction is not yet spanned by the chosen marks.
func newWay(chosen []placeMark, way geom.Vec) bool {
	rest := remaining(chosen, way)
	return rest.Length() > independent
}

// remaining returns the part of a direction that the chosen marks do not span.
func remaining(chosen []placeMark, way geom.Vec) geom.Vec {
	var basis []geom.Vec
	for _, m := range chosen {
		u := m.face.N
		for _, e := range basis {
			u = u.Along(e, -u.Dot(e))
		}
		if u.Length() > geom.Same {
			basis = append(basis, u.Unit())
		}
	}
	for _, e := range basis {
		way = way.Along(e, -way.Dot(e))
	}
	return way
}

// A facing is an outer face a board can be measured by.
type facing struct {
	tag    geom.Tag
	side   board.Side
	plane  geom.Plane // in the piece
	rim    []geom.Vec // its corners
	middle geom.Vec   // of them
}

// facings returns the faces of a board that marks are taken from: its sides, its
// ends and its tapers, not the walls of notches.
func (s *shop) facings(i int) []facing {
	if out, ok := s.faces[i]; ok {
		return out
	}
	b := s.piece.Boards[i]
	var out []facing
	for _, f := range b.Solid.Faces {
		side, ok := sideOf(b.Board, f.Tag)
		if !ok {
			continue
		}
		g := facing{tag: f.Tag, side: side, plane: b.Pose.OutPlane(f.Plane)}
		for _, v := range f.Loops[0] {
			g.rim = append(g.rim, b.Pose.Out(v))
			g.middle = g.middle.Along(b.Pose.Out(v), 1/float64(len(f.Loops[0])))
		}
		out = append(out, g)
	}
	slices.SortStableFunc(out, func(x, y facing) int { return cmp.Compare(turn(b, x.side), turn(b, y.side)) })
	s.faces[i] = out
	return out
}

// turn orders the sides of a board for marks that are otherwise as good: ends,
// then the edge that is seen first, at the top, in front or outward, then the
// other, then faces. Near and far will not do: they change places in a mirror.
func turn(b *design.Board, side board.Side) int {
	switch {
	case side.IsEnd():
		return 0
	case side.IsFace():
		return 3
	}
	x := b.Placed().Middle().X
	switch word := b.Sides[side]; {
	case word == "top", word == "front", word == "left" && x < -geom.Touch, word == "right" && x > geom.Touch:
		return 1
	}
	return 2
}

// the names a face of a board in a sentence: "the back face of the front long apron".
func the(b *design.Board, tag geom.Tag) string {
	return "the " + faceName(b.Board, tag) + " of the " + b.Spoken
}

// wallName is faceName that tells the walls of a notch apart: those across the
// grain are its shoulders, the one along it its bottom. Of two shoulders it says
// toward which end the wall looks, of several notches which end it is nearest. n is
// the direction the wall looks in and at a point of it, both in the piece: walls of
// several notches that lie in one plane are one face.
func wallName(b *design.Board, tag geom.Tag, n, at geom.Vec) string {
	c := b.CutAt(tag)
	if c == nil || c.Kind != board.Notch && c.Kind != board.Housing && c.Kind != board.HalfLap {
		return faceName(b.Board, tag)
	}
	x := b.Pose.In(at).X
	for i := range b.Cuts {
		if o := &b.Cuts[i]; o.Kind == c.Kind && o.Low.X-geom.Touch <= x && x <= o.High.X+geom.Touch {
			c = o
		}
	}
	name := "bottom"
	if along := b.Pose.X.Dot(n); math.Abs(along) > math.Sqrt2/2 {
		if name = "shoulder"; !opens(*c, board.Start) && !opens(*c, board.Finish) {
			name += " toward the " + sideName(b.Board, endToward(along))
		}
	}
	name += " of the " + c.Kind.String()
	first, last, many := true, true, false
	for i := range b.Cuts {
		o := &b.Cuts[i]
		if o == c || o.Kind != c.Kind {
			continue
		}
		many = true
		first = first && c.Low.X+c.High.X < o.Low.X+o.High.X
		last = last && c.Low.X+c.High.X > o.Low.X+o.High.X
	}
	switch {
	case many && first:
		name += " nearest the " + sideName(b.Board, board.Start)
	case many && last:
		name += " nearest the " + sideName(b.Board, board.Finish)
	}
	return name
}

// endToward returns the end that lies in a direction along the grain.
func endToward(along float64) board.Side {
	if along < 0 {
		return board.Start
	}
	return board.Finish
}

// against returns a mark for every face of board i that lies on another board,
// the largest contact first.
func (s *shop) against(i int, boards []int) []placeMark {
	b := s.piece.Boards[i]
	type touch struct {
		mark placeMark
		area float64
		at   geom.Vec
	}
	var found []touch
	for _, k := range boards {
		m, flipped := s.meetings.Between(i, k)
		other := s.piece.Boards[k]
		for _, c := range m.Contacts {
			if c.Kind != geom.Area {
				continue
			}
			mine, theirs, out := c.A, c.B, c.Plane.N
			if flipped {
				mine, theirs, out = theirs, mine, out.Negated()
			}
			found = append(found, touch{placeMark{face: c.Plane, ref: c.Middle, turns: isTrue(b, mine, out) && isTrue(other, theirs, out), say: func() Text {
				return Words(wallName(b, mine, out, c.Middle) + " against the " + wallName(other, theirs, out.Negated(), c.Middle) + " of the " + other.Spoken)
			}}, c.Area, c.Middle})
		}
	}
	slices.SortStableFunc(found, func(a, b touch) int {
		// Of equals the one that is so in a mirror image too: outermost, then in front, then low.
		return cmp.Or(cmp.Compare(math.Round(b.area), math.Round(a.area)), cmp.Compare(math.Round(math.Abs(b.at.X)), math.Round(math.Abs(a.at.X))),
			cmp.Compare(math.Round(a.at.Y), math.Round(b.at.Y)), cmp.Compare(math.Round(a.at.Z), math.Round(b.at.Z)))
	})
	var out []placeMark
	for _, t := range found {
		out = append(out, t.mark)
	}
	return out
}

// isTrue reports whether a board can be turned by a face: by a side, a taper or an
// end sawn square, not by an end sawn at an angle nor by the shoulder of a notch,
// which are short and as far off as the saw's scale. n is the face's normal in the
// piece.
func isTrue(b *design.Board, tag geom.Tag, n geom.Vec) bool {
	c := b.CutAt(tag)
	switch {
	case c == nil:
		return true
	case c.Kind == board.EndCut:
		return c.Square
	case c.Kind.TakesPrism():
		return math.Abs(b.Pose.X.Dot(n)) < math.Sqrt2/2
	}
	return c.Kind == board.Taper
}

// flush returns a mark for every face of board i in one plane with a face of
// another that looks the same way.
func (s *shop) flush(i int, boards []int) []placeMark {
	b := s.piece.Boards[i]
	var out []placeMark
	for _, f := range s.facings(i) {
		for _, k := range boards {
			for _, g := range s.facings(k) {
				if parallel(f.plane, g.plane) && math.Abs(off(f, g)) <= geom.Touch {
					turns := isTrue(b, f.tag, f.plane.N) && isTrue(s.piece.Boards[k], g.tag, g.plane.N)
					out = append(out, placeMark{face: f.plane, ref: g.middle, turns: turns, say: func() Text {
						return Words(faceName(b.Board, f.tag) + " flush with " + the(s.piece.Boards[k], g.tag))
					}})
				}
			}
		}
	}
	return out
}

// parallel reports whether two faces look the same way, to within geom.Touch
// over ten metres' thousandth part: as near as two boards meant parallel come.
func parallel(a, b geom.Plane) bool { return a.N.Distance(b.N) <= geom.Touch*1e-3 }

// off returns how far f stands out past g, in mm.
func off(f, g facing) float64 { return f.plane.D - g.plane.D }

// away returns a mark for every face of board i parallel to a face of another
// that looks the same way, nearest first.
func (s *shop) away(i int, boards []int) []placeMark {
	b := s.piece.Boards[i]
	type distance struct {
		mark placeMark
		mm   float64
	}
	var found []distance
	for _, f := range s.facings(i) {
		for _, k := range boards {
			other := s.piece.Boards[k]
			for _, g := range s.facings(k) {
				if !parallel(f.plane, g.plane) {
					continue
				}
				d := off(f, g)
				turns := isTrue(b, f.tag, f.plane.N) && isTrue(other, g.tag, g.plane.N)
				found = append(found, distance{placeMark{face: f.plane, ref: g.middle, turns: turns, say: func() Text {
					return s.stands(b, f, other, g)
				}}, math.Abs(d)})
			}
		}
	}
	slices.SortStableFunc(found, func(a, b distance) int {
		return cmp.Compare(math.Round(a.mm/geom.Touch), math.Round(b.mm/geom.Touch)) // equals keep their order
	})
	var out []placeMark
	for _, d := range found {
		out = append(out, d.mark)
	}
	return out
}

// stands says how far a face of one board stands from a face of another.
func (s *shop) stands(b *design.Board, f facing, other *design.Board, g facing) Text {
	d := off(f, g)
	if math.Abs(d) <= geom.Touch {
		return Words(faceName(b.Board, f.tag) + " flush with " + the(other, g.tag))
	}
	return Words(faceName(b.Board, f.tag) + " ").Show(s.pen.Length(math.Abs(d), between(b, other))).Say(inOrOut(d) + the(other, g.tag))
}

// between returns the scalars a distance between two boards was computed from.
func between(a, b *design.Board) span.Set {
	return a.Place.Union(a.Section, a.LengthFrom, b.Place, b.Section, b.LengthFrom)
}

func inOrOut(d float64) string {
	if d > 0 {
		return " out past "
	}
	return " in from "
}

// running returns the mark of a row: how far a board's edge is from the same
// edge of the row's first board, never from its neighbour, so that no error
// grows along the row. Of the two edges that look along the row it takes the one
// toward the start.
func (s *shop) running(b, first *design.Board) []placeMark {
	if first == nil {
		return nil
	}
	var out []placeMark
	for _, f := range s.facings(s.at[b.ID]) {
		for _, g := range s.facings(s.at[first.ID]) {
			d := off(f, g)
			if f.side.IsEnd() || !parallel(f.plane, g.plane) || d > -geom.Touch {
				continue
			}
			at, from := s.pen.Length(-d, b.Section.Union(first.Section, s.rowFrom[b.Name])), "from "+the(first, g.tag)
			out = append(out, placeMark{face: f.plane, turns: true, run: &run{at: at, from: from}, say: func() Text {
				return Words(faceName(b.Board, f.tag) + " " + from + ", running: ").Show(at)
			}})
		}
	}
	return out
}
