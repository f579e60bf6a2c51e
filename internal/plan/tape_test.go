//go:build !js

package plan

import (
	"context"
	"math"
	"strings"
	"testing"

	"scantling/internal/measure"
	"scantling/internal/shop"
)

// A finer tape makes every part's length read within half of its marks and
// is another revision; the boards themselves stay as they are.
func TestTape(t *testing.T) {
	var thirtySeconds int
	for _, file := range examples {
		src := example(t, file)
		run := func(g measure.Graduation) *Plan {
			p, err := Open("design.yaml", src).Run(context.Background(), Options{Want: Book, Tape: g})
			if err != nil || p.Snags.Errors() > 0 {
				t.Fatalf("%s: %v\n%s", file, err, p.Messages())
			}
			return p
		}
		usual, fine := run(measure.Sixteenth), run(measure.ThirtySecond)
		if usual.Readings.Revision == fine.Readings.Revision {
			t.Errorf("%s: both tapes are revision %s", file, fine.Readings.Revision)
		}
		for _, q := range fine.Readings.Parts {
			for _, s := range []shop.Shown{q.Long, q.Thick, q.Wide} {
				if strings.Contains(s.Text, "/32") {
					thirtySeconds++
				}
				exact, ok := s.Exact.Length()
				if off := (s.Printed() - exact).MM(); !ok || math.Abs(off) > 25.4/64+1e-6 {
					t.Errorf("%s: part %s says %s, %.3f mm off", file, q.Letter, s.Text, off)
				}
			}
		}
		for i, q := range usual.Readings.Parts {
			if a, b := q.Long.Exact, fine.Readings.Parts[i].Long.Exact; a != b {
				t.Errorf("%s: part %s is %v long, and %v by a finer tape", file, q.Letter, a, b)
			}
		}
	}
	if thirtySeconds == 0 {
		t.Error("no part of any plan for 1/32 in says 32nds")
	}
}

// Other tapes are refused with both marks and what to choose.
func TestTapeRefused(t *testing.T) {
	_, err := Open("design.yaml", nil).Run(context.Background(), Options{Tape: measure.WholeMM})
	if err == nil || !strings.Contains(err.Error(), "choose one of the two") {
		t.Errorf("a tape of whole millimetres: %v", err)
	}
}
