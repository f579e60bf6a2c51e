package joint

import (
	"cmp"
	"math"
	"slices"

	"scantling/internal/design"
	"scantling/internal/geom"
	"scantling/internal/measure"
	"scantling/internal/screw"
)

// A Plate is a bracket in place: bent into the corner where a side of one board
// stands square on another, or flat over the line where the faces of two are flush.
type Plate struct {
	At   geom.Vec // on the line where the two boards meet, in the middle of its breadth; in the piece
	Side geom.Vec // along that line, unit
	Wide float64  // mm
	Legs [2]Leg
}

// A Leg is the half of a bracket that lies on one board.
type Leg struct {
	On   *design.Board
	Way  geom.Vec // from the plate's At along the board's face, unit
	Out  geom.Vec // out of that face, unit
	Long float64  // mm
}

// holesOfLeg are the places of the screws of a leg, as parts of its length.
// Source: sizes usually sold, from memory; makers differ, so that holes are marked
// through the bracket.
var holesOfLeg = [2]float64{3. / 8, 13. / 16}

// brackets sets the i-th thing a joint is made with, brackets, in each of its pairs,
// and their screws: those named right after them, else wood screws as long as the
// wood and the screws of other brackets allow.
func (f *finder) brackets(j *Joint, i int) {
	g := &group{joint: j, with: bracketScrew(j.With[i]), said: j.fastening(i)}
	at := len(j.With) // of the screws among the uses of a pair
	if i+1 < len(j.With) && j.With[i+1].Screwed() {
		at, g.with, g.said = i+1, j.With[i+1], j.fastening(i+1)
	}
	lengths := []measure.Length{g.with.Length}
	if g.with.Length == 0 {
		lengths = slices.Clone(g.with.Lengths)
		slices.Reverse(lengths)
		lengths = slices.DeleteFunc(lengths, func(l measure.Length) bool { return l > inchOf(g.with)*3/2 })
	}
	before := len(f.fixed)
	for n, l := range lengths {
		g.with.Length = l
		thin, missing := f.set(g, i, at)
		wood, _ := measure.FromMM(thin)
		fits := l <= wood-coverOf(g.with)
		if missing == nil && fits {
			return
		}
		if n+1 < len(lengths) {
			f.fixed = f.fixed[:before]
			continue
		}
		if missing != nil {
			f.noPlace(j, i, missing)
		} else {
			f.plateScrew(g, wood)
		}
	}
}

// set places the brackets of all pairs of a joint with their screws. It returns the
// least wood under a screw, and the first pair that finds no place.
func (f *finder) set(g *group, i, at int) (thin float64, missing *Pair) {
	j := g.joint
	thin = math.Inf(1)
	for k := range j.Pairs {
		p := &j.Pairs[k]
		if len(p.Uses) == at {
			p.Uses = append(p.Uses, Use{})
		}
		u, screws := &p.Uses[i], &p.Uses[at]
		u.Plates = f.plates(p, j, u.Fastener, g.with, max(1, j.Pattern.Count))
		u.Count = len(u.Plates)
		*screws = Use{Fastener: g.with}
		for _, plate := range u.Plates {
			screws.Axes = append(screws.Axes, plate.axes()...)
		}
		screws.Count = len(screws.Axes)
		for _, a := range screws.Axes {
			thin = math.Min(thin, a.Stack[1])
			f.fixed = append(f.fixed, newThorn(g, p, screws, a))
		}
		if u.Count == 0 && missing == nil {
			missing = p
		}
	}
	return thin, missing
}

// gauge is how thick a bracket is drawn, in mm. Source: sizes usually sold, from
// memory.
const gauge = 2.5

// Placed returns the solids of a bracket's legs, in the piece.
func (p *Plate) Placed() (out []geom.Placed) {
	for _, leg := range p.Legs {
		f := design.Fitting{Size: geom.Vec{X: leg.Long, Y: p.Wide, Z: gauge},
			At: geom.Pose{At: p.At.Along(leg.Way, leg.Long/2), X: leg.Way, Y: leg.Out.Cross(leg.Way), Z: leg.Out}}
		out = append(out, f.Placed())
	}
	return out
}

// axes returns where the screws of a bracket stand.
func (p *Plate) axes() (out []Axis) {
	for _, leg := range p.Legs {
		for _, part := range holesOfLeg {
			q := p.At.Along(leg.Way, float64(part*leg.Long))
			wood, _ := under(leg.On, q, leg.Out)
			out = append(out, Axis{At: q.Plus(geom.Vec{}), Way: leg.Out.Negated().Plus(geom.Vec{}), Stack: [2]float64{0, wood}, In: leg.On.ID})
		}
	}
	return out
}

// bracketScrew is what holds a bracket when nothing is named.
func bracketScrew(w screw.Fastener) screw.Fastener {
	name := "wood screw 8"
	if w.Metric() {
		name = "wood screw 4.0"
	}
	out, err := screw.Parse(name)
	if err != nil {
		panic("joint: " + err.Error())
	}
	out.Finish = w.Finish
	return out
}

// A seat is a stretch of a contact's border where a bracket may sit.
type seat struct {
	a, side geom.Vec // its start and the way it runs
	long    float64
	legs    [2]Leg
}

