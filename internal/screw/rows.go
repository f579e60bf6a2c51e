package screw

import (
	"scantling/internal/cite"
	"scantling/internal/measure"
)

var (
	appendixL = cite.Source{Work: "AWC NDS 2018, appendix L, in a public copy; heads ASME B18.6.1", Basis: cite.Read}
	typical   = cite.Source{Work: "typical of exterior screws sold by gauge; makers differ", Basis: cite.Memory}
	boxNails  = cite.Source{Work: "AWC NDS 2018, appendix L, table L4, box nails", Basis: cite.Memory}
	f1667     = cite.Source{Work: "ASTM F1667, finish nails", Basis: cite.Memory}
	b185      = cite.Source{Work: "ASME B18.5, round head square neck bolts, largest body and head", Basis: cite.Read}
	b1821     = cite.Source{Work: "ASME B18.2.1, hex bolts: body, width across corners, largest head", Basis: cite.Memory}
	evaluated = cite.Source{Work: "typical of structural wood screws in evaluation reports; makers differ", Basis: cite.Memory}
	fittings  = cite.Source{Work: "sizes usually sold; for an insert, the hole it is driven into", Basis: cite.Memory}
	dowels    = cite.Source{Work: "fluted hardwood dowels as sold", Basis: cite.Practice}
	glues     = cite.Source{Work: "water-resistant wood glue", Basis: cite.Practice}
	sold      = cite.Source{Work: "lengths usually sold", Basis: cite.Memory}
)

// q returns lengths given in eighths of an inch.
func q(eighths ...measure.Length) []measure.Length {
	for i := range eighths {
		eighths[i] *= measure.Inch / 8
	}
	return eighths
}

// nail makes one nail row; its length is the pennyweight's, in 1/8 in.
func nail(f Family, size string, shank, head, eighths measure.Length, from cite.Source) Row {
	return Row{f, size, shank * mil, 0, head * mil, 0, q(eighths), from, from}
}

func screw(f Family, size string, shank, root, head measure.Length, from cite.Source, eighths ...measure.Length) Row {
	return Row{f, size, shank * mil, root * mil, head * mil, 0, q(eighths...), from, sold}
}

func bolt(f Family, size string, shank, root, head, rise measure.Length, from cite.Source, eighths ...measure.Length) Row {
	return Row{f, size, shank * mil, root * mil, head * mil, rise * mil, q(eighths...), from, sold}
}

