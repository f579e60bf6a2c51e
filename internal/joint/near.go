package joint

import (
	"math"

	"scantling/internal/board"
	"scantling/internal/design"
	"scantling/internal/geom"
)

// A thicket is all fasteners placed so far, found by the boards they stand in.
type thicket struct {
	at    map[board.ID]int
	all   []thorn
	cells map[cell][]int32 // numbers in all, in order
}

// A thorn is one fastener as a rod in the piece.
type thorn struct {
	group    *group
	pair     *Pair
	use      *Use
	in       []*design.Board // the boards it stands in
	at       geom.Vec
	way      geom.Vec
	long     float64
	radius   float64
	crowding []int32 // those nearer than the crowd's reach, found when it was placed
}

// A cell is a stretch of a board along its grain.
type cell struct{ board, along int }

const cellLong = 64.0 // mm

// crowd is how near, in mm, other fasteners count toward a knot of them, and
// crowdOf how many make one. Source: common practice.
const (
	crowd   = 19.0
	crowdOf = 4
)

func newThorn(g *group, p *Pair, u *Use, a Axis) thorn {
	n := thorn{group: g, pair: p, use: u, in: p.stands(a), at: a.At, way: a.Way, long: u.Fastener.Length.MM(), radius: u.Fastener.Diameter().MM() / 2}
	if n.long == 0 { // a bolt none of whose lengths will do
		n.long = a.Stack[0] + a.Stack[1]
	}
	return n
}

// add places one fastener and reports whether it comes too near one placed before,
// of another pair.
func (t *thicket) add(n thorn) bool {
	bad := t.look(&n, nil) < apartBy
	id := int32(len(t.all))
	n.cells(t, 0, func(c cell) { t.cells[c] = append(t.cells[c], id) })
	t.all = append(t.all, n)
	return bad
}

// look notes the fasteners of other pairs that crowd n, some apart, and returns the
// least gap.
func (t *thicket) look(n *thorn, apart func(*thorn) bool) float64 {
	least := math.Inf(1)
	n.cells(t, crowd, func(c cell) {
		for _, i := range t.cells[c] {
			o := &t.all[i]
			if o.pair == n.pair || apart != nil && apart(o) || contains(n.crowding, i) {
				continue
			}
			if gap := n.gap(o); gap < crowd {
				n.crowding = append(n.crowding, i)
				least = math.Min(least, gap)
			}
		}
	})
	return least
}

// cells calls each with the cells a fastener stands in, and those within reach.
func (n *thorn) cells(t *thicket, reach float64, each func(cell)) {
	for _, b := range n.in {
		x, y := b.Pose.In(n.at).X, b.Pose.In(n.at.Along(n.way, n.long)).X
		low, high := math.Min(x, y)-n.radius-reach, math.Max(x, y)+n.radius+reach
		for k := int(math.Floor(low / cellLong)); k <= int(math.Floor(high/cellLong)); k++ {
			each(cell{t.at[b.ID], k})
		}
	}
}

// drop takes out the last n fasteners.
func (t *thicket) drop(n int) {
	for ; n > 0; n-- {
		last := len(t.all) - 1
		t.all[last].cells(t, 0, func(c cell) {
			if list := t.cells[c]; len(list) > 0 && int(list[len(list)-1]) == last {
				t.cells[c] = list[:len(list)-1]
			}
		})
		t.all = t.all[:last]
	}
}

// gap returns the wood between two fasteners, in mm; negative where they meet.
func (n *thorn) gap(o *thorn) float64 {
	return rods(n.at, n.at.Along(n.way, n.long), o.at, o.at.Along(o.way, o.long)) - n.radius - o.radius
}

// rods returns the distance between the segments a–b and c–d.
func rods(a, b, c, d geom.Vec) float64 {
	// Least of |a + s(b−a) − c − t(d−c)| with s and t held between 0 and 1.
	u, v, w := b.Minus(a), d.Minus(c), a.Minus(c)
	uu, uv, vv := u.Dot(u), u.Dot(v), v.Dot(v)
	uw, vw := u.Dot(w), v.Dot(w)
	held := func(x float64) float64 { return math.Max(0, math.Min(1, x)) }
	s := 0.0
	if det := float64(uu*vv) - float64(uv*uv); det > 1e-9*uu*vv {
		s = held((float64(uv*vw) - float64(vv*uw)) / det)
	}
	t := held((vw + float64(uv*s)) / vv)
	s = held((float64(uv*t) - uw) / uu)
	return a.Along(u, s).Distance(c.Along(v, t))
}

func contains(list []int32, x int32) bool {
	for _, y := range list {
		if x == y {
			return true
		}
	}
	return false
}
