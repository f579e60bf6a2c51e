package joint

import (
	"os"
	"path/filepath"
	"testing"

	"scantling/internal/design"
	"scantling/internal/source"
)

// BenchmarkExamples lays the joints and holes of every example.
func BenchmarkExamples(b *testing.B) {
	files, err := filepath.Glob("../../examples/*.yaml")
	if err != nil || len(files) == 0 {
		b.Fatal(files, err)
	}
	for _, file := range files {
		src, err := os.ReadFile(file)
		if err != nil {
			b.Fatal(err)
		}
		tree, _ := source.Parse(file, src)
		p, _ := design.Open(tree).Evaluate(nil)
		m := Meet(p)
		b.Run(filepath.Base(file), func(b *testing.B) {
			for range b.N {
				Find(p, m)
			}
		})
	}
}
