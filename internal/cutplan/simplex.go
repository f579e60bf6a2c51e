package cutplan

import (
	"math"
	"slices"
)

// A program is a linear program: minimise cost·x with A·x = right, x ≥ 0, kept
// in revised form with the inverse of the basis. It starts from the identity:
// column r has a 1 in row r. Right sides may change and rows be added later;
// the dual simplex method then leads from the old optimum to the new one.
//
// It need not be exact: its prices are rounded to whole numbers and its columns
// are counts, and only those are believed.
type program struct {
	columns []column
	inverse [][]float64
	right   []float64
	level   []float64 // of the basic variables, by row
	price   []float64 // by row
	basis   []int     // column basic in each row
	in      []bool    // by column: basic
	pivots  int       // since the inverse was last made anew
	full    []int     // scratch of pivot
	slack   []int     // by row: the column that has a 1 there and nothing else
}

type column struct {
	cost float64
	at   []entry
}

type entry struct {
	row   int
	value float64
}

const small = 1e-9

// newProgram starts from right sides, none negative, and the costs of the
// identity columns.
func newProgram(right, cost []float64) *program {
	p := &program{right: slices.Clone(right), level: slices.Clone(right), price: slices.Clone(cost)}
	for r := range right {
		p.columns = append(p.columns, column{cost[r], []entry{{r, 1}}})
		p.basis, p.slack = append(p.basis, r), append(p.slack, r)
		p.in = append(p.in, true)
		row := make([]float64, len(right))
		row[r] = 1
		p.inverse = append(p.inverse, row)
	}
	return p
}

func (p *program) add(c column) {
	p.columns = append(p.columns, c)
	p.in = append(p.in, false)
}

// addRow adds the row values·x + slack = right, given by column, and makes the
// slack basic. The basis stays optimal but for the level of that row.
func (p *program) addRow(values map[int]float64, right float64) {
	r := len(p.right)
	last := make([]float64, r+1)
	level := right
	for k, j := range p.basis {
		if v := values[j]; v != 0 {
			level -= float64(v * p.level[k])
			for i, x := range p.inverse[k] {
				last[i] -= float64(v * x)
			}
		}
	}
	for j := range p.columns {
		if v := values[j]; v != 0 {
			p.columns[j].at = append(slices.Clone(p.columns[j].at), entry{r, v})
		}
	}
	last[r] = 1
	for k := range p.inverse {
		p.inverse[k] = append(p.inverse[k], 0)
	}
	p.inverse = append(p.inverse, last)
	p.right, p.level, p.price = append(p.right, right), append(p.level, level), append(p.price, 0)
	p.basis, p.slack = append(p.basis, len(p.columns)), append(p.slack, len(p.columns))
	p.columns = append(p.columns, column{0, []entry{{r, 1}}})
	p.in = append(p.in, true)
}

func (p *program) clone() *program {
	c := *p
	c.columns, c.right, c.level, c.price = slices.Clone(p.columns), slices.Clone(p.right), slices.Clone(p.level), slices.Clone(p.price)
	c.full, c.slack = nil, slices.Clone(p.slack)
	c.basis, c.in = slices.Clone(p.basis), slices.Clone(p.in)
	c.inverse = make([][]float64, len(p.inverse))
	for r := range p.inverse {
		c.inverse[r] = slices.Clone(p.inverse[r])
	}
	return &c
}

// demand changes the right sides.
func (p *program) demand(right []float64) {
	copy(p.right, right)
	p.refresh()
}

// restart goes back to the identity, from where errors have not yet crept in.
func (p *program) restart() {
	clear(p.in)
	for r, j := range p.slack {
		p.basis[r] = j
		p.in[j] = true
		clear(p.inverse[r])
		p.inverse[r][r] = 1
	}
	p.pivots = 0
	p.refresh()
}

// refresh computes levels and prices anew from the inverse.
func (p *program) refresh() {
	clear(p.price)
	for r, j := range p.basis {
		sum := 0.0
		for k, v := range p.inverse[r] {
			sum += float64(v * p.right[k])
		}
		p.level[r] = sum
		if cost := p.columns[j].cost; cost != 0 {
			for k, v := range p.inverse[r] {
				p.price[k] += float64(cost * v)
			}
		}
	}
}

// reduced returns what a unit of column j costs more than its rows are worth.
func (p *program) reduced(j int) float64 {
	d := p.columns[j].cost
	for _, e := range p.columns[j].at {
		d -= float64(p.price[e.row] * e.value)
	}
	return d
}

// solve goes on from the present basis to an optimal one; false when it got
// stuck. The objective and prices then stand for nothing but hints.
func (p *program) solve() bool {
	ok := p.repair()
	still := 0 // steps that moved nothing: after many, Bland's rule, which cannot circle
	direction := make([]float64, len(p.right))
	for steps := 0; ; steps++ {
		enter, least := -1, -small
		for j := range p.columns {
			if p.in[j] {
				continue
			}
			if d := p.reduced(j); d < least {
				enter, least = j, d
				if still > 300 {
					break
				}
			}
		}
		if enter < 0 {
			return ok
		}
		if steps > 20*len(p.right)+4000 {
			return false
		}
		p.direction(enter, direction)
		leave, step := -1, math.Inf(1)
		for r, d := range direction {
			if d <= small {
				continue
			}
			ratio := max(0, p.level[r]) / d
			if ratio < step-small || ratio < step+small && leave >= 0 && (still > 300 && p.basis[r] < p.basis[leave] || still <= 300 && d > direction[leave]) {
				leave, step = r, min(ratio, step)
			}
		}
		if leave < 0 {
			return false
		}
		if step < small {
			still++
		} else {
			still = 0
		}
		p.pivot(leave, enter, least, direction)
	}
}

