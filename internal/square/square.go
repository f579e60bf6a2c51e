// Package square finds the frames of a piece, four boards joined at four corners
// or three that leave one side open, and its feet; and says what a tape reads
// across their corners, and what it means when the two readings differ otherwise
// than they should.
//
// # What a difference means
//
// A frame that is not held yet is four stiff bars hinged at their corners 0, 1, 2
// and 3. It can rack in one way only. Hold side 0–1 and turn side 0–3 by a small
// angle φ: corner 3 moves by s = φ·|03|, square to that side, and corner 2 must
// move so that neither 1–2 nor 2–3 changes its length:
//
//	v₃ = φ·n×(C₃ − C₀)    v₂·(C₂ − C₁) = 0    (v₂ − v₃)·(C₂ − C₃) = 0
//
// To first order the diagonals then change by v₂·(C₂ − C₀)/|02| and by
// v₃·(C₃ − C₁)/|13|; how much more the one changes than the other, for each mm of
// s, is Rate. For a rectangle b long and d across v₂ = v₃ = s along b, so that
//
//	difference = 2·s·b / √(b² + d²),   s = difference·√(b² + d²) / (2·b)
//
// which is what the trade's rule of thumb comes from: a frame twice as long as
// wide, or longer, is out of square by about half the difference. Side 0–1 is one
// of the longer sides, so that s is measured across the frame.
//
// Start from Frames and Feet.
package square

import (
	"math"

	"scantling/internal/design"
	"scantling/internal/geom"
)

// A Frame is four corners that lie, nearly, in a plane, in order round it. Side
// 0–1 is one of the longer two.
type Frame struct {
	Boards  []int    // places in Piece.Boards, in order round the frame: four, or three of an open one; or the legs
	Joints  [][2]int // boards fastened to one another that hold it; nil of the legs
	Corners [4]geom.Vec
	Of      [4]int // the board each corner belongs to
	Normal  geom.Vec
}

// Diagonals returns what a tape reads from corner 0 to 2, and from 1 to 3, in mm.
func (f *Frame) Diagonals() (one, other float64) {
	return f.Corners[0].Distance(f.Corners[2]), f.Corners[1].Distance(f.Corners[3])
}

// Across returns how far it is across the frame, along side 0–3, in mm.
func (f *Frame) Across() float64 { return f.flat(3).Distance(f.flat(0)) }

// Area returns the area between the corners, in mm².
func (f *Frame) Area() float64 {
	one, other := f.flat(2).Minus(f.flat(0)), f.flat(3).Minus(f.flat(1))
	return one.Cross(other).Length() / 2
}

// flat is a corner laid into the plane of the frame.
func (f *Frame) flat(i int) geom.Vec {
	c := f.Corners[i]
	return c.Along(f.Normal, -c.Dot(f.Normal))
}

// Rate returns how many mm more the one diagonal changes than the other for each
// mm that corner 3 racks: see the package comment. ok is false of a frame that
// cannot rack, or of one that is no quadrilateral.
func (f *Frame) Rate() (rate float64, ok bool) {
	c := [4]geom.Vec{f.flat(0), f.flat(1), f.flat(2), f.flat(3)}
	v3 := f.Normal.Cross(c[3].Minus(c[0])).Unit()
	// v₂ = v₃ + t·n×(C₂ − C₃), with t so that v₂ is square to C₂ − C₁.
	turn, side := f.Normal.Cross(c[2].Minus(c[3])), c[2].Minus(c[1])
	lever := turn.Dot(side)
	if math.Abs(lever) < geom.Same {
		return 0, false
	}
	v2 := v3.Along(turn, -v3.Dot(side)/lever)
	one, other := c[2].Minus(c[0]), c[3].Minus(c[1])
	rate = v2.Dot(one)/one.Length() - v3.Dot(other)/other.Length()
	return math.Abs(rate), true
}

// lengthwise turns the corners on by one if sides 1–2 and 3–0 are the longer.
func (f *Frame) lengthwise() {
	along := f.flat(0).Distance(f.flat(1)) + f.flat(2).Distance(f.flat(3))
	across := f.flat(1).Distance(f.flat(2)) + f.flat(3).Distance(f.flat(0))
	if across > along+geom.Alike {
		c, o := f.Corners, f.Of
		f.Corners, f.Of = [4]geom.Vec{c[0], c[3], c[2], c[1]}, [4]int{o[0], o[3], o[2], o[1]}
		f.Normal = f.Normal.Negated()
	}
}

// outward is a frame's normal, out of the piece; up where the frame lies level.
func outward(p *design.Piece, of []int, n geom.Vec) geom.Vec {
	if math.Abs(n.Z) > facing {
		if n.Z < 0 {
			return n.Negated()
		}
		return n
	}
	all, here := geom.EmptyBox(), geom.EmptyBox()
	for _, b := range p.Boards {
		if b.Solid != nil {
			all = all.Union(b.Placed().Around())
		}
	}
	for _, i := range of {
		here = here.Union(p.Boards[i].Placed().Around())
	}
	if n.Dot(here.Middle().Minus(all.Middle())) < -geom.Alike {
		return n.Negated()
	}
	return n
}

// outermost is the corner of a board furthest along a way, and of several the
// one furthest along the second.
func outermost(b *design.Board, way, then geom.Vec) geom.Vec {
	corners, _ := b.Solid.Mesh()
	var best geom.Vec
	for i, v := range corners {
		v = b.Pose.Out(v)
		ahead := v.Minus(best).Dot(way)
		if i == 0 || ahead > geom.Alike || ahead > -geom.Alike && v.Minus(best).Dot(then) > geom.Alike {
			best = v
		}
	}
	return best
}
