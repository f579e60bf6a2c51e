package picture

import (
	"math"
	"slices"
	"testing"

	"scantling/internal/board"
	"scantling/internal/geom"
	"scantling/internal/measure"
)

// A half round end of a board 30 × 5 1/2 in is dimensioned by where its curve begins
// and where it is longest, not by the chords it is in the solid.
func TestCurvesAreMarkedByTheirEnds(t *testing.T) {
	const inch = 25.4
	b := &board.Board{L: 30 * inch, W: 5*measure.Inch + measure.Inch/2, T: measure.Inch, Pose: geom.Unmoved()}
	arc := board.Arc{Centre: geom.Vec{X: 27.25 * inch, Y: 2.75 * inch}, Radius: 2.75 * inch, From: -math.Pi / 2, To: math.Pi / 2}
	b.Cuts = []board.Cut{{Kind: board.RoundEnd, Side: board.Finish, Plane: geom.Plane{N: geom.Vec{X: 1}, D: 30 * inch}, Arcs: []board.Arc{arc}}}
	b.Build()
	near, far, across := outline(b)
	for _, c := range []struct {
		got  []float64
		want []float64 // inches
	}{
		{append(near, far...), []float64{0, 27.25, 30}},
		{across, []float64{0, 2.75, 5.5}},
	} {
		if !slices.EqualFunc(distinct(c.got), c.want, func(a, b float64) bool { return math.Abs(a-b*inch) < 1e-6 }) {
			t.Errorf("marks at %v mm, want %v in (by hand)", distinct(c.got), c.want)
		}
	}
}
