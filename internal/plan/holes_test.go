package plan

import (
	"bytes"
	"encoding/json"
	"encoding/xml"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"scantling/internal/svg"
)

// A drawn part is what an eye finds on the sheet of a part, read from the SVG file
// alone: two rectangles of broad lines, circles, and words where they stand.
type drawn struct {
	face, edge [4]float64    // left, top, right and bottom of the show face and of the edge below it, in mm of paper
	circles    [][3]float64  // x, y, radius
	words      []writtenWord // in order
}

type writtenWord struct {
	text string
	x, y float64
}

func readSheet(t *testing.T, file []byte) (d drawn) {
	t.Helper()
	var broad [][4]float64
	var chain [][2]float64 // the corners of the polygon being followed
	x := xml.NewDecoder(bytes.NewReader(file))
	for {
		tok, err := x.Token()
		if err != nil {
			break
		}
		e, ok := tok.(xml.StartElement)
		if !ok {
			continue
		}
		at := map[string]string{}
		for _, a := range e.Attr {
			at[a.Name.Local] = a.Value
		}
		if says := at["aria-label"]; says != "" && at["transform"] != "" {
			w := writtenWord{text: says}
			if _, err := fmt.Sscanf(at["transform"], "translate(%g %g)", &w.x, &w.y); err == nil {
				d.words = append(d.words, w)
			}
		}
		var l [4]float64
		if n, _ := fmt.Sscanf(strings.NewReplacer("M", "", "L", " ").Replace(at["d"]), "%g %g %g %g", &l[0], &l[1], &l[2], &l[3]); n != 4 || at["stroke"] == "" || strings.Count(at["d"], "L") != 1 {
			continue
		}
		if at["stroke-width"] == "0.5" {
			broad = append(broad, l)
		}
		if n := len(chain); n > 0 && chain[n-1] != [2]float64{l[0], l[1]} {
			chain = nil
		}
		if chain == nil {
			chain = [][2]float64{{l[0], l[1]}}
		}
		if chain = append(chain, [2]float64{l[2], l[3]}); len(chain) == 25 && chain[0] == chain[24] {
			var c [3]float64
			for _, p := range chain[1:] {
				c[0], c[1] = c[0]+p[0]/24, c[1]+p[1]/24
			}
			c[2] = math.Hypot(chain[0][0]-c[0], chain[0][1]-c[1])
			d.circles, chain = append(d.circles, c), nil
		}
	}
	// The edge lies below the face, parted from it by paper: the widest band no broad
	// line runs in.
	around := func(low, high float64) (r [4]float64) {
		r = [4]float64{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
		for _, l := range broad {
			if math.Min(l[1], l[3]) >= low && math.Max(l[1], l[3]) <= high {
				r[0], r[1] = math.Min(r[0], math.Min(l[0], l[2])), math.Min(r[1], math.Min(l[1], l[3]))
				r[2], r[3] = math.Max(r[2], math.Max(l[0], l[2])), math.Max(r[3], math.Max(l[1], l[3]))
			}
		}
		return r
	}
	best, split := 0.0, 0.0
	for _, a := range broad {
		bottom := math.Max(a[1], a[3])
		next := math.Inf(1)
		for _, b := range broad {
			if low, high := math.Min(b[1], b[3]), math.Max(b[1], b[3]); high > bottom+0.01 {
				next = math.Min(next, math.Max(low, bottom))
			}
		}
		if !math.IsInf(next, 1) && next-bottom > best {
			best, split = next-bottom, (next+bottom)/2
		}
	}
	d.face, d.edge = around(math.Inf(-1), split), around(split, math.Inf(1))
	return d
}

// The plan's JSON, as far as holes go.
type holesOfParts struct {
	Parts []struct {
		Letter string
		Length struct{ MM float64 }
		Thick  struct{ MM float64 } `json:"thickness"`
		Wide   struct{ MM float64 } `json:"width"`
		Holes  []struct {
			Kind, Face, End string
			Rim             string `json:"edge"`
			Bit             struct{ MM float64 }
			FromEnd         struct {
				MM    float64
				Shown string
			} `json:"from_end"`
			FromRim struct{ MM float64 } `json:"from_edge"`
		}
	}
}

// Every hole that a part's list names is on its drawing, where the list says, and
// every circle of the drawing is in the list. The drawing is read back from the SVG
// file, the list from the JSON.
func TestHolesOnTheDrawings(t *testing.T) {
	files, err := filepath.Glob("../../examples/*.yaml")
	if err != nil || len(files) < 5 {
		t.Fatal(files, err)
	}
	seen := 0
	for _, file := range append(files, "testdata/every-fastener.yaml", "testdata/every-metric-fastener.yaml") {
		src, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		p := run(t, src, Book)
		var list holesOfParts
		if err := json.Unmarshal(p.JSON(), &list); err != nil {
			t.Fatal(err)
		}
		for _, sheet := range p.sheets() {
			letter, ok := strings.CutPrefix(sheet.name, "part-")
			if !ok {
				continue
			}
			var out bytes.Buffer
			if err := svg.Write(&out, sheet.sheet); err != nil {
				t.Fatal(err)
			}
			d := readSheet(t, out.Bytes())
			for _, part := range list.Parts {
				if part.Letter == letter {
					seen += compareHoles(t, filepath.Base(file)+" "+letter, d, part.Length.MM, part.Wide.MM, part.Thick.MM, len(part.Holes), func(i int) (face, end, rim, shown string, bit, fromEnd, fromRim float64) {
						h := part.Holes[i]
						return h.Face, h.End, h.Rim, h.FromEnd.Shown, h.Bit.MM, h.FromEnd.MM, h.FromRim.MM
					})
				}
			}
		}
	}
	if seen < 50 {
		t.Errorf("only %d holes were compared", seen)
	}
}

// compareHoles measures the circles of a drawing against n holes of a list.
func compareHoles(t *testing.T, name string, d drawn, length, wide, thick float64, n int, hole func(int) (face, end, rim, shown string, bit, fromEnd, fromRim float64)) (seen int) {
	t.Helper()
	if n == 0 && len(d.circles) == 0 {
		return 0
	}
	scale := (d.face[2] - d.face[0]) / length
	show, near, left := "", "", ""
	leftmost := math.Inf(1)
	for _, w := range d.words {
		if rest, ok := strings.CutSuffix(w.text, " nearest"); ok {
			_, rest, _ = strings.Cut(rest, ": ")
			show, near, _ = strings.Cut(rest, " up, ")
		}
		if end, _, _ := strings.Cut(w.text, ","); strings.HasSuffix(end, " end") && w.x < leftmost {
			leftmost, left = w.x, end
		}
	}
	taken := make([]bool, len(d.circles))
	for i := range n {
		face, end, rim, shown, bit, fromEnd, fromRim := hole(i)
		if strings.HasSuffix(face, " end") {
			continue // an end is not drawn
		}
		x := fromEnd
		if end != left {
			x = length - fromEnd
		}
		box, across := d.face, wide
		low := near // the side along the bottom of the view
		if strings.HasSuffix(face, " edge") {
			box, across, low = d.edge, thick, "" // the under face; its name is not on the sheet
		}
		found := -1
		for k, c := range d.circles {
			right := box[0] + x*scale
			up := func(y float64) float64 { return box[3] - y*scale }
			onRim := math.Abs(c[1]-up(fromRim)) < 0.06 && (rim == low || low == "" && rim != show || strings.HasPrefix(rim, "either"))
			offRim := math.Abs(c[1]-up(across-fromRim)) < 0.06 && (low != "" && rim != low || rim == show || strings.HasPrefix(rim, "either"))
			if !taken[k] && math.Abs(c[0]-right) < 0.06 && (onRim || offRim) && math.Abs(c[2]/scale-bit/2) < 0.05*bit+0.01/scale {
				found = k
			}
		}
		if found < 0 {
			t.Errorf("%s: no circle for hole %d, %.2f mm wide in the %s, %s from the %s, %.2f mm from the %s (left is the %s, up the %s, near the %s)", name, i, bit, face, shown, end, fromRim, rim, left, show, near)
			continue
		}
		taken[found] = true
		seen++
		// Its running mark stands over or under it.
		marked := false
		for _, w := range d.words {
			marked = marked || math.Abs(w.x-d.circles[found][0]) < 8 && (w.text == shown || end != left)
		}
		if !marked {
			t.Errorf("%s: no mark says %s near the hole at %s", name, shown, strconv.FormatFloat(x, 'f', 1, 64))
		}
	}
	for k, c := range d.circles {
		if !taken[k] {
			t.Errorf("%s: a circle at %.2f, %.2f mm of the sheet is no hole of the list", name, c[0], c[1])
		}
	}
	return seen
}
