package cutcheck

import (
	"fmt"
	"math/big"

	"scantling/internal/measure"
)

// checkBoard measures the sections of one board and counts the parts.
func checkBoard(c *Claim, b Board, name string, count []int, r *Report) {
	end := b.Length - c.Trim
	end -= end % c.mark()
	if len(b.Sections) == 0 {
		r.fault("%s is bought and not sawn", name)
		return
	}
	from := measure.Length(0)
	for i, sec := range b.Sections {
		what := name
		if len(b.Sections) > 1 {
			what = fmt.Sprintf("%s, section %d", name, i+1)
		}
		if sec.From != from {
			r.fault("%s begins at %d nm; the one before and the kerf end at %d", what, sec.From, from)
		}
		last := i+1 == len(b.Sections)
		if last && sec.From+sec.Length != end {
			r.fault("%s reaches to %d nm and the board to %d", what, sec.From+sec.Length, end)
		}
		far := checkSection(c, b, sec, what, count, r)
		if !last && sec.From+sec.Length != far {
			r.fault("%s is crosscut at %d nm and its pieces end at %d", what, sec.From+sec.Length, far)
		}
		from = sec.From + sec.Length + c.wholeKerf()
	}
}

// wholeKerf is the kerf in whole marks, rounded up.
func (c *Claim) wholeKerf() measure.Length { return measure.Length(c.up(c.Kerf)) * c.mark() }

// checkSection measures the lanes of a section and returns how far they reach.
func checkSection(c *Claim, b Board, sec Section, name string, count []int, r *Report) (far measure.Length) {
	width := c.Stocks[b.Stock].Width
	if len(sec.Lanes) == 0 {
		r.fault("%s has no lane", name)
		return 0
	}
	edge := measure.Length(0)
	for i, l := range sec.Lanes {
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
		far = max(far, checkLane(c, b, sec, l, name, count, r))
	}
	strip := max(0, width-edge-c.Kerf)
	if len(sec.Lanes) == 1 && sec.Lanes[0].Width == width {
		strip = 0
	}
	if sec.Strip != strip {
		r.fault("%s: the strip beside the lanes is %d nm wide, not %d", name, strip, sec.Strip)
	}
	return far
}

// checkLane measures the pieces of a lane and returns how far they reach.
func checkLane(c *Claim, b Board, sec Section, l Lane, name string, count []int, r *Report) (far measure.Length) {
	usable := min(sec.From+sec.Length, b.Length-c.Trim-c.Reserve)
	if len(l.Pieces) == 0 {
		r.fault("%s has a lane with nothing on it", name)
	}
	var widest measure.Length
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
		case first < sec.From || last > usable:
			r.fault("%s, piece %d reaches from %d to %d nm; its section from %d to %d", name, i+1, first, last, sec.From, usable)
		case p.Across != l.Across || p.Width > l.Width:
			r.fault("%s, piece %d does not lie along the near edge of its lane", name, i+1)
		}
		far = max(far, last)
		widest = max(widest, p.Width)
		for k, q := range l.Pieces {
			if k != i && !apart(c.Kerf, p, q) {
				r.fault("%s, pieces %d and %d lie less than the kerf apart", name, i+1, k+1)
			}
		}
	}
	if l.Width != widest && l.Width != c.Stocks[b.Stock].Width {
		r.fault("%s, a lane of %d nm is neither all of the board nor as wide as its widest piece of %d", name, l.Width, widest)
	}
	if left := max(0, sec.From+sec.Length-far-c.wholeKerf()); l.Left != left {
		r.fault("%s: %d nm are left of a lane, not %d", name, left, l.Left)
	}
	return far
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
