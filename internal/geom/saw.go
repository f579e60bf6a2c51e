package geom

import "slices"

// Saw cuts solids. Blank puts a box on it, Keep and Remove cut it in the order
// they are called, Solid lifts off what is left. One Saw makes any number of
// solids, one after another, and reuses its room; it is not for two goroutines.
//
// The wood on a Saw is a list of convex bodies over one list of corners. A cut
// along a plane splits the bodies it crosses; taking out a prism splits off what
// lies outside each of its planes in turn and drops the rest. Planes are known
// by number, so that "in the same plane" is never asked of floating point twice:
// two planes are one if they stay within Same of one another over the blank.
type Saw struct {
	size   Vec
	planes []Plane
	verts  []Vec
	index  []int32 // the facets' loops, end to end
	facets []facet // the bodies' facets, end to end
	bodies []body

	over    []float64 // of the plane at hand, by vertex
	asked   []int32   // the cut for which over holds, by vertex
	cut     int32
	crossed []crossing
	rim     [][2]int32 // edges of the cap, from corner to corner
	caps    []facet
	outside []body
	work    scraps
	faces   faceRoom
	outline outline
}

// facet is one side of a body. With flip set its outward normal is the reverse
// of its plane's.
type facet struct {
	plane    int32
	tag      Tag
	from, to int32 // of Saw.index
	flip     bool
	seam     bool // made by splitting against wood that stayed, so far as known
}

// body is a run of facets.
type body struct{ from, to int32 }

// crossing is a corner made where the plane at hand crosses the edge u–v, u < v.
type crossing struct{ u, v, at int32 }

// Blank starts a new solid: the box from the origin to (length, width, thick),
// in mm, whose sides are tagged XLow to ZHigh.
func (s *Saw) Blank(length, width, thick float64) {
	s.size = Vec{length, width, thick}
	s.planes = append(s.planes[:0],
		Plane{Vec{-1, 0, 0}, 0}, Plane{Vec{1, 0, 0}, length},
		Plane{Vec{0, -1, 0}, 0}, Plane{Vec{0, 1, 0}, width},
		Plane{Vec{0, 0, -1}, 0}, Plane{Vec{0, 0, 1}, thick})
	s.verts = s.verts[:0]
	for i := range 8 { // corner i: bits x, y, z
		s.verts = append(s.verts, Vec{float64(i&1) * length, float64(i>>1&1) * width, float64(i>>2) * thick})
	}
	s.index = append(s.index[:0],
		0, 4, 6, 2, 1, 3, 7, 5,
		0, 1, 5, 4, 2, 6, 7, 3,
		0, 2, 3, 1, 4, 5, 7, 6)
	s.facets = s.facets[:0]
	for i := range int32(6) {
		s.facets = append(s.facets, facet{plane: i, tag: Tag(i), from: 4 * i, to: 4*i + 4})
	}
	s.bodies = append(s.bodies[:0], body{0, 6})
	s.over, s.asked, s.cut = s.over[:0], s.asked[:0], 0
	s.work.reset()
}

// Keep cuts along a plane and keeps the wood inside it. The new face has tag t.
func (s *Saw) Keep(h Plane, t Tag) {
	cap := s.cap(h, t)
	s.retag(cap)
	kept := s.bodies[:0]
	for _, b := range s.bodies {
		if in, _ := s.split(b, h, cap, false); in.to > in.from {
			kept = append(kept, in)
		}
	}
	s.bodies = kept
}

// Remove takes out the wood inside all the planes of a convex prism. The face
// left by prism[i] has tag tags[i].
func (s *Saw) Remove(prism []Plane, tags []Tag) {
	s.caps = s.caps[:0]
	for i, h := range prism {
		cap := s.cap(h, tags[i])
		s.caps = append(s.caps, cap)
		cap.flip = !cap.flip // the wood that stays is outside
		s.retag(cap)
	}
	for k := range len(s.bodies) {
		left := s.bodies[k]
		s.outside = s.outside[:0]
		for i, h := range prism {
			var out body
			left, out = s.split(left, h, s.caps[i], true)
			if out.to > out.from {
				s.outside = append(s.outside, out)
			}
			if left.to == left.from {
				break
			}
		}
		if left.to > left.from { // else the prism misses this body, which stays whole
			s.bodies[k] = body{}
			s.bodies = append(s.bodies, s.outside...)
		}
	}
	s.bodies = slices.DeleteFunc(s.bodies, func(b body) bool { return b.to == b.from })
}

