//go:build !js

package plan

import "testing"

// Every size of the examples may be set to every step of its range, one at a
// time, under every choice: a reader who moves one slider meets no error.
func TestEveryStepCanBeBuilt(t *testing.T) {
	for _, file := range examples {
		src := example(t, file)
		p := sound(t, src, Live)
		for i, set := range choices(p) {
			want := Live // what a choice adds or takes away shows in its solids
			if i == 0 {
				want = Settled
			}
			for _, z := range p.Piece.Sizes {
				q, n := z.Least, 0
				for ; q.V <= z.Most.V; q.V += z.Step.V {
					sound(t, src, want, append([]string{z.Name, exact(q)}, set...)...)
					n++
				}
				if n < 2 {
					t.Errorf("%s: %s has %d steps", file, z.Name, n)
				}
			}
		}
	}
}
