package book

import (
	"strconv"
	"strings"

	"scantling/internal/drawing"
	"scantling/internal/shop"
	"scantling/internal/typeset"
)

// atTheSaw draws every bought board as it lies on the bench.
func (b *book) atTheSaw() {
	saw := b.r.Saw
	if len(saw.Boards) == 0 {
		return
	}
	b.chapter("At the saw", "lengths to scale, widths drawn wider; the tape starts at the squared end; hatched is waste")
	if len(saw.Verdict) > 0 && saw.Verdict.String() != b.r.Buy.Proof.String() {
		b.para(2, spans(saw.Verdict, bodyStyle)...)
	}
	how := cat(say("Hook the tape on the squared end and mark every cut from there, one after another; the numbers above a board are the order of its cuts.", bodyStyle))
	if saw.Squared.Text != "" {
		how = cat(say("First square one end of each board: ", bodyStyle), figure(saw.Squared, bodyStyle), say(" is allowed for it. ", bodyStyle), how)
	}
	if saw.Kerf.Text != "" {
		how = cat(how, say(" Marks allow for a blade of ", bodyStyle), figure(saw.Kerf, bodyStyle), say("; keep the line.", bodyStyle))
	}
	b.para(1.5, how...)
	longest := 1.0
	for _, sb := range saw.Boards {
		longest = max(longest, mm(sb.Length))
	}
	for _, sb := range saw.Boards {
		b.board(sb, b.page.column()/longest)
	}
	b.offcuts()
	b.angledEnds()
}

// offcuts says what is made of what is left over, and what to set at the saw.
func (b *book) offcuts() {
	var rows [][]cell
	for _, o := range b.r.Saw.Offcuts {
		if len(o.Keep) > 0 {
			rows = append(rows, []cell{say(o.Name, cellStrong), say(o.Of, cellStyle), figure(o.Long, cellStyle), say(strings.Join(o.Keep, "; "), cellStyle)})
		}
	}
	var stops []typeset.Span
	for i := range b.r.Jigs {
		if j := &b.r.Jigs[i]; j.Step == 0 {
			stops = cat(stops, sentence(j.Says(), bodyStyle), say(" ", bodyStyle))
		}
	}
	if len(rows)+len(stops) == 0 {
		return
	}
	b.section(9, "", say("Offcuts to keep", sectionStyle)...)
	if len(rows) > 0 {
		b.para(0.5, say("Put these by before they are sawn up for anything else; the steps ask for them.", bodyStyle)...)
		b.bindLast()
		b.table(2, []column{{head: "name", name: true}, {head: "of", grow: true}, {head: "long"}, {head: "becomes", grow: true}}, rows)
	}
	b.para(2, stops...)
}

func mm(s shop.Shown) float64 { return s.Exact.V / 1e6 }

// board prints one bought board: its title, and a bar for each strip that
// gives parts.
func (b *book) board(sb shop.SawBoard, scale float64) {
	title := spans(sb.Title, strongStyle)
	if len(title) == 0 {
		title = cat(say(sb.Stock+", ", strongStyle), figure(sb.Length, strongStyle))
	}
	if sb.Same > 1 {
		title = cat(say("Cut "+strconv.Itoa(sb.Same)+" boards like this: ", strongStyle), title)
	}
	b.para(6, title...)
	b.bindLast()
	cut := 0
	for k, sec := range sb.Sections {
		if lead := sb.Lead(k); len(lead) > 0 {
			b.para(0.5, spans(lead, bodyStyle)...)
			b.bindLast()
		}
		cut = b.strips(sb, sec, scale, cut, k+1 < len(sb.Sections))
	}
}

