package design

import (
	"slices"

	"scantling/internal/board"
	"scantling/internal/expr"
	"scantling/internal/geom"
	"scantling/internal/measure"
	"scantling/internal/phrase"
	"scantling/internal/setout"
	"scantling/internal/snag"
	"scantling/internal/span"
)

// Placed returns the fitting as a solid in place.
func (f Fitting) Placed() geom.Placed {
	var saw geom.Saw
	saw.Blank(f.Size.X, f.Size.Y, f.Size.Z)
	at := f.At
	at.At = at.At.Along(at.X, -f.Size.X/2).Along(at.Y, -f.Size.Y/2)
	return geom.Placed{Solid: saw.Solid(), Pose: at}
}

// bought resolves hardware and goods.
func (w *world) bought(p *Piece) {
	for i := range w.d.hardware {
		h := &w.d.hardware[i]
		if yes, _, _ := w.holds(h.when); !yes || h.what == nil {
			continue
		}
		for _, st := range w.seats(h.sc) {
			w.hardware(p, h, st)
		}
	}
	for i := range w.d.goods {
		g := &w.d.goods[i]
		if yes, _, _ := w.holds(g.when); !yes || g.what == nil {
			continue
		}
		for _, st := range w.seats(g.sc) {
			if amount, ok := w.amount(g, st); ok {
				p.wants(Goods{g.name, g.what.Text, amount, g.at, span.Of(g.what.Ordinal)})
			}
		}
	}
}

// wants adds goods, with what other copies and uses of their group want of them.
func (p *Piece) wants(g Goods) {
	for i := range p.Goods {
		if o := &p.Goods[i]; o.Name == g.Name && o.What == g.What && o.Amount.Q.D == g.Amount.Q.D {
			o.Amount = Figure{measure.Quantity{V: o.Amount.Q.V + g.Amount.Q.V, D: g.Amount.Q.D}, o.Amount.From.Union(g.Amount.From)}
			return
		}
	}
	p.Goods = append(p.Goods, g)
}

// hardware resolves what is bought and fixed, in one copy of its group.
func (w *world) hardware(p *Piece, h *hardwareDecl, st seat) {
	out := Hardware{Name: h.name, What: h.what.Text, Count: Figure{Q: measure.Number(1)}, With: w.fastenings(h.with), At: h.at, From: span.Of(h.what.Ordinal)}
	if h.each != nil {
		out.Each, _, _ = w.count(h.each, "the number of fasteners", 0)
	}
	on := map[board.ID]bool{}
	for i := range h.fixed {
		f := &h.fixed[i]
		ms, ok := w.listedAt([]ref{f.ref}, st)
		if !ok {
			return
		}
		if h.box == nil || !f.sided {
			out.Fixed = append(out.Fixed, ids(ms)...)
			continue
		}
		for _, m := range ms {
			boxes, ok := w.fittings(h, f, m, st)
			if !ok {
				return
			}
			for _, b := range boxes {
				out.add(b, m, on)
			}
		}
	}
	if len(out.Boxes) > 0 {
		out.Count.Q = measure.Number(float64(len(out.Boxes)))
		out.Count.From = h.box.from().Union(out.Boxes[0].From)
		w.runInto(p, h, out)
	}
	if h.count != nil {
		n, from, ok := w.count(h.count, "the number of "+phrase.Spaced(h.name), 0)
		if !ok {
			return
		}
		out.Count = Figure{measure.Number(float64(n)), from}
	}
	p.Hardware = append(p.Hardware, out)
}

// add puts a fitting among the others, unless the same lies there: a hinge over
// several boards is one. The board it is fixed to is the one it lies on.
func (h *Hardware) add(f Fitting, m *member, on map[board.ID]bool) {
	b := m.rough()
	if b == nil {
		return
	}
	if around := f.Placed().Around(); !on[m.id] && around.Meets(b.PlacedWood().Around(), geom.Touch) {
		on[m.id] = true
		h.Fixed = append(h.Fixed, m.id)
	}
	for _, o := range h.Boxes {
		if o.At.At.Distance(f.At.At) <= geom.Touch {
			return
		}
	}
	h.Boxes = append(h.Boxes, f)
}

func (b *boxDecl) from() span.Set { return ordinalsIn(b.node) }

