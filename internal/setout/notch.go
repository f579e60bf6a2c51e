package setout

import (
	"scantling/internal/board"
	"scantling/internal/geom"
	"scantling/internal/span"
)

// A Notching asks for `notch round X` on one board (rule 20).
type Notching struct {
	Name      string
	Meets     []string // by obstacle: what it clears, in words
	From      span.Set
	Clearance float64      // mm, on sides that share no contact with the board
	Follow    bool         // follow: lean
	Hole      bool         // hole: yes
	Open      *board.Side  // the side it must open at; nil: the least wood
	Ties      []board.Side // order in which equal openings are taken: TieOrder
}

// TieOrder returns the order in which equal openings are taken: ends, then
// front, then left, by the words of the written board, so that a mirrored copy
// opens at the mirrored side. words are the written board's, mirrored says that
// this copy is a mirror image of it.
func TieOrder(words [6]Dir, mirrored bool) []board.Side { panic("setout: to come") }

// A Notched is what NotchRound found for one board.
type Notched struct {
	Cuts   []board.Cut    // notches and housings, in the order of the obstacles; empty if nothing meets it
	Which  []int          // by cut: the index of the obstacle
	Faults []*Fault       // Tongue, Parted, Enclosed (1/2 in or more all round), Gone; the cuts are given all the same
	Ends   [2]*geom.Plane // an end the notch takes whole: the new end in the board's frame, facing out
}

// NotchRound works out the notches of one board round every given solid (the
// others' board.Wood, placed), from its own Wood: rule 20. It changes nothing;
// AddCuts puts the cuts of all of a board's notchings on it.
func NotchRound(b *board.Board, round []geom.Placed, n Notching) Notched { panic("setout: to come") }

// AddCuts puts notches on a board and builds its solid again. If ends were taken
// whole it shortens the blank, and carries cuts and pose along. It returns Parted
// or Gone if what is left is in several bodies or none.
func AddCuts(b *board.Board, ns []Notched) []*Fault { panic("setout: to come") }