// strips draws the strips of a section that give parts, and returns the number of
// the last cut.
func (b *book) strips(sb shop.SawBoard, sec shop.SawSection, scale float64, cut int, more bool) int {
	used := sec.Used()
	for i, s := range used {
		if len(used) > 1 {
			b.para(1, say("Strip "+strconv.Itoa(i+1)+", counted from the near edge:", cellStyle)...)
			b.bindLast()
		}
		d := &bar{wide: sb.Width, ripsAt: sec.RipsAt, strip: s, whole: len(used) == 1, scale: scale, long: sb.LongOf(sec), kerf: mm(b.r.Saw.Kerf),
			metric: b.r.Units != "inches", cut: cut, room: b.page.column()}
		items, high := d.draw()
		cut = d.cut
		fig := &drawing.Group{Role: drawing.RoleFigure, Alt: barSays(sb, s), Items: items}
		b.add(block{in: b.here(), gap: 1, height: high, items: []drawing.Item{fig}, keep: more || i+1 < len(used)})
		var also []typeset.Span
		if len(d.bare) > 0 {
			also = cat(say("Pieces too short for a letter above: ", cellStyle), bare(d.bare), say(". ", cellStyle))
		}
		if d.tight {
			also = cat(also, say("Left over at the end: "+strings.TrimPrefix(d.leftover(), "left "), cellStyle), figure(*s.Left, cellStyle), say(".", cellStyle))
		}
		if len(also) > 0 {
			b.bindLast()
			b.para(0.5, also...)
		}
	}
	return cut
}

// bare lists pieces by letter and length, alike ones once.
func bare(ps []shop.SawPiece) (sp []typeset.Span) {
	for i := 0; i < len(ps); {
		n := 1
		for i+n < len(ps) && ps[i+n].Letter == ps[i].Letter && ps[i+n].Label == ps[i].Label {
			n++
		}
		if i > 0 {
			sp = append(sp, say(", ", cellStyle)...)
		}
		sp = cat(sp, say(strconv.Itoa(n)+" × ", cellStyle), say(ps[i].Letter+" ", cellStrong), []typeset.Span{{Text: ps[i].Label, Style: cellStyle, Kind: typeset.Figure}})
		i += n
	}
	return sp
}

// barSays tells a board to somebody who cannot see it.
func barSays(sb shop.SawBoard, s shop.Strip) string {
	var out []string
	for _, p := range s.Pieces {
		out = append(out, p.Letter+", "+p.Label+" long, cut at "+p.Mark.Text)
	}
	says := sb.Stock + ", " + sb.Length.Text + ", from the squared end: " + strings.Join(out, "; ")
	if s.Left != nil {
		says += "; left over " + s.Left.Text
	}
	return says
}

// angledEnds is the card of saw settings: every angled end, said three ways.
func (b *book) angledEnds() {
	var rows [][]cell
	for _, p := range b.r.Parts {
		cards := p.Ends[:]
		for _, c := range p.Cuts {
			cards = append(cards, c.Saw)
		}
		for _, e := range cards {
			if e == nil {
				continue
			}
			set := figure(e.Setting, cellStrong)
			if e.ByMarks {
				set = say("by marks", cellStrong)
			}
			if e.Bevel != nil {
				set = cat(set, say(", blade tilted ", cellStyle), figure(*e.Bevel, cellStrong))
			}
			rows = append(rows, []cell{say(p.Letter, cellStrong), say(e.End, cellStyle), set, say(e.Swing, cellStyle), say(e.FaceUp, cellStyle), say(e.Fence, cellStyle),
				figure(e.Included, cellStyle), figure(e.Offset, cellStyle)})
		}
	}
	if len(rows) == 0 {
		return
	}
	b.section(9, "", say("Angled ends", sectionStyle)...)
	b.para(0.5, say("A saw reads 0 at square. Set it, or mark the line: square across, step the offset along the edge, and join.", bodyStyle)...)
	b.bindLast()
	b.table(2, []column{{head: "part", name: true}, {head: "end", grow: true}, {head: "set the saw", grow: true}, {head: "swing", grow: true}, {head: "face up", grow: true},
		{head: "at the fence", grow: true}, {head: "between edge and cut", align: typeset.Right, grow: true}, {head: "or step", align: typeset.Right}}, rows)
}
