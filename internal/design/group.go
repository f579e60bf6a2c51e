package design

import (
	"math"
	"strconv"
	"strings"

	"scantling/internal/board"
	"scantling/internal/expr"
	"scantling/internal/geom"
	"scantling/internal/measure"
	"scantling/internal/phrase"
	"scantling/internal/setout"
	"scantling/internal/snag"
	"scantling/internal/source"
	"scantling/internal/span"
)

// A group is one group, or one use of it, worked out: where it stands, and where
// its copies do. What is said in it is said of the group as it is written; its
// copies carry that where they stand.
type group struct {
	w      *world
	d      *groupDecl
	lots   []*lot
	here   cell[presence]
	base   cell[room]
	copies cell[[]*copying]
}

func (g *group) key(what string) string { return g.d.name + "." + what }

// present reports whether what the group stands under holds.
func (g *group) present() presence {
	return get(g.w, &g.here, g.key("when"), g.d.at, func() presence {
		out := presence{yes: true, known: true}
		for _, s := range g.d.when {
			yes, from, known := g.w.holds(s)
			out.yes, out.known, out.from = out.yes && yes, out.known && known, out.from.Union(from)
		}
		return out
	})
}

// home is the room the group speaks in: the piece, or for a use, where it stands.
func (g *group) home() room {
	return get(g.w, &g.base, g.key("at"), g.d.at, func() room {
		r := g.w.piece()
		if g.d.flip != "" {
			axis, _ := expr.DirOf(strings.SplitN(g.d.flip, "-", 2)[0])
			r.Room = setout.Mirror(r.Room, setout.Dir(axis), 0).Room(r.Room)
			r.turn = ordinalsIn(g.d.node.Get("flip"))
		}
		if g.d.turn != nil {
			a := g.w.angle(g.d.turn, "a turn")
			if !a.ok {
				return room{}
			}
			r.Room = setout.Turn(setout.Piece(), setout.Up, geom.Vec{}, a.v/float64(measure.Degree)*(math.Pi/180)).Room(r.Room)
			r.turn = r.turn.Union(a.from)
		}
		r.from = r.turn
		for _, s := range g.d.shifts {
			by, from, ok := g.shift(s)
			if !ok {
				return room{}
			}
			r.At, r.from = r.At.Plus(by), r.from.Union(from)
		}
		return r
	})
}

// shift returns how far a place of at: takes the middle of a use.
func (g *group) shift(s *said) (geom.Vec, span.Set, bool) {
	v := g.w.eval(s, g.w.piece())
	p, _ := v.Place.(*place)
	switch {
	case v.Kind == expr.Unknown:
		return geom.Vec{}, v.From, false
	case v.Kind == expr.Point:
		return p.point, v.From, true
	case (v.Kind == expr.Position || v.Kind == expr.Plane) && !p.any:
		for d := setout.Right; d <= setout.Up; d += 2 {
			if at, ok := setout.Piece().Read(p.plane, d); ok {
				return setout.Piece().Way(d).Times(at), v.From, true
			}
		}
	}
	g.w.error("wrong-kind", s.node.Range, "a use stands at a point or a position, and this is "+v.A(), "", snag.Say(`write, for instance, 20" left of middle`))
	return geom.Vec{}, v.From, false
}

// copyings are where the group's copies stand, the written one first.
func (g *group) copyings() []*copying {
	return get(g.w, &g.copies, g.key("copies"), g.d.at, func() []*copying {
		// A lot without boards makes copies in the room the group was written in.
		l := &lot{w: g.w, d: &boardDecl{name: g.d.name, sc: g.d.sc.outer, at: g.d.at, copies: g.d.copies}}
		return l.multiplied(func(c *copyDecl, all []*copying, from span.Set) []*copying {
			if !c.marks.middle {
				g.w.error("skew-words", c.marks.node.Range, "marks put the middle of a group on each mark, and these name a side of it", "", snag.Say("write of: middle, and say the group about the middle"))
				return nil
			}
			places := l.markPlaces(c, l.home())
			if len(places) == 0 || l.tooMany(c, len(places)*len(all)) {
				return nil
			}
			d := setout.Dir(c.marks.toward)
			var out []*copying
			for i, p := range places {
				m := setout.Shift(l.heading().Way(d).Times(float64(p.at * d.Sign())))
				for _, o := range all {
					n := o.then(m, strconv.Itoa(i+1), l.called(c, i, len(places)), from.Union(p.from))
					n.number, n.written = i+1, i == 0 && o.written
					out = append(out, n)
				}
			}
			return out
		})
	})
}

