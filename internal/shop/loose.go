package shop

import (
	"scantling/internal/board"
	"scantling/internal/phrase"
)

// dropped says which of the boards a step adds nothing fastens, on purpose.
func (s *shop) dropped(added []board.ID) []Text {
	var names []string
	count := 0
	for _, id := range added {
		if b := s.piece.Boards[s.at[id]]; b.Loose {
			if count++; !has(names, phrase.Spaced(b.Name)) {
				names = append(names, phrase.Spaced(b.Name))
			}
		}
	}
	switch count {
	case 0:
		return nil
	case 1:
		return []Text{Words("The " + phrase.List(names) + " drops in and lifts out again: nothing fastens it.")}
	}
	for i := range names {
		names[i] += "s"
	}
	return []Text{Words("The " + phrase.List(names) + " drop in and lift out again: nothing fastens them.")}
}
