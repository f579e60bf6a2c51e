package joint

import (
	"math"
	"slices"
	"strings"
	"testing"

	"scantling/internal/board"
	"scantling/internal/design"
	"scantling/internal/geom"
	"scantling/internal/measure"
	"scantling/internal/snag"
	"scantling/internal/span"
)

const inch = 25.4

func inches(v float64) measure.Length { return measure.Length(math.Round(v * float64(measure.Inch))) }

// at returns a board of the given size, in inches, lying along the piece's axes
// with its corner at x, y, z.
func at(id string, length, width, thick, x, y, z float64) *design.Board {
	pose := geom.Unmoved()
	pose.At = geom.Vec{X: x * inch, Y: y * inch, Z: z * inch}
	b := &board.Board{ID: board.ID(id), L: length * inch, W: inches(width), T: inches(thick), Pose: pose}
	b.Build()
	return &design.Board{Board: b, Name: id, Spoken: id}
}

// upright stands b's length up from its corner.
func upright(b *design.Board) *design.Board {
	b.Pose.X, b.Pose.Y, b.Pose.Z = geom.Vec{Z: 1}, geom.Vec{X: 1}, geom.Vec{Y: 1}
	return b
}

func declared(a, b, with string, count int) design.Joint {
	return design.Joint{Name: "j", Sides: [2][]board.ID{{board.ID(a)}, {board.ID(b)}}, Through: []board.ID{board.ID(a)},
		With: []design.Fastening{{Phrase: with, At: span.Range{File: "f", Start: 3, End: 9}}}, Pattern: design.Pattern{Count: count}}
}

func TestBite(t *testing.T) {
	for _, c := range []struct {
		name    string
		with    string
		through float64 // in, thickness of the board gone through
		into    *design.Board
		code    snag.Code
		mend    string
		source  string
	}{
		{"through a slat, too short", "screw 8 x 1 5/8", 1, at("b", 20, 3.5, 1.5, 0, 0, -1.5), "screw-short", "deck screw 8 x 2", "by hand: bite 5/8 < 1; the next sold, 2, bites 1"},
		{"through a slat", "screw 8 x 2", 1, at("b", 20, 3.5, 1.5, 0, 0, -1.5), "", "", "by hand: bite 1.00, cover 1/2"},
		{"through a slat, tip too near", "screw 8 x 2 1/2", 1, at("b", 20, 3.5, 1.5, 0, 0, -1.5), "screw-long", "deck screw 8 x 2", "by hand: 1.50 of bite in 1.50 of wood"},
		{"into a deep rail", "screw 8 x 2 1/2", 1, at("b", 20, 1.5, 3.5, 0, 0, -3.5), "", "", "by hand: bite 1.50 accepted by the 1 in floor"},
		{"comes out", "screw 8 x 3", 1, at("b", 20, 3.5, 1.5, 0, 0, -1.5), "screw-long", "deck screw 8 x 2", "by hand: 3 > 2 1/2"},
		{"end grain", "screw 10 x 3", 1.5, upright(at("b", 20, 3.5, 1.5, 0, 0, -20)), "screw-short", "deck screw 10 x 3 1/2", "by hand: 3 through 1 1/2 bites 1.5 < 2; 3 1/2 gives 2.0"},
		{"end grain, long enough", "screw 10 x 3 1/2", 1.5, upright(at("b", 20, 3.5, 1.5, 0, 0, -20)), "", "", "by hand: bite 2.0"},
		{"thin on thin", "screw 8 x 1 1/4", 0.75, at("b", 20, 3.5, 0.75, 0, 0, -0.75), "screw-short", "", "by hand: from 1 3/4 to 1 1/4, none can be"},
	} {
		p := &design.Piece{Boards: []*design.Board{at("a", 10, 3.5, c.through, 0, 0, 0), c.into}}
		p.Joints = []design.Joint{declared("a", "b", c.with, 2)}
		joints, snags := Find(p, Meet(p))
		if len(joints[0].Pairs) != 1 || joints[0].Total() != 2 {
			t.Errorf("%s: %+v", c.name, joints[0])
			continue
		}
		var code snag.Code
		mend := ""
		snags = slices.DeleteFunc(snags, func(s snag.Snag) bool { return s.Code == "end-grain" || s.Code == "end-near" })
		if len(snags) > 0 {
			code = snags[0].Code
			for _, m := range snags[0].Mends {
				for _, e := range m.Edits {
					mend = e.Text
				}
			}
		}
		if code != c.code || mend != c.mend || len(snags) > 1 {
			t.Errorf("%s: snags %+v, want %q mended by %q (%s)", c.name, snags, c.code, c.mend, c.source)
		}
	}
}

func TestBoltForStack(t *testing.T) {
	p := &design.Piece{Boards: []*design.Board{at("a", 10, 3.5, 1.5, 0, 0, 0), at("b", 20, 3.5, 1.5, 0, 0, -1.5)}}
	p.Joints = []design.Joint{declared("a", "b", "carriage bolt 5/16", 2)}
	joints, snags := Find(p, Meet(p))
	if len(snags) > 0 {
		t.Fatal(snags)
	}
	u := joints[0].Pairs[0].Uses[0]
	// By hand: 3 of wood, washers, 17/64 of nut and 1/4 beyond: 3.578 with one
	// washer of 1/16, 3.682 with two of 0.083; either way 4 is the least sold.
	if u.Fastener.Name() != "carriage bolt 5/16 x 4" || u.Count != 2 {
		t.Errorf("got %d %s", u.Count, u.Fastener.Name())
	}
	lines := map[string]int{}
	for _, l := range Tally(joints).Lines() {
		lines[l.What] = l.Count
	}
	if lines["carriage bolt 5/16 x 4"] != 2 || lines["nut 5/16"] != 2 || lines["washer 5/16"] != 2*u.Fit.Washers {
		t.Errorf("tally %v with %d washers each", lines, u.Fit.Washers)
	}
}

