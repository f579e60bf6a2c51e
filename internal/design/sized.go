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

// sized returns the cuts given by their sizes, in the board's frame; they travel
// with the copies.
func (s *single) sized(b *blankAt) (cuts []board.Cut, ok bool) {
	ok = true
	for _, c := range s.d.cuts {
		if c.recess == nil && c.curve == nil {
			continue
		}
		yes, from, known := s.lot.w.holds(c.when)
		if !known || !yes {
			continue
		}
		more, good := s.recess(c, b, from)
		if c.curve != nil {
			more, good = s.curve(c, b, from)
		}
		cuts, ok = append(cuts, more...), ok && good
	}
	return cuts, ok
}

// amount works out a length of a cut, which must be more than nothing.
func (s *single) amount(c *cutDecl, said *said, what string, from *span.Set) (float64, bool) {
	if said == nil {
		return 0, true
	}
	f := s.lot.w.length(said, what)
	if f.ok && f.v <= 0 {
		s.lot.w.error("bad-size", said.node.Range, what+" of "+phrase.Spaced(c.name)+" comes to "+s.lot.w.d.print(measure.Quantity{V: f.v, D: measure.DimLength}), "", snag.Say("make it more than 0"))
		return 0, false
	}
	*from = from.Union(f.from)
	return f.mm(), f.ok
}

// recess works out a notch, a housing or a slot by its sizes.
func (s *single) recess(c *cutDecl, b *blankAt, from span.Set) ([]board.Cut, bool) {
	d := c.recess
	if d == nil {
		return nil, true
	}
	f := s.lot.frameOf()
	wide, ok1 := s.amount(c, d.wide, "the width", &from)
	deep, ok2 := s.amount(c, d.deep, "the depth", &from)
	long, ok3 := s.amount(c, d.long, "the length", &from)
	start, ok4 := s.start(d.from, b, &from)
	if !ok1 || !ok2 || !ok3 || !ok4 {
		return nil, false
	}
	side := f.Side(setout.Dir(d.side))
	r := setout.Recess{Name: c.name, Kind: d.kind, Side: side, Depth: deep}
	whole := setout.Stretch{Whole: true}
	out := setout.Stretch{From: start.side, Lo: start.mm, Hi: start.mm + wide}
	switch {
	case d.kind == board.Slot:
		r.Round, out.Hi = true, start.mm+long
		half := float64((b.Width.Size() - wide) / 2)
		r.Along, r.Across = out, setout.Stretch{From: board.Near, Lo: half, Hi: half + wide}
		if d.aside != nil {
			aside, ok := s.start(d.aside, b, &from)
			if !ok {
				return nil, false
			}
			r.Across = setout.Stretch{From: aside.side, Lo: aside.mm, Hi: aside.mm + wide}
		}
	case d.kind == board.Notch && side.IsFace():
		s.lot.w.error("not-that-side", c.at, "the "+d.side.Side()+" of "+phrase.Spaced(s.lot.d.name)+" is a face, and a notch is cut into an edge or an end", "", snag.Say("write housing: to let something into a face"))
		return nil, false
	case d.kind == board.Notch:
		r.Side, r.Depth = board.Show, 0
		into := setout.Stretch{From: side, Hi: deep}
		if r.Along, r.Across = out, into; side.IsEnd() {
			r.Along, r.Across = into, out
		}
	case start.side.IsEnd():
		r.Along, r.Across = out, whole
	default:
		r.Along, r.Across = whole, out
	}
	if d.stop != nil {
		stop, ok := s.start(d.stop, b, &from)
		if !ok {
			return nil, false
		}
		rest := setout.Stretch{From: stop.side, Lo: stop.mm, Hi: math.Inf(1)}
		if start.side.IsEnd() {
			r.Across = rest
		} else {
			r.Along = rest
		}
	}
	r.From = b.from.Union(from)
	if !s.reaches(&r) {
		return nil, true
	}
	cut, err := b.Recess(r)
	if err != nil {
		s.lot.w.fault(c.at, err, "the "+d.kind.String()+" "+phrase.Spaced(c.name))
		return nil, false
	}
	return []board.Cut{cut}, true
}

