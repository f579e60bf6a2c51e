package design

import (
	"math"

	"scantling/internal/board"
	"scantling/internal/expr"
	"scantling/internal/geom"
	"scantling/internal/measure"
	"scantling/internal/phrase"
	"scantling/internal/setout"
	"scantling/internal/snag"
	"scantling/internal/span"
)

// An endAt is one end: where it is cut, and what was asserted of it.
type endAt struct {
	setout.End
	said  bool // the file says something of it
	toFit bool // cut to another board
	from  span.Set
	turn  span.Set // what its direction was computed from
	ok    bool
}

// end works out what one end is cut to. Nothing said leaves it loose: its place
// follows from the length.
func (s *single) end(side board.Side) endAt {
	l := s.lot
	name := "start"
	if f := l.frameOf(); f.ok {
		name = f.Words[side].Side() + " end"
	}
	return get(l.w, &s.ends[side], l.key(name), s.endRange(side), func() endAt {
		f := l.frameOf()
		if !f.ok {
			return endAt{}
		}
		if l.d.field != nil {
			return l.fieldEnd(s.index, side)
		}
		d := s.endDecl(side)
		if d == nil {
			return endAt{End: setout.LooseSquare(f.Frame, side), from: f.from, turn: f.from, ok: true}
		}
		out := endAt{said: true, from: f.from, ok: true}
		for i := range d.ways {
			w := s.cutEnd(d, &d.ways[i], f, side)
			if !w.ok {
				return endAt{}
			}
			out.Planes = append(out.Planes, w.Planes...)
			out.Loose = out.Loose || w.Loose
			if out.Meets == "" {
				out.Meets = w.Meets
			}
			out.toFit = out.toFit || w.toFit
			out.from, out.turn = out.from.Union(w.from), out.turn.Union(w.turn)
		}
		return out
	})
}

// endDecl returns what the file says of an end, and refuses what is said of a
// side that is none, once.
func (s *single) endDecl(side board.Side) *endDecl {
	f := s.lot.frameOf()
	var out *endDecl
	for _, e := range s.d.ends {
		of := e.side(f)
		if !of.IsEnd() {
			s.lot.w.error("not-that-side", e.key, "the "+e.word.Side()+" of "+phrase.Spaced(s.lot.d.name)+" is its "+sideKind(of)+": its ends are "+f.Words[board.Start].Side()+" and "+f.Words[board.Finish].Side(), "",
				snag.Say("name an end, or hold this side under place:"))
			continue
		}
		if of == side {
			out = e
		}
	}
	return out
}

// side returns the side of the board an end's key names.
func (e *endDecl) side(f frameAt) board.Side {
	switch e.way {
	case "from":
		return board.Start
	case "to":
		return board.Finish
	}
	return f.Side(setout.Dir(e.word))
}

func (s *single) endRange(side board.Side) span.Range {
	f := s.lot.frameOf()
	for _, e := range s.d.ends {
		if f.ok && e.side(f) == side {
			return e.key
		}
	}
	return s.lot.d.at
}

// cutEnd works out one cut of an end.
func (s *single) cutEnd(d *endDecl, w *endWay, f frameAt, side board.Side) endAt {
	l := s.lot
	word := f.Words[side]
	what := "the " + word.Side() + " end of " + phrase.Spaced(l.d.name)
	var p geom.Plane
	var err error
	out := endAt{ok: true}
	switch {
	case w.loosely:
		return endAt{End: setout.LooseSquare(f.Frame, side), turn: f.from, ok: true}
	case w.mitre != nil || w.bevel != nil:
		return s.angledEnd(w, f, side, what)
	case w.part != nil:
		return s.endToPart(w, side, what)
	case w.mate != nil:
		return s.mitred(w, side, what)
	case w.square != nil:
		v, target := l.placeOf(w.square, f.room, what)
		if target == nil {
			return endAt{}
		}
		bar, from, ok := s.bar()
		if !ok {
			return endAt{}
		}
		reach := map[string]setout.Reach{"highest": setout.Highest, "lowest": setout.Lowest, "past": setout.Past}[w.reach]
		out.from, out.turn, out.Meets = v.From.Union(from), f.from, target.says
		p, err = setout.EndSquare(bar, side, reach, target.onAxis(f.room, word))
	default:
		v, target := l.placeOf(w.to, f.room, what)
		if target == nil {
			return endAt{}
		}
		out.from, out.turn, out.Meets, out.toFit = v.From, target.turn, target.says, target.of != nil
		plane := target.onAxis(f.room, word)
		if target.at != nil {
			at, err := w.to.env(l.w, f.room).readAt(target, word)
			if err != nil {
				l.w.fault(w.node.Range, err, what)
				return endAt{}
			}
			plane = f.room.Plane(word, at)
		}
		if w.clearance != nil {
			c := l.w.length(w.clearance, "a clearance")
			if !c.ok {
				return endAt{}
			}
			out.from = out.from.Union(c.from)
			p, err = setout.EndClear(f.Frame, side, plane, c.mm())
		} else {
			p, err = setout.EndAt(f.Frame, side, plane)
		}
		if err == nil && v.Meet != expr.Nothing {
			l.meets(w.to, p, target, word, v.Meet)
		}
	}
	if err != nil {
		l.w.fault(w.node.Range, err, what)
		return endAt{}
	}
	out.Planes = []geom.Plane{p}
	return out
}

