package page

import (
	"strconv"
	"strings"

	"scantling/internal/book"
	"scantling/internal/phrase"
	"scantling/internal/shop"
)

// saw draws every bought board as it lies on the bench.
func (w *writer) saw() {
	saw := w.r.Saw
	if len(saw.Boards) == 0 {
		return
	}
	if saw.Verdict.String() != w.r.Buy.Proof.String() {
		w.p("", w.text(saw.Verdict))
	}
	how := ""
	if saw.Squared.Text != "" {
		how = "First square one end of each board: " + w.number(saw.Squared) + " is allowed for it. "
	}
	how += "Hook the tape on the squared end and mark every cut from there, one after another; the numbers above a board are the order of its cuts."
	if saw.Kerf.Text != "" {
		how += " Marks allow for a blade of " + w.number(saw.Kerf) + "; keep the line."
	}
	w.p("", how)
	bars := book.Bars(w.r, w.o.Column)
	for i, sb := range saw.Boards {
		title := w.text(sb.Title)
		if title == "" {
			title = words(sb.Stock) + ", " + w.number(sb.Length)
		}
		if sb.Same > 1 {
			title = "Cut " + strconv.Itoa(sb.Same) + " boards like this: " + title
		}
		w.f(`<div class="sawn" data-tick="saw %s"><h3>%s</h3>`, esc(sb.Stock+" "+sb.Length.Text+" "+strconv.Itoa(i)), title)
		for _, b := range bars[i] {
			if len(b.Lead) > 0 {
				w.p("", w.text(b.Lead))
			}
			if b.Strip > 0 {
				w.p("quiet", "Strip "+strconv.Itoa(b.Strip)+", counted from the near edge:")
			}
			w.sheet("bar", b.Sheet)
			var also string
			if len(b.Bare) > 0 {
				also = "Pieces too short for a letter above: " + bare(b.Bare) + ". "
			}
			if b.Tight != nil {
				also += "Left over at the end: " + w.number(*b.Tight) + "."
			}
			w.p("quiet", also)
		}
		w.b.WriteString("</div>")
	}
	w.angledEnds()
	w.offcuts()
}

// bare lists pieces by letter and length, alike ones once.
func bare(ps []shop.SawPiece) string {
	var out []string
	for i := 0; i < len(ps); {
		n := 1
		for i+n < len(ps) && ps[i+n].Letter == ps[i].Letter && ps[i+n].Label == ps[i].Label {
			n++
		}
		out = append(out, strconv.Itoa(n)+" × "+strong(esc(ps[i].Letter))+` <span class="n">`+fractions(ps[i].Label)+"</span>")
		i += n
	}
	return strings.Join(out, ", ")
}

// angledEnds is the card of saw settings: every angled end, said three ways.
func (w *writer) angledEnds() {
	var rows []row
	for _, p := range w.r.Parts {
		for _, e := range p.Ends {
			if e == nil {
				continue
			}
			set := w.number(e.Setting)
			if e.ByMarks {
				set = "by marks"
			}
			if e.Bevel != nil {
				set += ", blade tilted " + w.number(*e.Bevel)
			}
			rows = append(rows, row{"", []string{strong(esc(p.Letter)), esc(e.End), strong(set), esc(e.Swing), esc(e.FaceUp), esc(e.Fence), w.number(e.Included), w.number(e.Offset)}})
		}
	}
	if len(rows) == 0 {
		return
	}
	w.b.WriteString("<h3>Angled ends</h3>")
	w.p("", "A saw reads 0 at square. Set it, or mark the line: square across, step the offset along the edge, and join.")
	w.table("Angled ends", []column{{head: "part", name: true}, {head: "end"}, {head: "set the saw"}, {head: "swing"}, {head: "face up"},
		{head: "at the fence"}, {head: "between edge and cut", right: true}, {head: "or step", right: true}}, rows)
}

// sheets is each shaped part by itself.
func (w *writer) sheets() {
	for _, p := range w.r.Parts {
		if p.Shaped {
			w.partSheet(p)
		}
	}
}

