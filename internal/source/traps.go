package source

import (
	"bytes"
	"strings"
	"unicode/utf8"

	"scantling/internal/snag"
)

// This file holds the messages for what YAML would read otherwise than it was
// meant: each trap has its own.

// quote returns text as a quoted scalar: in double quotes if nothing in it
// needs an escape there, else in single quotes.
func quote(text string) string {
	if !strings.ContainsAny(text, `"\`) {
		return `"` + text + `"`
	}
	return "'" + strings.ReplaceAll(text, "'", "''") + "'"
}

// quoting returns the mend that puts the bytes from start to end in quotes.
func (p *parser) quoting(says string, start, end int) snag.Mend {
	return snag.Replace(says, p.at(start, end), quote(p.s[start:end]))
}

// short returns s cut to a length a message can hold.
func short(s string) string {
	const most = 32
	if utf8.RuneCountInString(s) > most {
		s = string([]rune(s)[:most-1]) + "…"
	}
	return s
}

// refused reports a text, up to byte end, that begins with a sign YAML keeps
// for itself.
func (p *parser) refused(end int) bool {
	c := p.s[p.i]
	quotes := p.quoting("put the text in quotes", p.i, end)
	sign := "“" + string(c) + "”"
	switch {
	case c == '&' || c == '*' || c == '!':
		what := map[byte]string{'&': "an anchor", '*': "an alias", '!': "a tag"}[c]
		p.report("anchor", p.i, end, "a value that begins with "+sign+" is "+what+" to YAML; a design file has none",
			quotes, snag.Say("to use a value twice, give it a name under let:"))
	case c == '%' || c == '@' || c == '`':
		p.report("yaml-mark", p.i, end, "YAML keeps "+sign+" at the beginning of a text for itself", quotes)
	case c == '|' || c == '>':
		p.report("yaml-mark", p.i, end, sign+" at the beginning of a value announces a text in the lines below, and nothing else may stand on its line",
			quotes, snag.Say("or put the text in deeper lines below"))
	case c == '-' && isBlank(p.s, p.i+1):
		p.report("yaml-mark", p.i, end, "a dash and a blank begin a list item, and one cannot begin here",
			snag.Say("begin the list on the next line, deeper than its name"), p.quoting("put the text in quotes, if it is no list", p.i, end))
	case c == '?' && isBlank(p.s, p.i+1), c == ':' && isBlank(p.s, p.i+1), c == ',', c == ']', c == '}':
		p.report("yaml-mark", p.i, end, sign+" cannot begin a name or a value", quotes)
	default:
		return false
	}
	return true
}

// refusedInFlow is refused inside braces and brackets.
func (p *parser) refusedInFlow() bool { return p.refused(p.proseEnd(p.i)) }

// proseEnd guesses where a text inside braces or brackets was meant to end: at
// the closing sign of one opened before it, at a comma before the next "key:",
// or at the end of the line.
func (p *parser) proseEnd(i int) int {
	end, depth := i, 0
	for ; i < len(p.s) && p.s[i] != '\n'; i++ {
		switch c := p.s[i]; {
		case c == '{' || c == '[':
			depth++
		case (c == '}' || c == ']') && depth > 0:
			depth--
		case (c == '}' || c == ']') && p.isOpen(c):
			return end
		case c == ',' && depth == 0 && p.keyFollows(i+1):
			return end
		}
		if !isBlank(p.s, i) {
			end = i + 1
		}
	}
	return end
}

// isOpen reports whether the brace or bracket that c closes is open here.
func (p *parser) isOpen(c byte) bool {
	return bytes.IndexByte(p.opens, c-2) >= 0 // { and [ come two before } and ]
}

// keyFollows reports whether "key: " stands at i, after blanks.
func (p *parser) keyFollows(i int) bool {
	for ; i < len(p.s); i++ {
		c := p.s[i]
		if c == ':' {
			return isBlank(p.s, i+1)
		}
		if c != ' ' && c != '_' && c != '-' && (c < 'a' || c > 'z') && (c < '0' || c > '9') {
			return false
		}
	}
	return false
}

// cutByComment reports a comment that was not meant as one: #10 after a value.
func (p *parser) cutByComment() bool {
	if p.i+1 >= len(p.s) || p.s[p.i+1] < '0' || p.s[p.i+1] > '9' || strings.TrimSpace(p.s[p.bol:p.i]) == "" {
		return false
	}
	end := p.i
	for !isBlank(p.s, end) && strings.IndexByte(",}]", p.s[end]) < 0 {
		end++
	}
	p.cut = true
	p.report("cut-by-comment", p.i, end, "“"+p.s[p.i:end]+"” is cut off: a blank and # begin a comment",
		snag.Replace("write the number without #", p.at(p.i, p.i+1), ""), snag.Say("or put a blank after #, if a comment is meant"))
	return true
}

// colonInText reports the colon at byte c of a plain value.
func (p *parser) colonInText(start, c, end int) {
	if strings.Contains(p.s[start:c], "\n") {
		p.report("colon-in-text", c, c+1, "a colon and a blank stand in the text that began above, or this line is an entry that stands too deep",
			snag.Say("put the text below a >, or begin this line in the column of the entries it belongs to"))
		return
	}
	p.report("colon-in-text", c, c+1, "a value without quotes cannot hold a colon and a blank",
		p.quoting("put the text in quotes", start, end))
}

// missingColon reports a line that should be an entry and has no colon.
func (p *parser) missingColon() {
	if colon := p.gluedColon(p.i); colon >= 0 {
		p.glued(colon)
		return
	}
	end := p.textEnd(p.i)
	line := p.s[p.i:end]
	p.report("missing-colon", p.i, end, "“"+short(line)+"” has no colon; an entry is a name, a colon, a blank and a value",
		snag.Say("write a colon and a blank after the name, or indent the line below the entry whose text it continues"))
}