// still reports whether a copy of a group lies where the group is written.
func (c *copying) still() bool { return c.Move == setout.Still() }

// carried returns how a copy inside a group lies where a copy of the group does.
func (c *copying) carried(by *copying) *copying {
	out := &copying{Move: c.Move.Then(by.Move), number: c.number, room: c.room, written: c.written && by.written, from: c.from.Union(by.from)}
	out.path = c.path
	out.calls = append(append(out.calls, by.calls...), c.calls...)
	return out
}

// places are the copies of the lot's group, or for a lot in no group nil alone:
// once where it is written.
func (l *lot) places() []*copying {
	if l.g == nil {
		return []*copying{nil}
	}
	return l.g.copyings()
}

// within returns the boards of the lot in one copy of its group; nil gives them as
// they are written.
func (l *lot) within(at *copying) []*member {
	if at == nil || at.written && at.still() {
		return l.all()
	}
	if known, ok := l.carried[at]; ok {
		return known
	}
	if l.carried == nil {
		l.carried = map[*copying][]*member{}
	}
	var out []*member
	for _, m := range l.all() {
		c := *m.copy.carried(at)
		out = append(out, &member{lot: l, one: m.one, copy: &c, own: m.copy, at: at, id: l.id(m.one, m.copy, at)})
	}
	l.carried[at] = out
	return out
}

// boards returns every board of the lot, in all copies of its group.
func (l *lot) boards() []*member {
	if l.g == nil {
		return l.all()
	}
	return get(l.w, &l.everywhere, l.key("copies"), l.d.at, func() []*member {
		var out []*member
		for _, at := range l.places() {
			out = append(out, l.within(at)...)
		}
		return out
	})
}

// id names a board by the path of copies that made it.
func (l *lot) id(s *single, c, at *copying) board.ID {
	var path []string
	if l.g != nil {
		path = append(path, l.g.d.name)
		if at != nil {
			path = append(path, at.path...)
		}
	}
	path = append(path, l.d.name)
	if l.d.numbered() {
		path = append(path, strconv.Itoa(s.index+1))
	}
	if l.isDoubled() {
		return board.ID(strings.Join(append(append(path, c.path...), "ply"+strconv.Itoa(s.index+1)), "/"))
	}
	return board.ID(strings.Join(append(path, c.path...), "/"))
}

// mean is the home point of a copy of the group: the mean of its boards'. Along asks
// whether a board's ends count, given the way it runs there.
func (g *group) mean(at *copying, along func(run setout.Dir) bool) (geom.Vec, bool) {
	var homes []geom.Vec
	for _, l := range g.lots {
		if !l.present().yes {
			continue
		}
		f := l.frameOf()
		if !f.ok {
			return geom.Vec{}, false
		}
		ends := along(at.Word(f.Words[board.Finish]))
		for _, m := range l.all() {
			h, ok := m.homePoint(ends)
			if !ok {
				return geom.Vec{}, false
			}
			homes = append(homes, h)
		}
	}
	return at.Point(setout.Mean(homes)), true
}

// inGroup reads a name of a group by the dot.
func (e *env) inGroup(r *expr.Ref) expr.Value {
	g, of := e.groupOf(r)
	if len(of) == 0 {
		return expr.Value{}
	}
	inner, known := g.d.sc.names[r.Path[1].Text]
	rest := &expr.Ref{At: r.At, Select: r.Inner, Path: r.Path[1:], Check: r.Check}
	switch {
	case known && inner.kind.isBoards() && len(r.Path) == 2 && len(r.Select)+len(r.Inner) == 0: // all of them, as of any part
		l := e.w.lots[inner.n]
		return expr.Value{Kind: expr.Thing, Place: &place{thing: &thing{lot: l, of: l.boards()}, says: phrase.Spaced(l.d.name)}}
	case known && inner.kind.isBoards():
		return e.boardAmong(rest, e.w.lots[inner.n], among(e.w.lots[inner.n], of))
	case !known && e.w.d.jointNamed(g.d.sc, r.Path[1].Text) < 0:
		e.w.tell(e.w.d.notOfGroup(e.w.d.families[e.sc.kindOf(r)], e.node, r))
		return expr.Value{}
	case len(of) > 1:
		return e.tell("several-copies", r.At, "these words leave several copies of "+phrase.Spaced(g.d.name)+", and a measure reads one", snag.Say("add a word that picks one of them"))
	}
	return carriedValue((&env{e.w, g.d.sc, e.node, g.home()}).Name(rest), of[0].at)
}

