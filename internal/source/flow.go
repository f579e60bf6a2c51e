package source

import (
	"strings"

	"scantling/internal/snag"
)

// flow reads { … } or [ … ]; nil once a mistake is reported after which the
// rest makes no sense.
func (p *parser) flow(parent int) *Node {
	if !p.deeper() {
		return nil
	}
	open, isMap := p.i, p.s[p.i] == '{'
	p.opens = append(p.opens, p.s[open])
	defer func() { p.depth, p.opens = p.depth-1, p.opens[:len(p.opens)-1] }()
	closing := byte(']')
	n := p.node(List, open, open)
	if isMap {
		closing, n.Kind = '}', Map
	}
	seen := map[string]*Node{}
	for p.i++; ; {
		if !p.gap(parent) {
			p.flowUnclosed(open)
			return nil
		}
		if p.s[p.i] == closing {
			p.i++
			n.End = p.i
			return n
		}
		ok := false
		if isMap {
			ok = p.flowEntry(n, parent, seen)
		} else {
			ok = p.flowItem(n, parent)
		}
		if !ok {
			return nil
		}
		for sep := byte(0); sep != ',' && sep != closing; {
			if !p.gap(parent) {
				p.flowUnclosed(open)
				return nil
			}
			if sep = p.s[p.i]; sep == ',' {
				p.i++
			} else if sep != closing && !p.afterFlowValue(n, open) {
				return nil
			}
		}
	}
}

// flowEntry reads one key: value between braces.
func (p *parser) flowEntry(n *Node, parent int, seen map[string]*Node) bool {
	start := p.i
	if p.refusedInFlow() {
		return false
	}
	key := p.flowScalar(parent)
	if key == nil {
		return false
	}
	p.unnumber(key)
	if !p.gap(parent) {
		p.flowUnclosed(n.Start)
		return false
	}
	if p.s[p.i] != ':' {
		return p.splitByComma(n, key)
	}
	if key.Text == "<<" {
		p.report("anchor", start, key.End, "<< merges another mapping; a design file has no such thing", snag.Say("write the entries out, or say like: and a part's name"))
		return false
	}
	p.i++
	if !p.gap(parent) {
		p.flowUnclosed(n.Start)
		return false
	}
	var value *Node
	if c := p.s[p.i]; c == ',' || c == '}' {
		p.report("no-value", key.Start, key.End, "nothing stands after “"+key.Text+":”", snag.Say("write its value after the colon; an empty list is []"))
		value = p.node(Broken, p.i, p.i)
	} else if value = p.flowValue(parent); value == nil {
		return false
	}
	p.add(n, key, value, seen)
	return true
}

// flowItem reads one item between brackets: a value, or "key: value", which is
// a mapping of one entry.
func (p *parser) flowItem(n *Node, parent int) bool {
	item := p.flowValue(parent)
	if item == nil {
		return false
	}
	if item.Kind == Scalar && p.gap(parent) && p.s[p.i] == ':' && isBlank(p.s, p.i+1) {
		p.unnumber(item)
		pair := p.node(Map, item.Start, item.End)
		p.i++
		if !p.gap(parent) {
			p.flowUnclosed(n.Start)
			return false
		}
		value := p.flowValue(parent)
		if value == nil {
			return false
		}
		p.add(pair, item, value, map[string]*Node{})
		item = pair
	} else if item.Kind == Scalar && item.Style == Plain && strings.Count(item.Text, "(") > strings.Count(item.Text, ")") && p.i < len(p.s) && p.s[p.i] == ',' {
		p.commaInArguments(item.Start)
		item.Kind = Broken
	}
	n.Items = append(n.Items, item)
	return true
}

// flowValue reads a value inside braces or brackets.
func (p *parser) flowValue(parent int) *Node {
	switch c := p.s[p.i]; {
	case c == '{' || c == '[':
		return p.flow(parent)
	case p.refusedInFlow():
		return nil
	}
	return p.flowScalar(parent)
}

// flowScalar reads a quoted or plain text inside braces or brackets.
func (p *parser) flowScalar(parent int) *Node {
	if c := p.s[p.i]; c == '"' || c == '\'' {
		return p.quoted(parent)
	}
	start, end := p.i, p.i
	p.cut = false
	var t builder
	for {
		end = p.flowTextEnd(p.i)
		t.copy(p.s, p.i, end)
		p.i = end
		p.blanks()
		if !p.eol() {
			break
		}
		p.commented = false
		if !p.gap(parent) {
			break // the caller finds it unclosed
		}
		if c := p.s[p.i]; strings.IndexByte(",]}[{:", c) >= 0 || p.commented {
			break
		}
		t.fold(p.empty, end)
	}
	n := p.scalar(Plain, start, end, t)
	if p.cut {
		n.Kind = Broken
	}
	return n
}

// flowTextEnd returns the end, on this line, of the plain text at i.
func (p *parser) flowTextEnd(i int) int {
	end := i
	for ; i < len(p.s) && p.s[i] != '\n'; i++ {
		switch c := p.s[i]; {
		case strings.IndexByte(",[]{}", c) >= 0:
			return end
		case c == ':' && (isBlank(p.s, i+1) || strings.IndexByte(",[]{}", p.s[i+1]) >= 0):
			return end
		case c == '#' && isBlank(p.s, i-1):
			here := p.i
			p.i = i
			cut := p.cutByComment()
			p.i = here
			if !cut {
				return end
			}
		}
		if !isBlank(p.s, i) {
			end = i + 1
		}
	}
	return end
}

// gap skips blanks, line ends and comments inside braces or brackets. It
// returns false, and is fresh, if the file ends or a line belongs to another
// entry: one that begins in column parent or before, except for a closing sign
// in column parent.
func (p *parser) gap(parent int) bool {
	for {
		if p.fresh {
			return false
		}
		p.blanks()
		switch {
		case p.eol():
			if p.line(); p.col < 0 || p.col < parent || p.col == parent && p.s[p.i] != ']' && p.s[p.i] != '}' {
				return false
			}
			p.fresh = false
		case p.s[p.i] == '#' && isBlank(p.s, p.i-1):
			p.cutByComment()
			p.commented = true
			rest := p.s[p.i:]
			if n := strings.IndexByte(rest, '\n'); n >= 0 {
				rest = rest[:n]
			}
			if strings.ContainsAny(rest, "]}") {
				p.hidden = p.i
			}
			p.i += len(rest)
		default:
			return true
		}
	}
}

// unnumber takes the number from a scalar just read that turned out a key.
func (p *parser) unnumber(n *Node) {
	if n.Ordinal >= 0 && n.Ordinal == len(p.tree.Scalars)-1 {
		p.tree.Scalars = p.tree.Scalars[:n.Ordinal]
		n.Ordinal = -1
	}
}
