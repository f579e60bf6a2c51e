package picture

import (
	"math"
	"sort"

	"scantling/internal/board"
	"scantling/internal/drawing"
	"scantling/internal/geom"
	"scantling/internal/shop"
	"scantling/internal/span"
	"scantling/internal/typeset"
)

// part draws a shaped part as it lies on the bench, show face up, and below it
// the edge nearest the eye. Marks run from one end along the near and the far
// edge, and across from the near edge; angles stand at their ends.
func (s *scene) part(p *shop.Part) *drawing.Figure {
	r := s.r.Boards[s.index[p.Master]]
	b := r.Board
	flat := []geom.Placed{{Solid: b.Solid, Pose: geom.Unmoved()}}
	f := &drawing.Figure{Name: "part-" + p.Letter, Title: p.Letter + ", " + p.Name,
		Alt: "Part " + p.Letter + ", " + p.Name + ": its show face, and below it the near edge, with marks from the left end."}
	face := drawing.Top()
	f.Lines = lines(face, flat, true)
	edge := drawing.Front()
	apart := math.Max(b.Solid.Box.High.Z, 25) + 12
	drop := drawing.Place{Y: -b.Solid.Box.High.Z - apart}
	for _, e := range lines(edge, flat, true) {
		e.A.Y += drop.Y
		e.B.Y += drop.Y
		f.Lines = append(f.Lines, e)
	}
	near, far, across := outline(b)
	f.Running = []drawing.Running{s.running(near, drawing.Below, r.From, b.Solid.Box, drop),
		s.running(far, drawing.Above, r.From, b.Solid.Box, drop), s.upright(across, r.From, b.Solid.Box)}
	f.Dims = []drawing.Dim{{From: drawing.Place{X: b.Solid.Box.High.X, Y: drop.Y}, To: drawing.Place{X: b.Solid.Box.High.X, Y: drop.Y + b.Solid.Box.High.Z},
		Side: drawing.RightOf, Text: p.Thick.Text}}
	box := b.Solid.Box
	middle := (box.Low.Y + box.High.Y) / 2
	f.Labels = []drawing.Lettering{{At: drawing.Place{X: (box.Low.X + box.High.X) / 2, Y: middle}, Align: typeset.Centre,
		Text: p.Letter + ": " + p.ShowFace + " up, " + edgeName(b, board.Near) + " nearest"}}
	for end, x := range []float64{box.Low.X, box.High.X} {
		text := b.Sides[end] + " end"
		if cut := p.Ends[end]; cut != nil {
			text += ", " + cut.Setting.Text
		}
		f.Labels = append(f.Labels, drawing.Lettering{At: drawing.Place{X: inside(flat[0], x, middle), Y: middle},
			Align: []typeset.Align{typeset.Left, typeset.Right}[end], Text: text})
	}
	return f
}

// edgeName is what people call an edge of a board in place.
func edgeName(b *board.Board, s board.Side) string { return b.Sides[s] + " edge" }

// inside moves a place on the end of the blank along the grain to the wood.
func inside(p geom.Placed, x, y float64) float64 {
	mid := (p.Box.Low.Z + p.Box.High.Z) / 2
	best, far := x, math.Inf(1)
	for _, run := range p.Through(geom.Vec{Y: y, Z: mid}, geom.Vec{X: 1}) {
		for _, t := range run {
			if math.Abs(t-x) < far {
				best, far = t, math.Abs(t-x)
			}
		}
	}
	return best
}

// outline returns, for the show face, the places along the length of the corners
// on the near edge and on the far edge, and the places across of all corners.
func outline(b *board.Board) (near, far, across []float64) {
	box := b.Solid.Box
	mid := (box.Low.Y + box.High.Y) / 2
	for _, f := range b.Solid.Faces {
		if f.Plane.N.Z < 1-1e-9 || f.Plane.D < box.High.Z-geom.Same {
			continue
		}
		for _, loop := range f.Loops {
			for _, p := range loop {
				if p.Y <= mid {
					near = append(near, p.X)
				} else {
					far = append(far, p.X)
				}
				across = append(across, p.Y)
			}
		}
	}
	return distinct(near), distinct(far), distinct(across)
}

// distinct sorts places and drops those that are alike.
func distinct(xs []float64) []float64 {
	sort.Float64s(xs)
	var out []float64
	for _, x := range xs {
		if len(out) == 0 || x-out[len(out)-1] > geom.Alike {
			out = append(out, x)
		}
	}
	return out
}

// running are the marks along one edge, from the left end of the blank.
func (s *scene) running(xs []float64, side drawing.Side, from span.Set, box geom.Box, drop drawing.Place) drawing.Running {
	y := drop.Y // marks stand below the edge view
	if side == drawing.Above {
		y = box.High.Y
	}
	out := drawing.Running{Datum: drawing.Place{X: box.Low.X, Y: y}, Side: side}
	last := ""
	for _, x := range xs {
		text := s.pen.Length(x-box.Low.X, from).Text
		if x-box.Low.X <= geom.Alike || text == last {
			continue
		}
		last = text
		out.Marks = append(out.Marks, drawing.RunningMark{At: drawing.Place{X: x, Y: y}, Text: text})
	}
	return out
}

// upright are the marks across the board, from the near edge.
func (s *scene) upright(ys []float64, from span.Set, box geom.Box) drawing.Running {
	out := drawing.Running{Datum: drawing.Place{X: box.Low.X, Y: box.Low.Y}, Side: drawing.LeftOf}
	last := ""
	for _, y := range ys {
		text := s.pen.Length(y-box.Low.Y, from).Text
		if y-box.Low.Y <= geom.Alike || text == last {
			continue
		}
		last = text
		out.Marks = append(out.Marks, drawing.RunningMark{At: drawing.Place{X: box.Low.X, Y: y}, Text: text})
	}
	return out
}
