package setout

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"scantling/internal/board"
	"scantling/internal/geom"
)

// level returns a level bar that runs right and faces front, its show face on the
// plane y = 0 and its lower edge at z = 0; inches.
func level(t *testing.T, w, th float64) Bar {
	return bar(t, Right, Front, nil, w*inch, th*inch, Down, Piece().Plane(Down, 0), Front, Piece().Plane(Front, 0), nil)
}

func right(x float64) geom.Plane { return Piece().Plane(Right, x*inch) }

func placed(p ...geom.Plane) End { return End{Planes: p} }

func TestFitLengths(t *testing.T) {
	b := level(t, 3.5, 1.5)
	mid := right(2)
	mitred := must[End](t)(LooseAngled(b.Frame, board.Finish, deg(45), board.Far, 0, 0))
	left, square := placed(right(-10).Flipped()), LooseSquare(b.Frame, board.Finish)
	for _, c := range []struct {
		what          string
		start, finish End
		length        float64 // in
		from, to      float64 // in: Run·p of the long points
		short, edge   float64 // in
		source        string
	}{
		{"both ends placed", left, placed(right(14)), 0, -10, 14, 24, 24, "by hand"},
		{"a length and the left end", left, square, 20, -10, 10, 20, 20, "rule 12: the other end is square"},
		{"a length and the right end", LooseSquare(b.Frame, board.Start), placed(right(14)), 20, -6, 14, 20, 20, "rule 12"},
		{"a length alone", LooseSquare(b.Frame, board.Start), square, 20, -8, 12, 20, 20, "rule 10: centred, here on 2 in"},
		{"a mitred end", left, mitred, 20, -10, 10, 16.5, 0, "by hand: a 45° cut runs back the width, 3 1/2"},
	} {
		got := must[Blank](t)(Fit(b, c.start, c.finish, c.length*inch, &mid))
		near(t, c.what+": from", got.Low/inch, c.from, 1e-9)
		near(t, c.what+": length", got.L/inch, c.to-c.from, 1e-9)
		near(t, c.what+": short", got.Short/inch, c.short, 1e-9)
		near(t, c.what+": edge", got.EdgeLength/inch, c.edge, 1e-9)
		if c.what == "a mitred end" {
			made := got.Board(nil, nil)
			if err := made.Solid.Check(); err != nil {
				t.Error(err)
			}
			// The long point is on the Far edge, which of a board that runs right and
			// faces front is the upper one.
			near(t, "top of the mitred end", Extent(made, Piece(), Right)/inch, c.to, 1e-9)
			mitre, _ := board.Setting(made.End(board.Finish)[0].Plane)
			near(t, "mitre", mitre, -deg(45), 1e-12) // its waste looks toward Near
			if made.Sides[board.Far] != "top" {
				t.Errorf("Far edge is called %q", made.Sides[board.Far])
			}
		}
	}
	_, err := Fit(b, left, placed(right(14)), 20*inch, nil)
	fault(t, "both ends and a length", err, TwoLengths)
	_, err = Fit(b, left, square, 0, nil)
	fault(t, "one end", err, NoEnd)
	_, err = Fit(b, placed(right(14).Flipped()), placed(right(10)), 0, nil)
	near(t, "too short by", fault(t, "ends crossed", err, NoLength).Has/inch, -4, 1e-9) // by hand: from 14 back to 10
}

func TestEndsThatMeet(t *testing.T) {
	leg := splayed(t, 33, 10, 0, 4) // leans right going up
	b := level(t, 3.5, 1.5)
	inner := leg.Plane(leg.Side(Right))

	p := must[geom.Plane](t)(EndAt(b.Frame, board.Start, inner))
	if p.N.Dot(b.Run) >= 0 {
		t.Error("an end plane must face out of its end")
	}
	if err := Looks(p, inner, true); err != nil {
		t.Error("a start against a right side:", err)
	}
	fault(t, "flush with the side it faces", Looks(p, inner, false), NotFlush)
	q := must[geom.Plane](t)(EndClear(b.Frame, board.Start, inner, inch/8))
	near(t, "clearance, square to the side", inner.Over(p.Foot(geom.Vec{}))-inner.Over(q.Foot(geom.Vec{})), -inch/8, 1e-9)

	low := bar(t, Right, Front, nil, 88, 38, Down, Piece().Plane(Down, 50), Front, Piece().Plane(Front, 0), nil)
	_, err := EndAt(low.Frame, board.Start, Piece().Plane(Up, 3))
	near(t, "an end along the board", fault(t, "a floor for a level board", err, Grazing).Has, 0, 1e-12)

	side, p, err := EndTo(low, board.Start, leg.Bar)
	if err != nil || side != leg.Side(Right) {
		t.Errorf("to the leg: side %d, %v", side, err)
	}
	near(t, "to the leg", p.Over(inner.Foot(geom.Vec{})), 0, 1e-9)
	high := bar(t, Right, Front, nil, 88, 38, Down, Piece().Plane(Down, 50), Front, Piece().Plane(Front, -200), nil)
	_, _, err = EndTo(high, board.Start, leg.Bar)
	fault(t, "past the leg", err, Misses)
	corner := must[Frame](t)(Orient(Piece(), Right, Up, []Tilt{{Right, deg(45), Back}}, false))
	swung := Bar{corner, Slab{corner.Edge, -20, 68}, Slab{corner.Face, 100, 138}}
	post := bar(t, Up, Front, nil, 88, 88, Left, Piece().Plane(Left, 0), Front, Piece().Plane(Front, 0), nil)
	_, _, err = EndTo(swung, board.Finish, post)
	fault(t, "onto an arris", err, TwoSides)
}

