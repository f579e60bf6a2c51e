package setout

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"scantling/internal/board"
	"scantling/internal/geom"
)

// plank returns a blank so long, wide and thick in inches that runs right and
// faces front, with square ends; its lower edge is Near.
func plank(t testing.TB, l, w, th float64) Blank {
	p := Piece()
	b := bar(t, Right, Front, nil, w*inch, th*inch, Down, p.Plane(Down, 0), Front, p.Plane(Front, 0), nil)
	return must[Blank](t)(Fit(b, placed(p.Plane(Left, 0)), placed(p.Plane(Right, l*inch)), 0, nil))
}

// gone returns the wood a blank loses to cuts, in in³, and the board.
func gone(t testing.TB, b Blank, cuts ...board.Cut) (float64, *board.Board) {
	t.Helper()
	made := b.Board(nil, cuts)
	if err := made.Solid.Check(); err != nil {
		t.Fatal(err)
	}
	return (b.Board(nil, nil).Solid.Volume - made.Solid.Volume) / (inch * inch * inch), made
}

// curved fails unless the wood taken along arcs is want in³ by closed form, within
// what chords 0.1 mm off their arcs can differ by: two thirds of that along them.
func curved(t *testing.T, what string, got, want, th float64, cuts ...board.Cut) {
	t.Helper()
	long := 0.0
	for _, c := range cuts {
		for _, a := range c.Arcs {
			long += a.Length() / inch
		}
	}
	near(t, what, got, want, 2.0/3*board.Chord/inch*long*th)
}

func TestRoundEnds(t *testing.T) {
	b := plank(t, 30, 3.5, 0.75)
	for _, c := range []struct {
		what        string
		end         board.Side
		radius      float64 // in
		area, reach float64 // in²; in along the edge
		source      string
	}{
		{"half round", board.Finish, 0, 2*1.75*1.75 - math.Pi*1.75*1.75/2, 1.75, "by hand: 2r² − πr²/2"},
		{"half round at the start", board.Start, 0, 2*1.75*1.75 - math.Pi*1.75*1.75/2, 1.75, "by hand"},
		{"a 2 1/2 radius", board.Finish, 2.5, 3.5*0.714643 - (2.5*2.5*0.775397 - 1.75*1.785357), 0.714643,
			"by hand: 2.5 − √(2.5² − 1.75²) = 0.714643 deep; segment r²·α − 1.75·√(2.5² − 1.75²), α = asin 0.7 = 0.775397"},
	} {
		cut := must[board.Cut](t)(b.RoundEnd("head", c.end, c.radius*inch))
		lost, made := gone(t, b, cut)
		curved(t, c.what+" ("+c.source+")", lost, c.area*0.75, 0.75, cut)
		low, high := made.Solid.Extent(geom.Vec{X: 1})
		near(t, c.what+": as long as before", high-low, 30*inch, 1e-9)
		// Its faces bear one tag.
		for _, f := range made.Solid.Faces {
			if f.Plane.N.X != 0 && math.Abs(f.Plane.N.X) < 1 && f.Tag != board.TagOf(2) {
				t.Errorf("%s: a chord has tag %d", c.what, f.Tag)
			}
		}
		if len(made.Wood.Cells) != 1 {
			t.Errorf("%s: the wood is in %d cells: others could not be notched round it", c.what, len(made.Wood.Cells))
		}
		// The edge is left so long before the curve begins.
		edge := 0.0
		for _, f := range made.Solid.Faces {
			if f.Tag == geom.YHigh {
				for _, v := range f.Loops[0] {
					edge = math.Max(edge, v.X)
					if c.end == board.Start {
						edge = math.Max(edge, 30*inch-v.X)
					}
				}
			}
		}
		if c.end == board.Finish {
			near(t, c.what+": begins", 30-edge/inch, c.reach, 1e-5)
		}
	}
	_, err := b.RoundEnd("head", board.Finish, 1.5*inch)
	near(t, "least", fault(t, "a radius under half the width", err, RadiusSmall).Want/inch, 1.75, 1e-9)
	leg := splayed(t, 30, 10, 0, 4)
	_, err = leg.RoundEnd("head", board.Finish, 0)
	near(t, "slant", fault(t, "a mitred end", err, NotSquare).Has, deg(10), 1e-9)
	_, err = splayed(t, 30, 0, 10, 4).RoundEnd("head", board.Finish, 0)
	fault(t, "a bevelled end", err, NotSquare)
}

