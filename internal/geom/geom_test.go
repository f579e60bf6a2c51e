package geom

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func drawVec(t *rapid.T, name string) Vec {
	f := rapid.Float64Range(-1000, 1000)
	return Vec{f.Draw(t, name+" x"), f.Draw(t, name+" y"), f.Draw(t, name+" z")}
}

func TestPoses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, q := drawPose(t), drawPose(t)
		v := drawVec(t, "v")
		h := Facing(drawVec(t, "on"), drawVec(t, "n").Plus(Vec{0, 0, 2000}))
		same := func(what string, a, b float64) {
			if math.Abs(a-b) > 1e-9 { // 1000 mm, ten roundings of 1e-13
				t.Fatalf("%s: %v is not %v", what, a, b)
			}
		}
		same("in of out", p.In(p.Out(v)).Distance(v), 0)
		same("out of of", p.Of(q).Out(v).Distance(p.Out(q.Out(v))), 0)
		same("from undoes of", q.Of(p.From(q)).Out(v).Distance(p.Out(v)), 0)
		same("a plane keeps its distances", p.OutPlane(h).Over(p.Out(v)), h.Over(v))
		same("a plane comes back", p.InPlane(p.OutPlane(h)).Over(v), h.Over(v))
		same("foot", h.Over(h.Foot(v)), 0)
		if !p.Of(q).Proper() || (Pose{X: p.X, Y: p.Y, Z: p.Z.Negated()}).Proper() {
			t.Fatalf("a product of poses is proper, a mirrored one is not")
		}
	})
}

func TestTurned(t *testing.T) {
	for _, c := range []struct {
		axis  Vec
		angle float64
		from  Vec
		to    Vec
		says  string
	}{
		{Vec{0, 0, 2}, math.Pi / 2, Vec{1, 0, 5}, Vec{0, 1, 5}, "x to y about z"},
		{Vec{1, 0, 0}, math.Pi / 2, Vec{0, 1, 0}, Vec{0, 0, 1}, "y to z about x"},
		{Vec{1, 1, 1}, 2 * math.Pi / 3, Vec{1, 2, 3}, Vec{3, 1, 2}, "a third about the diagonal swaps axes round"},
	} {
		if got := Turned(c.axis, c.angle).Out(c.from); got.Distance(c.to) > 1e-12 {
			t.Errorf("%s: %v, want %v", c.says, got, c.to)
		}
	}
}

func TestPlanes(t *testing.T) {
	x, y, z := Plane{Vec{1, 0, 0}, 3}, Plane{Vec{0, -1, 0}, 4}, Plane{Vec{0, 0.6, 0.8}, 2}
	if at, ok := Meet(x, y, z); !ok || at.Distance(Vec{3, -4, 5.5}) > 1e-12 {
		t.Errorf("three planes meet at %v, %v; by hand at 3, -4, 5.5", at, ok)
	}
	if _, ok := Meet(x, x.Flipped(), y); ok {
		t.Error("two faces of one plane meet a third in no point")
	}
	at, way, ok := Line(x, y)
	if !ok || math.Abs(x.Over(at)) > 1e-12 || math.Abs(y.Over(at)) > 1e-12 || math.Abs(math.Abs(way.Z)-1) > 1e-12 {
		t.Errorf("x = 3 and y = -4 share the line %v + t %v, %v", at, way, ok)
	}
	if s, ok := x.Hit(Vec{1, 0, 0}, Vec{4, 1, 0}); !ok || s != 0.5 {
		t.Errorf("from x = 1, half of a step of 4 reaches x = 3; got %v, %v", s, ok)
	}
	if _, ok := x.Hit(Vec{}, Vec{0, 1, 1}); ok {
		t.Error("a line along a plane hits it nowhere")
	}
	if h := Through(Vec{0, 0, 1}, Vec{1, 0, 1}, Vec{0, 1, 1}); h != (Plane{Vec{0, 0, 1}, 1}) {
		t.Errorf("counter-clockwise from above is the plane z = 1 facing up, not %v", h)
	}
	a, b := Vec{0, 0, 0}, Vec{10, 0, 0}
	for p, want := range map[Vec]Vec{{4, 3, 0}: {4, 0, 0}, {-4, 3, 0}: a, {14, 3, 0}: b} {
		if got := NearestOn(a, b, p); got != want {
			t.Errorf("nearest to %v is %v, want %v", p, got, want)
		}
	}
}

