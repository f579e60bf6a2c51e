package book

import (
	"scantling/internal/drawing"
	"scantling/internal/typeset"
)

// geometry is the page: a margin of notes, a rule, a column, and a foot.
type geometry struct{ W, H float64 }

// Places on the page, in mm.
const (
	edge      = 14.0 // paper that stays white at the left and the right
	sideWide  = 31.0 // the margin of notes
	ruleAt    = edge + sideWide + 4
	columnAt  = ruleAt + 6
	topEdge   = 15.0
	footHigh  = 20.0 // of the foot, from the bottom edge of the paper
	bandHigh  = 9.0  // of the mark on a plan that cannot be built yet
	chapterIn = 11.0 // above a chapter that does not begin a page
)

func (g geometry) column() float64 { return g.W - edge - columnAt }

// elem is a step on the way from the chapter to a block: a group it stands in.
type elem struct {
	role drawing.Role
	key  string
}

// block is the smallest thing that pages are made of: a heading, a paragraph, a
// row. Its items are placed from the column's left edge and its own top.
type block struct {
	in     []elem  // the groups around it, outermost first
	gap    float64 // above it, unless it is the first of a page
	height float64
	items  []drawing.Item
	side   []drawing.Item // in the margin, from the margin's left edge
	sideH  float64
	keep   bool   // stands on the same page as the next block, if they all find room on one
	bind   bool   // the same, and needs no more than this and the next: a heading
	fresh  bool   // begins a new page
	head   *block // printed again above it where the table goes on overleaf
}

// cursor is how far a page is filled.
type cursor struct {
	y    float64 // where the last block ends
	side float64 // where notes in the margin end
	used bool
}

// sideGap is the least distance between notes in the margin, in mm.
const sideGap = 4.0

// at is where a block would start: below the last one, and below the notes in
// the margin if it has notes itself.
func (c cursor) at(b *block) float64 {
	y := c.y
	if c.used {
		y += b.gap
	}
	if len(b.side) > 0 && c.used {
		y = max(y, c.side+sideGap)
	}
	return y
}

// take fills the page with a block.
func (c *cursor) take(b *block) {
	y := c.at(b)
	if len(b.side) > 0 {
		c.side = y + b.sideH
	}
	c.y, c.used = y+b.height, true
}

// end is where blocks and their notes would end.
func (c cursor) end(blocks []block) float64 {
	for i := range blocks {
		c.take(&blocks[i])
	}
	return max(c.y, c.side)
}

// laid is a page that is being filled.
type laid struct {
	cursor
	items []drawing.Item
}

// paginate puts blocks on pages between top and bottom. Blocks that keep
// together move to the next page together, unless they would not fit there
// either.
func paginate(blocks []block, top, bottom float64) []*laid {
	var page *laid
	var pages []*laid
	fresh := cursor{y: top, side: top}
	next := func() {
		page = &laid{cursor: fresh}
		pages = append(pages, page)
	}
	next()
	for i := 0; i < len(blocks); {
		end := i + 1
		for end < len(blocks) && (blocks[end-1].keep || blocks[end-1].bind) {
			end++
		}
		if fresh.end(blocks[i:end]) > bottom+fits {
			for end = i + 1; end < len(blocks) && blocks[end-1].bind; {
				end++
			}
		}
		chain := blocks[i:end]
		if page.used && (chain[0].fresh || page.end(chain) > bottom+fits && fresh.end(chain) <= bottom+fits) {
			next()
		}
		for j := range chain {
			b := &chain[j]
			if page.used && page.end(chain[j:j+1]) > bottom+fits {
				next()
			}
			if !page.used && b.head != nil {
				page.put(b.head, true)
			}
			page.put(b, false)
		}
		i = end
	}
	return pages
}

const fits = 1e-6 // mm: what a sum of heights may be off

// put places a block at the page's cursor. A head that is printed again is
// decoration: a reader who hears the table has heard it.
func (p *laid) put(b *block, again bool) {
	y := p.at(b)
	p.take(b)
	items := drawing.Move(b.items, columnAt, y)
	side := drawing.Move(b.side, edge, y)
	if again {
		items = []drawing.Item{&drawing.Group{Role: drawing.RoleArtifact, Items: items}}
	}
	into := &p.items
	for _, e := range b.in {
		g := lastGroup(*into)
		if g == nil || g.Role != e.role || g.Key != e.key {
			g = &drawing.Group{Role: e.role, Key: e.key}
			*into = append(*into, g)
		}
		into = &g.Items
	}
	*into = append(append(*into, items...), side...) // a heading is heard before the notes beside it
}

func lastGroup(items []drawing.Item) *drawing.Group {
	if len(items) == 0 {
		return nil
	}
	g, _ := items[len(items)-1].(*drawing.Group)
	return g
}

