package geom

import (
	"cmp"
	"slices"
)

// Pairs returns, in order, every pair i < j of boxes that lie within reach mm of
// one another. Its time grows near-linearly with the boxes and the pairs found.
//
// Boxes are halved at the middle one along the axis on which their middles spread
// most, until few are left; two groups whose own boxes are apart are never opened.
func Pairs(boxes []Box, reach float64) [][2]int {
	t := grove{boxes: boxes, reach: reach, order: make([]int32, len(boxes))}
	for i := range t.order {
		t.order[i] = int32(i)
	}
	if len(boxes) > 0 {
		t.within(t.grow(0, len(boxes)))
	}
	slices.Sort(t.found)
	pairs := make([][2]int, len(t.found))
	for i, f := range t.found {
		pairs[i] = [2]int{int(f >> 32), int(uint32(f))}
	}
	return pairs
}

// grove is the tree of groups of boxes.
type grove struct {
	boxes  []Box
	reach  float64
	order  []int32
	groups []group
	found  []uint64 // i<<32 | j
}

// group is order[from:to]; its halves are groups[left] and groups[right], or it
// has none and left is 0.
type group struct {
	box         Box
	from, to    int
	left, right int
}

const leaf = 4

// grow makes the group order[from:to] and returns its number.
func (t *grove) grow(from, to int) int {
	g := group{box: EmptyBox(), from: from, to: to}
	middles := EmptyBox()
	for _, i := range t.order[from:to] {
		g.box = g.box.Union(t.boxes[i])
		middles = middles.With(t.boxes[i].Middle())
	}
	n := len(t.groups)
	t.groups = append(t.groups, g)
	if to-from <= leaf {
		return n
	}
	axis := longest(middles.Size())
	slices.SortFunc(t.order[from:to], func(i, j int32) int {
		return cmp.Or(cmp.Compare(t.middle(i, axis), t.middle(j, axis)), cmp.Compare(i, j))
	})
	half := (from + to) / 2
	left := t.grow(from, half)
	right := t.grow(half, to)
	t.groups[n].left, t.groups[n].right = left, right
	return n
}

// longest returns which axis, 0 to 2, v is longest along.
func longest(v Vec) int {
	switch {
	case v.X >= v.Y && v.X >= v.Z:
		return 0
	case v.Y >= v.Z:
		return 1
	}
	return 2
}

// middle returns twice the middle of box i along an axis.
func (t *grove) middle(i int32, axis int) float64 {
	b := &t.boxes[i]
	switch axis {
	case 0:
		return b.Low.X + b.High.X
	case 1:
		return b.Low.Y + b.High.Y
	}
	return b.Low.Z + b.High.Z
}

// within finds the pairs inside group n.
func (t *grove) within(n int) {
	g := t.groups[n]
	if g.left == 0 {
		for k, i := range t.order[g.from:g.to] {
			for _, j := range t.order[g.from+k+1 : g.to] {
				t.try(i, j)
			}
		}
		return
	}
	t.within(g.left)
	t.within(g.right)
	t.between(g.left, g.right)
}

// between finds the pairs with one box in group m and one in n.
func (t *grove) between(m, n int) {
	a, b := &t.groups[m], &t.groups[n]
	if !a.box.Meets(b.box, t.reach) {
		return
	}
	switch {
	case a.left == 0 && b.left == 0:
		for _, i := range t.order[a.from:a.to] {
			for _, j := range t.order[b.from:b.to] {
				t.try(i, j)
			}
		}
	case b.left == 0 || a.left != 0 && a.to-a.from >= b.to-b.from:
		t.between(a.left, n)
		t.between(a.right, n)
	default:
		t.between(m, b.left)
		t.between(m, b.right)
	}
}

func (t *grove) try(i, j int32) {
	if t.boxes[i].Meets(t.boxes[j], t.reach) {
		t.found = append(t.found, uint64(min(i, j))<<32|uint64(max(i, j)))
	}
}
