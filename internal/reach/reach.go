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
	"slices"

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
	By    []int      // not Clear: boards in the way, the one it comes past furthest first
	Out   float64    // not Clear: mm it could be drawn out, along a line, until it meets that one
}

// A Room is whether a fastener can be driven.
type Room struct {
	Clear Verdict
	Tool  string  // that drives it, or would
	Needs float64 // mm in front of it, along its axis, that the tool takes
	Free  float64 // mm there are, at most Endless
	Side  string  // "head" or "nut": the end it is about
	After int     // how many items are in when it is driven

	// Of a room that is not Clear:
	Wide   float64 // mm round the axis that the tool takes at least
	Beside float64 // mm there are, up to Wide
	By     []int   // boards in the way
}

// Endless is more room than any tool takes, in mm.
const Endless = 10000

// A Report is what a step comes to.
type Report struct {
	Order []int   // the items in an order in which they can come in
	Ways  []Way   // of each item
	Rooms []Room  // of each drive
	Apart [][]int // items that are put together on their own first, and brought in as one
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
	holds  []int  // by item: how many fasteners that are not undone hold it
	item   map[int]int
	ties   map[int][]geom.Vec // by item: axes of its dowels
	shut   [2][][]int         // by lines, by item: what was in its way when it was last tried
	left   int
}

// Step tells how the items of a step come in and whether its fasteners have room.
func (s *Site) Step(step *Step, tools *Tools) Report {
	n := len(step.Items)
	st := state{Site: s, step: step, item: map[int]int{}, left: n, ties: map[int][]geom.Vec{},
		in: make([]bool, n), tight: make([]bool, len(step.Drives)), holds: make([]int, n), shut: [2][][]int{make([][]int, n), make([][]int, n)},
		report: Report{Ways: make([]Way, n), Rooms: make([]Room, len(step.Drives))}}
	for _, i := range step.There {
		st.item[i] = -1
	}
	for k, boards := range step.Items {
		st.in[k] = true
		for _, i := range boards {
			st.item[i] = k
		}
	}
	for d := range step.Drives {
		st.tight[d] = true
		st.hold(d, 1)
		if v := &step.Drives[d]; v.Kind == Dowel {
			for _, b := range v.Boards {
				if k, ok := st.item[b]; ok && k >= 0 {
					st.ties[k] = append(st.ties[k], v.Way)
				}
			}
		}
	}
	st.stand()
	for more := true; more; {
		st.undo(tools)
		for more = false; st.take(); {
			more = true
		}
		more = more || st.takeTogether(tools)
	}
	for k := n - 1; k >= 0; k-- { // what is stuck comes first, as far as it comes at all
		if st.in[k] {
			st.report.Order = append(st.report.Order, k)
		}
	}
	slices.Reverse(st.report.Order)
	return st.report
}

// stand puts on the site what is left of the step.
func (st *state) stand() {
	st.clear()
	for _, i := range st.step.There {
		st.put(i)
	}
	for k, in := range st.in {
		if in {
			st.putAll(st.step.Items[k])
		}
	}
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
			st.hold(d, -1)
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
			if !st.in[k] || *shut != nil && !st.gone(*shut) || st.holds[k] > 0 {
				continue
			}
			boards := st.step.Items[k]
			st.takeAll(boards)
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
			st.putAll(boards)
		}
	}
	return false
}

// takeTogether takes away items that fasteners hold to one another and to nothing
// else, all at once, and looks at them on their own: what is put together first and
// brought in as one. It reports whether there were such.
func (st *state) takeTogether(tools *Tools) bool {
	for _, items := range st.clusters() {
		var boards []int
		for _, k := range items {
			boards = append(boards, st.step.Items[k]...)
		}
		st.takeAll(boards)
		w := Way{Clear: No}
		for lines := 0; lines < 2 && w.Clear == No && st.count() > 0; lines++ {
			w = st.way(boards, st.step.Up, nil, lines == 1)
		}
		if w.Clear != Yes {
			st.putAll(boards)
			continue
		}
		alone := Step{Up: st.step.Up}
		for _, k := range items {
			alone.Items = append(alone.Items, st.step.Items[k])
			st.in[k] = false
		}
		var drives []int
		for d, tight := range st.tight {
			if v := &st.step.Drives[d]; tight && slices.Contains(items, st.item[v.Boards[0]]) {
				alone.Drives = append(alone.Drives, *v)
				drives = append(drives, d)
				st.tight[d] = false
			}
		}
		r := st.Site.Step(&alone, tools)
		for n, d := range drives {
			st.report.Rooms[d] = r.Rooms[n]
			st.report.Rooms[d].After = len(st.in)
		}
		for n := range r.Order {
			k := r.Order[len(r.Order)-1-n]
			st.report.Order = append(st.report.Order, items[k])
			if st.report.Ways[items[k]] = w; r.Ways[k].Clear != Yes {
				st.report.Ways[items[k]] = r.Ways[k]
			}
		}
		st.report.Apart = append(st.report.Apart, items)
		st.left -= len(items)
		st.stand()
		return true
	}
	return false
}

// clusters gathers the items that fasteners hold to one another, those that hold to
// what was there before left out, and single ones: the last first.
func (st *state) clusters() [][]int {
	of := make([]int, len(st.in)+1) // the last stands for what was there
	for k := range of {
		of[k] = k
	}
	find := func(k int) int {
		for k = (k + len(of)) % len(of); of[k] != k; {
			k = of[k]
		}
		return k
	}
	for d, tight := range st.tight {
		if v := &st.step.Drives[d]; tight {
			of[find(st.item[v.Boards[0]])] = find(st.item[v.Boards[1]])
		}
	}
	var out [][]int
	for head := len(st.in) - 1; head >= 0; head-- {
		var items []int
		for k, in := range st.in {
			if in && find(k) == head && find(-1) != head {
				items = append(items, k)
			}
		}
		if len(items) > 1 && (len(items) < st.left || len(st.step.There) > 0) {
			out = append(out, items)
		}
	}
	return out
}

// hold counts a fastener among those that hold its items, or no more. A dowel lets
// go along its axis.
func (st *state) hold(d, by int) {
	v := &st.step.Drives[d]
	if v.Kind == Dowel {
		return
	}
	for _, b := range v.Boards {
		if k, ok := st.item[b]; ok && k >= 0 {
			st.holds[k] += by
		}
	}
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
