package main

import (
	"context"
	"fmt"
	"slices"
	"syscall"

	"scantling/internal/claim"
	"scantling/internal/cutcheck"
	"scantling/internal/cutplan"
)

// ripped plans made-up pieces with rips, prints how near the plans come to what
// is proved, and returns how many the checker refused.
func ripped(n int) (wrong int) {
	proved, near := 0, 0
	worst := 0.0
	var seconds []float64
	for k := range n {
		job := piece(k)
		start := cpu()
		plan, err := cutplan.Solve(context.Background(), job, cutplan.Options{})
		seconds = append(seconds, cpu()-start)
		if err != nil {
			fmt.Printf("  WRONG piece %d: %v\n", k, err)
			wrong++
			continue
		}
		if report := cutcheck.Check(claim.Of(job, plan)); !report.OK() || !report.BoundVerified {
			fmt.Printf("  WRONG piece %d: %q, bound verified: %t\n", k, report.Faults, report.BoundVerified)
			wrong++
		}
		gap := float64(plan.Cost-plan.Bound) / float64(plan.Bound)
		if plan.Optimal {
			proved++
		}
		if gap <= 0.01 {
			near++
		}
		worst = max(worst, gap)
	}
	slices.Sort(seconds)
	fmt.Printf("%d pieces with rips: %d proved, %d within 1 %%, worst gap %.1f %%, %d wrong; processor seconds: median %.3f, p95 %.3f, max %.3f\n",
		n, proved, near, 100*worst, wrong, seconds[(n-1)/2], seconds[min(n-1, n*95/100)], seconds[n-1])
	return wrong
}

// cpu returns the seconds of processor time taken so far.
func cpu() float64 {
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		return 0
	}
	return float64(u.Utime.Sec) + float64(u.Utime.Usec)/1e6
}
