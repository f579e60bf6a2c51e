package setout

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"scantling/internal/board"
	"scantling/internal/geom"
)

// handed is a leg that leans two ways, with one edge tapered: it has a hand.
func handed(t testing.TB) *board.Board {
	b := splayed(t, 30, 8, 5, 4)
	b.Bar = Shift(geom.Vec{X: -400, Y: -250}).Bar(b.Bar)
	for i := range b.Ends {
		b.Ends[i] = Shift(geom.Vec{X: -400, Y: -250}).End(b.Ends[i])
	}
	b = must[Blank](t)(Fit(b.Bar, b.Ends[0], b.Ends[1], 0, nil))
	side := b.Side(Right)
	p := must[geom.Plane](t)(TaperPlane(b.Bar, b.Ends[0], b.Ends[1], side, board.Finish, 150, 60))
	return b.Board(nil, []board.Cut{b.TaperCut("slim", p, side, board.Mark{})})
}

// Mirroring left-right and then front-back is turning half round: the first and
// the last of four legs are of one hand (rule 14; by hand: (x, y) → (−x, −y)).
func TestMirrorTwiceIsATurn(t *testing.T) {
	b := handed(t)
	lr, fb := Mirror(Piece(), Right, 0), Mirror(Piece(), Front, 0)
	if !lr.Mirrors() || !fb.Mirrors() || lr.Then(fb).Mirrors() {
		t.Fatal("hands: one mirror changes it, two do not")
	}
	half := Turn(Piece(), Up, geom.Vec{}, math.Pi)
	if lr.Then(fb) != half {
		t.Errorf("mirrored twice: %v, turned: %v", lr.Then(fb), half)
	}
	twice, turned := fb.Board(lr.Board(b)), half.Board(b)
	if twice.Sides != turned.Sides {
		t.Errorf("sides %v and %v", twice.Sides, turned.Sides)
	}
	if !SamePlace(twice, turned) || SamePlace(b, turned) {
		t.Error("the fourth leg stands where half a turn puts the first, and nowhere else")
	}
	for i := range b.Cuts {
		if d := twice.Cuts[i].Plane.N.Distance(b.Cuts[i].Plane.N); d > 1e-12 {
			t.Errorf("cut %d differs from the first leg's by %v: not one hand", i, d)
		}
		if d := lr.Board(b).Cuts[i].Plane.N.Distance(b.Cuts[i].Plane.N); d < 1e-3 {
			t.Errorf("cut %d of the mirror image is that of the first leg: not two hands", i)
		}
	}
}

// A copy's sides are named by where they look after copying (rule 8).
func TestNamesAfterCopying(t *testing.T) {
	b := handed(t)
	image := Mirror(Piece(), Left, 0).Board(b)
	for s := board.Start; s <= board.Show; s++ {
		d, ok := ParseSide(image.Sides[s])
		if !ok {
			t.Fatalf("side %d is called %q", s, image.Sides[s])
		}
		if out := image.Pose.OutWay(s.Out()); out.Dot(Piece().Way(d)) < 0.9 {
			t.Errorf("the %s side looks %v", image.Sides[s], out)
		}
	}
	inner, _ := image.Named("left")
	if image.Cuts[2].Side != inner || image.Cuts[2].Side == b.Cuts[2].Side {
		t.Error("the taper of the right leg lies on its left edge, the other edge of the board")
	}
	if image.Sides[board.Show] != "front" {
		t.Error("the show face still looks front")
	}
	for _, c := range []struct {
		turn float64
		d    Dir
		want Dir
	}{{90, Right, Back}, {90, Back, Left}, {90, Up, Up}, {180, Left, Right}, {30, Front, Front}, {60, Front, Right}, {45, Right, Right}, {45, Back, Back}} {
		if got := Turn(Piece(), Up, geom.Vec{}, deg(c.turn)).Word(c.d); got != c.want {
			t.Errorf("%v turned by %v° is called %v, want %v", c.d, c.turn, got, c.want)
		}
	}
}

// A copy of a bar and a bar of a copy are one: what the graph reads of a copy's
// side before its board exists is what the board then has.
func TestMovesAgree(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		b := splayed(t, 30, 8, 5, 4)
		m := Still()
		for range rapid.IntRange(1, 4).Draw(r, "moves") {
			d := Dir(rapid.IntRange(0, 5).Draw(r, "axis"))
			by := float64(rapid.IntRange(-500, 500).Draw(r, "by"))
			switch rapid.IntRange(0, 2).Draw(r, "kind") {
			case 0:
				m = m.Then(Mirror(Piece(), d, by))
			case 1:
				m = m.Then(Turn(Piece(), d, geom.Vec{X: by, Y: 3, Z: 7}, deg(by)))
			default:
				m = m.Then(Shift(Piece().Way(d).Times(by)))
			}
		}
		bar := m.Bar(b.Bar)
		blank, err := Fit(bar, m.End(b.Ends[0]), m.End(b.Ends[1]), 0, nil)
		if err != nil {
			r.Fatal(err)
		}
		one, other := blank.Board(nil, nil), m.Board(b.Board(nil, nil))
		if !SamePlace(one, other) || one.Sides != other.Sides {
			r.Fatalf("sides %v and %v, at %v and %v", one.Sides, other.Sides, one.Pose, other.Pose)
		}
		for s := board.Near; s <= board.Show; s++ {
			p := m.Plane(b.Plane(s))
			if !SamePlane(p, bar.Plane(m.Side(s)), bar.Centre(geom.Vec{})) {
				r.Fatalf("side %d: %v and %v", s, p, bar.Plane(m.Side(s)))
			}
		}
		if !other.Pose.Proper() {
			r.Fatal("a pose that is not proper")
		}
		if err := other.Solid.Check(); err != nil {
			r.Fatal(err)
		}
	})
}

