package source

import (
	"strconv"
	"strings"
	"unicode/utf8"

	"scantling/internal/snag"
)

// plain reads a text without quotes, which goes on in deeper lines.
func (p *parser) plain(parent int) *Node {
	start, end := p.i, p.i
	var t builder
	for {
		end = p.textEnd(p.i)
		if c := colonIn(p.s, p.i, end); c >= 0 {
			p.colonInText(start, c, end)
			n := p.node(Broken, start, end)
			p.skip(parent)
			return n
		}
		t.copy(p.s, p.i, end)
		p.i = end
		p.blanks()
		if p.lineIsOver(); p.cut {
			n := p.node(Broken, start, end)
			p.skip(parent)
			return n
		}
		p.line()
		if p.col <= parent || p.commented || p.dash() {
			return p.scalar(Plain, start, end, t)
		}
		p.fresh = false
		t.fold(p.empty, end)
	}
}

// quoted reads a text in quotes; nil once a mistake in it is reported.
func (p *parser) quoted(parent int) *Node {
	start, quote := p.i, p.s[p.i]
	style := Single
	if quote == '"' {
		style = Double
	}
	var t builder
	kept := 0 // blanks before this length were written as escapes
	for p.i++; p.i < len(p.s); {
		switch c := p.s[p.i]; {
		case c == quote && quote == '\'' && strings.HasPrefix(p.s[p.i:], "''"):
			t.put("'", p.i)
			p.i += 2
		case c == quote:
			p.i++
			return p.scalar(style, start, p.i, t)
		case c == '\\' && quote == '"':
			text, n := escape(p.s[p.i:])
			if n == 0 {
				p.report("bad-escape", p.i, min(p.i+2, len(p.s)), "a backslash inside double quotes begins an escape, and this is none",
					snag.Replace("write two backslashes for one", p.at(p.i, p.i+1), `\\`))
				return nil
			}
			t.put(text, p.i)
			p.i += n
			kept = t.len()
		case p.eol():
			t.trim(kept)
			end := p.i
			empty, ok := p.nextQuoted(parent)
			if !ok {
				p.unclosed(start)
				return nil
			}
			t.fold(empty, end)
			kept = t.len()
		default:
			from := p.i
			for p.i < len(p.s) && p.s[p.i] != quote && p.s[p.i] != '\\' && !p.eol() {
				p.i++
			}
			p.i = max(p.i, from+1) // a backslash between single quotes
			t.copy(p.s, from, p.i)
		}
	}
	p.end()
	p.unclosed(start)
	return nil
}

// nextQuoted moves to the next line that goes on with a quoted text and returns
// how many lines between are empty; false if the text cannot go on there.
func (p *parser) nextQuoted(parent int) (empty int, ok bool) {
	for p.nextLine() {
		if p.blanks(); p.eol() {
			empty++
			continue
		}
		if p.i-p.bol <= parent {
			p.i = p.bol
			p.enterLine()
			return 0, false
		}
		return empty, true
	}
	p.end()
	return 0, false
}

// escape returns what the escape s begins with stands for, and its length; 0 if
// it is none.
func escape(s string) (string, int) {
	if len(s) < 2 {
		return "", 0
	}
	switch c := s[1]; c {
	case '\\', '"', '/', ' ':
		return string(c), 2
	case 'n':
		return "\n", 2
	case 't':
		return "\t", 2
	case 'x', 'u', 'U':
		digits := map[byte]int{'x': 2, 'u': 4, 'U': 8}[c]
		if len(s) < 2+digits {
			return "", 0
		}
		r, err := strconv.ParseUint(s[2:2+digits], 16, 32)
		if err != nil || r < ' ' || !utf8.ValidRune(rune(r)) {
			return "", 0
		}
		return string(rune(r)), 2 + digits
	}
	return "", 0
}

// blockHeader returns the end of the header (| or >, with signs for indentation
// and line ends) that stands here, -1 if this is none.
func (p *parser) blockHeader() int {
	i := p.i + 1
	for i < len(p.s) && i < p.i+3 && strings.IndexByte("+-123456789", p.s[i]) >= 0 {
		i++
	}
	if i != p.textEnd(p.i) {
		return -1
	}
	return i
}

// blockScalar reads the text below | or >. How it ends (- and +) is of no
// account: Text never ends in a line break.
func (p *parser) blockScalar(parent int) *Node {
	start, end := p.i, p.blockHeader()
	style := Literal
	if p.s[start] == '>' {
		style = Folded
	}
	indent := -1 // found at the first line with content
	if at := strings.IndexAny(p.s[start:end], "123456789"); at > 0 {
		indent = max(parent, 0) + int(p.s[start+at]-'0')
	}
	p.i = end
	p.blanks()
	p.lineIsOver()
	var t builder
	empty, deep := 0, false // empty lines since the last content, and whether that stood deeper
	for first := true; ; {
		if !p.nextLine() {
			p.end()
			break
		}
		for p.i < len(p.s) && p.s[p.i] == ' ' && (indent < 0 || p.i-p.bol < indent) {
			p.i++
		}
		at := p.i
		if p.blanks(); p.eol() && !(indent >= 0 && p.i > at) {
			empty++
			continue
		}
		p.i = at
		if at-p.bol <= parent || at-p.bol < indent {
			p.i = p.bol
			p.enterLine()
			break
		}
		indent = at - p.bol
		lineEnd := at
		for !(lineEnd >= len(p.s) || p.s[lineEnd] == '\n' || p.s[lineEnd] == '\r') {
			lineEnd++
		}
		deeper := isBlank(p.s, at)
		switch {
		case first:
			t.put(strings.Repeat("\n", empty), at)
		case style == Literal || deep || deeper:
			t.put(strings.Repeat("\n", empty+1), end)
		default:
			t.fold(empty, end)
		}
		t.copy(p.s, at, lineEnd)
		first, empty, deep, end = false, 0, deeper, lineEnd
	}
	if text, _ := t.done(start); strings.TrimSpace(text) == "" {
		p.report("no-value", start, start+1, "no text stands below this sign", snag.Say("write the text in deeper lines"))
		return p.node(Broken, start, end)
	}
	return p.scalar(style, start, end, t)
}
