package reach

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"scantling/internal/geom"
	"scantling/internal/measure"
)

const in = 25.4

// Fasteners driven down into a bench top 2 in thick, with a wall so far from the axis
// or a ceiling so far above.
func TestRooms(t *testing.T) {
	tools := Usual()
	top := box(-20*in, -20*in, -2*in, 40*in, 40*in, 2*in)
	wall := func(apart, high float64) geom.Placed { return box(apart*in, -20*in, 0, 1*in, 40*in, high*in) }
	lid := func(high float64) geom.Placed { return box(-20*in, -20*in, high*in, 40*in, 40*in, 1*in) }
	under := func(low float64) geom.Placed { return box(-20*in, -20*in, -(2+low)*in-1*in, 40*in, 40*in, 1*in) }
	screw := Drive{Kind: Screw, Way: geom.Vec{Z: -1}, Long: 2.5 * in, Wood: 2 * in, Round: 4}
	bolt := Drive{Kind: Bolt, Way: geom.Vec{Z: -1}, Long: 2.75 * in, Wood: 2 * in, Round: 11}
	sunk := screw
	sunk.Sunk[0] = 3 * in
	for _, c := range []struct {
		name   string
		drive  Drive
		about  []geom.Placed
		want   Verdict
		tool   string
		needs  float64 // in
		source string
	}{
		{"nothing about", screw, nil, Yes, "drill", 2.5 + 2 + 7.5, "screw, bit and drill"},
		{"a wall as near as the drill is thick", screw, []geom.Placed{wall(1.25, 20)}, Yes, "drill", 12, "2 1/2 in wide"},
		{"a nearer wall", screw, []geom.Placed{wall(1.2, 20)}, Yes, "angle driver", 6.5, "its head is 1 1/4 in wide"},
		{"a near, low wall", screw, []geom.Placed{wall(0.5, 5)}, Yes, "drill with a long bit", 2.5 + 6 + 7.5, "5 in is under 6"},
		{"a wall half an inch off", screw, []geom.Placed{wall(0.5, 20)}, Yes, "drill with a long bit, held askew", 16, "6 sin 8° is 0.84; with 0.5 that clears 1.25"},
		{"a wall a quarter off", screw, []geom.Placed{wall(0.25, 20)}, No, "drill", 12, "0.84 + 0.25 does not clear 1.25"},
		{"a ceiling of 12 in", screw, []geom.Placed{lid(12)}, Yes, "drill", 12, "just"},
		{"a ceiling of 11 in", screw, []geom.Placed{lid(11)}, Yes, "angle driver", 6.5, "4 in and the screw"},
		{"a ceiling of 6 in", screw, []geom.Placed{lid(6)}, No, "drill", 12, "6 is under 6 1/2"},
		{"deep in a counterbore", sunk, nil, Yes, "drill with a long bit", 3 + 7.5, "a 2 in bit does not reach down 3"},
		{"a bolt", bolt, nil, Yes, "ratchet", 2.75, ""},
		{"a nut 2 in over the floor", bolt, []geom.Placed{under(2)}, Yes, "open wrench", 1.25, "a ratchet stands 2 3/4 in high"},
		{"a nut 1 in over the floor", bolt, []geom.Placed{under(1)}, No, "ratchet", 2.75, "a wrench takes 1 1/4 in"},
		{"a bolt that cannot be put in", bolt, []geom.Placed{lid(5)}, No, "hand", 2.75 + 4, "bolt and hand"},
		{"a nail", Drive{Kind: Nail, Way: geom.Vec{Z: -1}, Long: 2 * in, Wood: 2 * in}, []geom.Placed{lid(11)}, No, "hammer", 12, "nail and swing"},
		{"a nail with more room", Drive{Kind: Nail, Way: geom.Vec{Z: -1}, Long: 2 * in, Wood: 2 * in}, []geom.Placed{lid(12)}, Yes, "hammer", 12, "nail and swing"},
	} {
		s := siteOf(append([]geom.Placed{top}, c.about...)...)
		for i := range s.boards {
			s.put(i)
		}
		m := s.room(&c.drive, &tools)
		if m.Clear != c.want || m.Tool != c.tool || math.Abs(m.Needs/in-c.needs) > 1e-9 {
			t.Errorf("%s: %v with %s of %.3f in; want %v with %s of %.3f (%s)", c.name, m.Clear, m.Tool, m.Needs/in, c.want, c.tool, c.needs, c.source)
		}
		if m.Clear != Yes && (len(m.By) == 0 || m.Beside > m.Wide) {
			t.Errorf("%s: in the way is %v, beside %g of %g", c.name, m.By, m.Beside, m.Wide)
		}
	}
}