func (s *single) angledEnd(w *endWay, f frameAt, side board.Side, what string) endAt {
	var mitre, bevel figure
	if w.mitre != nil {
		if mitre = s.lot.w.angle(w.mitre, "a mitre"); !mitre.ok {
			return endAt{}
		}
	}
	if w.bevel != nil {
		if bevel = s.lot.w.angle(w.bevel, "a bevel"); !bevel.ok {
			return endAt{}
		}
	}
	long := f.Side(setout.Dir(w.longPoint))
	const radian = math.Pi / 180 / float64(measure.Degree)
	end, err := setout.LooseAngled(f.Frame, side, mitre.v*radian, long, bevel.v*radian, long)
	if err != nil {
		s.lot.w.fault(w.node.Range, err, what)
		return endAt{}
	}
	turn := f.from.Union(mitre.from, bevel.from)
	return endAt{End: end, from: turn, turn: turn, ok: true}
}

// endToPart cuts an end to the side of another part its centre line meets first.
func (s *single) endToPart(w *endWay, side board.Side, what string) endAt {
	l := s.lot
	other, ok := l.w.lotOf(w.part)
	if !ok {
		return endAt{}
	}
	if h := other.present(); !h.yes {
		if h.known {
			w.part.env(l.w).removed(w.part.Ref, other)
		}
		return endAt{}
	}
	bar, from, ok := s.bar()
	if !ok {
		return endAt{}
	}
	of := w.part.boards(l.w, other)
	if len(of) == 0 {
		return endAt{}
	}
	theirs, more, ok := of[0].one.bar()
	if !ok {
		return endAt{}
	}
	_, p, err := setout.EndTo(bar, side, of[0].copy.Bar(theirs))
	if err != nil {
		l.w.fault(w.node.Range, err, what)
		return endAt{}
	}
	return endAt{End: setout.End{Planes: []geom.Plane{p}, Meets: phrase.Spaced(other.d.name)}, toFit: true,
		from: from.Union(more, span.Of(w.node.Ordinal)), turn: from.Union(more), ok: true}
}

// endPlane returns the plane of an end; a loose one waits for the length.
func (s *single) endPlane(side board.Side) sideAt {
	e := s.end(side)
	if !e.ok {
		return sideAt{}
	}
	if !e.Loose {
		return sideAt{e.Planes[0], e.from, e.turn, true}
	}
	b := s.blank()
	if !b.ok {
		return sideAt{}
	}
	return sideAt{b.End(side), b.from, e.turn, true}
}

// A blankAt is a bar with both its ends.
type blankAt struct {
	setout.Blank
	from  span.Set // of everything
	long  span.Set // of its length
	fixed bool
	toFit bool
	ok    bool
}

