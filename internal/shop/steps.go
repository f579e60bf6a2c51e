package shop

import (
	"slices"
	"strings"

	"scantling/internal/board"
	"scantling/internal/design"
	"scantling/internal/phrase"
)

// heavy is the weight, in kg, over which two people lift: about 50 lb.
// Source: common practice.
const heavy = 22.7

// A bench is what lies on the floor of the workshop as the steps go by: which
// boards are together in one assembly.
type bench struct {
	in      map[board.ID]int // the assembly a board is in; 0: not yet built in
	members map[int][]board.ID
	made    map[string]int // sub-assemblies by name
	lies    map[int]string // by assembly: how it lies
	last    map[int]int    // by assembly: the place among Readings.Steps of the step that worked on it last
	next    int
}

// whole is the assembly of every step that makes no sub-assembly.
const whole = 1

// A doing is one step of the design as it is done: once, or once for a side or
// for a copy of a group.
type doing struct {
	*design.Step
	at      int        // among Piece.Steps
	here    int        // the assembly worked on
	there   []board.ID // in it before
	turned  bool       // what is there is turned over first
	loads   []load     // what is brought
	added   []board.ID // boards not built in before
	new     []board.ID // those, and the boards of sub-assemblies brought in
	present []board.ID // in it afterwards
	now     []waiting  // pairs it fastens
}

// steps says every action of building: what is added and how it is placed, what
// is fastened, who lifts, and what to check. A step done alike for each side, or
// for each copy of a group, stands once.
func (s *shop) steps() {
	b := &bench{map[board.ID]int{}, map[int][]board.ID{}, map[string]int{}, map[int]string{}, map[int]int{}, whole}
	left := s.pairs()
	var all [][]*doing // by step
	for i := range s.piece.Steps {
		var d *doing
		var after int
		d, after = s.do(b, i)
		d.now, left = s.fastenNow(d, b, left)
		n := s.like(all, d, after)
		if n < 0 {
			n = len(all)
			all = append(all, nil)
		}
		all[n] = append(all[n], d)
		b.last[d.here] = n
	}
	for n, ds := range all {
		s.out.Steps = append(s.out.Steps, s.step(n+1, ds))
	}
	s.squares(all)
	s.around(all)
	s.stops()
	s.level()
	s.unfastened(left, b)
}

// do brings to the bench what step i of the design adds. after is the last of the
// steps, among Readings.Steps, that it cannot come before; -1 if there is none.
func (s *shop) do(b *bench, i int) (d *doing, after int) {
	d = &doing{Step: &s.piece.Steps[i], at: i, here: whole}
	after = -1
	follows := func(assembly int) {
		if n, ok := b.last[assembly]; ok {
			after = max(after, n)
		}
	}
	switch name := strings.TrimSpace(d.Each + " " + d.Makes); {
	case d.GoesOn:
		d.here = b.made[d.Makes]
	case d.Makes != "":
		b.next++
		d.here = b.next
		b.made[d.Makes], b.made[name] = d.here, d.here
	}
	follows(d.here)
	d.there = slices.Clone(b.members[d.here])
	if d.Lies != "" {
		d.turned = len(d.there) > 0 && b.lies[d.here] != "" && b.lies[d.here] != d.Lies
		b.lies[d.here] = d.Lies
	}
	for _, name := range d.AddMade {
		if sub, ok := b.made[name]; ok && sub != d.here && len(b.members[sub]) > 0 {
			follows(sub)
			d.loads = append(d.loads, load{name, s.ground(b.members[sub]).order})
			d.new = append(d.new, b.members[sub]...)
			b.join(d.here, sub)
		}
	}
	for _, id := range d.Add {
		if k, ok := s.at[id]; ok && b.in[id] == 0 && s.piece.Boards[k].Solid != nil {
			d.added = append(d.added, id)
			d.loads = append(d.loads, load{"", []int{k}})
			b.in[id] = d.here
			b.members[d.here] = append(b.members[d.here], id)
		}
	}
	d.new = append(d.new, d.added...)
	d.present = slices.Clone(b.members[d.here])
	return d, after
}

// join moves all boards of one assembly into another.
func (b *bench) join(into, from int) {
	for _, id := range b.members[from] {
		b.in[id] = into
	}
	b.members[into] = append(b.members[into], b.members[from]...)
	delete(b.members, from)
}

// like returns the step that d does once more, -1 if it is a step of its own: the
// two are written as one, nothing d needs is built later, and what d adds is what
// the other adds, turned or mirrored.
func (s *shop) like(all [][]*doing, d *doing, after int) int {
	for n := len(all) - 1; n >= 0 && n >= after; n-- {
		first := all[n][0]
		if d.Each != "" && first.At == d.At && first.Name == d.Name && first.Each != d.Each && len(d.new) > 0 && s.same(first, d) != unlike {
			return n
		}
	}
	return -1
}

// step says one step, done once for each of ds.
func (s *shop) step(number int, ds []*doing) Step {
	d := ds[0]
	r := Step{Number: number, Name: d.Name, Lies: d.Lies, Say: s.text(d.Say), Times: len(ds), New: d.new, Present: d.present}
	if len(ds) == 1 && d.Each != "" {
		r.Name += ", " + d.Each
	}
	var added []board.ID
	var now []waiting
	for i, x := range ds {
		marks := s.place(x.there, x.loads)
		r.Of = append(r.Of, x.at)
		added = append(added, x.added...)
		for _, w := range x.now {
			w.again = x.here != d.here
			now = append(now, w)
			if !w.again {
				r.Axes = append(r.Axes, axes(w.pair)...)
			}
		}
		if i == 0 {
			r.Each, r.Marks = x.Each, marks
			continue
		}
		r.Again = append(r.Again, Again{Each: x.Each, Mirrored: s.same(d, x) == mirrored, New: x.new, Marks: marks})
		if x.here == d.here {
			r.New = append(slices.Clone(r.New), x.new...)
			r.Present = x.present
		}
	}
	if len(ds) > 1 {
		r.Hands = hands(&r)
	}
	r.Add = s.stepParts(added)
	r.Fasten = s.fastened(now)
	r.Checks = s.checks(added)
	return r
}

// hands says how the doings of a step that is done more than once differ.
func hands(r *Step) Text {
	alike, other := []string{r.Each}, []string(nil)
	for _, a := range r.Again {
		if a.Mirrored {
			other = append(other, a.Each)
		} else {
			alike = append(alike, a.Each)
		}
	}
	switch {
	case other == nil:
		return Words("make " + number(r.Times) + ", all alike: " + phrase.List(alike) + "; the words are for the " + r.Each + " one")
	case r.Times == 2:
		return Words("make two, the second a mirror image of the first; the words are for the " + r.Each + " one")
	}
	return Words("make " + number(r.Times) + ": " + number(len(alike)) + " of one hand (" + phrase.List(alike) + "), " + number(len(other)) +
		" of the other (" + phrase.List(other) + "), mirror images; the words are for the " + r.Each + " one")
}

// stepParts counts the boards a step adds, part by part, in the order of their
// letters.
func (s *shop) stepParts(added []board.ID) []StepPart {
	var out []StepPart
	is := map[board.ID]bool{}
	for _, id := range added {
		is[id] = true
	}
	for _, p := range s.out.Parts {
		var spoken []string
		for _, id := range p.Boards {
			if is[id] {
				spoken = append(spoken, s.piece.Boards[s.at[id]].Spoken)
			}
		}
		if spoken != nil {
			out = append(out, StepPart{p.Letter, p.Name, len(spoken), spoken, p.Hand})
		}
	}
	return out
}
