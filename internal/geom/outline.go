package geom

import (
	"cmp"
	"slices"

	"scantling/internal/steady"
)

// outline finds the loops round convex parts that lie side by side in a plane.
// On every line their edges lie on, edges that run one way count +1 and those
// that run back count −1; where the sum is 0 two parts meet and nothing shows.
// What is left is chained into loops, inner ones running the other way round.
// It is room to be used again, and holds the loops of all faces of a solid.
type outline struct {
	edges   []edge
	ends    []end
	left    []edge
	loops   [][]Vec
	faces   []run
	knots   []Vec // the distinct corners of all loops
	inPlane []Vec // those in the plane of the face at hand
}

// run is a face: its facets in faceRoom.sorted, how many loops it has, and whether
// it was stitched from several parts; if not it is convex.
type run struct {
	plane           Plane
	from, to, loops int
	stitched        bool
}

// edge runs from a to b with the face on its left.
type edge struct {
	a, b   Vec
	length float64
}

// end is where an edge starts (+1) or stops (−1), t along the line at hand. The
// sum of all ends before t is then the count of edges at t, those that run back
// taken negative.
type end struct {
	t    float64
	step int
	at   Vec
}

// take adds the edges of a convex part.
func (o *outline) take(part []Vec) {
	last := part[len(part)-1]
	for _, p := range part {
		o.edges = append(o.edges, edge{last, p, last.Distance(p)})
		last = p
	}
}

// stitch uses up the edges taken and adds the loops round their union; n is the
// normal of their plane.
func (o *outline) stitch(n Vec, room *scraps) {
	o.left = o.left[:0]
	for len(o.edges) > 0 {
		o.cancel()
	}
	for len(o.left) > 0 {
		o.loops = append(o.loops, o.chain(n, room))
	}
}

// cancel takes the edges on the line of the longest edge, which fixes its line
// best, and adds to left what remains of them.
func (o *outline) cancel() {
	long := o.edges[0]
	for _, e := range o.edges {
		if e.length > long.length {
			long = e
		}
	}
	at, way := long.a, long.b.Minus(long.a).Times(1/long.length)
	rest := o.edges[:0]
	o.ends = o.ends[:0]
	for _, e := range o.edges {
		s, ds := offLine(at, way, e.a)
		t, dt := offLine(at, way, e.b)
		if ds > Same*Same || dt > Same*Same {
			rest = append(rest, e)
			continue
		}
		o.ends = append(o.ends, end{s, 1, e.a}, end{t, -1, e.b})
	}
	o.edges = rest
	slices.SortStableFunc(o.ends, func(a, b end) int { return cmp.Compare(a.t, b.t) })
	sum, from := 0, Vec{}
	for i := 0; i < len(o.ends); {
		here, before := o.ends[i], sum
		for ; i < len(o.ends) && o.ends[i].t <= here.t+Same; i++ {
			sum += o.ends[i].step
		}
		if before == sum {
			continue
		}
		if before > 0 {
			o.left = append(o.left, edge{a: from, b: here.at})
		} else if before < 0 {
			o.left = append(o.left, edge{a: here.at, b: from})
		}
		from = here.at
	}
}

// offLine returns how far along the line at + t·way p lies, and the square of how
// far off it; way is unit.
func offLine(at, way, p Vec) (t, off2 float64) {
	d := p.Minus(at)
	t = d.Dot(way)
	d = d.Along(way, -t)
	return t, d.Dot(d)
}

// chain takes a loop out of left. Where several edges start it goes sharpest
// left, so that areas which meet in a corner keep loops of their own.
func (o *outline) chain(n Vec, room *scraps) []Vec {
	loop := room.polygon(len(o.left))
	e := o.left[0]
	o.left[0] = o.left[len(o.left)-1]
	o.left = o.left[:len(o.left)-1]
	loop = append(loop, e.a)
	for !near(e.b, loop[0]) {
		loop = append(loop, e.b)
		next := -1
		for i, f := range o.left {
			if near(f.a, e.b) && (next < 0 || turn(e, f, n) > turn(e, o.left[next], n)) {
				next = i
			}
		}
		if next < 0 {
			return loop // Check tells
		}
		e = o.left[next]
		o.left[next] = o.left[len(o.left)-1]
		o.left = o.left[:len(o.left)-1]
	}
	return loop
}

// near reports whether two corners are one: twice Same, for each may be off by one.
func near(a, b Vec) bool {
	d := a.Minus(b)
	return d.Dot(d) <= 4*Same*Same
}

// turn returns how far left f turns from e, round n.
func turn(e, f edge, n Vec) float64 {
	d, w := e.b.Minus(e.a), f.b.Minus(f.a)
	return steady.Atan2(n.Dot(d.Cross(w)), d.Dot(w))
}

// knot gives all loops of a solid the same corners: corners within Same become
// one, and a corner that lies on another loop's edge becomes a corner there.
func (o *outline) knot(room *scraps) {
	o.knots = o.knots[:0]
	for _, loop := range o.loops {
		for i, p := range loop {
			loop[i] = o.corner(p)
		}
	}
	loops := o.loops
	for _, face := range o.faces {
		own := loops[:face.loops]
		loops = loops[face.loops:]
		o.inPlane = o.inPlane[:0]
		for _, k := range o.knots {
			if d := face.plane.Over(k); d <= 2*Same && d >= -2*Same {
				o.inPlane = append(o.inPlane, k)
			}
		}
		if !face.stitched && len(o.inPlane) == len(own[0]) {
			continue // a convex face, and all the corners in its plane are its own
		}
		for i, loop := range own {
			own[i] = o.along(loop, room)
		}
	}
}

// corner returns the knot at p, which it makes if there is none.
func (o *outline) corner(p Vec) Vec {
	for _, k := range o.knots {
		if near(k, p) {
			return k
		}
	}
	o.knots = append(o.knots, p)
	return p
}

// along returns the loop with the knots in its plane that lie on its edges.
func (o *outline) along(loop []Vec, room *scraps) []Vec {
	o.ends = o.ends[:0]
	a := loop[len(loop)-1]
	for _, b := range loop {
		from := len(o.ends)
		way := b.Minus(a)
		length := way.Length()
		way = way.Times(1 / length)
		for _, k := range o.inPlane {
			if t, off2 := offLine(a, way, k); off2 <= 4*Same*Same && t > 2*Same && t < length-2*Same {
				o.ends = append(o.ends, end{t: t, at: k})
			}
		}
		slices.SortFunc(o.ends[from:], func(a, b end) int { return cmp.Compare(a.t, b.t) })
		o.ends = append(o.ends, end{t: length, at: b})
		a = b
	}
	if len(o.ends) == len(loop) {
		return loop
	}
	more := room.polygon(len(o.ends))
	for _, e := range o.ends {
		more = append(more, e.at)
	}
	return more
}
