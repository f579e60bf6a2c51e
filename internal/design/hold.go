package design

import (
	"strings"

	"scantling/internal/board"
	"scantling/internal/expr"
	"scantling/internal/geom"
	"scantling/internal/phrase"
	"scantling/internal/setout"
	"scantling/internal/snag"
	"scantling/internal/span"
)

// thickness returns the hold across the boards' thickness.
func (l *lot) thickness() slabAt {
	return get(l.w, &l.thick, l.key("faces"), l.d.place, func() slabAt {
		s := l.sectionAt()
		if !s.ok {
			return slabAt{}
		}
		h := l.hold(board.Show, s.t.MM())
		h.from = h.from.Union(s.tFrom)
		return h
	})
}

// width returns the hold across the board's width: a hold of the part's, or the
// place the row gives it.
func (s *single) width() slabAt {
	l := s.lot
	return get(l.w, &s.wide, l.key("edges"), l.d.place, func() slabAt {
		if l.d.row != nil {
			return l.rowSlab(s.index)
		}
		if l.d.field != nil {
			return l.fieldSlab(s.index)
		}
		sec, f := l.sectionAt(), l.frameOf()
		if !sec.ok || !f.ok {
			return slabAt{}
		}
		if f.across != nil {
			return slabAt{Slab: *f.across, from: sec.from.Union(f.from), ok: true}
		}
		h := l.hold(board.Far, sec.w.MM())
		h.from = h.from.Union(sec.from)
		return h
	})
}

// across reports whether a side lies across the thickness (face) or the width
// (edge), as pair does.
func across(side, pair board.Side) bool {
	return side.IsFace() && pair.IsFace() || side.IsEdge() && pair.IsEdge()
}

// hold finds what holds the boards across their thickness (pair Show) or their
// width (pair Far). size is mm.
func (l *lot) hold(pair board.Side, size float64) slabAt {
	f := l.frameOf()
	if !f.ok {
		return slabAt{}
	}
	var found []func() slabAt
	var at []span.Range
	add := func(r span.Range, g func() slabAt) { found, at = append(found, g), append(at, r) }
	for _, h := range l.d.holds {
		if h.middle {
			if l.middleHolds(h, f, pair) {
				add(h.key, func() slabAt { return l.holdMiddle(h, f, pair, size) })
			}
			continue
		}
		side := f.Side(setout.Dir(h.side))
		if side.IsEnd() {
			l.heldEnd(h, f)
		} else if across(side, pair) {
			add(h.key, func() slabAt { return l.holdSide(h, f, side, size) })
		}
	}
	if c := l.d.corner; c != nil {
		for _, word := range []expr.Dir{c.a, c.b} {
			if across(f.Side(setout.Dir(word)), pair) {
				add(c.node.Range, func() slabAt { return l.holdCorner(c, f, setout.Dir(word), size) })
			}
		}
	}
	if c := l.d.centre; c != nil {
		add(c.node.Range, func() slabAt { return l.holdCentre(c, f, pair, size) })
	}
	if m, c := l.marksAcross(f, pair); m != nil {
		add(m.node.Range, func() slabAt { return l.holdMarks(m, c, f, pair, size) })
	}
	switch len(found) {
	case 0:
		if !l.d.unread[0] {
			l.loose(f, pair)
		}
		return slabAt{}
	case 1:
	default:
		s := snag.Snag{Code: "held-twice", At: at[1], What: phrase.Spaced(l.d.name) + " is held twice across its " + pairWord(pair),
			Related: []snag.Related{{At: at[0], Says: "the first hold"}}, Mends: []snag.Mend{snag.Say("keep one of the two: the other side follows from the size")}}
		l.w.tell(s)
	}
	return found[0]()
}

func pairWord(pair board.Side) string {
	if pair.IsFace() {
		return "thickness"
	}
	return "width"
}

// loose tells that nothing holds the board one way.
func (l *lot) loose(f frameAt, pair board.Side) {
	a, b := f.Words[pair].Side(), f.Words[pair.Opposite()].Side()
	l.w.error("not-held", l.d.place, "nothing says where "+phrase.Spaced(l.d.name)+" lies across its "+pairWord(pair)+": it may move "+f.Words[pair.Opposite()].String()+" and "+f.Words[pair].String(), "",
		snag.Say("add "+a+": or "+b+": and what that side goes through; or middle:"))
}

