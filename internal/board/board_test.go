package board

import (
	"math"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"scantling/internal/geom"
	"scantling/internal/measure"
	"scantling/internal/steady"
)

const inch = 25.4

// rail is a 3 1/2 × 1 1/2 board 30 in long with a mitred end, a taper on its Far
// edge, a notch in its Near edge, a hole and a rounded arris.
func rail() *Board {
	b := &Board{L: 30 * inch, W: 3*measure.Inch + measure.Inch/2, T: measure.Inch + measure.Inch/2,
		Rip:   Near,
		Pose:  geom.Turned(geom.Vec{X: 1, Y: 2, Z: 3}, 0.7).Moved(geom.Vec{X: 100, Y: -40, Z: 500}),
		Sides: [6]string{"left", "right", "bottom", "top", "back", "front"}}
	b.Cuts = []Cut{
		{Kind: EndCut, Side: Start, Square: true, Plane: geom.Plane{N: geom.Vec{X: -1}}},
		{Kind: EndCut, Side: Finish, Plane: geom.Facing(geom.Vec{X: 30 * inch}, geom.Vec{X: 1, Y: 0.5, Z: 0.25})},
		{Kind: Taper, Side: Far, Name: "slim", Plane: geom.Facing(geom.Vec{X: 10 * inch, Y: 3.5 * inch}, geom.Vec{X: -0.05, Y: 1})},
		{Kind: Notch, Side: Show, Name: "clear", Waste: []geom.Plane{
			{N: geom.Vec{X: -1}, D: -15 * inch}, {N: geom.Vec{X: 1}, D: 18 * inch}, {N: geom.Vec{Y: 1}, D: inch}},
			Low: geom.Vec{X: 15 * inch}, High: geom.Vec{X: 18 * inch, Y: inch, Z: 1.5 * inch}, Open: []Side{Near}},
	}
	b.Holes = []Hole{{At: geom.Vec{X: 50, Y: 20, Z: 38.1}, Way: geom.Vec{Z: -1}, Diameter: 8}}
	b.Edges = []Edge{{Work: Round, Size: measure.Inch / 4, Along: []Arris{NewArris(Show, Near), NewArris(Near, Start)}}}
	b.Build()
	return b
}

func TestBuild(t *testing.T) {
	b := rail()
	for _, s := range []*geom.Solid{b.Wood, b.Solid} {
		if err := s.Check(); err != nil {
			t.Fatal(err)
		}
	}
	if gone := b.Wood.Volume - b.Solid.Volume; math.Abs(gone-3*1*1.5*inch*inch*inch) > 1e-6 {
		t.Errorf("the notch takes %v mm³, want 3 × 1 × 1 1/2 in (by hand)", gone)
	}
	for i, c := range b.Cuts {
		found := slices.ContainsFunc(b.Solid.Faces, func(f geom.Face) bool { return f.Tag == TagOf(i) })
		if found == c.Square {
			t.Errorf("cut %d (%v): faces of its own: %v", i, c.Kind, found)
		}
		if b.CutAt(TagOf(i)).Name != c.Name {
			t.Errorf("cut %d is not found by its tag", i)
		}
	}
	if b.CutAt(geom.YLow) != nil {
		t.Error("a side of the blank was made by no cut")
	}
	none := &Board{}
	none.Build()
	if none.Solid != nil {
		t.Error("a board without length has a solid")
	}
}

// A mirror image has the mirrored wood in a proper pose, and its image is the
// board again.
func TestMirrored(t *testing.T) {
	b := rail()
	rapid.Check(t, func(r *rapid.T) {
		n := geom.Vec{X: rapid.Float64Range(-1, 1).Draw(r, "x"), Y: rapid.Float64Range(-1, 1).Draw(r, "y"), Z: 1}
		about := geom.Facing(geom.Vec{X: rapid.Float64Range(-500, 500).Draw(r, "at")}, n)
		image := b.Mirrored(about)
		if !image.Pose.Proper() {
			r.Fatal("a pose that is not proper")
		}
		middle := b.Placed().Middle()
		want := middle.Along(about.N, -2*about.Over(middle))
		if d := image.Placed().Middle().Distance(want); d > 1e-9 {
			r.Fatalf("centre of mass %v mm off the image's", d)
		}
		if math.Abs(image.Solid.Volume-b.Solid.Volume) > 1e-12*b.Solid.Volume {
			r.Fatalf("volume %v, image %v", b.Solid.Volume, image.Solid.Volume)
		}
		again := image.Mirrored(about)
		if d := again.Pose.At.Distance(b.Pose.At); d > 1e-9 {
			r.Fatalf("the image's image lies %v mm off", d)
		}
		again.Pose, again.Wood, again.Solid = b.Pose, b.Wood, b.Solid
		near := cmp.Comparer(func(x, y float64) bool { return math.Abs(x-y) <= 1e-9 })
		if d := cmp.Diff(b, again, near, cmp.AllowUnexported(b.Cuts[0].From)); d != "" {
			r.Fatal(d)
		}
	})
	image := b.Mirrored(geom.Plane{N: geom.Vec{X: 1}})
	switch {
	case image.Rip != Far, image.Cuts[2].Side != Near, image.Cuts[3].Open[0] != Far:
		t.Error("Near and Far change places")
	case image.Edges[0].Along[0] != NewArris(Far, Show), image.Edges[0].Along[1] != NewArris(Start, Far):
		t.Error("worked edges go along:", image.Edges[0].Along)
	case image.Sides[Near] != "top":
		t.Error("the words of the sides go along:", image.Sides)
	case image.Holes[0].At.Y != 3.5*inch-20:
		t.Error("holes go along:", image.Holes)
	}
}

