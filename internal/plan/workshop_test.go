package plan

import (
	"math"
	"regexp"
	"strings"
	"testing"

	"scantling/internal/measure"
	"scantling/internal/region"
	"scantling/internal/shop"
	"scantling/internal/snag"
)

func length(t testing.TB, text string) measure.Length {
	t.Helper()
	l, err := ParseLength(text, region.America)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func TestParseMeasured(t *testing.T) {
	for _, c := range []struct {
		text        string
		lumber      string
		thick, wide measure.Length
		says        string // of the error
	}{
		{"leg_stock=1 1/2 x 5 3/8", "leg_stock", 3 * measure.Inch / 2, 43 * measure.Inch / 8, ""},
		{` leg_stock = 1 1/2" × 5 3/8" `, "leg_stock", 3 * measure.Inch / 2, 43 * measure.Inch / 8, ""},
		{"leg_stock=38 mm x 137 mm", "leg_stock", 38 * measure.Millimetre, 137 * measure.Millimetre, ""},
		{"leg_stock=1.5 x 5.375", "leg_stock", 3 * measure.Inch / 2, 43 * measure.Inch / 8, ""},
		{"leg_stock 1 1/2 x 5 3/8", "", 0, 0, "has no ="},
		{"leg_stock=1 1/2", "", 0, 0, "gives one size and a board has two"},
		{"leg_stock=thick x 5", "", 0, 0, "the thickness in"},
		{"leg_stock=1 1/2 x 5°", "", 0, 0, "the width in"},
		{"leg_stock=1 1/2 x -5", "", 0, 0, "less than nothing"},
	} {
		m, err := ParseMeasured(c.text, region.America)
		if c.says != "" {
			if err == nil || !strings.Contains(err.Error(), c.says) {
				t.Errorf("%s: %+v, %v, want an error saying %q", c.text, m, err, c.says)
			}
			continue
		}
		if err != nil || m != (Measured{c.lumber, c.thick, c.wide}) {
			t.Errorf("%s: %+v, %v", c.text, m, err)
		}
	}
}

func TestParseOnHand(t *testing.T) {
	for _, c := range []struct{ text, want, says string }{
		{`2x6 southern pine, ground contact, 50"`, `1 of 2x6 southern pine, ground contact, 50"`, ""},
		{`3 of 5/4x6 radius edge western redcedar, 5', $2`, `3 of 5/4x6 radius edge western red cedar, 60", $2.00`, ""},
		{`2 of 2x4 syp, 8', No. 2, UC3B`, `2 of 2x4 southern pine, No. 2, above ground, 96"`, ""},
		{`2x6 southern pine`, "", "does not say how long"},
		{`2x6, 50"`, "", "does not say of what wood"},
		{`2x6 pine, 50"`, "", "may be any of"},
		{`2x5 southern pine, 50"`, "", "no sale size"},
		{`0 of 2x6 southern pine, 50"`, "", "no number of boards"},
		{`2x6 southern pine, 5°`, "", "is no length"},
		{``, "", "no size is given"},
	} {
		h, err := ParseOnHand(c.text, region.America)
		if c.says != "" {
			if err == nil || !strings.Contains(err.Error(), c.says) {
				t.Errorf("%q: %v, %v, want an error saying %q", c.text, h, err, c.says)
			}
			continue
		}
		if err != nil || h.String() != c.want {
			t.Errorf("%q: %v, %v, want %s", c.text, h, err, c.want)
		}
	}
}

// What is read once reads back as it was said.
func FuzzParseOnHand(f *testing.F) {
	for _, s := range []string{`2 of 2x6 southern pine, No. 2, ground contact, 50", $4`, `5/4x6 radius edge ipe, 1 m`, `x, , 2`} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		h, err := ParseOnHand(text, region.America)
		if err != nil {
			return
		}
		again, err := ParseOnHand(h.String(), region.America)
		if err != nil || again != h {
			t.Errorf("%q is %+v and reads back as %+v, %v", text, h, again, err)
		}
	})
}

func FuzzParseMeasured(f *testing.F) {
	for _, s := range []string{"leg_stock=1 1/2 x 5 3/8", "a=38 mm x 137 mm", "= x "} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if m, err := ParseMeasured(text, region.America); err == nil && (m.Thick < 0 || m.Wide < 0) {
			t.Errorf("%q is %+v", text, m)
		}
	})
}

// A shelf on the edges of its bearers is as high as they are wide.
const shelf = `piece: Shelf
lumber:
  frame: {size: 2x4, wood: southern pine, treatment: ground contact}
  slat: {size: 5/4x6 square edge, wood: western red cedar}
parts:
  bearer:
    of: frame
    length: 24"
    place: {runs: back, faces: left, left: 10" left of middle, bottom: floor}
    copies: [mirror: left-right]
  plank:
    of: slat
    length: 24"
    place: {runs: right, faces: up, bottom: bearer.top, front: 10" in front of middle}
    copies: [mirror: front-back]
joints:
  down: {join: [plank, bearer], with: screw 8 x 2 1/2, through: plank}
steps:
  - {name: All, add: [bearer, plank], fasten: [down]}
`

