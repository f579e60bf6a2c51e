package setout

import (
	"math"

	"scantling/internal/board"
	"scantling/internal/geom"
)

// An entry is the wood of a board that an obstacle, grown by the clearance,
// takes up; all in the board's frame.
type entry struct {
	b     *board.Board
	wood  geom.Cell    // the board's
	cross geom.Cell    // the wood taken up
	walls []geom.Plane // of the grown obstacle, which bound the crossing within the wood
	box   geom.Box     // round the crossing
}

// enter finds where an obstacle enters a board. ok is false unless it does so by
// more than geom.Touch.
func enter(saw *geom.Saw, b *board.Board, x geom.Placed, clearance float64) (e entry, ok bool) {
	if x.Solid == nil || len(x.Cells) != 1 {
		return e, false
	}
	other := x.Cells[0]
	around := geom.EmptyBox()
	for _, v := range other.Verts {
		around = around.With(b.Pose.In(x.Pose.Out(v)))
	}
	blank := geom.Box{High: geom.Vec{X: b.L, Y: b.W.MM(), Z: b.T.MM()}}
	// Where two sides meet at 10° the grown arris stands 1/sin 5° clearances out.
	if !around.Meets(blank, float64(12*clearance)) {
		return e, false
	}
	touching := map[geom.Tag]bool{} // sides of x that share a contact with b
	if clearance > 0 {
		for _, c := range geom.Contacts(b.PlacedWood(), x) {
			if c.Kind == geom.Area {
				touching[c.B] = true
			}
		}
	}
	planes := make([]geom.Plane, len(other.Planes))
	for i, p := range other.Planes {
		planes[i] = b.Pose.InPlane(x.Pose.OutPlane(p))
		if !touching[other.Tags[i]] {
			planes[i] = planes[i].Shifted(clearance)
		}
	}
	return crossed(saw, b, planes)
}

// crossed finds the wood of a board inside all the planes, which are in the
// board's frame. ok is false unless it is more than geom.Touch thick.
func crossed(saw *geom.Saw, b *board.Board, planes []geom.Plane) (e entry, ok bool) {
	e = entry{b: b, wood: b.Wood.Cells[0]}
	saw.Blank(b.L, b.W.MM(), b.T.MM())
	for i, p := range e.wood.Planes {
		if e.wood.Tags[i] >= geom.FirstCut {
			saw.Keep(p, e.wood.Tags[i])
		}
	}
	firstWall := board.TagOf(len(b.Cuts))
	for _, p := range planes {
		saw.Keep(p, firstWall)
	}
	left := saw.Solid()
	if len(left.Cells) != 1 {
		return e, false
	}
	e.cross, e.box = left.Cells[0], left.Box
	for i, p := range e.cross.Planes {
		if thickness(e.cross.Verts, p.N) <= geom.Touch {
			return e, false
		}
		if e.cross.Tags[i] == firstWall && !e.onSurface(p) {
			e.walls = append(e.walls, p)
		}
	}
	return e, true
}

// thickness returns how thick a convex body is along n.
func thickness(verts []geom.Vec, n geom.Vec) float64 {
	low, high := math.Inf(1), math.Inf(-1)
	for _, v := range verts {
		low, high = math.Min(low, n.Dot(v)), math.Max(high, n.Dot(v))
	}
	return high - low
}

// onSurface reports whether a wall lies in a side of the wood, within
// geom.Touch: there is nothing on its far side.
func (e *entry) onSurface(wall geom.Plane) bool {
	for _, p := range e.wood.Planes {
		if alongside(p.N, wall.N) && p.N.Dot(wall.N) > 0 && math.Abs(p.D-wall.D) <= geom.Touch {
			return true
		}
	}
	return false
}

// reaches reports whether the crossing comes out at a side of the board, a
// tapered or slanted one included.
func (e *entry) reaches(s board.Side) bool {
	for i, p := range e.wood.Planes {
		if e.sideOf(e.wood.Tags[i]) != s {
			continue
		}
		at := 0
		for _, v := range e.cross.Verts {
			if p.Over(v) >= -geom.Touch {
				at++
			}
		}
		if at >= 3 { // an area, not an edge or a corner
			return true
		}
	}
	return false
}

// sideOf returns the side of the board that a face belongs to.
func (e *entry) sideOf(t geom.Tag) board.Side {
	if c := e.b.CutAt(t); c != nil {
		return c.Side
	}
	return board.Side(t)
}

// depth returns how deep the crossing goes in from a side of the blank.
func (e *entry) depth(s board.Side) float64 {
	switch s {
	case board.Start:
		return e.box.High.X
	case board.Finish:
		return e.b.L - e.box.Low.X
	case board.Near:
		return e.box.High.Y
	case board.Far:
		return e.b.W.MM() - e.box.Low.Y
	case board.Under:
		return e.box.High.Z
	}
	return e.b.T.MM() - e.box.Low.Z
}
