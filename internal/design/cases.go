package design

import (
	"strconv"
	"strings"

	"scantling/internal/expr"
	"scantling/internal/measure"
	"scantling/internal/snag"
	"scantling/internal/span"
)

// mostCases is how many settings are all tried; beyond it a fixed sample is.
const mostCases = 256

// Cases returns the settings a design must stand: every combination of choices,
// each with all sizes as the file has them and at every corner of their ranges.
// Over 256 of them it returns a fixed sample, the plain combinations of choices
// among it as far as they go, and sampled is true.
func (d *Design) Cases() (cases []Settings, sampled bool) {
	type axis struct {
		name   string
		values []string
	}
	var corners []axis
	w := newWorld(d, nil)
	for i := range d.sizes {
		s := &d.sizes[i]
		var ends []string
		for _, limit := range []*said{s.from, s.to} {
			if v := w.eval(limit, w.piece()); v.Kind == expr.Number {
				if is := w.size(i); is.Kind == expr.Number {
					ends = append(ends, measure.Quantity{V: v.Q.V, D: is.Q.D}.Exact(d.units))
				}
			}
		}
		if len(ends) == 2 && ends[0] != ends[1] {
			corners = append(corners, axis{s.name, ends})
		}
	}
	choices := []Settings{nil}
	for _, c := range d.choices {
		var next []Settings
		for _, o := range choices {
			for _, word := range c.of {
				next = append(next, append(append(Settings(nil), o...), Setting{c.name, word}))
			}
		}
		if choices = next; len(choices) > mostCases {
			choices = thin(choices, mostCases)
			sampled = true
		}
	}
	cases = append(cases, choices...)
	total := len(choices)
	for range corners {
		if total *= 2; total > 1<<40 {
			break
		}
	}
	if room := mostCases - len(choices); total > room {
		total, sampled = room, true
	}
	all := 1 << min(len(corners), 40)
	for k := 0; k < total; k++ {
		// A walk through all corners and choices: every one when all fit, else
		// steps of a golden share of them, which visit both ends of every size.
		n := k
		if sampled {
			n = int(uint64(k) * 0x9E3779B9 % uint64(all*len(choices)))
		}
		s := append(Settings(nil), choices[n/all%len(choices)]...)
		for i, c := range corners {
			s = append(s, Setting{c.name, c.values[n>>i&1]})
		}
		cases = append(cases, s)
	}
	return cases, sampled
}

// thin keeps n of a list, evenly spread.
func thin(all []Settings, n int) []Settings {
	out := make([]Settings, n)
	for i := range out {
		out[i] = all[i*len(all)/n]
	}
	return out
}

// Everywhere evaluates the design under all its Cases and returns the errors that
// the file's own sizes and choices do not show, each once, with the first settings
// that bring it about. A sample is said to be one.
func (d *Design) Everywhere() snag.List {
	type place struct {
		code snag.Code
		at   span.Range
	}
	told := map[place]bool{}
	_, own := d.Evaluate(nil)
	for _, s := range own {
		told[place{s.Code, s.At}] = true
	}
	cases, sampled := d.Cases()
	var out snag.List
	for _, set := range cases {
		_, list := d.Evaluate(set)
		for _, s := range list {
			k := place{s.Code, s.At}
			if s.Severity != snag.Error || told[k] {
				continue
			}
			told[k] = true
			if s.Why != "" {
				s.Why += "; "
			}
			s.Why += "it comes about with " + set.String()
			out = append(out, s)
		}
	}
	if sampled {
		out = append(out, snag.Snag{Code: "sampled", Severity: snag.Advice, At: d.nameAt,
			What:  "the choices and sizes of this piece have more corners than were tried: " + strconv.Itoa(len(cases)) + " of them, the same each time",
			Mends: []snag.Mend{snag.Say("look at the corners you care for one by one")}})
	}
	return out.Sorted()
}

// String names the settings: "panel diagonal, length 4'".
func (s Settings) String() string {
	if len(s) == 0 {
		return "the file as it is"
	}
	parts := make([]string, len(s))
	for i, x := range s {
		parts[i] = x.Name + " " + x.Value
	}
	return strings.Join(parts, ", ")
}
