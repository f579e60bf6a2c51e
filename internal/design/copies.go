package design

import (
	"math"
	"strconv"

	"scantling/internal/board"
	"scantling/internal/expr"
	"scantling/internal/geom"
	"scantling/internal/measure"
	"scantling/internal/setout"
	"scantling/internal/snag"
	"scantling/internal/span"
)

// copyings multiplies the written boards by the list of copies, in its order.
func (l *lot) copyings() []*copying {
	return get(l.w, &l.copies, l.key("copies"), l.d.at, func() []*copying { return l.multiplied(l.marked) })
}

// multiplied multiplies what is written by the list of copies; marked makes those
// of marks and every.
func (l *lot) multiplied(marked func(*copyDecl, []*copying, span.Set) []*copying) []*copying {
	all := []*copying{{Move: setout.Still(), written: true, room: l.turnedRoom()}}
	for _, c := range l.d.copies {
		yes, from, known := l.w.holds(c.when)
		if !known || !yes {
			continue
		}
		var next []*copying
		switch c.way {
		case "mirror", "flip":
			next = l.mirrored(c, all, from)
		case "turn":
			next = l.turned(c, all, from)
		default:
			next = marked(c, all, from)
		}
		if next == nil {
			return all // told; the rest would be told again
		}
		all = next
	}
	return all
}

// turnedRoom is the room the lot's words are said in, nil when it is turned as the
// piece is.
func (l *lot) turnedRoom() *setout.Room {
	if r := l.heading(); setout.Carry(setout.Piece(), r) != setout.Shift(r.At) {
		return &r
	}
	return nil
}

// Word returns the word a side of a copy answers to if it answered to d before, in
// the room its boards are said in.
func (c *copying) Word(d setout.Dir) setout.Dir {
	if c.room == nil {
		return c.Move.Word(d)
	}
	in := setout.Carry(setout.Piece(), *c.room)
	return in.Then(c.Move).Then(in.Undone()).Word(d)
}

// toward returns where a word of the copy points in the piece.
func (c *copying) toward(d setout.Dir) setout.Dir {
	if c.room == nil {
		return c.Move.Word(d)
	}
	return setout.Carry(setout.Piece(), *c.room).Then(c.Move).Word(d)
}

// tooMany refuses copies by the thousand before they are made.
func (l *lot) tooMany(c *copyDecl, n int) bool {
	if n > maxCount {
		l.w.error("absurd-count", c.node.Range, "these copies come to "+strconv.Itoa(n)+", and a piece has at most "+strconv.Itoa(maxCount)+" boards", "", snag.Say("make fewer"))
	}
	return n > maxCount
}

// then returns c carried on by a move, under one more step of the path.
func (c *copying) then(m setout.Move, step, call string, from span.Set) *copying {
	out := &copying{Move: c.Move.Then(m), number: c.number, room: c.room, from: c.from.Union(from)}
	out.path = append(append(out.path, c.path...), step)
	out.calls = append(out.calls, c.calls...)
	if call != "" {
		out.calls = append(out.calls, call)
	}
	return out
}

// named returns c with one more call word, "" for none.
func (c *copying) named(call string) *copying {
	if call == "" {
		return c
	}
	out := *c
	out.calls = append(append([]string(nil), c.calls...), call)
	return &out
}

// called returns the call word of copy i, and checks how many there are.
func (l *lot) called(c *copyDecl, i, n int) string {
	if len(c.call) == 0 {
		return ""
	}
	if len(c.call) != n {
		l.w.error("call-count", c.callAt, "there are "+strconv.Itoa(n)+" copies here, and "+strconv.Itoa(len(c.call))+" names for them", "", snag.Say("name each, in order, the written one first"))
		return ""
	}
	return c.call[i]
}

// mirrorPlace returns where a mirror stands.
func (l *lot) mirrorPlace(c *copyDecl) (at float64, from span.Set, ok bool) {
	if c.about == nil {
		return 0, span.Set{}, true
	}
	v, p := l.placeOf(c.about, l.home(), "a mirror")
	if p == nil {
		return 0, span.Set{}, false
	}
	e := c.about.env(l.w, l.home())
	at, ok = e.coordinate(p, setout.Dir(c.axis), c.about.x)
	return at, v.From, ok
}

