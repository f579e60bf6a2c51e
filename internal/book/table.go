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
	columnGap = 4.0
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
	widths := fitColumns(cols, append([][]cell{heads}, rows...), b.page.column())
	in := append(b.here(), elem{drawing.RoleTable, key})
	head := b.row(cols, widths, heads, true)
	head.in, head.gap, head.keep = in, gap, true
	again := head
	again.keep = false
	b.add(head)
	for i, r := range rows {
		bl := b.row(cols, widths, r, false)
		bl.in, bl.head = in, &again
		bl.keep = len(rows) > 1 && (i == 0 || i == len(rows)-2)
		b.add(bl)
	}
}

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

// fitColumns shares the width of the page among columns. Every column gets at
// least its longest word.
func fitColumns(cols []column, rows [][]cell, total float64) []float64 {
	n := len(cols)
	least, most := make([]float64, n), make([]float64, n)
	for _, r := range rows {
		for i, c := range r {
			if len(c) == 0 {
				continue
			}
			most[i] = max(most[i], typeset.Width(c...))
			for _, l := range typeset.Break(typeset.Format{Width: 0.1}, c...).Lines {
				least[i] = max(least[i], l.Width)
			}
		}
	}
	free := total - float64(columnGap*float64(n-1))
	widths := append([]float64(nil), most...)
	over := -free
	for _, w := range widths {
		over += w
	}
	// First the columns that may give way do, then the others.
	for _, grow := range [2]bool{true, false} {
		give := 0.0
		for i, c := range cols {
			if c.grow == grow {
				give += widths[i] - least[i]
			}
		}
		if over <= 0 || give <= 0 {
			continue
		}
		share := min(1, over/give)
		for i, c := range cols {
			if c.grow == grow {
				widths[i] -= float64(share * (most[i] - least[i]))
			}
		}
		over -= float64(share * give)
	}
	if over < 0 {
		// What is left goes to the columns that grow.
		growing := 0
		for _, c := range cols {
			if c.grow {
				growing++
			}
		}
		for i, c := range cols {
			if c.grow {
				widths[i] -= over / float64(growing)
			}
		}
	}
	for i := range widths {
		widths[i] += fits
	}
	return widths
}
