package order

import (
	"bytes"
	"fmt"
	"os"
	"testing"

	"scantling/internal/joint"
	"scantling/internal/reach"
)

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

// BenchmarkGrowth is joints, holes and reach of a board in stalls of about 100, 1,000
// and 4,000 boards: near-linear growth keeps ns/board level.
func BenchmarkGrowth(b *testing.B) {
	for _, bays := range []int{8, 80, 320} {
		text, err := os.ReadFile("../testdata/stall.yaml")
		if err != nil {
			b.Fatal(err)
		}
		tree, d := opened(b, bytes.Replace(text, []byte("8 * bay"), fmt.Appendf(nil, "%d * bay", bays), 1))
		p, _ := d.Evaluate(nil)
		m := joint.Meet(p)
		tools := reach.Usual()
		b.Run(fmt.Sprint(len(p.Boards)), func(b *testing.B) {
			for b.Loop() {
				joints, _ := joint.Find(p, m)
				if _, told := NewWork(p, m, joints, &tools).Check(tree); len(told) > 0 {
					b.Fatal(told[0].What)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(len(p.Boards)), "ns/board")
		})
	}
}