func (l *lot) mirrored(c *copyDecl, all []*copying, from span.Set) []*copying {
	at, more, ok := l.mirrorPlace(c)
	if !ok || l.tooMany(c, 2*len(all)) {
		return nil
	}
	from = from.Union(more)
	m := setout.Mirror(l.heading(), setout.Dir(c.axis), at)
	if c.way == "flip" {
		for i, o := range all {
			all[i] = o.then(m, "flipped-"+c.pair, l.called(c, 0, 1), from)
		}
		return all
	}
	out := make([]*copying, 0, 2*len(all))
	for _, o := range all {
		out = append(out, o.named(l.called(c, 0, 2)))
	}
	for _, o := range all {
		out = append(out, o.then(m, c.pair, l.called(c, 1, 2), from))
	}
	return out
}

func (l *lot) turned(c *copyDecl, all []*copying, from span.Set) []*copying {
	a := l.w.angle(c.angle, "a turn")
	if !a.ok {
		return nil
	}
	deg := a.v / float64(measure.Degree)
	n := math.Round(360 / deg)
	if !(deg > 0) || n < 2 || math.Abs(float64(n*deg)-360) > 1e-6 {
		l.w.error("turn-uneven", c.node.Range, "turns by "+l.w.d.print(measure.Quantity{V: a.v, D: measure.DimAngle})+" do not come round to where they began", "", snag.Say("write 180° for two, 120° for three, 90° for four"))
		return nil
	}
	if n > 360 {
		l.w.error("absurd-count", c.node.Range, "so small a turn makes "+strconv.Itoa(int(n))+" copies", "", snag.Say("turn by 1° or more"))
		return nil
	}
	if l.tooMany(c, int(n)*len(all)) {
		return nil
	}
	through := l.heading().At
	if c.about != nil {
		v := l.w.eval(c.about, l.home())
		if v.Kind != expr.Point {
			if v.Kind != expr.Unknown {
				l.w.error("wrong-kind", c.about.node.Range, "a turn is about a point, and this is "+v.A(), "", snag.Say("name a point under points:"))
			}
			return nil
		}
		through, from = v.Place.(*place).point, from.Union(v.From)
	}
	var out []*copying
	for k := 0; k < int(n); k++ {
		m := setout.Turn(l.heading(), setout.Up, through, float64(float64(k)*(2*math.Pi))/n)
		for _, o := range all {
			call := l.called(c, k, int(n))
			if k == 0 {
				out = append(out, o.named(call))
				continue
			}
			out = append(out, o.then(m, "turn"+strconv.FormatFloat(float64(float64(k)*deg), 'f', -1, 64), call, from.Union(a.from)))
		}
	}
	return out
}

// A markAt is one distance of marks or every.
type markAt struct {
	at   float64 // coordinate on the axis of toward, mm
	from span.Set
}

// markPlaces returns where the marked sides stand.
func (l *lot) markPlaces(c *copyDecl, in room) []markAt {
	m := c.marks
	d := setout.Dir(m.toward)
	zero, from, ok := l.limit(m.from, in, d)
	if !ok {
		return nil
	}
	var out []markAt
	if c.way == "marks" {
		for _, s := range m.at {
			f := l.w.length(s, "a mark")
			if !f.ok {
				return nil
			}
			out = append(out, markAt{zero + float64(d.Sign()*f.mm()), from.Union(f.from)})
		}
		return out
	}
	each := l.w.length(m.each, "the distance of every")
	to, more, ok := l.limit(m.to, in, d)
	if !each.ok || !ok {
		return nil
	}
	steps, err := setout.Steps(float64((to-zero)*d.Sign()), each.mm())
	if err != nil {
		l.w.fault(m.node.Range, err, "every")
		return nil
	}
	for _, s := range steps {
		out = append(out, markAt{zero + float64(d.Sign()*s), from.Union(each.from, more)})
	}
	return out
}

