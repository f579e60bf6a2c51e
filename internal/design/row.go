package design

import (
	"scantling/internal/board"
	"scantling/internal/expr"
	"scantling/internal/measure"
	"scantling/internal/phrase"
	"scantling/internal/setout"
	"scantling/internal/snag"
	"scantling/internal/span"
)

// A rowAt is a row divided.
type rowAt struct {
	setout.Division
	start float64 // coordinate of the row's start on the axis of along, mm
	want  float64 // the gap asked for, mm
	asked bool    // a gap was asked for, and no range round it allowed
	dried bool    // gaps were asked for as they are once dried
	rule  string
	from  span.Set
	ok    bool
}

var leftovers = map[string]setout.Leftover{"": setout.Exact, "even": setout.Even, "rip last": setout.RipLast, "rip both": setout.RipBoth,
	"rip all": setout.RipAll, "at start": setout.AtStart, "at end": setout.AtEnd, "at both": setout.AtBoth}

// rowOf divides the row.
func (l *lot) rowOf() rowAt {
	return get(l.w, &l.row, l.key("fill"), l.d.at, func() rowAt {
		r, sec, f := l.d.row, l.sectionAt(), l.frameOf()
		if r == nil || !sec.ok || !f.ok {
			return rowAt{}
		}
		along := setout.Dir(r.along)
		if side := f.Side(along); !side.IsEdge() {
			l.w.error("skew-words", r.node.Range, "a row goes across the width of its boards, and "+along.String()+" goes along their "+pairOf(side), "", snag.Say("see that along: is square to runs: and faces:"))
			return rowAt{}
		}
		in := setout.Row{Width: sec.w.MM()}
		out := rowAt{from: sec.from.Union(f.from), rule: "even"}
		if !l.gap(r, &in, &out) || !l.span(r, f, along, &in, &out) {
			return rowAt{}
		}
		div, err := setout.Divide(in)
		if err != nil {
			l.w.fault(r.node.Range, err, "the row "+phrase.Spaced(l.d.name))
			return rowAt{}
		}
		if in.Open {
			l.openStart(r, along, div, &out)
		}
		out.Division, out.ok = div, true
		return out
	})
}

func pairOf(s board.Side) string {
	if s.IsEnd() {
		return "length"
	}
	return "thickness"
}

// gap reads the space between the boards into the row.
func (l *lot) gap(r *rowDecl, in *setout.Row, out *rowAt) bool {
	g := r.gap
	if r.count != nil {
		n, from, ok := l.w.count(r.count, "the number of boards", 1)
		if !ok {
			return false
		}
		in.Count, out.from = n, out.from.Union(from)
	}
	if g == nil {
		in.Leftover = setout.Even
		return true
	}
	read := func(s *said, what string, into *float64) bool {
		if s == nil {
			return true
		}
		f := l.w.length(s, what)
		if f.ok && f.v < 0 {
			l.w.error("bad-size", s.node.Range, what+" comes to "+l.w.d.print(measure.Quantity{V: f.v, D: measure.DimLength})+", and boards do not lie in one another", "", snag.Say("make it 0 or more"))
			return false
		}
		*into, out.from = f.mm(), out.from.Union(f.from)
		return f.ok
	}
	out.asked = (g.is != nil || g.about != nil) && g.from == nil && g.to == nil
	in.Leftover = leftovers[g.leftover]
	in.Outside = map[string]setout.Outside{"": setout.NoGap, "none": setout.NoGap, "gap": setout.FullGap, "half": setout.HalfGap}[g.outside]
	ok := true
	if g.is != nil {
		ok = read(g.is, "a gap", &in.Gap) && ok
	} else {
		ok = read(g.about, "a gap", &in.Gap) && ok
		if g.leftover == "" {
			in.Leftover = setout.Even
		}
	}
	if in.Leftover == setout.Even {
		ok = read(g.from, "the least gap", &in.Least) && read(g.to, "the greatest gap", &in.Most) && ok
	} else {
		ok = read(g.least, "the narrowest rip", &in.Least) && ok
	}
	out.want = in.Gap
	if g.dried {
		var from span.Set
		in.Dried, from = l.driesTo()
		out.want, out.dried = max(0, in.Gap-float64(in.Width*(1-in.Dried))), true
		out.from = out.from.Union(from)
	}
	if out.rule = g.leftover; out.rule == "" && in.Leftover == setout.Even {
		out.rule = "even"
	}
	return ok
}