func TestRoundCorners(t *testing.T) {
	b := plank(t, 30, 5.5, 1)
	two := must[[]board.Cut](t)(b.RoundCorners("ears", board.Finish, 1.5*inch))
	lost, _ := gone(t, b, two...)
	curved(t, "two quarter rounds (by hand: 2·r²·(1 − π/4))", lost, 2*1.5*1.5*(1-math.Pi/4), 1, two...)
	one := must[board.Cut](t)(b.RoundCorner("ear", board.Start, board.Near, 3*inch))
	lost, made := gone(t, b, one)
	curved(t, "one (by hand: r²·(1 − π/4))", lost, 9*(1-math.Pi/4), 1, one)
	if d := one.Arcs[0].Centre.Distance(geom.Vec{X: 3 * inch, Y: 3 * inch}); d > 1e-9 {
		t.Errorf("centre %v", one.Arcs[0].Centre)
	}
	image := Mirror(Piece(), Right, 0).Board(made)
	if d := image.Cuts[2].Arcs[0].Centre.Distance(geom.Vec{X: 3 * inch, Y: 2.5 * inch}); d > 1e-9 {
		t.Errorf("the image's centre %v: want 3 in along, 2 1/2 from the other edge", image.Cuts[2].Arcs[0].Centre)
	}
	// A mitred end: tangents of r·tan(turn/2); by hand r²·(tan(turn/2) − turn/2).
	leg := splayed(t, 30, 20, 0, 5)
	for edge, turn := range map[board.Side]float64{board.Near: 110, board.Far: 70} {
		c := must[board.Cut](t)(leg.RoundCorner("toe", board.Finish, edge, inch))
		if got := (c.Arcs[0].To - c.Arcs[0].From) * 180 / math.Pi; math.Abs(got-turn) > 1e-9 {
			t.Errorf("edge %d turns by %v°, want %v", edge, got, turn)
			continue
		}
		lost, _ := gone(t, leg, c)
		half := deg(turn / 2)
		curved(t, "a mitred corner", lost, 1.5*(math.Tan(half)-half), 1.5, c)
	}
	_, err := b.RoundCorners("ears", board.Finish, 3*inch)
	near(t, "most", fault(t, "two that meet", err, RadiusLarge).Want/inch, 2.75, 1e-9)
	_, err = b.RoundCorner("ear", board.Finish, board.Near, 6*inch)
	near(t, "most", fault(t, "wider than the board", err, RadiusLarge).Want/inch, 5.5, 1e-9)
	_, err = b.RoundCorner("ear", board.Finish, board.Show, inch)
	fault(t, "a face", err, Skew)
	_, err = b.RoundCorner("ear", board.Finish, board.Far, 0)
	fault(t, "no radius", err, RadiusSmall)
}

func TestArches(t *testing.T) {
	b := plank(t, 40, 5.5, 1.5)
	for _, edge := range []board.Side{board.Near, board.Far} {
		c := must[board.Cut](t)(b.Arch("arch", edge, 5*inch, 5*inch, 2*inch))
		r := c.Arcs[0].Radius / inch
		near(t, "radius (by hand: (15² + 2²)/4)", r, 57.25, 1e-9)
		half := math.Asin(15 / r)
		lost, made := gone(t, b, c)
		curved(t, "arch (by hand: r²·α − c·(r − h)/2)", lost, 1.5*(r*r*half-15*(r-2)), 1.5, c)
		if len(made.Wood.Cells) != 1 {
			t.Error("an arch is not in the wood that others are notched by")
		}
		at := c.Arcs[0].Point((c.Arcs[0].From + c.Arcs[0].To) / 2)
		want := 2 * inch
		if edge == board.Far {
			want = 3.5 * inch
		}
		near(t, "rise", at.Y, want, 1e-9)
	}
	semi := must[board.Cut](t)(b.Arch("arch", board.Near, 15*inch, 15*inch, 5*inch))
	lost, _ := gone(t, b, semi)
	curved(t, "half a circle (by hand: πr²/2)", lost, 1.5*math.Pi*25/2, 1.5, semi)
	for _, c := range []struct {
		what                string
		start, finish, rise float64
		kind                FaultKind
	}{
		{"no span", 20, 20, 1, NoArch}, {"higher than half its span", 17, 17, 4, NoArch},
		{"before the end", -1, 5, 1, NoArch}, {"flat", 5, 5, 0, NoArch}, {"through the board", 5, 5, 5.5, TooDeep},
	} {
		_, err := b.Arch("arch", board.Near, c.start*inch, c.finish*inch, c.rise*inch)
		fault(t, c.what, err, c.kind)
	}
	_, err := b.Arch("arch", board.Show, 5*inch, 5*inch, inch)
	fault(t, "a face", err, Skew)
}

