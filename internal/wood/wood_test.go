package wood

import (
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestEveryWoodIsSourcedAndFindsItself(t *testing.T) {
	for _, w := range Woods() {
		for _, s := range []interface{ OK() bool }{w.From.Shrinkage, w.From.PerPoint, w.From.Gravity, w.From.Decay, w.From.Design} {
			if !s.OK() {
				t.Errorf("%s: a figure has no source: %+v", w.Name, w.From)
			}
		}
		got, err := Lookup(w.Name)
		if err != nil || got.Name != w.Name {
			t.Errorf("%s does not find itself: %v", w.Name, err)
		}
		if strings.ContainsAny(w.Name, ":,{}[]#") {
			t.Errorf("%q cannot be written plainly in a design", w.Name)
		}
		if w.Radial <= 0 || w.Tangential <= w.Radial || w.Volumetric < w.Tangential {
			t.Errorf("%s: shrinkage %v radial, %v tangential, %v volumetric", w.Name, w.Radial, w.Tangential, w.Volumetric)
		}
		if w.GreenGravity > w.DryGravity || w.GreenStiffness > w.DryStiffness || w.Decay == 0 {
			t.Errorf("%s: %+v", w.Name, w)
		}
		for _, m := range w.Members {
			if one, err := Lookup(m); err != nil || one.Members != nil {
				t.Errorf("%s has a member %q: %v", w.Name, m, err)
			}
		}
	}
}

func TestDensity(t *testing.T) {
	for _, c := range []struct {
		wood            string
		moisture        float64
		want, tolerance float64 // kg/m³
		source          string
	}{
		{"loblolly pine", 12, 571, 0.5, "by hand: 1000·0.51·1.12"},
		{"loblolly pine", 30, 611, 0.5, "by hand: 1000·0.47·1.30"},
		{"loblolly pine", 80, 846, 0.5, "by hand: green volume, 1000·0.47·1.80"},
		{"western red cedar", 12, 358, 0.5, "by hand: 1000·0.32·1.12; handbooks give 23 lb/ft³ (368)"},
		{"southern pine", 12, 581.5, 0.5, "by hand: 1000/(1/0.55 + 0.108)·1.12"},
		{"southern pine", 19, 598.2, 0.5, "by hand: 1000/(1/0.55 + 0.171)·1.19"},
		{"white oak", 12, 762, 0.5, "by hand: 1000·0.68·1.12"},
	} {
		w, err := Lookup(c.wood)
		if err != nil {
			t.Fatal(err)
		}
		if got := w.DensityKgM3(c.moisture); math.Abs(got-c.want) > c.tolerance {
			t.Errorf("%s at %v %%: %.1f kg/m³, want %.1f (%s)", c.wood, c.moisture, got, c.want, c.source)
		}
	}
}

// The two gravities of a species agree through its shrinkage: the volume swells
// from 12 % to green by 18/30 of what it shrinks in all, within what rounding
// gravities to 0.01 and averaging many trees leaves. ASTM D2395 puts the same
// thing as G = Gb/(1 − 0.265·a·Gb), a = (30 − M)/30, for an average wood.
func TestGravitiesAgreeWithShrinkage(t *testing.T) {
	for _, w := range Woods() {
		if w.Members != nil {
			continue
		}
		average := w.GreenGravity / (1 - 0.265*18/30*w.GreenGravity)
		own := w.GreenGravity / (1 - w.Volumetric/100*18/30)
		if d := w.DryGravity; math.Abs(d-average)/d > 0.08 || math.Abs(d-own)/d > 0.09 {
			t.Errorf("%s: 12 %% gravity %.2f; %.3f by the average wood, %.3f by its own shrinkage", w.Name, d, average, own)
		}
	}
}

func TestGroupsAnswerForTheirWorst(t *testing.T) {
	w, err := Lookup("southern pine")
	if err != nil {
		t.Fatal(err)
	}
	if w.DesignGravity != 0.55 || w.DesignGroup != "Southern Pine" {
		t.Errorf("NDS 2018, table 12.3.3A gives 0.55: %+v", w)
	}
	if w.Tangential != 7.7 || w.Radial != 5.4 || w.Decay != Slight {
		t.Errorf("greatest shrinkage 7.7 (shortleaf) and 5.4 (slash), least decay class slight: %+v", w)
	}
	heavier := w.DensityKgM3(19) > w.DensityKgM3(12)
	if !heavier {
		t.Error("wetter wood is heavier")
	}
}

func TestLookup(t *testing.T) {
	for _, c := range []struct{ asked, name string }{
		{"Southern Pine", "southern pine"}, {"southern yellow pine", "southern pine"}, {"southern pine: loblolly", "loblolly pine"},
		{"western redcedar", "western red cedar"}, {"Western Red Cedar", "western red cedar"}, {"Douglas-fir", "douglas fir-larch"},
		{"SPF", "spruce-pine-fir"}, {"cypress", "baldcypress"}, {"redwood, young growth", "young growth redwood"},
	} {
		w, err := Lookup(c.asked)
		if err != nil || w.Name != c.name {
			t.Errorf("%q: %q, %v; want %q", c.asked, w.Name, err, c.name)
		}
	}
	for _, c := range []struct{ asked, want string }{
		{"cedar", `wood "cedar" may be any of: western red cedar, northern white cedar. Say which`},
		{"redwood", `wood "redwood" may be any of: old growth redwood, young growth redwood. Say which`},
		{"oak", `wood "oak" says too little; of that name white oak is known here`},
		{"sothern pine", `"sothern pine" is no wood known here; did you mean southern pine?`},
		{"granite", `"granite" is no wood known here; did you mean southern pine or douglas fir-larch or hem-fir or spruce-pine-fir?`},
	} {
		if _, err := Lookup(c.asked); err == nil || err.Error() != c.want {
			t.Errorf("%q:\n got %v\nwant %s", c.asked, err, c.want)
		}
	}
	if _, err := Lookup("pine"); err == nil {
		t.Error("pine fits many woods")
	}
}

func TestDensityGrowsWithMoisture(t *testing.T) {
	all := Woods()
	rapid.Check(t, func(t *rapid.T) {
		w := rapid.SampledFrom(all).Draw(t, "wood")
		m := rapid.Float64Range(0, 100).Draw(t, "moisture")
		if w.DensityKgM3(m+1) <= w.DensityKgM3(m) {
			t.Fatalf("%s is no heavier at %v %%", w.Name, m+1)
		}
	})
}

func FuzzLookup(f *testing.F) {
	for _, s := range []string{"cedar", "southern pine: loblolly", "", "\x80"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, name string) {
		w, err := Lookup(name)
		if (err == nil) == (w.Name == "") {
			t.Errorf("%q: %q, %v", name, w.Name, err)
		}
		if e, ok := err.(*NameError); ok && len(e.Candidates)+len(e.Nearest) == 0 {
			t.Errorf("%q: no names to choose from", name)
		} else if ok && slices.Contains(e.Candidates, "") {
			t.Errorf("%q: %+v", name, e)
		}
	})
}
