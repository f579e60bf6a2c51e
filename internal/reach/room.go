package reach

import (
	"cmp"
	"math"
	"slices"

	"scantling/internal/geom"
	"scantling/internal/steady"
)

// A Kind is how a fastener is driven.
type Kind int8

const (
	Screw  Kind = iota // by a drill with a bit
	Bolt               // put through a hole drilled on the spot, its nut turned
	Lag                // by its six-sided head
	Nail               // by a hammer
	Peg                // tapped in by a hammer, through both boards, a hole drilled for it first
	Dowel              // by hand, before the boards come together along it
	ByHand             // glue and the like: no tool
)

// A Drive is one fastener in place.
type Drive struct {
	Boards [2]int // the one its head lies on, and the other
	Kind   Kind
	At     geom.Vec   // where it goes in, on the face of the board, in the piece
	Way    geom.Vec   // the way it goes, unit
	Long   float64    // mm, under the head
	Wood   float64    // mm along it from face to face
	Sunk   [2]float64 // mm its head, and its nut, lie under their faces
	Round  float64    // mm, radius of its head, or of the washer under its nut
}

// Shapes of tools that nobody need change, in mm.
const (
	shaft    = 6.0          // radius of a bit and its holder
	wall     = 2.5          // of a socket, over what it holds
	neckHalf = 0.625 * inch // half the width of a angle driver's head and of its neck
	neckLong = 4.0 * inch   // length of that neck, before the drill behind it begins
	face     = 16.0         // radius of a hammer's face
	spin     = 1.0          // in, how much deeper than the wood a bit for a bolt hole goes
	inch     = 25.4
	// A handle is turned so far at a stroke: a ratchet as far as a wrist goes, a
	// wrench until it can be turned over.
	stroke = math.Pi / 6
	// A driver bit turns a screw so far off its line. Source: common practice
	// (memory): star and square bits take up to about 10°.
	lean  = 8 * math.Pi / 180
	turns = 24 // in how many ways about the axis a tool is tried
)

// A tool is one way to do a job: what of it turns with it, and what does not.
type tool struct {
	name  string
	needs float64            // mm along the axis
	wide  float64            // mm round it
	still func() []cell      // the same however it is turned; nil: nothing is
	held  func(k int) []cell // the rest, when it is held the k-th way; nil: all is still
}

// room tells whether a fastener can be driven among the boards there: the first of
// the tools that has room, at the head, then at the nut.
func (s *Site) room(d *Drive, t *Tools) Room {
	proud := math.Max(0, d.Long-d.Sunk[0]) // before it is driven
	out := d.Way.Negated()
	head := end{d.At, out, d.Sunk[0], d.Round, "head"}
	nut := end{d.At.Along(d.Way, d.Wood), d.Way, d.Sunk[1], d.Round, "nut"}
	switch d.Kind {
	case Screw:
		return s.first(&head, append(t.drills(&head, t.Bit.MM(), t.LongBit.MM(), proud), t.angle(&head, proud), t.askew(&head, proud)))
	case Lag:
		return s.first(&head, append(t.drills(&head, t.Bit.MM(), t.LongBit.MM(), proud), t.ratchet(&head, proud), t.wrench(&head, proud)))
	case Nail:
		return s.first(&head, []tool{t.hammer(&head, proud)})
	case Peg:
		if driven := s.first(&head, []tool{t.hammer(&head, proud)}); driven.Clear != Yes {
			return driven
		}
		return s.bored(d, t, &head, &nut)
	case Bolt:
		turned := s.first(&nut, []tool{t.ratchet(&nut, 0), t.wrench(&nut, math.Max(0, d.Long-d.Wood))})
		if turned.Clear != Yes {
			return turned
		}
		high := proud + t.Hand.MM()
		if put := s.first(&head, []tool{{name: "hand", needs: high, wide: d.Round, still: func() []cell { return []cell{rod(d.At, out, 0, high, d.Round)} }}}); put.Clear != Yes {
			return put
		}
		if drilled := s.bored(d, t, &head, &nut); drilled.Clear != Yes {
			return drilled
		}
		return turned
	}
	return Room{Tool: "hand", Free: Endless, Side: "head"}
}

