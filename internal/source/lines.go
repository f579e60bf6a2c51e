package source

import (
	"strconv"
	"strings"

	"scantling/internal/snag"
)

// line moves on to the next line with content, past comments, unless the parser
// is fresh already.
func (p *parser) line() {
	if p.fresh {
		return
	}
	p.empty = 0
	if !p.nextLine() {
		p.end()
		return
	}
	p.enterLine()
}

// nextLine moves to the beginning of the next line, false if there is none.
func (p *parser) nextLine() bool {
	n := strings.IndexByte(p.s[p.i:], '\n')
	if n < 0 {
		return false
	}
	p.i += n + 1
	p.bol = p.i
	return true
}

func (p *parser) end() { p.i, p.col, p.fresh = len(p.s), -1, true }

// enterLine makes the parser fresh at the first line with content from the line
// beginning at i.
func (p *parser) enterLine() {
	for {
		p.col = 0
		for p.i < len(p.s) && (p.s[p.i] == ' ' || p.s[p.i] == '\t') {
			if p.s[p.i] == '\t' {
				p.col++
			}
			p.i++
			p.col++
		}
		switch {
		case p.eol():
			p.empty++
		case p.s[p.i] == '#':
			p.commented = true
		case p.col == 0 && p.documentMark():
		default:
			if indent := p.s[p.bol:p.i]; strings.Contains(indent, "\t") {
				p.report("tab", p.bol+strings.IndexByte(indent, '\t'), p.i, "a tab stands in the indentation; YAML counts blanks only",
					snag.Replace("write two blanks for each tab", p.at(p.bol, p.i), strings.ReplaceAll(indent, "\t", "  ")))
			}
			p.fresh = true
			return
		}
		if !p.nextLine() {
			p.end()
			return
		}
	}
}

// documentMark refuses and passes over ---, ... and directives.
func (p *parser) documentMark() bool {
	end := p.textEnd(p.i)
	text := p.s[p.i:end]
	switch {
	case text == "---" || text == "...":
		p.report("yaml-mark", p.i, end, text+" parts the documents of a file; a design file is one document",
			snag.Replace("take the line out", p.at(p.i, end), ""))
	case text[0] == '%':
		p.report("yaml-mark", p.i, end, "a line that begins with % is a directive of YAML; a design file has none",
			snag.Replace("take the line out", p.at(p.i, end), ""))
	default:
		return false
	}
	return true
}

// skip passes over the rest of this entry: this line and all deeper than column
// parent.
func (p *parser) skip(parent int) {
	for p.line(); p.col > parent; p.line() {
		p.fresh = false
	}
}

// misplaced refuses the fresh line, deeper than the entries in column col, and
// passes over all lines deeper than these.
func (p *parser) misplaced(col int) {
	end := p.textEnd(p.i)
	switch {
	case p.inner > p.col:
		p.report("indentation", p.i, end, "this line is indented by "+blanks(p.col)+", the entries around it by "+strconv.Itoa(max(col, 0))+" and "+strconv.Itoa(p.inner),
			snag.Say("begin it in the column of the entries it belongs to"))
	case p.commented:
		p.report("indentation", p.i, end, "this line continues a text that a comment ended",
			snag.Say("move the comment above the text"))
	default:
		p.report("indentation", p.i, end, "this line stands deeper than the entry above it, which has its value already",
			snag.Say("indent it by "+blanks(max(col, 0))+" like that entry; if it continues a text, put > after the colon and the whole text below"))
	}
	p.fresh = false
	p.skip(col)
}

func blanks(n int) string {
	if n == 1 {
		return "1 blank"
	}
	return strconv.Itoa(n) + " blanks"
}

// dash reports whether a list item begins here.
func (p *parser) dash() bool {
	return p.i < len(p.s) && p.s[p.i] == '-' && isBlank(p.s, p.i+1)
}

// lineIsOver reports whether nothing but a comment follows on this line.
func (p *parser) lineIsOver() bool {
	if p.fresh || p.eol() {
		return true
	}
	if p.s[p.i] == '#' && (p.i == p.bol || isBlank(p.s, p.i-1)) {
		p.cutByComment()
		p.commented = true
		return true
	}
	return false
}

func (p *parser) eol() bool {
	return p.i >= len(p.s) || p.s[p.i] == '\n' || p.s[p.i] == '\r'
}

func (p *parser) blanks() {
	for !p.fresh && p.i < len(p.s) && (p.s[p.i] == ' ' || p.s[p.i] == '\t') {
		p.i++
	}
}

// textEnd returns the end of the text that begins at i: before a comment and
// the blanks before it, or at the end of the line.
func (p *parser) textEnd(i int) int {
	end := i
	for ; i < len(p.s) && p.s[i] != '\n'; i++ {
		if p.s[i] == '#' && i > 0 && isBlank(p.s, i-1) {
			break
		}
		if !isBlank(p.s, i) {
			end = i + 1
		}
	}
	return end
}

// isBlank reports whether a blank, a line end or the end of the file is at i.
func isBlank(s string, i int) bool {
	return i >= len(s) || s[i] == ' ' || s[i] == '\t' || s[i] == '\n' || s[i] == '\r'
}
