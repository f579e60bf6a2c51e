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
		boards[u.board]++
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
	a := &arranging{s: s, together: make([]bool, len(s.in.items))}
	for i, it := range s.in.items {
		for _, part := range it.parts {
			a.together[i] = a.together[i] || job.Parts[part].Together
		}
	}
	for k := range uses {
		u := &uses[k]
		b := s.in.boards[u.board]
		if u.sections == nil {
			a.add(b.whole, b.capacity, u.counts)
			continue
		}
		u.sections = merged(u.sections)
		over := b.capacity
		for _, sec := range u.sections {
			over -= sec.length
		}
		for i, sec := range u.sections {
			if i+1 == len(u.sections) {
				sec.length += over
			}
			for _, st := range sec.strips {
				a.add(st.mode, sec.length, st.counts)
			}
		}
	}
	for better := true; better && a.tries < wishTries; {
		better = false
		for x := range a.lanes {
			for y := range a.lanes {
				if x != y && a.improve(x, y) {
					better = true
				}
			}
		}
	}
	return swept(uses)
}

// merged joins the sections of a board that are ripped alike, strip to strip, and
// puts those left whole first, then those with the longest strips.
func merged(sections []section) (out []section) {
	for _, sec := range sections {
		same := slices.IndexFunc(out, func(o section) bool {
			return slices.EqualFunc(o.strips, sec.strips, func(a, b strip) bool { return a.mode == b.mode })
		})
		if same < 0 {
			out = append(out, sec)
			continue
		}
		out[same].length += sec.length
		for k, st := range sec.strips {
			for i, n := range st.counts {
				out[same].strips[k].counts[i] += n
			}
		}
	}
	slices.SortStableFunc(out, func(a, b section) int {
		return cmp.Or(cmp.Compare(min(2, len(a.strips)), min(2, len(b.strips))), cmp.Compare(b.length, a.length))
	})
	return out
}

// swept drops strips, sections and boards on which nothing is left.
func swept(uses []use) (out []use) {
	for _, u := range uses {
		if u.sections != nil {
			clear(u.counts)
			var kept []section
			for _, sec := range u.sections {
				sec.strips = slices.DeleteFunc(sec.strips, func(st strip) bool { return empty(st.counts) })
				for _, st := range sec.strips {
					for i, n := range st.counts {
						u.counts[i] += n
					}
				}
				if len(sec.strips) > 0 {
					kept = append(kept, sec)
				}
			}
			u.sections = kept
		}
		if !empty(u.counts) {
			out = append(out, u)
		}
	}
	return out
}

func empty(counts []int) bool { return !slices.ContainsFunc(counts, func(n int) bool { return n > 0 }) }

type arranging struct {
	s        *search
	lanes    []lane
	together []bool
	tries    int
}

// A lane is one that pieces may be moved to and from.
type lane struct {
	mode     int
	capacity int
	counts   []int
	left     int // room; below 0 the pieces do not fit
}

func (a *arranging) add(mode, capacity int, counts []int) {
	l := lane{mode, capacity, counts, 0}
	a.measure(&l)
	a.lanes = append(a.lanes, l)
}

func (a *arranging) measure(l *lane) {
	l.left = l.capacity - a.s.in.taken(&a.s.in.modes[l.mode], l.counts)
}

// improve moves one piece from lane x to lane y, or swaps it for one of y's, if
// that makes the longest leftover longer; or, leaving that, needs fewer lanes
// for parts that belong together; or, leaving both, fewer stop settings.
func (a *arranging) improve(x, y int) bool {
	from, to := &a.lanes[x], &a.lanes[y]
	if slices.Equal(from.counts, to.counts) && from.capacity == to.capacity {
		return false
	}
	others := 0 // longest leftover but for these two
	for k, l := range a.lanes {
		if k != x && k != y {
			others = max(others, l.left)
		}
	}
	was := max(others, from.left, to.left)
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
			a.swap(from, to, i, j)
			if from.left >= 0 && to.left >= 0 {
				newSpread, newStops := a.settings(x, y, i, j)
				if cmp.Or(was-max(others, from.left, to.left), newSpread-spread, newStops-stops) < 0 {
					return true
				}
			}
			a.swap(to, from, i, j)
		}
	}
	return false
}

// swap moves an item i from one lane to another, and an item j back unless that
// is -1.
func (a *arranging) swap(from, to *lane, i, j int) {
	from.counts[i]--
	to.counts[i]++
	if j >= 0 {
		to.counts[j]--
		from.counts[j]++
	}
	a.measure(from)
	a.measure(to)
}

// settings returns on how many of lanes x and y items i and j occur, of those
// that belong together and of all.
func (a *arranging) settings(x, y, i, j int) (spread, stops int) {
	for _, u := range []lane{a.lanes[x], a.lanes[y]} {
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
