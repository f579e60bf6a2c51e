package frame

import (
	"math"

	"scantling/internal/geom"
)

// axes are a beam's own directions: along it, along its web, across.
type axes [3]geom.Vec

// span returns the length and directions of a beam.
func (m *Model) span(b Beam) (length float64, a axes) {
	d := m.Nodes[b.To].At.Minus(m.Nodes[b.From].At)
	length = d.Length()
	a[0] = d.Unit()
	web := b.Web.Along(a[0], -b.Web.Dot(a[0]))
	if web.Length() < geom.Same {
		// A web along the axis says nothing: any direction square to it will do.
		web = geom.Vec{X: 1}
		if math.Abs(a[0].X) > 0.9 {
			web = geom.Vec{Y: 1}
		}
		web = web.Along(a[0], -web.Dot(a[0]))
	}
	a[1] = web.Unit()
	a[2] = a[0].Cross(a[1])
	return length, a
}

// bending holds the four numbers of a beam's stiffness in one plane.
//
//	Φ = 12EI/(GA·L²), k = EI/(1 + Φ): 12k/L³, 6k/L², (4 + Φ)k/L, (2 − Φ)k/L
type bending struct{ shift, tilt, near, far float64 }

func bends(e, g, inertia, shear, length float64) bending {
	phi := 0.0
	if shear > 0 {
		phi = 12 * e * inertia / (g * shear * length * length)
	}
	k := e * inertia / (1 + phi)
	return bending{12 * k / (length * length * length), 6 * k / (length * length), (4 + phi) * k / length, (2 - phi) * k / length}
}

// stiffness returns the 12×12 matrix of a beam in its own directions.
func (b Beam) stiffness(length float64) (k [12][12]float64) {
	pair := func(i, j int, v float64) { k[i][j], k[j][i] = v, v }
	stretch, twist := b.E*b.Area/length, b.G*b.Torsion/length
	for _, q := range [2]struct {
		at int
		v  float64
	}{{0, stretch}, {3, twist}} {
		pair(q.at, q.at, q.v)
		pair(q.at+6, q.at+6, q.v)
		pair(q.at, q.at+6, -q.v)
	}
	// In the plane of the web a turn about direction 2 (axis index 5) is positive
	// from along toward web; across it the other way round.
	for _, q := range [2]struct {
		shift, turn int
		sign        float64
		bending
	}{
		{1, 5, 1, bends(b.E, b.G, b.Inertia1, b.Shear1, length)},
		{2, 4, -1, bends(b.E, b.G, b.Inertia2, b.Shear2, length)},
	} {
		pair(q.shift, q.shift, q.bending.shift)
		pair(q.shift+6, q.shift+6, q.bending.shift)
		pair(q.shift, q.shift+6, -q.bending.shift)
		t := q.sign * q.tilt
		pair(q.shift, q.turn, t)
		pair(q.shift, q.turn+6, t)
		pair(q.shift+6, q.turn, -t)
		pair(q.shift+6, q.turn+6, -t)
		pair(q.turn, q.turn, q.near)
		pair(q.turn+6, q.turn+6, q.near)
		pair(q.turn, q.turn+6, q.far)
	}
	return k
}

// spread returns the forces an even load q (N/mm, in the beam's own directions)
// puts on its two nodes.
func spread(q geom.Vec, length float64) (f [12]float64) {
	half, turn := float64(length/2), float64(length*length/12)
	for i, v := range [3]float64{q.X, q.Y, q.Z} {
		f[i], f[i+6] = float64(v*half), float64(v*half)
	}
	f[5], f[11] = float64(q.Y*turn), -float64(q.Y*turn)
	f[4], f[10] = -float64(q.Z*turn), float64(q.Z*turn)
	return f
}

// in returns v in the directions of a.
func (a axes) in(v geom.Vec) geom.Vec {
	return geom.Vec{X: a[0].Dot(v), Y: a[1].Dot(v), Z: a[2].Dot(v)}
}

// out returns v, given in the directions of a, in those of the piece.
func (a axes) out(v geom.Vec) geom.Vec {
	return geom.Vec{}.Along(a[0], v.X).Along(a[1], v.Y).Along(a[2], v.Z)
}

// turned returns the 12 numbers of both ends from one set of directions in
// another, by turn for each vector.
func turned(x [12]float64, turn func(geom.Vec) geom.Vec) (y [12]float64) {
	for i := 0; i < 12; i += 3 {
		v := turn(geom.Vec{X: x[i], Y: x[i+1], Z: x[i+2]})
		y[i], y[i+1], y[i+2] = v.X, v.Y, v.Z
	}
	return y
}

// global returns the beam's stiffness in the directions of the piece as the
// blocks from–from, to–from and to–to.
func (m *Model) global(b Beam) (ff, tf, tt block) {
	length, a := m.span(b)
	k := b.stiffness(length)
	// Columns in the piece's directions, then rows.
	var half [12][12]float64
	for r := range 12 {
		half[r] = turned(k[r], a.out)
	}
	for c := range 12 {
		var column [12]float64
		for r := range 12 {
			column[r] = half[r][c]
		}
		column = turned(column, a.out)
		for r := range 12 {
			switch {
			case r < 6 && c < 6:
				ff[r*6+c] = column[r]
			case r >= 6 && c < 6:
				tf[(r-6)*6+c] = column[r]
			case r >= 6:
				tt[(r-6)*6+c-6] = column[r]
			}
		}
	}
	return ff, tf, tt
}
