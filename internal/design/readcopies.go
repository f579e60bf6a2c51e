package design

import (
	"strings"

	"scantling/internal/expr"
	"scantling/internal/snag"
	"scantling/internal/source"
)

func (r *reader) copy(e *entry) *copyDecl {
	c := &copyDecl{node: e.node, about: e.said("about"), when: e.said("when")}
	for _, s := range e.scalars("call") {
		c.call = append(c.call, s.Text)
		c.callAt = s.Range
		_, direction := expr.DirOf(s.Text) // such a name wins over the direction
		if !expr.ProperName(s.Text) || expr.Reserved(s.Text) != "" && !direction {
			r.snag("bad-name", s.Range, "“"+s.Text+"” cannot be the name of a copy", "", snag.Say("write small letters, digits and _, and no word measures are made of"))
		}
	}
	for _, way := range []string{"mirror", "flip", "turn", "marks", "every"} {
		if e.find(way) == nil {
			continue
		}
		if c.way != "" {
			r.snag("said-twice", e.node.Range, "this copy is "+c.way+" and "+way+" at once", "", snag.Say("make two items of the list"))
			return nil
		}
		c.way = way
	}
	switch c.way {
	case "mirror", "flip":
		if c.pair = e.word(c.way); c.pair == "" {
			return nil
		}
		c.axis, _ = expr.DirOf(strings.SplitN(c.pair, "-", 2)[0])
	case "turn":
		c.angle = e.said("turn")
	case "marks", "every":
		m := e.sub(c.way)
		if m == nil {
			return nil
		}
		c.marks = r.marks(c, m)
		if c.marks == nil {
			return nil
		}
	default:
		r.unsaidCopy(e)
		return nil
	}
	return c
}

func (r *reader) unsaidCopy(e *entry) {
	for _, k := range e.node.Keys {
		if e.t.find(k.Text) == nil {
			return
		}
	}
	r.snag("missing-key", e.node.Range, "this copy does not say how it is made", "", snag.Say("write mirror:, turn:, marks:, every: or flip:"))
}

func (r *reader) marks(c *copyDecl, e *entry) *marksDecl {
	m := &marksDecl{node: e.node, from: e.said("from"), each: e.said("each"), to: e.said("to")}
	of := e.word("of")
	m.middle = of == "middle"
	m.of, _ = expr.DirOf(of)
	var ok bool
	if m.toward, ok = e.dir("toward"); !ok || of == "" || m.from == nil {
		return nil
	}
	if c.way == "marks" {
		m.at = e.saids("at")
		for _, s := range e.scalars("call") {
			c.call = append(c.call, s.Text)
			c.callAt = s.Range
		}
		if len(m.at) == 0 {
			return nil
		}
	}
	if !m.middle && m.of.Axis() != m.toward.Axis() {
		r.snag("skew-words", e.node.Range, "the "+of+" side is not square to "+m.toward.Toward(), "", snag.Say("name a side that looks along the marks"))
		return nil
	}
	return m
}

func (r *reader) row(d *boardDecl, b *entry) *rowDecl {
	f := b.sub("fill")
	if f == nil {
		if b.find("fill") == nil {
			r.snag("missing-key", d.at, "a row needs fill: what its boards fill", "", snag.Say("write fill: {along: right, from: …, to: …}"))
		}
		return nil
	}
	row := &rowDecl{node: f.node, from: f.said("from"), to: f.said("to"), count: f.said("count"), about: f.said("about")}
	var ok bool
	if row.along, ok = f.dir("along"); !ok {
		return nil
	}
	if n := b.find("gap"); n != nil && n.Kind == source.Scalar {
		row.gap = &gapDecl{node: n, is: r.said(n)}
	} else if g := b.sub("gap"); g != nil {
		row.gap = &gapDecl{g.node, g.said("is"), g.said("about"), g.said("from"), g.said("to"), g.word("leftover"), g.said("least"), g.word("outside"), g.word("once") == "dried"}
		if row.gap.is != nil && (row.gap.about != nil || row.gap.from != nil || row.gap.to != nil) {
			r.snag("said-twice", g.node.Range, "this gap is given exactly and as a range at once", "", snag.Say("keep is, or about, from and to"))
		}
	}
	row.leaveOut = b.saids("leave out")
	r.except(d, row, b)
	return row
}

// except reads boards of the row that differ: a board of its own each, like the
// row's.
func (r *reader) except(d *boardDecl, row *rowDecl, b *entry) {
	n := b.find("except")
	if n == nil {
		return
	}
	if n.Kind != source.Map {
		r.snag("wrong-form", n.Range, "“except” says which board differs and how", "", snag.Say("write except: {last: {cuts: {…}}}"))
		return
	}
	single := &table{"a board of the row", partTable.keys}
	for i, k := range n.Keys {
		if k.Text != "first" && k.Text != "last" && !ordinal(k.Text) {
			r.snag("unknown-key", k.Range, "“"+k.Text+"” does not say which board of the row", "", snag.Say("write first, last, or a number such as 2nd"))
			continue
		}
		e := r.enter(n.Items[i], single)
		if e == nil {
			continue
		}
		for _, key := range e.node.Keys {
			if key.Text != "cuts" && key.Text != "ends" && key.Text != "length" && e.t.find(key.Text) != nil {
				r.snag("unknown-key", key.Range, "one board of a row may differ in its ends, length and cuts only", "", snag.Say("make it a part of its own"))
			}
		}
		e.base = &entry{r: r, t: b.t, node: b.node, base: b.base}
		one := *d
		one.length, one.ends, one.cuts = e.said("length"), nil, nil
		r.ends(&one, e)
		r.cuts(&one, e)
		row.except = append(row.except, exceptDecl{k.Text, &one, k.Range})
	}
}

func ordinal(s string) bool {
	digits := strings.TrimRight(s, "stndrh")
	return len(digits) > 0 && len(s) == len(digits)+2 && strings.Trim(digits, "0123456789") == ""
}
