package design

import (
	"fmt"
	"math"
	"testing"
)

const fixed = prelude + `parts:
  post: {of: two_by_four, length: 40", place: {runs: up, faces: front, front: middle, left: 20" left of middle}, ends: {bottom: floor}, copies: [mirror: left-right]}
groups:
  lid:
    copies: [mirror: front-back]
    parts:
      slab: {of: one_by_six, length: 24", place: {runs: right, faces: up, bottom: 45" above floor, front: 12" in front of middle}}
    hardware:
      handle: {what: chest handle 6 in, fixed to: slab.top, at: {right: 2" in from slab.right}, box: {along: right 6", across: back 2", thick: 1"}, with: screw 8 x 3/4, each: 4}
    steps: [{name: Lid, add: [slab, handle]}]
hardware:
  hinge: {what: strap hinge 10 in, fixed to: post.front, at: {middle: [10" above floor, 30" above floor]}, box: {along: up 2", across: right 3", thick: 1/4"}}
  base_pad: {what: foot pad, fixed to: post.bottom, box: {along: right 1", across: back 1", thick: 0.1"}}
  rope: {what: rope, count: 3}
goods:
  felt: {what: felt, covers: [lid.slab.bottom, post.front], plus: 10%}
  tape: {what: tape, covers: lid.slab.bottom, sold by: length}
  oil: {what: oil, amount: 20 sq in, plus: 50%}
steps:
  - {name: Lids, each: lid, follow: lid.steps}
  - {name: All, add: [post, lid, hinge, base_pad, rope, felt, tape, oil]}
`

// Hardware lies where its holds say, on the side it is fixed to, in every copy of its
// group. Middles and sizes are worked by hand, in inches.
func TestHardwareInPlace(t *testing.T) {
	p := evaluate(t, fixed, nil)
	want := []struct {
		name  string
		count float64
		on    string
		boxes string
	}{
		{"handle", 1, "[lid/slab]", "7.00 -9.25 45.75"},                                                                 // 12 − 2 − 6/2; 12 − 5.5/2
		{"handle", 1, "[lid/front-back/slab]", "7.00 9.25 45.75"},                                                       // the mirror's image
		{"hinge", 4, "[post post/left-right]", "-18.25 0.00 10.00 -18.25 0.00 30.00 18.25 0.00 10.00 18.25 0.00 30.00"}, // 20 − 3.5/2
		{"base_pad", 2, "[post post/left-right]", "-18.25 0.75 0.00 18.25 0.75 0.00"},
		{"rope", 3, "[]", ""},
	}
	if len(p.Hardware) != len(want) {
		t.Fatalf("%d things, want %d", len(p.Hardware), len(want))
	}
	for i, h := range p.Hardware {
		w := want[i]
		boxes := ""
		for _, b := range h.Boxes {
			if boxes != "" {
				boxes += " "
			}
			boxes += fmt.Sprintf("%.2f %.2f %.2f", b.At.At.X/25.4+1e-9, b.At.At.Y/25.4+1e-9, b.At.At.Z/25.4+1e-9)
			if x := b.At.X.Cross(b.At.Y).Distance(b.At.Z); x > 1e-9 {
				t.Errorf("%s lies in no right-handed frame: off by %g", h.Name, x)
			}
			if v := b.Placed().Volume; math.Abs(v-b.Size.X*b.Size.Y*b.Size.Z) > 1e-6 {
				t.Errorf("%s has a volume of %g mm³", h.Name, v)
			}
		}
		if h.Name != w.name || h.Count.Q.V != w.count || fmt.Sprint(h.Fixed) != w.on || boxes != w.boxes {
			t.Errorf("%s: %g on %v at %s, want %v", h.Name, h.Count.Q.V, h.Fixed, boxes, w)
		}
	}
	if e := p.Hardware[0].Each; e != 4 {
		t.Errorf("a handle takes %d screws, want 4", e)
	}
}

// Goods are as much as they cover, and the waste.
func TestGoods(t *testing.T) {
	p := evaluate(t, fixed, nil)
	const inch = 25.4e6
	for i, want := range []float64{
		1.1 * (2*24*5.5 + 2*40*3.5) * inch * inch, // two lids and two posts, and a tenth
		2 * 24 * inch,
		30 * inch * inch,
	} {
		if g := p.Goods[i]; math.Abs(g.Amount.Q.V-want) > 1e-6*want {
			t.Errorf("%s: %g, want %g", g.Name, g.Amount.Q.V, want)
		}
	}
}
