package design

import (
	"math"

	"scantling/internal/expr"
	"scantling/internal/geom"
	"scantling/internal/measure"
	"scantling/internal/phrase"
	"scantling/internal/setout"
	"scantling/internal/snag"
	"scantling/internal/span"
)

// A pointAt is a point of the piece, mm.
type pointAt struct {
	at    geom.Vec
	meets []geom.Plane // what meets in it
	from  span.Set
	ok    bool
	gone  bool // a when took it away
}

// point works out "where A meets B [meets C]" or the name of a point. With two
// planes the point lies at the middle of the room along their line.
func (w *world) point(p *pointDecl, in room) pointAt {
	if p == nil || p.node == nil || len(p.meets) == 0 {
		return pointAt{}
	}
	if yes, _, known := w.holds(p.when); !yes {
		return pointAt{gone: known}
	}
	out := pointAt{ok: in.ok}
	for _, x := range p.meets {
		v := w.eval(&said{p.node, x, p.sc}, in)
		if v.Kind == expr.Unknown || x == nil {
			return pointAt{}
		}
		out.from = out.from.Union(v.From)
		pl, _ := v.Place.(*place)
		switch {
		case v.Kind == expr.Point && len(p.meets) == 1:
			out.at, out.meets = pl.point, pl.meets
			return out
		case len(p.meets) == 1 || pl == nil || pl.any:
			s, e := x.Span()
			w.error("wrong-kind", p.node.Sub(s, e), "a point belongs here, and this is "+v.A(), "", snag.Say("write: where A meets B, with positions, sides or planes"))
			return pointAt{}
		}
		out.meets = append(out.meets, pl.flat(in))
	}
	planes := out.meets
	if len(planes) == 2 {
		_, way, ok := geom.Line(planes[0], planes[1])
		if ok {
			d, _ := in.Nearest(way)
			planes = append(planes[:2:2], in.Plane(d, 0))
		} else {
			planes = append(planes[:2:2], planes[0])
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
	gone  bool // a when took it away
}

func (w *world) plane(i int) planeAt {
	p := &w.d.planes[i]
	return get(w, &w.planes[i], p.name, p.at, func() planeAt {
		if yes, _, known := w.holds(p.when); !yes {
			return planeAt{gone: known}
		}
		outer := w.roomOf(p.in, p.sc)
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
		turn := from.Union(outer.turn)
		from = turn.Union(through.from, outer.from)
		r, err := setout.TiltedRoom(outer.Room, setout.Dir(p.faces), through.at, tilts)
		if err != nil {
			w.fault(p.at, err, "the plane "+p.name)
			return planeAt{}
		}
		return planeAt{room: room{r, from, turn, true}, faces: setout.Dir(p.faces), plane: r.Plane(setout.Dir(p.faces), 0), from: from, ok: true}
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
	return planeAt{room: room{r, from, outer.turn.Union(side.turn, span.Of(p.side.node.Ordinal)), true}, faces: faces, plane: side.plane, from: v.From, ok: true}
}

// roomOf returns the room a name of a plane makes; nil is the scope's own.
func (w *world) roomOf(n *nameRef, in *scope) room {
	if n == nil {
		return w.home(in)
	}
	k, ok := n.sc.find(n.text)
	if !ok || k.kind != aPlane {
		w.error("unknown-name", n.node.Range, "there is no plane “"+n.text+"”", "", n.sc.nearName(n.text, n.node.Range, aPlane)...)
		return room{}
	}
	p := w.plane(k.n)
	if p.gone {
		w.gone(n.node.Range, n.text, w.d.planes[k.n].when)
	}
	r := p.room
	r.ok = p.ok
	r.from = r.from.Union(span.Of(n.node.Ordinal))
	r.turn = r.turn.Union(span.Of(n.node.Ordinal))
	return r
}

// gone tells that something reads what a when took away.
func (w *world) gone(at span.Range, name string, when *said) {
	w.tell(snag.Snag{Code: "not-there", At: at, What: "there is no " + phrase.Spaced(name) + " here: it stands only when " + when.node.Text,
		Related: []snag.Related{{At: when.node.Range, Says: "this took it away"}},
		Mends:   []snag.Mend{snag.Say("put this under the same condition: when: " + when.node.Text + ", or … if " + when.node.Text + " otherwise …")}})
}

func (w *world) tilts(ts []tiltDecl) ([]setout.Tilt, span.Set, bool) {
	var out []setout.Tilt
	from := span.Set{}
	ok := true
	for _, t := range ts {
		a := w.angle(t.angle, "a "+t.key)
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
