package setout

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"scantling/internal/board"
	"scantling/internal/geom"
)

// At is a stretch in inches.
func at(from board.Side, lo, hi float64) Stretch {
	return Stretch{From: from, Lo: lo * inch, Hi: hi * inch}
}

var whole = Stretch{Whole: true}

func TestRecesses(t *testing.T) {
	b := plank(t, 30, 5.5, 1.5)
	start, finish, near_, far := board.Start, board.Finish, board.Near, board.Far
	for _, c := range []struct {
		what      string
		r         Recess
		gone      float64 // in³
		low, high geom.Vec
		open      []board.Side
		depth     float64
		source    string
	}{
		{"notch in the lower edge", Recess{Kind: board.Notch, Side: board.Show, Along: at(start, 6, 9.5), Across: at(near_, 0, 2)}, 3.5 * 2 * 1.5,
			geom.Vec{X: 6}, geom.Vec{X: 9.5, Y: 2, Z: 1.5}, []board.Side{near_}, 1.5, "by hand"},
		{"the same from the other end", Recess{Kind: board.Notch, Side: board.Show, Along: at(finish, 20.5, 24), Across: at(far, 3.5, 5.5)}, 3.5 * 2 * 1.5,
			geom.Vec{X: 6}, geom.Vec{X: 9.5, Y: 2, Z: 1.5}, []board.Side{near_}, 1.5, "by hand: 30 − 24, 30 − 20 1/2"},
		{"a corner", Recess{Kind: board.Notch, Side: board.Show, Along: at(finish, 0, 2), Across: at(far, 0, 1)}, 2 * 1 * 1.5,
			geom.Vec{X: 28, Y: 4.5}, geom.Vec{X: 30, Y: 5.5, Z: 1.5}, []board.Side{finish, far}, 1.5, "by hand"},
		{"a square hole", Recess{Kind: board.Notch, Side: board.Show, Along: at(start, 6, 9), Across: at(near_, 1, 3)}, 3 * 2 * 1.5,
			geom.Vec{X: 6, Y: 1}, geom.Vec{X: 9, Y: 3, Z: 1.5}, nil, 1.5, "by hand"},
		{"dado", Recess{Kind: board.Housing, Side: board.Under, Along: at(start, 10, 11), Across: whole, Depth: 0.5 * inch}, 1 * 5.5 * 0.5,
			geom.Vec{X: 10}, geom.Vec{X: 11, Y: 5.5, Z: 0.5}, []board.Side{near_, far}, 0.5, "by hand"},
		{"stopped dado", Recess{Kind: board.Housing, Side: board.Show, Along: at(start, 10, 11), Across: at(near_, 0, 4), Depth: 0.5 * inch}, 1 * 4 * 0.5,
			geom.Vec{X: 10, Z: 1}, geom.Vec{X: 11, Y: 4, Z: 1.5}, []board.Side{near_}, 0.5, "by hand"},
		{"groove", Recess{Kind: board.Housing, Side: board.Show, Along: whole, Across: at(far, 1, 1.75), Depth: 0.375 * inch}, 30 * 0.75 * 0.375,
			geom.Vec{Y: 3.75, Z: 1.125}, geom.Vec{X: 30, Y: 4.5, Z: 1.5}, []board.Side{start, finish}, 0.375, "by hand"},
		{"rabbet along an edge", Recess{Kind: board.Housing, Side: board.Show, Along: whole, Across: at(far, 0, 0.75), Depth: 0.75 * inch}, 30 * 0.75 * 0.75,
			geom.Vec{Y: 4.75, Z: 0.75}, geom.Vec{X: 30, Y: 5.5, Z: 1.5}, []board.Side{start, finish, far}, 0.75, "by hand"},
		{"rabbet at an end", Recess{Kind: board.Housing, Side: board.Under, Along: at(finish, 0, 1.5), Across: whole, Depth: 0.75 * inch}, 1.5 * 5.5 * 0.75,
			geom.Vec{X: 28.5}, geom.Vec{X: 30, Y: 5.5, Z: 0.75}, []board.Side{finish, near_, far}, 0.75, "by hand"},
		{"groove in an edge", Recess{Kind: board.Housing, Side: far, Along: whole, Across: at(board.Show, 0.5, 1), Depth: 0.5 * inch}, 30 * 0.5 * 0.5,
			geom.Vec{Y: 5, Z: 0.5}, geom.Vec{X: 30, Y: 5.5, Z: 1}, []board.Side{start, finish}, 0.5, "by hand"},
		{"slot", Recess{Kind: board.Slot, Side: board.Show, Along: at(start, 4, 8), Across: at(near_, 2, 2.5)}, 4 * 0.5 * 1.5,
			geom.Vec{X: 4, Y: 2}, geom.Vec{X: 8, Y: 2.5, Z: 1.5}, nil, 1.5, "by hand"},
		{"open slot", Recess{Kind: board.Slot, Side: board.Show, Along: at(finish, 0, 8), Across: at(near_, 2, 2.5)}, 8 * 0.5 * 1.5,
			geom.Vec{X: 22, Y: 2}, geom.Vec{X: 30, Y: 2.5, Z: 1.5}, []board.Side{finish}, 1.5, "by hand"},
	} {
		c.r.Name = c.what
		cut := must[board.Cut](t)(b.Recess(c.r))
		lost, _ := gone(t, b, cut)
		near(t, c.what+" ("+c.source+")", lost, c.gone, 1e-9)
		near(t, c.what+": low", cut.Low.Distance(c.low.Times(inch)), 0, 1e-9)
		near(t, c.what+": high", cut.High.Distance(c.high.Times(inch)), 0, 1e-9)
		near(t, c.what+": depth", cut.Depth/inch, c.depth, 1e-9)
		if !slices.Equal(cut.Open, c.open) {
			t.Errorf("%s: open at %v, want %v", c.what, cut.Open, c.open)
		}
	}
	round := must[board.Cut](t)(b.Recess(Recess{Kind: board.Slot, Side: board.Show, Along: at(start, 4, 8), Across: at(near_, 2, 2.5), Round: true}))
	lost, _ := gone(t, b, round)
	curved(t, "round slot (by hand: 3.5·0.5 + π·0.25²)", lost, 1.5*(3.5*0.5+math.Pi*0.25*0.25), 1.5, round)
	mouth := must[board.Cut](t)(b.Recess(Recess{Kind: board.Slot, Side: board.Show, Along: at(start, 0, 8), Across: at(near_, 2, 3), Round: true}))
	lost, _ = gone(t, b, mouth)
	curved(t, "round at the closed end (by hand)", lost, 1.5*(7.5*1+math.Pi*0.5*0.5/2), 1.5, mouth)
	if len(round.Arcs) != 2 || len(mouth.Arcs) != 1 {
		t.Errorf("%d and %d round ends, want 2 and 1", len(round.Arcs), len(mouth.Arcs))
	}
}

