package pdf

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

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
