package design

import (
	"math"

	"scantling/internal/expr"
	"scantling/internal/geom"
	"scantling/internal/measure"
	"scantling/internal/setout"
	"scantling/internal/snag"
	"scantling/internal/source"
	"scantling/internal/span"
)

// A world is one working out of a design under one set of settings: the graph
// of its quantities, each in a cell of its own.
type world struct {
	d       *Design
	set     map[string]Setting
	initial bool // no size is set: side words are read here

	sizes   []cell[expr.Value]
	choices []cell[expr.Value]
	lets    []cell[expr.Value]
	points  []cell[pointAt]
	planes  []cell[planeAt]
	lots    []*lot

	busy  []busyCell
	snags snag.List
	told  map[toldKey]bool

	meetings []meeting // what against asserted, checked on the finished boards
	first    *world    // of the default sizes; made when it is needed
}

type toldKey struct {
	code snag.Code
	at   span.Range
	what string
}

// A cell is a quantity: not asked for yet, being worked out, or known.
type cell[T any] struct {
	state uint8 // 0, 1 busy, 2 done
	v     T
}

type busyCell struct {
	cell any
	name string
	at   span.Range
}

// get works a cell out the first time it is read. Reading it while it is being
// worked out is a loop, which is told once as the chain of names; every quantity
// of the chain is then unknown.
func get[T any](w *world, c *cell[T], name string, at span.Range, f func() T) T {
	switch c.state {
	case 2:
		return c.v
	case 1:
		w.loop(c)
		var zero T
		return zero
	}
	c.state = 1
	w.busy = append(w.busy, busyCell{c, name, at})
	c.v = f()
	w.busy = w.busy[:len(w.busy)-1]
	c.state = 2
	return c.v
}

func (w *world) loop(c any) {
	i := len(w.busy) - 1
	for i > 0 && w.busy[i].cell != c {
		i--
	}
	chain := w.busy[i:]
	s := snag.Snag{Code: "loop"}
	first, last := "", ""
	for _, b := range chain {
		switch {
		case b.name == "" || b.name == last:
			continue // a step on the way that nobody has a word for
		case first == "":
			first, s.At = b.name, b.at
			s.What = "this goes round in a circle: " + first
		case last == first:
			s.What += " needs " + b.name
		default:
			s.What += ", which needs " + b.name
		}
		if last = b.name; b.at != s.At {
			s.Related = append(s.Related, snag.Related{At: b.at, Says: b.name + " is said here"})
		}
	}
	if last == first {
		s.What += " needs itself"
	} else {
		s.What += ", which needs " + first
	}
	s.Why = "each waits for the next, so none can be worked out"
	s.Mends = []snag.Mend{snag.Say("give one of them a value that does not need the others")}
	w.tell(s)
}

// tell records a snag once.
func (w *world) tell(s snag.Snag) {
	k := toldKey{s.Code, s.At, s.What}
	if !w.told[k] {
		w.told[k] = true
		w.snags = append(w.snags, s)
	}
}

func (w *world) error(code snag.Code, at span.Range, what, why string, mends ...snag.Mend) {
	w.tell(snag.Snag{Code: code, At: at, What: what, Why: why, Mends: mends})
}

func newWorld(d *Design, set Settings) *world {
	w := &world{d: d, set: map[string]Setting{}, initial: true, told: map[toldKey]bool{},
		sizes: make([]cell[expr.Value], len(d.sizes)), choices: make([]cell[expr.Value], len(d.choices)),
		lets: make([]cell[expr.Value], len(d.lets)), points: make([]cell[pointAt], len(d.points)),
		planes: make([]cell[planeAt], len(d.planes))}
	for _, s := range set {
		if _, ok := d.names[s.Name]; ok {
			w.set[s.Name] = s
		}
		w.initial = false
	}
	for _, b := range d.boards {
		w.lots = append(w.lots, newLot(w, b))
	}
	return w
}

// A room is where something is said: its axes, and the scalars they follow from.
type room struct {
	setout.Room
	from span.Set
	ok   bool
}

func (w *world) piece() room { return room{setout.Piece(), span.Set{}, true} }

// eval works a measure out in a room. What it was computed from includes the
// scalar it stands in.
func (w *world) eval(s *said, in room) expr.Value {
	if s == nil {
		return expr.Value{}
	}
	return w.evalExpr(s.x, s.node, in)
}

func (w *world) evalExpr(x expr.Expr, n *source.Node, in room) expr.Value {
	v := expr.Eval(x, &env{w, n, in})
	if v.Kind != expr.Unknown {
		v.From = v.From.Union(span.Of(n.Ordinal))
		if _, placed := v.Place.(*place); placed {
			v.From = v.From.Union(in.from)
		}
	}
	return v
}