// among are the boards of a lot in some copies of its group.
func among(l *lot, of []seat) (out []*member) {
	for _, c := range of {
		out = append(out, l.within(c.at)...)
	}
	return out
}

// groupOf returns the group a dotted name begins with and the copies of it that are
// meant: a bare name means the written one. What is wrong is told.
func (e *env) groupOf(r *expr.Ref) (*group, []seat) {
	first := r.Path[0]
	f := e.w.d.families[e.sc.kindOf(r)]
	switch {
	case len(f.of) == 0:
		return nil, nil
	case len(r.Path) == 1:
		e.tell("wrong-kind", r.At, "“"+first.Text+"” is a group, and a measure reads one of its parts or values", snag.Say("write "+first.Text+". and a name of it"))
		return nil, nil
	case len(f.of) > 1:
		e.tell("several-copies", r.At, "“"+first.Text+"” is used "+strconv.Itoa(len(f.of))+" times, and a measure reads one", snag.Say("name the use: "+e.w.groups[f.of[0]].d.name+"."+r.Path[1].Text))
		return nil, nil
	}
	g := e.w.groups[f.of[0]]
	if here := g.present(); !here.yes {
		if here.known {
			e.w.gone(e.node.Sub(first.Start, first.End), g.d.name, g.d.when[0])
		}
		return g, nil
	}
	var of []seat
	for _, at := range g.copyings() {
		of = append(of, seat{g, at})
	}
	if len(r.Select) > 0 {
		return g, e.w.pickCopies(g.d.name, e.node, r.Select, of)
	}
	return g, of[:1]
}

// kindOf returns the number of what a name stands for.
func (s *scope) kindOf(r *expr.Ref) int {
	k, _ := s.find(r.Path[0].Text)
	return k.n
}

// namesakes are the other parts and rows of that name: other groups', or other uses'
// of this one.
func (l *lot) namesakes() (out []*lot) {
	for _, o := range l.w.lots {
		if l.g != nil && o != l && o.d.name == l.d.name {
			out = append(out, o)
		}
	}
	return out
}

// title is what the lot's boards are listed by: their name in the file, with the
// group's before it where another group has that name too, or another use rows of
// its own.
func (l *lot) title() string {
	for _, o := range l.namesakes() {
		if l.d.numbered() || o.g == nil || o.g.d.body != l.g.d.body {
			return l.g.d.name + "_" + l.d.name
		}
	}
	return l.d.name
}

// carriedValue returns a value of a group as it is where a copy of the group lies.
func carriedValue(v expr.Value, by *copying) expr.Value {
	p, ok := v.Place.(*place)
	v.From = v.From.Union(by.from)
	if !ok || by.still() {
		return v
	}
	q := *p
	q.of, q.plane, q.point = nil, by.Plane(p.plane), by.Point(p.point)
	q.meets = nil
	for _, m := range p.meets {
		q.meets = append(q.meets, by.Plane(m))
	}
	if p.at != nil {
		at := by.Plane(*p.at)
		q.at = &at
	}
	q.turn = p.turn.Union(by.from)
	v.Place = &q
	return v
}

// notOfGroup tells that a group has nothing of that name.
func (d *Design) notOfGroup(f *familyDecl, n *source.Node, r *expr.Ref) snag.Snag {
	word := r.Path[1]
	at := n.Sub(word.Start, word.End)
	own := &scope{names: d.groups[f.of[0]].sc.names, order: d.groups[f.of[0]].sc.order}
	return snag.Snag{Code: "unknown-name", At: at, What: "the group “" + f.name + "” has no “" + word.Text + "”",
		Mends: own.nearName(word.Text, at, aLet, aPart, aRow, aPlane, aPoint)}
}
