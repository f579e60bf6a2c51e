package source

import (
	"bytes"
	"strconv"
	"strings"
	"unicode/utf8"

	"scantling/internal/snag"
	"scantling/internal/span"
)

// Parse reads a design file. It always returns a tree; what could not be read
// is Broken in it, or missing, and told in the list. name becomes the File of
// every range. Time and memory grow linearly with the file.
func Parse(name string, src []byte) (*Tree, snag.List) {
	p := &parser{file: name, s: string(src), tree: &Tree{File: name, Src: src}}
	p.tree.Root = &Node{Range: span.Range{File: name}, Kind: Map, Ordinal: -1}
	if p.readable() {
		p.document()
	}
	p.tree.mistakes = len(p.snags)
	return p.tree, p.snags
}

// A parser stands at byte i of s, in the line that begins at bol. When it is
// fresh it stands at the first character of a line (or at the first character
// after a dash), in column col; col is -1 at the end of the file. Columns count
// blanks from 0, a tab as two.
type parser struct {
	file  string
	s     string
	tree  *Tree
	snags snag.List

	i, bol, col int
	fresh       bool
	depth       int
	opens       []byte // the braces and brackets open here

	empty     int  // empty lines passed to reach the fresh line
	commented bool // a comment was passed since the value read last began
	cut       bool // and it was not meant as one: this is reported
	hidden    int  // where a comment inside { or [ hid a closing sign; 0: nowhere
	inner     int  // column of the entries of the mapping or list read last; -1 after other values
}

const mostSnags = 50 // a file with more has one cause, told among the first

func (p *parser) report(code snag.Code, start, end int, what string, mends ...snag.Mend) {
	if len(p.snags) < mostSnags {
		p.snags = append(p.snags, snag.Snag{Code: code, At: p.at(start, end), What: what, Mends: mends})
	}
}

// relate adds a related place to the snag reported last.
func (p *parser) relate(at span.Range, says string) {
	last := &p.snags[len(p.snags)-1]
	last.Related = append(last.Related, snag.Related{At: at, Says: says})
}

func (p *parser) at(start, end int) span.Range {
	return span.Range{File: p.file, Start: start, End: end}
}

// readable checks size, encoding and control characters.
func (p *parser) readable() bool {
	src := p.tree.Src
	if len(src) > MaxBytes {
		p.report("file-too-large", 0, 0, "the file is "+strconv.Itoa(len(src))+" bytes long; a design file holds at most "+strconv.Itoa(MaxBytes),
			snag.Say("split it into several pieces of furniture, or take out what is no design"))
		return false
	}
	if !utf8.Valid(src) {
		at := 0
		for r, n := utf8.DecodeRune(src[at:]); r != utf8.RuneError || n > 1; r, n = utf8.DecodeRune(src[at:]) {
			at += n
		}
		p.report("not-text", at, at+1, "the file is not UTF-8 text from here on", snag.Say("save it as UTF-8 in your editor"))
		return false
	}
	for i, c := range src {
		if c < ' ' && c != '\t' && c != '\n' && (c != '\r' || i+1 == len(src) || src[i+1] != '\n') || c == 0x7f {
			p.report("not-text", i, i+1, "a control character (code "+strconv.Itoa(int(c))+") stands here",
				snag.Replace("take it out", p.at(i, i+1), ""))
			return false
		}
	}
	return true
}

func (p *parser) document() {
	if bytes.HasPrefix(p.tree.Src, []byte("\uFEFF")) {
		p.i = len("\uFEFF")
	}
	p.bol = p.i
	p.enterLine()
	if p.col < 0 {
		p.report("no-value", 0, 0, "the file says nothing", snag.Say("begin with piece: and a name"))
		return
	}
	if root := p.block(-1); root.Kind == Map {
		p.tree.Root = root
	} else if root.Kind != Broken {
		p.report("missing-colon", root.Start, min(root.End, root.Start+1), "a design file is made of names with values, such as piece: Garden bench; this is "+a(root.Kind),
			snag.Say("begin the file with piece: and a name"))
	}
	for p.line(); p.col >= 0; p.line() {
		p.misplaced(-1)
	}
}

func a(k Kind) string {
	if k == Scalar {
		return "a text"
	}
	return "a " + k.String()
}

// deeper reports whether one more mapping or list may be opened here.
func (p *parser) deeper() bool {
	if p.depth >= MaxDepth {
		p.report("too-deep", p.i, p.i+1, "mappings and lists stand more than "+strconv.Itoa(MaxDepth)+" deep in each other here",
			snag.Say("write it flatter"))
		return false
	}
	p.depth++
	return true
}

// block reads the node at the fresh line; parent is the column of the entry it
// belongs to.
func (p *parser) block(parent int) *Node {
	isList := p.dash()
	if !isList && !p.entryHere() {
		return p.inline(parent)
	}
	if !p.deeper() {
		n := p.node(Broken, p.i, p.i)
		p.fresh = false
		p.skip(parent)
		return n
	}
	defer func() { p.depth-- }()
	if isList {
		return p.list(p.col)
	}
	return p.mapping(p.col)
}

// entryHere reports whether the fresh line is an entry of a mapping, or was
// meant as one: no blank follows its colon, or an entry stands right below it.
func (p *parser) entryHere() bool {
	if p.keyEnd() >= 0 || p.gluedColon(p.i) >= 0 {
		return true
	}
	if strings.IndexByte("{[|>\"'", p.s[p.i]) >= 0 {
		return false
	}
	here, col := *p, p.col
	p.fresh = false
	p.line()
	below := p.col == col && p.keyEnd() >= 0
	*p = here
	return below
}

