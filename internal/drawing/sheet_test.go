package drawing

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"scantling/internal/typeset"
)

func word(s string) typeset.Span {
	return typeset.Span{Text: s, Style: typeset.Style{Size: 10}}
}

func TestClashes(t *testing.T) {
	at := func(x, y float64, s string) Text { return Label(Point{x, y}, typeset.Left, word(s)) }
	turned := at(30, 40, "upright")
	turned.Turn = 90
	haloed := at(20, 20, "haloed")
	haloed.Halo = true
	line := Stroke{Path: []Point{{0, 19}, {100, 19}}}
	for _, c := range []struct {
		why   string
		items []Item
		want  []ClashKind
	}{
		{"apart", []Item{at(10, 10, "one"), at(10, 20, "two")}, nil},
		{"one over the other", []Item{at(10, 10, "one"), at(12, 11, "two")}, []ClashKind{TextOnText}},
		{"in a group", []Item{at(10, 10, "one"), &Group{Items: []Item{at(12, 11, "two")}}}, []ClashKind{TextOnText}},
		{"turned up into a word", []Item{turned, at(25, 35, "word across")}, []ClashKind{TextOnText}},
		{"turned and clear", []Item{turned, at(32, 35, "word")}, nil},
		{"past the right edge", []Item{at(95, 10, "too long")}, []ClashKind{OffSheet}},
		{"above the top", []Item{at(10, 1, "High")}, []ClashKind{OffSheet}},
		{"line through", []Item{at(20, 20, "word"), line}, []ClashKind{LineOnText}},
		{"halo over a line", []Item{line, haloed}, nil},
		{"line over a halo", []Item{haloed, line}, []ClashKind{LineOnText}},
		{"line that ends before", []Item{at(20, 20, "word"), Stroke{Path: []Point{{0, 19}, {19, 19}}}}, nil},
		{"covered", []Item{at(20, 20, "word"), Fill{Loops: [][]Point{Rect(15, 15, 20, 10)}}}, []ClashKind{Covered}},
		{"in a hole", []Item{at(20, 20, "word"), Fill{Loops: [][]Point{Rect(10, 10, 40, 20), Rect(15, 15, 20, 10)}}}, nil},
		{"on a ground", []Item{Fill{Loops: [][]Point{Rect(15, 15, 20, 10)}}, at(20, 20, "word")}, nil},
		{"unknown letter", []Item{at(20, 20, "木")}, []ClashKind{Unknown}},
	} {
		s := &Sheet{W: 100, H: 50, Items: c.items}
		got := s.Clashes()
		if len(got) != len(c.want) {
			t.Errorf("%s: %d clashes %v, want %d", c.why, len(got), got, len(c.want))
			continue
		}
		for i, k := range c.want {
			if got[i].Kind != k {
				t.Errorf("%s: %v, want kind %d", c.why, got[i], k)
			}
		}
	}
}

// Whatever the shape, hatch lines lie inside it and their length times their
// distance comes near its area.
func TestHatchingFillsTheArea(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := rapid.Float64Range(5, 60).Draw(t, "w")
		h := rapid.Float64Range(5, 60).Draw(t, "h")
		slant := rapid.Float64Range(-4, 4).Draw(t, "slant")
		f := Fill{Loops: [][]Point{{{0, 0}, {w, 0}, {w + slant, h}, {slant, h}}}, Tone: ToneWaste}
		_, apart := f.Tone.Hatch()
		total := 0.0
		for _, l := range f.Hatching() {
			total += math.Hypot(l[1].X-l[0].X, l[1].Y-l[0].Y)
			mid := Point{(l[0].X + l[1].X) / 2, (l[0].Y + l[1].Y) / 2}
			if !inside(f.Loops, mid) {
				t.Errorf("a hatch line has its middle at %v, outside", mid)
			}
		}
		// The trapezoid rule is off by at most one line's length at each end.
		if d := math.Abs(total*apart - w*h); d > 2*apart*math.Hypot(w, h) {
			t.Errorf("hatching of %.1f × %.1f covers %.1f mm², the area is %.1f", w, h, total*apart, w*h)
		}
	})
}

func TestMoveShiftsEverything(t *testing.T) {
	items := []Item{
		Stroke{Path: []Point{{1, 2}}}, Fill{Loops: [][]Point{{{1, 2}}}},
		&Group{Items: []Item{Label(Point{1, 2}, typeset.Left, word("a")), Anchor{At: Point{1, 2}}}},
	}
	moved := Move(items, 10, 20)
	want := Point{11, 22}
	g := moved[2].(*Group)
	for i, p := range []Point{moved[0].(Stroke).Path[0], moved[1].(Fill).Loops[0][0], g.Items[0].(Text).At, g.Items[1].(Anchor).At} {
		if p != want {
			t.Errorf("item %d moved to %v, want %v", i, p, want)
		}
	}
	if items[0].(Stroke).Path[0] != (Point{1, 2}) {
		t.Error("Move changed what it was given")
	}
}
