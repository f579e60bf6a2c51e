package plan

import (
	"fmt"
	"strings"

	"scantling/internal/snag"
)

// Summary says in a few sentences what the plan comes to: size and weight,
// boards to buy and their cost, how that was proved, and what to mend, take care
// of or know.
func (p *Plan) Summary() string {
	var b strings.Builder
	r := p.Readings
	if r == nil || len(r.Boards) == 0 {
		fmt.Fprintf(&b, "%s: nothing could be computed yet.\n", p.File)
		b.WriteString(p.tally())
		return b.String()
	}
	fmt.Fprintf(&b, "%s: %s wide, %s deep, %s high, about %s.\n", r.Piece,
		r.Overall[0].Text, r.Overall[1].Text, r.Overall[2].Text, r.Mass.Text)
	if len(r.Buy.Boards)+len(r.Buy.OnHand) == 0 {
		b.WriteString("What to buy is worked out once what stands below is mended.\n")
		b.WriteString(p.tally())
		return b.String()
	}
	boards := 0
	var lines []string
	for _, l := range r.Buy.Boards {
		boards += l.Count
		lines = append(lines, fmt.Sprintf("%d × %s %s", l.Count, l.What, textOf(l.Length)))
	}
	fmt.Fprintf(&b, "%d boards to buy: %s.\n", boards, strings.Join(lines, "; "))
	lines = nil
	for _, l := range r.Buy.OnHand {
		lines = append(lines, fmt.Sprintf("%d × %s %s", l.Count, l.What, textOf(l.Length)))
	}
	if lines != nil {
		fmt.Fprintf(&b, "Of your own: %s.\n", strings.Join(lines, "; "))
	}
	fmt.Fprintf(&b, "%s for everything, hardware included. %s\n", r.Buy.Cost.Text, r.Buy.PriceNote)
	fmt.Fprintf(&b, "%s\n", r.Saw.Verdict.String())
	b.WriteString(p.tally())
	return b.String()
}

// tally says how much there is to mend, to take care of and to know, and the
// first of each.
func (p *Plan) tally() string {
	var b strings.Builder
	for _, sev := range []snag.Severity{snag.Error, snag.Caution, snag.Advice} {
		var first string
		n := 0
		for _, s := range p.Snags {
			if s.Severity == sev {
				if n == 0 {
					first = s.What
				}
				n++
			}
		}
		switch {
		case n == 1:
			fmt.Fprintf(&b, "%s: %s.\n", sev.Title(), first)
		case n > 1:
			fmt.Fprintf(&b, "%s: %d things, the first: %s.\n", sev.Title(), n, first)
		}
	}
	if len(p.Snags) == 0 {
		b.WriteString("Nothing to mend.\n")
	}
	return b.String()
}
