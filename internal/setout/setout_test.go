package setout

import (
	"errors"
	"math"
	"testing"

	"scantling/internal/board"
	"scantling/internal/geom"
)

const inch = 25.4

func deg(d float64) float64 { return d * math.Pi / 180 }

// near fails unless got is want to within tol, all in the caller's unit.
func near(t testing.TB, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.9g, want %.9g ± %g", what, got, want, tol)
	}
}

// fault fails unless err is a Fault of the given kind, which it returns.
func fault(t *testing.T, what string, err error, kind FaultKind) *Fault {
	t.Helper()
	var f *Fault
	if !errors.As(err, &f) || f.Kind != kind {
		t.Fatalf("%s: got error %v, want fault %d", what, err, kind)
	}
	return f
}

func must[T any](t testing.TB) func(v T, err error) T {
	return func(v T, err error) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
}

// bar makes a bar in the piece from words and holds given as planes.
func bar(t testing.TB, runs, faces Dir, tilts []Tilt, w, th float64, edge Dir, edgeAt geom.Plane, face Dir, faceAt geom.Plane, level *geom.Plane) Bar {
	t.Helper()
	f := must[Frame](t)(Orient(Piece(), runs, faces, tilts, false))
	thick := must[Slab](t)(Hold(f, face, th, faceAt, level, nil))
	show := SideOf(thick, board.Show)
	width := must[Slab](t)(Hold(f, edge, w, edgeAt, level, &show))
	return Bar{f, width, thick}
}

// splayed returns a leg high inches tall, w wide and 1 1/2 thick, whose foot leans
// so many degrees toward left and front; its top's left front arris stands at the
// piece's middle.
func splayed(t testing.TB, high, left, front, w float64) Blank {
	t.Helper()
	level := Piece().Plane(Up, high*inch)
	var tilts []Tilt
	if left != 0 {
		tilts = append(tilts, Tilt{Down, deg(left), Left})
	}
	if front != 0 {
		tilts = append(tilts, Tilt{Down, deg(front), Front})
	}
	b := bar(t, Up, Front, tilts, w*inch, 1.5*inch,
		Left, Piece().Plane(Left, 0), Front, Piece().Plane(Front, 0), &level)
	top := must[geom.Plane](t)(EndAt(b.Frame, board.Finish, level))
	foot := must[geom.Plane](t)(EndAt(b.Frame, board.Start, Piece().Plane(Up, 0)))
	return must[Blank](t)(Fit(b, End{Planes: []geom.Plane{foot}}, End{Planes: []geom.Plane{top}}, 0, nil))
}

func TestSplayedLeg(t *testing.T) {
	for _, c := range []struct {
		high, lean, wide  float64
		edge, offset, max float64 // in
		source            string
	}{
		{33, 10, 4, 33.509, 0.705, 34.214, "by hand: 33/cos 10°, 4·tan 10°, their sum"},
		{33, 15, 4, 34.164, 1.072, 35.236, "by hand: 33/cos 15°, 4·tan 15°, their sum"},
		{33, 0, 4, 33, 0, 33, "an upright leg"},
	} {
		b := splayed(t, c.high, c.lean, 0, c.wide)
		near(t, "edge", b.EdgeLength/inch, c.edge, 5e-4)
		near(t, "long point", b.L/inch, c.max, 5e-4)
		near(t, "short point", b.Short/inch, c.edge-c.offset, 1e-3)
		// exact closed forms to float noise
		a := deg(c.lean)
		near(t, "edge, exact", b.EdgeLength, c.high*inch/math.Cos(a), 1e-9)
		near(t, "long, exact", b.L, c.high*inch/math.Cos(a)+c.wide*inch*math.Tan(a), 1e-9)
		made := b.Board(nil, nil)
		mitre, bevel := board.Setting(made.End(board.Finish)[0].Plane)
		near(t, "mitre", math.Abs(mitre), a, 1e-12)
		near(t, "bevel", bevel, 0, 1e-12)
		near(t, "foot's reach", -Extent(made, Piece(), Left)/inch, c.high*math.Tan(a), 1e-9)
		near(t, "height", Extent(made, Piece(), Up)-Extent(made, Piece(), Down), c.high*inch, 1e-9)
	}
}

