package geom

import "math"

// touchEdges returns where boards that share no area of a face touch along a
// line or at a point, in a's frame: the parts of the edges of each board's cells
// that lie within Touch of a cell of the other, from end to end.
func touchEdges(a, b Placed, rel Pose) (Contact, bool) {
	back := Unmoved().From(rel)
	var ends []Vec
	var best parting
	for i := range a.Cells {
		for j := range b.Cells {
			mine, theirs := &a.Cells[i], &b.Cells[j]
			p := part(mine, theirs, rel, back)
			if p.gap > Touch || p.gap < -Touch {
				continue
			}
			before := len(ends)
			ends = edgesWithin(ends, mine, theirs, rel)
			for _, v := range edgesWithin(nil, theirs, mine, back) {
				ends = append(ends, rel.Out(v))
			}
			if len(ends) > before && (best.plane.N == (Vec{}) || p.gap > best.gap) {
				best = p
			}
		}
	}
	if ends == nil || best.plane.N == (Vec{}) {
		return Contact{}, false
	}
	c := Contact{Kind: AtPoint, Plane: best.plane, A: best.a, B: best.b, Apart: best.gap}
	from, to := ends[0], ends[0]
	for i, p := range ends {
		for _, q := range ends[:i] {
			if p.Distance(q) > from.Distance(to) {
				from, to = q, p
			}
		}
	}
	c.Middle = from.Plus(to).Times(0.5)
	c.Loops = [][]Vec{{c.Middle}}
	// Within Touch of a corner the edges of both boards are near one another
	// for a few Touch; a line is longer than that.
	if c.Length = from.Distance(to); c.Length > 10*Touch {
		c.Kind, c.Loops = AlongLine, [][]Vec{{from, to}}
	} else {
		c.Length = 0
	}
	return c, true
}

// parting is the facet of two cells that keeps them furthest apart.
type parting struct {
	plane Plane // in the first cell's frame, toward the second
	gap   float64
	a, b  Tag
}

// part finds the parting of two cells among their outer facets and seams; the tag on the
// other side is that of the facet there which looks at it most squarely.
func part(a, b *Cell, rel, back Pose) parting {
	p := parting{gap: math.Inf(-1)}
	for i, h := range a.Planes {
		if gap := gapTo(rel.InPlane(h), b.Verts); gap > p.gap {
			p = parting{h, gap, a.Tags[i], facingTag(b, rel.InWay(h.N))}
		}
	}
	for i, h := range b.Planes {
		if gap := gapTo(back.InPlane(h), a.Verts); gap > p.gap {
			n := rel.OutPlane(h).Flipped()
			p = parting{n, gap, facingTag(a, n.N.Negated()), b.Tags[i]}
		}
	}
	return p
}

// gapTo returns how far the nearest of the points lies outside h.
func gapTo(h Plane, points []Vec) float64 {
	gap := math.Inf(1)
	for _, p := range points {
		gap = math.Min(gap, h.Over(p))
	}
	return gap
}

// facingTag returns the tag of the facet of c that looks most squarely against n.
func facingTag(c *Cell, n Vec) Tag {
	best, tag := math.Inf(1), Tag(0)
	for i, h := range c.Planes {
		if d := h.N.Dot(n); c.Outer[i] && d < best {
			best, tag = d, c.Tags[i]
		}
	}
	return tag
}

// edgesWithin appends the ends of the parts of edges of cell a that lie within
// Touch of cell b, which rel places in a's frame; the ends are in a's frame.
func edgesWithin(ends []Vec, a, b *Cell, rel Pose) []Vec {
	for _, loop := range a.Loops {
		last := loop[len(loop)-1]
		for _, v := range loop {
			if last < v { // each edge is in two loops, once each way
				from, way := a.Verts[last], a.Verts[v].Minus(a.Verts[last])
				low, high := 0.0, 1.0
				for _, h := range b.Planes {
					h = rel.OutPlane(h).Shifted(Touch)
					if t, ok := h.Hit(from, way); !ok {
						if h.Over(from) > 0 {
							high = -1
						}
					} else if h.N.Dot(way) > 0 {
						high = math.Min(high, t)
					} else {
						low = math.Max(low, t)
					}
				}
				if low <= high {
					ends = append(ends, from.Along(way, low), from.Along(way, high))
				}
			}
			last = v
		}
	}
	return ends
}
