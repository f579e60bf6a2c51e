package book

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"scantling/internal/drawing"
	"scantling/internal/shop"
	"scantling/internal/typeset"
)

var saying = rapid.Custom(func(t *rapid.T) string {
	var words []string
	for range rapid.IntRange(1, 30).Draw(t, "words") {
		words = append(words, rapid.SampledFrom([]string{"a", "leg", "apron", "galvanised", `33 13/16"`, "2x4", "tighten", "5/4x6", "square,", `1/2"`, "counterbored", "the"}).Draw(t, "word"))
	}
	return strings.Join(words, " ")
})

// blank is a book without readings, to lay out blocks in.
func blank(paper Paper) *book {
	w, h := paper.Size()
	b := &book{r: &shop.Readings{Piece: "Piece", Units: "inches", Ready: true}, page: geometry{W: w, H: h}, number: 1}
	return b
}

// Whatever is written, nothing overlaps, nothing leaves the page or reaches the
// foot, nothing is lost or out of order, and no table head stands without a row.
func TestAnyChapterFitsItsPages(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := blank(rapid.SampledFrom([]Paper{Letter, A4}).Draw(t, "paper"))
		var want []string
		for range rapid.IntRange(1, 6).Draw(t, "blocks") {
			switch rapid.IntRange(0, 3).Draw(t, "kind") {
			case 0:
				s := saying.Draw(t, "chapter")
				b.chapter(s, saying.Draw(t, "notes"))
				want = append(want, s)
			case 1:
				s := saying.Draw(t, "paragraph")
				b.para(3, say(s, bodyStyle)...)
				want = append(want, s)
			case 2:
				s := saying.Draw(t, "item")
				b.list("l", 2, "•", say(s, bodyStyle)...)
				want = append(want, s)
			case 3:
				n := rapid.IntRange(1, 5).Draw(t, "columns")
				cols := make([]column, n)
				for i := range cols {
					cols[i] = column{head: "head", grow: rapid.Bool().Draw(t, "grow"), align: rapid.SampledFrom([]typeset.Align{typeset.Left, typeset.Right}).Draw(t, "align")}
				}
				var rows [][]cell
				for r := range rapid.IntRange(1, 40).Draw(t, "rows") {
					row := []cell{say("row"+strconv.Itoa(r), cellStyle)}
					want = append(want, "row"+strconv.Itoa(r))
					for range n - 1 {
						row = append(row, say(saying.Draw(t, "cell"), cellStyle))
					}
					rows = append(rows, row)
				}
				b.table(2, cols, rows)
			}
		}
		var all []string
		for _, s := range b.sheets() {
			for _, c := range s.Clashes() {
				t.Errorf("%s: %v", s.Name, c)
			}
			var head bool
			var walk func(items []drawing.Item, foot bool)
			walk = func(items []drawing.Item, foot bool) {
				for _, it := range items {
					switch it := it.(type) {
					case drawing.Text:
						all = append(all, it.Line.Says())
						if low := it.At.Y + it.Line.Descent; !foot && low > s.H-footHigh+fits {
							t.Errorf("%s: %q reaches down to %.1f mm, the foot begins at %.1f", s.Name, it.Line.Says(), low, s.H-footHigh)
						}
					case *drawing.Group:
						if it.Role == drawing.RoleRow {
							head = it.Items[0].(*drawing.Group).Role == drawing.RoleHeadCell
						}
						last := it == s.Items[len(s.Items)-1]
						if last && head {
							t.Errorf("%s ends with the head of a table", s.Name)
						}
						walk(it.Items, foot || last)
					}
				}
			}
			walk(s.Items, false)
		}
		says := strings.Join(strings.Fields(strings.Join(all, " ")), " ")
		for _, w := range want {
			// Words may be broken between lines, so compare them with spaces alike.
			w = strings.Join(strings.Fields(times(w)), " ")
			if i := strings.Index(says, w); i < 0 && len(strings.Fields(w)) < 2 {
				t.Fatalf("%q is lost", w)
			}
		}
	})
}

// Pages are filled in order: a block never stands above one that came before it.
func TestBlocksKeepTheirOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var blocks []block
		for i := range rapid.IntRange(1, 60).Draw(t, "blocks") {
			line := drawing.Label(drawing.Point{}, typeset.Left, say(strconv.Itoa(i), bodyStyle)...)
			blocks = append(blocks, block{height: rapid.Float64Range(1, 70).Draw(t, "high"), gap: rapid.Float64Range(0, 10).Draw(t, "gap"),
				keep: rapid.IntRange(0, 3).Draw(t, "keep") == 0, fresh: rapid.IntRange(0, 9).Draw(t, "fresh") == 0, items: []drawing.Item{line}})
		}
		const top, bottom = 15.0, 250.0
		next := 0
		for n, p := range paginate(blocks, top, bottom) {
			y := top
			if p.y > bottom+1e-9 {
				t.Errorf("page %d is filled down to %.2f mm, past %.2f", n+1, p.y, bottom)
			}
			texts(p.items, func(x drawing.Text) {
				if got := x.Line.Says(); got != strconv.Itoa(next) {
					t.Fatalf("page %d has block %s where block %d comes next", n+1, got, next)
				}
				if x.At.Y < y-1e-9 {
					t.Errorf("block %d begins at %.2f mm, above the end of the one before at %.2f", next, x.At.Y, y)
				}
				y = x.At.Y + blocks[next].height
				next++
			})
		}
		if next != len(blocks) {
			t.Errorf("%d of %d blocks are on the pages", next, len(blocks))
		}
	})
}

