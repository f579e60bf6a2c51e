package setout

import (
	"testing"

	"scantling/internal/geom"
)

func BenchmarkLeg(b *testing.B) {
	leg := handed(b)
	b.ReportAllocs()
	for b.Loop() {
		leg.Build()
	}
}

func BenchmarkFit(b *testing.B) {
	blank := splayed(b, 33, 10, 5, 4)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Fit(blank.Bar, blank.Ends[0], blank.Ends[1], 0, nil); err != nil {
			b.Fatal(err)
		}
	}
}

// A shelf slat round the two legs it meets, two more being out of reach.
func BenchmarkNotchRound(b *testing.B) {
	s := slat()
	legs := []geom.Placed{leaned(0.17, 2, 5.5, -1, 2, -9, 9), leaned(-0.17, 22, 25.5, -1, 2, -9, 9),
		block(40, 43, -1, 2, -9, 9), block(-40, -37, -1, 2, -9, 9)}
	b.ReportAllocs()
	for b.Loop() {
		if got := NotchRound(s, legs, Notching{Clearance: 3}); len(got.Cuts) != 2 {
			b.Fatal(got)
		}
	}
}
