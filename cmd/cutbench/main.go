// Command cutbench runs the cutting planner on collections of published and
// invented problems and prints, for each, the cost found, the bound proved, the
// optimum known, and the time taken. Every plan goes through the independent
// checker, whose time is not counted.
//
//	cutbench [-nodes N] [-all] FOLDER
//
// It reads furniture_invented.txt (several lengths with prices) and, where they
// are, the classic bin packing files of FOLDER/cc0 (one length, cost 1). Of
// those it takes every tenth problem unless -all is given.
package main

import (
	"bufio"
	"context"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"

	"scantling/internal/cutcheck"
	"scantling/internal/cutplan"
	"scantling/internal/measure"
)

func main() {
	nodes := flag.Int("nodes", 0, "search at most `N` nodes; 0 is the planner's own limit")
	all := flag.Bool("all", false, "run every problem, not every tenth of the classic ones")
	flag.Parse()
	if flag.NArg() != 1 {
		fmt.Fprintln(os.Stderr, "usage: cutbench [-nodes N] [-all] FOLDER")
		os.Exit(2)
	}
	folder := flag.Arg(0)
	files, _ := filepath.Glob(filepath.Join(folder, "cc0", "*.txt"))
	slices.Sort(files)
	failed := run(filepath.Join(folder, "furniture_invented.txt"), *nodes, 1, true)
	for _, f := range files {
		every := 10
		if *all {
			every = 1
		}
		failed = run(f, *nodes, every, false) || failed
	}
	if failed {
		os.Exit(1)
	}
}

// optima of furniture_invented.txt in cents, by two general integer programming
// solvers that agree.
var optima = map[string]int64{"furn01": 2291, "furn02": 9862, "furn03": 6940, "furn04": 10654, "furn05": 10954,
	"furn06": 24329, "furn07": 16514, "furn08": 22078, "furn09": 40316, "furn10": 37120}

// run solves every n-th problem of a file and reports whether the file could
// not be read or a result contradicts the optimum known.
func run(file string, nodes, n int, each bool) (failed bool) {
	f, err := os.Open(file)
	if err != nil {
		fmt.Fprintln(os.Stderr, "cutbench:", err)
		return true
	}
	defer f.Close()
	var solved, proved, best, verified int
	var total, worst time.Duration
	scan := bufio.NewScanner(f)
	scan.Buffer(nil, 1<<20)
	line := 0
	for scan.Scan() {
		text := scan.Text()
		if text == "" || text[0] == '#' {
			continue
		}
		if line++; (line-1)%n != 0 {
			continue
		}
		p, err := parse(text)
		if err != nil {
			fmt.Fprintf(os.Stderr, "cutbench: %s: %v\n", file, err)
			return true
		}
		start := time.Now()
		plan, err := cutplan.Solve(context.Background(), p.job, cutplan.Options{Nodes: nodes})
		took := time.Since(start)
		if err != nil {
			fmt.Fprintf(os.Stderr, "cutbench: %s: %s: %v\n", file, p.name, err)
			return true
		}
		solved++
		total += took
		worst = max(worst, took)
		cost, bound := int64(plan.Cost), int64(plan.Bound)
		if plan.Optimal {
			proved++
		}
		if cost == p.optimum {
			best++
		}
		report := cutcheck.Check(claim(p.job, plan))
		if report.BoundVerified {
			verified++
		}
		for _, f := range report.Faults {
			fmt.Printf("%s: %s\n", p.name, f)
		}
		wrong := !report.OK() || p.optimum >= 0 && (cost < p.optimum || bound > p.optimum)
		failed = failed || wrong
		if each || wrong || !plan.Optimal {
			fmt.Printf("%-12s cost %6d  bound %6d  optimum %6s  %6d nodes  %8.1f ms%s\n", p.name, cost, bound, known(p.optimum),
				plan.Nodes, float64(took.Microseconds())/1000, map[bool]string{true: "  WRONG"}[wrong])
		}
	}
	fmt.Printf("%s: %d problems, %d at the known optimum, %d proved, %d bounds verified; mean %.1f ms, worst %.1f ms\n\n", filepath.Base(file), solved, best, proved, verified,
		float64(total.Microseconds())/1000/float64(max(1, solved)), float64(worst.Microseconds())/1000)
	return failed
}

