package picture

import (
	"math"
	"sort"

	"scantling/internal/board"
	"scantling/internal/drawing"
	"scantling/internal/geom"
	"scantling/internal/shop"
	"scantling/internal/span"
	"scantling/internal/steady"
	"scantling/internal/typeset"
)

// part draws a shaped part as it lies on the bench, show face up, and below it
// the edge nearest the eye, with the holes drilled in them. Marks run from one end along the near and the far
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
	var bored []float64 // centres of the holes in the face
	for _, h := range b.Holes {
		if h.When != board.Bench || h.Kind == board.Countersink {
			continue
		}
		switch {
		case math.Abs(h.Way.Z) > 0.9: // through the show face, or from under it
			f.Lines = append(f.Lines, bore(drawing.Place{X: h.At.X, Y: h.At.Y}, h.Diameter/2, h.Way.Z < 0 || h.Depth == 0)...)
			if h.When == board.Bench { // what is drilled with its mate is marked there
				bored, across = append(bored, h.At.X), append(across, h.At.Y)
			}
		case math.Abs(h.Way.Y) > 0.9:
			f.Lines = append(f.Lines, bore(drawing.Place{X: h.At.X, Y: h.At.Z + drop.Y}, h.Diameter/2, h.Way.Y > 0 || h.Depth == 0)...)
			if h.When == board.Bench {
				near = append(near, h.At.X)
			}
		}
	}
	near, far, across = distinct(near), distinct(far), distinct(across)
	f.Running = []drawing.Running{s.running(near, drawing.Below, r.From, b.Solid.Box, drop),
		s.running(far, drawing.Above, r.From, b.Solid.Box, drop), s.upright(across, r.From, b.Solid.Box)}
	if bored = distinct(bored); len(bored) > 0 {
		f.Running = append(f.Running, s.running(bored, drawing.Above, r.From, b.Solid.Box, drop))
	}
	f.Dims = []drawing.Dim{{From: drawing.Place{X: b.Solid.Box.High.X, Y: drop.Y}, To: drawing.Place{X: b.Solid.Box.High.X, Y: drop.Y + b.Solid.Box.High.Z},
		Side: drawing.RightOf, Text: p.Thick.Text}}
	box := b.Solid.Box
	middle := (box.Low.Y + box.High.Y) / 2
	f.Labels = []drawing.Lettering{{At: drawing.Place{X: (box.Low.X + box.High.X) / 2, Y: middle}, Align: typeset.Centre,
		Text: p.Letter + ": " + p.ShowFace + " up, " + edgeName(b, board.Near) + " nearest"}}
	// On a short wide part with slanted ends what is said of them stands under and over the rest.
	stagger := (p.Ends[0] != nil || p.Ends[1] != nil) && inside(flat[0], box.High.X, middle)-inside(flat[0], box.Low.X, middle) < shortPart && box.High.Y-box.Low.Y > widePart
	for end, x := range []float64{box.Low.X, box.High.X} {
		text := b.Sides[end] + " end"
		if cut := p.Ends[end]; cut != nil {
			text += ", " + cut.Setting.Text
		}
		at := float64(middle)
		if stagger {
			at += float64([]float64{-0.25, 0.25}[end] * (box.High.Y - box.Low.Y))
		}
		f.Labels = append(f.Labels, drawing.Lettering{At: drawing.Place{X: inside(flat[0], x, at), Y: at},
			Align: []typeset.Align{typeset.Left, typeset.Right}[end], Text: text})
	}
	return f
}

// A part shorter than this along its middle, in mm, has no room for three words in a
// line, and one wider than the other has room for three lines.
const (
	shortPart = 700.0
	widePart  = 90.0
)

// bore draws a hole seen along its axis: its circle, dashed when it is drilled from
// behind, and a cross through its centre.
func bore(at drawing.Place, radius float64, seen bool) []drawing.Edge {
	const corners = 24
	line := drawing.Edge{Weight: drawing.Narrow}
	if !seen {
		line.Weight, line.Dash = drawing.Hair, drawing.Hidden
	}
	on := func(i int) drawing.Place {
		t := 2 * math.Pi * float64(i%corners) / corners
		return drawing.Place{X: at.X + float64(radius*steady.Cos(t)), Y: at.Y + float64(radius*steady.Sin(t))}
	}
	var out []drawing.Edge
	for i := range corners {
		line.A, line.B = on(i), on(i+1)
		out = append(out, line)
	}
	arm := float64(1.8 * radius)
	return append(out,
		drawing.Edge{A: drawing.Place{X: at.X - arm, Y: at.Y}, B: drawing.Place{X: at.X + arm, Y: at.Y}, Weight: drawing.Hair},
		drawing.Edge{A: drawing.Place{X: at.X, Y: at.Y - arm}, B: drawing.Place{X: at.X, Y: at.Y + arm}, Weight: drawing.Hair})
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
// on the near edge and on the far edge, and the places across of all corners. Of a
// curve, which is chords in the solid, its ends count and its middle, not its chords.
func outline(b *board.Board) (near, far, across []float64) {
	box := b.Solid.Box
	mid := (box.Low.Y + box.High.Y) / 2
	for _, f := range b.Solid.Faces {
		if f.Plane.N.Z < 1-1e-9 || f.Plane.D < box.High.Z-geom.Same {
			continue
		}
		for _, loop := range f.Loops {
			for _, p := range loop {
				if alongCurve(b, p) {
					continue
				}
				if p.Y <= mid {
					near = append(near, p.X)
				} else {
					far = append(far, p.X)
				}
				across = append(across, p.Y)
			}
		}
	}
	return near, far, across
}

// alongCurve reports whether a corner of the solid is one between two chords of a
// curve, and not its middle.
func alongCurve(b *board.Board, p geom.Vec) bool {
	for _, c := range b.Cuts {
		for _, a := range c.Arcs {
			p.Z = a.Centre.Z
			if math.Abs(p.Distance(a.Centre)-a.Radius) > geom.Touch {
				continue
			}
			middle := p.Distance(a.Point((a.From+a.To)/2)) <= geom.Touch && c.Kind != board.RoundCorner
			if off := p.Minus(a.Centre).Unit(); !middle && off.Dot(a.Point((a.From+a.To)/2).Minus(a.Centre).Unit()) > steady.Cos((a.To-a.From)/2)+1e-6 {
				return true
			}
		}
	}
	return false
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
