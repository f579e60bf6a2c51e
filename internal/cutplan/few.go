package cutplan

import (
	"math/bits"
	"slices"
)

// fewest pieces for which every layout of sections and strips is tried.
const fewPieces = 9

// A few tries every layout of a few pieces. Sets of pieces are bits.
type few struct {
	s      *search
	items  []int     // by piece
	yields []*yields // by ripper
}

// yields is what sets of pieces take up on boards of one stock.
type yields struct {
	few     *few
	r       *ripper
	wide    []int // by set: the widest piece, with a kerf; 0 when one does not come from this stock
	lane    []int // length taken by the set on one strip
	section []int // … in one section
	board   []int // … on a board, in sections
	first   []int // the set of the first section
}

const endless = 1 << 40

// newFew returns nil when too many pieces are wanted.
func newFew(s *search, want []int) *few {
	f := &few{s: s}
	for i, n := range want {
		for range n {
			f.items = append(f.items, i)
		}
	}
	if len(f.items) > fewPieces {
		return nil
	}
	for _, r := range s.saws {
		f.yields = append(f.yields, f.measure(r))
	}
	return f
}

// measure fills the tables of one stock.
func (f *few) measure(r *ripper) *yields {
	all := 1 << len(f.items)
	y := &yields{few: f, r: r, wide: make([]int, all), lane: make([]int, all), section: make([]int, all), board: make([]int, all), first: make([]int, all)}
	mode := &f.s.in.modes[r.whole]
	for set := 1; set < all; set++ {
		for k, i := range f.items {
			if set&(1<<k) == 0 {
				continue
			}
			if !slices.Contains(mode.items, i) {
				y.wide[set] = endless
			}
			y.wide[set] = max(y.wide[set], f.s.in.items[i].width+r.kerf)
		}
		y.lane[set] = endless
		if y.wide[set] < endless {
			y.lane[set] = f.s.in.taken(mode, f.counts(set))
		}
	}
	for set := 1; set < all; set++ {
		y.section[set], _ = y.strips(set, 0, r.room, endless, nil)
		y.board[set], y.first[set] = y.section[set], set
		for part := (set - 1) & set; part > 0; part = (part - 1) & set {
			if l := y.section[part] + y.board[set&^part]; l < y.board[set] {
				y.board[set], y.first[set] = l, part
			}
		}
	}
	return y
}

// counts returns how many of each item are in a set.
func (f *few) counts(set int) []int {
	counts := make([]int, len(f.s.in.items))
	for ; set > 0; set &= set - 1 {
		counts[f.items[bits.TrailingZeros(uint(set))]]++
	}
	return counts
}

// strips returns the least length, below least, of a section that holds the
// pieces left beside strips that are as long as longest, and its further strips.
func (y *yields) strips(left, longest, room, least int, above []int) (int, []int) {
	if left == 0 {
		return longest, slices.Clone(above)
	}
	first := left & -left
	var best []int
	for strip := left; strip > 0; strip = (strip - 1) & left {
		if strip&first == 0 || y.wide[strip] > room || max(longest, y.lane[strip]) >= least {
			continue
		}
		if l, strips := y.strips(left&^strip, max(longest, y.lane[strip]), room-y.wide[strip], least, append(above, strip)); l < least {
			least, best = l, strips
		}
	}
	return least, best
}

// use returns a board of kind b that holds a set.
func (y *yields) use(b, set int) use {
	in := y.few.s.in
	u := use{board: b, counts: y.few.counts(set)}
	for set > 0 {
		part := y.first[set]
		length, strips := y.strips(part, 0, y.r.room, endless, nil)
		sec := section{length: length}
		for _, st := range strips {
			m := y.r.whole
			if len(strips) > 1 {
				m = slices.IndexFunc(in.modes, func(m mode) bool {
					return m.strip && m.stock == in.boards[b].stock && m.width+y.r.kerf == y.wide[st]
				})
			}
			sec.strips = append(sec.strips, strip{m, y.few.counts(st)})
		}
		slices.SortStableFunc(sec.strips, func(a, b strip) int { return in.modes[b.mode].width - in.modes[a.mode].width })
		u.sections = append(u.sections, sec)
		set &^= part
	}
	return u
}

// of returns the yields of boards of kind b.
func (f *few) of(b int) *yields {
	return f.yields[slices.IndexFunc(f.yields, func(y *yields) bool { return y.r.whole == f.s.in.boards[b].whole })]
}

// from returns how the pieces come from the given boards; nil when they do not.
func (f *few) from(boards []int) []use {
	all := 1 << len(f.items)
	type step struct{ board, before int }
	reached := make([]*step, all) // how a set was covered
	reached[0] = &step{before: -1}
	for b, n := range boards {
		y, room := f.of(b), f.s.in.boards[b].capacity
		for range min(n, len(f.items)) {
			now := slices.Clone(reached)
			for had := range all {
				if reached[had] == nil {
					continue
				}
				rest := (all - 1) &^ had
				for set := rest; set > 0; set = (set - 1) & rest {
					if now[had|set] == nil && y.board[set] <= room {
						now[had|set] = &step{b, had}
					}
				}
			}
			reached = now
		}
	}
	if reached[all-1] == nil {
		return nil
	}
	uses := []use{}
	for set := all - 1; set > 0; {
		st := reached[set]
		uses = append(uses, f.of(st.board).use(st.board, set&^st.before))
		set = st.before
	}
	return uses
}

// cheapest returns the cheapest boards, of those without limit, from which the
// pieces come.
func (f *few) cheapest() ([]use, int64) {
	all := 1 << len(f.items)
	cost := make([]int64, all)
	pick := make([][2]int, all) // board and set
	for left := 1; left < all; left++ {
		cost[left] = never
		for set := left; set > 0; set = (set - 1) & left {
			if set&(left&-left) == 0 || cost[left&^set] == never {
				continue
			}
			for b, board := range f.s.in.boards {
				if c := board.price + cost[left&^set]; board.limit == plenty && c < cost[left] && f.of(b).board[set] <= board.capacity {
					cost[left], pick[left] = c, [2]int{b, set}
				}
			}
		}
	}
	if cost[all-1] == never {
		return nil, never
	}
	uses := []use{}
	for left := all - 1; left > 0; left &^= pick[left][1] {
		uses = append(uses, f.of(pick[left][0]).use(pick[left][0], pick[left][1]))
	}
	return uses, cost[all-1]
}
