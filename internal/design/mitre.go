package design

import (
	"scantling/internal/board"
	"scantling/internal/geom"
	"scantling/internal/phrase"
	"scantling/internal/setout"
	"scantling/internal/snag"
	"scantling/internal/span"
)

// mitred cuts an end in a mitre with the copy of another part that it meets. Both
// must ask for it, so that neither board is left square by oversight.
func (s *single) mitred(w *endWay, side board.Side, what string) endAt {
	l := s.lot
	other, ok := l.w.lotOf(w.mate)
	if !ok {
		return endAt{}
	}
	if h := other.present(); !h.yes {
		if h.known {
			w.mate.env(l.w).removed(w.mate.Ref, other)
		}
		return endAt{}
	}
	bar, from, ok := s.bar()
	if !ok {
		return endAt{}
	}
	var mates []*member
	var bars []setout.Bar
	for _, m := range l.w.pick(other, w.node, w.mate.Select) {
		theirs, more, ok := m.one.bar()
		if !ok {
			return endAt{}
		}
		if m.one == s && m.copy.written {
			continue
		}
		mates, bars, from = append(mates, m), append(bars, m.copy.Bar(theirs)), from.Union(more, m.copy.from)
	}
	if len(bars) == 0 {
		l.w.fault(w.node.Range, &setout.Fault{Kind: setout.Misses}, what)
		return endAt{}
	}
	i, err := setout.MitreMate(bar, side, bars)
	if err != nil {
		l.w.fault(w.node.Range, err, what)
		return endAt{}
	}
	end := mates[i].mitredEnd(bars[i], bar, l)
	if !mates[i].one.asksMitre(end, l) {
		their := mates[i].copy.Word(other.frameOf().Words[end]).Side()
		l.w.tell(snag.Snag{Code: "mitre-alone", At: w.node.Range, What: what + " is mitred with " + phrase.Spaced(other.d.name) + ", whose " + their + " end is not mitred with it",
			Why: "a mitre halves the corner between two boards, so that both are cut", Related: []snag.Related{{At: mates[i].one.endRange(end), Says: "the other end"}},
			Mends: []snag.Mend{snag.Say("write mitre with " + l.d.name + " at that end too")}})
		return endAt{}
	}
	p, err := setout.MitreWith(bar, side, bars[i], end)
	if err != nil {
		l.w.fault(w.node.Range, err, what)
		return endAt{}
	}
	from = from.Union(span.Of(w.node.Ordinal))
	return endAt{End: setout.End{Planes: []geom.Plane{p}, Meets: phrase.Spaced(other.d.name)}, toFit: true, from: from, turn: from, ok: true}
}

// mitredEnd returns which end of the member makes a corner with a board of the lot:
// the one that asks for it, or if both do, the one on that side of the middle of
// all corners it makes with the lot.
func (m *member) mitredEnd(mine, other setout.Bar, with *lot) board.Side {
	start, finish := m.one.asksMitre(board.Start, with), m.one.asksMitre(board.Finish, with)
	switch {
	case start && !finish:
		return board.Start
	case finish && !start:
		return board.Finish
	}
	var corners []geom.Vec
	for _, o := range with.all() {
		b, _, ok := o.one.bar()
		if !ok {
			continue
		}
		if at, ok := setout.CornerOf(mine, o.copy.Bar(b)); ok {
			corners = append(corners, at)
		}
	}
	at, _ := setout.CornerOf(mine, other)
	return setout.EndNearest(mine, setout.Mean(corners), at)
}

// asksMitre reports whether an end of the board is to be mitred with the lot.
func (s *single) asksMitre(end board.Side, with *lot) bool {
	d := s.endDecl(end)
	if d == nil || len(d.ways) != 1 || d.ways[0].mate == nil {
		return false
	}
	l, ok := s.lot.w.lotOf(d.ways[0].mate)
	return ok && l == with
}
