package design

import (
	"scantling/internal/board"
	"scantling/internal/geom"
	"scantling/internal/phrase"
	"scantling/internal/setout"
	"scantling/internal/snag"
	"scantling/internal/span"
)

// rough returns the written board with its ends and tapers, before notches.
func (s *single) rough() *board.Board {
	l := s.lot
	return get(l.w, &s.wood, "", l.d.at, func() *board.Board {
		b, sec := s.ply(), l.sectionAt()
		if !b.ok || !sec.ok {
			return nil
		}
		var tapers []board.Cut
		for i, c := range s.d.cuts {
			if c.taper == nil {
				continue
			}
			if yes, _, known := l.w.holds(c.when); !known || !yes {
				continue
			}
			t := s.taperAt(i)
			if !t.ok {
				return nil
			}
			side, at, _ := s.taperSide(c.taper)
			for k, p := range t.planes {
				of := side
				if c.taper.both {
					of = []board.Side{board.Near, board.Far}[k]
				}
				cut := b.TaperCut(c.name, p, of, board.Mark{At: at, From: t.fromMM, Wide: t.wideMM, Both: c.taper.both})
				cut.From = t.from
				tapers = append(tapers, cut)
			}
		}
		if l.d.field != nil {
			tapers = append(tapers, l.hollows(s.index)...)
		}
		sized, ok := s.sized(&b)
		if !ok {
			return nil
		}
		tapers = append(tapers, sized...)
		out := b.Board(sec.stock, tapers)
		if !(out.L <= maxLength.MM()) {
			l.w.error("absurd-length", l.d.at, phrase.Spaced(l.d.name)+" is longer than "+l.w.d.print(maxLength.Quantity())+", and no tree is", "", snag.Say("see what makes it so long"))
			return nil
		}
		out.Part = l.d.name
		out.Rip = s.ripSide()
		out.LengthIs = board.ToFit
		if b.fixed {
			out.LengthIs = board.Fixed
		}
		for i := range out.Cuts {
			if c := &out.Cuts[i]; c.Kind == board.EndCut {
				e := s.end(c.Side)
				c.From, c.Meets = e.from, e.Meets
			}
		}
		out.Edges = s.edges(out)
		if out.Wood == nil || len(out.Wood.Cells) == 0 {
			l.w.error("nothing-left", l.d.at, "the cuts leave nothing of "+phrase.Spaced(l.d.name), "", snag.Say("see which cut takes all of it"))
			return nil
		}
		if len(sized) > 0 {
			s.sound(out)
		}
		return out
	})
}

// ripSide is the edge a rip takes: the one asked for, else the one opposite the
// edge that is held.
func (s *single) ripSide() board.Side {
	if s.d.rip != "" {
		if d, ok := setout.ParseSide(s.d.rip); ok {
			if side := s.lot.frameOf().Side(d); side.IsEdge() {
				return side
			}
			s.lot.w.error("not-that-side", s.d.at, "the "+s.d.rip+" of "+phrase.Spaced(s.d.name)+" is no edge, and a rip takes an edge", "", snag.Say("name one of its edges"))
		}
	}
	if held := s.width().first; held.IsEdge() {
		return held.Opposite()
	}
	return board.Far
}

// rough returns the member before notches, in place.
func (m *member) rough() *board.Board {
	return get(m.lot.w, &m.wood, "", m.lot.d.at, func() *board.Board {
		b := m.one.rough()
		if b == nil {
			return nil
		}
		c := m.copy.Board(b)
		if f := m.lot.frameOf(); m.copy.room != nil {
			for s, w := range f.Words {
				c.Sides[m.copy.Side(board.Side(s))] = m.copy.Word(w).Side()
			}
		}
		c.ID = m.id
		return c
	})
}

// finished returns the member with its notches.
func (m *member) finished() *board.Board {
	l := m.lot
	return get(l.w, &m.done, "the finished "+phrase.Spaced(l.d.name), l.d.at, func() *board.Board {
		b := m.rough()
		if b == nil {
			return nil
		}
		var cut []setout.Notched
		ok := true
		for _, c := range m.one.d.cuts {
			if c.notch == nil {
				continue
			}
			if yes, _, known := l.w.holds(c.when); !known || !yes {
				continue
			}
			n, good := m.notch(b, c)
			ok = ok && good
			if len(n.Cuts) > 0 || n.Ends != [2]*geom.Plane{} {
				cut = append(cut, n)
			}
		}
		laps, good := m.laps()
		if !ok || !good {
			return nil
		}
		if cut = append(laps, cut...); len(cut) == 0 {
			return b
		}
		out, what := *b, "a notch in "
		if len(laps) > 0 {
			what = "a cut in "
		}
		for _, f := range setout.AddCuts(&out, cut...) {
			l.w.fault(m.cutRange(f.Cut), f, what+phrase.Spaced(l.d.name))
		}
		return &out
	})
}

func (m *member) cutRange(name string) span.Range {
	for _, c := range m.one.d.cuts {
		if c.name == name || name == "" && c.notch != nil {
			return c.at
		}
	}
	return m.lot.d.at
}

// fromWood is what the member's wood before notches was computed from.
func (m *member) fromWood() span.Set {
	b := m.one.blank()
	from := b.from.Union(m.copy.from)
	if b := m.one.wood.v; b != nil {
		for _, c := range b.Cuts {
			if !c.Kind.TakesPrism() {
				from = from.Union(c.From)
			}
		}
	}
	return from
}

// from is what anything about the member was computed from.
func (m *member) from() span.Set {
	from := m.fromWood()
	if b := m.finished(); b != nil {
		for _, c := range b.Cuts {
			from = from.Union(c.From)
		}
	}
	return from
}
