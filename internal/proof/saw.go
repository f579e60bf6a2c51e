package proof

import (
	"fmt"
	"math"
	"strings"

	"scantling/internal/geom"
)

// A sheet is a part sawn again from its sheet. Its frame is that of a board on the
// bench: one corner of the blank at the origin, the length along x from the first
// end, the width along y from the near edge, the thickness along z up to the show
// face.
type sheet struct {
	part  *Part
	size  geom.Vec      // of the blank, mm
	sides [6]geom.Plane // as the cuts leave them: an angled end is the plane sawn
	angle [2]bool       // the end is sawn at an angle
	taper []taper
	point []half // the cuts of ends that are sawn to a point
	walls []wall
	solid *geom.Solid
	holes []bore
	names [6]string // what the sheet calls its sides
	short float64   // mm, short point to short point
}

// A taper is an edge sawn off; a wall is a face inside a notch.
type taper struct {
	side  int
	plane geom.Plane
}

type wall struct {
	kind  string // "notch", "half lap", "housing"
	cut   int
	plane geom.Plane // its outside is the air of the notch
	at    geom.Vec   // a point of it
}

// A bore is a hole: its line, from the face it is drilled in.
type bore struct {
	at, way geom.Vec
	radius  float64
	deep    float64 // 0: through
	joint   string
}

// the six sides of a blank
const (
	firstEnd = iota
	otherEnd
	nearEdge
	farEdge
	underFace
	showFace
)

func outOf(side int) geom.Vec {
	return [...]geom.Vec{{X: -1}, {X: 1}, {Y: -1}, {Y: 1}, {Z: -1}, {Z: 1}}[side]
}

// side returns the side of a sheet the words name.
func (s *sheet) side(words string) (int, error) {
	for i, w := range s.names {
		if w == words {
			return i, nil
		}
	}
	return 0, fmt.Errorf("its sheet has no %q", words)
}

// saw saws a part one way.
func saw(p *Part, way Way) (*sheet, error) {
	s := &sheet{part: p}
	for _, f := range []struct {
		to   *float64
		from Figure
	}{{&s.size.X, p.Long}, {&s.size.Y, p.Wide}, {&s.size.Z, p.Thick}} {
		mm, err := f.from.mm()
		if err != nil {
			return nil, err
		}
		*f.to = mm
	}
	if s.size.X <= 0 || s.size.Y <= 0 || s.size.Z <= 0 {
		return nil, fmt.Errorf("it has no size")
	}
	if err := s.orient(); err != nil {
		return nil, err
	}
	for i := range s.sides {
		s.sides[i] = geom.Facing(geom.Vec{}, outOf(i))
		if i%2 == 1 {
			s.sides[i] = geom.Facing(s.size, outOf(i))
		}
	}
	if err := s.ends(way); err != nil {
		return nil, err
	}
	var bench geom.Saw
	blank := s.size
	bench.Blank(blank.X, blank.Y, blank.Z)
	for end := firstEnd; end <= otherEnd; end++ {
		if s.angle[end] {
			bench.Keep(s.sides[end], geom.FirstCut+geom.Tag(end))
		}
	}
	tag := geom.FirstCut + 2
	for _, h := range s.point {
		if h.second {
			bench.Keep(h.plane, tag)
			tag++
		}
	}
	for i := range p.Cuts {
		if err := s.cut(&bench, i, tag); err != nil {
			return nil, fmt.Errorf("the %s: %w", p.Cuts[i].Kind, err)
		}
		tag++
	}
	s.solid = bench.Solid()
	if len(s.solid.Cells) == 0 {
		return nil, fmt.Errorf("nothing is left of it")
	}
	for i := range p.Holes {
		b, err := s.bore(&p.Holes[i])
		if err != nil {
			return nil, fmt.Errorf("hole %d: %w", i+1, err)
		}
		s.holes = append(s.holes, b)
	}
	return s, nil
}

// orient names the sides of the sheet, by how it is drawn.
func (s *sheet) orient() error {
	p, ok := s.part.Drawn.pose()
	if !ok {
		return fmt.Errorf("its sheet shows %q and %q", s.part.Drawn.End, s.part.Drawn.Face)
	}
	for k := range s.names {
		s.names[k] = called(p.OutWay(outOf(k))) + [...]string{" end", " edge", " face"}[k/2]
	}
	return nil
}

