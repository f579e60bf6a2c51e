package setout

import (
	"math"
	"slices"

	"scantling/internal/board"
	"scantling/internal/geom"
)

// A Plank is one board of a field: a bar with its ends, and what is taken out of
// them where the outline looks in.
type Plank struct {
	Strip   int        // in Panel.Strips
	Width   Slab       // of the bar: a whole board, or ripped where an edge of the outline runs along it
	Ends    [2]End     // Start, Finish; the caller says what they meet
	Hollows []Hollow   // wood taken out where the outline is not convex
	Corners []geom.Vec // its outline in the plane of the field's first corner, counter-clockwise round the face
	Area    float64    // mm²
}

// A Hollow is a corner that looks into a plank: wood inside all its walls goes.
type Hollow struct {
	Walls   []geom.Plane
	Corners []geom.Vec
}

// The smallest piece of a field that can be held and screwed: 6 in long (rule 24);
// thinnest is how wide.
const shortest = 6 * 25.4

// plank returns the board of one piece of a strip. The edges of its convex outline
// that lie across the boards are its ends; what the piece leaves out of that is
// hollowed. Where a chord of the convex outline runs nearly along the boards the
// bar's own side does instead, as where a step in the outline takes half the width.
func (f Frame) plank(part []geom.Vec, s Strip, width float64, level geom.Vec) (Plank, *Fault) {
	p := Plank{Area: signedArea(part)}
	hull := silhouette(part)
	var ends []geom.Plane
	free := [2]bool{true, true} // no edge runs along the strip's low side, its high side
	for i, a := range hull {
		b := hull[(i+1)%len(hull)]
		h := edgeOf(a, b)
		angle := tipped(h.N.X)
		switch {
		case math.Abs(b.Y-a.Y) <= geom.Same && b.X > a.X:
			s.Lo, free[0] = math.Max(s.Lo, a.Y), false
		case math.Abs(b.Y-a.Y) <= geom.Same:
			s.Hi, free[1] = math.Min(s.Hi, a.Y), false
		case angle >= grazing-parallel:
			ends = append(ends, h)
		case slices.Index(part, b) == (slices.Index(part, a)+1)%len(part):
			return p, &Fault{Kind: Grazing, Has: angle, Want: grazing, At: f.flat(a, level)}
		}
	}
	// A corner that tapers to a point needs no rip.
	switch over := width - (s.Hi - s.Lo); {
	case over > 0 && free[1]:
		s.Hi += over
	case over > 0 && free[0]:
		s.Lo -= over
	}
	p.Width = Slab{f.Edge, s.Lo, s.Hi}
	low, high := hull[0].X, hull[0].X
	for _, v := range hull {
		low, high = math.Min(low, v.X), math.Max(high, v.X)
	}
	around := []geom.Vec{{X: low - 1, Y: s.Lo}, {X: high + 1, Y: s.Lo}, {X: high + 1, Y: s.Hi}, {X: low - 1, Y: s.Hi}}
	out := func(h geom.Plane) geom.Plane {
		return geom.Plane{N: f.Run.Times(h.N.X).Along(f.Edge, h.N.Y), D: h.D}
	}
	for _, h := range ends {
		end := board.Start
		if h.N.X > 0 {
			end = board.Finish
		}
		p.Ends[end].Planes = append(p.Ends[end].Planes, out(h))
		around = clipped(around, h)
	}
	for end := range p.Ends {
		if p.Ends[end].Planes == nil { // nothing but a chord nearly along the boards
			return p, &Fault{Kind: Grazing, Want: grazing, Side: board.Side(end), At: f.flat(part[0], level)}
		}
	}
	for _, v := range part {
		p.Corners = append(p.Corners, f.flat(v, level))
	}
	for _, h := range hollows(part, around) {
		for i, w := range h.Walls {
			h.Walls[i] = out(w)
		}
		for i, c := range h.Corners {
			h.Corners[i] = f.flat(c, level)
		}
		p.Hollows = append(p.Hollows, h)
	}
	return p, nil
}

// small returns a Fault if a piece is too small to hold.
func small(part []geom.Vec) *Fault {
	box := geom.EmptyBox()
	for _, p := range part {
		box = box.With(p)
	}
	switch size := box.Size(); {
	case size.X < shortest-geom.Same:
		return &Fault{Kind: PieceShort, Has: size.X, Want: shortest}
	case size.Y < thinnest-geom.Same:
		return &Fault{Kind: PieceThin, Has: size.Y, Want: thinnest}
	}
	return nil
}

// Blank returns the blank of a plank of the given thickness, and the notches that
// hollow it, for Blank.Board.
func (p Plank) Blank(f Frame, thick Slab, name string) (Blank, []board.Cut, error) {
	b, err := Fit(Bar{f, p.Width, thick}, p.Ends[0], p.Ends[1], 0, nil)
	if err != nil {
		return b, nil, err
	}
	var cuts []board.Cut
	pose, wide, deep := b.Pose(), b.Width.Size(), b.Thick.Size()
	for _, h := range p.Hollows {
		cut := board.Cut{Kind: board.Notch, Name: name, Side: board.Show, Depth: deep}
		box := geom.EmptyBox()
		for _, c := range h.Corners {
			box = box.With(pose.In(c))
		}
		cut.Low = geom.Vec{X: math.Max(0, box.Low.X), Y: math.Max(0, box.Low.Y)}
		cut.High = geom.Vec{X: math.Min(b.L, box.High.X), Y: math.Min(wide, box.High.Y), Z: deep}
		for _, w := range h.Walls {
			cut.Waste = append(cut.Waste, pose.InPlane(w))
		}
		for s, gap := range [4]float64{box.Low.X, b.L - box.High.X, box.Low.Y, wide - box.High.Y} {
			if gap <= geom.Same {
				cut.Open = append(cut.Open, board.Side(s))
			}
		}
		cuts = append(cuts, cut)
	}
	return b, cuts, nil
}

// Rectangle returns the corners of an outline given by the sides it has toward
// two axes of a room, low and high on either, in the plane at coordinate 0 that
// faces the third way. Fault: NoCrossing.
func Rectangle(room Room, faces Dir, one, other [2]geom.Plane) ([]geom.Vec, error) {
	level := room.Plane(faces, 0)
	var out []geom.Vec
	for _, c := range [4][2]int{{0, 0}, {1, 0}, {1, 1}, {0, 1}} {
		p, err := Where(one[c[0]], other[c[1]], level)
		if err != nil {
			return nil, err
		}
		out = append(out, p)
	}
	return out, nil
}
