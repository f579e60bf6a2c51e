// Package part sorts the boards of a piece into parts: boards that are cut alike
// and may change places once they are turned.
//
// Two boards are alike if one of the turns that carry the blank onto itself (four;
// eight when the section is square) makes them the same solid with the same holes
// and the same worked edges. If only a mirror does, they are a left and a right:
// two parts, listed and drawn as a pair. Start at Sort.
package part

import (
	"cmp"
	"slices"
	"strings"

	"scantling/internal/board"
	"scantling/internal/design"
)

// A Hand tells mirror twins apart.
type Hand int8

const (
	None Hand = iota // it has no twin in this piece
	Left
	Right
)

// String returns "", "left" or "right".
func (h Hand) String() string { return [...]string{"", "left", "right"}[h] }

// A Part is boards that are alike.
type Part struct {
	Letter string // A, B, …: the order in which parts are first built in
	Name   string // of its first board in the file: leg
	Hand   Hand
	Twin   *Part // the mirror part, nil if there is none
	Master *design.Board
	Of     []Member // in file order, Master first
}

// A Member is one board of a part.
type Member struct {
	*design.Board
	Turn Symmetry // carries Master onto this board
}

// Turned reports how many members lie with another face out than Master's show
// face: cut alike, turned over in place.
func (p *Part) Turned() int {
	n := 0
	for _, m := range p.Of {
		if m.Turn.Side(board.Show) != board.Show {
			n++
		}
	}
	return n
}

// Sort returns the parts of a piece in the order of their letters. A part's
// master is its first board in the file. Boards without a solid belong to none.
func Sort(p *design.Piece) []*Part {
	var parts []*Part
	shapes := map[*Part]shape{}
	for _, b := range p.Boards {
		if b.Solid == nil {
			continue
		}
		s := shapeOf(b.Board)
		home, turn := find(parts, shapes, b, s)
		if home == nil {
			home = &Part{Name: b.Name, Master: b}
			shapes[home] = s
			twin(parts, shapes, home, s)
			parts = append(parts, home)
		}
		home.Of = append(home.Of, Member{b, turn})
	}
	order(p, parts)
	return parts
}

// find returns the part a board of the given shape belongs to, and how its
// master turns onto the board.
func find(parts []*Part, shapes map[*Part]shape, b *design.Board, s shape) (*Part, Symmetry) {
	for _, q := range parts {
		if !sameStuff(q.Master, b) {
			continue
		}
		for _, turn := range symmetries(s.square()) {
			if turn.IsTurn() && shapes[q].alike(s, turn) {
				return q, turn
			}
		}
	}
	return nil, Symmetry{}
}

// twin ties a new part to the part it mirrors.
func twin(parts []*Part, shapes map[*Part]shape, p *Part, s shape) {
	for _, q := range parts {
		if q.Twin != nil || !sameStuff(q.Master, p.Master) {
			continue
		}
		for _, mirror := range symmetries(s.square()) {
			if !mirror.IsTurn() && shapes[q].alike(s, mirror) {
				p.Twin, q.Twin = q, p
				q.Hand = handOf(q.Master)
				p.Hand = Left + Right - q.Hand
				return
			}
		}
	}
}

// handOf names the hand of the first of two twins: right if people call that
// board a right one, else left.
func handOf(b *design.Board) Hand {
	words := strings.Fields(b.Spoken)
	if slices.Contains(words, "right") && !slices.Contains(words, "left") {
		return Right
	}
	return Left
}

// sameStuff reports whether two boards are cut from the same stock of the file
// and bear the same name in it: a rail is not a stretcher even if it could be.
func sameStuff(a, b *design.Board) bool { return a.Name == b.Name && a.Lumber == b.Lumber }

// order gives letters in the order of building: by the first step that adds a
// board of the part, then by file order; twins stand together, the written one first.
func order(p *design.Piece, parts []*Part) {
	step := map[board.ID]int{}
	for i, s := range p.Steps {
		for _, id := range s.Add {
			if _, ok := step[id]; !ok {
				step[id] = i
			}
		}
	}
	first := func(q *Part) int {
		at := len(p.Steps)
		for _, m := range q.Of {
			if i, ok := step[m.ID]; ok && i < at {
				at = i
			}
		}
		return at
	}
	rank := map[*Part]int{}
	place := map[*Part]int{}
	for i, q := range parts {
		rank[q], place[q] = first(q), i
	}
	lead := func(q *Part) *Part { // of twins, the one built in first
		if t := q.Twin; t != nil && (rank[t] < rank[q] || rank[t] == rank[q] && place[t] < place[q]) {
			return t
		}
		return q
	}
	slices.SortStableFunc(parts, func(a, b *Part) int {
		la, lb := lead(a), lead(b)
		return cmp.Or(cmp.Compare(rank[la], rank[lb]), cmp.Compare(place[la], place[lb]), cmp.Compare(place[a], place[b]))
	})
	for i, q := range parts {
		q.Letter = letter(i)
	}
}

// letter returns the i-th part letter: A to Z without I and O, which read as
// figures (common practice), then AA, AB, ….
func letter(i int) string {
	const letters = "ABCDEFGHJKLMNPQRSTUVWXYZ"
	if i < len(letters) {
		return letters[i : i+1]
	}
	return letter(i/len(letters)-1) + letters[i%len(letters):i%len(letters)+1]
}