// cap returns a facet on plane h, facing as h does, as yet without corners.
func (s *Saw) cap(h Plane, t Tag) facet {
	p, flip := s.number(h)
	return facet{plane: p, flip: flip, tag: t}
}

// number returns the number of plane h and whether h faces the other way than
// the plane kept under it.
func (s *Saw) number(h Plane) (p int32, flip bool) {
	for i, known := range s.planes {
		turn := h.N.Dot(known.N)
		if turn > -0.999 && turn < 0.999 {
			continue
		}
		k := h
		if turn < 0 {
			k = h.Flipped()
		}
		if samePlane(k, known, s.size) {
			return int32(i), turn < 0
		}
	}
	s.planes = append(s.planes, h)
	return int32(len(s.planes) - 1), false
}

// samePlane reports whether two planes stay within Same of one another over the
// box from the origin to size.
func samePlane(a, b Plane, size Vec) bool {
	n, d := a.N.Minus(b.N), a.D-b.D
	low, high := -d, -d // bounds of n·p − d over the box, axis by axis
	for _, v := range [3]float64{float64(n.X * size.X), float64(n.Y * size.Y), float64(n.Z * size.Z)} {
		if v < 0 {
			low += v
		} else {
			high += v
		}
	}
	return low >= -Same && high <= Same
}

// retag gives seams in the plane of a cap, and facing as it does, the cap's tag:
// where the wood beyond such a seam goes, it is this cut that bares it.
func (s *Saw) retag(cap facet) {
	for _, b := range s.bodies {
		for i := b.from; i < b.to; i++ {
			if f := &s.facets[i]; f.seam && f.plane == cap.plane && f.flip == cap.flip {
				f.tag = cap.tag
			}
		}
	}
}

// split cuts body b along h and returns what lies inside and, if both is set,
// what lies outside it; either may be empty. A body h does not cross comes back
// as it is. The new facets are made after cap.
func (s *Saw) split(b body, h Plane, cap facet, both bool) (in, out body) {
	s.cut++
	low, high := s.measure(b, h)
	switch {
	case high <= Same && low >= -Same: // no thicker than a plane: nothing
		return body{}, body{}
	case high <= Same:
		return b, body{}
	case low >= -Same:
		return body{}, b
	}
	s.crossed = s.crossed[:0]
	cap.seam = both
	in = s.side(b, cap, 1)
	if both {
		cap.flip, cap.seam = !cap.flip, false
		out = s.side(b, cap, -1)
	}
	return in, out
}

// measure sets Saw.over for the corners of b and returns its bounds.
func (s *Saw) measure(b body, h Plane) (low, high float64) {
	for len(s.over) < len(s.verts) {
		s.over, s.asked = append(s.over, 0), append(s.asked, 0)
	}
	first := true
	for _, f := range s.facets[b.from:b.to] {
		for _, v := range s.index[f.from:f.to] {
			if s.asked[v] == s.cut {
				continue
			}
			s.asked[v] = s.cut
			d := h.Over(s.verts[v])
			s.over[v] = d
			if first || d < low {
				low = d
			}
			if first || d > high {
				high = d
			}
			first = false
		}
	}
	return low, high
}

