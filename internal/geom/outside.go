package geom

// From the bodies on the Saw to a Solid: which parts of the facets are bare,
// and the loops of the faces they make.

// faceRoom is room for outside, reused from solid to solid.
type faceRoom struct {
	bare   [][]Vec // convex bare parts, of all facets end to end
	spare  [][]Vec
	of     []bareFacet
	sorted []bareFacet
	root   []int32 // of each body: a body joined to it, by number
}

// bareFacet is the bare parts of a facet of the Saw: faceRoom.bare[from:to]. Facets
// of one face have its number, which orders faces by tag.
type bareFacet struct {
	face     uint64
	facet    int32
	from, to int32
}

// Solid returns what is left. It shares no memory with the Saw.
func (s *Saw) Solid() *Solid {
	made := &Solid{Box: EmptyBox()}
	s.findBare()
	made.Cells = s.cells()
	made.Faces = s.gather()
	for i := range s.faces.root {
		if s.faces.root[i] == int32(i) {
			made.Bodies++
		}
	}
	var moment Vec
	for i := range made.Cells {
		v, m := made.Cells[i].mass()
		made.Volume += v
		moment = moment.Plus(m)
		for _, p := range made.Cells[i].Verts {
			made.Box = made.Box.With(p)
		}
	}
	if made.Volume > 0 {
		made.Centre = Vec{moment.X / made.Volume, moment.Y / made.Volume, moment.Z / made.Volume}
	}
	return made
}

// plane returns the outward plane of a facet.
func (s *Saw) plane(f facet) Plane {
	if f.flip {
		return s.planes[f.plane].Flipped()
	}
	return s.planes[f.plane]
}

func (s *Saw) points(f facet) []Vec {
	p := s.work.polygon(int(f.to - f.from))
	for _, v := range s.index[f.from:f.to] {
		p = append(p, s.verts[v])
	}
	return p
}

// findBare lists the facets of all bodies in order, with what is left of each
// when the facets that look at it from other bodies are taken away, and joins
// bodies that share part of a facet.
func (s *Saw) findBare() {
	r := &s.faces
	r.bare, r.of, r.root = r.bare[:0], r.of[:0], r.root[:0]
	for i := range s.bodies {
		r.root = append(r.root, int32(i))
	}
	for i, b := range s.bodies {
		for k := b.from; k < b.to; k++ {
			f := s.facets[k]
			first := len(r.bare)
			r.bare = append(r.bare, s.points(f))
			for j, c := range s.bodies {
				if j == i {
					continue
				}
				for _, g := range s.facets[c.from:c.to] {
					if g.plane == f.plane && g.flip != f.flip {
						s.cover(first, f, g, i, j)
					}
				}
			}
			face := uint64(f.tag)<<32 | uint64(f.plane)<<1
			if f.flip {
				face |= 1
			}
			r.of = append(r.of, bareFacet{face, k, int32(first), int32(len(r.bare))})
		}
	}
}

// cover takes facet g of body j away from the bare parts of facet f of body i,
// which are those from first on.
func (s *Saw) cover(first int, f, g facet, i, j int) {
	r := &s.faces
	n := s.plane(f).N
	shade := s.points(g)
	r.spare = append(r.spare[:0], r.bare[first:]...)
	r.bare = r.bare[:first]
	for _, part := range r.spare {
		if apart(part, shade, n) || apart(shade, part, n.Negated()) {
			r.bare = append(r.bare, part)
			continue
		}
		r.bare = s.work.without(r.bare, part, shade, n)
		a, b := r.find(i), r.find(j)
		r.root[max(a, b)] = min(a, b)
	}
}

func (r *faceRoom) find(i int) int32 {
	for r.root[i] != int32(i) {
		i = int(r.root[i])
	}
	return int32(i)
}

// cells copies the bodies out of the Saw.
func (s *Saw) cells() []Cell {
	facets, corners := 0, 0
	for _, b := range s.bodies {
		for _, f := range s.facets[b.from:b.to] {
			facets++
			corners += int(f.to - f.from)
		}
	}
	cells := make([]Cell, 0, len(s.bodies))
	planes := make([]Plane, 0, facets)
	tags := make([]Tag, 0, facets)
	outer := make([]bool, 0, facets)
	loops := make([][]int32, 0, facets)
	index := make([]int32, 0, corners)
	verts := make([]Vec, 0, corners/3) // no corner of a body has fewer than three facets
	for len(s.asked) < len(s.verts) {
		s.over, s.asked = append(s.over, 0), append(s.asked, 0)
	}
	k := 0
	for _, b := range s.bodies {
		// asked now holds the number of a corner in this body, counted on from
		// a base above all that was there before.
		s.cut++
		base := s.cut
		f0, v0 := len(planes), len(verts)
		for _, f := range s.facets[b.from:b.to] {
			from := len(index)
			for _, v := range s.index[f.from:f.to] {
				if s.asked[v] < base {
					s.asked[v] = base + int32(len(verts)-v0)
					verts = append(verts, s.verts[v])
				}
				index = append(index, s.asked[v]-base)
			}
			planes = append(planes, s.plane(f))
			tags = append(tags, f.tag)
			outer = append(outer, s.faces.of[k].to > s.faces.of[k].from)
			loops = append(loops, index[from:len(index):len(index)])
			k++
		}
		s.cut = base + int32(len(verts)-v0)
		n, m := len(planes), len(verts)
		cells = append(cells, Cell{
			Planes: planes[f0:n:n], Tags: tags[f0:n:n], Outer: outer[f0:n:n],
			Verts: verts[v0:m:m], Loops: loops[f0:n:n],
		})
	}
	return cells
}

// mass returns the cell's volume and that times its centre of mass, from the
// tetrahedra its first corner makes with the triangles of its facets.
func (c *Cell) mass() (volume float64, moment Vec) {
	o := c.Verts[0]
	for _, loop := range c.Loops {
		a := c.Verts[loop[0]].Minus(o)
		b := c.Verts[loop[1]].Minus(o)
		for _, v := range loop[2:] {
			d := c.Verts[v].Minus(o)
			six := a.Dot(b.Cross(d))
			volume += six
			moment = moment.Along(a.Plus(b).Plus(d), six)
			b = d
		}
	}
	volume /= 6
	return volume, moment.Times(1.0/24).Along(o, volume)
}
