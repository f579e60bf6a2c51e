package cutplan

import (
	"context"
	"slices"
)

// A search looks for the cheapest boards of one instance.
type search struct {
	ctx     context.Context
	in      *instance
	fillers []*filler // by mode
	paths   *paths    // of boards left whole
	saws    []*ripper // by stock, when boards may be ripped
	prover  *prover   // of what no layout can undercut; nil: the search itself proves
	master  *master
	cuts    []cut
	queue   queue   // of purchases not tried yet
	trees   []Tree  // proofs of the refuted
	refuted [][]int // purchases from which, or from fewer, the parts do not come
	open    [][]int // purchases left undecided
	uses    []use   // the best plan so far
	cost    int64
	nodes   int
	most    int // nodes
}

// A use is one board and what is sawn from it.
type use struct {
	board    int
	counts   []int
	sections []section // of a stock that may be ripped; nil: one lane with everything
}

// A section is a length of a board between two crosscuts, ripped into strips.
type section struct {
	length int // taken, with a kerf
	strips []strip
}

// A strip is a lane of a section: of a mode, and how many of each item.
type strip struct {
	mode   int
	counts []int
}

// A cut refutes purchases: the items weigh need together, and a board of kind b
// holds at most best[b] of it, so that boards which hold less together cannot
// yield them.
type cut struct {
	weight []int64
	arcs   []int64 // by branch of a tree, when there are any
	need   int64
	best   []int64 // by board
	scale  int     // of a relaxed instance
}

// A state is what is left to do: items wanted, and boards not touched yet.
type state struct{ want, boards []int }

func newSearch(ctx context.Context, in *instance, most int) *search {
	s := &search{ctx: ctx, in: in, most: most}
	for i := range in.modes {
		s.fillers = append(s.fillers, newFiller(in, &in.modes[i]))
	}
	if len(in.rips) > 0 {
		for _, b := range in.boards {
			if !slices.ContainsFunc(s.saws, func(r *ripper) bool { return r.whole == b.whole }) {
				s.saws = append(s.saws, newRipper(s, b.stock))
			}
		}
	}
	s.cuts = append(s.cuts, s.weigh(s.lengths(), s.start(nil).want)) // length alone
	s.master = newMaster(s, false)
	return s
}

// lengths returns for each item the length it takes up.
func (s *search) lengths() (weight []int64) {
	for _, it := range s.in.items {
		weight = append(weight, int64(it.whole[it.demand]/it.demand))
	}
	return weight
}

// weigh returns the cut that the given weights make of the wanted items.
func (s *search) weigh(weight []int64, want []int) cut {
	c := cut{weight: weight}
	for i, n := range want {
		c.need += weight[i] * int64(n)
	}
	ran := map[int]bool{}
	for _, b := range s.in.boards {
		f := s.fillers[b.whole]
		if !ran[b.whole] {
			f.run(weight, want)
			ran[b.whole] = true
		}
		c.best = append(c.best, min(f.value[b.capacity], c.need))
	}
	return c
}

// room returns how much of the cut's weight the state can hold at most.
func (c *cut) room(st *state) (room int64) {
	for b, n := range st.boards {
		room += int64(n) * c.best[b]
	}
	return room
}

// refutes reports whether c proves that the wanted items do not come from what
// the state has left.
func (c *cut) refutes(st *state) bool {
	var need int64
	for i, n := range st.want {
		need += c.weight[i] * int64(n)
	}
	return need > c.room(st)
}

type verdict uint8

const (
	undecided verdict = iota
	yielded
	impossible
)

// start returns the state of a purchase.
func (s *search) start(boards []int) *state {
	st := &state{boards: slices.Clone(boards)}
	for _, it := range s.in.items {
		st.want = append(st.want, it.demand)
	}
	return st
}

func (st *state) clone() *state { return &state{slices.Clone(st.want), slices.Clone(st.boards)} }

// pieces returns how many pieces are still wanted.
func (st *state) pieces() (n int) {
	for _, w := range st.want {
		n += w
	}
	return n
}

func (st *state) done() bool { return st.pieces() == 0 }

// apply saws one board, as far as the items are still wanted, and returns what
// was sawn; false when it would yield nothing or there is no such board.
func (s *search) apply(st *state, u use) (use, bool) {
	if st.boards[u.board] == 0 {
		return u, false
	}
	done := use{board: u.board, counts: make([]int, len(u.counts))}
	any := false
	for i, n := range u.counts {
		done.counts[i] = min(n, st.want[i])
		any = any || done.counts[i] > 0
	}
	if !any {
		return u, false
	}
	if u.sections != nil {
		at := slices.IndexFunc(s.saws, func(r *ripper) bool { return r.whole == s.in.boards[u.board].whole })
		done = s.saws[at].trimmed(u, st.want)
	}
	for i, n := range done.counts {
		st.want[i] -= n
	}
	st.boards[u.board]--
	return done, true
}

// ceilDiv returns ⌈a/b⌉ of non-negative a and positive b.
func ceilDiv(a, b int64) int64 { return (a + b - 1) / b }