func TestMovedSharesItsWood(t *testing.T) {
	b := rail()
	by := geom.Turned(geom.Vec{Z: 1}, 1).Moved(geom.Vec{X: 30})
	c := b.Moved(by)
	if c.Solid != b.Solid || c == b {
		t.Error("a moved board is a new board with the same solid")
	}
	if d := c.Placed().Middle().Distance(by.Out(b.Placed().Middle())); d > 1e-9 {
		t.Errorf("centre of mass %v mm off", d)
	}
}

func TestSetting(t *testing.T) {
	for _, c := range []struct {
		n            geom.Vec
		mitre, bevel float64 // degrees
		source       string
	}{
		{geom.Vec{X: 1}, 0, 0, "a square cut"},
		{geom.Vec{X: 1, Y: 1}, 45, 0, "by hand"},
		{geom.Vec{X: -1, Y: 1}, 45, 0, "by hand: the other end, waste still toward Far"},
		{geom.Vec{X: 1, Y: -1}, -45, 0, "by hand"},
		{geom.Vec{X: 1, Z: -1}, 0, -45, "by hand"},
		{geom.Vec{X: 1, Y: 1, Z: 1}, 45, 35.264, "the cube's corner: asin 1/√3"},
	} {
		m, v := Setting(geom.Plane{N: c.n.Unit()})
		if math.Abs(m*180/math.Pi-c.mitre) > 1e-3 || math.Abs(v*180/math.Pi-c.bevel) > 1e-3 {
			t.Errorf("%v: mitre %v, bevel %v, want %v and %v (%s)", c.n, m*180/math.Pi, v*180/math.Pi, c.mitre, c.bevel, c.source)
		}
		// The plane the blade cuts when so set is the plane asked for.
		blade := geom.Vec{X: steady.Cos(v) * steady.Cos(m), Y: steady.Cos(v) * steady.Sin(m), Z: steady.Sin(v)}
		want := c.n.Unit()
		want.X = math.Abs(want.X)
		if blade.Distance(want) > 1e-12 {
			t.Errorf("%v: the blade cuts %v", c.n, blade)
		}
	}
}

// Trimming takes wood off the ends and moves nothing else in the piece.
func TestTrim(t *testing.T) {
	b := rail()
	before := b.Pose.Out(b.Cuts[3].Low)
	taper := b.Pose.OutPlane(b.Cuts[2].Plane)
	b.Trim(2*inch, 25*inch)
	b.Build()
	if err := b.Solid.Check(); err != nil {
		t.Fatal(err)
	}
	if b.L != 23*inch {
		t.Errorf("length %v mm, want 23 in", b.L)
	}
	if d := b.Pose.Out(b.Cuts[3].Low).Distance(before); d > 1e-9 {
		t.Errorf("the notch moved %v mm", d)
	}
	if p := b.Pose.OutPlane(b.Cuts[2].Plane); math.Abs(p.D-taper.D) > 1e-9 {
		t.Errorf("the taper moved %v mm", p.D-taper.D)
	}
	ends := append(b.End(Start), b.End(Finish)...)
	if len(ends) != 2 || !ends[0].Square || !ends[1].Square {
		t.Errorf("ends %v, want two square ones", ends)
	}
}

func TestSides(t *testing.T) {
	b := rail()
	if s, ok := b.Named("top"); !ok || s != Far {
		t.Errorf("top is side %d", s)
	}
	if _, ok := b.Named("under"); ok {
		t.Error("no side is called under")
	}
	for s := Start; s <= Show; s++ {
		kinds := 0
		for _, is := range []bool{s.IsEnd(), s.IsEdge(), s.IsFace()} {
			if is {
				kinds++
			}
		}
		if kinds != 1 || s.Opposite().Out() != s.Out().Negated() {
			t.Errorf("side %d", s)
		}
	}
}
