package design

import (
	"math"
	"slices"

	"scantling/internal/board"
	"scantling/internal/expr"
	"scantling/internal/geom"
	"scantling/internal/measure"
	"scantling/internal/phrase"
	"scantling/internal/setout"
	"scantling/internal/snag"
	"scantling/internal/span"
)

// readings are the words after a board's dot, beside its sides and cuts.
var readings = []string{"thickness", "width", "length", "short_length", "edge_length", "left", "right", "front", "back", "top", "bottom",
	"leftmost", "rightmost", "foremost", "backmost", "highest", "lowest", "middle", "steepness"}

// section reads thickness and width, which need no copy.
func (e *env) section(r *expr.Ref, l *lot) (expr.Value, bool) {
	if len(r.Path) != 2 {
		return expr.Value{}, false
	}
	switch r.Path[1].Text {
	case "thickness":
		s := l.sectionAt()
		if !s.ok {
			return expr.Value{}, true
		}
		return expr.Num(s.t.Quantity(), s.tFrom), true
	case "width":
		if l.d.numbered() {
			break // its boards may be ripped each to its own
		}
		s := l.sectionAt()
		if !s.ok {
			return expr.Value{}, true
		}
		return expr.Num(s.w.Quantity(), s.from), true
	}
	return expr.Value{}, false
}

// reading reads what follows the dot of the chosen copies.
func (e *env) reading(r *expr.Ref, l *lot, of []*member) expr.Value {
	word := r.Path[1]
	d, ok := setout.ParseSide(word.Text)
	if f := l.frameOf(); !ok && f.ok && l.d.between != nil && (word.Text == "from" || word.Text == "to") {
		end := board.Start
		if word.Text == "to" {
			end = board.Finish
		}
		d, ok = of[0].copy.Word(f.Words[end]), true
	}
	if ok {
		if len(r.Path) == 3 && r.Path[2].Text == "setting" {
			return e.setting(r, of[0], d)
		}
		if len(r.Path) == 2 {
			return e.side(r, l, of, d)
		}
	}
	for i, w := range mostWords {
		if word.Text == w && len(r.Path) == 2 {
			return e.extent(r, l.withPlies(of), setout.Dir(i))
		}
	}
	if len(of) > 1 {
		return e.shared(r, l, of)
	}
	m := of[0]
	if v, ok := e.rowReading(r, l); ok {
		return v
	}
	if cut, i := m.cut(word.Text); cut != nil {
		return e.cutReading(r, m, cut, i)
	}
	if len(r.Path) == 2 {
		switch word.Text {
		case "width":
			if w := m.one.width(); w.ok {
				return expr.Num(measure.Quantity{V: w.Size() * nmPerMM, D: measure.DimLength}, w.from)
			}
			return expr.Value{}
		case "length", "short_length", "edge_length":
			return e.lengthReading(r, m, word.Text)
		case "middle":
			if m.rough() == nil {
				return expr.Value{}
			}
			return expr.Value{Kind: expr.Position, From: m.fromWood(), Place: &place{any: true, says: phrase.Spaced(l.d.name) + ", middle",
				mid: func(d setout.Dir) float64 { return m.middle(e.room.Room, d) }}}
		case "steepness":
			f := l.frameOf()
			if !f.ok {
				return expr.Value{}
			}
			return expr.Num(measure.Quantity{V: f.Steepness() / math.Pi * 180 * float64(measure.Degree), D: measure.DimAngle}, f.from)
		}
	}
	return e.noReading(r, l)
}

// rowReadings are the words after a row's dot that read its figures.
var rowReadings = []string{"gap", "dried_gap", "count", "leftover"}

// rowReading reads a figure of a row: the gap between its boards, how many they
// are, and the space left before the first and after the last.
func (e *env) rowReading(r *expr.Ref, l *lot) (expr.Value, bool) {
	if l.d.field != nil && len(r.Path) == 2 {
		return e.fieldReading(r, l)
	}
	if l.d.row == nil || len(r.Path) != 2 || !slices.Contains(rowReadings, r.Path[1].Text) {
		return expr.Value{}, false
	}
	row := l.rowOf()
	if !row.ok {
		return expr.Value{}, true
	}
	mm := row.Gap
	switch r.Path[1].Text {
	case "count":
		return expr.Num(measure.Number(float64(len(row.Boards))), row.from), true
	case "dried_gap":
		mm = row.Dried
	case "leftover":
		mm = row.Start + row.End
	}
	return expr.Num(measure.Quantity{V: mm * nmPerMM, D: measure.DimLength}, row.from), true
}

