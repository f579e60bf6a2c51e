package cutcheck

import (
	"fmt"
	"slices"

	"scantling/internal/measure"
)

// checkBound adds up the proofs and goes through each.
func checkBound(c *Claim, costs []measure.Money, r *Report) {
	group := make([]int, len(c.Stocks)) // the proof that speaks of each stock
	for s := range group {
		group[s] = -1
	}
	for k, p := range c.Proofs {
		for _, s := range p.Stocks {
			if s < 0 || s >= len(c.Stocks) || group[s] >= 0 {
				r.fault("proof %d speaks of stock %d, which there is not or another speaks of", k+1, s)
				return
			}
			group[s] = k
		}
	}
	if s := slices.Index(group, -1); s >= 0 {
		r.fault("no proof speaks of stock %d", s)
		return
	}
	for i, p := range c.Parts {
		first := -1 // the proof that speaks of the part
		for s := range c.Stocks {
			if p.Count == 0 || !c.fits(p, s) {
				continue
			}
			if first >= 0 && group[s] != first {
				r.fault("part %d comes from stocks of two proofs", i)
				return
			}
			first = group[s]
		}
	}
	var bound measure.Money
	r.BoundVerified = true
	for k, p := range c.Proofs {
		bound += p.Bound
		var cost measure.Money
		for _, s := range p.Stocks {
			cost += costs[s]
		}
		if p.Bound > cost {
			r.fault("proof %d: bound %d cents above the cost of %d", k+1, p.Bound, cost)
			continue
		}
		if proves(c, p, k+1, r) {
			continue
		}
		r.BoundVerified = false
		if !p.Searched {
			r.fault("proof %d: the figures do not prove that boards cost %d cents at least", k+1, p.Bound)
		}
	}
	if bound != c.Bound {
		r.fault("the bounds add up to %d cents, not %d", bound, c.Bound)
	}
	if c.Bound > c.Cost {
		r.fault("the bound of %d cents is above the cost of %d", c.Bound, c.Cost)
	}
	if c.Optimal != (c.Bound == c.Cost) {
		r.fault("said to be the cheapest: %t, with cost %d cents and bound %d", c.Optimal, c.Cost, c.Bound)
	}
}

// proves reports whether no purchase for less than p.Bound passes every row and
// lies outside every tree. Rows and trees that do not hold are faults.
func proves(c *Claim, p Proof, name int, r *Report) bool {
	if p.Bound < 0 {
		return false
	}
	a := &argument{}
	var sizings []*sizing
	parts := 0
	for _, s := range p.Stocks {
		a.offers = append(a.offers, c.Stocks[s].Offers...)
		z := measured(c, s, len(p.Stocks) == 1, Middle, nil)
		sizings = append(sizings, z)
		parts += len(z.members)
	}
	if parts == 0 {
		if len(p.Rows)+len(p.Trees) > 0 {
			r.fault("proof %d has no parts, and an argument", name)
		}
		return p.Bound == 0
	}
	sound := true
	for k, row := range p.Rows {
		what := weighed(c, p.Stocks, row)
		if what != "" {
			r.fault("proof %d, row %d: %s", name, k+1, what)
			sound = false
			continue
		}
		a.needs = append(a.needs, row.Need)
		a.holds = append(a.holds, row.Holds)
	}
	for k, t := range p.Trees {
		what := "a tree speaks of one stock"
		if len(p.Stocks) == 1 {
			what = sizings[0].refutes(c, p.Stocks[0], t)
		}
		if what != "" {
			r.fault("proof %d, tree %d: %s", name, k+1, what)
			sound = false
			continue
		}
		a.trees = append(a.trees, t.Boards)
	}
	a.taken = make([]int, len(a.offers))
	return sound && a.refuted(0, int64(p.Bound)-1, a.needs)
}

