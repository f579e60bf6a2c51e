package proof

import (
	"fmt"
	"math"
	"strings"

	"scantling/internal/geom"
	"scantling/internal/steady"
)

// A standing is one board built in.
type standing struct {
	board *Board
	sheet *sheet
	rough geom.Pose // from its sheet to the room, by the words of its sides
	pose  geom.Pose // from its sheet to what it is built into
	in    int       // the assembly it is part of; 0: not yet
	bolts []bore    // drilled on the work, in its sheet's frame
}

// A shop is the boards of a piece as the steps go by.
type shop struct {
	boards []*standing
	byID   map[string]*standing
	names  map[string]string // ids by what a board is called; "" for two alike
	next   int
	open   []string // what could not be done from the words
}

func (s *shop) unclear(format string, args ...any) {
	s.open = append(s.open, fmt.Sprintf(format, args...))
}

// assemble puts the boards together by the marks of the steps.
func assemble(p *Pages, sheets map[string]*sheet) *shop {
	s := &shop{byID: map[string]*standing{}, names: map[string]string{}}
	for i := range p.Boards {
		b := &p.Boards[i]
		sh := sheets[b.Part]
		if sh == nil {
			s.unclear("the %s is of part %s, which could not be sawn", b.Called, b.Part)
			continue
		}
		st := &standing{board: b, sheet: sh}
		rough, ok := b.Lies.pose()
		if !ok {
			s.unclear("which way round the %s goes is not said", b.Called)
			continue
		}
		st.rough, st.pose = rough, rough
		s.boards = append(s.boards, st)
		s.byID[b.ID] = st
		if _, twice := s.names[b.Called]; twice {
			s.names[b.Called] = ""
		} else {
			s.names[b.Called] = b.ID
		}
	}
	for i := range p.Steps {
		step := &p.Steps[i]
		for _, m := range step.Marks {
			s.place(step, m)
		}
		for _, again := range step.Again {
			for _, m := range again.Marks {
				s.place(step, m)
			}
		}
	}
	for i := range p.Steps {
		for _, f := range p.Steps[i].Fasten {
			for k := range f.Drill {
				s.drill(&f.Drill[k])
			}
		}
	}
	for _, b := range s.boards {
		if b.in == 0 {
			s.unclear("no step says where the %s goes", b.board.Called)
		}
	}
	return s
}

// drill marks the holes of bolts on a board in place.
func (s *shop) drill(d *Drill) {
	b := s.byID[d.Board]
	if b == nil {
		s.unclear("holes are drilled in a board there is not")
		return
	}
	in := *b.sheet // its sides as they are called in place
	for k := range in.names {
		in.names[k] = called(b.rough.OutWay(outOf(k))) + [...]string{" end", " edge", " face"}[k/2]
	}
	for i := range d.Holes {
		h, err := in.bore(&d.Holes[i])
		if err != nil {
			s.unclear("the %s: a hole: %v", b.board.Called, err)
			continue
		}
		b.bolts = append(b.bolts, h)
	}
}

// place builds in what one line of marks is about.
func (s *shop) place(step *Step, m Marks) {
	var rules []*rule
	first := false
	for _, w := range m.Words {
		r, err := readMark(w, s.names)
		if err != nil {
			s.unclear("%s: the %s: %v", step.Name, m.Called, err)
			return
		}
		if r != nil {
			rules = append(rules, r)
		}
		first = first || w.String() == "comes first; the rest is placed from it"
	}
	for n, id := range m.Boards {
		b := s.byID[id]
		if b == nil {
			continue // told before
		}
		if first {
			if b.in == 0 {
				s.next++
				b.in = s.next
			}
			continue
		}
		pose, into, err := s.fix(b, rules, n)
		if err != nil {
			s.unclear("%s: the %s: %v", step.Name, b.board.Called, err)
			continue
		}
		if b.in == 0 {
			b.pose, b.in = pose, into
			continue
		}
		// All of what it is already part of goes with it.
		from, old := b.in, b.pose
		for _, c := range s.boards {
			if c.in == from {
				c.pose = pose.Of(c.pose.From(old))
				c.in = into
			}
		}
	}
}

// A bearing is a rule with what it speaks of found: faces of the board that is
// placed in its sheet's frame, of the other in place.
type bearing struct {
	against bool
	off     float64
	mine    *face
	corners []geom.Vec
	theirs  *geom.Plane
	middle  geom.Vec   // of their face
	rim     []geom.Vec // of their face
	small   bool       // their face is the smaller: the rule is held there
	corner  geom.Vec   // of theirs, when theirs is nil
	tips    []geom.Vec // corners of theirs, that one of corners stands off from
	turns   bool       // both are faces long and true enough to turn the board by
}

