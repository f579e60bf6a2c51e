package proof

import (
	"fmt"
	"strings"

	"scantling/internal/geom"
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
