package order

import (
	"fmt"
	"slices"
	"strings"

	"scantling/internal/board"
	"scantling/internal/design"
	"scantling/internal/joint"
	"scantling/internal/phrase"
	"scantling/internal/reach"
)

// Propose returns steps for a piece that has none, each with its reason.
//
// The piece is taken apart, all boards of one name at a time: those go first that
// come away and can be unscrewed among what still stands, that nothing is screwed
// onto, and whose going leaves the rest together; rows of boards before others. Two
// names that hold one another in go at once. Turned round, that is the order of
// building. Boards that would stand alone wait for what they are fastened to; what
// then stands in several frames is put together as such, before they are joined.
func (w *Work) Propose() []design.Step {
	w.proposed = true
	p := proposer{Work: w, why: map[string]string{}}
	for i, b := range w.Piece.Boards {
		if b.Solid == nil {
			continue
		}
		if !slices.Contains(p.names, b.Name) {
			p.names = append(p.names, b.Name)
		}
		p.there = append(p.there, i)
	}
	for i := range w.Joints {
		for k := range w.Joints[i].Pairs {
			p.pairs = append(p.pairs, Paired{&w.Joints[i], &w.Joints[i].Pairs[k]})
		}
	}
	var order [][]string // as it is taken apart
	for len(p.there) > 0 {
		names := p.next()
		order = append(order, names)
		p.there = slices.DeleteFunc(p.there, func(i int) bool { return slices.Contains(names, w.Piece.Boards[i].Name) })
	}
	slices.Reverse(order)
	steps := p.steps(order, true)
	if stages, left, sound := Follow(w.Piece, w.Joints, steps); sound && left == 0 {
		if !slices.ContainsFunc(w.Look(steps, stages), func(l Look) bool { return !l.OK() }) {
			return steps
		}
	}
	return p.steps(order, false)
}

type proposer struct {
	*Work
	names []string // of all boards, in file order
	there []int
	pairs []Paired
	why   map[string]string // by name: what it must come before, as a reason
}

// comesOff outweighs all else that is said for a name.
const comesOff = 16

// next returns the name to take away next, or two that go together.
func (p *proposer) next() []string {
	var best []string
	most := -1
	names := p.left()
	now := len(p.assemblies(p.without()))
	for _, name := range names {
		score := 0
		if on := p.onto(name); on == "" {
			score += 4
		} else if p.why[name] == "" {
			p.why[name] = "before the " + phrase.Spaced(on) + ", which is screwed to it"
		}
		ok, by := p.comes(name)
		if ok {
			score += comesOff
		} else if by != "" {
			p.why[name] = "before the " + phrase.Spaced(by) + ", which would be in the way"
		}
		if len(p.assemblies(p.without(name))) <= now {
			score += 3
		}
		if b := p.first(name); b.Row > 0 || b.Field > 0 || b.Loose {
			score += 2
		}
		if score >= most { // of equals, what the file says last
			best, most = []string{name}, score
		}
	}
	if most >= comesOff {
		return best
	}
	for _, one := range names {
		for _, other := range names {
			if one < other {
				if ok, _ := p.comes(one, other); ok {
					return []string{one, other}
				}
			}
		}
	}
	return best
}

// without returns what is there but for boards of some names.
func (p *proposer) without(names ...string) map[int]bool {
	here := map[int]bool{}
	for _, i := range p.there {
		if !slices.Contains(names, p.Piece.Boards[i].Name) {
			here[i] = true
		}
	}
	return here
}

// left returns the names of what is there, in file order.
func (p *proposer) left() []string {
	var out []string
	for _, name := range p.names {
		if slices.ContainsFunc(p.there, func(i int) bool { return p.Piece.Boards[i].Name == name }) {
			out = append(out, name)
		}
	}
	return out
}

func (p *proposer) first(name string) *design.Board {
	return p.Piece.Boards[slices.IndexFunc(p.Piece.Boards, func(b *design.Board) bool { return b.Name == name })]
}

// onto returns the name of boards there that are screwed or nailed onto those of a
// name, "" if there are none. A bolt goes on from either side.
func (p *proposer) onto(name string) string {
	for _, x := range p.pairs {
		if bolted(x.Pair) {
			continue
		}
		if x.Pair.Into().Name == name && x.Pair.Through.Name != name && slices.Contains(p.there, p.at[x.Pair.Through]) && slices.Contains(p.there, p.at[x.Pair.Into()]) {
			return x.Pair.Through.Name
		}
	}
	return ""
}

func bolted(p *joint.Pair) bool {
	return slices.ContainsFunc(p.Uses, func(u joint.Use) bool { return u.Fastener.Bolted() })
}

// comes reports whether all boards of some names can be unscrewed and taken away from
// what is there, or what is in the way.
func (p *proposer) comes(names ...string) (ok bool, by string) {
	var st Stage
	is := map[int]bool{}
	for _, i := range p.there {
		if slices.Contains(names, p.Piece.Boards[i].Name) {
			st.Items, st.Names = append(st.Items, []int{i}), append(st.Names, "")
			is[i] = true
		} else {
			st.There = append(st.There, i)
		}
	}
	if len(st.There) == 0 {
		return true, ""
	}
	for _, x := range p.pairs {
		a, b := p.at[x.Pair.A], p.at[x.Pair.B]
		if (is[a] || is[b]) && slices.Contains(p.there, a) && slices.Contains(p.there, b) {
			st.Pairs = append(st.Pairs, x)
		}
	}
	l := p.look(&design.Step{}, st)
	blocker := func(places []int) {
		for _, k := range places {
			if b := p.Piece.Boards[k]; by == "" && !slices.Contains(names, b.Name) {
				by = b.Name
			}
		}
	}
	for _, way := range l.Ways {
		if way.Clear == reach.No {
			blocker(way.By)
		}
	}
	for _, room := range l.Rooms {
		blocker(room.By)
	}
	return l.OK(), by
}

