package design

import (
	"scantling/internal/board"
	"scantling/internal/geom"
	"scantling/internal/setout"
	"scantling/internal/span"
)

// sideAt is the plane of one side of a board, facing out.
type sideAt struct {
	plane      geom.Plane
	from, turn span.Set // turn: what its direction was computed from
	ok         bool
}

// plane returns the plane of a side of the written board.
func (s *single) plane(side board.Side) sideAt {
	f := s.lot.frameOf()
	if !f.ok {
		return sideAt{}
	}
	switch {
	case side.IsEnd():
		return s.endPlane(side)
	case side.IsFace():
		h := s.lot.thickness()
		return sideAt{setout.SideOf(h.Slab, side), f.from.Union(h.from), f.from, h.ok}
	}
	h := s.width()
	return sideAt{setout.SideOf(h.Slab, side), f.from.Union(h.from), f.from, h.ok}
}

// plane returns the plane of the side of the member that answers to a word, and
// which side of the written board it is the image of.
func (m *member) plane(word setout.Dir) (sideAt, board.Side, bool) {
	f := m.lot.frameOf()
	if !f.ok {
		return sideAt{}, 0, false
	}
	for side, w := range f.Words {
		if m.copy.Word(w) != word {
			continue
		}
		p := m.one.plane(board.Side(side))
		p.plane = m.copy.Plane(p.plane)
		p.from = p.from.Union(m.copy.from)
		return p, board.Side(side), true
	}
	return sideAt{}, 0, false
}

// show returns the plane of the member's show face.
func (m *member) show() (geom.Plane, bool) {
	p := m.one.plane(board.Show)
	return m.copy.Plane(p.plane), p.ok
}

// bar returns the written board before its ends are cut.
func (s *single) bar() (setout.Bar, span.Set, bool) {
	f, t, w := s.lot.frameOf(), s.lot.thickness(), s.width()
	if !f.ok || !t.ok || !w.ok {
		return setout.Bar{}, span.Set{}, false
	}
	return setout.Bar{Frame: f.Frame, Width: w.Slab, Thick: t.Slab}, f.from.Union(t.from, w.from), true
}

// homePoint is where the member stands for words like left and right: the centre
// of its bar at its hold; along the run itself, and for rows, the middle of the
// board.
func (m *member) homePoint(along bool) (geom.Vec, bool) {
	if along || m.lot.d.numbered() {
		b := m.one.blank()
		if !b.ok {
			return geom.Vec{}, false
		}
		low, high := b.End(board.Start), b.End(board.Finish)
		c := b.Centre(geom.Vec{})
		u, ok1 := low.Hit(c, b.Run)
		v, ok2 := high.Hit(c, b.Run)
		if ok1 && ok2 {
			return m.copy.Point(c.Along(b.Run, (u+v)/2)), true
		}
	}
	h := get(m.lot.w, &m.home, "", m.lot.d.at, func() homeAt {
		bar, _, ok := m.one.bar()
		if !ok {
			return homeAt{}
		}
		level := m.lot.thickness().level
		if level == nil {
			level = m.one.width().level
		}
		return homeAt{m.copy.Point(bar.Home(m.lot.frameOf().room.Room, level)), true}
	})
	return h.at, h.ok
}
