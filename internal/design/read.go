package design

import (
	"strings"

	"scantling/internal/expr"
	"scantling/internal/snag"
	"scantling/internal/source"
	"scantling/internal/span"
	"scantling/internal/spell"
)

// A reader turns the tree of a file into declarations, once; it collects what
// is wrong and reads on.
type reader struct {
	d        *Design
	sc       *scope            // whose body is being read
	bodies   map[string]*entry // of the file's parts and rows, by name
	mentions []mention
}

// A said is one measure as the file has it. x is nil when it could not be
// read, which was told; a nil said is a key that is not there.
type said struct {
	node *source.Node
	x    expr.Expr
	sc   *scope // whose names it reads
}

// A ref is a name in a list of names, with the adjectives that pick copies.
type ref struct {
	*expr.Ref
	node *source.Node
	sc   *scope
}

// An entry is a mapping of the file read by a table. base is what it is like.
type entry struct {
	r     *reader
	t     *table
	node  *source.Node
	base  *entry
	meant map[string]string // keys that unknown ones were taken for, with these: misspelt, not missing
}

func (r *reader) snag(code snag.Code, at span.Range, what, why string, mends ...snag.Mend) {
	r.d.snags = append(r.d.snags, snag.Snag{Code: code, At: at, What: what, Why: why, Mends: mends})
}

// problem tells what is wrong in the text of one scalar.
func (r *reader) problem(n *source.Node, p *expr.Problem) {
	r.d.snags = append(r.d.snags, problemSnag(n, p))
}

func problemSnag(n *source.Node, p *expr.Problem) snag.Snag {
	s := snag.Snag{Code: snag.Code(p.Code), At: n.Sub(p.Start, p.End), What: p.What, Why: p.Why}
	if s.At.End == s.At.Start && s.At.End < n.End {
		s.At.End++
	}
	for _, m := range p.Mends {
		if m.At == (expr.At{}) && m.Text == "" {
			s.Mends = append(s.Mends, snag.Say(m.Says))
			continue
		}
		s.Mends = append(s.Mends, snag.Replace(m.Says, n.Sub(m.Start, m.End), m.Text))
	}
	return s
}

// enter reads n by a table: every key must be known and stand once, and the
// needed ones must be there. It returns nil when n is no mapping.
func (r *reader) enter(n *source.Node, t *table) *entry {
	if n == nil || n.Kind == source.Broken {
		return nil
	}
	if n.Kind != source.Map {
		r.snag("wrong-form", n.Range, t.what+" is said by keys, and here is "+formOf(n), "",
			snag.Say("write its keys below it: "+strings.Join(t.names(), ", ")))
		return nil
	}
	e := &entry{r: r, t: t, node: n}
	for _, k := range n.Keys {
		if t.find(k.Text) == nil {
			e.misspelt(r.unknownKey(k, t), k.Text)
		}
	}
	return e
}

// needs tells which needed keys are missing, after likenesses are known.
func (e *entry) needs() {
	for _, k := range e.t.keys {
		if k.need && e.find(k.name) == nil && e.meant[k.name] == "" && !e.r.d.holes {
			at := e.node.Range
			at.End = min(at.End, at.Start+1)
			e.r.snag("missing-key", at, e.t.what+" needs the key “"+k.name+"”: "+k.doc, "", snag.Say("write "+k.name+": and its value"))
		}
	}
}

func (e *entry) misspelt(key, written string) {
	if e.meant == nil {
		e.meant = map[string]string{}
	}
	e.meant[key] = written
}

// unknownKey tells of a key no table has, and returns the key it was taken for.
func (r *reader) unknownKey(k *source.Node, t *table) string {
	what := "“" + k.Text + "” is no key of " + t.what
	if near := spell.Nearest(k.Text, t.names()); len(near) > 0 {
		r.snag("unknown-key", k.Range, what, "", snag.Replace("did you mean "+near[0]+"?", k.Range, near[0]))
		return near[0]
	}
	r.snag("unknown-key", k.Range, what, "", snag.Say("its keys are: "+strings.Join(t.names(), ", ")))
	return ""
}

func formOf(n *source.Node) string {
	switch n.Kind {
	case source.Map:
		return "a set of keys"
	case source.List:
		return "a list"
	}
	return "a single value"
}

// find returns the value of a key, here or in what this is like; nil when it is
// absent or broken.
func (e *entry) find(name string) *source.Node {
	for at, n := e, 0; at != nil && n <= maxLike; at, n = at.base, n+1 {
		v := at.node.Get(name)
		if written, ok := at.meant[name]; v == nil && ok && spell.Edits(written, name) <= 2 {
			v = at.node.Get(written) // one slip of the pen is told once
		}
		if v != nil {
			if v.Kind == source.Broken {
				return nil
			}
			return v
		}
	}
	return nil
}

