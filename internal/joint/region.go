package joint

import (
	"math"
	"slices"
	"strings"

	"scantling/internal/board"
	"scantling/internal/design"
	"scantling/internal/geom"
)

// A spot is a place or a direction in the plane of a contact: x along the grain
// of the board gone through, y across it.
type spot struct{ x, y float64 }

func (p spot) plus(q spot) spot             { return spot{p.x + q.x, p.y + q.y} }
func (p spot) minus(q spot) spot            { return spot{p.x - q.x, p.y - q.y} }
func (p spot) times(s float64) spot         { return spot{float64(p.x * s), float64(p.y * s)} }
func (p spot) dot(q spot) float64           { return float64(p.x*q.x) + float64(p.y*q.y) }
func (p spot) size() float64                { return math.Sqrt(p.dot(p)) }
func (p spot) along(d spot, s float64) spot { return p.plus(d.times(s)) }

// What a border of a contact is to one of its boards.
const (
	nothing = iota // the board goes on beyond it
	edge           // an edge of the board, along its grain
	end            // an end, across its grain
)

// A border is one straight stretch of a contact's outline.
type border struct {
	a, b spot
	in   spot   // unit, into the contact
	of   [2]int // to the board gone through and to the other: nothing, edge, end
}

// A region is a contact seen square to its plane, from the board gone through.
type region struct {
	o, u, v geom.Vec // the middle of the contact; along the grain and across it, unit
	borders []border
	flipped [2]bool
	low     spot // of the smallest upright rectangle round it
	high    spot
}

// out returns where a spot lies in the piece.
func (r *region) out(p spot) geom.Vec { return r.o.Along(r.u, p.x).Along(r.v, p.y) }

// regionOf lays axes in the contact of a pair: x along the grain of the board
// gone through, the same way for copies made by turning and the mirrored way for
// mirror images, so that a pattern changes hands with its copy.
//
// The first pair of a group says which way is which: x and y look up, else toward
// the middle of the piece, so that the piece seen in a mirror is laid as the image.
// first is its region, nil for itself.
func regionOf(p *Pair, first *region) *region {
	n := p.Contact.Plane.N
	t := p.Through
	flat := func(v geom.Vec) geom.Vec { return v.Along(n, -v.Dot(n)) }
	u := flat(t.Pose.X)
	if u.Length() < 0.1 { // the fastener runs along the grain
		u = flat(t.Pose.Y)
	}
	r := &region{o: p.Contact.Middle, u: u.Unit()}
	r.v = n.Cross(r.u)
	like := flat(t.Pose.Y) // a mirror image keeps its run and its show face, and turns its width
	if z := flat(t.Pose.Z); z.Length() > like.Length() {
		like = z
	} else if odd(t.ID) {
		like = like.Negated()
	}
	if r.v.Dot(like) < 0 {
		r.v = r.v.Negated()
	}
	// A mirror that made the other board and left this one where it lies turns the
	// pattern round on it.
	for i, word := range mirrorWords {
		if strings.Contains(string(p.Into().ID), word) && !strings.Contains(string(t.ID), word) {
			if math.Abs(r.u.Dot(mirrorAxes[i])) > 0.7 {
				r.u = r.u.Negated()
			} else if math.Abs(r.v.Dot(mirrorAxes[i])) > 0.7 {
				r.v = r.v.Negated()
			}
		}
	}
	if first == nil {
		first = r
		r.flipped = [2]bool{!looksIn(r.u, r.o), !looksIn(r.v, r.o)}
	}
	if r.flipped = first.flipped; r.flipped[0] {
		r.u = r.u.Negated()
	}
	if r.flipped[1] {
		r.v = r.v.Negated()
	}
	r.outline(p)
	return r
}

// looksIn reports whether a direction looks up; if it is level, whether it looks
// from at toward the middle of the piece; there, the way its board runs.
func looksIn(way, at geom.Vec) bool {
	x, y, z := math.Abs(way.X), math.Abs(way.Y), math.Abs(way.Z)
	switch {
	case z >= x && z >= y:
		return way.Z > 0
	case x >= y:
		return math.Abs(at.X) < geom.Touch || at.X*way.X < 0
	}
	return math.Abs(at.Y) < geom.Touch || at.Y*way.Y < 0
}

// How ids tell which mirrors made a board, and what those mirrors look along.
var (
	mirrorWords = [3]string{"left-right", "front-back", "top-bottom"}
	mirrorAxes  = [3]geom.Vec{{X: 1}, {Y: 1}, {Z: 1}}
)

func odd(id board.ID) bool {
	n := 0
	for _, w := range mirrorWords {
		n += strings.Count(string(id), w)
	}
	return n%2 == 1
}

