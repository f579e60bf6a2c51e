package design

import (
	"math"
	"strings"
	"testing"

	"scantling/internal/board"
	"scantling/internal/snag"
	"scantling/internal/source"
)

// Cuts by size, each on a 2x6 post 30 in high that faces the front: how much wood
// each takes, in cubic inches, and what kind of cut it is. Curves are sawn to
// chords within 0.1 mm, so their wood is right to that times their length.
func TestCutsBySize(t *testing.T) {
	for _, c := range cutsBySize {
		b := sawn(t, c.cut)
		if b == nil {
			continue
		}
		gone := 30*w*th - b.Solid.Volume/(25.4*25.4*25.4)
		if math.Abs(gone-c.gone) > c.within+1e-9 {
			t.Errorf("%s takes %v cu in, want %v (%s)", c.cut, gone, c.gone, c.source)
		}
		if k := b.Cuts[len(b.Cuts)-1]; k.Kind.String() != c.kind || k.Name != "it" || len(k.From.Ordinals()) == 0 {
			t.Errorf("%s is a %s called %q, from %v", c.cut, k.Kind, k.Name, k.From)
		}
		if err := b.Solid.Check(); err != nil {
			t.Errorf("%s: %v", c.cut, err)
		}
	}
}

const w, th, chord = 5.5, 1.5, 0.1 / 25.4

var cutsBySize = []struct {
	cut    string
	gone   float64
	within float64
	kind   string
	source string
}{
	{`{notch: left edge, from: 2" below top, wide: 3 1/2", deep: 1"}`, 3.5 * 1 * th, 0, "notch", "by hand"},
	{`{notch: left edge, from: 0" below top, wide: 3 1/2", deep: 1"}`, 3.5 * 1 * th, 0, "notch", "by hand"},
	{`{notch: top end, from: 2" right of left, wide: 1 1/2", deep: 3"}`, 1.5 * 3 * th, 0, "notch", "by hand"},
	{`{notch: right edge, from: 10" above floor, wide: 2", deep: 1"}`, 2 * 1 * th, 0, "notch", "by hand"},
	{`{housing: front, from: 3" below top, wide: 1 1/2", deep: 3/8"}`, w * 1.5 * 0.375, 0, "housing", "by hand: a dado"},
	{`{housing: back, from: 1" right of left, wide: 1/2", deep: 3/8"}`, 30 * 0.5 * 0.375, 0, "housing", "by hand: a groove"},
	{`{housing: back, from: 0" right of left, wide: 1/2", deep: 3/8", to: 4" above bottom}`, 26 * 0.5 * 0.375, 0, "housing", "by hand: a stopped rabbet"},
	{`{housing: front, from: 3" below top, wide: 1 1/2", deep: 3/8", to: 1" left of right}`, (w - 1) * 1.5 * 0.375, 0, "housing", "by hand: a stopped dado"},
	{`{housing: left, from: 3" above bottom, wide: 2", deep: 1/2"}`, 2 * 0.5 * th, 0, "housing", "by hand: let into an edge"},
	{`{slot: front, from: 6" below top, long: 4", wide: 1"}`, (3 + math.Pi/4) * th, 4 * chord * th, "slot", "by hand: 3 in by 1 and a circle of 1"},
	{`{slot: front, from: 6" below top, long: 4", wide: 1", aside: 3/4" right of left}`, (3 + math.Pi/4) * th, 4 * chord * th, "slot", "by hand"},
	{`{snip: top, corner: left, along: 2", across: 1"}`, 2 * 1 / 2. * th, 0, "snip", "by hand: half of 2 by 1"},
	{`{snip: both ends, corner: right, along: 2", across: 2"}`, 2 * 2 * th, 0, "snip", "by hand: two halves of 2 by 2"},
	{`{round end: top}`, (w*w/2 - math.Pi*w*w/8) * th, 9 * chord * th, "round end", "by hand: half of the square less half of the circle"},
	{`{corners: both ends, radius: 2"}`, 4 * (4 - math.Pi) * th, 13 * chord * th, "round corner", "by hand: (4 − π)·r²/4 a corner"},
	{`{corners: top end, of: left, radius: 2"}`, (4 - math.Pi) * th, 4 * chord * th, "round corner", "by hand"},
	{`{arch: left edge, rise: 1 1/2", clear: 4"}`, segment(22, 1.5) * th, 24 * chord * th, "arch", "by hand: the segment of a circle"},
	{`{taper: both, from: 6" below top, to: 3 1/2" wide at bottom}`, 24 * 2 / 2. * th, 0, "taper", "by hand: two wedges 24 by 1"},
}

// segment returns the area between an arc and its chord.
func segment(chord, rise float64) float64 {
	r := (chord*chord/4 + rise*rise) / (2 * rise)
	half := math.Asin(chord / 2 / r)
	return r * r * (half - math.Sin(half)*math.Cos(half))
}

