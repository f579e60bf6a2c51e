package order

import (
	"slices"
	"strings"

	"scantling/internal/board"
	"scantling/internal/design"
	"scantling/internal/joint"
)

// A Stage is what one step does, boards by their places in Piece.Boards.
type Stage struct {
	There []int    // boards of the work it goes on with
	Items [][]int  // what it brings in, each in one go: sub-assemblies, then boards
	Names []string // of each item: the sub-assembly's name, "" of a board
	Pairs []Paired // what it fastens
}

// A Paired is one pair of a joint.
type Paired struct {
	Joint *joint.Joint
	Pair  *joint.Pair
}

// A bench is what lies in the workshop as the steps go by: which boards are
// together in one assembly.
type bench struct {
	in      []int          // by board: the assembly it is in; 0: not yet built in
	members map[int][]int  // by assembly
	made    map[string]int // sub-assemblies by name
	next    int
}

// whole is the assembly of every step that makes no sub-assembly.
const whole = 1

// A waiting pair is one that is not fastened yet.
type waiting struct {
	Paired
	held bool // some step has put it together and left the fastening for later
}

// Follow goes through steps and tells what each does: which assembly it works on,
// what comes to that, and which pairs it fastens: those whose boards are together
// for the first time, less those it only holds, and those held before that it
// names. sound is false if a step adds a sub-assembly that is not made by then; left
// is how many pairs nothing fastens.
func Follow(p *design.Piece, joints []joint.Joint, steps []design.Step) (stages []Stage, left int, sound bool) {
	at := make(map[board.ID]int, len(p.Boards))
	for i, b := range p.Boards {
		at[b.ID] = i
	}
	var wait []waiting
	for i := range joints {
		for k := range joints[i].Pairs {
			wait = append(wait, waiting{Paired: Paired{&joints[i], &joints[i].Pairs[k]}})
		}
	}
	b := &bench{make([]int, len(p.Boards)), map[int][]int{}, map[string]int{}, whole}
	sound = true
	for i := range steps {
		d := &steps[i]
		here := b.assembly(d)
		st := Stage{There: slices.Clone(b.members[here])}
		for _, name := range d.AddMade {
			sub, ok := b.made[name]
			if !ok || sub == here || len(b.members[sub]) == 0 {
				sound = false
				continue
			}
			st.Items, st.Names = append(st.Items, b.members[sub]), append(st.Names, name)
			b.join(here, sub)
		}
		for _, id := range d.Add {
			if k, ok := at[id]; ok && b.in[k] == 0 && p.Boards[k].Solid != nil {
				st.Items, st.Names = append(st.Items, []int{k}), append(st.Names, "")
				b.in[k] = here
				b.members[here] = append(b.members[here], k)
			}
		}
		var still []waiting
		for _, w := range wait {
			together := b.in[at[w.Pair.A.ID]] == here && b.in[at[w.Pair.B.ID]] == here
			switch {
			case !together || w.held && !slices.Contains(d.Fasten, w.Joint.Name):
				still = append(still, w)
			case slices.Contains(d.Hold, w.Joint.Name):
				w.held = true
				still = append(still, w)
			default:
				st.Pairs = append(st.Pairs, w.Paired)
			}
		}
		wait = still
		stages = append(stages, st)
	}
	return stages, len(wait), sound
}

// assembly returns which assembly a step works on, a new one if it makes one.
func (b *bench) assembly(d *design.Step) int {
	switch name := strings.TrimSpace(d.Each + " " + d.Makes); {
	case d.GoesOn:
		return b.made[d.Makes]
	case d.Makes != "":
		b.next++
		b.made[d.Makes], b.made[name] = b.next, b.next
		return b.next
	}
	return whole
}

// join moves all boards of one assembly into another.
func (b *bench) join(into, from int) {
	for _, k := range b.members[from] {
		b.in[k] = into
	}
	b.members[into] = append(b.members[into], b.members[from]...)
	delete(b.members, from)
}
