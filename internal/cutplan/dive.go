package cutplan

import (
	"cmp"
	"slices"
)

// settle finds out whether a purchase yields the parts, and how; the greater
// the effort, the longer it tries.
func (s *search) settle(boards []int, effort int) (verdict, []use) {
	st := s.start(boards)
	v, shares, c := s.master.relaxation(st)
	if v == impossible {
		s.cuts = append(s.cuts, c)
		return v, nil
	}
	if v == yielded {
		tries := 40 << effort
		if uses := s.dive(st, slices.Clone(shares), &tries); uses != nil {
			return yielded, uses
		}
		if effort == 0 {
			s.stretch(st, slices.Clone(shares))
		}
	}
	if effort--; effort < 0 && s.in.distinct && s.in.pieces() > 60 {
		return undecided, nil // others first: a better purchase may be found sooner
	}
	effort = max(0, effort)
	all := undecided
	if !s.in.distinct || s.in.pieces() <= 60 {
		budget := min(500<<(2*effort), s.most-s.nodes)
		if !s.in.plain && s.in.pieces() > 30 {
			budget = min(budget, 60) // a hopeless try for so many
		}
		var uses []use
		all, uses = s.complete(st, &budget, map[string]bool{})
		if all == yielded || !s.in.distinct {
			return all, uses
		}
	}
	if v == undecided {
		return all, nil
	}
	// What trying everything refutes, a tree must refute too: it can be checked.
	f := &fork{s: s, st: st, left: min(250<<(2*effort), s.most-s.nodes)}
	v, uses, proof := f.branch(s.master.copy(), shares, 0)
	if v == impossible {
		s.trees = append(s.trees, s.tree(boards, proof))
	}
	if v == undecided {
		v = all
	}
	return v, uses
}

// runRipped finds the cheapest boards that may be ripped. What its own layouts do
// not yield others may, so that only the prover refutes purchases; the cheapest
// left open is the bound, and from then on purchases are tried for a better plan.
func (s *search) runRipped(report func(cost, bound int64)) (bound int64) {
	s.cheaply(6)
	for _, u := range s.uses {
		s.master.put(u)
	}
	for s.going() && s.prover.going() {
		boards, price, ok := s.cheapest(s.cost)
		if !ok {
			break
		}
		report(s.cost, s.least(price))
		if c, ok := s.prover.refute(boards, len(s.open) > 0); ok {
			s.cuts = append(s.cuts, c)
			continue
		}
		st := s.start(boards)
		v, shares, _ := s.master.relaxation(st)
		if v == yielded {
			tries := 6
			if uses := s.dive(st, slices.Clone(shares), &tries); uses != nil {
				s.uses, s.cost = uses, price
				continue
			}
			s.stretch(st, shares)
		}
		s.open = append(s.open, boards)
	}
	return s.least(s.floor())
}

// cheaply looks for a cheap plan of boards that may be ripped, and leaves it for
// the best so far: it saws what the cheapest boards in fractions use in whole
// numbers, or else the pattern used most, and asks again. Each time it changes
// its mind at another turn.
func (s *search) cheaply(times int) {
	m := newMaster(s, true)
	for _, u := range s.uses {
		m.put(u)
	}
	limits := make([]int, len(s.in.boards))
	for b := range limits {
		limits[b] = s.in.boards[b].limit
	}
	for t := range times {
		st := s.start(limits)
		var uses []use
		var cost int64
		for turn := 0; !st.done() && cost < s.cost && s.going(); {
			if f := newFew(s, st.want); f != nil {
				if rest, more := f.cheapest(); rest != nil && cost+more < s.cost {
					s.uses, s.cost = append(slices.Clone(uses), rest...), cost+more
				}
			}
			shares := m.cheapest(st)
			before := len(uses)
			for _, sh := range shares {
				for range int(sh.times + 1e-6) {
					if u, ok := s.apply(st, sh.use); ok {
						uses = append(uses, u)
						cost += s.in.boards[u.board].price
					}
				}
			}
			if len(uses) > before {
				continue
			}
			slices.SortStableFunc(shares, func(a, b share) int { return cmp.Compare(b.times, a.times) })
			turn++
			if turn == t && len(shares) > 1 {
				shares = shares[1:]
			}
			if len(shares) == 0 {
				break
			}
			u, ok := s.apply(st, shares[0].use)
			if !ok {
				break
			}
			uses = append(uses, u)
			cost += s.in.boards[u.board].price
		}
		if st.done() && cost < s.cost {
			s.uses, s.cost = uses, cost
		}
	}
}

