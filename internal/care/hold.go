package care

import (
	"fmt"
	"math"
	"slices"

	"scantling/internal/geom"
	"scantling/internal/joint"
	"scantling/internal/snag"
)

// standsOn is how far above the floor, in mm, wood still counts as standing on
// it.
const standsOn = geom.Touch

// floating tells boards that no other board or floor carries: nothing they touch
// leads down to the floor. They are told group by group.
func (c *checker) floating() {
	groups := c.groups()
	if len(groups) == 0 {
		return
	}
	carried := func(g []int) bool {
		return slices.ContainsFunc(g, func(i int) bool { return c.box[i].Low.Z <= standsOn })
	}
	if !slices.ContainsFunc(groups, carried) {
		if len(c.piece.Hardware) == 0 {
			c.nothingStands()
		}
		// The largest group is what the piece is.
		most := 0
		for k, g := range groups {
			if len(g) > len(groups[most]) {
				most = k
			}
		}
		groups = slices.Delete(groups, most, most+1)
	}
	for _, g := range groups {
		if !carried(g) {
			c.floats(g)
		}
	}
}

// groups are the boards that touch one another, directly or through others, in
// the order of their first boards.
func (c *checker) groups() [][]int {
	seen := make([]bool, len(c.boards))
	var out [][]int
	for i := range c.boards {
		if seen[i] {
			continue
		}
		seen[i] = true
		g := []int{i}
		for k := 0; k < len(g); k++ {
			for _, o := range c.touching[g[k]] {
				if !seen[o] {
					seen[o] = true
					g = append(g, o)
				}
			}
		}
		slices.Sort(g)
		out = append(out, g)
	}
	return out
}

func (c *checker) nothingStands() {
	lowest := 0
	for i := range c.box {
		if c.box[i].Low.Z < c.box[lowest].Low.Z {
			lowest = i
		}
	}
	z := c.box[lowest].Low.Z
	c.say(snag.Snag{Code: "nothing-stands", Severity: snag.Caution,
		What:  fmt.Sprintf("nothing stands on the floor: the lowest board, the %s, is %s above it", c.boards[lowest].Spoken, c.length(z)),
		Why:   "a piece stands on the floor or hangs from something bought for it",
		Mends: []snag.Mend{snag.Say("cut the feet to the floor: ends: {bottom: floor}"), snag.Say("or name under hardware what it hangs by, and the boards that is fixed to")}}, lowest)
}

// floats tells a group of boards that hang in the air.
func (c *checker) floats(g []int) {
	best, one, other := math.Inf(1), g[0], -1
	for _, i := range g {
		for k := range c.boards {
			if slices.Contains(g, k) || !c.box[i].Meets(c.box[k], math.Min(best, 1e9)) {
				continue
			}
			if d := joint.Apart(c.boards[i].Placed(), c.boards[k].Placed()); d < best {
				best, one, other = d, i, k
			}
		}
	}
	s := snag.Snag{Code: "board-floating", Severity: snag.Error,
		What: fmt.Sprintf("the %s hangs in the air, %s above the floor: nothing it touches stands there", c.boards[one].Spoken, c.length(c.box[one].Low.Z)),
		Why:  "every board rests on others down to the floor"}
	if n := len(g) - 1; n > 0 {
		s.What += fmt.Sprintf("; with it %s %d more", plural(n, "hangs", "hang"), n)
	}
	if other >= 0 {
		s.What += fmt.Sprintf(". The nearest board, the %s, is %s away", c.boards[other].Spoken, c.fine(best))
		s.Mends = []snag.Mend{snag.Say(fmt.Sprintf("place it against the %s, %s from where it is", c.boards[other].Spoken, c.fine(best)))}
	}
	s.Mends = append(s.Mends, snag.Say("or put a board between that touches both"))
	for _, i := range g {
		s.Boards = append(s.Boards, string(c.boards[i].ID))
	}
	c.say(s, one)
}

// fine prints a length that may be less than the tape shows.
func (c *checker) fine(mm float64) string {
	if mm > 0 && c.length(mm) == c.length(0) {
		return "less than " + c.length(c.tape.Step().MM())
	}
	return c.length(math.Max(0, mm))
}

