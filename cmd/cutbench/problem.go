package main

import (
	"fmt"
	"strconv"
	"strings"

	"scantling/internal/cutcheck"
	"scantling/internal/cutplan"
	"scantling/internal/measure"
)

// A problem is one line of a file. Its lengths are taken for sixteenths of an
// inch: a problem has no unit, and this one is exact in the plan.
type problem struct {
	name    string
	job     cutplan.Job
	optimum int64 // -1: not known
}

// parse reads a problem; see the package comment for the form.
func parse(text string, kerf int) (*problem, error) {
	fields := strings.Split(text, ";")
	if len(fields) != 5 {
		return nil, fmt.Errorf("%q has %d fields between semicolons, not 5: name;capacity;optimum;count;length*demand …", text, len(fields))
	}
	const step = measure.Inch / 16
	p := &problem{name: fields[0], optimum: -1, job: cutplan.Job{Kerf: measure.Length(kerf) * step}}
	if n, err := strconv.ParseInt(strings.TrimSpace(fields[2]), 10, 64); err == nil {
		p.optimum = n
	}
	stock := cutplan.Stock{Name: p.name, Width: step}
	for _, b := range strings.Split(fields[1], ",") {
		n, err := numbers(b, ":")
		switch {
		case err != nil:
			return nil, err
		case len(n) == 1:
			stock.Offers = append(stock.Offers, cutplan.Offer{Length: measure.Length(n[0]) * step, Price: 1})
		case len(n) == 3:
			stock.Offers = append(stock.Offers, cutplan.Offer{Length: measure.Length(n[0]) * step, Price: measure.Money(n[2]), Limit: max(0, n[1])})
		default:
			return nil, fmt.Errorf("%q is neither a capacity nor length:limit:price", b)
		}
	}
	p.job.Stocks = []cutplan.Stock{stock}
	for i, w := range strings.Fields(fields[4]) {
		n, err := numbers(w, "*")
		if err != nil || len(n) != 2 {
			return nil, fmt.Errorf("%q is not length*demand", w)
		}
		p.job.Parts = append(p.job.Parts, cutplan.Part{Name: strconv.Itoa(i), Width: step, Length: measure.Length(n[0]) * step, Count: n[1]})
	}
	return p, nil
}

func numbers(text, separator string) ([]int, error) {
	var out []int
	for _, f := range strings.Split(text, separator) {
		n, err := strconv.Atoi(strings.TrimSpace(f))
		if err != nil {
			return nil, err
		}
		out = append(out, n)
	}
	return out, nil
}

// claim states a plan to the checker.
func claim(job cutplan.Job, plan *cutplan.Plan) cutcheck.Claim {
	c := cutcheck.Claim{Kerf: job.Kerf, Trim: job.Trim, Reserve: job.Reserve, Cost: plan.Cost, Bound: plan.Bound, Optimal: plan.Optimal}
	for _, s := range job.Stocks {
		stock := cutcheck.Stock{Width: s.Width}
		for _, o := range s.Offers {
			stock.Offers = append(stock.Offers, cutcheck.Offer(o))
		}
		c.Stocks = append(c.Stocks, stock)
	}
	for _, p := range job.Parts {
		c.Parts = append(c.Parts, cutcheck.Part{Stock: p.Stock, Count: p.Count, Width: p.Width, Length: p.Length, Start: p.Start, End: p.End, Or: p.Or})
	}
	for _, b := range plan.Boards {
		board := cutcheck.Board{Stock: b.Stock, Offer: b.Offer, Length: b.Length, Price: b.Price, Strip: b.Strip}
		for _, l := range b.Lanes {
			lane := cutcheck.Lane{Across: l.Across, Width: l.Width, Left: l.Left}
			for _, p := range l.Pieces {
				lane.Pieces = append(lane.Pieces, cutcheck.Piece(p))
			}
			board.Lanes = append(board.Lanes, lane)
		}
		c.Boards = append(c.Boards, board)
	}
	for _, pr := range plan.Proofs {
		c.Proofs = append(c.Proofs, proof(pr))
	}
	return c
}

// proof is a proof in the checker's own words.
func proof(p cutplan.Proof) cutcheck.Proof {
	out := cutcheck.Proof{Stocks: p.Stocks, Bound: p.Bound, Searched: p.Searched}
	for _, r := range p.Rows {
		out.Rows = append(out.Rows, cutcheck.Row(r))
	}
	for _, t := range p.Trees {
		tree := cutcheck.Tree{Boards: t.Boards, Seal: t.Seal}
		for _, n := range t.Nodes {
			tree.Nodes = append(tree.Nodes, cutcheck.Node(n))
		}
		out.Trees = append(out.Trees, tree)
	}
	return out
}
