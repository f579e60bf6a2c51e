package book

import (
	"strings"

	"scantling/internal/drawing"
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
	b.side(&block{in: b.here(), height: head.Height + 1, keep: true, items: []drawing.Item{
		drawing.Anchor{Name: key, At: drawing.Point{X: -columnAt, Y: -topEdge}},
		&drawing.Group{Role: drawing.RoleTitle, Items: text(head, 0, 0)}}}, chapterNumber(1), b.edition(), head.Y[0])
	if len(b.r.About) > 0 {
		b.para(1, live(b.r.About, leadStyle)...)
		b.keepLast()
	}
	b.rule(3, drawing.Bold)
	var facts []typeset.Span
	for i, f := range b.r.Facts {
		if i > 0 {
			facts = append(facts, say(" ", leadStyle)...)
		}
		facts = append(facts, spans(f, leadStyle)...)
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
	b.pictureAndSizes()
	b.choices()
	for i, v := range b.pics.Views {
		if v == nil {
			continue
		}
		b.section(upper(v.Title), 8)
		b.blocks[len(b.blocks)-1].fresh = i == 0
		b.picture(v, 88, 1)
	}
}

// edition is the note beside the title.
func (b *book) edition() string {
	var parts []string
	if b.r.Revision != "" {
		parts = append(parts, "revision "+b.r.Revision)
	}
	if b.r.Date != "" {
		parts = append(parts, b.r.Date)
	}
	return strings.Join(append(parts, b.r.Units), "\n")
}

func (b *book) rule(gap float64, w drawing.Weight) {
	b.add(block{in: b.here(), gap: gap, height: 0.5, items: []drawing.Item{line(0, b.page.column(), 0.25, w)}})
}

// pictureAndSizes stands the picture of the piece beside its sizes; sizes that
// find no room there follow below, two in a row.
func (b *book) pictureAndSizes() {
	col := b.page.column()
	wide, beside := col, 0
	const gap = 8.0
	tape := (col - gap) / 2
	if b.pics.Piece != nil && len(b.r.Sizes) > 0 {
		wide, tape = col*0.58, col*0.42-gap
		beside = min(len(b.r.Sizes), 5)
	}
	bl := block{in: b.here(), gap: 5}
	if b.pics.Piece != nil {
		s := b.pics.Piece.Sheet(wide, 100)
		bl.items, bl.height = append(bl.items, s.Items...), s.H
	}
	for i, s := range b.r.Sizes[:beside] {
		bl.items = append(bl.items, drawing.Move(b.sizeTape(s, tape), wide+gap, float64(float64(i)*sizeHigh))...)
		bl.height = max(bl.height, float64(float64(i+1)*sizeHigh))
	}
	if bl.height > 0 {
		b.add(bl)
	}
	rest := b.r.Sizes[beside:]
	half := (col - gap) / 2
	for i := 0; i < len(rest); i += 2 {
		row := block{in: b.here(), gap: 2, height: sizeHigh}
		for j, s := range rest[i:min(i+2, len(rest))] {
			row.items = append(row.items, drawing.Move(b.sizeTape(s, half), float64(float64(j)*(half+gap)), 0)...)
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
		sp := cat(say(upper(name)+": ", bodyStyle), say(c.Is, strongStyle))
		if len(others) > 0 {
			sp = append(sp, say("; or "+or(others)+".", bodyStyle)...)
		}
		b.para(2.5, sp...)
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
	b.blocks[len(b.blocks)-1].fresh = true
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
