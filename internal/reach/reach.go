// Package reach tells whether boards can come to their places and fasteners be
// driven, among the boards that are there by then.
//
// It is geometry on plain inputs. A Site holds every board of a piece where it
// will stand; some of them are there. A board comes in along a straight line, or
// two, if what it sweeps shares no wood with those that are: for convex bodies
// that is exact, since a body moving along a line runs into another while the line
// is inside the one less the other, a convex body too, bounded by the directions
// of both bodies' faces and by the crosses of their edges (sweep.go). A fastener
// has room if a tool, told as convex prisms about its axis, shares no wood either
// (room.go).
//
// A step of building is looked at backwards: fasteners are undone and boards taken
// away until only what was there before is left. Whatever can be taken away from
// many boards can be taken away from fewer, so taking the first that goes never
// leads astray, and what is stuck in the end no order within the step would free.
//
// Start from Site.Step; Tools says how large the tools are.
package reach

import (
	"scantling/internal/geom"
)

// A Contact is a face of one board on a face of another.
type Contact struct {
	A, B int      // places of the boards
	N    geom.Vec // unit, from A into B
	Area float64  // mm²
}

// A Step is boards brought together.
type Step struct {
	There  []int    // boards that stand there already
	Items  [][]int  // what is brought in, each in one go: a board, or all of a sub-assembly
	Drives []Drive  // fasteners driven once both of their boards are in
	Up     geom.Vec // what is up on the bench, in the piece
}

// A Verdict is the answer to a question.
type Verdict int8

const (
	Yes Verdict = iota
	No
	CannotTell
)

// String returns the word readers and programs see.
func (v Verdict) String() string { return [...]string{"yes", "no", "cannot tell"}[v] }

// A Way is how something comes to its place.
type Way struct {
	Clear Verdict
	Lines []geom.Vec // the ways it moves, unit, in order; one or two; none if it is there first or Clear is not Yes
	Far   []float64  // mm moved along each; the first from wherever it comes, 0
	By    []int      // not Clear: boards in the way
}

// A Room is whether a fastener can be driven.
type Room struct {
	Clear Verdict
	Tool  string  // that drives it, or would
	Needs float64 // mm in front of it, along its axis, that the tool takes
	Free  float64 // mm there are, at most Endless
	Side  string  // "head" or "nut": the end it is about
	By    []int   // not Clear: boards in the way
	After int     // how many items are in when it is driven
}

// Endless is more room than any tool takes, in mm.
const Endless = 10000

// A Report is what a step comes to.
type Report struct {
	Order []int  // the items in an order in which they can come in
	Ways  []Way  // of each item
	Rooms []Room // of each drive
}

// OK reports whether all goes in and all is driven.
func (r *Report) OK() bool {
	for _, w := range r.Ways {
		if w.Clear != Yes {
			return false
		}
	}
	for _, m := range r.Rooms {
		if m.Clear != Yes {
			return false
		}
	}
	return true
}

// A state is a step being taken apart.
type state struct {
	*Site
	step   *Step
	report Report
	in     []bool // by item
	tight  []bool // by drive: not undone
	item   map[int]int
	ties   map[int][]geom.Vec // by item: axes of its dowels
	shut   [2][][]int         // by lines, by item: what was in its way when it was last tried
	left   int
}

// Step tells how the items of a step come in and whether its fasteners have room.
func (s *Site) Step(step *Step, tools *Tools) Report {
	s.clear()
	st := state{Site: s, step: step, item: map[int]int{}, left: len(step.Items), ties: map[int][]geom.Vec{}}
	st.report = Report{Ways: make([]Way, len(step.Items)), Rooms: make([]Room, len(step.Drives))}
	st.in = make([]bool, len(step.Items))
	st.tight = make([]bool, len(step.Drives))
	st.shut = [2][][]int{make([][]int, len(step.Items)), make([][]int, len(step.Items))}
	for _, i := range step.There {
		s.put(i)
		st.item[i] = -1
	}
	for k, boards := range step.Items {
		st.in[k] = true
		for _, i := range boards {
			s.put(i)
			st.item[i] = k
		}
	}
	for d := range step.Drives {
		st.tight[d] = true
		if v := &step.Drives[d]; v.Kind == Dowel {
			for _, b := range v.Boards {
				if k, ok := st.item[b]; ok && k >= 0 {
					st.ties[k] = append(st.ties[k], v.Way)
				}
			}
		}
	}
	for {
		st.undo(tools)
		if !st.take() {
			break
		}
	}
	for k, in := range st.in { // what is stuck comes first, as far as it comes at all
		if in {
			st.report.Order = append(st.report.Order, k)
		}
	}
	reverse(st.report.Order)
	return st.report
}

// undo loosens every fastener that can be reached.
func (st *state) undo(tools *Tools) {
	for d, tight := range st.tight {
		m := &st.report.Rooms[d]
		if !tight || m.By != nil && !st.gone(m.By) {
			continue
		}
		if *m = st.room(&st.step.Drives[d], tools); m.Clear == Yes {
			st.tight[d] = false
			m.After = st.left
		}
	}
}

// take takes away the last item that is loose and can leave along one line, or if
// there is none, along two, and reports whether there was one.
func (st *state) take() bool {
	for lines := range 2 {
		for k := len(st.in) - 1; k >= 0; k-- {
			shut := &st.shut[lines][k]
			if !st.in[k] || *shut != nil && !st.gone(*shut) || st.held(k) {
				continue
			}
			boards := st.step.Items[k]
			for _, i := range boards {
				st.take1(i)
			}
			var w Way
			if st.count() > 0 {
				w = st.way(boards, st.step.Up, st.ties[k], lines == 1)
			}
			st.report.Ways[k], *shut = w, w.By
			if w.Clear == Yes {
				st.in[k] = false
				st.left--
				st.report.Order = append(st.report.Order, k)
				return true
			}
			for _, i := range boards {
				st.put(i)
			}
		}
	}
	return false
}

// held reports whether a fastener that is not undone holds an item.
func (st *state) held(k int) bool {
	for d, tight := range st.tight {
		if v := &st.step.Drives[d]; tight && v.Kind != Dowel && (st.item[v.Boards[0]] == k || st.item[v.Boards[1]] == k) {
			return true
		}
	}
	return false
}

// gone reports whether any of the boards has left since.
func (s *Site) gone(boards []int) bool {
	for _, i := range boards {
		if !s.there[i] {
			return true
		}
	}
	return false
}

func reverse(list []int) {
	for i, k := 0, len(list)-1; i < k; i, k = i+1, k-1 {
		list[i], list[k] = list[k], list[i]
	}
}