// heldEnd tells that a hold names an end.
func (l *lot) heldEnd(h holdDecl, f frameAt) {
	var edges []string
	for _, s := range []board.Side{board.Near, board.Far, board.Under, board.Show} {
		edges = append(edges, f.Words[s].Side())
	}
	l.w.error("not-that-side", h.key, "the "+h.side.Side()+" of "+phrase.Spaced(l.d.name)+" is an end: it runs "+f.Words[board.Finish].String(), "",
		snag.Say("say it under ends:, or hold one of its sides: "+strings.Join(edges, ", ")))
}

// place works out what a hold holds to, as a place; a bare length or an angle is
// refused with what to say instead.
func (l *lot) placeOf(s *said, in room, what string) (expr.Value, *place) {
	v := l.w.eval(s, in)
	switch v.Kind {
	case expr.Position, expr.Plane:
		return v, v.Place.(*place)
	case expr.Unknown:
	case expr.Number:
		l.w.error("place-without-from", s.node.Range, what+" is held by a place, and "+v.A()+" alone does not say from where", "",
			snag.Say("say, for instance, "+s.node.Text+" above floor, or … left of middle"))
	default:
		l.w.error("wrong-kind", s.node.Range, what+" is held by a position, a side or a plane, and this is "+v.A(), "", snag.Say("name a position, side or plane"))
	}
	return v, nil
}

func (l *lot) holdSide(h holdDecl, f frameAt, side board.Side, size float64) slabAt {
	v, p := l.placeOf(h.to, f.room, "the "+h.side.Side()+" of "+phrase.Spaced(l.d.name))
	if p == nil {
		return slabAt{}
	}
	target := p.onAxis(f.room, setout.Dir(h.side))
	if !l.onThatAxis(h, f, p, target) {
		return slabAt{}
	}
	slab, err := l.held(f, setout.Dir(h.side), size, p, target)
	if err != nil {
		l.w.fault(h.to.node.Range, err, "the "+h.side.Side()+" of "+phrase.Spaced(l.d.name))
		return slabAt{}
	}
	if v.Meet != expr.Nothing {
		l.meets(h.to, setout.SideOf(slab, side), p, setout.Dir(h.side), v.Meet)
	}
	return slabAt{slab, p.at, side, v.From.Union(f.from), true}
}

// held calls the one solver of a hold, first without the board's show face: only
// an edge of a board with two leans needs to wait for it.
func (l *lot) held(f frameAt, word setout.Dir, size float64, p *place, target geom.Plane) (setout.Slab, error) {
	target = p.level(f.room, word, target)
	slab, err := setout.Hold(f.Frame, word, size, target, p.at, nil)
	if fault, ok := err.(*setout.Fault); ok && (fault.Kind == setout.Unsteady || fault.Kind == setout.NoCrossing) && f.Side(word).IsEdge() {
		t := l.thickness()
		if !t.ok {
			return slab, err
		}
		show := setout.SideOf(t.Slab, board.Show)
		return setout.Hold(f.Frame, word, size, target, p.at, &show)
	}
	return slab, err
}

// level returns target, or where it is an edge that leans two ways, the plane of
// the one place it is read at.
func (p *place) level(in room, word setout.Dir, target geom.Plane) geom.Plane {
	if p.at == nil || p.show == nil {
		return target
	}
	if _, err := in.ReadAt(target, *p.at, word, nil); err == nil {
		return target
	}
	if show, ok := p.show(); ok {
		if at, err := in.ReadAt(target, *p.at, word, &show); err == nil {
			return in.Plane(word, at)
		}
	}
	return target
}