// block3 returns an uncut board of a size in mm at a place.
func block3(size, at Vec) Placed {
	var s Saw
	s.Blank(size.X, size.Y, size.Z)
	return Placed{s.Solid(), Unmoved().Moved(at)}
}

// Two blocks of 100 × 50 × 20, the second moved.
func TestHowBlocksMeet(t *testing.T) {
	a := block3(Vec{100, 50, 20}, Vec{})
	for _, c := range []struct {
		says  string
		at    Vec
		kind  Kind
		count int
		area  float64
		apart float64
		line  float64
		depth float64 // of an overlap
		near  float64 // of a gap
	}{
		{says: "on top", at: Vec{0, 0, 20}, count: 1, area: 5000},
		{says: "half on top, 1/1000 in up", at: Vec{50, 0, 20.0254 - 0.006}, count: 1, area: 2500, apart: 0.0194},
		{says: "0.015 mm in is contact; what to make of the overlap is for others", at: Vec{0, 0, 19.985}, count: 1, area: 5000, apart: -0.015, depth: 0.015},
		{says: "a clash", at: Vec{99, 0, 0}, depth: 1},
		{says: "a film apart", at: Vec{0, 0, 20.3}, near: 0.3},
		{says: "too far to be a mistake", at: Vec{0, 0, 20.51}},
		{says: "edge to edge", at: Vec{30, 50, 20}, kind: AlongLine, count: 1, line: 70},
		{says: "corner to corner", at: Vec{100, 50, 20}, kind: AtPoint, count: 1},
		{says: "a corner that misses", at: Vec{100.6, 50, 20}},
	} {
		b := block3(Vec{100, 50, 20}, c.at)
		got := Contacts(a, b)
		if len(got) != c.count {
			t.Errorf("%s: %d contacts, want %d", c.says, len(got), c.count)
			continue
		}
		if c.count > 0 {
			g := got[0]
			if g.Kind != c.kind || math.Abs(g.Area-c.area) > 1e-9 || math.Abs(g.Apart-c.apart) > 1e-9 ||
				math.Abs(g.Length-c.line) > 2*Touch {
				t.Errorf("%s: %+v", c.says, g)
			}
		}
		clash, ok := Overlap(a, b)
		if ok != (c.depth > 0) || math.Abs(clash.Depth-c.depth) > 1e-9 {
			t.Errorf("%s: overlap %v mm deep, want %v", c.says, clash.Depth, c.depth)
		}
		if gap, ok := Near(a, b); ok != (c.near > 0) || math.Abs(gap.Apart-c.near) > 1e-9 {
			t.Errorf("%s: %v mm apart, want %v", c.says, gap.Apart, c.near)
		}
	}
}

func TestContactNamesBothFaces(t *testing.T) {
	a := block3(Vec{100, 50, 20}, Vec{})
	b := block3(Vec{100, 50, 20}, Vec{-100, 10, 5})
	got := Contacts(a, b)
	if len(got) != 1 {
		t.Fatalf("%d contacts, want 1", len(got))
	}
	c := got[0]
	if c.A != XLow || c.B != XHigh || c.Plane.N != (Vec{-1, 0, 0}) {
		t.Errorf("the first board's end %d, the second's end %d, normal %v; want %d, %d, toward −x", c.A, c.B, c.Plane.N, XLow, XHigh)
	}
	if want := (Vec{0, 30, 12.5}); c.Middle.Distance(want) > 1e-9 {
		t.Errorf("40 × 15 mm round %v, want %v", c.Middle, want)
	}
}

