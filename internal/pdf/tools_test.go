//go:build !js

package pdf

import (
	"bytes"
	"os/exec"
	"regexp"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"scantling/internal/drawing"
	"scantling/internal/typeset"
)

func run(t *testing.T, name string, args ...string) string {
	t.Helper()
	out, err := exec.Command(name, args...).CombinedOutput()
	if err != nil {
		t.Fatalf("%s %s: %v\n%s", name, strings.Join(args, " "), err, out)
	}
	return string(out)
}

func TestQpdfFindsNothingWrong(t *testing.T) {
	path, _ := written(t, sample())
	if out := run(t, "qpdf", "--check", path); !strings.Contains(out, "No syntax or stream encoding errors") {
		t.Errorf("qpdf --check says:\n%s", out)
	}
}

// What is copied out must read as the plan says it, fractions as n/d.
func TestTextComesOutAgain(t *testing.T) {
	path, _ := written(t, sample())
	text := run(t, "pdftotext", "-layout", path, "-")
	for _, want := range []string{"Sorting table", "the saw to 47 13/16\"", `69 1/2"`, `33 13/16"`, "At the saw", `8 1/2"`} {
		if !strings.Contains(text, want) {
			t.Errorf("pdftotext does not give %q:\n%s", want, text)
		}
	}
}

// The structure tree, as poppler reads it, is the tree of the groups: the table
// is one table on two pages, its head there once, the foot not at all.
func TestStructure(t *testing.T) {
	path, _ := written(t, sample())
	got := run(t, "pdfinfo", "-struct-text", path)
	want := `Document
  Part
    H1 (block)
      "Sorting table"
    H2 (block)
      "Parts"
    P (block)
      "Cut the legs at "
      Link (inline)
        "the saw"
        Object
      " to "
      Span (inline)
        "471316″"
    Figure:
       /Placement /Block
       /BBox [113.386 365.669 340.157 451.843]
      "812″"
    Table (block)
      TR
        TH:
           /Scope /Column
          "letter"
        TH:
           /Scope /Column
          "long"
      TR
        TH:
           /Scope /Row
          "A"
        TD
          Span (inline)
            "6912″"
      TR
        TH:
           /Scope /Row
          "B"
        TD
          Span (inline)
            "331316″"
  Part
    H2 (block)
      "At the saw"
    L (block)
      LI (block)
        LBody (block)
          "longest first"
`
	got = regexp.MustCompile(`Object \d+ \d+`).ReplaceAllString(got, "Object")
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("pdfinfo -struct-text (- want, + got):\n%s", diff)
	}
	// The program shows glyphs; what is read in their place stands beside them.
	if _, data := written(t, sample()); !bytes.Contains(data, []byte("/S/Span")) || !bytes.Contains(data, []byte("/ActualText"+text(`47 13/16"`))) {
		t.Error("no element reads as 47 13/16\"")
	}
	info := run(t, "pdfinfo", path)
	for _, want := range []string{"Tagged:          yes", "Title:           Sorting table (6 ft)", "Pages:           2", "Page size:       612 x 792 pts (letter)"} {
		if !strings.Contains(info, want) {
			t.Errorf("pdfinfo does not say %q:\n%s", want, info)
		}
	}
}

func TestFontsAreEmbeddedSubsets(t *testing.T) {
	both := sample()
	both.Sheets[0].Add(at(20, 200, typeset.Span{Text: "heavy", Style: typeset.Style{Face: typeset.Semibold, Size: 11}}))
	for want, d := range map[int]*drawing.Document{1: sample(), 2: both} {
		path, _ := written(t, d)
		out := run(t, "pdffonts", path)
		if n := strings.Count(out, "CID TrueType      Identity-H       yes yes yes"); n != want {
			t.Errorf("%d fonts are embedded subsets with a map to characters, want the %d that are used:\n%s", n, want, out)
		}
	}
}

// Names people may write anywhere: none may break the file, and all come out
// again in the title.
func TestAwkwardNames(t *testing.T) {
	for _, name := range []string{``, `a (b) \ c`, `((`, `\)`, "O’Hara & Söhne <x>", "木の椅子", "🪑 chair", "a\tb\x00c", "]]>endstream endobj"} {
		d := sample()
		d.Title, d.Subject, d.Lang = name, name, "en-US"
		link := words(name)
		link.Link = "https://example.org/(" + name + ")"
		g := group(drawing.RoleFigure, name, at(20, 220, words(name)))
		g.Alt = name
		d.Sheets[0].Add(g, group(drawing.RolePara, "", at(20, 230, link)))
		d.Bookmarks[0].Says = name
		path, _ := written(t, d)
		if out := run(t, "qpdf", "--check", path); !strings.Contains(out, "No syntax or stream encoding errors") {
			t.Errorf("with the name %q qpdf --check says:\n%s", name, out)
		}
	}
}
