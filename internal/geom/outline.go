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
	edges []edge
	ends  []end
	left  []edge
	loops [][]Vec
	faces []run
	knots []Vec
}

// run is a face: its facets in faceRoom.of, and how many loops it has.
type run struct{ from, to, loops int }

// edge runs from a to b with the face on its left.
type edge struct{ a, b Vec }

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
		o.edges = append(o.edges, edge{last, p})
		last = p
	}
}

// stitch uses up the edges taken and adds the loops round their union; n is the
// normal of their plane.
func (o *outline) stitch(n Vec) {
	slices.SortStableFunc(o.edges, func(a, b edge) int { // the longest edge fixes a line best
		return cmp.Compare(b.a.Distance(b.b), a.a.Distance(a.b))
	})
	o.left = o.left[:0]
	for len(o.edges) > 0 {
		o.cancel()
	}
	for len(o.left) > 0 {
		o.loops = append(o.loops, o.chain(n))
	}
}

// cancel takes the edges on the line of the first edge and adds to left what
// remains of them.
func (o *outline) cancel() {
	at := o.edges[0].a
	way := o.edges[0].b.Minus(at).Unit()
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
			o.left = append(o.left, edge{from, here.at})
		} else if before < 0 {
			o.left = append(o.left, edge{here.at, from})
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
func (o *outline) chain(n Vec) []Vec {
	e := o.left[0]
	o.left = o.left[1:]
	loop := []Vec{e.a}
	for e.b.Distance(loop[0]) > 2*Same {
		loop = append(loop, e.b)
		next, best := -1, -4.0
		for i, f := range o.left {
			if f.a.Distance(e.b) > 2*Same {
				continue
			}
			d, w := e.b.Minus(e.a), f.b.Minus(f.a)
			if turn := steady.Atan2(n.Dot(d.Cross(w)), d.Dot(w)); turn > best {
				next, best = i, turn
			}
		}
		if next < 0 {
			return loop // Check tells
		}
		e = o.left[next]
		o.left = slices.Delete(o.left, next, next+1)
	}
	return loop
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
	for i, loop := range o.loops {
		o.ends = o.ends[:0]
		last := loop[len(loop)-1]
		for _, p := range loop {
			o.alongEdge(last, p)
			last = p
		}
		if len(o.ends) > len(loop) {
			more := room.polygon(len(o.ends))
			for _, e := range o.ends {
				more = append(more, e.at)
			}
			o.loops[i] = more
		}
	}
}

// corner returns the knot at p, which it makes if there is none.
func (o *outline) corner(p Vec) Vec {
	for _, k := range o.knots {
		d := k.Minus(p)
		if d.Dot(d) <= 4*Same*Same {
			return k
		}
	}
	o.knots = append(o.knots, p)
	return p
}

// alongEdge adds to ends the knots between a and b, in order, and b.
func (o *outline) alongEdge(a, b Vec) {
	way := b.Minus(a)
	length := way.Length()
	way = way.Times(1 / length)
	from := len(o.ends)
	for _, k := range o.knots {
		d := k.Minus(a)
		if t := d.Dot(way); t > 2*Same && t < length-2*Same {
			if d = d.Along(way, -t); d.Dot(d) <= 4*Same*Same {
				o.ends = append(o.ends, end{t: t, at: k})
			}
		}
	}
	slices.SortFunc(o.ends[from:], func(a, b end) int { return cmp.Compare(a.t, b.t) })
	o.ends = append(o.ends, end{t: length, at: b})
}
