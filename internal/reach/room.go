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
	Dowel              // by hand, before the boards come together along it
	ByHand             // glue and the like: no tool
)

// A Drive is one fastener in place.
type Drive struct {
	Boards [2]int // the one its head lies on, and the other
	Kind   Kind
	At     geom.Vec // where it goes in, in the piece
	Way    geom.Vec // the way it goes, unit
	Long   float64  // mm, under the head
	Wood   float64  // mm of wood along it
	Round  float64  // mm, radius of its head, or of the washer under its nut
}

// Shapes of tools that nobody need change, in mm.
const (
	shaft    = 6.0          // radius of a bit and its holder
	wall     = 2.5          // of a socket, over what it holds
	neckHalf = 0.625 * inch // half the width of a right-angle head and of its neck
	neckLong = 4.0 * inch   // length of that neck, before the drill behind it begins
	face     = 16.0         // radius of a hammer's face
	spin     = 1.0          // in, how much deeper than the wood a bit for a bolt hole goes
	inch     = 25.4
	// A handle is turned so far at a stroke: a ratchet as far as a wrist goes, a
	// wrench until it can be turned over.
	stroke = math.Pi / 6
	turns  = 24 // in how many ways about the axis a tool is tried
)

// A tool is one way to do a job: what of it turns with it, and what does not.
type tool struct {
	name  string
	needs float64  // mm along the axis
	still []cell   // the same however it is turned
	turns [][]cell // one for each way it may be held; nil: all is still
}

// room tells whether a fastener can be driven among the boards there: the first of
// the tools that has room, at the head, then at the nut.
func (s *Site) room(d *Drive, t *Tools) Room {
	out := d.Way.Negated()
	proud := math.Max(d.Long, 0)
	head := func(tools ...tool) Room { return s.first(d.At, out, "head", tools) }
	switch d.Kind {
	case Screw:
		return head(t.drill(d.At, out, t.Bit.MM(), proud, "drill"), t.drill(d.At, out, t.LongBit.MM(), proud, "drill with a long bit"),
			t.angle(d.At, out, proud))
	case Lag:
		return head(t.drill(d.At, out, t.Bit.MM(), proud, "drill"), t.drill(d.At, out, t.LongBit.MM(), proud, "drill with a long bit"),
			t.ratchet(d.At, out, proud, d.Round), t.wrench(d.At, out, proud, d.Round))
	case Nail:
		return head(t.hammer(d.At, out, proud))
	case Bolt:
		nut := d.At.Along(d.Way, d.Wood)
		tail := math.Max(0, d.Long-d.Wood)
		turned := s.first(nut, d.Way, "nut", []tool{t.ratchet(nut, d.Way, 0, d.Round), t.wrench(nut, d.Way, tail, d.Round)})
		if turned.Clear != Yes {
			return turned
		}
		put := head(tool{name: "hand", needs: proud + t.Hand.MM(), still: []cell{rod(d.At, out, 0, proud+t.Hand.MM(), d.Round)}})
		if put.Clear != Yes {
			return put
		}
		long := d.Wood + float64(spin*inch)
		if from := head(t.drill(d.At, out, long, 0, "drill"), t.drill(d.At, out, math.Max(long, t.LongBit.MM()), 0, "drill")); from.Clear != Yes {
			if other := s.first(nut, d.Way, "nut", []tool{t.drill(nut, d.Way, long, 0, "drill"), t.drill(nut, d.Way, math.Max(long, t.LongBit.MM()), 0, "drill")}); other.Clear != Yes {
				return from
			}
		}
		return turned
	}
	return Room{Tool: "hand", Free: Endless, Side: "head"}
}

// first returns the room of the first tool that has it, or of the first of all
// with what is in its way and what is in the way of the others.
func (s *Site) first(at, out geom.Vec, side string, tools []tool) Room {
	var by []int
	for _, t := range tools {
		blocks := s.blocks(&t)
		if blocks == nil {
			return Room{Tool: t.name, Needs: t.needs, Free: s.ahead(at, out), Side: side}
		}
		by = append(by, blocks...)
	}
	slices.Sort(by)
	return Room{Clear: No, Tool: tools[0].name, Needs: tools[0].needs, Free: s.ahead(at, out), Side: side, By: slices.Compact(by)}
}

