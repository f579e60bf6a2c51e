package geom

// Convex lends room for work on convex polygons in one plane, counter-clockwise
// round its normal. Use one for many polygons; it is not for two goroutines.
// What it returns stays valid.
type Convex struct {
	room scraps
	line outline
}

// Inside returns the part of a polygon inside h, nil if there is none as wide as
// Same.
func (c *Convex) Inside(poly []Vec, h Plane) []Vec {
	in, _ := c.room.split(poly, h)
	return in
}

// Without appends to parts the convex parts of a outside b; n is the normal both
// run round. A polygon that b does not reach into is appended as it is.
func (c *Convex) Without(parts [][]Vec, a, b []Vec, n Vec) [][]Vec {
	if apart(a, b, n) || apart(b, a, n) {
		return append(parts, a)
	}
	back := c.room.polygon(len(b))
	for i := len(b) - 1; i >= 0; i-- {
		back = append(back, b[i])
	}
	return c.room.without(parts, a, back, n)
}

// Outline returns the loops round convex polygons that lie side by side: outer
// ones counter-clockwise round n, inner ones clockwise, no corner but where they
// turn.
func (c *Convex) Outline(parts [][]Vec, n Vec) [][]Vec {
	if len(parts) == 1 {
		return parts
	}
	c.line.loops = nil
	for _, p := range parts {
		c.line.take(p)
	}
	c.line.stitch(n, &c.room)
	return c.line.loops
}
