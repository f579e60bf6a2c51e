package setout

import (
	"fmt"

	"scantling/internal/board"
	"scantling/internal/geom"
)

// A FaultKind says what cannot be done; the comment says what the numbers of the
// Fault are then.
type FaultKind int8

const (
	Skew        FaultKind = iota // words that do not fit together
	Steep                        // a tilt of Has, Want or more
	Short                        // Has between two points, Want needed
	NeedsLevel                   // a leaning side held or read without a level
	NoCrossing                   // planes that do not meet
	Unsteady                     // a crossing that is no single number on the axis; At
	EndHeld                      // a hold or a taper on Side, an end
	NotFacing                    // against a side that looks the same way, or askew
	NotFlush                     // flush with a side that faces it, or askew
	Grazing                      // end Side lies Has to the run, under Want
	Misses                       // to PART: the centre line passes by
	TwoSides                     // to PART: Side and another are met
	NoLength                     // Has left between the ends along the centre line
	TwoLengths                   // a length, Has, and both ends
	NoEnd                        // an end with nothing to place it
	TooWide                      // taper on Side: Has asked, Want the bar
	BeyondEnd                    // taper on Side: Has from its end, at most Want
	NoStep                       // every: steps of Has over Want
	TooMany                      // Has copies, at most Want; or Count boards at most
	NoRow                        // Has to fill, Want the least that can
	RowEven                      // no even gap within Low … High: Gaps and Counts, the two nearest
	RowExact                     // Count boards leave Has over, and nothing says where it goes
	RowNarrow                    // of Count boards one comes out Has wide, under Want
	RowCrowded                   // Count boards need Want, there is Has
	RowCount                     // Count boards asked of an open row
	Tongue                       // notch Cut leaves a strip Has wide toward Side, under Want
	Parted                       // notches part the board into Count
	Enclosed                     // notch Cut has Has or more all round, at least Want: least at Side
	Gone                         // nothing is left of the board
	NoTuck                       // tucked: each of Runs enters a plane, the least by Has, at At
	TwoTucks                     // tucked: each of Runs enters none
	Apart                        // two faces that should be one plane lie Has apart
	UnlikeThick                  // two boards Has and Want thick
	TwoMates                     // mitre with: Count copies are equally near
	Askew                        // faces that should be parallel open by Has
	ShutIn                       // Side of a lap has Has of wood before it
	Crosses                      // an outline crosses itself at At
	PieceShort                   // piece Count of a field is Has long, under Want
	PieceThin                    // piece Count of a field is Has wide, under Want
	OffBoard                     // a cut by size reaches to Has along or across Side, and there are Want
	TooDeep                      // Has deep in Want of wood
	RadiusSmall                  // a radius of Has, at least Want
	RadiusLarge                  // a radius of Has, at most Want
	NotSquare                    // end Side is to be rounded, and Has off square
	NoArch                       // an arch rises Has over a span of Want
	GapDries                     // a gap of Has once dried, and drying alone opens Want
)

var faultWords = [...]string{"words do not fit together", "too steep", "points too near", "leans: needs a level",
	"planes do not meet", "not one place", "an end cannot be held", "does not face", "is not flush", "grazes the run",
	"passes by", "meets two sides", "no length left", "two lengths", "nothing places an end", "wider than the bar",
	"beyond the end", "no step", "too many", "nothing to fill", "no even gap", "something left over", "too narrow",
	"crowded", "needs a count", "leaves a tongue", "parts the board", "enclosed", "nothing left",
	"fits neither way", "fits two ways", "faces apart", "of two thicknesses", "two as near", "faces askew",
	"a lap closed in", "the outline crosses itself", "a short piece", "a thin piece", "off the board", "too deep",
	"radius too small", "radius too large", "not square", "no arch", "dries wider than that"}

// A Fault is what cannot be set out, with the numbers a message needs: lengths in
// mm, angles in radians. Fields a FaultKind does not name are zero.
type Fault struct {
	Kind      FaultKind
	Has, Want float64
	Low, High float64
	Count     int
	Counts    [2]int // of the gap too wide, and of that too small; 0: there is none
	Gaps      [2]float64
	Aim       float64    // RowEven: the gap aimed at
	Spans     [2]float64 // RowEven: as long as the row must be for those counts to leave it
	Side      board.Side
	Cut       string   // the notch's name
	At        geom.Vec // in the piece
	Runs      []geom.Vec
}

// Error says the fault in short. Whoever knows the file says it to people.
func (f *Fault) Error() string {
	return fmt.Sprintf("setting out: %s (has %g, wants %g)", faultWords[f.Kind], f.Has, f.Want)
}
