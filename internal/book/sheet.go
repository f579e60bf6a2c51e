package book

import (
	"strings"

	"scantling/internal/phrase"
	"scantling/internal/proof"
	"scantling/internal/shop"
	"scantling/internal/typeset"
)

// partSheets is a sheet for each part that is more than a board cut square.
func (b *book) partSheets() {
	begun := false
	for _, p := range b.r.Parts {
		if !p.Shaped {
			continue
		}
		if !begun {
			b.chapter("Part sheets", "each shaped part by itself; all distances run from one end")
			begun = true
		}
		b.partSheet(p)
	}
}

// partSheet prints one part: heading, picture, and what to do to it.
func (b *book) partSheet(p *shop.Part) {
	b.section(9, "part "+p.Letter, cat(say(p.Letter+"  "+p.Title(), sectionStyle), say("   "+p.Aside(), asideStyle))...)
	size := cat(figure(p.Thick, strongStyle), say(" × ", strongStyle), figure(p.Wide, strongStyle), say(" × ", strongStyle), figure(p.Long, strongStyle), say(", "+p.Stock+".", bodyStyle))
	if p.Short != nil {
		size = cat(size, say(" Short point to short point ", bodyStyle), figure(*p.Short, bodyStyle), say(".", bodyStyle))
	}
	if p.Edge != nil {
		size = cat(size, say(" Along one edge ", bodyStyle), figure(*p.Edge, bodyStyle), say(".", bodyStyle))
	}
	b.para(0.5, size...)
	b.bindLast()
	b.picture(b.pics.Parts[p.Letter], 95, 2.5)
	key := "part " + p.Letter
	for _, e := range p.Ends {
		if e == nil {
			continue
		}
		b.list(key, 2, "•", b.endSays(e)...)
	}
	for _, c := range p.Cuts {
		sp := sentence(c.Words, bodyStyle)
		sep := " Marks: "
		for _, m := range c.Marks {
			if said := c.Words.String(); strings.Contains(said, m.At.Text) {
				continue
			}
			sp = cat(sp, say(sep+m.Label+" ", bodyStyle), figure(m.At, strongStyle))
			sep = ", "
		}
		if sep == ", " {
			sp = append(sp, say(".", bodyStyle)...)
		}
		b.listIf(key, sp)
	}
	for _, e := range p.Edges {
		sp := sentence(e.Words, bodyStyle)
		if len(sp) == 0 {
			sp = say(phrase.Begin(e.Edges)+".", bodyStyle)
		}
		b.listIf(key, sp)
	}
	if p.ShowFace != "" {
		b.listIf(key, say("The "+p.ShowFace+" shows: keep the better side there.", bodyStyle))
	}
	for _, t := range p.Goes {
		b.listIf(key, sentence(t, bodyStyle))
	}
	switch proof.Need(p.Need) {
	case proof.Match:
		b.listIf(key, say("It must match its twin: cut them to one stop.", bodyStyle))
	case proof.AnyNear:
		b.listIf(key, say("A little long or short does no harm.", bodyStyle))
	}
	b.holes(p.Holes)
}

// holes is the table of what is drilled before the part is built in: holes of one
// bit that stand in one line share a row.
func (b *book) holes(list []shop.HoleReading) {
	type line struct {
		shop.HoleReading
		along []shop.Shown
	}
	var lines []*line
	for _, h := range list {
		var at *line
		for _, l := range lines {
			if l.Bit.Text == h.Bit.Text && l.Depth.Text == h.Depth.Text && l.Sunk.Text == h.Sunk.Text && l.Face == h.Face &&
				l.End == h.End && l.Rim == h.Rim && l.FromRim.Text == h.FromRim.Text {
				at = l
			}
		}
		if at == nil {
			at = &line{HoleReading: h}
			lines = append(lines, at)
		}
		at.along = append(at.along, h.FromEnd)
	}
	var rows [][]cell
	for _, l := range lines {
		deep := cell(say("through", bodyStyle))
		if l.Depth.Text != "" {
			deep = figure(l.Depth, bodyStyle)
		}
		if l.Sunk.Text != "" {
			deep = cat(deep, say(", sunk ", bodyStyle), figure(l.Sunk, bodyStyle))
		}
		var along cell
		for i, a := range l.along {
			if i > 0 {
				along = cat(along, say(", ", bodyStyle))
			}
			along = cat(along, figure(a, bodyStyle))
		}
		rows = append(rows, []cell{figure(l.Bit, strongStyle), deep, say(l.Face, bodyStyle),
			cat(figure(l.FromRim, bodyStyle), say(" from "+l.TheRim(), bodyStyle)), cat(say("from the "+l.End+": ", bodyStyle), along)})
	}
	b.table(2, []column{{head: "bit", name: true}, {head: "deep", grow: true}, {head: "in the", grow: true}, {head: "across", grow: true}, {head: "along", grow: true}}, rows)
}

// endSays is an angled end in a sentence.
func (b *book) endSays(e *shop.SawCut) []typeset.Span {
	sp := spans(e.Words, bodyStyle)
	if len(sp) == 0 {
		sp = cat(say(phrase.Begin(e.End)+" end: ", strongStyle), say("set the saw ", bodyStyle), figure(e.Setting, strongStyle), say(" off square, "+e.Swing+" of zero.", bodyStyle))
	}
	if e.Note != "" && !strings.Contains(e.Words.String(), e.Note) {
		sp = append(sp, say(" "+stop(phrase.Begin(e.Note)), bodyStyle)...)
	}
	return sp
}

func (b *book) listIf(key string, sp []typeset.Span) {
	if len(sp) > 0 {
		b.list(key, 1.5, "•", sp...)
	}
}
