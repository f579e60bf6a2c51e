package setout

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"scantling/internal/board"
	"scantling/internal/geom"
	"scantling/internal/measure"
)

// slat is a board 27 × 5 1/2 × 1 in, its corner at the piece's origin: it runs
// right and faces up, so Near is its front edge.
func slat() *board.Board {
	b := &board.Board{L: 27 * inch, W: 5*measure.Inch + measure.Inch/2, T: measure.Inch, Pose: geom.Unmoved(),
		Sides: [6]string{"left", "right", "front", "back", "bottom", "top"}}
	for s := board.Start; s <= board.Finish; s++ {
		b.Cuts = append(b.Cuts, board.Cut{Kind: board.EndCut, Side: s, Square: true})
	}
	b.Build()
	return b
}

// block is a block of wood from (x0, y0, z0) to (x1, y1, z1), in inches, or the
// same leaned about the y axis through its foot.
func block(x0, x1, y0, y1, z0, z1 float64) geom.Placed { return leaned(0, x0, x1, y0, y1, z0, z1) }

func leaned(lean, x0, x1, y0, y1, z0, z1 float64) geom.Placed {
	var saw geom.Saw
	saw.Blank((x1-x0)*inch, (y1-y0)*inch, (z1-z0)*inch)
	pose := geom.Turned(geom.Vec{Y: 1}, lean)
	pose.At = geom.Vec{X: x0 * inch, Y: y0 * inch, Z: z0 * inch}
	return geom.Placed{Solid: saw.Solid(), Pose: pose}
}

func TestNotchRound(t *testing.T) {
	far := board.Far
	for _, c := range []struct {
		what   string
		round  geom.Placed
		n      Notching
		gone   float64  // in³ of wood taken out
		low    geom.Vec // in: the cut's box
		high   geom.Vec
		open   []board.Side
		source string
	}{
		{"from the front edge", block(2, 5, -1, 2, -9, 9), Notching{Clearance: inch / 8}, 3.25 * 2.125,
			geom.Vec{X: 1.875}, geom.Vec{X: 5.125, Y: 2.125, Z: 1}, []board.Side{board.Near}, "by hand: 1/8 in all round"},
		{"a thin strip goes too", block(2, 5, 0.25, 2.25, -9, 9), Notching{}, 3 * 2.25,
			geom.Vec{X: 2}, geom.Vec{X: 5, Y: 2.25, Z: 1}, []board.Side{board.Near}, "rule 20: 1/4 in < 1/2 in"},
		{"the least wood", block(0.25, 5, 0.75, 2.25, -9, 9), Notching{}, 5 * 1.5,
			geom.Vec{Y: 0.75}, geom.Vec{X: 5, Y: 2.25, Z: 1}, []board.Side{board.Start}, "by hand: 1/4 × 1 1/2 at the end, 3/4 × 4 3/4 at the edge"},
		{"a corner", block(-1, 2, -1, 2, -9, 9), Notching{Clearance: inch / 8}, 2.125 * 2.125,
			geom.Vec{}, geom.Vec{X: 2.125, Y: 2.125, Z: 1}, []board.Side{board.Start, board.Near}, "by hand"},
		{"a hole", block(10, 13, 1, 3, -9, 9), Notching{Hole: true}, 3 * 2,
			geom.Vec{X: 10, Y: 1}, geom.Vec{X: 13, Y: 3, Z: 1}, nil, "by hand"},
		{"opened as told", block(10, 13, 1, 3, -9, 9), Notching{Open: &far}, 3 * 4.5,
			geom.Vec{X: 10, Y: 1}, geom.Vec{X: 13, Y: 5.5, Z: 1}, []board.Side{board.Far}, "by hand"},
		{"a near miss is cleared", block(2, 5, -3, -1.0/16, -9, 9), Notching{Clearance: inch / 8}, 3.25 / 16,
			geom.Vec{X: 1.875}, geom.Vec{X: 5.125, Y: 1.0 / 16, Z: 1}, []board.Side{board.Near}, "by hand: 1/8 less the 1/16 there is"},
		{"let in from above", block(2, 5, -1, 7, 0.5, 5), Notching{}, 3 * 5.5 * 0.5,
			geom.Vec{X: 2, Z: 0.5}, geom.Vec{X: 5, Y: 5.5, Z: 1}, []board.Side{board.Near, board.Far}, "by hand: a housing 1/2 in deep"},
		{"let in from below, stopped", block(2, 5, 2, 7, -3, 0.25), Notching{}, 3 * 3.5 * 0.25,
			geom.Vec{X: 2, Y: 2}, geom.Vec{X: 5, Y: 5.5, Z: 0.25}, []board.Side{board.Far}, "by hand"},
		{"mortised into the edge", block(2, 5, -2, 1, 0.25, 0.75), Notching{}, 3 * 1 * 0.5,
			geom.Vec{X: 2, Z: 0.25}, geom.Vec{X: 5, Y: 1, Z: 0.75}, nil, "by hand: enters the front edge alone"},
	} {
		b := slat()
		c.n.Name = "clear"
		got := NotchRound(b, []geom.Placed{c.round}, c.n)
		if len(got.Cuts) != 1 || len(got.Faults) != 0 {
			t.Errorf("%s: %d cuts, faults %v", c.what, len(got.Cuts), got.Faults)
			continue
		}
		cut := got.Cuts[0]
		if f := AddCuts(b, got); len(f) != 0 {
			t.Errorf("%s: faults %v", c.what, f)
		}
		near(t, c.what+": wood taken", 27*5.5-b.Solid.Volume/(inch*inch*inch), c.gone, 1e-9)
		near(t, c.what+": low", cut.Low.Distance(c.low.Times(inch)), 0, 1e-9)
		near(t, c.what+": high", cut.High.Distance(c.high.Times(inch)), 0, 1e-9)
		if !slices.Equal(cut.Open, c.open) {
			t.Errorf("%s: open at %v, want %v (%s)", c.what, cut.Open, c.open, c.source)
		}
		if err := b.Solid.Check(); err != nil {
			t.Errorf("%s: %v", c.what, err)
		}
		if b.CutAt(board.TagOf(2)).Name != "clear" {
			t.Errorf("%s: the cut's faces are not tagged with it", c.what)
		}
	}
}

