package design

import (
	"strings"

	"scantling/internal/expr"
	"scantling/internal/lumber"
	"scantling/internal/snag"
	"scantling/internal/source"
	"scantling/internal/span"
	"scantling/internal/wood"
)

// file reads every section in the order of the schema, so that names are known
// before bodies that need them.
func (r *reader) file() {
	d := r.d
	e := r.enter(d.tree.Root, pieceTable)
	if e == nil {
		return
	}
	d.holes = !d.tree.Whole()
	for _, k := range d.tree.Root.Keys {
		known := pieceTable.find(k.Text)
		d.holes = d.holes || known == nil
	}
	e.needs()
	d.name = e.words("piece")
	if n := e.find("piece"); n != nil {
		d.nameAt = n.Range
	}
	d.about = e.prose("about")
	e.word("units")
	if d.region.Metric() {
		r.inches()
	}
	r.values(e)
	r.stocks(e)
	r.named(e)
	r.boards(e)
	r.groups(e)
	r.built(e)
	for _, b := range e.items("steps") {
		d.steps = append(d.steps, r.step(b))
	}
	for _, b := range e.items("need") {
		d.needs = append(d.needs, needDecl{b.node, b.said("that"), b.prose("else"), b.prose("says"), b.word("how") == "warn", b.said("when")})
	}
	d.use = r.use(e)
	if b := e.sub("finish"); b != nil {
		d.finish = &finishDecl{b.node, b.words("with"), b.said("coats"), b.said("when")}
	}
}

// sub returns the mapping of a key read by the key's table.
func (e *entry) sub(name string) *entry {
	n := e.find(name)
	if n == nil {
		return nil
	}
	b := e.r.enter(n, e.t.find(name).table)
	if b != nil {
		b.needs()
	}
	return b
}

// items returns the entries of a key that takes a list of mappings.
func (e *entry) items(name string) []*entry {
	var out []*entry
	for _, n := range e.list(name) {
		if b := e.r.enter(n, e.t.find(name).table); b != nil {
			b.needs()
			out = append(out, b)
		}
	}
	return out
}

// scalars returns the single values of a key that takes one or a list.
func (e *entry) scalars(name string) []*source.Node {
	var out []*source.Node
	for _, n := range e.list(name) {
		if n = e.r.scalar(n, "an item of “"+name+"”"); n != nil {
			out = append(out, n)
		}
	}
	return out
}

// nameList returns the names a key lists, where nothing but names can stand.
func (e *entry) nameList(name string) []nameRef {
	var out []nameRef
	for _, n := range e.scalars(name) {
		out = append(out, nameRef{n.Text, n, e.r.sc})
	}
	return out
}

func (e *entry) nameRef(name string) *nameRef {
	if n := e.scalar(name); n != nil {
		return &nameRef{n.Text, n, e.r.sc}
	}
	return nil
}

// each calls f for every name of a section.
func (r *reader) each(e *entry, section string, f func(name string, key, value *source.Node)) {
	n := e.find(section)
	if n == nil {
		return
	}
	if n.Kind != source.Map {
		r.snag("wrong-form", n.Range, "“"+section+"” holds names, and here is "+formOf(n), "", snag.Say("write each name with a colon on a line of its own"))
		return
	}
	for i, k := range n.Keys {
		if n.Items[i].Kind != source.Broken {
			f(k.Text, k, n.Items[i])
		}
	}
}

// entries calls f for every name of a section whose entries a table reads.
func (r *reader) entries(e *entry, section string, t *table, f func(name string, key *source.Node, b *entry)) {
	r.each(e, section, func(name string, k, n *source.Node) {
		if b := r.enter(n, t); b != nil {
			b.needs()
			f(name, k, b)
		}
	})
}

// declare enters a name in the file's space of names; false if it cannot be
// one or is taken.
func (r *reader) declare(k *source.Node, of kind, n int) bool {
	text := k.Text
	switch why := expr.Reserved(text); {
	case !expr.ProperName(text):
		better := strings.ToLower(strings.NewReplacer(" ", "_", "-", "_").Replace(text))
		mends := []snag.Mend{snag.Say("write small letters, digits and _, a letter first")}
		if expr.ProperName(better) {
			mends = []snag.Mend{snag.Replace("write "+better, k.Range, better)}
		}
		r.d.holes = true
		r.snag("bad-name", k.Range, "“"+text+"” cannot be a name: names are written in small letters, with _ for a blank", "", mends...)
		return false
	case why != "":
		r.d.holes = true
		r.snag("bad-name", k.Range, "“"+text+"” cannot be a name: it is "+why, "measures would have two meanings",
			snag.Say("add a word to it, as in "+text+"_rail"))
		return false
	}
	if old, taken := r.sc.find(text); taken {
		r.d.snags = append(r.d.snags, snag.Snag{Code: "name-taken", At: k.Range,
			What:    "“" + text + "” is " + kindWords[old.kind] + " already",
			Related: []snag.Related{{At: old.at, Says: "it has this name first"}},
			Mends:   []snag.Mend{snag.Say("give one of them another name")}})
		return false
	}
	r.sc.names[text] = name{text, of, n, k.Range}
	r.sc.order = append(r.sc.order, text)
	return true
}

