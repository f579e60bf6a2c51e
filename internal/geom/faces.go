package geom

import (
	"cmp"
	"slices"
)

// gather makes the outer faces: the bare parts of one plane and tag are a face.
func (s *Saw) gather() []Face {
	of := s.faces.of
	slices.SortStableFunc(of, func(a, b bareFacet) int {
		return cmp.Or(cmp.Compare(a.tag, b.tag), cmp.Compare(a.plane, b.plane), compareFlip(a, b))
	})
	o := &s.outline
	o.loops, o.faces = o.loops[:0], o.faces[:0]
	pieces, points := 0, 0
	for i, j := 0, 0; i < len(of); i = j {
		first := len(o.loops)
		parts := 0
		for j = i; j < len(of) && sameFace(of[i], of[j]); j++ {
			parts += of[j].to - of[j].from
		}
		if parts == 0 {
			continue
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
		if parts > 1 {
			o.stitch(s.plane(of[i].facet).N)
		}
		o.faces = append(o.faces, run{i, j, len(o.loops) - first})
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
		f, first := &faces[i], s.faces.of[run.from]
		f.Plane, f.Tag = s.plane(first.facet), first.tag
		from := len(headers)
		for _, loop := range loops[:run.loops] {
			keep(loop)
		}
		loops = loops[run.loops:]
		f.Loops = headers[from:len(headers):len(headers)]
		from = len(headers)
		for _, b := range s.faces.of[run.from:run.to] {
			for _, part := range s.faces.bare[b.from:b.to] {
				keep(part)
			}
		}
		f.Pieces = headers[from:len(headers):len(headers)]
	}
	return faces
}

func sameFace(a, b bareFacet) bool { return a.tag == b.tag && a.plane == b.plane && a.flip == b.flip }

func compareFlip(a, b bareFacet) int {
	switch {
	case a.flip == b.flip:
		return 0
	case b.flip:
		return -1
	}
	return 1
}
