package design

import (
	"scantling/internal/expr"
	"scantling/internal/geom"
	"scantling/internal/phrase"
	"scantling/internal/setout"
	"scantling/internal/snag"
	"scantling/internal/source"
)

// A seat is where a list of names is read: in the file, or in one copy of a
// group; at nil is the group as it is written.
type seat struct {
	g  *group
	at *copying
}

// seats are all places where something said in a scope holds: once in the file,
// in a group once a copy.
func (w *world) seats(sc *scope) []seat {
	if sc.group == nil {
		return []seat{{}}
	}
	g := w.groups[sc.group.n]
	if !g.present().yes {
		return nil
	}
	var out []seat
	for _, at := range g.copyings() {
		out = append(out, seat{g, at})
	}
	return out
}

// way returns where a direction said there points, in the piece.
func (st seat) way(w *world, sc *scope, d expr.Dir) geom.Vec {
	way := w.home(sc).Way(setout.Dir(d))
	if st.at != nil {
		way = st.at.Way(way)
	}
	return way
}

// word is what a side said there is called in the piece.
func (st seat) word(d setout.Dir) setout.Dir {
	if st.at != nil {
		return st.at.Word(d)
	}
	return d
}

// seat is the copy of its group the member is in.
func (m *member) seat() seat { return seat{m.lot.g, m.at} }

// listed returns the boards a list of names in the file means, in order; what a
// when took away is left out.
func (w *world) listed(refs []ref) ([]*member, bool) { return w.listedAt(refs, seat{}) }

// listedAt is listed, read in one copy of a group.
func (w *world) listedAt(refs []ref, st seat) ([]*member, bool) {
	var out []*member
	seen := map[*member]bool{}
	ok := true
	for i := range refs {
		some, good := w.named(&refs[i], st)
		ok = ok && good
		for _, m := range some {
			if !seen[m] {
				seen[m] = true
				out = append(out, m)
			}
		}
	}
	return out, ok
}

// named returns the boards one name of a list means.
func (w *world) named(r *ref, st seat) ([]*member, bool) {
	if f, inner, known := w.d.groupRef(r.sc, r.Ref); f != nil {
		return w.ofGroup(r, f, inner, known)
	}
	if len(r.Path) != 1 {
		w.error("wrong-kind", r.node.Range, "the name of a part or row belongs here, without a dot", "", snag.Say("write "+r.Path[0].Text))
		return nil, false
	}
	l, found := w.lotOf(r)
	if !found {
		return nil, false
	}
	here := l.present()
	if !here.yes {
		return nil, here.known
	}
	some := w.pick(l, r.node, r.Select)
	if l.g != nil && st.at != nil { // picked in the group's own words, and then carried
		where := map[*member]int{}
		for i, m := range l.all() {
			where[m] = i
		}
		there := l.within(st.at)
		carried := make([]*member, len(some))
		for i, m := range some {
			carried[i] = there[where[m]]
		}
		some = carried
	}
	return some, len(some) > 0 || len(r.Select) == 0
}

// ofGroup returns the boards of a group's part, or of the whole group, in every
// copy its adjectives pick.
func (w *world) ofGroup(r *ref, f *familyDecl, inner name, known bool) (out []*member, ok bool) {
	if len(f.of) == 0 {
		return nil, false
	}
	if len(r.Path) > 2 || len(r.Path) == 2 && known && !inner.kind.isBoards() {
		w.error("wrong-kind", r.node.Range, "a part or row of the group belongs here", "", snag.Say("write "+r.Path[0].Text+". and a part of it"))
		return nil, false
	}
	if len(r.Path) == 2 && !known {
		w.tell(w.d.notOfGroup(f, r.node, r.Ref))
		return nil, false
	}
	copies, ok := w.copiesOf(f, r)
	for _, c := range copies {
		for _, l := range c.g.lots {
			if len(r.Path) == 2 && l.d.name != r.Path[1].Text {
				continue
			}
			if here := l.present(); !here.yes {
				continue
			}
			some := w.pickAmong(l, r.node, r.Inner, l.within(c.at), l.heading())
			ok = ok && (len(some) > 0 || len(r.Inner) == 0)
			out = append(out, some...)
		}
	}
	return out, ok
}

// copiesOf returns the copies of a group, of all its uses, that the adjectives
// before its name leave.
func (w *world) copiesOf(f *familyDecl, r *ref) (out []seat, ok bool) {
	ok = true
	for _, n := range f.of {
		g := w.groups[n]
		here := g.present()
		if ok = ok && here.known; !here.yes {
			continue
		}
		for _, at := range g.copyings() {
			out = append(out, seat{g, at})
		}
	}
	if len(r.Select) == 0 {
		return out, ok
	}
	out = w.pickCopies(f.name, r.node, r.Select, out)
	return out, len(out) > 0
}

// pickCopies narrows copies of a group by adjectives, as boards are picked.
func (w *world) pickCopies(name string, n *source.Node, words []expr.Word, some []seat) []seat {
	for i := len(words) - 1; i >= 0 && len(some) > 0; i-- {
		things := make([]copied, len(some))
		for k, c := range some {
			things[k] = copied{c.at, c.at.number}
		}
		var out []seat
		for _, k := range w.narrowed(phrase.Spaced(name), n, words[i], things, func(d setout.Dir) []int { return furthestCopies(some, d) }) {
			out = append(out, some[k])
		}
		some = out
	}
	return some
}

// furthestCopies returns which copies of groups stand furthest toward d, by the mean
// of their boards' home points.
func furthestCopies(some []seat, d setout.Dir) []int {
	homes := make([]geom.Vec, len(some))
	for i, c := range some {
		var ok bool
		if homes[i], ok = c.g.mean(c.at, func(run setout.Dir) bool { return run.Axis() == d.Axis() }); !ok {
			return nil
		}
	}
	return setout.Furthest(homes, setout.Piece(), d)
}
