//go:build !js

package book

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"scantling/internal/pdf"
)

func run(t *testing.T, name string, args ...string) string {
	t.Helper()
	out, err := exec.Command(name, args...).CombinedOutput()
	if err != nil {
		t.Fatalf("%s: %v\n%s", name, err, out)
	}
	return string(out)
}

func TestPDF(t *testing.T) {
	for name, d := range editions() {
		var a, b bytes.Buffer
		if err := pdf.Write(&a, d); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if err := pdf.Write(&b, editions()[name]); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if !bytes.Equal(a.Bytes(), b.Bytes()) {
			t.Errorf("%s: two runs wrote different bytes", name)
		}
		path := filepath.Join(t.TempDir(), "plan.pdf")
		if err := os.WriteFile(path, a.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
		if out := run(t, "qpdf", "--check", path); !strings.Contains(out, "No syntax or stream encoding errors") {
			t.Errorf("%s: qpdf --check says:\n%s", name, out)
		}
		// Words as a reader copies them out, line ends apart.
		text := strings.Join(strings.Fields(run(t, "pdftotext", path, "-")), " ")
		for _, want := range []string{`1 1/2" × 4" × 33 13/16"`, `Along one edge 33 5/16"`, `Or step 9/16" along the edge`, "no. 8 × 2 1/2 deck screw", `69 1/2"`, "First read this", "Part sheets"} {
			if !strings.Contains(text, want) {
				t.Errorf("%s: pdftotext does not give %q", name, want)
			}
		}
		outline := run(t, "qpdf", "--json=2", "--json-key=outlines", path)
		for _, m := range d.Bookmarks {
			if !strings.Contains(outline, m.Says) {
				t.Errorf("%s: no bookmark says %q", name, m.Says)
			}
		}
	}
}