func TestShelfDropsWithItsFrame(t *testing.T) {
	src := []byte(shelf)
	was := sound(t, src, Settled)
	is := with(t, src, Options{Want: Settled, Measured: []Measured{{"frame", length(t, "1 1/2"), length(t, "3 7/16")}}})
	if is.Snags.Errors() > 0 {
		t.Fatal(is.Messages())
	}
	drop := was.Readings.Overall[2].Exact.V - is.Readings.Overall[2].Exact.V
	if sixteenth := float64(measure.Inch) / 16; math.Abs(drop-sixteenth) > 1 || is.Readings.Overall[2].Text != `4 7/16"` {
		t.Errorf("%s high, and %s before: it should be 1/16\" lower", is.Readings.Overall[2].Text, was.Readings.Overall[2].Text)
	}
	var said []string
	for _, c := range is.Readings.Changes {
		said = append(said, c.What.String())
	}
	want := []string{`Your boards of frame, 2x4, are 3 7/16" wide, not 3 1/2".`,
		`The height over everything, 4 1/2", becomes 4 7/16", because your 2x4 is 3 7/16" wide.`,
		`Part A, bearer: its width, 3 1/2" becomes 3 7/16", because your 2x4 is 3 7/16" wide.`}
	for _, w := range want {
		if !strings.Contains(strings.Join(said, "\n"), w) {
			t.Errorf("the changes do not say %q but\n%s", w, strings.Join(said, "\n"))
		}
	}
	if is.Readings.Revision == was.Readings.Revision {
		t.Error("a plan of measured boards has the code of one without")
	}
}

// Measuring a stock changes only figures that follow from it, and every part
// whose sizes change says so and why; the same board measured as it is sold
// changes nothing.
func TestMeasuredBoards(t *testing.T) {
	const sixteenth = measure.Inch / 16
	compared := 0
	for _, file := range examples {
		src := example(t, file)
		was := sound(t, src, Settled)
		x := leaves(was.Readings)
		for _, l := range was.Piece.Lumber {
			for _, off := range [][2]measure.Length{{0, 0}, {0, -sixteenth}, {-sixteenth, 0}, {sixteenth / 2, sixteenth}, {-measure.Millimetre, -3 * measure.Millimetre}} {
				m := Measured{l.Name, l.Stock.T + off[0], l.Stock.W + off[1]}
				is := with(t, src, Options{Want: Settled, Revision: was.Readings.Revision, Measured: []Measured{m}})
				if is.Snags.Errors() > 0 {
					continue // a demand of the design that these boards do not meet
				}
				compared++
				if !is.Readings.Saw.Checked {
					t.Errorf("%s %s %v: the layout did not pass: %s", file, l.Name, off, is.Readings.Saw.Verdict.String())
				}
				y := leaves(is.Readings)
				for _, path := range paths(x, y) {
					a, ok1 := x[path]
					b, ok2 := y[path]
					if !ok1 || !ok2 || a.number == nil || b.number == nil || elsewhere.MatchString(path) || a.near(b) {
						continue
					}
					if !meets(a.number.From, l.From) && !meets(b.number.From, l.From) {
						t.Errorf("%s %s %v: %s: %v becomes %v and follows from no section", file, l.Name, off, path, a, b)
					}
				}
				changes(t, was.Readings, is.Readings, string(l.Stock.Size))
			}
		}
	}
	if compared < 20 {
		t.Errorf("only %d plans were sound enough to be compared", compared)
	}
}

// elsewhere are figures that are not held to account here: what is said of the
// changes themselves; bought boards, which go by their place in a list; and
// holes, which give way to fasteners of boards that touch theirs in no plane.
var elsewhere = regexp.MustCompile(`\.Change|\.Saw\.(Boards|Offcuts)|\.Holes`)

// changes sees that each part of is whose sizes are not as they were says why.
func changes(t *testing.T, was, is *shop.Readings, size string) {
	t.Helper()
	old := map[string]*shop.Part{}
	for _, p := range was.Parts {
		for _, id := range p.Boards {
			old[string(id)] = p
		}
	}
	for _, p := range is.Parts {
		q := old[string(p.Master)]
		same := q != nil && q.Long.Text == p.Long.Text && q.Wide.Text == p.Wide.Text && q.Thick.Text == p.Thick.Text && textOf(q.Short) == textOf(p.Short)
		if !same && !strings.Contains(p.Changed.String(), "because your "+size+" is ") {
			t.Errorf("part %s, %s: %s %s %s were others and it says %q", p.Letter, p.Name, p.Thick.Text, p.Wide.Text, p.Long.Text, p.Changed)
		}
		if same && q.Count == p.Count && cuts(p) == cuts(q) && p.Changed != nil {
			t.Errorf("part %s, %s is as it was and says %q", p.Letter, p.Name, p.Changed)
		}
	}
}

