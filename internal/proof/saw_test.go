package proof

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"scantling/internal/geom"
	"scantling/internal/steady"
)

const inch = 25.4

// card is an angled end with the sentence that goes with it.
func card(c Cut) Cut {
	c.Kind = "end"
	say := func(words string, f *Figure) {
		c.Words = append(c.Words, Span{Words: words})
		if f != nil {
			c.Words = append(c.Words, Span{Number: f})
		}
	}
	say("Swing the saw ", c.Setting)
	say(" "+c.Swing+" of zero", nil)
	if c.Bevel != nil {
		say(" and tilt the blade ", c.Bevel)
	}
	say(". "+c.FaceUp+" up, "+c.Fence+" against the fence, the part "+c.Keep+" of the blade. The tip is ", c.Included)
	say(". From the long point on the "+c.Long+", step ", c.Offset)
	if c.Lean != nil {
		say(". The line runs ", c.Lean)
		say(" back from the "+c.LongFace, nil)
	}
	return c
}

func figure(text string) *Figure { return &Figure{Shown: text} }

// The leg of a table 33 in high whose legs lean 10 degrees, 4 in wide, ends parallel.
// Source: by hand: edge 33/cos 10° = 33.509, offset 4·tan 10° = 0.705, long point
// 34.214; printed 33 1/2, 11/16 and 34 3/16. It is drawn front face up, top to the
// right, its right edge near.
func leg() *Part {
	p := &Part{Letter: "A", Name: "leg", Thick: Figure{Shown: `1 1/2"`}, Wide: Figure{Shown: `4"`}, Long: Figure{Shown: `34 3/16"`},
		Edge: figure(`33 1/2"`), Short: figure(`32 13/16"`), Drawn: Lies{"bottom end", "front face"}}
	end := Cut{Setting: figure("10°"), Included: figure("80°"), Offset: figure(`11/16"`), Swing: "right", FaceUp: "front face", Keep: "left"}
	bottom, top := end, end
	bottom.Name, bottom.Fence, bottom.Long = "bottom", "right edge", "left edge"
	top.Name, top.Fence, top.Long = "top", "left edge", "right edge"
	p.Cuts = []Cut{card(bottom), card(top)}
	return p
}

func TestLegSawnThreeWays(t *testing.T) {
	for _, c := range []struct {
		way   Way
		slant float64 // in, from edge to edge
		why   string
	}{
		{BySetting, 4 * math.Sqrt(1/(0.984807753012208*0.984807753012208)-1), "4·tan 10°"},
		{ByIncluded, 4 * math.Sqrt(1/(0.984807753012208*0.984807753012208)-1), "4·cot 80°"},
		{ByOffset, 11.0 / 16, "as stepped off"},
	} {
		s, err := saw(leg(), c.way)
		if err != nil {
			t.Fatal(err)
		}
		if err := s.solid.Check(); err != nil {
			t.Error(err)
		}
		// Parallel ends: a parallelogram, edge × width × thickness, whatever the angle.
		if want := 33.5 * 4 * 1.5 * inch * inch * inch; math.Abs(s.solid.Volume-want) > 1e-6*want {
			t.Errorf("%v: volume %g, want %g", c.way, s.solid.Volume, want)
		}
		if got, want := s.size.X, (33.5+c.slant)*inch; math.Abs(got-want) > 1e-6 {
			t.Errorf("%v: long point to long point %g in, want %g (%s)", c.way, got/inch, want/inch, c.why)
		}
		if got, want := s.short, (33.5-c.slant)*inch; math.Abs(got-want) > 1e-6 {
			t.Errorf("%v: short point to short point %g in, want %g", c.way, got/inch, want/inch)
		}
		// The long point of the bottom end is on the left edge: far, as drawn.
		low := s.solid.Faces[0].Plane
		for _, f := range s.solid.Faces {
			if f.Plane.N.X < low.N.X {
				low = f.Plane
			}
		}
		if at := (geom.Vec{Y: 4 * inch}); math.Abs(low.Over(at)) > 1e-9 {
			t.Errorf("%v: the left edge begins %g mm from its bottom end", c.way, low.Over(at))
		}
	}
}