// A square end is placed by one corner (rule 12).
func TestSquareEnds(t *testing.T) {
	lean := deg(14)
	f := must[Frame](t)(Orient(Piece(), Up, Left, []Tilt{{Up, lean, Back}}, false))
	b := Bar{f, Slab{f.Edge, 0, 3.5 * inch}, Slab{f.Face, 0, 1.5 * inch}}
	at := Piece().Plane(Up, 35*inch)
	for _, c := range []struct {
		what  string
		end   board.Side
		reach Reach
		d     Dir
	}{
		{"top, highest", board.Finish, Highest, Up},
		{"foot, lowest", board.Start, Lowest, Down},
	} {
		p := must[geom.Plane](t)(EndSquare(b, c.end, c.reach, at))
		other := LooseSquare(f, c.end.Opposite())
		ends := [2]End{placed(p), other}
		if c.end == board.Finish {
			ends = [2]End{other, placed(p)}
		}
		made := must[Blank](t)(Fit(b, ends[0], ends[1], 600, nil)).Board(nil, nil)
		near(t, c.what, Extent(made, Piece(), c.d)/inch, 35, 1e-9)
		if !made.Cuts[0].Square || !made.Cuts[1].Square {
			t.Error(c.what, "is not square")
		}
	}
	// The other corner: from highest to lowest is the width's fall, 3 1/2·sin 14°.
	hi := must[geom.Plane](t)(EndSquare(b, board.Finish, Highest, at))
	lo := must[geom.Plane](t)(EndSquare(b, board.Finish, Lowest, at))
	past := must[geom.Plane](t)(EndSquare(b, board.Finish, Past, at))
	near(t, "between", lo.D-hi.D, 3.5*inch*math.Tan(lean), 1e-9)
	near(t, "past is the furthest corner", past.D, lo.D, 1e-9)
}

func TestPointedEnd(t *testing.T) {
	b := level(t, 3.5, 1.5) // z from 0 to 3 1/2
	down := geom.Facing(geom.Vec{X: 20 * inch}, geom.Vec{X: 1, Z: -1})
	up := geom.Facing(geom.Vec{X: 20 * inch, Z: 3.5 * inch}, geom.Vec{X: 1, Z: 1})
	got := must[Blank](t)(Fit(b, placed(right(0).Flipped()), placed(down, up), 0, nil))
	near(t, "to the tip", got.L/inch, 21.75, 1e-9) // by hand: two 45° cuts meet 3 1/2 / 2 past the shoulders
	near(t, "to the shoulders", got.Short/inch, 20, 1e-9)
	made := got.Board(nil, nil)
	if err := made.Solid.Check(); err != nil {
		t.Error(err)
	}
	near(t, "volume", made.Solid.Volume/(inch*inch*inch), 1.5*(20*3.5+3.5*1.75/2), 1e-9)
}

