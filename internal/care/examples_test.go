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

// look returns what Check finds in a design, and what was wrong in it before.
func look(t *testing.T, src string) (care, before snag.List) {
	t.Helper()
	tree, before := source.Parse("t.yaml", []byte(src))
	if tree == nil {
		t.Fatal(before.Text(snag.Sources{"t.yaml": []byte(src)}))
	}
	care, more := at(design.Open(tree), nil)
	return care, append(before, more...)
}

func at(d *design.Design, set design.Settings) (care, before snag.List) {
	p, before := d.Evaluate(set)
	m := joint.Meet(p)
	joints, _ := joint.Find(p, m)
	return Check(p, m, joints), before
}

// The examples ask for no more than a word to know, as written and at corners of
// their sizes under every choice: all of them, or 64 spread over them.
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
		tree, _ := source.Parse(file, src)
		d := design.Open(tree)
		cases, _ := d.Cases()
		for i := 0; i < len(cases); i += 1 + len(cases)/64 {
			set := cases[i]
			got, _ := at(d, set)
			if got.Errors()+got.Count(snag.Caution) > 0 {
				t.Errorf("%s %v\n%s", file, set, got.Sorted().Text(snag.Sources{file: src}))
			}
		}
	}
}

// The catalogue's example of every code told here brings it about.
func TestExamplesOfCodes(t *testing.T) {
	told := map[snag.Code]bool{}
	for _, c := range cases {
		told[c.code] = true
	}
	for code := range told {
		info, ok := snag.Explain(code)
		if !ok || info.Example == "" {
			t.Errorf("%s has no example", code)
			continue
		}
		found := false
		got, before := look(t, info.Example)
		for _, s := range got {
			found = found || s.Code == code
		}
		if !found {
			t.Errorf("the example of %s gives\n%s", code, append(got, before...).Text(snag.Sources{"t.yaml": []byte(info.Example)}))
		}
	}
}

func BenchmarkCheck(b *testing.B) {
	src, err := os.ReadFile("../../examples/sorting-table.yaml")
	if err != nil {
		b.Fatal(err)
	}
	tree, _ := source.Parse("t.yaml", src)
	p, _ := design.Open(tree).Evaluate(nil)
	m := joint.Meet(p)
	joints, _ := joint.Find(p, m)
	for b.Loop() {
		Check(p, m, joints)
	}
}
