package setout

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"scantling/internal/geom"
)

func TestDivide(t *testing.T) {
	for _, c := range []struct {
		what   string
		row    Row // in
		n      int
		gap    float64 // in
		first  float64 // in, width
		last   float64
		start  float64 // in
		source string
	}{
		{"12 slats", Row{Span: 72, Width: 5.5, Gap: 0.5, Most: 1, Leftover: Even}, 12, 6.0 / 11, 5.5, 5.5, 0,
			"by hand: (72 − 66)/11 = 0.545"},
		{"13 slats", Row{Span: 72, Width: 5.5, Gap: 0.05, Most: 0.25, Leftover: Even}, 13, 0.5 / 12, 5.5, 5.5, 0,
			"by hand: 0.5/12 = 0.042"},
		{"3/16 gaps, all ripped", Row{Span: 72, Width: 5.5, Gap: 3.0 / 16, Leftover: RipAll}, 13, 3.0 / 16, 5.3654, 5.3654, 0,
			"by hand: (72 − 2 1/4)/13 = 5.365"},
		{"9 pickets", Row{Span: 42, Width: 3.5, Gap: 1.3, Most: 2, Leftover: Even}, 9, 1.3125, 3.5, 3.5, 0,
			"by hand: (42 − 31.5)/8 = 1 5/16"},
		{"11 pickets", Row{Span: 42, Width: 3.5, Gap: 0.3, Most: 0.5, Leftover: Even}, 11, 0.35, 3.5, 3.5, 0,
			"by hand: 3.5/10"},
		{"a tie takes more boards", Row{Span: 12, Width: 1, Gap: 1.5, Leftover: Even}, 5, 1.75, 1, 1, 0,
			"rule 23: 5 boards leave 7/4; 6 leave 6/5: 1.2 is off by 0.3, 1.75 by 0.25"},
		{"last ripped", Row{Span: 30, Width: 5.5, Gap: 0.25, Leftover: RipLast, Least: 1}, 6, 0.25, 5.5, 1.25, 0,
			"by hand: 30 − 5·5.75"},
		{"last two share", Row{Span: 30, Width: 5.5, Gap: 0.25, Leftover: RipLast, Least: 2}, 6, 0.25, 5.5, 3.375, 0,
			"by hand: (5.5 + 1.25)/2"},
		{"both ripped", Row{Span: 30, Width: 5.5, Gap: 0.25, Leftover: RipBoth}, 6, 0.25, 3.375, 3.375, 0,
			"by hand: (30 − 4·5.5 − 5·0.25)/2"},
		{"whole boards exactly", Row{Span: 28.5, Width: 5.5, Gap: 0.25, Leftover: RipLast, Least: 2}, 5, 0.25, 5.5, 5.5, 0,
			"by hand: 5·5.5 + 4·0.25: 5 boards, never 6"},
		{"space at the start", Row{Span: 30, Width: 5.5, Gap: 0.25, Leftover: AtStart}, 5, 0.25, 5.5, 5.5, 1.5, "by hand: 30 − 28.5"},
		{"space at the end", Row{Span: 30, Width: 5.5, Gap: 0.25, Leftover: AtEnd}, 5, 0.25, 5.5, 5.5, 0, "by hand"},
		{"space at both", Row{Span: 30, Width: 5.5, Gap: 0.25, Leftover: AtBoth}, 5, 0.25, 5.5, 5.5, 0.75, "by hand"},
		{"a gap outside", Row{Span: 24, Width: 5.5, Gap: 0.4, Most: 0.5, Leftover: Even, Outside: FullGap}, 4, 0.4, 5.5, 5.5, 0.4,
			"by hand: (24 − 22)/5"},
		{"half a gap outside", Row{Span: 24, Width: 5.5, Gap: 0.5, Most: 0.5, Leftover: Even, Outside: HalfGap}, 4, 0.5, 5.5, 5.5, 0.25,
			"by hand: (24 − 22)/4"},
		{"a count", Row{Span: 30, Width: 5.5, Count: 4, Leftover: Even}, 4, 8.0 / 3, 5.5, 5.5, 0, "by hand: (30 − 22)/3"},
		{"open", Row{Open: true, Width: 5.5, Gap: 0.25, Count: 5}, 5, 0.25, 5.5, 5.5, 0, "by hand"},
		{"one board stands in the middle", Row{Span: 10, Width: 5.5, Count: 1, Leftover: Even}, 1, 0, 5.5, 5.5, 2.25, "rule 23"},
		{"one board, ripped", Row{Span: 4, Width: 5.5, Gap: 0.25, Leftover: RipLast}, 1, 0, 4, 4, 0, "by hand"},
		{"chair seat", Row{Span: 18.5, Width: 3.5, Gap: 0.25, Leftover: RipLast, Least: 2}, 5, 0.25, 3.5, 3.5, 0,
			"by hand: 5·3.5 + 4·0.25 = 18 1/2"},
	} {
		r := c.row
		r.Span, r.Width, r.Gap, r.Least, r.Most = r.Span*inch, r.Width*inch, r.Gap*inch, r.Least*inch, r.Most*inch
		d, err := Divide(r)
		if err != nil {
			t.Errorf("%s: %v", c.what, err)
			continue
		}
		if len(d.Boards) != c.n {
			t.Errorf("%s: %d boards, want %d (%s)", c.what, len(d.Boards), c.n, c.source)
			continue
		}
		first, last := d.Boards[0], d.Boards[c.n-1]
		near(t, c.what+": gap", d.Gap/inch, c.gap, 1e-9)
		near(t, c.what+": first", (first.Hi-first.Lo)/inch, c.first, 5e-5)
		near(t, c.what+": last", (last.Hi-last.Lo)/inch, c.last, 5e-5)
		near(t, c.what+": start", d.Start/inch, c.start, 1e-9)
	}
	// 1800 mm of twelve 145 mm boards: by hand, 60/11.
	d := must[Division](t)(Divide(Row{Span: 1800, Width: 145, Gap: 5, Most: 10, Leftover: Even}))
	near(t, "metric gap", d.Gap, 60.0/11, 1e-12)
}