// fittings places the boxes of one thing on one board: one for each combination of
// the places its holds name.
func (w *world) fittings(h *hardwareDecl, f *sideDecl, m *member, st seat) ([]Fitting, bool) {
	in := w.home(h.sc)
	size := geom.Vec{}
	from := h.box.from()
	for _, s := range []struct {
		said *said
		into *float64
	}{{h.box.sizes[0], &size.X}, {h.box.sizes[1], &size.Y}, {h.box.thick, &size.Z}} {
		l := w.length(s.said, "the size of "+phrase.Spaced(h.name))
		if *s.into = l.mm(); !l.ok || l.v <= 0 {
			if l.ok {
				w.error("bad-size", s.said.node.Range, "a box measures more than nothing each way, and this is "+w.d.printMM(l.mm()), "", snag.Say("say how large it is"))
			}
			return nil, false
		}
		from = from.Union(l.from)
	}
	side, _, found := m.plane(setout.Dir(f.side))
	b := m.rough()
	if !found || !side.ok || b == nil {
		return nil, false
	}
	n := side.plane.N
	flat := func(d expr.Dir) (geom.Vec, bool) {
		way := st.way(w, h.sc, d)
		way = way.Along(n, -way.Dot(n))
		return way, way.Length() > 0.5
	}
	x, ok1 := flat(h.box.ways[0])
	y, ok2 := flat(h.box.ways[1])
	if !ok1 || !ok2 {
		w.error("skew-words", h.box.node.Range, phrase.Spaced(h.name)+" cannot lie so on the "+f.side.Side()+" of "+phrase.Spaced(m.lot.d.name), "along and across lie in the side it is fixed to", snag.Say("name two directions along that side"))
		return nil, false
	}
	x = x.Unit()
	y = y.Along(x, -y.Dot(x)).Unit()
	middle := b.Pose.Out(b.Wood.Centre)
	middle = middle.Along(n, -side.plane.Over(middle))
	at := []geom.Vec{middle}
	for i := range h.holds {
		hold := &h.holds[i]
		var next []geom.Vec
		for _, to := range hold.to {
			for _, p := range at {
				moved, more, ok := w.heldFitting(h, hold, to, p, x, y, size, in, st)
				if !ok {
					return nil, false
				}
				next, from = append(next, moved), from.Union(more)
			}
		}
		at = next
	}
	pose := geom.Pose{X: x, Y: y, Z: n}
	if x.Cross(y).Dot(n) < 0 {
		pose.X, pose.Y, size.X, size.Y = y, x, size.Y, size.X
	}
	var out []Fitting
	for _, p := range at {
		pose.At = p
		out = append(out, Fitting{pose, size, from.Union(side.from)})
	}
	return out, true
}

// heldFitting moves the middle of a box so that a hold is met.
func (w *world) heldFitting(h *hardwareDecl, hold *fixingHold, to *said, p, x, y geom.Vec, size geom.Vec, in room, st seat) (geom.Vec, span.Set, bool) {
	v := w.eval(to, in)
	pl, _ := v.Place.(*place)
	what := "the " + hold.side.Side() + " of " + phrase.Spaced(h.name)
	if hold.middle {
		what = "the middle of " + phrase.Spaced(h.name)
	}
	d := setout.Dir(hold.side)
	free := h.unheld()
	if v.Kind != expr.Position && v.Kind != expr.Plane || hold.middle && pl.any && len(free) != 1 {
		if v.Kind != expr.Unknown {
			w.error("wrong-kind", to.node.Range, what+" is held by a place, and this is "+v.A(), "", snag.Say(`write, for instance, 36" above floor`))
		}
		return p, v.From, false
	}
	if hold.middle && pl.any {
		d = free[0]
	} else if hold.middle {
		d, _ = in.Nearest(pl.plane.N)
	}
	at, ok := to.env(w, in).coordinate(pl, d, to.x)
	if !ok {
		return p, v.From, false
	}
	way := in.Way(d)
	target := in.Plane(d, at)
	if st.at != nil {
		way, target = st.at.Way(way), st.at.Plane(target)
	}
	u, half := x, size.X/2
	if absf(y.Dot(way)) > absf(x.Dot(way)) {
		u, half = y, size.Y/2
	}
	along := u.Dot(way)
	if absf(along) < 0.5 {
		w.error("wrong-axis", hold.key, what+" lies "+axisWords[d.Axis()]+", which is out of the side it is fixed to", "", snag.Say("hold it along that side"))
		return p, v.From, false
	}
	if hold.middle {
		half = 0
	}
	if along > 0 {
		half = -half
	}
	// target faces along its axis: so far from it p lies, and half the box on this side of it.
	return p.Along(u, -target.Over(p)/target.N.Dot(u)+half), v.From, true
}

