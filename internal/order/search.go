package order

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"scantling/internal/design"
	"scantling/internal/reach"
)

// A change is one change of the steps: of the file's, or of a group's own.
type change struct {
	kind  changeKind
	group string // "": the file's
	entry int    // of those steps
	to    int    // another
	name  string // of what is added, or of a joint
	cost  int    // how much it alters
}

type changeKind int8

const (
	moveStep changeKind = iota // do entry where entry to is now
	moveName                   // add name in entry to, not in entry
	letGo                      // do not hold the joint back in entry
)

// mostTried is how many changes are tried at most, for all that is wrong with the
// steps of a piece together.
const mostTried = 160

// A fault is one thing that cannot be done: a board that does not come in, a
// fastener that is not driven.
type fault struct {
	what  string
	board int
}

// faults lists what cannot be done in a step.
func (l *Look) faults() []fault {
	var out []fault
	for k, way := range l.Ways {
		if way.Clear == reach.No {
			out = append(out, fault{"board", l.Items[k][0]})
		}
	}
	for d, room := range l.Rooms {
		if room.Clear != reach.Yes {
			out = append(out, fault{l.Drives[d].Joint.Name + " " + string(l.Drives[d].Pair.Into().ID), l.Drives[d].Drive.Boards[0]})
		}
	}
	return out
}

// A search tries changes of the steps; what a stage comes to is kept, since most
// stages stay what they are.
type search struct {
	*Work
	known map[string][]fault
	left  int // pairs that nothing fastens, as the steps are
	loose int // boards that touch nothing that is there, as the steps are
	tried int
}

// all returns what cannot be done in steps, and whether they make sense.
func (s *search) all(steps []design.Step) (faults map[fault]bool, sound bool) {
	stages, left, sound := Follow(s.Piece, s.Joints, steps)
	if !sound || left > s.left || s.adrift(stages) > s.loose {
		return nil, false
	}
	faults = map[fault]bool{}
	for i := range stages {
		key := fmt.Sprint(sorted(stages[i].There), stages[i].Items, s.up(steps[i].Lies, &stages[i]))
		for _, p := range stages[i].Pairs {
			key += fmt.Sprint(" ", p.Joint.Name, s.at[p.Pair.A], s.at[p.Pair.B])
		}
		found, ok := s.known[key]
		if !ok {
			l := s.look(&steps[i], stages[i])
			found = l.faults()
			s.known[key] = found
		}
		for _, f := range found {
			faults[f] = true
		}
	}
	return faults, true
}

// adrift counts the boards that, when their step is done, are in touch with none of
// the others of the work, over all steps.
func (w *Work) adrift(stages []Stage) (n int) {
	for i := range stages {
		st := &stages[i]
		here := map[int]bool{}
		for _, item := range append(slices.Clone(st.Items), st.There) {
			for _, k := range item {
				here[k] = true
			}
		}
		for k := range here {
			if !slices.ContainsFunc(w.touches[k], func(o int) bool { return here[o] }) {
				n++
			}
		}
	}
	return n
}

func sorted(list []int) []int {
	list = slices.Clone(list)
	slices.Sort(list)
	return list
}

// mend returns the smallest change after which a fault is gone and no other has
// come; ok is false if none of those tried does it. All faults gone is better than
// one gone.
func (s *search) mend(steps []design.Step, now map[fault]bool, bad fault, about map[int]bool, first int) (best change, ok bool) {
	least := len(now)
	for _, c := range s.changes(steps, about, first) {
		if s.tried == mostTried || least == 0 {
			break
		}
		s.tried++
		after, done := s.changed(steps, c)
		if !done {
			continue
		}
		faults, sound := s.all(after)
		if !sound || faults[bad] || len(faults) >= least {
			continue
		}
		fresh := false
		for f := range faults {
			fresh = fresh || !now[f]
		}
		if !fresh {
			best, ok, least = c, true, len(faults)
		}
	}
	return best, ok
}

// changes lists the changes worth trying, the smallest first: of joints held back,
// of entries that add boards it is about, and of the names of those boards. Of equal
// changes that of board first, which is in the way, comes first.
func (s *search) changes(steps []design.Step, about map[int]bool, first int) []change {
	names := map[string]bool{}
	for k := range about {
		names[s.Piece.Boards[k].Name] = true
	}
	groups := []string{""}
	for i := range steps {
		if g := steps[i].Group; !slices.Contains(groups, g) {
			groups = append(groups, g)
		}
	}
	var out []change
	for _, g := range groups {
		out = append(out, s.within(g, steps, names, s.Piece.Boards[first].Name)...)
	}
	slices.SortStableFunc(out, func(x, y change) int { return cmp.Compare(x.cost, y.cost) })
	return out
}

