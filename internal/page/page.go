// Package page says a plan as the chapters of a web page, and as the figures its
// picture is drawn from.
//
// The page is the book in another place: the same chapters in the same order,
// said from the same readings of package shop. Everything stands in plain HTML
// that reads without a script; what a script makes live it finds by data
// attributes: `data-tick` (what can be ticked off), `data-boards` (what a row or
// step is about), `data-at` (where a number stands in the design file, for the
// page its designer edits). Nothing of a design file reaches the page but through
// esc.
//
// Chapters is the place to start; Model and Scene are what the picture needs.
package page

import (
	"fmt"
	"strings"

	"scantling/internal/picture"
	"scantling/internal/shop"
)

// Options is how a page is written.
type Options struct {
	Column float64                          // mm of paper a drawing may be wide; 0 for 170
	Places func(shop.Shown) [][2]int        // where a number comes from; nil where nobody edits
	Note   func(i int) (at [2]int, ok bool) // where note i points in the file; nil where nobody edits
}

// A Chapter is one chapter of the plan.
type Chapter struct {
	ID    string `json:"id"` // survives resizing: buy, parts, saw
	Title string `json:"title"`
	Aside string `json:"aside"` // the note in the margin
	HTML  string `json:"html"`  // what stands under the title
}

// Chapters says the plan. Drawings that were not made are left out; their words
// stand all the same.
func Chapters(r *shop.Readings, pics picture.Pictures, o Options) []Chapter {
	if o.Column == 0 {
		o.Column = 170
	}
	w := &writer{r: r, pics: pics, o: o}
	var out []Chapter
	for _, c := range []struct {
		id, title, aside string
		write            func()
	}{
		{"front", r.Piece, strings.Join(w.r.Edition(), ", "), w.front},
		{"mend", "Mend this", "the plan cannot be built before this is mended", func() { w.notes("Mend this") }},
		{"first", "First read this", "before the first cut", w.first},
		{"boards", "Your boards", "measure two boards of each size and write the figures here", w.boards},
		{"buy", "To buy", "take this page to the yard", w.buy},
		{"parts", "Parts", "thick × wide × long, long always along the grain", w.parts},
		{"saw", "At the saw", "lengths to scale, widths drawn wider; the tape starts at the squared end; hatched is waste", w.saw},
		{"sheets", "Part sheets", "each shaped or drilled part, from the end its tape is hooked on", w.sheets},
		{"steps", "Building it", "what a step adds is toned; what stands already is light", w.steps},
		{"care", "Take care, and worth knowing", "where, why, and what to do", w.care},
		{"finish", "Finish", "when the wood is dry", w.finish},
		{"changes", "Changes", "what is different from the design", w.changes},
	} {
		w.b.Reset()
		c.write()
		if w.b.Len() > 0 {
			out = append(out, Chapter{c.id, c.title, c.aside, w.b.String()})
		}
	}
	return out
}

// HTML returns the chapters as the sections of a page, numbered from first.
func HTML(chapters []Chapter, first int) string {
	var b strings.Builder
	for i, c := range chapters {
		h := "h2"
		if c.ID == "front" {
			h = "h1"
		}
		fmt.Fprintf(&b, `<section class="chapter" id="%s" aria-labelledby="%s-title"><div class="side"><span class="number" aria-hidden="true">%d</span><p class="aside">%s</p></div><div class="column"><%s id="%s-title">%s</%s><div class="body">%s</div></div></section>`+"\n",
			c.ID, c.ID, first+i, esc(c.Aside), h, c.ID, esc(c.Title), h, c.HTML)
	}
	return b.String()
}
