package part

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"scantling/internal/board"
	"scantling/internal/design"
	"scantling/internal/geom"
	"scantling/internal/measure"
	"scantling/internal/steady"
)

const inch = 25.4

// stick returns a board length × width × thick inches with cuts made.
func stick(id string, length, width, thick float64, cuts ...board.Cut) *design.Board {
	b := &board.Board{ID: board.ID(id), L: length * inch, W: inches(width), T: inches(thick), Cuts: cuts, Pose: geom.Unmoved()}
	b.Build()
	return &design.Board{Board: b, Name: "leg", Spoken: id}
}

func inches(v float64) measure.Length { return measure.Length(math.Round(v * float64(measure.Inch))) }

// end cuts an end of a board of the given size through the blank's corner that
// is its long point, mitre degrees toward Far and bevel degrees toward Show.
func end(side board.Side, mitre, bevel, length, width, thick float64) board.Cut {
	n := geom.Vec{X: side.Out().X, Y: steady.Tan(mitre * math.Pi / 180), Z: steady.Tan(bevel * math.Pi / 180)}
	corner := geom.Vec{}
	if side == board.Finish {
		corner.X = length * inch
	}
	if mitre < 0 {
		corner.Y = width * inch
	}
	if bevel < 0 {
		corner.Z = thick * inch
	}
	p := geom.Facing(corner, n)
	return board.Cut{Kind: board.EndCut, Side: side, Plane: p, Square: mitre == 0 && bevel == 0}
}

func notch(x0, x1, y0, y1, thick float64) board.Cut {
	low, high := geom.Vec{X: x0 * inch, Y: y0 * inch}, geom.Vec{X: x1 * inch, Y: y1 * inch, Z: thick * inch}
	pose := geom.Unmoved()
	pose.At = low
	return board.Cut{Kind: board.Notch, Low: low, High: high, Waste: geom.BoxPlanes(pose, high.Minus(low))}
}

var (
	leftRight = geom.Facing(geom.Vec{}, geom.Vec{X: 1})
	frontBack = geom.Facing(geom.Vec{}, geom.Vec{Y: 1})
)

func mirrored(b *design.Board, id string, about geom.Plane) *design.Board {
	return &design.Board{Board: b.Board.Mirrored(about), Name: b.Name, Spoken: id}
}

// four is a leg and its copies by two mirrors, as a table has them.
func four(b *design.Board) *design.Piece {
	right := mirrored(b, "front right leg", leftRight)
	return &design.Piece{Boards: []*design.Board{b, right, mirrored(b, "back left leg", frontBack), mirrored(right, "back right leg", frontBack)}}
}

func TestHands(t *testing.T) {
	const w, th = 4, 1.5
	parallel := []board.Cut{end(board.Start, -10, 0, 34, w, th), end(board.Finish, 10, 0, 34, w, th)}
	compound := []board.Cut{end(board.Start, -10, -5, 34, w, th), end(board.Finish, 10, 5, 34, w, th)}
	rounded := stick("front left leg", 34, w, th, parallel...)
	rounded.Edges = []board.Edge{{Work: board.Round, Size: inches(0.25), Along: []board.Arris{{board.Near, board.Show}}}}
	drilled := stick("front left leg", 34, w, th, parallel...)
	drilled.Holes = []board.Hole{{At: geom.Vec{X: 50, Y: 30, Z: th * inch}, Way: geom.Vec{Z: -1}, Diameter: 9}, {At: geom.Vec{X: 80, Y: 60, Z: th * inch}, Way: geom.Vec{Z: -1}, Diameter: 9}}
	sunk := stick("front left leg", 34, w, th, parallel...)
	sunk.Holes = []board.Hole{{At: geom.Vec{X: 50, Y: 30, Z: th * inch}, Way: geom.Vec{Z: -1}, Diameter: 9, Depth: 10}}
	for _, c := range []struct {
		name   string
		leg    *design.Board
		counts []int
		hands  []Hand
		turned int
		source string
	}{
		{"square", stick("front left leg", 34, w, th), []int{4}, []Hand{None}, 0, "by hand"},
		{"single lean", stick("front left leg", 34, w, th, parallel...), []int{4}, []Hand{None}, 2, "by hand: a sheared rectangle is its own mirror once turned over"},
		{"single lean, drilled through", drilled, []int{4}, []Hand{None}, 2, "by hand: through holes are the same from either face"},
		{"single lean, drilled from one face", sunk, []int{2, 2}, []Hand{Left, Right}, 0, "by hand: turned over, the hole is in the wrong face"},
		{"single lean, one edge rounded", rounded, []int{2, 2}, []Hand{Left, Right}, 0, "by hand"},
		{"two leans, ends parallel", stick("front left leg", 34, w, th, compound...), []int{4}, []Hand{None}, 2, "by hand: a slanted box is its own image through its middle, so a half turn mirrors it"},
		{"two leans and a notch", stick("front left leg", 34, w, th, append(compound, notch(10, 12, 0, 1, th))...), []int{2, 2}, []Hand{Left, Right}, 0, "by hand: two left, two right; mirrored twice is a turn"},
		{"two leans, square top", stick("front left leg", 34, w, th, compound[0], end(board.Finish, 0, 0, 34, w, th)), []int{2, 2}, []Hand{Left, Right}, 0, "by hand"},
		{"ends opposite", stick("front left leg", 34, w, th, end(board.Start, 10, 0, 34, w, th), end(board.Finish, 10, 0, 34, w, th)), []int{4}, []Hand{None}, 0, "by hand: a trapezium mirrors end for end"},
		{"notch in a corner", stick("front left leg", 34, w, th, notch(0, 3, 0, 1, th)), []int{4}, []Hand{None}, 2, "by hand"},
		{"notch through half the thickness", stick("front left leg", 34, w, th, notch(0, 3, 0, 1, th/2)), []int{2, 2}, []Hand{Left, Right}, 0, "by hand"},
	} {
		p := four(c.leg)
		parts := Sort(p)
		if len(parts) != len(c.counts) {
			t.Errorf("%s: %d parts, want %d (%s)", c.name, len(parts), len(c.counts), c.source)
			continue
		}
		for i, q := range parts {
			if len(q.Of) != c.counts[i] || q.Hand != c.hands[i] {
				t.Errorf("%s: part %s has %d boards, hand %q, want %d, %q (%s)", c.name, q.Letter, len(q.Of), q.Hand, c.counts[i], c.hands[i], c.source)
			}
			if len(parts) == 2 && q.Twin != parts[1-i] {
				t.Errorf("%s: part %s is not tied to its twin", c.name, q.Letter)
			}
		}
		if parts[0].Turned() != c.turned {
			t.Errorf("%s: %d lie turned over, want %d", c.name, parts[0].Turned(), c.turned)
		}
		if len(parts) == 2 && (parts[0].Of[0].Spoken != "front left leg" || parts[0].Of[1].Spoken != "back right leg") {
			t.Errorf("%s: the left hand is %s and %s, want the front left and the back right", c.name, parts[0].Of[0].Spoken, parts[0].Of[1].Spoken)
		}
	}
}

