package geom

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Boards cut on a 1/16 in lattice, where cuts in one plane, through edges and
// through corners are the rule. With upright notches the truth is counted cell by
// cell on the lattice; with slanting cuts identities hold.

const step = inch / 16

// block is a box on the lattice, low to high in steps.
type block struct{ low, high [3]int }

func (b block) planes() []Plane {
	return BoxPlanes(Pose{X: Vec{1, 0, 0}, Y: Vec{0, 1, 0}, Z: Vec{0, 0, 1}, At: at(b.low)}, at(b.high).Minus(at(b.low)))
}

func at(p [3]int) Vec { return Vec{float64(p[0]) * step, float64(p[1]) * step, float64(p[2]) * step} }

// lumber is a blank with blocks taken out.
type lumber struct {
	size    [3]int
	notches []block
}

func drawLumber(t *rapid.T, name string) lumber {
	b := lumber{size: [3]int{
		rapid.IntRange(1, 12).Draw(t, name+" length"),
		rapid.IntRange(1, 8).Draw(t, name+" width"),
		rapid.IntRange(1, 6).Draw(t, name+" thick"),
	}}
	for range rapid.IntRange(0, 5).Draw(t, name+" notches") {
		var n block
		for k := range 3 {
			n.low[k] = rapid.IntRange(-1, b.size[k]).Draw(t, "low")
			n.high[k] = rapid.IntRange(n.low[k]+1, b.size[k]+1).Draw(t, "high")
		}
		b.notches = append(b.notches, n)
	}
	return b
}

func (b lumber) saw(s *Saw) *Solid {
	size := at(b.size)
	s.Blank(size.X, size.Y, size.Z)
	for i, n := range b.notches {
		tag := FirstCut + Tag(6*i)
		s.Remove(n.planes(), []Tag{tag, tag + 1, tag + 2, tag + 3, tag + 4, tag + 5})
	}
	return s.Solid()
}

// wood reports whether the lattice cube at p is wood.
func (b lumber) wood(p [3]int) bool {
	for k := range 3 {
		if p[k] < 0 || p[k] >= b.size[k] {
			return false
		}
	}
	for _, n := range b.notches {
		in := true
		for k := range 3 {
			in = in && n.low[k] <= p[k] && p[k] < n.high[k]
		}
		if in {
			return false
		}
	}
	return true
}

func (b lumber) each(f func(p [3]int)) {
	for x := range b.size[0] {
		for y := range b.size[1] {
			for z := range b.size[2] {
				if p := [3]int{x, y, z}; b.wood(p) {
					f(p)
				}
			}
		}
	}
}

// neighbours returns the six cubes that share a face with p.
func neighbours(p [3]int) (n [6][3]int) {
	for k := range 6 {
		n[k] = p
		n[k][k/2] += k%2*2 - 1
	}
	return n
}

// count returns the number of cubes of wood, of bare cube faces and of bodies.
func (b lumber) count() (cubes, bare, bodies int) {
	seen := map[[3]int]bool{}
	var fill func(p [3]int)
	fill = func(p [3]int) {
		if seen[p] {
			return
		}
		seen[p] = true
		for _, q := range neighbours(p) {
			if b.wood(q) {
				fill(q)
			} else {
				bare++
			}
		}
	}
	b.each(func(p [3]int) {
		cubes++
		if !seen[p] {
			bodies++
			fill(p)
		}
	})
	return cubes, bare, bodies
}

func close9(got, want float64) bool { return math.Abs(got-want) <= 1e-9*math.Max(1, math.Abs(want)) }