// A figure is a number worked out, with what it was computed from.
type figure struct {
	v    float64 // nm, 1e-9 degree, or plain
	from span.Set
	ok   bool
}

func (f figure) mm() float64 { return f.v / float64(measure.Millimetre) }

// number works out a measure that must have a dimension; a bare 0 has any.
func (w *world) number(s *said, d measure.Dim, what string) figure {
	v := w.eval(s, w.piece())
	return w.numberOf(v, s, d, what)
}

func (w *world) numberOf(v expr.Value, s *said, d measure.Dim, what string) figure {
	if v.Kind == expr.Unknown || s == nil {
		return figure{}
	}
	if v.Kind == expr.Number && (v.Q.D == d || v.Q == measure.Number(0)) {
		return figure{v.Q.V, v.From, true}
	}
	var mends []snag.Mend
	if _, bare := s.x.(*expr.Literal); bare && v.Kind == expr.Number && v.Q.D == measure.DimNone {
		switch d {
		case measure.DimLength:
			mends = append(mends, snag.Replace("write an inch mark after the number", endOf(s.node), `"`))
		case measure.DimAngle:
			mends = append(mends, snag.Replace("write a degree mark after the number", endOf(s.node), "°"))
		}
	}
	if len(mends) == 0 {
		mends = append(mends, snag.Say("write "+d.A()+" here"))
	}
	rule := what + " must be " + d.A()
	if what == d.A() {
		rule = what + " belongs here"
	}
	w.error("wrong-dimension", s.node.Range, rule+", and this is "+v.A(), "", mends...)
	return figure{}
}

func endOf(n *source.Node) span.Range { return n.Sub(len(n.Text), len(n.Text)) }

func (w *world) length(s *said, what string) figure { return w.number(s, measure.DimLength, what) }
func (w *world) angle(s *said, what string) figure  { return w.number(s, measure.DimAngle, what) }

// count works out a whole number from least up.
func (w *world) count(s *said, what string, least int) (int, span.Set, bool) {
	f := w.number(s, measure.DimNone, what)
	if !f.ok {
		return 0, f.from, false
	}
	n := math.Round(f.v)
	if math.Abs(n-f.v) > 1e-9 {
		w.error("not-whole", s.node.Range, what+" comes to "+measure.Number(f.v).Exact(w.d.units)+", and a count must be whole", "",
			snag.Say("round it: floor(…), ceil(…) or round(…)"))
		return 0, f.from, false
	}
	if n < float64(least) || n > maxCount {
		w.error("absurd-count", s.node.Range, what+" comes to "+measure.Number(n).Exact(w.d.units)+", and must be between "+
			measure.Number(float64(least)).Exact(w.d.units)+" and "+measure.Number(maxCount).Exact(w.d.units), "", snag.Say("see that it cannot leave that range"))
		return 0, f.from, false
	}
	return int(n), f.from, true
}

// maxCount bounds what can be counted in one piece of furniture.
const maxCount = 10000

// holds works out a condition; unsaid is true.
func (w *world) holds(s *said) (yes bool, from span.Set, known bool) {
	if s == nil {
		return true, span.Set{}, true
	}
	v := w.eval(s, w.piece())
	if v.Kind == expr.YesNo {
		return v.Yes, v.From, true
	}
	if v.Kind != expr.Unknown {
		w.error("wrong-kind", s.node.Range, "a condition belongs here, and this is "+v.A(), "", snag.Say("write, for instance, panel is straight"))
	}
	return false, v.From, false
}

// A pointAt is a point of the piece, mm.
type pointAt struct {
	at   geom.Vec
	from span.Set
	ok   bool
}

// point works out "where A meets B [meets C]" or the name of a point. With two
// planes the point lies at the middle of the room along their line.
func (w *world) point(p *pointDecl, in room) pointAt {
	if p == nil || p.node == nil || len(p.meets) == 0 {
		return pointAt{}
	}
	var planes []geom.Plane
	out := pointAt{ok: in.ok}
	for _, x := range p.meets {
		v := w.evalExpr(x, p.node, in)
		if v.Kind == expr.Unknown || x == nil {
			return pointAt{}
		}
		out.from = out.from.Union(v.From)
		pl, _ := v.Place.(*place)
		switch {
		case v.Kind == expr.Point && len(p.meets) == 1:
			out.at = pl.point
			return out
		case len(p.meets) == 1 || pl == nil || pl.any:
			s, e := x.Span()
			w.error("wrong-kind", p.node.Sub(s, e), "a point belongs here, and this is "+v.A(), "", snag.Say("write: where A meets B, with positions, sides or planes"))
			return pointAt{}
		}
		planes = append(planes, pl.flat(in))
	}
	if len(planes) == 2 {
		_, way, ok := geom.Line(planes[0], planes[1])
		if ok {
			d, _ := in.Nearest(way)
			planes = append(planes, in.Plane(d, 0))
		} else {
			planes = append(planes, planes[0])
		}
	}
	at, err := setout.Where(planes[0], planes[1], planes[2])
	if err != nil {
		w.error("no-crossing", p.node.Range, "these do not meet in one point", "two of them are parallel", snag.Say("name planes that cross"))
		return pointAt{}
	}
	out.at = at
	return out
}

