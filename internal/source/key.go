package source

import (
	"strings"

	"scantling/internal/snag"
)

// key reads a name and its colon; nil once a mistake in it is reported.
func (p *parser) key() *Node {
	p.fresh, p.commented = false, false
	start, colon := p.i, p.keyEnd()
	if colon < 0 {
		p.missingColon()
		return nil
	}
	var n *Node
	if c := p.s[start]; c == '"' || c == '\'' {
		if n = p.quoted(p.col); n == nil {
			return nil
		}
		n.Ordinal, p.tree.Scalars = -1, p.tree.Scalars[:n.Ordinal]
	} else {
		end := start + len(strings.TrimRight(p.s[start:colon], " \t"))
		if p.refused(end) {
			return nil
		}
		n = p.text(Plain, start, end, p.s[start:end])
		if n.Text == "<<" {
			p.report("anchor", start, end, "<< merges another mapping; a design file has no such thing", snag.Say("write the entries out, or say like: and a part's name"))
			return nil
		}
	}
	p.i = colon + 1
	return n
}

// keyEnd returns where the colon of the key that begins here stands, -1 if
// there is none on this line.
func (p *parser) keyEnd() int {
	if p.i >= len(p.s) {
		return -1
	}
	i := p.i
	switch c := p.s[i]; c {
	case '{', '[':
		return -1
	case '"', '\'':
		for i++; ; i++ {
			if i >= len(p.s) || p.s[i] == '\n' {
				return -1
			}
			if p.s[i] == '\\' && c == '"' && !isBlank(p.s, i+1) || p.s[i] == c && c == '\'' && strings.HasPrefix(p.s[i+1:], "'") {
				i++
			} else if p.s[i] == c {
				break
			}
		}
		for i++; i < len(p.s) && (p.s[i] == ' ' || p.s[i] == '\t'); i++ {
		}
		if i < len(p.s) && p.s[i] == ':' && isBlank(p.s, i+1) {
			return i
		}
		return -1
	}
	return colonIn(p.s, i, p.textEnd(i))
}

// gluedColon returns where a colon stands right after a name at i and right
// before something else, as in gap:1/4"; -1 if none does.
func (p *parser) gluedColon(i int) int {
	for start := i; i < len(p.s); i++ {
		switch c := p.s[i]; {
		case c == ':' && i > start && !isBlank(p.s, i+1):
			return i
		case c != '_' && c != ' ' && (c < 'a' || c > 'z') && (i == start || c < '0' || c > '9'):
			return -1
		}
	}
	return -1
}

// colonIn returns the first colon followed by a blank in s[from:to], -1 if none.
func colonIn(s string, from, to int) int {
	for i := from; i < to; i++ {
		if s[i] == ':' && isBlank(s, i+1) {
			return i
		}
	}
	return -1
}
