package design

import (
	"slices"
	"strconv"

	"scantling/internal/expr"
	"scantling/internal/geom"
	"scantling/internal/setout"
	"scantling/internal/snag"
	"scantling/internal/source"
)

// pick returns the copies the adjectives before a name leave, or nil after
// telling what is wrong. A bare name is all of them.
func (w *world) pick(l *lot, n *source.Node, words []expr.Word) []*member {
	some := l.all()
	for i := len(words) - 1; i >= 0 && len(some) > 0; i-- {
		some = w.narrow(l, n, words[i], some)
	}
	return some
}

// narrow leaves the copies one adjective picks. Those nearest the name pick
// first: "front right leg" is the front one of the right ones.
func (w *world) narrow(l *lot, n *source.Node, word expr.Word, some []*member) []*member {
	at := n.Sub(word.Start, word.End)
	refuse := func(what string, mends ...snag.Mend) []*member {
		w.error("no-such-copy", at, what, "", mends...)
		return nil
	}
	var called []*member
	for _, m := range some {
		if slices.Contains(m.copy.calls, word.Text) {
			called = append(called, m)
		}
	}
	if len(called) > 0 {
		return called
	}
	name := spaced(l.d.name)
	if d, ok := expr.DirOf(word.Text); ok {
		if len(some) == 1 {
			return refuse("there is only one "+name+" to choose from, so “"+word.Text+"” picks none", snag.Say("leave the word out, or make copies"))
		}
		return w.furthest(l, some, setout.Dir(d), refuse)
	}
	number := 0
	switch word.Text {
	case "other":
		if len(some) != 2 {
			return refuse("“other” is said of two, and here are "+strconv.Itoa(len(some)), snag.Say("say which by a direction or a name given with call"))
		}
		for _, m := range some {
			if !m.copy.written {
				return []*member{m}
			}
		}
		return some[1:]
	case "first":
		number = 1
	case "last":
		for _, m := range some {
			number = max(number, m.number())
		}
	default:
		if !ordinal(word.Text) {
			return refuse("no copy of "+name+" is called “"+word.Text+"”", snag.Say("pick by a direction, a number such as 2nd, or a name given with call"))
		}
		number, _ = strconv.Atoi(trimOrdinal(word.Text))
	}
	var out []*member
	for _, m := range some {
		if m.number() == number && number > 0 {
			out = append(out, m)
		}
	}
	if len(out) == 0 {
		return refuse("there is no "+word.Text+" "+name, snag.Say("numbers count the boards of a row, or marks, from the first"))
	}
	return out
}

// number counts a member among its row or its marks, from 1; 0 when in neither.
func (m *member) number() int {
	if m.lot.d.numbered() {
		return m.one.index + 1
	}
	return m.copy.number
}

// furthest leaves the copies that stand furthest toward d.
func (w *world) furthest(l *lot, some []*member, d setout.Dir, refuse func(string, ...snag.Mend) []*member) []*member {
	f := l.frameOf()
	if !f.ok {
		return nil
	}
	along := f.Words[1].Axis() == d.Axis() && !l.d.numbered()
	homes := make([]geom.Vec, len(some))
	for i, m := range some {
		h, ok := m.homePoint(along)
		if !ok {
			return nil
		}
		homes[i] = h
	}
	far := setout.Furthest(homes, setout.Piece(), d)
	if len(far) == len(some) {
		return refuse("no "+spaced(l.d.name)+" stands further "+setoutToward(d)+" than another", snag.Say("give the copies names with call, and pick by those"))
	}
	out := make([]*member, len(far))
	for i, k := range far {
		out[i] = some[k]
	}
	return out
}

func setoutToward(d setout.Dir) string { return "toward the " + d.Side() }

// board reads a part or row: itself as a thing, or a side, size or cut of it.
func (e *env) board(r *expr.Ref, l *lot) expr.Value {
	here := l.present()
	if !here.known {
		return expr.Value{}
	}
	if !here.yes {
		return e.removed(r, l)
	}
	if len(r.Path) == 1 {
		t := &thing{lot: l, whole: len(r.Select) == 0}
		if !t.whole {
			if t.of = e.w.pick(l, e.node, r.Select); t.of == nil {
				return expr.Value{}
			}
		}
		return expr.Value{Kind: expr.Thing, Place: &place{thing: t, says: spaced(l.d.name)}}
	}
	if v, ok := e.section(r, l); ok && len(r.Select) == 0 {
		return v
	}
	of := e.chosen(r, l)
	if of == nil {
		return expr.Value{}
	}
	if v, ok := e.section(r, l); ok {
		return v
	}
	return e.reading(r, l, of)
}

// chosen returns the copies a measure means: the written one of a bare name, or
// those its adjectives pick.
func (e *env) chosen(r *expr.Ref, l *lot) []*member {
	if len(r.Select) > 0 {
		return e.w.pick(l, e.node, r.Select)
	}
	for _, m := range l.all() {
		if m.copy.written {
			return []*member{m}
		}
	}
	if all := l.all(); len(all) > 0 {
		return all[:1] // every copy was flipped away from where it is written
	}
	return nil
}

// removed tells that a measure reads what a when took away.
func (e *env) removed(r *expr.Ref, l *lot) expr.Value {
	e.w.gone(e.node.Sub(r.Path[0].Start, r.Path[0].End), l.d.name, l.d.when)
	return expr.Value{}
}
