package source

import (
	"bytes"
	"errors"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"scantling/internal/span"
)

func TestSet(t *testing.T) {
	const src = "sizes:  # all of them\n  length: {is: 6', says: 'so long'}   # the top\nabout: >  # prose\n    One\n    two.\n\nlist:\n- a\n- \"b\"\n"
	for _, c := range []struct {
		ordinal   int
		text, raw string
	}{
		{0, `5 1/2"`, `5 1/2"`},
		{0, `max(a; b)`, `max(a; b)`},
		{0, `a, b`, `"a, b"`},
		{0, `a # b`, `"a # b"`},
		{0, `5" or: more`, `'5" or: more'`},
		{0, "two\nlines", `"two\nlines"`},
		{0, ``, `""`},
		{0, `{length}`, `"{length}"`},
		{0, ` a`, `" a"`},
		{1, `it's`, `'it''s'`},
		{1, "two\nlines", `"two\nlines"`},
		{2, "Three.\nFour: # {five}", ">  # prose\n    Three.\n\n    Four: # {five}"},
		{2, " indented", `" indented"`},
		{3, "- a", `"- a"`},
		{3, "a, b", `a, b`},
		{3, "*a", `"*a"`},
		{4, `c "d"`, `"c \"d\""`},
	} {
		tree := read(t, src)
		n := tree.Scalars[c.ordinal]
		edits, err := Set(tree, n, c.text)
		if err != nil {
			t.Errorf("Set(%d, %q): %v", c.ordinal, c.text, err)
			continue
		}
		after, _ := span.Apply([]byte(src), edits)
		if want := src[:n.Start] + c.raw + src[n.End:]; string(after) != want {
			t.Errorf("Set(%d, %q) gives\n%s\nwant\n%s", c.ordinal, c.text, after, want)
		}
	}
	tree := read(t, src)
	for _, n := range []*Node{nil, tree.Root, tree.Root.Keys[0]} {
		if _, err := Set(tree, n, "x"); !errors.Is(err, ErrNotScalar) {
			t.Errorf("Set of %v: %v", n, err)
		}
	}
	if _, err := Set(tree, tree.Scalars[0], "\x00"); !errors.Is(err, ErrUnwritten) {
		t.Errorf("Set of a control character: %v", err)
	}
}

// Whatever is set reads back; every byte outside the value stays.
func TestSetChangesOneValue(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var b strings.Builder
		writeMap(t, &b, 0, 2)
		src := b.String()
		if rapid.Bool().Draw(t, "CR LF") {
			src = strings.ReplaceAll(src, "\n", "\r\n")
		}
		tree := read(t, src)
		if len(tree.Scalars) == 0 {
			return
		}
		n := rapid.SampledFrom(tree.Scalars).Draw(t, "scalar")
		text := strings.Join(rapid.SliceOfN(rapid.SampledFrom(append(append(plains, prose...), "\n", "#", ",", "}", ": ")), 0, 3).Draw(t, "text"), " ")
		edits, err := Set(tree, n, text)
		if err != nil {
			t.Fatalf("Set(%q, %q): %v in\n%s", n.Raw, text, err, src)
		}
		after, ok := span.Apply([]byte(src), edits)
		if !ok || !strings.HasPrefix(string(after), src[:n.Start]) || !strings.HasSuffix(string(after), src[n.End:]) {
			t.Fatalf("Set(%q, %q) touches more than the value:\n%s", n.Raw, text, after)
		}
		again := read(t, string(after))
		for i, m := range again.Scalars {
			want := tree.Scalars[i].Text
			if i == n.Ordinal {
				want = text
			}
			if m.Text != want {
				t.Fatalf("after Set(%q, %q) value %d is %q, want %q in\n%s", n.Raw, text, i, m.Text, want, after)
			}
		}
	})
}

// Edits inside quotes hold only if the quotes do: by hand.
func TestHolds(t *testing.T) {
	src := []byte("a: \"7\\\" | 180 mm\"\nb: '5 mm'\nc: 3\"\n")
	tree, snags := Parse("t.yaml", src)
	if len(snags) > 0 {
		t.Fatal(snags)
	}
	at := func(old, text string) []span.Edit {
		i := bytes.Index(src, []byte(old))
		return []span.Edit{{At: span.Range{File: "t.yaml", Start: i, End: i + len(old)}, Text: text}}
	}
	for _, c := range []struct {
		edits []span.Edit
		want  bool
	}{
		{at(`7\`, `36"`), false}, {at(`7\"`, `36\"`), true}, {at("180", "200"), true},
		{at("5", "6'"), false}, {at("5", "6"), true}, {at(`3"`, `4"`), true}, {nil, true},
	} {
		if got := tree.Holds(c.edits); got != c.want {
			t.Errorf("%v: holds %v, want %v", c.edits, got, c.want)
		}
	}
}
