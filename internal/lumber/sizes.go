package lumber

import (
	"scantling/internal/cite"
	"scantling/internal/measure"
)

// A row is a line of the table, in 1/64 in. The edge is "" unless the bare
// name is sold with more than one edge.
type row struct {
	kind                  Kind
	bare, edge            string
	thick, wide           measure.Length
	greenThick, greenWide measure.Length
	radius                measure.Length
	feet                  []measure.Length
	section, stocked      cite.Source
}

func (r row) name() Nominal {
	if r.edge == "" {
		return Nominal(r.bare)
	}
	return Nominal(r.bare + " " + r.edge)
}

func (r row) size() Size {
	const unit = measure.Inch / 64
	s := Size{Name: r.name(), Kind: r.kind,
		Thick: r.thick * unit, Wide: r.wide * unit,
		GreenThick: r.greenThick * unit, GreenWide: r.greenWide * unit,
		Radius: r.radius * unit, From: r.section, LengthsFrom: r.stocked}
	for _, f := range r.feet {
		s.Lengths = append(s.Lengths, f*12*measure.Inch)
	}
	return s
}

var (
	ps20    = cite.Source{Work: "American Softwood Lumber Standard, NIST PS 20-20, tables 3 and 4", Basis: cite.Memory}
	ps20dry = cite.Source{Work: "American Softwood Lumber Standard, NIST PS 20-20, table 3: dry size read in a public copy, green size from memory", Basis: cite.Read}
	nds1a   = cite.Source{Work: "AWC NDS Supplement 2018, table 1A, in a public copy", Basis: cite.Read}
	spib    = cite.Source{Work: "SPIB Standard Grading Rules for Southern Pine Lumber, radius edge decking", Basis: cite.Memory}
	yards   = cite.Source{Work: "lengths usually stocked by American yards", Basis: cite.Memory}

	boardFeet  = []measure.Length{6, 8, 10, 12, 14, 16}
	deckFeet   = []measure.Length{8, 10, 12, 14, 16}
	framedFeet = []measure.Length{8, 10, 12, 14, 16, 18, 20}
	postFeet   = []measure.Length{6, 8, 10, 12, 16}
)

// rows is the catalogue. Dressed sizes dry, then green, then edge radius.
//
// Radius edge decking is rounded about 1/4 in by rule; dimension lumber is
// eased at the mill by up to 1/8 in, which the standard allows but does not
// ask for, so its edges count as square here.
var rows = []row{
	{Boards, "1x2", "", 48, 96, 50, 100, 0, boardFeet, ps20, yards},
	{Boards, "1x3", "", 48, 160, 50, 164, 0, boardFeet, ps20dry, yards},
	{Boards, "1x4", "", 48, 224, 50, 228, 0, boardFeet, ps20dry, yards},
	{Boards, "1x5", "", 48, 288, 50, 296, 0, boardFeet, ps20, yards},
	{Boards, "1x6", "", 48, 352, 50, 360, 0, boardFeet, ps20dry, yards},
	{Boards, "1x8", "", 48, 464, 50, 480, 0, boardFeet, ps20dry, yards},
	{Boards, "1x10", "", 48, 592, 50, 608, 0, boardFeet, ps20dry, yards},
	{Boards, "1x12", "", 48, 720, 50, 736, 0, boardFeet, ps20dry, yards},

	{RadiusEdge, "5/4x4", "radius edge", 64, 224, 66, 228, 16, deckFeet, spib, yards},
	{RadiusEdge, "5/4x6", "radius edge", 64, 352, 66, 360, 16, deckFeet, spib, yards},
	{SquareEdge, "5/4x4", "square edge", 64, 224, 66, 228, 0, boardFeet, ps20, yards},
	{SquareEdge, "5/4x6", "square edge", 64, 352, 66, 360, 0, boardFeet, ps20, yards},
	{SquareEdge, "5/4x8", "", 64, 464, 66, 480, 0, boardFeet, ps20, yards},
	{SquareEdge, "5/4x10", "", 64, 592, 66, 608, 0, boardFeet, ps20, yards},
	{SquareEdge, "5/4x12", "", 64, 720, 66, 736, 0, boardFeet, ps20, yards},

	{Dimension, "2x2", "", 96, 96, 100, 100, 0, framedFeet, nds1a, yards},
	{Dimension, "2x3", "", 96, 160, 100, 164, 0, framedFeet, nds1a, yards},
	{Dimension, "2x4", "", 96, 224, 100, 228, 0, framedFeet, nds1a, yards},
	{Dimension, "2x6", "", 96, 352, 100, 360, 0, framedFeet, nds1a, yards},
	{Dimension, "2x8", "", 96, 464, 100, 480, 0, framedFeet, nds1a, yards},
	{Dimension, "2x10", "", 96, 592, 100, 608, 0, framedFeet, nds1a, yards},
	{Dimension, "2x12", "", 96, 720, 100, 736, 0, framedFeet, nds1a, yards},
	{Dimension, "3x4", "", 160, 224, 164, 228, 0, postFeet, nds1a, yards},
	{Dimension, "3x6", "", 160, 352, 164, 360, 0, postFeet, nds1a, yards},
	{Dimension, "4x4", "", 224, 224, 228, 228, 0, postFeet, nds1a, yards},
	{Dimension, "4x6", "", 224, 352, 228, 360, 0, postFeet, nds1a, yards},
	{Dimension, "4x8", "", 224, 464, 228, 480, 0, postFeet, nds1a, yards},

	{Timber, "6x6", "", 352, 352, 352, 352, 0, postFeet, ps20, yards},
	{Timber, "6x8", "", 352, 480, 352, 480, 0, postFeet, ps20, yards},
}
