package cutplan

import (
	"context"
	"testing"

	"pgregory.net/rapid"

	"scantling/internal/measure"
)

// Boards of 16 ft cost as much as two of 8 ft, so that cost alone does not
// decide: one long board is fewer to carry, and its leftover is in one piece.
func TestFewerBoardsAtTheSameCost(t *testing.T) {
	job := benchJob(7*in/2, Part{Count: 4, Length: 40 * in})
	job.Stocks[0].Offers = []Offer{{8 * ft, 500, 0}, {16 * ft, 1000, 0}}
	plan := solve(t, job)
	if plan.Cost != 1000 || len(plan.Boards) != 1 || !plan.Optimal {
		t.Errorf("%d boards for %d, want one of 16 ft for 1000", len(plan.Boards), plan.Cost)
	}
}

// Six parts of 30 in and two of 20 in come from three boards of 8 ft however
// they are dealt, 250 in of 286 1/2; dealt 30 30 30, 30 30 30 and 20 20, 55 1/4
// are left in one piece (by hand: 95 1/2 − 2·(20 + 1/8)).
func TestLongestLeftover(t *testing.T) {
	job := benchJob(7*in/2, Part{Count: 6, Length: 30 * in}, Part{Count: 2, Length: 20 * in})
	job.Stocks[0].Offers = job.Stocks[0].Offers[:1]
	plan := solve(t, job)
	var longest measure.Length
	for _, b := range plan.Boards {
		longest = max(longest, b.Sections[0].Lanes[0].Left)
	}
	if want := 55*in + in/4; len(plan.Boards) != 3 || longest != want {
		t.Errorf("%d boards, %.4g in left in one piece; want 3 and %.4g", len(plan.Boards), longest.Inches(), want.Inches())
	}
}

// A matched pair comes from one board when that costs nothing.
func TestTogether(t *testing.T) {
	job := benchJob(7*in/2, Part{Count: 2, Length: 44 * in, Together: true}, Part{Count: 2, Length: 45 * in})
	job.Stocks[0].Offers = job.Stocks[0].Offers[:1]
	plan := solve(t, job)
	for _, b := range plan.Boards {
		pieces := b.Sections[0].Lanes[0].Pieces
		if len(pieces) == 2 && pieces[0].Part != pieces[1].Part {
			t.Errorf("the pair is parted: %+v", pieces)
		}
	}
}

// Fewest cuts: one long board although two short ones are cheaper.
func TestFewestCuts(t *testing.T) {
	job := benchJob(7*in/2, Part{Count: 4, Length: 40 * in})
	cheap := solve(t, job)
	few, err := Solve(context.Background(), job, Options{FewestCuts: true})
	if err != nil {
		t.Fatal(err)
	}
	if len(few.Boards) != 1 || few.Cost != 1060 || few.Optimal || len(cheap.Boards) != 2 || cheap.Cost != 1000 {
		t.Errorf("fewest: %d boards for %d; cheapest: %d for %d; want 1 for 1060 and 2 for 1000", len(few.Boards), few.Cost, len(cheap.Boards), cheap.Cost)
	}
}

// A reserve for knots leaves no room for the second part: 2·47 + 1/8 of 95 1/2,
// less 2 (by hand).
func TestReserve(t *testing.T) {
	job := benchJob(7*in/2, Part{Count: 2, Length: 47 * in})
	if plan := solve(t, job); plan.Cost != 500 {
		t.Errorf("without a reserve: cost %d, want one 8 ft board for 500", plan.Cost)
	}
	job.Reserve = 2 * in
	if plan := solve(t, job); plan.Cost != 640 {
		t.Errorf("with 2 in for knots: cost %d, want one 10 ft board for 640", plan.Cost)
	}
}

