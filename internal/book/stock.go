package book

import (
	"strconv"
	"strings"

	"scantling/internal/phrase"
	"scantling/internal/shop"
	"scantling/internal/typeset"
)

// yourBoards is the page to fill in at the yard.
func (b *book) yourBoards() {
	if len(b.r.Stocks) == 0 {
		return
	}
	b.chapter("Your boards", "measure two boards of each size and write the figures here")
	b.para(2, say("Boards differ, even within one stack. Before the first cut, measure the thickness and width of your own, dry. "+
		"If they are not as printed here, give your sizes to the design and print the plan again: lengths, gaps and screws follow.", bodyStyle)...)
	b.bindLast()
	blank := say("_____", typeset.Style{Size: 10.5, Ink: typeset.Quiet})
	var rows [][]cell
	for _, s := range b.r.Stocks {
		what := s.Wood
		if s.Treatment != "" {
			what += ", " + s.Treatment
		}
		rows = append(rows, []cell{say(s.SaleName, cellStrong), say(what, cellStyle), figure(s.Thick, cellStyle), figure(s.Wide, cellStyle),
			say(strings.Join(s.Parts, " "), cellStrong), blank, blank})
	}
	b.table(3, []column{{head: "sold as", name: true}, {head: "wood", grow: true}, {head: "thick", align: typeset.Right}, {head: "wide", align: typeset.Right},
		{head: "for parts", grow: true}, {head: "yours: thick"}, {head: "yours: wide"}}, rows)
	var said []string
	for _, s := range b.r.Stocks {
		note := strings.TrimSpace(s.Source)
		if note == "" || contains(said, note) {
			continue
		}
		said = append(said, note)
	}
	if len(said) > 0 {
		b.para(2, say("Sizes as printed: "+stop(strings.Join(said, "; ")), sideStyle)...)
	}
	if b.r.Saw.Kerf.Text != "" {
		b.para(2.5, cat(say("The blade cuts away ", bodyStyle), figure(b.r.Saw.Kerf, bodyStyle),
			say(". Cut a slot into scrap and measure it: yours ", bodyStyle), blank, say(".", bodyStyle))...)
	}
}

func contains(list []string, s string) bool {
	for _, l := range list {
		if l == s {
			return true
		}
	}
	return false
}

// toBuy is the shopping list.
func (b *book) toBuy() {
	buy := b.r.Buy
	if len(buy.Boards)+len(buy.Hardware)+len(buy.Goods) == 0 {
		return
	}
	b.chapter("To buy", "take this page to the yard")
	priced := false
	for _, lines := range [][]shop.BuyLine{buy.Boards, buy.Hardware, buy.Goods} {
		for _, l := range lines {
			priced = priced || l.Each != nil || l.Total != nil
		}
	}
	price := func(l shop.BuyLine, cells []cell) []cell {
		if priced {
			cells = append(cells, shown(l.Each, cellStyle), shown(l.Total, cellStyle))
		}
		return append(cells, say(l.Use, cellStyle))
	}
	heads := func(cols ...column) []column {
		if priced {
			cols = append(cols, column{head: "each", align: typeset.Right}, column{head: "together", align: typeset.Right})
		}
		return append(cols, column{head: "for", grow: true})
	}
	var rows [][]cell
	for _, l := range buy.Boards {
		rows = append(rows, price(l, []cell{say(strconv.Itoa(l.Count), cellStrong), say(l.What, cellStrong), shown(l.Length, cellStrong)}))
	}
	b.table(2.5, heads(column{head: "boards", align: typeset.Right}, column{head: "sold as", grow: true, name: true}, column{head: "long", align: typeset.Right}), rows)
	if len(buy.OnHand) > 0 {
		rows = nil
		for _, l := range buy.OnHand {
			rows = append(rows, []cell{say(strconv.Itoa(l.Count), cellStrong), say(l.What, cellStrong), shown(l.Length, cellStrong), say(l.Use, cellStyle)})
		}
		b.table(2.5, []column{{head: "yours", align: typeset.Right}, {head: "sold as", grow: true, name: true}, {head: "long", align: typeset.Right}, {head: "for", grow: true}}, rows)
	}
	if len(buy.Proof) > 0 {
		b.para(2.5, spans(buy.Proof, bodyStyle)...)
	}
	if len(buy.Alternatives) > 0 {
		rows = nil
		for _, a := range buy.Alternatives {
			rows = append(rows, []cell{spans(a.Says, cellStyle), shown(a.Extra, cellStyle)})
		}
		b.table(2.5, []column{{head: "or buy otherwise", grow: true, name: true}, {head: "costs more", align: typeset.Right}}, rows)
	}
	for i, part := range []struct {
		name  string
		lines []shop.BuyLine
	}{{"Screws, bolts and washers", buy.Hardware}, {"Also", buy.Goods}} {
		if len(part.lines) == 0 {
			continue
		}
		b.section(6, "", say(part.name, sectionStyle)...)
		rows = nil
		for _, l := range part.lines {
			count := strconv.Itoa(l.Count)
			if l.Count == 0 {
				count = ""
			}
			rows = append(rows, price(l, []cell{say(count, cellStrong), say(l.What, cellStrong), say(l.Packs, cellStyle)}))
		}
		b.table(0.5, heads(column{head: "needed", align: typeset.Right}, column{head: "what", grow: true, name: true}, column{head: "buy", grow: true}), rows)
		if i == 0 && buy.Metal != "" {
			b.para(2.5, say(buy.Metal, bodyStyle)...)
		}
	}
	if buy.Cost.Text != "" {
		note := ""
		if buy.PriceNote != "" {
			note = " " + stop(phrase.Begin(buy.PriceNote))
		}
		b.para(4, cat(say("Everything together: ", strongStyle), figure(buy.Cost, strongStyle), say("."+note, bodyStyle))...)
	}
}

// parts is the list of parts.
func (b *book) parts() {
	if len(b.r.Parts) == 0 {
		return
	}
	b.chapter("Parts", "thick × wide × long, long always along the grain")
	var rows [][]cell
	fitted, hands := false, false
	for _, p := range b.r.Parts {
		name := p.Name
		if p.Hand != "" {
			name += ", " + p.Hand
			hands = true
		}
		fitted = fitted || p.Long.Origin == shop.ToFit || p.Wide.Origin == shop.ToFit || p.Thick.Origin == shop.ToFit
		rows = append(rows, []cell{say(p.Letter, cellStrong), say(name, cellStyle), say(strconv.Itoa(p.Count), cellStrong), figure(p.Thick, cellStyle),
			figure(p.Wide, cellStyle), figure(p.Long, cellStrong), say(p.Stock, cellStyle), spans(p.CutNote, cellStyle)})
	}
	b.table(2.5, []column{{head: "part", name: true}, {head: "name", grow: true}, {head: "how many", align: typeset.Right}, {head: "thick", align: typeset.Right},
		{head: "wide", align: typeset.Right}, {head: "long", align: typeset.Right}, {head: "from", grow: true}, {head: "how cut", grow: true}}, rows)
	for _, p := range b.r.Parts {
		if len(p.Changed) > 0 {
			b.para(1.5, cat(say(p.Letter+" ", strongStyle), spans(p.Changed, bodyStyle))...)
		}
	}
	if fitted {
		b.para(2, say("* Cut to fit: measure on the work first; the length printed is about right.", bodyStyle)...)
	}
	for _, t := range b.r.Care {
		b.para(2, spans(t, bodyStyle)...)
	}
	if hands {
		b.para(2, say("A left and a right are mirror images of each other: cut them in pairs.", bodyStyle)...)
	}
}