func TestDivideRefuses(t *testing.T) {
	for _, c := range []struct {
		what string
		row  Row
		kind FaultKind
	}{
		{"nothing to fill", Row{Span: -3, Width: 100, Leftover: Even}, NoRow},
		{"too narrow", Row{Span: 50, Width: 100, Gap: 5, Leftover: AtEnd}, NoRow},
		{"a gap between two counts", Row{Span: 1000, Width: 140, Least: 3, Most: 2.9, Leftover: Even}, RowEven},
		{"something over", Row{Span: 1000, Width: 140, Gap: 5}, RowExact},
		{"a sliver", Row{Span: 290, Width: 140, Gap: 5, Leftover: RipLast, Least: 80}, RowNarrow},
		{"crowded", Row{Span: 500, Width: 140, Gap: 5, Count: 4, Leftover: AtEnd}, RowCrowded},
		{"crowded, even", Row{Span: 500, Width: 140, Gap: 5, Count: 4, Leftover: Even}, RowCrowded},
		{"no count", Row{Open: true, Width: 140}, RowCount},
		{"a million boards", Row{Span: 1e6, Width: 1, Leftover: AtEnd}, TooMany},
		{"not a number", Row{Span: math.NaN(), Width: 1, Leftover: AtEnd}, NoRow},
	} {
		_, err := Divide(c.row)
		fault(t, c.what, err, c.kind)
	}
	_, err := Divide(Row{Span: 1000, Width: 140, Gap: 20, Least: 5, Most: 6, Leftover: Even})
	f := fault(t, "the two nearest", err, RowEven)
	if f.Counts != [2]int{6, 7} {
		t.Errorf("nearest counts %v, want 6 and 7", f.Counts)
	}
	near(t, "gap of 6", f.Gaps[0], 32, 1e-9)     // by hand: 160/5
	near(t, "gap of 7", f.Gaps[1], 20.0/6, 1e-9) // by hand: 20/6
}

