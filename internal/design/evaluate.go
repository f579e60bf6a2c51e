package design

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"scantling/internal/board"
	"scantling/internal/expr"
	"scantling/internal/geom"
	"scantling/internal/measure"
	"scantling/internal/phrase"
	"scantling/internal/setout"
	"scantling/internal/snag"
	"scantling/internal/span"
)

// Evaluate works the design out under settings. It always returns a Piece, with
// all that could be worked out; the list, sorted, says what could not, and what
// else is wrong.
func (d *Design) Evaluate(set Settings) (*Piece, snag.List) {
	w := newWorld(d, set)
	w.settings(set)
	p := &Piece{Name: d.name, NameAt: d.nameAt, Region: d.region, Units: d.units, byID: map[board.ID]*Board{}}
	w.values(p)
	w.boards(p)
	w.checkPlaces(p)
	w.rows(p)
	p.About = w.text(d.about)
	w.joints(p)
	w.bought(p)
	w.steps(p)
	w.needs(p)
	w.useAndFinish(p)
	all := append(append(snag.List(nil), d.snags...), w.snags...)
	return p, merged(all)
}

// settings refuses settings of names that are no size or choice.
func (w *world) settings(set Settings) {
	for _, s := range set {
		if k, ok := w.d.top.find(s.Name); ok && (k.kind == aSize || k.kind == aChoice) {
			continue
		}
		w.error("bad-setting", w.d.nameAt, "there is no size or choice “"+s.Name+"” to set to "+s.Value, "", settable(w.d.top.nearName(s.Name, span.Range{}, aSize, aChoice))...)
	}
}

// settable keeps what a mend says: a setting stands outside the file, so that no
// edit of the file mends it.
func settable(ms []snag.Mend) []snag.Mend {
	for i := range ms {
		ms[i].Edits = nil
	}
	return ms
}

// values works out sizes, choices, let, points and planes, read or not.
func (w *world) values(p *Piece) {
	d := w.d
	for i := range d.sizes {
		s := &d.sizes[i]
		v := w.size(i)
		if v.Kind != expr.Number {
			continue
		}
		out := Size{Name: s.name, Says: s.says, Value: v.Q, Default: v.Q, At: s.is.node.Range, From: v.From}
		if was := w.eval(s.is, w.piece()); was.Kind == expr.Number {
			out.Default = was.Q.Rounded()
		}
		for _, r := range []struct {
			s    *said
			into *measure.Quantity
		}{{s.from, &out.Least}, {s.to, &out.Most}, {s.by, &out.Step}} {
			if q := w.eval(r.s, w.piece()); q.Kind == expr.Number {
				*r.into = measure.Quantity{V: q.Q.V, D: v.Q.D}
			}
		}
		if s.from == nil {
			out.Least = v.Q
		}
		if s.to == nil {
			out.Most = v.Q
		}
		p.Sizes = append(p.Sizes, out)
	}
	for i := range d.choices {
		c := &d.choices[i]
		if v := w.choice(i); v.Kind == expr.WordKind {
			p.Choices = append(p.Choices, Choice{Name: c.name, Says: c.says, Is: v.Word, Default: c.is, Of: c.of, At: c.isAt.Range, From: v.From})
		}
	}
	for i := range d.lets {
		w.let(i)
	}
	for i := range d.planes {
		w.plane(i)
	}
	for i := range d.points {
		p := &d.points[i]
		get(w, &w.points[i], p.name, p.at, func() pointAt { return w.point(p, w.home(p.sc)) })
	}
	for i := range d.lumber {
		if l := &d.lumber[i]; l.stock != nil {
			p.Lumber = append(p.Lumber, Lumber{l.name, l.stock, l.at, l.treat, l.from})
		}
	}
}

