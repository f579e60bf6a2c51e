package timber

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestStability(t *testing.T) {
	for _, c := range []struct {
		source    string
		got, want float64
		within    float64
	}{
		{"AWC E1.2a: 3.5 x 15.25, le 375 in, RB", second(stabilityAt(Section{3.5, 15.25}, 690000, 1500, 375)), 21.6, 0.05},
		{"AWC E1.2a: CL", first(stabilityAt(Section{3.5, 15.25}, 690000, 1500, 375)), 0.876, 0.0008},
		{"glulam example 6.6: 6.75 x 30, le 481.2 in, RB", second(stabilityAt(Section{6.75, 30}, 690000, 2400, 481.2)), 17.80, 0.005},
		{"AWC E1.6: hem-fir No. 2 2x8, 12 ft, even load, CD 1.6", first(stabilityAt(Section{1.5, 7.25}, 470000, 1632, 1.63*144+3*7.25)), 0.4044, 0.0006},
		{"AWC E1.6: CD 1.25", first(stabilityAt(Section{1.5, 7.25}, 470000, 1275, 1.63*144+3*7.25)), 0.5089, 0.0006},
		{"AWC E1.6: CD 0.9", first(stabilityAt(Section{1.5, 7.25}, 470000, 918, 1.63*144+3*7.25)), 0.6738, 0.0006},
		{"HUD Residential Structural Design Guide 5.6: SPF No. 2 4x4, 7.3 ft, CP", first(ColumnStability(87.6, 3.5, 510000, 1150*1.15)), 0.438, 0.0006},
		{"AWC E1.7: 2x6 stud, 9 ft, CD 1.6, CP", first(ColumnStability(108, 5.5, 580000, 1550*1.6)), 0.432, 0.02},
		{"a section laid flat does not roll over", first(BeamStability(Section{5.5, 1.5}, 1, 1, 100)), 1, 0},
		{"past le/d 50 nothing is allowed", first(ColumnStability(51, 1, 1, 1)), 0, 0},
	} {
		if math.Abs(c.got-c.want) > c.within {
			t.Errorf("%s: %.4f, want %v", c.source, c.got, c.want)
		}
	}
}

func first(a, _ float64) float64  { return a }
func second(_, b float64) float64 { return b }

func TestReferenceValues(t *testing.T) {
	for _, c := range []struct {
		group, grade string
		wide         float64
		fb, e        float64 // psi
		source       string
	}{
		{"Southern Pine", "No. 2", 3.5, 1100, 1.4e6, "NDS Supplement 2018, table 4B"},
		{"Southern Pine", "No. 2", 5.5, 1000, 1.4e6, "table 4B"},
		{"Southern Pine", "no.2", 11.25, 750, 1.4e6, "table 4B"},
		{"Spruce-Pine-Fir", "No. 2", 5.5, 875, 1.4e6, "table 4A, No.1/No.2"},
		{"Southern Pine", "Stud", 3.5, 650, 1.3e6, "table 4B, No.3 and Stud"},
		{"Douglas Fir-Larch", "No. 1 & Btr", 7.25, 1200, 1.8e6, "table 4A"},
	} {
		r, err := Lookup(c.group, c.grade, c.wide*inch)
		if err != nil || math.Abs(r.Fb/psi-c.fb) > 1e-9 || math.Abs(r.E/psi-c.e) > 1e-6 {
			t.Errorf("%s %s: Fb %v psi, E %v psi, %v; want %v, %v (%s)", c.group, c.grade, r.Fb/psi, r.E/psi, err, c.fb, c.e, c.source)
		}
	}
	var unknown *GradeError
	if _, err := Lookup("Southern Pine", "No. 7", 89); !errors.As(err, &unknown) || len(unknown.Known) < 5 {
		t.Errorf("No. 7: %v", err)
	}
	if _, err := Lookup("Ipe", "No. 2", 89); !errors.As(err, &unknown) || unknown.Known != nil {
		t.Errorf("ipe: %v", err)
	}
	if _, err := Lookup("Southern Pine", "No. 2", 400); err == nil {
		t.Error("southern pine 16 in wide has no row, and got one")
	}
}

