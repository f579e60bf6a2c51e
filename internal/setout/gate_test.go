package setout

import (
	"math"
	"testing"

	"scantling/internal/board"
	"scantling/internal/geom"
)

// A gate leaf 42 × 48 in of 2x4: two stiles, three rails lapped into them, and a
// brace tucked between the corners and halved over the middle rail. Nothing is
// left of one board in another, and the frame weighs what its members do less what
// they share.
func TestGateFrame(t *testing.T) {
	p := Piece()
	const w, th = 3.5, 1.5
	member := func(runs, edge Dir, at float64, low, high geom.Plane) *board.Board {
		b := bar(t, runs, Front, nil, w*inch, th*inch, edge, p.Plane(edge, at*inch), Front, p.Plane(Front, 0), nil)
		return must[Blank](t)(Fit(b, placed(low), placed(high), 0, nil)).Board(nil, nil)
	}
	stile := member(Up, Left, 0, p.Plane(Down, 0), p.Plane(Up, 48*inch))
	stiles := []*board.Board{stile, Mirror(p, Right, 21*inch).Board(stile)}
	var rails []*board.Board
	for _, foot := range []float64{0, 22.25, 44.5} {
		rails = append(rails, member(Right, Down, foot, p.Plane(Left, 0), p.Plane(Right, 42*inch)))
	}
	// The opening is 35 × 41 (fact 18).
	cut := [2]geom.Plane{p.Plane(Up, w*inch), p.Plane(Down, 44.5*inch)}
	clear := [2]geom.Plane{p.Plane(Right, w*inch), p.Plane(Left, 38.5*inch)}
	blank := must[Blank](t)(brace([2]geom.Vec{{X: w * inch, Z: w * inch}, {X: 38.5 * inch, Z: 44.5 * inch}}, cut, clear, w*inch))
	blank = must[Blank](t)(Fit(Bar{blank.Frame, blank.Width, Slab{blank.Face, -th * inch, 0}}, blank.Ends[0], blank.Ends[1], 0, nil))
	near(t, "brace, long point", blank.L/inch, 53.794, 5e-3)
	strut := blank.Board(nil, nil)

	all := append(append(append([]*board.Board{}, stiles...), rails...), strut)
	sum, shared := 0.0, 0.0
	for i, b := range all {
		sum += b.Solid.Volume
		for _, other := range all[:i] {
			c, _ := geom.Overlap(b.Placed(), other.Placed())
			shared += c.Volume
		}
	}
	laps := map[*board.Board][]board.Cut{}
	lap := func(a, b *board.Board) {
		t.Helper()
		cuts, met, err := HalfLap(a, b, Lapping{Keeps: p.Way(Front)})
		if err != nil || !met {
			t.Fatal(met, err)
		}
		laps[a], laps[b] = append(laps[a], cuts[0]), append(laps[b], cuts[1])
	}
	for _, r := range rails {
		for _, s := range stiles {
			lap(r, s)
		}
	}
	lap(strut, rails[1])
	if n := len(laps[rails[1]]); n != 3 {
		t.Errorf("the middle rail has %d laps, want 3 (rule 21: it takes all)", n)
	}
	left := 0.0
	for _, b := range all {
		AddCuts(b, Notched{Cuts: laps[b]})
		if err := b.Solid.Check(); err != nil {
			t.Fatal(err)
		}
		left += b.Solid.Volume
	}
	near(t, "wood left", left, sum-shared, 1e-3)
	// By hand: six corners 3 1/2 square, and the brace's crossing 3 1/2 · 3 1/2/cos φ.
	cos := blank.Run.Z
	near(t, "wood shared", shared/(inch*inch*inch), th*(6*w*w+w*w/math.Abs(cos)), 1e-6)
	for i, b := range all {
		for _, other := range all[:i] {
			if c, clash := geom.Overlap(b.Placed(), other.Placed()); clash && c.Depth > geom.Touch {
				t.Errorf("two boards still lie %v mm in one another", c.Depth)
			}
		}
	}
	if len(geom.Contacts(strut.Placed(), rails[0].Placed())) == 0 || len(geom.Contacts(strut.Placed(), stiles[0].Placed())) == 0 {
		t.Error("the brace stands on the low rail with its edge in the stile's corner")
	}
}
