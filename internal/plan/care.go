package plan

import (
	"strings"

	"scantling/internal/phrase"
	"scantling/internal/proof"
	"scantling/internal/shop"
	"scantling/internal/span"
)

// Hangs is what it does when every length and every mark is off by the trade
// tolerance: to the last gap of each row, the diagonals of each frame, and the last of
// the longest row of holes in each part.
type Hangs struct {
	Rows      []Hang // by running marks; Other: board by board with a spacer
	Diagonals []Hang
	Holes     []Hang // from one end; Other: each from the one before
}

// A Hang is one of them.
type Hang struct {
	What  string
	Count int // boards, holes; 0 of a diagonal
	Off   proof.Stack
	Other proof.Stack
}

// care says where a sixteenth matters, part by part and for what hangs on many.
func (p *Plan) care() {
	if p.pages == nil || len(p.Proof.Unclear) > 0 {
		return // it cannot be told
	}
	r := p.Readings
	needs := map[proof.Need][]string{}
	for _, c := range proof.Careful(p.pages) {
		for _, q := range r.Parts {
			if q.Letter != c.Letter {
				continue
			}
			q.Need = string(c.Need)
			needs[c.Need] = append(needs[c.Need], q.Letter)
		}
	}
	p.Hangs = p.hangs()
	pen := r.Pen
	t := shop.Words("Where ").Show(pen.Length(proof.Allowed, span.Set{})).Say(" matters: ")
	var clauses []string
	for _, c := range []struct {
		need proof.Need
		says string
	}{{proof.FromWork, "take the length of %s from the work"}, {proof.Match, "cut each kind of %s to one stop, for twins must match"},
		{proof.AsMarked, "cut %s to the mark"}, {proof.AnyNear, "%s may be a little long or short"}} {
		if letters := needs[c.need]; letters != nil {
			clauses = append(clauses, strings.Replace(c.says, "%s", phrase.List(letters), 1))
		}
	}
	if clauses == nil {
		return
	}
	r.Care = append(r.Care, t.Say(strings.Join(clauses, "; ")+"."))
	length := func(mm float64) shop.Shown { return pen.Length(mm, r.Mass.From) }
	if h, ok := longest(p.Hangs.Rows); ok {
		r.Care = append(r.Care, shop.Words("If every width and mark is off by that much, the last gap of "+h.What+" is off by ").Show(length(h.Off.Likely)).
			Say(" most likely and ").Show(length(h.Off.Worst)).Say(" at worst by the running marks; laid one from another with a spacer, by ").
			Show(length(h.Other.Likely)).Say(" and ").Show(length(h.Other.Worst)).Say("."))
	}
	if h, ok := longest(p.Hangs.Holes); ok {
		r.Care = append(r.Care, shop.Words("The last of "+h.What+" is off by ").Show(length(h.Off.Worst)).
			Say(" at worst if all are marked from one end, by ").Show(length(h.Other.Worst)).Say(" if each is marked from the one before."))
	}
}

// longest returns the one that hangs on most.
func longest(all []Hang) (most Hang, ok bool) {
	for _, h := range all {
		if h.Count > most.Count {
			most, ok = h, true
		}
	}
	return most, ok
}

// hangs works out what hangs on many lengths.
func (p *Plan) hangs() *Hangs {
	h := &Hangs{}
	for _, row := range p.Piece.Rows {
		if n, ok := row.Count.Q.Count(); ok && n > 2 {
			byMarks, bySpacer := proof.LastGap(n, proof.Allowed)
			h.Rows = append(h.Rows, Hang{"the " + strings.ReplaceAll(row.Name, "_", " ") + "s", n, byMarks, bySpacer})
		}
	}
	for _, s := range p.Readings.Steps {
		for _, f := range s.Square {
			a, b := f.Corners[0].Distance(f.Corners[1]), f.Corners[1].Distance(f.Corners[2])
			h.Diagonals = append(h.Diagonals, Hang{What: f.Frame, Off: proof.Diagonal(a, b, proof.Allowed)})
		}
	}
	for _, q := range p.Readings.Parts {
		lines := map[string]int{}
		most := 0
		for _, x := range q.Holes {
			line := x.Face + x.Rim + x.FromRim.Text
			lines[line]++
			most = max(most, lines[line])
		}
		if most > 2 {
			fromEnd, fromEach := proof.HoleRow(most, proof.Allowed)
			h.Holes = append(h.Holes, Hang{"the holes in a row of " + q.Letter + ", " + q.Name, most, fromEnd, fromEach})
		}
	}
	return h
}
