package examples_test

import (
	"context"
	"os"
	"path/filepath"
	"testing"

	"scantling/internal/design"
	"scantling/internal/plan"
	"scantling/internal/snag"
)

// The further pieces, written from the reference of the language alone, plan without
// an error at every corner of their ranges under every choice, and as the files have
// them without a caution.
func TestFurtherPieces(t *testing.T) {
	files, err := filepath.Glob("further/*.yaml")
	if err != nil || len(files) < 6 {
		t.Fatal(files, err)
	}
	for _, file := range files {
		src, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		s := plan.Open(file, src)
		check := func(set design.Settings) snag.List {
			o := plan.Options{Want: plan.Settled}
			for _, x := range set {
				o.Set = append(o.Set, plan.Setting(x))
			}
			p, err := s.Run(context.Background(), o)
			if err != nil {
				t.Fatal(err)
			}
			return p.Snags
		}
		if said := check(nil); said.Errors()+said.Count(snag.Caution) > 0 {
			t.Errorf("%s", said.Text(snag.Sources{file: src}))
		}
		d, _ := open(t, file)
		piece, _ := d.Evaluate(nil)
		all, _ := settings(piece, 64)
		for _, set := range all {
			if said := check(set); said.Errors() > 0 {
				t.Errorf("%v:\n%s", set, said.Text(snag.Sources{file: src}))
			}
		}
	}
}