// Tags never touch, stay within the width and in order; where there is room
// they do not move.
func TestFan(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		width := rapid.Float64Range(50, 150).Draw(t, "width")
		n := rapid.IntRange(1, 12).Draw(t, "tags")
		tags := make([]tag, n)
		x := 0.0
		apart, need := true, 0.0
		const gap = 1.0
		for i := range tags {
			step := rapid.Float64Range(0, 20).Draw(t, "step")
			tags[i] = tag{x: min(x+step, width), wide: rapid.Float64Range(1, 12).Draw(t, "wide")}
			x = tags[i].x
			left := 0.0
			if i > 0 {
				left = tags[i-1].x + tags[i-1].wide/2 + gap
			}
			apart = apart && tags[i].x-tags[i].wide/2 >= left && tags[i].x+tags[i].wide/2 <= width
			need += tags[i].wide + gap
		}
		moved := fan(tags, width, gap)
		if need-gap > width+fits {
			if !math.IsInf(moved, 1) {
				t.Errorf("tags need %.1f mm of %.1f and are said to fit", need-gap, width)
			}
			return
		}
		if apart && moved > 1e-9 {
			t.Errorf("tags that stand apart were moved by %.3f mm", moved)
		}
		right := -gap
		for i, g := range tags {
			if g.start < right+gap-1e-9 || g.start+g.wide > width+1e-6 {
				t.Errorf("tag %d runs from %.3f to %.3f mm; the one before ends at %.3f, the width is %.3f", i, g.start, g.start+g.wide, right, width)
			}
			right = g.start + g.wide
		}
	})
}

// A bar with any pieces can be read.
func TestBars(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := blank(Letter)
		b.r.Saw.Kerf = inches(.125, `1/8"`)
		feet := rapid.SampledFrom([]float64{8, 10, 12, 16}).Draw(t, "feet")
		sb := shop.SawBoard{Stock: "2x4", Length: inches(feet*12, strconv.Itoa(int(feet))+" ft"), Width: rapid.SampledFrom([]float64{88.9, 139.7, 184.15}).Draw(t, "wide")}
		strip := shop.Strip{Wide: sb.Width}
		at := .5
		for len(strip.Pieces) < 24 {
			long := rapid.Float64Range(4, 60).Draw(t, "long")
			slant := rapid.SampledFrom([]float64{0, 0, 0.5, -0.5}).Draw(t, "slant")
			if at+long+.5 > feet*12 {
				break
			}
			sixteenth := rapid.SampledFrom([]string{`"`, ` 1/2"`, ` 13/16"`}).Draw(t, "sixteenths")
			strip.Pieces = append(strip.Pieces, shop.SawPiece{Letter: "C", Start: at * 25.4, End: (at + long) * 25.4, SlantStart: slant * 25.4, SlantEnd: slant * 25.4,
				Label: strconv.Itoa(int(long)) + sixteenth, Mark: inches(at+long, strconv.Itoa(int(at+long))+sixteenth)})
			at += long + 1.2
		}
		if rapid.Bool().Draw(t, "left") {
			strip.Left = ptr(inches(feet*12-at, strconv.Itoa(int(feet*12-at))+`"`))
		}
		sb.Sections = []shop.SawSection{{Strips: []shop.Strip{strip}}}
		b.board(sb, b.page.column()/(feet*12*25.4))
		for _, s := range b.sheets() {
			for _, c := range s.Clashes() {
				t.Errorf("%v", c)
			}
		}
	})
}

func TestProse(t *testing.T) {
	for _, c := range []struct {
		s       string
		figures []string
	}{
		{`move it to 1 1/2" or 3/8"`, []string{`1 1/2"`, `3/8"`}},
		{"2x4 southern pine", nil},
		{"5/4x6 deck board", nil},
		{"5/16 × 4 carriage bolt", []string{"5/16"}},
		{"no. 8 × 2 1/2 deck screw", []string{"2 1/2"}},
		{"deck screw 8 x 2 1/2", []string{"2 1/2"}},
		{"carriage bolt 5/16 x 4", []string{"5/16"}},
		{"2026-03-01 and/or 3", nil},
		{`34".`, []string{`34"`}},
		{"revision 1/2b", nil},
	} {
		var got []string
		back := ""
		for _, sp := range prose(c.s, bodyStyle) {
			if sp.Kind == typeset.Figure {
				got = append(got, sp.Text)
			}
			back += sp.Text
		}
		if strings.Join(got, "|") != strings.Join(c.figures, "|") {
			t.Errorf("%q has figures %q, want %q", c.s, got, c.figures)
		}
		if back != times(c.s) {
			t.Errorf("%q came back as %q", c.s, back)
		}
	}
}
