package plan

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"scantling/internal/measure"
	"scantling/internal/span"
)

// The pieces that stand for all others in these tests.
var examples = []string{"sorting-table", "pickers-chair"}

// allFive are the two that most tests look at, and the rest.
var allFive = []string{"sorting-table", "pickers-chair", "herb-planter", "yard-gate", "picnic-table"}

func example(t testing.TB, name string) []byte {
	t.Helper()
	src, err := os.ReadFile(filepath.Join("..", "..", "examples", name+".yaml"))
	if err != nil {
		t.Fatal(err)
	}
	return src
}

// run is the plan of a design, under settings given as name, value, name, ….
func run(t testing.TB, src []byte, want Want, set ...string) *Plan {
	t.Helper()
	return with(t, src, Options{Want: want}, set...)
}

func with(t testing.TB, src []byte, o Options, set ...string) *Plan {
	t.Helper()
	for i := 0; i < len(set); i += 2 {
		o.Set = append(o.Set, Setting{set[i], set[i+1]})
	}
	p, err := Open("design.yaml", src).Run(context.Background(), o)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// sound is run for a design that must be without errors.
func sound(t testing.TB, src []byte, want Want, set ...string) *Plan {
	t.Helper()
	p := run(t, src, want, set...)
	if p.Snags.Errors() > 0 {
		t.Fatalf("%v:\n%s", set, p.Messages())
	}
	return p
}

// choices are all ways to choose, as settings.
func choices(p *Plan) [][]string {
	out := [][]string{nil}
	for _, c := range p.Piece.Choices {
		var more [][]string
		for _, s := range out {
			for _, word := range c.Of {
				more = append(more, append(s[:len(s):len(s)], c.Name, word))
			}
		}
		out = more
	}
	return out
}

// corner sets the sizes to the ends of their ranges: size i to its most where
// bit i of most is set, else to its least.
func corner(p *Plan, most int) []string {
	var out []string
	for i, z := range p.Piece.Sizes {
		q := z.Least
		if most>>i&1 == 1 {
			q = z.Most
		}
		out = append(out, z.Name, exact(q))
	}
	return out
}

func exact(q measure.Quantity) string { return q.Exact(measure.Imperial) }

// without returns src with each old text, which must stand there once, replaced
// by the new one after it.
func without(t testing.TB, src []byte, pairs ...string) []byte {
	t.Helper()
	text := string(src)
	for i := 0; i < len(pairs); i += 2 {
		if strings.Count(text, pairs[i]) != 1 {
			t.Fatalf("%q stands %d times in the design", pairs[i], strings.Count(text, pairs[i]))
		}
		text = strings.Replace(text, pairs[i], pairs[i+1], 1)
	}
	return []byte(text)
}

func inside(r span.Range, src []byte) bool {
	return 0 <= r.Start && r.Start <= r.End && r.End <= len(src)
}