// sound tells what cuts by size do to a board: part it, or leave a strip that
// breaks off.
func (s *single) sound(b *board.Board) {
	at := func(name string) span.Range {
		for _, c := range s.d.cuts {
			if c.name == name {
				return c.at
			}
		}
		return s.lot.d.at
	}
	for _, f := range setout.Tongues(b) {
		s.lot.w.fault(at(f.Cut), f, "the cut "+phrase.Spaced(f.Cut)+" of "+phrase.Spaced(s.lot.d.name))
	}
	if n := b.Solid.Bodies; n > 1 {
		s.lot.w.fault(s.lot.d.at, &setout.Fault{Kind: setout.Parted, Count: n}, "a cut in "+phrase.Spaced(s.lot.d.name))
	}
}

// A startAt is how far from a side of the board something starts.
type startAt struct {
	side board.Side
	mm   float64
}

// start works out D WAY P. From a place, it is measured from the end that lies
// behind, along the board.
func (s *single) start(d *startDecl, b *blankAt, from *span.Set) (startAt, bool) {
	l := s.lot
	f := l.frameOf()
	out := startAt{side: f.Side(setout.Dir(d.side))}
	switch {
	case d.from != nil:
		out.side = f.Side(setout.Dir(d.way.Opposite()))
		v, p := l.placeOf(d.from, f.room, "a cut")
		if p == nil {
			return out, false
		}
		if !out.side.IsEnd() {
			l.w.error("not-that-side", d.node.Range, phrase.Spaced(l.d.name)+" does not run that way", "from a place, a cut is measured along the board", snag.Say("say how far from which side of the board it starts"))
			return out, false
		}
		out.mm = b.along(out.side, p.onAxis(f.room, setout.Dir(d.way)))
		*from = from.Union(v.From)
	case d.d != nil:
		n := l.w.length(d.d, "how far a cut starts from a side")
		if !n.ok {
			return out, false
		}
		out.mm = n.mm()
		*from = from.Union(n.from)
	}
	*from = from.Union(span.Of(d.node.Ordinal))
	return out, true
}

// along returns how far a plane lies from an end, into the board, along the
// corner of its Near edge on the show face.
func (b *blankAt) along(end board.Side, p geom.Plane) float64 {
	at := b.Run.Times(b.Low).Along(b.Bar.Edge, b.Width.Lo).Along(b.Face, b.Thick.Hi)
	in := b.Out(end).Negated()
	from, ok1 := b.End(end).Hit(at, in)
	to, ok2 := p.Hit(at, in)
	if !ok1 || !ok2 {
		return -1
	}
	return to - from
}