// Edges are data beside the solid: which corners, by the sides they are named for.
func TestWorkedEdges(t *testing.T) {
	for _, c := range []struct {
		cut  string
		work board.EdgeWork
		n    int
	}{
		{`{round: 1/4", edges: all}`, board.Round, 4},
		{`{chamfer: 1/8", edges: bottom}`, board.Chamfer, 4},
		{`{chamfer: 1/8", edges: front and ends}`, board.Chamfer, 10},
		{`{bead: 1/4", edges: [left, right]}`, board.Bead, 4},
	} {
		if b := sawn(t, c.cut); b != nil && (len(b.Edges) != 1 || b.Edges[0].Work != c.work || len(b.Edges[0].Along) != c.n) {
			t.Errorf("%s: %+v, want %d corners", c.cut, b.Edges, c.n)
		}
	}
}

// post is a 2x6 post 30 in high with one cut.
func post(cut string) string {
	return `parts:
  post: {of: two_by_six, place: {runs: up, faces: front, front: middle, left: middle}, ends: {bottom: floor, top: 30" above floor}, cuts: {it: ` + cut + "}}\n"
}

func sawn(t *testing.T, cut string) *Board {
	t.Helper()
	src := []byte(prelude + post(cut))
	tree, list := source.Parse("cut.yaml", src)
	p, more := Open(tree).Evaluate(nil)
	if list = append(list, more...); list.Errors()+list.Count(snag.Caution) > 0 {
		t.Error(list.Text(snag.Sources{"cut.yaml": src}))
		return nil
	}
	return p.Boards[0]
}

// What cannot be cut so is refused with both numbers.
func TestCutsThatDoNotFit(t *testing.T) {
	for _, c := range cutsThatDoNotFit {
		src := []byte(prelude + post(c.cut))
		tree, list := source.Parse("cut.yaml", src)
		_, more := Open(tree).Evaluate(nil)
		text := append(list, more...).Text(snag.Sources{"cut.yaml": src})
		if !strings.Contains(text, "["+c.code+"]") || !strings.Contains(text, c.says) {
			t.Errorf("%s: want %s, %q, got\n%s", c.cut, c.code, c.says, text)
		}
		for _, s := range append(list, more...) {
			checkSnag(t, c.cut, src, s)
		}
		if n := strings.Count(text, "\ncut.yaml") + 1; n > 1 && !strings.Contains(text, "note:") {
			t.Errorf("%s: %d messages for one mistake:\n%s", c.cut, n, text)
		}
	}
}

var cutsThatDoNotFit = []struct{ cut, code, says string }{
	{`{notch: left edge, from: 29" below top, wide: 3 1/2", deep: 1"}`, "off-the-board", "from 29\" to 32 1/2\", and there are 30\" of board"},
	{`{notch: front, from: 2" below top, wide: 3 1/2", deep: 1"}`, "not-that-side", "a notch is cut into an edge or an end"},
	{`{notch: left edge, from: 2" below top, wide: 0", deep: 1"}`, "bad-size", "comes to 0"},
	{`{notch: left edge, from: 2" above top, wide: 1", deep: 1"}`, "phrase-form", "its inside lies below its top"},
	{`{notch: left edge, from: 2", wide: 1", deep: 1"}`, "phrase-form", "how far from a side"},
	{`{notch: left edge, wide: 1", deep: 1"}`, "missing-key", "the key “from”"},
	{`{notch: left edge, from: 2" below top, wide: 1", deep: 1", long: 2"}`, "unknown-key", "“long” is not said of a “notch”"},
	{`{housing: front, from: 3" below top, wide: 1 1/2", deep: 1 1/2"}`, "cut-too-deep", "1 1/2\" deep, and the board measures 1 1/2\" there"},
	{`{slot: front, from: 6" below top, long: 4", wide: 6"}`, "off-the-board", "5 1/2\" of board"},
	{`{slot: front, from: 6" below top, long: 6", wide: 4 3/4"}`, "thin-tongue", "a strip of 3/8\""},
	{`{slot: front, from: 6" below top, long: 1", wide: 2"}`, "bad-radius", "the most there is room for"},
	{`{round end: top, radius: 2"}`, "bad-radius", "2\", and 2 3/4\" is the least"},
	{`{round end: left}`, "not-that-side", "one of the ends"},
	{`{corners: both ends, radius: 3"}`, "bad-radius", "the most there is room for"},
	{`{arch: left edge, rise: 14", clear: 4"}`, "bad-radius", "rises 14\" over 22\""},
	{`{arch: left edge, rise: 5 1/2", clear: 4"}`, "cut-too-deep", "5 1/2\""},
	{`{snip: top, corner: left, along: 2", across: 6"}`, "taper-too-big", "5 1/2\""},
	{`{notch: left edge, from: 10" below top, wide: 1", deep: 5 1/2"}`, "notch-parts-board", "2 pieces"},
	{`{bead: 2", edges: all}`, "bad-size", "1 1/2\" thick"},
	{`{chamfer: 1/4", edges: round the top}`, "unknown-word", "no side of a board"},
}