// The four ways of laying a board on the saw. Whoever stands at the saw looks at the
// fence; a line swung right comes toward the right as it leaves the fence, so what
// is kept left of the blade is longer along the edge in front. Source: by hand.
func TestLyingOnTheSaw(t *testing.T) {
	for _, c := range []struct {
		face, fence, swing, keep string
		long                     int // the edge that is longer; -1: the card contradicts itself
	}{
		// Show face up, first end left: right of the blade lies the other end's waste.
		{"front face", "left edge", "right", "left", nearEdge},
		{"front face", "left edge", "left", "left", farEdge},
		{"front face", "right edge", "right", "left", -1},        // the top end would point left
		{"front face", "right edge", "right", "right", nearEdge}, // kept right, it is longer along the fence
		{"back face", "right edge", "right", "left", farEdge},
		{"back face", "left edge", "left", "left", -1},
		{"front face", "top end", "left", "left", -1},
		{"left edge", "right edge", "left", "left", -1},
	} {
		p := leg()
		p.Edge, p.Short = nil, nil
		e := Cut{Name: "top", Setting: figure("10°"), Included: figure("80°"), Offset: figure(`11/16"`), Swing: c.swing, FaceUp: c.face, Fence: c.fence, Keep: c.keep, Long: "left edge"}
		p.Cuts = []Cut{card(e)}
		s, err := saw(p, BySetting)
		if c.long < 0 {
			if err == nil {
				t.Errorf("%+v was sawn", c)
			}
			continue
		}
		if err != nil {
			t.Errorf("%+v: %v", c, err)
			continue
		}
		n := s.sides[otherEnd].N
		if got := map[bool]int{true: nearEdge, false: farEdge}[n.Y > 0]; got != c.long {
			t.Errorf("%+v: the longer edge is the %s", c, s.names[got])
		}
		if math.Abs(math.Abs(n.Y/n.X)-steady.Tan(10*degree)) > 1e-12 {
			t.Errorf("%+v: cut at %v", c, n)
		}
	}
}

// A compound cut: 33 in high, 10 degrees in front view, 5 in side view, gives a mitre
// of atan(tan 10°·cos 5°) = 9.963° and a bevel of 5°. The three ways agree to what
// they are printed to. Source: by hand, the joiner's formula.
func TestCompoundCut(t *testing.T) {
	p := leg()
	p.Edge, p.Short = nil, nil
	p.Cuts = []Cut{card(Cut{Name: "top", Setting: figure("10°"), Included: figure("80°"), Offset: figure(`11/16"`), Swing: "left", FaceUp: "front face", Fence: "left edge",
		Keep: "left", Long: "left edge", Bevel: figure("5°"), Lean: figure(`1/8"`), LongFace: "back face"})}
	var normals []geom.Vec
	for way := BySetting; way <= ByOffset; way++ {
		s, err := saw(p, way)
		if err != nil {
			t.Fatal(err)
		}
		normals = append(normals, s.sides[otherEnd].N)
	}
	want := geom.Vec{X: steady.Cos(10*degree) * steady.Cos(5*degree), Y: -steady.Sin(10*degree) * steady.Cos(5*degree), Z: steady.Sin(5 * degree)}
	for way, n := range normals {
		if tolerance := []float64{1e-12, 1e-12, 0.01}[way]; n.Distance(want) > tolerance { // 1/32 in 4 is 0.008
			t.Errorf("%v: %v, want %v", Way(way), n, want)
		}
	}
}

func TestSheetsThatCannotBeSawn(t *testing.T) {
	for _, c := range []struct {
		spoil func(*Part)
		want  string
	}{
		{func(p *Part) { p.Long.Shown = "long" }, `"long" is no length`},
		{func(p *Part) { p.Long.Shown = `0"` }, "no size"},
		{func(p *Part) { p.Long.Shown = `34 5/16"` }, "does not come to"},
		{func(p *Part) { p.Short.Shown = `33"` }, "short points"},
		{func(p *Part) { p.Drawn.Face = "bottom face" }, "shows"},
		{func(p *Part) { p.Cuts[0].Name = "left" }, "no such end"},
		{func(p *Part) { p.Cuts[0].Keep = "right" }, "do not agree"},
		{func(p *Part) { p.Cuts = append(p.Cuts, Cut{Kind: "dovetail"}) }, "cannot be read"},
		{func(p *Part) {
			p.Cuts = append(p.Cuts, Cut{Kind: "taper", Marks: []Mark{{Label: "somewhere", At: *figure(`6"`)}}})
		}, "does not say"},
	} {
		p := leg()
		c.spoil(p)
		if _, err := saw(p, BySetting); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("want %q, got %v", c.want, err)
		}
	}
}