// weighed goes through a row: what the parts need and what boards hold. It
// returns what is wrong with it, or nothing.
func weighed(c *Claim, stocks []int, row Row) string {
	if len(row.Shares) != len(stocks) || len(row.By) != len(stocks) {
		return fmt.Sprintf("%d lists of shares and %d ways for %d stocks", len(row.Shares), len(row.By), len(stocks))
	}
	if len(row.Weights) != len(c.Parts) {
		return fmt.Sprintf("%d weights for %d parts", len(row.Weights), len(c.Parts))
	}
	var need int64
	for j, w := range row.Weights {
		part := c.Parts[j]
		switch mine := part.Count > 0 && slices.ContainsFunc(stocks, func(s int) bool { return c.fits(part, s) }); {
		case w < 0 || w > 1<<36:
			return fmt.Sprintf("part %d weighs %d", j, w)
		case !mine && w != 0:
			return fmt.Sprintf("part %d weighs %d, and is none of these stocks", j, w)
		}
		if need += w * int64(part.Count); need > 1<<36*100000 {
			return "the weights are too great to add"
		}
	}
	if need != row.Need {
		return fmt.Sprintf("the parts weigh %d, not %d", need, row.Need)
	}
	var sizings []*sizing
	for k, s := range stocks {
		if wrong := conservative(c, s, row.By[k], row.Shares[k]); wrong != "" {
			return wrong
		}
		sizings = append(sizings, measured(c, s, len(stocks) == 1, row.By[k], row.Shares[k]))
	}
	stepped(sizings)
	var holds []int64
	for k, z := range sizings {
		weights := row.Weights
		if row.By[k] == Lanes {
			if weights = z.raised(weights, row.Shares[k]); weights == nil {
				return fmt.Sprintf("a part that is met by no line of stock %d has a weight", stocks[k])
			}
		}
		holds = append(holds, z.holds(c, weights)...)
	}
	if !slices.Equal(holds, row.Holds) {
		return fmt.Sprintf("boards hold %v, not %v", holds, row.Holds)
	}
	return ""
}

// raised returns what parts weigh on a single line along the board, when the
// given shares of lines weigh what the row says; nil when none can.
func (z *sizing) raised(weights, shares []int64) []int64 {
	out := make([]int64, len(weights))
	for _, m := range z.members {
		w, share := weights[m.part], shares[m.part]
		if w > 0 && share <= 0 {
			return nil
		}
		if w > 0 {
			out[m.part] = (w*whole + share - 1) / share
		}
	}
	return out
}

// An argument asks whether a purchase exists: holds[r][o] is how much of row r's
// weight one board of offer o can hold.
type argument struct {
	offers []Offer
	needs  []int64
	holds  [][]int64
	trees  [][]int // purchases refuted by a tree
	taken  []int
}

// refuted reports whether no purchase of offers from o on, for at most budget
// cents, meets all needs.
func (a *argument) refuted(o int, budget int64, needs []int64) bool {
	if budget < 0 {
		return true
	}
	met := true
	for r, need := range needs {
		met = met && need <= 0
		if need > 0 && a.short(r, o, budget, need) {
			return true
		}
	}
	if o == len(a.offers) {
		return !met || a.inTree()
	}
	if met && len(a.trees) == 0 {
		return false
	}
	offer := a.offers[o]
	left := append([]int64(nil), needs...)
	defer func() { a.taken[o] = 0 }()
	for n := 0; offer.Limit == 0 || n <= offer.Limit; n++ {
		a.taken[o] = n
		if !a.refuted(o+1, budget-int64(n)*int64(offer.Price), left) {
			return false
		}
		if int64(n)*int64(offer.Price) > budget {
			return true
		}
		for r := range left {
			left[r] -= a.holds[r][o]
		}
	}
	return true
}

// inTree reports whether the purchase taken is part of one a tree refutes.
func (a *argument) inTree() bool {
	for _, t := range a.trees {
		part := true
		for o, n := range a.taken {
			part = part && n <= t[o]
		}
		if part {
			return true
		}
	}
	return false
}

// short reports whether row r's need is out of reach: free boards all taken and
// the budget spent, in fractions of boards, on the offer that holds most for
// its price.
func (a *argument) short(r, o int, budget, need int64) bool {
	for k := o; k < len(a.offers); k++ {
		if a.offers[k].Price == 0 {
			need -= int64(a.offers[k].Limit) * a.holds[r][k]
		}
	}
	if need <= 0 {
		return false
	}
	for k := o; k < len(a.offers); k++ {
		if price := int64(a.offers[k].Price); price > 0 && float64(budget)*float64(a.holds[r][k])*(1+1e-12) >= float64(need)*float64(price) {
			return false
		}
	}
	return true
}

