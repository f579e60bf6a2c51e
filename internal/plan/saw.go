package plan

import (
	"fmt"
	"math"
	"reflect"

	"scantling/internal/board"
	"scantling/internal/cutplan"
	"scantling/internal/measure"
	"scantling/internal/shop"
)

// sawn turns a cutting plan into the boards a person marks and saws, alike ones
// told once.
func (p *Plan) sawn(plan *cutplan.Plan, job *cutplan.Job, stocks []stockUse, parts []*shop.Part) []shop.SawBoard {
	var out []shop.SawBoard
	var last *cutplan.Board
	for i := range plan.Boards {
		b := &plan.Boards[i]
		if last != nil && reflect.DeepEqual(*last, *b) {
			out[len(out)-1].Same++
			continue
		}
		last = b
		out = append(out, p.sawBoard(b, job, &stocks[b.Stock], parts))
	}
	return out
}

// sawBoard lays out one board. Which parts share it follows from all parts of its
// stock, and so do its figures.
func (p *Plan) sawBoard(b *cutplan.Board, job *cutplan.Job, use *stockUse, parts []*shop.Part) shop.SawBoard {
	pen, from := p.Readings.Pen, use.from
	stock := job.Stocks[b.Stock]
	sb := shop.SawBoard{Stock: stock.Name, Width: stock.Width.MM(), Same: 1}
	counts := make([]int, len(parts))
	ripAfter := make([]bool, len(parts))
	slanted := false
	for k, sec := range b.Sections {
		out := shop.SawSection{From: sec.From.MM(), Long: sec.Length.MM()}
		if k+1 < len(b.Sections) {
			at := pen.Running((sec.From + sec.Length).MM(), from)
			out.CutAt = &at
		}
		for _, lane := range sec.Lanes {
			strip := shop.Strip{Near: lane.Across.MM(), Wide: lane.Width.MM()}
			for _, pc := range lane.Pieces {
				part := parts[pc.Part]
				counts[pc.Part]++
				slanted = slanted || pc.SlantEnd != 0
				ripAfter[pc.Part] = ripAfter[pc.Part] || pc.Width < lane.Width
				strip.Pieces = append(strip.Pieces, shop.SawPiece{Letter: part.Letter,
					Start: (pc.Start - sec.From).MM(), End: (pc.End - sec.From).MM(), SlantStart: pc.SlantStart.MM(), SlantEnd: pc.SlantEnd.MM(),
					Near: pc.Across.MM(), Wide: pc.Width.MM(),
					Label: part.Long.Text, Mark: pen.Running((pc.End - sec.From).MM(), from)})
			}
			least, mark := measure.Inch, measure.Inch/16
			if pen.Tape.Units() == measure.Metric {
				least, mark = 25*measure.Millimetre, measure.Millimetre
			}
			if lane.Left >= least {
				left := pen.Length(lane.Left.Floor(mark).MM(), from)
				strip.Left = &left
			}
			out.Strips = append(out.Strips, strip)
			if lane.Width < stock.Width {
				out.RipsAt = append(out.RipsAt, pen.Length((lane.Across+lane.Width).MM(), from))
			}
		}
		sb.Sections = append(sb.Sections, out)
	}
	sb.Length = pen.Stock(b.Length, from)
	name := stock.Name
	if b.Offer >= use.sold {
		name = "your own " + name
	}
	sb.Title = title(name, sb, parts, counts)
	if slanted {
		sb.Title = sb.Title.Say("; mark each part from the cut before it")
	}
	for i, rip := range ripAfter {
		if rip {
			sb.Title = sb.Title.Say("; rip " + parts[i].Letter + " to ").Show(parts[i].Wide).Say(" once it is cut off")
		}
	}
	return sb
}

// title says in one line what a board yields: "2x6 cedar, 12 ft, ripped first:
// 4 × C".
func title(stock string, sb shop.SawBoard, parts []*shop.Part, counts []int) shop.Text {
	t := shop.Words(stock + ", ").Show(sb.Length)
	switch rips := sb.Sections[0].RipsAt; {
	case len(sb.Sections) > 1:
		t = t.Say(", crosscut first at ")
		for i, sec := range sb.Sections {
			if i > 0 && sec.CutAt != nil {
				t = t.Say(" and ")
			}
			if sec.CutAt != nil {
				t = t.Show(*sec.CutAt)
			}
		}
	case len(rips) > 0:
		t = t.Say(", ripped first to ")
		for i, r := range rips {
			if i > 0 {
				t = t.Say(" and ")
			}
			t = t.Show(r)
		}
	}
	t = t.Say(": ")
	first := true
	for i, n := range counts {
		if n == 0 {
			continue
		}
		if !first {
			t = t.Say(", ")
		}
		first = false
		t = t.Say(fmt.Sprintf("%d × %s", n, parts[i].Letter))
	}
	return t
}

// slant is how much further the far edge of a part reaches than its near edge at
// one end, as printed: the offset a person marks. A tilted blade does not show
// from above. A part whose ends meet in a point before its far edge is laid out as
// the rectangle round it.
func slant(pt *shop.Part, b *board.Board, end board.Side) measure.Length {
	cuts := b.End(end)
	saw := pt.Ends[end]
	if saw == nil || len(cuts) != 1 || saw.Bevel != nil || b.Short <= 0 {
		return 0
	}
	n := cuts[0].Plane.N
	if math.Abs(n.Y) < 1e-12 {
		return 0
	}
	if -n.Y/n.X < 0 {
		return -saw.Offset.Printed()
	}
	return saw.Offset.Printed()
}
