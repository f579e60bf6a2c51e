package source

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"scantling/internal/region"
	"scantling/internal/span"
)

func TestEdition(t *testing.T) {
	for _, c := range []struct {
		value                    string // as the file has it
		america, europe, austral string
	}{
		{`2x4`, "2x4", "2x4", "2x4"},
		{`2x4 | 45x95 | 90x45`, "2x4", "45x95", "90x45"},
		{`5/4x6 radius edge | 28x120`, "5/4x6 radius edge", "28x120", "28x120"},
		{`screw 8 x 2 1/2 | screw 4.0 x 60 mm | screw 8g x 50 mm`, "screw 8 x 2 1/2", "screw 4.0 x 60 mm", "screw 8g x 50 mm"},
		{`1 1/4" | 30 mm`, `1 1/4"`, "30 mm", "30 mm"},
		{`6' 2" | 1880 mm | 1900 mm`, `6' 2"`, "1880 mm", "1900 mm"},
		{`leg_in + 1/4" | 6 mm in from a.left at level b`, `leg_in + 1/4" in from a.left at level b`, "leg_in + 6 mm in from a.left at level b", "leg_in + 6 mm in from a.left at level b"},
		{`max(2 1/2" | 60 mm; ceil(kick; 1/16" | 1 mm))`, `max(2 1/2" ; ceil(kick; 1/16" ))`, "max( 60 mm; ceil(kick; 1 mm))", "max( 60 mm; ceil(kick; 1 mm))"},
		{`2" above floor | 50 mm above rail.top`, `2" above floor`, "50 mm above rail.top", "50 mm above rail.top"},
		{`5 | 4`, "5", "4", "4"},
		{`8° | 10°`, "8°", "10°", "10°"},
		{`"Leave {1/8\" | 3 mm} there, {a | b}."`, `Leave {1/8" } there, {a }.`, "Leave { 3 mm} there, { b}.", "Leave { 3 mm} there, { b}."},
		{`'the {x} apron | the {x} rail'`, "the {x} apron", "the {x} rail", "the {x} rail"},
	} {
		src := []byte("a: {b: " + c.value + "}\n")
		if c.value[0] != '"' && c.value[0] != '\'' {
			src = []byte("a:\n  b: " + c.value + "\n")
		}
		tree, snags := Parse("t.yaml", src)
		if len(snags) > 0 {
			t.Errorf("%s: %s", c.value, snags[0].What)
			continue
		}
		for r, want := range []string{c.america, c.europe, c.austral} {
			edition, told := tree.Edition(region.Region(r))
			n := edition.Root.Get("a").Get("b")
			if got := strings.Join(strings.Fields(n.Text), " "); got != want || len(told) > 0 {
				t.Errorf("%s in %v: %q, want %q, %v", c.value, region.Region(r), got, want, told)
			}
			if edition.Scalars[n.Ordinal] != n || tree.Root.Get("a").Get("b").Text == "" {
				t.Errorf("%s in %v: the tree does not hold together", c.value, region.Region(r))
			}
			words := strings.Fields(n.Text)
			if at := strings.Index(n.Text, words[0]); !strings.HasPrefix(string(src[n.Sub(at, len(n.Text)).Start:]), words[0]) {
				t.Errorf("%s in %v: %q stands at %v", c.value, region.Region(r), words[0], n.Sub(at, len(n.Text)))
			}
		}
	}
}

func TestAlternativesToRefuse(t *testing.T) {
	for _, c := range []struct{ value, at string }{
		{`1" | 2 mm | 3 mm | 4 mm`, `1" | 2 mm | 3 mm | 4 mm`},
		{`a | b | c | d`, "a | b | c | d"},
		{`45x95 |`, "45x95 |"},
	} {
		src := []byte("b: " + c.value + "\n")
		tree, _ := Parse("t.yaml", src)
		_, told := tree.Edition(region.Europe)
		if len(told) != 1 || told[0].Code != "alternatives" || string(src[told[0].At.Start:told[0].At.End]) != c.at || len(told[0].Mends) == 0 {
			t.Errorf("%s: %+v", c.value, told)
		}
	}
}

func TestInches(t *testing.T) {
	src := []byte("a: 3\" | 75 mm\nb: 6' 2\"\nc: 5/4x6 radius edge\nd: 12 mm\ne: {f: 2 ft, g: say 1/2\" or less}\n")
	tree, _ := Parse("t.yaml", src)
	said := func(at []span.Range) (out []string) {
		for _, r := range at {
			out = append(out, string(src[r.Start:r.End]))
		}
		return out
	}
	metric, _ := tree.Edition(region.Europe)
	if got, want := said(metric.Inches()), []string{`6' 2"`, "2 ft", `1/2"`}; !slices.Equal(got, want) {
		t.Errorf("inches %q, want %q", got, want)
	}
}

// Whatever a value says, its edition says no stroke of its own and stands where
// the value stands.
func TestEditionsStayInPlace(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		parts := rapid.SliceOfN(rapid.SampledFrom([]string{`1 1/2"`, "40 mm", "a", "2x4", "{", "}", "|", "+", "8°", "½", "“x”"}), 1, 9).Draw(t, "parts")
		tree, snags := Parse("t.yaml", []byte("b: 'x "+strings.Join(parts, " ")+"'\n"))
		if len(snags) > 0 {
			t.Fatal(snags[0].What)
		}
		whole := tree.Root.Get("b")
		for _, r := range region.All() {
			edition, told := tree.Edition(r)
			n := edition.Root.Get("b")
			if n.Start < whole.Start || n.End > whole.End || n.Offset(0) < whole.Start {
				t.Fatalf("%q stands at %v, outside %v", n.Text, n.Range, whole.Range)
			}
			if len(told) == 0 && strings.Contains(n.Text, "|") {
				t.Fatalf("%q still has alternatives", n.Text)
			}
		}
	})
}