// A group stands where its copies' rooms do: turned, mirrored or moved, and each move
// can be undone. Within a mirrored group the group's own words hold (trap 23).
func TestGroups(t *testing.T) {
	own := Room{At: geom.Vec{X: 100, Y: -20, Z: 0}, Right: geom.Vec{X: 1}, Back: geom.Vec{Y: 1}, Up: geom.Vec{Z: 1}}
	rapid.Check(t, func(r *rapid.T) {
		m := Still()
		for range rapid.IntRange(0, 3).Draw(r, "moves") {
			by := float64(rapid.IntRange(-500, 500).Draw(r, "by"))
			d := Dir(rapid.IntRange(0, 5).Draw(r, "axis"))
			if rapid.Bool().Draw(r, "mirror") {
				m = m.Then(Mirror(own, d, by))
			} else {
				m = m.Then(Turn(own, d, geom.Vec{X: by}, deg(by)).Then(Shift(geom.Vec{Y: by})))
			}
		}
		there := m.Room(own)
		carried := Carry(own, there)
		p := geom.Vec{X: 3, Y: -40, Z: 77}
		if d := carried.Point(p).Distance(m.Point(p)); d > 1e-9 || carried.Mirrors() != m.Mirrors() {
			r.Fatalf("carried to its copy's room a point lies %v off", d)
		}
		if d := m.Undone().Point(m.Point(p)).Distance(p); d > 1e-9 {
			r.Fatalf("undone, a point lies %v off", d)
		}
		for d := Left; d <= Up; d++ { // 25 right of the group's middle, in the group or in its copy
			one, other := m.Plane(own.Plane(d, 25)), there.Plane(d, 25)
			if !SamePlane(one, other, m.Point(own.At)) {
				r.Fatalf("%v of the group is %v, of the copy's room %v", d, one, other)
			}
			if at := there.Coordinate(m.Point(p), d); math.Abs(at-own.Coordinate(p, d)) > 1e-9 {
				r.Fatalf("a point reads %v in the copy's room", at)
			}
		}
	})
	if got := Mean([]geom.Vec{{X: 1}, {X: 2, Y: 6}, {Z: -3}}); got.Distance(geom.Vec{X: 1, Y: 2, Z: -1}) > 1e-12 {
		t.Errorf("home point of a group: %v", got)
	}
	// Two uses of one group, the second mirrored: what lies left in the one lies right in
	// the other, and the hinge stays on the group's own left.
	right := Carry(own, Mirror(Piece(), Right, 0).Room(own))
	if !right.Mirrors() || right.Word(Left) != Right || right.Word(Front) != Front {
		t.Errorf("a mirrored group's left looks %v", right.Word(Left))
	}
}

func TestMarksAndSteps(t *testing.T) {
	b := level(t, 3.5, 1.5)
	side, target := b.Plane(board.Show), Piece().Plane(Back, 12*inch)
	m := must[Move](t)(ShiftOnto(Piece(), side, target, Back))
	near(t, "moved back", m.At.Y/inch, 12, 1e-12)
	_, err := ShiftOnto(Piece(), side, target, Right)
	fault(t, "along the side", err, NoCrossing)
	_, err = ShiftOnto(Piece(), side, right(3), Right)
	fault(t, "askew", err, NeedsLevel)

	at := must[[]float64](t)(Steps(48*inch, 16*inch))
	if len(at) != 4 {
		t.Fatalf("every 16 in to 48 in: %v, want 0, 16, 32 and 48 in", at)
	}
	near(t, "the last", at[3]/inch, 48, 1e-12)
	if at := must[[]float64](t)(Steps(47.9*inch, 16*inch)); len(at) != 3 {
		t.Errorf("every 16 in to 47.9 in: %d, want 3", len(at))
	}
	_, err = Steps(100, 0)
	fault(t, "no step", err, NoStep)
	_, err = Steps(1e6, 1)
	fault(t, "a million", err, TooMany)
}

func TestHomeAndFurthest(t *testing.T) {
	b := splayed(t, 30, 8, 5, 4)
	top := Piece().Plane(Up, 30*inch)
	home := b.Home(Piece(), &top)
	near(t, "height of the home point", home.Z/inch, 30, 1e-9)
	lr, fb := Mirror(Piece(), Right, 400), Mirror(Piece(), Front, 300)
	homes := []geom.Vec{home, lr.Point(home), fb.Point(home), fb.Point(lr.Point(home))}
	for _, c := range []struct {
		d    Dir
		want []int
	}{{Left, []int{0, 2}}, {Right, []int{1, 3}}, {Front, []int{0, 1}}, {Back, []int{2, 3}}, {Up, []int{0, 1, 2, 3}}} {
		got := Furthest(homes, Piece(), c.d)
		if len(got) != len(c.want) || got[0] != c.want[0] || got[1] != c.want[1] {
			t.Errorf("furthest %v: %v, want %v", c.d, got, c.want)
		}
	}
}
