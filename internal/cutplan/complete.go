package cutplan

import (
	"cmp"
	"slices"
)

// complete tries everything: the longest item still wanted goes on some lane,
// and that lane is filled in every way that leaves no room. States proved
// barren are kept in dead.
func (s *search) complete(st *state, budget *int, dead map[string]bool) (verdict, []use) {
	if st.done() {
		return yielded, []use{}
	}
	key := st.key()
	if dead[key] {
		return impossible, nil
	}
	*budget--
	s.nodes++
	if *budget < 0 || s.ctx.Err() != nil {
		return undecided, nil
	}
	for i := range s.cuts {
		if s.cuts[i].refutes(st) {
			dead[key] = true
			return impossible, nil
		}
	}
	first := s.longest(st)
	v := impossible
	for b := range s.in.boards {
		for m := range s.in.modes {
			if !s.has(st, b, m) || !slices.Contains(s.in.modes[m].items, first) {
				continue
			}
			var found []use
			s.fillings(st, b, m, first, func(u use) bool {
				for _, u.rip = range s.ways(st, b, m) {
					next := st.clone()
					done, _ := s.apply(next, u)
					sub, rest := s.complete(next, budget, dead)
					switch sub {
					case yielded:
						found = append([]use{done}, rest...)
					case undecided:
						v = undecided
					}
					if found != nil || *budget < 0 {
						return false
					}
				}
				return true
			})
			if found != nil {
				return yielded, found
			}
		}
	}
	if *budget < 0 {
		return undecided, nil
	}
	if v == impossible {
		dead[key] = true
	}
	return v, nil
}

// ways returns the ways to rip a board for a lane, counted from 1, or just 0
// where it need not be ripped.
func (s *search) ways(st *state, b, m int) []int {
	if !s.in.modes[m].strip || st.strips[b][m] > 0 {
		return []int{0}
	}
	var out []int
	for r, rip := range s.in.rips {
		if rip.stock == s.in.boards[b].stock && rip.strips[m] > 0 {
			out = append(out, r+1)
		}
	}
	return out
}

// longest returns the item wanted that takes up most length alone.
func (s *search) longest(st *state) int {
	best := -1
	for i, n := range st.want {
		if n > 0 && (best < 0 || s.in.items[i].whole[1] > s.in.items[best].whole[1]) {
			best = i
		}
	}
	return best
}

// fillings visits, fullest of long items first, every filling of a lane that
// holds item first and has no room for another wanted one, until visit returns
// false.
func (s *search) fillings(st *state, b, m, first int, visit func(use) bool) {
	mode := &s.in.modes[m]
	counts := make([]int, len(s.in.items))
	capacity := s.in.boards[b].capacity
	order := slices.Clone(mode.items)
	slices.SortStableFunc(order, func(x, y int) int {
		return cmp.Compare(s.in.items[y].whole[1], s.in.items[x].whole[1])
	})
	var choose func(at int) bool
	choose = func(at int) bool {
		if at == len(order) {
			for _, i := range order {
				if counts[i] < st.want[i] {
					counts[i]++
					fits := s.in.taken(mode, counts) <= capacity
					counts[i]--
					if fits {
						return true // not full: a fuller one is visited too
					}
				}
			}
			return visit(use{board: b, mode: m, counts: slices.Clone(counts)})
		}
		i := order[at]
		least := 0
		if i == first {
			least = 1
		}
		most := least
		for counts[i] = least; counts[i] <= st.want[i] && s.in.taken(mode, counts) <= capacity; counts[i]++ {
			most = counts[i]
		}
		for counts[i] = most; counts[i] >= least; counts[i]-- {
			if s.in.taken(mode, counts) <= capacity && !choose(at+1) {
				counts[i] = 0
				return false
			}
		}
		counts[i] = 0
		return true
	}
	choose(0)
}

// key spells a state.
func (st *state) key() string {
	var out []byte
	put := func(n int) { out = append(out, byte(n), byte(n>>8)) }
	for _, n := range st.want {
		put(n)
	}
	for b, n := range st.boards {
		put(n)
		for _, strips := range st.strips[b] {
			put(strips)
		}
	}
	return string(out)
}
