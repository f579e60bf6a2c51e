package setout

import (
	"math"
	"slices"

	"scantling/internal/board"
	"scantling/internal/geom"
	"scantling/internal/span"
)

// A Lapping asks for a half lap of two boards that cross (rule 21).
type Lapping struct {
	Name  string
	Meets [2]string // what each is lapped with, in words
	From  span.Set
	Keeps geom.Vec // the way the first board's wood stays, in the piece: `keeps front: A`
}

// HalfLap works out the half lap of two boards from their Wood where they lie:
// the region both take up, parted halfway through it. The first keeps its wood
// toward Keeps, the second its wood on the other side. ok is false if they share
// no wood deeper than geom.Touch. Cuts[0] belongs on a, Cuts[1] on b; AddCuts puts
// them there, and a board with two laps takes both. It is worked out for each pair
// of copies: a lap carried to a mirror image could lie on the wrong face.
//
// Wide faces must be parallel; a square section may be lapped on its edges.
//
// Fault: Askew if no faces are parallel; Skew if Keeps runs along them; ShutIn if
// wood stands before the face a lap would open at (Side of the first board, if
// Count is 0, else of the second): the boards then want to keep the other way
// about, or to be moved.
func HalfLap(a, b *board.Board, l Lapping) (cuts [2]board.Cut, ok bool, err error) {
	boards := [2]*board.Board{a, b}
	if a.Wood == nil || b.Wood == nil || len(a.Wood.Cells) != 1 || len(b.Wood.Cells) != 1 {
		return cuts, false, nil
	}
	n, err := lapped(a, b, l.Keeps)
	if err != nil {
		return cuts, false, err
	}
	low, high := a.PlacedWood().Extent(n)
	from, to := b.PlacedWood().Extent(n)
	parting := geom.Plane{N: n, D: (math.Max(low, from) + math.Min(high, to)) / 2} // inside it is a's waste
	var saw geom.Saw
	for i := range boards {
		waste := parting
		if i == 1 {
			waste = parting.Flipped()
		}
		cut, met, err := l.half(&saw, boards[i], boards[1-i], waste)
		if !met || err != nil {
			if f, is := err.(*Fault); is {
				f.Count = i
			}
			return cuts, false, err
		}
		cut.Meets = l.Meets[i]
		cuts[i] = cut
	}
	return cuts, true, nil
}

// half returns the cut of one board: what the other takes up of it inside waste.
func (l Lapping) half(saw *geom.Saw, b, other *board.Board, waste geom.Plane) (board.Cut, bool, error) {
	waste = b.Pose.InPlane(waste)
	planes := []geom.Plane{waste}
	for _, p := range other.Wood.Cells[0].Planes {
		planes = append(planes, b.Pose.InPlane(other.Pose.OutPlane(p)))
	}
	e, ok := crossed(saw, b, planes)
	if !ok {
		return board.Cut{}, false, nil
	}
	side := facing(waste.N.Negated())
	cut := board.Cut{Kind: board.HalfLap, Name: l.Name, From: l.From, Side: side, Low: e.box.Low, High: e.box.High, Depth: e.depth(side)}
	if shut := cut.Depth - math.Abs(e.box.High.Minus(e.box.Low).Dot(side.Out())); shut > geom.Touch {
		return cut, true, &Fault{Kind: ShutIn, Has: shut, Side: side, Cut: l.Name}
	}
	for s := board.Start; s <= board.Show; s++ {
		if s != side && e.reaches(s) {
			cut.Open = append(cut.Open, s)
		}
	}
	cut.Waste = e.walls
	return cut, true, nil
}

// lapped returns the way a keeps its wood: square to the faces in which two
// boards are parallel, wide faces before others.
func lapped(a, b *board.Board, keeps geom.Vec) (geom.Vec, error) {
	least := math.Inf(1)
	for _, m := range lapFaces(a) {
		for _, n := range lapFaces(b) {
			open := m.Cross(n).Length()
			if open > 1e-6 { // a hundredth of a millimetre in 10 m, as in Looks
				least = math.Min(least, open)
				continue
			}
			switch toward := m.Dot(keeps); {
			case math.Abs(toward) < 0.5: // over 60° off
				return m, &Fault{Kind: Skew}
			case toward < 0:
				return m.Negated(), nil
			}
			return m, nil
		}
	}
	return geom.Vec{}, &Fault{Kind: Askew, Has: tipped(least)}
}

// lapFaces returns the ways out of the faces of a board, in the piece, that a lap
// may be cut in: the show face, and the Far edge if it is as wide.
func lapFaces(b *board.Board) []geom.Vec {
	if math.Abs(b.W.MM()-b.T.MM()) <= geom.Touch {
		return []geom.Vec{b.Pose.Z, b.Pose.Y}
	}
	return []geom.Vec{b.Pose.Z}
}

// facing returns the side of a blank that looks most nearly along way.
func facing(way geom.Vec) board.Side {
	sides := []board.Side{board.Start, board.Finish, board.Near, board.Far, board.Under, board.Show}
	return slices.MaxFunc(sides, func(a, b board.Side) int {
		if d := a.Out().Dot(way) - b.Out().Dot(way); d < 0 {
			return -1
		} else if d > 0 {
			return 1
		}
		return 0
	})
}
