package typeset

import (
	"encoding/binary"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func body(text string) Span { return Span{Text: text, Style: Style{Regular, 10.5, Black}} }
func fig(text string) Span {
	return Span{Text: text, Style: Style{Regular, 10.5, Black}, Kind: Figure}
}

func TestWidths(t *testing.T) {
	// Every figure was measured on the unsubset fonts by another shaper, fontkit 2
	// for node, with pair kerning on and ligatures off.
	const source = "fontkit 2 on Source Sans 3"
	for _, c := range []struct {
		face   Face
		text   string
		units  int // thousandths of the size
		source string
	}{
		{Regular, "0123456789", 4970, source + ": every digit 497"},
		{Regular, "To", 1012, source},
		{Regular, "P.", 703, source},
		{Regular, "AVATAR", 3126, source},
		{Regular, "Picker’s chair, Wayside", 9387, source},
		{Regular, "Take care: 33 × 4″", 7186, source},
		{Semibold, "AVATAR", 3212, source},
		{Semibold, "Two “Ys” – Tyto", 6633, source},
	} {
		got := Width(Span{Text: c.text, Style: Style{c.face, 10, Black}})
		want := float64(c.units) / 1000 * 10 * 25.4 / 72
		if math.Abs(got-want) > 1e-9 {
			t.Errorf("%q in face %d is %.4f mm wide, want %.4f (%s)", c.text, c.face, got, want, c.source)
		}
	}
}

func TestFiguresReadAsWritten(t *testing.T) {
	for _, c := range []struct {
		text, glyphs string
		bars         int
	}{
		{`33 13/16"`, "33 13⁄16″", 1},
		{`1/2"`, "1⁄2″", 1},
		{`1 1/2" × 3 1/2"`, "1 1⁄2″\u00a0× 3 1⁄2″", 2},
		{`12 ft`, "12 ft", 0},
		{`-5°`, "−5°", 0},
		{`6' 3"`, "6′ 3″", 0},
		{`10 / 2`, "10\u00a0/ 2", 0},
		{`a 1/`, "a 1/", 0},
	} {
		l := Set(fig(c.text))
		if l.Says() != c.text {
			t.Errorf("%q reads as %q", c.text, l.Says())
		}
		if got := l.Runs[0].Text; norm(got) != norm(c.glyphs) {
			t.Errorf("%q is set as %q, want %q", c.text, got, c.glyphs)
		}
		if got := len(l.Runs[0].Rules); got != c.bars {
			t.Errorf("%q has %d fraction bars, want %d", c.text, got, c.bars)
		}
	}
}

func norm(s string) string { return strings.ReplaceAll(s, "\u00a0", " ") }

// The tables must be those of the font that is embedded, or letters would stand
// elsewhere on paper than where they were measured.
func TestTablesAreOfTheFont(t *testing.T) {
	for _, face := range []Face{Regular, Semibold} {
		f := face.Font()
		ttf := []byte(f.TTF())
		table := func(tag string) []byte {
			for i := range int(binary.BigEndian.Uint16(ttf[4:])) {
				e := ttf[12+16*i:]
				if string(e[:4]) == tag {
					at, n := binary.BigEndian.Uint32(e[8:]), binary.BigEndian.Uint32(e[12:])
					return ttf[at : at+n]
				}
			}
			t.Fatalf("%s has no table %s", f.Name, tag)
			return nil
		}
		if n := int(binary.BigEndian.Uint16(table("maxp")[4:])); n != f.Glyphs() {
			t.Fatalf("%s: %d glyphs in the font, %d in the tables", f.Name, n, f.Glyphs())
		}
		for g := range f.Glyphs() {
			if w := int(binary.BigEndian.Uint16(table("hmtx")[4*g:])); w != f.Advance(uint16(g)) {
				t.Errorf("%s, glyph %d: %d wide in the font, %d in the tables", f.Name, g, w, f.Advance(uint16(g)))
			}
		}
		// OFL: a changed font may not keep the reserved name.
		var name []rune
		for i, b := 0, table("name"); i+1 < len(b); i += 2 {
			name = append(name, rune(binary.BigEndian.Uint16(b[i:])))
		}
		if all := string(name); !strings.Contains(all, "Scantling Sans") || strings.Contains(all, "Source Sans") {
			t.Errorf("%s calls itself something else", f.Name)
		}
	}
}

func TestApostrophesAndSpaces(t *testing.T) {
	for _, c := range []struct{ text, set string }{
		{"Picker's chair", "Picker’s chair"},
		{"the boards' ends", "the boards’ ends"},
		{"6' long", "6' long"},
		{"'quoted", "'quoted"},
		{"10\u00a0×\u00a02", "10 × 2"},
	} {
		r := Set(body(c.text)).Runs[0]
		if r.Text != c.set || r.Says != strings.ReplaceAll(c.text, "\u00a0", " ") {
			t.Errorf("%q is set as %q and reads as %q, want %q and itself", c.text, r.Text, r.Says, c.set)
		}
	}
}

// A fraction must leave its neighbours alone: numerator above the bar,
// denominator below it, both within the bar's length, and the letters after it
// to the right of it.
func TestFractionStacks(t *testing.T) {
	r := Set(fig(`3 5/64"`)).Runs[0]
	bar := r.Rules[0]
	f := Regular.Font()
	var above, below int
	for _, g := range r.Glyphs {
		if int(g.ID) < f.small {
			continue
		}
		w := float64(f.Advance(g.ID)) / 1000 * 10.5 * Point
		if g.X < bar.X || g.X+w > bar.X+bar.W {
			t.Errorf("small %c runs from %.3f to %.3f mm, past the bar from %.3f to %.3f", f.Rune(g.ID), g.X, g.X+w, bar.X, bar.X+bar.W)
		}
		height := smallHeight * 10.5 * Point
		switch {
		case g.Y < bar.Y:
			above++
		case g.Y-height > bar.Y+bar.H:
			below++
		default:
			t.Errorf("small %c lies on the bar", f.Rune(g.ID))
		}
	}
	if above != 1 || below != 2 {
		t.Errorf("%d digits above the bar and %d below, want 1 and 2", above, below)
	}
	if inch := r.Glyphs[len(r.Glyphs)-1]; inch.X < bar.X+bar.W {
		t.Errorf("the inch mark at %.3f mm stands on the bar, which ends at %.3f", inch.X, bar.X+bar.W)
	}
}

func TestEveryPromisedLetterIsThere(t *testing.T) {
	for _, r := range "AZaz09 àéñøß ŁŠž ‘’“” –—− × ° ′″ ¼½¾⅛⅜⅝⅞ ←↑→↓ ≤≥± ✓□▽" {
		for _, f := range []Face{Regular, Semibold} {
			if f.Font().glyph(r) == 0 {
				t.Errorf("%s has no %q", f.Font().Name, r)
			}
		}
	}
	if Regular.Font().glyph('木') != 0 {
		t.Error("a Chinese letter is said to be in the font")
	}
}

// Ratios by the formula of WCAG 2.1, "contrast ratio" and "relative luminance".
func TestInksStandOut(t *testing.T) {
	luminance := func(c [3]uint8) (l float64) {
		for i, weight := range []float64{0.2126, 0.7152, 0.0722} {
			v := float64(c[i]) / 255
			if v <= 0.03928 {
				v /= 12.92
			} else {
				v = math.Pow((v+0.055)/1.055, 2.4)
			}
			l += weight * v
		}
		return l
	}
	for _, ink := range []Ink{Black, Quiet, Live} {
		if r := 1.05 / (luminance(ink.RGB()) + 0.05); r < 7 {
			t.Errorf("ink %d stands at %.2f : 1 on white, want 7 : 1 (success criterion 1.4.6)", ink, r)
		}
	}
}

var words = rapid.Custom(func(t *rapid.T) string {
	n := rapid.IntRange(1, 40).Draw(t, "words")
	var b strings.Builder
	for i := range n {
		if i > 0 {
			b.WriteByte(' ')
		}
		b.WriteString(rapid.StringMatching(`[a-zA-Z,.]{1,12}`).Draw(t, "word"))
	}
	return b.String()
})

func TestBrokenLinesFitAndLoseNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := words.Draw(t, "text")
		width := rapid.Float64Range(5, 150).Draw(t, "width")
		p := Break(Format{Width: width}, body(text), body(" and "), fig(`4 1/2"`))
		var says []string
		for i, l := range p.Lines {
			says = append(says, l.Says())
			if l.Width > width+1e-6 && strings.Contains(l.Says(), " ") && l.Says() != `4 1/2"` {
				t.Errorf("line %d, %q, is %.2f mm wide in a column of %.2f", i, l.Says(), l.Width, width)
			}
			if i > 0 && p.Y[i] <= p.Y[i-1] {
				t.Errorf("line %d stands at %.2f, above the line before it", i, p.Y[i])
			}
		}
		if got, want := strings.Join(says, " "), text+` and 4 1/2"`; got != want {
			t.Errorf("read back as %q, want %q", got, want)
		}
	})
}

