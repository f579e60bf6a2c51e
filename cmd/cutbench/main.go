// Command cutbench runs the cutting planner on collections of published and
// invented problems, one thread, and puts every plan before the independent
// checker, whose time is not counted. For each file it prints how many problems
// were proved, how many results are wrong, and the time taken: on the clock, and
// of the processor, which does not mind what else the machine is doing.
//
//	cutbench [-limit 60s] [-kerf N] [-json] [-pieces N] FILE…
//
// A line of a file is a problem: name;capacity;optimum;count;length*demand …
// with an optimum of ? where none is known. Instead of a capacity, boards of
// several lengths may stand: length:limit:price,… with limit -1 for as many as
// wanted. The kerf is added to every piece and every board. With -json a line
// is printed for each problem: its cost, the bound proved, whether the cost is
// the least there is, whether the checker took plan and proof, and the seconds.
// With -pieces so many pieces of furniture with rips are made up and planned too,
// as far as the planner goes by itself.
//
// Wrong is a plan the checker refuses, and a cost called the least that is not
// the optimum the file states. Where the file states more than a plan costs that
// the checker took, it is the file that errs, and that is printed by itself.
package main

import (
	"bufio"
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"time"

	"scantling/internal/claim"
	"scantling/internal/cutcheck"
	"scantling/internal/cutplan"
)

func main() {
	limit := flag.Duration("limit", time.Minute, "give up a problem after this `time` and print what is proved")
	kerf := flag.Int("kerf", 0, "add `N` to the length of every piece and every board")
	lines := flag.Bool("json", false, "print a line of JSON for each problem instead of a table")
	pieces := flag.Int("pieces", 0, "make up `N` pieces of furniture with rips and plan those too, each to the planner's own end")
	every := flag.Int("every", 1, "take only every `N`-th problem")
	flag.Parse()
	if flag.NArg() == 0 && *pieces == 0 {
		fmt.Fprintln(os.Stderr, "usage: cutbench [-limit 60s] [-kerf N] [-json] [-every N] FILE…")
		os.Exit(2)
	}
	failed := false
	if *pieces > 0 {
		failed = ripped(*pieces) > 0
	}
	if !*lines && flag.NArg() > 0 {
		fmt.Printf("%-22s %9s %7s %6s %9s %9s %9s %9s %9s %9s\n", "class", "instances", "proved", "wrong", "median s", "mean s", "p95 s", "max s", "mean cpu", "max cpu")
	}
	for _, file := range flag.Args() {
		wrong, err := run(file, *limit, *kerf, *every, *lines)
		if err != nil {
			fmt.Fprintln(os.Stderr, "cutbench:", err)
		}
		failed = failed || err != nil || wrong > 0
	}
	if failed {
		os.Exit(1)
	}
}

// A result is what came of one problem.
type result struct {
	Name    string  `json:"name"`
	Cost    int64   `json:"cost"`
	Bound   int64   `json:"bound"`
	Optimal bool    `json:"optimal"`
	Checked bool    `json:"checked"`
	Seconds float64 `json:"seconds"`
	cpu     float64
	faults  []string
}

// run solves the problems of a file and returns how many results are wrong.
func run(file string, limit time.Duration, kerf, every int, lines bool) (wrong int, err error) {
	f, err := os.Open(file)
	if err != nil {
		return 0, err
	}
	defer f.Close()
	var seconds []float64
	var sum, cpuSum, cpuMax float64
	proved := 0
	scan := bufio.NewScanner(f)
	scan.Buffer(nil, 1<<24)
	for n, line := 0, 1; scan.Scan(); line++ {
		text := scan.Text()
		if text == "" || text[0] == '#' {
			continue
		}
		if n++; (n-1)%every != 0 {
			continue
		}
		p, err := parse(text, kerf)
		if err != nil {
			return wrong, fmt.Errorf("%s:%d: %w", file, line, err)
		}
		r, err := solve(p, limit)
		if err != nil {
			return wrong, fmt.Errorf("%s:%d: %s: %w", file, line, p.name, err)
		}
		known := p.optimum >= 0 && kerf == 0
		cheaper := known && r.Cost < p.optimum && len(r.faults) == 0
		bad := len(r.faults) > 0 || known && !cheaper && (r.Optimal && r.Cost != p.optimum || r.Bound > p.optimum)
		if bad {
			wrong++
		}
		if r.Optimal {
			proved++
		}
		seconds = append(seconds, r.Seconds)
		sum += r.Seconds
		cpuSum, cpuMax = cpuSum+r.cpu, max(cpuMax, r.cpu)
		switch {
		case lines:
			out, err := json.Marshal(r)
			if err != nil {
				return wrong, err
			}
			fmt.Println(string(out))
		case bad:
			fmt.Printf("  WRONG %s: cost %d, bound %d, known %d %q\n", r.Name, r.Cost, r.Bound, p.optimum, r.faults)
		case cheaper:
			fmt.Printf("  %s: the file says %d, but the checker took a plan that costs %d (bound %d, verified: %t)\n", r.Name, p.optimum, r.Cost, r.Bound, r.Checked)
		case !r.Optimal:
			fmt.Printf("  not proved: %s: cost %d, bound %d, %.2f s\n", r.Name, r.Cost, r.Bound, r.Seconds)
		}
	}
	if err := scan.Err(); err != nil {
		return wrong, fmt.Errorf("%s: %w", file, err)
	}
	if n := len(seconds); n > 0 && !lines {
		slices.Sort(seconds)
		fmt.Printf("%-22s %9d %7d %6d %9.4f %9.4f %9.4f %9.4f %9.4f %9.4f\n", filepath.Base(file), n, proved, wrong,
			seconds[(n-1)/2], sum/float64(n), seconds[min(n-1, n*95/100)], seconds[n-1], cpuSum/float64(n), cpuMax)
	}
	return wrong, nil
}

// solve plans a problem and has the plan checked. What the checker does not
// verify is not called optimal.
func solve(p *problem, limit time.Duration) (*result, error) {
	ctx, cancel := context.WithTimeout(context.Background(), limit)
	defer cancel()
	start, began := time.Now(), cpu()
	plan, err := cutplan.Solve(ctx, p.job, cutplan.Options{Nodes: 1 << 40})
	took, worked := time.Since(start), cpu()-began
	if plan == nil {
		return nil, err
	}
	report := cutcheck.Check(claim.Of(p.job, plan))
	checked := report.OK() && report.BoundVerified
	return &result{p.name, int64(plan.Cost), int64(plan.Bound), plan.Optimal && checked, checked, took.Seconds(), worked, report.Faults}, nil
}
