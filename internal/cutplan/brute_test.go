package cutplan

import (
	"context"
	"math"
	"testing"

	"pgregory.net/rapid"

	"scantling/internal/measure"
)

// A yard is a small job of one stock for which every plan can be tried.
type yard struct {
	job    Job
	pieces []Part // one by one
}

// drawn draws up to most pieces as wide as their stock.
func drawn(t *rapid.T, most int, slopes []measure.Length) yard {
	y := yard{job: Job{
		Kerf:   rapid.SampledFrom([]measure.Length{0, in / 8, in / 16}).Draw(t, "kerf"),
		Trim:   rapid.SampledFrom([]measure.Length{0, in / 2}).Draw(t, "trim"),
		Stocks: []Stock{{Name: "2x4", Width: 3*in + in/2}}}}
	for _, l := range []measure.Length{36, 48, 61} {
		y.job.Stocks[0].Offers = append(y.job.Stocks[0].Offers, Offer{l * in, measure.Money(rapid.IntRange(200, 600).Draw(t, "price")), 0})
	}
	if rapid.Bool().Draw(t, "offcut") {
		y.job.Stocks[0].Offers = append(y.job.Stocks[0].Offers, Offer{20 * in, 0, 1})
	}
	for n := rapid.IntRange(1, most).Draw(t, "pieces"); len(y.pieces) < n; {
		p := Part{Name: string(rune('A' + len(y.job.Parts))), Count: rapid.IntRange(1, n-len(y.pieces)).Draw(t, "count"), Width: 3*in + in/2,
			Length: measure.Length(rapid.IntRange(6*4, 30*4).Draw(t, "length")) * in / 4}
		p.Start = rapid.SampledFrom(slopes).Draw(t, "start")
		p.End = rapid.SampledFrom([]measure.Length{0, p.Start, -p.Start}).Draw(t, "end")
		y.job.Parts = append(y.job.Parts, p)
		for range p.Count {
			y.pieces = append(y.pieces, p)
		}
	}
	return y
}

// cheapest tries every way to share the pieces out to boards.
func (y *yard) cheapest() measure.Money {
	least := make([]measure.Length, 1<<len(y.pieces)) // length a set of pieces takes up
	for set := range least {
		if set > 0 {
			least[set] = y.shortest(set, -1, 0, map[[3]int]measure.Length{})
		}
	}
	best := measure.Money(math.MaxInt64)
	used := make([]int, len(y.job.Stocks[0].Offers))
	var share func(left int, cost measure.Money)
	share = func(left int, cost measure.Money) {
		if cost >= best {
			return
		}
		if left == 0 {
			best = cost
			return
		}
		first := left & -left
		for set := left; set > 0; set = (set - 1) & left {
			if set&first == 0 {
				continue
			}
			for o, offer := range y.job.Stocks[0].Offers {
				if least[set] <= offer.Length-y.job.Trim && (offer.Limit == 0 || used[o] < offer.Limit) {
					used[o]++
					share(left&^set, cost+offer.Price)
					used[o]--
				}
			}
		}
	}
	share(len(least)-1, 0)
	return best
}

// shortest returns how far the pieces of a set reach at best from the end of
// the piece last (-1: from the squared end), whose end slopes by slope: every
// order and every way of turning is tried. Lengths run along the near edge.
func (y *yard) shortest(set, last int, slope measure.Length, memo map[[3]int]measure.Length) measure.Length {
	if set == 0 {
		return max(0, slope)
	}
	key := [3]int{set, last, int(slope)}
	if l, ok := memo[key]; ok {
		return l
	}
	best := measure.Length(math.MaxInt64 / 2)
	for i, p := range y.pieces {
		if set&(1<<i) == 0 {
			continue
		}
		for _, ends := range [][2]measure.Length{{p.Start, p.End}, {p.End, p.Start}, {-p.Start, -p.End}, {-p.End, -p.Start}} {
			a, b := ends[0], ends[1]
			start := max(0, -a) // against the squared end
			if last >= 0 {
				gap := max(y.kerf(slope), y.kerf(a))
				start = gap + max(0, slope-a)
			}
			end := start + p.Length - max(0, b) + min(0, a)
			best = min(best, end+y.shortest(set&^(1<<i), i, b, memo))
		}
	}
	memo[key] = best
	return best
}

// kerf returns the kerf along the grain of a cut that slopes, in whole 1/64 in
// rounded up, as plans count it.
func (y *yard) kerf(slope measure.Length) measure.Length {
	w := y.job.Stocks[0].Width.Inches()
	exact := y.job.Kerf.Inches() * math.Hypot(w, slope.Inches()) / w * 64
	return measure.Length(math.Ceil(exact-1e-9)) * in / 64
}

// many checks a property of thousands of drawn jobs.
func many(t *testing.T, property func(*rapid.T)) {
	rapid.Check(t, func(t *rapid.T) {
		for range 20 {
			property(t)
		}
	})
}

// Square parts as wide as their stock: the plan must be the very cheapest, and
// say so.
func TestSquarePartsAgainstEveryPlan(t *testing.T) {
	many(t, func(t *rapid.T) {
		y := drawn(t, 6, []measure.Length{0})
		plan, err := Solve(context.Background(), y.job, Options{})
		if err != nil {
			t.Fatal(err)
		}
		if best := y.cheapest(); plan.Cost != best || !plan.Optimal {
			t.Fatalf("cost %d, bound %d; the cheapest of all plans costs %d", plan.Cost, plan.Bound, best)
		}
	})
}

// Sloping ends: no plan may beat the bound, none may be claimed cheapest that
// is not, and parts which all slope alike must come out cheapest.
func TestSlopingPartsAgainstEveryPlan(t *testing.T) {
	slack, proved := 0, 0
	many(t, func(t *rapid.T) {
		slopes := rapid.SampledFrom([][]measure.Length{{0, 2 * in}, {0, in, -2 * in}, {0, 3 * in / 4, -3 * in / 4}}).Draw(t, "slopes")
		y := drawn(t, 6, slopes)
		plan, err := Solve(context.Background(), y.job, Options{})
		if err != nil {
			t.Fatal(err)
		}
		best := y.cheapest()
		if plan.Cost < best || plan.Bound > best || plan.Optimal && plan.Cost != best {
			t.Fatalf("cost %d, bound %d, said cheapest: %t; the cheapest of all plans costs %d", plan.Cost, plan.Bound, plan.Optimal, best)
		}
		alike := y.job.Kerf == 0 // a kerf on a slope is counted up to 1/64 in too long
		for _, p := range y.job.Parts {
			alike = alike && (p.Start == p.End || p.Start == -p.End) && max(p.Start, -p.Start) == max(y.job.Parts[0].Start, -y.job.Parts[0].Start)
		}
		if alike && plan.Cost != best {
			t.Fatalf("all ends slope alike and the plan costs %d, not %d", plan.Cost, best)
		}
		if plan.Cost > best {
			slack++
		}
		if plan.Optimal {
			proved++
		}
	})
	if proved == 0 {
		t.Error("no plan was proved: the bound says nothing")
	}
	t.Logf("%d proved, %d dearer than the best", proved, slack)
}
