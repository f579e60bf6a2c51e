package lumber

import (
	"testing"

	"pgregory.net/rapid"

	"scantling/internal/cite"
	"scantling/internal/measure"
	"scantling/internal/region"
)

func TestMetricSizes(t *testing.T) {
	for _, c := range []struct {
		region      region.Region
		name        string
		thick, wide measure.Length // mm
		kind        Kind
		source      string
	}{
		{region.Europe, "45x95", 45, 95, Planed, "Nordic planed size (memory)"},
		{region.Europe, "45 × 145 mm", 45, 145, Planed, "spelling is free"},
		{region.Europe, "47x100 regularised", 45, 95, Regularised, "merchants' finished size (memory)"},
		{region.Europe, "47x100 sawn", 47, 100, Sawn, "EN 1313-1, customary sawn size (memory)"},
		{region.Europe, "22x150", 22, 150, Sawn, "only sold sawn"},
		{region.Europe, "38x89", 38, 89, CLS, "EN 1313-1, national annex (memory): 1 1/2 by 3 1/2 in to the nearest mm"},
		{region.Europe, "28x120", 28, 120, Decking, "Nordic decking (memory)"},
		{region.Australasia, "90x45", 45, 90, Framing, "Australian home press (read): 90 x 45 mm, width first"},
		{region.Australasia, "140 x 19", 19, 140, Decking, "Australian trade guidance (read)"},
		{region.America, "2x4", 0, 0, Dimension, ""},
	} {
		s, err := LookupIn(c.region, c.name)
		if err != nil || s.Kind != c.kind || s.Region != c.region || c.thick != 0 && (s.Thick != c.thick*measure.Millimetre || s.Wide != c.wide*measure.Millimetre) {
			t.Errorf("%s in %v: %+v, %v; want %d by %d mm, %s (%s)", c.name, c.region, s, err, int64(c.thick), int64(c.wide), c.kind, c.source)
		}
		if any, err := Lookup(c.name); err != nil || any.Thick != s.Thick || any.Wide != s.Wide {
			t.Errorf("%s anywhere: %+v, %v", c.name, any, err)
		}
	}
}

// Regularising takes 3 mm or less off a thickness and 5 mm off a width, as far
// as EN 1313-1 (planing allowance for construction, from memory: 3 mm up to
// 100 mm, 5 mm to 150, 6 mm above) and the trade's 5 mm for a width agree.
func TestRegularised(t *testing.T) {
	n := 0
	for _, m := range metricRows() {
		if m.kind == Regularised {
			if n++; m.first-m.thick != 2 || m.then-m.wide != 5 {
				t.Errorf("%s is %d by %d mm", m.name(), m.thick, m.wide)
			}
		}
	}
	if n != 7 {
		t.Errorf("%d regularised sizes, want 7", n)
	}
}

func TestMetricRowsAreSourced(t *testing.T) {
	for _, r := range []region.Region{region.Europe, region.Australasia} {
		seen := map[Nominal]bool{}
		for _, s := range SizesIn(r) {
			if !s.From.OK() || !s.LengthsFrom.OK() || s.From.Basis == cite.Invented || s.Region != r {
				t.Errorf("%s: %v; lengths %v", s.Name, s.From, s.LengthsFrom)
			}
			if seen[s.Name] || s.Thick > s.Wide || s.GreenThick < s.Thick || s.GreenWide < s.Wide {
				t.Errorf("%s stands twice, or its section is odd: %+v", s.Name, s)
			}
			seen[s.Name] = true
			for i, l := range s.Lengths {
				if l%(300*measure.Millimetre) != 0 || i > 0 && l <= s.Lengths[i-1] {
					t.Errorf("%s: lengths %v", s.Name, s.Lengths)
				}
			}
			if got, err := LookupIn(r, string(s.Name)); err != nil || got.Name != s.Name || got.Thick != s.Thick {
				t.Errorf("%s does not find itself in %v: %v", s.Name, r, err)
			}
			if got, err := Lookup(string(s.Name)); err != nil || got.Thick != s.Thick || got.Wide != s.Wide {
				t.Errorf("%s does not find its section: %+v, %v", s.Name, got, err)
			}
		}
		if len(seen) < 20 {
			t.Errorf("only %d sizes in %v", len(seen), r)
		}
	}
}

// EN 1313-1:2010, clause 4, by hand: 100 mm at 20 % grows 0.25 % a point to
// 102.5 mm at 30 %; 45 mm to 46.1.
func TestWet(t *testing.T) {
	for _, c := range []struct{ dry, want measure.Length }{{100, 1025}, {45, 461}, {95, 974}} {
		if got := wet(c.dry * measure.Millimetre); got != c.want*measure.Millimetre/10 {
			t.Errorf("%d mm grows to %v mm, want %d tenths", int64(c.dry), got.MM(), int64(c.want))
		}
	}
}

