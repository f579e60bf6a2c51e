package board

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"scantling/internal/geom"
	"scantling/internal/measure"
)

// The chords of an arc begin and end on it, stay within Chord of it and are no more
// than need be; all face away from the centre.
func TestChords(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		from := rapid.Float64Range(-4, 4).Draw(r, "from")
		a := Arc{Centre: geom.Vec{X: 100, Y: 20}, Radius: rapid.Float64Range(1, 5000).Draw(r, "radius"),
			From: from, To: from + rapid.Float64Range(0.01, math.Pi).Draw(r, "sweep")}
		at := a.Points()
		n := len(at) - 1
		if n%2 != 0 || at[0] != a.Point(a.From) || at[n/2].Distance(a.Point((a.From+a.To)/2)) > 1e-9*a.Radius {
			r.Fatalf("%d chords from %v", n, at[0])
		}
		// By hand: r − r·cos(θ/2) is the sagitta of a chord over θ.
		sagitta := func(chords int) float64 { return a.Radius * (1 - math.Cos((a.To-a.From)/float64(2*chords))) }
		if sagitta(n) > Chord+1e-9 || n > 2 && sagitta(n-2) <= Chord-1e-9 {
			r.Fatalf("%d chords lie %v off, two fewer %v", n, sagitta(n), sagitta(n-2))
		}
		for i, p := range a.Chords() {
			if middle := at[i].Plus(at[i+1]).Times(0.5); p.N.Z != 0 || math.Abs(p.Over(middle)) > 1e-9*a.Radius ||
				math.Abs(p.Over(a.Centre)+a.Radius-sagitta(n)) > 1e-9*a.Radius {
				r.Fatalf("chord %d is %v from the centre", i, -p.Over(a.Centre))
			}
		}
		w := rapid.Float64Range(10, 300).Draw(r, "width")
		image := a.mirrored(w)
		if again := image.mirrored(w); again.Centre.Distance(a.Centre) > 1e-9 || again.From != a.From || again.To != a.To {
			r.Fatalf("the image's image is %v", again)
		}
		if p, q := a.Point(a.From), image.Point(image.To); math.Abs(p.X-q.X)+math.Abs(w-p.Y-q.Y) > 1e-9*a.Radius {
			r.Fatalf("%v and its image %v", p, q)
		}
	})
}

// picket is a board 40 × 4 × 1 in with a half round at Finish, an arch in its Near
// edge and a corner rounded at Start.
func picket() *Board {
	b := &Board{L: 40 * inch, W: 4 * measure.Inch, T: measure.Inch, Pose: geom.Unmoved()}
	arch := Arc{Centre: geom.Vec{X: 20 * inch, Y: -12 * inch}, Radius: 13 * inch, From: math.Pi/2 - 0.3948, To: math.Pi/2 + 0.3948}
	b.Cuts = []Cut{
		{Kind: EndCut, Side: Start, Square: true, Plane: geom.Plane{N: geom.Vec{X: -1}}},
		{Kind: EndCut, Side: Finish, Square: true, Plane: geom.Plane{N: geom.Vec{X: 1}, D: 40 * inch}},
		{Kind: RoundCorner, Side: Start, Arcs: []Arc{{Centre: geom.Vec{X: inch, Y: inch}, Radius: inch, From: math.Pi, To: 1.5 * math.Pi}}},
		{Kind: RoundEnd, Side: Finish, Arcs: []Arc{{Centre: geom.Vec{X: 38 * inch, Y: 2 * inch}, Radius: 2 * inch, From: -math.Pi / 2, To: math.Pi / 2}}},
		{Kind: Arch, Side: Near, Arcs: []Arc{arch}, Waste: arch.Chords(), Low: geom.Vec{X: 15 * inch}, High: geom.Vec{X: 25 * inch, Y: inch, Z: inch}},
	}
	b.Build()
	return b
}

func TestRoundsAreBuilt(t *testing.T) {
	b := picket()
	if err := b.Solid.Check(); err != nil {
		t.Fatal(err)
	}
	// By hand, in²: 160 less (1 − π/4), (8 − 2π) and a segment of half angle 0.3948.
	want := 160 - (1 - math.Pi/4) - (8 - 2*math.Pi) - 169*(0.3948-math.Sin(0.3948)*math.Cos(0.3948))
	arcs := 0.0
	for _, c := range b.Cuts {
		for _, a := range c.Arcs {
			arcs += a.Length() / inch
		}
	}
	if got := b.Solid.Volume / (inch * inch * inch); math.Abs(got-want) > 2.0/3*Chord/inch*arcs {
		t.Errorf("%v in³, want %v within what chords may miss", got, want)
	}
	if len(b.Wood.Cells) != 1 {
		t.Errorf("the wood is in %d cells, want 1: the arch is not in it", len(b.Wood.Cells))
	}
	faces := map[geom.Tag]int{}
	for _, f := range b.Solid.Faces {
		faces[f.Tag]++
	}
	for i := 2; i < 5; i++ {
		if n := len(b.Cuts[i].Arcs[0].Chords()); faces[TagOf(i)] != n {
			t.Errorf("%v: %d faces with its tag, want its %d chords", b.Cuts[i].Kind, faces[TagOf(i)], n)
		}
	}
	image := b.Mirrored(geom.Plane{N: geom.Vec{X: 1}})
	if err := image.Solid.Check(); err != nil {
		t.Fatal(err)
	}
	if math.Abs(image.Solid.Volume-b.Solid.Volume) > 1e-12*b.Solid.Volume || image.Cuts[4].Side != Far || math.Abs(image.Cuts[2].Arcs[0].Centre.Y-3*inch) > 1e-9 {
		t.Error("the mirror image has other curves")
	}
}

// Trimming an end takes what was sawn round there, and moves the other curves.
func TestTrimmedRounds(t *testing.T) {
	b := picket()
	before := b.Pose.Out(b.Cuts[4].Arcs[0].Centre)
	b.Trim(5*inch, 40*inch)
	b.Build()
	if err := b.Solid.Check(); err != nil {
		t.Fatal(err)
	}
	if len(b.Cuts) != 4 || b.Cuts[2].Kind != RoundEnd || b.Cuts[3].Kind != Arch {
		t.Fatalf("cuts %v, want the corner gone", b.Cuts)
	}
	if d := b.Pose.Out(b.Cuts[3].Arcs[0].Centre).Distance(before); d > 1e-9 {
		t.Errorf("the arch moved %v mm", d)
	}
}