// The taper of that leg: 4 to 2 3/4 in from 6 in below the top. Source: by hand: over
// the run of 27.729 in it falls 1.25 in, 2.58 degrees.
func TestTaper(t *testing.T) {
	p := leg()
	p.Cuts = append(p.Cuts, Cut{Kind: "taper", Words: Prose{{Words: "Taper the right edge: 6\" from the top end; at the bottom end 2 3/4\" square from the left edge."}},
		Marks: []Mark{{"from the top end, along the right edge", *figure(`6"`)}, {"at the bottom end, square from the left edge", *figure(`2 3/4"`)}}})
	s, err := saw(p, BySetting)
	if err != nil {
		t.Fatal(err)
	}
	n := s.taper[0].plane.N
	if got := steady.Atan(n.X/n.Y) / degree; math.Abs(math.Abs(got)-2.58) > 0.01 {
		t.Errorf("it runs %.3f° off the grain, want 2.58", got)
	}
}

// A notch, a half lap and a slot take out what their marks say. Source: by hand.
func TestOpenings(t *testing.T) {
	plain := func() *Part {
		p := leg()
		p.Long.Shown, p.Edge, p.Short, p.Cuts = `24"`, nil, nil, nil
		return p
	}
	mark := func(label, at string) Mark { return Mark{label, *figure(at)} }
	for _, c := range []struct {
		kind  string
		marks []Mark
		out   float64 // cubic inches taken out
	}{
		{"notch", []Mark{mark("from the bottom end along the right edge, to", `2"`), mark("in from the right edge", `1"`)}, 2 * 1 * 1.5},
		{"notch", []Mark{mark("from the bottom end along the left edge, begins", `2"`), mark("from the bottom end along the left edge, ends", `5"`), mark("in from the left edge", `1"`)}, 3 * 1 * 1.5},
		{"half lap", []Mark{mark("deep, into the back face", `3/4"`), mark("from the top end along the right edge, to", `4"`)}, 4 * 4 * 0.75},
		{"half lap", []Mark{mark("deep, into the front face", `3/4"`), mark("from the bottom end along the right edge, begins", `4"`), mark("from the bottom end along the right edge, ends", `8"`),
			mark("from the bottom end along the left edge, begins", `5"`), mark("from the bottom end along the left edge, ends", `9"`)}, 4 * 4 * 0.75},
		{"housing", []Mark{mark("deep, into the front face", `1/2"`), mark("in from the left edge, begins", `1"`), mark("in from the left edge, ends", `2"`)}, 24 * 1 * 0.5},
		{"snip", []Mark{mark("along the right edge", `3"`), mark("along the top end", `2"`)}, 3 * 2 / 2 * 1.5},
		{"slot", []Mark{mark("bit", `1/2"`), mark("centres in from the right edge", `2"`), mark("centre from the bottom end", `6"`), mark("centre from the bottom end", `8"`)}, (2*0.5 + math.Pi*0.25*0.25) * 1.5},
	} {
		p := plain()
		said := ""
		for _, m := range c.marks {
			said += " " + m.Label + " " + m.At.Shown
		}
		p.Cuts = []Cut{{Kind: c.kind, Words: Prose{{Words: said}}, Marks: c.marks}}
		s, err := saw(p, BySetting)
		if err != nil {
			t.Errorf("%s: %v", c.kind, err)
			continue
		}
		within := 1e-6
		if c.kind == "slot" { // its half circles are sawn in flats
			within = 5e-4
		}
		if got := 24*4*1.5 - s.solid.Volume/(inch*inch*inch); math.Abs(got-c.out) > within {
			t.Errorf("%s %v takes out %.4f cubic inches, want %.4f", c.kind, c.marks, got, c.out)
		}
	}
}

