package design

import (
	"scantling/internal/expr"
	"scantling/internal/geom"
	"scantling/internal/measure"
	"scantling/internal/phrase"
	"scantling/internal/setout"
	"scantling/internal/snag"
	"scantling/internal/source"
)

// An env is what one scalar is read in: the world, the names it sees, and the room
// it is said in.
type env struct {
	w    *world
	sc   *scope
	node *source.Node
	room room
}

const nmPerMM = float64(measure.Millimetre)

func (e *env) Report(p *expr.Problem) { e.w.tell(problemSnag(e.node, p)) }

func (e *env) tell(code snag.Code, at expr.At, what string, mends ...snag.Mend) expr.Value {
	e.w.error(code, e.node.Sub(at.Start, at.End), what, "", mends...)
	return expr.Value{}
}

func positionValue(p *place) expr.Value { return expr.Value{Kind: expr.Position, Place: p} }

// Name returns what a name stands for.
func (e *env) Name(r *expr.Ref) expr.Value {
	first := r.Path[0]
	if len(r.Path) == 1 && len(r.Select) == 0 {
		switch first.Text {
		case "middle":
			v := positionValue(&place{any: true, mid: func(setout.Dir) float64 { return 0 }, says: "middle", turn: e.room.turn})
			v.From = e.room.from
			return v
		case "floor":
			return positionValue(&place{plane: setout.Piece().Plane(setout.Up, 0), says: "floor"})
		}
	}
	k, ok := e.sc.find(first.Text)
	if !ok {
		if v, ok := e.joint(r); ok {
			return v
		}
		return e.unknown(first)
	}
	switch k.kind {
	case aPart, aRow, aField:
		return e.board(r, e.w.lots[k.n])
	case aStock:
		return e.stock(r, &e.w.d.lumber[k.n])
	case aGroup:
		return e.inGroup(r)
	}
	if len(r.Path) > 1 {
		return e.tell("no-such-reading", r.Path[1].At, "“"+first.Text+"” is "+kindWords[k.kind]+" and has no “"+r.Path[1].Text+"”", snag.Say("leave out what follows the dot"))
	}
	if len(r.Select) > 0 {
		return e.tell("no-such-copy", r.Select[0].At, "“"+first.Text+"” is "+kindWords[k.kind]+", of which there is one", snag.Say("leave out “"+r.Select[0].Text+"”"))
	}
	switch k.kind {
	case aSize:
		return e.w.size(k.n)
	case aChoice:
		return e.w.choice(k.n)
	case aLet:
		return e.w.let(k.n)
	case aPoint:
		p := &e.w.d.points[k.n]
		at := get(e.w, &e.w.points[k.n], p.name, p.at, func() pointAt { return e.w.point(p, e.w.home(p.sc)) })
		if at.gone {
			e.w.gone(e.node.Sub(first.Start, first.End), first.Text, p.when)
		}
		if !at.ok {
			return expr.Value{}
		}
		return expr.Value{Kind: expr.Point, Place: &place{point: at.at, meets: at.meets, says: first.Text}, From: at.from}
	case aPlane:
		p := e.w.plane(k.n)
		if p.gone {
			e.w.gone(e.node.Sub(first.Start, first.End), first.Text, e.w.d.planes[k.n].when)
		}
		if !p.ok {
			return expr.Value{}
		}
		return expr.Value{Kind: expr.Plane, Place: &place{plane: p.plane, says: phrase.Spaced(first.Text), turn: p.room.turn}, From: p.from}
	}
	return e.tell("wrong-kind", first.At, "“"+first.Text+"” is "+kindWords[k.kind]+", and a measure cannot read it", snag.Say("name a value, a part or a row"))
}

// unknown tells that nothing has this name, with the nearest that has.
func (e *env) unknown(w expr.Word) expr.Value {
	e.w.tell(e.sc.unknownName(e.node, w))
	return expr.Value{}
}

