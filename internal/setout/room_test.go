package setout

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"scantling/internal/board"
	"scantling/internal/geom"
)

func TestWords(t *testing.T) {
	for i := Left; i <= Up; i++ {
		d, ok := ParseDir(i.String())
		s, ok2 := ParseSide(i.Side())
		if !ok || !ok2 || d != i || s != i || i.Opposite().Opposite() != i || i.Axis() != i.Opposite().Axis() {
			t.Errorf("%v does not read back", i)
		}
		if got := Piece().Way(i).Dot(geom.Vec{X: 1, Y: 2, Z: 3}); got != i.Sign()*float64(i.Axis()+1) {
			t.Errorf("%v looks along %v", i, Piece().Way(i))
		}
	}
	if _, ok := ParseDir("top"); ok {
		t.Error("top is a side, not a direction")
	}
	for _, c := range []struct {
		runs, toward Dir
		want         string
	}{{Up, Left, "lean"}, {Back, Down, "slope"}, {Right, Back, "swing"}} {
		if got := TiltWord(c.runs, c.toward); got != c.want {
			t.Errorf("runs %v toward %v: %s, want %s (rule 9)", c.runs, c.toward, got, c.want)
		}
	}
}

// Fact 25: the drop of a seat 17 in high at the front and 16 behind, over 17 in,
// and what a rake of 15° makes of it.
func TestSeatRoom(t *testing.T) {
	drop := math.Atan(1.0 / 17)
	front := geom.Vec{Y: -17 * inch, Z: 17 * inch}
	seat := must[Room](t)(TiltedRoom(Piece(), Up, front, []Tilt{{Back, drop, Down}}))
	near(t, "drop, degrees", drop*180/math.Pi, 3.37, 5e-3)
	near(t, "at the back", seat.Point(0, 17*inch/math.Cos(drop), 0).Z/inch, 16, 1e-9)
	if seat.Right != (geom.Vec{X: 1}) {
		t.Error("a seat that tips back keeps its right")
	}
	// Up of the seat is square to it, and a board that stands in it says so.
	b := must[Frame](t)(Orient(seat, Up, Front, nil, false))
	near(t, "leaning back", math.Acos(b.Run.Z), drop, 1e-12)

	// The plane of a back raked 15°: its angle with the seat opens to 101.6°.
	post := must[Frame](t)(Orient(Piece(), Up, Left, []Tilt{{Up, deg(15), Back}}, false))
	slab := Slab{post.Edge, 0, 3.5 * inch}
	side := SideOf(slab, post.Side(Front))
	zero := seat.Plane(Up, 0)
	back, faces, err := SideRoom(Piece(), side, &zero)
	if err != nil || faces != Front {
		t.Fatalf("faces %v, %v", faces, err)
	}
	near(t, "seat to back, degrees", math.Acos(back.Up.Dot(seat.Way(Front)))*180/math.Pi, 101.63, 5e-3) // by hand: 90 + 15 − 3.37
	near(t, "on the side", side.Over(back.At), 0, 1e-9)
	near(t, "where it crosses the seat", zero.Over(back.At), 0, 1e-9)
	near(t, "in the middle", back.At.X, 0, 1e-12)
	near(t, "faces the side's way", back.Way(Front).Distance(side.N), 0, 1e-12)
	// By hand: a 20-in back at 15° stands 20·sin 15° = 5.18 behind its foot.
	near(t, "top of the back", (back.Point(0, 0, 20*inch).Y-back.At.Y)/inch, 5.176, 5e-4)

	_, err = TiltedRoom(Piece(), Up, front, []Tilt{{Up, 0.1, Down}})
	fault(t, "an end on the axis faced", err, Skew)
	_, err = TiltedRoom(Piece(), Up, front, []Tilt{{Back, 0.1, Left}})
	fault(t, "toward nowhere", err, Skew)
	_, _, err = SideRoom(Piece(), side, &geom.Plane{N: side.N, D: 3})
	fault(t, "zero along the side", err, NoCrossing)
}

