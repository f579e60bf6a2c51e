package setout

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"scantling/internal/board"
	"scantling/internal/geom"
)

// crossedLeg is a leg of fact 21: 2x6, 28 in high, its centre from 20 in before the
// middle at the floor to 6 in behind it at the top. It faces left.
func crossedLeg(t testing.TB) *board.Board {
	t.Helper()
	foot, head := geom.Vec{Y: -20 * inch}, geom.Vec{Y: 6 * inch, Z: 28 * inch}
	f, across, _, err := Between(Piece(), Left, Anchor{Centre: true, At: foot}, Anchor{Centre: true, At: head}, 5.5*inch, nil)
	if err != nil {
		t.Fatal(err)
	}
	b := Bar{f, across, Slab{f.Face, 0, 1.5 * inch}}
	floor := must[geom.Plane](t)(EndAt(f, board.Start, Piece().Plane(Up, 0)))
	top := must[geom.Plane](t)(EndAt(f, board.Finish, Piece().Plane(Up, 28*inch)))
	return must[Blank](t)(Fit(b, placed(floor), placed(top), 0, nil)).Board(nil, nil)
}

// Fact 21: a picnic table's crossed legs.
func TestCrossedLegs(t *testing.T) {
	a := crossedLeg(t)
	b := Mirror(Piece(), Front, 0).Board(a)
	run := a.Pose.X
	for _, c := range []struct {
		what      string
		got, want float64
		source    string
	}{
		{"lean", math.Acos(run.Z) * 180 / math.Pi, 42.879, "by hand: atan(26/28)"},
		{"edge", a.EdgeLength / inch, 38.210, "by hand: √(26² + 28²)"},
		{"offset", (a.L - a.EdgeLength) / inch, 5.107, "by hand: 5.5·26/28"},
		{"long point", a.L / inch, 43.317, "by hand"},
	} {
		near(t, c.what+" ("+c.source+")", c.got, c.want, 5e-4)
	}
	cuts, met, err := HalfLap(a, b, Lapping{Name: "crossing", Keeps: Piece().Way(Left)})
	if err != nil || !met {
		t.Fatal(met, err)
	}
	sin := math.Sin(deg(2 * (90 - 42.8789)))
	for i, leg := range []*board.Board{a, b} {
		c := cuts[i]
		near(t, "depth", c.Depth/inch, 0.75, 1e-9) // half the thickness
		length, offset := lapLength(c)
		near(t, "length along the edge (fact 21: 5.5/sin 85.758°)", length/inch, 5.515, 5e-4)
		near(t, "shoulder off square (fact 21: over 5 1/2)", offset/inch, 0.408, 5e-4)
		if side := leg.Sides[c.Side]; side != []string{"right", "left"}[i] {
			t.Errorf("leg %d is lapped on its %s face: the first keeps left, the second loses it", i, side)
		}
		if !slices.Equal(c.Open, []board.Side{board.Near, board.Far}) {
			t.Errorf("lap %d opens at %v, want both edges", i, c.Open)
		}
		whole := leg.Solid.Volume
		if f := AddCuts(leg, Notched{Cuts: []board.Cut{c}}); len(f) > 0 {
			t.Fatal(f[0])
		}
		if err := leg.Solid.Check(); err != nil {
			t.Fatal(err)
		}
		near(t, "wood taken (fact 22: 0.75·5.5²/sin 85.758°)", (whole-leg.Solid.Volume)/(inch*inch*inch), 0.75*5.5*5.5/sin, 1e-4)
	}
	if _, clash := geom.Overlap(a.Placed(), b.Placed()); clash {
		t.Error("the lapped legs lie in one another")
	}
	cross := 0.0 // the height of the crossing, from the middle of what was taken out
	for i, leg := range []*board.Board{a, b} {
		cross += leg.Pose.Out(cuts[i].Low.Plus(cuts[i].High).Times(0.5)).Z / 2
	}
	near(t, "cross (by hand: 28·20/26)", cross/inch, 21.538, 5e-4)
}

// lapLength returns how long a lap is along the grain, between its two shoulders,
// and how far each runs off square over the width.
func lapLength(c board.Cut) (length, offset float64) {
	var at []float64
	for _, p := range c.Waste {
		if math.Abs(p.N.X) > 0.5 {
			t, _ := p.Hit(geom.Vec{}, geom.Vec{X: 1})
			at = append(at, t)
			offset = math.Abs(p.N.Y/p.N.X) * (c.High.Y - c.Low.Y)
		}
	}
	return math.Abs(at[0] - at[1]), offset
}

// frame returns a stile and a rail whose ends lap at a corner, faces in one plane
// unless the rail is moved back and made thinner, in inches.
func frameCorner(t testing.TB, back, thick float64) (rail, stile *board.Board) {
	t.Helper()
	p := Piece()
	u := bar(t, Up, Front, nil, 3.5*inch, 1.5*inch, Left, p.Plane(Left, 0), Front, p.Plane(Front, 0), nil)
	r := bar(t, Right, Front, nil, 3.5*inch, thick*inch, Up, p.Plane(Up, 40*inch), Front, p.Plane(Front, back*inch), nil)
	stile = must[Blank](t)(Fit(u, placed(p.Plane(Down, 0)), placed(p.Plane(Up, 40*inch)), 0, nil)).Board(nil, nil)
	rail = must[Blank](t)(Fit(r, placed(p.Plane(Left, 0)), placed(p.Plane(Right, 42*inch)), 0, nil)).Board(nil, nil)
	return rail, stile
}

