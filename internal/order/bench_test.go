package order

import "testing"

// BenchmarkCheck is reach for every step of an example, fasteners laid already.
func BenchmarkCheck(b *testing.B) {
	for _, name := range examples {
		tree, d := opened(b, text(b, name))
		w := worked(d, nil)
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				w.Check(tree)
			}
		})
	}
}
