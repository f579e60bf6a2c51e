package examples_test

import (
	"strings"
	"testing"

	"os"
	"scantling/internal/design"
	"scantling/internal/region"
	"scantling/internal/snag"
	"scantling/internal/source"
)

// Every example is built in its editions for the other regions, at every corner of its
// ranges under every choice.
func TestEditionsAtEveryCorner(t *testing.T) {
	for _, file := range files(t) {
		src, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		tree, _ := source.Parse(file, src)
		for _, in := range []region.Region{region.Europe, region.Australasia} {
			t.Run(strings.TrimSuffix(file, ".yaml")+" "+in.String(), func(t *testing.T) {
				t.Parallel()
				d := design.OpenIn(tree, in)
				piece, _ := d.Evaluate(nil)
				all, sample := settings(piece, 400)
				if sample {
					t.Logf("%d of the corners, a fixed sample", len(all))
				}
				for _, set := range append(all, nil) {
					b := build(d, set)
					if b.snags.Errors() > 0 {
						t.Fatalf("%v:\n%s", set, b.snags.Text(snag.Sources{file: src}))
					}
				}
			})
		}
	}
}