// find looks up what a rule speaks of.
func (s *shop) find(b *standing, r *rule, n int) (bearing, int, error) {
	other := s.byID[r.board]
	if other == nil || other.in == 0 || other == b {
		return bearing{}, 0, fmt.Errorf("the board it is placed by is not there yet")
	}
	g := bearing{against: r.against, off: r.off}
	if n < len(r.row) {
		g.off += r.row[n]
	} else if len(r.row) > 0 {
		return g, 0, fmt.Errorf("its row has %d running marks, and it is no. %d", len(r.row), n+1)
	}
	if r.beyond != "" || strings.HasSuffix(r.theirs.words, " corner") && !strings.HasSuffix(r.mine.words, " corner") {
		mine, err := b.faceCalled(r.mine.words)
		if err != nil {
			return g, 0, err
		}
		at, err := other.cornersCalled(r.theirs.words)
		if err != nil {
			return g, 0, err
		}
		if r.beyond != "" {
			look, _, _ := side(r.mine.words)
			way, _ := toward(r.beyond)
			switch look.Dot(way) {
			case 1:
			case -1:
				g.off = -g.off
			default:
				return g, 0, fmt.Errorf("its %s cannot lie %s a corner", r.mine.words, r.beyond)
			}
		}
		g.mine, g.corner = &mine, other.pose.Out(at[0])
		return g, other.in, nil
	}
	if r.tips {
		var err error
		if g.corners, err = b.cornersCalled(r.mine.words); err != nil {
			return g, 0, err
		}
		at, err := other.cornersCalled(r.theirs.words)
		g.tips = outs(other.pose, at)
		return g, other.in, err
	}
	theirs, err := other.faceCalled(r.theirs.words)
	if err != nil {
		return g, 0, err
	}
	plane := other.pose.OutPlane(theirs.plane)
	g.theirs, g.middle, g.rim = &plane, other.pose.Out(theirs.middle), outs(other.pose, theirs.rim)
	if at, err := b.cornersCalled(r.mine.words); err == nil {
		g.corners = at
		return g, other.in, nil
	}
	mine, err := b.faceCalled(r.mine.words)
	if err != nil {
		return g, 0, err
	}
	g.mine, g.turns, g.small = &mine, mine.turns && theirs.turns, theirs.area < mine.area
	return g, other.in, nil
}

// fix returns the pose the rules give board b, and the assembly it joins; n is its
// place in its row.
func (s *shop) fix(b *standing, rules []*rule, n int) (geom.Pose, int, error) {
	var marks []bearing
	into := 0
	for _, r := range rules {
		g, in, err := s.find(b, r, n)
		if err != nil {
			return geom.Pose{}, 0, err
		}
		if into != 0 && in != into {
			return geom.Pose{}, 0, fmt.Errorf("it is placed by boards that are not yet together")
		}
		into = in
		marks = append(marks, g)
	}
	if len(marks) < 3 || marks[0].tips != nil || marks[1].tips != nil || marks[2].tips != nil {
		return geom.Pose{}, 0, fmt.Errorf("its marks do not fix it; it takes three, from faces")
	}
	pose, free, held := turned(b.rough, marks)
	if free != nil && len(marks) > 3 {
		pose = swung(pose, *free, held, marks)
	}
	at, err := moved(pose, marks)
	return at, into, err
}

// turned turns a board by its marks: by the first faces that lie true on one
// another, then about their normal by the next. free is the axis it may still turn
// about when only short or slanting faces hold it there, and held whether any do.
func turned(rough geom.Pose, marks []bearing) (p geom.Pose, free *geom.Vec, held bool) {
	p = rough
	var axis *geom.Vec
	for _, long := range []bool{true, false} { // long faces first
		for _, g := range marks {
			if g.mine == nil || g.theirs == nil || g.turns != long {
				continue
			}
			want := g.theirs.N
			if g.against {
				want = want.Negated()
			}
			have := p.OutWay(g.mine.plane.N)
			if axis == nil {
				p = between(have, want).Of(p)
				n := want
				axis = &n
				continue
			}
			a, b := have.Along(*axis, -have.Dot(*axis)), want.Along(*axis, -want.Dot(*axis))
			if a.Length() < 0.1 || b.Length() < 0.1 {
				continue
			}
			p = between(a.Unit(), b.Unit()).Of(p)
			if !long {
				return p, axis, true
			}
			return p, nil, true
		}
	}
	return p, axis, false
}

