package geom

import "math"

// Contacts returns where a and b touch within Touch: one Contact for each pair
// of faces that look at one another and share an area; if there is none, where
// their edges or corners touch. The order follows the faces of a, then of b.
func Contacts(a, b Placed) []Contact {
	rel := b.Pose.From(a.Pose)
	if !boxesMeet(a, b, rel, Touch) {
		return nil
	}
	var found []Contact
	meetFaces(a, b, rel, Touch, func(c Contact, low, high float64) {
		if low >= -Touch && high <= Touch {
			found = append(found, c.out(a.Pose))
		}
	})
	if found == nil {
		if c, ok := touchEdges(a, b, rel); ok {
			found = append(found, c.out(a.Pose))
		}
	}
	return found
}

// Near returns the narrowest place where faces of a and b look at one another
// from more than Touch and at most NearReach apart. ok is false if there is none,
// or if the boards touch or overlap somewhere.
func Near(a, b Placed) (g Gap, ok bool) {
	rel := b.Pose.From(a.Pose)
	if !boxesMeet(a, b, rel, NearReach) {
		return Gap{}, false
	}
	meetFaces(a, b, rel, NearReach, func(c Contact, low, high float64) {
		if low >= -Touch && high > Touch && high <= NearReach && (!ok || high < g.Apart) {
			c = c.out(a.Pose)
			g, ok = Gap{Apart: high, Middle: c.Middle, Toward: c.Plane.N, A: c.A, B: c.B}, true
		}
	})
	if !ok || len(Contacts(a, b)) > 0 {
		return Gap{}, false
	}
	if _, clash := Overlap(a, b); clash {
		return Gap{}, false
	}
	return g, true
}

// meetFaces calls each for every face of a and face of b that look at one another
// and share an area when seen square to a's face, with the least and greatest
// distance between them there. All is in a's frame, where rel places b. Faces
// more than reach apart throughout are left out.
func meetFaces(a, b Placed, rel Pose, reach float64, each func(c Contact, low, high float64)) {
	// Faces that open by more than 2.6° are never within NearReach over more
	// than 11 mm, less than the thinnest board is thick.
	const facing = -0.999
	var room scraps
	var line outline
	theirs := slabOf(b.Box, rel)
	for i := range a.Faces {
		f := &a.Faces[i]
		if theirs.over(f.Plane) > reach {
			continue
		}
		way := rel.InWay(f.Plane.N)
		for j := range b.Faces {
			g := &b.Faces[j]
			if g.Plane.N.Dot(way) > facing {
				continue
			}
			h := rel.OutPlane(g.Plane)
			if beyond(h, f.Loops[0], reach) {
				continue
			}
			if c, ok := sharedArea(f, g, rel, &room, &line); ok {
				low, high := math.Inf(1), math.Inf(-1)
				for _, loop := range c.Loops {
					for _, p := range loop {
						// From a's face along its normal to b's plane.
						d := -h.Over(p) / h.N.Dot(f.Plane.N)
						low, high = math.Min(low, d), math.Max(high, d)
					}
				}
				c.Apart = high
				each(c, low, high)
			}
		}
	}
}

// slab is a box with any pose: its middle and half its extent along each axis.
type slab struct{ middle, x, y, z Vec }

func slabOf(b Box, p Pose) slab {
	h := b.Size().Times(0.5)
	return slab{p.Out(b.Middle()), p.X.Times(h.X), p.Y.Times(h.Y), p.Z.Times(h.Z)}
}

// over returns how far the nearest of the slab lies outside h.
func (s *slab) over(h Plane) float64 {
	return h.Over(s.middle) - math.Abs(h.N.Dot(s.x)) - math.Abs(h.N.Dot(s.y)) - math.Abs(h.N.Dot(s.z))
}

// sharedArea returns the area of a's face f that b's face g covers, seen square to f.
func sharedArea(f, g *Face, rel Pose, room *scraps, line *outline) (Contact, bool) {
	c := Contact{Plane: f.Plane, A: f.Tag, B: g.Tag}
	room.reset()
	var moment Vec
	for _, theirs := range g.Pieces {
		q := room.polygon(len(theirs))
		for _, p := range theirs {
			q = append(q, f.Plane.Foot(rel.Out(p)))
		}
		for _, mine := range f.Pieces {
			both := room.shared(mine, q, f.Plane.N, true)
			if both == nil {
				continue
			}
			piece := append([]Vec(nil), both...)
			c.Pieces = append(c.Pieces, piece)
			area, middle := centroid(piece, f.Plane.N)
			c.Area += area
			moment = moment.Along(middle, area)
		}
	}
	if c.Area == 0 {
		return c, false
	}
	c.Middle = moment.Times(1 / c.Area)
	if len(c.Pieces) == 1 {
		c.Loops = c.Pieces
		return c, true
	}
	line.loops = nil
	for _, piece := range c.Pieces {
		line.take(piece)
	}
	line.stitch(f.Plane.N, room)
	c.Loops = line.loops
	return c, true
}

// centroid returns the area of a convex polygon round n and its centre.
func centroid(poly []Vec, n Vec) (area float64, middle Vec) {
	o := poly[0]
	var moment Vec
	for i := 2; i < len(poly); i++ {
		d, e := poly[i-1].Minus(o), poly[i].Minus(o)
		t := d.Cross(e).Dot(n)
		area += t
		moment = moment.Along(d.Plus(e), t)
	}
	if area == 0 {
		return 0, o
	}
	return area / 2, o.Along(moment, 1/(3*area))
}

// out carries a contact out of the frame p places.
func (c Contact) out(p Pose) Contact {
	shared := len(c.Pieces) == 1 // its one loop is its one piece
	c.Plane, c.Middle = p.OutPlane(c.Plane), p.Out(c.Middle)
	c.Loops = outLoops(p, c.Loops)
	if shared {
		c.Pieces = c.Loops
	} else {
		c.Pieces = outLoops(p, c.Pieces)
	}
	return c
}

func outLoops(p Pose, loops [][]Vec) [][]Vec {
	moved := make([][]Vec, len(loops))
	for i, loop := range loops {
		moved[i] = make([]Vec, len(loop))
		for j, v := range loop {
			moved[i][j] = p.Out(v)
		}
	}
	return moved
}