// Two frames whose screws face one another are each put together before they meet.
func TestPutTogetherFirst(t *testing.T) {
	// Posts and rails of two frames 6 in apart, screwed from between them.
	left, leftRail := box(0, 0, 0, 2*in, 4*in, 20*in), box(2*in, 0, 10*in, 2*in, 4*in, 4*in)
	right, rightRail := box(12*in, 0, 0, 2*in, 4*in, 20*in), box(10*in, 0, 10*in, 2*in, 4*in, 4*in)
	s := siteOf(left, leftRail, right, rightRail)
	tools := Usual()
	r := s.Step(&Step{Items: [][]int{{0}, {1}, {2}, {3}}, Up: up, Drives: []Drive{
		{Boards: [2]int{1, 0}, Kind: Screw, At: geom.Vec{X: 4 * in, Y: 2 * in, Z: 12 * in}, Way: geom.Vec{X: -1}, Long: 3 * in, Wood: 4 * in, Round: 4},
		{Boards: [2]int{3, 2}, Kind: Screw, At: geom.Vec{X: 10 * in, Y: 2 * in, Z: 12 * in}, Way: geom.Vec{X: 1}, Long: 3 * in, Wood: 4 * in, Round: 4},
	}}, &tools)
	if !r.OK() || len(r.Apart) == 0 || len(r.Order) != 4 {
		t.Errorf("%+v: the frames are not put together on their own", r)
	}
}

// A handle is inside the prism that stands for its stroke, wherever it is in it.
func TestSectorHoldsTheHandle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		out := direction(t)
		long := rapid.Float64Range(60, 300).Draw(t, "long")
		k := rapid.IntRange(0, turns-1).Draw(t, "turn")
		c := sector(geom.Vec{}, out, k, long, 5, 40)
		side, left := around(out, k)
		a := rapid.Float64Range(0, stroke).Draw(t, "angle")
		x, y := rapid.Float64Range(0, long).Draw(t, "x"), rapid.Float64Range(-in, in).Draw(t, "y")
		p := out.Times(20).Plus(side.Times(x*math.Cos(a) - y*math.Sin(a))).Plus(left.Times(x*math.Sin(a) + y*math.Cos(a)))
		for _, n := range c.faces {
			if low, high := c.extent(n); p.Dot(n) < low-1e-6 || p.Dot(n) > high+1e-6 {
				t.Fatalf("%v at %g rad lies outside, %g not in %g to %g", p, a, p.Dot(n), low, high)
			}
		}
	})
}

func TestToolsSet(t *testing.T) {
	tools := Usual()
	if err := tools.Set("drill long", 6*measure.Inch); err != nil || tools.DrillLong != 6*measure.Inch {
		t.Error(err, tools.DrillLong)
	}
	for name, c := range map[string]struct {
		l    measure.Length
		says string
	}{"drill": {measure.Inch, "drill long, drill wide"}, "bit": {0, "more than nothing"}, "hand": {100 * measure.Inch, `no more than 60"`}} {
		if err := tools.Set(name, c.l); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v, want it to say %q", name, err, c.says)
		}
	}
}