// maxLike bounds chains of like, as the language says.
const maxLike = 8

// scalar returns the value of a key that must be a single value.
func (e *entry) scalar(name string) *source.Node {
	return e.r.scalar(e.find(name), "“"+name+"”")
}

func (r *reader) scalar(n *source.Node, what string) *source.Node {
	if n == nil || n.Kind == source.Broken {
		return nil
	}
	if n.Kind != source.Scalar {
		r.snag("wrong-form", n.Range, what+" takes a single value, and here is "+formOf(n), "", snag.Say("write one value after the colon"))
		return nil
	}
	return n
}

func (e *entry) words(name string) string {
	if n := e.scalar(name); n != nil {
		return n.Text
	}
	return ""
}

// word returns the value of a key that takes one of a few words.
func (e *entry) word(name string) string {
	n := e.scalar(name)
	if n == nil {
		return ""
	}
	known := e.t.find(name).words
	for _, w := range known {
		if n.Text == w {
			return w
		}
	}
	mend := snag.Say("write one of: " + strings.Join(known, ", "))
	if near := spell.Nearest(n.Text, known); len(near) > 0 {
		mend = snag.Replace("did you mean "+near[0]+"?", n.Range, near[0])
	}
	e.r.snag("unknown-word", n.Range, "“"+n.Text+"” is not what “"+name+"” can be", "", mend)
	return ""
}

// said returns the measure of a key, nil when the key is absent.
func (e *entry) said(name string) *said { return e.r.said(e.scalar(name)) }

func (r *reader) said(n *source.Node) *said {
	if n == nil {
		return nil
	}
	x, p := expr.Parse(n.Text)
	if p != nil {
		r.problem(n, p)
	}
	r.mention(n, x)
	return &said{n, x, r.sc}
}

// saids returns the measures of a key that takes one or a list of them.
func (e *entry) saids(name string) []*said {
	var out []*said
	for _, n := range e.list(name) {
		if n := e.r.scalar(n, "an item of “"+name+"”"); n != nil {
			out = append(out, e.r.said(n))
		}
	}
	return out
}

// list returns the items of a key that takes one or a list of them.
func (e *entry) list(name string) []*source.Node {
	n := e.find(name)
	switch {
	case n == nil:
		return nil
	case n.Kind == source.List:
		return n.Items
	}
	return []*source.Node{n}
}

// parser returns a parser over the text of a scalar; end tells what is left.
func parser(n *source.Node) *expr.Parser { return expr.NewParser(n.Text) }

// finish reports what went wrong in a phrase, and whether it went right.
func (r *reader) finish(n *source.Node, p *expr.Parser) bool {
	p.Done()
	if p.Err() != nil {
		r.problem(n, p.Err())
		return false
	}
	return true
}

// refs returns the names a key lists.
func (e *entry) refs(name string) []ref { return e.r.refs(e.list(name)) }

func (r *reader) refs(nodes []*source.Node) []ref {
	var out []ref
	for _, n := range nodes {
		if n = r.scalar(n, "a name"); n == nil {
			continue
		}
		x, p := expr.Parse(n.Text)
		if p != nil {
			r.problem(n, p)
			continue
		}
		if name, ok := x.(*expr.Ref); ok && name.Check == "" {
			out = append(out, ref{name, n, r.sc})
			continue
		}
		r.snag("wrong-kind", n.Range, "a name belongs here, and this is a measure", "", snag.Say("write the name of a part or row"))
	}
	return out
}

// prose returns the text of a key cut into words and measures.
func (e *entry) prose(name string) *prose {
	n := e.scalar(name)
	if n == nil {
		return nil
	}
	chunks, problems := expr.ParseText(n.Text)
	for _, p := range problems {
		e.r.problem(n, p)
	}
	for _, c := range chunks {
		e.r.mention(n, c.X)
	}
	return &prose{n, chunks, e.r.sc}
}

// A prose is a text of the file.
type prose struct {
	node   *source.Node
	chunks []expr.Chunk
	sc     *scope
}

// dir returns the direction a key names.
func (e *entry) dir(name string) (expr.Dir, bool) { return expr.DirOf(e.word(name)) }

// yes reports whether a yes-or-no key says yes.
func (e *entry) yes(name string) bool { return e.word(name) == "yes" }

// keyRange returns where a key of e is written, or another place when it is
// written elsewhere.
func keyRange(e *entry, name string, other span.Range) span.Range {
	if k := e.node.Key(name); k != nil {
		return k.Range
	}
	return other
}
