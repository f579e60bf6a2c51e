package screw

import (
	"strconv"
	"strings"

	"scantling/internal/cite"
	"scantling/internal/measure"
	"scantling/internal/region"
)

var (
	screwsMM     = cite.Source{Work: "typical of exterior screws sold by the millimetre in Europe; makers differ", Basis: cite.Memory}
	din97        = cite.Source{Work: "DIN 97, countersunk wood screws; core 0.7 of the diameter", Basis: cite.Memory}
	gauges       = cite.Source{Work: "typical of decking screws sold by gauge and millimetre in Australia and New Zealand; makers differ", Basis: cite.Memory}
	bs1202       = cite.Source{Work: "BS 1202-1, round wire and lost head nails", Basis: cite.Memory}
	din603       = cite.Source{Work: "DIN 603 (ISO 8677), cup square bolts, largest head", Basis: cite.Memory}
	iso4014      = cite.Source{Work: "ISO 4014, hex bolts, largest head; width across corners", Basis: cite.Memory}
	din571       = cite.Source{Work: "DIN 571, coach screws; core 0.7 of the diameter", Basis: cite.Memory}
	structuralMM = cite.Source{Work: "typical of construction screws sold by the millimetre in Europe; makers differ", Basis: cite.Memory}
	iso4032      = cite.Source{Work: "ISO 4032, hex nuts", Basis: cite.Memory}
	iso7093      = cite.Source{Work: "ISO 7093-1, large washers", Basis: cite.Memory}
)

const mm = measure.Millimetre

// Metric reports whether the row is sold by the millimetre. It shows in the
// size: a diameter to a tenth ("4.5"), an M ("M8"), millimetres said ("50 mm"), or a
// gauge with its g ("10g"), which Australasia sells in millimetres of length.
func (r Row) Metric() bool {
	return strings.Contains(r.Size, ".") || strings.HasPrefix(r.Size, "M") || strings.HasSuffix(r.Size, "g") || strings.HasSuffix(r.Size, " mm")
}

// by makes a metric row: diameters in hundredths of a millimetre, lengths in
// millimetres.
func by(f Family, size string, shank, root, head, rise measure.Length, from cite.Source, lengths ...measure.Length) Row {
	for i := range lengths {
		lengths[i] *= mm
	}
	return Row{f, size, shank * mm / 100, root * mm / 100, head * mm / 100, rise * mm / 100, lengths, from, sold}
}

