// Command crosscheck solves generated cutting problems twice, with the planner
// and with a general integer programming solver, and compares the costs. The
// second model is another one: flows over the places where pieces begin
// (J. M. Valério de Carvalho, Annals of Operations Research 86, 1999), with one
// way out of the graph for each length of board.
//
//	crosscheck [-problems N] [-solver cbc|glpsol]
package main

import (
	"context"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"scantling/internal/cutplan"
	"scantling/internal/measure"
)

const unit = measure.Inch / 16

func main() {
	problems := flag.Int("problems", 20, "how `many` problems")
	solver := flag.String("solver", "cbc", "cbc or glpsol")
	flag.Parse()
	dir, err := os.MkdirTemp("", "crosscheck")
	if err != nil {
		fail(err)
	}
	defer os.RemoveAll(dir)
	wrong := 0
	for n := range *problems {
		job := generate(rand.New(rand.NewPCG(1, uint64(n))))
		plan, err := cutplan.Solve(context.Background(), job, cutplan.Options{})
		if err != nil {
			fail(err)
		}
		file := filepath.Join(dir, fmt.Sprintf("%d.lp", n))
		if err := os.WriteFile(file, []byte(model(job)), 0o644); err != nil {
			fail(err)
		}
		least, err := solve(*solver, file)
		if err != nil {
			fail(fmt.Errorf("problem %d: %w", n, err))
		}
		verdict := "agree"
		if plan.Optimal && int64(plan.Cost) != least || int64(plan.Cost) < least || int64(plan.Bound) > least {
			verdict = "DIFFER"
			wrong++
		}
		fmt.Printf("problem %2d: cost %6d, bound %6d; %s says %6d: %s\n", n, int64(plan.Cost), int64(plan.Bound), *solver, least, verdict)
	}
	if wrong > 0 {
		fail(fmt.Errorf("%d of %d problems differ", wrong, *problems))
	}
}

func fail(err error) {
	fmt.Fprintln(os.Stderr, "crosscheck:", err)
	os.Exit(1)
}

// generate makes up the lumber of a piece or two: four lengths on sale, some
// boards on hand, up to ten kinds of parts.
func generate(r *rand.Rand) cutplan.Job {
	s := cutplan.Stock{Name: "lumber", Width: 3 * measure.Inch}
	for i, feet := range []measure.Length{8, 10, 12, 16} {
		s.Offers = append(s.Offers, cutplan.Offer{Length: feet * measure.Foot, Price: measure.Money([]int{500, 660, 800, 1150}[i] + r.IntN(120))})
	}
	if r.IntN(2) == 0 {
		s.Offers = append(s.Offers, cutplan.Offer{Length: measure.Length(500+r.IntN(700)) * unit, Limit: 1 + r.IntN(2)})
	}
	job := cutplan.Job{Kerf: 2 * unit, Stocks: []cutplan.Stock{s}}
	for i := range 4 + r.IntN(7) {
		job.Parts = append(job.Parts, cutplan.Part{Name: strconv.Itoa(i), Width: s.Width, Count: 1 + r.IntN(8), Length: measure.Length(150+r.IntN(1200)) * unit})
	}
	return job
}

