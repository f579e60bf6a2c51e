package measure

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestLengthText(t *testing.T) {
	for _, c := range []struct {
		l                        Length
		exact, metric, tape, mm1 string
		source                   string
	}{
		{33*Inch + 13*Inch/16, `33 13/16"`, `858.8375 mm`, `33 13/16"`, `859 mm`, "by hand: 33.8125 × 25.4"},
		{33*Inch + 27*Inch/32, `33 27/32"`, `859.63125 mm`, `33 7/8"`, `860 mm`, "halves away from zero: 27/32 = 13.5/16"},
		{-33*Inch - 27*Inch/32, `-33 27/32"`, `-859.63125 mm`, `-33 7/8"`, `-860 mm`, "mirror image of the one above"},
		{140 * Millimetre, `140 mm`, `140 mm`, `5 1/2"`, `140 mm`, "by hand: 5.5118 in"},
		{127 * Millimetre, `5"`, `127 mm`, `5"`, `127 mm`, "by hand: 5 × 25.4"},
		{Inch / 32, `1/32"`, `0.79375 mm`, `1/16"`, `1 mm`, "half a mark goes up"},
		{Inch/32 - 1, `0.793749 mm`, `0.793749 mm`, `0"`, `1 mm`, "just below half a mark"},
		{0, `0"`, `0 mm`, `0"`, `0 mm`, ""},
		{95*Inch + 15*Inch/16, `95 15/16"`, `2436.8125 mm`, `95 15/16"`, `2437 mm`, "inches under 8 ft, common practice"},
		{96*Inch - Inch/64, `95 63/64"`, `2438.003125 mm`, `8' 0"`, `2438 mm`, "rounds up to 8 ft"},
		{98*Inch + Inch/2, `98 1/2"`, `2501.9 mm`, `8' 2 1/2"`, `2502 mm`, "feet from 8 ft, common practice"},
	} {
		for _, g := range []struct{ name, got, want string }{
			{"exact", c.l.Exact(Imperial), c.exact},
			{"metric", c.l.Exact(Metric), c.metric},
			{"tape", c.l.Tape(Sixteenth).String(), c.tape},
			{"1 mm", c.l.Tape(WholeMM).String(), c.mm1},
		} {
			if g.got != g.want {
				t.Errorf("%d nm %s = %q, want %q (%s)", c.l, g.name, g.got, g.want, c.source)
			}
		}
	}
}

// A tape's reading is in lowest terms and comes in parts for stacking.
func TestTapeParts(t *testing.T) {
	got := (98*Inch + 3*Inch/8).Tape(ThirtySecond)
	want := Mixed{Feet: 8, Whole: 2, Num: 3, Den: 8, Unit: InchMark}
	if got != want {
		t.Errorf("Tape = %+v, want %+v", got, want)
	}
	if in := got.InInches().String(); in != `98 3/8"` {
		t.Errorf("InInches = %q", in)
	}
	for _, c := range []struct {
		l    Length
		want string
	}{{12 * Foot, "12 ft"}, {8 * Foot, "8 ft"}, {8*Foot + Inch/2, `8' 0 1/2"`}, {7 * Inch, `7"`}} {
		if got := c.l.Stock(Sixteenth).String(); got != c.want {
			t.Errorf("Stock(%d) = %q, want %q", c.l, got, c.want)
		}
	}
}

func TestText(t *testing.T) {
	for _, c := range []struct{ literal, inch, mm, source string }{
		{"12.58°", `12 1/2°`, `12 1/2°`, "most saws read half a degree, common practice"},
		{"12.75°", `13°`, `13°`, "half of a half goes up"},
		{"0.3°", `1/2°`, `1/2°`, ""},
		{"129.04 lb", `129 lb`, `59 kg`, "by hand: 129.04 × 0.45359237 = 58.53"},
		{"9.96 lb", `10.0 lb`, `4.5 kg`, "by hand: 4.518"},
		{"79.3 sq ft", `79.3 sq ft`, `7.37 sq m`, "NIST SP 811: ft² = 0.09290304 m²; 7.3672"},
		{"6369.7 cu in", `3.7 cu ft`, `0.104 cu m`, "by hand: 6369.7 / 1728 = 3.686; NIST SP 811: in³ = 1.638706e-5 m³, 0.10438"},
		{"12 cu in", `12 cu in`, `0.000 cu m`, ""},
		{"40 psf", `40 psf`, `1.92 kPa`, "NIST SP 811: 1.915"},
		{"250 lbf", `250 lbf`, `1112 N`, "NIST SP 811: lbf = 4.448222 N; 1112.06"},
		{"50 plf", `50 plf`, `50 plf`, ""},
		{"$6.50", `$6.50`, `$6.50`, ""},
		{"$0.05", `$0.05`, `$0.05`, ""},
		{"1/3", `0.333`, `0.333`, ""},
		{"100", `100`, `100`, ""},
		{`5 1/2"`, `5 1/2"`, `140 mm`, "by hand: 139.7"},
	} {
		q, err := Parse(c.literal)
		if err != nil {
			t.Fatal(err)
		}
		if got := q.Text(Sixteenth); got != c.inch {
			t.Errorf("%s on an inch tape = %q, want %q (%s)", c.literal, got, c.inch, c.source)
		}
		if got := q.Text(WholeMM); got != c.mm {
			t.Errorf("%s in metric = %q, want %q (%s)", c.literal, got, c.mm, c.source)
		}
	}
}

