package design

import (
	"slices"
	"strconv"

	"scantling/internal/expr"
	"scantling/internal/geom"
	"scantling/internal/phrase"
	"scantling/internal/setout"
	"scantling/internal/snag"
	"scantling/internal/source"
)

// pick returns the copies the adjectives before a name leave, or nil after
// telling what is wrong. A bare name is all of them. Directions are those of the
// room the lot is said in.
func (w *world) pick(l *lot, n *source.Node, words []expr.Word) []*member {
	return w.pickAmong(l, n, words, l.all(), l.heading())
}

// pickAmong picks among some of a lot's boards, with directions as in a room.
func (w *world) pickAmong(l *lot, n *source.Node, words []expr.Word, some []*member, in setout.Room) []*member {
	for i := len(words) - 1; i >= 0 && len(some) > 0; i-- {
		some = w.narrow(l, n, words[i], some, in)
	}
	return some
}

// narrow leaves the copies one adjective picks. Those nearest the name pick
// first: "front right leg" is the front one of the right ones.
func (w *world) narrow(l *lot, n *source.Node, word expr.Word, some []*member, in setout.Room) []*member {
	things := make([]copied, len(some))
	for i, m := range some {
		things[i] = copied{m.copy, m.number()}
	}
	var out []*member
	for _, i := range w.narrowed(phrase.Spaced(l.d.name), n, word, things, func(d setout.Dir) []int { return l.furthest(some, d, in) }) {
		out = append(out, some[i])
	}
	return out
}

// A copied is what adjectives pick among: a board, or a copy of a group, with its
// number among a row or marks, from 1.
type copied struct {
	*copying
	number int
}

// narrowed returns which of several things of one name an adjective picks.
func (w *world) narrowed(name string, n *source.Node, word expr.Word, some []copied, furthest func(setout.Dir) []int) []int {
	at := n.Sub(word.Start, word.End)
	refuse := func(what string, mend string) []int {
		w.error("no-such-copy", at, what, "", snag.Say(mend))
		return nil
	}
	that := func(is func(copied) bool) (out []int) {
		for i, c := range some {
			if is(c) {
				out = append(out, i)
			}
		}
		return out
	}
	if called := that(func(c copied) bool { return slices.Contains(c.calls, word.Text) }); len(called) > 0 {
		return called
	}
	if d, ok := expr.DirOf(word.Text); ok {
		if len(some) == 1 {
			return refuse("there is only one "+name+" to choose from, so “"+word.Text+"” picks none", "leave the word out, or make copies")
		}
		far := furthest(setout.Dir(d))
		if len(far) == len(some) {
			return refuse("no "+name+" stands further "+setoutToward(setout.Dir(d))+" than another", "give the copies names with call, and pick by those")
		}
		return far
	}
	number := 0
	switch word.Text {
	case "other":
		if len(some) != 2 {
			return refuse("“other” is said of two, and here are "+strconv.Itoa(len(some)), "say which by a direction or a name given with call")
		}
		if some[0].written {
			return []int{1}
		}
		return []int{0}
	case "first":
		number = 1
	case "last":
		for _, c := range some {
			number = max(number, c.number)
		}
	default:
		if !ordinal(word.Text) {
			return refuse("no copy of "+name+" is called “"+word.Text+"”", "pick by a direction, a number such as 2nd, or a name given with call")
		}
		number, _ = strconv.Atoi(trimOrdinal(word.Text))
	}
	out := that(func(c copied) bool { return c.number == number && number > 0 })
	if len(out) == 0 {
		return refuse("there is no "+word.Text+" "+name, "numbers count the boards of a row, or marks, from the first")
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

// furthest returns which of the copies stand furthest toward d.
func (l *lot) furthest(some []*member, d setout.Dir, in setout.Room) []int {
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
	return setout.Furthest(homes, in, d)
}

func setoutToward(d setout.Dir) string { return "toward the " + d.Side() }

// board reads a part or row: itself as a thing, or a side, size or cut of it.
func (e *env) board(r *expr.Ref, l *lot) expr.Value { return e.boardAmong(r, l, nil) }

// boardAmong reads a part or row of a group, of some of its boards; nil stands for
// all of those said where the reader is.
func (e *env) boardAmong(r *expr.Ref, l *lot, among []*member) expr.Value {
	here := l.present()
	if !here.known {
		return expr.Value{}
	}
	if !here.yes {
		return e.removed(r, l)
	}
	if len(r.Path) == 1 {
		t := &thing{lot: l, whole: len(r.Select) == 0 && among == nil, of: among}
		if len(r.Select) > 0 {
			if t.of = e.picked(r, l, among); t.of == nil {
				return expr.Value{}
			}
		}
		return expr.Value{Kind: expr.Thing, Place: &place{thing: t, says: phrase.Spaced(l.d.name)}}
	}
	if v, ok := e.section(r, l); ok && len(r.Select) == 0 {
		return v
	}
	of := e.among(r, l, among)
	if of == nil {
		return expr.Value{}
	}
	if v, ok := e.section(r, l); ok {
		return v
	}
	return e.reading(r, l, of)
}

// picked returns the boards the adjectives of a name leave.
func (e *env) picked(r *expr.Ref, l *lot, among []*member) []*member {
	if among == nil {
		return e.w.pick(l, e.node, r.Select)
	}
	var out []*member
	for first := 0; first < len(among); { // in each copy of the group by itself
		past := first
		for past < len(among) && among[past].at == among[first].at {
			past++
		}
		out = append(out, e.w.pickAmong(l, e.node, r.Select, among[first:past], l.heading())...)
		first = past
	}
	return out
}

// among returns the copies a measure means: the written one of a bare name, in each
// copy of the group, or those its adjectives pick.
func (e *env) among(r *expr.Ref, l *lot, among []*member) []*member {
	if len(r.Select) > 0 {
		return e.picked(r, l, among)
	}
	if among == nil {
		among = l.all()
	}
	var out []*member
	for i, m := range among { // one of each copy of the group
		if len(out) > 0 && out[len(out)-1].at == m.at {
			continue
		}
		if m.own.written {
			out = append(out, m)
		} else if i+1 == len(among) || among[i+1].at != m.at { // every copy was flipped away from where it is written
			for first := i; first >= 0 && among[first].at == m.at; first-- {
				if first == 0 || among[first-1].at != m.at {
					out = append(out, among[first])
				}
			}
		}
	}
	return out
}

// removed tells that a measure reads what a when took away.
func (e *env) removed(r *expr.Ref, l *lot) expr.Value {
	e.w.gone(e.node.Sub(r.Path[0].Start, r.Path[0].End), l.d.name, l.when())
	return expr.Value{}
}

// when is what the lot stands under: its own condition, or its group's.
func (l *lot) when() *said {
	if l.g != nil && !l.g.present().yes {
		return l.g.d.when[0]
	}
	return l.d.when
}