// curve works out a snip, a round end, an arch or round corners.
func (s *single) curve(c *cutDecl, b *blankAt, from span.Set) ([]board.Cut, bool) {
	d, l := c.curve, s.lot
	f := l.frameOf()
	radius, ok1 := s.amount(c, d.radius, "the radius", &from)
	along, ok2 := s.amount(c, d.along, "the length", &from)
	across, ok3 := s.amount(c, d.across, "the width", &from)
	if !ok1 || !ok2 || !ok3 {
		return nil, false
	}
	from = from.Union(b.from)
	sides := []board.Side{board.Start, board.Finish}
	if d.sides != nil {
		sides = []board.Side{f.Side(setout.Dir(d.sides[0]))}
	}
	corner := f.Side(setout.Dir(d.corner))
	if kind := sideKind(sides[0]); kind != "end" && d.kind != board.Arch || kind != "edge" && d.kind == board.Arch || d.cornered && !corner.IsEdge() {
		l.w.error("not-that-side", c.at, "“"+c.node.Text+"” is not where a "+d.kind.String()+" can be", "", snag.Say("name one of the ends, or of an arch an edge"))
		return nil, false
	}
	var cuts []board.Cut
	for _, side := range sides {
		var more []board.Cut
		var one board.Cut
		var err error
		switch {
		case d.kind == board.Snip:
			var p geom.Plane
			if p, err = setout.SnipPlane(b.Bar, b.Ends[side], corner, side, along, across); err == nil {
				one = b.SnipCut(c.name, p, side)
			}
		case d.kind == board.RoundEnd:
			one, err = b.RoundEnd(c.name, side, radius)
		case d.kind == board.Arch:
			one, err = b.Arch(c.name, side, along, along, radius)
		case d.cornered:
			one, err = b.RoundCorner(c.name, side, corner, radius)
		default:
			more, err = b.RoundCorners(c.name, side, radius)
		}
		if err != nil {
			l.w.fault(c.at, err, "the "+d.kind.String()+" "+phrase.Spaced(c.name))
			return nil, false
		}
		if more == nil {
			more = []board.Cut{one}
		}
		for i := range more {
			more[i].From = from
		}
		cuts = append(cuts, more...)
	}
	return cuts, true
}

// edges returns the corners that are rounded, chamfered or beaded.
func (s *single) edges(b *board.Board) []board.Edge {
	var out []board.Edge
	l := s.lot
	for _, c := range s.d.cuts {
		d := c.edges
		if d == nil {
			continue
		}
		if yes, _, known := l.w.holds(c.when); !known || !yes {
			continue
		}
		what := []string{"a radius", "a chamfer", "a bead"}[d.work]
		f := l.w.length(d.size, what)
		size, ok := measure.Quantity{V: f.v, D: measure.DimLength}.Length()
		if !f.ok || !ok {
			continue
		}
		most, says := b.T/2, "half the thickness"
		if d.work != board.Round {
			most, says = b.T, "the thickness"
		}
		if size <= 0 || size > most {
			l.w.error("bad-size", d.size.node.Range, what+" of "+size.Exact(l.w.d.units)+" does not fit a board "+b.T.Exact(l.w.d.units)+" thick", "", snag.Say("make it more than 0 and at most "+says))
			continue
		}
		e := board.Edge{Work: d.work, Name: c.name, Size: size, From: f.from}
		for _, a := range arrises {
			if !s.outer(a[0]) || !s.outer(a[1]) {
				continue // inside the glued part
			}
			for _, word := range d.of {
				if d.takes(word, a, b) {
					e.Along = append(e.Along, a)
					break
				}
			}
		}
		if len(e.Along) == 0 && (d.unread || l.isDoubled()) {
			continue
		}
		if len(e.Along) == 0 {
			l.w.error("not-that-side", d.node.Range, "no corner of "+phrase.Spaced(l.d.name)+" lies there: it runs "+l.frameOf().Words[board.Finish].String(), "", snag.Say("name one of its sides, or all"))
			continue
		}
		out = append(out, e)
	}
	return out
}

// takes reports whether a word of edges: means an arris. A face or an edge has its
// two long corners, an end the four round it.
func (d *edgesDecl) takes(word string, a board.Arris, b *board.Board) bool {
	end := a[0].IsEnd()
	switch word {
	case "all":
		return !end
	case "ends":
		return end
	}
	way, ok := expr.DirOf(word)
	for _, s := range a {
		if ok && b.Sides[s] == way.Side() && s.IsEnd() == end {
			return true
		}
	}
	return false
}

// arrises are the long corners of a board, then those round its ends.
var arrises = []board.Arris{{board.Near, board.Under}, {board.Near, board.Show}, {board.Far, board.Under}, {board.Far, board.Show},
	{board.Start, board.Near}, {board.Start, board.Far}, {board.Start, board.Under}, {board.Start, board.Show},
	{board.Finish, board.Near}, {board.Finish, board.Far}, {board.Finish, board.Under}, {board.Finish, board.Show}}