func TestAlikeToAFortiethOfATapeUnit(t *testing.T) {
	a, b := stick("a", 30, 3.5, 1.5), stick("b", 30, 3.5, 1.5)
	for _, c := range []struct {
		off   float64 // mm
		parts int
	}{{0.009, 1}, {0.011, 2}} {
		b.L = 30*inch + c.off
		b.Build()
		if got := len(Sort(&design.Piece{Boards: []*design.Board{a, b}})); got != c.parts {
			t.Errorf("%g mm apart: %d parts, want %d", c.off, got, c.parts)
		}
	}
}

func TestLettersFollowTheSteps(t *testing.T) {
	named := func(id, name string, length float64) *design.Board {
		b := stick(id, length, 3.5, 1.5)
		b.Name = name
		return b
	}
	p := &design.Piece{
		Boards: []*design.Board{named("slat", "slat", 20), named("leg", "leg", 30), named("rail", "rail", 40), named("spare", "spare", 10)},
		Steps:  []design.Step{{Add: []board.ID{"rail", "leg"}}, {Add: []board.ID{"slat"}}},
	}
	want := map[string]string{"A": "leg", "B": "rail", "C": "slat", "D": "spare"}
	for _, q := range Sort(p) {
		if want[q.Letter] != q.Name {
			t.Errorf("part %s is the %s, want the %s", q.Letter, q.Name, want[q.Letter])
		}
	}
	for i, want := range map[int]string{7: "H", 8: "J", 23: "Z", 24: "AA", 47: "AZ", 48: "BA"} {
		if got := letter(i); got != want {
			t.Errorf("letter %d is %s, want %s", i, got, want)
		}
	}
}

func TestEverySymmetryIsFoundAndCarriesSides(t *testing.T) {
	for _, square := range []bool{false, true} {
		all := symmetries(square)
		turns := 0
		for _, s := range all {
			if s.IsTurn() {
				turns++
			}
			for side := board.Start; side <= board.Show; side++ {
				if got, want := s.Side(side).Out(), s.way(side.Out()); got != want {
					t.Errorf("%+v carries side %d to %v, its direction to %v", s, side, got, want)
				}
			}
		}
		if want := 4; square && turns != 2*want || !square && turns != want || len(all) != 2*turns {
			t.Errorf("square %v: %d turns of %d symmetries", square, turns, len(all))
		}
	}
}

// Any board and its mirror image are one part, or a left and a right; and which
// of the two is looked at first changes nothing but their hands.
func TestMirrorSwapsHands(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		const w, th = 3.5, 1.5
		angle := rapid.SampledFrom([]float64{-12, -5, 0, 5, 12})
		length := float64(rapid.IntRange(10, 40).Draw(r, "length"))
		cuts := []board.Cut{
			end(board.Start, angle.Draw(r, "m0"), angle.Draw(r, "b0"), length, w, th),
			end(board.Finish, angle.Draw(r, "m1"), angle.Draw(r, "b1"), length, w, th),
		}
		if rapid.Bool().Draw(r, "notched") {
			x := float64(rapid.IntRange(3, 6).Draw(r, "at"))
			cuts = append(cuts, notch(x, x+1, 0, 1, th))
		}
		b := stick("left one", length, w, th, cuts...)
		image := mirrored(b, "right one", leftRight)
		one := Sort(&design.Piece{Boards: []*design.Board{b, image}})
		two := Sort(&design.Piece{Boards: []*design.Board{image, b}})
		if len(one) != len(two) {
			r.Fatalf("%d parts one way round, %d the other", len(one), len(two))
		}
		for i := range one {
			j := len(one) - 1 - i // the written one comes first
			if one[i].Hand != two[j].Hand || one[i].Master.Spoken != two[j].Master.Spoken && len(one) == 2 {
				r.Fatalf("part %d: %v %s against %v %s", i, one[i].Hand, one[i].Master.Spoken, two[j].Hand, two[j].Master.Spoken)
			}
		}
		// The turn kept for a member really carries the master onto it.
		for _, q := range one {
			for _, m := range q.Of {
				if !shapeOf(q.Master.Board).alike(shapeOf(m.Board.Board), m.Turn) {
					r.Fatalf("the turn of %s does not carry its master onto it", m.Spoken)
				}
			}
		}
	})
}
