package cutplan

import (
	"context"
	"fmt"

	"scantling/internal/measure"
)

// add plans the boards of a group of stocks.
func (plan *Plan) add(ctx context.Context, job *Job, stocks []int, most int, report func(cost, bound measure.Money, nodes int)) error {
	in := newInstance(job, stocks, asSawn)
	if len(in.items) == 0 {
		plan.Proofs = append(plan.Proofs, Proof{Stocks: stocks})
		return nil
	}
	search := newSearch(ctx, in, most)
	uses, cost, least, searched := search.run(func(cost, bound int64) {
		report(measure.Money(cost), measure.Money(bound), search.nodes)
	})
	if uses == nil {
		part := in.items[0].parts[0]
		return &PartError{part, fmt.Sprintf("part %s and the others from %s do not all come from the boards to be had", job.Parts[part].Name, job.Stocks[stocks[0]].Name), "allow more boards, or further lengths"}
	}
	proof := Proof{Stocks: stocks, Bound: measure.Money(least), Searched: searched, Trees: search.trees}
	pr := &prover{}
	for k := range in.scales {
		pr.of = append(pr.of, newSearch(ctx, newInstance(job, stocks, k), most))
	}
	if in.plain {
		pr.of[0].cuts = search.cuts // the same instance
	} else {
		proof = Proof{Stocks: stocks, Bound: measure.Money(pr.bound(cost))}
	}
	for i := range pr.of[0].cuts {
		c := &pr.of[0].cuts[i]
		proof.Rows = append(proof.Rows, pr.of[c.scale].certified(job, c))
	}
	plan.Proofs = append(plan.Proofs, proof)
	plan.Bound += proof.Bound
	plan.BestConsidered = plan.BestConsidered && least == cost
	plan.Nodes += search.nodes
	for _, s := range pr.of {
		plan.Nodes += s.nodes
	}
	if pieces := in.pieces(); pieces <= 400 {
		uses = search.arrange(job, search.wish(uses, cost))
	}
	for _, b := range lay(job, in, uses) {
		plan.Boards = append(plan.Boards, b)
		plan.Cost += b.Price
	}
	return nil
}

// A prover bounds what any layout costs, by relaxed searches of which each takes
// its own shares. All their cuts stand in the first.
type prover struct {
	of   []*search
	last int // the one that refuted last
}

// bound returns the price of the cheapest purchase no cut refutes, at most cost.
func (p *prover) bound(cost int64) int64 {
	first := p.of[0]
	for {
		boards, price, ok := first.cheapest(cost)
		if !ok {
			return cost
		}
		if !p.refute(boards) {
			return price
		}
	}
}

// refute finds a cut that refutes a purchase.
func (p *prover) refute(boards []int) bool {
	for k := range p.of {
		s := p.of[(p.last+k)%len(p.of)]
		if !s.going() {
			return false
		}
		if v, _, c := s.master.relaxation(s.start(boards)); v == impossible {
			p.last = (p.last + k) % len(p.of)
			c.scale = p.last
			p.of[0].cuts = append(p.of[0].cuts, c)
			return true
		}
	}
	return false
}

// certified states a cut in terms of the job.
func (s *search) certified(job *Job, c *cut) Row {
	row := Row{Weights: make([]int64, len(job.Parts))}
	want := make([]int, len(s.in.items))
	for i, it := range s.in.items {
		want[i] = it.demand
		row.Need += c.weight[i] * int64(it.demand)
		for _, part := range it.parts {
			row.Weights[part] = c.weight[i]
		}
	}
	for m, f := range s.fillers {
		f.run(c.weight, want)
		shares := make([]int64, len(job.Parts))
		for i, it := range s.in.items {
			for _, part := range it.parts {
				shares[part] = s.in.shares[m][i]
			}
		}
		row.Shares = append(row.Shares, shares)
		for _, e := range s.in.ends {
			if e.stock == s.in.modes[m].stock {
				row.Holds = append(row.Holds, f.value[min(max(0, e.capacity), len(f.value)-1)])
			}
		}
	}
	return row
}

// tree states the refutation of a purchase in terms of the job.
func (s *search) tree(boards []int, nodes []Node) Tree {
	t := Tree{Boards: make([]int, len(s.in.ends)), Nodes: nodes}
	for b, n := range boards {
		t.Boards[s.in.boards[b].offer] = n // a tree has one stock
	}
	t.Seal = SealOf(&t)
	return t
}

// SealOf returns the sum over all numbers of a tree, in order, of a running
// product (FNV-1a by whole numbers): it tells a tree that was altered.
func SealOf(t *Tree) uint64 {
	sum := uint64(14695981039346656037)
	put := func(n int64) { sum = (sum ^ uint64(n)) * 1099511628211 }
	list := func(ns []int64) {
		put(int64(len(ns)))
		for _, n := range ns {
			put(n)
		}
	}
	for _, n := range t.Boards {
		put(int64(n))
	}
	for _, n := range t.Nodes {
		for _, v := range []int{n.Size, n.At, n.Most} {
			put(int64(v))
		}
		list(n.Weights)
		list(n.Arcs)
		put(n.Need)
		put(n.Room)
	}
	return sum
}
