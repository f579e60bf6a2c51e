package book

import (
	"slices"
	"strings"

	"scantling/internal/drawing"
	"scantling/internal/phrase"
	"scantling/internal/shop"
	"scantling/internal/typeset"
)

// front is the first page: what the piece is, what it takes, and the sizes a
// reader may change.
func (b *book) front() {
	b.number = 1
	key := chapterKey(1)
	b.marks = append(b.marks, drawing.Bookmark{Says: b.r.Piece, Anchor: key})
	head := typeset.Break(typeset.Format{Width: b.page.column(), Leading: 1.15}, say(b.r.Piece, titleStyle)...)
	b.side(&block{in: b.here(), height: head.Height + 1, bind: true, items: []drawing.Item{
		drawing.Anchor{Name: key, At: drawing.Point{X: -columnAt, Y: -topEdge}},
		&drawing.Group{Role: drawing.RoleTitle, Items: text(head, 0, 0)}}}, chapterNumber(1), strings.Join(b.r.Edition(), "\n"), head.Y[0])
	if len(b.r.About) > 0 {
		b.para(1, live(b.r.About, leadStyle)...)
		b.bindLast()
	}
	b.rule(3, drawing.Bold)
	var facts []typeset.Span
	for i, f := range b.r.Facts {
		if i > 0 {
			facts = append(facts, say(" ", bodyStyle)...)
		}
		facts = append(facts, spans(f, bodyStyle)...)
	}
	b.para(3, facts...)
	if !b.r.Ready {
		see := say("Mend this", strongStyle)
		see[0].Link, see[0].Live, see[0].Style.Ink = chapterKey(2), true, typeset.Live
		b.para(3, cat(say("This plan cannot be built yet. What stands in the way is under ", strongStyle), see, say(".", strongStyle))...)
	}
	if len(facts) > 0 {
		b.rule(3, drawing.Hair)
	}
	above := len(b.blocks)
	b.sizes()
	b.choices()
	asked := len(b.blocks)
	b.needs()
	// The piece takes what the page has left; what the sizes must keep to gives way to it.
	below, needs := slices.Clone(b.blocks[above:asked]), slices.Clone(b.blocks[asked:])
	b.blocks = b.blocks[:above:above]
	const gap, least = 5, 60
	left := func(below []block) float64 {
		return b.bottom() - cursor{y: b.top(), side: b.top()}.end(slices.Concat(b.blocks, below)) - gap
	}
	if all := slices.Concat(below, needs); left(all) >= least {
		below, needs = all, nil
	}
	b.picture(b.pics.Piece, min(max(left(below), least), 125), gap)
	b.blocks = append(b.blocks, below...)
	b.views(needs)
}

// views shows the piece from its sides, all on one page, under what the front had
// no room for.
func (b *book) views(above []block) {
	const gap, heading = 7.0, 9.0
	taken := 0.0
	for i, x := range above {
		x.fresh = i == 0
		taken += x.gap + x.height
		b.blocks = append(b.blocks, x)
	}
	n := 0.0
	for _, v := range b.pics.Views {
		if v != nil {
			n++
		}
	}
	high := (b.bottom()-b.top()-taken)/n - gap - heading
	first := len(above) == 0
	for _, v := range b.pics.Views {
		if v == nil {
			continue
		}
		b.section(gap, "", say(phrase.Begin(v.Title), sectionStyle)...)
		b.blocks[len(b.blocks)-1].fresh = first
		first = false
		b.picture(v, min(high, 95), 1)
	}
}

func (b *book) rule(gap float64, w drawing.Weight) {
	b.add(block{in: b.here(), gap: gap, height: 0.5, items: []drawing.Item{line(0, b.page.column(), 0.25, w)}})
}

// sizes prints the sizes a reader may change, two in a row.
func (b *book) sizes() {
	const gap = 8.0
	half := float64((b.page.column() - gap) / 2)
	for i := 0; i < len(b.r.Sizes); i += 2 {
		row := block{in: b.here(), gap: 3.5}
		for j, s := range b.r.Sizes[i:min(i+2, len(b.r.Sizes))] {
			items, high := b.sizeTape(s, half)
			row.items = append(row.items, drawing.Move(items, float64(float64(j)*(half+gap)), 0)...)
			row.height = max(row.height, high)
		}
		b.add(row)
	}
}

// choices says what else the reader may have.
func (b *book) choices() {
	for _, c := range b.r.Choices {
		name := c.Says
		if name == "" {
			name = c.Name
		}
		var others []string
		for _, o := range c.Of {
			if o != c.Is {
				others = append(others, o)
			}
		}
		sp := cat(say(phrase.Begin(name)+": ", bodyStyle), say(c.Is, strongStyle))
		if len(others) > 0 {
			sp = append(sp, say("; or "+or(others)+".", bodyStyle)...)
		}
		b.para(2.5, sp...)
	}
}

// needs says what the sizes must keep to, and why, in the designer's words.
func (b *book) needs() {
	first := true
	for _, n := range b.r.Needs {
		if len(n.Says) == 0 {
			continue
		}
		if first {
			b.para(3.5, say("Before you change a size", strongStyle)...)
			b.bindLast()
			first = false
		}
		b.list("needs", 1.5, "•", live(n.Says, bodyStyle)...)
	}
}

func or(words []string) string {
	if n := len(words); n > 1 {
		return strings.Join(words[:n-1], ", ") + " or " + words[n-1]
	}
	return strings.Join(words, "")
}

// readFirst prints the cautions that fit this piece.
func (b *book) readFirst() {
	if len(b.r.Cautions) == 0 {
		return
	}
	b.chapter("First read this", "before the first cut")
	b.blocks[len(b.blocks)-1].fresh = b.number == 2 // the front stands by itself
	for _, c := range b.r.Cautions {
		b.list("cautions", 2.5, "•", cat(say(stop(c.Title)+" ", strongStyle), spans(c.Text, bodyStyle))...)
	}
}

// stop ends a sentence.
func stop(s string) string {
	if s == "" || strings.HasSuffix(s, ".") || strings.HasSuffix(s, "?") || strings.HasSuffix(s, "!") {
		return s
	}
	return s + "."
}

// shown sets a number that may be absent.
func shown(s *shop.Shown, st typeset.Style) cell {
	if s == nil {
		return nil
	}
	return figure(*s, st)
}
