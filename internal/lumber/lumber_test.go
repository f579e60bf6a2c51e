package lumber

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"scantling/internal/measure"
)

const eighth = measure.Inch / 8

func TestActualSizes(t *testing.T) {
	for _, c := range []struct {
		name        string
		thick, wide measure.Length // in 1/8 in
		source      string
	}{
		{"1x2", 6, 12, "PS 20-20, table 3 (from memory)"},
		{"1x4", 6, 28, "PS 20-20, table 3"},
		{"1x8", 6, 58, "PS 20-20, table 3: 7 1/4"},
		{"1x12", 6, 90, "PS 20-20, table 3: 11 1/4"},
		{"2x4", 12, 28, "NDS Supplement 2018, table 1A"},
		{"2x6", 12, 44, "NDS Supplement 2018, table 1A"},
		{"2x8", 12, 58, "NDS Supplement 2018, table 1A"},
		{"2x10", 12, 74, "NDS Supplement 2018, table 1A"},
		{"4x4", 28, 28, "NDS Supplement 2018, table 1A"},
		{"6x6", 44, 44, "PS 20-20, table 4 (from memory)"},
		{"5/4x6 radius edge", 8, 44, "SPIB rules (from memory): at least 1 in thick"},
		{"5/4x8", 8, 58, "PS 20-20, table 3 (from memory)"},
		{"2 X 4", 12, 28, "spelling is free"},
		{"2×4", 12, 28, "spelling is free"},
		{"5/4 x 6 square edge", 8, 44, "spelling is free"},
	} {
		s, err := Lookup(c.name)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if s.Thick != c.thick*eighth || s.Wide != c.wide*eighth {
			t.Errorf("%s is %v by %v in, want %v by %v eighths (%s)", c.name, s.Thick.Inches(), s.Wide.Inches(), int64(c.thick), int64(c.wide), c.source)
		}
	}
}

// The rule behind the table: 1 in and 5/4 boards lose 1/4 in of thickness, 2 to 4
// in lumber 1/2 in; widths lose 1/2 in below 8 in and 3/4 in from there on;
// timbers lose 1/2 in both ways. Source: PS 20-20, tables 3 and 4.
func TestRuleOfTheTable(t *testing.T) {
	for _, s := range Sizes() {
		bare, _, _ := strings.Cut(string(s.Name), " ")
		tName, wName, _ := strings.Cut(bare, "x")
		thick := map[string]measure.Length{"1": 6, "5/4": 8, "2": 12, "3": 20, "4": 28, "6": 44}[tName] * eighth
		wide := map[string]measure.Length{"2": 12, "3": 20, "4": 28, "5": 36, "6": 44, "8": 58, "10": 74, "12": 90}[wName] * eighth
		if s.Kind == Timber && wName == "8" {
			wide = 60 * eighth
		}
		if s.Thick != thick || s.Wide != wide {
			t.Errorf("%s: %v by %v in, want %v by %v", s.Name, s.Thick.Inches(), s.Wide.Inches(), thick.Inches(), wide.Inches())
		}
		if s.GreenThick < s.Thick || s.GreenWide < s.Wide || s.Thick > s.Wide {
			t.Errorf("%s: green is smaller than dry, or the thickness is the greater", s.Name)
		}
	}
}

func TestEveryRowIsSourced(t *testing.T) {
	seen := map[Nominal]bool{}
	for _, s := range Sizes() {
		if !s.From.OK() || !s.LengthsFrom.OK() {
			t.Errorf("%s: %v; lengths %v", s.Name, s.From, s.LengthsFrom)
		}
		if seen[s.Name] {
			t.Errorf("%s stands twice", s.Name)
		}
		seen[s.Name] = true
		for i, l := range s.Lengths {
			if l%measure.Foot != 0 || i > 0 && l <= s.Lengths[i-1] {
				t.Errorf("%s: lengths %v", s.Name, s.Lengths)
			}
		}
		if got, err := Lookup(string(s.Name)); err != nil || got.Name != s.Name {
			t.Errorf("%s does not find itself: %v", s.Name, err)
		}
	}
	if len(seen) < 25 {
		t.Errorf("only %d sizes", len(seen))
	}
	for _, tr := range Treatments() {
		if !tr.Source().OK() {
			t.Errorf("%v has no source", tr)
		}
	}
}

func TestLookupErrors(t *testing.T) {
	for _, c := range []struct{ asked, want string }{
		{"5/4x6", `sale size "5/4x6" may be any of: 5/4x6 radius edge, 5/4x6 square edge. Say which. They measure the same across but differ at the edges`},
		{"2x5", `"2x5" is no sale size; the nearest: 2x4, 2x6`},
		{"2x4x8", `"2x4x8" is no sale size; the nearest: 2x4. A sale size has no length in it; lengths are chosen when the boards are bought`},
		{"1.5x3.5", `"1.5x3.5" is no sale size; the nearest: 2x4. That is what it measures; write the name it is sold by`},
		{`1 1/2" x 3 1/2"`, `"1 1/2\" x 3 1/2\"" is no sale size; the nearest: 2x4. That is what it measures; write the name it is sold by`},
		{"5/4x6 radius", `"5/4x6 radius" is no sale size; the nearest: 5/4x6 radius edge`},
		{"plywood", `"plywood" is no sale size`},
		{"", `"" is no sale size`},
	} {
		_, err := Lookup(c.asked)
		if err == nil || err.Error() != c.want {
			t.Errorf("%q:\n got %v\nwant %s", c.asked, err, c.want)
		}
	}
}

func TestTreatments(t *testing.T) {
	for _, c := range []struct {
		written string
		want    Treatment
		code    string
	}{
		{"none", Untreated, ""}, {"above ground", AboveGround, "UC3B"}, {"Ground Contact", GroundContact, "UC4A"}, {"uc4a", GroundContact, "UC4A"},
	} {
		got, err := ParseTreatment(c.written)
		if err != nil || got != c.want || got.Code() != c.code {
			t.Errorf("%q: %v %v", c.written, got, err)
		}
	}
	if _, err := ParseTreatment("wet"); err == nil {
		t.Error("wet is no treatment")
	}
}

func TestStockSays(t *testing.T) {
	s, _ := Lookup("2x6")
	if got := StockOf(s, "southern pine", "No. 2", GroundContact).String(); got != "2x6 southern pine, No. 2, ground contact" {
		t.Error(got)
	}
	if got := StockOf(s, "white oak", "", Untreated).String(); got != "2x6 white oak" {
		t.Error(got)
	}
}

func FuzzLookup(f *testing.F) {
	for _, s := range []string{"2x4", "5/4x6", "1.5x3.5", "x", "2x4x8", "½x½"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, name string) {
		s, err := Lookup(name)
		if (err == nil) != (s.Wide > 0) {
			t.Errorf("%q: %+v, %v", name, s, err)
		}
	})
}

// What Lookup suggests, it finds.
func TestSuggestionsAreNames(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		_, err := Lookup(rapid.StringMatching(`[1-6](/4)? ?x ?[0-9]{1,2}( radius| edge)?`).Draw(t, "name"))
		if e, ok := err.(*NameError); ok {
			for _, n := range append(e.Candidates, e.Nearest...) {
				if _, err := Lookup(n); err != nil {
					t.Fatal(err)
				}
			}
		}
	})
}
