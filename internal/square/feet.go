package square

import (
	"math"
	"slices"

	"scantling/internal/design"
	"scantling/internal/geom"
)

// A Foot is boards that stand on the floor close by one another.
type Foot struct {
	Boards []int      // places in Piece.Boards
	Box    geom.Box   // round what touches the floor
	at     []geom.Vec // its corners on the floor, of Boards[of[i]]
	of     []int
}

// Feet returns what a piece stands on, in board order.
func Feet(p *design.Piece) []Foot {
	var out []Foot
	for i, b := range p.Boards {
		if b.Solid == nil {
			continue
		}
		f := Foot{Boards: []int{i}, Box: geom.EmptyBox()}
		corners, _ := b.Solid.Mesh()
		for _, v := range corners {
			if v = b.Pose.Out(v); math.Abs(v.Z) <= geom.Touch {
				f.Box = f.Box.With(v)
				f.at, f.of = append(f.at, v), append(f.of, i)
			}
		}
		if f.at == nil {
			continue
		}
		k := slices.IndexFunc(out, func(o Foot) bool { return o.Box.Meets(f.Box, geom.NearReach) })
		if k < 0 {
			out = append(out, f)
			continue
		}
		o := &out[k]
		o.Boards, o.Box = append(o.Boards, i), o.Box.Union(f.Box)
		o.at, o.of = append(o.at, f.at...), append(o.of, f.of...)
	}
	return out
}

// Stance returns the outline of four feet, one toward each corner of the piece, by
// their outermost corners; false of any others.
func Stance(feet []Foot) (Frame, bool) {
	if len(feet) != 4 {
		return Frame{}, false
	}
	all := geom.EmptyBox()
	for _, f := range feet {
		all = all.Union(f.Box)
	}
	middle := all.Middle()
	f := Frame{Normal: geom.Vec{Z: 1}}
	var taken [4]bool
	for n := range feet {
		at := feet[n].Box.Middle().Minus(middle)
		if math.Abs(at.X) < geom.Alike || math.Abs(at.Y) < geom.Alike {
			return Frame{}, false
		}
		// Round from the first foot: its neighbour along, the opposite one, the last.
		home := feet[0].Box.Middle().Minus(middle)
		k := 0
		switch alike, level := (at.X > 0) == (home.X > 0), (at.Y > 0) == (home.Y > 0); {
		case alike && level:
		case level:
			k = 1
		case !alike:
			k = 2
		default:
			k = 3
		}
		if taken[k] {
			return Frame{}, false
		}
		taken[k] = true
		way := geom.Vec{X: math.Copysign(1, at.X), Y: math.Copysign(1, at.Y)}
		best := 0
		for i, v := range feet[n].at {
			if v.Minus(feet[n].at[best]).Dot(way) > geom.Alike {
				best = i
			}
		}
		f.Corners[k], f.Of[k] = feet[n].at[best], feet[n].of[best]
		f.Boards = append(f.Boards, feet[n].Boards...)
	}
	f.lengthwise()
	_, ok := f.Rate()
	return f, ok
}
