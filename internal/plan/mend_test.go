package plan

import (
	"context"
	"strings"
	"testing"

	"scantling/internal/measure"
)

func TestMend(t *testing.T) {
	s := Open("sorting-table.yaml", example(t, "sorting-table"))
	for _, c := range []struct {
		name, part string
		length     measure.Length
		want       []string // sentences that must be said, or the error
	}{
		{"half an inch short", "C", 69 * measure.Inch, []string{
			`Part C is to be 69 1/2" long; this piece is 69", 1/2" short.`,
			`It still yields 2 of part E, 22 1/2" long.`, // by hand: 2·22 1/2 + 1/8 of 69; three want 67 3/4, and only two are needed
			`With length 71 1/2" instead of 72", part C is 69" long`}},
		{"a stub", "D", 5 * measure.Inch, []string{"No other part comes from it.", "No single size of the design makes part D just that short."}},
		{"lower case", "a", 33 * measure.Inch, []string{"ripped to 3 1/2\"", `With height `}},
		{"not short at all", "C", 80 * measure.Inch, []string{`a piece of 80" is no shorter than part C, which is 69 1/2" long`}},
		{"no such part", "Z", 80 * measure.Inch, []string{"has no part Z; its parts are A, B"}},
	} {
		says, err := s.Mend(context.Background(), Options{}, c.part, c.length)
		if err != nil {
			says = err.Error()
		}
		for _, want := range c.want {
			if !strings.Contains(says, want) {
				t.Errorf("%s: got\n%s\nwant it to say: %s", c.name, says, want)
			}
		}
	}
}

// Every alternative of the examples is computed: it costs no less than the plan,
// which is the cheapest there is, or is said to be impossible.
func TestAlternatives(t *testing.T) {
	for _, name := range examples {
		p, err := Open(name, example(t, name)).Run(context.Background(), Options{Want: Settled})
		if err != nil {
			t.Fatal(err)
		}
		if !p.Readings.Saw.Optimal {
			t.Errorf("%s: the boards are not proved the cheapest", name)
		}
		if len(p.Readings.Buy.Alternatives) < 3 {
			t.Errorf("%s: %d alternatives", name, len(p.Readings.Buy.Alternatives))
		}
		for _, a := range p.Readings.Buy.Alternatives {
			if a.Extra == nil {
				if !strings.Contains(a.Says.String(), "not possible") {
					t.Errorf("%s: %s: no cost and no reason", name, a.Says)
				}
				continue
			}
			if m, _ := a.Extra.Exact.Money(); m < 0 {
				t.Errorf("%s: %s costs %v less than the cheapest", name, a.Says, -m)
			}
		}
	}
}
