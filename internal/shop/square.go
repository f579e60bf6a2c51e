package shop

import (
	"fmt"
	"math"
	"slices"

	"scantling/internal/board"
	"scantling/internal/design"
	"scantling/internal/geom"
	"scantling/internal/measure"
	"scantling/internal/phrase"
	"scantling/internal/span"
	"scantling/internal/square"
)

// mayRack is how far out of square, in mm, a frame may stay across its narrow
// side: 1/16 in, what the parts are cut to. Source: common practice; what a
// difference of the diagonals means is derived in package square.
const mayRack = 25.4 / 16

// mostFrames is how many frames a step is asked to square: the largest of each
// direction, closed ones first, and the feet.
const mostFrames = 2

// squares gives each step the frames that close in it, as they are to be measured
// before its fasteners are tightened; and the later step that locks a frame its
// reminder.
func (s *shop) squares(all [][]*doing) {
	when := map[[2]board.ID]doneAt{}
	for n, ds := range all {
		for k, d := range ds {
			for _, w := range d.now {
				when[pairKey(w.pair.A, w.pair.B)] = doneAt{n, k}
			}
		}
	}
	closes := make([][]square.Frame, len(all))
	for _, f := range square.Frames(s.piece, s.declared) {
		if n, ok := s.closing(&f, when); ok {
			closes[n] = append(closes[n], f)
		}
	}
	stance, ok := square.Stance(square.Feet(s.piece))
	if !ok {
		stance = square.Frame{}
	}
	var held []squared
	for n, frames := range closes {
		slices.SortStableFunc(frames, func(a, b square.Frame) int {
			switch x, y := a.Area(), b.Area(); {
			case len(a.Boards) != len(b.Boards):
				return len(b.Boards) - len(a.Boards) // closed ones first
			case x > y+geom.Alike:
				return -1
			case y > x+geom.Alike:
				return 1
			}
			return 0
		})
		r := &s.out.Steps[n]
		for _, f := range frames {
			if len(r.Square) < mostFrames && !slices.ContainsFunc(held, func(h squared) bool { return h.holds(s, &f, n) }) {
				held = append(held, squared{f.Normal, n, r.together()})
				r.Square = append(r.Square, s.square(r, f))
			}
		}
		if stance.Boards != nil && s.holds(r, stance.Boards) {
			held = append(held, squared{stance.Normal, n, r.together()})
			if len(r.Square) < mostFrames {
				r.Square = append(r.Square, s.square(r, stance))
			}
			stance = square.Frame{}
		}
	}
}

// together is every board a step has on the bench, in all its doings.
func (r *Step) together() []board.ID {
	out := slices.Clone(r.Present)
	for _, a := range r.Again {
		out = append(out, a.New...)
	}
	return out
}

// A squared is a frame measured in a step: what was together then is square in
// its plane.
type squared struct {
	way     geom.Vec
	step    int
	present []board.ID
}

// holds reports whether a frame that closes in step n is square already: two
// boards that hold it lay in this plane, together, when it was measured.
func (h *squared) holds(s *shop, f *square.Frame, n int) bool {
	if math.Abs(h.way.Dot(f.Normal)) < alongside {
		return false
	}
	if h.step == n {
		return true
	}
	there := 0
	for _, i := range f.Boards {
		if slices.Contains(h.present, s.piece.Boards[i].ID) {
			there++
		}
	}
	return there > 1
}

// alongside is the cosine of the angle, 25°, within which two frames are said to
// lie in one direction: legs splay.
const alongside = 0.9063

// A doneAt is which doing of which step, of those in the plan.
type doneAt struct{ step, doing int }

func pairKey(a, b *design.Board) [2]board.ID { return [2]board.ID{min(a.ID, b.ID), max(a.ID, b.ID)} }

