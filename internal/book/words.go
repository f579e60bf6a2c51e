package book

import (
	"strings"

	"scantling/internal/phrase"
	"scantling/internal/shop"
	"scantling/internal/typeset"
)

// Styles of the book. Nothing a builder must read is smaller than 10.5 points:
// at arm's length (600 mm) the figures of a stacked fraction in the body then
// stand 8 minutes of arc high, above the 5 of ordinary sight (ISO 8596).
var (
	titleStyle   = typeset.Style{Face: typeset.Semibold, Size: 27}
	numberStyle  = typeset.Style{Face: typeset.Semibold, Size: 19}
	chapterStyle = typeset.Style{Face: typeset.Semibold, Size: 17}
	sectionStyle = typeset.Style{Face: typeset.Semibold, Size: 12.5}
	leadStyle    = typeset.Style{Size: 12.5}
	bodyStyle    = typeset.Style{Size: 11}
	strongStyle  = typeset.Style{Face: typeset.Semibold, Size: 11}
	cellStyle    = typeset.Style{Size: 10.5}
	cellStrong   = typeset.Style{Face: typeset.Semibold, Size: 10.5}
	asideStyle   = typeset.Style{Size: 11, Ink: typeset.Quiet}
	headStyle    = typeset.Style{Face: typeset.Semibold, Size: 9.5, Ink: typeset.Quiet}
	sideStyle    = typeset.Style{Size: 9.5, Ink: typeset.Quiet}
	footStyle    = typeset.Style{Size: 9, Ink: typeset.Quiet}
	barStyle     = typeset.Style{Face: typeset.Semibold, Size: 9}
	barSmall     = typeset.Style{Face: typeset.Semibold, Size: 7.5}
	tapeStyle    = typeset.Style{Size: 7}
)

// prose sets plain words. Measures in them, `33 13/16"` or `1/8`, become
// figures; sale names such as 5/4x6 stay as they are said, with a true times
// sign.
func prose(s string, st typeset.Style) []typeset.Span {
	s = times(s)
	var out []typeset.Span
	plain := 0
	for i := 0; i < len(s); {
		n := 0
		if i == 0 || !wordByte(s[i-1]) || strings.HasSuffix(s[:i], unbroken) {
			n = measureAt(s[i:])
		}
		if n == 0 {
			i++
			continue
		}
		if plain < i {
			out = append(out, typeset.Span{Text: s[plain:i], Style: st})
		}
		out = append(out, typeset.Span{Text: s[i : i+n], Style: st, Kind: typeset.Figure})
		i += n
		plain = i
	}
	if plain < len(s) {
		out = append(out, typeset.Span{Text: s[plain:], Style: st})
	}
	return out
}

func wordByte(c byte) bool {
	return c >= '0' && c <= '9' || c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c == '.' || c == '/' || c >= 0x80
}

// measureAt returns how long a measure with a fraction or an inch mark at the
// start of s is, or 0.
func measureAt(s string) int {
	digits := func(i int) int {
		for i < len(s) && s[i] >= '0' && s[i] <= '9' {
			i++
		}
		return i
	}
	over := func(i int) int { // end of n/d at i, or 0
		a := digits(i)
		if a == i || a >= len(s) || s[a] != '/' {
			return 0
		}
		b := digits(a + 1)
		if b == a+1 || strings.HasPrefix(s[b:], "×") { // 5/4×6 is a sale name
			return 0
		}
		return b
	}
	end := over(0)
	if end == 0 {
		whole := digits(0)
		if whole == 0 {
			return 0
		}
		end = whole
		fraction := false
		if whole < len(s) && s[whole] == ' ' {
			if e := over(whole + 1); e > 0 {
				end, fraction = e, true
			}
		}
		if !fraction && (end >= len(s) || s[end] != '"') {
			return 0
		}
	}
	if end < len(s) && s[end] == '"' {
		end++
	}
	if end < len(s) && wordByte(s[end]) && s[end] != '.' && !strings.HasPrefix(s[end:], unbroken) {
		return 0
	}
	return end
}

// unbroken is a space no line ends at.
const unbroken = "\u00a0"

// times writes the x between two numbers, as in 2x4 or 8 x 2 1/2, as a times
// sign.
func times(s string) string {
	digit := func(i int) bool { return i >= 0 && i < len(s) && s[i] >= '0' && s[i] <= '9' }
	space := func(i int) int {
		if i >= 0 && i < len(s) && s[i] == ' ' {
			return 1
		}
		return 0
	}
	var b strings.Builder
	for i := range len(s) {
		if s[i] == 'x' && space(i-1) == space(i+1) && digit(i-1-space(i-1)) && digit(i+1+space(i+1)) {
			if space(i-1) == 1 {
				return times(s[:i-1] + unbroken + "×" + unbroken + s[i+2:])
			}
			b.WriteString("×")
			continue
		}
		b.WriteByte(s[i])
	}
	return b.String()
}

// figure sets a number. One that is taken from the work bears an asterisk.
func figure(s shop.Shown, st typeset.Style) []typeset.Span {
	out := []typeset.Span{{Text: s.Text, Style: st, Kind: typeset.Figure}}
	if s.Origin == shop.ToFit {
		out = append(out, typeset.Span{Text: "*", Style: st})
	}
	return out
}

// spans sets prose with its numbers.
func spans(t shop.Text, st typeset.Style) []typeset.Span {
	var out []typeset.Span
	for _, s := range t {
		if s.Shown != nil {
			out = append(out, typeset.Span{Text: s.Shown.Text, Style: st, Kind: typeset.Figure})
			continue
		}
		out = append(out, prose(s.Words, st)...)
	}
	return out
}

// sentence sets prose as a sentence: its first letter large, a stop at its end.
func sentence(t shop.Text, st typeset.Style) []typeset.Span {
	sp := spans(t, st)
	if len(sp) == 0 {
		return nil
	}
	if sp[0].Kind == typeset.Words {
		sp[0].Text = phrase.Begin(sp[0].Text)
	}
	if last := sp[len(sp)-1]; last.Kind == typeset.Figure || stop(last.Text) != last.Text {
		sp = append(sp, say(".", st)...)
	}
	return sp
}

// live underlines the numbers that follow from the design's own figures.
func live(t shop.Text, st typeset.Style) []typeset.Span {
	out := spans(t, st)
	for i := range out {
		if out[i].Kind == typeset.Figure {
			out[i].Live, out[i].Style.Ink = true, typeset.Live
		}
	}
	return out
}

// cat joins spans.
func cat(parts ...[]typeset.Span) (out []typeset.Span) {
	for _, p := range parts {
		out = append(out, p...)
	}
	return out
}

// say is one literal span.
func say(s string, st typeset.Style) []typeset.Span { return prose(s, st) }
