package cutplan

import (
	"context"
	"testing"

	"github.com/google/go-cmp/cmp"

	"scantling/internal/measure"
)

const (
	in = measure.Inch
	ft = measure.Foot
)

// furniture holds invented jobs in 1/16 in with a kerf of 2/16 in, boards not
// squared. The least costs were found by two general integer programming
// solvers (CBC 2.10 and HiGHS 1.15) on an arc-flow model, which agree.
var furniture = []struct {
	name   string
	offers [][3]int // length, limit, cents
	least  measure.Money
	parts  [][2]int // length, count
}{
	{"furn01", [][3]int{{1536, 0, 535}, {1920, 0, 686}, {2304, 0, 844}, {3072, 0, 1233}}, 2291,
		[][2]int{{852, 1}, {680, 3}, {500, 2}, {304, 1}, {164, 13}}},
	{"furn02", [][3]int{{1536, 0, 572}, {1920, 0, 755}, {2304, 0, 870}, {3072, 0, 1224}}, 9862,
		[][2]int{{1228, 1}, {1152, 10}, {932, 2}, {704, 9}, {528, 6}, {376, 2}}},
	{"furn03", [][3]int{{1536, 0, 516}, {1920, 0, 748}, {2304, 0, 845}, {3072, 0, 1237}, {1024, 1, 0}, {528, 2, 0}}, 6940,
		[][2]int{{964, 1}, {808, 4}, {735, 4}, {700, 8}, {440, 13}, {384, 7}, {337, 1}, {156, 2}}},
	{"furn04", [][3]int{{1536, 0, 546}, {1920, 0, 726}, {2304, 0, 844}, {3072, 0, 1298}}, 10654,
		[][2]int{{1233, 3}, {1169, 3}, {832, 12}, {754, 3}, {695, 6}, {676, 1}, {360, 9}, {300, 2}, {160, 1}, {112, 10}}},
	{"furn05", [][3]int{{1536, 0, 557}, {1920, 0, 717}, {2304, 0, 820}, {3072, 0, 1193}}, 10954,
		[][2]int{{682, 2}, {592, 2}, {588, 30}, {562, 6}, {505, 7}, {338, 5}, {306, 1}, {184, 7}}},
	{"furn06", [][3]int{{1536, 0, 554}, {1920, 0, 741}, {2304, 0, 851}, {3072, 0, 1308}, {1280, 1, 0}, {1104, 2, 0}}, 24329,
		[][2]int{{1419, 22}, {1399, 10}, {1208, 2}, {980, 3}, {772, 1}, {693, 14}, {363, 4}, {324, 4}, {297, 2}, {180, 7}, {173, 3}, {169, 8}}},
	{"furn07", [][3]int{{1536, 0, 554}, {1920, 0, 753}, {2304, 0, 850}, {3072, 0, 1287}}, 16514,
		[][2]int{{691, 10}, {688, 3}, {655, 34}, {508, 13}, {381, 1}, {380, 2}, {365, 1}, {332, 2}, {212, 6}, {198, 2}, {131, 2}, {116, 24}}},
	{"furn08", [][3]int{{1536, 0, 526}, {1920, 0, 699}, {2304, 0, 909}, {3072, 0, 1169}}, 22078,
		[][2]int{{1438, 9}, {1312, 6}, {679, 2}, {660, 1}, {630, 6}, {591, 9}, {560, 8}, {457, 3}, {444, 26}, {392, 1}, {340, 11}, {286, 21}, {208, 10}, {196, 2}, {180, 5}}},
	{"furn09", [][3]int{{1536, 0, 569}, {1920, 0, 751}, {2304, 0, 869}, {3072, 0, 1188}, {1008, 1, 0}, {592, 2, 0}}, 40316,
		[][2]int{{1424, 8}, {1389, 5}, {1350, 6}, {1327, 10}, {1142, 7}, {956, 17}, {934, 21}, {788, 3}, {564, 3}, {552, 12}, {470, 1}, {360, 14}, {312, 2}, {304, 11}, {218, 6}, {159, 5}, {97, 7}, {96, 22}}},
	{"furn10", [][3]int{{1536, 0, 522}, {1920, 0, 667}, {2304, 0, 902}, {3072, 0, 1317}}, 37120,
		[][2]int{{1324, 31}, {865, 1}, {752, 1}, {730, 1}, {666, 4}, {648, 1}, {579, 12}, {508, 20}, {490, 5}, {428, 5}, {402, 45}, {398, 4}, {384, 8}, {331, 25}, {312, 3}, {244, 3}, {233, 3}, {225, 12}, {172, 10}, {104, 6}}},
}

