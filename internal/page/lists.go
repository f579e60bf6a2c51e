package page

import (
	"strconv"
	"strings"

	"scantling/internal/board"
	"scantling/internal/phrase"
	"scantling/internal/shop"
)

// boards is the table of the sizes sold, which a script makes a form of.
func (w *writer) boards() {
	if len(w.r.Stocks) == 0 {
		return
	}
	w.p("", "Boards differ, even within one stack. Before the first cut, measure the thickness and width of your own, dry. "+
		"If they are not as here, everything is worked out again for yours: lengths, gaps and screws follow.")
	var rows []row
	var said []string
	for _, s := range w.r.Stocks {
		what := s.Wood
		if s.Treatment != "" {
			what += ", " + s.Treatment
		}
		rows = append(rows, row{` data-stock="` + esc(s.Name) + `"`, []string{strong(words(s.SaleName)), words(what), w.number(s.Thick), w.number(s.Wide), strong(esc(strings.Join(s.Parts, " ")))}})
		if note := strings.TrimSpace(s.Source); note != "" && !strings.Contains(strings.Join(said, "; "), note) {
			said = append(said, note)
		}
	}
	w.b.WriteString(`<div data-yours="">`)
	w.table("Your boards", []column{{head: "sold as", name: true}, {head: "wood"}, {head: "thick", right: true}, {head: "wide", right: true}, {head: "for parts"}}, rows)
	w.b.WriteString("</div>")
	if said != nil {
		w.p("quiet", "Sizes as here: "+words(stop(strings.Join(said, "; "))))
	}
	if w.r.Saw.Kerf.Text != "" {
		w.p("", "The blade cuts away "+w.number(w.r.Saw.Kerf)+". Cut a slot into scrap and measure it.")
	}
}

// buy is the shopping list.
func (w *writer) buy() {
	buy := w.r.Buy
	if len(buy.Boards)+len(buy.Hardware)+len(buy.Goods)+len(buy.OnHand) == 0 {
		return
	}
	priced := buy.Cost.Exact.V > 0
	cols := func(cs ...column) []column {
		if priced {
			cs = append(cs, column{head: "each", right: true}, column{head: "together", right: true})
		}
		return append(cs, column{head: "for"})
	}
	line := func(l shop.BuyLine, cells ...string) row {
		if priced {
			cells = append(cells, w.maybe(l.Each), w.maybe(l.Total))
		}
		key := l.What
		if l.Length != nil {
			key += " " + l.Length.Text
		}
		return row{` data-tick="buy ` + esc(key) + `"`, append(cells, words(l.Use))}
	}
	count := func(n int) string {
		if n == 0 {
			return ""
		}
		return strong(strconv.Itoa(n))
	}
	var rows []row
	for _, l := range buy.Boards {
		rows = append(rows, line(l, count(l.Count), strong(words(l.What)), w.maybe(l.Length)))
	}
	w.table("Boards to buy", cols(column{head: "boards", right: true}, column{head: "sold as", name: true}, column{head: "long", right: true}), rows)
	rows = nil
	for _, l := range buy.OnHand {
		rows = append(rows, row{"", []string{count(l.Count), strong(words(l.What)), w.maybe(l.Length), words(l.Use)}})
	}
	w.table("Boards you have", []column{{head: "yours", right: true}, {head: "sold as", name: true}, {head: "long", right: true}, {head: "for"}}, rows)
	w.p("", w.text(buy.Proof))
	rows = nil
	for _, a := range buy.Alternatives {
		rows = append(rows, row{"", []string{w.text(a.Says), w.maybe(a.Extra)}})
	}
	w.table("Other ways to buy", []column{{head: "or buy otherwise", name: true}, {head: "costs more", right: true}}, rows)
	for _, part := range []struct {
		name  string
		lines []shop.BuyLine
	}{{"Screws, bolts and washers", buy.Hardware}, {"Also", buy.Goods}} {
		if len(part.lines) == 0 {
			continue
		}
		w.f("<h3>%s</h3>", part.name)
		rows = nil
		for _, l := range part.lines {
			rows = append(rows, line(l, count(l.Count), words(l.What), words(l.Packs)))
		}
		w.table(part.name, cols(column{head: "needed", right: true}, column{head: "what", name: true}, column{head: "buy"}), rows)
	}
	if buy.Cost.Text != "" {
		note := ""
		if buy.PriceNote != "" {
			note = " " + words(stop(phrase.Begin(buy.PriceNote)))
		}
		w.p("total", strong("Everything together: "+w.number(buy.Cost)+".")+note)
	}
}

// parts is the list of parts.
func (w *writer) parts() {
	if len(w.r.Parts) == 0 {
		return
	}
	var rows []row
	fitted, hands := false, false
	for _, p := range w.r.Parts {
		name := p.Name
		if p.Hand != "" {
			name += ", " + p.Hand
			hands = true
		}
		fitted = fitted || p.Long.Origin == shop.ToFit || p.Wide.Origin == shop.ToFit || p.Thick.Origin == shop.ToFit
		letter := strong(esc(p.Letter))
		if p.Shaped {
			letter = `<a href="#sheet-` + esc(p.Letter) + `">` + letter + `</a>`
		}
		rows = append(rows, row{` data-tick="cut ` + esc(string(p.Master)) + `"` + boardsAttr(p.Boards), []string{letter, words(name),
			strong(strconv.Itoa(p.Count)), w.number(p.Thick), w.number(p.Wide), strong(w.number(p.Long)), words(p.Stock), w.text(p.CutNote)}})
	}
	w.table("Parts", []column{{head: "part", name: true}, {head: "name"}, {head: "how many", right: true}, {head: "thick", right: true},
		{head: "wide", right: true}, {head: "long", right: true}, {head: "from"}, {head: "how cut"}}, rows)
	for _, p := range w.r.Parts {
		if len(p.Changed) > 0 {
			w.p("changed", strong(esc(p.Letter))+" "+w.text(p.Changed))
		}
	}
	if fitted {
		w.p("quiet", "* Cut to fit: measure on the work first; the length here is about right.")
	}
	if hands {
		w.p("quiet", "A left and a right are mirror images of each other: cut them in pairs.")
	}
}

func boardsAttr(ids []board.ID) string {
	var all []string
	for _, id := range ids {
		all = append(all, string(id))
	}
	return ` data-boards="` + esc(strings.Join(all, " ")) + `"`
}
