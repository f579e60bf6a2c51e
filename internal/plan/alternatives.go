package plan

import (
	"context"
	"errors"
	"slices"

	"scantling/internal/cutplan"
	"scantling/internal/measure"
	"scantling/internal/shop"
	"scantling/internal/span"
)

// Two things a buyer may be bound to, and how far an alternative is searched.
const lessNodes = 1500

// shortBoard is what every yard has and every rack carries.
func shortBoard(u measure.Units) measure.Length {
	if u == measure.Metric {
		return 3000 * measure.Millimetre
	}
	return 8 * measure.Foot
}

// car is assumed: from the dashboard to the hatch of a common one.
func car(u measure.Units) measure.Length {
	if u == measure.Metric {
		return 2100 * measure.Millimetre
	}
	return 7 * measure.Foot
}

// either lets every part come from any stock of the job of the same thickness,
// wood and treatment that is wide enough: a narrow part from what a wider board
// leaves.
func either(job *cutplan.Job, stocks []stockUse) {
	for i := range job.Parts {
		p := &job.Parts[i]
		own := stocks[p.Stock].stock
		for s, use := range stocks {
			k := use.stock
			if s != p.Stock && k.T == own.T && k.Wood == own.Wood && k.Grade == own.Grade && k.Treatment == own.Treatment && k.W >= p.Width &&
				use.priced && stocks[p.Stock].priced && !slices.Contains(p.Or, s) {
				p.Or = append(p.Or, s)
				both := stocks[p.Stock].from.Union(use.from)
				stocks[p.Stock].from, stocks[s].from = both, both
			}
		}
	}
}

// letters returns the parts that are sawn from each stock.
func letters(plan *cutplan.Plan, job *cutplan.Job) [][]string {
	out := make([][]string, len(job.Stocks))
	for _, b := range plan.Boards {
		for _, pc := range b.Pieces() {
			out[b.Stock] = append(out[b.Stock], job.Parts[pc.Part].Name)
		}
	}
	return out
}

// alternatives says what other ways of buying cost more than the plan, each
// computed, none proved the cheapest of its kind.
func (p *Plan) alternatives(ctx context.Context, job cutplan.Job, stocks []stockUse, plan *cutplan.Plan, o *Options) []shop.Alternative {
	var from span.Set
	for _, s := range stocks {
		if !s.priced {
			return nil // what has no price cannot cost more
		}
		from = from.Union(s.from)
	}
	pen := p.Readings.Pen
	var out []shop.Alternative
	add := func(says shop.Text, cost measure.Money, err error) {
		var misfit *cutplan.PartError
		switch {
		case errors.As(err, &misfit):
			if job.Parts[misfit.Part].Name != "" {
				says = says.Say(": not possible, part " + job.Parts[misfit.Part].Name + " does not come from them")
			}
			out = append(out, shop.Alternative{Says: says})
		case err == nil:
			extra := pen.Money(cost-plan.Cost, from)
			out = append(out, shop.Alternative{Says: says, Extra: &extra})
		}
	}
	solve := func(job cutplan.Job) (*cutplan.Plan, error) {
		return cutplan.Solve(ctx, job, cutplan.Options{Nodes: lessNodes})
	}

	shortest := shortBoard(job.Units)
	short := offering(job, func(o cutplan.Offer) bool { return o.Limit > 0 || o.Length == shortest })
	if other, err := solve(short); err != nil {
		add(shop.Words("Only boards of ").Show(pen.Stock(shortest, from)), 0, err)
	} else {
		add(shop.Words("Only boards of ").Show(pen.Stock(shortest, from)), other.Cost, nil)
	}

	if ripped(plan, &job) {
		says := shop.Words("No rips, for want of a table saw")
		if i := slices.IndexFunc(job.Parts, func(p cutplan.Part) bool { return p.Width < job.Stocks[p.Stock].Width }); i >= 0 {
			out = append(out, shop.Alternative{Says: says.Say(": not possible, part " + job.Parts[i].Name + " is narrower than the boards it is sold as; have the yard rip it")})
		} else {
			whole := job
			whole.Parts = slices.Clone(job.Parts)
			for i := range whole.Parts {
				whole.Parts[i].Or = nil
			}
			other, err := solve(whole)
			if err != nil {
				add(says, 0, err)
			} else {
				add(says, other.Cost, nil)
			}
		}
	}

	if o.Car == 0 {
		says := shop.Words("Nothing longer than ").Show(pen.Stock(car(job.Units), from)).Say(" in the car, long boards cut square into equal lengths at the yard")
		cost, err := inCar(solve, job)
		add(says, cost, err)
	}
	if o.FewestCuts {
		other, err := solve(job)
		if err == nil && other.Cost < plan.Cost {
			less := pen.Money(plan.Cost-other.Cost, from)
			out = append(out, shop.Alternative{Says: shop.Words("The cheapest boards instead of the fewest would save ").Show(less)})
		}
	}

	if offer, count := mostUsed(plan); count > 0 {
		b := plan.Boards[offer]
		length := pen.Stock(b.Length, stocks[b.Stock].from)
		add(shop.Words("One "+job.Stocks[b.Stock].Name+", ").Show(length).Say(", to spare: the board used most"), plan.Cost+b.Price, nil)
	}
	return out
}

