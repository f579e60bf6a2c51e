package shop

import (
	"scantling/internal/board"
	"scantling/internal/design"
	"scantling/internal/measure"
	"scantling/internal/part"
)

// Glance returns what can be said of a piece before its joints and parts are
// known: its prose, sizes, choices and needs, and how large it is over
// everything. It is what a page shows while a size is dragged; Compute says the
// same of these and everything else.
func Glance(p *design.Piece, pen Pen) *Readings {
	s := &shop{piece: p, pen: pen, at: map[board.ID]int{}, partOf: map[board.ID]*part.Part{}, kg: make([]float64, len(p.Boards))}
	s.out = &Readings{Piece: p.Name, About: s.text(p.About), Units: "inches", Pen: pen}
	if pen.Tape.Units() == measure.Metric {
		s.out.Units = "millimetres"
	}
	s.weigh()
	s.sizes()
	s.boards()
	if len(s.out.Boards) > 0 {
		s.overall()
	}
	return s.out
}
