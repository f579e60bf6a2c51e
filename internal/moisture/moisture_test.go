package moisture

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"scantling/internal/wood"
)

// Wood Handbook, FPL-GTR-190 (2010), table 4-2: °F, then 5 to 95 % humidity.
var table = []struct {
	fahrenheit float64
	moisture   []float64
}{
	{30, []float64{1.4, 2.6, 3.7, 4.6, 5.5, 6.3, 7.1, 7.9, 8.7, 9.5, 10.4, 11.3, 12.4, 13.5, 14.9, 16.5, 18.5, 21.0, 24.3}},
	{40, []float64{1.4, 2.6, 3.7, 4.6, 5.5, 6.3, 7.1, 7.9, 8.7, 9.5, 10.4, 11.3, 12.3, 13.5, 14.9, 16.5, 18.5, 21.0, 24.3}},
	{50, []float64{1.4, 2.6, 3.6, 4.6, 5.5, 6.3, 7.1, 7.9, 8.7, 9.5, 10.3, 11.2, 12.3, 13.4, 14.8, 16.4, 18.4, 20.9, 24.3}},
	{60, []float64{1.3, 2.5, 3.6, 4.6, 5.4, 6.2, 7.0, 7.8, 8.6, 9.4, 10.2, 11.1, 12.1, 13.3, 14.6, 16.2, 18.2, 20.7, 24.1}},
	{70, []float64{1.3, 2.5, 3.5, 4.5, 5.4, 6.2, 6.9, 7.7, 8.5, 9.2, 10.1, 11.0, 12.0, 13.1, 14.4, 16.0, 17.9, 20.5, 23.9}},
	{80, []float64{1.3, 2.4, 3.5, 4.4, 5.3, 6.1, 6.8, 7.6, 8.3, 9.1, 9.9, 10.8, 11.7, 12.9, 14.2, 15.7, 17.7, 20.2, 23.6}},
	{90, []float64{1.2, 2.3, 3.4, 4.3, 5.1, 5.9, 6.7, 7.4, 8.1, 8.9, 9.7, 10.5, 11.5, 12.6, 13.9, 15.4, 17.3, 19.8, 23.3}},
	{100, []float64{1.2, 2.3, 3.3, 4.2, 5.0, 5.8, 6.5, 7.2, 7.9, 8.7, 9.5, 10.3, 11.2, 12.3, 13.6, 15.1, 17.0, 19.5, 22.9}},
	{110, []float64{1.1, 2.2, 3.2, 4.0, 4.9, 5.6, 6.3, 7.0, 7.7, 8.4, 9.2, 10.0, 11.0, 12.0, 13.2, 14.7, 16.6, 19.1, 22.4}},
	{120, []float64{1.1, 2.1, 3.0, 3.9, 4.7, 5.4, 6.1, 6.8, 7.5, 8.2, 8.9, 9.7, 10.6, 11.7, 12.9, 14.4, 16.2, 18.6, 22.0}},
}

func TestEquilibriumTable(t *testing.T) {
	cells := 0
	for _, row := range table {
		for i, want := range row.moisture {
			cells++
			// Printed to a tenth; the equation itself strays 0.055 from it at worst.
			if got := Equilibrium((row.fahrenheit-32)/1.8, float64(i+1)*0.05); math.Abs(got-want) > 0.1 {
				t.Errorf("%v °F, %d %%: %.3f, want %v", row.fahrenheit, (i+1)*5, got, want)
			}
		}
	}
	if cells != 190 {
		t.Errorf("%d cells of the table, want 190", cells)
	}
	if got := Equilibrium(20, 0.5); math.Abs(got-9.271) > 0.0005 {
		t.Errorf("20 °C, 50 %%: %.4f, want 9.271 (the equation worked by hand)", got)
	}
}

func TestShrinkageExamples(t *testing.T) {
	w19, t19 := Construction(19)
	w12, t12 := Construction(12)
	w9 := 6.031/100 - 0.215*9/100
	for _, c := range []struct {
		source            string
		got, want, within float64
	}{
		{"Missouri S&T CE 5260, problem 4.34: 13.25 in, 19 to 10 %, 0.2 % a point, in", -Small(13.25, 0.002, 19, 10), 0.2385, 1e-9},
		{"FPL-RP-489 on it: 12.99 in", 13.25 * (1 - (6.031-0.215*10)/100) / (1 - w19), 12.9885, 5e-4},
		{"FPL-RP-489, 19 to 12 %: 3 1/2 in", 3.5 * (w12 - w19), 0.053, 5e-4},
		{"5 1/2 in", 5.5 * (w12 - w19), 0.083, 5e-4},
		{"7 1/4 in", 7.25 * (w12 - w19), 0.109, 5e-4},
		{"from green to 12 %, 5 1/2 in", 5.5 * w12, 0.190, 5e-4},
		{"a bolt's 3 in stack, 19 to 12 %", 3 * (t12 - t19), 0.038, 5e-4},
		{"the same from green", 3 * t12, 0.087, 5e-4},
		{"valid down to 8 %", w9, 0.04096, 5e-5},
	} {
		if math.Abs(c.got-c.want) > c.within {
			t.Errorf("%s: %.4f, want %v", c.source, c.got, c.want)
		}
	}
	pine, err := wood.Lookup("southern pine")
	if err != nil {
		t.Fatal(err)
	}
	// Flat-sawn, 28 to 14 %, S_T of the group: 5.5·S·14/30 of the green size.
	got := -Between(pine, 28, 14).Most * 5.5
	want := 5.5 * (1 - (1-pine.Tangential/100*16/30)/(1-pine.Tangential/100*2/30))
	if math.Abs(got-want) > 1e-12 || math.Abs(got-0.190) > 0.012 {
		t.Errorf("5 1/2 in southern pine, 28 to 14 %%: %.4f in, want %.4f, about 0.190 (Wood Handbook, equation 4-7)", got, want)
	}
}

func TestMovement(t *testing.T) {
	cedar, err := wood.Lookup("western red cedar")
	if err != nil {
		t.Fatal(err)
	}
	rapid.Check(t, func(t *rapid.T) {
		from, to := rapid.Float64Range(4, 40).Draw(t, "from"), rapid.Float64Range(4, 40).Draw(t, "to")
		r, back := Between(cedar, from, to), Between(cedar, to, from)
		if math.Abs((1+r.Most)*(1+back.Most)-1) > 1e-12 {
			t.Fatalf("there and back is not where it was: %v, %v", r, back)
		}
		if to < from && (r.Most > r.Least || r.Least > 0) || to > from && (r.Most < r.Least || r.Least < 0) {
			t.Fatalf("from %v to %v: %+v", from, to, r)
		}
		h := rapid.Float64Range(0.05, 0.9).Draw(t, "humidity")
		c := rapid.Float64Range(-1, 49).Draw(t, "celsius")
		if Equilibrium(c, h+0.05) <= Equilibrium(c, h) || Equilibrium(c+1, h) > Equilibrium(c, h)+0.02 {
			t.Fatalf("at %v °C, %v: damper air must make wetter wood, warmer not", c, h)
		}
	})
	for _, c := range climates {
		dry, wet, d, w := c.Extremes()
		if dry != c.Months[d] || wet != c.Months[w] || dry > wet {
			t.Errorf("%s: driest %v in month %d, wettest %v in %d", c.Name, dry, d, wet, w)
		}
	}
	if Of("").Name != "outdoors temperate" || Of("outdoors wet").Months[11] != 17.4 {
		t.Error("climates are looked up by the design's words")
	}
}
