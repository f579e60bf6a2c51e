package design

import (
	"slices"

	"scantling/internal/expr"
	"scantling/internal/snag"
	"scantling/internal/source"
	"scantling/internal/span"
)

func (r *reader) joint(name string, at span.Range, b *entry) jointDecl {
	j := jointDecl{name: name, sc: r.sc, at: at, node: b.node, with: b.scalars("with"), through: b.refs("through"), head: b.refs("head"),
		expect: b.said("expect"), when: b.said("when")}
	j.said = [2]bool{b.find("through") != nil, b.find("head") != nil}
	r.lap(&j, b)
	if n := b.find("join"); n != nil {
		j.joinAt = n.Range
		if n.Kind != source.List || len(n.Items) != 2 {
			r.snag("bad-joint", n.Range, "a joint has two sides", "", snag.Say("write join: [these, those]; a side may be a list itself"))
		} else {
			for i, side := range n.Items {
				items := []*source.Node{side}
				if side.Kind == source.List {
					items = side.Items
				}
				j.join[i] = r.refs(items)
			}
		}
	}
	if n := b.scalar("from"); n != nil {
		j.from = r.from(n)
	}
	if n := b.find("counterbore"); n != nil && n.Kind == source.Scalar {
		j.counterbore = &counterboreDecl{head: r.said(n)}
	} else if c := b.sub("counterbore"); c != nil {
		j.counterbore = &counterboreDecl{c.said("head"), c.said("nut"), c.word("plug") == "yes"}
	}
	if p := b.sub("pattern"); p != nil {
		j.pattern = &patternDecl{node: p.node, count: p.said("count"), set: p.word("set"), fromEdge: p.said("from edge"), fromEnd: p.said("from end"), spacing: p.said("spacing"), ifRoom: p.yes("if room")}
		if n := p.scalar("set"); n != nil {
			j.pattern.setAt = n.Range
		}
	}
	return j
}

// lap takes a half lap out of what a joint is made with.
func (r *reader) lap(j *jointDecl, b *entry) {
	for i, n := range j.with {
		if n.Text == "half lap" {
			j.lap = &lapDecl{node: n}
			j.with = slices.Delete(j.with, i, i+1)
			break
		}
	}
	said := false
	for i, s := range sides {
		at := b.find("keeps " + s)
		switch {
		case at == nil:
		case j.lap == nil:
			r.snag("bad-joint", keyRange(b, "keeps "+s, at.Range), "“keeps "+s+"” is said of a half lap, and this joint is none", "", snag.Say("write with: half lap, or leave it out"))
		case said:
			r.snag("said-twice", keyRange(b, "keeps "+s, at.Range), "a half lap parts its two boards one way", "", snag.Say("keep one of them: the other board keeps the other side"))
		default:
			said = true
			j.lap.side, j.lap.keeps = expr.Dir(i), b.refs("keeps "+s)
		}
	}
	if j.lap != nil && !said {
		r.snag("missing-key", j.lap.node.Range, "this half lap does not say which board keeps which side", "", snag.Say("write, for instance, keeps front: and the board whose wood stays in front"))
		j.lap = nil
	}
}

// from reads a face: a side word, or a part's side.
func (r *reader) from(n *source.Node) *fromDecl {
	if d, ok := expr.DirOf(n.Text); ok {
		return &fromDecl{n, d, nil}
	}
	x, p := expr.Parse(n.Text)
	if p != nil {
		r.problem(n, p)
		return nil
	}
	if name, ok := x.(*expr.Ref); ok && len(name.Path) == 2 {
		if d, ok := expr.DirOf(name.Path[1].Text); ok {
			part := *name
			part.Path = part.Path[:1]
			return &fromDecl{n, d, &ref{&part, n, r.sc}}
		}
	}
	r.snag("wrong-kind", n.Range, "a side belongs here", "", snag.Say("write a side word, or a part's side such as arm.left"))
	return nil
}

func (r *reader) step(b *entry) stepDecl {
	s := stepDecl{node: b.node, name: b.words("name"), add: b.refs("add"), each: b.nameList("each"), follow: b.nameRef("follow"), makes: b.nameRef("makes"),
		lies: b.words("lies"), fasten: b.nameList("fasten"), hold: b.nameList("hold"), say: b.prose("say"), when: b.said("when")}
	if n := b.find("name"); n != nil {
		s.nameAt = n.Range
	}
	return s
}

func (r *reader) use(e *entry) *useDecl {
	b := e.sub("use")
	if b == nil {
		return nil
	}
	u := &useDecl{node: b.node, as: b.words("as"), people: b.said("people")}
	for _, l := range b.items("also") {
		u.loads = append(u.loads, loadDecl{l.node, l.refs("surface"), l.said("spread"), l.said("point"), l.said("line"), l.said("when")})
	}
	if c := b.sub("climate"); c != nil {
		u.built, u.lives, u.stands = c.words("built"), c.words("lives"), c.word("stands")
		for _, key := range []string{"built", "lives"} {
			if n := c.scalar(key); n != nil {
				u.climate = append(u.climate, n.Ordinal)
			}
		}
	}
	u.who = b.word("who")
	u.touches = r.touches(b)
	return u
}

// touches reads what touches which boards, or one word for the whole piece.
func (r *reader) touches(b *entry) []touchDecl {
	n := b.find("touches")
	if n == nil {
		return nil
	}
	known := touchesTable.names()
	if n.Kind == source.Scalar {
		if slices.Contains(known, n.Text) {
			return []touchDecl{{what: n.Text, node: n}}
		}
		r.snag("unknown-word", n.Range, "“"+n.Text+"” is not what “touches” can be", "",
			snag.Say("write food, skin or soil, or say which boards: touches: {food: [top_slat]}"))
		return nil
	}
	var out []touchDecl
	if t := b.sub("touches"); t != nil {
		for _, what := range known {
			if at := t.find(what); at != nil {
				out = append(out, touchDecl{what, at, t.refs(what)})
			}
		}
	}
	return out
}
