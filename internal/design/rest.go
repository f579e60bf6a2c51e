package design

import (
	"cmp"
	"slices"

	"scantling/internal/board"
	"scantling/internal/expr"
	"scantling/internal/measure"
	"scantling/internal/phrase"
	"scantling/internal/screw"
	"scantling/internal/setout"
	"scantling/internal/snag"
	"scantling/internal/source"
	"scantling/internal/span"
)

// text works out the measures in a piece of prose.
func (w *world) text(p *prose) Text {
	if p == nil {
		return nil
	}
	var out Text
	for _, c := range p.chunks {
		if c.X == nil {
			if c.Words != "" {
				out = append(out, Span{Words: c.Words})
			}
			continue
		}
		e := &env{w, p.sc, p.node, w.home(p.sc)}
		v := expr.Eval(c.X, e)
		value := &Value{From: v.From, At: p.node.Sub(c.Start, c.End)}
		switch v.Kind {
		case expr.Number:
			value.Q = v.Q
		case expr.WordKind:
			value.Word = v.Word
		case expr.YesNo:
			value.Word = map[bool]string{true: "yes", false: "no"}[v.Yes]
		case expr.Thing:
			value.Word = v.Place.(*place).says
		case expr.Position:
			at := v.Place.(*place)
			d, ok := e.commonAxis(at, at)
			if !ok {
				continue
			}
			mm, ok := e.coordinate(at, d, c.X)
			if !ok {
				continue
			}
			value.Q = measure.Quantity{V: mm * nmPerMM, D: measure.DimLength}
		case expr.Plane, expr.Point:
			w.error("wrong-kind", value.At, "this is "+v.A()+", and prose shows numbers and words", "", snag.Say("measure how far it is from something"))
			continue
		default:
			continue
		}
		out = append(out, Span{Value: value})
	}
	return out
}

// ids returns the IDs of members.
func ids(ms []*member) []board.ID {
	out := make([]board.ID, len(ms))
	for i, m := range ms {
		out[i] = m.id
	}
	return out
}

func (w *world) optional(s *said, d measure.Dim, what string) *Figure {
	if s == nil {
		return nil
	}
	f := w.number(s, d, what)
	if !f.ok {
		return nil
	}
	return &Figure{measure.Quantity{V: f.v, D: d}, f.from}
}

// fastenings checks what things are fastened with.
func (w *world) fastenings(nodes []*source.Node) []Fastening {
	var out []Fastening
	for _, n := range nodes {
		f, err := screw.Parse(n.Text)
		if err == nil && w.d.region.Metric() && !f.SoldIn(w.d.region) {
			w.elsewhere(n, f)
			continue
		}
		if err != nil {
			at, what, mend := n.Range, err.Error(), snag.Say("write, for instance, screw 8 x 2 1/2 or carriage bolt 5/16")
			if e, ok := err.(*screw.PhraseError); ok {
				at, what, mend = n.Sub(e.Start, e.End), e.What, snag.Say(e.Mend)
				if e.Fix != "" {
					mend = snag.Replace(e.Mend, at, e.Fix)
				}
			}
			w.error("unknown-fastener", at, what, "", mend)
			continue
		}
		out = append(out, Fastening{n.Text, n.Range, span.Of(n.Ordinal)})
	}
	return out
}

// elsewhere tells of a fastener no shop of the region sells.
func (w *world) elsewhere(n *source.Node, f screw.Fastener) {
	mend := snag.Say("use another kind of fastener")
	if near, ok := f.Nearest(w.d.region); ok {
		mend = w.instead(n, near.Name())
	}
	w.error("unknown-fastener", n.Range, f.Name()+" is not sold in "+w.d.region.String(), "an edition is worked out with the fasteners shops there sell", mend)
}

// instead writes another value in this edition only, where the file was drawn for
// another region.
func (w *world) instead(n *source.Node, text string) snag.Mend {
	return snag.Replace("write "+text, n.Range, w.d.besides(n, text))
}

// joints resolves every joint that has both its sides.
func (w *world) joints(p *Piece) {
	for i := range w.d.joints {
		j := &w.d.joints[i]
		yes, from, known := w.holds(j.when)
		if !known || !yes {
			continue
		}
		for _, st := range w.seats(j.sc) {
			if out, ok := w.joint(i, j, st, from); ok {
				p.Joints = append(p.Joints, out)
			}
		}
	}
	w.glue(p)
}

