package geom

// Convex polygons in space, as lists of corners counter-clockwise round a normal.

// scraps lends room for short-lived polygons and takes it all back at once.
type scraps struct {
	room []Vec
	used int
	over []float64
}

func (s *scraps) reset() { s.used = 0 }

// polygon returns an empty polygon with room for n corners.
func (s *scraps) polygon(n int) []Vec {
	if s.used+n > len(s.room) {
		s.room, s.used = make([]Vec, max(48, 2*len(s.room), n)), 0
	}
	p := s.room[s.used : s.used : s.used+n]
	s.used += n
	return p
}

// split returns the parts of a convex polygon inside and outside h; a part
// thinner than Same is nil.
func (s *scraps) split(poly []Vec, h Plane) (in, out []Vec) {
	s.over = s.over[:0]
	low, high := 0.0, 0.0
	for _, p := range poly {
		d := h.Over(p)
		s.over = append(s.over, d)
		low, high = min(low, d), max(high, d)
	}
	if high <= Same {
		return poly, nil
	}
	if low >= -Same {
		return nil, poly
	}
	in, out = s.polygon(len(poly)+2), s.polygon(len(poly)+2)
	last := len(poly) - 1
	for i, p := range poly {
		d, e := s.over[last], s.over[i]
		if d < -Same && e > Same || d > Same && e < -Same {
			at := poly[last].Along(p.Minus(poly[last]), d/(d-e))
			in, out = append(in, at), append(out, at)
		}
		if e <= Same {
			in = append(in, p)
		}
		if e >= -Same {
			out = append(out, p)
		}
		last = i
	}
	return in, out
}

// edgePlane returns the plane through the edge a–b of a polygon round n that has
// the polygon inside.
func edgePlane(a, b, n Vec) Plane { return Facing(a, b.Minus(a).Cross(n)) }

// shared returns the part two convex polygons of one plane have in common, nil if
// that is thinner than Same. Both run counter-clockwise round n, or, with turn
// set, b runs clockwise.
func (s *scraps) shared(a, b []Vec, n Vec, turn bool) []Vec {
	m := n
	if turn {
		m = n.Negated()
	}
	last := b[len(b)-1]
	for _, p := range b {
		if a, _ = s.split(a, edgePlane(last, p, m)); a == nil {
			return nil
		}
		last = p
	}
	return a
}

// apart reports whether an edge of a has all of b beyond it, so that the two
// share no area; n is the normal a runs round.
func apart(a, b []Vec, n Vec) bool {
	last := a[len(a)-1]
edges:
	for _, p := range a {
		h := edgePlane(last, p, n)
		last = p
		for _, q := range b {
			if h.Over(q) < -Same {
				continue edges
			}
		}
		return true
	}
	return false
}

// without appends to parts the convex parts of a that lie outside b, which runs
// the other way round: a round n, b round −n.
func (s *scraps) without(parts [][]Vec, a, b []Vec, n Vec) [][]Vec {
	last := b[len(b)-1]
	for _, p := range b {
		in, out := s.split(a, edgePlane(last, p, n.Negated()))
		if out != nil {
			parts = append(parts, out)
		}
		if in == nil {
			break
		}
		a, last = in, p
	}
	return parts
}

// areaVec returns the area of a loop as a vector along its normal.
func areaVec(loop []Vec) Vec {
	var sum Vec
	for i := 2; i < len(loop); i++ {
		sum = sum.Plus(loop[i-1].Minus(loop[0]).Cross(loop[i].Minus(loop[0])))
	}
	return sum.Times(0.5)
}