// The dynamic programme must find what trying every set of breaks finds.
func TestBreaksAreTheBest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 9).Draw(t, "words")
		var parts []string
		for range n {
			parts = append(parts, rapid.StringMatching(`[a-z]{1,9}`).Draw(t, "word"))
		}
		width := rapid.Float64Range(20, 60).Draw(t, "width")
		cost := func(lines []string) (c float64) {
			for i, l := range lines {
				w := Width(body(l))
				left := (width - w) / width
				switch {
				case left < -1e-7:
					return math.Inf(1)
				case i < len(lines)-1:
					c += left * left
				case i > 0 && w < width/8:
					c += 0.25
				}
			}
			return c
		}
		best := math.Inf(1)
		for mask := range 1 << (n - 1) {
			lines := []string{parts[0]}
			for i := 1; i < n; i++ {
				if mask>>(i-1)&1 == 1 {
					lines = append(lines, parts[i])
				} else {
					lines[len(lines)-1] += " " + parts[i]
				}
			}
			best = min(best, cost(lines))
		}
		var got []string
		for _, l := range Break(Format{Width: width}, body(strings.Join(parts, " "))).Lines {
			got = append(got, l.Says())
		}
		if c := cost(got); c > best+1e-9 {
			t.Errorf("%q costs %.6f; the best breaks cost %.6f", got, c, best)
		}
	})
}