// shared reads a number that several copies have alike, as mirror images do.
func (e *env) shared(r *expr.Ref, l *lot, of []*member) expr.Value {
	var first expr.Value
	for i, m := range of {
		v := e.reading(r, l, []*member{m})
		switch {
		case v.Kind == expr.Unknown:
			return v
		case v.Kind != expr.Number:
			return e.several(r, l)
		case i == 0:
			first = v
		case math.Abs(v.Q.V-first.Q.V) > geom.Same*nmPerMM:
			return e.several(r, l)
		}
		first.From = first.From.Union(v.From)
	}
	return first
}

func (e *env) several(r *expr.Ref, l *lot) expr.Value {
	return e.tell("several-copies", r.At, "these words leave several copies of "+phrase.Spaced(l.d.name)+", and a measure reads one", snag.Say("add a word that picks one of them"))
}

func (e *env) noReading(r *expr.Ref, l *lot) expr.Value {
	e.w.tell(l.d.unreadable(e.node, r))
	return expr.Value{}
}

// side reads a side as a plane. Several copies will do if theirs is one plane.
func (e *env) side(r *expr.Ref, l *lot, of []*member, d setout.Dir) expr.Value {
	var first sideAt
	var side board.Side
	for i, m := range of {
		p, s, found := m.plane(d)
		if !found || !p.ok {
			return expr.Value{}
		}
		if i == 0 {
			first, side = p, s
			continue
		}
		near, ok := m.homePoint(false)
		if !ok {
			return expr.Value{}
		}
		if !setout.SamePlane(first.plane, p.plane, near) {
			return e.several(r, l)
		}
		first.from, first.turn = first.from.Union(p.from), first.turn.Union(p.turn)
	}
	if is := sideKind(side); r.Check != "" && r.Check != is {
		return e.tell("not-that-side", r.At, "the "+d.Side()+" of "+phrase.Spaced(l.d.name)+" is its "+is+", not an "+r.Check, snag.Say("leave “"+r.Check+"” out, or name another side"))
	}
	m := of[0]
	p := &place{plane: first.plane, turn: first.turn, of: m, side: side, word: d, says: phrase.Spaced(l.d.name) + ", " + d.Side()}
	if side.IsEdge() {
		p.show = m.show
	}
	return expr.Value{Kind: expr.Plane, Place: p, From: first.from}
}

func sideKind(s board.Side) string {
	switch {
	case s.IsEnd():
		return "end"
	case s.IsEdge():
		return "edge"
	}
	return "face"
}

// extent reads how far the finished boards reach: of several copies, the
// furthest.
func (e *env) extent(r *expr.Ref, of []*member, d setout.Dir) expr.Value {
	best, from := 0.0, span.Set{}
	for i, m := range of {
		b := m.finished()
		if b == nil || b.Solid == nil {
			return expr.Value{}
		}
		at := setout.Extent(b, e.room.Room, d)
		if i == 0 || (at-best)*d.Sign() > 0 {
			best = at
		}
		from = from.Union(m.from())
	}
	return expr.Value{Kind: expr.Position, From: from,
		Place: &place{plane: e.room.Plane(d, best), turn: e.room.turn, says: phrase.Spaced(of[0].lot.d.name) + ", " + mostWords[d]}}
}

func (e *env) lengthReading(r *expr.Ref, m *member, word string) expr.Value {
	b := m.one.blank()
	if !b.ok {
		return expr.Value{}
	}
	mm := b.L
	switch word {
	case "short_length":
		mm = b.Short
	case "edge_length":
		if mm = b.EdgeLength; mm == 0 {
			return e.tell("no-such-reading", r.At, "the ends of "+phrase.Spaced(m.lot.d.name)+" are not parallel, so its edges differ", snag.Say("read .length or .short_length"))
		}
	}
	return expr.Num(measure.Quantity{V: mm * nmPerMM, D: measure.DimLength}, b.long)
}

// setting reads the saw's setting at one end: how far off square.
func (e *env) setting(r *expr.Ref, m *member, d setout.Dir) expr.Value {
	p, side, found := m.plane(d)
	b := m.one.blank()
	if !found || !p.ok || !b.ok {
		return expr.Value{}
	}
	if !side.IsEnd() {
		return e.tell("not-that-side", r.At, "the "+d.Side()+" of "+phrase.Spaced(m.lot.d.name)+" is its "+sideKind(side)+", and a saw is set for its ends", snag.Say("name an end"))
	}
	n := b.End(side).N
	local := geom.Plane{N: geom.Vec{X: n.Dot(b.Run), Y: n.Dot(b.Edge), Z: n.Dot(b.Face)}}
	mitre, bevel := board.Setting(local)
	if math.Abs(mitre) < 1e-9 {
		mitre = bevel
	}
	return expr.Num(measure.Quantity{V: math.Abs(mitre) / math.Pi * 180 * float64(measure.Degree), D: measure.DimAngle}, b.from)
}
