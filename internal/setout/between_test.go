package setout

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"scantling/internal/board"
	"scantling/internal/geom"
)

// An opening wide × high inches whose corners are low left and high right: rails
// below and above, stiles left and right, each with the side that looks in.
func opening(wide, high float64) (rails, stiles [2]geom.Plane, corners [2]geom.Vec) {
	p := Piece()
	rails = [2]geom.Plane{p.Plane(Up, 0), p.Plane(Down, high*inch)}
	stiles = [2]geom.Plane{p.Plane(Right, 0), p.Plane(Left, wide*inch)}
	return rails, stiles, [2]geom.Vec{{}, {X: wide * inch, Z: high * inch}}
}

// brace returns a board tucked between two corners, each cut by the one plane and
// clear of the other.
func brace(at [2]geom.Vec, cut, other [2]geom.Plane, width float64) (Blank, error) {
	f, across, _, err := Between(Piece(), Front, Anchor{At: at[0], Tucked: &Corner{cut[0], other[0]}},
		Anchor{At: at[1], Tucked: &Corner{cut[1], other[1]}}, width, nil)
	if err != nil {
		return Blank{}, err
	}
	var ends [2]End
	for i := range ends {
		p, err := EndAt(f, board.Side(i), cut[i])
		if err != nil {
			return Blank{}, err
		}
		ends[i] = placed(p)
	}
	return Fit(Bar{f, across, Slab{f.Face, 0, 1.5 * inch}}, ends[0], ends[1], 0, nil)
}

func fromPlumb(b Blank) float64 { return math.Atan2(b.Run.X, b.Run.Z) }

// A gate's brace (fact 18).
func TestTuckedBrace(t *testing.T) {
	rails, stiles, at := opening(35, 41)
	b := must[Blank](t)(brace(at, rails, stiles, 3.5*inch))
	a := fromPlumb(b)
	near(t, "tan φ", 41*math.Tan(a), 35-3.5/math.Cos(a), 1e-9) // by hand: its edges lie in opposite corners
	for _, c := range []struct {
		what      string
		got, want float64
		source    string
	}{
		{"degrees from plumb", a * 180 / math.Pi, 36.76, "by hand: tan φ = (35 − 3.5/cos φ)/41"},
		{"edge", b.EdgeLength / inch, 51.179, "by hand: 41/cos φ"},
		{"long point", b.L / inch, 53.794, "by hand: edge + offset"},
		{"offset", (b.L - b.EdgeLength) / inch, 2.615, "by hand: 3.5·tan φ"},
	} {
		near(t, c.what+" ("+c.source+")", c.got, c.want, 5e-3)
	}
	mitre, _ := board.Setting(b.Board(nil, nil).Cuts[0].Plane)
	near(t, "the saw", math.Abs(mitre), a, 1e-12)

	// Cut by the stiles instead it lies the other way off the corner-to-corner line.
	b = must[Blank](t)(brace(at, stiles, rails, 3.5*inch))
	rise := math.Pi/2 - fromPlumb(b)
	near(t, "on the stiles", 35*math.Tan(rise), 41-3.5/math.Cos(rise), 1e-9) // by hand
	// Cut by a rail below and a stile above, one edge lies in both corners: along PQ.
	b = must[Blank](t)(brace(at, [2]geom.Plane{rails[0], stiles[1]}, [2]geom.Plane{stiles[0], rails[1]}, 3.5*inch))
	near(t, "along PQ", math.Tan(fromPlumb(b)), 35.0/41, 1e-12)
	// With one end's centre on its point only the other end is tried.
	f, across, _, err := Between(Piece(), Front, Anchor{At: at[0], Tucked: &Corner{rails[0], stiles[0]}}, Anchor{Centre: true, At: at[1]}, 3.5*inch, nil)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "one edge in its corner", f.Edge.Dot(at[0])-across.Lo, 3.5*inch, 1e-9) // the upper edge: Edge looks up and left
	near(t, "centre through Q", f.Edge.Dot(at[1]), across.Middle().D, 1e-9)
}

func TestTuckedRefuses(t *testing.T) {
	rails, stiles, at := opening(35, 41)
	// A stile that leans over until it passes 1 in left of the upper corner: there a
	// brace 3 1/2 wide enters it, or else the other stile.
	over := geom.Facing(at[0], geom.Vec{X: 41, Z: -34})
	_, err := brace(at, rails, [2]geom.Plane{over, stiles[1]}, 3.5*inch)
	f := fault(t, "under a leaning stile", err, NoTuck)
	if len(f.Runs) != 4 || !(f.Has > 0) {
		t.Errorf("%d ways tried, the best enters by %v mm; want 4, all of them in", len(f.Runs), f.Has)
	}
	// Cut by planes square to it and clear of everything else, it fits two ways.
	far := [2]geom.Plane{geom.Facing(at[0], geom.Vec{X: 1, Z: 1.2}), geom.Facing(at[1], geom.Vec{X: -1, Z: -1.2})}
	away := [2]geom.Plane{Piece().Plane(Right, -500), Piece().Plane(Left, 2000)}
	_, err = brace(at, far, away, 3.5*inch)
	if f := fault(t, "nothing in the way", err, TwoTucks); len(f.Runs) != 4 {
		t.Errorf("%d ways fit, want all four", len(f.Runs))
	}
	at[1] = at[0].Plus(geom.Vec{X: 1.5 * inch, Z: 2 * inch})
	rails[1], stiles[1] = Piece().Plane(Down, 2*inch), Piece().Plane(Left, 1.5*inch)
	_, err = brace(at, rails, stiles, 3.5*inch)
	fault(t, "no room between the corners", err, NoTuck)
}

// Whatever the opening, the brace touches both corners, enters no stile, and its
// mirror image is the brace of the mirrored opening.
func TestTuckedBraceFits(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		wide := rapid.Float64Range(10, 80).Draw(r, "wide")
		high := rapid.Float64Range(10, 80).Draw(r, "high")
		width := rapid.Float64Range(1, 5.5).Draw(r, "width") * inch
		rails, stiles, at := opening(wide, high)
		b, err := brace(at, rails, stiles, width)
		if err != nil {
			return // too wide for so narrow an opening: grazes or enters
		}
		a := fromPlumb(b)
		if d := float64(high*math.Tan(a)) - (wide - width/inch/math.Cos(a)); math.Abs(d) > 1e-9 {
			r.Fatalf("off the closed form by %v in", d)
		}
		made := b.Board(nil, nil)
		low, top := made.Placed().Extent(geom.Vec{X: 1})
		if math.Abs(low) > 1e-5 || math.Abs(top-wide*inch) > 1e-5 { // the width is sawn to the nanometre
			r.Fatalf("from %v to %v in an opening of %v", low, top, wide*inch)
		}
		m := Mirror(Piece(), Right, 100)
		var cut, other [2]geom.Plane
		for i := range at {
			at[i], cut[i], other[i] = m.Point(at[i]), m.Plane(rails[i]), m.Plane(stiles[i])
		}
		image, err := brace(at, cut, other, width)
		if err != nil {
			r.Fatal(err)
		}
		if !SamePlace(image.Board(nil, nil), m.Board(made)) {
			r.Fatal("the mirrored opening's brace is not the mirror image")
		}
	})
}