func (w *writer) partSheet(p *shop.Part) {
	w.f(`<article class="sheet" id="sheet-%s"%s><h3><span class="letter">%s</span> %s <span class="quiet">%s</span></h3>`,
		esc(p.Letter), boardsAttr(p.Boards), esc(p.Letter), words(p.Title()), esc(p.Aside()))
	size := strong(w.number(p.Thick)+" × "+w.number(p.Wide)+" × "+w.number(p.Long)) + ", " + words(p.Stock) + "."
	if p.Short != nil {
		size += " Short point to short point " + w.number(*p.Short) + "."
	}
	if p.Edge != nil {
		size += " Along one edge " + w.number(*p.Edge) + "."
	}
	w.p("", size)
	w.figure("part", w.pics.Parts[p.Letter], 120)
	var items []string
	for _, e := range p.Ends {
		if e == nil {
			continue
		}
		said := w.text(e.Words)
		if e.Note != "" && !strings.Contains(e.Words.String(), e.Note) {
			said += " " + words(stop(phrase.Begin(e.Note)))
		}
		items = append(items, said)
	}
	for _, c := range p.Cuts {
		said := w.sentence(c.Words)
		var marks []string
		for _, m := range c.Marks {
			if !strings.Contains(c.Words.String(), m.At.Text) {
				marks = append(marks, words(m.Label)+" "+strong(w.number(m.At)))
			}
		}
		if marks != nil {
			said += " Marks: " + strings.Join(marks, ", ") + "."
		}
		items = append(items, said)
	}
	for _, e := range p.Edges {
		said := w.sentence(e.Words)
		if said == "" {
			said = words(phrase.Begin(e.Edges)) + "."
		}
		items = append(items, said)
	}
	if p.ShowFace != "" {
		items = append(items, "The "+esc(p.ShowFace)+" shows: keep the better side there.")
	}
	w.list(items)
	w.holes(p.Holes)
	w.b.WriteString("</article>")
}

func (w *writer) list(items []string) {
	some := false
	for _, it := range items {
		if it == "" {
			continue
		}
		if !some {
			w.b.WriteString("<ul>")
			some = true
		}
		w.b.WriteString("<li>" + it + "</li>")
	}
	if some {
		w.b.WriteString("</ul>")
	}
}

// holes is what is drilled before the part is built in: holes of one bit that
// stand in one line share a row.
func (w *writer) holes(all []shop.HoleReading) {
	var rows []row
	at := map[string]int{}
	for _, h := range all {
		key := strings.Join([]string{h.Bit.Text, h.Depth.Text, h.Sunk.Text, h.Face, h.End, h.Rim, h.FromRim.Text}, "|")
		if i, ok := at[key]; ok {
			last := len(rows[i].cells) - 1
			rows[i].cells[last] += ", " + w.number(h.FromEnd)
			continue
		}
		deep := "through"
		if h.Depth.Text != "" {
			deep = w.number(h.Depth)
		}
		if h.Sunk.Text != "" {
			deep += ", sunk " + w.number(h.Sunk)
		}
		at[key] = len(rows)
		rows = append(rows, row{"", []string{strong(w.number(h.Bit)), deep, esc(h.Face), w.number(h.FromRim) + " from " + esc(h.TheRim()), "from the " + esc(h.End) + ": " + w.number(h.FromEnd)}})
	}
	w.table("Holes", []column{{head: "bit", name: true}, {head: "deep"}, {head: "in the"}, {head: "across"}, {head: "along"}}, rows)
}

// offcuts says what is made of what is left over, and what to set at the saw.
func (w *writer) offcuts() {
	var rows []row
	for _, o := range w.r.Saw.Offcuts {
		if len(o.Keep) > 0 {
			rows = append(rows, row{"", []string{strong(esc(o.Name)), words(o.Of), w.number(o.Long), words(strings.Join(o.Keep, "; "))}})
		}
	}
	stops := ""
	for i := range w.r.Jigs {
		if j := &w.r.Jigs[i]; j.Step == 0 {
			stops += w.sentence(j.Says()) + " "
		}
	}
	if len(rows) == 0 && stops == "" {
		return
	}
	w.b.WriteString("<h3>Offcuts to keep</h3>")
	if len(rows) > 0 {
		w.p("", "Put these by before they are sawn up for anything else; the steps ask for them.")
		w.table("Offcuts to keep", []column{{head: "name", name: true}, {head: "of"}, {head: "long", right: true}, {head: "becomes"}}, rows)
	}
	w.p("", stops)
}
