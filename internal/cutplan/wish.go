package cutplan

import (
	"cmp"
	"slices"
)

// Wishes come after cost and are pursued for a number of tries, never called
// best: fewer boards, fewer lengths to ask for, the longest single leftover,
// parts that belong together from one board, and fewest stop settings.
const wishTries = 20000

// wish looks for another purchase of the same cost with fewer boards, or as many
// of fewer lengths.
func (s *search) wish(uses []use, cost int64) []use {
	now := s.bought(uses)
	p := &equal{s: s, left: wishTries, taken: make([]int, len(s.in.boards)), needs: make([]int64, len(s.cuts))}
	for i, c := range s.cuts {
		p.needs[i] = c.need
	}
	p.from(0, cost)
	slices.SortStableFunc(p.found, func(a, b []int) int { return slices.Compare(tally(a), tally(b)) })
	for k, boards := range p.found {
		if k == 20 || slices.Compare(tally(boards), tally(now)) >= 0 || !s.going() {
			break
		}
		st := s.start(boards)
		v, shares, _ := s.master.relaxation(st)
		if v != yielded {
			continue
		}
		tries := 10
		if found := s.dive(st, shares, &tries); found != nil {
			uses = found
			break
		}
	}
	return uses
}

// bought returns how many boards of each kind the uses take.
func (s *search) bought(uses []use) []int {
	boards := make([]int, len(s.in.boards))
	for _, u := range uses {
		if u.rip > 0 || !s.in.modes[u.mode].strip {
			boards[u.board]++
		}
	}
	return boards
}

// tally returns the number of boards and of lengths among them.
func tally(boards []int) []int {
	t := []int{0, 0}
	for _, n := range boards {
		t[0] += n
		t[1] += min(n, 1)
	}
	return t
}

// equal collects purchases of just one price that pass every cut.
type equal struct {
	s     *search
	left  int
	taken []int
	needs []int64
	found [][]int
}

func (p *equal) from(b int, price int64) {
	if p.left--; p.left < 0 || price < 0 {
		return
	}
	if b == len(p.s.in.boards) {
		if price == 0 && !slices.ContainsFunc(p.needs, func(n int64) bool { return n > 0 }) {
			p.found = append(p.found, slices.Clone(p.taken))
		}
		return
	}
	board := p.s.in.boards[b]
	most := int64(board.limit)
	if board.price > 0 {
		most = min(most, price/board.price)
	}
	for n := range most + 1 {
		p.taken[b] = int(n)
		p.from(b+1, price-n*board.price)
		for i := range p.needs {
			p.needs[i] -= p.s.cuts[i].best[b]
		}
	}
	for i := range p.needs {
		p.needs[i] += (most + 1) * p.s.cuts[i].best[b]
	}
	p.taken[b] = 0
}

// arrange moves and swaps pieces between lanes while that meets the wishes
// better: every single piece against every other, until nothing helps.
func (s *search) arrange(job *Job, uses []use) []use {
	together := make([]bool, len(s.in.items))
	for i, it := range s.in.items {
		for _, part := range it.parts {
			together[i] = together[i] || job.Parts[part].Together
		}
	}
	a := &arranging{s: s, uses: uses, together: together}
	for _, u := range uses {
		a.left = append(a.left, s.room(u))
	}
	for better := true; better && a.tries < wishTries; {
		better = false
		for x := range uses {
			for y := range uses {
				if x != y && a.improve(x, y) {
					better = true
				}
			}
		}
	}
	return slices.DeleteFunc(uses, func(u use) bool {
		return u.rip == 0 && !slices.ContainsFunc(u.counts, func(n int) bool { return n > 0 })
	})
}

type arranging struct {
	s        *search
	uses     []use
	left     []int // room by use
	together []bool
	tries    int
}

// room returns what is left of a lane; below 0 the pieces do not fit.
func (s *search) room(u use) int {
	return s.in.boards[u.board].capacity - s.in.taken(&s.in.modes[u.mode], u.counts)
}

// improve moves one piece from lane x to lane y, or swaps it for one of y's, if
// that makes the longest leftover longer; or, leaving that, needs fewer lanes
// for parts that belong together; or, leaving both, fewer stop settings.
func (a *arranging) improve(x, y int) bool {
	from, to := &a.uses[x], &a.uses[y]
	if slices.Equal(from.counts, to.counts) && from.board == to.board {
		return false
	}
	others := 0 // longest leftover but for these two
	for k, l := range a.left {
		if k != x && k != y {
			others = max(others, l)
		}
	}
	was := [2]int{a.left[x], a.left[y]}
	for i, n := range from.counts {
		if n == 0 || !slices.Contains(a.s.in.modes[to.mode].items, i) {
			continue
		}
		for j := -1; j < len(to.counts); j++ {
			if j == i || j >= 0 && (to.counts[j] == 0 || !slices.Contains(a.s.in.modes[from.mode].items, j)) {
				continue
			}
			if a.tries++; a.tries > wishTries {
				return false
			}
			spread, stops := a.settings(x, y, i, j)
			from.counts[i]--
			to.counts[i]++
			if j >= 0 {
				to.counts[j]--
				from.counts[j]++
			}
			a.left[x], a.left[y] = a.s.room(*from), a.s.room(*to)
			if a.left[x] >= 0 && a.left[y] >= 0 {
				newSpread, newStops := a.settings(x, y, i, j)
				longer := max(others, a.left[x], a.left[y]) - max(others, was[0], was[1])
				if cmp.Or(-longer, newSpread-spread, newStops-stops) < 0 {
					return true
				}
			}
			if j >= 0 {
				to.counts[j]++
				from.counts[j]--
			}
			to.counts[i]--
			from.counts[i]++
			a.left[x], a.left[y] = was[0], was[1]
		}
	}
	return false
}

// settings returns on how many of lanes x and y items i and j occur, of those
// that belong together and of all.
func (a *arranging) settings(x, y, i, j int) (spread, stops int) {
	for _, u := range []use{a.uses[x], a.uses[y]} {
		for _, k := range []int{i, j} {
			if k >= 0 && u.counts[k] > 0 {
				stops++
				if a.together[k] {
					spread++
				}
			}
		}
	}
	return spread, stops
}
