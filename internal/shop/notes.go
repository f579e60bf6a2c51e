package shop

import (
	"scantling/internal/board"
	"scantling/internal/snag"
)

// notes tells what is to be mended, minded or known in a reader's words.
func (s *shop) notes(all snag.List) {
	for i := range all {
		x := &all[i]
		n := Note{Kind: x.Severity.Title(), What: upper(x.What) + ".", Why: x.Why, Snag: x}
		if x.CannotTell {
			n.Kind = "Cannot tell"
		}
		for _, m := range x.Mends {
			n.Mends = append(n.Mends, m.Says)
		}
		var where []string
		for _, id := range x.Boards {
			if k, ok := s.at[board.ID(id)]; ok {
				where = append(where, "the "+s.Piece.Boards[k].Spoken)
			}
		}
		n.Where = list(where)
		if x.Step > 0 && x.Step <= len(s.Piece.Steps) {
			if n.Where != "" {
				n.Where += ", "
			}
			n.Where += "step " + number(x.Step) + " (" + s.Piece.Steps[x.Step-1].Name + ")"
		}
		s.out.Notes = append(s.out.Notes, n)
	}
}