// onThatAxis refuses a height used for left, and its likes.
func (l *lot) onThatAxis(h holdDecl, f frameAt, p *place, target geom.Plane) bool {
	way := f.room.Way(setout.Dir(h.side))
	if absf(target.N.Dot(way)) > 1e-9 {
		return true
	}
	d, _ := f.room.Nearest(target.N)
	l.w.error("wrong-axis", h.to.node.Range, "“"+h.side.Side()+"” wants a place "+axisWords[h.side.Axis()]+", and this is one "+axisWords[d.Axis()], "",
		snag.Say("name a place "+axisWords[h.side.Axis()]))
	return false
}

// middleHolds reports whether a middle hold lies across the pair of sides: by
// the axis of its place, or, for a bare middle, by what nothing else holds.
func (l *lot) middleHolds(h holdDecl, f frameAt, pair board.Side) bool {
	v := l.w.eval(h.to, f.room)
	p, ok := v.Place.(*place)
	if !ok {
		return pair == board.Show // told once
	}
	if !p.any {
		return absf(p.plane.N.Dot(f.Face)) > absf(p.plane.N.Dot(f.Edge)) == pair.IsFace()
	}
	for _, o := range l.d.holds {
		if !o.middle && across(f.Side(setout.Dir(o.side)), pair) {
			return false
		}
	}
	return true
}

func (l *lot) holdMiddle(h holdDecl, f frameAt, pair board.Side, size float64) slabAt {
	v, p := l.placeOf(h.to, f.room, "the middle of "+phrase.Spaced(l.d.name))
	if p == nil {
		return slabAt{}
	}
	target := p.onAxis(f.room, f.Words[pair])
	slab, err := setout.HoldMiddle(f.Frame, pair, size, target, p.at, nil)
	if err != nil {
		l.w.fault(h.to.node.Range, err, "the middle of "+phrase.Spaced(l.d.name))
		return slabAt{}
	}
	return slabAt{slab, p.at, pair, v.From.Union(f.from), true}
}

func (l *lot) holdCorner(c *cornerDecl, f frameAt, word setout.Dir, size float64) slabAt {
	at := l.w.point(&c.at, f.room)
	if !at.ok {
		return slabAt{}
	}
	slab, err := setout.HoldPoint(f.Frame, word, size, at.at)
	if err != nil {
		l.w.fault(c.node.Range, err, phrase.Spaced(l.d.name))
		return slabAt{}
	}
	level := f.room.Plane(f.Words[board.Finish], f.room.Coordinate(at.at, f.Words[board.Finish]))
	return slabAt{slab, &level, f.Side(word), at.from.Union(f.from), true}
}

func (l *lot) holdCentre(c *pointDecl, f frameAt, pair board.Side, size float64) slabAt {
	at := l.w.point(c, f.room)
	if !at.ok {
		return slabAt{}
	}
	slab, err := setout.HoldCentre(f.Frame, pair, size, at.at)
	if err != nil {
		l.w.fault(c.node.Range, err, phrase.Spaced(l.d.name))
		return slabAt{}
	}
	level := f.room.Plane(f.Words[board.Finish], f.room.Coordinate(at.at, f.Words[board.Finish]))
	return slabAt{slab, &level, pair, at.from.Union(f.from), true}
}

// A meeting is what against asserted: these two boards touch, facing.
type meeting struct {
	of   *lot
	side setout.Dir
	with *member
	at   span.Range
}

// meets checks what flush with and against assert of directions now, and of
// touching on the finished boards.
func (l *lot) meets(s *said, mine geom.Plane, p *place, word setout.Dir, how expr.Meeting) {
	if err := setout.Looks(mine, p.plane, how == expr.Against); err != nil {
		words, other := "flush with", "against"
		if how == expr.Against {
			words, other = other, words
		}
		why := "sides are flush when they look the same way"
		if how == expr.Against {
			why = "one side lies against another when they face one another"
		}
		l.w.error("meets-askew", s.node.Range, "the "+word.Side()+" of "+phrase.Spaced(l.d.name)+" cannot be "+words+" "+p.says, why,
			snag.Say("say "+other+" if that is meant, or name another side"))
		return
	}
	if how == expr.Against && p.of != nil && p.of.lot != l {
		l.w.meetings = append(l.w.meetings, meeting{of: l, side: word, with: p.of, at: s.node.Range})
	}
}
