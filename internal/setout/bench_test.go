package setout

import (
	"testing"

	"scantling/internal/board"
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

// A diagonal panel of eight pieces, laid and sawn.
func BenchmarkField(b *testing.B) {
	f := swung(b, 45)
	in := Field{Outline: inches(0, 0, 26.5, 0, 26.5, 27, 0, 27), Width: 5.5 * inch, Gap: inch / 8}
	for b.Loop() {
		p, err := LayField(f, in)
		if err != nil {
			b.Fatal(err)
		}
		for _, k := range p.Pieces {
			blank, cuts, err := k.Blank(f, Slab{f.Face, 0, inch}, "hollow")
			if err != nil {
				b.Fatal(err)
			}
			blank.Board(nil, cuts)
		}
	}
}

// A picket with a round head, and a rail with an arch of 30 in.
func BenchmarkCurves(b *testing.B) {
	picket, rail := plank(b, 48, 3.5, 0.75), plank(b, 40, 5.5, 1.5)
	for b.Loop() {
		head, err := picket.RoundEnd("head", 1, 2.5*inch)
		if err != nil {
			b.Fatal(err)
		}
		picket.Board(nil, []board.Cut{head})
		arch, err := rail.Arch("arch", board.Near, 5*inch, 5*inch, 2*inch)
		if err != nil {
			b.Fatal(err)
		}
		rail.Board(nil, []board.Cut{arch})
	}
}

// A pair of crossed legs, lapped.
func BenchmarkHalfLap(b *testing.B) {
	one := crossedLeg(b)
	other := Mirror(Piece(), Front, 0).Board(one)
	for b.Loop() {
		if _, met, err := HalfLap(one, other, Lapping{Keeps: Piece().Way(Left)}); !met || err != nil {
			b.Fatal(err)
		}
	}
}
