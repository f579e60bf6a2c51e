package shop

import (
	"math"

	"scantling/internal/board"
	"scantling/internal/geom"
)

// Lying turns the piece as a step says it lies on the bench, whose top is level.
// Left, right, front and back down
// tip it over that way; outside down tips what the step adds onto the side of the
// piece it belongs to, inside down onto the other.
func (r *Readings) Lying(st *Step) geom.Pose {
	quarter := math.Pi / 2
	words := st.Lies
	if words == "outside down" || words == "inside down" {
		words = r.outside(st, words == "inside down") + " down"
	}
	switch words {
	case "top down", "upside down":
		return geom.Turned(geom.Vec{X: 1}, math.Pi)
	case "back down":
		return geom.Turned(geom.Vec{X: 1}, -quarter)
	case "front down":
		return geom.Turned(geom.Vec{X: 1}, quarter)
	case "left down":
		return geom.Turned(geom.Vec{Y: 1}, -quarter)
	case "right down":
		return geom.Turned(geom.Vec{Y: 1}, quarter)
	}
	return geom.Unmoved()
}

// outside is the side of the piece that the boards a step adds lie furthest
// toward, or the opposite one.
func (r *Readings) outside(st *Step, opposite bool) string {
	all, new := geom.EmptyBox(), map[board.ID]bool{}
	for _, id := range st.New {
		new[id] = true
	}
	for _, b := range r.Boards {
		all = all.Union(b.Board.Placed().Around())
	}
	var sum geom.Vec
	for _, b := range r.Boards {
		if new[b.ID] {
			sum = sum.Plus(b.Board.Placed().Middle().Minus(all.Middle()))
		}
	}
	if opposite {
		sum = sum.Negated()
	}
	switch {
	case math.Abs(sum.X) >= math.Abs(sum.Y) && sum.X < 0:
		return "left"
	case math.Abs(sum.X) >= math.Abs(sum.Y):
		return "right"
	case sum.Y < 0:
		return "front"
	}
	return "back"
}