// claim states a plan to the checker.
func claim(job cutplan.Job, plan *cutplan.Plan) cutcheck.Claim {
	c := cutcheck.Claim{Kerf: job.Kerf, Trim: job.Trim, Cost: plan.Cost, Bound: plan.Bound, Optimal: plan.Optimal}
	for _, s := range job.Stocks {
		stock := cutcheck.Stock{Width: s.Width}
		for _, o := range s.Offers {
			stock.Offers = append(stock.Offers, cutcheck.Offer(o))
		}
		c.Stocks = append(c.Stocks, stock)
	}
	for _, p := range job.Parts {
		c.Parts = append(c.Parts, cutcheck.Part{Stock: p.Stock, Count: p.Count, Width: p.Width, Length: p.Length, Start: p.Start, End: p.End})
	}
	for _, b := range plan.Boards {
		board := cutcheck.Board{Stock: b.Stock, Offer: b.Offer, Length: b.Length, Price: b.Price, Strip: b.Strip}
		for _, l := range b.Lanes {
			lane := cutcheck.Lane{Across: l.Across, Width: l.Width, Left: l.Left}
			for _, p := range l.Pieces {
				lane.Pieces = append(lane.Pieces, cutcheck.Piece(p))
			}
			board.Lanes = append(board.Lanes, lane)
		}
		c.Boards = append(c.Boards, board)
	}
	for _, p := range plan.Proofs {
		c.Proofs = append(c.Proofs, cutcheck.Proof(p))
	}
	return c
}

func known(optimum int64) string {
	if optimum < 0 {
		return "?"
	}
	return strconv.FormatInt(optimum, 10)
}

type problem struct {
	name    string
	job     cutplan.Job
	optimum int64 // -1: not known
}

// parse reads "name;boards;optimum;count;length*demand …". Boards are one length
// at cost 1, or "length:limit:price,…" (limit -1: none) in 1/16 in sawn with a
// kerf of 2/16 in.
func parse(text string) (*problem, error) {
	fields := strings.Split(text, ";")
	if len(fields) != 5 {
		return nil, fmt.Errorf("%q has %d fields, not 5", text, len(fields))
	}
	p := &problem{name: fields[0], optimum: -1}
	if n, err := strconv.ParseInt(fields[2], 10, 64); err == nil {
		p.optimum = n
	} else if n, ok := optima[p.name]; ok {
		p.optimum = n
	}
	const step = measure.Inch / 16
	stock := cutplan.Stock{Name: p.name, Width: step}
	for _, b := range strings.Split(fields[1], ",") {
		n, err := numbers(b, ":")
		switch {
		case err != nil:
			return nil, err
		case len(n) == 1:
			stock.Offers = append(stock.Offers, cutplan.Offer{Length: measure.Length(n[0]) * step, Price: 1})
		case len(n) == 3:
			p.job.Kerf = 2 * step
			stock.Offers = append(stock.Offers, cutplan.Offer{Length: measure.Length(n[0]) * step, Price: measure.Money(n[2]), Limit: max(0, n[1])})
		default:
			return nil, fmt.Errorf("%q is no board", b)
		}
	}
	p.job.Stocks = []cutplan.Stock{stock}
	for i, w := range strings.Fields(fields[4]) {
		n, err := numbers(w, "*")
		if err != nil || len(n) != 2 {
			return nil, fmt.Errorf("%q is no part", w)
		}
		p.job.Parts = append(p.job.Parts, cutplan.Part{Name: strconv.Itoa(i), Width: step, Length: measure.Length(n[0]) * step, Count: n[1]})
	}
	return p, nil
}

func numbers(text, separator string) ([]int, error) {
	var out []int
	for _, f := range strings.Split(text, separator) {
		n, err := strconv.Atoi(f)
		if err != nil {
			return nil, err
		}
		out = append(out, n)
	}
	return out, nil
}
