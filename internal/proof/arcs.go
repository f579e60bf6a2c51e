package proof

import (
	"fmt"
	"math"
	"strings"

	"scantling/internal/geom"
	"scantling/internal/steady"
)

// chords is how many flats an arc is sawn in.
const chords = 32

// round saws a corner or an end round with a compass.
func (s *sheet) round(bench *geom.Saw, c *Cut, tag geom.Tag) error {
	if len(c.Marks) == 0 {
		return fmt.Errorf("its radius is not printed")
	}
	radius, err := c.Marks[0].At.mm()
	if err != nil {
		return err
	}
	said := c.Words.String()
	if c.Kind == "round end" {
		name, _, _ := strings.Cut(strings.TrimPrefix(said, "Round the "), ":")
		end, err := s.side(name)
		if err != nil || len(c.Marks) < 2 {
			return fmt.Errorf("the page does not say which end or where the compass stands")
		}
		in, err := c.Marks[1].At.mm()
		if err != nil {
			return err
		}
		if len(c.Marks) > 2 { // where it meets the edges
			low, err := c.Marks[2].At.mm()
			half := float64(s.size.Y / 2)
			drop := radius - math.Sqrt(math.Max(0, float64(radius*radius)-float64(half*half)))
			if err != nil || abs(low-drop) > Allowed {
				return fmt.Errorf("it cannot meet the edges %s from the end", c.Marks[2].At.Shown)
			}
		}
		middle := s.onEnd(end, geom.Vec{Y: float64(s.size.Y / 2)}).Along(outOf(end), -in)
		reach := math.Min(1, s.size.Y/2/radius)
		s.disc(bench, middle, radius, outOf(end), geom.Vec{Y: 1}, -steady.Asin(reach), steady.Asin(reach), tag)
		return nil
	}
	ends, edges, ok := strings.Cut(strings.TrimPrefix(said, "Round the corner of the "), " and the ")
	edges, _, _ = strings.Cut(edges, ":")
	end, err1 := s.side(ends)
	edge, err2 := s.side(edges)
	if !ok || err1 != nil || err2 != nil || end > otherEnd {
		return fmt.Errorf("the page does not say which corner")
	}
	rim := geom.Vec{Y: float64(s.size.Y * float64(edge-nearEdge))}
	middle := s.onEnd(end, rim.Along(outOf(edge), -radius)).Along(outOf(end), -radius)
	s.disc(bench, middle, radius, outOf(end), outOf(edge), 0, math.Pi/2, tag)
	return nil
}

// disc keeps what lies inside an arc: from angle a to b, counted from one
// direction toward the other.
func (s *sheet) disc(bench *geom.Saw, middle geom.Vec, radius float64, one, other geom.Vec, a, b float64, tag geom.Tag) {
	for _, flat := range flats(middle, radius, one, other, a, b) {
		bench.Keep(flat, tag)
	}
}

// flats returns an arc as the flats it is sawn in.
func flats(middle geom.Vec, radius float64, one, other geom.Vec, a, b float64) []geom.Plane {
	var out []geom.Plane
	half := (b - a) / chords / 2
	for i := range chords {
		at := a + float64(float64(2*i+1)*half)
		n := one.Times(steady.Cos(at)).Along(other, steady.Sin(at))
		out = append(out, geom.Facing(middle.Along(n, radius), n))
	}
	return out
}

