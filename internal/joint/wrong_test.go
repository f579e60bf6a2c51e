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
	"scantling/internal/span"
)

// found evaluates a design and returns the snags of its joints, and all errors.
func found(t *testing.T, src []byte) (joints, errors snag.List) {
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

// The first mend of every snag that a program can do takes the snag away and
// brings no new error.
func TestMendsClose(t *testing.T) {
	done := map[snag.Code]bool{}
	for _, file := range wrong(t) {
		src, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		snags, before := found(t, src)
		for _, s := range snags {
			if len(s.Mends) == 0 {
				t.Errorf("%s: %s has no mend", file, s.What)
				continue
			}
			m := s.Mends[0]
			if m.Edits == nil {
				continue
			}
			mended, ok := span.Apply(src, m.Edits)
			if !ok {
				t.Fatalf("%s: %s: the edits do not apply", file, m.Says)
			}
			left, errors := found(t, mended)
			for _, x := range left {
				if key(x) == key(s) {
					t.Errorf("%s: %s\n%s: still %s", file, s.What, m.Says, x.What)
				}
			}
			for _, x := range errors {
				if !slices.ContainsFunc(before, func(y snag.Snag) bool { return key(x) == key(y) }) {
					t.Errorf("%s: %s\n%s: brings %s", file, s.What, m.Says, x.What)
				}
			}
			done[s.Code] = true
		}
	}
	for _, code := range []snag.Code{"screw-long", "screw-short", "bolt-length", "edge-near", "spacing-near", "no-room-to-fasten", "bolt-blocked", "corrosion", "metals-mixed"} {
		if !done[code] {
			t.Errorf("no mend of %s was tried", code)
		}
	}
}

// key tells snags of different joints apart.
func key(s snag.Snag) string {
	joint, _, _ := strings.Cut(s.What, ":")
	return fmt.Sprint(s.Code, " ", joint)
}
