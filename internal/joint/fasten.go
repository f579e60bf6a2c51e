package joint

import (
	"fmt"
	"math"
	"slices"

	"scantling/internal/board"
	"scantling/internal/design"
	"scantling/internal/screw"
	"scantling/internal/snag"
)

// A group is the pairs of a joint between boards of the same two names, with one
// of its fasteners: all are laid the same way.
type group struct {
	joint *Joint
	with  screw.Fastener
	said  design.Fastening
	pairs []*Pair
	uses  []*Use // of pairs
	areas []*region
	moved []int // those whose pattern stands aside

	sunk   [2]float64      // mm of counterbore over the head, and over the nut
	insert *screw.Fastener // what a bolt goes into instead of a nut
}

// fasten lays the patterns of all joints in file order; where fasteners meet so,
// in the opposite order too, since bolts may have room to give way to screws where
// screws have none. The way in which fewer meet stands. Then it judges what they
// come to.
func (f *finder) fasten(joints []Joint) {
	var groups []*group
	for i := range joints {
		groups = append(groups, f.groupsOf(&joints[i])...)
	}
	f.groups = groups
	back := slices.Clone(groups)
	slices.Reverse(back)
	if forth := f.layAll(groups); forth > 0 && f.layAll(back) >= forth {
		f.layAll(groups)
	}
	for i := range joints {
		joints[i].inserts()
	}
	for i := 0; i < len(groups); {
		n := i + 1 // those of one phrase
		for n < len(groups) && groups[n].joint == groups[i].joint && groups[n].said.At == groups[i].said.At {
			n++
		}
		for _, g := range groups[i:n] {
			f.moves(g)
			f.judge(g, groups[i:n])
		}
		i = n
	}
}

// layAll lays all groups in the order given and returns how many pairs meet others.
func (f *finder) layAll(groups []*group) (meet int) {
	f.thicket = thicket{at: f.at, cells: map[cell][]int32{}}
	for _, n := range f.fixed {
		f.thicket.add(n)
	}
	for _, g := range groups {
		g.moved = nil
		meet += f.lay(g)
	}
	return meet
}

// groupsOf gathers the pairs of a joint into groups, sets its brackets, and counts
// what is not driven.
func (f *finder) groupsOf(j *Joint) []*group {
	var said [2]map[board.ID]bool
	for k, ids := range [][]board.ID{j.Through, j.Head} {
		said[k] = make(map[board.ID]bool, len(ids))
		for _, id := range ids {
			said[k][id] = true
		}
	}
	for k := range j.Pairs {
		j.Pairs[k].orient(j.Joint, said)
		j.Pairs[k].gravity = [2]float64{f.gravity(j.Pairs[k].A), f.gravity(j.Pairs[k].B)}
		j.Pairs[k].Uses = make([]Use, len(j.With), 2*len(j.With)) // the screws of brackets come after
		for i, w := range j.With {
			j.Pairs[k].Uses[i].Fastener = w
		}
	}
	f.face(j)
	if j.Pattern.IfRoom {
		f.roomy(j)
	}
	var groups []*group
	for i, w := range j.With {
		switch {
		case w.Family == screw.Insert && !j.bolted(w):
			f.alone(j, i)
		case w.Bracket():
			f.brackets(j, i)
		case w.Family == screw.Glue:
			for k := range j.Pairs {
				j.Pairs[k].Uses[i].Count = 1
			}
		case w.Driven() && !(i > 0 && w.Screwed() && j.With[i-1].Bracket()): // that one holds the bracket
			groups = append(groups, f.gather(j, i)...)
		}
	}
	return groups
}

// roomy leaves a joint the pairs with room for all that is driven into them.
func (f *finder) roomy(j *Joint) {
	j.Pairs = slices.DeleteFunc(j.Pairs, func(p Pair) bool {
		one := Joint{Joint: j.Joint, With: j.With, Pairs: []Pair{p}}
		for i, w := range j.With {
			if !w.Driven() {
				continue
			}
			for _, g := range f.gather(&one, i) {
				if len(g.laid(0, j.Pattern, w, variants[0])) == 0 {
					return true
				}
			}
		}
		return false
	})
}

// bolted reports whether a joint has a bolt for an insert.
func (j *Joint) bolted(insert screw.Fastener) bool {
	return slices.ContainsFunc(j.With, func(w screw.Fastener) bool { return w.Bolted() && w.Size == insert.Size })
}

// fastening returns what a joint says of the i-th thing it is made with.
func (j *Joint) fastening(i int) design.Fastening { return j.Joint.With[min(i, len(j.Joint.With)-1)] }

// gather makes the groups of the i-th fastener of a joint.
func (f *finder) gather(j *Joint, i int) (groups []*group) {
	w := j.With[i]
	sunk, insert := j.sunk(w), -1
	if w.Bolted() {
		insert = slices.IndexFunc(j.With, func(x screw.Fastener) bool { return x.Family == screw.Insert && x.Size == w.Size })
	}
	for k := range j.Pairs {
		p := &j.Pairs[k]
		n := slices.IndexFunc(groups, func(g *group) bool {
			return g.pairs[0].Through.Name == p.Through.Name && g.pairs[0].Into().Name == p.Into().Name
		})
		if n < 0 {
			n = len(groups)
			groups = append(groups, &group{joint: j, with: w, said: j.fastening(i), sunk: sunk})
		}
		g := groups[n]
		if insert >= 0 {
			g.insert = &j.With[insert]
		}
		var like *region
		if len(g.areas) > 0 {
			like = g.areas[0]
		}
		g.pairs, g.uses, g.areas = append(g.pairs, p), append(g.uses, &p.Uses[i]), append(g.areas, regionOf(p, like))
	}
	return groups
}