func furnitureJob(i int) Job {
	f := furniture[i]
	job := Job{Kerf: in / 8, Stocks: []Stock{{Name: "2x4", Width: 3*in + in/2}}}
	for _, o := range f.offers {
		job.Stocks[0].Offers = append(job.Stocks[0].Offers, Offer{measure.Length(o[0]) * in / 16, measure.Money(o[2]), o[1]})
	}
	for i, p := range f.parts {
		job.Parts = append(job.Parts, Part{Name: string(rune('A' + i)), Count: p[1], Width: 3*in + in/2, Length: measure.Length(p[0]) * in / 16})
	}
	return job
}

func TestFurniture(t *testing.T) {
	for i, f := range furniture {
		plan, err := Solve(context.Background(), furnitureJob(i), Options{})
		if err != nil {
			t.Fatal(f.name, err)
		}
		if plan.Cost != f.least || !plan.Optimal {
			t.Errorf("%s: cost %d, bound %d after %d nodes; least is %d", f.name, plan.Cost, plan.Bound, plan.Nodes, f.least)
		}
		again := solve(t, furnitureJob(i))
		if diff := cmp.Diff(plan, again); diff != "" {
			t.Errorf("%s: another plan the second time:\n%s", f.name, diff)
		}
	}
}

func BenchmarkFurniture(b *testing.B) {
	for i, f := range furniture {
		b.Run(f.name, func(b *testing.B) {
			for b.Loop() {
				Solve(context.Background(), furnitureJob(i), Options{})
			}
		})
	}
}

// textbook problems: boards and lengths without units, a blade of no width.
// Those from memory were solved again by two integer programming solvers.
var textbook = []struct {
	source string
	boards [][2]int // length, price
	parts  [][2]int // length, count
	least  measure.Money
	proved bool
}{
	{"V. Chvátal, Linear Programming (1983), chapter 13", [][2]int{{100, 1}}, [][2]int{{45, 97}, {36, 610}, {31, 395}, {14, 211}}, 453, true},
	{"R. Fourer and others, AMPL (2003), roll trim example", [][2]int{{110, 1}}, [][2]int{{20, 48}, {45, 35}, {50, 24}, {55, 10}, {75, 8}}, 47, true},
	{"paper machine of 5600 mm, an encyclopedia's example", [][2]int{{5600, 1}}, [][2]int{{1380, 22}, {1520, 25}, {1560, 12}, {1710, 14}, {1820, 18}, {1880, 18}, {1930, 20}, {2000, 10}, {2050, 12}, {2100, 14}, {2140, 16}, {2150, 18}, {2200, 20}}, 73, true},
	{"a modelling language's manual (from memory)", [][2]int{{17, 1}}, [][2]int{{3, 25}, {5, 20}, {9, 15}}, 19, true},
	{"lengths with prices in proportion (from memory)", [][2]int{{9, 9}, {6, 6}, {5, 5}}, [][2]int{{2, 20}, {3, 10}, {4, 20}}, 150, true},
	{"prices out of proportion (invented)", [][2]int{{10, 11}, {9, 10}, {7, 8}, {6, 7}}, [][2]int{{6, 6}, {5, 8}, {4, 5}, {3, 7}, {2, 9}}, 149, true},
	{"a textbook's (from memory)", [][2]int{{20, 1}}, [][2]int{{9, 511}, {8, 301}, {7, 263}, {6, 383}}, 601, true},
	{"no pattern may hold more of a part than is wanted", [][2]int{{132, 1}}, [][2]int{{44, 2}, {33, 3}, {12, 6}}, 3, true},
	{"O. Marcotte / Fieldhouse: one more than the rounded-up relaxation", [][2]int{{30, 1}}, [][2]int{{15, 3}, {10, 5}, {6, 9}}, 6, true},
	{"T. Gau and G. Wäscher: likewise", [][2]int{{10000, 1}}, [][2]int{{5000, 1}, {3750, 1}, {3250, 1}, {3001, 1}, {2000, 2}}, 3, true},
	{"T. Gau and G. Wäscher: likewise, scaled", [][2]int{{60, 1}}, [][2]int{{30, 1}, {22, 1}, {20, 1}, {19, 1}, {12, 2}}, 3, true},
}

