package setout

import (
	"math"
	"slices"

	"scantling/internal/geom"
)

// Outlines of fields, as flat polygons at z = 0: simple, convex or not, and
// counter-clockwise once LayField has turned them so.

// edgeOf returns the plane through an edge of a counter-clockwise polygon, facing
// out.
func edgeOf(a, b geom.Vec) geom.Plane { return geom.Facing(a, b.Minus(a).Cross(geom.Vec{Z: 1})) }

// signedArea is positive for a polygon that runs counter-clockwise.
func signedArea(poly []geom.Vec) float64 {
	sum := 0.0
	for i := 2; i < len(poly); i++ {
		sum += leftTurn(poly[0], poly[i-1], poly[i])
	}
	return sum / 2
}

func reversed(poly []geom.Vec) []geom.Vec {
	out := slices.Clone(poly)
	slices.Reverse(out)
	return out
}

// tidied returns a polygon without corners that lie on one another or where it
// does not turn.
func tidied(poly []geom.Vec) []geom.Vec {
	out := slices.Clone(poly)
	for i := 0; i < len(out) && len(out) > 2; {
		n := len(out)
		a, b, c := out[(i+n-1)%n], out[i], out[(i+1)%n]
		if math.Abs(leftTurn(a, b, c)) <= float64(geom.Same*(a.Distance(b)+b.Distance(c))) {
			out = slices.Delete(out, i, i+1)
			i = max(0, i-2)
			continue
		}
		i++
	}
	return out
}

// crossesItself returns a point where an outline meets itself.
func crossesItself(poly []geom.Vec) (geom.Vec, bool) {
	n := len(poly)
	for i := range poly {
		for j := i + 2; j < n; j++ {
			if i == 0 && j == n-1 {
				continue // neighbours
			}
			a, b, c, d := poly[i], poly[i+1], poly[j], poly[(j+1)%n]
			p, q := leftTurn(a, b, c), leftTurn(a, b, d)
			r, s := leftTurn(c, d, a), leftTurn(c, d, b)
			if (p > 0) != (q > 0) && (r > 0) != (s > 0) {
				return c.Along(d.Minus(c), p/(p-q)), true
			}
		}
	}
	return geom.Vec{}, false
}

// stripOf returns the pieces of a polygon within a strip, in order along x.
func stripOf(poly []geom.Vec, s Strip) [][]geom.Vec {
	var out [][]geom.Vec
	for _, low := range within(poly, geom.Plane{N: geom.Vec{Y: 1}, D: s.Hi}) {
		for _, part := range within(low, geom.Plane{N: geom.Vec{Y: -1}, D: -s.Lo}) {
			part = tidied(part)
			around := 0.0
			for i, p := range part {
				around += p.Distance(part[(i+1)%len(part)])
			}
			if len(part) > 2 && signedArea(part) > float64(geom.Touch*around)/2 {
				out = append(out, part)
			}
		}
	}
	slices.SortStableFunc(out, func(a, b []geom.Vec) int {
		switch x, y := least(a), least(b); {
		case x < y:
			return -1
		case x > y:
			return 1
		}
		return 0
	})
	return out
}

func least(poly []geom.Vec) float64 {
	x := math.Inf(1)
	for _, p := range poly {
		x = math.Min(x, p.X)
	}
	return x
}

// within returns the parts of a polygon inside a plane. Corners on the plane count
// as outside, so that what hangs together by a corner only falls apart.
//
// The corners inside make chains; each ends where the polygon goes out and begins
// where it comes in. Along the plane, going the way that has the inside on the
// left, ends and beginnings take turns: the first end joins the first beginning,
// the second the second, however many lie on one point.
func within(poly []geom.Vec, p geom.Plane) [][]geom.Vec {
	n := len(poly)
	in := func(i int) bool { return p.Over(poly[i%n]) < -geom.Same }
	crossing := func(i int) geom.Vec { // of the edge from corner i
		a, b := poly[i%n], poly[(i+1)%n]
		over, next := p.Over(a), p.Over(b)
		return a.Along(b.Minus(a), math.Min(1, math.Max(0, over/(over-next))))
	}
	var chains [][]geom.Vec
	some := false
	for i := range poly {
		some = some || in(i)
		if in(i) || !in(i+1) {
			continue
		}
		chain := []geom.Vec{crossing(i)}
		k := i + 1
		for ; in(k); k++ {
			chain = append(chain, poly[k%n])
		}
		chains = append(chains, append(chain, crossing(k-1)))
	}
	if len(chains) == 0 {
		if some {
			return [][]geom.Vec{poly}
		}
		return nil
	}
	along := geom.Vec{Z: 1}.Cross(p.N)
	begins, ends := make([]int, len(chains)), make([]int, len(chains))
	for i := range chains {
		begins[i], ends[i] = i, i
	}
	sortBy := func(of []int, at func(i int) geom.Vec) {
		slices.SortStableFunc(of, func(a, b int) int {
			switch d := along.Dot(at(a)) - along.Dot(at(b)); {
			case d < 0:
				return -1
			case d > 0:
				return 1
			}
			return 0
		})
	}
	sortBy(begins, func(i int) geom.Vec { return chains[i][0] })
	sortBy(ends, func(i int) geom.Vec { return chains[i][len(chains[i])-1] })
	next := make([]int, len(chains))
	for k, i := range ends {
		next[i] = begins[k]
	}
	var out [][]geom.Vec
	used := make([]bool, len(chains))
	for i := range chains {
		var part []geom.Vec
		for k := i; !used[k]; k = next[k] {
			used[k] = true
			part = append(part, chains[k]...)
		}
		if part != nil {
			out = append(out, part)
		}
	}
	return out
}

