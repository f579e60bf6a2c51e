package cutplan

import "slices"

// whole is the share of a board's width that a part alone across it takes.
const whole = 5040

// mostScales is how many lists of shares of one stock are tried.
const mostScales = 24

// alone reports whether no two of the shapes lie side by side.
func alone(shapes []shape, kerf, stockWidth int) bool {
	for _, sh := range shapes {
		if 2*(sh.width+kerf) <= stockWidth+kerf {
			return false
		}
	}
	return true
}

// A way is how a relaxed board is measured, with the shares of the parts that may
// come from it.
type way struct {
	by     Way
	shares []int64
	alone  bool // no two parts lie side by side
}

// ways returns the ways to relax boards of a stock from which the shapes come.
func ways(shapes []shape, counts []int, kerf, stockWidth int) []way {
	var out []way
	square := !slices.ContainsFunc(shapes, func(sh shape) bool { return sh.b != 0 })
	lists := scales(shapes, counts, kerf, stockWidth)
	switch {
	case alone(shapes, kerf, stockWidth):
		return []way{{Middle, lists[0], true}} // all of the width each
	case square:
		for _, l := range lists {
			out = append(out, way{by: Middle, shares: l})
		}
	default:
		// A narrow part may lie beside the point of a wide one: at mid-width the
		// share is the width itself.
		share := make([]int64, len(shapes))
		for i, sh := range shapes {
			share[i] = whole * int64(sh.width+kerf) / int64(stockWidth+kerf)
		}
		out = append(out, way{by: Middle, shares: share})
		for _, l := range lists {
			out = append(out, way{by: Within, shares: l})
		}
	}
	for _, l := range lists {
		if !slices.Contains(l, 0) {
			out = append(out, way{by: Lanes, shares: l})
		}
	}
	return out
}

// scales returns lists of shares of a board's width, by shape and in 1/5040,
// such that no set of parts which a line across the board meets adds up to more
// than 1: then lengths times shares of the parts of a board add up to no more
// than its length, however they lie (Fekete and Schepers 2001 call such lists
// conservative scales).
//
// Widths are given, one after another, as much as those before leave them; every
// order of a few widths gives a list of which no share can be raised. A line
// meets no more parts of a width than there are.
func scales(shapes []shape, counts []int, kerf, stockWidth int) [][]int64 {
	room := stockWidth + kerf
	var steps []int
	pieces := map[int]int{}
	for i, sh := range shapes {
		if !slices.Contains(steps, sh.width+kerf) {
			steps = append(steps, sh.width+kerf)
		}
		pieces[sh.width+kerf] += counts[i]
	}
	slices.Sort(steps)
	slices.Reverse(steps)
	lengths := map[int]float64{}
	for i, sh := range shapes {
		lengths[sh.width+kerf] += float64(sh.length * counts[i])
	}
	var out [][]int64
	add := func(least map[int]int64, order []int) {
		given := raised(least, order, pieces, room)
		share := make([]int64, len(shapes))
		for i, sh := range shapes {
			share[i] = given[sh.width+kerf]
		}
		if !slices.ContainsFunc(out, func(o []int64) bool { return slices.Equal(o, share) }) && len(out) < mostScales {
			out = append(out, share)
		}
	}
	add(dearest(steps, pieces, lengths, room), steps)
	for _, order := range orders(steps) {
		add(nil, order)
	}
	return out
}

// raised gives each width in turn as much more than its least as the others, with
// what they have so far, leave it.
func raised(least map[int]int64, order []int, pieces map[int]int, room int) map[int]int64 {
	given := map[int]int64{}
	for _, step := range order {
		given[step] = least[step]
	}
	for _, step := range order {
		best := make([]int64, room+1) // greatest sum of the others' shares, for a width
		for _, other := range order {
			if other == step {
				continue
			}
			for w := room; w >= other; w-- {
				for n := 1; n*other <= w && n <= pieces[other]; n++ {
					best[w] = max(best[w], best[w-n*other]+int64(n)*given[other])
				}
			}
		}
		most := int64(whole)
		for n := 1; n*step <= room && n <= pieces[step]; n++ {
			most = min(most, (whole-best[room-n*step])/int64(n))
		}
		given[step] = most
	}
	return given
}

// dearest returns the shares under which the given lengths count for most: the
// prices of the linear program that covers them with lines across the board.
func dearest(steps []int, pieces map[int]int, lengths map[int]float64, room int) map[int]int64 {
	var right, cost []float64
	for _, step := range steps {
		right, cost = append(right, lengths[step]), append(cost, 2)
	}
	p := newProgram(right, cost)
	counts := make([]int, len(steps))
	lines := 0
	var across func(k, left int)
	across = func(k, left int) {
		if k == len(steps) {
			if lines++; lines > 2000 {
				return
			}
			var at []entry
			for i, n := range counts {
				if n > 0 {
					at = append(at, entry{i, float64(n)})
				}
			}
			p.add(column{1, at})
			return
		}
		for n := min(left/steps[k], pieces[steps[k]]); n >= 0; n-- {
			counts[k] = n
			across(k+1, left-n*steps[k])
		}
	}
	across(0, room)
	out := map[int]int64{}
	if lines > 2000 || !p.solve() {
		return out
	}
	for i, step := range steps {
		// Rounded down twice: sums of shares stay below the whole.
		out[step] = max(0, int64(p.price[i]*(whole-1))-1)
	}
	return out
}

// orders returns all orders of up to four widths; of more, those that begin
// with each in turn.
func orders(steps []int) [][]int {
	if len(steps) <= 1 {
		return [][]int{steps}
	}
	var out [][]int
	for i, first := range steps {
		rest := append(slices.Clone(steps[:i]), steps[i+1:]...)
		tails := [][]int{rest}
		if len(steps) <= 4 {
			tails = orders(rest)
		} else {
			back := slices.Clone(rest)
			slices.Reverse(back)
			tails = append(tails, back)
		}
		for _, tail := range tails {
			out = append(out, append([]int{first}, tail...))
		}
	}
	return out
}