// joint resolves one joint in one copy of its group.
func (w *world) joint(i int, j *jointDecl, st seat, from span.Set) (Joint, bool) {
	out := Joint{Name: j.name, With: w.fastenings(j.with), At: j.at, JoinAt: j.joinAt, Scalars: from}
	for _, n := range j.with {
		out.Scalars = out.Scalars.Union(span.Of(n.Ordinal))
	}
	whole := true
	for k, side := range j.join {
		ms, ok := w.listedAt(side, st)
		whole = whole && ok && len(ms) > 0
		out.Sides[k] = ids(ms)
	}
	through, _ := w.listedAt(j.through, st)
	head, _ := w.listedAt(j.head, st)
	out.Through, out.Head = ids(through), ids(head)
	w.amongSides(j.through, &out, "through", st)
	w.amongSides(j.head, &out, "head", st)
	if j.from != nil {
		out.FromSaid, out.From, out.FromAt = j.from.node.Text, st.word(setout.Dir(j.from.side)).Side(), j.from.node.Range
		if j.from.of != nil {
			of, _ := w.listedAt([]ref{*j.from.of}, st)
			out.FromOf = ids(of)
		}
	}
	if c := j.counterbore; c != nil {
		out.Counterbore = Counterbore{Plug: c.plug,
			Head: w.optional(c.head, measure.DimLength, "how deep the head sits"),
			Nut:  w.optional(c.nut, measure.DimLength, "how deep the nut sits")}
		for i, s := range []*said{c.head, c.nut} {
			if s != nil {
				out.Counterbore.At[i] = s.node.Range
			}
		}
		for _, f := range []*Figure{out.Counterbore.Head, out.Counterbore.Nut} {
			if f != nil {
				out.Scalars = out.Scalars.Union(f.From)
			}
		}
	}
	out.Pattern = w.pattern(j.pattern)
	out.Scalars = out.Scalars.Union(out.Pattern.Scalars)
	out.Expect = w.optional(j.expect, measure.DimNone, "the number of pairs")
	if j.lap != nil {
		out.Lap = w.lapDepth(i)
		out.Scalars = out.Scalars.Union(span.Of(j.lap.node.Ordinal))
	}
	return out, whole
}

// amongSides checks that through and head name boards the joint joins.
func (w *world) amongSides(refs []ref, j *Joint, key string, st seat) {
	for i := range refs {
		ms, _ := w.listedAt(refs[i:i+1], st)
		for _, m := range ms {
			if !slices.Contains(j.Sides[0], m.id) && !slices.Contains(j.Sides[1], m.id) {
				w.error("bad-joint", refs[i].node.Range, "“"+key+"” names "+phrase.Spaced(m.lot.d.name)+", which this joint does not join", "", snag.Say("name one of the parts under join:"))
				break
			}
		}
	}
}

func (w *world) pattern(d *patternDecl) Pattern {
	if d == nil {
		return Pattern{}
	}
	out := Pattern{Set: d.set, SetAt: d.setAt, IfRoom: d.ifRoom, At: d.node.Range,
		FromEdge: w.optional(d.fromEdge, measure.DimLength, "a distance from the edge"),
		FromEnd:  w.optional(d.fromEnd, measure.DimLength, "a distance from the end"),
		Spacing:  w.optional(d.spacing, measure.DimLength, "a spacing")}
	for _, x := range []struct {
		said *said
		at   *span.Range
	}{{d.count, &out.CountAt}, {d.fromEdge, &out.EdgeAt}, {d.fromEnd, &out.EndAt}} {
		if x.said != nil {
			*x.at = x.said.node.Range
		}
	}
	if d.count != nil {
		out.Count, out.Scalars, _ = w.count(d.count, "the number of fasteners", 1)
	}
	for _, f := range []*Figure{out.FromEdge, out.FromEnd, out.Spacing} {
		if f != nil {
			out.Scalars = out.Scalars.Union(f.From)
		}
	}
	return out
}