func TestTextbook(t *testing.T) {
	for _, c := range textbook {
		job := Job{Stocks: []Stock{{Name: "bar", Width: in}}}
		for _, b := range c.boards {
			job.Stocks[0].Offers = append(job.Stocks[0].Offers, Offer{measure.Length(b[0]) * in / 64, measure.Money(b[1]), 0})
		}
		for i, p := range c.parts {
			job.Parts = append(job.Parts, Part{Name: string(rune('A' + i)), Count: p[1], Width: in, Length: measure.Length(p[0]) * in / 64})
		}
		plan, err := Solve(context.Background(), job, Options{})
		if err != nil {
			t.Errorf("%s: %v", c.source, err)
			continue
		}
		if plan.Cost != c.least || plan.Optimal != c.proved {
			t.Errorf("%s: cost %d, bound %d, %d nodes; least is %d", c.source, plan.Cost, plan.Bound, plan.Nodes, c.least)
		}
	}
}

// benchJob is one stock sold at 8, 10, 12 and 16 ft, squared by 1/2 in and sawn
// with a 1/8 in blade.
func benchJob(width measure.Length, parts ...Part) Job {
	job := Job{Kerf: in / 8, Trim: in / 2, Stocks: []Stock{{Name: "lumber", Width: width, Offers: []Offer{
		{8 * ft, 500, 0}, {10 * ft, 640, 0}, {12 * ft, 790, 0}, {16 * ft, 1060, 0}}}}}
	for i := range parts {
		if parts[i].Name == "" {
			parts[i].Name = string(rune('A' + i))
		}
		if parts[i].Width == 0 {
			parts[i].Width = width
		}
	}
	job.Parts = parts
	return job
}

func TestCountAndLargest(t *testing.T) {
	const kerf, trim = in / 8, in / 2
	for _, c := range []struct {
		board  measure.Length
		want   int
		left   measure.Length
		source string
	}{
		{8 * ft, 3, 14*in + in/8, "by hand: 95 1/2 − 3·27 − 3/8, less a kerf for the last"},
		{10 * ft, 4, 11 * in, "by hand"},
		{12 * ft, 5, 7*in + 7*in/8, "by hand"},
		{16 * ft, 7, 1*in + 5*in/8, "by hand"},
	} {
		if n := Count(c.board, 27*in, kerf, trim); n != c.want {
			t.Errorf("%v ft: %d parts of 27 in, want %d (%s)", c.board/ft, n, c.want, c.source)
		}
		plan := solve(t, Job{Kerf: kerf, Trim: trim, Stocks: []Stock{{Name: "slat", Width: in, Offers: []Offer{{c.board, 1, 0}}}},
			Parts: []Part{{Name: "A", Count: c.want, Width: in, Length: 27 * in}}})
		if len(plan.Boards) != 1 || plan.Boards[0].Sections[0].Lanes[0].Left != c.left {
			t.Errorf("%v ft: %+v, want %d parts from one board and %v left", c.board/ft, plan.Boards, c.want, c.left)
		}
	}
	for _, c := range []struct {
		n          int
		trim, want measure.Length
		source     string
	}{
		{4, 0, 24*in - in*3/32, "by hand: (96 − 3/8)/4 = 23.906"},
		{4, trim, 23*in + in*25/32, "by hand: (95 1/2 − 3/8)/4 = 23.781"},
		{2, trim, 47*in + in*11/16, "by hand: (95 1/2 − 1/8)/2"},
	} {
		got := Largest(8*ft, c.n, kerf, c.trim)
		if got != c.want {
			t.Errorf("largest of %d from 8 ft: %.4f in, want %.4f (%s)", c.n, got.Inches(), c.want.Inches(), c.source)
		}
		if Count(8*ft, got, kerf, c.trim) != c.n || Count(8*ft, got+1, kerf, c.trim) >= c.n {
			t.Errorf("%d of %v nm do not just fit", c.n, got)
		}
	}
}

// Four parts of 23 15/16 in want 4·23 15/16 + 3/8 = 96 1/8 in of a board of 96;
// of 23 7/8 in, 95 7/8: the last kerf runs off the end (by hand).
func TestLastKerfRunsOffTheEnd(t *testing.T) {
	for _, c := range []struct {
		length measure.Length
		boards int
	}{{23*in + in*15/16, 2}, {23*in + in*7/8, 1}} {
		plan := solve(t, Job{Kerf: in / 8, Stocks: []Stock{{Name: "slat", Width: in, Offers: []Offer{{8 * ft, 1, 0}}}},
			Parts: []Part{{Name: "A", Count: 4, Width: in, Length: c.length}}})
		if len(plan.Boards) != c.boards || !plan.Optimal {
			t.Errorf("four of %v in from %d boards of 96, want %d", c.length.Inches(), len(plan.Boards), c.boards)
		}
	}
}

