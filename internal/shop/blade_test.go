package shop

import (
	"math"
	"testing"

	"scantling/internal/board"
	"scantling/internal/geom"
	"scantling/internal/steady"
)

const inch = 25.4

func rad(degrees float64) float64 { return degrees * math.Pi / 180 }

// leaning returns the frame of a board by the rule of two leans: run ∝ r + tan α·f +
// tan β·s, face normal ∝ f − tan α·r, edge = normal × run; and the floor's
// normal in that frame, x along the run, z along the face.
func leaning(alpha, beta float64) (floor geom.Vec, perUnit float64) {
	ta, tb := steady.Tan(rad(alpha)), steady.Tan(rad(beta))
	r, f, s := geom.Vec{Z: 1}, geom.Vec{Y: 1}, geom.Vec{X: 1}
	run := r.Along(f, ta).Along(s, tb)
	face := f.Along(r, -ta).Unit()
	edge := face.Cross(run.Unit())
	p := geom.Pose{X: run.Unit(), Y: edge, Z: face}
	return p.InWay(r), run.Length()
}

func TestBladeOfPlane(t *testing.T) {
	leg, _ := leaning(0, 10)
	compound, _ := leaning(5, 10)
	steep, _ := leaning(15, 15)
	// Crown moulding: run along the wall (x), the face leaning by the spring
	// angle from the wall, the corner's plane halving 90 degrees.
	crown := func(spring float64) geom.Vec {
		// wall plane xz, ceiling up z, out of the wall −y.
		run := geom.Vec{X: 1}
		across := geom.Vec{Y: -steady.Sin(rad(spring)), Z: steady.Cos(rad(spring))}
		p := geom.Pose{X: run, Y: across, Z: run.Cross(across)}
		return p.InWay(geom.Vec{X: 1, Y: 1}.Unit())
	}
	for _, c := range []struct {
		name         string
		n            geom.Vec
		width, thick float64
		mitre, bevel float64
		step         float64 // in
		source       string
	}{
		{"square", geom.Vec{X: 1}, 4, 1.5, 0, 0, 0, "by hand"},
		{"leg 10 degrees", leg, 4, 1.5, 10, 0, 0.705, "by hand: offset 4·tan 10° = 0.705"},
		{"two leans", compound, 4, 1.5, 9.963, 5, 0.7027, "by hand: mitre = atan(tan 10°·cos 5°), bevel 5°"},
		{"two leans of 15", steep, 3.5, 1.5, 14.51, 15, 0.906, "by hand: atan(tan 15°·cos 15°)"},
		{"crown 38, corner 90", crown(38), 4, 0.5, 31.62, 33.86, 2.4627, "published compound mitre tables: mitre = atan(sin 38°·tan 45°), bevel = asin(cos 38°·sin 45°)"},
		{"crown 45, corner 90", crown(45), 4, 0.5, 35.26, 30.00, 2.8284, "published compound mitre tables: 35.26, 30.00"},
		{"crossed leg", geom.Vec{X: math.Cos(rad(42.879)), Y: -math.Sin(rad(42.879))}, 5.5, 1.5, 42.879, 0, 5.107, "by hand: offset 5.5·tan 42.879°"},
		{"brace", geom.Vec{X: math.Cos(rad(36.76)), Y: math.Sin(rad(36.76))}, 3.5, 1.5, 36.76, 0, 2.615, "by hand: offset 3.5·tan 36.76°"},
	} {
		b := setBlade(geom.Plane{N: c.n.Unit()}, board.Finish, c.width*inch, c.thick*inch)
		if math.Abs(b.mitre-c.mitre) > 0.006 || math.Abs(b.bevel-c.bevel) > 0.006 || math.Abs(b.step/inch-c.step) > 0.001 {
			t.Errorf("%s: mitre %.3f bevel %.3f step %.4f in, want %g %g %g (%s)", c.name, b.mitre, b.bevel, b.step/inch, c.mitre, c.bevel, c.step, c.source)
		}
	}
}

// sawn returns the normal, in the board's frame, of the cut a saw makes that is
// set and loaded as b says: the check of setBlade by a second way round.
func sawn(b blade, end board.Side) geom.Vec {
	right := end.Out()
	if b.keepRight {
		right = right.Negated()
	}
	high := board.Show.Out()
	back := high.Cross(right)
	// Handle to the right: the blade's front runs to the right, so the side of
	// the disc that looks right looks back too.
	m := rad(b.mitre)
	if b.swing == "left" {
		m = -m
	}
	upright := right.Times(steady.Cos(m)).Along(back, steady.Sin(m))
	// Tilted left: the blade's right side looks up.
	n := upright.Times(steady.Cos(rad(b.bevel))).Along(high, steady.Sin(rad(b.bevel)))
	if b.keepRight {
		n = n.Negated()
	}
	return n
}

func TestSawingByTheWordsGivesThePlane(t *testing.T) {
	for _, end := range []board.Side{board.Start, board.Finish} {
		for _, y := range []float64{-0.5, 0, 0.3} {
			for _, z := range []float64{-0.2, 0, 0.4} {
				n := end.Out().Plus(geom.Vec{Y: y, Z: z}).Unit()
				b := setBlade(geom.Plane{N: n}, end, 100, 40)
				if got := sawn(b, end); got.Distance(n) > 1e-12 {
					t.Errorf("end %d normal %v: sawn %v by %+v", end, n, got, b)
				}
				right := end.Out()
				if b.keepRight {
					right = right.Negated()
				}
				if b.fence != sideTo(board.Show.Out().Cross(right)) {
					t.Errorf("end %d normal %v: fence edge %d is not at the back", end, n, b.fence)
				}
				// The long point is where the plane leaves the blank last.
				if y != 0 && n.Dot(b.long.Out()) >= 0 {
					t.Errorf("end %d normal %v: long edge %d", end, n, b.long)
				}
				if z != 0 && n.Dot(b.longFace.Out()) >= 0 {
					t.Errorf("end %d normal %v: long face %d", end, n, b.longFace)
				}
			}
		}
	}
}
