package square

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"scantling/internal/board"
	"scantling/internal/design"
	"scantling/internal/geom"
	"scantling/internal/joint"
	"scantling/internal/measure"
)

const inch = 25.4

// stick is a board l × w × t inches from a corner, its run and show face given.
func stick(id string, l, w, t float64, run, face geom.Vec, x, y, z float64) *design.Board {
	inches := func(v float64) measure.Length { return measure.Length(math.Round(v * float64(measure.Inch))) }
	b := &board.Board{ID: board.ID(id), L: l * inch, W: inches(w), T: inches(t),
		Pose: geom.Pose{X: run, Y: face.Cross(run), Z: face, At: geom.Vec{X: x * inch, Y: y * inch, Z: z * inch}}}
	b.Build()
	return &design.Board{Board: b, Name: id, Spoken: id}
}

// joined fastens every two boards that touch, but those named.
func joined(bs []*design.Board, not ...[2]string) (*design.Piece, []joint.Joint) {
	p := &design.Piece{Boards: bs}
	var j joint.Joint
	for _, x := range joint.Meet(p).All {
		a, b := bs[x.A], bs[x.B]
		skip := x.Area == 0
		for _, n := range not {
			skip = skip || string(a.ID) == n[0] && string(b.ID) == n[1]
		}
		if !skip {
			j.Pairs = append(j.Pairs, joint.Pair{A: a, B: b, Contact: x.Largest(false)})
		}
	}
	return p, []joint.Joint{j}
}

var right, back, up = geom.Vec{X: 1}, geom.Vec{Y: 1}, geom.Vec{Z: 1}

// rectangle is a frame of 2x4s on edge, long over all and wide over all, the short
// boards between the long ones.
func rectangle(long, wide float64) []*design.Board {
	front := back.Negated()
	bs := []*design.Board{
		stick("front", long, 3.5, 1.5, right, front, 0, 1.5, 0),
		stick("back", long, 3.5, 1.5, right, front, 0, wide, 0),
		stick("left", wide-3, 3.5, 1.5, back, right.Negated(), 1.5, 1.5, 3.5),
		stick("right", wide-3, 3.5, 1.5, back, right.Negated(), long, 1.5, 3.5),
	}
	bs[0].Name, bs[1].Name = "long", "long"
	return bs
}

func TestDiagonalsOfFrames(t *testing.T) {
	ladder := func(n int) []*design.Board {
		bs := []*design.Board{stick("low", 60, 3.5, 1.5, right, up, 0, 0+3.5, 0), stick("high", 60, 3.5, 1.5, right, up, 0, 20+3.5, 0)}
		for i := range n {
			bs = append(bs, stick(string(rune('a'+i)), 24, 3.5, 1, back, up, 5+10*float64(i), -0.25, 1.5))
		}
		return bs
	}
	for _, c := range []struct {
		name   string
		of     []*design.Board
		not    [][2]string
		want   float64 // in; 0: no frame
		off    float64 // a difference read, in
		racked float64 // what it means, in
		source string
	}{
		{"aprons", rectangle(69.5, 24.5), nil, 73.692, 1. / 8, 0.066, "geometry: √(69.5² + 24.5²); 0.125·73.69/(2·69.5)"},
		{"a gate", rectangle(48, 42), nil, 63.781, 1. / 4, 0.166, "geometry: √(42² + 48²); 0.25·63.78/(2·48)"},
		{"turned", rectangle(42, 48), nil, 63.781, 1. / 4, 0.166, "geometry: as the gate"},
		{"3, 4, 5", rectangle(40, 30), nil, 50, 1, 0.625, "geometry: Pythagoras; 1·50/(2·40)"},
		{"slats on rails", ladder(6), nil, math.Hypot(60, 23.5), 1. / 8, 0.125 * math.Hypot(60, 23.5) / 120, "geometry: the rails, 60 long and 23.5 over all, reach further out than the slats, 53.5 by 24"},
		{"three corners", rectangle(40, 30), [][2]string{{"back", "right"}}, 50, 1, 0.625, "geometry: the two long boards off one short one"},
		{"two corners", rectangle(40, 30), [][2]string{{"back", "right"}, {"front", "left"}}, 0, 0, 0, "by hand: nothing faces anything"},
	} {
		p, joints := joined(c.of, c.not...)
		frames := Frames(p, joints)
		var f *Frame
		for i := range frames {
			if f == nil || frames[i].Area() > f.Area() {
				f = &frames[i]
			}
		}
		if f == nil || c.want == 0 {
			if (f == nil) != (c.want == 0) {
				t.Errorf("%s: %d frames (%s)", c.name, len(frames), c.source)
			}
			continue
		}
		one, other := f.Diagonals()
		rate, ok := f.Rate()
		if math.Abs(one/inch-c.want) > 5e-4 || math.Abs(other/inch-c.want) > 5e-4 {
			t.Errorf("%s: diagonals %.4f and %.4f in, want %.4f (%s)", c.name, one/inch, other/inch, c.want, c.source)
		}
		if got := c.off / rate; !ok || math.Abs(got-c.racked) > 5e-4 {
			t.Errorf("%s: a difference of %v in means %.4f in, want %.4f (%s)", c.name, c.off, got, c.racked, c.source)
		}
	}
}

// quad makes a frame of four points in the plane.
func quad(c [4][2]float64) Frame {
	f := Frame{Normal: up}
	for i, p := range c {
		f.Corners[i] = geom.Vec{X: p[0], Y: p[1]}
	}
	return f
}