// Fact 10: a leg tapered from 4 to 2 3/4 in.
func TestTaperedLeg(t *testing.T) {
	b := splayed(t, 33, 10, 0, 4)
	inner := b.Side(Right)
	p := must[geom.Plane](t)(TaperPlane(b.Bar, b.Ends[0], b.Ends[1], inner, board.Finish, 6*inch, 2.75*inch))
	taper := b.TaperCut("slim", p, inner, board.Mark{At: board.Finish, From: 6 * inch, Wide: 2.75 * inch})
	made := b.Board(nil, []board.Cut{taper})
	if err := made.Solid.Check(); err != nil {
		t.Fatal(err)
	}
	angle := math.Asin(math.Abs(taper.Plane.N.X))
	run := 33/math.Cos(deg(10)) - 6 + 1.25*math.Tan(deg(10))
	near(t, "run", run, 27.729, 5e-4) // by hand: 33.509 − 6 + 1.25·tan 10°
	near(t, "angle", angle*180/math.Pi, math.Atan(1.25/run)*180/math.Pi, 1e-9)
	near(t, "angle, printed", angle*180/math.Pi, 2.58, 5e-3)
	near(t, "in a foot", 12*math.Tan(angle), 0.541, 5e-4)
	// The foot on the floor: 2.75/cos 10°.
	low, high := math.Inf(1), math.Inf(-1)
	for _, v := range made.Solid.Cells[0].Verts {
		if q := made.Pose.Out(v); q.Z < 1e-6 {
			low, high = math.Min(low, q.X), math.Max(high, q.X)
		}
	}
	near(t, "foot", (high-low)/inch, 2.792, 5e-4)
	near(t, "foot, exact", (high-low)/inch, 2.75/math.Cos(deg(10)), 1e-9)

	_, err := TaperPlane(b.Bar, b.Ends[0], b.Ends[1], inner, board.Finish, 6*inch, 4.25*inch)
	fault(t, "wider than the leg", err, TooWide)
	_, err = TaperPlane(b.Bar, b.Ends[0], b.Ends[1], inner, board.Finish, 40*inch, 2*inch)
	near(t, "the most", fault(t, "longer than the leg", err, BeyondEnd).Want/inch, 33.509+2*math.Tan(deg(10)), 1e-3)
	_, err = TaperPlane(b.Bar, b.Ends[0], b.Ends[1], board.Start, board.Finish, 0, 2*inch)
	fault(t, "an end", err, EndHeld)
}

func TestTaperBothEdges(t *testing.T) {
	b := splayed(t, 30, 0, 0, 4)
	ps, err := TaperBoth(b.Bar, b.Ends[0], b.Ends[1], board.Near, board.Finish, 5*inch, 2*inch)
	if err != nil {
		t.Fatal(err)
	}
	made := b.Board(nil, []board.Cut{
		b.TaperCut("slim", ps[0], board.Near, board.Mark{}), b.TaperCut("slim", ps[1], board.Far, board.Mark{})})
	// By hand: a 4-in leg 1 1/2 thick, full for 5 in, then 25 in down to 2.
	near(t, "volume", made.Solid.Volume/(inch*inch*inch), 1.5*(5*4+25*3), 1e-9)
	near(t, "alike", ps[0].N.Dot(b.Run), ps[1].N.Dot(b.Run), 1e-15)
}

// Whatever the leans, both ends lie on the planes asked for, the lengths agree
// with the solid, and the mirror image is as long.
func TestEndsMeetWhatTheyAreCutTo(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		// A thousandth of a degree is the finest angle told apart from square: 1e-9° over
		// a thickness is less than geom.Same.
		side := float64(rapid.IntRange(-30_000, 30_000).Draw(r, "lean left, 1/1000 deg")) / 1000
		front := float64(rapid.IntRange(-30_000, 30_000).Draw(r, "lean front, 1/1000 deg")) / 1000
		w := rapid.Float64Range(1, 8).Draw(r, "width")
		high := rapid.Float64Range(20, 40).Draw(r, "height")
		b := splayed(t, high, side, front, w)
		made := b.Board(nil, nil)
		if err := made.Solid.Check(); err != nil {
			r.Fatal(err)
		}
		if !made.Pose.Proper() {
			r.Fatal("pose is not proper")
		}
		low, top := made.Solid.Extent(geom.Vec{X: 1})
		if math.Abs(low) > geom.Same || math.Abs(top-made.L) > geom.Same {
			r.Fatalf("wood from %v to %v on a blank of %v", low, top, made.L)
		}
		down, up := made.Placed().Extent(geom.Vec{Z: 1})
		if math.Abs(down) > geom.Same || math.Abs(up-high*inch) > geom.Same {
			r.Fatalf("stands from %v to %v", down, up)
		}
		mirrored := Mirror(Piece(), Right, 100).Board(made)
		if math.Abs(mirrored.Solid.Volume-made.Solid.Volume) > 1e-12*made.Solid.Volume || mirrored.L != made.L {
			r.Fatal("the mirror image differs")
		}
		a, _ := board.Setting(made.Cuts[0].Plane)
		m, _ := board.Setting(mirrored.Cuts[0].Plane)
		if math.Abs(a+m) > 1e-12 {
			r.Fatalf("mitres %v and %v are not opposite hands", a, m)
		}
	})
}
