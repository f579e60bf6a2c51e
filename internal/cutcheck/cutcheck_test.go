package cutcheck_test

import (
	"context"
	"fmt"
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"scantling/internal/claim"
	"scantling/internal/cutcheck"
	"scantling/internal/cutplan"
	"scantling/internal/measure"
)

const in = measure.Inch

// jobs draws small pieces of furniture: two stocks, rips, sloping ends.
func jobs(t *rapid.T) cutplan.Job {
	in, units := in, measure.Imperial
	if rapid.Bool().Draw(t, "metric") {
		in, units = 32*measure.Millimetre, measure.Metric // every size drawn is whole in half millimetres
	}
	job := cutplan.Job{Units: units, Kerf: rapid.SampledFrom([]measure.Length{in / 8, in * 3 / 32, 0}).Draw(t, "kerf"), Trim: rapid.SampledFrom([]measure.Length{0, in / 2}).Draw(t, "trim")}
	job.Reserve = rapid.SampledFrom([]measure.Length{0, 0, 2 * in}).Draw(t, "reserve")
	for s := range rapid.IntRange(1, 2).Draw(t, "stocks") {
		width := []measure.Length{in * 11 / 2, in * 29 / 4}[s]
		job.Stocks = append(job.Stocks, cutplan.Stock{Name: fmt.Sprint("stock ", s), Width: width, Offers: []cutplan.Offer{
			{Length: 96 * in, Price: measure.Money(rapid.IntRange(500, 700).Draw(t, "price"))},
			{Length: 144 * in, Price: measure.Money(rapid.IntRange(700, 1000).Draw(t, "price"))},
		}})
		if rapid.Bool().Draw(t, "offcut") {
			job.Stocks[s].Offers = append(job.Stocks[s].Offers, cutplan.Offer{Length: 40 * in, Limit: 2})
		}
	}
	for i := range rapid.IntRange(1, 6).Draw(t, "parts") {
		p := cutplan.Part{Name: string(rune('A' + i)), Stock: rapid.IntRange(0, len(job.Stocks)-1).Draw(t, "stock"),
			Count:  rapid.IntRange(1, 5).Draw(t, "count"),
			Width:  rapid.SampledFrom([]measure.Length{in * 11 / 2, in * 11 / 2, 4 * in, in * 5 / 2, in * 3 / 2}).Draw(t, "width"),
			Length: measure.Length(rapid.IntRange(8*16, 60*16).Draw(t, "length")) * in / 16}
		if p.Stock == 1 && rapid.Bool().Draw(t, "wide") {
			p.Width = in * 29 / 4 // too wide for the other stock, should it name it
		}
		slope := rapid.SampledFrom([]measure.Length{0, 0, in * 11 / 16, in * 2}).Draw(t, "slope")
		switch rapid.IntRange(0, 4).Draw(t, "ends") {
		case 0:
			p.Start, p.End = slope, slope
		case 1:
			p.Start, p.End = -slope, -slope
		case 2:
			p.Start, p.End = slope, -slope
		case 3:
			p.End = slope
		case 4:
			p.Start, p.End = slope/2, slope
		}
		if len(job.Stocks) == 2 && rapid.Bool().Draw(t, "either") {
			p.Or = []int{1 - p.Stock}
		}
		job.Parts = append(job.Parts, p)
	}
	return job
}

func TestPlansPass(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		job := jobs(t)
		plan, err := cutplan.Solve(context.Background(), job, cutplan.Options{Nodes: 400})
		if err != nil {
			t.Fatal(err)
		}
		r := cutcheck.Check(claim.Of(job, plan))
		if !r.OK() {
			t.Fatalf("faults: %q\n%+v\n%+v", r.Faults, job, plan.Boards)
		}
	})
}

// numbers visits every number the plan and its proof state.
func numbers(v reflect.Value, path string, visit func(path string, v reflect.Value)) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			if name := v.Type().Field(i).Name; name != "Stocks" && name != "Parts" && name != "Kerf" && name != "Trim" && name != "Reserve" {
				numbers(v.Field(i), path+"."+name, visit)
			}
		}
	case reflect.Slice:
		for i := range v.Len() {
			numbers(v.Index(i), fmt.Sprintf("%s[%d]", path, i), visit)
		}
	case reflect.Int, reflect.Int64:
		visit(path, v)
	case reflect.Uint64:
		v.SetUint(v.Uint() + 1)
		visit(path, reflect.ValueOf(new(int64)).Elem())
		v.SetUint(v.Uint() - 1)
	}
}

