package strength

import (
	"math"
	"slices"

	"scantling/internal/frame"
	"scantling/internal/geom"
	"scantling/internal/steady"
	"scantling/internal/timber"
)

// A section is what is left of a board's wood at one place along its grain, in
// the board's own frame: y across, z out of the show face. All mm.
type section struct {
	area         float64
	y, z         float64 // centre of area
	aboutY       float64 // ∫z² dA about the centre, mm⁴
	aboutZ       float64 // ∫y² dA
	wideY, wideZ float64 // how far it reaches either way
}

// cut returns the section of a solid at x; its area is 0 past the ends.
func cut(s *geom.Solid, x float64) section {
	var out section
	var firstY, firstZ, yy, zz float64
	lowY, highY, lowZ, highZ := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
	for i := range s.Cells {
		polygon := slice(&s.Cells[i], x)
		if len(polygon) < 3 {
			continue
		}
		for k, p := range polygon {
			q := polygon[(k+1)%len(polygon)]
			cross := float64(p[0]*q[1]) - float64(q[0]*p[1])
			out.area += float64(cross / 2)
			firstY += float64((p[0] + q[0]) * cross / 6)
			firstZ += float64((p[1] + q[1]) * cross / 6)
			yy += float64((float64(p[0]*p[0]) + float64(p[0]*q[0]) + float64(q[0]*q[0])) * cross / 12)
			zz += float64((float64(p[1]*p[1]) + float64(p[1]*q[1]) + float64(q[1]*q[1])) * cross / 12)
			lowY, highY = math.Min(lowY, p[0]), math.Max(highY, p[0])
			lowZ, highZ = math.Min(lowZ, p[1]), math.Max(highZ, p[1])
		}
	}
	if out.area <= geom.Touch {
		return section{}
	}
	out.y, out.z = firstY/out.area, firstZ/out.area
	out.aboutZ = yy - float64(out.area*out.y*out.y)
	out.aboutY = zz - float64(out.area*out.z*out.z)
	out.wideY, out.wideZ = highY-lowY, highZ-lowZ
	return out
}

// slice returns the convex polygon a plane x = constant cuts a cell in, as (y, z)
// counter-clockwise.
func slice(c *geom.Cell, x float64) [][2]float64 {
	var points [][2]float64
	for _, loop := range c.Loops {
		for k, i := range loop {
			a, b := c.Verts[i], c.Verts[loop[(k+1)%len(loop)]]
			if (a.X < x) == (b.X < x) {
				continue
			}
			t := (x - a.X) / (b.X - a.X)
			points = append(points, [2]float64{a.Y + float64(t*(b.Y-a.Y)), a.Z + float64(t*(b.Z-a.Z))})
		}
	}
	if len(points) < 3 {
		return nil
	}
	var y, z float64
	for _, p := range points {
		y, z = y+p[0], z+p[1]
	}
	y, z = y/float64(len(points)), z/float64(len(points))
	slices.SortFunc(points, func(a, b [2]float64) int {
		switch ta, tb := steady.Atan2(a[1]-z, a[0]-y), steady.Atan2(b[1]-z, b[0]-y); {
		case ta < tb:
			return -1
		case ta > tb:
			return 1
		}
		return 0
	})
	// Each corner was met by two facets.
	return slices.CompactFunc(points, func(a, b [2]float64) bool {
		return math.Abs(a[0]-b[0]) < geom.Same && math.Abs(a[1]-b[1]) < geom.Same
	})
}

// beam returns the section as a frame's, its web along y. Torsion and shear are
// those of the rectangle around it with its area.
func (s section) beam() frame.Section {
	f := frame.Rectangle(s.wideZ, s.wideY)
	share := s.area / (s.wideY * s.wideZ)
	f.Area, f.Inertia1, f.Inertia2 = s.area, s.aboutZ, s.aboutY
	f.Torsion, f.Shear1, f.Shear2 = f.Torsion*share, f.Shear1*share, f.Shear2*share
	return f
}

// timber returns the section for the design rules, as the rectangle around it
// with its least side shrunk to its area, and whether it is strong along y.
func (s section) timber() (t timber.Section, alongY bool) {
	if s.wideY >= s.wideZ {
		return timber.Section{Breadth: s.area / s.wideY, Depth: s.wideY}, true
	}
	return timber.Section{Breadth: s.area / s.wideZ, Depth: s.wideZ}, false
}
