package measure

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

const in64 = 396_875 // nm in 1/64 in, exact: 25,400,000 / 64

func TestParse(t *testing.T) {
	for _, c := range []struct {
		text   string
		v      float64
		d      Dim
		source string
	}{
		{`5"`, 5 * 25.4e6, DimLength, "inch = 25.4 mm, international yard and pound agreement 1959"},
		{`1/64"`, in64, DimLength, "by hand: 25.4 mm / 64 = 0.396875 mm"},
		{`5 1/2"`, 11 * 12.7e6, DimLength, "trade: mixed number"},
		{`5-1/2"`, 11 * 12.7e6, DimLength, "trade: mixed number with a dash"},
		{`5½"`, 11 * 12.7e6, DimLength, "fraction sign"},
		{`5 ½″`, 11 * 12.7e6, DimLength, "fraction sign and double prime"},
		{`5-⅝”`, 45 * 8 * in64, DimLength, "by hand: 5 5/8 = 45/8"},
		{`½ inch`, 12.7e6, DimLength, "by hand"},
		{`3⁄4"`, 19.05e6, DimLength, "fraction slash"},
		{`.5"`, 12.7e6, DimLength, "by hand"},
		{`0.1"`, 2.54e6, DimLength, "by hand; 0.1 itself is no float64"},
		{`9/8"`, 72 * in64, DimLength, "by hand"},
		{`  33   13/16"  `, 33*25.4e6 + 52*in64, DimLength, "blanks"},
		{`6'`, 72 * 25.4e6, DimLength, "12 in = 1 ft"},
		{`6 ft`, 72 * 25.4e6, DimLength, "12 in = 1 ft"},
		{`1 1/2'`, 18 * 25.4e6, DimLength, "by hand"},
		{`1' 6 3/8"`, 18*25.4e6 + 24*in64, DimLength, "by hand: 18 3/8"},
		{`6'-2 1/2"`, 74.5 * 25.4e6, DimLength, "trade: feet, dash, inches"},
		{`6'-2-1/2"`, 74.5 * 25.4e6, DimLength, "trade"},
		{`6’2”`, 74 * 25.4e6, DimLength, "typographic marks"},
		{`6 feet 0.5 inch`, 72.5 * 25.4e6, DimLength, "by hand"},
		{`140 mm`, 140e6, DimLength, "SI"},
		{`14cm`, 140e6, DimLength, "SI"},
		{`2 m`, 2e9, DimLength, "SI"},
		{`0.000001 mm`, 1, DimLength, "SI: 1 nm"},
		{`-3 1/4"`, -3.25 * 25.4e6, DimLength, "by hand"},
		{`− 5 mm`, -5e6, DimLength, "minus sign U+2212"},
		{`20°`, 20e9, DimAngle, ""},
		{`22.5 deg`, 22.5e9, DimAngle, ""},
		{`7 1/2°`, 7.5e9, DimAngle, ""},
		{`12 in 12`, 45e9, DimAngle, "atan 1 = 45°"},
		{`3 in 12`, 14_036_243_468, DimAngle, "roof framing tables: 3 in 12 is 14.04°; digits from bc: 14.0362434679…"},
		{`4 1/2 in 12`, 20_556_045_220, DimAngle, "framing tables: 4 1/2 in 12 is 20.56°; bc: 20.5560452195…"},
		{`45 lb`, 20.41165665, DimMass, "lb = 0.45359237 kg, agreement of 1959"},
		{`12 kg`, 12, DimMass, "SI"},
		{`1 lbf`, 4.4482216152605, DimForce, "0.45359237 × 9.80665 (NIST SP 811, B.8)"},
		{`900 N`, 900, DimForce, "SI"},
		{`2 kPa`, 2e-15, DimPressure, "1 N/m² = 1e-18 N/nm²"},
		{`$6.50`, 650, DimMoney, ""},
		{`$ 12`, 1200, DimMoney, ""},
		{`10%`, 0.1, DimNone, ""},
		{`7 %`, 0.07, DimNone, "correctly rounded, unlike 7 × 0.01"},
		{`12`, 12, DimNone, ""},
		{`010`, 10, DimNone, "raw text: no octal"},
		{`2.50`, 2.5, DimNone, ""},
		{`1/3`, 1.0 / 3, DimNone, ""},
		{`2 1/2`, 2.5, DimNone, ""},
		{`12 sq ft`, 12 * 304.8e6 * 304.8e6, DimArea, ""},
		{`0`, 0, DimNone, ""},
	} {
		got, err := Parse(c.text)
		if err != nil {
			t.Errorf("Parse(%q): %v", c.text, err)
		} else if got != (Quantity{c.v, c.d}) {
			t.Errorf("Parse(%q) = %v %v, want %v %v (%s)", c.text, got.V, got.D, c.v, c.d, c.source)
		}
	}
}