// Boards and gaps fill the span in order, and every board is as wide as it may be.
func TestRowsFillTheirSpan(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		sixteenth := inch / 16
		row := Row{
			Span:     float64(rapid.IntRange(16, 1600).Draw(r, "span")) * sixteenth,
			Width:    float64(rapid.IntRange(16, 120).Draw(r, "width")) * sixteenth,
			Gap:      float64(rapid.IntRange(0, 16).Draw(r, "gap")) * sixteenth,
			Leftover: Leftover(rapid.IntRange(int(Even), int(AtBoth)).Draw(r, "leftover")),
			Outside:  Outside(rapid.IntRange(0, 2).Draw(r, "outside")),
		}
		d, err := Divide(row)
		if err != nil {
			return
		}
		at, wood := d.Start, 0.0
		for i, b := range d.Boards {
			if math.Abs(b.Lo-at) > 1e-9 {
				r.Fatalf("board %d starts at %v, want %v", i, b.Lo, at)
			}
			w := b.Hi - b.Lo
			if w <= 0 || w > row.Width+1e-9 {
				r.Fatalf("board %d is %v wide", i, w)
			}
			at = b.Hi + d.Gap
			wood += w
		}
		n := float64(len(d.Boards))
		if sum := wood + (n-1)*d.Gap + d.Start + d.End; math.Abs(sum-row.Span) > 1e-9 {
			r.Fatalf("n·w + (n−1)·g + ends = %v, span %v", sum, row.Span)
		}
		if d.Start < -1e-9 || d.End < -grace {
			r.Fatalf("ends at %v and %v", d.Start, d.End)
		}
		if row.Leftover >= AtStart && row.Outside == NoGap && d.Start+d.End >= row.Width+row.Gap {
			r.Fatalf("room for another board: %v left", d.Start+d.End)
		}
	})
}

// A leaning limit counts at the point nearest inside the boards' thickness, and a
// mirrored row gives the mirrored answer (rule 23).
func TestLeaningLimits(t *testing.T) {
	lean := deg(10)
	thick := Slab{geom.Vec{Z: 1}, 200, 225}
	post := geom.Facing(geom.Vec{X: -300}, geom.Vec{X: math.Cos(lean), Z: -math.Sin(lean)}) // its right side; leans right going up
	at := must[float64](t)(RowLimit(Piece(), post, Right, thick, true))
	near(t, "start at a post that leans in", at, -300+225*math.Tan(lean), 1e-9) // by hand: at the boards' top
	other := Mirror(Piece(), Right, 0).Plane(post)
	mirrored := must[float64](t)(RowLimit(Piece(), other, Right, thick, false))
	near(t, "mirrored", mirrored, -at, 1e-9)
	back := must[float64](t)(RowLimit(Piece(), other, Left, thick, true))
	near(t, "from the right end", back, mirrored, 1e-12)
	out := geom.Facing(geom.Vec{X: -300}, geom.Vec{X: math.Cos(lean), Z: math.Sin(lean)})
	at = must[float64](t)(RowLimit(Piece(), out, Right, thick, true))
	near(t, "start at a post that leans out", at, -300-200*math.Tan(lean), 1e-9) // by hand: at the boards' underside
	_, err := RowLimit(Piece(), geom.Facing(geom.Vec{}, geom.Vec{X: 1, Y: 0.3, Z: 0.1}), Right, thick, true)
	fault(t, "askew", err, Unsteady)
}

