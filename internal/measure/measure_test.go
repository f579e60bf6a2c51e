package measure

import "testing"

// Halves go away from zero, and a step of an odd number of nanometres, as 1/64
// in is, has no half: a length just under goes down.
func TestRound(t *testing.T) {
	const step = Inch / 64 // 396 875 nm
	for _, c := range []struct{ l, step, want Length }{
		{198_437, step, 0},
		{198_438, step, step},
		{-198_437, step, 0},
		{-198_438, step, -step},
		{Inch / 32, Inch / 16, Inch / 16},
		{Inch/32 - 1, Inch / 16, 0},
		{-Inch / 32, Inch / 16, -Inch / 16},
		{5, 10, 10},
		{4, 10, 0},
	} {
		if got := c.l.Round(c.step); got != c.want {
			t.Errorf("%d.Round(%d) = %d, want %d", c.l, c.step, got, c.want)
		}
	}
}
