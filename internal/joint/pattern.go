package joint

import (
	"math"
	"slices"

	"scantling/internal/design"
	"scantling/internal/geom"
)

// A variant is one way of laying a pattern where the design leaves it open: the
// other diagonal, kept further from some of the sides, moved along its row.
type variant struct {
	other bool
	inset [4]float64 // mm further from the low and high side along the grain, then across it
	nudge float64    // mm along the row, of one pair only
}

// variants are tried in turn until no fastener meets another. The first is what a
// pattern looks like when nothing stands in its way.
var variants = allVariants()

func allVariants() []variant {
	out := []variant{{}, {other: true}}
	for _, far := range []float64{12.7, 25.4, 38.1} {
		for _, other := range []bool{false, true} {
			for side := range 4 {
				v := variant{other: other}
				v.inset[side] = far
				out = append(out, v)
			}
			if far < 30 {
				out = append(out, variant{other: other, inset: [4]float64{far / 2, far / 2, far / 2, far / 2}})
			}
		}
	}
	return out
}

// nudges are how far the pattern of a single pair may be moved along its row to
// clear a fastener that the others do not meet, the least first.
var nudges = []float64{6.35, -6.35, 9.525, -9.525, 12.7, -12.7, 15.875, -15.875, 19.05, -19.05, 25.4, -25.4}

// lay returns the places of a pattern in a region, each so far from every border
// as r asks; false if they do not all fit.
func (r *region) lay(d design.Pattern, rm room, v variant) ([]spot, bool) {
	l := layout{region: r, pattern: d, room: rm, variant: v}
	n := d.Count
	if n == 0 {
		n = perPair
	}
	wide := spot{r.high.x - r.low.x, r.high.y - r.low.y}
	long, short := spot{1, 0}, spot{0, 1} // which way a row runs, and across it
	if d.Set == "across" || d.Set != "row" && wide.y > wide.x-geom.Alike {
		long, short = short, long
	}
	var out []spot
	switch {
	case d.Set == "diagonal":
		out = l.diagonal(max(n, 2))
	case d.Set == "stagger":
		out = l.rows(n, long, short, true)
	case d.Set == "" && d.Spacing == nil && n >= 4 && n%2 == 0 && math.Min(wide.x, wide.y) > 0.4*math.Max(wide.x, wide.y):
		out = l.rows(n, long, short, false)
	default:
		if out = l.row(n, long, short); out == nil && d.Set == "" && d.Spacing == nil && n == 2 {
			out = l.diagonal(n)
		}
	}
	return out, out != nil && l.spaced(out)
}

type layout struct {
	*region
	pattern design.Pattern
	room    room
	variant
}

// far returns how far a place must stay from a border: exactly as far as the
// design says, else as the room asks and, where there is room, in comfort.
func (l *layout) far(b *border) float64 {
	ends := math.Abs(b.in.x) > math.Abs(b.in.y) // the border lies across the grain
	said := l.pattern.FromEdge
	if ends {
		said = l.pattern.FromEnd
	}
	if !l.outermost(b) { // the step of a notch
		return b.want(l.room) + l.inset[b.side()]
	}
	if said != nil {
		return said.Q.V / 1e6
	}
	return math.Max(b.want(l.room), math.Min(l.wide(b.in)/4, comfort)) + l.inset[b.side()]
}

// wide returns how wide a contact is along a unit direction: of a strip aslant, as
// where a brace crosses a post, its breadth and not that of the rectangle round it.
func (r *region) wide(way spot) float64 {
	low, high := math.Inf(1), math.Inf(-1)
	for i := range r.borders {
		at := r.borders[i].a.dot(way)
		low, high = math.Min(low, at), math.Max(high, at)
	}
	return high - low
}

// outermost reports whether a border reaches to the end of the contact on its side.
func (l *layout) outermost(b *border) bool {
	switch b.side() {
	case 0:
		return math.Min(b.a.x, b.b.x) < l.low.x+geom.Same
	case 1:
		return math.Max(b.a.x, b.b.x) > l.high.x-geom.Same
	case 2:
		return math.Min(b.a.y, b.b.y) < l.low.y+geom.Same
	}
	return math.Max(b.a.y, b.b.y) > l.high.y-geom.Same
}

// side says which side of the contact a border is: 0 and 1 low and high along the
// grain, 2 and 3 across it.
func (b *border) side() int {
	k, in := 0, b.in.x
	if math.Abs(b.in.x) <= math.Abs(b.in.y) {
		k, in = 2, b.in.y
	}
	if in < 0 {
		k++
	}
	return k
}

// bare is far without comfort, for places that are not at the end of a row.
func (l *layout) bare(b *border) float64 {
	ends := math.Abs(b.in.x) > math.Abs(b.in.y)
	said := l.pattern.FromEdge
	if ends {
		said = l.pattern.FromEnd
	}
	if said != nil && l.outermost(b) {
		return math.Min(said.Q.V/1e6, b.want(l.room))
	}
	return b.want(l.room) + l.inset[b.side()]
}

// row lays n places on a line along way: in the middle of the contact's breadth,
// or so far from the end as said when only one border is an end of the board gone
// through. Where a notch takes a corner off, the middle may be too near to it; a
// little aside there may be room.
func (l *layout) row(n int, way, side spot) []spot {
	wide := spot{l.high.x - l.low.x, l.high.y - l.low.y}.dot(way)
	for _, t := range []float64{0, 0.125, -0.125, 0.25, -0.25, 0.375, -0.375} {
		if from, ok := l.line(spot{}.along(way, float64(t*wide)), side); ok {
			if out := l.on(from, n, way); out != nil && l.spaced(out) {
				return out
			}
		}
	}
	return nil
}

