package shop

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

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
	long  bool       // taken along a long face or edge: it fixes how the board turns
	end   board.Side // of a corner's mark: the end it is at
	point bool       // a corner's mark
	run   *run       // of a running mark
}

// independent is how much of a mark's direction, 0 to 1, must be new for it to
// fix a board further: 30 degrees. Of less, a small slip across makes a large one
// along.
const independent = 0.5

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

// A load is what is placed at once: one board, or a sub-assembly by its name.
type load struct {
	made   string
	boards []int
}

// place gives what a step adds its marks, each against what is there by then.
// What touches something there comes before what does not; the first of all is
// laid down and the rest measured from it.
func (s *shop) place(there []board.ID, loads []load) []BoardMarks {
	here := s.ground(there)
	todo := append([]load(nil), loads...)
	var out []BoardMarks
	for len(todo) > 0 {
		pick := 0
	search:
		for k, l := range todo {
			for _, i := range l.boards {
				if s.touches(i, here) {
					pick = k
					break search
				}
			}
		}
		l := todo[pick]
		todo = append(todo[:pick], todo[pick+1:]...)
		out = append(out, s.placeLoad(l, here))
		for _, i := range l.boards {
			here.add(i)
		}
	}
	return s.rowsTogether(out)
}

// placeLoad marks a board, or a sub-assembly by that board of it which touches
// most of what is there.
func (s *shop) placeLoad(l load, here *ground) BoardMarks {
	best, at := -1.0, 0
	for _, i := range l.boards {
		area := 0.0
		for _, k := range s.neighbours[i] {
			if m, _ := s.meetings.Between(i, k); here.is[k] {
				area += m.Area
			}
		}
		if area > best+geom.Alike {
			best, at = area, i
		}
	}
	b := s.piece.Boards[at]
	out := BoardMarks{Board: b.ID, Boards: []board.ID{b.ID}, Spoken: b.Spoken}
	if l.made != "" {
		out.Spoken = called(l.made)
	}
	switch {
	case len(here.order) == 0:
		out.Words = []Text{Words("comes first; the rest is placed from it")}
	case l.made != "":
		out.Words = append([]Text{Words("go by its " + b.Spoken)}, s.fix(at, here)...)
		delete(s.runs, b.ID) // a sub-assembly is no board of a row
	default:
		out.Words = s.fix(at, here)
	}
	return out
}

// rowsTogether says the boards of a row that differ in their running mark only in
// one breath: what they share, then all the marks from the one datum.
func (s *shop) rowsTogether(all []BoardMarks) []BoardMarks {
	var out []BoardMarks
	for _, m := range all {
		i := s.at[m.Board]
		if n := len(out) - 1; n >= 0 && s.runs[m.Board] != nil && s.runs[out[n].Board] != nil {
			last := &out[n]
			k := s.at[last.Board]
			mine, theirs := s.runs[m.Board], s.runs[last.Board]
			if s.piece.Boards[i].Name == s.piece.Boards[k].Name && mine.from == theirs.from && mine.shared(m.Words) == theirs.shared(last.Words) {
				last.Boards = append(last.Boards, m.Board)
				last.Words[theirs.place] = append(last.Words[theirs.place], Span{Words: ", "}, Span{Shown: &mine.at})
				last.Spoken = s.rowSpoken(last.Boards)
				continue
			}
		}
		out = append(out, m)
	}
	return out
}

// rowSpoken names boards of one row together: "2nd to 12th shelf slat from the left".
func (s *shop) rowSpoken(ids []board.ID) string {
	first, rest, _ := strings.Cut(s.piece.Boards[s.at[ids[0]]].Spoken, " ")
	last, other, _ := strings.Cut(s.piece.Boards[s.at[ids[len(ids)-1]]].Spoken, " ")
	if rest != other {
		return s.piece.Boards[s.at[ids[0]]].Spoken + " to " + s.piece.Boards[s.at[ids[len(ids)-1]]].Spoken
	}
	return first + " to " + last + " " + rest
}

// A run is the running mark of a row board.
type run struct {
	at    Shown
	from  string // the datum, in words
	place int    // among the board's marks
}

// shared returns the words of the marks beside the running one.
func (r *run) shared(words []Text) string {
	var b strings.Builder
	for i, w := range words {
		if i != r.place {
			b.WriteString(w.String() + ";")
		}
	}
	return b.String()
}

// fix returns the marks that fix board i against the boards that are there:
// first what it lies against, then what it is flush with, then how far it stands
// from something, until three independent directions are fixed. A long board set
// at a slant by its end alone gets a mark at its other end too.
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
		m, ok := s.corner(i, boards, touching, chosen, nil)
		if !ok {
			break
		}
		chosen = append(chosen, m)
	}
	if far, ok := s.farMark(i, boards, touching, chosen); ok {
		chosen = append(chosen, far)
	}
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
// grain are its shoulders, the one along it its bottom. n is square to the wall, in
// the piece.
func wallName(b *design.Board, tag geom.Tag, n geom.Vec) string {
	c := b.CutAt(tag)
	if c == nil || c.Kind != board.Notch && c.Kind != board.Housing {
		return faceName(b.Board, tag)
	}
	if math.Abs(b.Pose.X.Dot(n)) > math.Sqrt2/2 {
		return "shoulder of the " + c.Kind.String()
	}
	return "bottom of the " + c.Kind.String()
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
			found = append(found, touch{placeMark{face: c.Plane, say: func() Text {
				return Words(wallName(b, mine, c.Plane.N) + " against the " + wallName(other, theirs, c.Plane.N) + " of the " + other.Spoken)
			}}, c.Area})
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
					out = append(out, placeMark{face: f.plane, long: !f.side.IsEnd(), say: func() Text {
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
				found = append(found, distance{placeMark{face: f.plane, long: !f.side.IsEnd(), say: func() Text {
					return Words(faceName(b.Board, f.tag) + " ").Show(s.pen.Length(math.Abs(d), between(b, other))).Say(inOrOut(d) + the(other, g.tag))
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
			at, from := s.pen.Length(-d, b.Section.Union(first.Section)), "from "+the(first, g.tag)
			out = append(out, placeMark{face: f.plane, long: true, run: &run{at: at, from: from}, say: func() Text {
				return Words(faceName(b.Board, f.tag) + " " + from + ", running: ").Show(at)
			}})
		}
	}
	return out
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