// A board with a square hole through its middle has one face with two loops.
func TestInnerLoop(t *testing.T) {
	var s Saw
	s.Blank(100, 60, 20)
	s.Remove(BoxPlanes(Unmoved().Moved(Vec{40, 20, -1}), Vec{20, 20, 22}), []Tag{10, 11, 12, 13, 14, 15})
	solid := s.Solid()
	if err := solid.Check(); err != nil {
		t.Fatal(err)
	}
	for _, f := range solid.Faces {
		want := 1
		if f.Tag == ZLow || f.Tag == ZHigh {
			want = 2
		}
		if len(f.Loops) != want {
			t.Errorf("face %d has %d loops, want %d", f.Tag, len(f.Loops), want)
		}
	}
	if want := 100*60*20 - 20*20*20.0; math.Abs(solid.Volume-want) > 1e-6 {
		t.Errorf("volume %v mm³, by hand %v", solid.Volume, want)
	}
	// A slab over the hole touches all round it: one contact, the hole in it.
	lid := Placed{block3(Vec{100, 60, 20}, Vec{}).Solid, Unmoved().Moved(Vec{0, 0, 20})}
	got := Contacts(Placed{solid, Unmoved()}, lid)
	if len(got) != 1 || len(got[0].Loops) != 2 || math.Abs(got[0].Area-5600) > 1e-6 {
		t.Errorf("the lid touches on %+v, want 5600 mm² with a hole", got)
	}
	runs := solid.Through(Vec{-10, 30, 10}, Vec{1, 0, 0})
	if len(runs) != 2 || runs[0] != [2]float64{10, 50} || runs[1] != [2]float64{70, 110} {
		t.Errorf("a line along the middle runs through wood at %v, want 10–50 and 70–110", runs)
	}
	if runs := solid.Through(Vec{-10, 10, 10}, Vec{1, 0, 0}); len(runs) != 1 {
		t.Errorf("a line beside the hole runs through wood at %v, want one stretch", runs)
	}
}

func TestCutsThatPartABoard(t *testing.T) {
	var s Saw
	s.Blank(100, 50, 20)
	s.Remove(BoxPlanes(Unmoved().Moved(Vec{40, -1, -1}), Vec{20, 52, 22}), []Tag{10, 11, 12, 13, 14, 15})
	if solid := s.Solid(); solid.Bodies != 2 || solid.Check() == nil || solid.closed() != nil {
		t.Errorf("%d bodies, want 2, closed, and an error", solid.Bodies)
	}
	s.Keep(Plane{Vec{1, 0, 0}, -5}, 20)
	if solid := s.Solid(); solid.Bodies != 0 || solid.Volume != 0 || len(solid.Faces) != 0 {
		t.Errorf("nothing is left, not %d bodies of %v mm³", solid.Bodies, solid.Volume)
	}
}

// The board's frame does not matter: placed anywhere, its extents follow.
func TestExtent(t *testing.T) {
	p := block3(Vec{100, 50, 20}, Vec{7, 8, 9})
	p.Pose = Turned(Vec{0, 0, 1}, math.Pi/2).Moved(Vec{7, 8, 9})
	if low, high := p.Extent(Vec{1, 0, 0}); math.Abs(low+43) > 1e-9 || math.Abs(high-7) > 1e-9 {
		t.Errorf("turned a quarter it spans %v to %v along x, want -43 to 7", low, high)
	}
	if low, high := p.Solid.Extent(Vec{0, 1, 0}); low != 0 || high != 50 {
		t.Errorf("the board is %v to %v wide, want 0 to 50", low, high)
	}
	if m := p.Middle(); m.Distance(Vec{-18, 58, 19}) > 1e-9 {
		t.Errorf("its middle is at %v, want -18, 58, 19", m)
	}
}

// Pairs against all pairs.
func TestPairs(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var boxes []Box
		for range rapid.IntRange(0, 40).Draw(t, "boxes") {
			var c [6]int
			for k := range c {
				c[k] = rapid.IntRange(0, 8).Draw(t, "at")
			}
			low := Vec{float64(c[0]), float64(c[1]), float64(c[2])}
			boxes = append(boxes, Box{low, low.Plus(Vec{float64(c[3]), float64(c[4]), float64(c[5])})})
		}
		reach := rapid.SampledFrom([]float64{-1, 0, 0.5, 1}).Draw(t, "reach")
		var want [][2]int
		for i := range boxes {
			for j := i + 1; j < len(boxes); j++ {
				if boxes[i].Meets(boxes[j], reach) {
					want = append(want, [2]int{i, j})
				}
			}
		}
		got := Pairs(boxes, reach)
		if len(got) != len(want) {
			t.Fatalf("%d pairs, want %d", len(got), len(want))
		}
		for i := range got {
			if got[i] != want[i] {
				t.Fatalf("pair %d is %v, want %v", i, got[i], want[i])
			}
		}
	})
}

