package shop

import (
	"strings"

	"scantling/internal/board"
	"scantling/internal/design"
	"scantling/internal/geom"
	"scantling/internal/phrase"
)

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
		out.Spoken = phrase.Spaced(l.made)
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
