// Package setout is setting out: where a board lies, what its ends and cuts are,
// and how a row divides, each from numbers and planes, as pure geometry.
//
// It follows doc/language.md, rules 5 to 25, one function for each quantity that
// can be read by itself: an orientation (Orient, Between), a hold (Hold), an end
// plane (EndAt and its kin, MitreWith), a copy (Move), the division of a row (Divide)
// or a field (LayField), a taper or a snip (TaperPlane, SnipPlane), a cut by size
// (Blank.Recess) or a curve (Blank.RoundEnd, Blank.Arch), a notch (NotchRound) or a
// half lap (HalfLap). Whoever evaluates a design calls
// each when it is asked for, in whatever order the design's own dependencies
// give. When both ends of a bar are known Fit makes its blank, and Blank.Board
// the board.
//
// Lengths are mm as float64 and angles radians; points and planes are in piece
// coordinates (right, back, up; origin on the floor under the middle) unless a
// comment says "board's frame". What cannot be done comes back as a *Fault with
// the numbers a message needs.
package setout

import "scantling/internal/geom"

// parallel is how far two unit directions may differ and still be one, in
// radians: 1e-9 over 10 m is 1e-5 mm.
const parallel = 1e-9

// A Dir is one of the six words for a direction, and for the side of a board
// that looks that way.
type Dir int8

const (
	Left Dir = iota
	Right
	Front
	Back
	Down
	Up
)

// A Room is an origin and three unit axes, square to one another, called right,
// back and up (rule 5). A mirrored room is left-handed: words go by the axes.
type Room struct{ At, Right, Back, Up geom.Vec }

// A Frame is how a bar is turned: which way it runs, where its show face looks,
// and which word each side answers to. Edge = Face × Run points out of the Far
// edge. All three are unit and square to one another.
type Frame struct {
	Run, Edge, Face geom.Vec
	Words           [6]Dir // by board.Side
}

// A Slab is what one hold fixes: the wood lies between N·p = Lo and N·p = Hi,
// mm, where N is the Frame's Edge (across the width) or Face (across the
// thickness).
type Slab struct {
	N      geom.Vec
	Lo, Hi float64
}

// A Bar is a board before its ends are cut: endless (rule 7).
type Bar struct {
	Frame
	Width, Thick Slab
}

// An End is what one end of a bar is cut to: one plane, or two that make a
// point, each facing out of the board. A Loose end knows only which way it looks;
// Fit finds its place from the board's length.
type End struct {
	Planes []geom.Plane
	Loose  bool
	Meets  string // in words, for the cut list: "floor"
}

// A Move carries a written thing to its copy: images of the three unit
// directions and of the origin. It keeps distances, and may mirror.
type Move struct{ X, Y, Z, At geom.Vec }
