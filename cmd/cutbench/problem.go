package main

import (
	"fmt"
	"strconv"
	"strings"

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