// blocks returns boards in the way of a tool, however it is held; nil if none is.
func (s *Site) blocks(t *tool) []int {
	if i := s.inside(t.still); i >= 0 {
		return []int{i}
	}
	var by []int
	for _, held := range t.turns {
		i := s.inside(held)
		if i < 0 {
			return nil
		}
		by = append(by, i)
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
// ran into a board.
func (s *Site) ahead(at, out geom.Vec) float64 {
	far := float64(Endless)
	tip := rod(at, out, 0, 1, shaft)
	s.reached(tip.box, out, func(i int) bool {
		for c := range s.boards[i].cells {
			if from, to, ok := sweep(&tip, &s.boards[i].cells[c], out, geom.Touch); ok && to > 0 {
				far = math.Min(far, math.Max(0, from)+1)
			}
		}
		return true
	})
	return far
}

// drill is a drill with a bit that stands so far out of its jaws, from the head of
// a screw that stands proud of the wood until it is home. Its grip needs room on
// one side.
//
// The bit for the thread's pilot goes in before; it is no longer than screw and bit
// together, so that where a screw can be driven its pilot can be drilled.
func (t *Tools) drill(at, out geom.Vec, bit, proud float64, name string) tool {
	back := bit + proud + t.DrillLong.MM()
	d := tool{name: name, needs: back, still: []cell{rod(at, out, 0, bit, shaft), rod(at, out, bit, back, t.DrillWide.MM()/2)}}
	for k := range turns {
		side, _ := around(out, k)
		d.turns = append(d.turns, []cell{bar(at, out, side, t.DrillGrip.MM(), t.DrillWide.MM(), bit+float64(t.DrillLong.MM()/2), back)})
	}
	return d
}

// angle is a right-angle driver: low over the screw, its body to one side.
func (t *Tools) angle(at, out geom.Vec, proud float64) tool {
	high := t.AngleHigh.MM()
	a := tool{name: "right-angle driver", needs: high + proud, still: []cell{rod(at, out, 0, high+proud, neckHalf)}}
	for k := range turns {
		side, _ := around(out, k)
		a.turns = append(a.turns, []cell{bar(at, out, side, neckLong, 2*neckHalf, high/3, high+proud),
			bar(at.Along(side, neckLong), out, side, t.AngleLong.MM()-neckLong, t.AngleWide.MM(), high/3, high+proud)})
	}
	return a
}

// ratchet is a ratchet on a nut or on a head that stands proud of the wood until it
// is home: the sector its handle sweeps at a stroke.
func (t *Tools) ratchet(at, out geom.Vec, proud, round float64) tool {
	high := t.RatchetHigh.MM()
	r := tool{name: "ratchet", needs: high + proud, still: []cell{rod(at, out, 0, high+proud, round+wall)}}
	for k := range turns {
		r.turns = append(r.turns, []cell{sector(at, out, k, t.RatchetLong.MM(), high-float64(1.5*inch), high+proud)})
	}
	return r
}

// wrench is an open wrench, flat on the wood, for where a ratchet is too high.
func (t *Tools) wrench(at, out geom.Vec, proud, round float64) tool {
	high := math.Max(t.WrenchHigh.MM(), proud)
	w := tool{name: "open wrench", needs: high, still: []cell{rod(at, out, 0, high, round+wall)}}
	for k := range turns {
		w.turns = append(w.turns, []cell{sector(at, out, k, t.WrenchLong.MM(), 0, high)})
	}
	return w
}

// hammer is a hammer over a nail, its handle to one side and swung back.
func (t *Tools) hammer(at, out geom.Vec, proud float64) tool {
	high := proud + t.HammerHigh.MM()
	h := tool{name: "hammer", needs: high, still: []cell{rod(at, out, 0, high, face)}}
	for k := range turns {
		side, _ := around(out, k)
		h.turns = append(h.turns, []cell{bar(at, out, side, t.HammerLong.MM(), float64(2*inch), float64(2*inch), high)})
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
	a := float64(2*math.Pi) * float64(k) / turns
	side = e.Times(steady.Cos(a)).Plus(f.Times(steady.Sin(a)))
	return side, out.Cross(side)
}

// rod is an eight-sided prism round a cylinder about the axis, between two heights.
func rod(at, out geom.Vec, from, to, radius float64) cell {
	const cos = 0.9238795325112867 // of an eighth of a half turn
	var base []geom.Vec
	for k := 0; k < turns; k += 3 {
		side, _ := around(out, k)
		base = append(base, at.Along(out, from).Along(side, radius/cos))
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
	half := 1.0 * inch // half a fist
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