// dive saws what the program's solution uses in whole numbers, or else the
// pattern it uses most, solves the rest again, and so on to the end. At each
// turn the three patterns used most are tried, while tries last.
func (s *search) dive(st *state, shares []share, tries *int) []use {
	if st.done() {
		return []use{}
	}
	*tries--
	if s.saws != nil {
		if f := newFew(s, st.want); f != nil {
			return f.from(st.boards)
		}
	}
	if s.saws == nil && st.pieces() <= 24 {
		budget := 200
		if v, uses := s.complete(st, &budget, map[string]bool{}); v == yielded {
			return uses
		} else if v == impossible {
			return nil
		}
	}
	var uses []use
	st = st.clone()
	for _, sh := range shares {
		for range int(sh.times + 1e-6) {
			if u, ok := s.apply(st, sh.use); ok {
				uses = append(uses, u)
			}
		}
	}
	if len(uses) > 0 {
		return s.deeper(st, uses, tries)
	}
	slices.SortStableFunc(shares, func(a, b share) int { return cmp.Compare(b.times, a.times) })
	for _, sh := range shares[:min(3, len(shares))] {
		next := st.clone()
		if u, ok := s.apply(next, sh.use); ok {
			if all := s.deeper(next, []use{u}, tries); all != nil {
				return all
			}
		}
		if *tries <= 0 {
			break
		}
	}
	return nil
}

// stretch dives without a change of mind; where the rest does not come from what
// is left, the cheapest board is added. Cheaper than the best plan so far, the
// outcome takes its place.
func (s *search) stretch(st *state, shares []share) {
	add := -1
	for b, board := range s.in.boards {
		if board.limit == plenty && (add < 0 || board.price <= s.in.boards[add].price) {
			add = b
		}
	}
	if add < 0 {
		return
	}
	price := s.price(st.boards)
	st = st.clone()
	var uses []use
	for !st.done() {
		before := len(uses)
		for _, sh := range shares {
			for range int(sh.times + 1e-6) {
				if u, ok := s.apply(st, sh.use); ok {
					uses = append(uses, u)
				}
			}
		}
		if len(uses) == before {
			slices.SortStableFunc(shares, func(a, b share) int { return cmp.Compare(b.times, a.times) })
			if len(shares) == 0 {
				return
			}
			u, ok := s.apply(st, shares[0].use)
			if !ok {
				return
			}
			uses = append(uses, u)
		}
		var v verdict
		for v, shares, _ = s.master.relaxation(st); v != yielded; v, shares, _ = s.master.relaxation(st) {
			if price += s.in.boards[add].price; v == undecided || price >= s.cost || !s.going() {
				return
			}
			st.boards[add]++
		}
	}
	s.uses, s.cost = uses, price
}

// deeper goes on from uses already made; nil when that leads nowhere.
func (s *search) deeper(st *state, uses []use, tries *int) []use {
	if st.done() {
		return uses
	}
	if *tries <= 0 || s.ctx.Err() != nil {
		return nil
	}
	v, shares, _ := s.master.relaxation(st)
	if v != yielded {
		return nil
	}
	if rest := s.dive(st, shares, tries); rest != nil {
		return append(uses, rest...)
	}
	return nil
}
