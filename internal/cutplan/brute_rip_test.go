package cutplan

import (
	"context"
	"math"
	"math/bits"
	"math/rand/v2"
	"testing"

	"scantling/internal/measure"
)

// A ripYard is a small job of square parts, some side by side, for which every
// layout of sections, strips and pieces can be tried.
type ripYard struct {
	job    Job
	pieces []Part // one by one
}

func ripYardOf(r *rand.Rand, most int) ripYard {
	kerf := []measure.Length{0, in / 8}[r.IntN(2)]
	y := ripYard{job: Job{Kerf: kerf, Stocks: []Stock{{Name: "2x6", Width: 11 * in / 2}}}}
	for _, l := range []measure.Length{30, 40, 52} {
		y.job.Stocks[0].Offers = append(y.job.Stocks[0].Offers, Offer{l * in, measure.Money(200 + r.IntN(300)), 0})
	}
	if r.IntN(3) == 0 {
		y.job.Stocks[0].Offers = append(y.job.Stocks[0].Offers, Offer{20 * in, 0, 1})
	}
	for n := 1 + r.IntN(most); len(y.pieces) < n; {
		p := Part{Name: string(rune('A' + len(y.job.Parts))), Count: 1 + r.IntN(n-len(y.pieces)),
			Width:  []measure.Length{11 * in / 2, 4 * in, 5 * in / 2, 3 * in / 2}[r.IntN(4)],
			Length: measure.Length(6*4+r.IntN(22*4)) * in / 4}
		y.job.Parts = append(y.job.Parts, p)
		for range p.Count {
			y.pieces = append(y.pieces, p)
		}
	}
	return y
}

// cheapest tries every way to share the pieces out to boards.
func (y *ripYard) cheapest() measure.Money {
	all := 1 << len(y.pieces)
	section, board := make([]measure.Length, all), make([]measure.Length, all)
	for set := 1; set < all; set++ {
		section[set] = y.section(set, set, 0, -y.job.Kerf)
		board[set] = section[set]
		for part := (set - 1) & set; part > 0; part = (part - 1) & set {
			board[set] = min(board[set], section[part]+y.job.Kerf+board[set&^part])
		}
	}
	best := make([]measure.Money, all<<1) // by pieces left, and whether the offcut is taken
	for i := range best {
		best[i] = math.MaxInt64 / 2
	}
	best[0], best[1] = 0, 0
	for left := 1; left < all; left++ {
		for taken := range 2 {
			first := left & -left
			for set := left; set > 0; set = (set - 1) & left {
				if set&first == 0 {
					continue
				}
				for _, o := range y.job.Stocks[0].Offers {
					if board[set] > o.Length || o.Limit > 0 && taken == 1 {
						continue
					}
					now := taken
					if o.Limit > 0 {
						now = 1
					}
					best[left<<1|taken] = min(best[left<<1|taken], o.Price+best[(left&^set)<<1|now])
				}
			}
		}
	}
	return best[(all-1)<<1]
}

// section returns the least length of a section that holds the pieces of set, of
// which those in left are not yet in a strip; the strips so far are as long as
// longest and reach to edge.
func (y *ripYard) section(set, left int, longest, edge measure.Length) measure.Length {
	if left == 0 {
		return longest
	}
	best := measure.Length(math.MaxInt64 / 4)
	first := left & -left
	for strip := left; strip > 0; strip = (strip - 1) & left {
		if strip&first == 0 {
			continue
		}
		var wide measure.Length
		long := -y.job.Kerf
		for s := strip; s > 0; s &= s - 1 {
			p := y.pieces[bits.TrailingZeros(uint(s))]
			wide, long = max(wide, p.Width), long+p.Length+y.job.Kerf
		}
		if next := edge + y.job.Kerf + wide; next <= y.job.Stocks[0].Width && long < best {
			best = min(best, y.section(set, left&^strip, max(longest, long), next))
		}
	}
	return best
}

// Parts side by side: no layout of sections and strips costs less than the bound,
// no plan is called cheapest that is not, and nearly all are.
func TestRippedPartsAgainstEveryPlan(t *testing.T) {
	const jobs = 1500
	dearer, proved := 0, 0
	for n := range jobs {
		y := ripYardOf(rand.New(rand.NewPCG(11, uint64(n))), 6)
		plan, err := Solve(context.Background(), y.job, Options{})
		if err != nil {
			t.Fatal(err)
		}
		best := y.cheapest()
		if plan.Cost < best || plan.Bound > best || plan.Optimal && plan.Cost != best {
			t.Fatalf("job %d: cost %d, bound %d, said cheapest: %t; the cheapest of all plans costs %d\n%+v", n, plan.Cost, plan.Bound, plan.Optimal, best, y.job.Parts)
		}
		if plan.Cost > best {
			dearer++
		}
		if plan.Optimal {
			proved++
		}
	}
	if dearer > jobs/50 || proved < jobs*3/4 {
		t.Errorf("of %d jobs %d are dearer than the best, and %d proved", jobs, dearer, proved)
	}
	t.Logf("of %d jobs %d are dearer than the best, and %d proved", jobs, dearer, proved)
}