// on lays n places on the line along way through a place.
func (l *layout) on(from spot, n int, way spot) []spot {
	s, ok := longestOf(l.stretches(from, way, l.far))
	if !ok {
		return nil
	}
	first, step := s[0], 0.0
	run := s[1] - s[0]
	if sp := l.pattern.Spacing; sp != nil && sp.Q.V > 0 {
		step = sp.Q.V / 1e6
		if l.pattern.Count == 0 {
			n = 1 + int(math.Floor(run/step+1e-6))
		}
		if taken := float64(float64(n-1) * step); taken > run+1e-6 {
			return nil
		}
	} else if n > 1 {
		step = run / float64(n-1)
	}
	first += float64((run - float64(float64(n-1)*step)) / 2)
	out := make([]spot, n)
	for i := range out {
		out[i] = from.along(way, first+float64(float64(i)*step)+l.nudge)
	}
	if l.nudge != 0 {
		free := l.stretches(from, way, l.bare)
		for _, p := range out {
			if t := p.minus(from).dot(way); !slices.ContainsFunc(free, func(s [2]float64) bool { return s[0]-1e-6 <= t && t <= s[1]+1e-6 }) {
				return nil
			}
		}
	}
	return out
}

// line returns where a row's line crosses the one through at along side.
func (l *layout) line(at, side spot) (spot, bool) {
	b := l.alone(side)
	far := l.bare
	if b != nil {
		far = func(c *border) float64 {
			if c == b {
				return l.far(b)
			}
			return l.bare(c)
		}
	}
	runs := l.stretches(at, side, far)
	s, ok := longestOf(runs)
	switch {
	case !ok:
		return spot{}, false
	case b != nil && b.in.dot(side) > 0:
		return at.along(side, runs[0][0]), true
	case b != nil:
		return at.along(side, runs[len(runs)-1][1]), true
	}
	return at.along(side, (s[0]+s[1])/2), true
}

// alone returns the one border, among those a row runs along, that is an end or
// edge of the board gone through, when the design says how far from it; else nil.
func (l *layout) alone(side spot) (only *border) {
	if side.x != 0 && l.pattern.FromEnd == nil || side.y != 0 && l.pattern.FromEdge == nil {
		return nil
	}
	for i := range l.borders {
		b := &l.borders[i]
		if math.Abs(b.in.dot(side)) < 0.7 || b.of[0] == nothing {
			continue
		}
		if only != nil {
			return nil
		}
		only = b
	}
	return only
}

// diagonal lays n places from corner to corner.
func (l *layout) diagonal(n int) []spot {
	var half, mid [2]float64
	for k, way := range []spot{{1, 0}, {0, 1}} {
		s, ok := longestOf(l.stretches(spot{mid[0], 0}, way, l.far))
		if !ok {
			return nil
		}
		half[k], mid[k] = (s[1]-s[0])/2, (s[0]+s[1])/2
	}
	d, at := spot{half[0], half[1]}, spot{mid[0], mid[1]}
	if d.size() < 1 {
		return nil
	}
	if l.other {
		d.y = -d.y
	}
	d = d.times(1 / d.size())
	s, ok := longestOf(l.stretches(at, d, l.far))
	if !ok {
		return nil
	}
	out := make([]spot, n)
	for i := range out {
		out[i] = at.along(d, s[0]+float64((s[1]-s[0])*float64(i)/float64(n-1)))
	}
	return out
}

// rows lays places on two lines along way: side by side, or in a zigzag.
func (l *layout) rows(n int, way, side spot, zigzag bool) []spot {
	s, ok := longestOf(l.stretches(spot{}, side, l.far))
	if !ok {
		return nil
	}
	if s[1]-s[0] > 4*geom.Same { // on the very limit the last bit would decide
		s[0], s[1] = s[0]+2*geom.Same, s[1]-2*geom.Same
	}
	var lines [2][2]float64
	for k, at := range s {
		run, ok := longestOf(l.stretches(spot{}.along(side, at), way, l.far))
		if !ok {
			return nil
		}
		lines[k] = run
	}
	low, high := math.Max(lines[0][0], lines[1][0]), math.Min(lines[0][1], lines[1][1])
	if low > high {
		return nil
	}
	var out []spot
	if zigzag {
		for i := range n {
			t := (low + high) / 2
			if n > 1 {
				t = low + float64((high-low)*float64(i)/float64(n-1))
			}
			out = append(out, spot{}.along(side, s[(i+btoi(l.other))%2]).along(way, t))
		}
		return out
	}
	for i := range n / 2 {
		t := low + float64((high-low)*float64(i)/float64(max(1, n/2-1)))
		out = append(out, spot{}.along(side, s[0]).along(way, t), spot{}.along(side, s[1]).along(way, t))
	}
	return out
}

func btoi(b bool) int {
	if b {
		return 1
	}
	return 0
}

// spaced reports whether no two places lie nearer together than the room allows,
// both along the grain and across it.
func (l *layout) spaced(at []spot) bool {
	for i, p := range at {
		for _, q := range at[i+1:] {
			d := p.minus(q)
			if math.Abs(d.x) < l.room.along-1e-6 && math.Abs(d.y) < l.room.across-1e-6 {
				return false
			}
		}
	}
	return true
}
