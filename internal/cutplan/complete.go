package cutplan

import (
	"cmp"
	"slices"
)

// complete tries everything: the longest item still wanted goes on some board,
// and that board is filled in every way that leaves no room. States proved
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
		if st.boards[b] == 0 {
			continue
		}
		var found []use
		s.fillings(st, b, first, func(u use) bool {
			next := st.clone()
			done, _ := s.apply(next, u)
			sub, rest := s.complete(next, budget, dead)
			switch sub {
			case yielded:
				found = append([]use{done}, rest...)
			case undecided:
				v = undecided
			}
			return found == nil && *budget >= 0
		})
		if found != nil {
			return yielded, found
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

// fillings visits, fullest of long items first, every filling of a board that
// holds item first and has no room for another wanted one, until visit returns
// false.
func (s *search) fillings(st *state, b, first int, visit func(use) bool) {
	mode := &s.in.modes[s.in.boards[b].whole]
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
			return visit(use{board: b, counts: slices.Clone(counts)})
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
	for _, n := range st.boards {
		put(n)
	}
	return string(out)
}
