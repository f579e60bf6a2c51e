package geom

import "math"

// Overlap returns the wood a and b share. ok is false if they share none deeper
// than Same; whether Depth is a clash (more than Touch) is the caller's to say.
func Overlap(a, b Placed) (c Clash, ok bool) {
	rel := b.Pose.From(a.Pose)
	if !boxesMeet(a, b, rel, -Same) {
		return Clash{}, false
	}
	var room [64]Vec
	var regions []region
	for j := range b.Cells {
		cell := &b.Cells[j]
		verts := room[:0]
		for _, v := range cell.Verts {
			verts = append(verts, rel.Out(v))
		}
		for i := range a.Cells {
			if !cellsMeet(&a.Cells[i], cell, verts, rel) {
				continue
			}
			if r, ok := intersect(&a.Cells[i], cell, rel); ok {
				regions = append(regions, r)
			}
		}
	}
	return gatherClash(regions, a, b, rel)
}

// region is the wood two cells share, in the first board's frame.
type region struct {
	verts  []Vec
	volume float64
	box    Box
	place  int // regions that touch share a place
}

// boxesMeet reports whether the box of each board, upright in its own frame,
// comes within reach of the other board's. rel places b in a's frame.
func boxesMeet(a, b Placed, rel Pose, reach float64) bool {
	return oneBoxMeets(a.Box, b.Box, rel, reach) && oneBoxMeets(b.Box, a.Box, Unmoved().From(rel), reach)
}

func oneBoxMeets(fixed, other Box, rel Pose, reach float64) bool {
	m := rel.Out(other.Middle())
	h := other.Size().Times(0.5)
	spread := Vec{ // half the extent of the turned box along each axis
		float64(math.Abs(rel.X.X)*h.X) + float64(math.Abs(rel.Y.X)*h.Y) + float64(math.Abs(rel.Z.X)*h.Z),
		float64(math.Abs(rel.X.Y)*h.X) + float64(math.Abs(rel.Y.Y)*h.Y) + float64(math.Abs(rel.Z.Y)*h.Z),
		float64(math.Abs(rel.X.Z)*h.X) + float64(math.Abs(rel.Y.Z)*h.Y) + float64(math.Abs(rel.Z.Z)*h.Z),
	}
	return fixed.Meets(Box{m.Minus(spread), m.Plus(spread)}, reach)
}

// cellsMeet reports whether no facet of either cell parts them. verts are b's
// corners in a's frame.
func cellsMeet(a, b *Cell, verts []Vec, rel Pose) bool {
	for _, h := range a.Planes {
		if beyond(h, verts, -Same) {
			return false
		}
	}
	for _, h := range b.Planes {
		if beyond(rel.OutPlane(h), a.Verts, -Same) {
			return false
		}
	}
	return true
}

// beyond reports whether all points lie further outside h than gap.
func beyond(h Plane, points []Vec, gap float64) bool {
	for _, p := range points {
		if h.Over(p) < gap {
			return false
		}
	}
	return true
}

// intersect returns the wood two cells share. ok is false if there is none.
func intersect(a, b *Cell, rel Pose) (r region, ok bool) {
	s := &Saw{}
	s.load(a)
	for i, h := range b.Planes {
		h = rel.OutPlane(h)
		s.planes = append(s.planes, h)
		left, _ := s.split(s.bodies[0], h, facet{plane: int32(len(s.planes) - 1), tag: b.Tags[i]}, false)
		if left.to == left.from {
			return region{}, false
		}
		s.bodies[0] = left
	}
	s.findBare()
	c := s.cells()[0]
	r = region{verts: c.Verts, box: EmptyBox()}
	r.volume, _ = c.mass()
	for _, v := range c.Verts {
		r.box = r.box.With(v)
	}
	return r, true
}

// load puts a cell on the Saw.
func (s *Saw) load(c *Cell) {
	s.planes = append(s.planes, c.Planes...)
	s.verts = append(s.verts, c.Verts...)
	for i, loop := range c.Loops {
		from := int32(len(s.index))
		s.index = append(s.index, loop...)
		s.facets = append(s.facets, facet{plane: int32(i), tag: c.Tags[i], from: from, to: int32(len(s.index))})
	}
	s.bodies = append(s.bodies, body{0, int32(len(s.facets))})
}

// gatherClash adds the regions up and measures how deep each place of them is.
func gatherClash(regions []region, a, b Placed, rel Pose) (c Clash, ok bool) {
	if len(regions) == 0 {
		return Clash{}, false
	}
	for i := range regions {
		regions[i].place = i
		for j := range i {
			if from := regions[j].place; regions[i].place != from && regions[i].box.Meets(regions[j].box, Same) {
				old := regions[i].place
				for k := range i + 1 {
					if regions[k].place == old {
						regions[k].place = from
					}
				}
			}
		}
	}
	c.Box = EmptyBox()
	for place := range regions {
		depth, across := math.Inf(1), Vec{}
		try := func(n Vec) {
			low, high := math.Inf(1), math.Inf(-1)
			for _, r := range regions {
				if r.place != place {
					continue
				}
				for _, v := range r.verts {
					low, high = math.Min(low, v.Dot(n)), math.Max(high, v.Dot(n))
				}
			}
			if width := high - low; width < depth && width >= 0 {
				depth, across = width, n
			}
		}
		for _, f := range a.Faces {
			try(f.Plane.N)
		}
		for _, f := range b.Faces {
			try(rel.OutWay(f.Plane.N))
		}
		if across != (Vec{}) && depth > c.Depth {
			c.Depth, c.Across = depth, a.Pose.OutWay(across)
		}
	}
	for _, r := range regions {
		c.Volume += r.volume
		for _, v := range r.verts {
			c.Box = c.Box.With(a.Pose.Out(v))
		}
	}
	return c, c.Depth > Same
}
