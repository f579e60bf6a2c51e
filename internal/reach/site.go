package reach

import (
	"cmp"
	"math"
	"slices"

	"scantling/internal/geom"
)

// A Site is the boards of a piece where they will stand, and which of them are
// there. It is not for two goroutines.
type Site struct {
	boards []solid
	near   [][]touch // by board
	clash  [][]int   // by board: those that share its wood where they stand
	there  []bool
	groups []group // a tree of boxes, as in geom.Pairs
	order  []int32
	within []int32 // by board: the leaf it is in
}

// A solid is a board.
type solid struct {
	cells []cell
	box   geom.Box
	pose  geom.Pose
}

// A touch is a contact seen from one of its boards: the normal points from the
// other board into it.
type touch struct {
	other int
	n     geom.Vec
	area  float64
}

// A group is the boards order[from:to].
type group struct {
	box         geom.Box
	from, to    int
	left, right int32 // 0: none
	up          int32
	count       int // boards there
}

const leaf = 4

// NewSite returns a site of the boards, none of them there. Contacts say where two
// touch; those named in clashes share wood where they stand, which leaves how they
// come there unknown. A board without a solid is nowhere.
func NewSite(boards []geom.Placed, contacts []Contact, clashes [][2]int) *Site {
	s := &Site{boards: make([]solid, len(boards)), near: make([][]touch, len(boards)), clash: make([][]int, len(boards)),
		there: make([]bool, len(boards)), within: make([]int32, len(boards))}
	for i, b := range boards {
		x := solid{box: geom.EmptyBox(), pose: b.Pose}
		if b.Solid == nil || len(b.Solid.Cells) == 0 {
			s.boards[i] = x
			continue
		}
		for k := range b.Solid.Cells {
			c := cellOf(&b.Solid.Cells[k], b.Pose)
			x.box = x.box.Union(c.box)
			x.cells = append(x.cells, c)
		}
		s.boards[i] = x
		s.order = append(s.order, int32(i))
	}
	for _, c := range contacts {
		s.near[c.A] = append(s.near[c.A], touch{c.B, c.N.Negated(), c.Area})
		s.near[c.B] = append(s.near[c.B], touch{c.A, c.N, c.Area})
	}
	for _, c := range clashes {
		s.clash[c[0]] = append(s.clash[c[0]], c[1])
		s.clash[c[1]] = append(s.clash[c[1]], c[0])
	}
	s.groups = []group{{}} // number 0 is none
	if len(s.order) > 0 {
		s.grow(0, len(s.order), 0)
	}
	return s
}

// grow makes the group order[from:to] under another and returns its number.
func (s *Site) grow(from, to int, up int32) int32 {
	g := group{box: geom.EmptyBox(), from: from, to: to, up: up}
	middles := geom.EmptyBox()
	for _, i := range s.order[from:to] {
		g.box = g.box.Union(s.boards[i].box)
		middles = middles.With(s.boards[i].box.Middle())
	}
	n := int32(len(s.groups))
	s.groups = append(s.groups, g)
	if to-from <= leaf {
		for _, i := range s.order[from:to] {
			s.within[i] = n
		}
		return n
	}
	size := middles.Size()
	along := func(i int32) float64 {
		m := s.boards[i].box.Middle()
		switch {
		case size.X >= size.Y && size.X >= size.Z:
			return m.X
		case size.Y >= size.Z:
			return m.Y
		}
		return m.Z
	}
	slices.SortFunc(s.order[from:to], func(i, j int32) int {
		return cmp.Or(cmp.Compare(along(i), along(j)), cmp.Compare(i, j))
	})
	half := (from + to) / 2
	left := s.grow(from, half, n)
	right := s.grow(half, to, n)
	s.groups[n].left, s.groups[n].right = left, right
	return n
}

// put puts a board there; take1 takes it away.
func (s *Site) put(i int)   { s.set(i, true, 1) }
func (s *Site) take1(i int) { s.set(i, false, -1) }

func (s *Site) set(i int, there bool, by int) {
	if s.there[i] == there || s.boards[i].cells == nil {
		return
	}
	s.there[i] = there
	for g := s.within[i]; g != 0; g = s.groups[g].up {
		s.groups[g].count += by
	}
}

func (s *Site) putAll(boards []int) {
	for _, i := range boards {
		s.put(i)
	}
}

func (s *Site) takeAll(boards []int) {
	for _, i := range boards {
		s.take1(i)
	}
}

// clear takes all boards away.
func (s *Site) clear() {
	for i := range s.there {
		s.take1(i)
	}
}

// count returns how many boards are there.
func (s *Site) count() int {
	if len(s.groups) < 2 {
		return 0
	}
	return s.groups[1].count
}

// reached visits the boards there whose boxes a box that moves along u for ever
// runs into, until visit returns false.
func (s *Site) reached(box geom.Box, u geom.Vec, visit func(i int) bool) {
	if len(s.groups) > 1 {
		s.search(1, func(b geom.Box) bool { return hits(box, b, u) }, visit)
	}
}

// around visits the boards there whose boxes meet a box.
func (s *Site) around(box geom.Box, visit func(i int) bool) {
	if len(s.groups) > 1 {
		s.search(1, func(b geom.Box) bool { return box.Meets(b, 0) }, visit)
	}
}

func (s *Site) search(n int32, meets func(geom.Box) bool, visit func(i int) bool) bool {
	g := &s.groups[n]
	if g.count == 0 || !meets(g.box) {
		return true
	}
	if g.left != 0 {
		return s.search(g.left, meets, visit) && s.search(g.right, meets, visit)
	}
	for _, i := range s.order[g.from:g.to] {
		if s.there[i] && meets(s.boards[i].box) && !visit(int(i)) {
			return false
		}
	}
	return true
}

// hits reports whether box a, moved along u, comes to box b at some time from now
// on. Touching does not count.
func hits(a, b geom.Box, u geom.Vec) bool {
	from, to := 0.0, math.Inf(1)
	for _, x := range [...][5]float64{
		{a.Low.X, a.High.X, b.Low.X, b.High.X, u.X},
		{a.Low.Y, a.High.Y, b.Low.Y, b.High.Y, u.Y},
		{a.Low.Z, a.High.Z, b.Low.Z, b.High.Z, u.Z},
	} {
		least, most := x[2]-x[1], x[3]-x[0]
		switch {
		case math.Abs(x[4]) < 1e-12:
			if least >= 0 || most <= 0 {
				return false
			}
		case x[4] > 0:
			from, to = math.Max(from, least/x[4]), math.Min(to, most/x[4])
		default:
			from, to = math.Max(from, most/x[4]), math.Min(to, least/x[4])
		}
	}
	return from < to
}
