package care

import (
	"fmt"
	"math"
	"slices"

	"scantling/internal/geom"
	"scantling/internal/snag"
)

// Room a loose board may have to rattle in before nothing captures it any more,
// in mm. Assumed.
const rattle = 0.25 * inch

// A loose board standing on its edge or end wants to be captured when it is more
// than so many times as high as it is thick. Assumed.
const tippy = 3

// loose tells boards said to be loose that would not stay where they are: with
// nothing beneath them, with no support at one end, or on edge with nothing at
// both faces; and those something fastens.
func (c *checker) loose() {
	var falls, tips, tied tally
	for i, b := range c.boards {
		if !b.Loose {
			continue
		}
		for _, h := range c.holds[i] {
			if h.fastened {
				c.add(&tied, i, b.L, func() snag.Snag { return c.looseTied(i, h.other) })
			}
		}
		low, high := c.beneath(i)
		onFloor := c.box[i].Low.Z <= standsOn
		switch mid := float64(b.L / 2); {
		case high < low && !onFloor:
			c.add(&falls, i, b.L, func() snag.Snag {
				return snag.Snag{Code: "loose-board", Severity: snag.Error,
					What:  fmt.Sprintf("the %s is said to be loose, and nothing lies beneath it: it falls %s", b.Spoken, c.length(c.box[i].Low.Z)),
					Why:   "what nothing fastens lies on something, from its own weight",
					Mends: []snag.Mend{snag.Say("lay it on a board: end the groove under it with to:, or put a cleat there"), snag.Say("or take loose: yes out and fasten it")}}
			})
		case level(b) && !onFloor && (above(low, mid) || above(mid, high)):
			c.add(&tips, i, math.Max(low-mid, mid-high), func() snag.Snag {
				return snag.Snag{Code: "loose-board", Severity: snag.Caution,
					What:  fmt.Sprintf("the %s is loose and lies on less than half of its length: it is %s long, and rests from %s to %s", b.Spoken, c.length(b.L), c.length(low), c.length(high)),
					Why:   "a board tips over the last thing beneath it when its middle is past that",
					Mends: []snag.Mend{snag.Say("put a support under its other end"), snag.Say("or fasten it and take loose: yes out")}}
			})
		}
		if high := c.box[i].High.Z - c.box[i].Low.Z; !flat(b) && above(high, float64(tippy*b.T.MM())) && !c.captured(i) {
			c.add(&tips, i, high, func() snag.Snag {
				return snag.Snag{Code: "loose-board", Severity: snag.Caution,
					What:  fmt.Sprintf("the %s is loose and stands %s high on wood %s thick, with no board within %s of both its faces", b.Spoken, c.length(high), c.length(b.T.MM()), c.length(rattle)),
					Why:   "nothing keeps it from falling over; a groove or a stop on either side does",
					Mends: []snag.Mend{snag.Say("let its ends into grooves: housing:"), snag.Say("or put a stop at either face")}}
			})
		}
	}
	c.tell(&falls)
	c.tell(&tips)
	c.tell(&tied)
}

// beneath returns the stretch of a board's grain over which others lie under it,
// in mm from its start, however little of it they touch.
func (c *checker) beneath(i int) (low, high float64) {
	b := c.boards[i]
	low, high = math.Inf(1), math.Inf(-1)
	for _, k := range c.touching[i] {
		for _, touch := range geom.Contacts(b.Placed(), c.boards[k].Placed()) {
			if touch.Kind != geom.Area || touch.Plane.N.Z > -math.Sqrt2/2 {
				continue
			}
			for _, loop := range touch.Loops {
				for _, p := range loop {
					x := b.Pose.In(p).X
					low, high = math.Min(low, x), math.Max(high, x)
				}
			}
		}
	}
	return low, high
}

func (c *checker) looseTied(i, other int) snag.Snag {
	to := "hardware"
	if other >= 0 {
		to = "the " + c.boards[other].Spoken
	}
	return snag.Snag{Code: "loose-board", Severity: snag.Caution,
		What:  fmt.Sprintf("the %s is said to be loose, and it is fastened to %s", c.boards[i].Spoken, to),
		Why:   "a plan cannot say of one board that it lifts out and that it is screwed down",
		Mends: []snag.Mend{snag.Say("take loose: yes out, or take it out of the joint")}}
}

// captured reports whether other boards stop a board on either side of its faces.
func (c *checker) captured(i int) bool {
	b := c.boards[i]
	stopped := func(way float64) bool {
		moved := b.Placed()
		moved.Pose.At = moved.Pose.At.Along(b.Pose.Z, way)
		return slices.ContainsFunc(c.near(i), func(k int) bool {
			_, hits := geom.Overlap(moved, c.boards[k].Placed())
			return hits
		})
	}
	return stopped(rattle) && stopped(-rattle)
}

// near are the boards within a rattle of board i.
func (c *checker) near(i int) (out []int) {
	for k := range c.boards {
		if k != i && c.box[i].Meets(c.box[k], rattle) {
			out = append(out, k)
		}
	}
	return out
}
