//go:build !js

package plan

import (
	"context"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"scantling/internal/snag"
	"scantling/internal/source"
	"scantling/internal/span"
)

// snippets are the pieces of the language's reference, whole files or parts of one.
func snippets(t testing.TB) [][]byte {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", "..", "doc", "language.md"))
	if err != nil {
		t.Fatal(err)
	}
	var out [][]byte
	for _, m := range regexp.MustCompile("(?s)```yaml[^\n]*\n(.*?)```").FindAllSubmatch(text, -1) {
		out = append(out, m[1])
	}
	for _, c := range snag.Codes() {
		out = append(out, []byte(c.Example))
	}
	return out
}

// Whatever bytes a file holds, opening and planning it neither panics nor runs
// away, every message points into the file, and every edit a mend offers can be
// made and leaves a file that parses if it did before.
func FuzzPlan(f *testing.F) {
	for _, name := range examples {
		f.Add(example(f, name))
	}
	for _, s := range snippets(f) {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, src []byte) { probe(t, src) })
}

// The same for the examples with one to three values exchanged, which reach
// deeper than bytes at random.
func TestSpoiledExamples(t *testing.T) {
	var whole [][]byte
	for _, name := range slices.Concat(allFive, []string{"further/compost-bin", "further/nursery-bench"}) {
		whole = append(whole, example(t, name))
	}
	rapid.Check(t, func(t *rapid.T) {
		src := rapid.SampledFrom(whole).Draw(t, "example")
		for range rapid.IntRange(1, 3).Draw(t, "edits") {
			src = edited(t, src)
		}
		probe(t, src)
	})
}

func probe(t interface{ Fatalf(string, ...any) }, src []byte) {
	p, err := Open("design.yaml", src).Run(context.Background(), Options{Want: Settled, Nodes: 200})
	if err != nil {
		t.Fatalf("%v\n%s", err, src)
	}
	_, snags := source.Parse("design.yaml", src)
	clean := snags.Errors() == 0
	p.Messages()
	p.Summary()
	if p.Readings != nil {
		p.JSON()
	}
	for _, s := range p.Snags {
		if s.At.File == "design.yaml" && !inside(s.At, src) || s.At.File != "design.yaml" && s.At.File != "" {
			t.Fatalf("%s points to %v\n%s", s.Code, s.At, src)
		}
		for _, r := range s.Related {
			if r.At.File == "design.yaml" && !inside(r.At, src) {
				t.Fatalf("%s tells of %v\n%s", s.Code, r.At, src)
			}
		}
		for _, m := range s.Mends {
			if len(m.Edits) == 0 {
				continue
			}
			mended, ok := span.Apply(src, m.Edits)
			if !ok {
				t.Fatalf("%s: the edits of %q do not apply: %v\n%s", s.Code, m.Says, m.Edits, src)
			}
			if _, after := source.Parse("design.yaml", mended); after.Errors() > 0 && clean {
				t.Fatalf("%s: after %q the file no longer parses:\n%s\n%s", s.Code, m.Says, after.Text(snag.Sources{"design.yaml": mended}), mended)
			}
		}
	}
}

// edited replaces one value of a design file: by another of its values, by
// nothing a size could be, or by a number.
func edited(t *rapid.T, src []byte) []byte {
	tree, _ := source.Parse("design.yaml", src)
	n := rapid.SampledFrom(tree.Scalars).Draw(t, "value")
	text := rapid.OneOf(
		rapid.Map(rapid.SampledFrom(tree.Scalars), func(n *source.Node) string { return n.Text }),
		rapid.SampledFrom([]string{`0"`, `3"`, `-5"`, `1/0`, "90°", "leg.left", "floor", "nothing", `1e9"`, "7"}),
	).Draw(t, "text")
	edits, err := source.Set(tree, n, text)
	if err != nil {
		return src
	}
	out, ok := span.Apply(src, edits)
	if !ok {
		t.Fatalf("the edit of %q to %q does not apply", n.Raw, text)
	}
	return out
}
