package setout

import (
	"scantling/internal/board"
	"scantling/internal/geom"
)

// A Tilt is one lean, slope or swing: "END ANGLE toward DIR" (rule 9).
type Tilt struct {
	End    Dir     // which end moves: Up for top, Down for foot
	Angle  float64 // radians, not negative
	Toward Dir
}

// TiltWord returns the word rule 9 has for a tilt toward d of a board that runs
// so: lean (upright boards), slope (level boards toward up or down) or swing
// (level boards toward a level direction).
func TiltWord(runs, toward Dir) string { panic("setout: to come") }

// Orient returns the orientation of a bar that runs and faces so in a room, with
// no tilt, one, or two (rule 9).
//
//	Run ∝ r + tan α·f + tan β·s,  face normal ∝ f − tan α·r,  edge = face × run
//
// r the run word, f the faces word, s the third; α is the tilt toward or from f,
// β along s, both read square-on in the two views. With onBoard ("measured: on
// the board") β is read on the wide face instead, which is tipped by α: tan β in
// the formula becomes tan β / cos α.
//
// Fault: Skew if faces lies on the run's axis, a tilt's End does not, its Toward
// does, or two tilts go along one axis; Steep unless every angle is under 89°.
func Orient(room Room, runs, faces Dir, tilts []Tilt, onBoard bool) (Frame, error) {
	panic("setout: to come")
}

// Along returns the orientation of a bar that runs parallel to another part's
// run and faces so; its face still holds the third word's line. words names its
// sides: nil takes the nearest words.
func Along(room Room, run geom.Vec, faces Dir, words *[6]Dir) (Frame, error) {
	panic("setout: to come")
}

// An Anchor is "WHAT at P" of rule 11: the centre of the width, or the edge that
// looks toward Edge, passes through At.
type Anchor struct {
	Centre bool
	Edge   Dir
	At     geom.Vec
}

// Between returns the orientation and the hold across the width of a bar run
// between two points, seen square to faces (rule 11), for a bar of the given
// width. words are those read at the default sizes; nil reads them now, and tie
// says that two were equally near. Fault: Short if opposite edges are asked and
// width ≥ |PQ|, or if P and Q are one point.
func Between(room Room, faces Dir, from, to Anchor, width float64, words *[6]Dir) (f Frame, across Slab, tie bool, err error) {
	panic("setout: to come")
}

// Side returns the side that answers to a word.
func (f Frame) Side(word Dir) board.Side { panic("setout: to come") }

// Out returns the unit direction out of a side.
func (f Frame) Out(s board.Side) geom.Vec { panic("setout: to come") }

// Steepness returns the angle between the run and the level, in radians.
func (f Frame) Steepness() float64 { panic("setout: to come") }

// Hold returns the slab of a bar whose side with the given word lies on target:
// `left: P` (rule 10). size is the bar's width for an edge, its thickness for a
// face. at is the level or the side of "at level L", "at SIDE", or nil. A target
// parallel to the side needs none. Otherwise side and target meet where target
// crosses at; if that line is not square to the side, at the point of it on show,
// the bar's own show face (needed only for an edge with two leans).
//
// Fault: EndHeld if word is an end; NeedsLevel if at is missing; NoCrossing.
func Hold(f Frame, word Dir, size float64, target geom.Plane, at, show *geom.Plane) (Slab, error) {
	panic("setout: to come")
}

// HoldMiddle holds the bar's centre on target: across the thickness if
// board.Show or Under is given as across, across the width if Near or Far.
func HoldMiddle(f Frame, across board.Side, size float64, target geom.Plane, at, show *geom.Plane) (Slab, error) {
	panic("setout: to come")
}

// HoldPoint holds one side through a point: each half of `corner: front left at
// POINT`.
func HoldPoint(f Frame, word Dir, size float64, p geom.Vec) (Slab, error) {
	panic("setout: to come")
}

// Looks checks the word before a target: with against the side must face it
// (normals opposed), without (flush with) look the same way. It checks
// directions only; whether they touch is checked on the finished boards. Fault:
// NotFacing, NotFlush.
func Looks(side, target geom.Plane, against bool) error { panic("setout: to come") }

// Plane returns the slab's face toward its N (high) or the other, facing out.
func (s Slab) Plane(high bool) geom.Plane { panic("setout: to come") }

// Middle returns the plane midway, facing N.
func (s Slab) Middle() geom.Plane { panic("setout: to come") }

// Size returns the slab's thickness in mm.
func (s Slab) Size() float64 { return s.Hi - s.Lo }

// SideOf returns the plane of an edge or face of a bar, facing out, from its
// orientation and the one slab that fixes it: Width for edges, Thick for faces.
func SideOf(f Frame, s Slab, side board.Side) geom.Plane { panic("setout: to come") }

// Plane returns the plane of an edge or face, facing out.
func (b Bar) Plane(s board.Side) geom.Plane { panic("setout: to come") }

// Centre returns the point of the bar's centre line nearest to p.
func (b Bar) Centre(p geom.Vec) geom.Vec { panic("setout: to come") }

// Home returns the bar's home point (rule 14): its centre line at the plane of
// its hold's "at level", or, with nil, nearest to the room's origin.
func (b Bar) Home(room Room, at *geom.Plane) geom.Vec { panic("setout: to come") }
