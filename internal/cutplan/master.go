package cutplan

import "slices"

// A master is the linear program over sawing patterns of one search: rows for
// items, which are to be covered, for lanes, which are limited, and for the
// branches of a tree. What stays uncovered costs its length; when that comes to
// nothing, the state could yield its items if lanes could be used in part.
// Columns are found as they are needed (Gilmore and Gomory 1961) at prices
// smoothed between the best and the latest (Wentges 1997).
type master struct {
	s        *search
	p        *program
	of       []use // by column of the program; those without counts are no patterns
	rows     []branch
	patterns int         // where columns that may be dropped begin
	ripped   [][]float64 // by board and way to rip: how often, when last solved
	best     *prices     // that refuted best at the present state
}

type prices struct {
	weight []int64
	arcs   []int64 // by branch
	excess int64   // need over room: above 0 refutes
}

// scale turns prices of the linear program into whole weights.
const scale = 1 << 30

// A share is how often, not in whole numbers, the program uses a pattern.
type share struct {
	use
	times float64
}

// newMaster sets up the rows and all columns that are no patterns: items not
// covered, lanes not used, items sawn too often, and boards ripped into strips.
func newMaster(s *search) *master {
	m := &master{s: s}
	longest := 1.0
	for _, b := range s.in.boards {
		longest = max(longest, float64(b.capacity))
	}
	var cost []float64
	for _, it := range s.in.items {
		cost = append(cost, float64(max(1, it.whole[1]))/longest)
	}
	for range len(s.in.boards) * len(s.in.modes) {
		cost = append(cost, 0)
	}
	m.p = newProgram(make([]float64, len(cost)), cost)
	m.of = make([]use, len(cost))
	for i := range s.in.items {
		m.add(use{}, column{0, []entry{{i, -1}}})
	}
	for b, board := range s.in.boards {
		m.ripped = append(m.ripped, make([]float64, len(s.in.rips)))
		for r, rip := range s.in.rips {
			if rip.stock == board.stock {
				at := []entry{{s.row(b, board.whole), 1}}
				for k, n := range rip.strips {
					if n > 0 {
						at = append(at, entry{s.row(b, k), -float64(n)})
					}
				}
				m.add(use{board: b, rip: r + 1}, column{0, at})
			}
		}
	}
	m.patterns = len(m.of)
	return m
}

// row returns the row of a lane: a board left whole is the row of the board.
func (s *search) row(b, m int) int { return len(s.in.items) + b*len(s.in.modes) + m }

func (m *master) add(u use, c column) {
	m.of = append(m.of, u)
	m.p.add(c)
}

// put adds a pattern.
func (m *master) put(u use) {
	var at []entry
	for i, n := range u.counts {
		if n > 0 {
			at = append(at, entry{i, float64(n)})
		}
	}
	at = append(at, entry{m.s.row(u.board, u.mode), 1})
	for r, b := range m.rows {
		if n := m.s.in.arcs(u.counts, b.arc); n > 0 {
			at = append(at, entry{m.row(r), b.sign() * float64(n)})
		}
	}
	m.add(u, column{0, at})
}

// row returns the row of the program that holds branch r.
func (m *master) row(r int) int { return m.s.row(len(m.s.in.boards), 0) + r }

// copy returns a master to branch from.
func (m *master) copy() *master {
	return &master{s: m.s, p: m.p.clone(), of: slices.Clone(m.of), patterns: m.patterns, ripped: m.ripped, best: m.best}
}

// branched returns a copy of the master under a further branch.
func (m *master) branched(b branch) *master {
	c := &master{s: m.s, p: m.p.clone(), of: slices.Clone(m.of), patterns: m.patterns, ripped: m.ripped, rows: append(slices.Clone(m.rows), b)}
	values := map[int]float64{}
	for j, u := range c.of {
		if u.counts != nil {
			if n := m.s.in.arcs(u.counts, b.arc); n > 0 {
				values[j] = b.sign() * float64(n)
			}
		}
	}
	c.p.addRow(values, b.sign()*float64(b.limit))
	c.of = append(c.of, use{})
	if b.least {
		c.add(use{}, column{1, []entry{{m.row(len(m.rows)), -1}}})
	}
	if m.best != nil {
		c.best = &prices{m.best.weight, append(slices.Clone(m.best.arcs), 0), m.best.excess}
	}
	return c
}