// A seam that a later cut bares takes that cut's tag.
func TestTagOfABaredSeam(t *testing.T) {
	var s Saw
	s.Blank(100, 50, 20)
	notch := func(low, high Vec, first Tag) {
		s.Remove(BoxPlanes(Unmoved().Moved(low), high.Minus(low)), []Tag{first, first + 1, first + 2, first + 3, first + 4, first + 5})
	}
	notch(Vec{-1, -1, -1}, Vec{40, 20, 21}, 10) // leaves a seam at x = 40, y > 20
	notch(Vec{40, -1, -1}, Vec{101, 51, 21}, 20)
	solid := s.Solid()
	if err := solid.Check(); err != nil {
		t.Fatal(err)
	}
	want := map[Tag]float64{XLow: 30 * 20, YHigh: 40 * 20, ZLow: 40 * 30, ZHigh: 40 * 30, 13: 40 * 20, 20: 30 * 20}
	for _, f := range solid.Faces {
		if area := areaVec(f.Loops[0]).Dot(f.Plane.N); math.Abs(area-want[f.Tag]) > 1e-9 {
			t.Errorf("face tagged %d has %v mm², want %v", f.Tag, area, want[f.Tag])
		}
		delete(want, f.Tag)
	}
	if len(want) > 0 {
		t.Errorf("faces missing: %v", want)
	}
}

// Wedges taken one after another turn an end into a fan of many faces, as a
// rounded end is made: a prism may have any number of planes.
func TestManySidedPrism(t *testing.T) {
	const sides = 90
	var round []Plane
	var tags []Tag
	for i := range sides {
		n := Turned(Vec{0, 0, 1}, 2*math.Pi*float64(i)/sides).Out(Vec{1, 0, 0})
		round = append(round, Facing(Vec{50, 25, 0}.Along(n, 10), n))
		tags = append(tags, FirstCut+Tag(i))
	}
	var s Saw
	s.Blank(100, 50, 20)
	s.Remove(round, tags)
	solid := s.Solid()
	if err := solid.Check(); err != nil {
		t.Fatal(err)
	}
	if len(solid.Faces) != 6+sides {
		t.Errorf("%d faces, want 6 and one for each of %d sides", len(solid.Faces), sides)
	}
	// A polygon round a circle of radius r has the area n r² tan(π/n).
	if want := 20 * (100*50 - sides*100*math.Tan(math.Pi/sides)); math.Abs(solid.Volume-want) > 1e-6 {
		t.Errorf("volume %v mm³, want %v", solid.Volume, want)
	}
}

func TestConvex(t *testing.T) {
	var c Convex
	up := Vec{0, 0, 1}
	square := func(x, y, size float64) []Vec {
		return []Vec{{x, y, 0}, {x + size, y, 0}, {x + size, y + size, 0}, {x, y + size, 0}}
	}
	rest := c.Without(nil, square(0, 0, 10), square(4, 4, 2), up)
	loops := c.Outline(rest, up)
	area := 0.0
	for _, l := range loops {
		area += areaVec(l).Z
	}
	if len(loops) != 2 || len(loops[0])+len(loops[1]) != 8 || area != 96 {
		t.Errorf("a square less one in its middle is %v, want two loops of four corners round 96 mm²", loops)
	}
	if got := c.Without(nil, square(0, 0, 10), square(10, 0, 10), up); len(got) != 1 || len(got[0]) != 4 {
		t.Errorf("less a neighbour it stays as it is, not %v", got)
	}
	if got := c.Inside(square(0, 0, 10), Plane{Vec{1, 0, 0}, 0}); got != nil {
		t.Errorf("what only touches a half plane is not inside: %v", got)
	}
}
