package design

import (
	"slices"
	"strconv"
	"strings"
	"testing"

	"scantling/internal/snag"
	"scantling/internal/source"
)

func openText(t testing.TB, text string) *Design {
	t.Helper()
	tree, list := source.Parse("stand.yaml", []byte(text))
	if len(list) > 0 {
		t.Fatal(list.Text(snag.Sources{"stand.yaml": []byte(text)}))
	}
	return Open(tree)
}

// The stand has one choice of two and three sizes: 2 plain cases and 2 × 2³
// corners.
func TestCases(t *testing.T) {
	d := openText(t, stand)
	cases, sampled := d.Cases()
	if len(cases) != 2+2*8 || sampled {
		t.Fatalf("%d cases, sampled %v", len(cases), sampled)
	}
	seen := map[string]bool{}
	for _, c := range cases {
		seen[c.String()] = true
	}
	for _, want := range []string{"tie one", "tie none", `tie none, width 18", height 8", tilt 0°`, `tie one, width 36", height 18", tilt 10°`} {
		if !seen[want] {
			t.Errorf("the case %q is missing among %d", want, len(seen))
		}
	}
	if len(seen) != len(cases) {
		t.Errorf("%d of %d cases differ", len(seen), len(cases))
	}
	many := strings.Replace(stand, "let:\n", "  more: {is: a, of: [a, b, c]}\nlet:\n", 1)
	for i := range 9 {
		many = strings.Replace(many, "choices:\n", "  spare_"+strconv.Itoa(i)+": {is: 2\", from: 1\", to: 3\"}\nchoices:\n", 1)
	}
	cases, sampled = openText(t, many).Cases()
	if len(cases) != mostCases || !sampled {
		t.Errorf("%d cases of many, sampled %v", len(cases), sampled)
	}
	again, _ := openText(t, many).Cases()
	for i := range cases {
		if !slices.Equal(cases[i], again[i]) {
			t.Fatal("the sample differs from one time to the next")
		}
	}
	for i := range 9 {
		name, ends := "spare_"+strconv.Itoa(i), map[string]bool{}
		for _, c := range cases {
			for _, s := range c {
				if s.Name == name {
					ends[s.Value] = true
				}
			}
		}
		if len(ends) != 2 {
			t.Errorf("%s is tried at %v only", name, ends)
		}
	}
}

// A part that reads what a choice takes away is told before anybody chooses so,
// and so is a name only that choice reads.
func TestEverywhere(t *testing.T) {
	for _, c := range []struct{ name, old, new, code, why string }{
		{"a removed part", `that: rail.length < 36"`, "that: tie_bar.length < rail.length", "not-there", "tie none"},
		{"a joint nobody sees yet", "steps:\n", "joints:\n  j: {when: tie is none, join: [rail, legg], with: screw 8 x 2}\nsteps:\n", "unknown-name", "tie none"},
		{"a corner that fails", `that: rail.length < 36"`, `that: rail.length < 30"`, "need", `width 36"`},
		{"no room at a corner", `about: 1/2", from: 1/8", to: 2"`, `about: 1/2", from: 1/8", to: 11/16"`, "no-even-gap", `width 18"`},
	} {
		d := openText(t, strings.Replace(stand, c.old, c.new, 1))
		if _, list := d.Evaluate(nil); list.Errors() > 0 {
			t.Fatalf("%s: told without it: %v", c.name, list)
		}
		found := false
		for _, s := range d.Everywhere() {
			found = found || string(s.Code) == c.code && strings.Contains(s.Why, c.why)
		}
		if !found {
			t.Errorf("%s: no %s with %s among %v", c.name, c.code, c.why, d.Everywhere())
		}
	}
}
