package stability

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"scantling/internal/geom"
)

type vec = geom.Vec

const (
	inch = 25.4
	lb   = 4.4482216152605
)

// feet returns four feet, x to the right and y back, inches.
func feet(x0, x1, y0, y1 float64) []vec {
	return []vec{{X: x0 * inch, Y: y0 * inch}, {X: x1 * inch, Y: y0 * inch}, {X: x1 * inch, Y: y1 * inch}, {X: x0 * inch, Y: y1 * inch}}
}

// toward returns the margin over the edge that looks that way.
func toward(t *testing.T, all []Margin, way vec) float64 {
	t.Helper()
	for _, m := range all {
		if m.Out.Dot(way) > 0.999 {
			return m.Factor()
		}
	}
	t.Fatalf("no edge looks toward %v", way)
	return 0
}

// Worked by hand from statics: T1 to T4 by force and arm in pounds and inches;
// the picnic table's toes are facts of its geometry.
func TestWorkedTipping(t *testing.T) {
	front := vec{Y: -1}
	bench := func(edge float64) []Margin { // 60 lb bench, its weight 10 in behind the front feet
		b := Body{60 * lb, vec{Y: 10 * inch, Z: 10 * inch}, feet(-20, 20, 0, 18)}
		at := vec{Y: -edge * inch, Z: 18 * inch}
		return b.Tips(Load{at.Along(front, -60), vec{Z: -600}}, Load{at, front.Times(20)})
	}
	picnic := func(toe float64) []Margin { // 129 lb, two of 250 lb at 27.6 in
		b := Body{129 * lb, vec{Z: 20 * inch}, feet(-18.75, 18.75, -toe, toe)}
		return b.Tips(Load{vec{Y: -27.6 * inch, Z: 17 * inch}, vec{Z: -500 * lb}})
	}
	ends := func(frames float64) []Margin { // both ends of the seats on one side, 500 lb at 21.6 in
		b := Body{129 * lb, vec{Z: 20 * inch}, feet(-frames, frames, -23.753, 23.753)}
		return b.Tips(Load{vec{X: 21.6 * inch, Z: 17 * inch}, vec{Z: -500 * lb}})
	}
	for _, c := range []struct {
		source string
		all    []Margin
		way    vec
		want   float64
		within float64
	}{
		{"T1: 600 N 0.362 in inside the feet, 20 N at 18 in; (600 + 48.8)/80.9", bench(2), front, 8.02, 0.01},
		{"T2: 3.638 in outside", bench(6), front, 1.050, 0.001},
		{"T3: chair, F 162.8 N at 730 mm; 1619/1052.2", Body{30 * lb, vec{Y: -9 * inch, Z: 400}, feet(-9, 9, -18, 0)}.
			Tips(Load{vec{Y: -10 * inch, Z: 430}, vec{Z: -600}}, Load{vec{Z: 730}, vec{Y: 0.2857 * (1000 - 430)}}), vec{Y: 1}, 1.539, 0.002},
		{"T4: two of 250 lb 3.5 in outside 27.5 in feet, 150 lb", Body{150 * lb, vec{Z: 500}, feet(-30, 30, -27.5, 27.5)}.
			Tips(Load{vec{Y: 31 * inch, Z: 450}, vec{Z: -500 * lb}}), vec{Y: 1}, 2.357, 0.001},
		{"picnic table, toe 23.753", picnic(23.753), front, 1.59, 0.005},
		{"toe 22 1/2", picnic(22.5), front, 1.14, 0.005},
		{"toe 22", picnic(22), front, 1.01, 0.005},
		{"toe 21", picnic(21), front, 0.82, 0.005},
		{"toe 20", picnic(20), front, 0.68, 0.005},
		{"toe 21.94 is where it tips", picnic(500 * 27.6 / 629), front, 1, 1e-9},
		{"end on, frames at 18.75", ends(18.75), vec{X: 1}, 1.70, 0.005},
		{"end on, frames at 16.75: falls", ends(16.75), vec{X: 1}, 0.89, 0.005},
	} {
		if got := toward(t, c.all, c.way); math.Abs(got-c.want) > c.within {
			t.Errorf("%s: %.4f, want %v", c.source, got, c.want)
		}
	}
}