// A linkage is moved a little for real, its four sides kept; the diagonals then
// differ by what Rate says.
func TestRateOfLinkages(t *testing.T) {
	const source = "geometry: circles round corners 1 and 3 meet in corner 2"
	rapid.Check(t, func(t *rapid.T) {
		near := func(x, y float64) [2]float64 {
			jitter := rapid.Float64Range(-150, 150)
			return [2]float64{x + jitter.Draw(t, "x"), y + jitter.Draw(t, "y")}
		}
		c := [4][2]float64{near(0, 0), near(1500, 0), near(1500, 700), near(0, 700)}
		f := quad(c)
		rate, ok := f.Rate()
		if !ok {
			t.Fatal("cannot rack")
		}
		dist := func(a, b [2]float64) float64 { return math.Hypot(a[0]-b[0], a[1]-b[1]) }
		const phi = 1e-5
		// Turn 0–3 about 0.
		x, y := c[3][0]-c[0][0], c[3][1]-c[0][1]
		p3 := [2]float64{c[0][0] + x*math.Cos(phi) - y*math.Sin(phi), c[0][1] + x*math.Sin(phi) + y*math.Cos(phi)}
		// Corner 2: so far from 1 and from 3 as before, on the side where it was.
		r1, r3, d := dist(c[2], c[1]), dist(c[2], c[3]), dist(c[1], p3)
		a := (r1*r1 - r3*r3 + d*d) / (2 * d)
		h := math.Sqrt(r1*r1 - a*a)
		ux, uy := (p3[0]-c[1][0])/d, (p3[1]-c[1][1])/d
		p2 := [2]float64{c[1][0] + a*ux + h*uy, c[1][1] + a*uy - h*ux}
		if dist(p2, c[2]) > 1 {
			p2 = [2]float64{c[1][0] + a*ux - h*uy, c[1][1] + a*uy + h*ux}
		}
		change := (dist(c[0], p2) - dist(c[0], c[2])) - (dist(c[1], p3) - dist(c[1], c[3]))
		s := phi * math.Hypot(x, y)
		if got := math.Abs(change) / s; math.Abs(got-rate) > 1e-3 {
			t.Errorf("the diagonals change by %.5f for each mm, want %.5f (%s)", got, rate, source)
		}
	})
}

func TestRateOfShapes(t *testing.T) {
	for _, c := range []struct {
		name   string
		at     [4][2]float64
		want   float64
		source string
	}{
		{"a square", [4][2]float64{{0, 0}, {1, 0}, {1, 1}, {0, 1}}, math.Sqrt2, "geometry: 2·1/√2"},
		{"a rectangle", [4][2]float64{{0, 0}, {4, 0}, {4, 3}, {0, 3}}, 8. / 5, "geometry: 2·4/5"},
		{"a rhombus of 60°", [4][2]float64{{0, 0}, {1, 0}, {1.5, math.Sqrt(3) / 2}, {0.5, math.Sqrt(3) / 2}}, math.Sqrt(3)/2 + 0.5,
			"geometry: diagonals 2·cos(θ/2) and 2·sin(θ/2), so the one grows by sin(θ/2) and the other shrinks by cos(θ/2) for each radian"},
	} {
		f := quad(c.at)
		if got, ok := f.Rate(); !ok || math.Abs(got-c.want) > 1e-12 {
			t.Errorf("%s: %v, want %v (%s)", c.name, got, c.want, c.source)
		}
	}
	flat := quad([4][2]float64{{0, 0}, {1, 0}, {2, 0}, {3, 0}})
	if _, ok := flat.Rate(); ok {
		t.Error("four corners in a line rack")
	}
}

func TestFeet(t *testing.T) {
	post := func(id string, x, y float64) *design.Board { return stick(id, 30, 3, 2, up, back, x, y, 0) }
	for _, c := range []struct {
		name   string
		of     []*design.Board
		feet   int
		want   float64
		source string
	}{
		{"four posts", []*design.Board{post("a", 0, 0), post("b", 37, 0), post("c", 0, 28), post("d", 37, 28)}, 4, 50, "geometry: 40 by 30 over the feet"},
		{"four posts, out of order", []*design.Board{post("a", 0, 0), post("d", 37, 28), post("b", 37, 0), post("c", 0, 28)}, 4, 50, "geometry: 40 by 30 over the feet"},
		{"a post of two boards", []*design.Board{post("a", 0, 0), post("aa", 0, 2), post("b", 37, 0), post("c", 0, 28), post("d", 37, 28)}, 4, 50, "geometry: the pair is one foot"},
		{"three", []*design.Board{post("a", 0, 0), post("b", 37, 0), post("c", 20, 28)}, 3, 0, "by hand"},
		{"four in a row", []*design.Board{post("a", 0, 0), post("b", 10, 0), post("c", 20, 0), post("d", 37, 0)}, 4, 0, "by hand: no outline"},
	} {
		feet := Feet(&design.Piece{Boards: c.of})
		f, ok := Stance(feet)
		if len(feet) != c.feet || ok != (c.want > 0) {
			t.Errorf("%s: %d feet, an outline %v (%s)", c.name, len(feet), ok, c.source)
			continue
		}
		if one, other := f.Diagonals(); ok && (math.Abs(one/inch-c.want) > 1e-9 || math.Abs(other/inch-c.want) > 1e-9) {
			t.Errorf("%s: diagonals %v and %v, want %v (%s)", c.name, one/inch, other/inch, c.want, c.source)
		}
	}
}
