package examples_test

import (
	"fmt"
	"math"
	"testing"

	"scantling/internal/board"
	"scantling/internal/design"
	"scantling/internal/geom"
)

func TestPicnicTable(t *testing.T) {
	d, _ := open(t, "picnic-table.yaml")
	b := build(d, nil)
	if b.Piece == nil {
		t.Fatal("no piece")
	}
	leg := b.named(t, "leg", "left", "front footed")
	bearer, stay := b.named(t, "seat_bearer", "left"), b.named(t, "stay", "left")
	seat := b.named(t, "seat_board", "front", "1st")
	top := b.row(t, "top_board")
	toe, _ := extent(leg, geom.Vec{Y: 1})
	face, _ := extent(leg, geom.Vec{X: 1})
	low, high := b.hull()
	lap := board.Cut{}
	for _, c := range leg.Cuts {
		if c.Kind == board.HalfLap {
			lap = c
		}
	}
	checkFacts(t, []fact{
		{"legs lean", degrees(math.Acos(math.Abs(leg.Pose.X.Z))), 42.878904, 1e-5, byHand + "atan((20 + 6) / 28)"},
		{"leg along an edge", leg.EdgeLength / inch, 38.209946, 1e-5, byHand + "√(28² + 26²)"},
		{"leg, long point", leg.L / inch, 43.317088, 1e-5, byHand + "38.209946 + 5 1/2·26/28"},
		{"toe", -toe / inch, 23.752763, 1e-5, byHand + "20 + 5 1/2 / cos 42.878904° / 2; a table of 102.9 lb tips at 22.9 under two of 250 lb"},
		{"outer faces of the legs", -face / inch, 18.75, 1e-9, byHand + "24 − 5 1/4"},
		{"laps are deep", lap.Depth / inch, 0.75, 1e-9, "half of 1 1/2"},
		{"legs cross", b.area("crossing"), 46.878, 2e-3, cutter + ": the parting face 5 1/2² / sin 85.757808° and four shoulders 3/4 deep"},
		{"top", figure(top.Span), 28.5, 1e-9, byHand + "5·5 1/2 + 4·1/4"},
		{"seat boards", seat.L / inch, 46.5, 1e-9, byHand + "48 − 2·(5 1/4 + 1 1/2 − 6)"},
		{"bearer", bearer.L / inch, 60, 1e-9, byHand + "2·(14 1/4 + 4 1/2 + 2·5 1/2 + 1/4)"},
		{"stays climb", degrees(math.Asin(math.Abs(stay.Pose.X.Z))), 36.253838, 1e-5, byHand + "atan((26 1/2 − 15 1/2) / 15)"},
		{"stay along an edge", stay.EdgeLength / inch, 18.601075, 1e-5, byHand + "√(15² + 11²)"},
		{"leg and its lap", leg.Solid.Volume / (inch * inch * inch), 292.482229, 2e-5, cutter},
		{"bearer and its snips", bearer.Solid.Volume / (inch * inch * inch), 489, 1e-5, byHand + "60·8 1/4 − 2·1 1/2·2·2/2"},
		{"stays", b.volume("stay"), 195.311290, 1e-5, cutter},
		{"cleats", b.volume("cleat") + b.volume("middle_cleat"), 425.25, 1e-5, byHand + "3·27·5 1/4"},
		{"top boards, corners rounded", b.volume("top_board"), 1980 - 4*rounding, 0.1, byHand + "5·48·8 1/4, less 1 1/2·(2² − π) at each of four corners; chords lie inside the circle"},
		{"seat boards, corners rounded", b.volume("seat_board"), 1534.5 - 4*rounding, 0.1, byHand + "4·46 1/2·8 1/4, less the corners"},
		{"length over all", (high.X - low.X) / inch, 48, 1e-6, "the top"},
		{"depth over all", (high.Y - low.Y) / inch, 60, 1e-6, "the bearers"},
		{"height over all", high.Z / inch, 29.5, 1e-6, "as asked"},
		{"top crossings", b.pairs("top_screws"), 15, 0, "five boards on three cleats"},
		{"seat crossings", b.pairs("seat_screws"), 8, 0, "four boards on two bearers"},
		{"bearer bolts", b.pairs("bearer_bolts"), 4, 0, "two legs in two frames"},
	})
	for _, c := range []struct {
		set  design.Settings
		want float64
	}{
		{settingsOf("length", `45"`, "height", `28 1/2"`, "rise", `11 1/2"`, "reach", `3 1/2"`), cutterLow},
		{settingsOf("length", `54"`, "height", `30 1/2"`, "rise", `12 1/2"`), cutterHigh},
	} {
		got := build(d, c.set)
		if got.Piece == nil {
			t.Errorf("%v: no piece", c.set)
			continue
		}
		checkFacts(t, []fact{{fmt.Sprint(c.set, " all the wood"), got.volume(""), c.want - 8*rounding, 0.2, cutter + ", less eight rounded corners"}})
	}
}

// rounding is what a corner of 2 in radius takes off a board 1 1/2 in thick, in
// cubic inches; the other two are all the wood of two tables with square corners.
const (
	rounding   = 1.5 * (4 - math.Pi)
	cutterLow  = 5987.712870
	cutterHigh = 6725.450125
)

// The laps of the two legs of a frame lie in opposite faces, so that the frame
// comes out flush, and those of the right frame mirror those of the left.
func TestPicnicLapsLieOpposite(t *testing.T) {
	d, _ := open(t, "picnic-table.yaml")
	b := build(d, nil)
	for _, side := range []string{"left", "right"} {
		for foot, outward := range map[string]float64{"front footed": -1, "back footed": 1} {
			leg := b.named(t, "leg", side, foot)
			for _, c := range leg.Cuts {
				if c.Kind != board.HalfLap {
					continue
				}
				open := leg.Pose.OutWay(c.Side.Out()).X // the way the lap is open
				if side == "left" {
					open = -open
				}
				if open*outward < 0.999 {
					t.Errorf("%s: its lap is open toward x = %g", leg.Spoken, open)
				}
			}
		}
	}
}
