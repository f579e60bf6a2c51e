package cutplan

import (
	"context"
	"fmt"

	"scantling/internal/measure"
)

// add plans the boards of stock s of the job.
func (plan *Plan) add(ctx context.Context, job *Job, s, most int, report func(cost, bound measure.Money, nodes int)) error {
	in := newInstance(job, s, false)
	if len(in.items) == 0 {
		plan.Proofs = append(plan.Proofs, Proof{})
		return nil
	}
	search := newSearch(ctx, in, most)
	uses, cost, least, searched := search.run(func(cost, bound int64) {
		report(measure.Money(cost), measure.Money(bound), search.nodes)
	})
	if uses == nil {
		part := in.items[0].parts[0]
		return &PartError{part, fmt.Sprintf("part %s and the others from %s do not all come from the boards to be had", job.Parts[part].Name, job.Stocks[s].Name), "allow more boards, or further lengths"}
	}
	proof := Proof{Bound: measure.Money(least), Searched: searched}
	proving := search
	if !in.plain {
		proving = newSearch(ctx, newInstance(job, s, true), most)
		proof = Proof{Bound: measure.Money(proving.bound(cost))}
	}
	for _, c := range proving.cuts {
		weights := make([]int64, len(job.Parts))
		for i, it := range proving.in.items {
			for _, part := range it.parts {
				weights[part] = c.weight[i]
			}
		}
		proof.Weights = append(proof.Weights, weights)
	}
	plan.Proofs = append(plan.Proofs, proof)
	plan.Cost += measure.Money(cost)
	plan.Bound += proof.Bound
	plan.BestConsidered = plan.BestConsidered && least == cost
	plan.Nodes += search.nodes
	if proving != search {
		plan.Nodes += proving.nodes
	}
	plan.Boards = append(plan.Boards, lay(job, s, in, uses)...)
	return nil
}
