package design

import (
	"scantling/internal/expr"
	"scantling/internal/snag"
	"scantling/internal/span"
	"scantling/internal/spell"
)

// A world is one working out of a design under one set of settings: the graph
// of its quantities, each in a cell of its own.
type world struct {
	d       *Design
	set     map[string]Setting
	initial bool // no size is set: side words are read here

	sizes   []cell[expr.Value]
	choices []cell[expr.Value]
	lets    []cell[expr.Value]
	points  []cell[pointAt]
	planes  []cell[planeAt]
	lots    []*lot
	groups  []*group
	laps    []cell[[]lapAt] // by joint

	busy  []busyCell
	snags snag.List
	told  map[toldKey]bool
	built map[*lot][]*Board

	meetings []meeting // what against asserted, checked on the finished boards
	first    *world    // of the default sizes; made when it is needed
}

type toldKey struct {
	code snag.Code
	at   span.Range
	what string
}

// A cell is a quantity: not asked for yet, being worked out, or known.
type cell[T any] struct {
	state uint8 // 0, 1 busy, 2 done
	v     T
}

type busyCell struct {
	cell any
	name string
	at   span.Range
}

// get works a cell out the first time it is read. Reading it while it is being
// worked out is a loop, which is told once as the chain of names; every quantity
// of the chain is then unknown.
func get[T any](w *world, c *cell[T], name string, at span.Range, f func() T) T {
	switch c.state {
	case 2:
		return c.v
	case 1:
		w.loop(c)
		var zero T
		return zero
	}
	c.state = 1
	w.busy = append(w.busy, busyCell{c, name, at})
	c.v = f()
	w.busy = w.busy[:len(w.busy)-1]
	c.state = 2
	return c.v
}

func (w *world) loop(c any) {
	i := len(w.busy) - 1
	for i > 0 && w.busy[i].cell != c {
		i--
	}
	chain := w.busy[i:]
	s := snag.Snag{Code: "loop"}
	first, last := "", ""
	for _, b := range chain {
		switch {
		case b.name == "" || b.name == last:
			continue // a step on the way that nobody has a word for
		case first == "":
			first, s.At = b.name, b.at
			s.What = "this goes round in a circle: " + first
		case last == first:
			s.What += " needs " + b.name
		default:
			s.What += ", which needs " + b.name
		}
		if last = b.name; b.at != s.At {
			s.Related = append(s.Related, snag.Related{At: b.at, Says: b.name + " is said here"})
		}
	}
	if last == first {
		s.What += " needs itself"
	} else {
		s.What += ", which needs " + first
	}
	s.Why = "each waits for the next, so none can be worked out"
	s.Mends = []snag.Mend{snag.Say("give one of them a value that does not need the others")}
	w.tell(s)
}

// tell records a snag once.
func (w *world) tell(s snag.Snag) {
	k := toldKey{s.Code, s.At, s.What}
	if !w.told[k] && !w.d.follows(s) {
		w.told[k] = true
		w.snags = append(w.snags, s)
	}
}

// follows reports whether s is a name that is most likely unknown only because
// the part of the file that declares it could not be read, which was told.
func (d *Design) follows(s snag.Snag) bool {
	if d.holes && s.Code == "unknown-name" {
		word, _ := quotedWord(s.What)
		return len(s.Mends) == 0 || len(s.Mends[0].Edits) == 0 || spell.Edits(word, s.Mends[0].Edits[0].Text) > 2
	}
	return d.holes && (s.Code == "never-added" || s.Code == "not-offered")
}

func (w *world) error(code snag.Code, at span.Range, what, why string, mends ...snag.Mend) {
	w.tell(snag.Snag{Code: code, At: at, What: what, Why: why, Mends: mends})
}

func newWorld(d *Design, set Settings) *world {
	w := &world{d: d, set: map[string]Setting{}, initial: true, told: map[toldKey]bool{}, built: map[*lot][]*Board{},
		sizes: make([]cell[expr.Value], len(d.sizes)), choices: make([]cell[expr.Value], len(d.choices)),
		lets: make([]cell[expr.Value], len(d.lets)), points: make([]cell[pointAt], len(d.points)),
		planes: make([]cell[planeAt], len(d.planes)), laps: make([]cell[[]lapAt], len(d.joints))}
	for _, s := range set {
		if _, ok := d.top.find(s.Name); ok {
			w.set[s.Name] = s
		}
		w.initial = false
	}
	for _, g := range d.groups {
		w.groups = append(w.groups, &group{w: w, d: g})
	}
	for _, b := range d.boards {
		w.lots = append(w.lots, newLot(w, b))
	}
	return w
}
