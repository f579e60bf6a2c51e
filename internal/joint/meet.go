package joint

import (
	"fmt"

	"scantling/internal/design"
	"scantling/internal/geom"
	"scantling/internal/snag"
)

// A Meeting is two boards that touch, run into one another or nearly touch.
type Meeting struct {
	A, B     int            // places in Piece.Boards, A < B
	Contacts []geom.Contact // seen from A
	Area     float64        // mm², of all contacts
	Clash    *geom.Clash    // nil unless they share wood deeper than geom.Touch
	Gap      *geom.Gap      // nil unless they nearly touch
}

// Largest returns the contact of greatest area, seen from B when flipped.
func (m *Meeting) Largest(flipped bool) geom.Contact {
	var best geom.Contact
	for _, c := range m.Contacts {
		if c.Area > best.Area {
			best = c
		}
	}
	if flipped {
		best.Plane = best.Plane.Flipped()
		best.A, best.B = best.B, best.A
	}
	return best
}

// Meetings is every meeting of a piece's boards, in order of A, then B.
type Meetings struct {
	All   []Meeting
	piece *design.Piece
	at    map[[2]int]int
	of    map[int][]int // by board: its places in All
}

// Meet compares the boards of a piece, every two whose boxes lie within half a
// millimetre. Boards without a solid meet nothing.
func Meet(p *design.Piece) *Meetings {
	m := &Meetings{piece: p, at: map[[2]int]int{}, of: map[int][]int{}}
	var solid []int
	var boxes []geom.Box
	for i, b := range p.Boards {
		if b.Solid != nil && len(b.Solid.Cells) > 0 {
			solid = append(solid, i)
			boxes = append(boxes, b.Placed().Around())
		}
	}
	for _, pair := range geom.Pairs(boxes, geom.NearReach) {
		one := Meeting{A: solid[pair[0]], B: solid[pair[1]]}
		a, b := p.Boards[one.A].Placed(), p.Boards[one.B].Placed()
		if c, ok := geom.Overlap(a, b); ok && c.Depth > geom.Touch {
			one.Clash = &c
		}
		one.Contacts = geom.Contacts(a, b)
		for _, c := range one.Contacts {
			one.Area += c.Area
		}
		if one.Clash == nil && one.Contacts == nil {
			if g, ok := geom.Near(a, b); ok {
				one.Gap = &g
			}
		}
		if one.Clash != nil || one.Contacts != nil || one.Gap != nil {
			m.at[[2]int{one.A, one.B}] = len(m.All)
			m.of[one.A] = append(m.of[one.A], len(m.All))
			m.of[one.B] = append(m.of[one.B], len(m.All))
			m.All = append(m.All, one)
		}
	}
	return m
}

// Between returns the meeting of boards i and k of the piece, nil if there is
// none; flipped reports whether k is its first board.
func (m *Meetings) Between(i, k int) (meeting *Meeting, flipped bool) {
	if i > k {
		i, k, flipped = k, i, true
	}
	at, ok := m.at[[2]int{i, k}]
	if !ok {
		return nil, false
	}
	return &m.All[at], flipped
}

// Snags tells which boards share wood, an error, and which nearly touch, the
// commonest slip of a design. Both are of the live tier.
func (m *Meetings) Snags() snag.List {
	var out snag.List
	say := speaker{m.piece.Units}
	for _, x := range m.All {
		a, b := m.piece.Boards[x.A], m.piece.Boards[x.B]
		s := snag.Snag{Boards: []string{string(a.ID), string(b.ID)}, Tier: snag.Live}
		switch {
		case x.Clash != nil:
			s.Code, s.Severity = "clash", snag.Error
			s.What = fmt.Sprintf("the %s and the %s run into one another: %s deep, %s of wood", a.Spoken, b.Spoken, say.length(x.Clash.Depth), say.volume(x.Clash.Volume))
			s.Mends = []snag.Mend{
				snag.Say(fmt.Sprintf("move one of them by %s", say.length(x.Clash.Depth))),
				snag.Say(fmt.Sprintf("or let one into the other: under cuts of %s write {notch round: %s}", a.Name, b.Name)),
			}
		case x.Gap != nil:
			s.Code, s.Severity = "nearly-touch", snag.Advice
			s.What = fmt.Sprintf("the %s and the %s nearly touch: they are %s apart", a.Spoken, b.Spoken, say.length(x.Gap.Apart))
			s.Why = "boards meant to touch are placed against one another; boards meant to stand apart need a gap that shows"
			s.Mends = []snag.Mend{snag.Say("place one against the other, or leave 1/16\" or more between them")}
		default:
			continue
		}
		out = append(out, s)
	}
	return out
}
