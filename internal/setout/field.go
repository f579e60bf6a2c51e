package setout

import (
	"math"

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
