package setout

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"scantling/internal/board"
	"scantling/internal/geom"
)

// A planter's cap, 37 1/2 × 17 1/2 over the outside: front, back, left and right
// boards so wide, their long points at the corners of the outside.
func capBoards(t testing.TB, long, short float64) (front, left Bar, all [4]Bar) {
	t.Helper()
	p, top := Piece(), Piece().Plane(Up, 30*inch)
	front = bar(t, Right, Up, nil, long*inch, inch, Front, p.Plane(Front, -8.75*inch), Up, top, nil)
	left = bar(t, Back, Up, nil, short*inch, inch, Left, p.Plane(Left, -18.75*inch), Up, top, nil)
	return front, left, [4]Bar{front, Mirror(p, Front, 0).Bar(front), left, Mirror(p, Right, 0).Bar(left)}
}

// mitred fits a board between the mitres with the boards at either end.
func mitred(t testing.TB, b Bar, others []Bar) Blank {
	t.Helper()
	var ends [2]End
	for s := range ends {
		k := must[int](t)(MitreMate(b, board.Side(s), others))
		at, _ := CornerOf(b, others[k])
		p := must[geom.Plane](t)(MitreWith(b, board.Side(s), others[k], EndNearest(others[k], others[k].Home(Piece(), nil), at)))
		ends[s] = placed(p)
	}
	return must[Blank](t)(Fit(b, ends[0], ends[1], 0, nil))
}

func TestMitredCap(t *testing.T) {
	for _, c := range []struct {
		what                 string
		long, short          float64 // widths
		l1, s1, l2, s2, side float64 // long and short points of either; degrees from square of the long ones
		source               string
	}{
		{"alike", 3.5, 3.5, 37.5, 30.5, 17.5, 10.5, 45, "fact 27, by hand: short points 2·3 1/2 less"},
		{"unequal widths", 3.5, 2.5, 37.5, 32.5, 17.5, 10.5, math.Atan(2.5/3.5) * 180 / math.Pi,
			"by hand: through both corners; 37 1/2 − 2·2 1/2, 17 1/2 − 2·3 1/2, atan(2.5/3.5)"},
	} {
		front, left, all := capBoards(t, c.long, c.short)
		a, b := mitred(t, front, all[2:]), mitred(t, left, all[:2])
		near(t, c.what+": long board", a.L/inch, c.l1, 1e-9)
		near(t, c.what+": its short points", a.Short/inch, c.s1, 1e-9)
		near(t, c.what+": short board", b.L/inch, c.l2, 1e-9)
		near(t, c.what+": its short points", b.Short/inch, c.s2, 1e-9)
		mitre, bevel := board.Setting(a.Board(nil, nil).Cuts[1].Plane)
		near(t, c.what+": saw ("+c.source+")", math.Abs(mitre)*180/math.Pi, c.side, 1e-9)
		near(t, c.what+": square through", bevel, 0, 1e-12)
	}
}

func TestMitreRefuses(t *testing.T) {
	front, left, all := capBoards(t, 3.5, 3.5)
	raised := Shift(geom.Vec{Z: 5}).Bar(left)
	_, err := MitreWith(front, board.Start, raised, board.Start)
	near(t, "apart", fault(t, "5 mm higher", err, Apart).Has, 5, 1e-9)
	thin := left
	thin.Thick.Lo += 6
	_, err = MitreWith(front, board.Start, thin, board.Start)
	near(t, "thickness", fault(t, "thinner", err, UnlikeThick).Has, inch, 1e-9)
	_, err = MitreWith(front, board.Start, Turn(Piece(), Front, geom.Vec{}, deg(20)).Bar(left), board.Start)
	near(t, "askew", fault(t, "tipped", err, Askew).Has, deg(20), 1e-9)
	_, err = MitreWith(front, board.Start, all[1], board.Start)
	fault(t, "side by side", err, Misses)
	_, err = MitreMate(front, board.Start, all[:2])
	fault(t, "nothing crosses it", err, Misses)
	_, err = MitreMate(front, board.Start, []Bar{raised})
	fault(t, "nothing in its plane", err, Apart)
	_, err = MitreMate(front, board.Start, []Bar{left, all[3], left})
	if f := fault(t, "two as near", err, TwoMates); f.Count != 2 {
		t.Errorf("%d mates, want 2", f.Count)
	}
}

// The two boards of a corner share one plane, each facing the other through it,
// and the mirror image of the corner is the corner of the mirror images.
func TestMitreIsShared(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		face := Slab{geom.Vec{Z: 1}, 0, 38}
		swung := func(name string, low, high int) Bar {
			angle := deg(float64(rapid.IntRange(low, high).Draw(r, name)))
			f, err := Orient(Piece(), Right, Up, []Tilt{{Right, angle, Back}}, false)
			if err != nil {
				r.Fatal(err)
			}
			w := rapid.Float64Range(30, 200).Draw(r, name+" width")
			at := rapid.Float64Range(-300, 300).Draw(r, name+" at")
			return Bar{f, Slab{f.Edge, at, at + w}, face}
		}
		a, b := swung("first", -80, -20), swung("second", 20, 80)
		alike := rapid.Bool().Draw(r, "one width")
		if alike {
			b.Width.Hi = b.Width.Lo + a.Width.Size()
		}
		ends := [2]board.Side{board.Side(rapid.IntRange(0, 1).Draw(r, "end")), board.Side(rapid.IntRange(0, 1).Draw(r, "other end"))}
		p, err := MitreWith(a, ends[0], b, ends[1])
		q, err2 := MitreWith(b, ends[1], a, ends[0])
		if err != nil || err2 != nil {
			return // under 10° to one of them
		}
		if d := p.N.Distance(q.N.Negated()); d > 1e-9 || math.Abs(p.D+q.D) > 1e-6 {
			r.Fatalf("planes %v and %v", p, q)
		}
		m := Mirror(Piece(), Right, 70)
		image, err := MitreWith(m.Bar(a), ends[0], m.Bar(b), ends[1])
		if err != nil {
			r.Fatal(err)
		}
		if want := m.Plane(p); want.N.Distance(image.N) > 1e-9 || math.Abs(want.D-image.D) > 1e-6 {
			r.Fatalf("the image's plane %v, want %v", image, want)
		}
		// By hand: two boards of one width share the angle between them.
		if alike && math.Abs(p.N.Dot(a.Out(ends[0]))-q.N.Dot(b.Out(ends[1]))) > 1e-9 {
			r.Fatal("boards of one width are sawn at two angles")
		}
	})
}