func (p *parser) mapping(col int) *Node {
	n := p.node(Map, p.i, p.i)
	seen := map[string]*Node{}
	for ; p.col >= col; p.line() {
		switch {
		case p.col > col:
			p.misplaced(col)
		case p.dash():
			p.report("indentation", p.i, p.i+1, "a list item stands among names",
				snag.Say("indent it below the name whose list it belongs to"))
			p.fresh = false
			p.skip(col)
		default:
			p.entry(n, col, seen)
		}
	}
	p.inner = col
	return n
}

// entry reads one "key: value" of mapping n.
func (p *parser) entry(n *Node, col int, seen map[string]*Node) {
	key := p.key()
	if key == nil {
		p.skip(col)
		return
	}
	p.add(n, key, p.value(key, col), seen)
}

// add appends an entry to a mapping, unless the key is there already.
func (p *parser) add(n, key, value *Node, seen map[string]*Node) {
	n.End = max(n.End, key.End, value.End)
	if first := seen[key.Text]; first != nil {
		p.report("duplicate-key", key.Start, key.End, "“"+key.Text+"” stands twice here; nothing says which counts",
			snag.Say("take one of the two out, or give it another name"))
		p.relate(first.Range, "the first “"+key.Text+"”")
		return
	}
	seen[key.Text] = key
	n.Keys, n.Items = append(n.Keys, key), append(n.Items, value)
}

// value reads what stands after the colon of key, in an entry of column col.
func (p *parser) value(key *Node, col int) *Node {
	p.cut = false
	p.blanks()
	if !p.lineIsOver() {
		return p.inline(col)
	}
	after := key.End + 1
	if p.cut {
		p.skip(col)
		return p.node(Broken, after, after)
	}
	p.line()
	switch {
	case p.col > col:
		return p.block(col)
	case p.col == col && p.dash() && p.deeper(): // YAML lets a list begin in its key's column
		defer func() { p.depth-- }()
		return p.list(col)
	}
	p.report("no-value", key.Start, key.End, "nothing stands after “"+key.Text+":”",
		snag.Say("write its value after the colon or deeper below; an empty list is []"))
	return p.node(Broken, after, after)
}

func (p *parser) list(col int) *Node {
	n := p.node(List, p.i, p.i)
	for ; p.col >= col; p.line() {
		if p.col > col {
			p.misplaced(col)
			continue
		}
		if !p.dash() {
			break
		}
		dash := p.i
		p.fresh = false
		p.i++
		p.blanks()
		p.cut = false
		var item *Node
		if !p.lineIsOver() {
			p.fresh, p.col = true, p.col+p.i-dash
			item = p.block(col)
		} else if p.cut {
			p.skip(col)
			item = p.node(Broken, dash+1, dash+1)
		} else if p.line(); p.col > col {
			item = p.block(col)
		} else {
			p.report("no-value", dash, dash+1, "nothing stands after the dash", snag.Say("write the item after it, or take the dash out"))
			item = p.node(Broken, dash+1, dash+1)
		}
		n.Items = append(n.Items, item)
		n.End = max(dash+1, item.End)
	}
	p.inner = col
	return n
}

// inline reads a value that begins here and is neither a block mapping nor a
// block list, and passes over the rest of its line.
func (p *parser) inline(parent int) *Node {
	p.fresh, p.commented, p.cut, p.inner = false, false, false, -1
	start := p.i
	var n *Node
	switch c := p.s[p.i]; {
	case c == '{' || c == '[':
		n = p.flow(parent)
	case c == '"' || c == '\'':
		n = p.quoted(parent)
	case (c == '|' || c == '>') && p.blockHeader() >= 0:
		return p.blockScalar(parent)
	case p.refused(p.textEnd(p.i)):
	default:
		return p.plain(parent)
	}
	if n == nil {
		n = p.node(Broken, start, p.textEnd(start))
		p.skip(parent)
		return n
	}
	if p.blanks(); !p.lineIsOver() {
		end := p.textEnd(p.i)
		what := "“" + short(p.s[p.i:end]) + "” stands after the end of the value"
		says := "put the whole text in quotes"
		if p.s[start] == '{' {
			what = "a text must not begin with {: YAML takes the braces for names with values"
		} else if p.s[start] == '[' {
			what = "a text must not begin with [: YAML takes the brackets for a list"
		}
		p.report("stray-text", p.i, end, what, p.quoting(says, start, end))
		n = p.node(Broken, start, end)
		p.skip(parent)
	}
	return n
}

// node returns a node over the bytes from start to end.
func (p *parser) node(k Kind, start, end int) *Node {
	return &Node{Range: p.at(start, end), Kind: k, Ordinal: -1}
}

// scalar returns a finished scalar with the next ordinal.
func (p *parser) scalar(style Style, start, end int, t builder) *Node {
	text, pieces := t.done(start)
	n := p.text(style, start, end, text)
	n.pieces, n.Ordinal = pieces, len(p.tree.Scalars)
	p.tree.Scalars = append(p.tree.Scalars, n)
	return n
}

// text returns a scalar node that has no ordinal: a key.
func (p *parser) text(style Style, start, end int, text string) *Node {
	n := p.node(Scalar, start, end)
	n.Style, n.Raw, n.Text = style, p.s[start:end], text
	return n
}