// stock reads the section of a stock.
func (e *env) stock(r *expr.Ref, l *lumberDecl) expr.Value {
	if l.stock == nil {
		return expr.Value{}
	}
	if len(r.Path) == 2 {
		switch r.Path[1].Text {
		case "thickness":
			return expr.Num(l.stock.T.Quantity(), l.from)
		case "width":
			return expr.Num(l.stock.W.Quantity(), l.from)
		}
		return e.tell("no-such-reading", r.Path[1].At, "lumber has no “"+r.Path[1].Text+"”", snag.Say("read its .thickness or its .width"))
	}
	return e.tell("wrong-kind", r.Path[0].At, "“"+l.name+"” is lumber, and a measure belongs here", snag.Say("read its .thickness or its .width"))
}

// Shift returns the position d away from p along the axis the way names.
func (e *env) Shift(n *expr.Shift, d measure.Quantity, v expr.Value) expr.Value {
	p, way := v.Place.(*place), setout.Dir(n.Way)
	mm := d.V / nmPerMM
	if p.any {
		return positionValue(p.moved(e.room.Plane(way, p.mid(way)+float64(way.Sign()*mm))))
	}
	if absf(p.plane.N.Dot(e.room.Way(way))) < 1e-9 {
		s, t := n.P.Span()
		return e.tell("wrong-axis", expr.At{Start: s, End: t}, "nothing is "+wayWords[way]+" this: it says where something is "+axisWords[e.axisOf(p.plane.N)],
			snag.Say("name a position or side "+axisWords[way.Axis()]))
	}
	v = positionValue(p.moved(e.room.Shift(p.plane, way, mm)))
	v.From = e.room.turn
	return v
}

var wayWords = [...]string{"left of", "right of", "in front of", "behind", "below", "above"}

// Inset moves a side square to itself into its board or out of it.
func (e *env) Inset(n *expr.Inset, d measure.Quantity, v expr.Value) expr.Value {
	p := v.Place.(*place)
	s, t := n.S.Span()
	if p.of == nil {
		return e.tell("wrong-kind", expr.At{Start: s, End: t}, "“in from” and “out from” are said of a board's side: this has no inside",
			snag.Say("say above, below, left of, right of, in front of or behind"))
	}
	mm := d.V / nmPerMM
	if n.Out {
		mm = -mm
	}
	return positionValue(p.moved(setout.In(p.plane, mm)))
}

// AtLevel changes nothing: planes are kept whole, and the level they are read
// at with them, so that the side being held can be read there too.
func (e *env) AtLevel(*expr.Level, expr.Value) expr.Env { return e }

// Held marks where v is to be read.
func (e *env) Held(n *expr.Level, level, v expr.Value) expr.Value {
	p, isPlace := v.Place.(*place)
	l := level.Place.(*place)
	s, t := n.L.Span()
	at := expr.At{Start: s, End: t}
	if !isPlace || v.Kind == expr.Point || v.Kind == expr.Thing {
		s, t := n.P.Span()
		return e.tell("wrong-kind", expr.At{Start: s, End: t}, "only a position, side or plane can be read at a place, and this is "+v.A(), snag.Say("take out what follows “at”"))
	}
	flat := l.plane
	if l.any {
		return e.tell("wrong-axis", at, "“middle” does not say on which axis", snag.Say(`say, for instance, 0" behind middle`))
	}
	if !n.Side && absf(absf(flat.N.Z)-1) > 1e-9 {
		if l.at != nil || absf(flat.N.Z) < 1e-9 {
			return e.tell("needs-level", at, "a level is a height, and this is none", snag.Say("name a height: 5\" above floor, or a level side"))
		}
		return e.tell("needs-level", at, "a level is a height, and “"+l.says+"” slopes", snag.Say("say at and the side without level, to read it on that side"))
	}
	q := *p
	q.at = &flat
	v.Place = &q
	return v
}

// Apart returns how far a lies beyond b along the axis both are on.
func (e *env) Apart(n *expr.Arith, a, b expr.Value) expr.Value {
	p, q := a.Place.(*place), b.Place.(*place)
	if a.Kind == expr.Point || b.Kind == expr.Point {
		return e.tell("wrong-kind", n.At, "a point has no single distance", snag.Say("subtract positions"))
	}
	d, ok := e.commonAxis(p, q)
	if !ok {
		return e.tell("wrong-axis", n.At, "these two places are not on one axis", snag.Say("subtract two heights, or two places from left to right, or from front to back"))
	}
	u, ok1 := e.coordinate(p, d, n.X)
	v, ok2 := e.coordinate(q, d, n.Y)
	if !ok1 || !ok2 {
		return expr.Value{}
	}
	return expr.Value{Kind: expr.Number, Q: measure.Quantity{V: (u - v) * nmPerMM, D: measure.DimLength}}
}

