package shop

import (
	"scantling/internal/board"
	"scantling/internal/design"
	"scantling/internal/geom"
	"scantling/internal/phrase"
)

// spacerRun is how many gaps in a row a spacer may be trusted for: past it the
// 1/64 in a spacer is off by comes to more than the trade tolerance of 1/16.
const spacerRun = 4

// laid counts the boards of a step that are of a row or field.
func (s *shop) laid(added []board.ID, of func(*design.Board) bool) (n int) {
	for _, id := range added {
		if of(s.piece.Boards[s.at[id]]) {
			n++
		}
	}
	return n
}

// checks says what is right after a step: the gaps of the rows it lays.
func (s *shop) checks(added []board.ID) []Text {
	out := s.dropped(added)
	for i := range s.piece.Rows {
		row := &s.piece.Rows[i]
		n := s.laid(added, func(b *design.Board) bool { return b.Row > 0 && b.Name == row.Name })
		count, ok := row.Count.Q.Count()
		if n == 0 || !ok || count < 2 {
			continue
		}
		if gap, ok := row.Gap.Q.Length(); ok && gap.MM() < geom.Touch {
			out = append(out, Words("The "+phrase.Spaced(row.Name)+"s lie tight, with no gap between them."))
			continue
		}
		t := Words("The gaps between the " + phrase.Spaced(row.Name) + "s come to ").Show(s.pen.Quantity(row.Gap.Q, row.Gap.From)).Say(".")
		if gaps := count - 1; gaps > spacerRun {
			off := s.pen.Length(float64(gaps)*25.4/64, row.Count.From)
			t = t.Say(" Set them by the running marks, not by a spacer alone: one only ").Show(s.pen.Bit(25.4/64, row.Count.From)).
				Say(" too thick would push the last board ").Show(off).Say(" along.")
		}
		out = append(out, t)
	}
	for i := range s.piece.Fields {
		f := &s.piece.Fields[i]
		n := s.laid(added, func(b *design.Board) bool { return b.Field > 0 && b.Name == f.Name })
		if n > 1 {
			out = append(out, Words("The gaps between the "+phrase.Spaced(f.Name)+"s come to ").Show(s.pen.Quantity(f.Gap.Q, f.Gap.From)).
				Say("; square across the boards the whole measures ").Show(s.pen.Quantity(f.Across.Q, f.Across.From)).Say("."))
		}
	}
	return out
}
