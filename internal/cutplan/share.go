package cutplan

import "slices"

// whole is the share of a board's width that a part alone across it takes.
const whole = 5040

// mostScales is how many lists of shares of one stock are tried.
const mostScales = 12

// alone reports whether no two of the shapes lie side by side.
func alone(shapes []shape, kerf, stockWidth int) bool {
	for _, sh := range shapes {
		if 2*(sh.width+kerf) <= stockWidth+kerf {
			return false
		}
	}
	return true
}

// scales returns lists of shares of a board's width, by shape and in 1/5040,
// such that no set of parts which a line across the board meets adds up to more
// than 1: then lengths times shares of the parts of a board add up to no more
// than its length, however they lie (Fekete and Schepers 2001 call such lists
// conservative scales).
//
// Widths are given, one after another, as much as those before leave them; every
// order of a few widths gives a list of which no share can be raised. With
// sloping ends the share is the width itself, for a narrow part may lie beside
// the point of a wide one.
func scales(shapes []shape, kerf, stockWidth int) [][]int64 {
	room := stockWidth + kerf
	var steps []int
	square := true
	for _, sh := range shapes {
		square = square && sh.b == 0
		if !slices.Contains(steps, sh.width+kerf) {
			steps = append(steps, sh.width+kerf)
		}
	}
	share := make([]int64, len(shapes))
	if !square && !alone(shapes, kerf, stockWidth) {
		for i, sh := range shapes {
			share[i] = whole * int64(sh.width+kerf) / int64(room)
		}
		return [][]int64{share}
	}
	slices.Sort(steps)
	slices.Reverse(steps)
	var out [][]int64
	for _, order := range orders(steps) {
		given := map[int]int64{}
		best := make([]int64, room+1) // greatest sum of shares given, for a width
		for _, step := range order {
			most := int64(whole)
			for n := 1; n*step <= room; n++ {
				most = min(most, (whole-best[room-n*step])/int64(n))
			}
			given[step] = most
			for w := step; w <= room; w++ {
				best[w] = max(best[w], best[w-step]+most)
			}
		}
		share := make([]int64, len(shapes))
		for i, sh := range shapes {
			share[i] = given[sh.width+kerf]
		}
		if !slices.ContainsFunc(out, func(o []int64) bool { return slices.Equal(o, share) }) && len(out) < mostScales {
			out = append(out, share)
		}
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
