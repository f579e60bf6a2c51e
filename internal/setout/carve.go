package setout

import (
	"math"
	"slices"

	"scantling/internal/board"
	"scantling/internal/geom"
)

// AddCuts puts notches, and the cuts of laps, on a board and builds its solid again. Ends taken whole
// shorten the blank, and cuts and pose go along. It returns Tongue for wood under
// 1/2 in between two notches, Parted if what is left is in several bodies, Gone if
// nothing is.
func AddCuts(b *board.Board, ns ...Notched) []*Fault {
	var faults []*Fault
	low, high := 0.0, b.L
	cuts := slices.Clone(b.Cuts)
	for _, n := range ns {
		cuts = append(cuts, n.Cuts...)
		if p := n.Ends[0]; p != nil {
			low = math.Max(low, -p.D)
		}
		if p := n.Ends[1]; p != nil {
			high = math.Min(high, p.D)
		}
	}
	if high-low <= geom.Same {
		return []*Fault{{Kind: Gone}}
	}
	b.Cuts = slices.DeleteFunc(cuts, func(c board.Cut) bool { // gone with an end
		return c.Kind.TakesPrism() && (c.High.X <= low || c.Low.X >= high)
	})
	if low > 0 || high < b.L {
		b.Trim(low, high)
		_, _, b.Short, b.EdgeLength = lying(b).reach([2]End{endOf(b, board.Start), endOf(b, board.Finish)})
	}
	b.Build()
	faults = append(faults, tonguesBetween(b)...)
	switch bodies := b.Solid.Bodies; {
	case bodies == 0:
		faults = append(faults, &Fault{Kind: Gone})
	case bodies > 1:
		faults = append(faults, &Fault{Kind: Parted, Count: bodies})
	}
	return faults
}

// lying returns the bar of a board in the board's own frame.
func lying(b *board.Board) Bar {
	f := Frame{Run: geom.Vec{X: 1}, Edge: geom.Vec{Y: 1}, Face: geom.Vec{Z: 1}}
	return Bar{f, Slab{f.Edge, 0, b.W.MM()}, Slab{f.Face, 0, b.T.MM()}}
}

// endOf returns an end of a board in the board's own frame.
func endOf(b *board.Board, s board.Side) End {
	var e End
	for _, c := range b.End(s) {
		e.Planes = append(e.Planes, c.Plane)
	}
	return e
}

// tonguesBetween finds wood under 1/2 in left between two notches.
func tonguesBetween(b *board.Board) []*Fault {
	var out []*Fault
	for i, c := range b.Cuts {
		for _, d := range b.Cuts[:i] {
			if c.Kind != board.Notch || d.Kind != board.Notch {
				continue
			}
			along := math.Max(c.Low.X-d.High.X, d.Low.X-c.High.X)
			across := math.Max(c.Low.Y-d.High.Y, d.Low.Y-c.High.Y)
			if gap := math.Max(along, across); gap > geom.Touch && gap < thinnest-geom.Same && math.Min(along, across) < 0 {
				side := board.Near
				if along > across {
					side = board.Start
				}
				out = append(out, &Fault{Kind: Tongue, Has: gap, Want: thinnest, Side: side, Cut: c.Name})
			}
		}
	}
	return out
}