// Adjusted values worked elsewhere.
func TestAdjusted(t *testing.T) {
	hf, err := Lookup("Hem-Fir", "No. 1", 7.25*inch)
	if err != nil {
		t.Fatal(err)
	}
	sp, err := Lookup("Southern Pine", "No. 2", 5.5*inch)
	if err != nil {
		t.Fatal(err)
	}
	cedar, err := Lookup("Western Cedars", "No. 2", 5.5*inch)
	if err != nil {
		t.Fatal(err)
	}
	edge, flat := Section{1.5 * inch, 7.25 * inch}, Section{5.5 * inch, 1 * inch}
	wet := Conditions{Duration: TenYears, Wet: true}
	for _, c := range []struct {
		source    string
		got, want float64
	}{
		{"HUD RSDG 5.1: hem-fir No. 1 2x8, repetitive, 975·1.2·1.15 (printed 1345)", hf.Bending(edge, Conditions{Duration: TenYears, Shared: true}).Adjusted() / psi, 975 * 1.2 * 1.15},
		{"wet: no CM where Fb·CF ≤ 1150 psi", sp.Bending(edge, wet).Adjusted() / psi, 1000},
		{"wet: CM 0.85 above it", hf.Bending(edge, wet).Adjusted() / psi, 975 * 1.2 * 0.85},
		{"flat use of a 6-wide, size 1.3", cedar.Bending(flat, wet).Adjusted() / psi, 700 * 1.3 * 1.15},
		{"wet shear", sp.Shear(wet).Adjusted() / psi, 175 * 0.97},
		{"bearing 1 1/2 in away from the end, wet", sp.Bearing(wet, 1.5*inch, 100).Adjusted() / psi, 565 * 0.67 * 1.25},
		{"bearing at the end", sp.Bearing(wet, 1.5*inch, 0).Adjusted() / psi, 565 * 0.67},
		{"impact on treated wood is capped", sp.Shear(Conditions{Duration: Impact, Treated: true}).Adjusted() / psi, 175 * 1.6},
		{"notch: a quarter out of 5 1/2", sp.Notched(Section{38.1, 139.7}, 139.7*0.75, 1, Conditions{Duration: TenYears}).Use,
			1 / (2.0 / 3 * 175 * psi * 38.1 * 139.7 * 0.75 * 0.75 * 0.75)},
	} {
		if math.Abs(c.got/c.want-1) > 1e-9 {
			t.Errorf("%s: %v, want %v", c.source, c.got, c.want)
		}
	}
}

// More load is never less use, and a member in pure tension or bending uses just
// stress over value.
func TestUseGrows(t *testing.T) {
	ref, err := Lookup("Southern Pine", "No. 2", 88.9)
	if err != nil {
		t.Fatal(err)
	}
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
		m := Member{Reference: ref, Conditions: Conditions{Duration: TenYears, Wet: true}, Strong: Section{38.1, 88.9},
			Unbraced: draw("lu", 0, 1500), BuckleStrong: draw("le1", 0, 1500), BuckleWeak: draw("le2", 0, 1500)}
		d := Demand{draw("axial", -2000, 2000), draw("strong", 0, 2e5), draw("weak", 0, 1e5), draw("vs", 0, 900), draw("vw", 0, 900)}
		l := m.Limits()
		less, _ := Least(l.Check(d))
		k := draw("k", 1, 2)
		more, _ := Least(l.Check(Demand{d.Axial * k, d.MomentStrong * k, d.MomentWeak * k, d.ShearStrong * k, d.ShearWeak * k}))
		// Past the buckling load the denominators turn; only up to there is the rule a rule.
		if less.Use < 1 && more.Use < less.Use*(1-1e-9) {
			t.Fatalf("%v times the load: use %v after %v (%s)", k, more.Use, less.Use, more.Name)
		}
	})
	m := Member{Reference: ref, Strong: Section{38.1, 88.9}, Conditions: Conditions{Duration: TenYears}}
	l := m.Limits()
	if c := l.Check(Demand{MomentWeak: 1e5})[0]; math.Abs(c.Use-1e5/(88.9*38.1*38.1/6)/(1100*1.1*psi)) > 1e-12 {
		t.Errorf("flat bending alone uses %v", c.Use)
	}
}