// A planeAt is a plane of the file: the room it makes, and the way it faces.
type planeAt struct {
	room  room
	faces setout.Dir
	plane geom.Plane
	from  span.Set
	ok    bool
}

func (w *world) plane(i int) planeAt {
	p := &w.d.planes[i]
	return get(w, &w.planes[i], p.name, p.at, func() planeAt {
		outer := w.roomOf(p.in)
		if !outer.ok {
			return planeAt{}
		}
		if p.side != nil {
			return w.sidePlane(p, outer)
		}
		through := w.point(p.through, outer)
		tilts, from, ok := w.tilts(p.tilts)
		if !through.ok || !ok {
			return planeAt{}
		}
		from = from.Union(through.from, outer.from)
		r, err := setout.TiltedRoom(outer.Room, setout.Dir(p.faces), through.at, tilts)
		if err != nil {
			w.fault(p.at, err, "the plane "+p.name)
			return planeAt{}
		}
		return planeAt{room{r, from, true}, setout.Dir(p.faces), r.Plane(setout.Dir(p.faces), 0), from, true}
	})
}

func (w *world) sidePlane(p *planeDecl, outer room) planeAt {
	v := w.eval(p.side, outer)
	side, _ := v.Place.(*place)
	if v.Kind != expr.Plane {
		if v.Kind != expr.Unknown {
			w.error("wrong-kind", p.side.node.Range, "a side of a board or a named cut belongs here, and this is "+v.A(), "", snag.Say("write, for instance, back_post.front"))
		}
		return planeAt{}
	}
	from := v.From.Union(outer.from)
	var zero *geom.Plane
	if p.zero != nil {
		z := w.eval(p.zero, outer)
		at, _ := z.Place.(*place)
		if at == nil || at.any {
			if z.Kind != expr.Unknown {
				w.error("wrong-kind", p.zero.node.Range, "a position or plane belongs here, and this is "+z.A(), "", snag.Say("write, for instance, floor"))
			}
			return planeAt{}
		}
		flat := at.flat(outer)
		zero, from = &flat, from.Union(z.From)
	}
	r, faces, err := setout.SideRoom(outer.Room, side.plane, zero)
	if err != nil {
		w.fault(p.at, err, "the plane "+p.name)
		return planeAt{}
	}
	return planeAt{room{r, from, true}, faces, side.plane, from, true}
}

// roomOf returns the room a name of a plane makes; nil is the piece.
func (w *world) roomOf(n *nameRef) room {
	if n == nil {
		return w.piece()
	}
	k, ok := w.d.names[n.text]
	if !ok || k.kind != aPlane {
		w.error("unknown-name", n.node.Range, "there is no plane “"+n.text+"”", "", w.d.nearName(n.text, n.node.Range, aPlane)...)
		return room{}
	}
	p := w.plane(k.n)
	r := p.room
	r.ok = p.ok
	r.from = r.from.Union(span.Of(n.node.Ordinal))
	return r
}

func (w *world) tilts(ts []tiltDecl) ([]setout.Tilt, span.Set, bool) {
	var out []setout.Tilt
	from := span.Set{}
	ok := true
	for _, t := range ts {
		a := w.numberOf(w.evalExpr(t.angle, t.node, w.piece()), &said{t.node, t.angle}, measure.DimAngle, "a "+t.key)
		from = from.Union(a.from)
		if !a.ok {
			ok = false
			continue
		}
		out = append(out, tilt(t, a.v))
	}
	return out, from, ok
}

// tilt turns a negative angle into one the other way.
func tilt(t tiltDecl, angle float64) setout.Tilt {
	toward := setout.Dir(t.toward)
	if angle < 0 {
		angle, toward = -angle, toward.Opposite()
	}
	return setout.Tilt{End: setout.Dir(t.end), Angle: angle / float64(measure.Degree) * (math.Pi / 180), Toward: toward}
}
