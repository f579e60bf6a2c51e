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
	patterns int     // where columns that may be dropped begin
	dearest  float64 // price of a board that costs 1; 0: boards cost nothing
	best     *prices // that refuted best at the present state
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
// covered, boards not used, and items sawn too often. When it is priced, it looks
// for the cheapest boards rather than whether given ones yield the items.
func newMaster(s *search, priced bool) *master {
	m := &master{s: s}
	longest := 1.0
	for _, b := range s.in.boards {
		longest = max(longest, float64(b.capacity))
	}
	var cost []float64
	for _, it := range s.in.items {
		cost = append(cost, float64(max(1, it.whole[1]))/longest)
		if priced {
			cost[len(cost)-1] = 2 // more than a board that yields it
		}
	}
	for _, b := range s.in.boards {
		cost = append(cost, 0)
		if priced {
			m.dearest = max(1, m.dearest, float64(b.price))
		}
	}
	m.p = newProgram(make([]float64, len(cost)), cost)
	m.of = make([]use, len(cost))
	for i := range s.in.items {
		m.add(use{}, column{0, []entry{{i, -1}}})
	}
	m.patterns = len(m.of)
	return m
}

// row returns the row of a board.
func (s *search) row(b int) int { return len(s.in.items) + b }

func (m *master) add(u use, c column) {
	m.of = append(m.of, u)
	m.p.add(c)
}

// put adds a pattern.
func (m *master) put(u use) {
	var at []entry
	mode := &m.s.in.modes[m.s.in.boards[u.board].whole]
	for i, n := range u.counts {
		if n > 0 {
			at = append(at, entry{i, mode.holds(i, n)})
		}
	}
	at = append(at, entry{m.s.row(u.board), 1})
	for r, b := range m.rows {
		if n := m.s.in.arcs(u.counts, b.arc); n > 0 {
			at = append(at, entry{m.row(r), b.sign() * float64(n)})
		}
	}
	m.add(u, column{m.cost(u.board), at})
}

// cost returns what a board costs the program.
func (m *master) cost(b int) float64 {
	if m.dearest == 0 {
		return 0
	}
	return float64(m.s.in.boards[b].price) / m.dearest
}

// row returns the row of the program that holds branch r.
func (m *master) row(r int) int { return m.s.row(len(m.s.in.boards)) + r }

// copy returns a master to branch from.
func (m *master) copy() *master {
	return &master{s: m.s, p: m.p.clone(), of: slices.Clone(m.of), patterns: m.patterns, best: m.best}
}

// branched returns a copy of the master under a further branch.
func (m *master) branched(b branch) *master {
	c := &master{s: m.s, p: m.p.clone(), of: slices.Clone(m.of), patterns: m.patterns, rows: append(slices.Clone(m.rows), b)}
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
	if m.best != nil && s.saws == nil {
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
		if s.saws != nil {
			if !m.saw(st, exact) {
				break
			}
			continue
		}
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

// cheapest returns how often patterns are used at least price, in fractions, as
// far as they are found.
func (m *master) cheapest(st *state) []share {
	m.demand(st)
	for range 200 {
		if !m.p.solve() {
			m.p.restart()
			if !m.p.solve() {
				break
			}
		}
		if m.s.ctx.Err() != nil || !m.saw(st, m.prices()) {
			break
		}
		if len(m.of) > 8*len(m.p.right)+300 {
			m.purge()
		}
	}
	return m.shares()
}

// demand sets the right sides of a state.
func (m *master) demand(st *state) {
	right := make([]float64, 0, len(m.p.right))
	for _, n := range st.want {
		right = append(right, float64(n))
	}
	for _, n := range st.boards {
		right = append(right, float64(n))
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

// price adds patterns worth more than their boards, at the program's prices of
// boards, and reports whether there were any.
func (m *master) price(st *state, c *cut) bool {
	found := false
	for b, board := range m.s.in.boards {
		worth := m.worth(b)
		if st.boards[b] == 0 || c.best[b] <= worth {
			continue
		}
		if len(m.rows) > 0 {
			_, end := m.s.paths.best(board.capacity)
			found = m.offer(use{board: b, counts: m.s.paths.pattern(end)}) || found
			continue
		}
		m.s.fillers[board.whole].others(b, worth, 6, func(counts []int) {
			found = m.offer(use{board: b, counts: counts}) || found
		})
	}
	return found
}

// worth returns the program's price of a board: what one more would save.
func (m *master) worth(b int) int64 {
	return int64((m.cost(b)-m.p.price[m.s.row(b)])*scale) + 64
}

// saw adds patterns of boards that may be ripped, likewise.
func (m *master) saw(st *state, now *prices) bool {
	found := false
	for _, r := range m.s.saws {
		r.each(st, now.weight, m.worth, func(u use) { found = m.offer(u) || found })
	}
	return found
}

// offer puts a pattern whose reduced cost is negative at the exact prices.
func (m *master) offer(u use) bool {
	value := m.p.price[m.s.row(u.board)] - m.cost(u.board)
	mode := &m.s.in.modes[m.s.in.boards[u.board].whole]
	for i, n := range u.counts {
		value += float64(m.p.price[i] * mode.holds(i, n))
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
	for r, j := range m.p.basis {
		if x := m.p.level[r]; x > 1e-7 && m.of[j].counts != nil {
			out = append(out, share{m.of[j], x})
		}
	}
	slices.SortFunc(out, func(a, b share) int { // by pattern: the basis has no order
		if a.board != b.board {
			return a.board - b.board
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
