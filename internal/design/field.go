package design

import (
	"scantling/internal/board"
	"scantling/internal/expr"
	"scantling/internal/geom"
	"scantling/internal/measure"
	"scantling/internal/phrase"
	"scantling/internal/setout"
	"scantling/internal/snag"
	"scantling/internal/span"
)

// isBoards reports whether a name of the kind stands for boards.
func (k kind) isBoards() bool { return k == aPart || k == aRow || k == aField }

// numbered reports whether the boards are told apart by numbers: a row or a field.
func (d *boardDecl) numbered() bool { return d.row != nil || d.field != nil }

// field reads what a field fills, and how.
func (r *reader) field(d *boardDecl, b *entry) *fieldDecl {
	f := &fieldDecl{node: b.node, gap: b.said("gap"), leftover: b.word("leftover"), middle: b.word("middle"), least: b.said("least")}
	if f.leftover != "" && f.middle != "" {
		r.snag("said-twice", keyRange(b, "middle", d.at), "this field says twice where the rest goes", "", snag.Say("keep leftover: or middle:"))
		f.middle = ""
	}
	out, corners := b.find("outline"), b.find("corners")
	switch {
	case out != nil && corners != nil:
		r.snag("said-twice", corners.Range, "this field has an outline and corners", "the one follows from the other", snag.Say("keep outline: for a rectangle, corners: for any other shape"))
	case out == nil && corners == nil:
		r.snag("missing-key", d.at, "a field needs outline: or corners: to fill", "", snag.Say("write outline: {left: …, right: …, front: …, back: …}"))
		f.unread = true
		return f
	}
	if o := b.sub("outline"); o != nil {
		for i := expr.Left; i <= expr.Top; i++ {
			f.sides[i] = o.said(i.Side())
		}
		return f
	}
	for _, n := range b.scalars("corners") {
		f.corners = append(f.corners, r.point("", n.Range, n))
	}
	if out == nil && len(f.corners) < 3 {
		r.snag("wrong-form", corners.Range, "an outline has three corners or more", "", snag.Say("list them in the order in which you would walk round it"))
		f.unread = true
	}
	return f
}

// A panelAt is a field divided.
type panelAt struct {
	setout.Panel
	gap    float64 // mm
	corner float64 // mm, the width of the widest ripped strip
	rule   string
	from   span.Set
	ok     bool
}

// panelOf divides the field.
func (l *lot) panelOf() panelAt {
	return get(l.w, &l.panel, l.key("outline"), l.d.at, func() panelAt {
		d, sec, f := l.d.field, l.sectionAt(), l.frameOf()
		if d.unread || !sec.ok || !f.ok {
			return panelAt{}
		}
		for _, h := range l.d.holds {
			if !h.middle && f.Side(setout.Dir(h.side)).IsEdge() {
				l.w.error("held-twice", h.key, "the field lays its boards side by side, so they need no hold on the "+h.side.Side(), "", snag.Say("leave this hold out"))
			}
		}
		out := panelAt{from: sec.from.Union(f.from), rule: "halved", ok: true}
		in := setout.Field{Width: sec.w.MM()}
		for _, s := range []struct {
			said *said
			what string
			into *float64
		}{{d.gap, "a gap", &in.Gap}, {d.least, "the narrowest rip", &in.Least}} {
			if s.said == nil {
				continue
			}
			v := l.w.length(s.said, s.what)
			if v.ok && v.v < 0 {
				l.w.error("bad-size", s.said.node.Range, s.what+" comes to "+l.w.d.print(measure.Quantity{V: v.v, D: measure.DimLength})+", and boards do not lie in one another", "", snag.Say("make it 0 or more"))
				return panelAt{}
			}
			*s.into, out.from, out.ok = v.mm(), out.from.Union(v.from), out.ok && v.ok
		}
		switch {
		case d.middle != "":
			in.Rest, out.rule = map[string]setout.Rest{"board": setout.MiddleBoard, "gap": setout.MiddleGap}[d.middle], "middle "+d.middle
		case d.leftover != "":
			in.Rest, out.rule = map[string]setout.Rest{"halved": setout.Halved, "first": setout.AllFirst, "last": setout.AllLast}[d.leftover], d.leftover
		}
		outline, from, ok := l.outline(f)
		if !ok || !out.ok {
			return panelAt{}
		}
		in.Outline, out.from = outline, out.from.Union(from)
		panel, err := setout.LayField(f.Frame, in)
		if fault, is := err.(*setout.Fault); is && fault.Kind == setout.NoRow {
			l.w.error("no-room", d.node.Range, "the outline of "+phrase.Spaced(l.d.name)+" encloses nothing", "", snag.Say("see that its sides, or its corners, go round something"))
			return panelAt{}
		}
		if err != nil {
			l.w.fault(d.node.Range, err, "the field "+phrase.Spaced(l.d.name))
			return panelAt{}
		}
		out.Panel, out.gap = panel, in.Gap
		for _, s := range panel.Strips {
			if wide := s.Hi - s.Lo; wide < in.Width-geom.Touch {
				out.corner = max(out.corner, wide)
			}
		}
		l.smallPieces(panel.Faults)
		return out
	})
}