func TestSnips(t *testing.T) {
	b := plank(t, 30, 5.5, 1.5)
	for _, c := range []struct {
		what     string
		at, side board.Side
		area     float64 // in², seen square to the cut
		deep     float64
	}{
		{"toe", board.Start, board.Near, 2 * 3 / 2.0, 1.5},
		{"other toe", board.Finish, board.Far, 2 * 3 / 2.0, 1.5},
		{"face", board.Finish, board.Show, 0.5 * 3 / 2.0, 5.5},
	} {
		across := 2.0
		if c.side.IsFace() {
			across = 0.5
		}
		p := must[geom.Plane](t)(SnipPlane(b.Bar, b.Ends[c.at], c.side, c.at, 3*inch, across*inch))
		lost, made := gone(t, b, b.SnipCut("toe", p, c.at))
		near(t, c.what, lost, c.area*c.deep, 1e-9) // by hand: a triangular prism
		if made.Cuts[2].Side != c.at || !(made.Cuts[2].Plane.N.Dot(c.at.Out()) > 0) {
			t.Errorf("%s: cut %+v", c.what, made.Cuts[2])
		}
	}
	// At a slanting end the corner's triangle has sides along and across/cos.
	leg := splayed(t, 30, 10, 0, 4)
	p := must[geom.Plane](t)(SnipPlane(leg.Bar, leg.Ends[0], board.Near, board.Start, 2*inch, inch))
	lost, _ := gone(t, leg, leg.SnipCut("toe", p, board.Start))
	near(t, "slanting", lost, 1.5*2*1/2, 1e-9) // by hand: its height square to the edge is across
	_, err := SnipPlane(b.Bar, b.Ends[0], board.Near, board.Start, 2*inch, 6*inch)
	fault(t, "wider than the board", err, TooWide)
	_, err = SnipPlane(b.Bar, b.Ends[0], board.Near, board.Start, 0, 2*inch)
	fault(t, "nothing along", err, BeyondEnd)
	_, err = SnipPlane(b.Bar, b.Ends[0], board.Finish, board.Start, inch, inch)
	fault(t, "an end", err, EndHeld)
}

// Whatever curves are sawn, the solid is sound, the mirror image has its volume, and
// its corners lie on the arcs.
func TestCurvesAreSound(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		w := float64(rapid.IntRange(40, 290).Draw(r, "width"))
		l := float64(rapid.IntRange(300, 2000).Draw(r, "length"))
		b := plank(t, l/inch, w/inch, 1)
		end := must[board.Cut](t)(b.RoundEnd("head", board.Finish, w/2*rapid.Float64Range(1, 4).Draw(r, "round")))
		cuts := []board.Cut{end}
		if c, err := b.Arch("arch", board.Near, l/8, l/4, w*rapid.Float64Range(0.02, 0.6).Draw(r, "rise")); err == nil {
			cuts = append(cuts, c)
		}
		made := b.Board(nil, append(cuts, must[[]board.Cut](t)(b.RoundCorners("ears", board.Start, w*rapid.Float64Range(0.05, 0.49).Draw(r, "corner")))...))
		if err := made.Solid.Check(); err != nil {
			r.Fatal(err)
		}
		image := Mirror(Piece(), Up, 0).Board(made)
		if err := image.Solid.Check(); err != nil {
			r.Fatal(err)
		}
		if math.Abs(image.Solid.Volume-made.Solid.Volume) > 1e-11*made.Solid.Volume {
			r.Fatalf("volumes %v and %v", made.Solid.Volume, image.Solid.Volume)
		}
		for i, c := range made.Cuts {
			for _, a := range c.Arcs {
				for _, f := range made.Solid.Faces {
					if f.Tag != board.TagOf(i) {
						continue
					}
					for _, v := range f.Loops[0] {
						if d := v.Distance(geom.Vec{X: a.Centre.X, Y: a.Centre.Y, Z: v.Z}) - a.Radius; d > 1e-6 || d < -board.Chord {
							r.Fatalf("a corner of cut %d lies %v off its arc", i, d)
						}
					}
				}
			}
		}
	})
}
