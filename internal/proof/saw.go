package proof

import (
	"fmt"
	"math"
	"strings"

	"scantling/internal/geom"
	"scantling/internal/steady"
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

// agrees checks that the sentence of an angled end says what stands on its card.
func (c *Cut) agrees() error {
	said := strings.ToLower(c.Words.String())
	var want []string
	if !c.ByMarks {
		want = append(want, c.FaceUp+" up", c.Fence+" against the fence", "the part "+c.Keep+" of the blade")
		if c.Swing != "" && c.Setting != nil && c.Included != nil {
			want = append(want, c.Setting.Shown+" "+c.Swing+" of zero", "the tip is "+c.Included.Shown)
		}
		if c.Bevel != nil {
			want = append(want, "tilt the blade "+c.Bevel.Shown)
		}
	}
	if c.Swing != "" && c.Offset != nil {
		want = append(want, "the long point on the "+c.Long, "step "+c.Offset.Shown)
	}
	if c.Lean != nil {
		want = append(want, "the line runs "+c.Lean.Shown+" back from the "+c.LongFace)
	}
	for _, w := range want {
		if !strings.Contains(said, strings.ToLower(w)) {
			return fmt.Errorf("its card and its sentence do not agree on %q", w)
		}
	}
	return nil
}

// across returns the outward normal of an angled end, sawn one way.
func (s *sheet) across(c *Cut, end int, way Way) (geom.Vec, error) {
	if err := c.agrees(); err != nil && !strings.Contains(c.Words.String(), "saw it square") {
		return geom.Vec{}, err
	}
	if c.ByMarks {
		way = ByOffset
	}
	if way == BySetting {
		return s.onSaw(c, end)
	}
	long, err := s.side(c.Long)
	if err != nil || long != nearEdge && long != farEdge {
		return geom.Vec{}, fmt.Errorf("the long point is said to be on the %q", c.Long)
	}
	e, o := outOf(end), outOf(long)
	var mitre float64 // tangent of the angle off square
	switch way {
	case ByIncluded:
		if c.Included == nil {
			return geom.Vec{}, fmt.Errorf("no angle of the tip is printed")
		}
		tip, err := c.Included.radians()
		if err != nil {
			return geom.Vec{}, err
		}
		mitre = steady.Cos(tip) / steady.Sin(tip)
	case ByOffset:
		if c.Offset == nil {
			return geom.Vec{}, fmt.Errorf("no offset is printed")
		}
		step, err := c.Offset.mm()
		if err != nil {
			return geom.Vec{}, err
		}
		mitre = step / s.size.Y
	}
	n := e.Along(o, -mitre).Unit()
	if c.Bevel == nil {
		return n, nil
	}
	longer, err := s.side(c.LongFace)
	if err != nil || longer != underFace && longer != showFace {
		return geom.Vec{}, fmt.Errorf("the longer face is said to be the %q", c.LongFace)
	}
	f := outOf(longer)
	if way == ByOffset {
		if c.Lean == nil {
			return geom.Vec{}, fmt.Errorf("no offset over the thickness is printed")
		}
		lean, err := c.Lean.mm()
		if err != nil {
			return geom.Vec{}, err
		}
		return e.Along(o, -mitre).Along(f, -lean/s.size.Z).Unit(), nil
	}
	tilt, err := c.Bevel.radians()
	if err != nil {
		return geom.Vec{}, err
	}
	return n.Times(steady.Cos(tilt)).Along(f, -steady.Sin(tilt)), nil
}

// onSaw lays the board on the saw as its card says and returns the outward normal
// of the cut.
//
// On the saw's table back is toward the fence, up is up, right is to the right of
// whoever stands at it. At zero the blade stands square to the fence and upright.
// Swinging it right moves its front end right, so that seen from above the line
// runs from the fence to the front and right; a tilted blade leans left.
func (s *sheet) onSaw(c *Cut, end int) (geom.Vec, error) {
	face, err := s.side(c.FaceUp)
	if err != nil {
		return geom.Vec{}, err
	}
	edge, err := s.side(c.Fence)
	if err != nil {
		return geom.Vec{}, err
	}
	if face != showFace && face != underFace || edge != nearEdge && edge != farEdge {
		return geom.Vec{}, fmt.Errorf("no board lies on a saw with its %s up and its %s against the fence", c.FaceUp, c.Fence)
	}
	up, back := outOf(face), outOf(edge)
	right := back.Cross(up)
	var swing, tilt float64
	if c.Setting != nil {
		if swing, err = c.Setting.radians(); err != nil {
			return geom.Vec{}, err
		}
	}
	if c.Bevel != nil {
		if tilt, err = c.Bevel.radians(); err != nil {
			return geom.Vec{}, err
		}
	}
	switch {
	case c.Swing == "left":
		swing = -swing
	case c.Swing != "right" && swing != 0:
		return geom.Vec{}, fmt.Errorf("which way the saw is swung is not said")
	}
	// The blade's right side, square to its line on the table, then tipped.
	n := right.Times(steady.Cos(swing)).Along(back, steady.Sin(swing))
	n = n.Times(steady.Cos(tilt)).Along(up, steady.Sin(tilt))
	switch c.Keep {
	case "left": // what is kept lies left: the waste is right
	case "right":
		n = n.Negated()
	default:
		return geom.Vec{}, fmt.Errorf("which side of the blade is kept is not said")
	}
	if n.Dot(outOf(end)) <= 0 {
		return geom.Vec{}, fmt.Errorf("with the %s up and the %s against the fence that end points to the other side of the blade", c.FaceUp, c.Fence)
	}
	return n, nil
}

// cut makes every other cut of a sheet.
func (s *sheet) cut(bench *geom.Saw, i int, tag geom.Tag) error {
	c := &s.part.Cuts[i]
	said := strings.ToLower(c.Words.String())
	for _, m := range c.Marks {
		if !strings.Contains(said, m.At.Shown) {
			return fmt.Errorf("its sentence does not say %s, %s", m.At.Shown, m.Label)
		}
		for _, name := range s.names {
			if strings.Contains(m.Label, name) && !strings.Contains(said, name) {
				return fmt.Errorf("its sentence does not speak of the %s", name)
			}
		}
	}
	switch c.Kind {
	case "end", "edge": // sawn before; a rounded edge takes nothing off that another board meets
		return nil
	case "taper":
		return s.tapered(bench, c, tag)
	case "notch", "housing", "half lap":
		return s.opening(bench, i, tag)
	case "slot":
		return s.slot(bench, c, tag)
	case "snip":
		return s.snip(bench, c, tag)
	case "round corner", "round end":
		return s.round(bench, c, tag)
	case "arch":
		return s.arch(bench, c, tag)
	}
	return fmt.Errorf("how it is made cannot be read from the page")
}

// tapered saws along the line through two marks on an edge.
func (s *sheet) tapered(bench *geom.Saw, c *Cut, tag geom.Tag) error {
	if len(c.Marks) < 2 {
		return fmt.Errorf("its line takes two marks, and %d are printed", len(c.Marks))
	}
	from, err := c.Marks[0].At.mm()
	if err != nil {
		return err
	}
	wide, err := c.Marks[1].At.mm()
	if err != nil {
		return err
	}
	at, along, ok := strings.Cut(strings.TrimPrefix(c.Marks[0].Label, "from the "), ", along the ")
	end, err1 := s.side(at)
	edge, err2 := s.side(along)
	if !ok || err1 != nil || err2 != nil || end > otherEnd {
		return fmt.Errorf("its first mark reads %q", c.Marks[0].Label)
	}
	thin, square, ok := strings.Cut(strings.TrimPrefix(c.Marks[1].Label, "at the "), ", square ")
	small, err1 := s.side(thin)
	if !ok || err1 != nil || small != 1-end {
		return fmt.Errorf("its second mark reads %q", c.Marks[1].Label)
	}
	o := outOf(edge)
	across := s.size.Y
	if edge >= underFace {
		across = s.size.Z
	}
	if square == "between the two tapers" {
		wide = (across + wide) / 2
	} else if from, err := s.side(strings.TrimPrefix(square, "from the ")); err != nil || from/2 != edge/2 || from == edge {
		return fmt.Errorf("its second mark reads %q", c.Marks[1].Label)
	}
	// The marks, on the show face or on the near edge.
	top := geom.Vec{Z: s.size.Z}
	if edge >= underFace {
		top = geom.Vec{}
	}
	rim := top.Along(o, o.Dot(s.size)-o.Dot(top)) // on the edge that is sawn
	if edge == nearEdge || edge == underFace {
		rim = top
		rim = rim.Along(o, -o.Dot(rim))
	}
	first := s.onEnd(end, rim)
	first = first.Along(outOf(end), -from)
	second := s.onEnd(1-end, rim.Along(o, wide-across))
	way := second.Minus(first)
	n := way.Cross(geom.Vec{Z: 1})
	if edge >= underFace {
		n = way.Cross(geom.Vec{Y: 1})
	}
	if n.Dot(o) < 0 {
		n = n.Negated()
	}
	plane := geom.Facing(first, n)
	if len(c.Marks) > 2 { // what it leaves along the cut
		along, err := c.Marks[2].At.mm()
		end := s.sides[1-end].N
		if square := float64(along * abs(end.X)); err != nil || edge <= farEdge && abs(square-wide) > Allowed {
			return fmt.Errorf("it cannot leave %s along the cut", c.Marks[2].At.Shown)
		}
	}
	bench.Keep(plane, tag)
	s.taper = append(s.taper, taper{edge, plane})
	return nil
}

// onEnd returns where the line along the grain through a point meets an end.
func (s *sheet) onEnd(end int, at geom.Vec) geom.Vec {
	t, _ := s.sides[end].Hit(at, geom.Vec{X: 1})
	at.X += t
	return at
}

// snip saws a corner off between two marks from it.
func (s *sheet) snip(bench *geom.Saw, c *Cut, tag geom.Tag) error {
	end, edge := -1, -1
	var along, across float64
	for _, m := range c.Marks {
		mm, err := m.At.mm()
		if err != nil {
			return err
		}
		k, err := s.side(strings.TrimPrefix(m.Label, "along the "))
		switch {
		case err != nil:
			return err
		case k <= otherEnd:
			end, across = k, mm
		default:
			edge, along = k, mm
		}
	}
	if end < 0 || edge < nearEdge || edge > farEdge {
		return fmt.Errorf("its corner is not said")
	}
	corner := s.onEnd(end, geom.Vec{Y: float64(s.size.Y * float64(edge-nearEdge)), Z: s.size.Z})
	inward := s.onEnd(end, corner.Along(outOf(edge), -across)).Minus(corner).Unit()
	a, b := corner.Along(outOf(end), -along), corner.Along(inward, across)
	n := b.Minus(a).Cross(geom.Vec{Z: 1})
	if n.Dot(corner.Minus(a)) < 0 {
		n = n.Negated()
	}
	bench.Keep(geom.Facing(a, n), tag)
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