func solve(t *testing.T, job Job) *Plan {
	t.Helper()
	plan, err := Solve(context.Background(), job, Options{})
	if err != nil {
		t.Fatal(err)
	}
	return plan
}

// Seven parts of 27 in come from one 16 ft board; two 8 ft ones give six.
// A metric job is reckoned in half millimetres: four parts of 597 mm with three
// kerfs of 3 mm come from 2400 mm with 3 mm for squaring it, and not of 598 mm.
func TestMetricBoards(t *testing.T) {
	const mm = measure.Millimetre
	for _, c := range []struct {
		length measure.Length
		boards int
	}{{597 * mm, 1}, {598 * mm, 2}, {597*mm + mm/2, 2}} {
		job := Job{Units: measure.Metric, Kerf: 3 * mm, Trim: 3 * mm,
			Stocks: []Stock{{Name: "45x95", Width: 95 * mm, Offers: []Offer{{2400 * mm, 600, 0}}}},
			Parts:  []Part{{Name: "A", Count: 4, Width: 95 * mm, Length: c.length}}}
		if plan := solve(t, job); len(plan.Boards) != c.boards || !plan.Optimal {
			t.Errorf("four of %v mm come from %d boards, not %d", c.length.MM(), len(plan.Boards), c.boards)
		}
	}
	job := Job{Units: measure.Metric, Stocks: []Stock{{Name: "45x95", Width: 95 * mm, Offers: []Offer{{2400 * mm, 600, 0}}}},
		Parts: []Part{{Name: "A", Count: 1, Width: 95 * mm, Length: 2501 * mm}}}
	_, err := Solve(context.Background(), job, Options{})
	if want := "part A is 2501 mm long and the longest 45x95 gives 2400 mm; make it shorter or find longer stock"; err == nil || err.Error() != want {
		t.Errorf("%v\nwant %s", err, want)
	}
}

func TestOneLongBoardBeatsTwoShort(t *testing.T) {
	job := benchJob(11*in/2, Part{Count: 7, Length: 27 * in})
	plan := solve(t, job)
	if len(plan.Boards) != 1 || plan.Boards[0].Length != 16*ft || !plan.Optimal {
		t.Errorf("bought %d boards, first %v ft", len(plan.Boards), plan.Boards[0].Length/ft)
	}
}

// Two parts of 48 in do not come from an 8 ft board, whatever the feet say.
func TestFeetAreNotYield(t *testing.T) {
	plan := solve(t, benchJob(7*in/2, Part{Count: 2, Length: 48 * in}))
	if plan.Cost != 640 {
		t.Errorf("two of 48 in cost %d; a 10 ft board for 640 is needed", plan.Cost)
	}
}

// The legs of a table, ripped from 5 1/2 to 4 in, 33 in high at 10°, nest in a
// 12 ft board: 4·33.509 + 0.705 + 4·(1/8)/cos 10° = 135.25 of 143.5 in (by hand).
// In the printed sizes, edge 33 1/2 and offset 11/16, and with kerfs of 9/64
// along the edge: 4·33 1/2 + 11/16 + 4·9/64 = 135 1/4, 8 1/4 left.
func TestNestedLegs(t *testing.T) {
	leg := Part{Name: "leg", Count: 4, Width: 4 * in, Length: 34*in + in*3/16, Start: in * 11 / 16, End: in * 11 / 16}
	plan := solve(t, benchJob(11*in/2, leg))
	if len(plan.Boards) != 1 || plan.Boards[0].Length != 12*ft || !plan.Optimal {
		t.Fatalf("%+v", plan)
	}
	b := plan.Boards[0]
	if b.Sections[0].Strip != in+in*3/8 {
		t.Errorf("the strip left of the rip is %.4f in, want 1 3/8 (5 1/2 − 4 − 1/8)", b.Sections[0].Strip.Inches())
	}
	lane := b.Sections[0].Lanes[0]
	last := lane.Pieces[3]
	if got, want := last.End-lane.Pieces[0].Start, 4*(33*in+in/2)+3*in*9/64; got != want {
		t.Errorf("four legs take %.4f in of the edge, want %.4f", got.Inches(), want.Inches())
	}
	if lane.Left < 8*in || lane.Left > 8*in+in*3/8 {
		t.Errorf("%.4f in left, want about 8 1/4", lane.Left.Inches())
	}
	// Hands are no matter: a mirrored pair nests with the other when turned over.
	right := leg
	right.Name, right.Start, right.End = "right leg", -leg.Start, -leg.End
	leg.Count, right.Count = 2, 2
	plan = solve(t, benchJob(11*in/2, leg, right))
	if len(plan.Boards) != 1 || plan.Boards[0].Length != 12*ft {
		t.Errorf("two left and two right legs: %+v", plan.Boards)
	}
	over := 0
	for _, p := range plan.Boards[0].Sections[0].Lanes[0].Pieces {
		if p.Over {
			over++
		}
	}
	if over != 2 {
		t.Errorf("%d legs lie the other face up, want 2", over)
	}
}