// bored tells whether a hole right through the wood can be drilled, from its one end
// or its other.
func (s *Site) bored(d *Drive, t *Tools, head, nut *end) Room {
	long := d.Wood + float64(spin*inch)
	from := s.first(head, t.drills(&end{at: head.at, out: head.out}, long, math.Max(long, t.LongBit.MM()), 0))
	if from.Clear != Yes {
		if other := s.first(nut, t.drills(&end{at: nut.at, out: nut.out}, long, math.Max(long, t.LongBit.MM()), 0)); other.Clear == Yes {
			return other
		}
	}
	return from
}

// An end is an end of a fastener: where its axis comes out of the wood, and how deep
// under the face and how large what a tool takes hold of is.
type end struct {
	at, out geom.Vec
	sunk    float64
	round   float64
	side    string
}

// first returns the room of the first tool that has it, or of the first of all
// with what is in its way and what is in the way of the others.
func (s *Site) first(e *end, tools []tool) Room {
	var by []int
	for _, t := range tools {
		blocks := s.blocks(&t)
		if blocks == nil {
			far, _ := s.ahead(e.at, e.out)
			return Room{Tool: t.name, Needs: t.needs, Free: far, Side: e.side}
		}
		by = append(by, blocks...)
	}
	slices.Sort(by)
	by = slices.Compact(by)
	t := &tools[0]
	far, ahead := s.ahead(e.at, e.out)
	if at := slices.Index(by, ahead); far < t.needs && at > 0 { // what is in front is told first
		by[0], by[at] = by[at], by[0]
	}
	return Room{Clear: No, Tool: t.name, Needs: t.needs, Free: far, Side: e.side, Wide: t.wide, Beside: s.beside(e.at, e.out, t), By: by}
}

// beside returns how thick a rod about a tool's axis, as long as the tool, has room,
// up to what the tool takes; to within a hundredth.
func (s *Site) beside(at, out geom.Vec, t *tool) float64 {
	low, high := 0.0, t.wide
	for range 10 {
		middle := (low + high) / 2
		if s.inside([]cell{rod(at, out, 0, t.needs, middle)}) < 0 {
			low = middle
		} else {
			high = middle
		}
	}
	return low
}

// blocks returns boards in the way of a tool, however it is held; nil if none is.
func (s *Site) blocks(t *tool) []int {
	if t.still != nil {
		if i := s.inside(t.still()); i >= 0 {
			return []int{i}
		}
	}
	var by []int
	if t.held == nil {
		return nil
	}
	for k := range turns {
		i := s.inside(t.held(k))
		if i < 0 {
			return nil
		}
		if !slices.Contains(by, i) {
			by = append(by, i)
		}
	}
	return by
}

// inside returns the first board there that shares wood with a body, -1 if none does.
func (s *Site) inside(bodies []cell) int {
	found := -1
	for k := range bodies {
		s.around(bodies[k].box, func(i int) bool {
			for c := range s.boards[i].cells {
				if overlaps(&bodies[k], &s.boards[i].cells[c], geom.Touch) {
					found = i
					return false
				}
			}
			return true
		})
	}
	return found
}

// ahead returns how far a bit's shaft could be drawn back along its axis before it
// ran into a board, and which, -1 if none.
func (s *Site) ahead(at, out geom.Vec) (far float64, by int) {
	far, by = Endless, -1
	tip := rod(at, out, 0, 1, shaft)
	s.reached(tip.box, out, func(i int) bool {
		for c := range s.boards[i].cells {
			if from, to, ok := sweep(&tip, &s.boards[i].cells[c], out, geom.Touch); ok && to > 0 {
				if d := math.Max(0, from) + 1; d < far {
					far, by = d, i
				}
			}
		}
		return true
	})
	return far, by
}

// drills are a drill with a bit and one with a long bit, those that reach down to
// the head when it is home.
func (t *Tools) drills(e *end, bit, long, proud float64) []tool {
	var out []tool
	if bit > e.sunk {
		out = append(out, t.drill(e, bit-e.sunk, proud, "drill"))
	}
	return append(out, t.drill(e, math.Max(long-e.sunk, 0), proud, "drill with a long bit"))
}

