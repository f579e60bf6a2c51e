package book

import (
	"strings"

	"scantling/internal/phrase"
	"scantling/internal/typeset"
)

// mendThis, on the second chapter of a plan that cannot be built yet, says what
// stands in the way.
func (b *book) mendThis() {
	b.notes("Mend this", "the plan cannot be built before this is mended", "Mend this")
}

// takeCare prints what to mind, and what is good to know.
func (b *book) takeCare() {
	care, know := b.has("Take care"), b.has("Worth knowing")
	switch {
	case care && know:
		b.notes("Take care, and worth knowing", "where, why, and what to do", "Take care", "Worth knowing")
	case care:
		b.notes("Take care", "where, why, and what to do", "Take care")
	case know:
		b.notes("Worth knowing", "where, why, and what to do", "Worth knowing")
	}
	if len(b.r.Finish) > 0 {
		b.chapter("Finish", "when the wood is dry")
		b.para(2, spans(b.r.Finish, bodyStyle)...)
	}
}

func (b *book) has(kind string) bool {
	for _, n := range b.r.Notes {
		if n.Kind == kind {
			return true
		}
	}
	return false
}

// notes prints the notes of the kinds, in order.
func (b *book) notes(chapter, aside string, kinds ...string) {
	begun := false
	for _, kind := range kinds {
		if !b.has(kind) {
			continue
		}
		if !begun {
			b.chapter(chapter, aside)
			b.blocks[len(b.blocks)-1].fresh = b.number == 2
			begun = true
		}
		if len(kinds) > 1 {
			b.section(5, "", say(kind, sectionStyle)...)
		}
		for _, n := range b.r.Notes {
			if n.Kind != kind {
				continue
			}
			// A name of the design file is said as its words.
			sp := say(stop(phrase.Begin(strings.ReplaceAll(n.What, "_", " ")))+" ", strongStyle)
			if n.Why != "" {
				sp = append(sp, say(stop(phrase.Begin(n.Why))+" ", bodyStyle)...)
			}
			for i, m := range n.Mends {
				sep := "; or "
				if i == 0 {
					sep = "What to do: "
				}
				sp = append(sp, say(sep+strings.TrimSuffix(m, "."), bodyStyle)...)
				if i == len(n.Mends)-1 {
					sp = append(sp, say(".", bodyStyle)...)
				}
			}
			if n.Where != "" {
				sp = append(sp, say(" "+stop(phrase.Begin(n.Where)), typeset.Style{Size: 11, Ink: typeset.Quiet})...)
			}
			b.list(kind, 2.2, "•", sp...)
		}
	}
}

// changes is the list of revisions.
func (b *book) changes() {
	if len(b.r.Changes) == 0 {
		return
	}
	b.chapter("Changes", "what is different from earlier printings")
	dated := false
	for _, c := range b.r.Changes {
		dated = dated || c.Date != ""
	}
	cols := []column{{head: "revision", name: true}}
	if dated {
		cols = append(cols, column{head: "date"})
	}
	var rows [][]cell
	for _, c := range b.r.Changes {
		row := []cell{say(c.Revision, cellStrong)}
		if dated {
			row = append(row, say(c.Date, cellStyle))
		}
		rows = append(rows, append(row, spans(c.What, cellStyle)))
	}
	b.table(2.5, append(cols, column{head: "what", grow: true}), rows)
}