// A sizing is what the parts of one stock take up at least, in half marks, however
// they lie: length at mid-width and one kerf, times their share of the width.
// Where none do, boards that hold parts
// with both ends at the steepest slope lose its offset once between it and the
// square, less what a part with unlike ends can bridge.
type sizing struct {
	members []member
	lost    int64 // once by boards that hold sloped members
	kerf    int64
	ends    []int64 // what boards offer, a kerf counted to each, in steps
	alone   bool    // none abreast
	plain   bool    // square, and none abreast: lengths simply add
}

type member struct {
	part   int
	size   int64
	sloped bool
}

// mark is the finest length reckoned with.
func (c *Claim) mark() measure.Length {
	if c.Units == measure.Metric {
		return measure.Millimetre / 2
	}
	return measure.Inch / 64
}

func (c *Claim) up(l measure.Length) int64     { return int64((l + c.mark() - 1) / c.mark()) }
func (c *Claim) down(l measure.Length) int64   { return int64(l / c.mark()) }
func (c *Claim) offset(l measure.Length) int64 { return int64((max(l, -l) + c.mark()/2) / c.mark()) }

// measured sizes the parts that may come from stock s, the only one of its
// proof or not, by the given shares of its width; nil: each part takes it all.
func measured(c *Claim, s int, only bool, by Way, shares []int64) *sizing {
	z := &sizing{kerf: c.up(c.Kerf)}
	room := c.up(c.Stocks[s].Width) + z.kerf
	alone, square := true, true
	for _, p := range c.Parts {
		if c.fits(p, s) && p.Count > 0 {
			alone = alone && 2*(c.up(p.Width)+z.kerf) > room
			square = square && c.offset(p.Start) == 0 && c.offset(p.End) == 0
		}
	}
	z.alone, z.plain = alone, alone && square && only
	var steepest, steepWidth, bridged int64
	for _, p := range c.Parts {
		if !c.fits(p, s) || p.Count == 0 || !alone || !only {
			continue
		}
		if a, b := c.offset(p.Start), c.offset(p.End); a != b {
			bridged = max(bridged, a, b)
		} else if a > steepest {
			steepest, steepWidth = a, c.up(p.Width)
		}
	}
	z.lost = 2 * max(0, steepest-bridged)
	for _, o := range c.Stocks[s].Offers {
		z.ends = append(z.ends, 2*(c.down(o.Length-c.Trim-c.Reserve)+z.kerf))
	}
	for j, p := range c.Parts {
		if !c.fits(p, s) || p.Count == 0 {
			continue
		}
		m := member{part: j, size: 2*c.up(p.Length) - c.offset(p.Start) - c.offset(p.End) + 2*z.kerf}
		if by != Middle {
			m.size = max(0, m.size-c.offset(p.Start)-c.offset(p.End))
		}
		if shares != nil && by != Lanes {
			m.size = m.size * shares[j] / whole
		}
		m.sloped = z.lost > 0 && c.offset(p.Start) == steepest && c.offset(p.End) == steepest && c.up(p.Width) == steepWidth
		z.members = append(z.members, m)
	}
	return z
}

// whole is the share of a board's width that stands for all of it.
const whole = 5040

