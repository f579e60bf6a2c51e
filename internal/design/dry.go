package design

import (
	"scantling/internal/lumber"
	"scantling/internal/span"
	"scantling/internal/wood"
)

// Moisture contents in percent of the dry mass, as lumber comes and as it is once
// dried where the piece lives. Sources: 19 % is the most of lumber sold as dry
// (American Softwood Lumber Standard, PS 20); treated lumber is sold wet, over
// fibre saturation, unless it was dried again; outdoors under a roof wood comes
// to 12 % in most of the United States, to 8 % in the dry southwest and to 14 %
// on damp coasts, and to 8 % in a heated room (Wood Handbook, FPL-GTR-190 (2010),
// chapter 13; from memory).
const (
	soldDry   = 19
	soldWet   = 30
	temperate = 12
	arid      = 8
	damp      = 14
	indoors   = 8
)

// driesTo returns the width of the lot's boards once dried over their width when
// they are laid, never over 1, and what it was computed from.
func (l *lot) driesTo() (float64, span.Set) {
	s := l.sectionAt()
	if s.stock == nil {
		return 1, span.Set{}
	}
	w, err := wood.Lookup(s.stock.Wood)
	if err != nil {
		return 1, span.Set{}
	}
	laid, lives := float64(soldDry), float64(temperate)
	if s.stock.Treatment != lumber.Untreated {
		laid = soldWet
	}
	from := s.tFrom
	if u := l.w.d.use; u != nil {
		if u.built == "indoors dry" {
			laid = indoors
		}
		switch u.lives {
		case "outdoors dry":
			lives = arid
		case "outdoors wet":
			lives = damp
		case "indoors", "indoors dry":
			lives = indoors
		}
		from = from.Union(span.Of(u.climate...))
	}
	return min(1, w.WidthRatio(laid, lives)), from
}
