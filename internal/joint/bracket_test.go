package joint

import (
	"math"
	"testing"

	"scantling/internal/board"
	"scantling/internal/design"
	"scantling/internal/geom"
	"scantling/internal/snag"
)

// Brackets sit where they can: places by hand, in inches.
func TestBrackets(t *testing.T) {
	base := func() *design.Board { return at("b", 20, 3.5, 1.5, 0, 0, -1.5) }
	for _, c := range []struct {
		name   string
		with   string
		count  int
		boards []*design.Board
		plates [][3]float64 // where each is bent or lies over the line
		screws [][3]float64 // those of the first
		screw  string
	}{
		// A post 3 1/2 x 1 1/2 on a base: beside its edges the base is free for the
		// legs, beside its faces 1 in only. The base is 1 1/2 thick: 1 1/4 and 1/4 left.
		{"in two corners", "corner bracket 2", 2, []*design.Board{upright(at("a", 20, 3.5, 1.5, 8, 1, 0)), base()},
			[][3]float64{{8, 1.75, 0}, {11.5, 1.75, 0}}, [][3]float64{{8, 1.75, 0.75}, {8, 1.75, 1.625}, {7.25, 1.75, 0}, {6.375, 1.75, 0}}, "wood screw 8 x 1 1/4"},
		{"over a line", "flat bracket 3", 1, []*design.Board{at("a", 10, 3.5, 1.5, 0, 0, 0), at("b", 10, 3.5, 1.5, 10, 0, 0)},
			[][3]float64{{10, 1.75, 1.5}}, [][3]float64{{9.4375, 1.75, 1.5}, {8.78125, 1.75, 1.5}, {10.5625, 1.75, 1.5}, {11.21875, 1.75, 1.5}}, "wood screw 8 x 1 1/4"},
		{"nowhere", "corner bracket 3", 1, []*design.Board{at("a", 20, 3.5, 1, 0, 0, 0), base()}, nil, nil, ""},
		{"too many", "corner bracket 2", 9, []*design.Board{upright(at("a", 20, 3.5, 1.5, 8, 1, 0)), base()}, nil, nil, ""},
	} {
		p := &design.Piece{Boards: c.boards, Joints: []design.Joint{declared("a", "b", c.with, c.count)}}
		joints, snags := Find(p, Meet(p))
		pair := joints[0].Pairs[0]
		if c.plates == nil {
			if len(snags) != 1 || snags[0].Code != "no-room-to-fasten" || snags[0].Severity != snag.Error {
				t.Errorf("%s: %v", c.name, snags)
			}
			continue
		}
		if len(snags) > 0 || len(pair.Uses) != 2 || pair.Uses[0].Count != len(c.plates) || pair.Uses[1].Fastener.Name() != c.screw || pair.Uses[1].Count != 4*len(c.plates) {
			t.Fatalf("%s: %v, %+v", c.name, snags, pair.Uses)
		}
		near := func(v geom.Vec, want [3]float64) bool {
			return math.Abs(v.X-want[0]*inch) < 1e-6 && math.Abs(v.Y-want[1]*inch) < 1e-6 && math.Abs(v.Z-want[2]*inch) < 1e-6
		}
		for i, want := range c.plates {
			if !near(pair.Uses[0].Plates[i].At, want) {
				t.Errorf("%s: bracket %d sits at %v mm, want %v in", c.name, i, pair.Uses[0].Plates[i].At, want)
			}
		}
		for i, want := range c.screws {
			if !near(pair.Uses[1].Axes[i].At, want) {
				t.Errorf("%s: screw %d stands at %v mm, want %v in", c.name, i, pair.Uses[1].Axes[i].At, want)
			}
		}
		holes := 0
		for _, b := range p.Boards {
			for _, h := range b.Holes {
				if h.Kind != board.Pilot || h.When != board.InPlace || h.Mate == b.ID {
					t.Errorf("%s: %+v", c.name, h)
				}
				holes++
			}
		}
		if holes != 4*len(c.plates) {
			t.Errorf("%s: %d holes", c.name, holes)
		}
		lines := map[string]int{}
		for _, l := range Tally(joints).Lines() {
			lines[l.What] = l.Count
		}
		if lines[c.with] != len(c.plates) || lines[c.screw] != 4*len(c.plates) {
			t.Errorf("%s: bought %v", c.name, lines)
		}
	}
}