// glued reports a colon with no blank behind it.
func (p *parser) glued(colon int) {
	after := colon + 1
	const noBreak = "\u00a0"
	if strings.HasPrefix(p.s[after:], noBreak) {
		p.report("missing-colon", after, after+len(noBreak), "a no-break blank follows the colon; YAML takes it for a letter",
			snag.Replace("write a common blank", p.at(after, after+len(noBreak)), " "))
		return
	}
	p.report("missing-colon", colon, after, "no blank follows the colon, so YAML does not see one",
		snag.Replace("write a blank after the colon", p.at(after, after), " "))
}

// unclosed reports a quoted text without an end.
func (p *parser) unclosed(start int) {
	mend := snag.Say("write the closing quote")
	if p.s[start] == '\'' {
		mend = snag.Say("write the closing quote, or put a text that begins with an apostrophe in double quotes")
	}
	p.report("unclosed", start, start+1, "the quote that begins here is never closed", mend)
}

// flowUnclosed reports a brace or bracket without an end.
func (p *parser) flowUnclosed(open int) {
	closing := "]"
	if p.s[open] == '{' {
		closing = "}"
	}
	p.report("unclosed", open, open+1, "“"+p.s[open:open+1]+"” is never closed", snag.Say("write "+closing+" where the entry ends"))
	if p.hidden > open && len(p.snags) < mostSnags {
		p.relate(p.at(p.hidden, p.hidden+1), "this comment hides a closing sign")
	}
}

// splitByComma reports text between braces that has no colon: the rest of the
// value before it, cut off at a comma, or text that was meant to be prose. It
// returns true if reading can go on.
func (p *parser) splitByComma(n, part *Node) bool {
	if colon := p.gluedColon(part.Start); colon >= 0 && colon < part.End {
		p.glued(colon)
		return true
	}
	if len(n.Items) == 0 {
		return p.prose(n, part)
	}
	last := n.Items[len(n.Items)-1]
	if last.Kind == Scalar && last.Style == Plain {
		last.Kind = Broken
		p.i = max(p.i, p.proseEnd(last.Start))
		if strings.Count(last.Text, "(") > strings.Count(last.Text, ")") {
			p.commaInArguments(last.Start)
			return true
		}
		p.report("comma-split", part.Start, part.End, "a comma split your sentence: “"+short(part.Text)+"” is a name without a value here",
			p.quoting("put the whole text in quotes", last.Start, p.proseEnd(last.Start)))
		return true
	}
	p.report("no-value", part.Start, part.End, "“"+short(part.Text)+"” is a name without a value", snag.Say("write a colon, a blank and a value after it, or take it out"))
	return true
}

// commaInArguments reports a comma between the arguments of a function.
func (p *parser) commaInArguments(start int) {
	end := p.proseEnd(start)
	at := start + strings.IndexByte(p.s[start:], ',')
	if at < start || at >= end {
		end, at = p.i, p.i
	}
	if close := strings.IndexByte(p.s[at:end], ')'); close >= 0 {
		end = at + close + 1
	}
	p.report("comma-split", at, at+1, "a comma split “"+short(p.s[start:end])+"”: arguments are parted by a semicolon",
		snag.Replace("write ; for the comma", p.at(at, at+1), ";"))
}

// prose reports { at the beginning of a text: {length} long.
func (p *parser) prose(n, part *Node) bool {
	end := p.textEnd(n.Start)
	if len(p.opens) > 1 {
		end = p.proseEnd(n.Start)
	}
	if close := strings.IndexByte(p.s[n.Start:end], '}'); close >= 0 && n.Start+close+1 == end {
		p.report("no-value", part.Start, part.End, "“"+short(part.Text)+"” stands between braces without a value",
			snag.Replace("write it without braces, if it is a name", p.at(n.Start, end), strings.TrimSpace(p.s[n.Start+1:end-1])),
			p.quoting("put it in quotes, if it is prose", n.Start, end))
		return false
	}
	p.report("stray-text", n.Start, n.Start+1, "a text must not begin with {: YAML takes the braces for names with values",
		p.quoting("put the whole text in quotes", n.Start, end), snag.Say("or write > after the colon and the text in deeper lines"))
	return false
}

// afterFlowValue reports what stands after a value where , or a closing sign
// should. It returns true if reading can go on.
func (p *parser) afterFlowValue(n *Node, open int) bool {
	last := n
	if len(n.Items) > 0 {
		last = n.Items[len(n.Items)-1]
	}
	c := p.s[p.i]
	if last.Kind != Scalar || last.Style != Plain {
		p.report("stray-text", p.i, p.i+1, "a comma or a closing sign should stand here, after the end of the value", snag.Say("write a comma, or put the whole text in quotes"))
		return false
	}
	end := p.proseEnd(last.Start)
	mend := p.quoting("put the whole text in quotes", last.Start, end)
	switch {
	case (c == '}' || c == ']') && p.isOpen(c):
		p.flowUnclosed(open)
		return false
	case strings.IndexByte("{}[]", c) >= 0:
		p.report("bracket-in-text", p.i, p.i+1, "“"+string(c)+"” stands inside a text between braces or brackets", mend)
	case c == ':':
		p.report("colon-in-text", p.i, p.i+1, "a value without quotes cannot hold a colon and a blank", mend)
	default:
		p.report("stray-text", p.i, p.i+1, "a comma or a closing sign should stand here, after the end of the value", mend)
	}
	last.Kind = Broken
	p.i = max(p.i+1, end)
	return true
}