func TestMetricLookupErrors(t *testing.T) {
	for _, c := range []struct {
		region region.Region
		asked  string
		want   string
	}{
		{region.Europe, "47x100", `sale size "47x100" may be any of: 47x100 sawn, 47x100 regularised. Say which. sawn measures 47 by 100 mm, regularised measures 45 by 95 mm`},
		{region.Europe, "45x95x2400", `"45x95x2400" is no sale size; the nearest: 45x95. A sale size has no length in it; lengths are chosen when the boards are bought`},
		{region.Europe, "95x45", `"95x45" is no sale size; the nearest: 45x95. In UK and Europe the thickness is said first`},
		{region.Australasia, "45x90", `"45x90" is no sale size; the nearest: 90x45. In Australia and New Zealand the width is said first`},
		{region.Europe, "45x100", `"45x100" is no sale size; the nearest: 44x100 sawn, 47x100 sawn`},
		{region.Australasia, "90x42", `"90x42" is no sale size; the nearest: 90x45, 90x35`},
		{region.Europe, "2x4", `"2x4" is no sale size; the nearest: 38x89 CLS, 34x95. That is sold in North America, where it measures 38 by 89 mm`},
		{region.Australasia, "2x6", `"2x6" is no sale size; the nearest: 140x35, 140x45. That is sold in North America, where it measures 38 by 140 mm`},
		{region.Europe, "plank", `"plank" is no sale size`},
		{region.Europe, "38x89 cls timber", `"38x89 cls timber" is no sale size; the nearest: 38x89 CLS`},
	} {
		if _, err := LookupIn(c.region, c.asked); err == nil || err.Error() != c.want {
			t.Errorf("%q:\n got %v\nwant %s", c.asked, err, c.want)
		}
	}
	// Where no region is said, the error of the likeliest is told.
	for _, c := range []struct{ asked, want string }{
		{"47x100", `sale size "47x100" may be any of: 47x100 sawn, 47x100 regularised. Say which. sawn measures 47 by 100 mm, regularised measures 45 by 95 mm`},
		{"45x90", `"45x90" is no sale size; the nearest: 90x45. In Australia and New Zealand the width is said first`},
		{"2x5", `"2x5" is no sale size; the nearest: 2x4, 2x6`},
	} {
		if _, err := Lookup(c.asked); err == nil || err.Error() != c.want {
			t.Errorf("%q:\n got %v\nwant %s", c.asked, err, c.want)
		}
	}
}

func TestTreatmentsOfRegions(t *testing.T) {
	for _, c := range []struct {
		treatment Treatment
		region    region.Region
		code, in  string
	}{
		{Untreated, region.Europe, "", "untreated"},
		{AboveGround, region.America, "UC3B", "above ground"},
		{AboveGround, region.Europe, "UC3", "use class 3, above ground"},
		{AboveGround, region.Australasia, "H3", "H3, outdoors above ground"},
		{GroundContact, region.Europe, "UC4", "use class 4, ground contact"},
		{GroundContact, region.Australasia, "H4", "H4, in the ground"},
	} {
		if got := c.treatment.CodeIn(c.region); got != c.code || c.treatment.In(c.region) != c.in || !c.treatment.SourceIn(c.region).OK() {
			t.Errorf("%v in %v: %q, %q", c.treatment, c.region, got, c.treatment.In(c.region))
		}
		for _, name := range []string{c.code, c.in} {
			if got, err := ParseTreatment(name); name != "" && (err != nil || got != c.treatment) {
				t.Errorf("%q is read as %v, %v", name, got, err)
			}
		}
	}
	for _, c := range []struct {
		written string
		want    Treatment
	}{{"use class 3", AboveGround}, {"Use Class 4", GroundContact}, {"h3.2", AboveGround}, {"uc4", GroundContact}} {
		if got, err := ParseTreatment(c.written); err != nil || got != c.want {
			t.Errorf("%q: %v, %v", c.written, got, err)
		}
	}
	if _, err := ParseTreatment(""); err == nil {
		t.Error("nothing is no treatment")
	}
}

// What LookupIn suggests, it finds.
func TestSuggestionsAreNamesThere(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := rapid.SampledFrom(region.All()).Draw(t, "region")
		_, err := LookupIn(r, rapid.StringMatching(`[1-9][0-9]?[0-9]?(/4)? ?x ?[0-9]{1,3}( sawn| cls| mm|x2400)?`).Draw(t, "name"))
		if e, ok := err.(*NameError); ok {
			for _, n := range append(e.Candidates, e.Nearest...) {
				if _, err := LookupIn(r, n); err != nil {
					t.Fatal(err)
				}
			}
		}
	})
}
