package cutplan

import (
	"context"
	"fmt"
	"slices"

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
	proof := Proof{Stocks: stocks}
	if !in.plain {
		search.prover = newProver(ctx, job, stocks, in.scales, most)
	}
	if search.saws != nil { // what it cannot saw others may: only the prover refutes
		search.cuts = slices.Clone(search.prover.of[0].cuts)
	}
	uses, cost, least, searched := search.run(func(cost, bound int64) {
		report(measure.Money(cost), measure.Money(bound), search.nodes)
	})
	if uses == nil {
		part := in.items[0].parts[0]
		return &PartError{part, fmt.Sprintf("part %s and the others from %s do not all come from the boards to be had", job.Parts[part].Name, job.Stocks[stocks[0]].Name), "allow more boards, or further lengths"}
	}
	proof.Bound = measure.Money(least)
	rows, pr := search.cuts, search.prover
	switch {
	case pr == nil:
		pr = newProver(ctx, job, stocks, 1, most)
		proof.Searched, proof.Trees = searched, search.trees
	case search.saws == nil:
		proof.Bound = measure.Money(pr.bound(cost))
		rows = pr.cuts
	}
	for i := range rows {
		proof.Rows = append(proof.Rows, pr.certified(job, stocks, &rows[i]))
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

// A prover bounds what any layout costs, by relaxed searches of which each
// measures boards in its own way.
type prover struct {
	of   []*search
	cuts []cut
	last int // the one that refuted last
}

func newProver(ctx context.Context, job *Job, stocks []int, scales, most int) *prover {
	p := &prover{}
	for k := range scales {
		p.of = append(p.of, newSearch(ctx, newInstance(job, stocks, k), most))
	}
	p.cuts = slices.Clone(p.of[0].cuts)
	return p
}

// bound returns the price of the cheapest purchase no cut refutes, at most cost.
func (p *prover) bound(cost int64) int64 {
	first := p.of[0]
	for {
		first.cost = cost
		boards, price, ok := first.cheapest(cost)
		if !ok {
			return first.floor()
		}
		c, ok := p.refute(boards, false)
		if !ok {
			return price
		}
		p.cuts = append(p.cuts, c)
		first.cuts = p.cuts
	}
}

// refute finds a cut that refutes a purchase; in haste, with the search that
// refuted last only.
func (p *prover) refute(boards []int, haste bool) (cut, bool) {
	for k := range p.of {
		s := p.of[(p.last+k)%len(p.of)]
		if !s.going() || haste && k > 0 {
			break
		}
		if v, _, c := s.master.relaxation(s.start(boards)); v == impossible {
			p.last = (p.last + k) % len(p.of)
			c.scale = p.last
			return c, true
		}
	}
	return cut{}, false
}

// going reports whether all may go on, together for a third of the nodes: each of
// theirs takes longer.
func (p *prover) going() bool {
	n := 0
	for _, s := range p.of {
		n += s.nodes
	}
	return n < p.of[0].most/3
}

// certified states a cut in terms of the job.
func (p *prover) certified(job *Job, stocks []int, c *cut) Row {
	s := p.of[c.scale]
	row := Row{Weights: make([]int64, len(job.Parts))}
	for i, it := range s.in.items {
		row.Need += c.weight[i] * int64(it.demand)
		for _, part := range it.parts {
			row.Weights[part] = c.weight[i]
		}
	}
	want := s.start(nil).want
	for m, f := range s.fillers {
		f.run(c.weight, want)
		way := s.in.ways[m]
		shares := make([]int64, len(job.Parts))
		for i, it := range s.in.items {
			for _, part := range it.parts {
				shares[part] = way.shares[i]
			}
		}
		row.By, row.Shares = append(row.By, way.by), append(row.Shares, shares)
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
