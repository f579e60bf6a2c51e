package joint

import (
	"cmp"
	"fmt"
	"math"

	"scantling/internal/board"
	"scantling/internal/design"
	"scantling/internal/geom"
	"scantling/internal/measure"
	"scantling/internal/screw"
	"scantling/internal/snag"
	"scantling/internal/span"
	"scantling/internal/wood"
)

// softwood is the gravity taken for a wood the tables do not hold. Source: assumed;
// the middle of the construction softwoods.
const softwood = 0.50

// spare is how much deeper than its half of the dowel a dowel's hole is, in mm, for
// the glue. Source: common practice, 1/16 in.
const spare = 25.4 / 16

// drillAll gives the boards the holes of the joints, in the order of the joints, in
// place of those of an earlier call, and proves that the two holes of every
// fastener meet.
//
// A bolt's hole goes through both boards, clamped together; one that goes into an
// insert is drilled in the first board at the bench, and the insert's own hole
// through it once the boards are in place. A screw turns freely
// in the board under its head, drilled at the bench and countersunk for a flat
// head; the thread's pilot is drilled through that hole once the boards are in
// place, as deep as the screw reaches, a lag screw's wider as far as its shank goes. A
// counterbore is drilled at the bench, before the hole in its middle. A dowel's holes are drilled at the bench,
// half in each board; those of one as long as both are thick, a peg, through both at
// once. A bracket's are marked through it. Nails take a hole only near an end.
func (f *finder) drillAll(joints []Joint) {
	for _, b := range f.piece.Boards {
		b.Holes = nil
	}
	for i := range joints {
		j := &joints[i]
		for k := range j.Pairs {
			p := &j.Pairs[k]
			from := j.Scalars.Union(p.A.All(), p.B.All())
			for n := range p.Uses {
				u := &p.Uses[n]
				for _, a := range u.Axes {
					first, second := len(p.Through.Holes), len(p.Into().Holes)
					p.drill(j, from, u, a)
					if !p.meet(a, p.Through.Holes[first:], p.Into().Holes[second:]) {
						f.add(j.Joint, "holes-apart", snag.Error, fmt.Sprintf("%s: the holes of the %s and the %s do not meet", j.Name, p.Through.Spoken, p.Into().Spoken),
							"both halves of a joint are drilled on one line", "report this: it is a mistake of the program, not of the design")
					}
				}
			}
		}
	}
}

// drill adds the holes of one fastener, which follow from some scalars.
func (p *Pair) drill(j *Joint, from span.Set, u *Use, a Axis) {
	w := u.Fastener
	t, into := p.Through, p.Into()
	hole := func(b, mate *design.Board, kind board.HoleKind, when board.When, at, way geom.Vec, across, deep float64) {
		if across > 0 {
			b.Holes = append(b.Holes, board.Hole{At: b.Pose.In(at), Way: b.Pose.InWay(way), Diameter: across, Depth: deep,
				Kind: kind, When: when, Joint: j.Name, Mate: mate.ID, From: from})
		}
	}
	face, meet := a.Face(), a.Meet()
	reach := math.Min(w.Length.MM()-a.Stack[0], a.Stack[1])
	if a.Sunk[0] > 0 {
		hole(t, into, board.Counterbore, board.Bench, face, a.Way, w.Counterbore().MM(), a.Sunk[0])
	}
	switch {
	case a.In != "":
		b, mate := p.stands(a)[0], p.A
		if b == p.A {
			mate = p.B
		}
		hole(b, mate, board.Pilot, board.InPlace, a.At, a.Way, w.Pilot(p.gravityOf(b)).MM(), reach)
	case u.Fit != nil && u.Fit.Insert != nil:
		hole(t, into, board.Clearance, board.Bench, face, a.Way, w.Hole().MM(), 0)
		hole(into, t, board.Pilot, board.InPlace, meet, a.Way, u.Fit.Insert.Shank.MM(), u.Behind)
	case w.Bolted():
		if a.Sunk[1] > 0 {
			far := meet.Along(a.Way, a.Stack[1]+a.Sunk[1])
			hole(into, t, board.Counterbore, board.Bench, far, a.Way.Negated(), w.Counterbore().MM(), a.Sunk[1])
		}
		hole(t, into, board.Clearance, board.Together, face, a.Way, w.Hole().MM(), 0)
		hole(into, t, board.Clearance, board.Together, meet, a.Way, w.Hole().MM(), 0)
	case w.Family == screw.Dowel && u.Pegged():
		hole(t, into, board.Clearance, board.Together, face, a.Way, w.Shank.MM(), 0)
		hole(into, t, board.Clearance, board.Together, meet, a.Way, w.Shank.MM(), 0)
	case w.Family == screw.Dowel:
		deep := float64(w.Length.MM()/2) + spare
		hole(t, into, board.Pilot, board.Bench, meet, a.Way.Negated(), w.Shank.MM(), deep)
		hole(into, t, board.Pilot, board.Bench, meet, a.Way, w.Shank.MM(), deep)
	case w.Nailed():
		for _, s := range shortfalls(p, &Use{Fastener: w, Axes: []Axis{a}}) {
			if s.code == "end-near" && s.board == t {
				hole(t, into, board.Pilot, board.Bench, a.At, a.Way, w.Pilot(p.gravityOf(t)).MM(), 0)
				break
			}
		}
	default:
		hole(t, into, board.Clearance, board.Bench, face, a.Way, w.Clearance().MM(), 0)
		if a.Sunk[0] == 0 {
			hole(t, into, board.Countersink, board.Bench, a.At, a.Way, w.Countersink().MM(), w.Sunk().MM())
		}
		if shank := p.Shank(&Use{Fastener: w, Axes: []Axis{a}}); shank > 0 {
			hole(into, t, board.Clearance, board.InPlace, meet, a.Way, w.Clearance().MM(), shank)
		}
		if reach > 0 {
			hole(into, t, board.Pilot, board.InPlace, meet, a.Way, w.Pilot(p.gravityOf(into)).MM(), reach)
		}
	}
}

