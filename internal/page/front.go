package page

import (
	"fmt"
	"strings"

	"scantling/internal/phrase"
	"scantling/internal/shop"
)

// front is what the piece is, what it takes, and the sizes a reader may change.
// Where a script runs it puts its picture, rulers and switches in the marked
// places.
func (w *writer) front() {
	r := w.r
	w.p("lead", w.lead())
	w.b.WriteString(`<div class="facts" data-facts="">` + w.facts() + `</div>`)
	w.b.WriteString(`<div class="stage"><div class="picture" data-picture="">`)
	w.figure("corner", w.pics.Piece, 150)
	w.b.WriteString(`</div><div class="sizes" data-sizes="">`)
	if len(r.Sizes)+len(r.Choices) > 0 {
		w.b.WriteString(`<h2 class="small">Sizes and choices</h2><dl class="plain">`)
		for _, s := range r.Sizes {
			name := s.Says
			if name == "" {
				name = strings.ReplaceAll(s.Name, "_", " ")
			}
			by := ""
			if s.Step.Text != "" {
				by = ", by " + w.number(s.Step)
			}
			w.f(`<dt>%s</dt><dd>%s <span class="range">(%s to %s%s)</span></dd>`, words(name), strong(w.number(s.Value)), w.number(s.Least), w.number(s.Most), by)
		}
		for _, c := range r.Choices {
			name := c.Says
			if name == "" {
				name = strings.ReplaceAll(c.Name, "_", " ")
			}
			w.f(`<dt>%s</dt><dd>%s <span class="range">(%s)</span></dd>`, words(name), strong(esc(c.Is)), esc(or(c.Of)))
		}
		w.b.WriteString("</dl>")
	}
	w.b.WriteString(`</div></div>`)
	w.b.WriteString(`<div data-needs="">` + w.needs() + `</div>`)
	for _, v := range w.pics.Views {
		if v != nil {
			w.f(`<h2 class="small">%s</h2>`, esc(phrase.Begin(v.Title)))
			w.figure("view", v, 110)
		}
	}
}

// lead is the paragraph under the title; its numbers follow from the sizes.
func (w *writer) lead() string {
	return strings.ReplaceAll(w.text(w.r.About), `class="n"`, `class="n live"`)
}

// facts are the sentences a person would say of the piece.
func (w *writer) facts() string {
	var said []string
	for _, f := range w.r.Facts {
		said = append(said, "<span>"+w.text(f)+"</span>")
	}
	out := "<p>" + strings.Join(said, " ") + "</p>"
	if !w.r.Ready && len(w.r.Notes) > 0 {
		out += `<p class="notyet"><b>This plan cannot be built yet.</b> What stands in the way is under <a href="#mend">Mend this</a>.</p>`
	}
	return out
}

// needs says what the sizes must keep to, and why, in the designer's words.
func (w *writer) needs() string {
	var b strings.Builder
	for _, n := range w.r.Needs {
		switch {
		case n.Known && !n.Holds:
			kind := "caution"
			if n.Stop {
				kind = "stop"
			}
			fmt.Fprintf(&b, `<li class="broken %s">%s</li>`, kind, w.text(n.Else))
		case len(n.Says) > 0:
			b.WriteString("<li>" + w.text(n.Says) + "</li>")
		}
	}
	if b.Len() == 0 {
		return ""
	}
	return `<h2 class="small">Before you change a size</h2><ul class="needs">` + b.String() + "</ul>"
}

// first is what to read before the first cut.
func (w *writer) first() {
	if len(w.r.Cautions) == 0 {
		return
	}
	w.b.WriteString("<ul>")
	for _, c := range w.r.Cautions {
		w.f("<li>%s %s</li>", strong(words(stop(c.Title))), w.text(c.Text))
	}
	w.b.WriteString("</ul>")
}

func (w *writer) care() {
	w.notes("Take care")
	w.notes("Worth knowing")
}

// notes tells snags of one kind in a reader's words.
func (w *writer) notes(kind string) {
	begun := false
	for i, n := range w.r.Notes {
		if n.Kind != kind {
			continue
		}
		if !begun {
			if kind != "Mend this" {
				w.f("<h3>%s</h3>", kind)
			}
			w.b.WriteString(`<ul class="notes">`)
			begun = true
		}
		w.b.WriteString("<li" + w.noteAt(i, n) + ">" + w.note(i, n) + "</li>")
	}
	if begun {
		w.b.WriteString("</ul>")
	}
}

// noteAt is the boards a note is about and, for the designer, its place.
func (w *writer) noteAt(i int, n shop.Note) string {
	out := ""
	if n.Snag != nil && len(n.Snag.Boards) > 0 {
		out = ` data-boards="` + esc(strings.Join(n.Snag.Boards, " ")) + `"`
	}
	if w.o.Note != nil {
		if at, ok := w.o.Note(i); ok {
			out += fmt.Sprintf(` data-place="%d-%d"`, at[0], at[1])
		}
	}
	return out
}

func (w *writer) note(i int, n shop.Note) string {
	// A name of the design file is said as its words.
	out := strong(words(stop(phrase.Begin(strings.ReplaceAll(n.What, "_", " ")))))
	if n.Why != "" {
		out += " " + words(stop(phrase.Begin(n.Why)))
	}
	for k, m := range n.Mends {
		said := words(strings.TrimSuffix(m, "."))
		if w.o.Note != nil && n.Snag != nil && k < len(n.Snag.Mends) && len(n.Snag.Mends[k].Edits) > 0 {
			said = fmt.Sprintf(`<button type="button" class="mend" data-mend="%d-%d">%s</button>`, i, k, said)
		}
		if k == 0 {
			out += " What to do: " + said
		} else {
			out += "; or " + said
		}
	}
	if len(n.Mends) > 0 {
		out += "."
	}
	if n.Where != "" {
		out += ` <span class="quiet">` + words(stop(phrase.Begin(n.Where))) + "</span>"
	}
	return out
}

func (w *writer) finish() { w.p("", w.text(w.r.Finish)) }

// changes lists what this plan has otherwise than the design.
func (w *writer) changes() {
	var rows []row
	for _, c := range w.r.Changes {
		rows = append(rows, row{"", []string{esc(c.Revision), w.text(c.What)}})
	}
	w.table("What is different from the design", []column{{head: "revision", name: true}, {head: "what"}}, rows)
}