// outline takes the borders of the contact.
func (r *region) outline(p *Pair) {
	area := 0.0
	r.low, r.high = spot{math.Inf(1), math.Inf(1)}, spot{math.Inf(-1), math.Inf(-1)}
	for _, loop := range p.Contact.Loops {
		last := r.in(loop[len(loop)-1])
		for _, v := range loop {
			q := r.in(v)
			area += float64(last.x*q.y) - float64(last.y*q.x)
			if q.minus(last).size() > geom.Same {
				r.borders = append(r.borders, border{a: last, b: q})
			}
			r.low = spot{math.Min(r.low.x, q.x), math.Min(r.low.y, q.y)}
			r.high = spot{math.Max(r.high.x, q.x), math.Max(r.high.y, q.y)}
			last = q
		}
	}
	for i := range r.borders {
		b := &r.borders[i]
		d := b.b.minus(b.a)
		b.in = spot{-d.y, d.x}.times(1 / d.size())
		if area < 0 {
			b.in = b.in.times(-1)
		}
		beyond := r.out(b.a.plus(b.b).times(0.5).along(b.in, -beyondBorder))
		out := r.u.Times(-b.in.x).Along(r.v, -b.in.y)
		b.of[0] = borderOf(p.Through, beyond, out, p.outward())
		b.of[1] = borderOf(p.Into(), beyond, out, p.outward().Negated())
	}
}

func (r *region) in(v geom.Vec) spot {
	d := v.Minus(r.o)
	return spot{d.Dot(r.u), d.Dot(r.v)}
}

// A board that goes on no further than this past a border ends there, in mm.
const beyondBorder = 1.0

// borderOf says what a border is to a board: beyond is a place just past it, out
// the way to there, and deep points from the contact into the board.
func borderOf(b *design.Board, beyond, out, deep geom.Vec) int {
	at := b.Pose.In(beyond.Along(deep, 2*geom.Touch))
	for _, s := range b.Solid.Through(at, b.Pose.InWay(deep)) {
		if s[0] < beyondBorder && s[1] > beyondBorder {
			return nothing
		}
	}
	if grain := math.Abs(out.Dot(b.Pose.X)); grain > 0.5 && math.Abs(deep.Dot(b.Pose.X)) < math.Sqrt2/2 {
		return end
	}
	return edge
}

// want returns how far a fastener must stay from a border.
func (b *border) want(r room) float64 {
	far := 0.0
	for _, of := range b.of {
		switch of {
		case edge:
			far = math.Max(far, r.edge)
		case end:
			far = math.Max(far, r.end)
		}
	}
	return far
}

// stretches returns where the line at + t·way, way a unit, runs inside the region
// and as far from each border as far asks, as pairs of t in order.
func (r *region) stretches(at, way spot, far func(*border) float64) [][2]float64 {
	var cross []float64
	side := func(p spot) float64 { d := p.minus(at); return float64(way.x*d.y) - float64(way.y*d.x) }
	for i := range r.borders {
		b := &r.borders[i]
		sa, sb := side(b.a), side(b.b)
		if (sa > 0) != (sb > 0) {
			ta, tb := b.a.minus(at).dot(way), b.b.minus(at).dot(way)
			cross = append(cross, ta+float64((tb-ta)*sa/(sa-sb)))
		}
	}
	slices.Sort(cross)
	var runs [][2]float64
	for i := 0; i+1 < len(cross); i += 2 {
		runs = append(runs, [2]float64{cross[i], cross[i+1]})
	}
	for i := range r.borders {
		b := &r.borders[i]
		low, high, near := b.within(at, way, far(b))
		if !near {
			continue
		}
		var left [][2]float64
		for _, s := range runs {
			if s[0] <= low+geom.Same {
				left = append(left, [2]float64{s[0], math.Min(s[1], low)})
			}
			if s[1] >= high-geom.Same {
				left = append(left, [2]float64{math.Max(s[0], high), s[1]})
			}
		}
		runs = left
	}
	return slices.DeleteFunc(runs, func(s [2]float64) bool { return s[1] < s[0]-geom.Same })
}

// within returns between which t the line at + t·way comes nearer to the border
// than far.
func (b *border) within(at, way spot, far float64) (low, high float64, near bool) {
	low, high = math.Inf(1), math.Inf(-1)
	far -= geom.Same
	if far <= 0 {
		return 0, 0, false
	}
	take := func(from, to float64) {
		if from < to {
			low, high = math.Min(low, from), math.Max(high, to)
		}
	}
	for _, c := range []spot{b.a, b.b} { // the round ends
		t := c.minus(at).dot(way)
		off := c.minus(at.along(way, t)).size()
		if off < far {
			half := math.Sqrt(float64(far*far) - float64(off*off))
			take(t-half, t+half)
		}
	}
	// The strip between: |p·in| < far and 0 < p·d < long.
	d := b.b.minus(b.a)
	long := d.size()
	d = d.times(1 / long)
	from, to := math.Inf(-1), math.Inf(1)
	for _, lim := range []struct {
		n         spot
		low, high float64
	}{{b.in, -far, far}, {d, 0, long}} {
		at, slope := at.minus(b.a).dot(lim.n), way.dot(lim.n)
		if math.Abs(slope) < 1e-12 {
			if at <= lim.low || at >= lim.high {
				from, to = 1, 0
			}
			continue
		}
		s, e := (lim.low-at)/slope, (lim.high-at)/slope
		from, to = math.Max(from, math.Min(s, e)), math.Min(to, math.Max(s, e))
	}
	take(from, to)
	return low, high, low < high
}

// longestOf returns the longest of some stretches, the first of equals.
func longestOf(runs [][2]float64) (best [2]float64, ok bool) {
	for _, s := range runs {
		if !ok || s[1]-s[0] > best[1]-best[0]+geom.Same {
			best, ok = s, true
		}
	}
	return best, ok
}
