package geom

import (
	"cmp"
	"slices"
)

// gather makes the outer faces: the bare parts of one plane and tag are a face.
func (s *Saw) gather() []Face {
	s.faces.sort()
	of := s.faces.sorted
	o := &s.outline
	o.loops, o.faces = o.loops[:0], o.faces[:0]
	headers, points := 0, 0
	for i, j := 0, 0; i < len(of); i = j {
		first := len(o.loops)
		parts := 0
		for j = i; j < len(of) && of[j].face == of[i].face; j++ {
			parts += int(of[j].to - of[j].from)
		}
		h := s.plane(s.facets[of[i].facet])
		for _, f := range of[i:j] {
			for _, part := range s.faces.bare[f.from:f.to] {
				if parts == 1 {
					o.loops = append(o.loops, part)
				} else {
					o.take(part)
					headers, points = headers+1, points+len(part)
				}
			}
		}
		if parts > 1 {
			o.stitch(h.N, &s.work)
		}
		o.faces = append(o.faces, run{h, i, j, len(o.loops) - first, parts > 1})
	}
	if len(s.bodies) > 1 {
		o.knot(&s.work)
	}
	for _, loop := range o.loops {
		headers, points = headers+1, points+len(loop)
	}
	return s.copyFaces(headers, points)
}

// copyFaces copies the faces out of the Saw, in three blocks of memory. A face
// that was not stitched is convex, and its one loop its one piece.
func (s *Saw) copyFaces(headers, points int) []Face {
	o := &s.outline
	faces := make([]Face, len(o.faces))
	loops := make([][]Vec, 0, headers)
	corners := make([]Vec, 0, points)
	keep := func(parts [][]Vec) [][]Vec {
		first := len(loops)
		for _, loop := range parts {
			from := len(corners)
			corners = append(corners, loop...)
			loops = append(loops, corners[from:len(corners):len(corners)])
		}
		return loops[first:len(loops):len(loops)]
	}
	rest := o.loops
	for i, run := range o.faces {
		f := &faces[i]
		f.Plane, f.Tag = run.plane, s.facets[s.faces.sorted[run.from].facet].tag
		f.Loops = keep(rest[:run.loops])
		rest = rest[run.loops:]
		f.Pieces = f.Loops
		if run.stitched {
			first := len(loops)
			for _, b := range s.faces.sorted[run.from:run.to] {
				keep(s.faces.bare[b.from:b.to])
			}
			f.Pieces = loops[first:len(loops):len(loops)]
		}
	}
	return faces
}

// sort lists the facets that are bare by tag, plane and the way they face.
func (r *faceRoom) sort() {
	r.sorted = r.sorted[:0]
	for _, f := range r.of {
		if f.to > f.from {
			r.sorted = append(r.sorted, f)
		}
	}
	slices.SortFunc(r.sorted, func(a, b bareFacet) int {
		return cmp.Or(cmp.Compare(a.face, b.face), cmp.Compare(a.from, b.from))
	})
}

// Area returns the area of the face, in mm².
func (f *Face) Area() float64 {
	area := 0.0
	for _, p := range f.Pieces {
		var twice Vec
		for i := 2; i < len(p); i++ {
			twice = twice.Plus(p[i-1].Minus(p[0]).Cross(p[i].Minus(p[0])))
		}
		area += float64(twice.Length() / 2)
	}
	return area
}
