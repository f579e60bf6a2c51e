package design

import (
	"scantling/internal/board"
	"scantling/internal/expr"
	"scantling/internal/geom"
	"scantling/internal/setout"
	"scantling/internal/snag"
	"scantling/internal/span"
)

// A place is a position, a side, a plane or a point, as the measures of this
// package know it. Positions are planes too: a position used from another room
// is carried across as one.
type place struct {
	plane geom.Plane
	point geom.Vec     // of a Point
	meets []geom.Plane // of a Point: what meets in it
	says  string       // in words: "floor", "long apron, back"
	turn  span.Set     // what the direction of the plane was computed from

	any bool                     // middle: read on whichever axis is asked
	mid func(setout.Dir) float64 // of any: its coordinate there

	at   *geom.Plane // where it is to be read: "at level L"
	show func() (geom.Plane, bool)

	of    *member // the board whose side it is, nil for a position
	side  board.Side
	word  setout.Dir // that the side answers to
	thing *thing     // of a Thing
}

// A thing is a name that is no measure: a part or row with the copies picked.
type thing struct {
	lot   *lot
	of    []*member
	whole bool // no adjective picked among them
}

// flat returns the place as a plane. A middle is asked for with an axis first.
func (p *place) flat(in room) geom.Plane { return p.plane }

// onAxis returns the plane of p with a middle read on d's axis.
func (p *place) onAxis(in room, d setout.Dir) geom.Plane {
	if p.any {
		return in.Plane(d, p.mid(d))
	}
	return p.plane
}

// moved returns p with its plane exchanged: a position that is no board's side.
func (p *place) moved(to geom.Plane) *place {
	q := *p
	q.plane, q.any, q.mid, q.of, q.says = to, false, nil, nil, ""
	return &q
}

// coordinate reads p as a number on d's axis of the room. A leaning side needs a
// level; the message names the reading that was probably meant.
func (e *env) coordinate(p *place, d setout.Dir, x expr.Expr) (float64, bool) {
	if p.any {
		return p.mid(d), true
	}
	if at, ok := e.room.Read(p.plane, d); ok {
		return at, true
	}
	if p.at == nil {
		e.leaning(p, d, x)
		return 0, false
	}
	at, err := e.readAt(p, d)
	if err != nil {
		s, t := x.Span()
		e.w.fault(e.node.Sub(s, t), err, p.says)
		return 0, false
	}
	return at, true
}

// readAt reads a leaning place at its level, asking for the show face of its
// board only when the level alone does not fix it.
func (e *env) readAt(p *place, d setout.Dir) (float64, error) {
	at, err := e.room.ReadAt(p.plane, *p.at, d, nil)
	if f, ok := err.(*setout.Fault); ok && f.Kind == setout.Unsteady && p.show != nil {
		if show, ok := p.show(); ok {
			return e.room.ReadAt(p.plane, *p.at, d, &show)
		}
	}
	return at, err
}

var mostWords = [...]string{"leftmost", "rightmost", "foremost", "backmost", "lowest", "highest"}

// leaning tells that a side leans, or lies on another axis altogether.
func (e *env) leaning(p *place, d setout.Dir, x expr.Expr) {
	s, t := x.Span()
	at := e.node.Sub(s, t)
	n := p.plane.N
	if way := e.room.Way(d); absf(n.Dot(way)) < 1e-9 {
		e.w.error("wrong-axis", at, "this says where something is "+axisWords[e.axisOf(n)]+", and what is asked for is "+axisWords[d.Axis()], "",
			snag.Say("name a position or side "+axisWords[d.Axis()]))
		return
	}
	mends := []snag.Mend{snag.Say("say where it is read: … at level and a height, or at a side")}
	if p.of != nil {
		mends = append(mends, snag.Say("or read the finished board: ."+mostWords[p.word]))
	}
	what := "this side leans, so it has no one place"
	if p.says != "" {
		what = "the side “" + p.says + "” leans, so it has no one place"
	}
	e.w.error("needs-level", at, what, "", mends...)
}

var axisWords = [...]string{"from left to right", "from front to back", "in height"}

// axisOf returns the axis of the room a normal lies nearest to.
func (e *env) axisOf(n geom.Vec) int {
	d, _ := e.room.Nearest(n)
	return d.Axis()
}

func absf(v float64) float64 {
	if v < 0 {
		return -v
	}
	return v
}
