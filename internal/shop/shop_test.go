package shop

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"scantling/internal/board"
	"scantling/internal/design"
	"scantling/internal/geom"
	"scantling/internal/joint"
	"scantling/internal/lumber"
	"scantling/internal/measure"
	"scantling/internal/part"
	"scantling/internal/phrase"
	"scantling/internal/span"
	"scantling/internal/steady"
)

func inches(v float64) measure.Length { return measure.Length(math.Round(v * float64(measure.Inch))) }

// compute builds the boards of a piece and reads it.
func compute(p *design.Piece) *Readings {
	for _, b := range p.Boards {
		if b.Solid == nil {
			b.Build()
		}
	}
	m := joint.Meet(p)
	joints, snags := joint.Find(p, m)
	r, more := Compute(p, m, joints, part.Sort(p), Pen{})
	r.Notes = Notes(append(snags, more...), p, r)
	return r
}

func stock(t *testing.T, size string) *lumber.Stock {
	t.Helper()
	s, err := lumber.Lookup(size)
	if err != nil {
		t.Fatal(err)
	}
	st := lumber.StockOf(s, "southern pine", "No. 2", lumber.GroundContact)
	return &st
}

// leg is a leg 33 in high that leans so many degrees in the front view, 4 in wide
// from a 2x6, its ends level, its right edge tapered from 6 in below the top to 2
// 3/4 in at the foot when tapered.
func leg(t *testing.T, lean float64, tapered bool) *design.Board {
	const high, wide, thick = 33, 4, 1.5
	a := rad(lean)
	edge := high / steady.Cos(a)
	off := wide * steady.Tan(a)
	// Run up, show face front: x up the leg, z to the front, so y to the left.
	n := geom.Vec{X: steady.Cos(a), Y: steady.Sin(a)} // the foot is out to the left
	top := geom.Facing(geom.Vec{X: (edge + off) * inch}, n)
	bottom := geom.Facing(geom.Vec{Y: wide * inch}, n.Negated())
	b := &board.Board{ID: "leg", Stock: stock(t, "2x6"), T: inches(thick), W: inches(wide), Rip: board.Near,
		L: (edge + off) * inch, Short: (edge - off) * inch, EdgeLength: edge * inch,
		Sides: [6]string{"bottom", "top", "right", "left", "back", "front"},
		Pose:  geom.Pose{X: geom.Vec{Z: 1}, Y: geom.Vec{X: -1}, Z: geom.Vec{Y: -1}},
		Cuts: []board.Cut{
			{Kind: board.EndCut, Side: board.Start, Plane: bottom, Meets: "floor", Square: lean == 0},
			{Kind: board.EndCut, Side: board.Finish, Plane: top, Meets: "deck", Square: lean == 0}}}
	if tapered {
		// Along the right edge from its corner at the top down 6, and where the
		// foot is 2 3/4 in square from the left edge.
		from := geom.Vec{X: (edge + off - 6) * inch}
		to := geom.Vec{X: 2.75 * steady.Tan(a) * inch, Y: (wide - 2.75) * inch}
		way := from.Minus(to)
		b.Cuts = append(b.Cuts, board.Cut{Kind: board.Taper, Name: "slim", Side: board.Near,
			Plane: geom.Facing(from, geom.Vec{X: way.Y, Y: -way.X}),
			Mark:  board.Mark{At: board.Finish, From: 6 * inch, Wide: 2.75 * inch}})
	}
	return &design.Board{Board: b, Name: "leg", Lumber: "leg_stock", Spoken: "leg", Rip: true,
		Section: span.Of(1), LengthFrom: span.Of(2), Place: span.Of(3)}
}