// Shank returns how far the smooth shank of a lag screw reaches into the far board,
// in mm, where its hole is as wide as in the first; 0 of all else. Source: AWC NDS
// 2018, 12.1.4 (from memory).
func (p *Pair) Shank(u *Use) float64 {
	if u.Fastener.Family != screw.LagScrew || len(u.Axes) == 0 {
		return 0
	}
	smooth := (u.Fastener.Length - u.Fastener.Thread()).MM()
	return math.Max(0, math.Min(smooth-u.Axes[0].Stack[0], u.Axes[0].Stack[1]))
}

// Bits returns the bits a use of the pair takes, in the board gone through and in
// the other, and how deep, in mm, the second goes; 0 of what takes no hole. A
// bracket's screws take the second only.
func (p *Pair) Bits(u Use) (through, into measure.Length, deep float64) {
	w := u.Fastener
	if len(u.Axes) == 0 || w.Nailed() {
		return 0, 0, 0
	}
	a := u.Axes[0]
	reach := math.Max(0, math.Min(w.Length.MM()-a.Stack[0], a.Stack[1]))
	switch {
	case a.In != "":
		return 0, w.Pilot(p.gravityOf(p.stands(a)[0])), reach
	case u.Fit != nil && u.Fit.Insert != nil:
		return w.Hole(), u.Fit.Insert.Shank, u.Behind
	case w.Bolted():
		return w.Hole(), 0, 0
	case w.Family == screw.Dowel && u.Pegged():
		return w.Shank, 0, 0
	}
	return w.Clearance(), w.Pilot(p.gravityOf(p.Into())), reach
}

// meet proves that the holes of one fastener in its two boards lie on one line,
// its axis, to within geom.Same.
func (p *Pair) meet(a Axis, through, into []board.Hole) bool {
	for side, holes := range [][]board.Hole{through, into} {
		b := p.Through
		if side == 1 {
			b = p.Into()
		}
		for _, h := range holes {
			off := b.Pose.Out(h.At).Minus(a.At)
			if off.Along(a.Way, -off.Dot(a.Way)).Length() > geom.Same || math.Abs(b.Pose.OutWay(h.Way).Dot(a.Way)) < 1-1e-9 {
				return false
			}
		}
	}
	return true
}

func (p *Pair) gravityOf(b *design.Board) float64 {
	if b == p.A {
		return p.gravity[0]
	}
	return p.gravity[1]
}

// gravity returns the specific gravity, oven-dry, of a board's wood.
func (f *finder) gravity(b *design.Board) float64 {
	if b.Stock == nil {
		return softwood
	}
	if g, ok := f.gravities[b.Stock.Wood]; ok {
		return g
	}
	g := softwood
	if w, err := wood.Lookup(b.Stock.Wood); err == nil {
		g = cmp.Or(w.DesignGravity, w.DryGravity, softwood)
	}
	f.gravities[b.Stock.Wood] = g
	return g
}