// blank fits both ends.
func (s *single) blank() blankAt {
	l := s.lot
	return get(l.w, &s.fit, l.key("length"), l.d.at, func() blankAt {
		bar, from, ok := s.bar()
		start, finish := s.end(board.Start), s.end(board.Finish)
		if !ok || !start.ok || !finish.ok {
			return blankAt{}
		}
		out := blankAt{from: from.Union(start.from, finish.from), toFit: start.toFit || finish.toFit}
		length := 0.0
		at := l.d.at
		if s.d.length != nil {
			f := l.w.length(s.d.length, "a length")
			if !f.ok {
				return blankAt{}
			}
			at = s.d.length.node.Range
			if f.v <= 0 {
				l.w.error("no-length", at, "the length of "+phrase.Spaced(l.d.name)+" comes to "+l.w.d.print(measure.Quantity{V: f.v, D: measure.DimLength}), "", snag.Say("see what makes it so short"))
				return blankAt{}
			}
			length, out.from, out.long, out.fixed = f.mm(), out.from.Union(f.from), f.from, true
		}
		var middle *geom.Plane
		if f := l.frameOf(); start.Loose && finish.Loose && l.levelRun(f) {
			p := f.room.Plane(f.Words[board.Finish], 0)
			middle = &p
		}
		if !start.Loose && !finish.Loose && length > 0 {
			l.w.error("length-twice", at, phrase.Spaced(l.d.name)+" has both ends and a length", "the ends give the length", snag.Say("leave length out, or one of the ends"))
			return blankAt{}
		}
		b, err := setout.Fit(bar, start.End, finish.End, length, middle)
		if err != nil {
			l.noFit(at, err, start, finish)
			return blankAt{}
		}
		out.Blank, out.ok = b, true
		if s.d.length == nil {
			out.long = s.lengthFrom(&b, start, finish)
		}
		out.fixed = out.fixed || !out.toFit
		return out
	})
}

// lengthFrom returns what a length between two ends was computed from: the ends,
// and of the board no more than their shape lets through. Where the ends do not
// open toward a side of the board, the length is the same wherever that side lies;
// where they are square to it, however far the other side is.
func (s *single) lengthFrom(b *setout.Blank, start, finish endAt) span.Set {
	l := s.lot
	from := start.from.Union(finish.from)
	if len(b.Ends[0].Planes)+len(b.Ends[1].Planes) > 2 {
		_, all, _ := s.bar()
		return from.Union(all)
	}
	p, q := b.End(board.Start).N, b.End(board.Finish).N
	p, q = p.Times(1/p.Dot(b.Run)), q.Times(1/q.Dot(b.Run))
	for _, side := range []struct {
		way        geom.Vec
		hold, size span.Set
	}{{b.Face, l.thickness().from, l.sectionAt().tFrom}, {b.Bar.Edge, s.width().from, l.sectionAt().from}} {
		const square = 1e-9 // of slope: 10 m of board move the end by 1e-5 mm
		switch slope := math.Abs(p.Dot(side.way)); {
		case math.Abs(p.Minus(q).Dot(side.way)) > square:
			from = from.Union(l.frameOf().from, side.hold)
		case slope > square:
			from = from.Union(l.frameOf().from, side.size)
		}
	}
	return from
}

// levelRun reports whether the board runs along a level axis of its room, so
// that one with nothing but a length is centred.
func (l *lot) levelRun(f frameAt) bool { return f.ok && f.Words[board.Finish].Axis() != 2 }

func (l *lot) noFit(at span.Range, err error, start, finish endAt) {
	f := l.frameOf()
	if fault, ok := err.(*setout.Fault); ok && fault.Kind == setout.NoEnd {
		if l.d.unread[1] {
			return
		}
		var missing []string
		if start.Loose {
			missing = append(missing, f.Words[board.Start].Side())
		}
		if finish.Loose {
			missing = append(missing, f.Words[board.Finish].Side())
		}
		l.w.error("no-end", at, "nothing says where the "+listed(missing)+" end of "+phrase.Spaced(l.d.name)+" is", "", snag.Say("say it under ends:, or give length:"))
		return
	}
	l.w.fault(at, err, phrase.Spaced(l.d.name))
}

// middle is halfway between the extreme points of the member before its notches.
func (m *member) middle(r setout.Room, d setout.Dir) float64 {
	low, high := math.Inf(1), math.Inf(-1)
	for _, o := range m.lot.withPlies([]*member{m}) {
		b := o.rough()
		if b == nil {
			return 0
		}
		to := float64(d.Sign())
		low = math.Min(low, float64(to*setout.Extent(b, r, d.Opposite())))
		high = math.Max(high, float64(to*setout.Extent(b, r, d)))
	}
	return float64(d.Sign()) * float64((low+high)/2)
}
