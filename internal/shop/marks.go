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
)

// A place mark says one thing about where a board goes.
type placeMark struct {
	face  geom.Plane // of the board, in the piece: its normal is the direction fixed
	words Text
}

// independent is how much of a mark's direction, 0 to 1, must be new for it to
// fix a board further: about 12 degrees.
const independent = 0.2

// A ground is the boards that are there when another is placed, as places in
// Piece.Boards, in the order they came.
type ground struct {
	order []int
	is    map[int]bool
}

func (s *shop) ground(ids []board.ID) *ground {
	g := &ground{is: map[int]bool{}}
	for _, id := range ids {
		if i, ok := s.at[id]; ok {
			g.add(i)
		}
	}
	return g
}

func (g *ground) add(i int) {
	g.order = append(g.order, i)
	g.is[i] = true
}

// datums is how many boards beside those it touches a board may be measured
// from: the first laid and the last. A builder looks no further.
const datums = 12

// near returns the boards of a ground that board i may be placed by: those it
// touches, then others. touching counts the first kind.
func (s *shop) near(i int, g *ground) (boards []int, touching int) {
	seen := map[int]bool{i: true}
	for _, k := range s.neighbours[i] {
		if g.is[k] {
			boards = append(boards, k)
			seen[k] = true
		}
	}
	touching = len(boards)
	for n, k := range g.order {
		if !seen[k] && (n < datums || n >= len(g.order)-datums) {
			boards = append(boards, k)
		}
	}
	return boards, touching
}

// touches reports whether board i touches any board of a ground.
func (s *shop) touches(i int, g *ground) bool {
	for _, k := range s.neighbours[i] {
		if g.is[k] {
			return true
		}
	}
	return false
}

// place gives the boards a step adds their marks, each against what is there by
// then. Boards that touch something there come before those that do not; the
// first of all is laid down and the rest measured from it.
func (s *shop) place(there, added []board.ID) []BoardMarks {
	here := s.ground(there)
	todo := s.ground(added).order
	var out []BoardMarks
	for len(todo) > 0 {
		pick := 0
		for k, i := range todo {
			if s.touches(i, here) {
				pick = k
				break
			}
		}
		i := todo[pick]
		todo = append(todo[:pick], todo[pick+1:]...)
		b := s.piece.Boards[i]
		m := BoardMarks{Board: b.ID, Spoken: b.Spoken}
		if len(here.order) == 0 {
			m.Words = []Text{Words("lay it down first; the others are placed from it")}
		} else {
			m.Words = s.fix(i, here)
		}
		out = append(out, m)
		here.add(i)
	}
	return out
}

// placeMade gives a sub-assembly its marks, by the board of it that touches most.
func (s *shop) placeMade(name string, there, made []board.ID) []BoardMarks {
	here := s.ground(there)
	best, at := -1.0, -1
	for _, i := range s.ground(made).order {
		area := 0.0
		for _, k := range s.neighbours[i] {
			if m, _ := s.meetings.Between(i, k); here.is[k] {
				area += m.Area
			}
		}
		if area > best {
			best, at = area, i
		}
	}
	if at < 0 {
		return nil
	}
	m := BoardMarks{Board: s.piece.Boards[at].ID, Spoken: called(name)}
	if len(here.order) == 0 {
		m.Words = []Text{Words("set it up first; the rest is placed from it")}
	} else {
		m.Words = append([]Text{Words("go by its " + s.piece.Boards[at].Spoken)}, s.fix(at, here)...)
	}
	return []BoardMarks{m}
}

// fix returns the marks that fix board i against the boards that are there:
// first what it lies against, then what it is flush with, then how far it stands
// from something, until three independent directions are fixed. A long board set
// at a slant by its end alone gets a mark at its other end too.
func (s *shop) fix(i int, here *ground) []Text {
	b := s.piece.Boards[i]
	boards, touching := s.near(i, here)
	found := s.against(i, boards[:touching])
	found = append(found, s.running(b, s.rowDatum(b, here))...)
	found = append(found, s.flush(i, boards[:touching])...)
	found = append(found, s.flush(i, boards[touching:])...)
	found = append(found, s.away(i, boards[:touching])...)
	found = append(found, s.away(i, boards[touching:])...)
	var chosen []placeMark
	for _, m := range found {
		if len(chosen) < 3 && newWay(chosen, m.face.N) {
			chosen = append(chosen, m)
		}
	}
	if len(chosen) == 2 {
		chosen = append(chosen, s.corners(i, boards, touching, chosen)...)
	}
	if len(chosen) < 3 {
		s.snags = append(s.snags, snag.Snag{Code: "marks-missing", Severity: snag.Advice, Boards: []string{string(b.ID)}, Tier: snag.Settled,
			What:  fmt.Sprintf("the plan cannot say in words where the %s goes: nothing there by then is square to it in %s", b.Spoken, plural(3-len(chosen), "direction")),
			Mends: []snag.Mend{snag.Say("add it in a step where what it fits against is there already")}})
	}
	var out []Text
	for _, m := range chosen {
		out = append(out, m.words)
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
	tag   geom.Tag
	side  board.Side
	plane geom.Plane // in the piece
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
		out = append(out, facing{f.Tag, side, b.Pose.OutPlane(f.Plane)})
	}
	s.faces[i] = out
	return out
}

// the names a face of a board in a sentence: "the back face of the front long apron".
func the(b *design.Board, tag geom.Tag) string {
	return "the " + faceName(b.Board, tag) + " of the " + b.Spoken
}