// Loads come out in the newtons and millimetres of published conversion tables.
func TestLoadsAgainstTables(t *testing.T) {
	const nm2 = 1e18 // nm² in a m²
	for _, c := range []struct {
		text      string
		want      float64 // Pa or N/m
		per       float64
		tolerance float64
		source    string
	}{
		{"40 psf", 1915, nm2, 0.5, "NIST SP 811, B.8: 1 lbf/ft² = 4.788026e1 Pa; 40 give 1915.2"},
		{"1 psf", 47.88026, nm2, 5e-6, "NIST SP 811, B.8"},
		{"1 plf", 14.59390, 1e9, 5e-6, "NIST SP 811, B.8: lbf/ft to N/m"},
	} {
		q, err := Parse(c.text)
		if err != nil || math.Abs(q.V*c.per-c.want) > c.tolerance {
			t.Errorf("%s = %v (%v), want %v: %s", c.text, q.V*c.per, err, c.want, c.source)
		}
	}
}

// ScanNumber takes the literal and leaves the operator and the name after it.
func TestScanNumberStops(t *testing.T) {
	for _, c := range []struct{ text, literal string }{
		{`5 - 1/2"`, `5`},
		{`5 -1/2"`, `5`},
		{`5- 1/2"`, `5`},
		{`1/2-1/4"`, `1/2`},
		{`5 in from rail.left`, `5`},
		{`5" in from rail.left`, `5"`},
		{`5 in front of middle`, `5`},
		{`2 * length`, `2`},
		{`3/16") / 2`, `3/16"`},
		{`2 above floor`, `2`},
		{`6'-2*n`, `6'`},
		{`6' - 2"`, `6'`},
		{`6'-1/2*n`, `6'`},
		{`6' + 2"`, `6'`},
		{`10 ft * 2`, `10 ft`},
		{`12 / 3/4"`, `12`},
		{`3 / 12`, `3`},
		{`2; 3`, `2`},
		{`90 degrees toward back`, `90 degrees`},
		{`5.length`, `5`},
		{`2 sq tables`, `2`},
		{`8 x 2 1/2`, `8`},
		{`length`, ``},
		{`.length`, ``},
		{``, ``},
	} {
		_, n, err := ScanNumber(c.text)
		if err != nil || c.text[:n] != c.literal {
			t.Errorf("ScanNumber(%q) takes %q (%v), want %q", c.text, c.text[:n], err, c.literal)
		}
	}
}