// boards builds every board that is there.
func (w *world) boards(p *Piece) {
	for _, l := range w.lots {
		if here := l.present(); !here.yes {
			continue
		}
		for _, m := range l.boards() {
			b := m.finished()
			if b == nil || b.Solid == nil {
				continue
			}
			b.Spoken = m.spoken()
			placed := w.provenance(m, b)
			p.Boards, p.byID[b.ID] = append(p.Boards, placed), placed
			w.built[l] = append(w.built[l], placed)
			if len(p.Boards) > maxCount {
				w.error("absurd-count", l.d.at, "this piece comes to more than "+strconv.Itoa(maxCount)+" boards", "", snag.Say("make fewer copies"))
				return
			}
		}
	}
}

func (w *world) provenance(m *member, b *board.Board) *Board {
	l := m.lot
	sec, f, t, wide := l.sectionAt(), l.frameOf(), l.thickness(), m.one.width()
	out := &Board{Board: b, Name: l.title(), Lumber: sec.lumber, Spoken: b.Spoken, Written: m.copy.written, At: l.d.at,
		Rip: b.W < sec.stock.W, Loose: l.d.loose, Section: sec.from}
	if l.d.field != nil {
		out.Field = m.one.index + 1
		out.Section = out.Section.Union(l.panelOf().from)
	}
	if l.isDoubled() {
		out.Ply = m.one.index + 1
	}
	for _, o := range sec.or {
		out.Or = append(out.Or, o.name)
	}
	if l.d.row != nil {
		out.Row = m.one.index + 1
		if r := l.rowOf(); strings.HasPrefix(r.rule, "rip") {
			out.Section = out.Section.Union(r.from)
		}
	}
	out.LengthFrom = m.one.blank().long
	out.Place = f.from.Union(t.from, wide.from, m.copy.from)
	if start := m.one.end(board.Start); start.Loose {
		out.Place = out.Place.Union(m.one.blank().from) // the length says where it begins
	} else {
		out.Place = out.Place.Union(start.from)
	}
	for _, c := range b.Cuts {
		if c.Kind != board.EndCut {
			out.CutsFrom = out.CutsFrom.Union(c.From)
		}
	}
	return out
}

// checkPlaces tells boards that lie on one another, boards in several pieces,
// sides that were said to lie against others and do not touch, and notches that
// meet nothing.
func (w *world) checkPlaces(p *Piece) {
	for _, l := range w.lots {
		w.copiesApart(l, w.built[l])
	}
	for _, m := range w.meetings {
		w.touches(m)
	}
	for _, l := range w.lots {
		if l.present().yes {
			w.idleNotches(l, w.built[l])
		}
	}
}

// copiesApart tells copies that lie on one another. They are compared in the
// order of a direction nothing is built along, so that few come near.
func (w *world) copiesApart(l *lot, of []*Board) {
	skew := func(b *Board) float64 {
		return b.Pose.Out(b.Solid.Centre).Dot(geom.Vec{X: 0.6107, Y: 0.5346, Z: 0.5842})
	}
	sorted := slices.Clone(of)
	slices.SortStableFunc(sorted, func(a, b *Board) int { return cmp.Compare(skew(a), skew(b)) })
	for i, b := range sorted {
		for _, o := range sorted[i+1:] {
			if skew(o)-skew(b) > 2*geom.Touch {
				break
			}
			if setout.SamePlace(o.Board, b.Board) {
				w.tell(snag.Snag{Code: "copy-on-copy", At: l.copiesRange(), Boards: []string{string(b.ID), string(o.ID)},
					What: "two copies of " + phrase.Spaced(b.Name) + " lie on one another", Why: "a mirror image of what stands in the middle, or is alike on both sides, falls on itself",
					Mends: []snag.Mend{snag.Say("take one of the copies out, or move the written one off the middle")}})
				return
			}
		}
	}
}

func (l *lot) copiesRange() span.Range {
	if len(l.d.copies) > 0 {
		return l.d.copies[0].node.Range
	}
	if l.g != nil && len(l.g.d.copies) > 0 {
		return l.g.d.copies[0].node.Range
	}
	return l.d.at
}