// limit reads a place, or a bare length from the room's zero, on an axis.
func (l *lot) limit(s *said, in room, d setout.Dir) (float64, span.Set, bool) {
	v := l.w.eval(s, in)
	if v.Kind == expr.Number && (v.Q.D == measure.DimLength || v.Q == measure.Number(0)) {
		return float64(d.Sign() * v.Q.V / nmPerMM), v.From.Union(in.from), true
	}
	if v.Kind != expr.Position && v.Kind != expr.Plane {
		if v.Kind != expr.Unknown {
			l.w.error("wrong-kind", s.node.Range, "a position, a side or a length belongs here, and this is "+v.A(), "", snag.Say("say where it is"))
		}
		return 0, span.Set{}, false
	}
	at, ok := s.env(l.w, in).coordinate(v.Place.(*place), d, s.x)
	return at, v.From, ok
}

func (l *lot) marked(c *copyDecl, all []*copying, from span.Set) []*copying {
	f := l.frameOf()
	places := l.markPlaces(c, f.room)
	if !f.ok || len(places) == 0 || l.tooMany(c, len(places)*len(all)) {
		return nil
	}
	d := setout.Dir(c.marks.toward)
	var out []*copying
	for i, p := range places {
		step := strconv.Itoa(i + 1)
		target := f.room.Plane(d, p.at)
		for _, o := range all {
			call := l.called(c, i, len(places))
			n := o.then(setout.Still(), step, call, from.Union(p.from))
			n.number = i + 1
			if i == 0 && o.written && !f.Side(d).IsEnd() { // the marks hold the written board
				n.written, n.Move = true, o.Move
				out = append(out, n)
				continue
			}
			side, ok := l.markedPlane(c, o, f)
			if !ok {
				return nil
			}
			m, err := setout.ShiftOnto(f.room.Room, side, target, d)
			if err != nil {
				l.w.fault(c.marks.node.Range, err, "a mark")
				return nil
			}
			n.Move, n.written = o.Move.Then(m), i == 0 && o.written
			out = append(out, n)
		}
	}
	return out
}

// markedPlane returns the plane of the side, or the middle, that marks measure
// to, on a copy made so far.
func (l *lot) markedPlane(c *copyDecl, o *copying, f frameAt) (geom.Plane, bool) {
	s := &single{lot: l, d: l.d}
	if l.d.row == nil {
		s = l.singles()[0]
	} else if all := l.singles(); len(all) > 0 {
		s = all[0]
	}
	d := setout.Dir(c.marks.toward)
	for side, word := range f.Words {
		if !c.marks.middle && o.Word(word) != setout.Dir(c.marks.of) || c.marks.middle && o.Word(word) != d {
			continue
		}
		if !c.marks.middle {
			p := s.plane(board.Side(side))
			return o.Plane(p.plane), p.ok
		}
		p, q := s.plane(board.Side(side)), s.plane(board.Side(side).Opposite())
		mid := p.plane
		mid.D = (p.plane.D - q.plane.D) / 2
		return o.Plane(mid), p.ok && q.ok
	}
	return geom.Plane{}, false
}

// marksAcross returns the first list of marks that measures across the pair of
// sides, and so holds the written board.
func (l *lot) marksAcross(f frameAt, pair board.Side) (*marksDecl, *copyDecl) {
	for _, c := range l.d.copies {
		if c.marks == nil {
			continue
		}
		if side := f.Side(setout.Dir(c.marks.toward)); across(side, pair) {
			if yes, _, _ := l.w.holds(c.when); yes {
				return c.marks, c
			}
		}
	}
	return nil, nil
}

// holdMarks puts the written board on the first mark.
func (l *lot) holdMarks(m *marksDecl, c *copyDecl, f frameAt, pair board.Side, size float64) slabAt {
	places := l.markPlaces(c, f.room)
	if len(places) == 0 {
		return slabAt{}
	}
	d := setout.Dir(m.toward)
	target := f.room.Plane(d, places[0].at)
	var slab setout.Slab
	var err error
	side := f.Side(d)
	if m.middle {
		slab, err = setout.HoldMiddle(f.Frame, pair, size, target, nil, nil)
	} else {
		side = f.Side(setout.Dir(m.of))
		slab, err = setout.Hold(f.Frame, setout.Dir(m.of), size, target, nil, nil)
	}
	if err != nil {
		l.w.fault(m.node.Range, err, "a mark")
		return slabAt{}
	}
	return slabAt{slab, nil, side, places[0].from.Union(f.from), true}
}