func TestNotchedLumber(t *testing.T) {
	var s Saw
	rapid.Check(t, func(t *rapid.T) {
		b := drawLumber(t, "board")
		solid := b.saw(&s)
		cubes, bare, bodies := b.count()
		if err := solid.closed(); err != nil {
			t.Fatal(err)
		}
		if want := float64(cubes) * step * step * step; !close9(solid.Volume, want) {
			t.Fatalf("volume %v mm³, counted %v", solid.Volume, want)
		}
		if solid.Bodies != bodies {
			t.Fatalf("%d bodies, counted %d", solid.Bodies, bodies)
		}
		loops, pieces := 0.0, 0.0
		for _, f := range solid.Faces {
			for _, l := range f.Loops {
				loops += areaVec(l).Dot(f.Plane.N)
			}
			for _, p := range f.Pieces {
				pieces += areaVec(p).Dot(f.Plane.N)
			}
		}
		if want := float64(bare) * step * step; !close9(loops, want) || !close9(pieces, want) {
			t.Fatalf("outer area %v by loops, %v by pieces, counted %v mm²", loops, pieces, want)
		}
	})
}

// drawPose draws a pose in the piece at random, right-handed.
func drawPose(t *rapid.T) Pose {
	axis := Vec{rapid.Float64Range(-1, 1).Draw(t, "axis x"), rapid.Float64Range(-1, 1).Draw(t, "axis y"), 1}
	return Turned(axis, rapid.Float64Range(-4, 4).Draw(t, "turn")).
		Moved(Vec{rapid.Float64Range(-900, 900).Draw(t, "x"), 10, 700})
}

func TestTwoOnTheLattice(t *testing.T) {
	var s Saw
	rapid.Check(t, func(t *rapid.T) {
		a, b := drawLumber(t, "first"), drawLumber(t, "second")
		var shift [3]int
		for k := range 3 {
			shift[k] = rapid.IntRange(-b.size[k]-1, a.size[k]+1).Draw(t, "shift")
		}
		// The second board is turned a quarter about x in the first's frame.
		q := Pose{X: Vec{1, 0, 0}, Y: Vec{0, 0, 1}, Z: Vec{0, -1, 0}, At: at(shift)}
		room := drawPose(t)
		mine, theirs := Placed{a.saw(&s), room}, Placed{b.saw(&s), room.Of(q)}
		cubes, faces := 0, 0
		b.each(func(p [3]int) {
			own := [3]int{p[0] + shift[0], shift[1] - p[2] - 1, shift[2] + p[1]}
			if a.wood(own) {
				cubes++
				return
			}
		})
		b.each(func(p [3]int) {
			// A cube of b bare on a side, with a cube of a there.
			for _, n := range neighbours(p) {
				own := [3]int{n[0] + shift[0], shift[1] - n[2] - 1, shift[2] + n[1]}
				mine := [3]int{p[0] + shift[0], shift[1] - p[2] - 1, shift[2] + p[1]}
				if !b.wood(n) && a.wood(own) && !a.wood(mine) {
					faces++
				}
			}
		})
		clash, ok := Overlap(mine, theirs)
		if ok != (cubes > 0) || !close9(clash.Volume, float64(cubes)*step*step*step) {
			t.Fatalf("share %v mm³, counted %v", clash.Volume, float64(cubes)*step*step*step)
		}
		if ok && (clash.Depth < step*(1-1e-9) || clash.Depth > clash.Box.Size().Length()) {
			t.Fatalf("shared wood is %v mm deep, less than a cube or more than its box", clash.Depth)
		}
		back, _ := Overlap(theirs, mine)
		if !close9(back.Volume, clash.Volume) || !close9(back.Depth, clash.Depth) {
			t.Fatalf("%+v one way round, %+v the other", clash, back)
		}
		area, pieces := 0.0, 0.0
		for _, c := range Contacts(mine, theirs) {
			area += c.Area
			loops := 0.0
			for _, l := range c.Loops {
				loops += areaVec(l).Dot(c.Plane.N)
			}
			for _, l := range c.Pieces {
				pieces += areaVec(l).Dot(c.Plane.N)
			}
			if !close9(loops, c.Area) {
				t.Fatalf("contact of %v mm² has loops round %v mm²", c.Area, loops)
			}
		}
		if want := float64(faces) * step * step; !close9(area, want) || !close9(pieces, want) {
			t.Fatalf("touch on %v mm², counted %v", area, want)
		}
	})
}