// touches checks that some board of the lot touches the part it was said to lie
// against.
func (w *world) touches(m meeting) {
	mine, theirs := w.built[m.of], w.built[m.with.lot]
	if len(mine) == 0 || len(theirs) == 0 {
		return
	}
	boxes := make([]geom.Box, len(theirs))
	for i, b := range theirs {
		boxes[i] = b.Placed().Around()
	}
	for _, a := range mine {
		box := a.Placed().Around()
		for i, b := range theirs {
			if box.Meets(boxes[i], geom.Touch) && len(geom.Contacts(a.Placed(), b.Placed())) > 0 {
				return
			}
		}
	}
	w.tell(snag.Snag{Code: "not-touching", Severity: snag.Error, At: m.at, Boards: []string{string(mine[0].ID), string(theirs[0].ID)},
		What:  "the " + m.side.Side() + " of " + phrase.Spaced(m.of.d.name) + " is said to lie against " + phrase.Spaced(m.with.lot.d.name) + ", and the two do not touch",
		Why:   "against puts it in the plane of that side, and the boards miss one another there",
		Mends: []snag.Mend{snag.Say("move one of them, or name the side's place without against")}})
}

// idleNotches tells a notch that meets nothing on any board.
func (w *world) idleNotches(l *lot, of []*Board) {
	if len(of) == 0 {
		return
	}
	for _, c := range l.d.cuts {
		if c.notch == nil || c.notch.ifThere {
			continue
		}
		if yes, _, _ := w.holds(c.when); !yes {
			continue
		}
		if others, ok := w.listedAt(c.notch.round, w.seats(l.d.sc)[0]); !ok || len(others) == 0 {
			continue
		}
		met := false
		for _, b := range of {
			for _, cut := range b.Cuts {
				met = met || cut.Name == c.name
			}
		}
		if !met && !w.toldAt(c.at) {
			w.tell(snag.Snag{Code: "notch-meets-nothing", Severity: snag.Caution, At: c.at,
				What:  "the notch " + phrase.Spaced(c.name) + " meets nothing on any " + phrase.Spaced(l.d.name),
				Mends: []snag.Mend{snag.Say("take it out, or write if there: yes where it is not always needed")}})
		}
	}
}

// toldAt reports whether something was told of a place.
func (w *world) toldAt(at span.Range) bool {
	return slices.ContainsFunc(w.snags, func(s snag.Snag) bool { return s.At == at })
}

// rows gives the figures of each row and field.
func (w *world) rows(p *Piece) {
	for _, l := range w.lots {
		if l.d.field != nil && l.present().yes {
			w.fieldFigures(p, l)
		}
		if l.d.row == nil || !l.present().yes {
			continue
		}
		r := l.rowOf()
		if !r.ok {
			continue
		}
		nm := func(mm float64) Figure {
			return Figure{measure.Quantity{V: mm * nmPerMM, D: measure.DimLength}, r.from}
		}
		out := Row{Name: l.title(), Count: Figure{measure.Number(float64(len(r.Boards))), r.from}, Span: nm(r.Span), Gap: nm(r.Gap), Rule: r.rule, At: l.d.at}
		for _, s := range r.Boards {
			out.Widths = append(out.Widths, measure.Quantity{V: (s.Hi - s.Lo) * nmPerMM, D: measure.DimLength})
		}
		out.Leftover = nm(r.Start + r.End)
		if r.dried {
			out.Dried = nm(r.Division.Dried)
		}
		if g := l.d.row.gap; g != nil && g.is != nil {
			out.GapAt = g.is.node.Range
		} else if g != nil && g.about != nil {
			out.GapAt = g.about.node.Range
		}
		if r.asked {
			out.Wanted = nm(r.want)
		}
		p.Rows = append(p.Rows, out)
	}
}