// sunk returns how far a fastener's head and nut lie below the faces, in mm.
func (j *Joint) sunk(w screw.Fastener) (out [2]float64) {
	if d := j.Counterbore.Head; d != nil && w.Counterbore() > 0 && !w.Nailed() {
		out[0] = math.Max(0, d.Q.V/1e6)
	}
	if d := j.Counterbore.Nut; d != nil && w.Bolted() && !j.inserted(w) {
		out[1] = math.Max(0, d.Q.V/1e6)
	}
	return out
}

// inserts counts the inserts of a joint: one for every bolt of their size.
func (j *Joint) inserts() {
	for k := range j.Pairs {
		uses := j.Pairs[k].Uses
		for i := range uses {
			for _, u := range uses {
				if uses[i].Fastener.Family == screw.Insert && u.Fastener.Bolted() && u.Fastener.Size == uses[i].Fastener.Size {
					uses[i].Count += u.Count
				}
			}
		}
	}
}

// inserted reports whether a joint has an insert for a bolt.
func (j *Joint) inserted(bolt screw.Fastener) bool {
	return slices.ContainsFunc(j.With, func(w screw.Fastener) bool { return w.Family == screw.Insert && w.Size == bolt.Size })
}

// lay places the fasteners of a group in the first way in which none comes too
// near another, else in the way in which the fewest do, moving single pairs along
// until they are clear. It returns how many pairs are not.
func (f *finder) lay(g *group) (meet int) {
	best, least := variants[0], math.MaxInt
	for _, v := range variants {
		bad, fits := f.try(g, v, g.joint.Pattern.Set != "diagonal" && v != variants[0])
		if bad == 0 && fits {
			return 0
		}
		f.drop(g)
		if fits && bad < least && g.joint.Pattern.Set == "diagonal" {
			best, least = v, bad // the rest keep to the pattern but for single pairs
		}
		if !fits && v == variants[0] {
			break // it does not even fit as it should: moving it about will not help
		}
	}
	for k := range g.pairs {
		if !f.place(g, k, best) {
			continue
		}
		for i, far := range nudges {
			f.thicket.drop(len(g.uses[k].Axes))
			v := best
			if v.nudge = far; !f.place(g, k, v) && len(g.uses[k].Axes) > 0 {
				g.moved = append(g.moved, k)
				break
			}
			if i == len(nudges)-1 {
				f.thicket.drop(len(g.uses[k].Axes))
				f.place(g, k, best)
				meet++
			}
		}
	}
	return meet
}

// moves tells of the pairs whose pattern was moved along to clear another's.
func (f *finder) moves(g *group) {
	if len(g.moved) == 0 {
		return
	}
	p := g.pairs[g.moved[0]]
	what := fmt.Sprintf("the fasteners between the %s and the %s stand aside of the pattern, clear of others in the wood", p.Through.Spoken, p.Into().Spoken)
	if n := len(g.moved) - 1; n > 0 {
		what += fmt.Sprintf("; so do those of %s more", plural(n, "pair"))
	}
	f.about(g, p, "fasteners-moved", snag.Advice, what, "", snag.Say("leave it so, or change the pattern so that all are alike"))
}

// try lays a group one way and returns how many of its pairs come too near other
// fasteners, and whether all patterns fit; it stops at the first that does not do
// when none but a perfect way is wanted.
func (f *finder) try(g *group, v variant, perfect bool) (bad int, fits bool) {
	fits = true
	for _, u := range g.uses {
		u.Axes = nil
	}
	for k := range g.pairs {
		if f.place(g, k, v) {
			bad++
		}
		fits = fits && g.uses[k].Axes != nil
		if perfect && (bad > 0 || !fits) {
			break
		}
	}
	return bad, fits
}

// drop takes the fasteners of a group, placed last, out of the thicket.
func (f *finder) drop(g *group) {
	for k := range g.pairs {
		f.thicket.drop(len(g.uses[len(g.pairs)-1-k].Axes))
	}
}

// place lays the pattern of one pair and reports whether a fastener comes too near
// another, or has another board in its way.
func (f *finder) place(g *group, k int, v variant) (bad bool) {
	p, u := g.pairs[k], g.uses[k]
	*u = g.use(k, g.joint.Pattern, g.with, v)
	for _, a := range u.Axes {
		if f.thicket.add(newThorn(g, p, u, a)) {
			bad = true
		}
	}
	if g.with.Bolted() && !bad {
		_, bad = f.inTheWay(p, u)
	}
	return bad
}

// use lays a fastener between the k-th pair of a group by a pattern and chooses its
// length.
func (g *group) use(k int, d design.Pattern, w screw.Fastener, v variant) Use {
	u := Use{Fastener: w}
	for _, s := range g.laid(k, d, w, v) {
		u.Axes = append(u.Axes, g.pairs[k].axis(g.areas[k].out(s), g.sunk))
	}
	u.Count = len(u.Axes)
	g.choose(g.pairs[k], &u)
	return u
}

// laid lays a pattern with the most room it fits with; nil if it fits with none.
func (g *group) laid(k int, d design.Pattern, w screw.Fastener, v variant) []spot {
	r := g.areas[k]
	for _, rm := range roomsOf(w, g.sunk) {
		if at, ok := r.lay(d, rm, v); ok {
			return at
		}
	}
	return nil
}

// about adds a snag on the fasteners of a group.
func (f *finder) about(g *group, p *Pair, code snag.Code, s snag.Severity, what, why string, mends ...snag.Mend) {
	f.snags = append(f.snags, snag.Snag{Code: code, Severity: s, At: g.said.At, Tier: snag.Settled,
		Boards: []string{string(p.Through.ID), string(p.Into().ID)},
		What:   g.joint.Name + ": " + what, Why: why, Mends: mends})
}