// needs checks the demands.
func (w *world) needs(p *Piece) {
	for i := range w.d.needs {
		n := &w.d.needs[i]
		if yes, _, known := w.holds(n.when); !yes || !known || n.that == nil {
			continue
		}
		holds, from, known := w.holds(n.that)
		out := Need{That: n.that.node.Text, Else: w.text(n.otherwise), Says: w.text(n.says), Sizes: w.settableIn(from), Stop: !n.warn, Holds: holds, Known: known, At: n.that.node.Range, From: from}
		p.Needs = append(p.Needs, out)
		if known && !holds {
			s := snag.Snag{Code: "need", At: out.At, What: cmp.Or(w.plainText(out.Else), "a demand of the design is not met"), Why: "the design asks that " + out.That,
				Mends: wayOut(out.Sizes)}
			if n.warn {
				s.Severity = snag.Caution
			}
			w.tell(s)
		}
	}
}

// plainText flattens prose for a message.
func (w *world) plainText(t Text) string {
	out := ""
	for _, s := range t {
		switch {
		case s.Value == nil:
			out += s.Words
		case s.Value.Word != "":
			out += s.Value.Word
		default:
			g := measure.Sixteenth
			if w.d.units == measure.Metric {
				g = measure.WholeMM
			}
			out += s.Value.Q.Text(g)
		}
	}
	for len(out) > 0 && out[len(out)-1] == '.' {
		out = out[:len(out)-1]
	}
	return out
}

// settableIn names the sizes and choices among what something was computed from.
func (w *world) settableIn(from span.Set) []string {
	var names []string
	for i := range w.d.sizes {
		if n := w.d.sizes[i].is; n != nil && from.Has(n.node.Ordinal) {
			names = append(names, w.d.sizes[i].name)
		}
	}
	for i := range w.d.choices {
		if n := w.d.choices[i].isAt; n != nil && from.Has(n.Ordinal) {
			names = append(names, w.d.choices[i].name)
		}
	}
	return names
}

// wayOut says which sizes and choices a failing demand depends on.
func wayOut(names []string) []snag.Mend {
	if len(names) == 0 {
		return []snag.Mend{snag.Say("change what it reads")}
	}
	return []snag.Mend{snag.Say("change one of the sizes it depends on: " + listed(names))}
}

func (w *world) useAndFinish(p *Piece) {
	if u := w.d.use; u != nil {
		p.Use = Use{As: u.as, People: w.optional(u.people, measure.DimNone, "the number of people"), Built: u.built, Lives: u.lives, Stands: u.stands, Who: u.who, At: u.node.Range}
		for i := range u.touches {
			t := &u.touches[i]
			on, _ := w.listed(t.on)
			p.Use.Touches = append(p.Use.Touches, Touch{What: t.what, On: ids(on), All: t.node.Kind == source.Scalar && t.on == nil, At: t.node.Range})
		}
		for i := range u.loads {
			l := &u.loads[i]
			if yes, _, _ := w.holds(l.when); !yes {
				continue
			}
			on, _ := w.listed(l.on)
			p.Use.Loads = append(p.Use.Loads, Load{On: ids(on), At: l.node.Range,
				Spread: w.optional(l.spread, measure.DimPressure, "a spread load"),
				Point:  w.optional(l.point, measure.DimForce, "a point load"),
				Line:   w.optional(l.line, measure.DimForcePerLength, "a line load")})
		}
		p.Use.From = ordinalsIn(u.node)
	}
	if f := w.d.finish; f != nil {
		if yes, _, known := w.holds(f.when); !yes && known {
			return
		}
		p.Finish = Finish{With: f.with, At: f.node.Range, From: ordinalsIn(f.node)}
		if f.coats != nil {
			p.Finish.Coats, _, _ = w.count(f.coats, "the number of coats", 0)
		} else if f.with != "" && f.with != "none" {
			p.Finish.Coats = 1
		}
	}
}

// ordinalsIn returns all scalars of a node.
func ordinalsIn(n *source.Node) span.Set {
	if n == nil { // written under a misspelt key
		return span.Set{}
	}
	if n.Kind == source.Scalar {
		return span.Of(n.Ordinal)
	}
	var out span.Set
	for _, c := range n.Items {
		out = out.Union(ordinalsIn(c))
	}
	return out
}
