package board

import (
	"slices"

	"scantling/internal/geom"
)

// Moved returns a copy of b carried by a proper pose of the whole piece; it
// shares b's solids and cuts. ID, Spoken and Sides are the caller's to change.
func (b *Board) Moved(by geom.Pose) *Board {
	c := *b
	c.Pose = by.Of(b.Pose)
	return &c
}

// Mirrored returns b's mirror image in a plane of the piece: cuts, holes and
// solids mirrored across the width (y becomes W − y), the show face and the run
// where the mirror shows them, the pose proper. Near and Far change places in
// Rip and everywhere else, and in Sides; the words in Sides are still those of b,
// for the caller to change with ID and Spoken.
func (b *Board) Mirrored(about geom.Plane) *Board {
	c := *b
	w := b.W.MM()
	c.Rip = b.Rip.mirrored()
	c.Sides[Near], c.Sides[Far] = b.Sides[Far], b.Sides[Near]
	c.Cuts = slices.Clone(b.Cuts)
	for i := range c.Cuts {
		c.Cuts[i] = c.Cuts[i].mirrored(w)
	}
	c.Holes = slices.Clone(b.Holes)
	for i, h := range c.Holes {
		h.At, h.Way = geom.Vec{X: h.At.X, Y: w - h.At.Y, Z: h.At.Z}, geom.Vec{X: h.Way.X, Y: -h.Way.Y, Z: h.Way.Z}
		c.Holes[i] = h
	}
	c.Edges = slices.Clone(b.Edges)
	for i, e := range c.Edges {
		e.Along = slices.Clone(e.Along)
		for k, a := range e.Along {
			e.Along[k] = NewArris(a[0].mirrored(), a[1].mirrored())
		}
		c.Edges[i] = e
	}
	image := func(v geom.Vec) geom.Vec { return v.Along(about.N, -2*about.N.Dot(v)) }
	c.Pose = geom.Pose{X: image(b.Pose.X), Y: image(b.Pose.Y).Negated(), Z: image(b.Pose.Z)}
	corner := b.Pose.Out(geom.Vec{Y: w}) // the image's corner at the origin
	c.Pose.At = corner.Along(about.N, -2*about.Over(corner))
	c.Build()
	return &c
}

// NewArris returns the arris where two sides meet.
func NewArris(a, b Side) Arris { return Arris{min(a, b), max(a, b)} }

func (s Side) mirrored() Side {
	if s.IsEdge() {
		return s.Opposite()
	}
	return s
}

func (c Cut) mirrored(w float64) Cut {
	c.Side = c.Side.mirrored()
	c.Plane = mirrored(c.Plane, w)
	c.Low.Y, c.High.Y = w-c.High.Y, w-c.Low.Y
	c.Waste = slices.Clone(c.Waste)
	for i, p := range c.Waste {
		c.Waste[i] = mirrored(p, w)
	}
	c.Arcs = slices.Clone(c.Arcs)
	for i, a := range c.Arcs {
		c.Arcs[i] = a.mirrored(w)
	}
	c.Open = slices.Clone(c.Open)
	for i, s := range c.Open {
		c.Open[i] = s.mirrored()
	}
	slices.Sort(c.Open)
	return c
}

// mirrored returns the plane's image under y → w − y.
func mirrored(p geom.Plane, w float64) geom.Plane {
	return geom.Plane{N: geom.Vec{X: p.N.X, Y: -p.N.Y, Z: p.N.Z}, D: p.D - float64(p.N.Y*w)}
}

// Trim cuts the board square at x = low and x = high (0 and L leave an end as it
// is; what was sawn there goes with it) and carries cuts, holes and pose along. Short and EdgeLength are the
// caller's to measure again, and Build to be called.
func (b *Board) Trim(low, high float64) {
	for _, end := range []struct {
		side Side
		at   float64
		new  bool
	}{{Start, -low, low > 0}, {Finish, high, high < b.L}} {
		if !end.new {
			continue
		}
		i := slices.IndexFunc(b.Cuts, func(c Cut) bool { return c.Kind == EndCut && c.Side == end.side })
		b.Cuts = slices.DeleteFunc(slices.Clone(b.Cuts), func(c Cut) bool {
			return (c.Kind == EndCut || c.Kind == Snip || c.Kind.IsRound()) && c.Side == end.side
		})
		square := Cut{Kind: EndCut, Side: end.side, Square: true, Plane: geom.Plane{N: end.side.Out(), D: end.at}}
		b.Cuts = slices.Insert(b.Cuts, max(i, 0), square)
	}
	b.L = high - low
	b.Pose = b.Pose.Moved(b.Pose.X.Times(low))
	if low == 0 {
		return
	}
	b.Cuts, b.Holes = slices.Clone(b.Cuts), slices.Clone(b.Holes)
	for i, c := range b.Cuts {
		c.Plane.D -= float64(c.Plane.N.X * low)
		c.Low.X, c.High.X = c.Low.X-low, c.High.X-low
		c.Waste = slices.Clone(c.Waste)
		for k := range c.Waste {
			c.Waste[k].D -= float64(c.Waste[k].N.X * low)
		}
		c.Arcs = slices.Clone(c.Arcs)
		for k := range c.Arcs {
			c.Arcs[k].Centre.X -= low
		}
		b.Cuts[i] = c
	}
	for i := range b.Holes {
		b.Holes[i].At.X -= low
	}
}
