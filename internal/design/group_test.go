package design

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"scantling/internal/geom"
	"scantling/internal/measure"
	"scantling/internal/setout"
)

// trestle is a group mirrored, with copies of its own, a lap and steps.
const trestle = prelude + `groups:
  trestle:
    copies: [mirror: left-right]
    points: {toe: where 15" in front of middle meets floor, head: where 9" behind middle meets 28" above floor}
    parts:
      leg:
        of: two_by_four
        place: {runs: {from: centre at toe, to: centre at head}, faces: left, left: 20" left of middle}
        ends: {from: floor, to: 28" above floor}
        copies: [{mirror: front-back, call: [fore, aft]}]
      bearer:
        of: two_by_four
        place: {runs: back, faces: left, left: against leg.right, top: 28" above floor}
        ends: {front: 12" in front of middle, back: 12" behind middle}
        cuts: {clear: {notch round: pole, if there: yes}}
    joints:
      crossing: {join: [fore leg, aft leg], with: half lap, keeps left: fore leg, expect: 1}
    steps:
      - {name: Legs, add: [leg], fasten: [crossing], say: "Lapped {crossing.depth} deep."}
      - {name: Bearer, add: [bearer]}
parts:
  pole: {of: two_by_four, place: {runs: right, faces: front, front: 11" in front of middle, top: 25" above floor}, ends: {left: 22" left of middle, right: middle}}
steps:
  - {name: Two trestles, each: trestle, follow: trestle.steps}
  - {name: Stand them up, add: [trestle, pole]}
`

// A copy of a group is its mirror image board by board, but for a notch round what
// stands on one side only; its laps lie on its own outside.
func TestGroupMirrored(t *testing.T) {
	p := evaluate(t, trestle, nil)
	m := setout.Mirror(setout.Piece(), setout.Right, 0)
	var ids []string
	for _, b := range p.Boards {
		ids = append(ids, string(b.ID)+" "+b.Spoken)
		if !strings.HasPrefix(string(b.ID), "trestle/left-right/") {
			continue
		}
		twin := p.Board(b.ID[:len("trestle")] + b.ID[len("trestle/left-right"):])
		if twin == nil || !setout.SamePlace(m.Board(twin.Board), b.Board) {
			t.Errorf("%s is no mirror image of what is written", b.ID)
			continue
		}
		notched := geom.Alike < twin.Wood.Volume-twin.Solid.Volume && geom.Alike > b.Wood.Volume-b.Solid.Volume
		if same := apart(twin.Solid.Volume, b.Solid.Volume); same != (b.Name == "bearer") || b.Name == "bearer" && !notched {
			t.Errorf("%s measures %.0f mm³, and %.0f as written", b.ID, b.Solid.Volume, twin.Solid.Volume)
		}
		if c := b.Solid.Centre.Distance(twin.Solid.Centre); b.Name == "leg" && b.Pose.Out(b.Solid.Centre).X < 0 {
			t.Errorf("%s lies on the left, %g from its twin", b.ID, c)
		}
	}
	slices.Sort(ids)
	want := []string{"pole pole", "trestle/bearer left bearer", "trestle/left-right/bearer right bearer", "trestle/left-right/leg fore right leg",
		"trestle/left-right/leg/front-back aft right leg", "trestle/leg fore left leg", "trestle/leg/front-back aft left leg"}
	if !slices.Equal(ids, want) {
		t.Errorf("boards\n%q, want\n%q", ids, want)
	}
}

// The steps of a group are followed for each copy, and make what is added later.
func TestGroupSteps(t *testing.T) {
	p := evaluate(t, trestle, nil)
	var got []string
	for _, s := range p.Steps {
		got = append(got, fmt.Sprint(s.Each, " ", s.Name, " ", len(s.Add), " ", s.AddMade, " ", s.Makes, " ", s.GoesOn))
	}
	want := []string{"left Legs 2 [] trestle false", "left Bearer 1 [] trestle true", "right Legs 2 [] trestle false", "right Bearer 1 [] trestle true",
		" Stand them up 1 [left trestle right trestle]  false"}
	if !slices.Equal(got, want) {
		t.Errorf("steps\n%q, want\n%q", got, want)
	}
	if n := len(p.Joints); n != 2 || p.Joints[0].Lap == nil || apart(p.Joints[0].Lap.Q.V, 19.05e6) {
		t.Errorf("%d joints: %+v", n, p.Joints)
	}
}

// Goods of a group are wanted once for each copy and use, and come with the group.
func TestGoodsOfGroups(t *testing.T) {
	for _, c := range []struct {
		group, goods string
		want         float64
		dim          measure.Dim
		source       string
	}{
		{"copies: [mirror: left-right]", "felt: {what: felt, amount: 3}", 6, measure.DimNone, "3 for each of two copies"},
		{"copies: [mirror: left-right]", "felt: {what: felt, covers: [shelf.top], plus: 10%}", 2 * 20 * 5.5 * 1.1 * 25.4e6 * 25.4e6, measure.DimArea, "2 · 20 · 5 1/2 sq in and a tenth"},
		{"uses: {low: {at: 20\" left of middle, long: 10\"}, high: {at: 20\" right of middle}}\n    takes: {long: 20\"}", "tape: {what: tape, covers: [shelf.front], sold by: length}", (10 + 20) * 25.4e6, measure.DimLength, "10 and 20 in"},
		{"when: 1 > 2", "felt: {what: felt, amount: 3}", 0, measure.DimNone, "a group that is not there"},
	} {
		long := `20"`
		if strings.Contains(c.group, "takes") {
			long = "long"
		}
		p := evaluate(t, prelude+fmt.Sprintf(`groups:
  box:
    %s
    parts:
      shelf: {of: two_by_six, length: %s, place: {runs: right, faces: up, bottom: floor, middle: 0" behind middle}, ends: {left: 5" right of middle}}
    goods: {%s}
steps: [{name: All, add: [box]}]
`, c.group, long, c.goods), nil)
		got, n := 0.0, 0
		for _, g := range p.Goods {
			if g.Amount.Q.D != c.dim {
				t.Errorf("%s: %s is measured as %v", c.goods, g.Name, g.Amount.Q.D)
			}
			got, n = got+g.Amount.Q.V, n+1
		}
		if n > 1 || math.Abs(got-c.want) > 1e-9*c.want {
			t.Errorf("%s: %d goods, %v in all, want %v (%s)", c.goods, n, got, c.want, c.source)
		}
		if n == 1 && len(p.Steps[0].Goods) != 1 {
			t.Errorf("%s: the step that adds the group brings %v", c.goods, p.Steps[0].Goods)
		}
	}
}
