package setout

import (
	"math"
	"slices"

	"scantling/internal/board"
	"scantling/internal/geom"
)

// A rectangle lies on the show face: where it ends toward Start and Finish (x)
// and toward Near and Far (y), by board.Side, mm in the board's frame.
type rectangle [4]float64

// along returns the length of the rectangle's side toward s.
func (r rectangle) along(s board.Side) float64 {
	if s.IsEnd() {
		return r[board.Far] - r[board.Near]
	}
	return r[board.Finish] - r[board.Start]
}

// wall returns the plane of the rectangle's side toward s, facing s.
func (r rectangle) wall(s board.Side) geom.Plane {
	if s&1 == 0 {
		return geom.Plane{N: s.Out(), D: -r[s]}
	}
	return geom.Plane{N: s.Out(), D: r[s]}
}

// walls returns the planes of the sides that are not open.
func (r rectangle) walls(open [4]bool) []geom.Plane {
	var out []geom.Plane
	for s, o := range open {
		if !o {
			out = append(out, r.wall(board.Side(s)))
		}
	}
	return out
}

// beyond returns the part of a convex outline that opening the rectangle toward
// s takes away.
func (r rectangle) beyond(s board.Side, outline []geom.Vec) []geom.Vec {
	a, b := board.Start, board.Finish
	if s.IsEnd() {
		a, b = board.Near, board.Far
	}
	return clipped(clipped(clipped(outline, r.wall(a)), r.wall(b)), r.wall(s).Flipped())
}

// strip returns the least width of wood between the rectangle and the outline
// toward s. A convex outline is nearest at a corner of the rectangle.
func (r rectangle) strip(s board.Side, outline []geom.Vec) float64 {
	a, b := geom.Vec{X: r[0], Y: r[2]}, geom.Vec{X: r[1], Y: r[3]}
	switch s {
	case board.Start:
		b.X = a.X
	case board.Finish:
		a.X = b.X
	case board.Near:
		b.Y = a.Y
	case board.Far:
		a.Y = b.Y
	}
	least := math.Inf(1)
	for i, p := range outline {
		q := outline[(i+1)%len(outline)]
		edge := geom.Facing(p, q.Minus(p).Cross(geom.Vec{Z: 1}))
		for _, corner := range []geom.Vec{a, b} {
			if t, ok := edge.Hit(corner, s.Out()); ok && edge.N.Dot(s.Out()) > 0 {
				least = math.Min(least, t)
			}
		}
	}
	return math.Max(0, least)
}

// silhouette returns the convex outline of a board seen square to its face, at
// z = 0, counter-clockwise (Andrew's monotone chain).
func silhouette(verts []geom.Vec) []geom.Vec {
	flat := make([]geom.Vec, len(verts))
	for i, v := range verts {
		flat[i] = geom.Vec{X: v.X, Y: v.Y}
	}
	slices.SortFunc(flat, func(a, b geom.Vec) int {
		switch {
		case a.X < b.X || a.X == b.X && a.Y < b.Y:
			return -1
		case a == b:
			return 0
		}
		return 1
	})
	var hull []geom.Vec
	for pass := 0; pass < 2; pass++ {
		base := len(hull)
		for _, p := range flat {
			for len(hull) >= base+2 && leftTurn(hull[len(hull)-2], hull[len(hull)-1], p) <= geom.Same {
				hull = hull[:len(hull)-1]
			}
			hull = append(hull, p)
		}
		hull = hull[:len(hull)-1]
		slices.Reverse(flat)
	}
	return hull
}

// leftTurn is twice the area of the triangle a, b, c: positive if it turns left.
func leftTurn(a, b, c geom.Vec) float64 { return b.Minus(a).Cross(c.Minus(a)).Z }

// clipped returns the part of a convex polygon inside a plane.
func clipped(poly []geom.Vec, p geom.Plane) []geom.Vec {
	var out []geom.Vec
	for i, a := range poly {
		b := poly[(i+1)%len(poly)]
		over, next := p.Over(a), p.Over(b)
		if over <= 0 {
			out = append(out, a)
		}
		if over < 0 && next > 0 || over > 0 && next < 0 {
			out = append(out, a.Along(b.Minus(a), over/(over-next)))
		}
	}
	return out
}

// area returns the area of a flat polygon.
func area(poly []geom.Vec) float64 {
	sum := 0.0
	for i := range poly {
		if i > 1 {
			sum += leftTurn(poly[0], poly[i-1], poly[i])
		}
	}
	return math.Abs(sum) / 2
}