// Along the grain a recess is measured from the corner of the edge it is cut in.
func TestRecessAtASlantingEnd(t *testing.T) {
	leg := splayed(t, 33, 10, 0, 4)
	for _, edge := range []board.Side{board.Near, board.Far} {
		c := must[board.Cut](t)(leg.Recess(Recess{Kind: board.Notch, Side: board.Show, Along: at(board.Finish, 3, 5), Across: at(edge, 0, 1)}))
		lost, made := gone(t, leg, c)
		near(t, "notch", lost, 2*1*1.5, 1e-9)
		// The upper shoulder meets the edge 3 in below the corner, 3·cos 10° below the top.
		p := geom.Vec{X: c.High.X}
		if edge == board.Far {
			p.Y = 4 * inch
		}
		near(t, "below the top", 33-made.Pose.Out(p).Z/inch, 3*math.Cos(deg(10)), 1e-9)
	}
	end := must[board.Cut](t)(leg.Recess(Recess{Kind: board.Housing, Side: board.Show, Along: at(board.Finish, 0, 3), Across: whole, Depth: 0.5 * inch}))
	lost, _ := gone(t, leg, end)
	// By hand: square across 3 in below the Near corner, the longer or the shorter by
	// half the slant, 4·tan 10°/2.
	near(t, "rabbet at a slanting end", math.Abs(lost/(0.5*4)-3), 2*math.Tan(deg(10)), 1e-9)
}