// Fact 5 of a bench: the feet of a 72-in table whose legs lean out.
func TestFootReach(t *testing.T) {
	for _, c := range []struct {
		lean, foot, overall float64
		source              string
	}{
		{10, 38.069, 76.138, "by hand: 32.25 + 33·tan 10°, doubled"},
		{15, 41.092, 82.185, "by hand: 32.25 + 33·tan 15° = 32.25 + 8.842, doubled"},
	} {
		b := splayed(t, 33, c.lean, 0, 4)
		leg := Shift(geom.Vec{X: -32.25 * inch}).Board(b.Board(nil, nil))
		near(t, "foot", -Extent(leg, Piece(), Left)/inch, c.foot, 6e-4)
		other := Mirror(Piece(), Right, 0).Board(leg)
		near(t, "overall", (Extent(other, Piece(), Right)-Extent(leg, Piece(), Left))/inch, c.overall, 1e-3)
	}
}

// Fact 6: a short apron's lower edge and the leg that leans past it.
func TestLegClearsApron(t *testing.T) {
	for _, c := range []struct{ lean, clear float64 }{{10, 0.383}, {15, 0.062}} {
		// The leg's left edge stands 2 1/2 in from the frame's left end at the top;
		// the apron fills 1 1/2 of it and is 3 1/2 deep.
		top := Piece().Plane(Up, 33*inch)
		lower := Piece().Plane(Up, 29.5*inch)
		b := bar(t, Up, Front, []Tilt{{Down, deg(c.lean), Left}}, 4*inch, 1.5*inch,
			Left, Piece().Plane(Left, 2.5*inch), Front, Piece().Plane(Front, 0), &top)
		at := must[float64](t)(Piece().ReadAt(b.Plane(b.Side(Left)), lower, Right, nil))
		near(t, "clearance", at/inch-1.5, c.clear, 5e-4) // by hand: 2 1/2 − 1 1/2 − 3 1/2·tan a
	}
}

// A leg that leans in two views. Its face is tipped by the one lean, and a level
// line on it runs left-right; see also the splayed work of any joinery handbook.
func TestCompoundLeg(t *testing.T) {
	for _, c := range []struct {
		high, left, front            float64
		mitre, bevel, edge, steepest float64
		source                       string
	}{
		{33, 10, 5, 9.963, 5, 33.633, 11.14,
			"by hand: atan(tan 10°·cos 5°), 5°, 33·√(1 + tan²10° + tan²5°), atan √(tan²10° + tan²5°)"},
		{17.5, 15, 15, 14.51, 15, 18.714, 20.75,
			"by hand: atan(tan 15°·cos 15°), 15°, 17.5·√(1 + 2·tan²15°), atan(√2·tan 15°)"},
	} {
		b := splayed(t, c.high, c.left, c.front, 4)
		mitre, bevel := board.Setting(b.Board(nil, nil).End(board.Finish)[0].Plane)
		near(t, "mitre", math.Abs(mitre)*180/math.Pi, c.mitre, 5e-3)
		near(t, "bevel", math.Abs(bevel)*180/math.Pi, c.bevel, 1e-9)
		near(t, "edge", b.EdgeLength/inch, c.edge, 5e-4)
		near(t, "from plumb", 90-b.Steepness()*180/math.Pi, c.steepest, 5e-3)
		// Read back in the two views, each side leans by what was written (rule 9).
		near(t, "front view", b.Run.X/b.Run.Z, math.Tan(deg(c.left)), 1e-12)
		near(t, "side view", b.Run.Y/b.Run.Z, math.Tan(deg(c.front)), 1e-12)
		near(t, "face holds the level line", b.Face.X, 0, 1e-15)
	}
}

// "measured: on the board" takes the angle on the wide face: the mitre itself.
func TestMeasuredOnTheBoard(t *testing.T) {
	tilts := []Tilt{{Down, deg(9.963), Left}, {Down, deg(5), Front}}
	f := must[Frame](t)(Orient(Piece(), Up, Front, tilts, true))
	near(t, "front view", f.Run.X/f.Run.Z, math.Tan(deg(10)), 1e-5) // by hand, as above
	g := must[Frame](t)(Orient(Piece(), Up, Front, []Tilt{tilts[1], tilts[0]}, true))
	if f != g {
		t.Error("the order of two tilts made a difference (rule 9)")
	}
}