// steps makes steps of names in the order of building; apart makes sub-assemblies of
// what comes out in several.
func (p *proposer) steps(order [][]string, apart bool) []design.Step {
	var out []design.Step
	here := map[int]bool{}
	var made []string // sub-assemblies that wait
	var names []string
	var add []int
	for n, some := range order {
		names = append(names, some...)
		for i, b := range p.Piece.Boards {
			if slices.Contains(some, b.Name) && b.Solid != nil {
				add = append(add, i)
				here[i] = true
			}
		}
		if n < len(order)-1 && p.alone(add, here) {
			continue // until what it is fastened to
		}
		parts := p.assemblies(here)
		if apart && len(out) == 0 && len(parts) > 1 && p.alike(parts) && n < len(order)-1 {
			for k, part := range parts {
				s := design.Step{Name: title(names), Each: each(k), Makes: "assembly", Entry: len(out), Add: p.ids(part),
					Say: said("One of " + spelled(len(parts)) + " that are put together on their own first: lying flat, each is easily squared and reached from all sides.")}
				out = append(out, s)
				made = append(made, each(k)+" assembly")
			}
		} else {
			s := design.Step{Name: title(names), AddMade: made, Entry: len(out), Add: p.ids(add), Say: said(p.reason(names, len(out) == 0, n == len(order)-1))}
			out, made = append(out, s), nil
		}
		names, add = nil, nil
	}
	var goods []string
	for _, h := range p.Piece.Hardware {
		goods = append(goods, h.Name)
	}
	for _, g := range p.Piece.Goods {
		goods = append(goods, g.Name)
	}
	if len(goods) > 0 {
		out = append(out, design.Step{Name: "What is bought", Goods: goods, Entry: len(out), Say: said("Last, when nothing has to be turned over any more.")})
	}
	for i := range out {
		out[i].At = p.Piece.NameAt
	}
	return out
}

// alone reports whether one of the boards added is fastened to nothing that is here.
func (p *proposer) alone(add []int, here map[int]bool) bool {
	held := map[int]bool{}
	for _, x := range p.pairs {
		a, b := p.at[x.Pair.A], p.at[x.Pair.B]
		if here[a] && here[b] {
			held[a], held[b] = true, true
		}
	}
	return slices.ContainsFunc(add, func(i int) bool { return !held[i] && !p.Piece.Boards[i].Loose })
}

// assemblies returns the boards here, those that fasteners hold together at a time,
// in board order.
func (p *proposer) assemblies(here map[int]bool) [][]int {
	of := map[int]int{}
	for i := range here {
		of[i] = i
	}
	find := func(i int) int {
		for of[i] != i {
			i = of[i]
		}
		return i
	}
	for _, x := range p.pairs {
		if a, b := p.at[x.Pair.A], p.at[x.Pair.B]; here[a] && here[b] {
			of[max(find(a), find(b))] = min(find(a), find(b))
		}
	}
	var out [][]int
	place := map[int]int{}
	for i := range p.Piece.Boards {
		if !here[i] {
			continue
		}
		head := find(i)
		if _, ok := place[head]; !ok {
			place[head] = len(out)
			out = append(out, nil)
		}
		out[place[head]] = append(out[place[head]], i)
	}
	return out
}

// alike reports whether all assemblies are of boards of the same names.
func (p *proposer) alike(parts [][]int) bool {
	names := func(part []int) string {
		var out []string
		for _, i := range part {
			out = append(out, p.Piece.Boards[i].Name)
		}
		slices.Sort(out)
		return strings.Join(out, " ")
	}
	return !slices.ContainsFunc(parts, func(part []int) bool { return names(part) != names(parts[0]) })
}

// reason says in one line why a step comes when it does.
func (p *proposer) reason(names []string, first, last bool) string {
	switch {
	case first && last:
		return "All at once: nothing is in the way of anything."
	case first:
		return "First: the rest is fastened to it."
	case last:
		return "Last: nothing is fastened to it, and it closes the piece."
	}
	for _, name := range names {
		if why := p.why[name]; why != "" {
			return "Now, " + why + "."
		}
	}
	return "Now: what it is fastened to stands, and a tool still gets at it."
}

func (p *proposer) ids(places []int) []board.ID {
	var out []board.ID
	for _, k := range places {
		out = append(out, p.Piece.Boards[k].ID)
	}
	return out
}

func said(words string) design.Text { return design.Text{{Words: words}} }

// title is names as the heading of a step: "Leg and upper rail".
func title(names []string) string {
	var words []string
	for _, n := range names {
		words = append(words, phrase.Spaced(n))
	}
	return phrase.Begin(phrase.List(words))
}

var ordinals = [...]string{"first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth"}

func each(k int) string {
	if k < len(ordinals) {
		return ordinals[k]
	}
	return fmt.Sprintf("%dth", k+1)
}

func spelled(n int) string {
	words := [...]string{"no", "one", "two", "three", "four", "five", "six", "seven", "eight"}
	if n < len(words) {
		return words[n]
	}
	return fmt.Sprint(n)
}
