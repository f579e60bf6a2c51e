package reach

import (
	"math"
	"slices"

	"scantling/internal/geom"
)

// sweep returns between which distances, moved along the unit direction u, body a
// shares wood with b deeper than slack mm; ok is false if it never does.
//
// Along a direction n the two reach over one another by so much; moved by t, a's
// reach shifts by t (n·u). Each n for which both reaches must overlap bounds t by
// two lines, and between the innermost of them, and only there, the bodies share
// wood (the theorem of separating axes for convex polytopes).
func sweep(a, b *cell, u geom.Vec, slack float64) (from, to float64, ok bool) {
	from, to = math.Inf(-1), math.Inf(1)
	apart(a, b, func(n geom.Vec) bool {
		lowA, highA := a.extent(n)
		lowB, highB := b.extent(n)
		least, most := lowB+slack-highA, highB-slack-lowA // a's shift along n lies between
		if step := n.Dot(u); math.Abs(step) < 1e-12 {
			if least >= 0 || most <= 0 {
				to = from
			}
		} else if step > 0 {
			from, to = math.Max(from, least/step), math.Min(to, most/step)
		} else {
			from, to = math.Max(from, most/step), math.Min(to, least/step)
		}
		return from < to
	})
	return from, to, from < to
}

// shadow returns between which distances s along u body a is such that, moved on
// along v from there, it runs into b; ok is false if it nowhere does. It is sweep
// with two distances: each direction bounds s and t by two lines, and what all of
// them leave of the plane, where t is not negative, is a convex polygon.
func shadow(a, b *cell, u, v geom.Vec, far, slack float64) (from, to float64, ok bool) {
	poly := append(make([][2]float64, 0, 16), [2]float64{0, 0}, [2]float64{far, 0}, [2]float64{far, Endless}, [2]float64{0, Endless})
	var room [][2]float64
	apart(a, b, func(n geom.Vec) bool {
		lowA, highA := a.extent(n)
		lowB, highB := b.extent(n)
		nu, nv := n.Dot(u), n.Dot(v)
		room = clip(room[:0], poly, nu, nv, highB-slack-lowA)
		poly, room = room, poly
		room = clip(room[:0], poly, -nu, -nv, highA-lowB-slack)
		poly, room = room, poly
		return len(poly) > 0
	})
	from, to = math.Inf(1), math.Inf(-1)
	for _, p := range poly {
		from, to = math.Min(from, p[0]), math.Max(to, p[0])
	}
	return from, to, len(poly) > 0
}

// clip appends to out the part of a convex polygon where a·s + b·t < c, nothing
// where that holds nowhere.
func clip(out, poly [][2]float64, a, b, c float64) [][2]float64 {
	over := func(p [2]float64) float64 { return float64(a*p[0]) + float64(b*p[1]) - c }
	some := false
	for i, p := range poly {
		q := poly[(i+1)%len(poly)]
		x, y := over(p), over(q)
		if x <= 0 {
			out = append(out, p)
		}
		some = some || x < 0
		if x < 0 && y > 0 || x > 0 && y < 0 {
			f := x / (x - y)
			out = append(out, [2]float64{p[0] + float64(f*(q[0]-p[0])), p[1] + float64(f*(q[1]-p[1]))})
		}
	}
	if !some {
		return out[:0]
	}
	return out
}

// free returns how far the boards can go along u before they run into what is
// there, at most Endless, and the first board they would run into, -1 if none.
func (s *Site) free(boards []int, u geom.Vec) (far float64, by int) {
	far, by = Endless, -1
	for _, i := range boards {
		s.reached(s.boards[i].box, u, func(k int) bool {
			for a := range s.boards[i].cells {
				for b := range s.boards[k].cells {
					p, q := &s.boards[i].cells[a], &s.boards[k].cells[b]
					if !hits(p.box, q.box, u) {
						continue
					}
					if from, to, ok := sweep(p, q, u, geom.Touch); ok && to > 0 && math.Max(from, 0) < far {
						far, by = math.Max(from, 0), k
					}
				}
			}
			return far > 0
		})
	}
	return far, by
}

// turn returns the shortest distance, not over far, that the boards can go along u
// so that they are free to leave along v; ok is false if there is none. It adds the
// boards in the way to by.
func (s *Site) turn(boards []int, u, v geom.Vec, far float64, by []int) (at float64, ok bool, all []int) {
	var shut [][2]float64
	for _, i := range boards {
		box := s.boards[i].box
		s.reached(geom.Box{Low: box.Low.Min(box.Low.Along(u, far)), High: box.High.Max(box.High.Along(u, far))}, v, func(k int) bool {
			for a := range s.boards[i].cells {
				for b := range s.boards[k].cells {
					if from, to, hit := shadow(&s.boards[i].cells[a], &s.boards[k].cells[b], u, v, far+1, geom.Touch); hit {
						shut = append(shut, [2]float64{from, to})
						if !slices.Contains(by, k) {
							by = append(by, k)
						}
					}
				}
			}
			return true
		})
	}
	// The least s that lies in the inside of no interval.
	for moved := true; moved; {
		moved = false
		for _, x := range shut {
			if x[0] <= at && at < x[1] && (x[0] < at || x[0] == 0) {
				at, moved = x[1], true
			}
		}
	}
	return at, at <= far, by
}