func TestRecessRefuses(t *testing.T) {
	b := plank(t, 30, 5.5, 1.5)
	notch := func(along, across Stretch) Recess {
		return Recess{Kind: board.Notch, Side: board.Show, Along: along, Across: across}
	}
	for _, c := range []struct {
		what string
		r    Recess
		kind FaultKind
	}{
		{"let into an end", Recess{Kind: board.Housing, Side: board.Start, Along: whole, Across: whole, Depth: 10}, EndHeld},
		{"along from an edge", notch(at(board.Near, 1, 2), whole), Skew},
		{"across from a face", notch(at(board.Start, 1, 2), at(board.Show, 0, 1)), Skew},
		{"round in an edge", Recess{Kind: board.Slot, Side: board.Far, Along: at(board.Start, 1, 9), Across: at(board.Show, 0.5, 1), Round: true}, Skew},
		{"past the end", notch(at(board.Start, 28, 31), at(board.Near, 0, 1)), OffBoard},
		{"before the end", notch(at(board.Start, -1, 3), at(board.Near, 0, 1)), OffBoard},
		{"wider than the board", notch(at(board.Start, 2, 3), at(board.Near, 0, 6)), OffBoard},
		{"backwards", notch(at(board.Start, 3, 2), at(board.Near, 0, 1)), OffBoard},
		{"a housing without depth", Recess{Kind: board.Housing, Side: board.Show, Along: at(board.Start, 1, 2), Across: whole}, TooDeep},
		{"deeper than the board", Recess{Kind: board.Housing, Side: board.Show, Along: at(board.Start, 1, 2), Across: whole, Depth: 1.5 * inch}, TooDeep},
		{"right across", notch(at(board.Start, 3, 4), whole), Parted},
		{"an end whole", notch(at(board.Finish, 0, 4), whole), EndHeld},
		{"a round slot shorter than wide", Recess{Kind: board.Slot, Side: board.Show, Along: at(board.Start, 3, 4), Across: at(board.Near, 1, 3), Round: true}, RadiusLarge},
	} {
		_, err := b.Recess(c.r)
		fault(t, c.what, err, c.kind)
	}
	thin := must[board.Cut](t)(b.Recess(notch(at(board.Start, 6, 9), at(board.Near, 0.25, 3))))
	other := must[board.Cut](t)(b.Recess(notch(at(board.Start, 9.25, 12), at(board.Near, 0, 3))))
	faults := Tongues(b.Board(nil, []board.Cut{thin, other}))
	if len(faults) != 2 || faults[0].Side != board.Near {
		t.Fatalf("faults %v, want a strip at the lower edge and one between", faults)
	}
	near(t, "strip", faults[0].Has/inch, 0.25, 1e-9)
	near(t, "between", faults[1].Has/inch, 0.25, 1e-9)
}

// A mirrored board has the mirrored recess, and its image is the recess again.
func TestRecessesTravel(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		b := plank(t, 30, 5.5, 1.5)
		side := board.Side(rapid.IntRange(2, 5).Draw(r, "side"))
		across, room := board.Near, 5.5
		if side.IsEdge() {
			across, room = board.Under, 1.5
		}
		stretch := func(name string, from board.Side, most float64) Stretch {
			lo := rapid.IntRange(0, int(most*64)-8).Draw(r, name+" from, 1/64 in")
			hi := rapid.IntRange(lo+4, int(most*64)).Draw(r, name+" to, 1/64 in")
			return at(from|board.Side(rapid.IntRange(0, 1).Draw(r, name+" side")), float64(lo)/64, float64(hi)/64)
		}
		c, err := b.Recess(Recess{Kind: board.Housing, Side: side, Along: stretch("along", board.Start, 30), Across: stretch("across", across, room), Depth: 12})
		if err != nil {
			r.Fatal(err)
		}
		made := b.Board(nil, []board.Cut{c})
		if err := made.Solid.Check(); err != nil {
			r.Fatal(err)
		}
		size := c.High.Minus(c.Low)
		want := float64(size.X * size.Y * size.Z)
		if lost := made.Wood.Volume - made.Solid.Volume; math.Abs(lost-want) > 1e-9*want+1e-6 {
			r.Fatalf("loses %v mm³, its box holds %v", lost, want)
		}
		m := Mirror(Piece(), Back, 33)
		image := m.Board(made)
		if d := image.Placed().Middle().Distance(m.Point(made.Placed().Middle())); d > 1e-9 {
			r.Fatalf("centre of mass %v mm off the image's", d)
		}
	})
}