// A chair's rear feet by the rearward test with no weight of its own: F·h/600 −
// 175 behind the line of the seat's back.
func TestRearFoot(t *testing.T) {
	seat := Seat{FrontEdge: vec{Y: -400, Z: 431.8}, BackEdge: vec{Z: 431.8}, Left: vec{X: -250, Y: -200, Z: 431.8}, Right: vec{X: 250, Y: -200, Z: 431.8}, Front: vec{Y: -1}, Back: true}
	tests := SeatTests(seat)
	lean := tests[len(tests)-1]
	if f := lean.Loads[1].Force.Length(); math.Abs(f-162.3) > 0.1 {
		t.Errorf("the push is %.1f N, want 162.3", f)
	}
	at := func(foot float64) float64 {
		b := Body{0, vec{}, []vec{{X: -200, Y: -400}, {X: 200, Y: -400}, {X: 200, Y: foot}, {X: -200, Y: foot}}}
		return toward(t, b.Tips(lean.Loads...), vec{Y: 1})
	}
	if f := at(22.99); math.Abs(f-1) > 2e-4 {
		t.Errorf("with the rear feet 22.99 mm behind the margin is %.5f, want 1", f)
	}
	if at(22) >= 1 || at(24) <= 1 {
		t.Errorf("22 mm: %.4f, 24 mm: %.4f", at(22), at(24))
	}
}

func TestSliding(t *testing.T) {
	b := Body{500, vec{Z: 400}, feet(-10, 10, -10, 10)}
	if mu := b.Slides(Load{vec{Z: 700}, vec{X: 200}}); mu != 0.4 {
		t.Errorf("200 N on 500 N needs friction 0.4, got %v", mu)
	}
	// It tips first when μ > b/h (statics): at half-base 254 and height 700 that is 0.363.
	f := toward(t, b.Tips(Load{vec{Z: 700}, vec{X: 500 * 254.0 / 700}}), vec{X: 1})
	if math.Abs(f-1) > 1e-9 {
		t.Errorf("pushed with μ = b/h the margin is %v, want 1", f)
	}
	if !math.IsInf(b.Slides(Load{vec{}, vec{Z: 600}}), 1) {
		t.Error("lifted, it has no friction")
	}
	if Rocks([4]float64{0, 3, 3, 0}) != 0 || Rocks([4]float64{2, 0, 0, 0}) != 2 {
		t.Error("a table tilted about one axis does not rock; one leg 2 mm long does by 2 mm")
	}
}

// The margin does not depend on where the floor's origin lies or how the piece is
// turned, more weight in the middle never lessens it, and the outline holds every
// foot.
func TestTippingProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		num := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
		n := rapid.IntRange(3, 8).Draw(t, "feet")
		b := Body{Weight: num("weight", 10, 2000)}
		for range n {
			// Feet stand a finger apart at least: two in one place are one foot.
			b.Feet = append(b.Feet, vec{X: float64(rapid.IntRange(-45, 45).Draw(t, "x")) * 20, Y: float64(rapid.IntRange(-25, 25).Draw(t, "y")) * 20})
		}
		hull := b.Outline()
		if len(hull) < 3 {
			return
		}
		for i, p := range hull {
			q := hull[(i+1)%len(hull)]
			for _, f := range b.Feet {
				if q.Minus(p).Cross(f.Minus(p)).Z < -2*geom.Touch*q.Distance(p) {
					t.Fatalf("foot %v lies outside the edge %v %v", f, p, q)
				}
			}
		}
		for _, p := range b.Feet {
			b.Centre = b.Centre.Along(p, 1/float64(n))
		}
		b.Centre.Z = 400
		l := Load{vec{X: num("lx", -900, 900), Y: num("ly", -500, 500), Z: 600}, vec{X: num("fx", -100, 100), Y: num("fy", -100, 100), Z: num("fz", -900, 50)}}
		least := b.Tips(l)[0].Factor()

		turn := geom.Turned(vec{Z: 1}, num("turn", 0, 6))
		turn.At = vec{X: num("dx", -1000, 1000), Y: num("dy", -1000, 1000)}
		moved := Body{b.Weight, turn.Out(b.Centre), nil}
		for _, p := range b.Feet {
			moved.Feet = append(moved.Feet, turn.Out(p))
		}
		again := moved.Tips(Load{turn.Out(l.At), turn.OutWay(l.Force)})[0].Factor()
		if !(math.IsInf(least, 1) && math.IsInf(again, 1)) && math.Abs(least-again) > 1e-6*(1+least) {
			t.Fatalf("turned and moved: %v, was %v", again, least)
		}
		heavier := b
		heavier.Weight *= 1.5
		if h := heavier.Tips(l)[0].Factor(); h < least*(1-1e-9) {
			t.Fatalf("heavier: %v, was %v", h, least)
		}
	})
}