// A straight leg raked like the back stands with its foot ahead of it (fact 25).
func TestStraightRakedLeg(t *testing.T) {
	for _, c := range []struct{ rake, ahead, behind float64 }{{8, 2.25, 2.78}, {15, 4.29, 5.18}, {20, 5.82, 6.84}} {
		f := must[Frame](t)(Orient(Piece(), Up, Left, []Tilt{{Up, deg(c.rake), Back}}, false))
		at := Piece().Plane(Up, 16*inch)
		s := must[Slab](t)(Hold(f, Front, 3.5*inch, Piece().Plane(Front, 0), &at, nil))
		front := SideOf(s, f.Side(Front))
		foot := must[float64](t)(Piece().ReadAt(front, Piece().Plane(Up, 0), Front, nil))
		near(t, "foot ahead of the seat-back line", -foot/inch, c.ahead, 5e-3)   // by hand: 16·tan rake
		near(t, "top of a 20-in back", 20*math.Sin(deg(c.rake)), c.behind, 2e-2) // by hand: 20·sin rake; 5.18 and 6.84
	}
}

// A mitred box whose sides lean: mitre = atan(sin t·tan 45°), bevel =
// asin(cos t·sin 45°), the hopper cut of the joiner's books (closed form, by hand).
func TestHopperCut(t *testing.T) {
	for _, lean := range []float64{0, 5, 15, 30} {
		f := must[Frame](t)(Orient(Piece(), Right, Front, nil, false))
		room := must[Room](t)(TiltedRoom(Piece(), Front, geom.Vec{}, []Tilt{{Up, deg(lean), Front}}))
		f = must[Frame](t)(Orient(room, Right, Front, nil, false))
		corner := must[geom.Plane](t)(EndAt(f, board.Finish, geom.Facing(geom.Vec{}, geom.Vec{X: 1, Y: 1})))
		in := geom.Pose{X: f.Run, Y: f.Edge, Z: f.Face}.InPlane(corner)
		mitre, bevel := board.Setting(in)
		near(t, "mitre", math.Abs(mitre), math.Atan(math.Sin(deg(lean))), 1e-12)
		near(t, "bevel", math.Abs(bevel), math.Asin(math.Cos(deg(lean))*math.Sin(deg(45))), 1e-12)
	}
}

func TestPositions(t *testing.T) {
	room := must[Room](t)(TiltedRoom(Piece(), Up, geom.Vec{X: 10, Y: -200, Z: 400}, []Tilt{{Back, deg(7), Down}}))
	for d := Left; d <= Up; d++ {
		p := room.Plane(d, 25)
		at, ok := room.Read(p, d)
		if !ok {
			t.Fatalf("a position %v is not square to its axis", d)
		}
		near(t, "read back", at, 25, 1e-12)
		flipped, _ := room.Read(p.Flipped(), d)
		near(t, "whichever way it faces", flipped, 25, 1e-12)
		moved, _ := room.Read(room.Shift(p, d, 3), d)
		near(t, "shifted "+d.String(), moved, 25+3*d.Sign(), 1e-12)
		near(t, "coordinate", room.Coordinate(room.Point(1, 2, 3), d), float64(d.Axis()+1), 1e-12)
	}
	// A tilted plane is shifted along the axis named, not square to itself (rule 3).
	seat := room.Plane(Up, 0)
	up := Piece().Shift(seat, Up, 10)
	near(t, "10 above a tilted seat", up.D-seat.D, 10*math.Cos(deg(7)), 1e-12)
	near(t, "10 out of it", In(seat, -10).D-seat.D, 10, 1e-12)
	_, err := Piece().ReadAt(seat, seat.Shifted(4), Up, nil)
	fault(t, "parallel planes", err, NoCrossing)
}