// against returns a mark for every face of board i that lies on another board,
// the largest contact first.
func (s *shop) against(i int, boards []int) []placeMark {
	b := s.piece.Boards[i]
	type touch struct {
		mark placeMark
		area float64
	}
	var found []touch
	for _, k := range boards {
		m, flipped := s.meetings.Between(i, k)
		other := s.piece.Boards[k]
		for _, c := range m.Contacts {
			if c.Kind != geom.Area {
				continue
			}
			mine, theirs := c.A, c.B
			if flipped {
				mine, theirs = theirs, mine
			}
			found = append(found, touch{placeMark{c.Plane, Words(faceName(b.Board, mine) + " against " + the(other, theirs))}, c.Area})
		}
	}
	slices.SortStableFunc(found, func(a, b touch) int {
		return cmp.Compare(math.Round(b.area), math.Round(a.area)) // equals keep their order
	})
	var out []placeMark
	for _, t := range found {
		out = append(out, t.mark)
	}
	return out
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
					out = append(out, placeMark{f.plane, Words(faceName(b.Board, f.tag) + " flush with " + the(s.piece.Boards[k], g.tag))})
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
				words := Words(faceName(b.Board, f.tag) + " ").Show(s.pen.Length(math.Abs(d), b.Place.Union(other.Place))).Say(inOrOut(d) + the(other, g.tag))
				found = append(found, distance{placeMark{f.plane, words}, math.Abs(d)})
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

func inOrOut(d float64) string {
	if d > 0 {
		return " out past "
	}
	return " in from "
}

// rowDatum returns the first board of the row that b stands in, nil if b is that
// board, stands in no row, or the first is not there.
func (s *shop) rowDatum(b *design.Board, here *ground) *design.Board {
	if b.Row < 2 {
		return nil
	}
	if i, ok := s.firsts[withoutNumber(b.ID)]; ok && here.is[i] {
		return s.piece.Boards[i]
	}
	return nil
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
			out = append(out, placeMark{f.plane, Words(faceName(b.Board, f.tag) + " ").Show(s.pen.Length(-d, b.Place.Union(first.Place))).
				Say(" from " + the(first, g.tag) + ", a running mark")})
		}
	}
	return out
}

// corners fixes the one direction that is left when no face of board i is square
// to it: by how far a corner is from a face of a board there, and at the far end
// too if the board is long.
func (s *shop) corners(i int, boards []int, touching int, chosen []placeMark) []placeMark {
	b := s.piece.Boards[i]
	left := chosen[0].face.N.Cross(chosen[1].face.N).Unit()
	best := math.Inf(1)
	var datum facing
	var owner *design.Board
	var end board.Side
	for n, k := range boards {
		for _, g := range s.facings(k) {
			if math.Abs(g.plane.N.Dot(left)) < math.Sqrt2/2 {
				continue
			}
			for _, e := range []board.Side{board.Start, board.Finish} {
				at, _, on := s.corner(i, e, g.plane, chosen)
				reach := math.Abs(g.plane.Over(at))
				if on < len(chosen) {
					reach += 1e4 // mm: after every corner a rule can be laid at
				}
				if n >= touching {
					reach += 1e5 // and after every board it touches
				}
				if reach < best-geom.Touch {
					best, datum, owner, end = reach, g, s.piece.Boards[k], e
				}
			}
		}
	}
	if owner == nil {
		return nil
	}
	ends := []board.Side{end}
	if b.L > longestLine {
		ends = append(ends, end.Opposite())
	}
	var out []placeMark
	for _, e := range ends {
		at, edge, _ := s.corner(i, e, datum.plane, chosen)
		d := datum.plane.Over(at)
		out = append(out, placeMark{geom.Facing(at, left), Words(b.Sides[e] + " " + b.Sides[edge] + " corner ").
			Show(s.pen.Length(math.Abs(d), b.All().Union(owner.Place))).Say(inOrOut(d) + the(owner, datum.tag))})
	}
	return out
}

// corner returns the corner of an end that lies furthest out of a plane, the
// edge it is on, and how many of the chosen marks are taken at faces it lies in:
// at all of them, a rule can be laid there. Of corners equally far it is the one
// in most.
func (s *shop) corner(i int, end board.Side, p geom.Plane, chosen []placeMark) (at geom.Vec, edge board.Side, on int) {
	b := s.piece.Boards[i]
	far := math.Inf(-1)
	for _, f := range b.Solid.Faces {
		if side, own := sideOf(b.Board, f.Tag); !own || side != end {
			continue
		}
		for _, v := range f.Loops[0] {
			out := b.Pose.Out(v)
			over, lies := p.Over(out), onMarks(out, chosen)
			if over < far-geom.Touch || over < far+geom.Touch && lies <= on {
				continue
			}
			far, at, on = over, out, lies
			if edge = board.Near; v.Y > b.W.MM()/2 {
				edge = board.Far
			}
		}
	}
	return at, edge, on
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

// withoutNumber takes the first path element that is a number out of an id: what
// the boards of one row share, and a row and its mirror image do not.
func withoutNumber(id board.ID) string {
	text := string(id)
	for start := 0; start < len(text); {
		end := start
		for end < len(text) && text[end] != '/' {
			end++
		}
		if end > start && digits(text[start:end]) {
			return text[:start] + text[end:]
		}
		start = end + 1
	}
	return text
}

func digits(s string) bool {
	for i := range len(s) {
		if s[i] < '0' || s[i] > '9' {
			return false
		}
	}
	return true
}
