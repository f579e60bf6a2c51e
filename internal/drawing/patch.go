package drawing

import "scantling/internal/geom"

// Patches returns what can be seen of every face that looks at the eye along v,
// by board and face, each as loops on the paper. What is nearer has been cut out
// of what is farther, so that patches share no paper and any order of painting
// is right: boards that lie over one another in a ring need no case of their own.
func Patches(v View, placed []geom.Placed) []Patch {
	boards, before := projectAll(v, placed)
	light := geom.Vec{Y: 1, Z: 1}.Unit() // from above the eye's shoulder
	var found []Patch
	var work geom.Convex
	for i := range boards {
		for f := range boards[i].shields {
			face := &boards[i].shields[f]
			var seen [][]geom.Vec
			for _, piece := range face.pieces {
				seen = append(seen, flat(piece))
			}
			for _, j := range before[i] {
				for k := range boards[j].shields {
					if len(seen) > 0 {
						seen = cover(&work, seen, face, &boards[j].shields[k])
					}
				}
			}
			if len(seen) == 0 {
				continue
			}
			p := Patch{Board: i, Light: max(0, face.plane.N.Dot(light))}
			for _, loop := range work.Outline(seen, geom.Vec{Z: 1}) {
				p.Loops = append(p.Loops, places(loop))
			}
			found = append(found, p)
		}
	}
	return found
}

// cover returns the parts of seen, which lie in face's plane, that s does not hide.
func cover(work *geom.Convex, seen [][]geom.Vec, face, s *shield) [][]geom.Vec {
	if s == face || s.box.High.Z <= face.box.Low.Z || !sharePaper(&s.box, &face.box) {
		return seen
	}
	up := geom.Vec{Z: 1}
	for _, piece := range s.pieces {
		shade := nearer(work, piece, face.plane)
		if shade == nil {
			continue
		}
		box := geom.EmptyBox()
		for _, p := range shade {
			box = box.With(p)
		}
		var left [][]geom.Vec
		for _, part := range seen {
			own := geom.EmptyBox()
			for _, p := range part {
				own = own.With(p)
			}
			if sharePaper(&box, &own) {
				left = work.Without(left, part, shade, up)
			} else {
				left = append(left, part)
			}
		}
		seen = left
	}
	return seen
}

// nearer returns, flat on the paper, the part of a piece that lies nearer the eye
// than plane h: outside it, for h looks at the eye.
func nearer(work *geom.Convex, piece []geom.Vec, h geom.Plane) []geom.Vec {
	high := 0.0
	for _, p := range piece {
		high = max(high, h.Over(p))
	}
	if high <= geom.Same { // in the plane is not nearer
		return nil
	}
	return flat(work.Inside(piece, h.Flipped()))
}

func flat(loop []geom.Vec) []geom.Vec {
	on := make([]geom.Vec, len(loop))
	for i, p := range loop {
		on[i] = geom.Vec{X: p.X, Y: p.Y}
	}
	return on
}

func places(loop []geom.Vec) []Place {
	on := make([]Place, len(loop))
	for i, p := range loop {
		on[i] = Place{p.X, p.Y}
	}
	return on
}
