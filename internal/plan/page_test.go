package plan

import (
	"encoding/binary"
	"encoding/xml"
	"io"
	"math"
	"strings"
	"testing"
)

// readable parses HTML that is also XML, and returns its ids and its words.
func readable(t *testing.T, html string) (ids map[string]bool, words string) {
	t.Helper()
	ids = map[string]bool{}
	d := xml.NewDecoder(strings.NewReader("<body>" + html + "</body>"))
	var b strings.Builder
	for {
		tok, err := d.Token()
		if err == io.EOF {
			return ids, b.String()
		}
		if err != nil {
			t.Fatalf("the page is not well formed: %v\n%s", err, html[max(0, int(d.InputOffset())-300):d.InputOffset()])
		}
		switch x := tok.(type) {
		case xml.StartElement:
			if x.Name.Local == "script" {
				t.Error("a script stands in a chapter")
			}
			for _, a := range x.Attr {
				if strings.HasPrefix(a.Name.Local, "on") || a.Name.Local == "style" {
					t.Errorf("attribute %s", a.Name.Local)
				}
				if a.Name.Local == "id" {
					if ids[a.Value] {
						t.Errorf("two places are called %s", a.Value)
					}
					ids[a.Value] = true
				}
			}
		case xml.CharData:
			b.Write(x)
		}
	}
}

// The page says what the book says: every part, purchase, step and note, with the
// same figures; and every place that is linked to is there.
func TestThePageSaysThePlan(t *testing.T) {
	for _, file := range examples {
		p := sound(t, example(t, file), Book)
		page := p.Page(PageOptions{})
		ids, words := readable(t, page.HTML())
		words = strings.Join(strings.Fields(words), " ")
		for _, id := range []string{"front", "first", "boards", "buy", "parts", "saw", "steps", "changes"} {
			if !ids[id] {
				t.Errorf("%s: no chapter %s", file, id)
			}
		}
		primes := strings.NewReplacer(`"`, "″", "'", "′")
		has := func(what, s string) {
			if !strings.Contains(words, s) {
				t.Errorf("%s: %s %q is not on the page", file, what, s)
			}
		}
		for _, x := range p.Readings.Parts {
			has("part", x.Letter)
			has("length", primes.Replace(x.Long.Text))
			if x.Shaped && !ids["sheet-"+x.Letter] {
				t.Errorf("%s: part %s has no sheet", file, x.Letter)
			}
		}
		for _, l := range p.Readings.Buy.Hardware {
			has("pack", l.Packs)
		}
		for _, s := range p.Readings.Steps {
			has("step", s.Name)
		}
		if has("cost", primes.Replace(p.Readings.Buy.Cost.Text)); len(page.Model.Steps) != len(p.Readings.Steps) {
			t.Errorf("%s: the picture plays %d steps of %d", file, len(page.Model.Steps), len(p.Readings.Steps))
		}
		fresh, driven := 0, 0
		for _, s := range page.Model.Steps {
			fresh += len(s.New)
			driven += len(s.Axes)
			if len(s.New) != len(s.From) {
				t.Errorf("%s, step %d: %d boards come %d ways", file, s.Number, len(s.New), len(s.From))
			}
		}
		if fresh == 0 || driven == 0 && len(page.Model.Axes) > 0 {
			t.Errorf("%s: the steps add %d boards and drive %d fasteners", file, fresh, driven)
		}
	}
}

// What a designer writes is words on the page, never tags.
func TestThePageKeepsWordsWords(t *testing.T) {
	src := string(example(t, "sorting-table"))
	src = strings.Replace(src, "piece: Orchard sorting table", `piece: "<script>alert(1)</script> & 'co'"`, 1)
	src = strings.Replace(src, "says: length of the top", `says: "<img src=x onerror=alert(1)>"`, 1)
	p := sound(t, []byte(src), Settled)
	page := p.Page(PageOptions{Editing: true})
	readable(t, page.HTML())
	readable(t, page.Glance.Lead+page.Glance.Facts+page.Glance.Care)
	if !strings.Contains(page.HTML(), "&lt;script&gt;") {
		t.Error("the name of the piece is not on the page")
	}
}

// The picture's solids are the plan's: as many boards, and the volume inside the
// triangles is that of the wood.
func TestTheSceneIsThePiece(t *testing.T) {
	for _, file := range examples {
		p := sound(t, example(t, file), Live)
		b := p.Scene()
		word := func() (v uint32) { v = binary.LittleEndian.Uint32(b); b = b[4:]; return v }
		n := int(word())
		if n != len(p.Piece.Boards) {
			t.Fatalf("%s: %d boards in the picture, %d in the piece", file, n, len(p.Piece.Boards))
		}
		counts := make([][2]int, n)
		for i := range counts {
			counts[i] = [2]int{int(word()), int(word())}
		}
		real := func() float64 { return float64(math.Float32frombits(word())) }
		for i, c := range counts {
			volume := 0.0
			for range c[0] / 3 {
				var at [3][3]float64
				for k := range at {
					at[k] = [3]float64{real(), real(), real()}
					real()
					real()
					real()
				}
				u, v, w := at[0], at[1], at[2]
				volume += (u[0]*(v[1]*w[2]-v[2]*w[1]) + u[1]*(v[2]*w[0]-v[0]*w[2]) + u[2]*(v[0]*w[1]-v[1]*w[0])) / 6
			}
			for range c[1] * 3 {
				real()
			}
			want := p.Piece.Boards[i].Solid.Volume
			if math.Abs(volume-want) > 1e-4*want { // float32 holds a place of 2 m to 0.0001 mm
				t.Errorf("%s, %s: %.0f mm³ in the picture, %.0f in the piece", file, p.Piece.Boards[i].ID, volume, want)
			}
			if c[1] < 24 {
				t.Errorf("%s, %s: %d line ends", file, p.Piece.Boards[i].ID, c[1])
			}
		}
		if len(b) != 0 {
			t.Errorf("%s: %d bytes too many", file, len(b))
		}
	}
}