func TestLapDepths(t *testing.T) {
	for _, c := range []struct {
		what        string
		back, thick float64
		keeps       Dir
		rail, stile float64 // depths, in
		source      string
	}{
		{"flush", 0, 1.5, Front, 0.75, 0.75, "by hand: half of 1 1/2"},
		{"flush, the other way", 0, 1.5, Back, 0.75, 0.75, "by hand"},
		{"a thin rail at the back", 0.75, 0.75, Back, 0.375, 0.375, "rule 21: half of the overlap"},
		{"set back 1/2", 0.5, 1.5, Back, 0.5, 0.5, "by hand: they share 1 in"},
	} {
		rail, stile := frameCorner(t, c.back, c.thick)
		cuts, met, err := HalfLap(rail, stile, Lapping{Keeps: Piece().Way(c.keeps)})
		if err != nil || !met {
			t.Errorf("%s: %v %v", c.what, met, err)
			continue
		}
		near(t, c.what+": rail", cuts[0].Depth/inch, c.rail, 1e-9)
		near(t, c.what+": stile ("+c.source+")", cuts[1].Depth/inch, c.stile, 1e-9)
		for i, b := range []*board.Board{rail, stile} {
			whole := b.Solid.Volume
			AddCuts(b, Notched{Cuts: cuts[i : i+1]})
			if err := b.Solid.Check(); err != nil {
				t.Errorf("%s: %v", c.what, err)
			}
			near(t, c.what+": wood taken", (whole-b.Solid.Volume)/(inch*inch*inch), 3.5*3.5*cuts[i].Depth/inch, 1e-9)
		}
		if _, clash := geom.Overlap(rail.Placed(), stile.Placed()); clash {
			t.Errorf("%s: they lie in one another", c.what)
		}
	}
}

func TestLapRefuses(t *testing.T) {
	rail, stile := frameCorner(t, 0.5, 1.5)
	_, _, err := HalfLap(rail, stile, Lapping{Keeps: Piece().Way(Front)})
	f := fault(t, "the rail, set back, keeps its front", err, ShutIn)
	near(t, "wood behind the lap", f.Has/inch, 0.5, 1e-9) // by hand: the rail stands 1/2 in behind the stile
	rail, stile = frameCorner(t, 0, 1.5)
	_, _, err = HalfLap(rail, stile, Lapping{Keeps: Piece().Way(Up)})
	fault(t, "keeps an edge", err, Skew)
	_, _, err = HalfLap(Turn(Piece(), Up, geom.Vec{}, deg(10)).Board(rail), stile, Lapping{Keeps: Piece().Way(Front)})
	near(t, "askew", fault(t, "swung", err, Askew).Has, deg(10), 1e-9)
	if _, met, err := HalfLap(Shift(geom.Vec{Z: 500}).Board(rail), stile, Lapping{Keeps: Piece().Way(Front)}); met || err != nil {
		t.Error("boards that do not cross:", met, err)
	}
	if _, met, err := HalfLap(Shift(geom.Vec{Y: 1.5 * inch}).Board(rail), stile, Lapping{Keeps: Piece().Way(Front)}); met || err != nil {
		t.Error("boards that only touch:", met, err)
	}
}

// Wherever and however two boards of any sections cross, the lap takes half of
// what they share from each, leaves nothing shared, and the mirror images of the
// boards, lapped anew to keep the same way, lie in one another no more (trap 5).
func TestLapsShareTheWood(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		angle := deg(float64(rapid.IntRange(25, 155).Draw(r, "angle")))
		section := func(name string) (w, th float64) {
			return rapid.Float64Range(40, 200).Draw(r, name+" width"), rapid.Float64Range(15, 38).Draw(r, name+" thickness")
		}
		made := func(w, th float64, turn float64) *board.Board {
			p := Piece()
			b := bar(t, Right, Front, nil, w, th, Down, p.Plane(Down, -w/2), Front, p.Plane(Front, 0), nil)
			blank, err := Fit(b, placed(p.Plane(Left, -1000)), placed(p.Plane(Right, 1000)), 0, nil)
			if err != nil {
				r.Fatal(err)
			}
			return Turn(p, Front, geom.Vec{}, turn).Board(blank.Board(nil, nil))
		}
		w, th := section("first")
		v, tv := section("second")
		a, b := made(w, th, 0), made(v, tv, angle)
		if tv > th {
			a, b = b, a
		}
		keeps := Piece().Way(Back) // the front faces are flush, and a is the thicker
		shared, _ := geom.Overlap(a.Placed(), b.Placed())
		cuts, met, err := HalfLap(a, b, Lapping{Keeps: keeps})
		if err != nil || !met {
			r.Fatal(met, err)
		}
		lapped := func(one, other *board.Board, cuts [2]board.Cut) {
			for i, x := range []*board.Board{one, other} {
				whole := x.Solid.Volume
				AddCuts(x, Notched{Cuts: cuts[i : i+1]})
				if err := x.Solid.Check(); err != nil {
					r.Fatal(err)
				}
				if taken := whole - x.Solid.Volume; math.Abs(taken-shared.Volume/2) > 1e-9*shared.Volume+1e-6*whole {
					r.Fatalf("board %d loses %v of %v shared", i, taken, shared.Volume)
				}
			}
			if c, clash := geom.Overlap(one.Placed(), other.Placed()); clash && c.Depth > geom.Touch {
				r.Fatalf("still %v deep in one another", c.Depth)
			}
		}
		m := Mirror(Piece(), Right, 0)
		c, d := m.Board(a), m.Board(b)
		lapped(a, b, cuts)
		cuts, met, err = HalfLap(c, d, Lapping{Keeps: keeps})
		if err != nil || !met {
			r.Fatal(met, err)
		}
		lapped(c, d, cuts)
	})
}
