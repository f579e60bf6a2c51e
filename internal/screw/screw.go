// Package screw holds the fasteners a design may name: screws, nails, bolts,
// lag screws, dowels and glue, with the sizes and lengths they are sold in.
//
// Start at Parse, which reads what stands after "with:" in a joint ("screw 8 x
// 2 1/2", "carriage bolt 5/16") into a Fastener. A bolt given without a length
// gets it from the wood it goes through, by ForStack. A Tally counts what a
// piece needs, nuts and washers too.
package screw

import (
	"strconv"

	"scantling/internal/cite"
	"scantling/internal/measure"
)

// A Family is a kind of fastener by the name it is asked for.
type Family string

const (
	DeckScrew    Family = "deck screw"
	WoodScrew    Family = "wood screw"
	CommonNail   Family = "nail"
	BoxNail      Family = "box nail"
	FinishNail   Family = "finish nail"
	CarriageBolt Family = "carriage bolt"
	HexBolt      Family = "hex bolt"
	LagScrew     Family = "lag screw"
	Structural   Family = "structural screw"
	Dowel        Family = "dowel"
	Insert       Family = "threaded insert"
	FlatBracket  Family = "flat bracket"
	Corner       Family = "corner bracket"
	Glue         Family = "outdoor glue"
)

// A Row is one size of a family as the tables give it.
type Row struct {
	Family Family
	Size   string // as asked for: gauge "8", diameter "5/16" or "4.5" or "M8", pennyweight "8d"

	Shank measure.Length // diameter of the shank or body
	Root  measure.Length // diameter at the root of the thread; 0: no thread, or not tabulated
	Head  measure.Length // diameter of the head, across flats for lag screws
	Rise  measure.Length // height of the head above the wood; 0: driven flush

	Lengths []measure.Length // usually sold, shortest first
	From    cite.Source      // of the diameters
	Lasts   cite.Source      // of the lengths
}

// A Fastener is one row and, except for glue and bolts still to be measured, a
// length.
type Fastener struct {
	Row
	Length measure.Length // under the head; of a dowel, overall; 0: not given
	Finish Finish         // Unsaid: any that suits the wood
}

// Name returns the fastener as a shopping list says it, which Parse reads
// back: "deck screw 8 x 2 1/2", "carriage bolt 5/16 x 4", "nail 8d", "deck screw
// 4.5 x 60 mm". The family keeps its name here; package words has the regions'.
func (f Fastener) Name() string {
	out := string(f.Family)
	if f.Finish != Unsaid {
		out = f.Finish.String() + " " + out
	}
	if f.Size != "" {
		out += " " + f.Size
	}
	switch {
	case f.Length == 0 || f.sized():
	case f.Metric():
		out += " x " + millimetres(f.Length) + " mm"
	default:
		out += " x " + inches(f.Length)
	}
	return out
}

// sized reports whether the size alone tells the length, as a pennyweight does.
func (f Fastener) sized() bool { return f.Nailed() && !f.Metric() || f.Fitting() }

// Nailed reports whether f is driven with a hammer.
func (f Fastener) Nailed() bool {
	return f.Family == CommonNail || f.Family == BoxNail || f.Family == FinishNail
}

// Bolted reports whether f goes right through and takes a nut.
func (f Fastener) Bolted() bool { return f.Family == CarriageBolt || f.Family == HexBolt }

// Screwed reports whether f is driven into wood by its own thread.
func (f Fastener) Screwed() bool {
	switch f.Family {
	case DeckScrew, WoodScrew, Structural, LagScrew:
		return true
	}
	return false
}

// Fitting reports whether f is a thing set on or in one board, which screws or a
// bolt then hold: a bracket, a threaded insert.
func (f Fastener) Fitting() bool {
	return f.Family == Insert || f.Family == FlatBracket || f.Family == Corner
}

// Bracket reports whether f is a plate screwed on the faces of two boards.
func (f Fastener) Bracket() bool { return f.Family == FlatBracket || f.Family == Corner }

// Driven reports whether f takes a hole of its own through two boards: all but
// glue and fittings.
func (f Fastener) Driven() bool { return f.Family != Glue && !f.Fitting() }

// Thread returns how far up from the tip f is threaded; 0 when it is not.
//
// Wood screws: two thirds of the length. Structural screws: half of it, typical.
// Bolts up to 6 in: twice the
// diameter and 1/4 in; longer ones 1/2 in. Lag screws: half the length and
// 1/2 in, at most the whole shank.
//
// Source: ASME B18.6.1; ASME B18.5 and B18.2.1 (from memory); AWC NDS 2018 appendix L,
// table L2, whose thread lengths this rule gives.
func (f Fastener) Thread() measure.Length {
	if f.Metric() {
		return f.metricThread()
	}
	switch f.Family {
	case DeckScrew, WoodScrew:
		return f.Length * 2 / 3
	case Structural:
		return f.Length / 2
	case CarriageBolt, HexBolt:
		if f.Length > 6*measure.Inch {
			return 2*f.nominal() + measure.Inch/2
		}
		return 2*f.nominal() + measure.Inch/4
	case LagScrew:
		return min(f.Length/2+measure.Inch/2, f.Length)
	}
	return 0
}

// nominal returns the diameter a bolt, lag screw or dowel is called by.
func (f Fastener) nominal() measure.Length {
	if f.Metric() {
		return f.metricNominal()
	}
	l, _, _ := scanInches(f.Size)
	return l
}

// Diameter returns the diameter that distances are reckoned by: the nominal one
// of what is called by it, else that of the body.
func (f Fastener) Diameter() measure.Length {
	switch f.Family {
	case CarriageBolt, HexBolt, LagScrew, Structural, Dowel:
		return f.nominal()
	}
	return f.Shank
}

// Hole returns the diameter of the hole a bolt goes through: 1/32 in over the
// bolt, the least that the standard allows; 1 mm over a metric one, the most that
// its standard does and the next bit. It is 0 for what is not a bolt.
//
// Source: AWC NDS 2018, section 12.1.3: 1/32 to 1/16 in over; EN 1995-1-1, 10.4.3
// (memory): no more than 1 mm over.
func (f Fastener) Hole() measure.Length {
	switch {
	case !f.Bolted():
		return 0
	case f.Metric():
		return f.nominal() + mm
	}
	return f.nominal() + measure.Inch/32
}

// inches prints l, a whole number of 1/64 in, as a mixed number: "2 1/2".
func inches(l measure.Length) string {
	const unit = measure.Inch / 64
	n, d := int64(l/unit)%64, int64(64)
	for n%2 == 0 && n > 0 {
		n, d = n/2, d/2
	}
	whole := strconv.FormatInt(int64(l/measure.Inch), 10)
	if n == 0 {
		return whole
	}
	part := strconv.FormatInt(n, 10) + "/" + strconv.FormatInt(d, 10)
	if l < measure.Inch {
		return part
	}
	return whole + " " + part
}
