package cutcheck

import (
	"math/big"

	"scantling/internal/measure"
)

// checkBoard measures the lanes and pieces of one board and counts the parts.
func checkBoard(c *Claim, b Board, name string, count []int, r *Report) {
	width := c.Stocks[b.Stock].Width
	if len(b.Lanes) == 0 {
		r.fault("%s is bought and not sawn", name)
		return
	}
	edge := measure.Length(0)
	for i, l := range b.Lanes {
		if i > 0 {
			edge += c.Kerf
		}
		if l.Across != edge {
			r.fault("%s, lane %d begins %d nm from the edge; the one before and the kerf end at %d", name, i+1, l.Across, edge)
		}
		edge = l.Across + l.Width
		if edge > width {
			r.fault("%s, lane %d ends %d nm from the near edge and the board at %d", name, i+1, edge, width)
		}
		checkLane(c, b, l, name, count, r)
	}
	strip := max(0, width-edge-c.Kerf)
	if len(b.Lanes) == 1 && b.Lanes[0].Width == width {
		strip = 0
	}
	if b.Strip != strip {
		r.fault("%s: the strip beside the lanes is %d nm wide, not %d", name, strip, b.Strip)
	}
}

func checkLane(c *Claim, b Board, l Lane, name string, count []int, r *Report) {
	usable := b.Length - c.Trim - c.Reserve
	var far measure.Length
	if len(l.Pieces) == 0 {
		r.fault("%s has a lane with nothing on it", name)
	}
	for i, p := range l.Pieces {
		if p.Part < 0 || p.Part >= len(c.Parts) || !c.Parts[p.Part].from(b.Stock) {
			r.fault("%s, piece %d is no part of this stock", name, i+1)
			continue
		}
		count[p.Part]++
		part := c.Parts[p.Part]
		a, z := part.Start, part.End
		if p.Turned {
			a, z = z, a
		}
		if p.Over {
			a, z = -a, -z
		}
		first, last := p.Start+min(0, p.SlantStart), p.End+max(0, p.SlantEnd)
		switch {
		case last-first != part.Length:
			r.fault("%s, piece %d is %d nm long and part %d %d nm", name, i+1, last-first, p.Part, part.Length)
		case p.SlantStart != a || p.SlantEnd != z:
			r.fault("%s, piece %d slopes by %d and %d nm at its ends; part %d, lying so, by %d and %d", name, i+1, p.SlantStart, p.SlantEnd, p.Part, a, z)
		case p.Width != part.Width:
			r.fault("%s, piece %d is %d nm wide and part %d %d nm", name, i+1, p.Width, p.Part, part.Width)
		case first < 0 || last > usable:
			r.fault("%s, piece %d reaches from %d to %d nm; the squared board from 0 to %d", name, i+1, first, last, usable)
		case p.Across < l.Across || p.Across+p.Width > l.Across+l.Width:
			r.fault("%s, piece %d lies outside its lane", name, i+1)
		case l.Width != c.Stocks[b.Stock].Width && p.Width != l.Width:
			r.fault("%s, piece %d is narrower than the strip it is sawn from", name, i+1)
		}
		far = max(far, last)
		against := p.Across == l.Across
		for k, q := range l.Pieces {
			if k == i {
				continue
			}
			if !apart(c.Kerf, p, q) {
				r.fault("%s, pieces %d and %d lie less than the kerf apart", name, i+1, k+1)
			}
			against = against || q.Start == p.Start && p.Across == q.Across+q.Width+c.Kerf
		}
		if !against {
			r.fault("%s, piece %d lies neither at the lane's edge nor a kerf beside another", name, i+1)
		}
	}
	mark := c.mark()
	whole := func(x measure.Length) measure.Length { return x / mark * mark }
	if left := max(0, whole(b.Length-c.Trim)-far+whole(-c.Kerf-mark+1)); l.Left != left {
		r.fault("%s: %d nm are left of a lane, not %d", name, left, l.Left)
	}
}

// apart reports whether a saw cut parts p from q: beside each other by the kerf,
// or one before the other by it at both edges.
func apart(kerf measure.Length, p, q Piece) bool {
	if p.Across+p.Width+kerf <= q.Across || q.Across+q.Width+kerf <= p.Across {
		return true
	}
	return before(kerf, p, q) || before(kerf, q, p)
}

// before reports whether q begins past the end of p by the kerf of either cut.
func before(kerf measure.Length, p, q Piece) bool {
	near, far := q.Start-p.End, q.Start+q.SlantStart-p.End-p.SlantEnd
	if p.Across != q.Across || p.Width != q.Width { // edges do not line up: a square cut between
		near = q.Start + min(0, q.SlantStart) - p.End - max(0, p.SlantEnd)
		far = near
	}
	gap := min(near, far)
	return gap >= 0 && clears(kerf, gap, p.Width, p.SlantEnd) && clears(kerf, gap, q.Width, q.SlantStart)
}

// clears reports whether a gap along the grain holds a kerf sawn at the given
// slant across the width: gap·width ≥ kerf·√(width² + slant²).
func clears(kerf, gap, width, slant measure.Length) bool {
	n := func(l measure.Length) *big.Int { return big.NewInt(int64(l)) }
	square := func(x *big.Int) *big.Int { return new(big.Int).Mul(x, x) }
	left := square(new(big.Int).Mul(n(gap), n(width)))
	cut := new(big.Int).Add(square(n(width)), square(n(slant)))
	return left.Cmp(cut.Mul(cut, square(n(kerf)))) >= 0
}