// drawCut draws a plane through three lattice points of the board.
func drawCut(t *rapid.T, size [3]int) Plane {
	var p [3]Vec
	for i := range p {
		var c [3]int
		for k := range c {
			c[k] = rapid.SampledFrom([]int{0, 1, size[k] / 2, size[k]}).Draw(t, "corner")
		}
		p[i] = at(c)
	}
	h := Through(p[0], p[1], p[2])
	if h.N == (Vec{}) {
		return Plane{Vec{0, 0, 1}, p[0].Z}
	}
	return h
}

func TestSlantingCuts(t *testing.T) {
	var s Saw
	rapid.Check(t, func(t *rapid.T) {
		b := drawLumber(t, "board")
		var cuts []Plane
		for range rapid.IntRange(1, 4).Draw(t, "cuts") {
			cuts = append(cuts, drawCut(t, b.size))
		}
		wedge := make([]Plane, rapid.IntRange(1, 4).Draw(t, "prism"))
		for i := range wedge {
			wedge[i] = drawCut(t, b.size)
		}
		start := func() {
			b.saw(&s)
			for i, h := range cuts[1:] {
				s.Keep(h, 100+Tag(i))
			}
		}
		start()
		whole := s.Solid()
		start()
		s.Keep(cuts[0], 200)
		one := s.Solid()
		start()
		s.Keep(cuts[0].Flipped(), 200)
		other := s.Solid()
		start()
		s.Remove(wedge, []Tag{300, 301, 302, 303})
		outside := s.Solid()
		start()
		for i, h := range wedge {
			s.Keep(h, 300+Tag(i))
		}
		inside := s.Solid()
		for _, solid := range []*Solid{whole, one, other, outside, inside} {
			if err := solid.closed(); err != nil {
				t.Fatal(err)
			}
		}
		if !close9(one.Volume+other.Volume, whole.Volume) {
			t.Fatalf("halves %v + %v mm³ are not the whole %v", one.Volume, other.Volume, whole.Volume)
		}
		if !close9(inside.Volume+outside.Volume, whole.Volume) {
			t.Fatalf("prism %v and rest %v mm³ are not the whole %v", inside.Volume, outside.Volume, whole.Volume)
		}
		// The two parts of a sawn board touch on the cut, and share no wood.
		if c, ok := Overlap(Placed{one, Unmoved()}, Placed{other, Unmoved()}); ok {
			t.Fatalf("halves of a board share %+v", c)
		}
	})
}

// Cuts that miss one another by about Same are the hard case for a tolerance: no
// cut may fail, and no more wood may be lost than a film as thick as a few Same.
func TestCutsThatNearlyMeet(t *testing.T) {
	var s Saw
	miss := rapid.SampledFrom([]float64{0, 1e-9, 3e-7, 0.99e-6, 1e-6, 1.01e-6, 2e-6, 1e-5})
	rapid.Check(t, func(t *rapid.T) {
		size := [3]int{8, 4, 2}
		box := at(size)
		near := func() Plane {
			h := drawCut(t, size)
			tilt := Vec{miss.Draw(t, "tilt") / box.X, miss.Draw(t, "tilt") / box.X, 0}
			return Plane{h.N.Plus(tilt).Unit(), h.D + miss.Draw(t, "miss")}
		}
		var done [][]Plane
		start := func() {
			s.Blank(box.X, box.Y, box.Z)
			for _, wedge := range done {
				s.Remove(wedge, []Tag{10, 11, 12, 13})
			}
		}
		volume := box.X * box.Y * box.Z
		for range rapid.IntRange(1, 6).Draw(t, "cuts") {
			wedge := make([]Plane, rapid.IntRange(2, 4).Draw(t, "prism"))
			for i := range wedge {
				wedge[i] = near()
			}
			start()
			for i, h := range wedge {
				s.Keep(h, Tag(i))
			}
			taken := s.Solid().Volume
			done = append(done, wedge)
			start()
			left := s.Solid().Volume
			if film := 20 * Same * box.X * box.Y; math.Abs(left+taken-volume) > film {
				t.Fatalf("%v left + %v taken is not %v mm³", left, taken, volume)
			}
			volume = left
		}
	})
}
