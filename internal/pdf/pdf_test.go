package pdf

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"scantling/internal/drawing"
	"scantling/internal/typeset"
)

func words(s string) typeset.Span {
	return typeset.Span{Text: s, Style: typeset.Style{Size: 11}}
}

func figure(s string) typeset.Span {
	return typeset.Span{Text: s, Style: typeset.Style{Size: 11}, Kind: typeset.Figure}
}

func at(x, y float64, spans ...typeset.Span) drawing.Text {
	return drawing.Label(drawing.Point{X: x, Y: y}, typeset.Left, spans...)
}

func group(role drawing.Role, key string, items ...drawing.Item) *drawing.Group {
	return &drawing.Group{Role: role, Key: key, Items: items}
}

// sample is two pages with everything a plan has: headings, a paragraph with a
// link, a table that goes on overleaf under a repeated head, a list, a picture.
func sample() *drawing.Document {
	link := words("the saw")
	link.Link, link.Live = "saw", true
	head := func() *drawing.Group {
		return group(drawing.RoleRow, "", group(drawing.RoleHeadCell, "", at(20, 60, words("letter"))), group(drawing.RoleHeadCell, "", at(60, 60, words("long"))))
	}
	row := func(y float64, letter, long string) *drawing.Group {
		return group(drawing.RoleRow, "", group(drawing.RoleRowHead, "", at(20, y, words(letter))), group(drawing.RoleCell, "", at(60, y, figure(long))))
	}
	turned := at(100, 150, figure(`8 1/2"`))
	turned.Turn, turned.Halo = 90, true
	picture := group(drawing.RoleFigure, "front", drawing.Fill{Loops: [][]drawing.Point{drawing.Rect(40, 120, 80, 30)}, Tone: drawing.ToneWaste},
		drawing.Stroke{Path: drawing.Rect(40, 120, 80, 30), Closed: true, Weight: drawing.Wide},
		drawing.Stroke{Path: []drawing.Point{{X: 40, Y: 130}, {X: 120, Y: 130}}, Dash: drawing.Hidden}, turned)
	picture.Alt = "The front: a box, 80 mm wide"
	one := &drawing.Sheet{W: 215.9, H: 279.4}
	one.Add(group(drawing.RolePart, "parts", group(drawing.RoleTitle, "", at(20, 20, words("Sorting table"))),
		group(drawing.RoleHeading1, "", drawing.Anchor{Name: "parts", At: drawing.Point{X: 20, Y: 35}}, at(20, 40, words("Parts"))),
		group(drawing.RolePara, "", at(20, 50, words("Cut the legs at ")), at(20, 55, link, words(" to "), figure(`47 13/16"`))),
		picture, group(drawing.RoleTable, "parts", head(), row(70, "A", `69 1/2"`))),
		group(drawing.RoleArtifact, "", at(20, 270, words("page 1 of 2"))))
	two := &drawing.Sheet{W: 215.9, H: 279.4}
	two.Add(group(drawing.RolePart, "parts", group(drawing.RoleTable, "parts", group(drawing.RoleArtifact, "", head()), row(70, "B", `33 13/16"`))),
		group(drawing.RolePart, "saw", group(drawing.RoleHeading1, "", drawing.Anchor{Name: "saw", At: drawing.Point{X: 20, Y: 95}}, at(20, 100, words("At the saw"))),
			group(drawing.RoleList, "l", group(drawing.RoleListItem, "", at(20, 110, words("longest first"))))))
	return &drawing.Document{Title: "Sorting table (6 ft)", Subject: "A plan", Lang: "en-US", Sheets: []*drawing.Sheet{one, two},
		Bookmarks: []drawing.Bookmark{{Says: "Parts", Anchor: "parts", Under: []drawing.Bookmark{{Says: "the saw", Anchor: "saw"}}}, {Says: "At the saw", Anchor: "saw"}}}
}

func written(t *testing.T, d *drawing.Document) (path string, data []byte) {
	t.Helper()
	var b bytes.Buffer
	if err := Write(&b, d); err != nil {
		t.Fatal(err)
	}
	path = filepath.Join(t.TempDir(), "plan.pdf")
	if err := os.WriteFile(path, b.Bytes(), 0o644); err != nil {
		t.Fatal(err)
	}
	return path, b.Bytes()
}

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

func TestSameDocumentSameBytes(t *testing.T) {
	_, a := written(t, sample())
	_, b := written(t, sample())
	if !bytes.Equal(a, b) {
		t.Error("two runs wrote different bytes")
	}
	d := sample()
	d.Title = "Other"
	_, c := written(t, d)
	id := regexp.MustCompile(`/ID\[<\w+>`)
	if bytes.Equal(id.Find(a), id.Find(c)) {
		t.Error("two documents have one identifier")
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

func TestWhatCannotBeWritten(t *testing.T) {
	lost := sample()
	lost.Bookmarks[0].Anchor = "nowhere"
	for _, c := range []struct {
		doc  *drawing.Document
		says string
	}{
		{&drawing.Document{}, "no page"},
		{lost, `"nowhere"`},
	} {
		if err := Write(&bytes.Buffer{}, c.doc); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("the error is %v, want one that says %s", err, c.says)
		}
	}
}
