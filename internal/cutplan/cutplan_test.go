package cutplan

import (
	"context"
	"testing"

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
		t.Logf("%s: %d nodes, %d weights", f.name, plan.Nodes, len(plan.Proofs[0].Weights))
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
