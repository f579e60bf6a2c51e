// Package care finds what a carpenter who looks a design over would shake his
// head at: boards that nothing holds, feet that trip, slats that reach too far,
// cuts that endanger a hand, wood that will rot or that food should not lie on.
//
// Start at Check. It looks at the boards in place, at where they meet and at how
// they are fastened there, and at what the design says of its use; it draws no
// loads. Every rule names its source, or says that it is common practice. What a
// rule cannot see, as whether a floor is paved, it asks for in the mend.
package care

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"scantling/internal/board"
	"scantling/internal/design"
	"scantling/internal/geom"
	"scantling/internal/joint"
	"scantling/internal/lumber"
	"scantling/internal/measure"
	"scantling/internal/phrase"
	"scantling/internal/snag"
)

// Check returns what is wrong, doubtful or worth knowing in a piece by its
// shape, its fastening and its wood. All of it is of the settled tier.
func Check(p *design.Piece, m *joint.Meetings, joints []joint.Joint) snag.List {
	c := newChecker(p, m, joints)
	c.floating()
	c.held()
	c.loose()
	c.freeEnds()
	c.spans()
	c.feet()
	c.gaps()
	c.openings()
	c.small()
	c.reach()
	c.touched()
	c.low()
	c.bareTops()
	c.nominal()
	return c.snags
}

// practice is the source of most rules.
const practice = "common practice"

// A checker is one look at one piece.
type checker struct {
	piece    *design.Piece
	boards   []*design.Board // those with a solid
	at       map[board.ID]int
	box      []geom.Box    // of each board, in the piece
	holds    [][]hold      // of each board, where others touch it or are fastened to it
	touching [][]int       // of each board, those it shares any area with
	joints   []joint.Joint // as found
	tape     measure.Graduation
	snags    snag.List
}

// A hold is one other board at a board: the stretch of the grain it covers, and
// whether the two are fastened.
type hold struct {
	other     int      // -1: hardware
	low, high float64  // mm from the board's start, along its grain
	out       geom.Vec // in the piece, out of the board into the other
	area      float64  // mm²; 0 of hardware
	fastened  bool
}

func newChecker(p *design.Piece, m *joint.Meetings, joints []joint.Joint) *checker {
	c := &checker{piece: p, joints: joints, at: map[board.ID]int{}}
	if p.Units == measure.Metric {
		c.tape = measure.WholeMM
	}
	place := make([]int, len(p.Boards)) // in c.boards; -1: no solid
	for i, b := range p.Boards {
		place[i] = -1
		if b.Solid != nil && len(b.Solid.Cells) > 0 {
			place[i] = len(c.boards)
			c.at[b.ID] = place[i]
			c.boards = append(c.boards, b)
			c.box = append(c.box, b.Placed().Around())
		}
	}
	c.holds, c.touching = make([][]hold, len(c.boards)), make([][]int, len(c.boards))
	fastened := c.fastenings()
	for i := range m.All {
		x := &m.All[i]
		a, b := place[x.A], place[x.B]
		if x.Area > 0 {
			c.touching[a], c.touching[b] = append(c.touching[a], b), append(c.touching[b], a)
		}
		if x.Area < joint.Enough {
			continue
		}
		tied := fastened[[2]int{a, b}]
		for _, touch := range x.Contacts {
			if touch.Kind == geom.Area {
				c.hold(a, b, touch, touch.Plane.N, tied)
				c.hold(b, a, touch, touch.Plane.N.Negated(), tied)
			}
		}
	}
	c.hardware()
	return c
}

// fastenings returns the pairs of boards that a joint fastens to one another, or
// would if it had room, which package joint tells.
func (c *checker) fastenings() map[[2]int]bool {
	out := map[[2]int]bool{}
	for i := range c.joints {
		for _, p := range c.joints[i].Pairs {
			if len(p.Uses) > 0 {
				out[ordered(c.at[p.A.ID], c.at[p.B.ID])] = true
			}
		}
	}
	return out
}

func ordered(a, b int) [2]int { return [2]int{min(a, b), max(a, b)} }

func (c *checker) hold(a, other int, touch geom.Contact, out geom.Vec, fastened bool) {
	low, high := math.Inf(1), math.Inf(-1)
	for _, loop := range touch.Loops {
		for _, p := range loop {
			x := c.boards[a].Pose.In(p).X
			low, high = math.Min(low, x), math.Max(high, x)
		}
	}
	c.holds[a] = append(c.holds[a], hold{other, low, high, out, touch.Area, fastened})
}

// hardware holds every board it is fixed to, over the whole of it: where it sits
// is not said.
func (c *checker) hardware() {
	for _, h := range c.piece.Hardware {
		for _, id := range h.Fixed {
			if i, ok := c.at[id]; ok {
				b := c.boards[i]
				c.holds[i] = append(c.holds[i], hold{other: -1, low: 0, high: b.L, out: b.Pose.Z, fastened: true})
			}
		}
	}
}

