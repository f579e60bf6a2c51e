package spell

import (
	"slices"
	"testing"

	"pgregory.net/rapid"
)

func TestEdits(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want int
		from string
	}{
		{"kitten", "sitting", 3, "the example every text on the distance gives"},
		{"saturday", "sunday", 3, "likewise"},
		{"", "leg", 3, "by definition"},
		{"½", "¼", 1, "letters, not bytes"},
	} {
		if got := Edits(c.a, c.b); got != c.want {
			t.Errorf("Edits(%q, %q) = %d, want %d (%s)", c.a, c.b, got, c.want, c.from)
		}
	}
}

func TestEditsIsADistance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		name := rapid.StringMatching(`[a-d]{0,6}`)
		a, b, c := name.Draw(t, "a"), name.Draw(t, "b"), name.Draw(t, "c")
		if Edits(a, b) != Edits(b, a) {
			t.Fatal("not the same both ways")
		}
		if (Edits(a, b) == 0) != (a == b) {
			t.Fatal("0 must mean equal")
		}
		if Edits(a, c) > Edits(a, b)+Edits(b, c) {
			t.Fatal("a way round is shorter")
		}
	})
}

func TestNearest(t *testing.T) {
	known := []string{"2x4", "2x6", "4x4", "legs", "leg_stock"}
	for _, c := range []struct {
		asked string
		want  []string
	}{
		{"2x5", []string{"2x4", "2x6"}},
		{"leg_stok", []string{"leg_stock"}},
		{"lgs", []string{"legs"}},
		{"apron", nil},
		{"x", nil},
		{"", nil},
	} {
		if got := Nearest(c.asked, known); !slices.Equal(got, c.want) {
			t.Errorf("Nearest(%q) = %q, want %q", c.asked, got, c.want)
		}
	}
}
