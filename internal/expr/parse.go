package expr

import (
	"strings"
)

// A Parser reads one text from left to right. Phrases take their own words with
// Word and Words, and measures with Expr; the first problem stops it.
type Parser struct {
	text  string
	toks  []token
	i     int
	depth int
	err   *Problem
}

// NewParser returns a parser standing at the beginning of text.
func NewParser(text string) *Parser { return parserAt(text, 0) }

func parserAt(text string, from int) *Parser {
	p := &Parser{text: text}
	p.toks, p.err = tokens(text, from)
	if p.err != nil {
		p.toks = []token{{kind: 'e', At: At{len(text), len(text)}}}
	}
	return p
}

// Parse reads a text that is one measure.
func Parse(text string) (Expr, *Problem) { return parseAt(text, 0) }

// parseAt reads the measure that begins at a byte and ends with the text.
func parseAt(text string, from int) (Expr, *Problem) {
	p := parserAt(text, from)
	x := p.Expr()
	p.Done()
	if p.err != nil {
		return nil, p.err
	}
	return x, nil
}

// Err returns the first problem met, or nil.
func (p *Parser) Err() *Problem { return p.err }

// AtEnd reports whether nothing is left, or a problem was met.
func (p *Parser) AtEnd() bool { return p.err != nil || p.peek().kind == 'e' }

// Rest returns where the parser stands in the text.
func (p *Parser) Rest() int { return p.peek().Start }

// Done asserts that nothing is left.
func (p *Parser) Done() {
	if t := p.peek(); p.err == nil && t.kind != 'e' {
		p.unexpected(t)
	}
}

// Peek returns the word next to be read, or "".
func (p *Parser) Peek() string {
	if t := p.peek(); t.kind == 'w' {
		return t.text
	}
	return ""
}

// Word takes the given word if it is next.
func (p *Parser) Word(word string) bool {
	if p.Peek() != word || p.err != nil {
		return false
	}
	p.i++
	return true
}

// Words takes the given words, parted by single spaces, if all are next.
func (p *Parser) Words(words string) bool {
	i := p.i
	for _, w := range strings.Fields(words) {
		if !p.Word(w) {
			p.i = i
			return false
		}
	}
	return true
}

// Dir takes a direction or side word; false if another thing is next.
func (p *Parser) Dir() (Dir, bool) {
	d, ok := DirOf(p.Peek())
	if ok && p.err == nil {
		p.i++
		return d, true
	}
	return 0, false
}

// Fail records a problem at what is next, unless there is one already.
func (p *Parser) Fail(code, what, mend string) {
	if p.err != nil {
		return
	}
	t := p.peek()
	at := t.At
	if t.kind == 'e' && at.Start > 0 {
		at.Start--
	}
	p.err = &Problem{Code: code, At: at, What: what}
	if mend != "" {
		p.err.Mends = []Mend{{Says: mend}}
	}
}

func (p *Parser) peek() token {
	if p.err != nil {
		return p.toks[len(p.toks)-1]
	}
	return p.toks[p.i]
}

func (p *Parser) mark(k byte) bool {
	if p.err == nil && p.peek().kind == k {
		p.i++
		return true
	}
	return false
}

// word reports whether the token n ahead is the given word.
func (p *Parser) ahead(n int, word string) bool {
	return p.i+n < len(p.toks) && p.toks[p.i+n].kind == 'w' && p.toks[p.i+n].text == word
}

func (p *Parser) unexpected(t token) {
	said := p.text[t.Start:t.End]
	switch {
	case t.kind == 'e' && len(p.toks) == 1:
		p.Fail("cut-short", "a measure is missing here", "write one, such as 3 1/2\"")
	case t.kind == 'e':
		p.Fail("cut-short", "the measure breaks off here", "finish it, or take the last word out")
	case t.kind == 'w' && t.text == "in":
		p.Fail("bad-number", "“in” is no unit here", "")
		p.err.Mends = []Mend{{Says: `write 5" or 5 inch; in is kept for in from and in front of`, At: t.At, Text: `"`}}
	case t.kind == 'n':
		p.Fail("two-measures", "there is no sign between the number “"+said+"” and what stands before it", "write + - * or / between them")
	case t.kind == 'w':
		p.Fail("stray-word", "“"+said+"” does not belong here", "take it out, or put a sign between the two names")
	default:
		p.Fail("stray-mark", "“"+said+"” does not belong here", "take it out")
	}
}