func TestLegSaidAsTheTradeSaysIt(t *testing.T) {
	for _, c := range []struct {
		lean                                          float64
		long, short, edge, setting, included, stepped string
		source                                        string
	}{
		{10, `34 3/16"`, `32 13/16"`, `33 1/2"`, "10°", "80°", `11/16"`, "by hand: 33/cos 10° = 33.509, 4·tan 10° = 0.705, long 34.214, short 32.804"},
		{15, `35 1/4"`, `33 1/16"`, `34 3/16"`, "15°", "75°", `1 1/16"`, "by hand: 34.164, 1.072, 35.236, 33.092"},
		{8, `33 7/8"`, `32 3/4"`, `33 5/16"`, "8°", "82°", `9/16"`, "by hand: 33.324, 0.562, 33.886, 32.762"},
	} {
		p := compute(&design.Piece{Boards: []*design.Board{leg(t, c.lean, false)}}).Parts[0]
		for i, end := range p.Ends {
			if end.Setting.Text != c.setting || end.Included.Text != c.included || end.Offset.Text != c.stepped {
				t.Errorf("%g° end %d: %s, %s, %s; want %s, %s, %s (%s)", c.lean, i, end.Setting.Text, end.Included.Text, end.Offset.Text, c.setting, c.included, c.stepped, c.source)
			}
		}
		if p.Long.Text != c.long || p.Short.Text != c.short || p.Edge.Text != c.edge {
			t.Errorf("%g°: long %s short %s edge %s, want %s %s %s (%s)", c.lean, p.Long.Text, p.Short.Text, p.Edge.Text, c.long, c.short, c.edge, c.source)
		}
		if p.Ends[0].Swing != p.Ends[1].Swing {
			t.Errorf("%g°: parallel ends swing %s and %s", c.lean, p.Ends[0].Swing, p.Ends[1].Swing)
		}
	}
}

func TestWords(t *testing.T) {
	r := compute(&design.Piece{Boards: []*design.Board{leg(t, 10, true)}})
	p := r.Parts[0]
	for _, c := range []struct{ name, got, want string }{
		{"top end", p.Ends[1].Words.String(),
			`Top end: swing the saw 10° right of zero. Front face up, left edge against the fence, the part left of the blade. The tip is 80°. Or by pencil: square across from the long point on the right edge, step 11/16" along the left edge toward the middle of the part, and join.`},
		{"bottom end", p.Ends[0].Words.String(),
			`Bottom end: swing the saw 10° right of zero. Front face up, right edge against the fence, the part left of the blade. The tip is 80°. Or by pencil: square across from the long point on the left edge, step 11/16" along the right edge toward the middle of the part, and join.`},
		// By hand: run 27.729 for 1.25: 2.58°, 0.541 in a foot; 2.75/cos 10° = 2.792.
		{"taper", p.Cuts[0].Words.String(),
			`Taper the right edge: mark it 6" from its corner at the top end; at the bottom end mark 2 3/4" square from the left edge; join the marks and saw outside the line. It runs 2 1/2° off the grain, 9/16" in a foot, and leaves 2 13/16" along the cut of the bottom end.`},
		// By hand: 5 1/2 − 4 − 1/8 = 1 3/8.
		{"parts list", p.CutNote.String(),
			`Rip to 4" (keep the left edge; a strip of 1 3/8" comes off); both ends 10°, parallel; a taper`},
		{"stock", p.Stock, "2x6 southern pine, No. 2, ground contact"},
	} {
		if c.got != c.want {
			t.Errorf("%s:\n got %s\nwant %s", c.name, c.got, c.want)
		}
	}
	steep, fall := slope(leg(t, 10, true).Cuts[2].Plane, 12*25.4)
	if math.Abs(steep-2.58) > 0.005 || math.Abs(fall/inch-0.541) > 0.001 {
		t.Errorf("taper of %.3f°, %.4f in a foot; by hand 2.58°, 0.541", steep, fall/inch)
	}
}

func TestSettingsPastTheSaw(t *testing.T) {
	for _, c := range []struct {
		mitre, bevel float64
		width        float64 // in
		note, marks  bool
	}{
		{45, 0, 3.5, false, false},
		{50, 0, 3.5, true, false},
		{0, 50, 3.5, true, false},
		{60, 0, 7.25, true, true}, // 7.25/cos 60° = 14.5 in of line
		{45, 0, 9.25, false, false},
		{0.2, 0, 9.25, false, true}, // 9.25·tan 0.2° = 1/32: no scale reads it
	} {
		n := geom.Vec{X: steady.Cos(rad(c.mitre)), Y: steady.Sin(rad(c.mitre))}.Times(steady.Cos(rad(c.bevel))).Along(geom.Vec{Z: 1}, steady.Sin(rad(c.bevel)))
		b := &design.Board{Board: &board.Board{W: inches(c.width), T: inches(1.5), L: 1000,
			Sides: [6]string{"left", "right", "front", "back", "bottom", "top"}}}
		s := &shop{}
		r := s.sawCut(b, board.Cut{Kind: board.EndCut, Side: board.Finish, Plane: geom.Plane{N: n}})
		if (r.Note != "") != c.note || r.ByMarks != c.marks {
			t.Errorf("mitre %g bevel %g over %g in: note %q, by marks %v", c.mitre, c.bevel, c.width, r.Note, r.ByMarks)
		}
	}
}

