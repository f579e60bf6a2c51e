package order

import (
	"os"
	"path/filepath"
	"testing"

	"scantling/internal/design"
	"scantling/internal/joint"
	"scantling/internal/reach"
	"scantling/internal/source"
)

// examples are the pieces that come with the program.
var examples = []string{"sorting-table", "pickers-chair", "herb-planter", "picnic-table", "yard-gate"}

func text(t testing.TB, name string) []byte {
	t.Helper()
	src, err := os.ReadFile(filepath.Join("..", "..", "examples", name+".yaml"))
	if err != nil {
		t.Fatal(err)
	}
	return src
}

// opened reads a design.
func opened(t testing.TB, src []byte) (*source.Tree, *design.Design) {
	t.Helper()
	tree, snags := source.Parse("t.yaml", src)
	if len(snags) > 0 {
		t.Fatal(snags[0].What)
	}
	return tree, design.Open(tree)
}

// worked is a design ready to be looked at.
func worked(d *design.Design, set design.Settings) *Work {
	p, _ := d.Evaluate(set)
	m := joint.Meet(p)
	joints, _ := joint.Find(p, m)
	tools := reach.Usual()
	return NewWork(p, m, joints, &tools)
}

// Every example can be built in the order of its steps: as it is, and at the corners
// of its sizes under every choice, of which a fixed few are taken.
func TestExamplesCanBeBuilt(t *testing.T) {
	const most = 24
	for _, name := range examples {
		tree, d := opened(t, text(t, name))
		cases, _ := d.Cases()
		step := max(1, len(cases)/most)
		for i := 0; i < len(cases); i += step {
			looks, snags := worked(d, cases[i]).Check(tree)
			for _, s := range snags {
				t.Errorf("%s, %v: %s", name, cases[i], s.What)
			}
			if len(looks) == 0 {
				t.Errorf("%s, %v: no steps", name, cases[i])
			}
		}
	}
}
