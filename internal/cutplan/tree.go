package cutplan

import "slices"

// An arc is a piece of an item beginning at a place on a board whose pieces lie
// in falling order, as Valério de Carvalho (1999) has them.
type arc struct{ item, at int }

// A branch limits how many boards hold an arc: to at most limit, or at least.
type branch struct {
	arc
	limit int
	least bool
}

// sign turns "at least" into "at most".
func (b branch) sign() float64 {
	if b.least {
		return -1
	}
	return 1
}

// arcs returns how many pieces of a whole board's pattern are on an arc: one or
// none.
func (in *instance) arcs(counts []int, a arc) int {
	if counts[a.item] == 0 {
		return 0
	}
	at := 0
	for _, i := range in.modes[0].items {
		size := in.modes[0].sizes[i][1]
		if i == a.item {
			if a.at >= at && a.at < at+counts[i]*size && (a.at-at)%size == 0 {
				return 1
			}
			return 0
		}
		if at += counts[i] * size; at > a.at {
			return 0
		}
	}
	return 0
}

// along returns the cut that prices of items and branches make: every board is
// a path over arcs, so that the weight of items and branches together is more
// than boards hold only if the items do not come from them under the branches.
func (s *search) along(now *prices, rows []branch, want []int) cut {
	c := cut{weight: now.weight, arcs: now.arcs}
	for i, n := range want {
		c.need += now.weight[i] * int64(n)
	}
	extra := map[arc]int64{}
	for r, b := range rows {
		extra[b.arc] += now.arcs[r]
		c.need += now.arcs[r] * int64(b.limit)
	}
	if s.paths == nil {
		s.paths = newPaths(s.in)
	}
	s.paths.run(now.weight, want, extra)
	for _, b := range s.in.boards {
		best, _ := s.paths.best(b.capacity)
		c.best = append(c.best, best)
	}
	return c
}

// A fork is the search below one purchase: branches on arcs, tried depth first.
type fork struct {
	s    *search
	st   *state
	left int // nodes
}

// branch goes on below a node of which the program could be solved. What it
// refutes comes with its proof.
func (f *fork) branch(m *master, shares []share, depth int) (verdict, []use, []Node) {
	a, flow, ok := f.s.fractional(shares)
	if !ok {
		if uses := f.s.decompose(f.st, shares); uses != nil {
			return yielded, uses, nil
		}
		return undecided, nil, nil
	}
	var proofs [2][]Node
	for k, b := range []branch{{a, int(flow) + 1, true}, {a, int(flow), false}} {
		if f.left--; f.left < 0 || f.s.ctx.Err() != nil {
			return undecided, nil, nil
		}
		child := m.branched(b)
		v, shares, c := child.relaxation(f.st)
		switch v {
		case impossible:
			proofs[k] = []Node{f.s.leaf(f.st, &c)}
			continue
		case undecided:
			return undecided, nil, nil
		}
		if depth%8 == 0 {
			tries := 4
			if uses := f.s.dive(f.st, slices.Clone(shares), &tries); uses != nil {
				return yielded, uses, nil
			}
		}
		var uses []use
		if v, uses, proofs[k] = f.branch(child, shares, depth+1); v != impossible {
			return v, uses, nil
		}
	}
	step := f.s.in.step
	proof := []Node{{Size: f.s.in.modes[0].sizes[a.item][1] * step, At: a.at * step, Most: int(flow)}}
	return impossible, nil, slices.Concat(proof, proofs[1], proofs[0])
}

// fractional returns the arc to branch on: of the longest item whose arcs are
// not used in whole numbers, the one nearest the middle.
func (s *search) fractional(shares []share) (arc, float64, bool) {
	flow := map[arc]float64{}
	for _, sh := range shares {
		at := 0
		for _, i := range s.in.modes[0].items {
			for range sh.counts[i] {
				flow[arc{i, at}] += sh.times
				at += s.in.modes[0].sizes[i][1]
			}
		}
	}
	var arcs []arc
	for a := range flow {
		arcs = append(arcs, a)
	}
	rank := make([]int, len(s.in.items))
	for at, i := range s.in.modes[0].items {
		rank[i] = at
	}
	slices.SortFunc(arcs, func(a, b arc) int {
		if a.item != b.item {
			return rank[a.item] - rank[b.item]
		}
		return a.at - b.at
	})
	var best arc
	most := 0.0
	for _, a := range arcs {
		x := flow[a]
		part := x - float64(int(x+1e-6))
		off := min(part, 1-part)
		if off < 1e-5 {
			continue
		}
		if most > 0 && a.item != best.item {
			break
		}
		if off > most+1e-9 {
			best, most = a, off
		}
	}
	return best, flow[best], most > 0
}

// decompose takes whole paths out of whole flows, and lays each on the shortest
// board that is long enough.
func (s *search) decompose(st *state, shares []share) []use {
	flow := map[arc]int{}
	sum := map[arc]float64{}
	for _, sh := range shares {
		at := 0
		for _, i := range s.in.modes[0].items {
			for range sh.counts[i] {
				sum[arc{i, at}] += sh.times
				at += s.in.modes[0].sizes[i][1]
			}
		}
	}
	for a, x := range sum {
		flow[a] = int(x + 0.5)
	}
	st = st.clone()
	var uses []use
	for !st.done() {
		counts := make([]int, len(s.in.items))
		at := 0
		for _, i := range s.in.modes[0].items {
			for flow[arc{i, at}] > 0 {
				flow[arc{i, at}]--
				counts[i]++
				at += s.in.modes[0].sizes[i][1]
			}
		}
		done := false
		for b := len(s.in.boards) - 1; b >= 0 && !done; b-- {
			if st.boards[b] > 0 && s.in.boards[b].capacity >= at {
				var u use
				if u, done = s.apply(st, use{board: b, counts: counts}); done {
					uses = append(uses, u)
				}
			}
		}
		if !done && at == 0 {
			return nil
		}
	}
	return uses
}

// leaf states why a node yields nothing.
func (s *search) leaf(st *state, c *cut) Node {
	n := Node{Leaf: true, Arcs: slices.Clone(c.arcs), Need: c.need, Room: c.room(st)}
	for _, i := range s.in.modes[0].items {
		n.Weights = append(n.Weights, c.weight[i])
	}
	return n
}
