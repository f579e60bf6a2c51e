package shop

import (
	"slices"

	"scantling/internal/board"
	"scantling/internal/design"
	"scantling/internal/phrase"
	"scantling/internal/snag"
)

// Notes tells snags in a reader's words: what is to be mended, minded or known,
// and where: the boards by their part letters, the step by its number and name in
// the plan.
func Notes(all snag.List, p *design.Piece, r *Readings) []Note {
	spoken := map[board.ID]string{}
	for _, b := range r.Boards {
		spoken[b.ID] = "the " + b.Spoken
		if b.Part != "" {
			spoken[b.ID] += " (" + b.Part + ")"
		}
	}
	var out []Note
	for i := range all {
		x := &all[i]
		n := Note{Kind: x.Severity.Title(), What: phrase.Begin(x.What), Why: x.Why, Snag: x}
		if x.CannotTell {
			n.What = "It cannot be told: " + x.What
		}
		for _, m := range x.Mends {
			n.Mends = append(n.Mends, m.Says)
		}
		var where []string
		for _, id := range x.Boards {
			if w := spoken[board.ID(id)]; w != "" {
				where = append(where, w)
			}
		}
		for _, step := range r.Steps {
			if slices.Contains(step.Of, x.Step-1) {
				where = append(where, "step "+number(step.Number)+", "+step.Name)
			}
		}
		n.Where = phrase.List(where)
		out = append(out, n)
	}
	return out
}