func TestPairsThatMeet(t *testing.T) {
	three := func(x float64) []*design.Board {
		return []*design.Board{at("a", 10, 3.5, 1, 0, 0, 0), at("b", 20, 3.5, 1.5, x, 0, -1.5)}
	}
	for _, c := range []struct {
		name   string
		boards []*design.Board
		expect float64
		pairs  int
		code   snag.Code
		says   string
	}{
		{"touching", three(0), 0, 1, "", ""},
		{"as many as expected", three(0), 1, 1, "", ""},
		{"fewer than expected", three(0), 4, 1, "joint-count", "j fastens 1 pair, and 4 are expected"},
		{"corner on corner", three(9.9), 0, 0, "joint-slight", "0.35 sq in"},
		{"apart", []*design.Board{at("a", 10, 3.5, 1, 0, 0, 0.375), at("b", 20, 3.5, 1.5, 0, 0, -1.5)}, 0, 0, "joint-apart", `3/8" apart`},
		{"end to end apart", three(12.25), 0, 0, "joint-apart", `2 1/4" apart`},
	} {
		p := &design.Piece{Boards: c.boards, Joints: []design.Joint{declared("a", "b", "outdoor glue", 0)}}
		if c.expect > 0 {
			p.Joints[0].Expect = &design.Figure{Q: measure.Number(c.expect)}
		}
		joints, snags := Find(p, Meet(p))
		if got := len(joints[0].Pairs); got != c.pairs {
			t.Errorf("%s: %d pairs, want %d", c.name, got, c.pairs)
		}
		if c.code == "" && len(snags) > 0 || c.code != "" && (len(snags) != 1 || snags[0].Code != c.code || !strings.Contains(snags[0].What, c.says)) {
			t.Errorf("%s: %+v, want %s with %q", c.name, snags, c.code, c.says)
		}
	}
}

func TestClashesAndNearTouches(t *testing.T) {
	for _, c := range []struct {
		name string
		z    float64 // in, of the lower board's top
		code snag.Code
		says string
	}{
		{"flush", 0, "", ""},
		{"within touch", 0.01 / inch, "", ""},
		{"deep", 0.25, "clash", `1/4" deep, 8.75 cu in`},
		{"nearly", -0.1 / inch, "nearly-touch", `less than 1/64" apart`},
		{"a gap that shows", -1.0 / 16, "", ""},
	} {
		p := &design.Piece{Boards: []*design.Board{at("a", 10, 3.5, 1, 0, 0, 0), at("b", 20, 3.5, 1.5, 0, 0, c.z-1.5)}}
		snags := Meet(p).Snags()
		if c.code == "" && len(snags) > 0 || c.code != "" && (len(snags) != 1 || snags[0].Code != c.code || !strings.Contains(snags[0].What, c.says)) {
			t.Errorf("%s: %+v, want %s with %q", c.name, snags, c.code, c.says)
		}
	}
}

func TestCountAlongAContact(t *testing.T) {
	p := &design.Piece{Boards: []*design.Board{at("a", 30, 1.5, 1, 0, 0, 0), at("b", 30, 1.5, 3, 0, 0, -3)}}
	j := declared("a", "b", "screw 8 x 2", 0)
	j.Pattern.Spacing = &design.Figure{Q: inches(8).Quantity()}
	j.Pattern.FromEnd = &design.Figure{Q: inches(3).Quantity()}
	p.Joints = []design.Joint{j}
	joints, _ := Find(p, Meet(p))
	if got := joints[0].Total(); got != 4 { // by hand: 30 − 2·3 = 24 in, every 8: 4
		t.Errorf("%d screws, want 4", got)
	}
}

// A brace aslant over the edge of a post meets it in a strip as broad as the post:
// what counts as comfort follows from that breadth.
func TestPatternOnAStripAslant(t *testing.T) {
	brace := at("a", 30, 3.5, 0.75, 0, 0, 0)
	half := math.Sqrt2 / 2
	brace.Pose.X, brace.Pose.Y = geom.Vec{X: half, Y: half}, geom.Vec{X: -half, Y: half}
	post := at("b", 60, 1.5, 3.5, 10, -20, -3.5)
	post.Pose.X, post.Pose.Y = geom.Vec{Y: 1}, geom.Vec{X: -1}
	post.Pose.At.X += 1.5 * inch
	p := &design.Piece{Boards: []*design.Board{brace, post}}
	j := declared("a", "b", "screw 6 x 2", 2)
	j.Pattern.Set = "across"
	p.Joints = []design.Joint{j}
	joints, snags := Find(p, Meet(p))
	if len(snags) > 0 {
		t.Errorf("%v", snags)
	}
	if got := joints[0].Total(); got != 2 { // by hand: (1 1/2 − 2 · 3/8) · √2 = 1 1/16 in apart, 7/16 wanted
		t.Errorf("%d screws, want 2", got)
	}
}