// values reads sizes and choices.
func (r *reader) values(e *entry) {
	d := r.d
	r.entries(e, "sizes", sizeTable, func(name string, k *source.Node, b *entry) {
		if r.declare(k, aSize, len(d.sizes)) {
			d.sizes = append(d.sizes, sizeDecl{name, k.Range, b.said("is"), b.said("from"), b.said("to"), b.said("by"), b.words("says")})
		}
	})
	r.entries(e, "choices", choiceTable, func(name string, k *source.Node, b *entry) {
		c := choiceDecl{name: name, says: b.words("says"), is: b.words("is"), at: k.Range, isAt: b.scalar("is")}
		offered := false
		alternatives := b.scalars("of")
		for _, n := range alternatives {
			c.of = append(c.of, n.Text)
			offered = offered || n.Text == c.is
		}
		if len(c.of) > 0 && c.isAt != nil && !offered {
			r.snag("not-offered", c.isAt.Range, "“"+c.is+"” is not among the alternatives of "+name, "",
				snag.Replace("take one of: "+strings.Join(c.of, ", "), c.isAt.Range, alternatives[0].Raw)) // with its quotes
		}
		if r.declare(k, aChoice, len(d.choices)) {
			d.choices = append(d.choices, c)
		}
	})
}

// stocks reads lumber.
func (r *reader) stocks(e *entry) {
	r.entries(e, "lumber", lumberTable, func(name string, k *source.Node, b *entry) {
		l := lumberDecl{name: name, at: k.Range}
		var size lumber.Size
		var w wood.Wood
		ok := true
		if n := b.scalar("size"); n != nil {
			l.from = l.from.Union(span.Of(n.Ordinal))
			s, err := lumber.LookupIn(r.d.region, n.Text)
			size, ok = s, r.looked(n, "unknown-stock", err) && ok
		} else {
			ok = false
		}
		if n := b.scalar("wood"); n != nil {
			found, err := wood.LookupIn(r.d.region, n.Text)
			w, ok = found, r.looked(n, "unknown-wood", err) && ok
		} else {
			ok = false
		}
		treated := lumber.Untreated
		if n := b.scalar("treatment"); n != nil {
			t, err := lumber.ParseTreatment(n.Text)
			treated, ok = t, r.looked(n, "unknown-stock", err) && ok
			l.treat = n.Range
		}
		if ok {
			s := lumber.StockOf(size, w.Name, b.words("grade"), treated)
			l.stock = &s
		}
		if r.declare(k, aStock, len(r.d.lumber)) {
			r.d.lumber = append(r.d.lumber, l)
		}
	})
}

// looked tells a name that a catalogue does not have, or has more than once.
func (r *reader) looked(n *source.Node, code snag.Code, err error) bool {
	if err == nil {
		return true
	}
	var mends []snag.Mend
	offer := func(names []string) {
		for _, s := range names {
			mends = append(mends, snag.Replace("write "+s, n.Range, r.d.besides(n, s)))
		}
	}
	what := "“" + n.Text + "” is not known here"
	why := ""
	switch e := err.(type) {
	case *lumber.NameError:
		if why = e.Why; len(e.Candidates) > 0 {
			what = e.Noun + " “" + n.Text + "” may be any of: " + strings.Join(e.Candidates, ", ")
			offer(e.Candidates)
		} else {
			what = "“" + n.Text + "” is no " + e.Noun
			offer(e.Nearest)
		}
	case *wood.NameError:
		if len(e.Candidates) > 0 {
			what = "wood “" + n.Text + "” may be any of: " + strings.Join(e.Candidates, ", ")
			offer(e.Candidates)
		} else {
			what = "“" + n.Text + "” is no wood known here"
			offer(e.Nearest)
		}
	}
	if len(mends) == 0 {
		mends = []snag.Mend{snag.Say("write the name a yard sells it by")}
	}
	r.snag(code, n.Range, what, strings.TrimSuffix(why, "."), mends...)
	return false
}

// point reads "where A meets B [meets C]", or the name of a point.
func (r *reader) point(name string, at span.Range, n *source.Node) pointDecl {
	out := pointDecl{name: name, at: at, node: n}
	if n = r.scalar(n, "a point"); n == nil {
		return out
	}
	p := parser(n)
	r.pointAt(n, p, &out)
	if !r.finish(n, p) {
		out.meets = nil
	}
	for _, x := range out.meets {
		r.mention(n, x)
	}
	return out
}

// pointAt reads a point where the parser stands.
func (r *reader) pointAt(n *source.Node, p *expr.Parser, out *pointDecl) {
	out.node, out.sc = n, r.sc
	if !p.Word("where") {
		out.meets = []expr.Expr{p.Expr()}
		return
	}
	out.meets = append(out.meets, p.Expr())
	for p.Word("meets") {
		out.meets = append(out.meets, p.Expr())
	}
	if k := len(out.meets); p.Err() == nil && (k < 2 || k > 3) {
		p.Fail("phrase-form", "a point is where two or three things meet", "write: where A meets B")
	}
}

func (r *reader) plane(name string, at span.Range, b *entry) planeDecl {
	p := planeDecl{name: name, sc: r.sc, at: at, in: b.nameRef("in"), side: b.said("side"), zero: b.said("zero"), when: b.said("when")}
	p.faces, _ = b.dir("faces")
	if n := b.scalar("through"); n != nil {
		pt := r.point("", n.Range, n)
		p.through = &pt
	}
	p.tilts = append(b.tilts("lean"), b.tilts("slope")...)
	switch tilted := p.through != nil || len(p.tilts) > 0 || b.find("faces") != nil; {
	case p.side != nil && tilted:
		r.snag("said-twice", at, "this plane is given by a side and by a tilt", "", snag.Say("keep side and zero, or faces, through and lean or slope"))
	case p.side == nil && (p.through == nil || b.find("faces") == nil):
		r.snag("missing-key", at, "a plane needs faces and through, or a side", "", snag.Say("write faces: up and through: where A meets B, or side: part.side"))
	}
	return p
}
