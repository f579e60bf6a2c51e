package cutplan

import "math"

// A program is a linear program: minimise cost·x with A·x = right, x ≥ 0, kept
// in revised form with the inverse of the basis. It starts from the identity:
// column r has a 1 in row r. Right sides are not negative.
//
// It need not be exact: its prices are rounded to whole numbers and its columns
// are counts, and only those are believed.
type program struct {
	rows    int
	columns []column
	inverse [][]float64
	level   []float64 // of the basic variables, by row
	basis   []int     // column basic in each row
	in      []bool    // by column: basic
}

type column struct {
	cost float64
	at   []entry
}

type entry struct {
	row   int
	value float64
}

// newProgram starts from right sides and the costs of the identity columns.
func newProgram(right, cost []float64) *program {
	p := &program{rows: len(right), level: append([]float64(nil), right...)}
	for r := range right {
		p.columns = append(p.columns, column{cost[r], []entry{{r, 1}}})
		p.basis = append(p.basis, r)
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

const small = 1e-9

// solve goes on from the present basis to an optimal one and returns the
// objective and the price of each row.
func (p *program) solve() (objective float64, price []float64) {
	still := 0 // steps that moved nothing: after many, Bland's rule, which cannot circle
	for steps := 0; ; steps++ {
		price = p.prices()
		enter, least := -1, -small
		for j, c := range p.columns {
			if p.in[j] {
				continue
			}
			reduced := c.cost
			for _, e := range c.at {
				reduced -= float64(price[e.row] * e.value)
			}
			if reduced < least {
				enter, least = j, reduced
				if still > 50 {
					break
				}
			}
		}
		if enter < 0 || steps > 50*p.rows+2000 {
			break
		}
		if !p.pivot(enter, &still) {
			break
		}
	}
	for r, j := range p.basis {
		objective += float64(p.columns[j].cost * p.level[r])
	}
	return objective, price
}

func (p *program) prices() []float64 {
	price := make([]float64, p.rows)
	for r, j := range p.basis {
		if cost := p.columns[j].cost; cost != 0 {
			for k, v := range p.inverse[r] {
				price[k] += float64(cost * v)
			}
		}
	}
	return price
}

// pivot brings column j into the basis; false when nothing bounds it.
func (p *program) pivot(j int, still *int) bool {
	direction := make([]float64, p.rows)
	for r := range direction {
		for _, e := range p.columns[j].at {
			direction[r] += float64(p.inverse[r][e.row] * e.value)
		}
	}
	leave, step := -1, math.Inf(1)
	for r, d := range direction {
		if d <= small {
			continue
		}
		ratio := p.level[r] / d
		if ratio < step-small || ratio < step+small && leave >= 0 && p.basis[r] < p.basis[leave] {
			leave, step = r, min(ratio, step)
		}
	}
	if leave < 0 {
		return false
	}
	if step < small {
		*still++
	} else {
		*still = 0
	}
	p.in[p.basis[leave]], p.in[j] = false, true
	p.basis[leave] = j
	pivot := direction[leave]
	row := p.inverse[leave]
	for k := range row {
		row[k] /= pivot
	}
	p.level[leave] /= pivot
	for r, d := range direction {
		if r == leave || d == 0 {
			continue
		}
		for k, v := range row {
			p.inverse[r][k] -= float64(d * v)
		}
		p.level[r] = max(0, p.level[r]-float64(d*p.level[leave]))
	}
	return true
}

// values returns the level of each column from the given one on.
func (p *program) values(from int) []float64 {
	x := make([]float64, len(p.columns)-from)
	for r, j := range p.basis {
		if j >= from {
			x[j-from] = p.level[r]
		}
	}
	return x
}
