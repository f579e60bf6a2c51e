package joint

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"scantling/internal/board"
	"scantling/internal/design"
	"scantling/internal/geom"
	"scantling/internal/measure"
	"scantling/internal/screw"
	"scantling/internal/snag"
)

// orient works out which board of a pair is gone through first, and how much wood
// lies square to the middle of their contact.
func (p *Pair) orient(d *design.Joint, said [2]map[board.ID]bool) {
	p.Through = throughBoard(d, said, p.A, p.B)
	out := p.Contact.Plane.N // from A into B
	woodA := woodAlong(p.A, p.Contact.Middle, out.Negated())
	woodB := woodAlong(p.B, p.Contact.Middle, out)
	if p.Through == nil { // unsaid: the thinner is gone through first
		if p.Through = p.A; woodB < woodA-geom.Alike {
			p.Through = p.B
		}
	}
	p.Stack = [2]float64{woodA, woodB}
	if p.Through == p.B {
		p.Stack = [2]float64{woodB, woodA}
	}
	p.EndWood = math.Abs(p.Into().Pose.X.Dot(out)) > math.Sqrt2/2
}

// throughBoard returns the board of a pair a design says the fastener goes
// through first, or nil.
func throughBoard(d *design.Joint, said [2]map[board.ID]bool, a, b *design.Board) *design.Board {
	for _, first := range said {
		switch {
		case first[a.ID]:
			return a
		case first[b.ID]:
			return b
		}
	}
	if d.From != "" { // the board whose side it enters by
		for _, x := range []*design.Board{a, b} {
			if _, ok := x.Named(d.From); ok && slices.Contains(d.FromOf, x.ID) {
				return x
			}
		}
	}
	return nil
}

// outward returns the unit direction from the contact into the board gone
// through: against the way a fastener is driven.
func (p *Pair) outward() geom.Vec {
	if p.Through == p.A {
		return p.Contact.Plane.N.Negated()
	}
	return p.Contact.Plane.N
}

// woodAlong returns how many mm of wood board b has from a point of its surface
// along way, a direction in the piece: to where the wood first ends.
func woodAlong(b *design.Board, from, way geom.Vec) float64 {
	at, along := b.Pose.In(from), b.Pose.InWay(way)
	for _, s := range b.Solid.Through(at, along) {
		if s[1] > geom.Touch {
			return s[1] - math.Max(0, s[0])
		}
	}
	return 0
}

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
}