// text gives a paragraph its place, from x, y.
func text(p typeset.Paragraph, x, y float64) []drawing.Item {
	out := make([]drawing.Item, len(p.Lines))
	for i, l := range p.Lines {
		out[i] = drawing.Text{At: drawing.Point{X: x + p.X[i], Y: y + p.Y[i]}, Line: l}
	}
	return out
}

// line is a rule across the column.
func line(x0, x1, y float64, w drawing.Weight) drawing.Item {
	return drawing.Stroke{Path: []drawing.Point{{X: x0, Y: y}, {X: x1, Y: y}}, Weight: w}
}

// add appends a block to the chapter that is being written.
func (b *book) add(bl block) { b.blocks = append(b.blocks, bl) }

// para adds a paragraph.
func (b *book) para(gap float64, sp ...typeset.Span) {
	if len(sp) == 0 {
		return
	}
	p := typeset.Break(typeset.Format{Width: b.page.column()}, sp...)
	b.add(block{in: b.here(), gap: gap, height: p.Height,
		items: []drawing.Item{&drawing.Group{Role: drawing.RolePara, Items: text(p, 0, 0)}}})
}

// list adds one item of a list, with its sign hanging at the left.
func (b *book) list(key string, gap float64, sign string, sp ...typeset.Span) {
	b.hang(key, gap, 5.5, say(sign, sp[0].Style), sp)
}

// hang adds one item of a list whose words stand so many mm in, its sign at the
// left of the first line.
func (b *book) hang(key string, gap, in float64, sign, sp []typeset.Span) {
	p := typeset.Break(typeset.Format{Width: b.page.column() - in}, sp...)
	items := text(p, in, 0)
	if len(sign) > 0 && sign[0].Text != "" {
		first := drawing.Text{At: drawing.Point{X: 0, Y: p.Y[0]}, Line: typeset.Set(sign...)}
		items = append([]drawing.Item{first}, items...)
	}
	b.add(block{in: append(b.here(), elem{drawing.RoleList, key}), gap: gap, height: p.Height,
		items: []drawing.Item{&drawing.Group{Role: drawing.RoleListItem, Items: []drawing.Item{
			&drawing.Group{Role: drawing.RolePara, Items: items}}}}})
}

// here is the way to the chapter that is being written.
func (b *book) here() []elem { return []elem{{drawing.RolePart, chapterKey(b.number)}} }

// bindLast binds the last block to what follows it.
func (b *book) bindLast() { b.blocks[len(b.blocks)-1].bind = true }

// chapter begins a chapter with its number and quiet notes in the margin.
func (b *book) chapter(name string, notes string) {
	b.number++
	key := chapterKey(b.number)
	b.marks = append(b.marks, drawing.Bookmark{Says: name, Anchor: key})
	head := typeset.Break(typeset.Format{Width: b.page.column(), Leading: 1.2}, say(name, chapterStyle)...)
	b.side(&block{in: b.here(), gap: chapterIn, height: head.Height, bind: true, items: []drawing.Item{
		drawing.Anchor{Name: key, At: drawing.Point{X: -columnAt, Y: -4}},
		&drawing.Group{Role: drawing.RoleHeading1, Items: text(head, 0, 0)}}}, chapterNumber(b.number), notes, head.Y[0])
}

// side sets a number and notes in the margin beside a block, and adds it.
func (b *book) side(bl *block, number, notes string, baseline float64) {
	var items []drawing.Item
	y := 0.0
	if number != "" {
		l := typeset.Set(say(number, numberStyle)...)
		items = append(items, drawing.Text{At: drawing.Point{X: typeset.Right.Start(sideWide, l), Y: baseline}, Line: l})
		y = baseline + 2.5
	}
	if notes != "" {
		p := typeset.Break(typeset.Format{Width: sideWide, Align: typeset.Right}, say(notes, sideStyle)...)
		if number == "" {
			y = baseline - p.Y[0]
		}
		items = append(items, text(p, 0, y)...)
		y += p.Height
	}
	bl.side = []drawing.Item{&drawing.Group{Role: drawing.RoleNote, Items: items}}
	bl.sideH = y
	b.add(*bl)
}

// section begins a section, with an anchor if it has a name for one.
func (b *book) section(gap float64, anchor string, name ...typeset.Span) {
	head := typeset.Break(typeset.Format{Width: b.page.column(), Leading: 1.25}, name...)
	bl := block{in: b.here(), gap: gap, height: head.Height + 0.8, bind: true}
	if anchor != "" {
		bl.items = append(bl.items, drawing.Anchor{Name: anchor, At: drawing.Point{X: -columnAt, Y: -3}})
	}
	bl.items = append(bl.items, &drawing.Group{Role: drawing.RoleHeading2, Items: text(head, 0, 0)})
	b.add(bl)
}

// picture adds a figure no larger than the column and the height given.
func (b *book) picture(f *drawing.Figure, high, gap float64) {
	if f == nil {
		return
	}
	s := f.Sheet(b.page.column(), high)
	b.add(block{in: b.here(), gap: gap, height: s.H, items: s.Items})
}
