package setout

import (
	"math"

	"scantling/internal/board"
	"scantling/internal/geom"
	"scantling/internal/lumber"
	"scantling/internal/measure"
)

// A Blank is a bar with both ends: what Fit makes. Lengths are mm along the run.
type Blank struct {
	Bar
	Ends       [2]End  // Start, Finish; neither is Loose
	Low        float64 // Run·p of the long point at Start
	L          float64 // long point to long point
	Short      float64 // short point to short point; 0 if the ends cross before
	EdgeLength float64 // along one edge, when the ends are parallel; else 0
}

// Fit finds the ends of a bar (rule 12). Either both ends are placed and length
// is 0, or one is Loose and length (long point to long point) places it, or both
// are and the length is centred on the plane middle. Fault: NoLength if the ends
// leave none (Has: mm along the centre line, negative if they cross), TwoLengths if a length is given and no end is Loose, NoEnd if one is
// Loose without a length or both without a middle.
func Fit(b Bar, start, finish End, length float64, middle *geom.Plane) (Blank, error) {
	b.Width, b.Thick = b.Width.sawn(), b.Thick.sawn()
	ends := [2]End{start, finish}
	loose := start.Loose || finish.Loose
	switch {
	case length < 0 || loose && math.IsNaN(length):
		return Blank{}, &Fault{Kind: NoLength, Has: length}
	case length > 0 && !loose:
		return Blank{}, &Fault{Kind: TwoLengths, Has: length}
	case loose && length == 0, start.Loose && finish.Loose && middle == nil:
		return Blank{}, &Fault{Kind: NoEnd}
	case start.Loose && finish.Loose:
		t, ok := middle.Hit(b.Centre(geom.Vec{}), b.Run)
		if !ok {
			return Blank{}, &Fault{Kind: Unsteady}
		}
		ends[0] = b.pushed(ends[0], board.Start, t-float64(length/2))
		ends[1] = b.pushed(ends[1], board.Finish, t+float64(length/2))
	case start.Loose:
		ends[0] = b.pushed(start, board.Start, b.longPoint(finish, board.Finish)-length)
	case finish.Loose:
		ends[1] = b.pushed(finish, board.Finish, b.longPoint(start, board.Start)+length)
	}
	out := Blank{Bar: b, Ends: ends}
	var high float64
	out.Low, high, out.Short, out.EdgeLength = b.reach(ends)
	out.L = high - out.Low
	if !(out.L > geom.Same) {
		c := b.Centre(geom.Vec{})
		left := firstHit(ends[1].Planes, c, b.Run) + firstHit(ends[0].Planes, c, b.Run.Negated())
		return out, &Fault{Kind: NoLength, Has: left}
	}
	return out, nil
}

// sawn returns the slab with its size rounded to the nanometre, as board.Board
// holds it; solids then meet the planes they are cut to exactly.
func (s Slab) sawn() Slab {
	if size, ok := measure.FromMM(s.Size()); ok {
		s.Hi = s.Lo + size.MM()
	}
	return s
}

// longPoint returns Run·p of the furthest point of an end.
func (b Bar) longPoint(e End, end board.Side) float64 {
	planes := append(b.sides(), e.Planes...)
	sign := b.Out(end).Dot(b.Run)
	far := math.Inf(-1)
	for _, p := range corners(planes) {
		far = math.Max(far, float64(sign*b.Run.Dot(p)))
	}
	return float64(sign * far)
}

// pushed returns the end moved along the run until its long point lies at to.
func (b Bar) pushed(e End, end board.Side, to float64) End {
	by := to - b.longPoint(e, end)
	moved := End{Meets: e.Meets}
	for _, p := range e.Planes {
		moved.Planes = append(moved.Planes, p.Shifted(float64(p.N.Dot(b.Run)*by)))
	}
	return moved
}

// sides returns the planes of the bar's two edges and two faces.
func (b Bar) sides() []geom.Plane {
	return []geom.Plane{b.Plane(board.Near), b.Plane(board.Far), b.Plane(board.Under), b.Plane(board.Show)}
}