// A narrow part comes from what a wider board leaves: a strip of 3 1/2 in off a
// board of 5 1/2 in that is bought for something else anyway, ripped past the
// 1 1/2 in parts beside it.
func TestFromAWiderStock(t *testing.T) {
	job := Job{Kerf: in / 8, Trim: in / 2, Stocks: []Stock{
		{Name: "2x4", Width: 7 * in / 2, Offers: []Offer{{8 * ft, 500, 0}}},
		{Name: "2x6", Width: 11 * in / 2, Offers: []Offer{{8 * ft, 800, 0}}}},
		Parts: []Part{{Name: "A", Stock: 1, Count: 1, Width: 11 * in / 2, Length: 50 * in},
			{Name: "B", Stock: 0, Or: []int{1}, Count: 1, Width: 7 * in / 2, Length: 40 * in}}}
	plan := solve(t, job)
	if plan.Cost != 800 || len(plan.Boards) != 1 || !plan.Optimal {
		t.Errorf("cost %d, bound %d, want both parts from one 2x6 for 800", plan.Cost, plan.Bound)
	}
	job.Parts[1].Or = nil
	if plan := solve(t, job); plan.Cost != 1300 {
		t.Errorf("each from its own: cost %d, want 1300", plan.Cost)
	}
}

// A further stock to come from never makes the boards dearer, nor what is left
// of boards sawn, and lost pieces are sawn again.
func TestMoreToChooseFrom(t *testing.T) {
	cheaper, free := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		job := Job{Kerf: in / 8, Stocks: []Stock{
			{Name: "narrow", Width: 7 * in / 2, Offers: []Offer{{8 * ft, measure.Money(rapid.IntRange(400, 700).Draw(t, "price")), 0}}},
			{Name: "wide", Width: 15 * in / 2, Offers: []Offer{{8 * ft, measure.Money(rapid.IntRange(600, 1100).Draw(t, "price")), 0}}}}}
		for i := range rapid.IntRange(1, 4).Draw(t, "parts") {
			s := rapid.IntRange(0, 1).Draw(t, "stock")
			job.Parts = append(job.Parts, Part{Name: string(rune('A' + i)), Stock: s, Count: rapid.IntRange(1, 3).Draw(t, "count"),
				Width: job.Stocks[s].Width, Length: measure.Length(rapid.IntRange(10, 60).Draw(t, "length")) * in})
		}
		apart, err := Solve(context.Background(), job, Options{})
		if err != nil {
			t.Fatal(err)
		}
		for i := range job.Parts {
			if job.Parts[i].Stock == 0 {
				job.Parts[i].Or = []int{1}
			}
		}
		plan, err := Solve(context.Background(), job, Options{})
		if err != nil {
			t.Fatal(err)
		}
		if plan.Cost > apart.Cost || plan.Bound > apart.Cost {
			t.Fatalf("from either stock the boards cost %d, bound %d; each from its own %d", plan.Cost, plan.Bound, apart.Cost)
		}
		if plan.Cost < apart.Cost {
			cheaper++
		}
		sawn := rapid.IntRange(1, len(plan.Boards)).Draw(t, "sawn")
		var which []int
		for k := range sawn {
			which = append(which, k)
		}
		lost := make([]int, len(job.Parts))
		lost[rapid.IntRange(0, len(lost)-1).Draw(t, "lost")] = 1
		rest, err := Solve(context.Background(), Resume(job, plan, which, lost), Options{})
		if err != nil {
			t.Fatal(err)
		}
		pieces := 0
		for _, boards := range [][]Board{plan.Boards[:sawn], rest.Boards} {
			for _, b := range boards {
				pieces += len(b.Pieces())
			}
		}
		want := 1
		for _, p := range job.Parts {
			want += p.Count
		}
		if pieces != want {
			t.Fatalf("%d pieces in all, want %d", pieces, want)
		}
		for _, b := range rest.Boards {
			if b.Price == 0 {
				free++
			}
		}
	})
	if cheaper == 0 || free == 0 {
		t.Errorf("%d times a wider stock helped, %d boards were leftovers: the property saw nothing", cheaper, free)
	}
}