func TestNearestTies(t *testing.T) {
	for _, c := range []struct {
		v    geom.Vec
		want Dir
		tie  bool
	}{
		{geom.Vec{X: 1, Z: 1}, Up, true},
		{geom.Vec{X: -1, Y: 1}, Left, true},
		{geom.Vec{Y: -3, Z: 2}, Front, false},
		{geom.Vec{X: 1, Y: 1, Z: -1}, Down, true},
	} {
		if d, tie := Piece().Nearest(c.v.Unit()); d != c.want || tie != c.tie {
			t.Errorf("%v: %v %v, want %v %v (rule 8: up, then right, then back)", c.v, d, tie, c.want, c.tie)
		}
	}
}

// A gate's brace between opposite corners of an opening 35 × 41, 3 1/2 wide, its
// edges in the corners: tan φ = (35 − 3.5/cos φ)/41, 36.76° from plumb; the other
// way about, tan φ = (35 + 3.5/cos φ)/41 (by hand).
func TestBetweenOppositeEdges(t *testing.T) {
	low, high := geom.Vec{}, geom.Vec{X: 35 * inch, Z: 41 * inch}
	for _, c := range []struct {
		from, to Dir
		sign     float64
	}{{Up, Down, -1}, {Down, Up, 1}} {
		f, across, _, err := Between(Piece(), Front, Anchor{Edge: c.from, At: low}, Anchor{Edge: c.to, At: high}, 3.5*inch, nil)
		if err != nil {
			t.Fatal(err)
		}
		angle := math.Atan2(f.Run.X, f.Run.Z)
		near(t, "from plumb", 41*math.Tan(angle), 35+c.sign*3.5/math.Cos(angle), 1e-9)
		near(t, "width", across.Size(), 3.5*inch, 1e-9)
		if c.sign < 0 {
			near(t, "degrees from plumb", angle*180/math.Pi, 36.76, 5e-3)
		}
	}
	var err error
	_, _, _, err = Between(Piece(), Front, Anchor{Edge: Down, At: low}, Anchor{Edge: Up, At: geom.Vec{X: 50, Z: 50}}, 88, nil)
	near(t, "points too near", fault(t, "w ≥ |PQ|", err, Short).Want, 88, 0)
}

// Each anchor's edge, or the centre, passes through its point, whatever the way.
func TestBetweenHoldsItsPoints(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		coordinate := rapid.IntRange(-1000, 1000)
		anchor := func(name string) Anchor {
			return Anchor{Centre: rapid.Bool().Draw(r, name+" centre"),
				Edge: []Dir{Left, Right, Up, Down}[rapid.IntRange(0, 3).Draw(r, name+" edge")],
				At:   geom.Vec{X: float64(coordinate.Draw(r, "x")), Y: float64(coordinate.Draw(r, "y")), Z: float64(coordinate.Draw(r, "z"))}}
		}
		from, to := anchor("from"), anchor("to")
		f, s, _, err := Between(Piece(), Back, from, to, 90, nil)
		if err != nil {
			return
		}
		if f.Run.Dot(to.At.Minus(from.At)) <= 0 || math.Abs(f.Run.Y) > 1e-12 {
			r.Fatalf("runs %v", f.Run)
		}
		for _, a := range []Anchor{from, to} {
			off := math.Abs(f.Edge.Dot(a.At) - s.Middle().D)
			want := 45.0
			if a.Centre {
				want = 0
			}
			if math.Abs(off-want) > 1e-9 {
				r.Fatalf("point lies %v off the centre line, want %v", off, want)
			}
		}
	})
}

// A bar run along another's way has the face rule 9 gives it.
func TestAlong(t *testing.T) {
	f := must[Frame](t)(Orient(Piece(), Up, Front, []Tilt{{Down, deg(12), Left}, {Down, deg(7), Front}}, false))
	g := must[Frame](t)(Along(Piece(), f.Run, Front, nil))
	if d := f.Face.Distance(g.Face); d > 1e-12 || f.Words != g.Words {
		t.Errorf("faces %v and %v, words %v and %v", f.Face, g.Face, f.Words, g.Words)
	}
	_, err := Along(Piece(), geom.Vec{Y: 1}, Front, nil)
	fault(t, "facing along its run", err, Steep)
}
