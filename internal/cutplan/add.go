package cutplan

import (
	"context"

	"scantling/internal/measure"
)

// add plans the boards of stock s of the job.
func (plan *Plan) add(ctx context.Context, job *Job, s, nodes int, report func(cost, bound measure.Money, nodes int)) error {
	panic("cutplan: to come")
}
