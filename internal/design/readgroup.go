package design

import (
	"scantling/internal/expr"
	"scantling/internal/phrase"
	"scantling/internal/snag"
	"scantling/internal/source"
	"scantling/internal/span"
)

// A groupDecl is things built together and used more than once. One that has uses
// is read again for each of them, so that every use has values of its own.
type groupDecl struct {
	name   string // of the use, where there are uses
	sc     *scope // its own names
	n      int    // among the groups
	at     span.Range
	when   []*said // all must hold
	shifts []*said // where a use stands: points or positions its middle goes to
	turn   *said
	flip   string
	node   *source.Node // of a use
	body   *source.Node // shared by its uses
	copies []*copyDecl
	steps  []stepDecl
}

// A familyDecl is what the name of a group means: itself, or all its uses.
type familyDecl struct {
	name string
	at   span.Range
	of   []int // groups
}

// groups reads groups. All names are declared first, so that no part takes one.
func (r *reader) groups(e *entry) {
	type body struct {
		f *familyDecl
		b *entry
	}
	var all []body
	r.entries(e, "groups", groupTable, func(name string, k *source.Node, b *entry) {
		if r.declare(k, aGroup, len(r.d.families)) {
			f := &familyDecl{name: name, at: k.Range}
			r.d.families = append(r.d.families, f)
			all = append(all, body{f, b})
		}
	})
	for _, g := range all {
		if n := g.b.find("uses"); n != nil {
			r.uses(g.f, g.b, n)
			continue
		}
		if n := g.b.find("takes"); n != nil {
			r.snag("missing-key", keyRange(g.b, "takes", n.Range), "“takes” says what the uses of a group may differ in, and “"+g.f.name+"” has none", "",
				snag.Say("write uses: {left_one: {…}, right_one: {…}}, or move these values to let:"))
		}
		r.group(&groupDecl{name: g.f.name, at: g.f.at}, g.f, g.b, nil)
	}
}

// uses reads the body of a group once for each of its uses.
func (r *reader) uses(f *familyDecl, b *entry, n *source.Node) {
	if n.Kind != source.Map || len(n.Items) == 0 {
		r.snag("wrong-form", n.Range, "“uses” names each use, and here is "+formOf(n), "", snag.Say("write uses: {left_one: {at: …}, right_one: {at: …}}"))
		return
	}
	t := &table{"a use of " + phrase.Spaced(f.name), append([]key(nil), useKeys...)}
	if takes := b.find("takes"); takes != nil && takes.Kind == source.Map {
		for _, k := range takes.Keys {
			if t.find(k.Text) == nil {
				t.keys = append(t.keys, key{name: k.Text, form: asMeasure, doc: "instead of what the group takes"})
			}
		}
	}
	for i, k := range n.Keys {
		u := r.enter(n.Items[i], t)
		if u == nil || !r.declare(k, aGroup, len(r.d.families)) {
			continue
		}
		g := &groupDecl{name: k.Text, at: k.Range, node: u.node, shifts: u.saids("at"), turn: u.said("turn"), flip: u.word("flip")}
		if w := u.said("when"); w != nil {
			g.when = append(g.when, w)
		}
		own := &familyDecl{name: k.Text, at: k.Range}
		r.d.families = append(r.d.families, own)
		r.group(g, own, b, u)
		f.of = append(f.of, own.of...)
	}
}

// group reads the body of a group, for the use u of it when it has uses.
func (r *reader) group(g *groupDecl, f *familyDecl, b *entry, u *entry) {
	d := r.d
	g.n, g.sc, g.body = len(d.groups), newScope(g, r.sc), b.node
	f.of = append(f.of, g.n)
	d.groups = append(d.groups, g)
	if w := b.said("when"); w != nil {
		g.when = append(g.when, w)
	}
	for _, c := range b.items("copies") {
		if c := r.copy(c); c != nil {
			g.copies = append(g.copies, c)
		}
	}
	takes := map[string]*said{}
	if u != nil {
		r.each(b, "takes", func(name string, k, n *source.Node) {
			if takes[name] = u.said(name); takes[name] == nil {
				takes[name] = r.said(r.scalar(n, "a value of takes"))
			}
		})
	}
	outer := r.sc
	r.sc = g.sc
	defer func() { r.sc = outer }()
	r.each(b, "takes", func(name string, k, n *source.Node) {
		if s := takes[name]; s != nil && r.declare(k, aLet, len(d.lets)) {
			d.lets = append(d.lets, letDecl{name, k.Range, s})
		}
	})
	r.named(b)
	r.boards(b)
	r.built(b)
	for _, s := range b.items("steps") {
		g.steps = append(g.steps, r.step(s))
	}
}

// named reads the values, points and planes of the file or a group.
func (r *reader) named(e *entry) {
	d := r.d
	r.each(e, "let", func(name string, k, n *source.Node) {
		if n = r.scalar(n, "a value of let"); n != nil && r.declare(k, aLet, len(d.lets)) {
			d.lets = append(d.lets, letDecl{name, k.Range, r.said(n)})
		}
	})
	r.each(e, "points", func(name string, k, n *source.Node) {
		if p := r.pointEntry(name, k.Range, n); r.declare(k, aPoint, len(d.points)) {
			d.points = append(d.points, p)
		}
	})
	r.entries(e, "planes", planeTable, func(name string, k *source.Node, b *entry) {
		if r.declare(k, aPlane, len(d.planes)) {
			d.planes = append(d.planes, r.plane(name, k.Range, b))
		}
	})
}

// pointEntry reads a point, or its place with a condition.
func (r *reader) pointEntry(name string, at span.Range, n *source.Node) pointDecl {
	if n.Kind != source.Map {
		return r.point(name, at, n)
	}
	b := r.enter(n, pointTable)
	b.needs()
	p := r.point(name, at, b.find("is"))
	p.when = b.said("when")
	return p
}

// built reads the joints, hardware and goods of the file or a group.
func (r *reader) built(e *entry) {
	d := r.d
	r.entries(e, "joints", jointTable, func(name string, k *source.Node, b *entry) {
		d.joints = append(d.joints, r.joint(name, k.Range, b))
	})
	r.entries(e, "hardware", hardwareTable, func(name string, k *source.Node, b *entry) {
		if r.declare(k, aHardware, len(d.hardware)) {
			d.hardware = append(d.hardware, r.hardware(name, k.Range, b))
		}
	})
	r.entries(e, "goods", goodsTable, func(name string, k *source.Node, b *entry) {
		if r.declare(k, aGoods, len(d.goods)) {
			d.goods = append(d.goods, r.goods(name, k.Range, b))
		}
	})
}

// groupRef reports whether a name is a group's, with what the group calls the name
// after its dot.
func (d *Design) groupRef(sc *scope, x *expr.Ref) (f *familyDecl, inner name, known bool) {
	k, ok := sc.find(x.Path[0].Text)
	if !ok || k.kind != aGroup {
		return nil, name{}, false
	}
	f = d.families[k.n]
	if len(x.Path) > 1 && len(f.of) > 0 {
		inner, known = d.groups[f.of[0]].sc.names[x.Path[1].Text]
	}
	return f, inner, known
}
