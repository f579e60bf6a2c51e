// Package words says what each region's trade calls a thing, so that a plan
// reads as if it had been written where it is built.
//
// Start at For, which returns the pack of a region; Pack.Say gives its word for
// a concept, Pack.Spell its spelling of a text. Words are never made from one
// another's: a coach bolt is not a coach screw with another name, and a test
// keeps the two apart in every region. What yards stamp on treated lumber is no
// word but a class; package lumber has it.
package words

import (
	"strings"

	"scantling/internal/cite"
	"scantling/internal/region"
)

// A Concept is a thing or a job the trade has a word for.
type Concept uint8

const (
	HalfLap      Concept = iota // two boards crossing, each cut to half
	Dado                        // a groove across the grain, for the end or edge of a board
	Groove                      // one along the grain
	Rabbet                      // a step cut along an edge or end
	Miter                       // two ends cut at half the angle between them
	CarriageBolt                // a round head and a square neck, drawn tight by a nut
	DeckScrew                   // a coated screw for boards outdoors
	LagScrew                    // a thick screw with a hexagon head, turned with a wrench
	CommonNail                  // with a flat head, for construction
	FinishNail                  // with a small head, to be sunk
	Lumber                      // sawn boards as sold
	Yard                        // who sells them
	Hardware                    // who sells bolts and screws
	Apron                       // the board under the edge of a top, between the legs
	Ledge                       // the level board at the back of a gate
	Cap                         // the board that covers the top of a wall, post or box
	StoryStick                  // the stick that carries the marks of a piece
	Layout                      // drawing the lines to cut by
	SharpEdge                   // the line where two faces meet
	RoundOver                   // taking it off to a curve
	TabletopClip                // holds a top and lets it move
	Row                         // boards side by side
	Offcut                      // what is left of a board
	RouterBit                   // what cuts in a router
	Wrench                      // what turns a nut
	Vise                        // what holds a board at the bench
	Sawhorse                    // what a board lies on to be cut
	Color                       // as an example of spelling, and for stains
	conceptsEnd
)

// Concepts returns every concept, in the order above.
func Concepts() []Concept {
	out := make([]Concept, conceptsEnd)
	for i := range out {
		out[i] = Concept(i)
	}
	return out
}

// A Pack is the words of one region. The zero Pack is America's.
type Pack struct{ region region.Region }

// For returns the pack of a region.
func For(r region.Region) Pack { return Pack{r} }

// Region returns whose words these are.
func (p Pack) Region() region.Region { return p.region }

// Say returns the region's word: "carriage bolt" or "coach bolt".
func (p Pack) Say(c Concept) string { return table[c].words[p.region] }

// Many returns the word for several of them; lumber and its like have none, and
// stay as they are.
func (p Pack) Many(c Concept) string {
	one := p.Say(c)
	switch {
	case table[c].mass:
		return one
	case strings.HasSuffix(one, "ch"):
		return one + "es"
	}
	return one + "s"
}

// A returns the word with its article: "an apron", "a rail".
func (p Pack) A(c Concept) string {
	one := p.Say(c)
	switch {
	case table[c].mass:
		return one
	case strings.IndexByte("aeiou", one[0]) >= 0:
		return "an " + one
	}
	return "a " + one
}

// Source returns where the words come from.
func (p Pack) Source(c Concept) cite.Source { return table[c].from }

// fasteners are families as package screw names them, and what they are.
var fasteners = [...]struct {
	family  string
	concept Concept
}{{"carriage bolt", CarriageBolt}, {"lag screw", LagScrew}, {"deck screw", DeckScrew}, {"finish nail", FinishNail}, {"nail", CommonNail}}

// Fastener returns the name of a fastener, given as package screw says it, in
// the region's words: "stainless carriage bolt M8 x 100 mm" is "stainless coach
// bolt M8 x 100 mm". Only the words between finish and size are another's, and
// none in America.
func (p Pack) Fastener(name string) string {
	if p.region == region.America {
		return name
	}
	for _, f := range fasteners {
		first, rest, ok := strings.Cut(name, f.family)
		if whole := ok && (first == "" || strings.HasSuffix(first, " ")) && (rest == "" || rest[0] == ' '); whole && !strings.HasSuffix(first, "box ") {
			return first + p.Say(f.concept) + rest
		}
	}
	return name
}
