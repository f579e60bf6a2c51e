package svg

import (
	"bytes"
	"encoding/xml"
	"flag"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"scantling/internal/drawing"
	"scantling/internal/typeset"
)

var update = flag.Bool("update", false, "rewrite the golden drawing")

func sheet() *drawing.Sheet {
	turned := drawing.Label(drawing.Point{X: 30, Y: 18}, typeset.Left, typeset.Span{Text: `8 1/2"`, Style: typeset.Style{Size: 9}, Kind: typeset.Figure})
	turned.Turn, turned.Halo = 90, true
	s := &drawing.Sheet{W: 60, H: 25, Title: `A "box" & its waste`, Alt: "A box 40 by 15."}
	s.Add(drawing.Fill{Loops: [][]drawing.Point{drawing.Rect(10, 5, 40, 15), drawing.Rect(25, 8, 10, 10)}, Tone: drawing.ToneWaste},
		drawing.Stroke{Path: drawing.Rect(10, 5, 40, 15), Closed: true, Weight: drawing.Wide},
		&drawing.Group{Role: drawing.RoleFigure, Alt: "the top < the rest", Items: []drawing.Item{
			drawing.Stroke{Path: []drawing.Point{{X: 10, Y: 12}, {X: 50, Y: 12}}, Dash: drawing.Hidden}}},
		turned)
	return s
}

// The golden file guards every kind of item: hatching cut off at a hole, a dashed
// line, turned text with a halo, a stacked fraction, and names that need escapes.
func TestGolden(t *testing.T) {
	var b bytes.Buffer
	if err := Write(&b, sheet()); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join("testdata", "box.svg")
	if *update {
		if err := os.WriteFile(path, b.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), b.String()); diff != "" {
		t.Errorf("box.svg (- want, + got):\n%s", diff)
	}
}

// Any words give a well-formed file that says them, and draws each letter with
// an outline that is there.
func TestAnyWords(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		says := rapid.String().Draw(t, "words")
		s := sheet()
		s.Title = says
		s.Add(drawing.Label(drawing.Point{X: 5, Y: 5}, typeset.Left, typeset.Span{Text: says, Style: typeset.Style{Size: 8}}))
		var b bytes.Buffer
		if err := Write(&b, s); err != nil {
			t.Fatal(err)
		}
		ids, uses := map[string]bool{}, map[string]bool{}
		labels := map[string]bool{}
		d := xml.NewDecoder(&b)
		for {
			tok, err := d.Token()
			if err == io.EOF {
				break
			}
			if err != nil {
				t.Fatalf("not well formed: %v", err)
			}
			e, ok := tok.(xml.StartElement)
			if !ok {
				continue
			}
			for _, a := range e.Attr {
				switch a.Name.Local {
				case "id":
					ids[a.Value] = true
				case "href":
					uses[strings.TrimPrefix(a.Value, "#")] = true
				case "aria-label":
					labels[strings.TrimSpace(a.Value)] = true
				}
			}
		}
		for u := range uses {
			if !ids[u] {
				t.Errorf("a letter uses outline %s, which is not in the file", u)
			}
		}
		if says := strings.TrimSpace(printable(says)); says != "" && !labels[says] {
			t.Errorf("no label says %q: %v", says, labels)
		}
	})
}

// printable is what XML can hold of a text: a newline in an attribute, and a space that is not broken, read as a
// space.
func printable(s string) string {
	return strings.Map(func(r rune) rune {
		if r < ' ' && r != '\t' || r == '\u00a0' || r == '\uFFFE' || r == '\uFFFF' {
			return ' '
		}
		return r
	}, strings.ToValidUTF8(s, "\uFFFD"))
}