func TestEveryNumberCounts(t *testing.T) {
	changed := 0
	rapid.Check(t, func(t *rapid.T) {
		job := jobs(t)
		plan, err := cutplan.Solve(context.Background(), job, cutplan.Options{Nodes: 100})
		if err != nil {
			t.Fatal(err)
		}
		c := claim.Of(job, plan)
		up := rapid.Bool().Draw(t, "up")
		numbers(reflect.ValueOf(&c).Elem(), "", func(path string, v reflect.Value) {
			was := v.Int()
			by := int64(1)
			if up = !up; up { // in turn, for time: both ways over all draws
				by = -1
			}
			v.SetInt(was + by)
			if cutcheck.Check(c).OK() {
				t.Fatalf("%s: %d is taken for %d\n%+v", path, was+by, was, c)
			}
			changed++
			v.SetInt(was)
		})
	})
	if changed < 1000 {
		t.Fatalf("only %d numbers were changed", changed)
	}
}

// Whatever stands in a claim, the checker comes to an end and says what is
// wrong, or that nothing is.
func TestNonsenseIsJudged(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		job := jobs(t)
		plan, err := cutplan.Solve(context.Background(), job, cutplan.Options{Nodes: 50})
		if err != nil {
			t.Fatal(err)
		}
		c := claim.Of(job, plan)
		var all []reflect.Value
		every(reflect.ValueOf(&c).Elem(), func(v reflect.Value) { all = append(all, v) })
		for range rapid.IntRange(1, 4).Draw(t, "changes") {
			v := rapid.SampledFrom(all).Draw(t, "number")
			v.SetInt(rapid.SampledFrom([]int64{0, -1, 1, 7, 1 << 20, 1 << 40, -1 << 40, 1<<63 - 1, -1 << 63}).Draw(t, "value"))
		}
		cutcheck.Check(c)
	})
}

// every visits all whole numbers, those of the job too.
func every(v reflect.Value, visit func(reflect.Value)) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			every(v.Field(i), visit)
		}
	case reflect.Slice:
		for i := range v.Len() {
			every(v.Index(i), visit)
		}
	case reflect.Int, reflect.Int64:
		visit(v)
	}
}

// A plan that is not the cheapest must not pass for it, and weights that prove
// less must be told.
func TestFalseClaims(t *testing.T) {
	job := cutplan.Job{Kerf: in / 8, Stocks: []cutplan.Stock{{Name: "2x4", Width: in * 7 / 2, Offers: []cutplan.Offer{{Length: 96 * in, Price: 500}, {Length: 144 * in, Price: 700}}}},
		Parts: []cutplan.Part{{Name: "A", Count: 3, Width: in * 7 / 2, Length: 45 * in}}}
	plan, err := cutplan.Solve(context.Background(), job, cutplan.Options{})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name string
		lie  func(*cutcheck.Claim)
	}{
		{"weights that prove nothing", func(c *cutcheck.Claim) {
			c.Proofs[0].Rows[0] = cutcheck.Row{Shares: [][]int64{{5040}}, Weights: []int64{0}, Holds: []int64{0, 0}}
		}},
		{"no weights", func(c *cutcheck.Claim) { c.Proofs[0].Rows = nil }},
		{"negative weights", func(c *cutcheck.Claim) {
			c.Proofs[0].Rows[0] = cutcheck.Row{Shares: [][]int64{{5040}}, Weights: []int64{-5}, Holds: []int64{0, 0}}
		}},
		{"a board too many", func(c *cutcheck.Claim) { c.Boards = append(c.Boards, c.Boards[0]) }},
		{"a board too few", func(c *cutcheck.Claim) { c.Boards = c.Boards[1:] }},
		{"two pieces in one place", func(c *cutcheck.Claim) {
			l := &c.Boards[0].Sections[0].Lanes[0]
			l.Pieces = append(l.Pieces, l.Pieces[0])
			c.Parts[0].Count++
		}},
		{"the dearer boards as the cheapest", func(c *cutcheck.Claim) {
			c.Boards[0].Price, c.Stocks[0].Offers[c.Boards[0].Offer].Price = 1100, 1100 // two of 8 ft for 1000 would do
			c.Cost, c.Bound, c.Proofs[0].Bound = 1100, 1100, 1100
		}},
	} {
		bad := claim.Of(job, plan)
		c.lie(&bad)
		if cutcheck.Check(bad).OK() {
			t.Errorf("%s: taken for true", c.name)
		}
	}
	honest := cutcheck.Check(claim.Of(job, plan))
	if !honest.OK() || !honest.BoundVerified {
		t.Errorf("the true plan: %+v", honest)
	}
	searched := claim.Of(job, plan)
	searched.Proofs[0].Rows, searched.Proofs[0].Searched = nil, true
	if r := cutcheck.Check(searched); !r.OK() || r.BoundVerified {
		t.Errorf("a bound by search alone is neither wrong nor verified: %+v", r)
	}
}