// side makes the part of b inside the plane at hand, or outside it if sign is −1:
// the facets wholly there, the parts of those the plane crosses, and the cap.
//
// An edge there that only one facet runs along lies in the plane, for every other
// has a corner strictly inside, and both its facets then come along. Such edges
// are the rim, and make one loop; where facets a few Same across bend round the
// plane they may make several, each capped.
func (s *Saw) side(b body, cap facet, sign float64) (made body) {
	made.from = int32(len(s.facets))
	s.rim = s.rim[:0]
	for i := b.from; i < b.to; i++ {
		f := s.facets[i]
		in, out := false, false
		for _, v := range s.index[f.from:f.to] {
			d := sign * s.over[v]
			in = in || d < -Same
			out = out || d > Same
		}
		if !in {
			continue // wholly beyond, or lying in the plane, where the cap comes
		}
		if out {
			from := int32(len(s.index))
			s.trim(f, sign)
			f.from, f.to = from, int32(len(s.index))
		}
		s.facets = append(s.facets, f)
		// The cap runs back along every edge that lies in the plane.
		last := s.index[f.to-1]
		for _, v := range s.index[f.from:f.to] {
			if s.flush(last) && s.flush(v) {
				s.addRim(v, last)
			}
			last = v
		}
	}
	for len(s.rim) > 0 {
		cap.from = int32(len(s.index))
		s.chainRim()
		cap.to = int32(len(s.index))
		s.facets = append(s.facets, cap)
	}
	made.to = int32(len(s.facets))
	return made
}

func (s *Saw) flush(v int32) bool {
	return int(v) >= len(s.over) || (s.over[v] <= Same && s.over[v] >= -Same)
}

// addRim adds an edge to the rim, or takes it off if it is there the other way
// round: then two facets run along it.
func (s *Saw) addRim(from, to int32) {
	for i, e := range s.rim {
		if e[0] == to && e[1] == from {
			s.rim = append(s.rim[:i], s.rim[i+1:]...)
			return
		}
	}
	s.rim = append(s.rim, [2]int32{from, to})
}

// trim appends to Saw.index the part of facet f where sign·over is not positive.
func (s *Saw) trim(f facet, sign float64) {
	last := s.index[f.to-1]
	for i := f.from; i < f.to; i++ {
		v := s.index[i]
		d, e := sign*s.over[last], sign*s.over[v]
		if d < -Same && e > Same || d > Same && e < -Same {
			s.index = append(s.index, s.crossAt(last, v))
		}
		if e <= Same {
			s.index = append(s.index, v)
		}
		last = v
	}
}

// crossAt returns the corner where the plane at hand crosses the edge u–v, the
// same one for both facets at the edge and both sides of the cut.
func (s *Saw) crossAt(u, v int32) int32 {
	if u > v {
		u, v = v, u
	}
	for _, c := range s.crossed {
		if c.u == u && c.v == v {
			return c.at
		}
	}
	d, e := s.over[u], s.over[v]
	a, b := s.verts[u], s.verts[v]
	at := int32(len(s.verts))
	s.verts = append(s.verts, a.Along(b.Minus(a), d/(d-e)))
	s.crossed = append(s.crossed, crossing{u, v, at})
	return at
}

// chainRim takes one loop that visits no corner twice out of the rim and appends
// it to Saw.index. As many edges of the rim leave a corner as reach it, so a walk
// along them never ends but where it has been before.
func (s *Saw) chainRim() {
	for n := 0; ; n++ { // rim[:n] is the walk so far
		if n > 0 {
			next := n
			for s.rim[next][0] != s.rim[n-1][1] {
				next++
			}
			s.rim[n], s.rim[next] = s.rim[next], s.rim[n]
		}
		for first, e := range s.rim[:n+1] {
			if e[0] == s.rim[n][1] {
				for _, e := range s.rim[first : n+1] {
					s.index = append(s.index, e[0])
				}
				s.rim = slices.Delete(s.rim, first, n+1)
				return
			}
		}
	}
}

// BoxPlanes returns the six planes of the box with one corner at a pose's origin
// that runs size along the pose's axes, in the order XLow … ZHigh.
func BoxPlanes(p Pose, size Vec) []Plane {
	far := p.Out(size)
	return []Plane{
		Facing(p.At, p.X.Negated()), Facing(far, p.X),
		Facing(p.At, p.Y.Negated()), Facing(far, p.Y),
		Facing(p.At, p.Z.Negated()), Facing(far, p.Z),
	}
}
