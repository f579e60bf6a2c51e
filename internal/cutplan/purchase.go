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
	bound = s.cost
	if _, price, ok := s.cheapest(s.cost); ok {
		bound = price
	}
	bound = s.least(bound)
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
	full, cost := s.fill(s.cuts[0].weight)
	long := slices.Clone(s.cuts[0].weight)
	for i := range long {
		long[i] += long[i] * long[i] / int64(s.in.boards[0].capacity)
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
		c := s.weigh(weight, st.want)
		pick, rip := -1, 0
		var most, price int64
		better := func(b, way int, value int64) {
			board := s.in.boards[b]
			value = min(value, c.need)
			if st.boards[b] > 0 && value > 0 && (pick < 0 || float64(value)*float64(max(price, 1)) > float64(most)*float64(max(board.price, 1))) {
				pick, rip, most, price = b, way, value, board.price
			}
		}
		for b, board := range s.in.boards {
			better(b, 0, c.holds[b][board.whole])
			for r, way := range s.in.rips {
				if way.stock == board.stock {
					better(b, r+1, way.worth(c.holds[b]))
				}
			}
		}
		if pick < 0 {
			return nil, never
		}
		cost += price
		lane := func(m int) bool {
			s.fillers[m].run(weight, st.want)
			u, ok := s.apply(st, use{board: pick, mode: m, counts: s.fillers[m].pattern(s.in.boards[pick].capacity), rip: rip})
			if ok {
				uses = append(uses, u)
			}
			return ok
		}
		if rip == 0 {
			lane(s.in.boards[pick].whole)
			continue
		}
		for m, n := range s.in.rips[rip-1].strips {
			for range n {
				lane(m)
			}
		}
		clear(st.strips[pick])
	}
	return uses, cost
}

// cheapest returns the cheapest purchase below the given cost that passes every
// cut and has not been tried; of equally cheap ones, one of fewest boards.
func (s *search) cheapest(cost int64) (boards []int, price int64, ok bool) {
	p := &purchase{s: s, best: cost, count: plenty, taken: make([]int, len(s.in.boards)), needs: make([]int64, len(s.cuts))}
	for i, c := range s.cuts {
		p.needs[i] = c.need
	}
	p.from(0, 0, 0)
	return p.found, p.best, p.found != nil
}

type purchase struct {
	s     *search
	taken []int
	needs []int64 // by cut: weight not yet held
	found []int
	best  int64
	count int
}

// from chooses how many of board b and those after it to take.
func (p *purchase) from(b int, price int64, count int) {
	lower := price + p.rest(b)
	if lower > p.best || lower == p.best && (p.found == nil || count >= p.count) {
		return
	}
	if b == len(p.s.in.boards) {
		if !p.s.tried(p.taken) {
			p.found, p.best, p.count = slices.Clone(p.taken), price, count
		}
		return
	}
	board := p.s.in.boards[b]
	useful := p.useful(b)
	for n := 0; n <= min(useful, board.limit); n++ {
		p.taken[b] = n
		p.hold(b, int64(n))
		p.from(b+1, price+int64(n)*board.price, count+n)
		p.hold(b, -int64(n))
		if price+int64(n)*board.price > p.best {
			break
		}
	}
	p.taken[b] = 0
}

// hold counts n boards of kind b toward every need.
func (p *purchase) hold(b int, n int64) {
	for i := range p.needs {
		p.needs[i] -= n * p.s.cuts[i].best[b]
	}
}

// useful returns how many boards of kind b are enough to pass every cut they
// count for, and one more where purchases have been refuted without a cut.
func (p *purchase) useful(b int) int {
	n := int64(0)
	for i, need := range p.needs {
		if best := p.s.cuts[i].best[b]; best > 0 && need > 0 {
			n = max(n, ceilDiv(need, best))
		}
	}
	if len(p.s.refuted)+len(p.s.open) > 0 {
		n += int64(p.s.in.pieces())
	}
	return int(min(n, plenty))
}

// rest returns a price the boards from b on cannot undercut: by the dearest of
// the cuts, each filled at its best price.
func (p *purchase) rest(b int) int64 {
	var price int64
	for i, need := range p.needs {
		if need <= 0 {
			continue
		}
		c := &p.s.cuts[i]
		per, by := int64(-1), int64(1) // best price and what it holds
		for k := b; k < len(p.s.in.boards); k++ {
			board := p.s.in.boards[k]
			switch {
			case c.best[k] == 0:
			case board.price == 0:
				need -= min(int64(board.limit)*c.best[k], need)
			case per < 0 || float64(board.price)*float64(by) < float64(per)*float64(c.best[k]):
				per, by = board.price, c.best[k]
			}
		}
		if need <= 0 {
			continue
		}
		if per < 0 {
			return never
		}
		price = max(price, ceilDiv(need*per, by))
	}
	return price
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