// Strips of 1 1/2 in: three abreast in 5 1/2 (3·1 1/2 + 2·1/8 = 4 3/4; four
// would want 6 3/8), 3/8 by 5/8 in left: 5 1/2 − 4 3/4 − 1/8.
func TestRips(t *testing.T) {
	plan := solve(t, benchJob(11*in/2,
		Part{Name: "long cleat", Count: 3, Width: 3 * in / 2, Length: 50 * in},
		Part{Name: "short cleat", Count: 3, Width: 3 * in / 2, Length: 45 * in}))
	if len(plan.Boards) != 1 || plan.Boards[0].Length != 8*ft || !plan.Optimal {
		t.Fatalf("six cleats of 50 and 45 in: %+v", plan)
	}
	if b := plan.Boards[0]; b.Sections[0].Strip != in*5/8 || len(b.Sections[0].Lanes) != 3 {
		t.Errorf("%+v", b)
	}
	// One of each width from one board, the narrow ones sawn side by side.
	plan = solve(t, benchJob(11*in/2, Part{Name: "rail", Count: 1, Length: 60 * in},
		Part{Name: "cleat", Count: 3, Width: 3 * in / 2, Length: 34 * in}))
	if len(plan.Boards) != 1 || plan.Boards[0].Length != 8*ft || !plan.Optimal {
		t.Errorf("a rail and three cleats: %+v", plan)
	}
}

func TestOffcutsAreTakenFirst(t *testing.T) {
	job := benchJob(7*in/2, Part{Count: 5, Length: 40 * in})
	job.Stocks[0].Offers = append(job.Stocks[0].Offers, Offer{41 * in, 0, 3})
	plan := solve(t, job)
	if plan.Cost != 500 || !plan.Optimal {
		t.Errorf("three on offcuts and two from 8 ft: cost %d, bound %d, want 500", plan.Cost, plan.Bound)
	}
}

func TestWhatCannotBeSawn(t *testing.T) {
	for _, c := range []struct {
		part Part
		want string
	}{
		{Part{Name: "A", Count: 1, Length: 16 * ft}, "part A is 192 in long and the longest lumber gives 191.5 in; make it shorter or find longer stock"},
		{Part{Name: "A", Count: 1, Width: 6 * in, Length: ft}, "part A is 6 in wide and lumber only 5.5 in; use a wider stock"},
	} {
		_, err := Solve(context.Background(), benchJob(11*in/2, c.part), Options{})
		if err == nil || err.Error() != c.want {
			t.Errorf("got %v, want %s", err, c.want)
		}
	}
	job := benchJob(7*in/2, Part{Count: 3, Length: 80 * in})
	job.Stocks[0].Offers = []Offer{{8 * ft, 500, 2}}
	if _, err := Solve(context.Background(), job, Options{}); err == nil {
		t.Error("three parts came from two boards of one each")
	}
}

// A search cut short gives a plan all the same, and claims no more than it knows.
func TestCutShort(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	plan, err := Solve(ctx, furnitureJob(1), Options{})
	if err == nil || plan == nil || plan.Optimal || plan.Cost < furniture[1].least || plan.Bound > furniture[1].least {
		t.Errorf("cancelled: %v, %+v", err, plan)
	}
	plan, err = Solve(context.Background(), furnitureJob(1), Options{Nodes: 1})
	if err != nil || plan.Cost < furniture[1].least || plan.Bound > furniture[1].least {
		t.Errorf("one node: %v, cost %d, bound %d", err, plan.Cost, plan.Bound)
	}
	told := 0
	_, err = Solve(context.Background(), furnitureJob(1), Options{Progress: func(cost, bound measure.Money, nodes int) {
		told++
		if bound > furniture[1].least || cost < furniture[1].least {
			t.Errorf("progress: cost %d, bound %d", cost, bound)
		}
	}})
	if err != nil || told == 0 {
		t.Errorf("progress told %d times, %v", told, err)
	}
}
