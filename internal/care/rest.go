package care

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"scantling/internal/design"
	"scantling/internal/geom"
	"scantling/internal/snag"
)

const inch = 25.4 // mm

// usualSpan returns how far a board of a thickness usually reaches between its
// supports when something lies on it, all in mm: 16 in at 3/4, 24 at 1, 36 at
// 1 1/2, in between in proportion; 24 times the thickness of thicker ones, and
// 64/3 times that of thinner. Source: common practice for shelves and seats; a
// frame every 3 ft under decks of two-by stock is read in a trade account of a
// garden bench.
func usualSpan(thick float64) float64 {
	known := [...][2]float64{{0.75 * inch, 16 * inch}, {1 * inch, 24 * inch}, {1.5 * inch, 36 * inch}}
	first, last := known[0], known[len(known)-1]
	switch {
	case thick <= first[0]:
		return float64(first[1] * thick / first[0])
	case thick >= last[0]:
		return float64(last[1] * thick / last[0])
	}
	for i := 1; ; i++ {
		if low, high := known[i-1], known[i]; thick <= high[0] {
			return low[1] + float64((high[1]-low[1])*(thick-low[0])/(high[0]-low[0]))
		}
	}
}

// A single board narrower than this, in mm, that lies flat is a stretcher and not
// a seat. Assumed.
const plank = 5 * inch

// spans tells boards something can be put on that reach too far between what
// carries them: those of rows, and single planks.
func (c *checker) spans() {
	var t tally
	for i, b := range c.boards {
		if !level(b) || !c.open(i) || b.Row == 0 && b.W.MM() < plank {
			continue
		}
		run, most := c.longest(i), usualSpan(b.T.MM())
		if above(run, most) {
			c.add(&t, i, run, func() snag.Snag {
				is, limit := c.over(run, most)
				return snag.Snag{Code: "span-long", Severity: snag.Caution,
					What: fmt.Sprintf("the %s reaches %s between what carries it, and boards %s thick usually reach %s", b.Spoken, is, c.length(b.T.MM()), limit),
					Why:  "a longer board gives under a person and may break at a knot: " + practice,
					Mends: []snag.Mend{snag.Say("put a support in the middle, so that it reaches " + c.length(run/2)),
						snag.Say(fmt.Sprintf("or use boards %s thick", c.length(thickFor(run))))}}
			})
		}
	}
	c.tell(&t)
}

// thickFor returns the least thickness sold whose usual span is run, in mm.
func thickFor(run float64) float64 {
	for _, t := range [...]float64{0.75, 1, 1.5, 2.5, 3.5} {
		if usualSpan(t*inch) >= run {
			return t * inch
		}
	}
	return run / 24
}

// longest returns the longest stretch of a board's grain, in mm, between two
// stretches that lie on something or are fastened; 0 with fewer than two.
func (c *checker) longest(i int) float64 {
	var on [][2]float64
	for _, h := range c.holds[i] {
		if h.other >= 0 && (h.fastened || h.out.Z < -math.Sqrt2/2) {
			on = append(on, [2]float64{h.low, h.high})
		}
	}
	slices.SortFunc(on, func(a, b [2]float64) int { return cmp.Compare(a[0], b[0]) })
	run, reached := 0.0, math.Inf(1)
	for _, s := range on {
		run = math.Max(run, s[0]-reached)
		if math.IsInf(reached, 1) {
			reached = s[1]
		}
		reached = math.Max(reached, s[1])
	}
	return run
}

// A table's top has nothing but a rim standing higher: what stands more than
// this above it, in mm, is the back of a seat or the like. Assumed.
const rim = 4 * inch

// A seat or top is at least so high, in mm; lower boards are shelves. Assumed.
const lowestTop = 12 * inch

// feet tells feet that stand out past the top: past the outline, seen from
// above, of all seats and tops and what edges them. Seats with a back are left
// out: their feet stand behind them lest they tip.
func (c *checker) feet() {
	top, highest := math.Inf(-1), math.Inf(-1)
	for i, b := range c.boards {
		highest = math.Max(highest, c.box[i].High.Z)
		if level(b) && c.open(i) {
			top = math.Max(top, c.box[i].High.Z)
		}
	}
	if top < lowestTop || highest-top > rim {
		return
	}
	var points []geom.Vec
	for i, b := range c.boards {
		if level(b) && (flat(b) && c.box[i].High.Z >= lowestTop || c.box[i].High.Z > top-inch) {
			points = append(points, corners(b)...)
		}
	}
	outline := hull(points)
	var t tally
	for i, b := range c.boards {
		if c.box[i].Low.Z > standsOn {
			continue
		}
		for _, p := range corners(b) {
			if p.Z > standsOn {
				continue
			}
			if past, side := outside(outline, p); above(past, 0) {
				c.add(&t, i, past, func() snag.Snag { return c.pastTop(b, past, side) })
			}
		}
	}
	c.tell(&t)
}

func (c *checker) pastTop(b *design.Board, past float64, side string) snag.Snag {
	return snag.Snag{Code: "feet-past-top", Severity: snag.Caution,
		What: fmt.Sprintf("the foot of the %s stands out %s past the top, to the %s", b.Spoken, c.fine(past), side),
		Why:  "toes find such a foot, and the piece takes more room than its top: its size is that of everything. " + practice,
		Mends: []snag.Mend{snag.Say("set it in by " + c.fine(past)),
			snag.Say("or let it lean less, or the top reach further")}}
}

// corners returns the corners of a board in the piece.
func corners(b *design.Board) []geom.Vec {
	at, _ := b.Solid.Mesh()
	out := make([]geom.Vec, len(at))
	for i, p := range at {
		out[i] = b.Pose.Out(p)
	}
	return out
}

// hull returns the corners of the convex outline of points seen from above,
// anticlockwise.
func hull(points []geom.Vec) []geom.Vec {
	slices.SortFunc(points, func(a, b geom.Vec) int { return cmp.Or(cmp.Compare(a.X, b.X), cmp.Compare(a.Y, b.Y)) })
	turn := func(a, b, p geom.Vec) float64 {
		return float64((b.X-a.X)*(p.Y-a.Y)) - float64((b.Y-a.Y)*(p.X-a.X))
	}
	half := func(points []geom.Vec) []geom.Vec {
		var out []geom.Vec
		for _, p := range points {
			for len(out) > 1 && turn(out[len(out)-2], out[len(out)-1], p) <= 0 {
				out = out[:len(out)-1]
			}
			out = append(out, p)
		}
		return out[:max(0, len(out)-1)]
	}
	lower := half(points)
	slices.Reverse(points)
	return append(lower, half(points)...)
}

// outside returns how far a point lies outside a convex outline, in mm, square
// to the side it is furthest past, and the word for that side; less than 0 is
// inside.
func outside(outline []geom.Vec, p geom.Vec) (past float64, side string) {
	past = math.Inf(-1)
	for i, a := range outline {
		b := outline[(i+1)%len(outline)]
		n := geom.Vec{X: b.Y - a.Y, Y: a.X - b.X}
		if n.Length() < geom.Touch {
			continue
		}
		n = n.Unit()
		if d := n.Dot(geom.Vec{X: p.X - a.X, Y: p.Y - a.Y}); d > past {
			past, side = d, word(n)
		}
	}
	return past, side
}

// word names the level direction nearest to n.
func word(n geom.Vec) string {
	switch {
	case n.X > math.Abs(n.Y):
		return "right"
	case -n.X > math.Abs(n.Y):
		return "left"
	case n.Y > 0:
		return "back"
	}
	return "front"
}