// fasten lays the patterns of all joints in file order; where fasteners meet so,
// in the opposite order too, since bolts may have room to give way to screws where
// screws have none. The way in which fewer meet stands. Then it judges what they
// come to.
func (f *finder) fasten(joints []Joint) {
	var groups []*group
	for i := range joints {
		groups = append(groups, groupsOf(&joints[i])...)
	}
	back := slices.Clone(groups)
	slices.Reverse(back)
	if forth := f.layAll(groups); forth > 0 && f.layAll(back) >= forth {
		f.layAll(groups)
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
	for _, g := range groups {
		g.moved = nil
		meet += f.lay(g)
	}
	return meet
}

// groupsOf gathers the pairs of a joint into groups, and counts what is not driven.
func groupsOf(j *Joint) []*group {
	var said [2]map[board.ID]bool
	for k, ids := range [][]board.ID{j.Through, j.Head} {
		said[k] = make(map[board.ID]bool, len(ids))
		for _, id := range ids {
			said[k][id] = true
		}
	}
	for k := range j.Pairs {
		j.Pairs[k].orient(j.Joint, said)
		j.Pairs[k].Uses = make([]Use, len(j.With))
	}
	var groups []*group
	for i, w := range j.With {
		said := j.Joint.With[min(i, len(j.Joint.With)-1)]
		first := len(groups)
		for k := range j.Pairs {
			p := &j.Pairs[k]
			p.Uses[i].Fastener = w
			if !w.Driven() {
				p.Uses[i].Count = 1
				if w.Fitting() {
					p.Uses[i].Count = max(1, j.Pattern.Count)
				}
				continue
			}
			n := slices.IndexFunc(groups[first:], func(g *group) bool {
				return g.pairs[0].Through.Name == p.Through.Name && g.pairs[0].Into().Name == p.Into().Name
			})
			if n < 0 {
				n = len(groups) - first
				groups = append(groups, &group{joint: j, with: w, said: said})
			}
			g := groups[first+n]
			var like *region
			if len(g.areas) > 0 {
				like = g.areas[0]
			}
			g.pairs, g.uses, g.areas = append(g.pairs, p), append(g.uses, &p.Uses[i]), append(g.areas, regionOf(p, like))
		}
	}
	return groups
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
	u.Axes, u.Fit, u.Fastener = nil, nil, g.with
	for _, s := range laid(g.areas[k], g.joint.Pattern, g.with, v) {
		u.Axes = append(u.Axes, p.axis(g.areas[k].out(s)))
	}
	u.Count = len(u.Axes)
	p.choose(u)
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

// laid lays a pattern with the most room it fits with; nil if it fits with none.
func laid(r *region, d design.Pattern, w screw.Fastener, v variant) []spot {
	for _, rm := range roomsOf(w) {
		if at, ok := r.lay(d, rm, v); ok {
			return at
		}
	}
	return nil
}

// axis returns the axis through a point of the contact.
func (p *Pair) axis(at geom.Vec) Axis {
	out := p.outward()
	stack := [2]float64{woodAlong(p.Through, at, out), woodAlong(p.Into(), at, out.Negated())}
	zero := geom.Vec{} // added, it makes −0 plain 0
	return Axis{At: at.Along(out, stack[0]).Plus(zero), Way: out.Negated().Plus(zero), Stack: stack}
}

// stack returns the least and the most wood along the axes of a use: in the board
// gone through, and in both together.
func (u *Use) stack() (through, both [2]float64) {
	through, both = [2]float64{math.Inf(1), 0}, [2]float64{math.Inf(1), 0}
	for _, a := range u.Axes {
		sum := a.Stack[0] + a.Stack[1]
		through = [2]float64{math.Min(through[0], a.Stack[0]), math.Max(through[1], a.Stack[0])}
		both = [2]float64{math.Min(both[0], sum), math.Max(both[1], sum)}
	}
	return through, both
}

// choose gives a fastener its length, where none is written.
func (p *Pair) choose(u *Use) {
	w := u.Fastener
	if len(u.Axes) == 0 {
		return
	}
	through, both := u.stack()
	switch {
	case w.Bolted():
		stack, _ := measure.FromMM(both[1])
		if fit, err := w.ForStack(stack); err == nil {
			u.Fastener, u.Fit = fit.Bolt, &fit
		}
	case w.Screwed() && w.Length == 0:
		clamped, _ := measure.FromMM(through[1])
		least, most := bounds(p, u)
		u.Fastener.Length = w.Lengths[len(w.Lengths)-1]
		if l := lengthNear(w, clamped*5/2, least, most); l != 0 {
			u.Fastener.Length = l
		}
	}
}

// bounds returns between which lengths a screw or nail bites enough and leaves
// cover beyond its tip, at every axis of a use.
func bounds(p *Pair, u *Use) (least, most measure.Length) {
	through, both := u.stack()
	clamped, _ := measure.FromMM(through[1])
	all, _ := measure.FromMM(both[0])
	return clamped + biteFor(p), all - tipCover
}

func biteFor(p *Pair) measure.Length {
	if p.EndWood {
		return leastEndBite
	}
	return leastBite
}

// lengthNear returns the length sold nearest to aim between least and most, the
// shorter of two equally near; 0 if none is sold. A screw without a length aims at
// two and a half times the clamped board. Source: common practice.
func lengthNear(w screw.Fastener, aim, least, most measure.Length) measure.Length {
	var best measure.Length
	off := func(l measure.Length) measure.Length { return max(l-aim, aim-l) }
	for _, l := range w.Lengths {
		if l >= least && l <= most && (best == 0 || off(l) < off(best)) {
			best = l
		}
	}
	return best
}

// bolt says why no bolt fits a pair, with the way out.
func (f *finder) bolt(g *group, p *Pair, u *Use) {
	_, both := u.stack()
	stack, _ := measure.FromMM(both[1])
	_, err := g.with.ForStack(stack)
	if err == nil {
		return
	}
	what, mend := err.Error(), snag.Say("use a screw there, or thinner wood")
	var unfit *screw.FitError
	if errors.As(err, &unfit) {
		what, mend = unfit.What, snag.Say(unfit.Mend)
	}
	if g.with.Length != 0 { // a length that was written; without one the right length is found
		bare := screw.Fastener{Row: g.with.Row, Finish: g.with.Finish}
		if _, err := bare.ForStack(stack); err == nil {
			mend = snag.Replace(fmt.Sprintf("write %s, and the length is found", bare.Name()), g.said.At, bare.Name())
		}
	}
	f.about(g, p, "bolt-length", snag.Error, what, "common practice: wood, washers, nut and 1/4 in", mend)
}

// about adds a snag on the fasteners of a group.
func (f *finder) about(g *group, p *Pair, code snag.Code, s snag.Severity, what, why string, mends ...snag.Mend) {
	f.snags = append(f.snags, snag.Snag{Code: code, Severity: s, At: g.said.At, Tier: snag.Settled,
		Boards: []string{string(p.Through.ID), string(p.Into().ID)},
		What:   g.joint.Name + ": " + what, Why: why, Mends: mends})
}

func tape(l measure.Length) string { return length(l.MM()) }
