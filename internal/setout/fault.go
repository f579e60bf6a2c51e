package setout

import (
	"fmt"

	"scantling/internal/board"
	"scantling/internal/geom"
)

// A FaultKind says what cannot be done.
type FaultKind int8

const (
	Skew       FaultKind = iota // words that do not fit together
	Steep                       // a tilt of 89° or more; Has: radians
	Short                       // rule 11: Has mm between the points, Want at least
	NeedsLevel                  // a leaning side held or read without a level; Has and Want are the two coordinates it could mean, if known
	NoCrossing                  // planes that do not meet
	Unsteady                    // a crossing that is no single number on the axis
	EndHeld                     // a hold on an end
	NotFacing                   // against a side that looks the same way or askew
	NotFlush                    // flush with a side that faces it or askew
	Grazing                     // an end under 10° to the run; Has and Want: radians
	Misses                      // rule 12, to PART: the centre line passes by
	TwoSides                    // rule 12, to PART: two sides met
	NoLength                    // Has: mm left between the ends, zero or negative
	TwoLengths                  // a length and two placed ends; Has: mm
	NoEnd                       // an end with nothing to place it
	TooWide                     // taper: Has mm asked, Want the most
	BeyondEnd                   // taper: Has mm asked, Want the most
	NoStep                      // every: Has mm
	TooMany                     // Count and Want
	NoRow                       // Has: mm of span, Want: mm of one board
	RowEven                     // no even gap within Low … High: Gaps and Counts hold the two nearest
	RowExact                    // boards and gaps leave Has mm over, and nothing says where it goes
	RowNarrow                   // a rip of Has mm is under Want
	RowCrowded                  // Count boards need Want mm, there are Has
	RowCount                    // a count under 1, or none for an open row
	Tongue                      // notch leaves a strip of Has mm, under Want, at Side
	Parted                      // notches part the board into Count
	Enclosed                    // notch with Has mm or more all round (Want: 1/2 in): open: or hole: yes
	Gone                        // nothing is left of the board
)

// A Fault is what cannot be set out, with the numbers a message needs. Lengths
// are mm, angles radians.
type Fault struct {
	Kind      FaultKind
	Has, Want float64
	Low, High float64
	Count     int
	Counts    [2]int
	Gaps      [2]float64
	Side      board.Side
	Cut       string   // the notch's or taper's name
	At        geom.Vec // where, in the piece, when there is a place
}

// Error says the fault in short. Whoever knows the file says it to people.
func (f *Fault) Error() string { return fmt.Sprintf("setting out: fault %d", f.Kind) }
