package shop

import (
	"scantling/internal/board"
	"scantling/internal/geom"
)

// A likeness is how one doing of a step compares with another.
type likeness int

const (
	unlike   likeness = iota
	turned            // the same thing, in another place
	mirrored          // its mirror image, and no turn makes it the same
)

// A spot is a corner of a board or an end of a fastener, with what it belongs to.
type spot struct {
	of string
	at geom.Vec
}

// spots are what two doings are compared by: every corner of the boards a doing
// brings, by the part each is, and both ends of every fastener it drives. In a
// mirror a part is its twin.
func (s *shop) spots(d *doing, inMirror bool) []spot {
	var out []spot
	for _, id := range d.new {
		b := s.piece.Boards[s.at[id]]
		letter := ""
		if p := s.partOf[id]; p != nil {
			if letter = p.Letter; inMirror && p.Twin != nil {
				letter = p.Twin.Letter
			}
		}
		corners, _ := b.Solid.Mesh()
		for _, v := range corners {
			out = append(out, spot{letter, b.Pose.Out(v)})
		}
	}
	for _, w := range d.now {
		for _, u := range w.pair.Uses {
			for _, a := range u.Axes {
				out = append(out, spot{u.Fastener.Name() + " head", a.At}, spot{u.Fastener.Name() + " tip", a.At.Along(a.Way, u.Fastener.Length.MM())})
			}
		}
	}
	return out
}

// same compares two doings. The first board of one must come to lie on some board
// of that name of the other, in one of the sixteen ways its blank goes onto
// itself; each way carries everything else along, and is the answer if every spot
// then lies on one of its kind.
func (s *shop) same(a, b *doing) likeness {
	plain, twins, to := s.spots(a, false), s.spots(a, true), s.spots(b, false)
	if len(a.new) == 0 || len(a.new) != len(b.new) || len(plain) != len(to) {
		return unlike
	}
	first := s.piece.Boards[s.at[a.new[0]]]
	best := unlike
	for _, id := range b.new {
		other := s.piece.Boards[s.at[id]]
		if other.Name != first.Name {
			continue
		}
		for k := range 16 {
			m, isTurn := onto(first.Board, other.Board, k)
			switch {
			case isTurn && lands(plain, to, m):
				return turned
			case !isTurn && best == unlike && lands(twins, to, m):
				best = mirrored
			}
		}
	}
	return best
}

// A motion carries points of the piece about: from one place to another, with the
// axes of a frame there for those of a frame here, one of which may be reversed.
type motion struct {
	here, there geom.Vec
	in, out     [3]geom.Vec
}

func (m *motion) carry(p geom.Vec) geom.Vec {
	v := p.Minus(m.here)
	return m.there.Along(m.out[0], m.in[0].Dot(v)).Along(m.out[1], m.in[1].Dot(v)).Along(m.out[2], m.in[2].Dot(v))
}

// onto is way k, of sixteen, to carry the blank of a board onto that of another.
func onto(a, b *board.Board, k int) (m motion, isTurn bool) {
	middle := func(x *board.Board) geom.Vec { return x.Pose.Out(x.Solid.Box.Middle()) }
	m = motion{middle(a), middle(b), [3]geom.Vec{a.Pose.X, a.Pose.Y, a.Pose.Z}, [3]geom.Vec{b.Pose.X, b.Pose.Y, b.Pose.Z}}
	isTurn = true
	for i := range m.out {
		if k>>i&1 == 1 {
			m.out[i] = m.out[i].Negated()
			isTurn = !isTurn
		}
	}
	if k >= 8 {
		m.out[1], m.out[2] = m.out[2], m.out[1]
		isTurn = !isTurn
	}
	return m, isTurn
}

// lands reports whether a motion carries every spot onto one of its kind. It may
// take another way round a board each time, so one spot may be hit twice; boards
// that lie apart cannot be hit by the corners of one.
func lands(from, to []spot, m motion) bool {
	for _, f := range from {
		at := m.carry(f.at)
		hit := false
		for _, t := range to {
			if t.of == f.of && at.Distance(t.at) <= geom.Alike {
				hit = true
				break
			}
		}
		if !hit {
			return false
		}
	}
	return true
}
