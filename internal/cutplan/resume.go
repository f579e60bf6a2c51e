package cutplan

import (
	"fmt"
	"slices"

	"scantling/internal/measure"
)

// Resume returns the job that is left when some boards of a plan are sawn, by
// index, and some of their pieces are lost, by part. What remains of the boards
// sawn is on hand for nothing: lengths of whole width among the offers of their
// stock, strips as stocks of their own. The other boards of the plan are not
// bought yet.
func Resume(job Job, plan *Plan, sawn []int, lost []int) Job {
	left := job
	left.Stocks = slices.Clone(job.Stocks)
	for s := range left.Stocks {
		left.Stocks[s].Offers = slices.Clone(job.Stocks[s].Offers)
	}
	left.Parts = slices.Clone(job.Parts)
	for i := range left.Parts {
		left.Parts[i].Or = slices.Clone(job.Parts[i].Or)
		if i < len(lost) {
			left.Parts[i].Count += lost[i]
		}
	}
	for _, k := range sawn {
		b := plan.Boards[k]
		if o := &left.Stocks[b.Stock].Offers[b.Offer]; o.Limit > 1 {
			o.Limit--
		} else if o.Limit == 1 {
			o.Length, o.Price = 1, 0 // the last one is gone: too short for anything
		}
		for _, p := range b.Pieces() {
			left.Parts[p.Part].Count--
		}
	}
	for i := range left.Parts {
		left.Parts[i].Count = max(0, left.Parts[i].Count)
	}
	for _, k := range sawn {
		b := plan.Boards[k]
		for _, sec := range b.Sections {
			for _, l := range sec.Lanes {
				left.keep(b.Stock, l.Width, l.Left)
			}
			left.keep(b.Stock, sec.Strip, sec.Length)
		}
	}
	return left
}

// keep adds what is left of a board of a stock to what is on hand, if any part
// could come from it.
func (job *Job) keep(stock int, width, length measure.Length) {
	var takers []int
	for i, p := range job.Parts {
		if p.Count > 0 && slices.Contains(p.stocks(), stock) && p.Width <= width && p.Length <= length-job.Trim-job.Reserve {
			takers = append(takers, i)
		}
	}
	if len(takers) == 0 {
		return
	}
	at := stock
	if width < job.Stocks[stock].Width {
		name := fmt.Sprintf("%s strip of %s", job.said(width), job.Stocks[stock].Name)
		at = slices.IndexFunc(job.Stocks, func(s Stock) bool { return s.Name == name })
		if at < 0 {
			at = len(job.Stocks)
			job.Stocks = append(job.Stocks, Stock{Name: name, Width: width})
		}
		for _, i := range takers {
			if !slices.Contains(job.Parts[i].Or, at) {
				job.Parts[i].Or = append(job.Parts[i].Or, at)
			}
		}
	}
	offers := &job.Stocks[at].Offers
	for k, o := range *offers {
		if o.Length == length && o.Price == 0 {
			(*offers)[k].Limit++
			return
		}
	}
	*offers = append(*offers, Offer{Length: length, Limit: 1})
}
