package examples_test

import (
	"fmt"
	"math"
	"testing"

	"scantling/internal/design"
	"scantling/internal/geom"
	"scantling/internal/measure"
)

func TestHerbPlanter(t *testing.T) {
	d, _ := open(t, "herb-planter.yaml")
	b := build(d, nil)
	if b.Piece == nil {
		t.Fatal("no piece")
	}
	long, short := b.named(t, "long_cap", "front"), b.named(t, "short_cap", "left")
	wall, end, slat := b.row(t, "long_board"), b.row(t, "side_board"), b.row(t, "floor_slat")
	side, tie := b.named(t, "side_board", "left"), b.named(t, "tie")
	low, high := b.hull()
	inches := func(q measure.Quantity) float64 { return q.V / float64(measure.Inch) }
	checkFacts(t, []fact{
		{"cap, long points", long.L / inch, 37.5, 1e-9, byHand + "36 + 2·3/4"},
		{"cap, short points", long.Short / inch, 30.5, 1e-9, byHand + "37.5 − 2·3 1/2: both mitres are 45°"},
		{"short cap, long points", short.L / inch, 17.5, 1e-9, byHand + "16 + 2·3/4"},
		{"short cap, short points", short.Short / inch, 10.5, 1e-9, byHand + "17.5 − 2·3 1/2"},
		{"mitres meet", b.area("cap_mitres"), 3.690214, 1e-6, byHand + "(3/4 · 3 1/2 − 1/8 · 1/8)·√2: the drips meet there too"},
		{"courses", wall.Count.Q.V, 2, 0, byHand + "⌈12 / 7 1/4⌉: 9 of soil, 1/2 above it, a floor of 1 on cleats of 1 1/2"},
		{"whole course", inches(wall.Widths[0]), 7.25, 1e-9, "a 1x8"},
		{"ripped course", inches(wall.Widths[1]), 4.75, 1e-9, byHand + "12 − 7 1/4"},
		{"courses meet round the corner", inches(end.Widths[1]), 4.75, 1e-9, "as the long wall"},
		{"side board", side.L / inch, 14.5, 1e-9, byHand + "16 − 2·3/4: between the long boards"},
		{"floor slats", slat.Count.Q.V, 6, 0, byHand + "⌈(34.5 − 2·3/8 + 3/8) / 5 7/8⌉ = ⌈5.81⌉"},
		{"end slats", inches(slat.Widths[0]), 4.9375, 1e-9, byHand + "(33.75 − 4·5.5 − 5·3/8) / 2"},
		{"tie", tie.L / inch, 14.5, 1e-9, byHand + "16 − 2·3/4"},
		{"length over all", (high.X - low.X) / inch, 37.5, 1e-9, "the cap"},
		{"depth over all", (high.Y - low.Y) / inch, 17.5, 1e-9, "the cap"},
		{"height over all", high.Z / inch, 30, 1e-9, "as asked"},
		{"boards", b.volume("long_board") + b.volume("side_board"), 909, 1e-6, byHand + "12·3/4·(2·36 + 2·14.5)"},
		{"floor and its notches", b.volume("floor_slat"), 436.71875, 1e-6, cutter + "; 4 whole slats of 78.375"},
		{"posts", b.volume("post"), 614.25, 1e-6, byHand + "4·5.25·29.25"},
		{"cap", b.volume("long_cap") + b.volume("short_cap"), 250.320313, 1e-6, byHand + "3/4·3 1/2·2·(34 + 14), less drips of 1/8·1/8·2·(36.875 + 16.875)"},
		{"all the wood", b.volume(""), 2427.414063, 1e-5, cutter + ", less the drips"},
		{"wall screws, pairs", b.pairs("wall_screws"), 16, 0, "two courses on four sides, two posts each"},
	})
	for _, c := range []struct {
		set  design.Settings
		want float64
	}{
		{settingsOf("length", `24"`, "depth", `14"`, "height", `24"`, "soil", `8"`), 1591.906250 - drips(24, 14)},
		{settingsOf("length", `48"`, "depth", `20"`, "height", `34"`, "soil", `11 1/2"`), 3541.531250 - drips(48, 20)},
	} {
		got := build(d, c.set)
		if got.Piece == nil {
			t.Errorf("%v: no piece", c.set)
			continue
		}
		checkFacts(t, []fact{{fmt.Sprint(c.set, " all the wood"), got.volume(""), c.want, 2e-5, cutter}})
	}
	_, front := long.Placed().Extent(geom.Vec{Y: -1})
	if got := front/inch - 8; math.Abs(got-0.75) > 1e-9 {
		t.Errorf("the cap stands %.6f in past the boards, want 0.75: its drip lies in the part that overhangs", got)
	}
}

// drips is the wood of the grooves under the cap: 1/8 by 1/8, their middle 5/16
// in from the outer edge, from mitre to mitre.
func drips(length, depth float64) float64 {
	return 2 * (length + 1.5 - 0.625 + depth + 1.5 - 0.625) / 64
}
