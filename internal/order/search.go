package order

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"scantling/internal/design"
	"scantling/internal/reach"
)

// A change is one change of the steps.
type change struct {
	kind  changeKind
	entry int    // of the file's steps
	to    int    // another entry
	name  string // of what is added, or of a joint
	cost  int    // how much it alters
}

type changeKind int8

const (
	moveStep changeKind = iota // do entry where entry to is now
	moveName                   // add name in entry to, not in entry
	letGo                      // do not hold the joint back in entry
)

// mostTried is how many changes are tried at most.
const mostTried = 240

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
	for i, c := range s.changes(steps, about, first) {
		if i == mostTried || least == 0 {
			break
		}
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
	var entries []int
	adds := map[int][]string{} // by entry
	holds := map[int][]string{}
	moved := map[int]bool{}
	for i := range steps {
		d := &steps[i]
		if !slices.Contains(entries, d.Entry) {
			entries = append(entries, d.Entry)
		}
		for _, id := range d.Add {
			if b := s.Piece.Board(id); b != nil {
				if names[b.Name] {
					moved[d.Entry] = true
				}
				if !slices.Contains(adds[d.Entry], b.Name) {
					adds[d.Entry] = append(adds[d.Entry], b.Name)
				}
			}
		}
		for _, j := range d.Hold {
			if !slices.Contains(holds[d.Entry], j) {
				holds[d.Entry] = append(holds[d.Entry], j)
			}
		}
	}
	slices.Sort(entries)
	var out []change
	for a, from := range entries {
		for _, j := range holds[from] {
			out = append(out, change{letGo, from, from, j, 2})
		}
		for b, to := range entries {
			if a == b {
				continue
			}
			far := max(a-b, b-a)
			if moved[from] {
				out = append(out, change{moveStep, from, to, "", 4 * far})
			}
			if len(adds[from]) < 2 {
				continue
			}
			for _, name := range adds[from] {
				cost := 4*far + 2
				if name == s.Piece.Boards[first].Name {
					cost--
				}
				if names[name] {
					out = append(out, change{moveName, from, to, name, cost})
				}
			}
		}
	}
	slices.SortStableFunc(out, func(x, y change) int { return cmp.Compare(x.cost, y.cost) })
	return out
}

// changed returns the steps with a change made; ok is false if it cannot be made.
func (s *search) changed(steps []design.Step, c change) (out []design.Step, ok bool) {
	switch c.kind {
	case moveStep:
		var before, moved, after []design.Step
		for _, d := range steps {
			switch {
			case d.Entry == c.entry:
				moved = append(moved, d)
			case d.Entry < c.to || d.Entry == c.to && c.to > c.entry:
				before = append(before, d)
			default:
				after = append(after, d)
			}
		}
		return slices.Concat(before, moved, after), true
	case moveName:
		out = slices.Clone(steps)
		n, want := 0, 0
		for i := range out {
			d := &out[i]
			switch d.Entry {
			case c.entry:
				had := len(d.Add)
				d.Add = slices.DeleteFunc(slices.Clone(d.Add), func(id boardID) bool { return s.Piece.Board(id).Name == c.name })
				want += had - len(d.Add)
			case c.to:
				if d.GoesOn || d.Makes == "" && len(d.Add)+len(d.AddMade) == 0 {
					return nil, false
				}
				d.Add = slices.Clone(d.Add)
				for _, b := range s.Piece.Boards {
					if b.Name == c.name && (d.Each == "" || slices.Contains(strings.Fields(b.Spoken), d.Each)) {
						d.Add = append(d.Add, b.ID)
						n++
					}
				}
			}
		}
		return out, n == want && n > 0
	}
	out = slices.Clone(steps)
	for i := range out {
		if d := &out[i]; d.Entry == c.entry {
			d.Hold = slices.DeleteFunc(slices.Clone(d.Hold), func(j string) bool { return j == c.name })
		}
	}
	return out, true
}
