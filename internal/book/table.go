package book

import (
	"strconv"

	"scantling/internal/drawing"
	"scantling/internal/typeset"
)

// column is one column of a table.
type column struct {
	head  string
	align typeset.Align
	grow  bool // takes paper that is left over, and gives way first
	name  bool // names the row
}

// cell is what stands in one place of a table.
type cell []typeset.Span

// Paper round the words of a cell, in mm.
const (
	cellAbove = 1.0
	cellBelow = 1.2
	columnGap = 3.5
)

// table adds a table. Columns are as wide as what they hold; where that is more
// than the page, those that may give way break their words. Its head is printed
// again where the table goes on overleaf, and never stands without a row, nor
// one row without another.
func (b *book) table(gap float64, cols []column, rows [][]cell) {
	if len(rows) == 0 {
		return
	}
	b.tables++
	key := "table " + strconv.Itoa(b.tables)
	heads := make([]cell, len(cols))
	for i, c := range cols {
		heads[i] = say(c.head, headStyle)
	}
	widths := fitColumns(cols, heads, rows, b.page.column())
	in := append(b.here(), elem{drawing.RoleTable, key})
	head := b.row(cols, widths, heads, true)
	head.in, head.gap, head.bind = in, gap, true
	again := head
	again.bind = false
	b.add(head)
	for i, r := range rows {
		bl := b.row(cols, widths, r, false)
		bl.in, bl.head = in, &again
		bl.keep = i < len(rows)-1 && (len(rows) <= shortTable || i == 0 || i == len(rows)-2)
		b.add(bl)
	}
}

// shortTable is how many rows are not parted between pages.
const shortTable = 4

// row sets one row.
func (b *book) row(cols []column, widths []float64, cells []cell, head bool) block {
	g := &drawing.Group{Role: drawing.RoleRow}
	x, high := 0.0, 0.0
	for i, c := range cols {
		role := drawing.RoleCell
		switch {
		case head:
			role = drawing.RoleHeadCell
		case c.name:
			role = drawing.RoleRowHead
		}
		cg := &drawing.Group{Role: role}
		if i < len(cells) && len(cells[i]) > 0 {
			p := typeset.Break(typeset.Format{Width: widths[i], Align: c.align}, cells[i]...)
			cg.Items = text(p, x, cellAbove)
			high = max(high, p.Height)
		}
		g.Add(cg)
		x += widths[i] + columnGap
	}
	high += cellAbove + cellBelow
	weight := drawing.Hair
	if head {
		weight = drawing.Narrow
	}
	return block{height: high, items: []drawing.Item{g, line(0, b.page.column(), high, weight)}}
}

// fitColumns shares the width of the page among columns. Heads may break
// between words; a column that may give way does so only if it is among the
// widest, so that one long column does not break the words of a short one.
func fitColumns(cols []column, heads []cell, rows [][]cell, total float64) []float64 {
	n := len(cols)
	least, most := make([]float64, n), make([]float64, n)
	longestWord := func(c cell) (w float64) {
		if len(c) == 0 {
			return 0
		}
		for _, l := range typeset.Break(typeset.Format{Width: 0.1}, c...).Lines {
			w = max(w, l.Width)
		}
		return w
	}
	for i := range cols {
		least[i] = longestWord(heads[i])
		most[i] = least[i]
		for _, r := range rows {
			if i < len(r) && len(r[i]) > 0 {
				least[i] = max(least[i], longestWord(r[i]))
				most[i] = max(most[i], typeset.Width(r[i]...))
			}
		}
	}
	free := total - float64(columnGap*float64(n-1))
	widths := append([]float64(nil), most...)
	// First the columns that may give way do, then all.
	for _, all := range [2]bool{false, true} {
		if sum(widths) <= free {
			break
		}
		level(widths, least, free, func(i int) bool { return all || cols[i].grow })
	}
	if sum(most) > free {
		shift(cols, widths, least, rows)
	}
	if left := free - sum(widths); left > 0 {
		growing := 0
		for _, c := range cols {
			if c.grow {
				growing++
			}
		}
		for i, c := range cols {
			if c.grow {
				widths[i] += left / float64(growing)
			}
		}
	}
	for i := range widths {
		widths[i] += fits
	}
	return widths
}

// shift moves width from one growing column to another as long as that makes
// the table less high.
func shift(cols []column, widths, least []float64, rows [][]cell) {
	lines := func(col int) []int {
		out := make([]int, len(rows))
		for i, r := range rows {
			if col < len(r) && len(r[col]) > 0 {
				out[i] = len(typeset.Break(typeset.Format{Width: widths[col] + fits}, r[col]...).Lines)
			}
		}
		return out
	}
	count := make([][]int, len(cols))
	for c := range cols {
		count[c] = lines(c)
	}
	// Lines down the page count first, then broken words anywhere.
	high := func() (n int) {
		for r := range rows {
			most := 0
			for c := range cols {
				most = max(most, count[c][r])
				n += count[c][r]
			}
			n += 1000 * most
		}
		return n
	}
	const step = 2.5 // mm
	best := high()
	for range 40 {
		better := false
		for to := range cols {
			for from := range cols {
				if from == to || !cols[to].grow || !cols[from].grow || widths[from]-step < least[from] {
					continue
				}
				was, wasTo := count[from], count[to]
				widths[from], widths[to] = widths[from]-step, widths[to]+step
				count[from], count[to] = lines(from), lines(to)
				if n := high(); n < best {
					best, better = n, true
					continue
				}
				widths[from], widths[to] = widths[from]+step, widths[to]-step
				count[from], count[to] = was, wasTo
			}
		}
		if !better {
			return
		}
	}
}

func sum(vs []float64) (s float64) {
	for _, v := range vs {
		s += v
	}
	return s
}

// level lowers the widest of the columns that may give way to one common width,
// none below its least, until they all fit, or until nothing more can be given.
func level(widths, least []float64, free float64, may func(int) bool) {
	full := append([]float64(nil), widths...)
	at := func(cap float64) {
		for i := range widths {
			if may(i) {
				widths[i] = min(full[i], max(least[i], cap))
			}
		}
	}
	lo, hi := 0.0, 0.0
	for _, w := range full {
		hi = max(hi, w)
	}
	for range 40 { // halves 200 mm to far below a hair
		mid := (lo + hi) / 2
		if at(mid); sum(widths) <= free {
			lo = mid
		} else {
			hi = mid
		}
	}
	at(lo)
}