// closing returns the step that fastens the last corner of a frame. ok is false
// when no step does, or when it is of something built before like it.
func (s *shop) closing(f *square.Frame, when map[[2]board.ID]doneAt) (step int, ok bool) {
	last, first := -1, false
	for _, two := range f.Joints {
		at, done := when[pairKey(s.piece.Boards[two[0]], s.piece.Boards[two[1]])]
		if !done {
			return 0, false
		}
		if at.step > last {
			last, first = at.step, false
		}
		first = first || at.step == last && at.doing == 0
	}
	return last, first
}

// holds reports whether boards are all there after a step.
func (s *shop) holds(r *Step, boards []int) bool {
	for _, i := range boards {
		if !slices.Contains(r.Present, s.piece.Boards[i].ID) {
			return false
		}
	}
	return true
}

// square says how one frame is measured, on the side that is up.
func (s *shop) square(r *Step, f square.Frame) Square {
	f = f.Seen(s.piece, s.out.Lying(r).InWay(geom.Vec{Z: 1}))
	var from span.Set
	var names, each []string
	for _, i := range f.Boards {
		b := s.piece.Boards[i]
		from = from.Union(b.All())
		if slices.Contains(f.Of[:], i) {
			if !has(names, phrase.Spaced(b.Name)) {
				names = append(names, phrase.Spaced(b.Name))
			}
			each = append(each, b.Spoken)
		}
	}
	out := Square{Corners: f.Corners}
	for _, i := range f.Boards {
		out.Boards = append(out.Boards, s.piece.Boards[i].ID)
	}
	feet := f.Normal == geom.Vec{Z: 1} && s.standsOn(&f)
	switch {
	case feet:
		out.Frame = "feet"
	case len(names) == 1:
		out.Frame = names[0] + "s"
	default:
		out.Frame = phrase.List(each)
	}
	words := cornerWords(&f)
	one, other := f.Diagonals()
	out.Diagonals = [2]Diagonal{{words[0], words[2], s.pen.Length(one, from)}, {words[1], words[3], s.pen.Length(other, from)}}
	rate, _ := f.Rate()
	step := float64(s.pen.Tape.Step()) / float64(measure.Millimetre)
	allowed := math.Max(step, float64(math.Round(rate*mayRack/step))*step)
	out.Allowed, out.Across, out.Racked = s.pen.Length(allowed, from), s.pen.Length(f.Across(), from), s.pen.Length(allowed/rate, from)

	d := out.Diagonals
	t := Words(fmt.Sprintf("over the outer corners of the %s, %s to %s, ", out.Frame, d[0].A, d[0].B)).Show(d[0].Value)
	if d[0].Value.Text == d[1].Value.Text {
		t = t.Say(", and the same the other way; up to ").Show(out.Allowed).Say(" apart may stay")
	} else {
		t = t.Say(", and the other way ").Show(d[1].Value).Say(": they differ on purpose; up to ").Show(out.Allowed).Say(" more or less may stay")
	}
	out.Words = t.Say(" (so much is ").Show(out.Racked).Say(" out of square across the ").Show(out.Across).Say(")")
	return out
}

// standsOn reports whether the corners of a frame are on the floor.
func (s *shop) standsOn(f *square.Frame) bool {
	for _, c := range f.Corners {
		if !onGround(c.Z) {
			return false
		}
	}
	return true
}

// cornerWords names the corners of a frame by where they lie about its middle.
func cornerWords(f *square.Frame) [4]string {
	var middle geom.Vec
	for _, c := range f.Corners {
		middle = middle.Along(c, 0.25)
	}
	n := [3]float64{math.Abs(f.Normal.X), math.Abs(f.Normal.Y), math.Abs(f.Normal.Z)}
	var out [4]string
	for i, c := range f.Corners {
		at := c.Minus(middle)
		side := func(v float64, low, high string) string {
			if v < 0 {
				return low
			}
			return high
		}
		x, y, z := side(at.X, "left", "right"), side(at.Y, "front", "back"), side(at.Z, "bottom", "top")
		switch {
		case n[2] >= n[0] && n[2] >= n[1]:
			out[i] = y + " " + x
		case n[1] >= n[0]:
			out[i] = z + " " + x
		default:
			out[i] = z + " " + y
		}
	}
	return out
}
