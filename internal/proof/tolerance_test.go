package proof

import (
	"math"
	"testing"
)

// Errors of a sixteenth stacked up. Source: by hand; the closed forms of worst case and
// root of the sum of squares, common practice.
func TestStacks(t *testing.T) {
	const t16 = 1.0 / 16 // in
	marks, spacer := LastGap(13, t16)
	end, each := HoleRow(5, t16)
	for _, c := range []struct {
		what   string
		got    Stack
		want   Stack
		source string
	}{
		{"last gap of 13 slats by marks", marks, Stack{3.0 / 16, 0.108253}, "two marks and a width: 3/16, √3/16"},
		{"and by a spacer", spacer, Stack{1.5, 0.306186}, "12 widths and 12 spacers: 24/16, √24/16"},
		{"diagonal of 69 1/2 × 24 1/2", Diagonal(69.5, 24.5, t16), Stack{0.079724, 0.0625}, "d = 73.692: (94/73.692)/16; √(69.5² + 24.5²)/d = 1"},
		{"diagonal of a square", Diagonal(40, 40, t16), Stack{0.088388, 0.0625}, "√2/16"},
		{"5 holes from one end", end, Stack{0.125, 0.088388}, "two marks: 2/16, √2/16"},
		{"each from the one before", each, Stack{0.25, 0.125}, "four steps: 4/16, √4/16"},
		{"one hole", first(HoleRow(1, t16)), Stack{t16, t16}, "its own mark"},
		{"no frame", Diagonal(0, 0, t16), Stack{}, "nothing"},
	} {
		if math.Abs(c.got.Worst-c.want.Worst) > 1e-6 || math.Abs(c.got.Likely-c.want.Likely) > 1e-6 {
			t.Errorf("%s: %v, want %v (%s)", c.what, c.got, c.want, c.source)
		}
	}
}

func first(a, _ Stack) Stack { return a }