// MetricRows returns the fasteners sold by the millimetre.
func MetricRows() []Row {
	return []Row{
		by(DeckScrew, "3.5", 350, 220, 700, 0, screwsMM, 25, 30, 35, 40, 50),
		by(DeckScrew, "4.0", 400, 250, 800, 0, screwsMM, 30, 35, 40, 45, 50, 60, 70),
		by(DeckScrew, "4.5", 450, 280, 900, 0, screwsMM, 40, 45, 50, 60, 70, 80),
		by(DeckScrew, "5.0", 500, 320, 1000, 0, screwsMM, 40, 50, 60, 70, 80, 90, 100),
		by(DeckScrew, "6.0", 600, 390, 1200, 0, screwsMM, 60, 70, 80, 90, 100, 120, 140),
		by(DeckScrew, "8g", 417, 292, 838, 0, gauges, 40, 50),
		by(DeckScrew, "10g", 483, 335, 922, 0, gauges, 50, 65, 75, 100),
		by(DeckScrew, "14g", 615, 430, 1219, 0, gauges, 75, 100, 125, 150),

		by(WoodScrew, "3.5", 350, 245, 650, 0, din97, 16, 20, 25, 30, 35, 40),
		by(WoodScrew, "4.0", 400, 280, 750, 0, din97, 20, 25, 30, 35, 40, 45, 50, 60),
		by(WoodScrew, "4.5", 450, 315, 830, 0, din97, 30, 35, 40, 45, 50, 60, 70),
		by(WoodScrew, "5.0", 500, 350, 920, 0, din97, 40, 50, 60, 70, 80),
		by(WoodScrew, "6.0", 600, 420, 1100, 0, din97, 50, 60, 70, 80, 100),

		by(CommonNail, "2.65", 265, 0, 530, 0, bs1202, 40, 50),
		by(CommonNail, "3.35", 335, 0, 670, 0, bs1202, 50, 65, 75),
		by(CommonNail, "3.75", 375, 0, 750, 0, bs1202, 75, 90),
		by(CommonNail, "4.00", 400, 0, 800, 0, bs1202, 90, 100),
		by(FinishNail, "2.65", 265, 0, 400, 0, bs1202, 40, 50),
		by(FinishNail, "3.35", 335, 0, 500, 0, bs1202, 65, 75),

		by(CarriageBolt, "M6", 600, 0, 1655, 388, din603, 40, 50, 60, 70, 80, 90, 100, 120, 150),
		by(CarriageBolt, "M8", 800, 0, 2065, 488, din603, 40, 50, 60, 70, 80, 90, 100, 110, 120, 130, 140, 150, 180, 200),
		by(CarriageBolt, "M10", 1000, 0, 2465, 538, din603, 60, 70, 80, 90, 100, 110, 120, 130, 140, 150, 180, 200, 220, 240, 260, 300),
		by(CarriageBolt, "M12", 1200, 0, 3065, 695, din603, 80, 100, 110, 120, 130, 140, 150, 160, 180, 200, 220, 240, 260, 300),
		by(HexBolt, "M6", 600, 0, 1105, 415, iso4014, 40, 50, 60, 70, 80, 90, 100, 120),
		by(HexBolt, "M8", 800, 0, 1438, 545, iso4014, 40, 50, 60, 70, 80, 90, 100, 110, 120, 130, 140, 150),
		by(HexBolt, "M10", 1000, 0, 1777, 658, iso4014, 50, 60, 70, 80, 90, 100, 110, 120, 130, 140, 150, 180, 200),
		by(HexBolt, "M12", 1200, 0, 2003, 768, iso4014, 60, 70, 80, 90, 100, 110, 120, 130, 140, 150, 180, 200),
		by(LagScrew, "M6", 600, 420, 1000, 418, din571, 40, 50, 60, 70, 80, 90, 100),
		by(LagScrew, "M8", 800, 560, 1300, 568, din571, 40, 50, 60, 70, 80, 90, 100, 120),
		by(LagScrew, "M10", 1000, 700, 1700, 745, din571, 50, 60, 80, 100, 120, 140),
		by(LagScrew, "M12", 1200, 900, 1900, 845, din571, 60, 80, 100, 120, 140, 160),

		by(Structural, "6.0", 600, 400, 1400, 300, structuralMM, 80, 100, 120, 140, 160, 180, 200),
		by(Structural, "8.0", 800, 550, 2200, 350, structuralMM, 100, 120, 140, 160, 180, 200, 240),

		by(Dowel, "6.0", 600, 0, 0, 0, dowels, 30),
		by(Dowel, "8.0", 800, 0, 0, 0, dowels, 30, 40),
		by(Dowel, "10.0", 1000, 0, 0, 0, dowels, 40, 50),

		by(Insert, "M6", 950, 0, 0, 0, fittings, 15),
		by(Insert, "M8", 1200, 0, 0, 0, fittings, 18),
		by(Insert, "M10", 1500, 0, 0, 0, fittings, 25),
		by(FlatBracket, "60 mm", 0, 0, 0, 0, fittings, 60),
		by(FlatBracket, "80 mm", 0, 0, 0, 0, fittings, 80),
		by(FlatBracket, "100 mm", 0, 0, 0, 0, fittings, 100),
		by(Corner, "30 mm", 0, 0, 0, 0, fittings, 30),
		by(Corner, "50 mm", 0, 0, 0, 0, fittings, 50),
		by(Corner, "80 mm", 0, 0, 0, 0, fittings, 80),
	}
}

