package cutplan

import "context"

// A search looks for the cheapest boards of one instance.
type search struct {
	ctx     context.Context
	in      *instance
	fillers []*filler // by mode
	paths   *paths    // of boards left whole
	master  *master
	cuts    []cut
	trees   []Tree  // proofs of the refuted
	refuted [][]int // purchases from which, or from fewer, the parts do not come
	open    [][]int // purchases left undecided
	uses    []use   // the best plan so far
	cost    int64
	nodes   int
	most    int // nodes
}

// A use is one lane of a board filled in a mode.
type use struct {
	board, mode int
	counts      []int
	rip         int // how the board was ripped for it, counted from 1; 0: not for this lane
}

// A cut refutes purchases: the items weigh need together, and a lane of board b
// used in mode m holds at most holds[b][m] of it, so that boards whose best modes
// hold less together cannot yield them.
type cut struct {
	weight []int64
	arcs   []int64 // by branch of a tree, when there are any
	need   int64
	holds  [][]int64
	best   []int64 // by board: of the best mode, all lanes together
	scale  int     // of a relaxed instance
}

// A state is what is left to do: items wanted, boards not touched yet, and
// strips ripped but not sawn, by board and mode.
type state struct {
	want   []int
	boards []int
	strips [][]int
}

func newSearch(ctx context.Context, in *instance, most int) *search {
	s := &search{ctx: ctx, in: in, most: most}
	weight := make([]int64, len(in.items))
	for i := range in.modes {
		s.fillers = append(s.fillers, newFiller(in, &in.modes[i]))
	}
	want := make([]int, len(in.items))
	for i, it := range in.items {
		weight[i], want[i] = int64(it.whole[it.demand]), it.demand
		weight[i] /= int64(it.demand)
	}
	s.cuts = append(s.cuts, s.weigh(weight, want)) // length alone
	s.master = newMaster(s)
	return s
}

// weigh returns the cut that the given weights make of the wanted items.
func (s *search) weigh(weight []int64, want []int) cut {
	c := cut{weight: weight}
	for i, n := range want {
		c.need += weight[i] * int64(n)
	}
	for _, f := range s.fillers {
		f.run(weight, want)
	}
	for _, b := range s.in.boards {
		var holds []int64
		var best int64
		for m, f := range s.fillers {
			if s.in.modes[m].stock != b.stock {
				holds = append(holds, 0)
				continue
			}
			holds = append(holds, f.value[b.capacity])
		}
		best = holds[b.whole]
		for _, r := range s.in.rips {
			if r.stock == b.stock {
				best = max(best, r.worth(holds))
			}
		}
		c.holds = append(c.holds, holds)
		c.best = append(c.best, min(best, c.need))
	}
	return c
}

// worth returns what the strips of a rip hold together.
func (r *rip) worth(holds []int64) (sum int64) {
	for m, n := range r.strips {
		if n > 0 {
			sum += int64(n) * holds[m]
		}
	}
	return sum
}

// room returns how much of the cut's weight the state can hold at most.
func (c *cut) room(st *state) int64 {
	var room int64
	for b, n := range st.boards {
		room += int64(n) * c.best[b]
		for m, strips := range st.strips[b] {
			room += int64(strips) * c.holds[b][m]
		}
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
	st := &state{boards: append([]int(nil), boards...)}
	for _, it := range s.in.items {
		st.want = append(st.want, it.demand)
	}
	for range boards {
		st.strips = append(st.strips, make([]int, len(s.in.modes)))
	}
	return st
}

func (st *state) clone() *state {
	c := &state{want: append([]int(nil), st.want...), boards: append([]int(nil), st.boards...)}
	for _, row := range st.strips {
		c.strips = append(c.strips, append([]int(nil), row...))
	}
	return c
}

// pieces returns how many pieces are still wanted.
func (st *state) pieces() (n int) {
	for _, w := range st.want {
		n += w
	}
	return n
}

func (st *state) done() bool {
	for _, n := range st.want {
		if n > 0 {
			return false
		}
	}
	return true
}

// has reports whether a lane of board b in mode m is to be had.
func (s *search) has(st *state, b, m int) bool {
	return s.in.modes[m].stock == s.in.boards[b].stock && (st.boards[b] > 0 || st.strips[b][m] > 0)
}

// likeliest returns the way to rip a board for a strip of mode m that the linear
// program last used most.
func (s *search) likeliest(b, m int) int {
	best := -1
	for r, rip := range s.in.rips {
		if rip.stock == s.in.boards[b].stock && rip.strips[m] > 0 && (best < 0 || s.master.ripped[b][r] > s.master.ripped[b][best]+1e-6) {
			best = r
		}
	}
	return best
}

// apply saws one lane, as far as the items are still wanted, and returns what
// was sawn; false when it would yield nothing or there is no such lane.
func (s *search) apply(st *state, u use) (use, bool) {
	if !s.has(st, u.board, u.mode) {
		return u, false
	}
	done := use{board: u.board, mode: u.mode, counts: make([]int, len(u.counts))}
	any := false
	for i, n := range u.counts {
		done.counts[i] = min(n, st.want[i])
		any = any || done.counts[i] > 0
	}
	if !any {
		return u, false
	}
	for i, n := range done.counts {
		st.want[i] -= n
	}
	if st.strips[u.board][u.mode] > 0 {
		st.strips[u.board][u.mode]--
		return done, true
	}
	st.boards[u.board]--
	if s.in.modes[u.mode].strip {
		if done.rip = u.rip; done.rip == 0 {
			done.rip = s.likeliest(u.board, u.mode) + 1
		}
		for m, n := range s.in.rips[done.rip-1].strips {
			st.strips[u.board][m] += n
		}
		st.strips[u.board][u.mode]--
	}
	return done, true
}

// ceilDiv returns ⌈a/b⌉ of non-negative a and positive b.
func ceilDiv(a, b int64) int64 { return (a + b - 1) / b }
