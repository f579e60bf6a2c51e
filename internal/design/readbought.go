package design

import (
	"scantling/internal/expr"
	"scantling/internal/snag"
	"scantling/internal/source"
	"scantling/internal/span"
)

func (r *reader) hardware(name string, at span.Range, b *entry) hardwareDecl {
	h := hardwareDecl{name: name, sc: r.sc, at: at, what: b.scalar("what"), count: b.said("count"), fixed: r.sided(b.list("fixed to")),
		with: b.scalars("with"), each: b.said("each"), when: b.said("when")}
	if a := b.sub("at"); a != nil {
		for _, k := range a.node.Keys {
			hold := fixingHold{key: k.Range, middle: k.Text == "middle"}
			var known bool
			if hold.side, known = expr.DirOf(k.Text); known || hold.middle {
				hold.to = a.saids(k.Text)
				h.holds = append(h.holds, hold)
			}
		}
	}
	if x := b.sub("box"); x != nil {
		box := &boxDecl{node: x.node, thick: x.said("thick")}
		along, ok1 := r.wayAndSize(x, "along", 0, box)
		across, ok2 := r.wayAndSize(x, "across", 1, box)
		switch {
		case !ok1 || !ok2 || box.thick == nil:
		case along.Axis() == across.Axis():
			r.snag("skew-words", x.node.Range, "along and across of this box are the same way", "", snag.Say("name two directions that are square to one another"))
		default:
			h.box = box
		}
	}
	if len(h.holds) > 0 && h.box == nil && b.find("box") == nil {
		r.snag("missing-key", keyRange(b, "at", at), "where this sits can only be told with its size", "", snag.Say(`write box: {along: right 10", across: up 2", thick: 1/4"}`))
		h.holds = nil
	}
	if h.box != nil && (len(h.fixed) == 0 || !h.fixed[0].sided) {
		r.snag("missing-key", keyRange(b, "box", at), "a box sits on a side, and “fixed to” names none", "", snag.Say("write fixed to: and a part's side, such as post.front"))
		h.box = nil
	}
	return h
}

// wayAndSize reads a direction and a length: up 2".
func (r *reader) wayAndSize(e *entry, key string, i int, into *boxDecl) (expr.Dir, bool) {
	n := e.scalar(key)
	if n == nil {
		return 0, false
	}
	p := parser(n)
	d, ok := p.Dir()
	if !ok {
		p.Fail("phrase-form", "“"+key+"” is a direction and a length", `write, for instance, right 10"`)
	}
	x := p.Expr()
	if !r.finish(n, p) {
		return 0, false
	}
	r.mention(n, x)
	into.ways[i], into.sizes[i] = d, &said{n, x, r.sc}
	return d, true
}

// sided reads names of boards, or of a side of each.
func (r *reader) sided(nodes []*source.Node) []sideDecl {
	var out []sideDecl
	for _, x := range r.refs(nodes) {
		s := sideDecl{ref: x}
		if last := len(x.Path) - 1; last > 0 {
			if d, ok := expr.DirOf(x.Path[last].Text); ok {
				part := *x.Ref
				part.Path = part.Path[:last]
				s.ref, s.side, s.sided = ref{&part, x.node, x.sc}, d, true
			}
		}
		out = append(out, s)
	}
	return out
}

func (r *reader) goods(name string, at span.Range, b *entry) goodsDecl {
	g := goodsDecl{name: name, sc: r.sc, at: at, what: b.scalar("what"), amount: b.said("amount"), covers: r.sided(b.list("covers")), sold: b.word("sold by"), plus: b.said("plus"), when: b.said("when")}
	said := b.find("amount") != nil || b.find("covers") != nil
	switch {
	case !said:
		r.snag("missing-key", at, "“"+name+"” does not say how much of it is wanted", "", snag.Say("write amount: and a measure, or covers: and the sides it covers"))
	case b.find("amount") != nil && b.find("covers") != nil:
		r.snag("said-twice", keyRange(b, "covers", at), "this says twice how much is wanted", "", snag.Say("keep amount: or covers:"))
		g.covers = nil
	}
	for _, s := range g.covers {
		if !s.sided {
			r.snag("wrong-kind", s.node.Range, "a side of boards is covered, and this names no side", "", snag.Say("write "+s.node.Text+".top, or another of its sides"))
		}
	}
	return g
}
