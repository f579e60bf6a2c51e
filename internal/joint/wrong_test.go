package joint

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"scantling/internal/design"
	"scantling/internal/snag"
	"scantling/internal/source"
)

// found evaluates a design and returns the snags of its joints, and all errors.
func found(t failing, src []byte) (joints, errors snag.List) {
	t.Helper()
	tree, all := source.Parse("t.yaml", src)
	p, more := design.Open(tree).Evaluate(nil)
	if all = append(all, more...); p == nil {
		t.Fatal(all.Text(snag.Sources{"t.yaml": src}))
	}
	_, joints = Find(p, Meet(p))
	for _, s := range append(all, joints...) {
		if s.Severity == snag.Error {
			errors = append(errors, s)
		}
	}
	return joints, errors
}

// Each deliberately wrong design has the snags written beside the lines that cause
// them, and no other.
func TestWrongDesigns(t *testing.T) {
	for _, file := range wrong(t) {
		src, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		snags, _ := found(t, src)
		for n, line := range strings.Split(string(src), "\n") {
			_, words, _ := strings.Cut(line, "# want ")
			want := strings.Fields(words)
			var got []string
			for _, s := range snags {
				if snag.PlaceOf(src, s.At.Start).Line == n+1 {
					got = append(got, string(s.Code))
				}
			}
			slices.Sort(want)
			slices.Sort(got)
			if !slices.Equal(got, want) {
				t.Errorf("%s:%d: got %v, want %v", file, n+1, got, want)
			}
		}
		if t.Failed() {
			t.Log(snags.Text(snag.Sources{"t.yaml": src}))
		}
	}
}

func wrong(t *testing.T) []string {
	t.Helper()
	files, err := filepath.Glob("testdata/*.yaml")
	if err != nil || len(files) != 3 {
		t.Fatalf("found %v, %v", files, err)
	}
	return files
}

// key tells snags of different joints apart.
func key(s snag.Snag) string {
	joint, _, _ := strings.Cut(s.What, ":")
	return fmt.Sprint(s.Code, " ", joint)
}

// laidOut returns the joints of a design.
func laidOut(t failing, src string) []Joint {
	t.Helper()
	tree, _ := source.Parse("t.yaml", []byte(src))
	p, all := design.Open(tree).Evaluate(nil)
	if p == nil {
		t.Fatal(all)
	}
	joints, _ := Find(p, Meet(p))
	return joints
}
