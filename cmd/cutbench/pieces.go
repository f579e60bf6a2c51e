package main

import (
	"fmt"
	"math/rand/v2"

	"scantling/internal/cutplan"
	"scantling/internal/measure"
)

// piece makes up the n-th piece of furniture with rips: up to 60 parts of one to
// three stocks, some narrower than any board, some with sloping ends, each from
// any stock wide enough. Sizes and prices are invented, the same on every machine.
func piece(n int) cutplan.Job {
	const in = measure.Inch
	r := rand.New(rand.NewPCG(7, uint64(n)))
	job := cutplan.Job{Kerf: in / 8, Trim: in / 2}
	first := r.IntN(3)
	for s := first; s < min(3, first+1+r.IntN(3)); s++ {
		width := []measure.Length{7 * in / 2, 11 * in / 2, 29 * in / 4}[s]
		stock := cutplan.Stock{Name: []string{"2x4", "2x6", "2x8"}[s], Width: width}
		for _, feet := range []measure.Length{8, 10, 12, 16} {
			cents := float64(feet) * width.Inches() * (16 + 0.25*float64(feet)) * (0.95 + 0.1*r.Float64())
			stock.Offers = append(stock.Offers, cutplan.Offer{Length: feet * measure.Foot, Price: measure.Money(cents)})
		}
		job.Stocks = append(job.Stocks, stock)
	}
	pieces := 10 + r.IntN(51)
	for left := pieces; left > 0; {
		p := cutplan.Part{Name: fmt.Sprintf("P%d", len(job.Parts)), Stock: r.IntN(len(job.Stocks)), Count: min(left, 1+r.IntN(8))}
		left -= p.Count
		p.Width = job.Stocks[p.Stock].Width
		if r.IntN(2) == 0 {
			p.Width = measure.Length(6+r.IntN(int(p.Width/(in/4))-6)) * in / 4
		}
		p.Length = measure.Length(6*8+r.IntN(60*8)) * in / 8
		if r.IntN(6) == 0 {
			p.Start = measure.Length(1+r.IntN(16)) * in / 16
			p.End = []measure.Length{p.Start, -p.Start, 0}[r.IntN(3)]
		}
		for s := range job.Stocks {
			if s != p.Stock && job.Stocks[s].Width >= p.Width {
				p.Or = append(p.Or, s)
			}
		}
		job.Parts = append(job.Parts, p)
	}
	return job
}
