package cutplan

import (
	"cmp"
	"math"
	"slices"
)

// run finds the cheapest purchase and its cuts. Bound is the least that could
// have been cheaper still; searched says that some purchase below it was
// refuted by trying everything, for which there is no proof to check. Purchases
// left undecided come up again, with four times the effort each time.
func (s *search) run(report func(cost, bound int64)) (uses []use, cost, bound int64, searched bool) {
	s.uses, s.cost = s.greedy()
	if s.saws != nil {
		bound = s.runRipped(report)
		report(s.cost, bound)
		return s.uses, s.cost, bound, false
	}
	for _, u := range s.uses {
		s.master.put(u)
	}
	try := func(boards []int, price int64, effort int) {
		report(s.cost, s.least(price))
		trees := len(s.trees)
		v, found := s.settle(boards, effort)
		switch {
		case v == yielded:
			s.uses, s.cost = found, price
		case v == undecided:
			s.open = append(s.open, boards)
		case len(s.trees) > trees || !s.cuts[len(s.cuts)-1].refutes(s.start(boards)):
			s.refuted = append(s.refuted, boards)
			searched = searched || len(s.trees) == trees
		}
	}
	for effort := 0; ; effort++ {
		for s.going() {
			boards, price, ok := s.cheapest(s.cost)
			if !ok {
				break
			}
			try(boards, price, effort)
		}
		again := s.open
		slices.SortStableFunc(again, func(a, b []int) int { return cmp.Compare(s.price(a), s.price(b)) })
		for len(again) > 0 && s.going() {
			boards := again[0]
			again = again[1:]
			s.open = slices.DeleteFunc(slices.Clone(s.open), func(o []int) bool { return slices.Equal(o, boards) })
			if s.price(boards) < s.cost {
				try(boards, s.price(boards), effort+1)
			}
		}
		// With rips and slopes, trying everything settles small jobs or none.
		if len(s.open) == 0 || !s.going() || !s.in.plain && effort == 1 {
			break
		}
	}
	bound = s.least(s.floor())
	report(s.cost, bound)
	return s.uses, s.cost, bound, searched
}

// going reports whether the search may go on.
func (s *search) going() bool { return s.ctx.Err() == nil && s.nodes < s.most }

// least returns the least of price and the prices of purchases left undecided.
func (s *search) least(price int64) int64 {
	for _, boards := range s.open {
		price = min(price, s.price(boards))
	}
	return price
}

func (s *search) price(boards []int) (price int64) {
	for b, n := range boards {
		price += int64(n) * s.in.boards[b].price
	}
	return price
}

// never is dearer than any purchase.
const never = math.MaxInt64 / 4

// greedy returns the cheaper of two simple plans: one that fills each board as
// full as it gets, and one that puts long items before short ones.
func (s *search) greedy() ([]use, int64) {
	size := s.lengths()
	if s.saws != nil {
		size = s.areas()
	}
	full, cost := s.fill(size)
	long := slices.Clone(size)
	for i := range long {
		long[i] += long[i] * int64(s.in.items[i].whole[1]) / int64(s.in.boards[0].capacity)
	}
	uses, price := s.fill(long)
	if full != nil && cost <= price {
		return full, cost
	}
	return uses, price
}

// fill saws boards one by one, each time the one that yields most weight for its
// price. It returns no uses and never when the boards run out.
func (s *search) fill(weight []int64) ([]use, int64) {
	limits := make([]int, len(s.in.boards))
	for b := range limits {
		limits[b] = s.in.boards[b].limit
	}
	st := s.start(limits)
	var uses []use
	var cost int64
	for !st.done() {
		var pick use
		var most, price int64
		s.fullest(st, weight, func(u use, value int64) {
			if p := s.in.boards[u.board].price; most == 0 || float64(value)*float64(max(price, 1)) > float64(most)*float64(max(p, 1)) {
				pick, most, price = u, value, p
			}
		})
		if most == 0 {
			return nil, never
		}
		cost += price
		u, _ := s.apply(st, pick)
		uses = append(uses, u)
	}
	return uses, cost
}

// fullest visits for every board to be had the filling that weighs most, as far
// as known.
func (s *search) fullest(st *state, weight []int64, visit func(u use, value int64)) {
	for _, r := range s.saws {
		r.each(st, weight, func(int) int64 { return 0 }, func(u use) {
			var value int64
			for i, n := range u.counts {
				value += int64(n) * weight[i]
			}
			visit(u, value)
		})
	}
	if s.saws != nil {
		return
	}
	for b, board := range s.in.boards {
		if f := s.fillers[board.whole]; st.boards[b] > 0 {
			f.run(weight, st.want)
			if value := f.value[board.capacity]; value > 0 {
				visit(use{board: b, counts: f.pattern(board.capacity)}, value)
			}
		}
	}
}

// tried reports whether a purchase was left undecided, or is part of one that
// was refuted.
func (s *search) tried(boards []int) bool {
	for _, o := range s.open {
		if slices.Equal(o, boards) {
			return true
		}
	}
	for _, r := range s.refuted {
		less := true
		for b, n := range boards {
			less = less && n <= r[b]
		}
		if less {
			return true
		}
	}
	return false
}