// reach returns Run·p of the long points at either end, the distance between the
// short points (0 if the ends cross), and the length along an edge if it is the
// same along all four (else 0).
func (b Bar) reach(ends [2]End) (low, high, short, edge float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, p := range corners(append(append(b.sides(), ends[0].Planes...), ends[1].Planes...)) {
		low, high = math.Min(low, b.Run.Dot(p)), math.Max(high, b.Run.Dot(p))
	}
	from, to := math.Inf(-1), math.Inf(1)
	least, most := math.Inf(1), math.Inf(-1)
	for _, a := range b.arrises() {
		s := -firstHit(ends[0].Planes, a, b.Run.Negated())
		f := firstHit(ends[1].Planes, a, b.Run)
		from, to = math.Max(from, s), math.Min(to, f)
		least, most = math.Min(least, f-s), math.Max(most, f-s)
	}
	if most-least <= geom.Same {
		edge = math.Max(0, most)
	}
	return low, high, math.Max(0, to-from), edge
}

// firstHit returns how far from p along way the first of the planes lies.
func firstHit(planes []geom.Plane, p, way geom.Vec) float64 {
	first := math.Inf(1)
	for _, h := range planes {
		if t, ok := h.Hit(p, way); ok {
			first = math.Min(first, t)
		}
	}
	return first
}

// corners returns the corners of the convex body inside all planes. It tries
// every three planes, which for the five to eight of a blank is the shortest way.
func corners(planes []geom.Plane) []geom.Vec {
	var out []geom.Vec
	for i := range planes {
		for j := range planes[:i] {
			for k := range planes[:j] {
				p, ok := geom.Meet(planes[i], planes[j], planes[k])
				if ok && inside(planes, p) {
					out = append(out, p)
				}
			}
		}
	}
	return out
}

func inside(planes []geom.Plane, p geom.Vec) bool {
	for _, h := range planes {
		if h.Over(p) > geom.Same {
			return false
		}
	}
	return true
}

// Pose returns the pose of the blank: its corner of Start, Near and Under.
func (b Blank) Pose() geom.Pose {
	return geom.Pose{X: b.Run, Y: b.Edge, Z: b.Face, At: b.point(b.Low, b.Width.Lo, b.Thick.Lo)}
}

// End returns the end plane with the given side, facing out: `leg.top`. An end
// that makes a point gives its first plane.
func (b Blank) End(s board.Side) geom.Plane { return b.Ends[s].Planes[0] }

// Board returns the board of the blank with its end cuts and the given further
// cuts (tapers, in the board's frame), and builds its solids. T and W are the
// slabs' sizes to the nanometre. ID, Part, Spoken, Rip, LengthIs, Edges and the
// From of its end cuts are the caller's to fill in.
func (b Blank) Board(stock *lumber.Stock, cuts []board.Cut) *board.Board {
	t, _ := measure.FromMM(b.Thick.Size())
	w, _ := measure.FromMM(b.Width.Size())
	out := &board.Board{Stock: stock, T: t, W: w, L: b.L, Short: b.Short, EdgeLength: b.EdgeLength, Pose: b.Pose()}
	for s := range out.Sides {
		out.Sides[s] = b.Words[s].Side()
	}
	for s, e := range b.Ends {
		for _, p := range e.Planes {
			c := board.Cut{Kind: board.EndCut, Side: board.Side(s), Meets: e.Meets, Plane: b.Pose().InPlane(p)}
			c.Square = len(e.Planes) == 1 && alongside(c.Plane.N, c.Side.Out())
			out.Cuts = append(out.Cuts, c)
		}
	}
	out.Cuts = append(out.Cuts, cuts...)
	out.Build()
	return out
}

// Extent returns how far a finished board reaches toward d of the room: the
// coordinate of `.leftmost`, `.highest` and their kin (rule 13).
func Extent(b *board.Board, room Room, d Dir) float64 {
	way := room.Way(d)
	_, far := b.Placed().Extent(way)
	return float64(d.Sign() * (far - way.Dot(room.At)))
}