func TestHousingSides(t *testing.T) {
	for _, c := range []struct {
		round geom.Placed
		side  board.Side
		depth float64 // in
	}{
		{block(2, 5, -1, 7, 0.5, 5), board.Show, 0.5},
		{block(2, 5, -1, 7, -5, 0.375), board.Under, 0.375},
		{block(2, 5, -2, 1, 0.25, 0.75), board.Near, 1},
		{block(26, 29, 1, 3, 0.25, 0.75), board.Finish, 1},
	} {
		got := NotchRound(slat(), []geom.Placed{c.round}, Notching{})
		if len(got.Cuts) != 1 || got.Cuts[0].Kind != board.Housing || got.Cuts[0].Side != c.side {
			t.Errorf("want a housing let into side %d, got %+v", c.side, got.Cuts)
			continue
		}
		near(t, "depth", got.Cuts[0].Depth/inch, c.depth, 1e-9)
	}
}

// Boards that only touch are not notched, whatever the clearance.
func TestTouchingIsNoNotch(t *testing.T) {
	for _, c := range []struct {
		what  string
		round geom.Placed
		clear float64
	}{
		{"a post up to the edge", block(2, 5, -3, 0, -9, 9), inch / 8},
		{"a rail under the board", block(2, 5, -3, 9, -3, 0), inch / 8},
		{"a paper's thickness in", block(2, 5, -3, 0.015/inch, -9, 9), 0},
		{"a post far away", block(2, 5, -30, -20, -9, 9), inch / 8},
		{"the clearance to spare", block(2, 5, -3, -0.125, -9, 9), inch / 8},
	} {
		if got := NotchRound(slat(), []geom.Placed{c.round}, Notching{Clearance: c.clear}); len(got.Cuts)+len(got.Faults) != 0 {
			t.Errorf("%s: %+v", c.what, got)
		}
	}
}

func TestNotchFaults(t *testing.T) {
	for _, c := range []struct {
		what  string
		round []geom.Placed
		kind  FaultKind
		has   float64 // in
		side  board.Side
	}{
		{"1 in left all round", []geom.Placed{block(10, 13, 1, 3, -9, 9)}, Enclosed, 1, board.Near},
		{"a tongue at the far edge", []geom.Placed{block(2, 5, -1, 5.25, -9, 9)}, Tongue, 0.25, board.Far},
		{"a tongue between two", []geom.Placed{block(2, 5, -1, 2, -9, 9), block(5.25, 8, -1, 2, -9, 9)}, Tongue, 0.25, board.Start},
		{"opened where it takes the least wood", []geom.Placed{block(0.25, 5, 0.25, 2.25, -9, 9)}, Tongue, 0.25, board.Near},
		{"parted", []geom.Placed{block(10, 12, -1, 7, -9, 9)}, Parted, 0, 0},
		{"nothing left", []geom.Placed{block(-1, 30, -1, 7, -9, 9)}, Gone, 0, 0},
	} {
		b := slat()
		got := NotchRound(b, c.round, Notching{})
		all := append(got.Faults, AddCuts(b, got)...)
		if len(all) != 1 || all[0].Kind != c.kind || all[0].Side != c.side {
			t.Errorf("%s: faults %v", c.what, all)
			continue
		}
		near(t, c.what, all[0].Has/inch, c.has, 1e-9)
	}
}

