package wood

import (
	"math"
	"testing"
)

func TestWidthRatio(t *testing.T) {
	for _, c := range []struct {
		wood     string
		from, to float64
		want     float64
		source   string
	}{
		{"western red cedar", 30, 0, 0.95, "Wood Handbook, table 4-3: 5.0 % tangential, green to oven-dry"},
		{"western red cedar", 30, 12, 0.97, "by hand: 5 % · 18/30"},
		{"western red cedar", 40, 12, 0.97, "nothing moves above fibre saturation"},
		{"western red cedar", 18, 12, 0.97 / 0.98, "by hand: (1 − 0.03)/(1 − 0.02)"},
		{"western red cedar", 12, 12, 1, "by definition"},
	} {
		w, err := Lookup(c.wood)
		if err != nil {
			t.Fatal(err)
		}
		if got := w.WidthRatio(c.from, c.to); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("%s from %v to %v %%: %v, want %v (%s)", c.wood, c.from, c.to, got, c.want, c.source)
		}
	}
}