// A dowel half in each board, or a peg through both; a lag screw's hole, wide as far as
// its shank goes; a counterbored bolt; a bolt into an insert: their holes by hand, in
// sixty-fourths of an inch.
func TestHolesByHand(t *testing.T) {
	type hole struct {
		board      string
		kind       board.HoleKind
		when       board.When
		wide, deep float64 // deep 0: through
	}
	for _, c := range []struct {
		with      []string
		through   float64
		into      float64
		head, nut float64 // of counterbore, in
		holes     []hole
		source    string
	}{
		{[]string{"dowel 3/8 x 2"}, 1.5, 3.5, 0, 0, []hole{{"a", board.Pilot, board.Bench, 24, 68}, {"b", board.Pilot, board.Bench, 24, 68}}, "half, 1 in, and 1/16"},
		{[]string{"dowel 3/8 x 1 1/2"}, 0.75, 0.75, 0, 0, []hole{{"a", board.Clearance, board.Together, 24, 0}, {"b", board.Clearance, board.Together, 24, 0}}, "a peg as long as both are thick"},
		{[]string{"lag screw 3/8 x 6"}, 1.5, 5.5, 0, 0, []hole{{"a", board.Clearance, board.Bench, 24, 0}, {"b", board.Clearance, board.InPlace, 24, 64}, {"b", board.Pilot, board.InPlace, 16, 288}},
			"shank 6 − 3 1/2 = 2 1/2, 1 in of it beyond 1 1/2; tip 4 1/2 in; 0.7 · 3/8 in G 0.50"},
		{[]string{"hex bolt 3/8"}, 3.5, 1.5, 0.75, 0.5, []hole{{"a", board.Counterbore, board.Bench, 72, 48}, {"a", board.Clearance, board.Together, 26, 0}, {"b", board.Counterbore, board.Bench, 72, 32}, {"b", board.Clearance, board.Together, 26, 0}},
			"1 1/8 for a washer of 1 in; 3/8 and 1/32"},
		{[]string{"hex bolt 1/4", "threaded insert 1/4"}, 1, 3.5, 0, 0, []hole{{"a", board.Clearance, board.Bench, 18, 0}, {"b", board.Pilot, board.InPlace, 24, 40}}, "insert 1/2 and 1/8 deep"},
		{[]string{"screw 8 x 2"}, 1.5, 3.5, 0.5, 0, []hole{{"a", board.Counterbore, board.Bench, 24, 32}, {"a", board.Clearance, board.Bench, 11, 0}, {"b", board.Pilot, board.InPlace, 6, 64}}, "a plug of 3/8; 2 − 1 in beyond"},
	} {
		p := &design.Piece{Boards: []*design.Board{at("a", 20, 5.5, c.through, 0, 0, 0), at("b", 20, 5.5, c.into, 0, 0, -c.into)}}
		j := declared("a", "b", c.with[0], 1)
		for _, more := range c.with[1:] {
			j.With = append(j.With, design.Fastening{Phrase: more, At: j.With[0].At})
		}
		for _, x := range []struct {
			deep float64
			said **design.Figure
		}{{c.head, &j.Counterbore.Head}, {c.nut, &j.Counterbore.Nut}} {
			if x.deep > 0 {
				*x.said = &design.Figure{Q: inches(x.deep).Quantity()}
			}
		}
		p.Joints = []design.Joint{j}
		_, snags := Find(p, Meet(p))
		if snags.Errors() > 0 {
			t.Errorf("%v: %v", c.with, snags)
		}
		var got []hole
		for _, b := range p.Boards {
			for _, h := range b.Holes {
				got = append(got, hole{string(b.ID), h.Kind, h.When, h.Diameter / inch * 64, h.Depth / inch * 64})
			}
		}
		if len(got) != len(c.holes) {
			t.Errorf("%v: %+v, want %+v (%s)", c.with, got, c.holes, c.source)
			continue
		}
		for i, w := range c.holes {
			if g := got[i]; g.board != w.board || g.kind != w.kind || g.when != w.when || math.Abs(g.wide-w.wide) > 1e-6 || math.Abs(g.deep-w.deep) > 1e-6 {
				t.Errorf("%v: hole %d %+v, want %+v (%s)", c.with, i, g, w, c.source)
			}
		}
	}
}