// stubborn are problems of which the linear program leaves a purchase standing
// that does not yield the parts: only a tree refutes it.
var stubborn = []struct {
	source string
	board  int
	parts  [][2]int // length, count
	least  measure.Money
}{
	{"D. Fieldhouse, The duality gap in trim problems (1990), scaled", 30, [][2]int{{15, 3}, {10, 5}, {6, 9}}, 6},
	{"T. Gau and G. Wäscher, CUTGEN1 and non-IRUP instances (1995), scaled", 60, [][2]int{{30, 1}, {22, 1}, {20, 1}, {19, 1}, {12, 2}}, 3},
	{"no more of a part in a pattern than is wanted (from memory, scaled)", 132, [][2]int{{44, 2}, {33, 3}, {12, 6}}, 3},
}

func TestTreesAreFollowed(t *testing.T) {
	trees, changed := 0, 0
	for _, s := range stubborn {
		job := cutplan.Job{Stocks: []cutplan.Stock{{Name: "bar", Width: in, Offers: []cutplan.Offer{{Length: measure.Length(s.board) * in, Price: 1}}}}}
		for i, p := range s.parts {
			job.Parts = append(job.Parts, cutplan.Part{Name: string(rune('A' + i)), Width: in, Length: measure.Length(p[0]) * in, Count: p[1]})
		}
		plan, err := cutplan.Solve(context.Background(), job, cutplan.Options{})
		if err != nil {
			t.Fatal(err)
		}
		c := claim.Of(job, plan)
		if r := cutcheck.Check(c); !r.OK() || !r.BoundVerified || plan.Cost != s.least || !plan.Optimal {
			t.Errorf("%s: cost %d, bound %d, faults %q; least is %d", s.source, plan.Cost, plan.Bound, r.Faults, s.least)
			continue
		}
		trees += len(c.Proofs[0].Trees)
		numbers(reflect.ValueOf(&c).Elem(), "", func(path string, v reflect.Value) {
			was := v.Int()
			for _, by := range []int64{-1, 1} {
				v.SetInt(was + by)
				if cutcheck.Check(c).OK() {
					t.Errorf("%s: %s: %d is taken for %d", s.source, path, was+by, was)
				}
				changed++
			}
			v.SetInt(was)
		})
		// A tree that refutes more than it can, sealed anew, must be told by its figures.
		if len(plan.Proofs[0].Trees) > 0 {
			tree := plan.Proofs[0].Trees[0]
			tree.Boards = []int{tree.Boards[0] + 1}
			tree.Seal = cutplan.SealOf(&tree)
			plan.Proofs[0].Trees[0] = tree
			if cutcheck.Check(claim.Of(job, plan)).OK() {
				t.Errorf("%s: a tree for one board more is believed", s.source)
			}
		}
	}
	if trees == 0 {
		t.Error("no proof has a tree: the test saw nothing")
	}
	t.Logf("%d trees, %d numbers changed", trees, changed)
}
