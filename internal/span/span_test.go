package span

import (
	"testing"

	"pgregory.net/rapid"
)

func TestApply(t *testing.T) {
	src := []byte("leg: 4in")
	got, ok := Apply(src, []Edit{{Range{"f", 5, 6}, "5"}, {Range{"f", 0, 3}, "post"}})
	if !ok || string(got) != "post: 5in" {
		t.Errorf("Apply = %q, %v", got, ok)
	}
	for _, bad := range [][]Edit{
		{{Range{"f", 0, 3}, ""}, {Range{"f", 2, 4}, ""}},
		{{Range{"f", 7, 9}, ""}},
		{{Range{"f", 4, 3}, ""}},
	} {
		if got, ok := Apply(src, bad); ok || string(got) != string(src) {
			t.Errorf("Apply(%v) = %q, %v; want the source unchanged", bad, got, ok)
		}
	}
}

// A Set behaves as a map from int to bool does.
func TestSetIsASet(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		members := rapid.SliceOf(rapid.IntRange(0, 300))
		a, b, c := members.Draw(t, "a"), members.Draw(t, "b"), members.Draw(t, "c")
		model := map[int]bool{}
		for _, l := range [][]int{a, b, c} {
			for _, n := range l {
				model[n] = true
			}
		}
		u := Of(a...).Union(Of(b...), Of(c...))
		if u != Of(append(append(append([]int{}, c...), a...), b...)...) {
			t.Fatal("equal sets do not compare equal")
		}
		if u.Len() != len(model) {
			t.Fatalf("Len = %d, want %d", u.Len(), len(model))
		}
		for n := -1; n < 320; n++ {
			if u.Has(n) != model[n] {
				t.Fatalf("Has(%d) = %v", n, u.Has(n))
			}
		}
		last := -1
		for _, n := range u.Ordinals() {
			if n <= last || !model[n] {
				t.Fatalf("Ordinals = %v", u.Ordinals())
			}
			last = n
		}
	})
}
