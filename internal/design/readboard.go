package design

import (
	"maps"

	"scantling/internal/snag"
	"scantling/internal/source"
	"scantling/internal/span"
)

// boards reads parts, rows and fields. All names are declared first, so that like may
// look at any of them.
func (r *reader) boards(e *entry) {
	type body struct {
		name string
		at   span.Range
		b    *entry
	}
	var all []body
	bodies, first := r.bodies, len(r.d.boards)
	if r.sc.group != nil { // a group's parts may be like the file's, not the other way about
		bodies = maps.Clone(bodies)
	}
	for _, section := range []struct {
		key string
		t   *table
		of  kind
	}{{"parts", partTable, aPart}, {"rows", rowTable, aRow}, {"fields", fieldTable, aField}} {
		r.each(e, section.key, func(name string, k, n *source.Node) {
			if b := r.enter(n, section.t); b != nil && r.declare(k, section.of, first+len(all)) {
				all = append(all, body{name, k.Range, b})
				bodies[name] = b
			}
		})
	}
	for _, b := range all {
		r.like(b.name, b.b, bodies)
	}
	for _, b := range all {
		r.d.boards = append(r.d.boards, r.board(b.name, b.at, b.b))
	}
}

// like resolves what an entry is like, and refuses loops and long chains.
func (r *reader) like(name string, b *entry, bodies map[string]*entry) {
	n := b.scalarHere("like")
	if n == nil {
		return
	}
	base, ok := bodies[n.Text]
	if !ok {
		r.snag("unknown-name", n.Range, "there is no part or row “"+n.Text+"” to be like", "", r.nearName(n, aPart, aRow, aField)...)
		return
	}
	b.base = base
	depth := 1
	for at := base; at.base != nil || at == b; at = at.base {
		if depth++; at == b || depth > maxLike {
			b.base = nil
			b.misspelt("of", "like")
			b.misspelt("place", "like")
			what := "“" + name + "” is like itself, by way of “" + n.Text + "”"
			if at != b {
				what = "the chain of like is over 8 long"
			}
			r.snag("like-loop", n.Range, what, "", snag.Say("write the keys out in one of them"))
			return
		}
	}
}

// scalarHere returns a key's value as written in this entry, not in its base.
func (e *entry) scalarHere(name string) *source.Node {
	return e.r.scalar(e.node.Get(name), "“"+name+"”")
}

// nearName offers the known names nearest to a text, of the given kinds.
func (r *reader) nearName(n *source.Node, kinds ...kind) []snag.Mend {
	return r.sc.nearName(n.Text, n.Range, kinds...)
}

func (r *reader) board(name string, at span.Range, b *entry) *boardDecl {
	d := &boardDecl{name: name, sc: r.sc, at: at, when: b.said("when"), width: b.said("width"), rip: b.word("rip"),
		length: b.said("length"), in: b.nameRef("in"), loose: b.yes("loose")}
	d.unread[1] = len(b.meant) > 0 || b.find("length") != nil && d.length == nil
	for i, n := range b.nameList("of") {
		if i == 0 {
			d.of = &n
		} else {
			d.orOf = append(d.orOf, n)
		}
	}
	if d.of == nil && b.meant["of"] == "" {
		r.snag("missing-key", at, "“"+name+"” does not say what it is cut from", "", snag.Say("write of: and a name of lumber"))
	}
	d.place = at
	if p := b.sub("place"); p != nil {
		d.place = keyRange(b, "place", at)
		r.placing(d, p)
	} else if b.find("place") == nil && b.meant["place"] == "" {
		r.snag("missing-key", at, "“"+name+"” has no place", "", snag.Say("write place: {runs: …, faces: …} and what it is held by"))
	}
	r.ends(d, b)
	r.cuts(d, b)
	for _, c := range b.items("copies") {
		if c := r.copy(c); c != nil {
			d.copies = append(d.copies, c)
		}
	}
	if b.t == partTable {
		d.doubled = b.said("doubled")
	}
	if b.t == rowTable {
		d.row = r.row(d, b)
	}
	if b.t == fieldTable {
		d.field = r.field(d, b)
	}
	return d
}