// conservative reports what is wrong with the shares of stock s, or nothing: that
// some parts that lie side by side count for more than the board, or that a share
// could be greater. At mid-width, where parts have sloping ends and two could lie
// side by side, a share is that of the width.
func conservative(c *Claim, s int, by Way, shares []int64) string {
	if by != Middle && by != Within && by != Lanes {
		return fmt.Sprintf("stock %d is measured in no way there is: %q", s, by)
	}
	if len(shares) != len(c.Parts) {
		return fmt.Sprintf("%d shares for %d parts", len(shares), len(c.Parts))
	}
	kerf := c.up(c.Kerf)
	room := c.up(c.Stocks[s].Width) + kerf
	given, pieces := map[int64]int64{}, map[int64]int{} // by width and kerf
	var steps []int64
	square, alone := true, true
	for j, p := range c.Parts {
		if !c.fits(p, s) || p.Count == 0 {
			if shares[j] != 0 {
				return fmt.Sprintf("part %d has a share of %d in stock %d, which it does not come from", j, shares[j], s)
			}
			continue
		}
		step := c.up(p.Width) + kerf
		if old, ok := given[step]; ok && old != shares[j] || shares[j] < 0 || shares[j] > whole {
			return fmt.Sprintf("part %d has a share of %d in stock %d, and another of its width %d", j, shares[j], s, old)
		} else if !ok {
			given[step] = shares[j]
			steps = append(steps, step)
		}
		pieces[step] += p.Count
		square = square && c.offset(p.Start) == 0 && c.offset(p.End) == 0
		alone = alone && 2*step > room
	}
	for _, step := range steps {
		if by == Middle && !square && !alone {
			if want := whole * step / room; given[step] != want {
				return fmt.Sprintf("a share of %d in stock %d is not the %d of its width", given[step], s, want)
			}
			continue
		}
		if abreast(steps, given, pieces, room) > whole {
			return fmt.Sprintf("parts side by side count for more than a board of stock %d", s)
		}
		given[step]++
		greatest := abreast(steps, given, pieces, room)
		given[step]--
		if greatest <= whole {
			return fmt.Sprintf("a share of %d in stock %d could be greater", given[step], s)
		}
	}
	return ""
}

// abreast returns the greatest sum of shares of parts that lie side by side, no
// more of a width than there are.
func abreast(steps []int64, given map[int64]int64, pieces map[int64]int, room int64) int64 {
	best := make([]int64, room+1)
	for _, step := range steps {
		for w := room; w >= step; w-- {
			for n := int64(1); n <= int64(pieces[step]) && n*step <= w; n++ {
				best[w] = max(best[w], best[w-n*step]+n*given[step])
			}
		}
	}
	return best[room]
}

// fine is how many steps of length a board may have, where parts lie side by side
// or come from several stocks: lengths are rounded down to steps, which never
// makes a board hold less.
const fine = 8192

// stepped divides the sizes of all stocks of a proof, and what boards offer, by
// one step: their greatest common divisor, or more if there are too many.
func stepped(sizings []*sizing) {
	var step, longest int64
	for _, z := range sizings {
		step = divisor(step, z.lost)
		for _, m := range z.members {
			step = divisor(step, m.size)
		}
		for _, e := range z.ends {
			longest = max(longest, e)
		}
	}
	step = max(1, step)
	coarse := len(sizings) > 1 || !sizings[0].alone
	if coarse && longest/step > fine {
		step = (longest + fine - 1) / fine
	}
	for _, z := range sizings {
		z.lost /= step
		for i := range z.members {
			z.members[i].size /= step
		}
		for o := range z.ends {
			z.ends[o] /= step
		}
	}
}

// holds returns for each offer the greatest weight one board can hold.
func (z *sizing) holds(c *Claim, weights []int64) []int64 {
	var longest int64
	for _, e := range z.ends {
		longest = max(longest, e)
	}
	plain := make([]int64, longest+1)
	for _, m := range z.members {
		if !m.sloped {
			pack(plain, m.size, weights[m.part], c.Parts[m.part].Count)
		}
	}
	sloped := make([]int64, longest+1)
	for l := range sloped {
		sloped[l] = -1
		if from := int64(l) - z.lost; from >= 0 {
			sloped[l] = plain[from]
		}
	}
	for _, m := range z.members {
		if m.sloped {
			pack(sloped, m.size, weights[m.part], c.Parts[m.part].Count)
		}
	}
	out := make([]int64, len(z.ends))
	for o, end := range z.ends {
		if end >= 0 {
			out[o] = max(plain[end], sloped[end])
		}
	}
	return out
}

// pack lets up to count pieces of one size and weight be taken, in lots of 1,
// 2, 4, … and the rest.
func pack(best []int64, size, weight int64, count int) {
	for lot := 1; count > 0; lot *= 2 {
		n := int64(min(lot, count))
		count -= int(n)
		for l := int64(len(best)) - 1; l >= n*size; l-- {
			if below := best[l-n*size]; below >= 0 {
				best[l] = max(best[l], below+n*weight)
			}
		}
	}
}

func divisor(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}