// drill is a drill with a bit that stands so far out of its jaws, over the face, from
// the head of a screw that stands proud of it until it is home. Its grip needs room
// on one side.
//
// The bit for the thread's pilot goes in before; it is no longer than screw and bit
// together, so that where a screw can be driven its pilot can be drilled.
func (t *Tools) drill(e *end, bit, proud float64, name string) tool {
	back := bit + proud + t.DrillLong.MM()
	d := tool{name: name, needs: back, wide: t.DrillWide.MM() / 2}
	d.still = func() []cell {
		body := []cell{rod(e.at, e.out, bit, back, t.DrillWide.MM()/2)}
		if bit > 0 {
			body = append(body, rod(e.at, e.out, 0, bit, shaft))
		}
		return body
	}
	d.held = func(k int) []cell {
		side, _ := around(e.out, k)
		return []cell{bar(e.at, e.out, side, t.DrillGrip.MM(), t.DrillWide.MM(), bit+float64(t.DrillLong.MM()/2), back)}
	}
	return d
}

// angle is an angle driver, whose bit stands square to its body: low over the screw, its body to one side.
func (t *Tools) angle(e *end, proud float64) tool {
	high := t.AngleHigh.MM()
	back := high + proud
	a := tool{name: "angle driver", needs: back, wide: neckHalf, still: func() []cell { return []cell{rod(e.at, e.out, 0, back, neckHalf)} }}
	a.held = func(k int) []cell {
		side, _ := around(e.out, k)
		return []cell{bar(e.at, e.out, side, neckLong, 2*neckHalf, high/3, back),
			bar(e.at.Along(side, neckLong), e.out, side, math.Max(1, t.AngleLong.MM()-neckLong), t.AngleWide.MM(), high/3, back)}
	}
	return a
}

// askew is a drill with a long bit that leans away from what is beside the screw, its
// grip on that side.
func (t *Tools) askew(e *end, proud float64) tool {
	bit := math.Max(t.LongBit.MM()-e.sunk, 1)
	back := bit + proud + t.DrillLong.MM()
	a := tool{name: "drill with a long bit, held askew", needs: back, wide: shaft}
	a.held = func(k int) []cell {
		side, _ := around(e.out, k)
		out := e.out.Times(steady.Cos(lean)).Plus(side.Times(steady.Sin(lean)))
		return []cell{rod(e.at, out, 2, bit+2, shaft), rod(e.at, out, bit, back, t.DrillWide.MM()/2),
			bar(e.at, out, out.Cross(side).Cross(out).Unit(), t.DrillGrip.MM(), t.DrillWide.MM(), bit+float64(t.DrillLong.MM()/2), back)}
	}
	return a
}

// ratchet is a ratchet on a nut or on a head that stands proud of the wood until it
// is home: the sector its handle sweeps at a stroke. In a counterbore it takes an
// extension.
func (t *Tools) ratchet(e *end, proud float64) tool {
	low := math.Max(t.RatchetHigh.MM()-float64(1.5*inch)-e.sunk, 0)
	high := low + float64(1.5*inch) + proud
	r := tool{name: "ratchet", needs: high, wide: e.round + wall, still: func() []cell { return []cell{rod(e.at, e.out, 0, high, e.round+wall)} }}
	r.held = func(k int) []cell { return []cell{sector(e.at, e.out, k, t.RatchetLong.MM(), low, high)} }
	return r
}

// wrench is an open wrench, flat on the wood, for where a ratchet is too high. Into a
// counterbore it does not reach: it is then as wide as its handle.
func (t *Tools) wrench(e *end, proud float64) tool {
	high := math.Max(t.WrenchHigh.MM(), proud)
	w := tool{name: "open wrench", needs: high, wide: e.round + wall, still: func() []cell { return []cell{rod(e.at, e.out, -e.sunk, high, e.round+wall)} }}
	w.held = func(k int) []cell { return []cell{sector(e.at, e.out, k, t.WrenchLong.MM(), -e.sunk, high)} }
	return w
}

// hammer is a hammer over a nail, its handle to one side and swung back.
func (t *Tools) hammer(e *end, proud float64) tool {
	high := proud + t.HammerHigh.MM()
	h := tool{name: "hammer", needs: high, wide: face, still: func() []cell { return []cell{rod(e.at, e.out, 0, high, face)} }}
	h.held = func(k int) []cell {
		side, _ := around(e.out, k)
		return []cell{bar(e.at, e.out, side, t.HammerLong.MM(), float64(2*inch), float64(2*inch), high)}
	}
	return h
}