// What is printed reads back as what is worked with, and is within half a tape
// unit of the exact length.
func TestPrintedReadsBack(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		mm := rapid.Float64Range(-5000, 5000).Draw(r, "mm")
		s := Pen{}.Length(mm, span.Set{})
		l := s.Printed()
		if l%(measure.Inch/16) != 0 {
			r.Fatalf("%s is %d nm, no sixteenths", s.Text, l)
		}
		if again := (Pen{}).Length(l.MM(), span.Set{}); again.Text != s.Text {
			r.Fatalf("%s prints again as %s", s.Text, again.Text)
		}
		if off := math.Abs(l.MM() - mm); off > 25.4/32+1e-6 {
			r.Fatalf("%s is %g mm off %g", s.Text, off, mm)
		}
	})
}

func TestNumbersWrittenOnce(t *testing.T) {
	var p Pen
	from := span.Of(4)
	for _, c := range []struct {
		got  Shown
		want string
	}{
		{p.Length(73.692*inch, from), `73 11/16"`},
		{p.Length(8*12*inch, from), `8' 0"`},
		{p.Length(0.49*inch/16, from), `0"`},
		{p.Stock(12*measure.Foot, from), "12 ft"},
		{p.Angle(9.963, from), "10°"},
		{p.Angle(12.58, from), "12 1/2°"},
		{p.Bit(11.0/32*inch, from), `11/32"`},
		{p.Money(650, from), "$6.50"},
		{p.Mass(129/2.20462262, from), "129 lb"},
		{p.Count(13, from), "13"},
	} {
		if c.got.Text != c.want || c.got.From != from {
			t.Errorf("got %q, want %q", c.got.Text, c.want)
		}
	}
}

func TestTextKeepsItsNumbers(t *testing.T) {
	d := Pen{}.Length(inch, span.Set{})
	a := Words("one ").Say("two ").Show(d)
	b, c := a.Say(" b"), a.Say(" c") // both continue a, neither touches the other
	if b.String() != `one two 1" b` || c.String() != `one two 1" c` || len(a) != 2 {
		t.Errorf("%q %q %d", b, c, len(a))
	}
	if got := phrase.List(strings.Fields("a b c")); got != "a, b and c" {
		t.Error(got)
	}
}

// By hand: 1 1/2 × 3 1/2 × 96 = 504 in³ = 0.008259 m³; southern pine at 15 %
// moisture 1000/(1/0.55 + 0.009·15)·1.15 = 588.8 kg/m³ (design gravity 0.55, NDS
// 2018 table 12.3.3A): 4.863 kg, 10.7 lb.
func TestWeight(t *testing.T) {
	b := along("stud", "stud", "stud", 96, 3.5, 1.5, right, front, 0, 0, 0, "left right bottom top back front")
	b.Stock = stock(t, "2x4")
	r := compute(&design.Piece{Boards: []*design.Board{b}})
	if math.Abs(r.Mass.Exact.V-4.863) > 0.002 || r.Parts[0].Mass.Text != "11 lb" {
		t.Errorf("%g kg, %s; want 4.863, 11 lb", r.Mass.Exact.V, r.Parts[0].Mass.Text)
	}
	if got := [3]string{r.Overall[0].Text, r.Overall[1].Text, r.Overall[2].Text}; got != [3]string{`8' 0"`, `1 1/2"`, `3 1/2"`} {
		t.Errorf("overall %v", got)
	}
	if r.Parts[0].Long.Printed() != 8*measure.Foot {
		t.Errorf("cut to %d nm", r.Parts[0].Long.Printed())
	}
}
