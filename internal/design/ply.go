package design

import (
	"strconv"

	"scantling/internal/board"
	"scantling/internal/measure"
	"scantling/internal/phrase"
	"scantling/internal/setout"
	"scantling/internal/snag"
	"scantling/internal/span"
)

// maxPlies bounds how many layers a part is glued up from.
const maxPlies = 8

// A doubled part is glued up face to face from several boards of its stock. Its
// places, its ends and what is read of it are those of the whole; each ply is a board
// of its own, the first at the show face, with the cuts that reach it.

// plies returns how many boards a part is glued up from, 1 of most.
func (l *lot) plies() (n int, from span.Set) {
	d := l.d.doubled
	if d == nil {
		return 1, span.Set{}
	}
	n, from, ok := l.w.count(d, "the number of plies", 0)
	if ok && n < 2 || n > maxPlies {
		l.w.error("absurd-count", d.node.Range, "the plies of "+phrase.Spaced(l.d.name)+" come to "+strconv.Itoa(n)+", and a part is glued up from 2 to "+strconv.Itoa(maxPlies), "",
			snag.Say("leave doubled: out for a single board, or buy thicker stock"))
		return 1, from
	}
	return max(n, 1), from
}

// isDoubled reports whether the lot's parts are glued up from plies.
func (l *lot) isDoubled() bool { return l.d.doubled != nil && l.sectionAt().plies > 1 }

// ply returns the board's own part of a blank: all of it, or of a doubled part one
// layer.
func (s *single) ply() blankAt {
	b := s.blank()
	sec := s.lot.sectionAt()
	if !b.ok || sec.plies < 2 {
		return b
	}
	whole := b.Blank
	bar := whole.Bar
	bar.Thick.Hi = whole.Thick.Hi - float64(float64(s.index)*sec.ply.MM())
	bar.Thick.Lo = bar.Thick.Hi - sec.ply.MM()
	layer, err := setout.Fit(bar, whole.Ends[0], whole.Ends[1], 0, nil)
	if err != nil {
		s.lot.w.fault(s.lot.d.at, err, "a ply of "+phrase.Spaced(s.lot.d.name))
		return blankAt{}
	}
	b.Blank = layer
	return b
}

// outer reports whether a face of the ply is one of the whole part's.
func (s *single) outer(face board.Side) bool {
	n := s.lot.sectionAt().plies
	return n < 2 || !face.IsFace() || face == board.Show && s.index == 0 || face == board.Under && s.index == n-1
}

// reaches narrows a recess of the whole part to this ply; false if it lies in another.
func (s *single) reaches(r *setout.Recess) bool {
	sec := s.lot.sectionAt()
	if sec.plies < 2 {
		return true
	}
	if r.Kind == board.Housing && r.Side.IsFace() {
		return s.outer(r.Side)
	}
	a := &r.Across
	if !r.Side.IsEdge() || a.Whole || !a.From.IsFace() {
		return true
	}
	before := s.index // plies between that face and this one
	if a.From == board.Under {
		before = sec.plies - 1 - s.index
	}
	t := sec.ply.MM()
	from := float64(float64(before) * t)
	a.Lo, a.Hi = max(0, a.Lo-from), min(t, a.Hi-from)
	return a.Hi > a.Lo
}

// plyWord says which ply of its part the member is: front, back, middle, 2nd.
func (m *member) plyWord() string {
	f, n := m.lot.frameOf(), m.lot.sectionAt().plies
	out := m.copy.toward(f.Words[board.Show])
	switch i := m.one.index; {
	case i == 0:
		return out.Side()
	case i == n-1:
		return out.Opposite().Side()
	case n == 3:
		return "middle"
	default:
		return nth(i + 1)
	}
}

// withPlies returns boards with all other plies of the same parts.
func (l *lot) withPlies(of []*member) []*member {
	if !l.isDoubled() {
		return of
	}
	var out []*member
	for _, m := range of {
		for _, o := range l.within(m.at) {
			if o.own == m.own {
				out = append(out, o)
			}
		}
	}
	return out
}

// glue adds the joints that plies imply: every ply is glued to the next.
func (w *world) glue(p *Piece) {
	for _, l := range w.lots {
		if !l.present().yes || !l.isDoubled() || len(w.built[l]) == 0 {
			continue
		}
		node := l.d.doubled.node
		from := span.Of(node.Ordinal)
		j := Joint{Name: l.d.name + "_plies", With: []Fastening{{"outdoor glue", node.Range, from}}, At: l.d.at, JoinAt: node.Range, Scalars: from}
		for _, b := range w.built[l] {
			side := &j.Sides[b.Ply%2]
			*side = append(*side, b.ID)
		}
		plies := l.sectionAt().plies
		j.Expect = &Figure{measure.Number(float64(len(w.built[l]) / plies * (plies - 1))), from}
		p.Joints = append(p.Joints, j)
	}
}
