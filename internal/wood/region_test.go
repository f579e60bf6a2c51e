package wood

import (
	"math"
	"strings"
	"testing"

	"scantling/internal/cite"
	"scantling/internal/region"
)

func TestNamesOfRegions(t *testing.T) {
	for _, c := range []struct {
		region region.Region
		asked  string
		want   string
		source string
	}{
		{region.Europe, "redwood", "scots pine", "common practice"},
		{region.Europe, "Whitewood", "norway spruce", "common practice"},
		{region.Europe, "larch", "european larch", "common practice"},
		{region.Europe, "Douglas fir", "douglas fir-larch", "common practice"},
		{region.Europe, "teak", "teak", "the same everywhere"},
		{region.Australasia, "treated pine", "radiata pine", "common practice"},
		{region.Australasia, "oregon", "douglas fir-larch", "memory"},
		{region.America, "scots pine", "scots pine", "by its whole name"},
		{region.America, "southern pine", "southern pine", ""},
	} {
		w, err := LookupIn(c.region, c.asked)
		if err != nil || w.Name != c.want {
			t.Errorf("%q in %v is %q, %v; want %s (%s)", c.asked, c.region, w.Name, err, c.want, c.source)
		}
	}
	// The same word is another wood across the sea.
	if _, err := Lookup("redwood"); err == nil || !strings.Contains(err.Error(), "old growth redwood, young growth redwood") {
		t.Errorf("redwood in America: %v", err)
	}
	if w, _ := Lookup("scots pine"); w.NameIn(region.Europe) != "redwood" || w.NameIn(region.America) != "scots pine" {
		t.Errorf("scots pine is called %q and %q", w.NameIn(region.Europe), w.NameIn(region.America))
	}
}

func TestWoodsAbroad(t *testing.T) {
	for _, w := range append(WoodsIn(region.Europe), WoodsIn(region.Australasia)...) {
		for _, s := range []cite.Source{w.From.Shrinkage, w.From.PerPoint, w.From.Gravity, w.From.Decay, w.From.Design} {
			if !s.OK() || s.Basis == cite.Invented {
				t.Errorf("%s: a figure has no source: %+v", w.Name, w.From)
			}
		}
		if got, err := Lookup(w.Name); err != nil || got.Name != w.Name {
			t.Errorf("%s does not find itself: %v", w.Name, err)
		}
		if w.Radial <= 0 || w.Tangential <= w.Radial || w.Volumetric < w.Tangential || w.Decay == 0 {
			t.Errorf("%s: %+v", w.Name, w)
		}
	}
	for _, l := range abroad {
		if math.Abs(l.perRadial-l.radial/3000) > 6e-6 || math.Abs(l.perTangential-l.tangential/3000) > 6e-6 {
			t.Errorf("%s: %v and %v a point, want a thirtieth of %v and %v %%", l.name, l.perRadial, l.perTangential, l.radial, l.tangential)
		}
	}
	if n := len(WoodsIn(region.Europe)); n != 5 {
		t.Errorf("%d woods in Europe, want 5", n)
	}
	if n := len(WoodsIn(region.America)); n != len(Woods()) {
		t.Errorf("%d woods in America, want %d", n, len(Woods()))
	}
}

// Densities at 12 % as European handbooks give them (memory), from the
// gravities: 1000·0.455·1.12 and so on.
func TestDensityAbroad(t *testing.T) {
	for _, c := range []struct {
		wood string
		want float64
	}{{"scots pine", 510}, {"norway spruce", 455}, {"european larch", 590}, {"radiata pine", 505}} {
		w, err := Lookup(c.wood)
		if err != nil {
			t.Fatal(err)
		}
		if got := w.DensityKgM3(12); math.Abs(got-c.want) > 5 {
			t.Errorf("%s: %.0f kg/m³, want %.0f", c.wood, got, c.want)
		}
	}
}

func TestDurability(t *testing.T) {
	for _, c := range []struct {
		wood   string
		region region.Region
		want   string // "" for none
		source string
	}{
		{"scots pine", region.Europe, "EN 350 class 3 to 4 of 5", "EN 350:2016 (memory)"},
		{"norway spruce", region.Europe, "EN 350 class 4 of 5", "EN 350:2016 (memory)"},
		{"western red cedar", region.Australasia, "AS 5604 above ground class 2 of 4", "AS 5604 (memory)"},
		{"radiata pine", region.Australasia, "AS 5604 above ground class 4 of 4", "AS 5604 (memory)"},
		{"baldcypress", region.Europe, "", "not in the table"},
		{"western red cedar", region.America, "", "America speaks of groups, not classes"},
	} {
		w, err := Lookup(c.wood)
		if err != nil {
			t.Fatal(err)
		}
		d, ok := w.DurabilityIn(c.region)
		if ok != (c.want != "") || ok && d.String() != c.want {
			t.Errorf("%s in %v: %v, %v; want %q (%s)", c.wood, c.region, d, ok, c.want, c.source)
		}
	}
	for _, c := range classes {
		if w, err := Lookup(c.name); err != nil || w.Name != c.name || !c.From.OK() || c.Best > c.Worst || c.Worst > c.Of {
			t.Errorf("%s: %+v, %v", c.name, c.Durability, err)
		}
	}
}