// around returns two unit directions square to out and to one another, turned
// about it by k of the turns.
func around(out geom.Vec, k int) (side, left geom.Vec) {
	x := geom.Vec{X: 1}
	if math.Abs(out.X) > 0.7 {
		x = geom.Vec{Y: 1}
	}
	e := x.Along(out, -out.Dot(x)).Unit()
	f := out.Cross(e)
	side = e.Times(compass[k][0]).Plus(f.Times(compass[k][1]))
	return side, out.Cross(side)
}

// compass is the cosine and sine of each turn.
var compass = func() (c [turns][2]float64) {
	for k := range c {
		a := float64(2*math.Pi) * float64(k) / turns
		c[k] = [2]float64{steady.Cos(a), steady.Sin(a)}
	}
	return c
}()

// rod is an eight-sided prism round a cylinder about the axis, between two heights.
func rod(at, out geom.Vec, from, to, radius float64) cell {
	const tan = 0.41421356237309503 // of an eighth of a half turn
	side, left := around(out, 0)
	foot := at.Along(out, from)
	base := make([]geom.Vec, 0, 8)
	for _, c := range [...][2]float64{{1, -tan}, {1, tan}, {tan, 1}, {-tan, 1}, {-1, tan}, {-1, -tan}, {-tan, -1}, {tan, -1}} {
		base = append(base, foot.Along(side, float64(c[0]*radius)).Along(left, float64(c[1]*radius)))
	}
	return prism(base, out, to-from)
}

// bar is a box that runs long mm from the axis toward side.
func bar(at, out, side geom.Vec, long, wide, from, to float64) cell {
	foot, left := at.Along(out, from), out.Cross(side)
	return prism([]geom.Vec{foot.Along(left, -wide/2), foot.Along(side, long).Along(left, -wide/2),
		foot.Along(side, long).Along(left, wide/2), foot.Along(left, wide/2)}, out, to-from)
}

// sector is a prism round what a handle as thick as a fist sweeps at a stroke,
// which begins at one of the turns.
func sector(at, out geom.Vec, k int, long, from, to float64) cell {
	side, left := around(out, k)
	const half = 1.0 * inch // half a fist
	foot := at.Along(out, from)
	var points [][2]float64
	for _, a := range []float64{0, stroke} {
		c, s := steady.Cos(a), steady.Sin(a)
		for _, p := range [][2]float64{{0, -half}, {long, -half}, {long, half}, {0, half}} {
			points = append(points, [2]float64{float64(p[0]*c) - float64(p[1]*s), float64(p[0]*s) + float64(p[1]*c)})
		}
	}
	// The corners run on a circle; its tangents at both ends meet over the middle.
	c, s := steady.Cos(stroke/2), steady.Sin(stroke/2)
	tip := (float64(long*long) + float64(half*half)) / (float64(long*c) - float64(half*s))
	points = append(points, [2]float64{float64(tip * c), float64(tip * s)})
	var base []geom.Vec
	for _, p := range hull(points) {
		base = append(base, foot.Along(side, p[0]).Along(left, p[1]))
	}
	return prism(base, out, to-from)
}

// hull returns the convex hull of points, counter-clockwise.
func hull(points [][2]float64) [][2]float64 {
	slices.SortFunc(points, func(a, b [2]float64) int { return cmp.Or(cmp.Compare(a[0], b[0]), cmp.Compare(a[1], b[1])) })
	var out [][2]float64
	for range 2 {
		start := len(out)
		for _, p := range points {
			for len(out) > start+1 && turn(out[len(out)-2], out[len(out)-1], p) <= geom.Same {
				out = out[:len(out)-1]
			}
			out = append(out, p)
		}
		out = out[:len(out)-1]
		slices.Reverse(points)
	}
	return out
}

// turn is twice the area of the triangle a, b, c, positive counter-clockwise.
func turn(a, b, c [2]float64) float64 {
	return float64((b[0]-a[0])*(c[1]-a[1])) - float64((b[1]-a[1])*(c[0]-a[0]))
}
