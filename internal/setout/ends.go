package setout

import (
	"scantling/internal/board"
	"scantling/internal/geom"
	"scantling/internal/lumber"
	"scantling/internal/measure"
)

// EndAt returns the end plane of a position, a side or any other plane, turned
// to face out of the end (rule 12). end is board.Start or Finish. Fault: Grazing
// if target lies under 10° to the run.
func EndAt(f Frame, end board.Side, target geom.Plane) (geom.Plane, error) {
	panic("setout: to come")
}

// EndClear is EndAt for {to: target, clearance: c}: c mm short of target, square
// to it.
func EndClear(f Frame, end board.Side, target geom.Plane, clearance float64) (geom.Plane, error) {
	panic("setout: to come")
}

// A Reach says which corner of a square end touches the plane it is cut to.
type Reach int8

const (
	Highest Reach = iota // the highest corner touches: nothing stands above
	Lowest               // the lowest touches: nothing hangs below
	Past                 // the corner that gets there last: the end is wholly past it
)

// EndSquare returns the end of {cut: square, highest|lowest|past: target}: square
// to the run, one corner touching target. Fault: Grazing if the run hardly
// crosses target.
func EndSquare(b Bar, end board.Side, reach Reach, target geom.Plane) (geom.Plane, error) {
	panic("setout: to come")
}

// EndTo returns the side of other that b's centre line meets first going out of
// end, and the end plane against it: "to PART". Fault: Misses if the line passes
// by, TwoSides if b's four arrises do not all enter by that side (those that pass
// by apart), Grazing.
func EndTo(b Bar, end board.Side, other Bar) (side board.Side, p geom.Plane, err error) {
	panic("setout: to come")
}

// LooseSquare returns an end square to the run whose place follows from the
// length.
func LooseSquare(f Frame, end board.Side) End { panic("setout: to come") }

// LooseAngled returns an end sawn mitre radians across the show face and bevel
// radians through the thickness, whose place follows from the length:
// {mitre|bevel: angle, long point: side}. mitreLong is the edge that keeps the
// long point of the mitre, bevelLong the face that keeps that of the bevel; the
// one whose angle is 0 is not looked at. Fault: Skew if mitreLong is no edge or
// bevelLong no face; Grazing under 10° to the run.
func LooseAngled(f Frame, end board.Side, mitre float64, mitreLong board.Side, bevel float64, bevelLong board.Side) (End, error) {
	panic("setout: to come")
}

// A Blank is a bar with both ends: what Fit makes. Lengths are mm along the run.
type Blank struct {
	Bar
	Ends  [2]End  // Start, Finish; neither is Loose
	Low   float64 // Run·p of the long point at Start
	L     float64 // long point to long point
	Short float64 // short point to short point; 0 if the ends cross before
	Edge  float64 // along one edge, when the ends are parallel; else 0
}

// Fit finds the ends of a bar (rule 12). Either both ends are placed and length
// is 0, or one is Loose and length (long point to long point) places it, or both
// are and the length is centred on the plane middle. Fault: NoLength if the ends
// leave none, TwoLengths if a length is given and no end is Loose, NoEnd if one is
// Loose without a length or both without a middle.
func Fit(b Bar, start, finish End, length float64, middle *geom.Plane) (Blank, error) {
	panic("setout: to come")
}

// Pose returns the pose of the blank: its corner of Start, Near and Under.
func (b Blank) Pose() geom.Pose { panic("setout: to come") }

// End returns the end plane with the given side, facing out: `leg.top`. An end
// that makes a point gives its first plane.
func (b Blank) End(s board.Side) geom.Plane { panic("setout: to come") }

// Board returns the board of the blank with its end cuts and the given further
// cuts (tapers, in the board's frame), and builds its solids. ID, Part, Spoken,
// LengthIs and the From sets are the caller's to fill in.
func (b Blank) Board(stock *lumber.Stock, t, w measure.Length, cuts []board.Cut) *board.Board {
	panic("setout: to come")
}

// Extent returns how far a finished board reaches toward d of the room: the
// coordinate of `.leftmost`, `.highest` and their kin (rule 13).
func Extent(b *board.Board, room Room, d Dir) float64 { panic("setout: to come") }

// Middle returns the coordinates of `.middle` on d's axis: halfway between the
// blank's extreme points there.
func (b Blank) Middle(room Room, d Dir) float64 { panic("setout: to come") }

// TaperPlane returns the plane of a taper in piece coordinates, facing the waste
// (rule 19): it leaves the sawn side from mm along the side from its corner at end
// at, and reaches the point of the other end's cut that lies wide mm square from
// the opposite side. Corners are read on the show face (a tapered edge) or on the
// Near edge (a tapered face).
//
// It needs the two end planes and the slab of the sawn pair of sides, not the
// board's length, so that others may read it before that is known. Fault: TooWide
// if wide is not within the slab, BeyondEnd if from is negative or leaves no run.
func TaperPlane(b Bar, start, finish End, side, at board.Side, from, wide float64) (geom.Plane, error) {
	panic("setout: to come")
}

// TaperBoth returns the planes of a taper on both sides, Near or Under first:
// symmetrical about the centre line, wide mm between them where the centre line
// meets the other end. from runs from whichever corner lies further in.
func TaperBoth(b Bar, start, finish End, side, at board.Side, from, wide float64) ([2]geom.Plane, error) {
	panic("setout: to come")
}

// TaperCut returns the cut of a taper plane on a blank.
func (b Blank) TaperCut(p geom.Plane, side board.Side, mark board.Mark) board.Cut {
	panic("setout: to come")
}
