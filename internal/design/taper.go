package design

import (
	"scantling/internal/board"
	"scantling/internal/geom"
	"scantling/internal/phrase"
	"scantling/internal/setout"
	"scantling/internal/snag"
	"scantling/internal/span"
)

// A taperAt is the planes of a taper, in the piece.
type taperAt struct {
	planes []geom.Plane
	from   span.Set
	fromMM float64
	wideMM float64
	ok     bool
}

// taperSide returns the side a taper is taken from and the end it starts near.
func (s *single) taperSide(t *taperDecl) (side, at board.Side, ok bool) {
	f := s.lot.frameOf()
	if !f.ok {
		return 0, 0, false
	}
	at = f.Side(setout.Dir(t.at))
	side = board.Far
	if !t.both {
		side = f.Side(setout.Dir(t.side))
	}
	if !at.IsEnd() || side.IsEnd() {
		s.lot.w.error("not-that-side", t.node.Range, "a taper runs along a side of "+phrase.Spaced(s.lot.d.name)+" from one of its ends, "+f.Words[board.Start].Side()+" or "+f.Words[board.Finish].Side(), "", snag.Say("name a side and its ends"))
		return 0, 0, false
	}
	return side, at, true
}

// taperAt works out the i-th cut, which is a taper.
func (s *single) taperAt(i int) taperAt {
	c := s.d.cuts[i]
	l := s.lot
	return get(l.w, &s.taper[i], l.key(c.name), c.at, func() taperAt {
		side, at, ok := s.taperSide(c.taper)
		bar, from, ok2 := s.bar()
		start, finish := s.end(board.Start), s.end(board.Finish)
		if !ok || !ok2 || !start.ok || !finish.ok {
			return taperAt{}
		}
		if start.Loose || finish.Loose {
			b := s.blank()
			if !b.ok {
				return taperAt{}
			}
			start.End, finish.End = b.Ends[0], b.Ends[1]
			from = from.Union(b.from)
		}
		d := l.w.length(c.taper.from, "where a taper starts")
		w := l.w.length(c.taper.wide, "how wide a taper ends")
		if !d.ok || !w.ok {
			return taperAt{}
		}
		out := taperAt{fromMM: d.mm(), wideMM: w.mm(), ok: true, from: from.Union(start.from, finish.from, d.from, w.from)}
		var err error
		if c.taper.both {
			var both [2]geom.Plane
			both, err = setout.TaperBoth(bar, start.End, finish.End, side, at, d.mm(), w.mm())
			out.planes = both[:]
		} else {
			var p geom.Plane
			p, err = setout.TaperPlane(bar, start.End, finish.End, side, at, d.mm(), w.mm())
			out.planes = []geom.Plane{p}
		}
		if err != nil {
			l.w.fault(c.at, err, "the taper "+c.name)
			return taperAt{}
		}
		return out
	})
}
