package plan

import "testing"

// Every size of the examples may be set to every step of its range, one at a
// time, under every choice: a reader who moves one slider meets no error.
func TestEveryStepCanBeBuilt(t *testing.T) {
	for _, file := range examples {
		src := example(t, file)
		p := sound(t, src, Live)
		for _, set := range choices(p) {
			for _, z := range p.Piece.Sizes {
				q, n := z.Least, 0
				for ; q.V <= z.Most.V; q.V += z.Step.V {
					sound(t, src, Settled, append([]string{z.Name, exact(q)}, set...)...)
					n++
				}
				if n < 2 {
					t.Errorf("%s: %s has %d steps", file, z.Name, n)
				}
			}
		}
	}
}