// arch saws an edge hollow through the three points marked on it.
func (s *sheet) arch(bench *geom.Saw, c *Cut, tag geom.Tag) error {
	var edge = -1
	var ends [2]float64
	var rise float64
	for _, m := range c.Marks {
		mm, err := m.At.mm()
		if err != nil {
			return err
		}
		if rest, ok := strings.CutPrefix(m.Label, "along the "); ok {
			rim, end, _ := strings.Cut(rest, " from the ")
			k, err1 := s.side(end)
			e, err2 := s.side(rim)
			if err1 != nil || err2 != nil || k > otherEnd || e < nearEdge || e > farEdge {
				return fmt.Errorf("its mark %q cannot be read", m.Label)
			}
			edge, ends[k] = e, mm
		} else if strings.HasSuffix(m.Label, ", halfway") {
			rise = mm
		}
	}
	if edge < 0 || rise <= 0 {
		return fmt.Errorf("its marks do not fix it")
	}
	out := outOf(edge)
	rim := geom.Vec{Y: float64(s.size.Y * float64(edge-nearEdge))}
	a := s.onEnd(firstEnd, rim)
	a.X += ends[0]
	b := s.onEnd(otherEnd, rim)
	b.X -= ends[1]
	half := (b.X - a.X) / 2
	radius := (float64(half*half) + float64(rise*rise)) / (2 * rise)
	centre := a.Plus(b).Times(0.5).Along(out, radius-rise)
	for i := range chords {
		var x, depth [2]float64
		for k := range x {
			u := float64(half * (float64(float64(i+k)*2/chords) - 1))
			x[k] = centre.X + u
			depth[k] = centre.Minus(rim).Dot(out) - math.Sqrt(math.Max(0, float64(radius*radius)-float64(u*u)))
		}
		p, q := rim, rim
		p.X, q.X = x[0], x[1]
		p, q = p.Along(out, depth[0]), q.Along(out, depth[1])
		n := q.Minus(p).Cross(geom.Vec{Z: 1})
		if n.Dot(out) > 0 {
			n = n.Negated()
		}
		if q.Distance(p) < geom.Same {
			continue
		}
		prism := []geom.Plane{geom.Facing(p, geom.Vec{X: -1}), geom.Facing(q, geom.Vec{X: 1}), geom.Facing(p, n),
			geom.Facing(rim.Along(out, past), out), geom.Facing(geom.Vec{Z: -past}, geom.Vec{Z: -1}), geom.Facing(geom.Vec{Z: s.size.Z + past}, geom.Vec{Z: 1})}
		tags := []geom.Tag{tag, tag, tag, tag, tag, tag}
		bench.Remove(prism, tags)
	}
	return nil
}

// slot drills its holes and saws out the wood between.
func (s *sheet) slot(bench *geom.Saw, c *Cut, tag geom.Tag) error {
	var bit, in float64
	side := -1
	var at []float64
	end := firstEnd
	for _, m := range c.Marks {
		mm, err := m.At.mm()
		if err != nil {
			return err
		}
		switch {
		case m.Label == "bit":
			bit = mm
		case strings.HasPrefix(m.Label, "centres in from the "):
			if side, err = s.side(strings.TrimPrefix(m.Label, "centres in from the ")); err != nil {
				return err
			}
			in = mm
		case strings.HasPrefix(m.Label, "centre from the "):
			if end, err = s.side(strings.TrimPrefix(m.Label, "centre from the ")); err != nil {
				return err
			}
			at = append(at, mm)
		default:
			return s.opening(bench, s.index(c), tag)
		}
	}
	if len(at) != 2 || side < nearEdge || side > farEdge || end > otherEnd {
		return fmt.Errorf("its marks do not fix it")
	}
	rim := geom.Vec{Y: float64(s.size.Y * float64(side-nearEdge)), Z: s.size.Z}.Along(outOf(side), -in)
	e := outOf(end)
	a, b := s.onEnd(end, rim).Along(e, -at[0]), s.onEnd(end, rim).Along(e, -at[1])
	out := outOf(side)
	prism := []geom.Plane{geom.Facing(a.Along(out, bit/2), out), geom.Facing(a.Along(out, -bit/2), out.Negated()),
		geom.Facing(geom.Vec{Z: -past}, geom.Vec{Z: -1}), geom.Facing(geom.Vec{Z: s.size.Z + past}, geom.Vec{Z: 1})}
	prism = append(prism, flats(a, bit/2, e, out, -math.Pi/2, math.Pi/2)...) // a drill leaves the ends round
	prism = append(prism, flats(b, bit/2, e.Negated(), out, -math.Pi/2, math.Pi/2)...)
	tags := make([]geom.Tag, len(prism))
	for i := range tags {
		tags[i] = tag
	}
	bench.Remove(prism, tags)
	return nil
}

func (s *sheet) index(c *Cut) int {
	for i := range s.part.Cuts {
		if &s.part.Cuts[i] == c {
			return i
		}
	}
	return -1
}
