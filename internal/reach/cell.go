package reach

import (
	"math"

	"scantling/internal/geom"
)

// A cell is a convex body in the piece with the directions that bound what it can
// do to another.
type cell struct {
	verts []geom.Vec
	faces []geom.Vec // unit normals; of opposite ones, one
	edges []geom.Vec // unit; of parallel ones, one
	box   geom.Box
}

// alike is how far, as a sine, two directions may differ and still be one: over the
// longest board, 10 m, that is a hundredth of geom.Touch.
const alike = 1e-8

// cellOf puts a cell of a board in the piece.
func cellOf(c *geom.Cell, pose geom.Pose) cell {
	out := cell{verts: make([]geom.Vec, len(c.Verts)), box: geom.EmptyBox()}
	for i, v := range c.Verts {
		out.verts[i] = pose.Out(v)
		out.box = out.box.With(out.verts[i])
	}
	for i, h := range c.Planes {
		out.faces = with(out.faces, pose.OutWay(h.N))
		loop := c.Loops[i]
		for k, v := range loop {
			w := loop[(k+1)%len(loop)]
			out.edges = with(out.edges, out.verts[w].Minus(out.verts[v]).Unit())
		}
	}
	return out
}

// prism returns the prism on a convex polygon, its corners in order, that rises
// high mm along the unit direction up.
func prism(base []geom.Vec, up geom.Vec, high float64) cell {
	out := cell{box: geom.EmptyBox(), verts: make([]geom.Vec, 0, 2*len(base)),
		faces: append(make([]geom.Vec, 0, 1+len(base)), up), edges: append(make([]geom.Vec, 0, 1+len(base)), up)}
	for i, v := range base {
		e := base[(i+1)%len(base)].Minus(v).Unit()
		if n := len(out.edges); len(with(out.edges, e)) > n {
			out.edges, out.faces = append(out.edges, e), append(out.faces, e.Cross(up))
		}
		for _, w := range []geom.Vec{v, v.Along(up, high)} {
			out.verts = append(out.verts, w)
			out.box = out.box.With(w)
		}
	}
	return out
}

// with adds a direction to a list unless it, or its opposite, is there.
func with(list []geom.Vec, d geom.Vec) []geom.Vec {
	if d == (geom.Vec{}) {
		return list
	}
	for _, x := range list {
		if x.Cross(d).Length() < alike {
			return list
		}
	}
	return append(list, d)
}

// extent returns how far the cell reaches along n, from the origin.
func (c *cell) extent(n geom.Vec) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, v := range c.verts {
		d := v.Dot(n)
		low, high = math.Min(low, d), math.Max(high, d)
	}
	return low, high
}

// apart calls try with the directions in which two convex bodies that share no wood
// stand apart, if they stand apart in any: the normals of their faces and the
// crosses of their edges. It stops when try returns false.
func apart(a, b *cell, try func(n geom.Vec) bool) {
	for _, n := range a.faces {
		if !try(n) {
			return
		}
	}
	for _, n := range b.faces {
		if !try(n) {
			return
		}
	}
	for _, e := range a.edges {
		for _, f := range b.edges {
			if n := e.Cross(f); n.Length() > alike && !try(n.Unit()) {
				return
			}
		}
	}
}

// overlaps reports whether two bodies share wood deeper than slack mm.
func overlaps(a, b *cell, slack float64) bool {
	yes := a.box.Meets(b.box, -slack)
	if yes {
		apart(a, b, func(n geom.Vec) bool {
			lowA, highA := a.extent(n)
			lowB, highB := b.extent(n)
			yes = lowA < highB-slack && lowB < highA-slack
			return yes
		})
	}
	return yes
}