func TestOrientWords(t *testing.T) {
	for _, c := range []struct {
		runs, faces Dir
		words       [6]Dir // Start Finish Near Far Under Show
	}{
		{Up, Front, [6]Dir{Down, Up, Right, Left, Back, Front}},
		{Right, Front, [6]Dir{Left, Right, Down, Up, Back, Front}},
		{Back, Up, [6]Dir{Front, Back, Right, Left, Down, Up}},
		{Up, Left, [6]Dir{Down, Up, Front, Back, Right, Left}},
	} {
		f := must[Frame](t)(Orient(Piece(), c.runs, c.faces, nil, false))
		if f.Words != c.words {
			t.Errorf("runs %v faces %v: words %v, want %v (by hand: edge = face × run)", c.runs, c.faces, f.Words, c.words)
		}
		for s, w := range f.Words {
			if f.Out(board.Side(s)) != Piece().Way(w) {
				t.Errorf("runs %v faces %v: side %d does not look %v", c.runs, c.faces, s, w)
			}
		}
	}
	for _, c := range []struct {
		what        string
		runs, faces Dir
		tilts       []Tilt
		kind        FaultKind
	}{
		{"faces along the run", Up, Down, nil, Skew},
		{"the wrong end", Up, Front, []Tilt{{Left, 0.1, Left}}, Skew},
		{"toward its own run", Up, Front, []Tilt{{Up, 0.1, Down}}, Skew},
		{"twice one way", Up, Front, []Tilt{{Up, 0.1, Left}, {Down, 0.1, Right}}, Skew},
		{"lying down", Up, Front, []Tilt{{Up, deg(89.5), Left}}, Steep},
	} {
		_, err := Orient(Piece(), c.runs, c.faces, c.tilts, false)
		fault(t, c.what, err, c.kind)
	}
}

func TestHoldNeedsALevel(t *testing.T) {
	f := must[Frame](t)(Orient(Piece(), Up, Front, []Tilt{{Down, deg(8), Left}}, false))
	_, err := Hold(f, Left, 100, Piece().Plane(Left, 0), nil, nil)
	fault(t, "a leaning edge", err, NeedsLevel)
	_, err = Hold(f, Up, 100, Piece().Plane(Up, 0), nil, nil)
	fault(t, "an end", err, EndHeld)
	if _, err = Hold(f, Front, 100, Piece().Plane(Front, 0), nil, nil); err != nil {
		t.Error("a plumb face needs no level:", err)
	}
}

// Two leans: the edge's level point is read on the show face (rule 10).
func TestEdgeHeldOnShowFace(t *testing.T) {
	b := splayed(t, 33, 10, 5, 4)
	top, show := Piece().Plane(Up, 33*inch), b.Plane(board.Show)
	x := must[float64](t)(Piece().ReadAt(b.Plane(b.Side(Left)), top, Right, &show))
	near(t, "left edge at the top, on the show face", x, 0, 1e-9)
	_, err := Piece().ReadAt(b.Plane(b.Side(Left)), top, Right, nil)
	fault(t, "without a show face", err, Unsteady)
	low := must[float64](t)(Piece().ReadAt(show, top, Front, nil))
	near(t, "show face at the top", low, 0, 1e-9)
}

func TestCornerAndMiddle(t *testing.T) {
	f := must[Frame](t)(Orient(Piece(), Up, Front, []Tilt{{Up, deg(12), Back}}, false))
	at := geom.Vec{X: 3, Y: -40, Z: 500}
	edge := must[Slab](t)(HoldPoint(f, Left, 90, at))
	face := must[Slab](t)(HoldPoint(f, Front, 40, at))
	for _, p := range []geom.Plane{SideOf(edge, f.Side(Left)), SideOf(face, board.Show)} {
		near(t, "corner off its point", p.Over(at), 0, 1e-12)
	}
	mid := must[Slab](t)(HoldMiddle(f, board.Near, 90, Piece().Plane(Right, 7), nil, nil))
	near(t, "middle", mid.Middle().D*mid.N.X, 7, 1e-12)
}
