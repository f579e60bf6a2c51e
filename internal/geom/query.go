package geom

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// Check returns an error unless the solid is sound: the volume of its cells is
// that inside its faces to 1e-12, every edge is run once each way by the loops of
// its faces, and it is one body.
func (s *Solid) Check() error {
	if err := s.closed(); err != nil {
		return err
	}
	if s.Bodies != 1 {
		return fmt.Errorf("the cuts leave %d bodies, not 1", s.Bodies)
	}
	return nil
}

// closed is Check for a solid of any number of bodies.
func (s *Solid) closed() error {
	inside := 0.0
	for _, f := range s.Faces {
		n := f.Plane.N
		for _, loop := range f.Loops {
			inside += float64(loop[0].Minus(s.Centre).Dot(n) * areaVec(loop).Dot(n))
		}
	}
	inside /= 3
	if math.Abs(inside-s.Volume) > float64(1e-12*s.Volume) {
		return fmt.Errorf("cells hold %v mm³ but faces enclose %v mm³", s.Volume, inside)
	}
	_, loops := s.Mesh()
	runs := map[[2]int]int{} // edge by its corners in order: times run that way less times run back
	for i, face := range loops {
		for _, loop := range face {
			last := loop[len(loop)-1]
			for _, c := range loop {
				if last == c {
					return fmt.Errorf("face %d (tag %d) has an edge of no length", i, s.Faces[i].Tag)
				}
				runs[[2]int{min(last, c), max(last, c)}] += cmp.Compare(c, last)
				last = c
			}
		}
	}
	open := 0
	for _, n := range runs {
		if n != 0 {
			open++
		}
	}
	if open > 0 {
		return fmt.Errorf("%d edges are not run once each way", open)
	}
	return nil
}

// Mesh returns the faces as loops of indices into one list of corners, each
// corner once; loops[i] belongs to Faces[i].
func (s *Solid) Mesh() (corners []Vec, loops [][][]int) {
	known := map[Vec]int{}
	for _, f := range s.Faces {
		face := make([][]int, len(f.Loops))
		for i, loop := range f.Loops {
			for _, p := range loop {
				p = p.Plus(Vec{}) // −0 becomes 0
				k, ok := known[p]
				if !ok {
					k = len(corners)
					known[p] = k
					corners = append(corners, p)
				}
				face[i] = append(face[i], k)
			}
		}
		loops = append(loops, face)
	}
	return corners, loops
}

// Extent returns the least and greatest distance, in mm, of the solid's corners
// from the origin along the unit direction way.
func (s *Solid) Extent(way Vec) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for i := range s.Cells {
		for _, v := range s.Cells[i].Verts {
			d := v.Dot(way)
			low, high = math.Min(low, d), math.Max(high, d)
		}
	}
	return low, high
}

// Ahead returns the stretch of the ray at + t·way, t ≥ 0, that lies in the cell, as
// two t; the second is less than the first where it misses. A ray that only grazes
// a facet misses.
func (c *Cell) Ahead(at, way Vec) (from, to float64) {
	to = math.Inf(1)
	for _, h := range c.Planes {
		slope, over := h.N.Dot(way), h.Over(at)
		switch {
		case slope > Same:
			to = math.Min(to, -over/slope)
		case slope < -Same:
			from = math.Max(from, -over/slope)
		case over > -Touch:
			to = -1
		}
	}
	return from, to
}

// Through returns the stretches of the line at + t·way that run through wood, as
// pairs of t in order. Stretches that meet at a seam are joined.
func (s *Solid) Through(at, way Vec) [][2]float64 {
	var runs [][2]float64
	for i := range s.Cells {
		from, to := math.Inf(-1), math.Inf(1)
		for _, h := range s.Cells[i].Planes {
			if t, ok := h.Hit(at, way); !ok {
				if h.Over(at) > Same {
					from, to = 1, 0
				}
			} else if h.N.Dot(way) > 0 {
				to = math.Min(to, t)
			} else {
				from = math.Max(from, t)
			}
		}
		if to-from > Same {
			runs = append(runs, [2]float64{from, to})
		}
	}
	slices.SortFunc(runs, func(a, b [2]float64) int { return cmp.Compare(a[0], b[0]) })
	joined := runs[:0]
	for _, r := range runs {
		if n := len(joined); n > 0 && r[0] <= joined[n-1][1]+Same {
			joined[n-1][1] = math.Max(joined[n-1][1], r[1])
			continue
		}
		joined = append(joined, r)
	}
	return joined
}

// Around returns the smallest upright box round the board in the piece.
func (p Placed) Around() Box {
	b := EmptyBox()
	for i := range p.Cells {
		for _, v := range p.Cells[i].Verts {
			b = b.With(p.Pose.Out(v))
		}
	}
	return b
}

// Extent is Solid.Extent in the piece.
func (p Placed) Extent(way Vec) (low, high float64) {
	shift := way.Dot(p.Pose.At)
	low, high = p.Solid.Extent(p.Pose.InWay(way))
	return low + shift, high + shift
}

// Middle returns the centre of mass in the piece.
func (p Placed) Middle() Vec { return p.Pose.Out(p.Centre) }
