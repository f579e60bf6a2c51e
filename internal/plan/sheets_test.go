//go:build !js

package plan

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"scantling/internal/drawing"
	"scantling/internal/svg"
)

// odd are settings of both examples far from each other: every size at one end,
// at the other, and by turns.
func odd(p *Plan) [][]string {
	n := len(p.Piece.Sizes)
	return [][]string{nil, corner(p, 0), corner(p, 1<<n-1), corner(p, 0b010101), corner(p, 0b101010)}
}

// Whatever the sizes, no text of any picture or page lies on another, on a line
// or past the paper, on either paper.
func TestNothingUnreadable(t *testing.T) {
	for _, file := range examples {
		src := example(t, file)
		first := sound(t, src, Live)
		for i, set := range odd(first) {
			set = append(set, choices(first)[i%2]...)
			for _, paper := range []string{"letter", "a4"} {
				p := with(t, src, Options{Want: Book, Paper: paper}, set...)
				seen := 0
				check := func(name string, s *drawing.Sheet) {
					seen++
					for _, c := range s.Clashes() {
						t.Errorf("%s %v, %s, %s: %v", file, set, paper, name, c)
					}
				}
				for k, s := range p.Book.Sheets {
					check(fmt.Sprintf("page %d", k+1), s)
				}
				if paper == "letter" { // pictures as files are the same for both
					for _, s := range p.sheets() {
						check(s.name, s.sheet)
					}
				}
				if seen < 10 {
					t.Errorf("%s %v: only %d sheets looked at", file, set, seen)
				}
			}
		}
	}
}

// Pictures and pages are the same bytes each time, as SVG too; every drawing that
// is written shows something.
func TestDrawingsTwice(t *testing.T) {
	for _, file := range examples {
		src := example(t, file)
		a, b := sound(t, src, Book), sound(t, src, Book)
		one, err := a.Files()
		if err != nil {
			t.Fatal(err)
		}
		two, err := b.Files()
		if err != nil {
			t.Fatal(err)
		}
		if len(one) != len(two) || len(one) < 15 {
			t.Fatalf("%s: %d files, then %d", file, len(one), len(two))
		}
		for i := range one {
			if one[i].Path != two[i].Path || !bytes.Equal(one[i].Bytes, two[i].Bytes) {
				t.Errorf("%s: %s differs from one run to the next", file, one[i].Path)
			}
			if strings.HasSuffix(one[i].Path, ".svg") && bytes.Count(one[i].Bytes, []byte("<path")) == 0 {
				t.Errorf("%s: %s shows nothing", file, one[i].Path)
			}
		}
		for k, s := range a.Book.Sheets {
			var x bytes.Buffer
			if err := svg.Write(&x, s); err != nil || x.Len() == 0 {
				t.Errorf("%s: page %d as SVG: %d bytes, %v", file, k+1, x.Len(), err)
			}
		}
	}
}
