package lumber

import (
	"fmt"

	"scantling/internal/cite"
	"scantling/internal/measure"
	"scantling/internal/region"
)

// Headings of yards that sell in millimetres.
const (
	Sawn        Kind = "sawn"        // rough, sold by what it measures
	Regularised Kind = "regularised" // planed to width and thickness, still sold by the sawn size
	Planed      Kind = "planed"      // sold by what it measures
	CLS         Kind = "CLS"         // planed, with rounded corners
	Decking     Kind = "decking"
	Framing     Kind = "framing" // dressed and seasoned
	Dressed     Kind = "dressed all round"
	Post        Kind = "post"
	Sleeper     Kind = "sleeper"
)

// A metricRow is a line of a metric table, in whole millimetres. A name is made
// of the two figures in the order the region says them, and of the edge word
// where yards sell two things under the same figures.
type metricRow struct {
	region      region.Region
	kind        Kind
	edge        string
	first, then int // as said: thickness first in Europe, width first in Australasia
	thick, wide int
	section     cite.Source
	lengths     []int
	stocked     cite.Source
}

func (m metricRow) bare() string { return fmt.Sprintf("%dx%d", m.first, m.then) }

func (m metricRow) name() Nominal {
	if m.edge == "" {
		return Nominal(m.bare())
	}
	return Nominal(m.bare() + " " + m.edge)
}

func (m metricRow) size() Size {
	s := Size{Name: m.name(), Kind: m.kind, Region: m.region,
		Thick: measure.Length(m.thick) * measure.Millimetre, Wide: measure.Length(m.wide) * measure.Millimetre,
		From: m.section, LengthsFrom: m.stocked}
	s.GreenThick, s.GreenWide = s.Thick, s.Wide
	if m.region == region.Europe {
		s.GreenThick, s.GreenWide = wet(s.Thick), wet(s.Wide)
	}
	for _, l := range m.lengths {
		s.Lengths = append(s.Lengths, measure.Length(l)*measure.Millimetre)
	}
	return s
}

// wet returns what a size measured at 20 % moisture grows to when it is wet
// through (30 %): 0.25 % for each point, to 0.1 mm.
//
// Source: EN 1313-1:2010, clause 4 (read in a public copy); fibre saturation at
// 30 %, Wood Handbook, FPL-GTR-190 (2010), chapter 4.
func wet(l measure.Length) measure.Length { return (l + l/40).Round(measure.Millimetre / 10) }

var (
	sawnSizes    = cite.Source{Work: "EN 1313-1:2010, customary sawn sizes of its UK annex, at 20 % moisture", Basis: cite.Memory}
	planedSizes  = cite.Source{Work: "planed sizes customary in the Nordic countries, at 20 % moisture", Basis: cite.Memory}
	regularised  = cite.Source{Work: "finished size of regularised timber as merchants in the UK state it, at 20 % moisture", Basis: cite.Memory}
	clsSizes     = cite.Source{Work: "EN 1313-1:2010, CLS sizes of its UK annex", Basis: cite.Memory}
	europeSteps  = cite.Source{Work: "EN 1313-1:2010 and Finnish sawn timber: 2.7 to 5.4 m in steps of 0.3 m", Basis: cite.Read}
	sawnSteps    = cite.Source{Work: "EN 1313-1:2010, 1.8 to 6.3 m in steps of 0.3 m", Basis: cite.Memory}
	clsSteps     = cite.Source{Work: "lengths of CLS usually stocked in the UK", Basis: cite.Memory}
	australia    = cite.Source{Work: "sizes named in Australian trade guidance and the home press (2022)", Basis: cite.Read}
	australiaMem = cite.Source{Work: "seasoned sizes usually stocked in Australia and New Zealand", Basis: cite.Memory}
	redcedarMem  = cite.Source{Work: "western red cedar dressed from 38 mm, as usually stocked in Australia", Basis: cite.Memory}
	australiaLen = cite.Source{Work: "steps of 0.3 m read in Australian trade guidance; the shortest and longest", Basis: cite.Memory}
)

// steps returns lengths in millimetres, 300 apart.
func steps(from, to int) (out []int) {
	for l := from; l <= to; l += 300 {
		out = append(out, l)
	}
	return out
}