// commonAxis returns the axis both places can be read on: the one the square of
// them lies on, or where both have a level, the level axis of the first.
func (e *env) commonAxis(p, q *place) (setout.Dir, bool) {
	for _, x := range []*place{p, q} {
		if x.any {
			continue
		}
		for d := setout.Right; d <= setout.Up; d += 2 {
			if _, ok := e.room.Read(x.plane, d); ok {
				return d, true
			}
		}
	}
	for _, x := range []*place{p, q} {
		if x.any {
			continue
		}
		d, _ := e.room.Nearest(x.plane.N)
		return d, true
	}
	return 0, false
}

// IsPast answers "a is above b".
func (e *env) IsPast(n *expr.Compare, a, b expr.Value) expr.Value {
	p, ok1 := a.Place.(*place)
	q, ok2 := b.Place.(*place)
	for i, ok := range []bool{ok1 && a.Kind != expr.Point && a.Kind != expr.Thing, ok2 && b.Kind != expr.Point && b.Kind != expr.Thing} {
		if !ok {
			x, v := n.X, a
			if i == 1 {
				x, v = n.Y, b
			}
			s, t := x.Span()
			return e.tell("wrong-kind", expr.At{Start: s, End: t}, "a position or side belongs here, and this is "+v.A(),
				snag.Say("compare two places, as in "+"arm_height is above 7\" above seat_top"))
		}
	}
	d := setout.Dir(n.Way)
	u, ok1 := e.coordinate(p, d, n.X)
	v, ok2 := e.coordinate(q, d, n.Y)
	if !ok1 || !ok2 {
		return expr.Value{}
	}
	return expr.Value{Kind: expr.YesNo, Yes: (u-v)*d.Sign() > geom.Same}
}

// Same answers "a is b" for two places.
func (e *env) Same(n *expr.Compare, a, b expr.Value) expr.Value {
	p, q := a.Place.(*place), b.Place.(*place)
	if a.Kind == expr.Thing || b.Kind == expr.Thing {
		return e.tell("wrong-kind", n.At, "parts are not compared", snag.Say("compare their sides or lengths"))
	}
	if a.Kind == expr.Point && b.Kind == expr.Point {
		return expr.Value{Kind: expr.YesNo, Yes: p.point.Distance(q.point) <= geom.Touch}
	}
	d, ok := e.commonAxis(p, q)
	if !ok {
		return e.tell("wrong-axis", n.At, "these two places are not on one axis", snag.Say("compare two heights, or two places on one axis"))
	}
	u, ok1 := e.coordinate(p, d, n.X)
	v, ok2 := e.coordinate(q, d, n.Y)
	if !ok1 || !ok2 {
		return expr.Value{}
	}
	return expr.Value{Kind: expr.YesNo, Yes: absf(u-v) <= geom.Touch}
}

// Call answers count and diagonal.
func (e *env) Call(n *expr.Call, args []expr.Value) expr.Value {
	var things []*thing
	for i, a := range args {
		p, _ := a.Place.(*place)
		if a.Kind != expr.Thing || p == nil || p.thing == nil {
			s, t := n.Args[i].Span()
			return e.tell("wrong-kind", expr.At{Start: s, End: t}, n.Func.Text+" takes names of parts or rows, and this is "+a.A(), snag.Say("write a name"))
		}
		things = append(things, p.thing)
	}
	if n.Func.Text == "count" {
		if len(things) != 1 {
			return e.tell("argument-count", n.At, "count takes one name", snag.Say("write one"))
		}
		boards := things[0].of
		if things[0].whole {
			boards = things[0].lot.all()
		}
		n := len(boards)
		if l := things[0].lot; l.isDoubled() { // parts are counted, not their plies
			n /= l.sectionAt().plies
		}
		return expr.Num(measure.Number(float64(n)), things[0].lot.countFrom())
	}
	return e.diagonal(n, things)
}
