package cutplan

import (
	"fmt"
	"slices"

	"scantling/internal/measure"
)

// stocks returns what a part may come from.
func (p *Part) stocks() []int { return append([]int{p.Stock}, p.Or...) }

// groups sorts the stocks into those that share parts, each from the first on.
func (job *Job) groups() [][]int {
	first := make([]int, len(job.Stocks)) // of the group
	for s := range first {
		first[s] = s
	}
	for _, p := range job.Parts {
		for _, s := range p.Or {
			a, b := first[p.Stock], first[s]
			for k := range first {
				if first[k] == a || first[k] == b {
					first[k] = min(a, b)
				}
			}
		}
	}
	var groups [][]int
	for s := range first {
		if first[s] != s {
			continue
		}
		var group []int
		for k := range first {
			if first[k] == s {
				group = append(group, k)
			}
		}
		groups = append(groups, group)
	}
	return groups
}

// check refuses what has no meaning and parts too big for their stocks.
func (job *Job) check() error {
	if job.Kerf < 0 || job.Trim < 0 || job.Reserve < 0 {
		return fmt.Errorf("cutplan: kerf %d nm, trim %d nm and reserve %d nm must not be negative", job.Kerf, job.Trim, job.Reserve)
	}
	for i, s := range job.Stocks {
		for _, o := range s.Offers {
			if o.Length <= 0 || o.Price < 0 || o.Limit < 0 || o.Price == 0 && o.Limit == 0 {
				return fmt.Errorf("cutplan: stock %d (%s) offers length %d nm, price %d, limit %d", i, s.Name, o.Length, o.Price, o.Limit)
			}
		}
	}
	for i := range job.Parts {
		p := &job.Parts[i]
		for _, s := range p.stocks() {
			if s < 0 || s >= len(job.Stocks) {
				return fmt.Errorf("cutplan: part %d (%s) comes from stock %d, of %d", i, p.Name, s, len(job.Stocks))
			}
		}
		if p.Count < 0 || p.Width <= 0 || p.Length <= 0 || max(p.Start, -p.Start)+max(p.End, -p.End) >= 2*p.Length {
			return fmt.Errorf("cutplan: part %d (%s) is no part: %+v", i, p.Name, *p)
		}
		p.Or = slices.DeleteFunc(slices.Clone(p.Or), func(s int) bool { return s == p.Stock || job.misfit(i, s) != nil })
		slices.Sort(p.Or)
		p.Or = slices.Compact(p.Or)
		if e := job.misfit(i, p.Stock); e != nil {
			if len(p.Or) == 0 {
				return e
			}
			p.Stock, p.Or = p.Or[0], p.Or[1:]
		}
	}
	return nil
}

// misfit says why part i does not come from stock k, or nothing.
func (job *Job) misfit(i, k int) error {
	p, s := job.Parts[i], job.Stocks[k]
	if p.Width > s.Width {
		return &PartError{i, fmt.Sprintf("part %s is %s wide and %s only %s", p.Name, job.said(p.Width), s.Name, job.said(s.Width)), "use a wider stock"}
	}
	if p.Count > 0 && len(s.Offers) == 0 {
		return &PartError{i, fmt.Sprintf("part %s is sawn from %s, of which no length is offered", p.Name, s.Name), "give the lengths and prices it is sold in"}
	}
	var longest measure.Length
	for _, o := range s.Offers {
		longest = max(longest, o.Length)
	}
	if p.Count > 0 && p.Length > longest-job.Trim-job.Reserve {
		return &PartError{i, fmt.Sprintf("part %s is %s long and the longest %s gives %s", p.Name, job.said(p.Length), s.Name, job.said(longest-job.Trim-job.Reserve)), "make it shorter or find longer stock"}
	}
	return nil
}

// said is a length as messages give it: "137.5 in", "3494 mm".
func (job *Job) said(l measure.Length) string {
	if job.Units == measure.Metric {
		return fmt.Sprintf("%.6g mm", l.MM())
	}
	return fmt.Sprintf("%.5g in", l.Inches())
}
