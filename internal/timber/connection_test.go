package timber

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"pgregory.net/rapid"
)

// rows reads a table of checked values by column name.
func rows(t *testing.T, file string) []map[string]string {
	t.Helper()
	f, err := os.Open("testdata/" + file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	all, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var out []map[string]string
	for _, line := range all[1:] {
		row := map[string]string{}
		for i, name := range all[0] {
			row[name] = line[i]
		}
		out = append(out, row)
	}
	return out
}

func number(t *testing.T, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// Tabulated lateral values, NDS 2018 tables 12A, 12F, 12L and 12N: 291 rows
// computed by two other programs, 54 with the table's printed integer.
func TestLateralTables(t *testing.T) {
	printed := 0
	for _, r := range rows(t, "lateral.csv") {
		d := number(t, r["D_in"]) * inch
		dowel := Dowel{Nominal: d, D: d, Yield: number(t, r["Fyb_psi"]) * psi}
		if r["Dr_in"] != "" {
			dowel.D = number(t, r["Dr_in"]) * inch
		}
		g := number(t, r["G_both"])
		main, side := [2]float64{0, 1}, [2]float64{0, 1} // sine and cosine of force to grain
		switch r["direction"] {
		case "Zs perp (side perp)":
			side = [2]float64{1, 0}
		case "Zm perp (main perp)":
			main = [2]float64{1, 0}
		case "Z perp":
			side, main = [2]float64{1, 0}, [2]float64{1, 0}
		}
		m := Layer{number(t, r["tm_or_p_in"]) * inch, DowelBearing(g, d, main[0], main[1]), main[0]}
		s := Layer{number(t, r["ts_in"]) * inch, DowelBearing(g, d, side[0], side[1]), side[0]}
		got := SingleShear(dowel, m, s)
		if r["kind"] == "bolt double shear" {
			got = DoubleShear(dowel, m, s)
		}
		if want := number(t, r["Z_computed_lbf"]); math.Abs(got.Force/lbf-want) > 0.051 || got.Mode != r["mode"] {
			t.Errorf("%s %s G %v, %s: %.2f lb by mode %s, want %.1f by %s", r["fastener"], r["kind"], g, r["direction"], got.Force/lbf, got.Mode, want, r["mode"])
		}
		if p := r["Z_table_memory_lbf"]; p != "" {
			// The tables print bolts to 10 lb.
			printed++
			if within := map[bool]float64{true: 5.1, false: 0.51}[d >= 0.25*inch]; math.Abs(got.Force/lbf-number(t, p)) > within {
				t.Errorf("%s G %v: %.2f lb, printed %s", r["fastener"], g, got.Force/lbf, p)
			}
		}
	}
	if printed < 50 {
		t.Errorf("only %d rows were held to a printed value", printed)
	}
}

func TestWithdrawalTables(t *testing.T) {
	by := map[string]func(g, d float64) float64{"smooth nail": NailWithdrawal, "wood screw": ScrewWithdrawal, "lag screw": LagWithdrawal}
	for _, r := range rows(t, "withdrawal.csv") {
		got := by[r["kind"]](number(t, r["G"]), number(t, r["D_in"])*inch) / lbf * inch
		if want := number(t, r["W_lbf_per_in_computed"]); math.Abs(got-want) > 0.0051 {
			t.Errorf("%s %s: %.3f lb/in, want %.2f (NDS 2018 tables 12.2A to C)", r["kind"], r["fastener"], got, want)
		}
	}
}

func TestWorkedConnections(t *testing.T) {
	for _, c := range []struct {
		name, source string
		d            Dowel
		main, side   Layer // in, psi
		modes        []float64
		mode         string
	}{
		{"10d common, 3/4 side, Douglas fir", "AWC Design Examples 2015/18, E2.2", Dowel{0.148, 0.148, 90000},
			Layer{2.102, 4650, 0}, Layer{0.75, 4650, 0}, []float64{657.5, 234.6, 219.3, 229.6, 105.3, 117.6}, "IIIs"},
		{"16d, 2x to 4x Douglas fir", "Breyer, Design of Wood Structures, example 12.3", Dowel{0.162, 0.162, 90000},
			Layer{2.0, 4650, 0}, Layer{1.5, 4650, 0}, []float64{684.8, 513.6, 252.5, 242.5, 190.0, 140.9}, "IV"},
		{"8d box, 12 ga steel", "Breyer, example 12.4", Dowel{0.113, 0.113, 100000},
			Layer{2.395, 5550, 0}, Layer{0.105, 61850, 0}, []float64{682.7, 333.6, 275.9, 281.9, 90.3, 107.0}, "IIIs"},
		{"10d, 1/2 in plywood, hem-fir", "Breyer, example 12.5", Dowel{0.148, 0.148, 90000},
			Layer{2.5, 3500, 0}, Layer{0.5, 4650, 0}, []float64{588.6, 156.4, 205.8, 214.3, 84.0, 109.0}, "IIIs"},
	} {
		c.d.Nominal, c.d.D, c.d.Yield = c.d.Nominal*inch, c.d.D*inch, c.d.Yield*psi
		for _, l := range []*Layer{&c.main, &c.side} {
			l.Length, l.Strength = l.Length*inch, l.Strength*psi
		}
		got := SingleShear(c.d, c.main, c.side)
		for i, m := range got.Modes {
			if math.Abs(m.Force/lbf-c.modes[i]) > 0.11 {
				t.Errorf("%s: mode %s %.2f lb, want %.1f (%s)", c.name, m.Name, m.Force/lbf, c.modes[i], c.source)
			}
		}
		if got.Mode != c.mode {
			t.Errorf("%s: mode %s, want %s", c.name, got.Mode, c.mode)
		}
	}
	pulls := []struct {
		source    string
		got, want float64
		within    float64
	}{
		{"AWC E2.1a: 8d in SPF, lb/in", NailWithdrawal(0.42, 0.131*inch) / lbf * inch, 20.67, 0.005},
		{"AWC E2.1a: 2.395 in of it, lb", NailWithdrawal(0.42, 0.131*inch) * 2.395 * inch / lbf, 49.5, 0.05},
		{"AWC E2.3: 1/2 lag in southern pine, N", LagWithdrawal(0.55, 0.5*inch) * 2.1875 * inch, 4247.94, 0.5},
		{"AWC Connection Calculator: 3/8 x 7 lag, Douglas fir, lb", LagWithdrawal(0.50, 0.375*inch) * (4 - 0.21875) * inch / lbf, 1153, 0.5},
		{"180000 D^1.5, 3/8 in, lb/in", BoltSlip(0.375*inch) / lbf * inch, 41335, 0.5},
		{"EN 1995-1-1 table 7.1, 9.525 mm, 500 kg/m³, N/mm", ScrewSlip(9.525, 500, true), 4630, 0.5},
	}
	for _, c := range pulls {
		if math.Abs(c.got-c.want) > c.within {
			t.Errorf("%s: %.3f, want %v", c.source, c.got, c.want)
		}
	}
}

// Group action, D 1, s 4, E 1.4 million psi, wood to wood. NDS table 11.3.6A's
// printed row for As = Am = 5 is 1.00 0.97 0.91 0.85 0.78 0.71 (from memory).
func TestGroupAction(t *testing.T) {
	for _, c := range []struct {
		d, s, main, side float64
		first            int
		want             []float64
	}{
		{1, 4, 5, 5, 2, []float64{1.000, 0.969, 0.915, 0.848, 0.776, 0.707}},
		{1, 4, 10, 5, 2, []float64{0.977, 0.916, 0.837, 0.754, 0.677, 0.608}},
		{0.375, 3, 5.25, 5.25, 2, []float64{1.000, 0.994, 0.984}},
		{0.2, 3, 5.25, 5.25, 2, []float64{1, 1}},
	} {
		for i, want := range c.want {
			area := inch * inch * 1.4e6 * psi
			got := GroupAction(c.first+i, c.d*inch, c.s*inch, c.main*area, c.side*area, BoltSlip(c.d*inch))
			if math.Abs(got.Value-want) > 0.0006 {
				t.Errorf("Cg of %d: %.4f, want %.3f", c.first+i, got.Value, want)
			}
		}
	}
}

// A joint never gets weaker from stronger wood, a thicker member or a stiffer
// dowel, and no mode is below the force given.
func TestLateralGrows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
		d := Dowel{Nominal: draw("d", 3, 12)}
		d.D, d.Yield = d.Nominal, draw("fyb", 300, 700)
		main, side := Layer{draw("lm", 20, 90), draw("fem", 15, 45), 0}, Layer{draw("ls", 15, 60), draw("fes", 15, 45), 0}
		z := SingleShear(d, main, side).Force
		if !(z > 0) {
			t.Fatalf("Z = %v", z)
		}
		grown := []Lateral{
			SingleShear(Dowel{d.Nominal, d.D, d.Yield * 1.1}, main, side),
			SingleShear(d, Layer{main.Length * 1.1, main.Strength, 0}, side),
			SingleShear(d, main, Layer{side.Length * 1.1, side.Strength, 0}),
		}
		for i, g := range grown {
			if g.Force < z*(1-1e-12) {
				t.Fatalf("case %d: %v N, was %v", i, g.Force, z)
			}
		}
		pull, shear := draw("pull", 0, 500), draw("shear", 0, 500)
		both := Both(pull, shear, 800, z, false)
		if lone := math.Max(pull/800, shear/z); both < lone/math.Sqrt2 {
			t.Fatalf("pulled and pushed at once %v, alone %v", both, lone)
		}
	})
}