// smallPieces tells pieces of a field that nobody can hold or screw.
func (l *lot) smallPieces(faults []*setout.Fault) {
	for _, f := range faults {
		how := "long"
		if f.Kind == setout.PieceThin {
			how = "wide"
		}
		l.w.tell(snag.Snag{Code: "field-piece-small", Severity: snag.Caution, At: l.d.at,
			What:  "the " + nth(f.Count) + " piece of " + phrase.Spaced(l.d.name) + " is " + l.w.d.printMM(f.Has) + " " + how + ", and under " + l.w.d.printMM(f.Want) + " it is hard to hold and to screw",
			Mends: []snag.Mend{snag.Say("change the gap, or where the rest goes: leftover: or middle:")}})
	}
}

// outline returns the corners of what the field fills.
func (l *lot) outline(f frameAt) (out []geom.Vec, from span.Set, ok bool) {
	d := l.d.field
	if len(d.corners) > 0 {
		for i := range d.corners {
			p := l.w.point(&d.corners[i], f.room)
			if !p.ok {
				return nil, from, false
			}
			out, from = append(out, p.at), from.Union(p.from)
		}
		return out, from, true
	}
	var axes [][2]geom.Plane
	for axis := expr.Left; axis <= expr.Bottom; axis += 2 {
		if axis.Axis() == l.d.faces.Axis() {
			continue
		}
		var pair [2]geom.Plane
		for k := range pair {
			word := axis + expr.Dir(k)
			s := d.sides[word]
			if s == nil {
				l.w.error("missing-key", d.node.Range, "the outline of "+phrase.Spaced(l.d.name)+" does not say where its "+word.Side()+" lies", "", snag.Say("write "+word.Side()+": and a place, or corners: for another shape"))
				return nil, from, false
			}
			v, p := l.placeOf(s, f.room, "the "+word.Side()+" of the outline")
			if p == nil {
				return nil, from, false
			}
			pair[k], from = p.onAxis(f.room, setout.Dir(word)), from.Union(v.From)
		}
		axes = append(axes, pair)
	}
	if len(axes) != 2 {
		return nil, from, false
	}
	out, err := setout.Rectangle(f.room.Room, setout.Dir(l.d.faces), axes[0], axes[1])
	if err != nil {
		l.w.fault(d.node.Range, err, "the outline of "+phrase.Spaced(l.d.name))
	}
	return out, from, err == nil
}

// fieldSlab is the hold across the width of the i-th piece.
func (l *lot) fieldSlab(i int) slabAt {
	p := l.panelOf()
	if !p.ok || i >= len(p.Pieces) {
		return slabAt{}
	}
	return slabAt{p.Pieces[i].Width, nil, board.Near, p.from, true}
}

// fieldEnd is an end of the i-th piece, cut by the outline.
func (l *lot) fieldEnd(i int, side board.Side) endAt {
	p := l.panelOf()
	if !p.ok || i >= len(p.Pieces) {
		return endAt{}
	}
	return endAt{End: p.Pieces[i].Ends[side], said: true, from: p.from, turn: p.from, ok: true}
}

// hollows returns what the outline takes out of the i-th piece where it looks in.
func (l *lot) hollows(i int) []board.Cut {
	p, t := l.panelOf(), l.thickness()
	if !p.ok || !t.ok || i >= len(p.Pieces) {
		return nil
	}
	_, cuts, err := p.Pieces[i].Blank(l.frameOf().Frame, t.Slab, "outline")
	if err != nil {
		return nil // the blank tells it
	}
	for k := range cuts {
		cuts[k].From = p.from.Union(t.from)
	}
	return cuts
}

// along returns the way in which the boards of a row or a field are counted.
func (l *lot) along() setout.Dir {
	if l.d.row != nil {
		return setout.Dir(l.d.row.along)
	}
	far := l.frameOf().Words[board.Far]
	if far.Sign() < 0 {
		return far.Opposite()
	}
	return far
}

// fieldReading reads a figure of a field.
func (e *env) fieldReading(r *expr.Ref, l *lot) (expr.Value, bool) {
	p := l.panelOf()
	mm := p.gap
	switch r.Path[1].Text {
	case "count":
		if !p.ok {
			return expr.Value{}, true
		}
		return expr.Num(measure.Number(float64(len(p.Pieces))), p.from), true
	case "leftover":
		mm = p.corner
	case "gap":
	default:
		return expr.Value{}, false
	}
	if !p.ok {
		return expr.Value{}, true
	}
	return expr.Num(measure.Quantity{V: mm * nmPerMM, D: measure.DimLength}, p.from), true
}

// fieldFigures gives the figures of a field.
func (w *world) fieldFigures(p *Piece, l *lot) {
	f := l.panelOf()
	if !f.ok {
		return
	}
	nm := func(mm float64) Figure {
		return Figure{measure.Quantity{V: mm * nmPerMM, D: measure.DimLength}, f.from}
	}
	p.Fields = append(p.Fields, Field{Name: l.title(), Count: Figure{measure.Number(float64(len(f.Pieces))), f.from},
		Gap: nm(f.gap), Across: nm(f.Across), Corner: nm(f.corner), Rule: f.rule, At: l.d.at})
}
