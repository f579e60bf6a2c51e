package setout

import (
	"math"
	"slices"

	"scantling/internal/board"
	"scantling/internal/geom"
)

// A Rest says where what whole boards leave of a field goes (rule 24).
type Rest int8

const (
	Halved      Rest = iota // half of it at either corner
	AllLast                 // all of it at the last corner
	AllFirst                // all of it at the first corner
	MiddleBoard             // half at either corner, a board in the middle
	MiddleGap               // half at either corner, a gap in the middle
)

// A Field is what rule 24 needs to fill an outline with boards side by side.
// Lengths are mm.
type Field struct {
	Outline []geom.Vec // corners in order, either way round; seen square to the boards' faces. Convex or not
	Width   float64    // of one board
	Gap     float64    // between neighbours
	Least   float64    // narrowest board allowed at a corner
	Rest    Rest
}

// A Panel is a field divided.
type Panel struct {
	Pieces []Plank  // by strip from the first corner, and along the run within a strip
	Strips []Strip  // across the boards, from the first corner
	Across float64  // mm, of the outline, square to the boards
	Area   float64  // mm², inside the outline, gaps and all
	Faults []*Fault // PieceShort, PieceThin; the pieces are given all the same
}

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

// LayField fills an outline with boards that run and face as f does (rule 24).
// Boards lie in strips across f.Edge, numbered from the corner at the left, the
// front or the bottom; each is cut by the outline, which may part a strip into
// several pieces. Where whole boards do not fill the width T, R is over: at two
// corners R = T − n·w − (n + 1)·g, n falling until R/2 ≥ Least; at one R = T − n·w
// − n·g, and under Least it is shared with its neighbour. A field as wide as one
// board or less is one strip.
//
// Fault: NoRow if the outline has no inside or the width is not positive; Crosses
// if it crosses itself; RowNarrow if a corner comes out under Least; Grazing if an
// edge of the outline lies under 10° to the boards and not along them (Count: the
// piece); TooMany over 10,000 strips.
func LayField(f Frame, in Field) (Panel, error) {
	outline := make([]geom.Vec, len(in.Outline))
	for i, p := range in.Outline {
		outline[i] = geom.Vec{X: f.Run.Dot(p), Y: f.Edge.Dot(p)}
	}
	outline = tidied(outline)
	size := signedArea(outline)
	if len(outline) < 3 || !(math.Abs(size) > geom.Touch) || !(in.Width > grace && in.Gap >= 0) {
		return Panel{}, &Fault{Kind: NoRow, Has: math.Abs(size), Want: in.Width}
	}
	if at, crosses := crossesItself(outline); crosses {
		return Panel{}, &Fault{Kind: Crosses, At: f.flat(at, in.Outline[0])}
	}
	if size < 0 {
		outline = reversed(outline)
	}
	low, high := math.Inf(1), math.Inf(-1)
	for _, p := range outline {
		low, high = math.Min(low, p.Y), math.Max(high, p.Y)
	}
	out := Panel{Across: high - low, Area: math.Abs(size)}
	var err error
	if out.Strips, err = in.strips(out.Across); err != nil {
		return Panel{}, err
	}
	for i, s := range out.Strips {
		if far := f.Words[board.Far]; far.Sign() > 0 {
			s = Strip{low + s.Lo, low + s.Hi}
		} else {
			s = Strip{high - s.Hi, high - s.Lo}
		}
		for _, part := range stripOf(outline, s) {
			p, err := f.plank(part, s, in.Width, in.Outline[0])
			if err != nil {
				err.Count = len(out.Pieces) + 1
				return Panel{}, err
			}
			p.Strip = i
			out.Pieces = append(out.Pieces, p)
			if fault := small(part); fault != nil {
				fault.Count, fault.At = len(out.Pieces), p.Corners[0]
				out.Faults = append(out.Faults, fault)
			}
		}
	}
	return out, nil
}

// flat returns the point of the piece at (x, y) along Run and Edge, level with at
// along Face.
func (f Frame) flat(p, at geom.Vec) geom.Vec {
	return f.Run.Times(p.X).Along(f.Edge, p.Y).Along(f.Face, f.Face.Dot(at))
}

// strips returns the strips across a field so wide, from its first corner.
func (in Field) strips(across float64) ([]Strip, error) {
	w, g := in.Width, in.Gap
	switch {
	case !((across+g)/(w+g) <= mostBoards):
		return nil, &Fault{Kind: TooMany, Has: across, Want: w, Count: mostBoards}
	case across <= w+grace:
		return []Strip{{0, across}}, nil
	case in.Rest == AllFirst || in.Rest == AllLast:
		return in.oneCorner(across)
	}
	n := int(math.Floor((across - g + grace) / (w + g)))
	odd := 0
	if in.Rest == MiddleBoard {
		odd = 1
	}
	if in.Rest != Halved && n%2 != odd {
		n--
	}
	n = max(n, odd)
	rest := (across - float64(float64(n)*w) - float64(float64(n+1)*g)) / 2
	first := rest
	for in.Rest == Halved && n > 0 && rest < in.Least-grace {
		n, rest = n-1, rest+float64((w+g)/2)
	}
	if rest > grace && rest < in.Least-grace || in.Rest == Halved && rest > w+grace {
		return nil, &Fault{Kind: RowNarrow, Has: first, Want: in.Least, Count: n}
	}
	corner := math.Max(0, math.Min(rest, w)) // over w: bare at the very corner, less than a gap
	start := rest + g
	if corner <= grace {
		corner, start = 0, rest+g
	}
	var out []Strip
	if corner > 0 {
		out = append(out, Strip{rest - corner, rest})
	}
	for i := range n {
		at := start + float64(float64(i)*(w+g))
		out = append(out, Strip{at, at + w})
	}
	if corner > 0 {
		out = append(out, Strip{across - rest, across - rest + corner})
	}
	return out, nil
}

// oneCorner lays whole boards from one corner, and what is left at the other.
func (in Field) oneCorner(across float64) ([]Strip, error) {
	w, g := in.Width, in.Gap
	n := int(math.Floor((across + g + grace) / (w + g)))
	rest := across - float64(float64(n)*(w+g))
	var out []Strip
	for i := range n {
		at := float64(float64(i) * (w + g))
		out = append(out, Strip{at, at + w})
	}
	if rest > grace {
		out = append(out, Strip{across - rest, across})
		if rest < in.Least-grace { // the last two share
			half := float64((w + rest) / 2)
			if half < in.Least-grace {
				return nil, &Fault{Kind: RowNarrow, Has: half, Want: in.Least, Count: n}
			}
			out[n-1].Hi, out[n].Lo = out[n-1].Lo+half, across-half
		}
	}
	if in.Rest == AllFirst {
		for i, j := 0, len(out)-1; i <= j; i, j = i+1, j-1 {
			out[i], out[j] = Strip{across - out[j].Hi, across - out[j].Lo}, Strip{across - out[i].Hi, across - out[i].Lo}
		}
	}
	return out, nil
}

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