// Gaps aimed at once the boards have dried (rule 23, `once: dried`): each opens by
// what one board shrinks. Fact 12: 5 1/2 in shrinks by 1.505 % from 19 to 12 %
// moisture (0.215 % of the width for each percent, FPL-RP-489), 0.083 in.
func TestDriedGaps(t *testing.T) {
	const dried = 1 - 0.215*7/100
	for _, c := range []struct {
		what        string
		row         Row // in
		n           int
		gap, driesT float64 // in
		source      string
	}{
		{"2x6s laid 1/4 apart", Row{Span: 28.5, Width: 5.5, Gap: 0.25 + 5.5*0.01505, Leftover: AtEnd, Dried: dried}, 5, 0.25, 0.333,
			"fact 12: 0.25 + 0.083"},
		{"the same, even", Row{Span: 28.5, Width: 5.5, Gap: 1.0 / 3, Least: 0.3, Most: 0.35, Leftover: Even, Dried: dried}, 5, 0.25, 0.333,
			"by hand: (28.5 − 27.5)/4 = 1/4, and 0.083 once dried"},
		{"pickets", Row{Span: 42, Width: 3.5, Gap: 0.375, Least: 0.25, Most: 0.5, Leftover: Even, Dried: dried}, 11, 0.35, 0.403,
			"by hand: 3.5/10 as laid, 3 1/2·0.01505 = 0.053 more once dried"},
		{"laid tight from green", Row{Open: true, Width: 5.5, Gap: 0.19, Count: 6, Dried: 1 - 0.19/5.5}, 6, 0, 0.19,
			"fact 12: 0.190 from green to 12 %"},
		{"not dried", Row{Span: 28.5, Width: 5.5, Gap: 0.25, Leftover: Even}, 5, 0.25, 0.25, "by hand"},
		{"one board", Row{Span: 6, Width: 5.5, Gap: 0.25, Count: 1, Leftover: Even, Dried: dried}, 1, 0, 0, "rule 23"},
	} {
		r := c.row
		r.Span, r.Width, r.Gap, r.Least, r.Most = r.Span*inch, r.Width*inch, r.Gap*inch, r.Least*inch, r.Most*inch
		d, err := Divide(r)
		if err != nil || len(d.Boards) != c.n {
			t.Errorf("%s: %d boards, %v; want %d (%s)", c.what, len(d.Boards), err, c.n, c.source)
			continue
		}
		near(t, c.what+": gap as laid ("+c.source+")", d.Gap/inch, c.gap, 1e-9)
		near(t, c.what+": gap once dried", d.Dried/inch, c.driesT, 5e-4)
		near(t, c.what+": whole boards", (d.Boards[0].Hi-d.Boards[0].Lo)/inch, c.row.Width, 1e-9) // what is sawn is not dry
	}
	_, err := Divide(Row{Span: 700, Width: 140, Gap: 2, Leftover: AtEnd, Dried: 0.98})
	f := fault(t, "dries wider than asked", err, GapDries)
	near(t, "by drying alone", f.Want, 2.8, 1e-12)
	_, err = Divide(Row{Span: 700, Width: 140, Gap: 1, Most: 2, Leftover: Even, Dried: 0.98})
	fault(t, "dries wider than allowed", err, GapDries)
	_, err = Divide(Row{Span: 1000, Width: 140, Gap: 20, Least: 7, Most: 30, Leftover: Even, Dried: 0.98})
	f = fault(t, "the two nearest", err, RowEven)
	near(t, "gap of 6", f.Gaps[0], 34.8, 1e-9)       // by hand: 160/5 + 140·0.02
	near(t, "gap of 7", f.Gaps[1], 20.0/6+2.8, 1e-9) // by hand: 20/6 + 140·0.02
	if f.Low != 7 || f.High != 30 {
		t.Errorf("limits %v to %v, want those asked", f.Low, f.High)
	}
}

func TestRowSlabs(t *testing.T) {
	f := must[Frame](t)(Orient(Piece(), Back, Up, nil, false))
	for _, along := range []Dir{Right, Left} {
		s := must[Slab](t)(RowSlab(Piece(), f, along, 100*along.Sign(), Strip{10, 60}))
		low := SideOf(s, f.Side(along.Opposite()))
		got, ok := Piece().Read(low, along)
		if !ok {
			t.Fatal("a row's edge is not square to the row")
		}
		near(t, "first edge going "+along.String(), got, along.Sign()*110, 1e-12)
		near(t, "width", s.Size(), 50, 1e-12)
	}
	_, err := RowSlab(Piece(), f, Up, 0, Strip{0, 50})
	fault(t, "edges not square to the row", err, Skew)
}

// A row of whole boards that leaves no gap allowed says how long it must be for
// the gap aimed at. By hand: 12·5 1/2 + 11·3/16 = 68 1/16, 13·5 1/2 + 12·3/16 =
// 73 3/4.
func TestEvenSaysHowLong(t *testing.T) {
	_, err := Divide(Row{Span: 72 * inch, Width: 5.5 * inch, Gap: 3.0 / 16 * inch, Least: 0.125 * inch, Most: 0.25 * inch, Leftover: Even})
	f, ok := err.(*Fault)
	if !ok || f.Kind != RowEven || f.Counts != [2]int{12, 13} {
		t.Fatalf("%+v", err)
	}
	near(t, "the gap aimed at", f.Aim/inch, 0.1875, 1e-9)
	near(t, "12 boards", f.Spans[0]/inch, 68.0625, 1e-9)
	near(t, "13 boards", f.Spans[1]/inch, 73.75, 1e-9)
}
