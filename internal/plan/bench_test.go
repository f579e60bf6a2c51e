package plan

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"testing"

	"scantling/internal/cutplan"
	"scantling/internal/pdf"
)

// measured runs a design over and over, as an editor does after every key: a new
// session each time.
func measured(b *testing.B, src []byte, want Want) {
	b.Helper()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Open("design.yaml", src).Run(context.Background(), Options{Want: want}); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkLive is what must keep up with a dragged size: values, solids,
// contacts, clashes. The goal for the sorting table is 5 ms.
func BenchmarkLive(b *testing.B) {
	for _, file := range allFive {
		b.Run(file, func(b *testing.B) { measured(b, example(b, file), Live) })
	}
}

// BenchmarkSettled adds joints, parts and cutting.
func BenchmarkSettled(b *testing.B) {
	for _, file := range allFive {
		b.Run(file, func(b *testing.B) { measured(b, example(b, file), Settled) })
	}
}

// BenchmarkBoards chooses and lays out the boards alone. The goal is 10 ms, and
// 30 ms as WebAssembly.
func BenchmarkBoards(b *testing.B) {
	for _, file := range allFive {
		o := Options{Want: Settled}
		s := Open("design.yaml", example(b, file))
		p, err := s.Run(context.Background(), o)
		if err != nil {
			b.Fatal(err)
		}
		if err := o.settle(s.home); err != nil {
			b.Fatal(err)
		}
		list, _ := p.priceBook(o)
		job, _, _ := p.job(list, &o)
		b.Run(file, func(b *testing.B) {
			for b.Loop() {
				if _, err := cutplan.Solve(context.Background(), job, cutplan.Options{}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkWhole is everything `scantling plan` computes, the bytes of the PDF
// too. The goal is 1 s.
func BenchmarkWhole(b *testing.B) {
	for _, file := range examples {
		src := example(b, file)
		b.Run(file, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				p, err := Open("design.yaml", src).Run(context.Background(), Options{Want: Book})
				if err != nil {
					b.Fatal(err)
				}
				var out bytes.Buffer
				if err := pdf.Write(&out, p.Book); err != nil {
					b.Fatal(err)
				}
				if _, err := p.Files(); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// stall is a market stall so many bays long.
func stall(b *testing.B, bays int) []byte {
	text, err := os.ReadFile("../testdata/stall.yaml")
	if err != nil {
		b.Fatal(err)
	}
	return bytes.Replace(text, []byte("8 * bay"), fmt.Appendf(nil, "%d * bay", bays), 1)
}

// BenchmarkGrowth is the cost of a board in generated pieces of about 100, 1,000
// and 5,000: near-linear growth keeps ns/board level.
func BenchmarkGrowth(b *testing.B) {
	for _, bays := range []int{8, 80, 400} {
		src := stall(b, bays)
		for want, tier := range []string{"live", "settled"} {
			p := run(b, src, Live)
			boards := len(p.Piece.Boards)
			b.Run(fmt.Sprintf("%s/%d", tier, boards), func(b *testing.B) {
				measured(b, src, Want(want))
				b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(boards), "ns/board")
			})
		}
	}
}
