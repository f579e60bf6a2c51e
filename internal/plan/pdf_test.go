//go:build !js

package plan

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// pdfText writes a plan's book to a file, has qpdf check it and returns the text
// of each page as pdftotext reads it.
func pdfText(t *testing.T, p *Plan) []string {
	t.Helper()
	files, err := p.Files()
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "plan.pdf")
	if files[0].Path != "plan.pdf" {
		t.Fatalf("the first file is %s", files[0].Path)
	}
	if err := os.WriteFile(path, files[0].Bytes, 0o644); err != nil {
		t.Fatal(err)
	}
	if out, err := exec.Command("qpdf", "--check", path).CombinedOutput(); err != nil || strings.Contains(string(out), "WARNING") {
		t.Errorf("qpdf --check: %v\n%s", err, out)
	}
	out, err := exec.Command("pdftotext", "-layout", path, "-").Output()
	if err != nil {
		t.Fatalf("pdftotext: %v", err)
	}
	pages := strings.Split(strings.TrimSuffix(string(out), "\f"), "\f")
	for i := range pages {
		pages[i] = strings.Join(strings.Fields(pages[i]), " ")
	}
	return pages
}

// The book as a PDF is sound, and what a builder looks for can be found in its
// text: the piece, every part with its letter and length, every bought board,
// every step, and on each page which plan it is and its number.
func TestBookAsPDF(t *testing.T) {
	for _, c := range []struct{ file, paper string }{{"sorting-table", "letter"}, {"pickers-chair", "a4"}} {
		p := with(t, example(t, c.file), Options{Want: Book, Paper: c.paper})
		pages := pdfText(t, p)
		if len(pages) != len(p.Book.Sheets) {
			t.Fatalf("%s: %d pages of %d sheets", c.file, len(pages), len(p.Book.Sheets))
		}
		r := p.Readings
		for i, page := range pages {
			for _, foot := range []string{"revision " + r.Revision, number(i+1, len(pages)), "All sizes are in inches"} {
				if !strings.Contains(page, foot) {
					t.Errorf("%s: page %d does not say %q", c.file, i+1, foot)
				}
			}
			if strings.Contains(page, notYet) {
				t.Errorf("%s: page %d says %q of a sound plan", c.file, i+1, notYet)
			}
		}
		text := strings.Join(pages, " ")
		for _, q := range r.Parts {
			if line := regexp.MustCompile(`\b` + q.Letter + ` \w+[^$]{0,60} ` + regexp.QuoteMeta(q.Long.Text)); !line.MatchString(text) {
				t.Errorf("%s: no line of the text has part %s with its length %s", c.file, q.Letter, q.Long.Text)
			}
		}
		for _, s := range r.Steps {
			if !strings.Contains(text, s.Name) {
				t.Errorf("%s: the text has no step %q", c.file, s.Name)
			}
		}
		for _, want := range []string{r.Overall[0].Text, r.Overall[2].Text, r.Mass.Text, r.Buy.Cost.Text} {
			if !strings.Contains(text, want) {
				t.Errorf("%s: the text has no %q", c.file, want)
			}
		}
	}
}

const notYet = "NOT BUILDABLE YET"

func number(page, of int) string { return fmt.Sprintf("page %d of %d", page, of) }

// A plan with an error is still a book, and every page of it says so.
func TestErrorsMarkEveryPage(t *testing.T) {
	src := without(t, example(t, "pickers-chair"), "  - that: first_gap <= 2\"", "  - {that: seat_height < 12\", else: Far too high.}\n  - that: first_gap <= 2\"")
	p := run(t, src, Book)
	if p.Snags.Errors() != 1 {
		t.Fatal(p.Messages())
	}
	pages := pdfText(t, p)
	for i, page := range pages {
		if !strings.Contains(page, notYet) {
			t.Errorf("page %d does not say %q", i+1, notYet)
		}
	}
	if text := strings.Join(pages, " "); !strings.Contains(text, "Far too high") {
		t.Error("the book does not say what to mend")
	}
}
