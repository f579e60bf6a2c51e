package reach

import (
	"cmp"
	"math"
	"slices"

	"scantling/internal/geom"
)

// How many directions and pairs of directions are tried for one board or
// sub-assembly. Counted, never timed.
const (
	mostFirst  = 24 // first lines of two, looking from the place
	mostSecond = 32
)

// way returns how boards that are not there now come to their places among those
// that are: along one line, or along two. ties are directions they must keep to at
// the end: dowels.
//
// All is looked at from the place outward: what can leave along a line can come in
// against it.
func (s *Site) way(boards []int, up geom.Vec, ties []geom.Vec, two bool) Way {
	for _, i := range boards {
		for _, k := range s.clash[i] {
			if s.there[k] {
				return Way{Clear: CannotTell, By: []int{k}}
			}
		}
	}
	touches := s.touches(boards)
	tries := s.directions(boards, touches, up, ties)
	var by []int
	var firsts []first
	most := 0.0
	for _, u := range tries {
		far, k := s.free(boards, u)
		if k < 0 {
			return Way{Lines: []geom.Vec{against(u)}, Far: []float64{0}}
		}
		at := slices.Index(by, k)
		if at < 0 {
			at, by = len(by), append(by, k)
		}
		if far > most {
			most, by[0], by[at] = far, by[at], by[0]
		}
		if far > geom.NearReach && len(firsts) < mostFirst {
			firsts = append(firsts, first{u, far})
		}
	}
	for _, t := range touches { // where no direction is left to try, what touches is in the way
		if !slices.Contains(by, t.other) {
			by = append(by, t.other)
		}
	}
	if !two {
		return Way{Clear: No, By: by, Out: most}
	}
	seconds := tries
	if len(ties) > 0 {
		seconds = s.directions(boards, touches, up, nil)
	}
	seconds = append(axesOf(up), seconds...)
	for _, f := range firsts {
		for _, v := range seconds[:min(len(seconds), mostSecond)] {
			if v.Cross(f.u).Length() < 1e-6 {
				continue
			}
			var at float64
			var ok bool
			if at, ok, by = s.turn(boards, f.u, v, f.far, by); ok {
				return Way{Lines: []geom.Vec{against(v), against(f.u)}, Far: []float64{0, at}}
			}
		}
	}
	return Way{Clear: No, By: by, Out: most}
}

// A first is a direction in which boards can begin to leave, and how far.
type first struct {
	u   geom.Vec
	far float64
}

// against returns −u, without negative zeros.
func against(u geom.Vec) geom.Vec { return u.Negated().Plus(geom.Vec{}) }

// touches returns the contacts of the boards with what is there, one for each
// direction and other board.
func (s *Site) touches(boards []int) []touch {
	var out []touch
	for _, i := range boards {
		for _, t := range s.near[i] {
			if s.there[t.other] {
				out = append(out, t)
			}
		}
	}
	return out
}

// axesOf returns the six directions of the piece, up on the bench first and down
// last.
func axesOf(up geom.Vec) []geom.Vec {
	out := []geom.Vec{{Z: 1}, {Y: -1}, {X: -1}, {X: 1}, {Y: 1}, {Z: -1}}
	slices.SortStableFunc(out, func(a, b geom.Vec) int { return cmp.Compare(math.Round(b.Dot(up)), math.Round(a.Dot(up))) })
	return out
}

// directions returns the directions in which boards might leave their contacts, the
// likeliest first: square off the largest faces, rather up than down, rather out of
// the piece than across it, and of left and right alike rather to the front.
//
// The contacts leave a cone of directions. Its axis-parallel members, the normals
// themselves, the crosses of two, which are its edges, the boards' own directions,
// sums of two normals and a fan of plain directions are tried.
func (s *Site) directions(boards []int, touches []touch, up geom.Vec, ties []geom.Vec) []geom.Vec {
	var normals []geom.Vec
	var weights []float64
	total := 0.0
	for _, t := range touches {
		k := slices.IndexFunc(normals, func(n geom.Vec) bool { return n.Minus(t.n).Length() < 1e-6 })
		if k < 0 {
			k = len(normals)
			normals, weights = append(normals, t.n), append(weights, 0)
		}
		weights[k] += t.area
		total += t.area
	}
	type choice struct {
		u     geom.Vec
		score float64
	}
	var tries []choice
	outward := s.outward(boards)
	add := func(u geom.Vec, bonus float64) {
		length := u.Length()
		if length < 1e-6 {
			return
		}
		u = u.Times(1 / length)
		score := bonus + float64(0.1*u.Dot(up)) + float64(0.01*u.Dot(outward)) - float64(0.002*u.Y)
		for k, n := range normals {
			d := n.Dot(u)
			if d < -1e-6 {
				return // into a face it lies on
			}
			score += float64(weights[k] / math.Max(total, 1) * d)
		}
		for _, t := range ties {
			if t.Cross(u).Length() > 1e-6 {
				return
			}
		}
		for _, c := range tries {
			if c.u.Minus(u).Length() < 1e-6 {
				return
			}
		}
		if u.Dot(up) < -0.5 {
			score -= 0.3
		}
		tries = append(tries, choice{u, score})
	}
	both := func(u geom.Vec, bonus float64) {
		add(u, bonus)
		add(u.Negated(), bonus)
	}
	for _, u := range axesOf(up) {
		add(u, 0.05)
	}
	for i, n := range normals {
		add(n, 0.02)
		if i >= maxNormals {
			continue
		}
		for _, m := range normals[:min(i, maxNormals)] {
			both(n.Cross(m), 0)
			add(n.Plus(m), 0)
		}
	}
	for _, t := range ties {
		both(t, 0)
	}
	if len(boards) > 0 {
		p := s.boards[boards[0]].pose
		for _, u := range []geom.Vec{p.X, p.Y, p.Z} {
			both(u, 0)
		}
	}
	for _, u := range fan {
		both(u, -0.1)
	}
	slices.SortStableFunc(tries, func(a, b choice) int { return cmp.Compare(b.score, a.score) })
	out := make([]geom.Vec, len(tries))
	for i, c := range tries {
		out[i] = c.u
	}
	return out
}

// outward returns the direction in which boards lie from the middle of those that
// are there, its parts rounded to −1, 0 and 1.
func (s *Site) outward(boards []int) geom.Vec {
	if s.count() == 0 {
		return geom.Vec{}
	}
	own := geom.EmptyBox()
	for _, i := range boards {
		own = own.Union(s.boards[i].box)
	}
	d := own.Middle().Minus(s.groups[1].box.Middle())
	part := func(x float64) float64 {
		switch {
		case x > geom.Alike:
			return 1
		case x < -geom.Alike:
			return -1
		}
		return 0
	}
	return geom.Vec{X: part(d.X), Y: part(d.Y), Z: part(d.Z)}
}

// maxNormals is how many normals are crossed with one another.
const maxNormals = 12

// fan is directions between the axes, half of each pair of opposites.
var fan = fanned()

func fanned() []geom.Vec {
	var out []geom.Vec
	for x := -2; x <= 2; x++ {
		for y := -2; y <= 2; y++ {
			for z := -2; z <= 2; z++ {
				v := geom.Vec{X: float64(x), Y: float64(y), Z: float64(z)}
				if v != (geom.Vec{}) && len(with(out, v.Unit())) > len(out) {
					out = append(out, v.Unit())
				}
			}
		}
	}
	return out
}