// offering returns the job with only some of its offers.
func offering(job cutplan.Job, keep func(cutplan.Offer) bool) cutplan.Job {
	job.Stocks = slices.Clone(job.Stocks)
	for i, s := range job.Stocks {
		job.Stocks[i].Offers = slices.DeleteFunc(slices.Clone(s.Offers), func(o cutplan.Offer) bool { return !keep(o) })
	}
	return job
}

// ripped reports whether anything is sawn along the grain.
func ripped(plan *cutplan.Plan, job *cutplan.Job) bool {
	for _, b := range plan.Boards {
		for _, pc := range b.Pieces() {
			if pc.Width < job.Stocks[b.Stock].Width {
				return true
			}
		}
	}
	return false
}

// inCar returns the cost when every long board is cut into equal lengths that
// fit the car. The lengths are bought as boards of their own, at a share of the
// price; boards not used up are paid in full.
func inCar(solve func(cutplan.Job) (*cutplan.Plan, error), job cutplan.Job) (measure.Money, error) {
	const whole = 6 // shares of a price: halves and thirds come out even
	shares := make([][]int, len(job.Stocks))
	job.Stocks = slices.Clone(job.Stocks)
	for i, s := range job.Stocks {
		var offers []cutplan.Offer
		for _, o := range s.Offers {
			room := car(job.Units)
			n := int((o.Length + room - 1) / room)
			if n > 3 {
				continue
			}
			offers = append(offers, cutplan.Offer{Length: (o.Length - measure.Length(n-1)*job.Kerf) / measure.Length(n), Price: o.Price * whole / measure.Money(n), Limit: o.Limit * n})
			shares[i] = append(shares[i], n)
		}
		job.Stocks[i].Offers = offers
	}
	plan, err := solve(job)
	if err != nil {
		return 0, err
	}
	count := map[[2]int]int{}
	var cost measure.Money
	for _, b := range plan.Boards {
		at := [2]int{b.Stock, b.Offer}
		if n := shares[b.Stock][b.Offer]; count[at]%n == 0 {
			cost += b.Price * measure.Money(n) / whole
		}
		count[at]++
	}
	return cost, nil
}

// mostUsed returns a board of the stock and length bought most often, and how
// often.
func mostUsed(plan *cutplan.Plan) (board, count int) {
	n := map[[2]int]int{}
	for i, b := range plan.Boards {
		at := [2]int{b.Stock, b.Offer}
		if n[at]++; b.Price > 0 && n[at] > count {
			board, count = i, n[at]
		}
	}
	return board, count
}