// held tells boards that no fastener holds, and those that one support holds at
// one place only.
func (c *checker) held() {
	var loose, onePlace tally
	for i, b := range c.boards {
		if b.Loose {
			continue // see loose
		}
		var supports []int
		low, high := math.Inf(1), math.Inf(-1)
		for _, h := range c.holds[i] {
			if h.fastened {
				if !slices.Contains(supports, h.other) {
					supports = append(supports, h.other)
				}
				low, high = math.Min(low, h.low), math.Max(high, h.high)
			}
		}
		switch len(supports) {
		case 0:
			if len(c.touching[i]) > 0 || c.box[i].Low.Z <= standsOn {
				c.add(&loose, i, b.L, func() snag.Snag { return c.unfastened(i) })
			}
		case 1:
			run := high - low
			if free := b.L - run; above(free, 2*freeEnd*b.T.MM()) && run < b.L/2 {
				c.add(&onePlace, i, free, func() snag.Snag {
					return snag.Snag{Code: "board-not-held", Severity: snag.Caution,
						What: fmt.Sprintf("the %s is %s long and held by one board only, over %s of it", b.Spoken, c.length(b.L), c.length(run)),
						Why:  "a board wants fasteners into two supports, or into one along half of it: " + practice,
						Mends: []snag.Mend{snag.Say("fasten it to a second board, toward its other end"),
							snag.Say("or let it lie along the one that holds it")}}
				})
			}
		}
	}
	c.tell(&loose)
	c.tell(&onePlace)
}

// unfastened is about a board that no joint and no hardware holds: an error
// unless it lies on two others, or along one, and only may be lifted off.
func (c *checker) unfastened(i int) snag.Snag {
	b := c.boards[i]
	s := snag.Snag{Code: "board-not-held", Severity: snag.Error,
		What: fmt.Sprintf("no fastener holds the %s: it takes part in no joint", b.Spoken),
		Why:  "a board wants fasteners into two supports, or into one along half of it: " + practice}
	beneath, run := map[int]bool{}, 0.0
	mend := "name it in a joint with a board it touches"
	for _, h := range c.holds[i] {
		if h.other < 0 {
			continue
		}
		mend = fmt.Sprintf("write under joints: {join: [%s, %s], with: screw 8 x 2 1/2, through: %s}", b.Name, c.boards[h.other].Name, b.Name)
		if h.out.Z < -math.Sqrt2/2 {
			beneath[h.other] = true
			run += h.high - h.low
		}
	}
	if len(beneath) > 1 || run > b.L/2 {
		s.Severity = snag.Caution
		s.What = fmt.Sprintf("no fastener holds the %s: it lies loose on %s", b.Spoken, count(len(beneath), "board"))
	}
	s.Mends = []snag.Mend{snag.Say(mend), snag.Say("or say loose: yes, if it is to lift out; or leave the board out")}
	return s
}

// freeEnd is how many times its thickness a board may stick out past its last
// support. Source: common practice.
const freeEnd = 4

// freeEnds tells boards that lie flat, or in a row, and stick out too far past
// the last board they are fastened to or lie on.
func (c *checker) freeEnds() {
	var t tally
	for i, b := range c.boards {
		if !level(b) || !flat(b) && b.Row == 0 {
			continue
		}
		low, high := math.Inf(1), math.Inf(-1)
		for _, h := range c.holds[i] {
			if h.other >= 0 && (h.fastened || math.Abs(h.out.Dot(b.Pose.Z)) > math.Sqrt2/2) {
				low, high = math.Min(low, h.low), math.Max(high, h.high)
			}
		}
		if free, most := math.Max(low, b.L-high), freeEnd*b.T.MM(); high > low && above(free, most) {
			c.add(&t, i, free, func() snag.Snag {
				is, limit := c.over(free, most)
				return snag.Snag{Code: "free-end", Severity: snag.Caution,
					What: fmt.Sprintf("the %s sticks out %s past its last support, and %s is as far as a board %s thick should", b.Spoken, is, limit, c.length(b.T.MM())),
					Why:  "a free end longer than four times its thickness bends and splits under a person: " + practice,
					Mends: []snag.Mend{snag.Say("cut " + c.length(free-most) + " off that end, or move the support as far out"),
						snag.Say("or put another support under the end")}}
			})
		}
	}
	c.tell(&t)
}

func count(n int, what string) string { return fmt.Sprintf("%d %s", n, plural(n, what, what+"s")) }
