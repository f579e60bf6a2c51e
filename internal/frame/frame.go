// Package frame computes how a frame of beams carries its loads: three-
// dimensional, straight beams with shear, springs between points rigidly tied to
// the beams' axes, and springs that only push, where boards bear on one another
// and feet on the ground, or only pull, where a head holds.
//
// Start at New, which factors the stiffness once; Solve then answers load case
// by load case. Which of the one-sided springs act is found by an active-set
// search for every case; a case for which it does not settle is reported as not
// settled, and a frame that can move without resistance as a Mechanism with the
// way it moves, never as a number.
//
// Units: N, mm, MPa, N/mm. A node moves in six ways: along x, y, z in mm and
// about them in radians.
//
// Method: direct stiffness, Timoshenko beams (Przemieniecki, Theory of Matrix
// Structural Analysis, 1968, section 5.6); block pivoting with least-index
// fallback for the one-sided springs (Júdice and Pires, Computers & Operations
// Research 21, 1994).
package frame

import (
	"math"

	"scantling/internal/geom"
)

// A Node is a point of the frame; a held way does not move.
type Node struct {
	At   geom.Vec
	Held [6]bool
}

// Held ways of common supports.
var fixed = [6]bool{true, true, true, true, true, true}

// Fixed returns a node that does not move at all.
func Fixed(at geom.Vec) Node { return Node{at, fixed} }

// A Section is a beam's cross-section: bending 1 moves it along its web
// direction, bending 2 across. A shear area of 0 means stiff in shear.
type Section struct {
	Area, Inertia1, Inertia2, Torsion float64 // mm², mm⁴
	Shear1, Shear2                    float64 // mm²
}

// Rectangle returns the section of a rectangle: height along the web direction,
// width across it, mm. Its shear area is five sixths of the whole; its torsion
// constant
//
//	J = l·s³·(1/3 − 0.21·(s/l)·(1 − s⁴/12l⁴)), l the longer side
//
// Source: Roark's Formulas for Stress and Strain, 7th edition, table 10.1 case 4
// (from memory).
func Rectangle(width, height float64) Section {
	a := width * height
	l, s := math.Max(width, height), math.Min(width, height)
	q := s / l
	return Section{
		Area:     a,
		Inertia1: a * height * height / 12,
		Inertia2: a * width * width / 12,
		Torsion:  l * s * s * s * (1.0/3 - float64(0.21*q*(1-float64(q*q*q*q/12)))),
		Shear1:   a * 5 / 6, Shear2: a * 5 / 6,
	}
}

// ShearStiff returns s without shear deformation, as an Euler–Bernoulli beam.
func (s Section) ShearStiff() Section {
	s.Shear1, s.Shear2 = 0, 0
	return s
}

// A Beam runs straight between two nodes.
type Beam struct {
	From, To int
	Section
	E, G float64  // MPa
	Web  geom.Vec // the direction bending 1 moves it along; made square to the axis
}

// Acts is in which sense a Link carries force.
type Acts uint8

const (
	Both Acts = iota
	Push      // only when its ends close on each other: bearing
	Pull      // only when they part: a head, a nut
)

// Ground stands for what does not move as an end of a Link.
const Ground = -1

// A Link is a spring of stiffness K N/mm in one direction between point At of
// node A and the same point of node B, each tied rigidly to its node. Its stretch
// is how far B's point moves along Way from A's.
type Link struct {
	A, B int
	At   geom.Vec
	Way  geom.Vec // one long, from A toward B
	K    float64
	Acts Acts
	// Follows is one more than the index of the link this one acts with, as
	// friction does with the pressure that makes it; 0: none.
	Follows int
}

// A Load is a force, N, at a point tied rigidly to a node, and a moment, N·mm.
type Load struct {
	Node          int
	At            geom.Vec
	Force, Moment geom.Vec
}

// A Spread is an even load along a beam, N/mm.
type Spread struct {
	Beam  int
	PerMM geom.Vec
}

// A Case is what loads the frame at one time.
type Case struct {
	Name   string
	Loads  []Load
	Spread []Spread
}

// A Model is a frame to be solved.
type Model struct {
	Nodes []Node
	Beams []Beam
	Links []Link
}

// Ends are the forces a beam's ends feel, in the beam's own directions: along
// it, along its web, across, then the moments about them, first at From, then at
// To.
type Ends [12]float64

// A Result is the answer to a case.
type Result struct {
	Moved []float64 // six a node
	Ends  []Ends    // beside Model.Beams
	Force []float64 // beside Model.Links; pull is positive, 0 where the link does not act
	// Settled is false when no set of acting links was found that agrees with
	// itself: then the numbers mean nothing and the answer is "cannot tell".
	Settled bool
	// Mechanism is not nil when the frame can move without resistance under this
	// case; then there are no numbers.
	Mechanism *Mechanism
}

// A Mechanism is a way the frame moves that nothing resists: six numbers a node,
// the greatest shift 1 mm.
type Mechanism struct{ Moved []float64 }

// Most returns the node that shifts farthest and its shift.
func (m *Mechanism) Most() (node int, way geom.Vec) {
	far := -1.0
	for i := 0; i*6 < len(m.Moved); i++ {
		v := geom.Vec{X: m.Moved[i*6], Y: m.Moved[i*6+1], Z: m.Moved[i*6+2]}
		if l := v.Length(); l > far+geom.Same {
			node, way, far = i, v, l
		}
	}
	return node, way
}