// Every refusal marks the bytes at fault and says how to write it.
func TestRefusals(t *testing.T) {
	for _, c := range []struct{ text, marked, what, mend string }{
		{`5 in`, `5 in`, `in is no unit`, `write 5" or 5 inch`},
		{`5in from x`, `5in`, `in is no unit`, `write 5" or 5 inch`},
		{`5 1/2 in above floor`, `5 1/2 in`, `in is no unit`, `write 5 1/2" or 5 1/2 inch`},
		{`3 in 12"`, `3 in 12"`, `a slope is written with two bare numbers`, `write 3 in 12,`},
		{`3 in 0`, `3 in 0`, `cannot rise in a run of zero`, `90°`},
		{`5-1/2`, `5-1/2`, `may be a mixed number or a subtraction`, `write 5 1/2 for the mixed number, 5 - 1/2 for the subtraction`},
		{`6'-1/2"`, `6'-1/2"`, `may be feet and inches or a subtraction`, `write 6' 1/2" for the sum`},
		{`6' 2`, `6' 2`, `the number after feet needs an inch mark`, `write 6' 2"`},
		{`6' 2 mm`, `6' 2 mm`, `the number after feet needs an inch mark`, `write 6' 2"`},
		{`6' 14"`, `14"`, `after feet there are fewer than 12 inches`, `carry the feet over`},
		{`6 1/2' 3"`, `6 1/2' 3"`, `feet that are followed by inches must be whole`, `inches`},
		{`1 3/2"`, `3/2`, `the fraction 3/2 of a mixed number is not below one`, `carry the whole`},
		{`1/0"`, `1/0`, `divides by zero`, `denominator`},
		{`1,5"`, `1,5`, `a comma cannot stand in a number`, `decimal point`},
		{`$1,200`, `1,200`, `a comma cannot stand in a number`, `nothing between thousands`},
		{`1.2.3`, `1.2.3`, `one decimal point`, `1.2`},
		{`1_000`, `1_000`, `not parted by _`, `together`},
		{`1e3`, `1e3`, `no number a tape shows`, `digits`},
		{`0x10`, `0x10`, `no number a tape shows`, `digits`},
		{`5furlongs`, `furlongs`, `“furlongs” is no unit`, `mm`},
		{`5 furlongs`, `furlongs`, `“furlongs” cannot follow “5”`, `nothing after it`},
		{`$6.505`, `$6.505`, `a price goes to the cent`, `two digits`},
		{`$1/2`, `$1/2`, `a price goes to the cent`, `two digits`},
		{`$`, `$`, `a number must follow the dollar sign`, `$6.50`},
		{`12:30`, `:30`, `“:30” cannot follow “12”`, `nothing after it`},
		{`~`, `~`, `“~” is not a measure`, `140 mm`},
		{`No`, `No`, `“No” is not a measure`, `140 mm`},
		{``, ``, `“” is not a measure`, `140 mm`},
		{strings.Repeat("1", 41), strings.Repeat("1", 41), "more digits than any measure needs", "round it"},
	} {
		_, err := Parse(c.text)
		if err == nil {
			t.Errorf("Parse(%q) is not refused", c.text)
			continue
		}
		if got := c.text[err.Start:err.End]; got != c.marked {
			t.Errorf("Parse(%q) marks %q, want %q", c.text, got, c.marked)
		}
		if !strings.Contains(err.What, c.what) || !strings.Contains(err.Mend, c.mend) {
			t.Errorf("Parse(%q): %v; want %q and %q", c.text, err, c.what, c.mend)
		}
	}
}

// A literal scans alike alone and with text after it.
func TestScanIgnoresWhatFollows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.SampledFrom([]string{`5"`, `5 1/2"`, `5½"`, `6'-2 1/2"`, `140 mm`, `20°`, `3 in 12`, `$6.50`, `10%`, `45 lb`, `7`}).Draw(t, "literal")
		rest := rapid.SampledFrom([]string{"", ")", " + x", " * 2", "; 3", " above floor", " - 1/4\"", "\n"}).Draw(t, "rest")
		want, err := Parse(text)
		if err != nil {
			t.Fatal(err)
		}
		if got, n, err := ScanNumber(text + rest); err != nil || n != len(text) || got != want {
			t.Fatalf("ScanNumber(%q) = %v, %d, %v", text+rest, got, n, err)
		}
	})
}

func FuzzScanNumber(f *testing.F) {
	for _, s := range []string{`5-1/2"`, `6'-2 1/2"`, `1' 6 3/8"`, `5½"`, `3 in 12`, `$6.50`, `5 in`, `6' -`, `1/`, `.5.`, `½½`, `2 sq`, "5\xff", `9999999999999999999'`} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		q, n, err := ScanNumber(s)
		switch {
		case err != nil:
			if n != 0 || err.Start < 0 || err.End < err.Start || err.End > len(s) || err.What == "" || err.Mend == "" {
				t.Fatalf("ScanNumber(%q): bad error %+v", s, err)
			}
		case n == 0:
			if StartsNumber(s) {
				t.Fatalf("ScanNumber(%q) takes nothing", s)
			}
		default:
			if n > len(s) || !q.Finite() || q.V < 0 || !q.D.Named() {
				t.Fatalf("ScanNumber(%q) = %v, %d", s, q, n)
			}
			if again, m, err := ScanNumber(s[:n]); err != nil || m != n || again != q {
				t.Fatalf("ScanNumber(%q) = %v, %d, %v, but %v with more behind it", s[:n], again, m, err, q)
			}
			if b := q.Rounded(); math.Abs(b.V) < 1<<50 && (q.D == DimLength || q.D == DimAngle || q.D == DimMoney || q.D == DimNone) {
				if back, err := Parse(b.Exact(Imperial)); err != nil || back != b {
					t.Fatalf("%q reads as %v, prints as %q, reads back as %v, %v", s, b, b.Exact(Imperial), back, err)
				}
			}
		}
	})
}