// repair makes all levels non-negative again by dual steps.
func (p *program) repair() bool {
	direction := make([]float64, len(p.right))
	for steps := 0; ; steps++ {
		leave, worst := -1, -1e-8
		for r, l := range p.level {
			if l < worst {
				leave, worst = r, l
			}
		}
		if leave < 0 {
			return true
		}
		if steps > 5*len(p.right)+500 {
			return false
		}
		row := p.inverse[leave]
		enter, ratio, size, cost := -1, math.Inf(1), 0.0, 0.0
		for j := range p.columns {
			if p.in[j] {
				continue
			}
			alpha := 0.0
			for _, e := range p.columns[j].at {
				alpha += float64(row[e.row] * e.value)
			}
			if alpha > -1e-7 {
				continue
			}
			d := p.reduced(j)
			if q := max(0, d) / -alpha; q < ratio-small || q < ratio+small && -alpha > size {
				enter, ratio, size, cost = j, min(q, ratio), -alpha, d
			}
		}
		if enter < 0 {
			return false
		}
		p.direction(enter, direction)
		if math.Abs(direction[leave]) < small {
			return false
		}
		p.pivot(leave, enter, cost, direction)
	}
}

// direction sets how much a unit of column j takes from each basic variable.
func (p *program) direction(j int, direction []float64) {
	at := p.columns[j].at
	for r, row := range p.inverse {
		d := 0.0
		for _, e := range at {
			d += float64(row[e.row] * e.value)
		}
		direction[r] = d
	}
}

// pivot brings column enter, of the given reduced cost, into the basis in place
// of the one of row leave.
func (p *program) pivot(leave, enter int, reduced float64, direction []float64) {
	pivot := direction[leave]
	row := p.inverse[leave]
	p.full = p.full[:0] // where the row is not zero: mostly it is
	for k, v := range row {
		if math.Abs(v) > 1e-13 {
			row[k] = v / pivot
			p.price[k] += float64(reduced * row[k])
			p.full = append(p.full, k)
		} else {
			row[k] = 0
		}
	}
	p.level[leave] /= pivot
	step := p.level[leave]
	for r, d := range direction {
		if r == leave || math.Abs(d) < 1e-12 {
			continue
		}
		other := p.inverse[r][:len(row)]
		if 3*len(p.full) > len(row) {
			for k, v := range row {
				other[k] -= float64(d * v)
			}
		} else {
			for _, k := range p.full {
				other[k] -= float64(d * row[k])
			}
		}
		p.level[r] -= float64(d * step)
		if math.Abs(p.level[r]) < 1e-11 {
			p.level[r] = 0
		}
	}
	p.in[p.basis[leave]], p.in[enter] = false, true
	p.basis[leave] = enter
	if p.pivots++; p.pivots%100 == 0 {
		if p.pivots >= 3000 {
			p.invert()
		}
		p.refresh()
	}
}

// invert makes the inverse anew from the basic columns, by elimination with the
// largest pivot of each column.
func (p *program) invert() {
	n := len(p.right)
	work := make([][]float64, n) // the basis beside the identity
	for r := range work {
		work[r] = make([]float64, 2*n)
		work[r][n+r] = 1
	}
	for k, j := range p.basis {
		for _, e := range p.columns[j].at {
			work[e.row][k] = e.value
		}
	}
	for k := range n {
		best := k
		for r := k + 1; r < n; r++ {
			if math.Abs(work[r][k]) > math.Abs(work[best][k]) {
				best = r
			}
		}
		if math.Abs(work[best][k]) < 1e-10 {
			return // keep the old inverse: it is no worse
		}
		work[k], work[best] = work[best], work[k]
		pivot := work[k]
		by := pivot[k]
		for c := k; c < 2*n; c++ {
			pivot[c] /= by
		}
		for r := range n {
			if f := work[r][k]; r != k && f != 0 {
				for c := k; c < 2*n; c++ {
					work[r][c] -= float64(f * pivot[c])
				}
			}
		}
	}
	for k := range n {
		p.inverse[k] = work[k][n:]
	}
	p.pivots = 0
}

func (p *program) objective() (sum float64) {
	for r, j := range p.basis {
		sum += float64(p.columns[j].cost * p.level[r])
	}
	return sum
}

// purge drops the columns from the given one on that are not basic and cost
// much, keeping those that keep allows; it returns for each old column its new
// place or -1.
func (p *program) purge(from, most int) []int {
	type candidate struct {
		j int
		d float64
	}
	var out []candidate
	for j := from; j < len(p.columns); j++ {
		if !p.in[j] {
			out = append(out, candidate{j, p.reduced(j)})
		}
	}
	slices.SortStableFunc(out, func(a, b candidate) int {
		switch {
		case a.d < b.d:
			return -1
		case a.d > b.d:
			return 1
		}
		return 0
	})
	drop := make([]bool, len(p.columns))
	spare := make([]bool, len(p.columns))
	for _, j := range p.slack {
		spare[j] = true
	}
	for _, c := range out[min(most, len(out)):] {
		drop[c.j] = !spare[c.j]
	}
	place := make([]int, len(p.columns))
	n := 0
	for j := range p.columns {
		place[j] = -1
		if !drop[j] {
			place[j] = n
			p.columns[n], p.in[n] = p.columns[j], p.in[j]
			n++
		}
	}
	p.columns, p.in = p.columns[:n], p.in[:n]
	for r, j := range p.basis {
		p.basis[r], p.slack[r] = place[j], place[p.slack[r]]
	}
	return place
}
