package setout

import (
	"scantling/internal/geom"
)

// A Leftover says where what whole boards and gaps leave over goes (rule 23).
type Leftover int8

const (
	Exact   Leftover = iota // unsaid: nothing may be left over
	Even                    // all gaps alike
	RipLast                 // the last board is ripped
	RipBoth                 // the first and the last are ripped alike
	RipAll                  // all are ripped alike
	AtStart                 // space before the first
	AtEnd                   // space after the last
	AtBoth                  // half of it at either end
)

// An Outside says what stands outside the first and the last board.
type Outside int8

const (
	NoGap Outside = iota
	FullGap
	HalfGap
)

// A Row is what rule 23 needs to divide a row. Lengths are mm.
type Row struct {
	Span     float64 // from limit to limit; not looked at when Open
	Open     bool    // only one limit, or `about`: needs Count; the row is as long as it comes out
	Width    float64 // of one board before ripping
	Gap      float64 // the gap, or with Even the gap aimed at
	Least    float64 // rips: narrowest board allowed; Even: smallest gap allowed
	Most     float64 // Even: widest gap allowed; 0: no limit
	Leftover Leftover
	Outside  Outside
	Count    int // 0: to be found
}

// A Division is a row divided. Boards are in order from the start.
type Division struct {
	Boards []Strip
	Gap    float64 // mm between neighbours; 0 for one board
	Start  float64 // mm from the start to the first board
	End    float64 // mm from the last board to the end
	Span   float64 // mm; found when the row is Open
}

// A Strip is one board's place along a row, in mm from the row's start.
type Strip struct{ Lo, Hi float64 }

// Divide divides a row by rule 23. Counts at a threshold are kept by 1e-6 in.
// Fault: NoRow if the span is not positive or holds no board; NoGap… see the
// Kinds RowEven (with the two nearest gaps and their counts), RowExact,
// RowNarrow, RowCrowded, RowCount, TooMany (over 10,000 boards).
func Divide(r Row) (Division, error) { panic("setout: to come") }

// RowLimit returns the coordinate on along's axis of a row's limit that may
// lean: the point nearest inside within the boards' thickness (rule 23). thick is
// the boards' slab across their thickness; start says that the row begins at
// this limit. Fault: Unsteady if the limit is not square to the boards' run.
func RowLimit(room Room, limit geom.Plane, along Dir, thick Slab, start bool) (float64, error) {
	panic("setout: to come")
}

// RowSlab returns the hold across the width of a row's board at strip s of a row
// that starts at a coordinate and goes along. Fault: Skew unless the boards' edges
// are square to along.
func RowSlab(room Room, f Frame, along Dir, start float64, s Strip) (Slab, error) {
	panic("setout: to come")
}