func TestMeasuredRefused(t *testing.T) {
	src := []byte(shelf)
	for _, c := range []struct {
		m        Measured
		code     snag.Code
		severity snag.Severity
		says     string
	}{
		{Measured{"fram", length(t, "1 1/2"), length(t, "3 1/2")}, "bad-setting", snag.Error, "no lumber “fram”"},
		{Measured{"frame", length(t, "2"), length(t, "4")}, "measured-off", snag.Caution, `measure 2" x 4", which is what a 2x4 is called; planed it measures 1 1/2" x 3 1/2"`},
		{Measured{"frame", length(t, "1 1/2"), length(t, "5 3/8")}, "measured-off", snag.Error, `measure 1 1/2" x 5 3/8", and a 2x4 measures 1 1/2" x 3 1/2"`},
		{Measured{"frame", 0, length(t, "3 1/2")}, "measured-off", snag.Error, "measure 0"},
		{Measured{"frame", length(t, "1 1/2"), length(t, "4")}, "", 0, ""},
	} {
		p := with(t, src, Options{Want: Settled, Measured: []Measured{c.m}})
		found := c.code == ""
		for _, s := range p.Snags {
			found = found || s.Code == c.code && s.Severity == c.severity && strings.Contains(s.What, c.says) && len(s.Mends) > 0
		}
		if !found || c.code == "" && p.Snags.Errors() > 0 {
			t.Errorf("%+v: want %s %q, got\n%s", c.m, c.code, c.says, p.Messages())
		}
	}
}

func TestKerfAndSquaring(t *testing.T) {
	src := example(t, "sorting-table")
	none := measure.Length(0)
	for _, c := range []struct {
		o            Options
		kerf, square string
		err          string
	}{
		{Options{}, `1/8"`, `1/2"`, ""},
		{Options{Kerf: 3 * measure.Inch / 32, Squared: &none}, `3/32"`, `0"`, ""},
		{Options{Kerf: 5 * measure.Millimetre / 2}, `3/32"`, `1/2"`, ""}, // 2.5 mm, read to the nearest 1/64 in
		{Options{Kerf: measure.Inch}, "", "", "more than any blade"},
		{Options{OnHand: []OnHand{{Count: 1}}}, "", "", "of some length"},
	} {
		c.o.Want = Settled
		p, err := Open("t.yaml", src).Run(t.Context(), c.o)
		if c.err != "" {
			if err == nil || !strings.Contains(err.Error(), c.err) {
				t.Errorf("%+v: %v", c.o, err)
			}
			continue
		}
		if err != nil {
			t.Fatal(err)
		}
		s := p.Readings.Saw
		if s.Kerf.Text != c.kerf || s.Squared.Text != c.square || !s.Checked {
			t.Errorf("kerf %s, squared %s, checked %v, want %s and %s", s.Kerf.Text, s.Squared.Text, s.Checked, c.kerf, c.square)
		}
	}
}

// A board on hand is used before one is bought, no more of them than there are,
// and one of another wood is said to be of no use.
func TestOnHand(t *testing.T) {
	src := []byte(shelf)
	was := sound(t, src, Settled)
	is := with(t, src, Options{Want: Settled, OnHand: []OnHand{parsed(t, `2 of 2x4 southern pine, ground contact, 30"`), parsed(t, `2x8 ipe, 50"`)}})
	if is.Snags.Errors() > 0 {
		t.Fatal(is.Messages())
	}
	buy := is.Readings.Buy
	// By hand: two bearers of 24 in, one from each board of 30; no 2x4 is bought.
	if len(buy.OnHand) != 1 || buy.OnHand[0].Count != 2 || buy.OnHand[0].Length.Text != `30"` || buy.OnHand[0].Each != nil {
		t.Errorf("on hand %+v", buy.OnHand)
	}
	for _, l := range buy.Boards {
		if strings.HasPrefix(l.What, "2x4") {
			t.Errorf("still bought: %+v", l)
		}
	}
	if c := buy.Cost.Exact.V; c >= was.Readings.Buy.Cost.Exact.V || !is.Readings.Saw.Checked {
		t.Errorf("costs %s, and %s before; checked %v", buy.Cost.Text, was.Readings.Buy.Cost.Text, is.Readings.Saw.Checked)
	}
	if !strings.Contains(is.Summary(), `Of your own: 2 × 2x4 southern pine, ground contact 30".`) {
		t.Errorf("the summary does not say what is used:\n%s", is.Summary())
	}
	if !strings.Contains(is.Messages(), "nothing here is cut from your 1 of 2x8 ipe") {
		t.Errorf("a board of no use is not told:\n%s", is.Messages())
	}
	if one := with(t, src, Options{Want: Settled, OnHand: []OnHand{parsed(t, `2x4 southern pine, ground contact, 30"`)}}); len(one.Readings.Buy.OnHand) == 1 && one.Readings.Buy.OnHand[0].Count > 1 {
		t.Errorf("more used than there are: %+v", one.Readings.Buy.OnHand)
	}
}

func parsed(t *testing.T, text string) OnHand {
	t.Helper()
	h, err := ParseOnHand(text, region.America)
	if err != nil {
		t.Fatal(err)
	}
	return h
}
