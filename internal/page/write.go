package page

import (
	"bytes"
	"fmt"
	"html"
	"strings"

	"scantling/internal/book"
	"scantling/internal/drawing"
	"scantling/internal/phrase"
	"scantling/internal/picture"
	"scantling/internal/shop"
	"scantling/internal/svg"
	"scantling/internal/typeset"
)

// A writer gathers the HTML of one chapter.
type writer struct {
	b    strings.Builder
	r    *shop.Readings
	pics picture.Pictures
	o    Options
}

func (w *writer) f(format string, args ...any) { fmt.Fprintf(&w.b, format, args...) }

// esc makes words safe between tags and within quoted attributes.
func esc(s string) string {
	return html.EscapeString(strings.Map(func(r rune) rune {
		if r < ' ' && r != '\n' && r != '\t' {
			return ' '
		}
		return r
	}, s))
}

// words writes plain words; measures among them get true fractions.
func words(s string) string {
	var b strings.Builder
	for _, x := range book.Prose(s) {
		if x.Kind == typeset.Figure {
			b.WriteString(`<span class="n">` + fractions(x.Text) + `</span>`)
			continue
		}
		b.WriteString(esc(x.Text))
	}
	return b.String()
}

// fractions writes n/d stacked, and inch and foot marks as primes. What is copied
// out of the page still reads 33 13/16.
func fractions(s string) string {
	var b strings.Builder
	digits := func(i int) int {
		for i < len(s) && s[i] >= '0' && s[i] <= '9' {
			i++
		}
		return i
	}
	for i := 0; i < len(s); {
		if n := digits(i); n > i {
			if d := n + 1; n < len(s) && s[n] == '/' && digits(d) > d {
				fmt.Fprintf(&b, `<span class="fr"><span>%s</span><i>/</i><span>%s</span></span>`, s[i:n], s[d:digits(d)])
				i = digits(d)
				continue
			}
			b.WriteString(s[i:n])
			i = n
			continue
		}
		switch {
		case s[i] == '"' && i > 0:
			b.WriteString("″")
			i++
		case s[i] == '\'' && i > 0:
			b.WriteString("′")
			i++
		default:
			end := i + 1
			for end < len(s) && s[end]&0xc0 == 0x80 {
				end++
			}
			b.WriteString(esc(s[i:end]))
			i = end
		}
	}
	return b.String()
}

// number writes a number; one that is taken from the work bears an asterisk.
func (w *writer) number(s shop.Shown) string {
	star := ""
	if s.Origin == shop.ToFit {
		star = "*"
	}
	at := ""
	if w.o.Places != nil {
		var places []string
		for _, p := range w.o.Places(s) {
			places = append(places, fmt.Sprintf("%d-%d", p[0], p[1]))
		}
		if len(places) > 0 {
			at = ` data-at="` + strings.Join(places, " ") + `"`
		}
	}
	return `<span class="n"` + at + `>` + fractions(s.Text) + star + `</span>`
}

func (w *writer) maybe(s *shop.Shown) string {
	if s == nil {
		return ""
	}
	return w.number(*s)
}

// text writes prose with its numbers.
func (w *writer) text(t shop.Text) string {
	var b strings.Builder
	for _, s := range t {
		if s.Shown != nil {
			b.WriteString(w.number(*s.Shown))
			continue
		}
		b.WriteString(words(s.Words))
	}
	return b.String()
}

// sentence writes prose as a sentence: a large letter first, a stop last.
func (w *writer) sentence(t shop.Text) string {
	if len(t) == 0 {
		return ""
	}
	first := t[0]
	first.Words = phrase.Begin(first.Words)
	out := w.text(append(shop.Text{first}, t[1:]...))
	if s := t.String(); stop(s) != s {
		out += "."
	}
	return out
}

func (w *writer) p(class, inner string) {
	if inner == "" {
		return
	}
	if class != "" {
		class = ` class="` + class + `"`
	}
	w.f("<p%s>%s</p>", class, inner)
}

func strong(s string) string { return "<b>" + s + "</b>" }

// figure puts a drawing in its place, with what it shows for those who cannot
// see it.
func (w *writer) figure(class string, f *drawing.Figure, high float64) {
	if f == nil {
		return
	}
	w.sheet(class, f.Sheet(w.o.Column, high))
}

func (w *writer) sheet(class string, s *drawing.Sheet) {
	var b bytes.Buffer
	svg.Inline(&b, s)
	w.f(`<div class="drawing %s">%s</div>`, class, b.String())
}

// A column of a table; right columns hold numbers.
type column struct {
	head        string
	right, name bool
}

// A row of a table: its attributes, and the HTML of its cells.
type row struct {
	attr  string
	cells []string
}

// table writes rows that a narrow screen shows as cards: each cell bears the
// head of its column.
func (w *writer) table(label string, cols []column, rows []row) {
	if len(rows) == 0 {
		return
	}
	w.f(`<div class="wide"><table aria-label="%s"><thead><tr>`, esc(label))
	for _, c := range cols {
		w.f(`<th scope="col"%s>%s</th>`, align(c), esc(c.head))
	}
	w.b.WriteString("</tr></thead><tbody>")
	for _, r := range rows {
		w.f("<tr%s>", r.attr)
		for i, c := range cols {
			tag, scope := "td", ""
			if c.name {
				tag, scope = "th", ` scope="row"`
			}
			w.f(`<%s%s%s data-head="%s">%s</%s>`, tag, scope, align(c), esc(c.head), r.cells[i], tag)
		}
		w.b.WriteString("</tr>")
	}
	w.b.WriteString("</tbody></table></div>")
}

func align(c column) string {
	if c.right {
		return ` class="right"`
	}
	return ""
}

// stop ends a sentence.
func stop(s string) string {
	if s == "" || strings.HasSuffix(s, ".") || strings.HasSuffix(s, "?") || strings.HasSuffix(s, "!") {
		return s
	}
	return s + "."
}

// or joins words as a sentence does: "a, b or c".
func or(all []string) string {
	if n := len(all); n > 1 {
		return strings.Join(all[:n-1], ", ") + " or " + all[n-1]
	}
	return strings.Join(all, "")
}
