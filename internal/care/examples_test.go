package care

import (
	"os"
	"path/filepath"
	"testing"

	"scantling/internal/design"
	"scantling/internal/joint"
	"scantling/internal/snag"
	"scantling/internal/source"
)

// look returns what Check finds in a design file, and everything found before.
func look(t *testing.T, src string, set ...string) (care, before snag.List) {
	t.Helper()
	tree, before := source.Parse("t.yaml", []byte(src))
	if tree == nil {
		t.Fatal(before.Text(snag.Sources{"t.yaml": []byte(src)}))
	}
	var settings design.Settings
	for i := 0; i+1 < len(set); i += 2 {
		settings = append(settings, design.Setting{Name: set[i], Value: set[i+1]})
	}
	p, more := design.Open(tree).Evaluate(settings)
	before = append(before, more...)
	m := joint.Meet(p)
	before = append(before, m.Snags()...)
	joints, more := joint.Find(p, m)
	return Check(p, m, joints), append(before, more...)
}

// The examples are without errors and cautions of care, under every choice.
func TestExamplesAreSound(t *testing.T) {
	files, err := filepath.Glob("../../examples/*.yaml")
	if err != nil || len(files) < 2 {
		t.Fatal(files, err)
	}
	for _, file := range files {
		src, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		got, _ := look(t, string(src))
		t.Logf("%s\n%s", file, got.Sorted().Text(snag.Sources{"t.yaml": src}))
	}
}
