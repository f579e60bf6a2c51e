package shop

import (
	"cmp"
	"slices"

	"scantling/internal/board"
)

// A Drill is where a step's bolts and pegs go through the board under their heads:
// marked on it, and drilled through what it is clamped to.
type Drill struct {
	Board  board.ID
	Spoken string
	Again  bool // of a further doing of the step
	Holes  []HoleReading
	Words  Text
}

// drills says where the bolts and pegs of one joint are drilled in one step, board by board.
func (s *shop) drills(ws []waiting) []Drill {
	var out []Drill
	for _, w := range ws {
		t := w.pair.Through
		k := slices.IndexFunc(out, func(d Drill) bool { return d.Board == t.ID })
		if k < 0 {
			k = len(out)
			out = append(out, Drill{Board: t.ID, Spoken: t.Spoken, Again: w.again})
		}
		for _, h := range t.Holes {
			if h.When == board.Together && h.Kind == board.Clearance && h.Joint == w.joint.Name && h.Mate == w.pair.Into().ID {
				out[k].Holes = append(out[k].Holes, s.hole(t.Board, h))
			}
		}
	}
	out = slices.DeleteFunc(out, func(d Drill) bool { return len(d.Holes) == 0 })
	for k := range out {
		d := &out[k]
		slices.SortStableFunc(d.Holes, func(x, y HoleReading) int {
			return cmp.Or(cmp.Compare(x.FromEnd.Printed(), y.FromEnd.Printed()), cmp.Compare(x.FromRim.Printed(), y.FromRim.Printed()))
		})
		for i, h := range d.Holes {
			if i == 0 {
				d.Words = Words("On the " + h.Face + " of the " + d.Spoken + ", from its " + h.End + " and from " + h.TheRim() + ": ")
			} else {
				d.Words = d.Words.Say("; ")
			}
			d.Words = d.Words.Show(h.FromEnd).Say(" and ").Show(h.FromRim)
			if h.Rim != d.Holes[0].Rim {
				d.Words = d.Words.Say(" from " + h.TheRim())
			}
		}
	}
	return out
}
