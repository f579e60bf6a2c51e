package joint

import (
	"math"
	"slices"

	"scantling/internal/board"
	"scantling/internal/design"
	"scantling/internal/geom"
	"scantling/internal/screw"
)

// orient works out which board of a pair is gone through first, and how much wood
// lies square to the middle of their contact.
func (p *Pair) orient(d *design.Joint, said [2]map[board.ID]bool) {
	p.Through = p.throughBoard(d, said)
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
// through first, or nil: one under through: or head:, else the one it can enter by
// the face under from:.
func (p *Pair) throughBoard(d *design.Joint, said [2]map[board.ID]bool) *design.Board {
	for _, first := range said {
		switch {
		case first[p.A.ID]:
			return p.A
		case first[p.B.ID]:
			return p.B
		}
	}
	for _, b := range []*design.Board{p.A, p.B} {
		if d.From != "" && p.faceOf(b) == d.From && (d.FromOf == nil || slices.Contains(d.FromOf, b.ID)) {
			return b
		}
	}
	return nil
}

// faceOf returns the word of the side by which a fastener square to the contact
// enters one of the boards: the one that looks away from it.
func (p *Pair) faceOf(b *design.Board) string {
	out := p.Contact.Plane.N
	if b == p.A {
		out = out.Negated()
	}
	way, best := b.Pose.InWay(out), board.Start
	for s := range board.Side(len(b.Sides)) {
		if s.Out().Dot(way) > best.Out().Dot(way) {
			best = s
		}
	}
	return b.Sides[best]
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

// axis returns the axis through a point of the contact of a fastener whose head and
// nut lie so far below the faces.
func (p *Pair) axis(at geom.Vec, sunk [2]float64) Axis {
	out := p.outward()
	stack := [2]float64{woodAlong(p.Through, at, out) - sunk[0], woodAlong(p.Into(), at, out.Negated()) - sunk[1]}
	zero := geom.Vec{} // added, it makes −0 plain 0
	return Axis{At: at.Along(out, stack[0]).Plus(zero), Way: out.Negated().Plus(zero), Stack: stack, Sunk: sunk}
}

// stands returns the boards an axis stands in, the one its head lies on first.
func (p *Pair) stands(a Axis) []*design.Board {
	switch a.In {
	case p.A.ID:
		return []*design.Board{p.A}
	case p.B.ID:
		return []*design.Board{p.B}
	}
	return []*design.Board{p.Through, p.Into()}
}

// Pegged reports whether a dowel is as long as both boards are thick: a peg, driven
// right through.
func (u *Use) Pegged() bool {
	_, both := u.stack()
	return u.Fastener.Family == screw.Dowel && u.Fastener.Length.MM() > both[1]-float64(rim/2)
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