// Parsing what Exact printed gives the quantity back, in both families.
func TestExactReadsBack(t *testing.T) {
	units := rapid.SampledFrom([]Units{Imperial, Metric})
	rapid.Check(t, func(t *rapid.T) {
		u := units.Draw(t, "units")
		l := Length(rapid.Int64Range(-1<<50, 1<<50).Draw(t, "nm"))
		if rapid.Bool().Draw(t, "on the tape") {
			l = l.Round(Inch / 64)
		}
		quantities := []Quantity{
			l.Quantity(),
			Angle(rapid.Int64Range(-360*int64(Degree), 360*int64(Degree)).Draw(t, "angle")).Quantity(),
			Money(rapid.Int64Range(-1e9, 1e9).Draw(t, "cents")).Quantity(),
			Number(float64(rapid.IntRange(-1e6, 1e6).Draw(t, "count"))),
			Number(rapid.Float64Range(-1e3, 1e3).Filter(func(v float64) bool { return math.Abs(v) > 1e-9 }).Draw(t, "ratio")),
			{rapid.Float64Range(1e-3, 1e4).Draw(t, "kg"), DimMass},
			{rapid.Float64Range(1e-3, 1e6).Draw(t, "N"), DimForce},
		}
		for _, q := range quantities {
			text := q.Exact(u)
			if back, err := Parse(text); err != nil || back != q {
				t.Fatalf("%v %v prints as %q, reads back as %v, %v", q.V, q.D, text, back, err)
			}
		}
		area := Quantity{rapid.Float64Range(1, 1e20).Draw(t, "nm²"), DimArea}
		back, err := Parse(area.Exact(u))
		if err != nil || math.Abs(back.V-area.V) > 1e-14*area.V {
			t.Fatalf("%v nm² prints as %q, reads back as %v, %v", area.V, area.Exact(u), back.V, err)
		}
	})
}

// A tape's reading reads back within half a mark, mirrors with its length, and
// lies on a mark.
func TestTapeRounds(t *testing.T) {
	tapes := rapid.SampledFrom([]Graduation{Sixteenth, ThirtySecond, Eighth, SixtyFourth, WholeMM})
	rapid.Check(t, func(t *rapid.T) {
		l, g := Length(rapid.Int64Range(-1e11, 1e11).Draw(t, "nm")), tapes.Draw(t, "tape")
		q, err := Parse(l.Tape(g).String())
		if err != nil {
			t.Fatal(err)
		}
		back, _ := q.Length()
		if off := 2 * max(back-l, l-back); off > g.Step() || back%g.Step() != 0 {
			t.Fatalf("%d prints as %s = %d, off by %d/2", l, l.Tape(g), back, off)
		}
		m := (-l).Tape(g)
		m.Neg = l.Tape(g).Neg
		if m != l.Tape(g) {
			t.Fatalf("%d prints %s, its mirror image %s", l, l.Tape(g), (-l).Tape(g))
		}
	})
}

func TestFloorCeil(t *testing.T) {
	for _, c := range []struct{ l, floor, ceil Length }{{7, 5, 10}, {-7, -10, -5}, {10, 10, 10}, {0, 0, 0}, {-10, -10, -10}} {
		if f, u := c.l.Floor(5), c.l.Ceil(5); f != c.floor || u != c.ceil {
			t.Errorf("%d lies between %d and %d, want %d and %d", c.l, f, u, c.floor, c.ceil)
		}
	}
}