// plates places n brackets round a contact: one on each border that has room for
// one, the longest first, then a second on each.
func (f *finder) plates(p *Pair, j *Joint, w, held screw.Fastener, n int) []Plate {
	seats := seats(p, w)
	if j.From != "" {
		seats = slices.DeleteFunc(seats, func(s seat) bool {
			side, ok := s.legs[0].On.Named(j.From)
			return !ok || s.legs[0].On.Pose.OutWay(side.Out()).Dot(s.legs[0].Out) < math.Sqrt2/2
		})
	}
	wide := math.Max(12.7, math.Min(25.4, w.Length.MM()/4))
	for each := 1; each <= n && len(seats) > 0; each++ {
		var out []Plate
		for _, s := range seats {
			for i := range each {
				plate := Plate{Side: s.side, Wide: wide, Legs: s.legs}
				if f.along(p, s, held, &plate, (float64(i)+0.5)/float64(each), each) && len(out) < n {
					out = append(out, plate)
				}
			}
		}
		if len(out) == n {
			return out
		}
	}
	return nil
}

// seats returns the borders of a contact beyond which the faces of its boards stand
// square to one another, for a corner bracket, or are flush, for a flat one: the
// longest first, of equal ones that which looks up or in, else that in front.
func seats(p *Pair, w screw.Fastener) []seat {
	r := regionOf(p, nil)
	boards := [2]*design.Board{p.Through, p.Into()}
	deep := [2]geom.Vec{p.outward(), p.outward().Negated()} // into either board
	var out []seat
	for _, b := range r.borders {
		way := r.u.Times(-b.in.x).Along(r.v, -b.in.y)
		ends := [2]bool{b.of[0] != nothing, b.of[1] != nothing}
		side := r.out(b.b).Minus(r.out(b.a))
		s := seat{a: r.out(b.a), side: side.Unit(), long: side.Length()}
		k := 0 // the board that ends here
		if !ends[0] {
			k = 1
		}
		switch {
		case w.Family == screw.Corner && ends[0] != ends[1]:
			l := w.Length.MM()
			s.legs = [2]Leg{{boards[k], deep[k], way, l}, {boards[1-k], way, deep[k], l}}
		case w.Family == screw.FlatBracket && ends[0] && ends[1]:
			l := w.Length.MM() / 2
			s.legs = [2]Leg{{boards[0], deep[0], way, l}, {boards[1], deep[1], way, l}}
		default:
			continue
		}
		out = append(out, s)
	}
	slices.SortStableFunc(out, func(a, b seat) int {
		if math.Abs(a.long-b.long) > geom.Alike {
			return cmp.Compare(b.long, a.long)
		}
		in := func(s seat) int {
			if looksIn(s.legs[0].Out, s.middle()) {
				return 0
			}
			return 1
		}
		return cmp.Or(cmp.Compare(in(a), in(b)), apart(a.middle().Y, b.middle().Y), apart(a.middle().Z, b.middle().Z))
	})
	return out
}

func (s *seat) middle() geom.Vec { return s.a.Along(s.side, s.long/2) }

// apart compares two coordinates, those of one place as equal.
func apart(a, b float64) int {
	if math.Abs(a-b) < geom.Alike {
		return 0
	}
	return cmp.Compare(a, b)
}

// along finds where on a seat a bracket sits whose middle should be a part of the
// way along it, moved as little as needed for its screws to stand in the faces and
// clear of those of other brackets.
func (f *finder) along(p *Pair, s seat, held screw.Fastener, plate *Plate, part float64, each int) bool {
	const step = 25.4 / 8
	aim, room := float64(part*s.long), float64(s.long/float64(2*each))-float64(plate.Wide/2)
	for off := 0.0; off <= room+geom.Same; off += step {
		for _, t := range []float64{aim + off, aim - off} {
			plate.At = s.a.Along(s.side, t)
			if f.sits(p, plate, held) {
				return true
			}
		}
	}
	return false
}

// sits reports whether every screw of a bracket stands in the face its leg lies on,
// a diameter and a half from its edges, clear of the screws of other brackets, and no
// other board lies there.
func (f *finder) sits(p *Pair, plate *Plate, held screw.Fastener) bool {
	far := float64(1.5 * held.Diameter().MM())
	for _, leg := range plate.Legs {
		for _, part := range holesOfLeg {
			q := plate.At.Along(leg.Way, float64(part*leg.Long))
			for _, o := range [5]geom.Vec{q, q.Along(plate.Side, far), q.Along(plate.Side, -far), q.Along(leg.Way, far), q.Along(leg.Way, -far)} {
				if _, ok := under(leg.On, o, leg.Out); !ok {
					return false
				}
			}
			for _, b := range f.beside(leg.On) {
				if b == p.A || b == p.B {
					continue
				}
				for _, run := range b.Solid.Through(b.Pose.In(q), b.Pose.InWay(leg.Out)) {
					if run[0] < plateThick && run[1] > geom.Touch {
						return false
					}
				}
			}
		}
	}
	for _, a := range plate.axes() {
		n := newThorn(nil, p, &Use{Fastener: held}, a)
		for i := range f.fixed {
			if o := &f.fixed[i]; o.in[0] == n.in[0] && o.pair != p && n.gap(o) < apartBy {
				return false
			}
		}
	}
	return true
}

// plateThick is the room a bracket and the heads of its screws take over a face, in
// mm. Source: common practice.
const plateThick = 6.0

// under returns the wood a board has below a place on its face, and whether the
// place does lie on its surface.
func under(b *design.Board, at, out geom.Vec) (float64, bool) {
	const above = 1.0
	for _, s := range b.Solid.Through(b.Pose.In(at.Along(out, above)), b.Pose.InWay(out.Negated())) {
		if math.Abs(s[0]-above) < geom.Touch {
			return s[1] - s[0], true
		}
	}
	return 0, false
}