// A notch that takes the whole end shortens the board, and what was cut stays
// where it was in the piece.
func TestNotchTakesTheEnd(t *testing.T) {
	b := slat()
	got := NotchRound(b, []geom.Placed{block(-1, 2, -1, 7, -9, 9), block(10, 13, -1, 2, -9, 9), block(25, 30, -1, 9, -9, 9),
		block(0.5, 1.5, -1, 2, -9, 9)}, Notching{Hole: true}) // the last lies in the end that goes
	if got.Ends[0] == nil || got.Ends[1] == nil || len(got.Cuts) != 2 {
		t.Fatalf("got %+v", got)
	}
	if f := AddCuts(b, got); len(f) != 0 || len(b.Cuts) != 3 {
		t.Fatal(f, b.Cuts)
	}
	near(t, "length", b.L/inch, 23, 1e-9)
	near(t, "short", b.Short/inch, 23, 1e-9)
	near(t, "left end", Extent(b, Piece(), Left)/inch, 2, 1e-9)
	near(t, "right end", Extent(b, Piece(), Right)/inch, 25, 1e-9)
	near(t, "notch", b.Pose.Out(b.Cuts[2].Low).X/inch, 10, 1e-9)
	near(t, "volume", b.Solid.Volume/(inch*inch*inch), 23*5.5-3*2, 1e-9)
	if err := b.Solid.Check(); err != nil {
		t.Error(err)
	}
}

// Equal openings: the end, then front, then left; a mirror image opens at the
// mirrored side.
func TestTies(t *testing.T) {
	words := [6]Dir{Left, Right, Front, Back, Down, Up}
	if got := TieOrder(words, false); !slices.Equal(got, []board.Side{board.Start, board.Finish, board.Near, board.Far}) {
		t.Errorf("order %v", got)
	}
	if got := TieOrder(words, true); !slices.Equal(got, []board.Side{board.Start, board.Finish, board.Far, board.Near}) {
		t.Errorf("order of a mirror image %v", got)
	}
	if got := TieOrder([6]Dir{Front, Back, Right, Left, Down, Up}, false); !slices.Equal(got, []board.Side{board.Start, board.Finish, board.Far, board.Near}) {
		t.Errorf("order of a board that runs back %v: left comes before right", got)
	}
	middle := []geom.Placed{block(10, 13, 0.25, 5.25, -9, 9)}
	b := slat()
	got := NotchRound(b, middle, Notching{Ties: TieOrder(words, false)})
	image := b.Mirrored(Piece().Plane(Back, 2.75*inch))
	mirrored := NotchRound(image, middle, Notching{Ties: TieOrder(words, true)})
	if !slices.Contains(got.Cuts[0].Open, board.Near) || !slices.Contains(mirrored.Cuts[0].Open, board.Far) {
		t.Errorf("open at %v and %v, want the front edge of the board and its image", got.Cuts[0].Open, mirrored.Cuts[0].Open)
	}
}

// Where a leaning post comes through, the rectangle holds the whole crossing, and
// following the lean takes only what the post fills.
func TestLeaningPost(t *testing.T) {
	lean := deg(10)
	post := leaned(lean, 10, 13.5, -1, 2, -9, 9)
	square, follow := slat(), slat()
	s := NotchRound(square, []geom.Placed{post}, Notching{})
	f := NotchRound(follow, []geom.Placed{post}, Notching{Follow: true})
	AddCuts(square, s)
	AddCuts(follow, f)
	long := 3.5/math.Cos(lean) + math.Tan(lean) // by hand: the post's breadth on the flat, and its lean through 1 in
	near(t, "rectangle", (s.Cuts[0].High.X-s.Cuts[0].Low.X)/inch, long, 1e-9)
	near(t, "square walls take", (27*5.5 - square.Solid.Volume/(inch*inch*inch)), long*2, 1e-9)
	near(t, "leaning walls take", (27*5.5 - follow.Solid.Volume/(inch*inch*inch)), 3.5/math.Cos(lean)*2, 1e-9)
	if s.Cuts[0].Bevels || !f.Cuts[0].Bevels {
		t.Error("only the notch that follows the lean has bevelled walls")
	}
	clash, ok := geom.Overlap(follow.Placed(), post)
	if ok && clash.Depth > geom.Touch {
		t.Errorf("the post still runs %v mm into its notch", clash.Depth)
	}
}

