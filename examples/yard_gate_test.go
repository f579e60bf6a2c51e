package examples_test

import (
	"fmt"
	"math"
	"testing"

	"scantling/internal/board"
	"scantling/internal/design"
	"scantling/internal/geom"
)

func TestYardGate(t *testing.T) {
	d, _ := open(t, "yard-gate.yaml")
	b := build(d, nil)
	if b.Piece == nil {
		t.Fatal("no piece")
	}
	brace, rail, stile := b.named(t, "brace"), b.named(t, "rail", "low"), b.named(t, "hinge_stile")
	picket := b.row(t, "picket")
	low, high := b.hull()
	checkFacts(t, []fact{
		{"leaf", rail.L / inch, 42, 1e-9, byHand + "43 1/4 − 1/2 − 3/4"},
		{"stile", stile.L / inch, 48, 1e-9, "as asked"},
		{"corner to corner", math.Hypot(rail.L, stile.L) / inch, 63.780875, 1e-6, byHand + "√(42² + 48²)"},
		{"brace leans from plumb", degrees(math.Acos(math.Abs(brace.Pose.X.Z))), 36.763394, 1e-5, byHand + "tan φ = (35 − 3.5/cos φ)/41, by halving; the line from corner to corner is 40.5°"},
		{"brace along an edge", brace.EdgeLength / inch, 51.178738, 1e-5, byHand + "41 / cos φ"},
		{"brace, long point", brace.L / inch, 53.793587, 1e-5, byHand + "41 / cos φ + 3.5 tan φ"},
		{"brace, ends", (brace.L - brace.EdgeLength) / inch, 2.614849, 1e-5, byHand + "3.5 tan φ"},
		{"laps", lapDepth(stile) / inch, 0.75, 1e-9, "half of 1 1/2"},
		{"laps meet", b.area("corner_laps"), 17.5, 1e-6, byHand + "3.5² where they are parted, and the two shoulders 2·3.5·3/4 on it"},
		{"pickets", picket.Count.Q.V, 9, 0, byHand + "9 leave (42 − 31.5)/8 = 1.3125; 10 leave 0.778, where a finger is caught"},
		{"picket gap", figure(picket.Gap), 1.3125, 1e-6, byHand + "(42 − 9·3 1/2) / 8"},
		{"frame", b.volume("hinge_stile") + b.volume("latch_stile") + b.volume("rail"), 870.080476, 0.01, cutter + ": 2·233.625 + 2·202.125, less a slot of 1 1/2·(1 1/2·1/2 + π/16)"},
		{"brace", b.volume("brace"), 268.688377, 1e-5, cutter + "; 51.178738·3.5·1.5"},
		{"cap", b.volume("cap"), 63, 1e-6, byHand + "42·2·3/4"},
		{"pickets, heads rounded", b.volume("picket"), 1175.279351, 0.2, byHand + "9 of (50·3.5 − 0.779389)·3/4, less the slot; 0.779389 is what a circle of 2 1/2 leaves of 3 1/2 across, and the chords lie inside it"},
		{"width over all", (high.X - low.X) / inch, 42, 1e-6, "the leaf"},
		{"ground to top", high.Z / inch, 53, 1e-6, byHand + "3 + 48 + 2"},
		{"clear of the ground", low.Z / inch, 3, 1e-9, "as asked"},
		{"corner laps", b.pairs("corner_laps"), 4, 0, "two rails on two stiles"},
		{"picket crossings", b.pairs("picket_screws"), 14, 0, "seven pickets on two rails; at the outer two the stiles lie in front of the rails"},
		{"outer pickets", b.pairs("outer_picket_screws"), 2, 0, "each along its stile"},
		{"brace crossings", b.pairs("brace_screws"), 7, 0, "all but the outer pickets"},
	})
}

// The brace climbs from the lower hinge whichever side the hinges are on.
func TestGateBracePushes(t *testing.T) {
	d, _ := open(t, "yard-gate.yaml")
	for _, side := range []string{"left", "right"} {
		for _, height := range []string{`42"`, `60"`} {
			b := build(d, settingsOf("hinges_at", side, "height", height, "opening", `48"`))
			brace, stile := b.named(t, "brace"), b.named(t, "hinge_stile")
			hinge, _ := extent(stile, geom.Vec{X: 1})
			if (hinge < 0) != (side == "left") {
				t.Errorf("hinges at the %s: their stile stands at x = %.1f mm", side, hinge)
			}
			low, _ := extent(brace, geom.Vec{Z: 1})
			for _, c := range corners(brace) {
				if c.Z < low+geom.Same && math.Signbit(c.X) != math.Signbit(hinge) {
					t.Errorf("hinges %s, %s high: the brace's foot is at x = %.1f mm, on the latch side", side, height, c.X)
				}
			}
		}
	}
}

// corners are the corners of a board's solid, in the piece.
func corners(b *design.Board) (out []geom.Vec) {
	at, _ := b.Solid.Mesh()
	for _, p := range at {
		out = append(out, b.Pose.Out(p))
	}
	return out
}

// lapDepth is the depth of a board's half laps, in mm, all of which must agree.
func lapDepth(b *design.Board) float64 {
	depth := math.NaN()
	for _, c := range b.Cuts {
		if c.Kind != board.HalfLap {
			continue
		}
		if !math.IsNaN(depth) && math.Abs(depth-c.Depth) > geom.Same {
			panic(fmt.Sprint("laps of ", depth, " and ", c.Depth))
		}
		depth = c.Depth
	}
	return depth
}