// Rows returns the catalogue. Diameters below stand in thousandths of an inch,
// lengths in eighths.
func Rows() []Row {
	return []Row{
		screw(DeckScrew, "8", 164, 115, 330, typical, 10, 13, 16, 20, 24),
		screw(DeckScrew, "9", 177, 125, 350, typical, 16, 20, 24, 28),
		screw(DeckScrew, "10", 190, 132, 370, typical, 20, 24, 28, 32),
		screw(DeckScrew, "1/4", 250, 180, 500, typical, 24, 28, 32, 40, 48),

		screw(WoodScrew, "6", 138, 113, 262, appendixL, 5, 6, 8, 10, 12, 16),
		screw(WoodScrew, "7", 151, 122, 287, appendixL, 8, 10, 12, 16),
		screw(WoodScrew, "8", 164, 131, 312, appendixL, 5, 6, 8, 10, 12, 16, 20, 24),
		screw(WoodScrew, "9", 177, 142, 337, appendixL, 12, 16, 20, 24),
		screw(WoodScrew, "10", 190, 152, 363, appendixL, 8, 12, 16, 20, 24, 28),
		screw(WoodScrew, "12", 216, 171, 414, appendixL, 12, 16, 20, 24, 32),
		screw(WoodScrew, "14", 242, 196, 480, appendixL, 16, 20, 24, 32),
		screw(WoodScrew, "16", 268, 209, 515, appendixL, 16, 20, 24, 32),
		screw(WoodScrew, "18", 294, 232, 560, appendixL, 16, 20, 24, 32, 40),
		screw(WoodScrew, "20", 320, 255, 616, appendixL, 16, 20, 24, 32, 40, 48),
		screw(WoodScrew, "24", 372, 298, 724, appendixL, 24, 32, 40, 48),

		nail(CommonNail, "6d", 113, 266, 16, appendixL),
		nail(CommonNail, "7d", 113, 266, 18, appendixL),
		nail(CommonNail, "8d", 131, 281, 20, appendixL),
		nail(CommonNail, "10d", 148, 312, 24, appendixL),
		nail(CommonNail, "12d", 148, 312, 26, appendixL),
		nail(CommonNail, "16d", 162, 344, 28, appendixL),
		nail(CommonNail, "20d", 192, 406, 32, appendixL),
		nail(CommonNail, "30d", 207, 438, 36, appendixL),
		nail(CommonNail, "40d", 225, 469, 40, appendixL),
		nail(BoxNail, "6d", 99, 266, 16, boxNails),
		nail(BoxNail, "8d", 113, 297, 20, boxNails),
		nail(BoxNail, "10d", 128, 312, 24, boxNails),
		nail(BoxNail, "12d", 128, 312, 26, boxNails),
		nail(BoxNail, "16d", 135, 344, 28, boxNails),
		nail(BoxNail, "20d", 148, 375, 32, boxNails),
		nail(FinishNail, "4d", 72, 109, 12, f1667),
		nail(FinishNail, "6d", 92, 125, 16, f1667),
		nail(FinishNail, "8d", 99, 141, 20, f1667),
		nail(FinishNail, "10d", 113, 156, 24, f1667),
		nail(FinishNail, "16d", 120, 172, 28, f1667),

		bolt(CarriageBolt, "1/4", 260, 0, 594, 145, b185, 8, 12, 16, 20, 24, 28, 32, 40, 48),
		bolt(CarriageBolt, "5/16", 324, 0, 719, 176, b185, 12, 16, 20, 24, 28, 32, 36, 40, 48),
		bolt(CarriageBolt, "3/8", 388, 0, 844, 208, b185, 16, 20, 24, 28, 32, 36, 40, 48, 56, 64, 80),
		bolt(CarriageBolt, "1/2", 515, 0, 1094, 270, b185, 24, 32, 40, 48, 56, 64, 80, 96),

		bolt(HexBolt, "1/4", 250, 0, 505, 163, b1821, 8, 12, 16, 20, 24, 28, 32, 40, 48),
		bolt(HexBolt, "5/16", 313, 0, 577, 211, b1821, 12, 16, 20, 24, 28, 32, 36, 40, 48),
		bolt(HexBolt, "3/8", 375, 0, 650, 243, b1821, 16, 20, 24, 28, 32, 36, 40, 48, 56, 64, 80),
		bolt(HexBolt, "1/2", 500, 0, 866, 323, b1821, 24, 32, 40, 48, 56, 64, 80, 96),

		bolt(Structural, "1/4", 250, 185, 630, 100, evaluated, 20, 24, 28, 32, 40, 48, 64),
		bolt(Structural, "5/16", 313, 220, 750, 120, evaluated, 32, 40, 48, 64, 80),

		bolt(LagScrew, "1/4", 250, 173, 438, 172, appendixL, 12, 16, 20, 24, 32, 40, 48),
		bolt(LagScrew, "5/16", 313, 227, 500, 219, appendixL, 12, 16, 20, 24, 32, 40, 48),
		bolt(LagScrew, "3/8", 375, 265, 563, 250, appendixL, 12, 16, 20, 24, 32, 40, 48),
		bolt(LagScrew, "1/2", 500, 371, 750, 344, appendixL, 12, 16, 20, 24, 32, 40, 48),

		bolt(Dowel, "1/4", 250, 0, 0, 0, dowels, 10, 12),
		bolt(Dowel, "3/8", 375, 0, 0, 0, dowels, 10, 12, 16),
		bolt(Dowel, "1/2", 500, 0, 0, 0, dowels, 12, 16),

		bolt(Insert, "1/4", 375, 0, 0, 0, fittings, 4),
		bolt(Insert, "5/16", 453, 0, 0, 0, fittings, 5),
		bolt(Insert, "3/8", 500, 0, 0, 0, fittings, 6),

		bolt(FlatBracket, "2", 0, 0, 0, 0, fittings, 16),
		bolt(FlatBracket, "3", 0, 0, 0, 0, fittings, 24),
		bolt(FlatBracket, "4", 0, 0, 0, 0, fittings, 32),
		bolt(Corner, "1", 0, 0, 0, 0, fittings, 8),
		bolt(Corner, "1 1/2", 0, 0, 0, 0, fittings, 12),
		bolt(Corner, "2", 0, 0, 0, 0, fittings, 16),
		bolt(Corner, "3", 0, 0, 0, 0, fittings, 24),

		{Family: Glue, From: glues, Lasts: glues},
	}
}