// ends saws both ends. A length is held from long point to long point; where the
// ends are parallel the sheet gives the length along an edge, which is measured
// from pencil line to pencil line and is held instead.
func (s *sheet) ends(way Way) error {
	for i := range s.part.Cuts {
		c := &s.part.Cuts[i]
		if c.Kind != "end" {
			continue
		}
		end := -1
		for k := firstEnd; k <= otherEnd; k++ {
			if s.names[k] == c.Name+" end" {
				end = k
			}
		}
		if end < 0 || s.angle[end] {
			return fmt.Errorf("it has no such end as %q", c.Name)
		}
		n, err := s.across(c, end, way)
		if err != nil {
			return fmt.Errorf("the %s end: %w", c.Name, err)
		}
		s.sides[end].N, s.angle[end] = n, true
	}
	// The first end: its long point at x = 0.
	s.sides[firstEnd].D = s.longPoint(firstEnd, 0)
	if s.part.Edge == nil {
		s.sides[otherEnd].D = s.longPoint(otherEnd, s.size.X)
		if pointed, err := s.points(way); pointed || err != nil {
			return err
		}
		return s.shorter()
	}
	along, err := s.part.Edge.mm()
	if err != nil {
		return err
	}
	long := s.size.X
	corner := geom.Vec{}
	for _, y := range []float64{0, s.size.Y} { // the edge with the long point of the first end
		for _, z := range []float64{0, s.size.Z} {
			at := geom.Vec{Y: y, Z: z}
			if math.Abs(s.sides[firstEnd].Over(at)) <= geom.Same {
				corner = at
			}
		}
	}
	corner.X = along
	s.sides[otherEnd].D = s.sides[otherEnd].N.Dot(corner)
	s.size.X = 0
	for _, at := range s.arrises() {
		t, _ := s.sides[otherEnd].Hit(at, geom.Vec{X: 1})
		s.size.X = math.Max(s.size.X, t)
	}
	if math.Abs(s.size.X-long) > Allowed+geom.Same {
		return fmt.Errorf("%s along an edge does not come to %s long point to long point", s.part.Edge.Shown, s.part.Long.Shown)
	}
	return s.shorter()
}

// arrises returns the four corners of the blank at x = 0.
func (s *sheet) arrises() [4]geom.Vec {
	return [4]geom.Vec{{}, {Y: s.size.Y}, {Z: s.size.Z}, {Y: s.size.Y, Z: s.size.Z}}
}

// longPoint returns the D of an end's plane whose long point lies at x.
func (s *sheet) longPoint(end int, x float64) float64 {
	n := s.sides[end].N
	d := math.Inf(1)
	for _, at := range s.arrises() {
		at.X = x
		d = math.Min(d, n.Dot(at))
	}
	return d
}

// shorter works out the length from short point to short point and compares it
// with the printed one. That follows from the exact angle and a saw is set to half
// a degree, which may come to as much as Allowed.
func (s *sheet) shorter() error {
	low, high := math.Inf(-1), math.Inf(1)
	for _, at := range s.arrises() {
		t, _ := s.sides[firstEnd].Hit(at, geom.Vec{X: 1})
		low = math.Max(low, t)
		t, _ = s.sides[otherEnd].Hit(at, geom.Vec{X: 1})
		high = math.Min(high, t)
	}
	s.short = max(0, high-low) // 0: the ends meet in a point
	if s.part.Short == nil {
		return nil
	}
	mm, err := s.part.Short.mm()
	if err != nil {
		return err
	}
	if math.Abs(mm-s.short) > 1.5*Allowed {
		return fmt.Errorf("the short points come %.1f mm apart, and the sheet says %s", s.short, s.part.Short.Shown)
	}
	return nil
}

// bore reads where a hole is drilled.
func (s *sheet) bore(h *Hole) (bore, error) {
	face, err := s.side(h.Face)
	if err != nil {
		return bore{}, err
	}
	var fromEnd, fromRim, bit, deep float64
	for _, f := range []struct {
		to   *float64
		from Figure
	}{{&fromEnd, h.FromEnd}, {&fromRim, h.FromRim}, {&bit, h.Bit}} {
		if *f.to, err = f.from.mm(); err != nil {
			return bore{}, err
		}
	}
	if h.Depth.Shown != "through" {
		if deep, err = h.Depth.mm(); err != nil {
			return bore{}, err
		}
	}
	end, err := s.side(h.End)
	if err != nil {
		return bore{}, err
	}
	said := h.Words.String()
	for _, w := range []string{"drill " + h.Bit.Shown + " in the " + h.Face, h.FromEnd.Shown + " from the " + h.End, h.FromRim.Shown + " from "} {
		if !strings.Contains(said, w) {
			return bore{}, fmt.Errorf("its sentence does not say %q", w)
		}
	}
	in := outOf(face).Negated()
	at := geom.Vec{}
	if face%2 == 1 {
		at = outOf(face).Times(outOf(face).Dot(s.size))
	}
	// from a side: as far in from it as printed
	from := func(k int, mm float64) {
		axis := outOf(k | 1)
		to := mm
		if k%2 == 1 {
			to = axis.Dot(s.size) - mm
		}
		at = at.Along(axis, to-at.Dot(axis))
	}
	if strings.HasPrefix(h.Rim, "either ") {
		across := s.size.Y
		if face >= nearEdge && face <= farEdge {
			across = s.size.Z
		}
		if math.Abs(2*fromRim-across) > 2*Allowed {
			return bore{}, fmt.Errorf("%s is not half way across", h.FromRim.Shown)
		}
		switch {
		case face >= nearEdge && face <= farEdge:
			from(underFace, float64(across/2))
		default:
			from(nearEdge, float64(across/2))
		}
	} else {
		rim, err := s.side(h.Rim)
		if err != nil || rim/2 == face/2 || rim/2 == end/2 {
			return bore{}, fmt.Errorf("it is measured from the %s and the %s", h.End, h.Rim)
		}
		from(rim, fromRim)
	}
	if end/2 == face/2 {
		return bore{}, fmt.Errorf("it is measured from the %s, which it is drilled in", h.End)
	}
	from(end, fromEnd)
	return bore{at, in, bit / 2, deep, h.Joint}, nil
}