// europe says thickness first.
func europe(k Kind, edge string, from cite.Source, lengths []int, stocked cite.Source, thick int, wide ...int) (rows []metricRow) {
	for _, w := range wide {
		rows = append(rows, metricRow{region.Europe, k, edge, thick, w, thick, w, from, lengths, stocked})
	}
	return rows
}

// australasia says width first.
func australasia(k Kind, from cite.Source, thick int, wide ...int) (rows []metricRow) {
	for _, w := range wide {
		rows = append(rows, metricRow{region.Australasia, k, "", w, thick, thick, w, from, steps(2400, 6000), australiaLen})
	}
	return rows
}

// metricRows returns the metric catalogues, thin before thick under each heading.
func metricRows() (rows []metricRow) {
	add := func(more []metricRow) { rows = append(rows, more...) }

	sawn := func(thick int, wide ...int) {
		add(europe(Sawn, "sawn", sawnSizes, steps(1800, 6300), sawnSteps, thick, wide...))
	}
	sawn(16, 75, 100, 125, 150)
	sawn(19, 75, 100, 125, 150)
	sawn(22, 75, 100, 125, 150, 175, 200, 225)
	sawn(25, 75, 100, 125, 150, 175, 200, 225, 250, 300)
	sawn(32, 75, 100, 125, 150, 175, 200, 225, 250, 300)
	sawn(38, 75, 100, 125, 150, 175, 200, 225)
	sawn(44, 75, 100, 125, 150, 175, 200, 225, 250, 300)
	sawn(47, 75, 100, 125, 150, 175, 200, 225, 250, 300)
	sawn(50, 75, 100, 125, 150, 175, 200, 225, 250, 300)
	sawn(63, 100, 125, 150, 175, 200, 225)
	sawn(75, 75, 100, 125, 150, 175, 200, 225, 250, 300)
	sawn(100, 100, 150, 200, 250, 300)
	for _, r := range [][2]int{{75, 70}, {100, 95}, {125, 120}, {150, 145}, {175, 170}, {200, 195}, {225, 220}} {
		rows = append(rows, metricRow{region.Europe, Regularised, "regularised", 47, r[0], 45, r[1], regularised, steps(2700, 5400), europeSteps})
	}
	planed := func(thick int, wide ...int) {
		add(europe(Planed, "", planedSizes, steps(2700, 5400), europeSteps, thick, wide...))
	}
	planed(21, 95, 120, 145)
	planed(22, 95, 120, 145)
	planed(34, 45, 70, 95, 120, 145)
	planed(45, 45, 70, 95, 120, 145, 170, 195, 220)
	planed(70, 70, 95, 120, 145)
	planed(95, 95)
	planed(120, 120)
	add(europe(CLS, "CLS", clsSizes, []int{2400, 2700, 3000, 3600, 4200, 4800}, clsSteps, 38, 63, 89, 140, 184, 235, 285))
	add(europe(Decking, "", planedSizes, steps(2700, 5400), europeSteps, 28, 95, 120, 145))

	add(australasia(Framing, australia, 35, 70, 90))
	add(australasia(Framing, australiaMem, 35, 120, 140, 190, 240))
	add(australasia(Framing, australiaMem, 45, 70))
	add(australasia(Framing, australia, 45, 90))
	add(australasia(Framing, australiaMem, 45, 120))
	add(australasia(Framing, australia, 45, 140))
	add(australasia(Framing, australiaMem, 45, 190, 240, 290))
	add(australasia(Dressed, australiaMem, 19, 42, 65))
	add(australasia(Dressed, redcedarMem, 30, 65, 90, 140))
	add(australasia(Dressed, redcedarMem, 42, 42))
	add(australasia(Decking, australia, 19, 70, 90, 140))
	add(australasia(Decking, australia, 22, 70, 90, 140))
	add(australasia(Post, australiaMem, 90, 90))
	add(australasia(Post, australiaMem, 115, 115))
	add(australasia(Sleeper, australiaMem, 50, 200))
	add(australasia(Sleeper, australiaMem, 75, 200))
	return rows
}