// model writes the job as an integer program in the LP format.
func model(job cutplan.Job) string {
	type arc struct{ at, size int }
	demand := map[int]int{}
	for _, p := range job.Parts {
		demand[int((p.Length+job.Kerf)/unit)] += p.Count
	}
	var sizes, ends []int
	for size := range demand {
		sizes = append(sizes, size)
	}
	slices.Sort(sizes)
	slices.Reverse(sizes)
	offers := job.Stocks[0].Offers
	for _, o := range offers {
		ends = append(ends, int((o.Length+job.Kerf)/unit))
	}
	longest := slices.Max(ends)
	nodes := map[int]bool{0: true}
	arcs := map[arc]bool{}
	for _, size := range sizes {
		var from []int
		for at := range nodes {
			from = append(from, at)
		}
		for _, at := range from {
			for k := 0; k < demand[size] && at+size <= longest; k++ {
				arcs[arc{at, size}] = true
				at += size
				nodes[at] = true
			}
		}
	}
	var list []arc
	for a := range arcs {
		list = append(list, a)
	}
	slices.SortFunc(list, func(a, b arc) int { return (a.at-b.at)*100000 + a.size - b.size })
	in, out, by := map[int][]string{}, map[int][]string{}, map[int][]string{}
	var whole []string
	for _, a := range list {
		x := fmt.Sprintf("x%d_%d", a.at, a.size)
		out[a.at] = append(out[a.at], x)
		in[a.at+a.size] = append(in[a.at+a.size], x)
		by[a.size] = append(by[a.size], x)
		whole = append(whole, x)
	}
	var b, limits strings.Builder
	var price []string
	for o, offer := range offers {
		price = append(price, fmt.Sprintf("%d z%d", int64(offer.Price), o))
		whole = append(whole, fmt.Sprintf("z%d", o))
		if offer.Limit > 0 {
			fmt.Fprintf(&limits, " z%d <= %d\n", o, offer.Limit)
		}
	}
	fmt.Fprintf(&b, "Minimize\n cost: %s\nSubject To\n", strings.Join(price, " + "))
	for _, size := range sizes {
		fmt.Fprintf(&b, " d%d: %s >= %d\n", size, strings.Join(by[size], "\n + "), demand[size])
	}
	var boards []string
	for o := range offers {
		boards = append(boards, fmt.Sprintf("z%d", o))
	}
	fmt.Fprintf(&b, " n0: %s - %s >= 0\n", strings.Join(boards, " + "), strings.Join(out[0], "\n - "))
	var at []int
	for n := range nodes {
		at = append(at, n)
	}
	slices.Sort(at)
	for _, n := range at[1:] {
		// What goes on from here came in here; what ends beyond the shorter boards
		// is counted below.
		if len(out[n]) > 0 {
			fmt.Fprintf(&b, " n%d: %s - %s >= 0\n", n, strings.Join(in[n], " + "), strings.Join(out[n], "\n - "))
		}
	}
	// Pieces that cross or reach beyond a length lie on boards longer than it.
	for o, end := range ends {
		var crossing, longer []string
		for _, a := range list {
			if a.at <= end && a.at+a.size > end {
				crossing = append(crossing, fmt.Sprintf("x%d_%d", a.at, a.size))
			}
		}
		for k, other := range ends {
			if other > end {
				longer = append(longer, fmt.Sprintf("z%d", k))
			}
		}
		if len(crossing) > 0 {
			fmt.Fprintf(&b, " e%d: %s - %s >= 0\n", o, strings.Join(longer, " + "), strings.Join(crossing, "\n - "))
		}
	}
	fmt.Fprintf(&b, "Bounds\n%sGeneral\n %s\nEnd\n", limits.String(), strings.Join(whole, "\n "))
	return b.String()
}

var found = regexp.MustCompile(`(?m)^(?:Optimal - objective value|Objective value:|Objective:\s+cost =)\s+([0-9.]+)`)

// solve runs the other solver to the end.
func solve(solver, file string) (int64, error) {
	args := []string{file, "ratio", "0", "allow", "0", "solve", "solution", file + ".sol"}
	if solver == "glpsol" {
		args = []string{"--lp", file, "-o", file + ".sol"}
	}
	text, err := exec.Command(solver, args...).CombinedOutput()
	if err != nil {
		return 0, fmt.Errorf("%s: %w\n%s", solver, err, text)
	}
	solution, err := os.ReadFile(file + ".sol")
	if err != nil {
		return 0, err
	}
	m := found.FindSubmatch(solution)
	if m == nil {
		return 0, fmt.Errorf("%s found no optimum:\n%.300s", solver, solution)
	}
	value, err := strconv.ParseFloat(string(m[1]), 64)
	return int64(value + 0.5), err
}
