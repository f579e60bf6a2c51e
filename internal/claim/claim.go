// Package claim says a cutting plan in the words of its checker. Planner and
// checker share no code, so that one can judge the other; somebody has to carry
// the figures across, and this package does nothing else.
package claim

import (
	"scantling/internal/cutcheck"
	"scantling/internal/cutplan"
)

// Of returns a plan, with the job it answers, in the checker's own words.
func Of(job cutplan.Job, plan *cutplan.Plan) cutcheck.Claim {
	c := cutcheck.Claim{Units: job.Units, Kerf: job.Kerf, Trim: job.Trim, Reserve: job.Reserve, Cost: plan.Cost, Bound: plan.Bound, Optimal: plan.Optimal}
	for _, s := range job.Stocks {
		cs := cutcheck.Stock{Width: s.Width}
		for _, o := range s.Offers {
			cs.Offers = append(cs.Offers, cutcheck.Offer(o))
		}
		c.Stocks = append(c.Stocks, cs)
	}
	for _, pt := range job.Parts {
		c.Parts = append(c.Parts, cutcheck.Part{Stock: pt.Stock, Count: pt.Count, Width: pt.Width, Length: pt.Length, Start: pt.Start, End: pt.End, Or: pt.Or})
	}
	for _, b := range plan.Boards {
		cb := cutcheck.Board{Stock: b.Stock, Offer: b.Offer, Length: b.Length, Price: b.Price}
		for _, sec := range b.Sections {
			cs := cutcheck.Section{From: sec.From, Length: sec.Length, Strip: sec.Strip}
			for _, l := range sec.Lanes {
				cl := cutcheck.Lane{Across: l.Across, Width: l.Width, Left: l.Left}
				for _, pc := range l.Pieces {
					cl.Pieces = append(cl.Pieces, cutcheck.Piece(pc))
				}
				cs.Lanes = append(cs.Lanes, cl)
			}
			cb.Sections = append(cb.Sections, cs)
		}
		c.Boards = append(c.Boards, cb)
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
		row := cutcheck.Row{Shares: r.Shares, Weights: r.Weights, Need: r.Need, Holds: r.Holds}
		for _, by := range r.By {
			row.By = append(row.By, cutcheck.Way(by))
		}
		out.Rows = append(out.Rows, row)
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