// A hole is where its distances say, from whichever face, end and edge. Source: by
// hand, on the leg as drawn: near is right, up is front.
func TestBores(t *testing.T) {
	for _, c := range []struct {
		face, end, edge string
		want            geom.Vec // in
	}{
		{"front face", "bottom end", "right edge", geom.Vec{X: 2, Y: 1, Z: 1.5}},
		{"back face", "bottom end", "left edge", geom.Vec{X: 2, Y: 3}},
		{"front face", "top end", "right edge", geom.Vec{X: 22, Y: 1, Z: 1.5}},
		{"left edge", "bottom end", "back face", geom.Vec{X: 2, Y: 4, Z: 1}},
	} {
		p := leg()
		p.Long.Shown, p.Edge, p.Short, p.Cuts = `24"`, nil, nil, nil
		p.Holes = []Hole{{Bit: *figure(`1/4"`), Depth: *figure("through"), Face: c.face, End: c.end, FromEnd: *figure(`2"`), Rim: c.edge, FromRim: *figure(`1"`),
			Words: Prose{{Words: fmt.Sprintf(`drill 1/4" in the %s, centre 2" from the %s and 1" from the %s`, c.face, c.end, c.edge)}}}}
		s, err := saw(p, BySetting)
		if err != nil {
			t.Errorf("%+v: %v", c, err)
			continue
		}
		if got := s.holes[0].at.Times(1 / inch); got.Distance(c.want) > 1e-9 {
			t.Errorf("%+v: drilled at %v", c, got)
		}
	}
}

// A board 24 × 4 × 1 1/2 in with both ends sawn at 45 degrees to a point 1 in from its right
// edge, which is near: each end loses triangles of 1 × 1 / 2 and 3 × 3 / 2 square
// inches. Source: by hand.
func TestSawnToAPoint(t *testing.T) {
	board := func() *Part {
		p := leg()
		p.Long.Shown, p.Edge, p.Short = `24"`, nil, nil
		cut := func(kind, end, swing, fence, long, edge, in string) Cut {
			c := Cut{Kind: kind, Name: end, Setting: figure("45°"), Included: figure("45°"), Offset: figure(in), Swing: swing, FaceUp: "front face", Fence: fence,
				Keep: "left", Long: long, Marks: []Mark{{"the point from the " + edge, *figure(in)}}}
			c.Words = Prose{{Words: "two cuts saw it to a point; mark that on the end, " + in + " from the " + edge + ". From there to this edge swing the saw 45° " + swing +
				" of zero. Front face up, " + fence + " against the fence, the part left of the blade. It stands 45° off the edge. Or by pencil: square across from the point, step " + in}}
			return c
		}
		p.Cuts = []Cut{
			cut("end", "bottom", "right", "right edge", "left edge", "right edge", `1"`), cut("end", "top", "left", "left edge", "left edge", "right edge", `1"`),
			cut("second cut", "bottom", "left", "right edge", "right edge", "left edge", `3"`), cut("second cut", "top", "right", "left edge", "right edge", "left edge", `3"`),
		}
		return p
	}
	for _, way := range []Way{BySetting, ByIncluded, ByOffset} {
		s, err := saw(board(), way)
		if err != nil {
			t.Fatal(err)
		}
		if err := s.solid.Check(); err != nil {
			t.Error(err)
		}
		if got, want := s.solid.Volume/(inch*inch*inch), (24*4-2*(0.5+4.5))*1.5; math.Abs(got-want) > 1e-6 {
			t.Errorf("%v: %.4f cubic inches are left, want %.4f", way, got, want)
		}
		for _, v := range []geom.Vec{{Y: inch}, {X: 24 * inch, Y: inch}} {
			if far := away(s.solid, v); far > 1e-9 {
				t.Errorf("%v: the point lies %g mm off", way, far)
			}
		}
	}
	for name, spoil := range map[string]func(p *Part){
		"a cut without its point":    func(p *Part) { p.Cuts[2].Marks = nil },
		"one cut":                    func(p *Part) { p.Cuts = p.Cuts[:3] },
		"a point beside the board":   func(p *Part) { p.Cuts[0].Marks[0].At.Shown = `5"` },
		"both cuts to one edge":      func(p *Part) { p.Cuts[2] = p.Cuts[0]; p.Cuts[2].Kind = "second cut" },
		"another point in its words": func(p *Part) { p.Cuts[3].Marks[0].At.Shown = `2"` },
	} {
		p := board()
		spoil(p)
		if _, err := saw(p, BySetting); err == nil {
			t.Errorf("%s was sawn", name)
		}
	}
}