// A housing round a rail that leans against the grain: 3 1/2 in of rail take
// 3 1/2/cos a along it, at 20° 3.72 in.
func TestSlantedHousing(t *testing.T) {
	b := slat()
	rail := leaned(deg(0), 10, 13.5, -9, 15, 0.5, 5)
	turned := geom.Turned(geom.Vec{Z: 1}, deg(20))
	turned.At = geom.Vec{X: 13 * inch, Y: -9 * inch, Z: 0.5 * inch}
	rail.Pose = turned
	got := NotchRound(b, []geom.Placed{rail}, Notching{})
	if len(got.Cuts) != 1 || got.Cuts[0].Kind != board.Housing {
		t.Fatalf("got %+v", got)
	}
	AddCuts(b, got)
	cut := got.Cuts[0]
	along := 3.5 / math.Cos(deg(20))
	near(t, "along the grain", along, 3.72, 5e-3)
	near(t, "box", (cut.High.X-cut.Low.X)/inch, along+5.5*math.Tan(deg(20)), 1e-9)
	near(t, "volume", 27*5.5-b.Solid.Volume/(inch*inch*inch), along*5.5*0.5, 1e-9)
}

// The mirror image of a board, notched round the mirror images of posts, is the
// mirror image of the notched board.
func TestMirroredNotches(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		eighth := func(name string, low, high int) float64 {
			return float64(rapid.IntRange(low, high).Draw(r, name)) / 8
		}
		x, y := eighth("x", -40, 220), eighth("y", -30, 50)
		w, d := eighth("w", 8, 48), eighth("d", 8, 48)
		lean := float64(rapid.IntRange(-20, 20).Draw(r, "lean"))
		post := leaned(deg(lean), x, x+w, y, y+d, eighth("z0", -60, 8), eighth("z1", 9, 60))
		n := Notching{Clearance: inch / 8, Follow: rapid.Bool().Draw(r, "follow"), Hole: rapid.Bool().Draw(r, "hole"),
			Ties: TieOrder([6]Dir{Left, Right, Front, Back, Down, Up}, false)}
		b := slat()
		about := Piece().Plane(Back, 40)
		image := b.Mirrored(about)
		m := Mirror(Piece(), Back, 40)
		// The post's image: its box turned over, in a proper pose.
		other := post
		corner := post.Pose.Out(geom.Vec{Y: d * inch})
		other.Pose = geom.Pose{X: m.Way(post.Pose.X), Y: m.Way(post.Pose.Y).Negated(), Z: m.Way(post.Pose.Z), At: m.Point(corner)}

		got := NotchRound(b, []geom.Placed{post}, n)
		n.Ties = TieOrder([6]Dir{Left, Right, Front, Back, Down, Up}, true)
		want := NotchRound(image, []geom.Placed{other}, n)
		if len(got.Cuts) != len(want.Cuts) || len(got.Faults) != len(want.Faults) {
			r.Fatalf("%+v\nmirrored %+v", got, want)
		}
		AddCuts(b, got)
		AddCuts(image, want)
		b = b.Mirrored(about)
		if math.Abs(b.Solid.Volume-image.Solid.Volume) > 1e-9*b.Solid.Volume || math.Abs(b.L-image.L) > 1e-9 {
			r.Fatalf("volumes %v and %v", b.Solid.Volume, image.Solid.Volume)
		}
		if b.Pose.At.Distance(image.Pose.At) > 1e-9 {
			r.Fatalf("lie at %v and %v", b.Pose.At, image.Pose.At)
		}
		for i := range got.Cuts {
			p, q := b.Cuts[2+i], image.Cuts[2+i]
			if p.Low.Distance(q.Low) > 1e-9 || p.High.Distance(q.High) > 1e-9 || !slices.Equal(p.Open, q.Open) {
				r.Fatalf("cut %d: %+v\nmirrored %+v", i, p, q)
			}
		}
		if b.Solid.Bodies == 1 {
			if err := b.Solid.Check(); err != nil {
				r.Fatal(err)
			}
		}
	})
}