// hollows returns what a convex outline round a polygon holds and the polygon
// does not, as convex parts; sides that lie on the outline have no wall.
func hollows(poly, around []geom.Vec) []Hollow {
	n := len(poly)
	var out []Hollow
	for i, a := range poly {
		if !onRim(a, a, around) {
			continue
		}
		chain := []geom.Vec{a}
		for k := i + 1; len(chain) == 1 || !onRim(chain[0], chain[0], around); k++ {
			chain = append([]geom.Vec{poly[k%n]}, chain...) // the hollow lies on the other hand
		}
		b := chain[0]
		if len(chain) == 2 && onRim(a, b, around) {
			continue
		}
		pocket := tidied(append(chain, between(a, b, around)...))
		for _, part := range convexParts(pocket) {
			var h Hollow
			for j, c := range part {
				h.Corners = append(h.Corners, pocket[c])
				if to := pocket[part[(j+1)%len(part)]]; !onRim(pocket[c], to, around) {
					h.Walls = append(h.Walls, edgeOf(pocket[c], to))
				}
			}
			out = append(out, h)
		}
	}
	return out
}

// sideAt returns the plane of the k-th side of a polygon.
func sideAt(poly []geom.Vec, k int) geom.Plane {
	return edgeOf(poly[k%len(poly)], poly[(k+1)%len(poly)])
}

// onRim reports whether two points lie on one side of a convex outline.
func onRim(a, b geom.Vec, around []geom.Vec) bool {
	for k := range around {
		if h := sideAt(around, k); h.Over(a) >= -geom.Same && h.Over(b) >= -geom.Same {
			return true
		}
	}
	return false
}

// between returns the corners of a convex outline from one of its points on to
// another, counter-clockwise.
func between(a, b geom.Vec, around []geom.Vec) []geom.Vec {
	n := len(around)
	last := func(p geom.Vec) int { // the last side p lies on: of a corner, the one that starts there
		for k := range around {
			if sideAt(around, k).Over(p) >= -geom.Same && sideAt(around, k+1).Over(p) < -geom.Same {
				return k
			}
		}
		return 0
	}
	var out []geom.Vec
	for k, to := last(a), last(b); k != to; k = (k + 1) % n {
		if c := around[(k+1)%n]; c.Distance(b) > geom.Same {
			out = append(out, c)
		}
	}
	return out
}

// convexParts returns a polygon as convex parts, each as the numbers of its
// corners: itself, or triangles cut off it ear by ear.
func convexParts(poly []geom.Vec) [][]int {
	left := make([]int, len(poly))
	convex := true
	for i := range poly {
		left[i] = i
		convex = convex && leftTurn(poly[i], poly[(i+1)%len(poly)], poly[(i+2)%len(poly)]) >= 0
	}
	if convex {
		return [][]int{left}
	}
	var out [][]int
	for len(left) > 3 {
		ear := slices.IndexFunc(left, func(at int) bool { return isEar(poly, left, slices.Index(left, at)) })
		if ear < 0 {
			break // not simple: LayField has refused it
		}
		m := len(left)
		out = append(out, []int{left[(ear+m-1)%m], left[ear], left[(ear+1)%m]})
		left = slices.Delete(left, ear, ear+1)
	}
	return append(out, left)
}

// isEar reports whether the k-th of the corners left can be cut off: it turns left
// and no other corner lies in the triangle.
func isEar(poly []geom.Vec, left []int, k int) bool {
	m := len(left)
	a, b, c := poly[left[(k+m-1)%m]], poly[left[k]], poly[left[(k+1)%m]]
	if leftTurn(a, b, c) <= 0 {
		return false
	}
	for _, i := range left {
		p := poly[i]
		if p != a && p != b && p != c && leftTurn(a, b, p) >= 0 && leftTurn(b, c, p) >= 0 && leftTurn(c, a, p) >= 0 {
			return false
		}
	}
	return true
}
