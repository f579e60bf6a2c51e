package screw

import (
	"cmp"
	"slices"
)

// A Tally counts the fasteners of a piece. The zero Tally is empty.
type Tally struct{ lines []Line }

// A Line is one thing to buy and how many of it.
type Line struct {
	What  string // as a price book names it: "deck screw 8 x 2 1/2", "nut 5/16"
	Count int
}

// Add counts n of f. A bolt brings its nut and one washer; AddFit counts the
// washers a bolt really needs. A lag screw brings the washer under its head. Glue
// is counted by bottles.
func (t *Tally) Add(f Fastener, n int) {
	t.add(f.Name(), n)
	if f.Bolted() {
		t.add(f.finished("nut "+f.Size), n)
	}
	if f.Bolted() || f.Family == LagScrew {
		t.add(f.finished("washer "+f.Size), n)
	}
}

// AddPlugs counts n plugs over the counterbored heads of f.
func (t *Tally) AddPlugs(f Fastener, n int) {
	size := inches(f.Counterbore())
	if f.Metric() {
		size = millimetres(f.Counterbore()) + " mm"
	}
	t.add("plug "+size, n)
}

// AddFit counts n bolts fitted to their stack, with nuts and washers; one that goes
// into an insert has no nut, and its insert is counted for itself.
func (t *Tally) AddFit(fit Fit, n int) {
	if fit.Insert != nil {
		t.add(fit.Bolt.Name(), n)
		t.add(fit.Bolt.finished("washer "+fit.Bolt.Size), n*fit.Under)
		return
	}
	t.Add(fit.Bolt, n)
	t.add(fit.Bolt.finished("washer "+fit.Bolt.Size), n*(fit.Washers+fit.Under-1))
}

func (t *Tally) add(what string, n int) {
	if n == 0 {
		return
	}
	for i := range t.lines {
		if t.lines[i].What == what {
			t.lines[i].Count += n
			return
		}
	}
	t.lines = append(t.lines, Line{what, n})
}

// Lines returns what was counted, by name.
func (t *Tally) Lines() []Line {
	out := slices.Clone(t.lines)
	slices.SortFunc(out, func(a, b Line) int { return cmp.Compare(a.What, b.What) })
	return out
}

// Spare returns how many more than n of f to buy, for those that are dropped, bent
// or snapped: one in twenty of screws and nails; of bolts and the rest, none.
// Source: common practice.
func (f Fastener) Spare(n int) int {
	if f.Nailed() || f.Screwed() {
		return (n + 19) / 20
	}
	return 0
}
