package part

import (
	"scantling/internal/board"
	"scantling/internal/geom"
)

// A Symmetry carries a blank onto itself: it turns it over or round, or mirrors
// it. The zero Symmetry leaves it as it lies.
//
// A section whose width is its thickness may also be turned a quarter about its
// length: Quarter exchanges y and z first.
type Symmetry struct {
	Flip    [3]bool // exchange the ends, the edges, the faces
	Quarter bool
}

// IsTurn reports whether s can be done by hand; the others are mirrors.
func (s Symmetry) IsTurn() bool {
	odd := s.Quarter
	for _, f := range s.Flip {
		odd = odd != f
	}
	return !odd
}

// Side returns the side of the second board that the given side of the first
// comes to lie on.
func (s Symmetry) Side(side board.Side) board.Side {
	if s.Quarter && side >= board.Near {
		side = board.Near + (side-board.Near+2)%4
	}
	if s.Flip[side/2] {
		return side.Opposite()
	}
	return side
}

// point carries a point of a blank of the given size.
func (s Symmetry) point(v, size geom.Vec) geom.Vec {
	if s.Quarter {
		v.Y, v.Z = v.Z, v.Y
	}
	if s.Flip[0] {
		v.X = size.X - v.X
	}
	if s.Flip[1] {
		v.Y = size.Y - v.Y
	}
	if s.Flip[2] {
		v.Z = size.Z - v.Z
	}
	return v
}

// way carries a direction.
func (s Symmetry) way(v geom.Vec) geom.Vec { return s.point(v, geom.Vec{}) }

// symmetries returns those of a blank, turns first, the least turned first:
// as it lies, then show face kept, then turned over.
func symmetries(square bool) []Symmetry {
	var turns, mirrors []Symmetry
	for _, quarter := range []bool{false, true} {
		if quarter && !square {
			break
		}
		for _, face := range []bool{false, true} {
			for _, end := range []bool{false, true} {
				for _, edge := range []bool{false, true} {
					s := Symmetry{[3]bool{end, edge, face}, quarter}
					if s.IsTurn() {
						turns = append(turns, s)
					} else {
						mirrors = append(mirrors, s)
					}
				}
			}
		}
	}
	return append(turns, mirrors...)
}