// RowsIn returns what a region's shops sell: by the inch in America, by the
// millimetre in Europe, screws by gauge and millimetre in Australasia.
func RowsIn(r region.Region) []Row {
	if r == region.America {
		return Rows()
	}
	var out []Row
	for _, row := range MetricRows() {
		gauge := strings.HasSuffix(row.Size, "g")
		if screw := row.Family == DeckScrew || row.Family == WoodScrew; !screw && r == region.Australasia || gauge == (r == region.Australasia) {
			out = append(out, row)
		}
	}
	for _, row := range Rows() {
		if row.Family == Glue {
			out = append(out, row)
		}
	}
	return out
}

// metricTrims go on metric bolts.
var metricTrims = []trim{
	{size: "M6", nut: 52 * mm / 10, washerHole: 64 * mm / 10, washerAcross: 18 * mm, washer: 16 * mm / 10, nutSource: iso4032, washerFrom: iso7093},
	{size: "M8", nut: 68 * mm / 10, washerHole: 84 * mm / 10, washerAcross: 24 * mm, washer: 2 * mm, nutSource: iso4032, washerFrom: iso7093},
	{size: "M10", nut: 84 * mm / 10, washerHole: 105 * mm / 10, washerAcross: 30 * mm, washer: 25 * mm / 10, nutSource: iso4032, washerFrom: iso7093},
	{size: "M12", nut: 108 * mm / 10, washerHole: 13 * mm, washerAcross: 37 * mm, washer: 3 * mm, nutSource: iso4032, washerFrom: iso7093},
}

// metricThread returns how far up a metric fastener is threaded.
//
// Screws and coach screws: 60 % of the length; structural screws: half, typical. Bolts: twice the diameter and
// 6 mm up to 125 mm, 12 mm up to 200 mm, 25 mm above.
//
// Source: DIN 95 to 97 and DIN 571; ISO 888, as DIN 603 and ISO 4014 use it
// (all from memory).
func (f Fastener) metricThread() measure.Length {
	switch {
	case f.Bolted() && f.Length > 200*mm:
		return 2*f.nominal() + 25*mm
	case f.Bolted() && f.Length > 125*mm:
		return 2*f.nominal() + 12*mm
	case f.Bolted():
		return 2*f.nominal() + 6*mm
	case f.Family == Structural:
		return f.Length / 2
	case f.Screwed():
		return f.Length * 6 / 10
	}
	return 0
}

// metricNominal reads the diameter in a metric size; that of a gauge is the
// shank's.
func (r Row) metricNominal() measure.Length {
	if strings.HasSuffix(r.Size, "g") {
		return r.Shank
	}
	whole, part, _ := strings.Cut(strings.TrimSuffix(strings.TrimPrefix(r.Size, "M"), " mm"), ".")
	n, _ := strconv.Atoi(whole)
	d, _ := strconv.Atoi((part + "00")[:2])
	return measure.Length(100*n+d) * mm / 100
}

// says prints a length in the units the row is sold in: "2.250 in", "57.2 mm".
func (r Row) says(l measure.Length) string {
	if r.Metric() {
		return millimetres(l) + " mm"
	}
	return strconv.FormatFloat(l.Inches(), 'f', 3, 64) + " in"
}

// millimetres prints l to a tenth, whole ones without it: "90", "57.2".
func millimetres(l measure.Length) string {
	return strings.TrimSuffix(strconv.FormatFloat(l.Round(mm/10).MM(), 'f', 1, 64), ".0")
}

// sale prints a length as it is sold: "2 1/2 in", "60 mm".
func (r Row) sale(l measure.Length) string {
	if r.Metric() {
		return millimetres(l) + " mm"
	}
	return inches(l) + " in"
}