// entryOf returns which of the steps of a group, or of the file, a step is.
func entryOf(d *design.Step, group string) (entry int, ok bool) {
	if group == "" {
		return d.Entry, true
	}
	return d.Item, d.Group == group
}

// within lists the changes of the steps of one group, or of the file.
func (s *search) within(group string, steps []design.Step, names map[string]bool, first string) []change {
	var entries []int
	adds := map[int][]string{} // by entry
	holds := map[int][]string{}
	moved := map[int]bool{}
	for i := range steps {
		d := &steps[i]
		e, ok := entryOf(d, group)
		if !ok {
			continue
		}
		if !slices.Contains(entries, e) {
			entries = append(entries, e)
		}
		for _, id := range d.Add {
			b := s.Piece.Board(id)
			if b == nil { // refused: it is not there to be put in place
				continue
			}
			moved[e] = moved[e] || names[b.Name]
			if d.Group == group && !slices.Contains(adds[e], b.Name) {
				adds[e] = append(adds[e], b.Name)
			}
		}
		for _, j := range d.Hold {
			if d.Group == group && !slices.Contains(holds[e], j) {
				holds[e] = append(holds[e], j)
			}
		}
	}
	slices.Sort(entries)
	var out []change
	for a, from := range entries {
		for _, j := range holds[from] {
			out = append(out, change{letGo, group, from, from, j, 2})
		}
		for b, to := range entries {
			if a == b {
				continue
			}
			far := max(a-b, b-a)
			if moved[from] {
				out = append(out, change{moveStep, group, from, to, "", 4 * far})
			}
			if len(adds[from]) < 2 {
				continue
			}
			for _, name := range adds[from] {
				cost := 4*far + 2
				if name == first {
					cost--
				}
				if names[name] {
					out = append(out, change{moveName, group, from, to, name, cost})
				}
			}
		}
	}
	return out
}

// changed returns the steps with a change made; ok is false if it cannot be made.
// A change of a group's steps is made in each of its copies.
func (s *search) changed(steps []design.Step, c change) (out []design.Step, ok bool) {
	if c.group == "" {
		return s.alter(steps, c)
	}
	for i := 0; i < len(steps); {
		n := i + 1
		for n < len(steps) && steps[n].Group == steps[i].Group && steps[n].Entry == steps[i].Entry && steps[n].Each == steps[i].Each {
			n++
		}
		block := steps[i:n]
		if steps[i].Group == c.group {
			var done bool
			if block, done = s.alter(block, c); !done {
				return nil, false
			}
			for k := range block {
				block[k].GoesOn = k > 0 && block[k].Makes != ""
			}
			ok = true
		}
		out = append(out, block...)
		i = n
	}
	return out, ok
}

// alter makes a change in steps of the file, or of one copy of a group.
func (s *search) alter(steps []design.Step, c change) (out []design.Step, ok bool) {
	if c.kind == moveStep {
		var before, moved, after []design.Step
		for _, d := range steps {
			switch e, _ := entryOf(&d, c.group); {
			case e == c.entry:
				moved = append(moved, d)
			case e < c.to || e == c.to && c.to > c.entry:
				before = append(before, d)
			default:
				after = append(after, d)
			}
		}
		return slices.Concat(before, moved, after), len(moved) > 0
	}
	out = slices.Clone(steps)
	var gone []boardID
	for i := range out {
		d := &out[i]
		if e, _ := entryOf(d, c.group); e != c.entry || d.Group != c.group {
			continue
		}
		if c.kind == letGo {
			d.Hold = slices.DeleteFunc(slices.Clone(d.Hold), func(j string) bool { return j == c.name })
			ok = true
			continue
		}
		d.Add = slices.DeleteFunc(slices.Clone(d.Add), func(id boardID) bool {
			b := s.Piece.Board(id)
			is := b != nil && b.Name == c.name
			if is {
				gone = append(gone, id)
			}
			return is
		})
	}
	if c.kind == letGo {
		return out, ok
	}
	want := len(gone)
	for i := range out {
		d := &out[i]
		if e, _ := entryOf(d, c.group); e != c.to || d.Group != c.group {
			continue
		}
		if d.Makes == "" && len(d.Add)+len(d.AddMade) == 0 {
			return nil, false
		}
		d.Add = slices.Clone(d.Add)
		gone = slices.DeleteFunc(gone, func(id boardID) bool {
			b := s.Piece.Board(id)
			here := d.Each == "" || c.group != "" || b != nil && slices.Contains(strings.Fields(b.Spoken), d.Each)
			if here {
				d.Add = append(d.Add, id)
			}
			return here
		})
	}
	return out, want > 0 && len(gone) == 0
}