// between returns the least turn that carries one unit direction to another.
func between(from, to geom.Vec) geom.Pose {
	axis := from.Cross(to)
	sin, cos := axis.Length(), from.Dot(to)
	if sin < 1e-12 {
		if cos > 0 {
			return geom.Unmoved()
		}
		axis = from.Cross(geom.Vec{X: 1})
		if axis.Length() < 0.1 {
			axis = from.Cross(geom.Vec{Y: 1})
		}
	}
	return geom.Turned(axis, steady.Atan2(sin, cos))
}

// miss returns how far, in mm, a mark is from being kept.
func (g *bearing) miss(p geom.Pose) float64 {
	switch {
	case g.tips != nil: // tip to tip
		best := math.Inf(1)
		for _, c := range g.corners {
			for _, q := range g.tips {
				best = math.Min(best, p.Out(c).Distance(q))
			}
		}
		return best - g.off
	case g.theirs == nil: // my face, their corner
		h := p.OutPlane(g.mine.plane)
		return -h.Over(g.corner) - g.off
	case g.mine == nil: // my corner, their face
		best := math.Inf(1)
		for _, c := range g.corners {
			if d := g.theirs.Over(p.Out(c)) - g.off; abs(d) < abs(best) {
				best = d
			}
		}
		return best
	case g.against && !g.turns: // the first corner to touch
		best := math.Inf(1)
		if g.small {
			h := p.OutPlane(g.mine.plane)
			for _, c := range g.rim {
				best = math.Min(best, h.Over(c))
			}
			return best
		}
		for _, c := range g.mine.rim {
			best = math.Min(best, g.theirs.Over(p.Out(c)))
		}
		return best
	case g.small:
		h := p.OutPlane(g.mine.plane)
		if g.against {
			return h.Over(g.middle)
		}
		return -h.Over(g.middle) - g.off
	}
	return g.theirs.Over(p.Out(g.mine.middle)) - g.off
}

// along returns the direction a mark holds the board in.
func (g *bearing) along(p geom.Pose) geom.Vec {
	if g.theirs == nil {
		return p.OutWay(g.mine.plane.N)
	}
	if g.small && g.mine != nil {
		if n := p.OutWay(g.mine.plane.N); !g.against {
			return n
		} else {
			return n.Negated()
		}
	}
	return g.theirs.N
}

// moved moves a turned board so that its first three marks are kept.
func moved(p geom.Pose, marks []bearing) (geom.Pose, error) {
	for range 4 { // which corner touches first may change as it moves
		var planes [3]geom.Plane
		for i, g := range marks[:3] {
			n := g.along(p)
			planes[i] = geom.Plane{N: n, D: -g.miss(p)}
		}
		by, ok := geom.Meet(planes[0], planes[1], planes[2])
		if !ok {
			return p, fmt.Errorf("its marks leave it free to slide")
		}
		p = p.Moved(by)
	}
	return p, nil
}

// swing is how far, in radians, a board may stand off when its fourth mark turns it
// back: three degrees where a short face has turned it before, sixty where nothing
// has but what its sides are called.
var swings = map[bool]float64{true: 3 * degree, false: 60 * degree}

// swung turns a board about an axis until its fourth mark is kept too, or as nearly
// as the others let it: of several ways, by the least turn.
func swung(p geom.Pose, axis geom.Vec, held bool, marks []bearing) geom.Pose {
	miss := func(angle float64) float64 {
		q, err := moved(geom.Turned(axis, angle).Of(p), marks)
		if err != nil {
			return math.Inf(1)
		}
		return marks[3].miss(q)
	}
	const steps = 40
	best, least := 0.0, abs(miss(0))
	last := [2]float64{miss(0), miss(0)} // on either side
	for i := 1; i <= steps; i++ {
		for k, sign := range [2]float64{1, -1} {
			angle := sign * swings[held] * float64(i) / steps
			m := miss(angle)
			if (m < 0) != (last[k] < 0) {
				return geom.Turned(axis, between0(miss, angle-float64(sign*swings[held]/steps), angle)).Of(p)
			}
			last[k] = m
			if abs(m) < least-geom.Same {
				best, least = angle, abs(m)
			}
		}
	}
	for step := swings[held] / steps / 2; step > 1e-8 && least > geom.Same; step /= 2 {
		for _, angle := range [2]float64{best - step, best + step} {
			if m := abs(miss(angle)); m < least {
				best, least = angle, m
			}
		}
	}
	return geom.Turned(axis, best).Of(p)
}

// between0 returns where between a and b a function that changes sign there is 0.
func between0(f func(float64) float64, a, b float64) float64 {
	below := f(a) < 0
	for range 40 {
		middle := (a + b) / 2
		if (f(middle) < 0) == below {
			a = middle
		} else {
			b = middle
		}
	}
	return (a + b) / 2
}