// unheld are the ways of the box that no side is held across: where a bare middle
// belongs when there is one.
func (h *hardwareDecl) unheld() (out []setout.Dir) {
	for _, way := range h.box.ways {
		if !slices.ContainsFunc(h.holds, func(o fixingHold) bool { return !o.middle && o.side.Axis() == way.Axis() }) {
			out = append(out, setout.Dir(way))
		}
	}
	return out
}

// runInto tells hardware that lies in boards.
func (w *world) runInto(p *Piece, h *hardwareDecl, out Hardware) {
	for _, f := range out.Boxes {
		box := f.Placed()
		around := box.Around()
		for _, b := range p.Boards {
			if !around.Meets(b.Placed().Around(), 0) {
				continue
			}
			if c, ok := geom.Overlap(box, b.Placed()); ok && c.Depth > geom.Touch {
				w.tell(snag.Snag{Code: "hardware-in-wood", Severity: snag.Caution, At: h.at, Boards: []string{string(b.ID)},
					What:  "the " + phrase.Spaced(h.name) + " lies " + w.d.printMM(c.Depth) + " deep in the " + b.Spoken,
					Mends: []snag.Mend{snag.Say("move it with at:, or let it in: make thick: what stands out")}})
				return
			}
		}
	}
}

// amount is how much of a thing is wanted in one copy of its group: as said, or of
// the sides it covers.
func (w *world) amount(g *goodsDecl, st seat) (Figure, bool) {
	more := figure{v: 1, ok: true}
	if g.plus != nil {
		f := w.number(g.plus, measure.DimNone, "what is added for waste")
		if !f.ok {
			return Figure{}, false
		}
		more.v, more.from = 1+f.v, f.from
	}
	if len(g.covers) > 0 {
		total, from, ok := w.covered(g, st)
		d := map[string]measure.Dim{"": measure.DimArea, "area": measure.DimArea, "length": measure.DimLength, "count": measure.DimNone}[g.sold]
		return Figure{measure.Quantity{V: total * more.v, D: d}, from.Union(more.from)}, ok
	}
	if g.amount == nil {
		return Figure{}, false
	}
	v := w.eval(g.amount, w.home(g.sc))
	if v.Kind != expr.Number {
		if v.Kind != expr.Unknown {
			w.error("wrong-kind", g.amount.node.Range, "an amount belongs here, and this is "+v.A(), "", snag.Say("write an area, a length or a count"))
		}
		return Figure{}, false
	}
	want := map[string][]measure.Dim{"": {measure.DimArea, measure.DimLength, measure.DimNone, measure.DimVolume}, "area": {measure.DimArea}, "length": {measure.DimLength}, "count": {measure.DimNone}}[g.sold]
	for _, d := range want {
		if v.Q.D == d {
			v.Q.V *= more.v
			return Figure{v.Q, v.From.Union(more.from)}, true
		}
	}
	how, mend := "area, length, volume or count", "write one of those"
	if g.sold != "" {
		how, mend = g.sold, "write "+want[0].A()+", or another word after sold by:"
	}
	w.error("wrong-dimension", g.amount.node.Range, "this is sold by "+how+", and the amount is "+v.Q.D.A(), "", snag.Say(mend))
	return Figure{}, false
}

// covered adds up the sides a thing covers, as the boards are finished: their
// areas, the lengths of their boards, or their number.
func (w *world) covered(g *goodsDecl, st seat) (total float64, from span.Set, ok bool) {
	for i := range g.covers {
		s := &g.covers[i]
		ms, good := w.listedAt([]ref{s.ref}, st)
		if !good || !s.sided {
			return 0, from, false
		}
		for _, m := range ms {
			_, side, found := m.plane(setout.Dir(s.side))
			b := m.finished()
			if !found || b == nil || b.Solid == nil {
				return 0, from, false
			}
			from = from.Union(m.from(), m.lot.countFrom())
			side = m.copy.Side(side)
			switch g.sold {
			case "count":
				total++
			case "length":
				total += float64(b.L * nmPerMM)
			default:
				for f := range b.Solid.Faces {
					if b.Solid.Faces[f].Tag == geom.Tag(side) {
						total += float64(b.Solid.Faces[f].Area() * nmPerMM * nmPerMM)
					}
				}
			}
		}
	}
	return total, from, true
}