// span reads the row's limits into it.
func (l *lot) span(r *rowDecl, f frameAt, along setout.Dir, in *setout.Row, out *rowAt) bool {
	if r.from == nil || r.to == nil {
		if in.Count == 0 {
			l.w.error("missing-key", r.node.Range, "a row without both from and to needs a count", "", snag.Say("write count:, or from: and to:"))
			return false
		}
		in.Open = true
		if in.Leftover == setout.Even {
			in.Leftover = setout.Exact
		}
		at, from, ok := 0.0, span.Set{}, true
		switch {
		case r.about != nil:
			at, from, ok = l.limit(r.about, f.room, along)
		case r.from != nil:
			at, from, ok = l.rowLimit(r.from, f, along, true)
		case r.to != nil:
			at, from, ok = l.rowLimit(r.to, f, along, false)
		default:
			l.w.error("missing-key", r.node.Range, "nothing says where this row lies", "", snag.Say("write from:, to: or about:"))
			return false
		}
		out.start, out.from = at, out.from.Union(from)
		return ok
	}
	from, a, ok1 := l.rowLimit(r.from, f, along, true)
	to, b, ok2 := l.rowLimit(r.to, f, along, false)
	in.Span = (to - from) * along.Sign()
	out.start, out.from = from, out.from.Union(a, b)
	return ok1 && ok2
}

// openStart moves the start of a row that knows its middle or its end only.
func (l *lot) openStart(r *rowDecl, along setout.Dir, div setout.Division, out *rowAt) {
	switch {
	case r.about != nil:
		out.start -= float64(along.Sign() * div.Span / 2)
	case r.from == nil:
		out.start -= float64(along.Sign() * div.Span)
	}
}

// rowLimit reads where a row begins or ends. A limit that leans counts at the
// point nearest inside within the boards' thickness, unless it says at level.
func (l *lot) rowLimit(s *said, f frameAt, along setout.Dir, start bool) (float64, span.Set, bool) {
	v := l.w.eval(s, f.room)
	p, ok := v.Place.(*place)
	if v.Kind != expr.Position && v.Kind != expr.Plane || !ok || p.any || p.at != nil {
		return l.limit(s, f.room, along)
	}
	if at, ok := f.room.Read(p.plane, along); ok {
		return at, v.From, true
	}
	t := l.thickness()
	if !t.ok {
		return 0, span.Set{}, false
	}
	at, err := setout.RowLimit(f.room.Room, p.plane, along, t.Slab, start)
	if err != nil {
		l.w.fault(s.node.Range, err, "the row "+phrase.Spaced(l.d.name))
		return 0, span.Set{}, false
	}
	return at, v.From.Union(t.from), true
}

// rowSlab is the hold across the width of the i-th board.
func (l *lot) rowSlab(i int) slabAt {
	r, f := l.rowOf(), l.frameOf()
	if !r.ok || !f.ok || i >= len(r.Boards) {
		return slabAt{}
	}
	along := setout.Dir(l.d.row.along)
	for _, h := range l.d.holds {
		if !h.middle && f.Side(setout.Dir(h.side)).IsEdge() {
			l.w.error("held-twice", h.key, "the row fills from side to side here, so its boards need no hold on the "+h.side.Side(), "", snag.Say("leave this hold out"))
		}
	}
	slab, err := setout.RowSlab(f.room.Room, f.Frame, along, r.start, r.Boards[i])
	if err != nil {
		l.w.fault(l.d.row.node.Range, err, "the row "+phrase.Spaced(l.d.name))
		return slabAt{}
	}
	return slabAt{slab, nil, f.Side(along.Opposite()), r.from.Union(f.from), true}
}