// relaxation asks whether the state could yield its items if lanes could be
// used in part. If not, impossible comes with the cut that proves it.
func (m *master) relaxation(st *state) (verdict, []share, cut) {
	s := m.s
	s.nodes++
	if len(m.rows) == 0 {
		for i := len(s.cuts) - 1; i >= 0; i-- {
			if s.cuts[i].refutes(st) {
				return impossible, nil, s.cuts[i]
			}
		}
	}
	m.demand(st)
	if m.best != nil {
		c := m.weigh(st, m.best)
		if m.best.excess > 0 {
			return impossible, nil, c
		}
	}
	for range 1000 {
		if !m.p.solve() {
			m.p.restart()
			if !m.p.solve() {
				break
			}
		}
		if m.p.objective() < 1e-7 {
			return yielded, m.shares(), cut{}
		}
		exact := m.prices()
		found := false
		for _, now := range m.smoothed(exact) {
			c := m.weigh(st, now)
			if now.excess > 0 {
				return impossible, nil, c
			}
			if m.best == nil || now.excess > m.best.excess {
				m.best = now
			}
			if found = m.price(st, &c); found {
				break
			}
		}
		if !found || s.ctx.Err() != nil {
			break
		}
		if len(m.of) > 8*len(m.p.right)+300 {
			m.purge()
		}
	}
	return undecided, nil, cut{}
}

// demand sets the right sides of a state.
func (m *master) demand(st *state) {
	right := make([]float64, 0, len(m.p.right))
	for _, n := range st.want {
		right = append(right, float64(n))
	}
	for b, board := range m.s.in.boards {
		for k := range m.s.in.modes {
			n := st.strips[b][k]
			if k == board.whole {
				n = st.boards[b]
			}
			right = append(right, float64(n))
		}
	}
	for _, b := range m.rows {
		right = append(right, b.sign()*float64(b.limit))
	}
	m.p.demand(right)
}

// prices returns the program's prices in whole numbers.
func (m *master) prices() *prices {
	now := &prices{}
	for i := range m.s.in.items {
		now.weight = append(now.weight, int64(max(0, m.p.price[i])*scale))
	}
	for r, b := range m.rows {
		now.arcs = append(now.arcs, int64(b.sign())*int64(max(0, -m.p.price[m.row(r)])*scale)*-1)
	}
	return now
}

// smoothed returns the prices to try: between the best ones and the latest,
// then the latest.
func (m *master) smoothed(exact *prices) []*prices {
	if m.best == nil {
		return []*prices{exact}
	}
	mix := func(a, b []int64) (out []int64) {
		for i := range a {
			out = append(out, (a[i]+b[i])/2)
		}
		return out
	}
	return []*prices{{weight: mix(m.best.weight, exact.weight), arcs: mix(m.best.arcs, exact.arcs)}, exact}
}

// weigh returns the cut that prices make, and sets their excess.
func (m *master) weigh(st *state, now *prices) cut {
	var c cut
	if len(m.rows) == 0 {
		c = m.s.weigh(now.weight, st.want)
	} else {
		c = m.s.along(now, m.rows, st.want)
	}
	now.excess = c.need - c.room(st)
	return c
}

// price adds patterns worth more than their lanes, at the program's prices of
// lanes, and reports whether there were any.
func (m *master) price(st *state, c *cut) bool {
	found := false
	for b := range st.boards {
		for k := range m.s.in.modes {
			// A row's price is negative: what one more lane would save.
			worth := int64(-m.p.price[m.s.row(b, k)]*scale) + 64
			if !m.s.has(st, b, k) || c.holds[b][k] <= worth {
				continue
			}
			if len(m.rows) > 0 {
				_, end := m.s.paths.best(m.s.in.boards[b].capacity)
				found = m.offer(use{board: b, mode: k, counts: m.s.paths.pattern(end)}) || found
				continue
			}
			m.s.fillers[k].others(b, worth, 6, func(counts []int) {
				found = m.offer(use{board: b, mode: k, counts: counts}) || found
			})
		}
	}
	return found
}

// offer puts a pattern whose reduced cost is negative at the exact prices.
func (m *master) offer(u use) bool {
	value := m.p.price[m.s.row(u.board, u.mode)]
	for i, n := range u.counts {
		value += float64(m.p.price[i] * float64(n))
	}
	for r, b := range m.rows {
		if p := m.p.price[m.row(r)]; p != 0 {
			value += float64(p * b.sign() * float64(m.s.in.arcs(u.counts, b.arc)))
		}
	}
	if value <= 2*small {
		return false
	}
	m.put(u)
	return true
}

func (m *master) shares() []share {
	var out []share
	for b := range m.ripped {
		clear(m.ripped[b])
	}
	for r, j := range m.p.basis {
		if x := m.p.level[r]; x > 1e-7 && m.of[j].counts != nil {
			out = append(out, share{m.of[j], x})
		} else if x > 1e-7 && m.of[j].rip > 0 {
			m.ripped[m.of[j].board][m.of[j].rip-1] += x
		}
	}
	slices.SortFunc(out, func(a, b share) int { // by pattern: the basis has no order
		if a.board != b.board {
			return a.board - b.board
		}
		if a.mode != b.mode {
			return a.mode - b.mode
		}
		return slices.Compare(b.counts, a.counts)
	})
	return out
}

func (m *master) purge() {
	place := m.p.purge(m.patterns, 3*len(m.p.right)+100)
	of := m.of
	m.of = make([]use, len(m.p.columns))
	for j, to := range place {
		if to >= 0 {
			m.of[to] = of[j]
		}
	}
}
