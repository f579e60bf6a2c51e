package part

import (
	"testing"

	"scantling/internal/board"
	"scantling/internal/design"
	"scantling/internal/geom"
	"scantling/internal/setout"
)

// Boards with curves are told apart as others are: turned over or end for end they
// are one part, mirrored they are hands, and a radius 1/64 in longer is another.
func TestCurvesMakeParts(t *testing.T) {
	f := setout.Frame{Run: geom.Vec{X: 1}, Edge: geom.Vec{Y: 1}, Face: geom.Vec{Z: 1}}
	blank, err := setout.Fit(setout.Bar{Frame: f, Width: setout.Slab{N: f.Edge, Hi: 5.5 * inch}, Thick: setout.Slab{N: f.Face, Hi: 1.5 * inch}},
		setout.End{Planes: []geom.Plane{{N: geom.Vec{X: -1}}}}, setout.End{Planes: []geom.Plane{{N: geom.Vec{X: 1}, D: 30 * inch}}}, 0, nil)
	if err != nil {
		t.Fatal(err)
	}
	cut := func(c board.Cut, err error) board.Cut {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return c
	}
	corner := func(end, edge board.Side, r float64) board.Cut {
		return cut(blank.RoundCorner("", end, edge, r*inch))
	}
	dado := cut(blank.Recess(setout.Recess{Kind: board.Housing, Side: board.Show, Depth: 5, Along: setout.Stretch{From: board.Start, Lo: 50, Hi: 80}, Across: setout.Stretch{Whole: true}}))
	arch := func(edge board.Side) board.Cut { return cut(blank.Arch("", edge, 4*inch, 4*inch, 1.5*inch)) }
	round := func(end board.Side) board.Cut { return cut(blank.RoundEnd("", end, 4*inch)) }
	for _, c := range []struct {
		name string
		a, b []board.Cut
		want []Hand
	}{
		{"any corner", []board.Cut{corner(board.Start, board.Near, 2)}, []board.Cut{corner(board.Finish, board.Near, 2)}, []Hand{None}},
		{"another corner", []board.Cut{corner(board.Start, board.Near, 2)}, []board.Cut{corner(board.Start, board.Far, 2)}, []Hand{None}},
		{"another radius", []board.Cut{corner(board.Start, board.Near, 2)}, []board.Cut{corner(board.Start, board.Near, 2+1./64)}, []Hand{None, None}},
		{"a corner by a dado", []board.Cut{corner(board.Start, board.Near, 2), dado}, []board.Cut{corner(board.Start, board.Far, 2), dado}, []Hand{Left, Right}},
		{"arches", []board.Cut{arch(board.Near)}, []board.Cut{arch(board.Far)}, []Hand{None}},
		{"round ends", []board.Cut{round(board.Start)}, []board.Cut{round(board.Finish)}, []Hand{None}},
	} {
		a, b := stick("a", 30, 5.5, 1.5, c.a...), stick("b", 30, 5.5, 1.5, c.b...)
		parts := Sort(&design.Piece{Boards: []*design.Board{a, b}})
		ok := len(parts) == len(c.want)
		for i := range parts {
			ok = ok && parts[i].Hand == c.want[i]
		}
		if !ok {
			t.Errorf("%s: %d parts, hand %v", c.name, len(parts), parts[0].Hand)
		}
	}
}