// flat reports whether a board lies on its face: its thickness within 45° of
// plumb, so that what lies on it bends it the weak way.
func flat(b *design.Board) bool { return math.Abs(b.Pose.Z.Z) > math.Sqrt2/2 }

// level reports whether a board's grain is within 45° of level.
func level(b *design.Board) bool { return math.Abs(b.Pose.X.Z) < math.Sqrt2/2 }

// open reports whether a board that lies flat has nothing on it: things and
// people can be.
func (c *checker) open(i int) bool {
	for _, h := range c.holds[i] {
		if h.other >= 0 && h.out.Z > math.Sqrt2/2 {
			return false
		}
	}
	return flat(c.boards[i])
}

// worst keeps, for one part of the file, the board a rule is broken worst by,
// and all boards that break it.
type worst struct {
	by     float64
	board  int
	others []int
	says   func() snag.Snag
}

// A tally gathers what breaks one rule, part by part, in file order.
type tally struct {
	names []string
	parts map[string]*worst
}

// add notes that board i breaks the rule by so much.
func (c *checker) add(t *tally, i int, by float64, says func() snag.Snag) {
	name := c.boards[i].Name
	if t.parts == nil {
		t.parts = map[string]*worst{}
	}
	w := t.parts[name]
	if w == nil {
		w = &worst{by: math.Inf(-1)}
		t.parts[name] = w
		t.names = append(t.names, name)
	}
	if !slices.Contains(w.others, i) {
		w.others = append(w.others, i)
	}
	if by > w.by+geom.Touch {
		w.by, w.board, w.says = by, i, says
	}
}

// tell tells one snag for each part of the tally: of its worst board, with all
// others named.
func (c *checker) tell(t *tally) {
	for _, name := range t.names {
		w := t.parts[name]
		s := w.says()
		s.Boards = []string{string(c.boards[w.board].ID)}
		for _, i := range w.others {
			if i != w.board {
				s.Boards = append(s.Boards, string(c.boards[i].ID))
			}
		}
		if n := len(w.others) - 1; n > 0 {
			s.What += "; so " + plural(n, "is", "are") + " " + strconv.Itoa(n) + " more of them"
		}
		c.say(s, w.board)
	}
}

// say adds a snag about board i, at its part unless it has a place.
func (c *checker) say(s snag.Snag, i int) {
	s.Tier = snag.Settled
	if s.At.IsZero() && i >= 0 {
		s.At = c.boards[i].At
	}
	if s.Boards == nil && i >= 0 {
		s.Boards = []string{string(c.boards[i].ID)}
	}
	c.snags = append(c.snags, s)
}

// length prints mm millimetres as the tape reads.
func (c *checker) length(mm float64) string {
	l, _ := measure.FromMM(mm)
	return l.Tape(c.tape).String()
}

// over prints a length that is above a limit, and the limit, as finely as it
// takes to tell them apart.
func (c *checker) over(mm, limit float64) (is, most string) {
	if is, most = c.length(mm), c.length(limit); is != most || c.tape.Units() == measure.Metric {
		return is, most
	}
	l, _ := measure.FromMM(mm)
	m, _ := measure.FromMM(limit)
	if is, most = l.Tape(measure.SixtyFourth).String(), m.Tape(measure.SixtyFourth).String(); is == most {
		is = "a hair over " + is
	}
	return is, most
}

// lumberOf returns the lumber a board is cut from.
func (c *checker) lumberOf(b *design.Board) *design.Lumber {
	for i := range c.piece.Lumber {
		if c.piece.Lumber[i].Name == b.Lumber {
			return &c.piece.Lumber[i]
		}
	}
	return nil
}

// treat returns a mend that changes a stock's treatment, as an edit when the
// file says one.
func treat(l *design.Lumber, to lumber.Treatment) snag.Mend {
	says := "buy " + phrase.Spaced(l.Name) + " treated for " + to.String()
	if to == lumber.Untreated {
		says = "buy " + phrase.Spaced(l.Name) + " untreated"
	}
	if l.Treat.IsZero() {
		return snag.Say(says + ": under lumber, give it treatment: " + to.String())
	}
	return snag.Replace(says, l.Treat, to.String())
}

// pick returns what is said in inches, or in millimetres.
func (c *checker) pick(inch, metric string) string {
	if c.tape == measure.WholeMM {
		return metric
	}
	return inch
}

// area words mm² for a message.
func (c *checker) area(mm2 float64) string {
	return c.pick(fmt.Sprintf("%.1f sq in", mm2/(inch*inch)), fmt.Sprintf("%.1f sq cm", mm2/100))
}

func plural(n int, one, many string) string {
	if n == 1 {
		return one
	}
	return many
}

// alike reports whether a is above b by more than what no rule can tell.
func above(a, b float64) bool { return a > float64(b)+geom.Touch }
