// Package lumber holds the sizes of softwood lumber as yards sell it: the sale
// name a person asks for ("2x4", "47x100 regularised") and the section he is
// handed (1 1/2 by 3 1/2 in, 45 by 95 mm), which are two different types here
// because taking one for the other is the oldest mistake in the trade.
//
// Start at Lookup, which turns what a person wrote into one Size, or into an
// error that names the sizes it could mean; LookupIn does so for one region.
// Every row says where it comes from.
package lumber

import (
	"scantling/internal/cite"
	"scantling/internal/measure"
	"scantling/internal/region"
)

// A Nominal is the name lumber is sold by, in this package's spelling: "2x4",
// "5/4x6 radius edge". It is a name, never a measure.
type Nominal string

// A Kind is the heading a yard sells a size under.
type Kind string

const (
	Boards     Kind = "board"               // 1 in nominal
	RadiusEdge Kind = "radius edge decking" // 5/4 with rounded edges, sold for decks
	SquareEdge Kind = "square edge board"   // 5/4 with square edges
	Dimension  Kind = "dimension"           // 2 to 4 in nominal
	Timber     Kind = "post and timber"     // 5 in nominal and larger, dressed green
)

// A Size is one row of the catalogue: a sale name and what it measures.
type Size struct {
	Name   Nominal
	Kind   Kind
	Region region.Region // where it is sold so

	// Thick and Wide are the actual section, dressed and dry (at most 19 %
	// moisture; 20 % in Europe, 15 % in Australasia); of Timber, which is dressed
	// green, the section as sold.
	Thick, Wide measure.Length
	// GreenThick and GreenWide are the section dressed green, in Europe the dry
	// one grown wet; equal to the dry one where none is sold green.
	GreenThick, GreenWide measure.Length
	// Radius is how far the long edges are rounded at the mill; 0 is square.
	Radius measure.Length
	From   cite.Source // of the section

	// Lengths are those commonly stocked, shortest first.
	Lengths     []measure.Length
	LengthsFrom cite.Source
}

// A Stock is what a design asks a yard for: a size in a wood, graded and
// treated. T and W are the actual section, thickness first.
type Stock struct {
	Region    region.Region // where it is sold
	Size      Nominal
	T, W      measure.Length
	Radius    measure.Length // of the long edges as milled; 0 is square
	Wood      string         // as package wood spells it
	Grade     string         // as stamped, "No. 2"; "" when none is asked for
	Treatment Treatment
}

// StockOf returns the stock of size s in the given wood, grade and treatment.
func StockOf(s Size, wood, grade string, t Treatment) Stock {
	return Stock{s.Region, s.Name, s.Thick, s.Wide, s.Radius, wood, grade, t}
}

// String returns the stock as a shopping list says it: "2x4 southern pine,
// No. 2, above ground".
func (s Stock) String() string { return s.Of(s.Wood) }

// Of is String with the wood by another name, that of the region's trade:
// "45x95 redwood, C24, use class 3, above ground".
func (s Stock) Of(wood string) string {
	out := string(s.Size) + " " + wood
	if s.Grade != "" {
		out += ", " + s.Grade
	}
	if s.Treatment != Untreated {
		out += ", " + s.Treatment.In(s.Region)
	}
	return out
}
