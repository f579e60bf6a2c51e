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
	pieces, points := 0, 0
	for i, j := 0, 0; i < len(of); i = j {
		first := len(o.loops)
		parts := 0
		for j = i; j < len(of) && of[j].face == of[i].face; j++ {
			parts += int(of[j].to - of[j].from)
		}
		for _, f := range of[i:j] {
			for _, part := range s.faces.bare[f.from:f.to] {
				pieces, points = pieces+1, points+len(part)
				if parts == 1 {
					o.loops = append(o.loops, part)
				} else {
					o.take(part)
				}
			}
		}
		h := s.plane(s.facets[of[i].facet])
		if parts > 1 {
			o.stitch(h.N, &s.work)
		}
		o.faces = append(o.faces, run{h, i, j, len(o.loops) - first, parts > 1})
	}
	if len(s.bodies) > 1 {
		o.knot(&s.work)
	}
	for _, loop := range o.loops {
		points += len(loop)
	}
	return s.copyFaces(pieces, points)
}

// copyFaces copies the faces out of the Saw, in three blocks of memory.
func (s *Saw) copyFaces(pieces, points int) []Face {
	o := &s.outline
	faces := make([]Face, len(o.faces))
	headers := make([][]Vec, 0, len(o.loops)+pieces)
	corners := make([]Vec, 0, points)
	keep := func(loop []Vec) {
		from := len(corners)
		corners = append(corners, loop...)
		headers = append(headers, corners[from:len(corners):len(corners)])
	}
	loops := o.loops
	for i, run := range o.faces {
		f := &faces[i]
		f.Plane, f.Tag = run.plane, s.facets[s.faces.sorted[run.from].facet].tag
		from := len(headers)
		for _, loop := range loops[:run.loops] {
			keep(loop)
		}
		loops = loops[run.loops:]
		f.Loops = headers[from:len(headers):len(headers)]
		from = len(headers)
		for _, b := range s.faces.sorted[run.from:run.to] {
			for _, part := range s.faces.bare[b.from:b.to] {
				keep(part)
			}
		}
		f.Pieces = headers[from:len(headers):len(headers)]
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
