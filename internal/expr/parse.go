package expr

import "strings"

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

// Expr reads one measure and stops where it ends. It returns nil after a
// problem.
func (p *Parser) Expr() Expr {
	p.depth++
	defer func() { p.depth-- }()
	if p.depth > maxDepth {
		p.Fail("measure-too-long", "this measure is nested too deep", "give parts of it names under let")
		return nil
	}
	x := p.or()
	for p.err == nil && p.Word("if") {
		c := p.or()
		if !p.Word("otherwise") {
			p.Fail("no-otherwise", "“if” needs an “otherwise” after its condition", "write: this if condition otherwise that")
			return nil
		}
		y := p.Expr()
		x = &Cond{p.at(x, y), x, c, y}
	}
	return p.whole(x)
}

// whole returns x, or nil after a problem.
func (p *Parser) whole(x Expr) Expr {
	if p.err != nil {
		return nil
	}
	return x
}

// at returns the bytes from the beginning of x to the end of y.
func (p *Parser) at(x, y Expr) At {
	if p.err != nil || x == nil || y == nil {
		return At{}
	}
	s, _ := x.Span()
	_, e := y.Span()
	return At{s, e}
}

func (p *Parser) or() Expr {
	x := p.and()
	for p.Word("or") {
		y := p.and()
		x = &Logic{p.at(x, y), true, x, y}
	}
	return x
}

func (p *Parser) and() Expr {
	x := p.not()
	for p.Word("and") {
		y := p.not()
		x = &Logic{p.at(x, y), false, x, y}
	}
	return x
}

func (p *Parser) not() Expr {
	t := p.peek()
	if !p.Word("not") {
		return p.comparison()
	}
	p.depth++
	defer func() { p.depth-- }()
	if p.depth > maxDepth {
		p.Fail("measure-too-long", "this measure is nested too deep", "give parts of it names under let")
		return nil
	}
	x := p.not()
	if p.err != nil {
		return nil
	}
	_, e := x.Span()
	return &Not{At{t.Start, e}, x}
}

func (p *Parser) comparison() Expr {
	x := p.meet()
	if p.err != nil {
		return nil
	}
	c := &Compare{X: x}
	switch t := p.peek(); {
	case t.kind == 'c':
		p.i++
		c.Op = t.text
	case p.Word("is"):
		if way, ok := p.way(); ok {
			c.Op, c.Way = "way", way
		} else if p.Word("not") {
			c.Op = "is not"
		} else {
			c.Op = "is"
		}
	default:
		return x
	}
	c.Y = p.meet()
	c.At = p.at(x, c.Y)
	return p.whole(c)
}

// way takes "above", "left of" and their likes.
func (p *Parser) way() (Dir, bool) {
	for _, w := range [...]struct {
		words string
		dir   Dir
	}{{"above", Top}, {"below", Bottom}, {"behind", Back}, {"in front of", Front}, {"left of", Left}, {"right of", Right}} {
		if p.Words(w.words) {
			return w.dir, true
		}
	}
	return 0, false
}

func (p *Parser) meet() Expr {
	t := p.peek()
	against := false
	switch {
	case p.Words("flush with"):
	case p.Word("against"):
		against = true
	default:
		return p.level()
	}
	x := p.level()
	if p.err != nil {
		return nil
	}
	_, e := x.Span()
	return &Meet{At{t.Start, e}, against, x}
}

func (p *Parser) level() Expr {
	x := p.shift()
	for p.err == nil && p.Word("at") {
		side := !p.Word("level")
		l := p.shift()
		x = &Level{p.at(x, l), x, side, l}
	}
	return p.whole(x)
}

func (p *Parser) shift() Expr {
	p.depth++
	defer func() { p.depth-- }()
	if p.depth > maxDepth {
		p.Fail("measure-too-long", "this measure is nested too deep", "give parts of it names under let")
		return nil
	}
	x := p.sum()
	if p.err != nil {
		return nil
	}
	before := p.peek().At
	if way, ok := p.way(); ok {
		before.End = p.toks[p.i-1].End
		y := p.shift() // 2" above 1" behind P is refused by the Env: two axes
		return p.whole(&Shift{p.at(x, y), x, way, before, y})
	}
	out := p.Words("out from")
	if out || p.Words("in from") {
		y := p.shift()
		return p.whole(&Inset{p.at(x, y), x, out, y})
	}
	return x
}

func (p *Parser) sum() Expr {
	x := p.product()
	for p.err == nil {
		t := p.peek()
		if t.kind != '+' && t.kind != '-' {
			break
		}
		p.i++
		y := p.product()
		x = &Arith{p.at(x, y), t.kind, t.At, x, y}
	}
	return p.whole(x)
}

func (p *Parser) product() Expr {
	x := p.sign()
	for p.err == nil {
		t := p.peek()
		if t.kind != '*' && t.kind != '/' {
			break
		}
		p.i++
		y := p.sign()
		x = &Arith{p.at(x, y), t.kind, t.At, x, y}
	}
	return p.whole(x)
}

func (p *Parser) sign() Expr {
	t := p.peek()
	minus := p.mark('-')
	if !minus && !p.mark('+') {
		return p.primary()
	}
	p.depth++
	defer func() { p.depth-- }()
	if p.depth > maxDepth {
		p.Fail("measure-too-long", "this measure is nested too deep", "take signs out")
		return nil
	}
	x := p.sign()
	if p.err != nil || !minus {
		return p.whole(x)
	}
	_, e := x.Span()
	return &Sign{At{t.Start, e}, x}
}

func (p *Parser) primary() Expr {
	t := p.peek()
	switch {
	case p.mark('n'):
		return &Literal{t.At, t.q}
	case p.mark('q'):
		return &Quoted{t.At, t.text}
	case p.mark('('):
		x := p.Expr()
		if end := p.peek(); p.mark(')') {
			_ = end
			return x
		}
		p.Fail("cut-short", "a bracket opened here is not closed", "write ) where the bracket ends")
		return nil
	case t.kind == 'w' && p.i+1 < len(p.toks) && p.toks[p.i+1].kind == '(':
		return p.call()
	case t.kind == 'w' || t.kind == 'o':
		return p.ref()
	}
	p.unexpected(t)
	return nil
}

func (p *Parser) call() Expr {
	f := p.toks[p.i]
	p.i += 2
	c := &Call{Func: Word{f.text, f.At}}
	for {
		c.Args = append(c.Args, p.Expr())
		if p.err != nil {
			return nil
		}
		if !p.mark(';') {
			break
		}
	}
	end := p.peek()
	if !p.mark(')') {
		p.Fail("cut-short", "the bracket of "+f.text+"( is not closed", "write ) after its last argument")
		return nil
	}
	c.At = At{f.Start, end.End}
	known := false
	for _, k := range functions {
		known = known || k == f.text
	}
	if !known {
		p.err = &Problem{Code: "unknown-function", At: f.At, What: "there is no function “" + f.text + "”",
			Mends: []Mend{nearestMend(f.text, functions, f.At)}}
		return nil
	}
	return c
}

// ref reads adjectives and a dotted name. A word is an adjective if another
// name follows it directly.
func (p *Parser) ref() Expr {
	r := &Ref{}
	for {
		t := p.peek()
		if t.kind != 'w' && t.kind != 'o' {
			p.unexpected(t)
			return nil
		}
		if len(r.Select) > 0 && p.stops() {
			p.unexpected(t)
			return nil
		}
		if len(r.Select) == 0 && t.kind == 'w' && breakers[t.text] && !standsAlone[t.text] {
			p.unexpected(t)
			return nil
		}
		p.i++
		if p.i < len(p.toks) && (p.peek().kind == 'w' || p.peek().kind == 'o') && !p.stops() {
			r.Select = append(r.Select, Word{t.text, t.At})
			continue
		}
		if t.kind == 'o' {
			p.i--
			p.Fail("ordinal-alone", "“"+t.text+"” says which, but not of what", "write the part's name after it: "+t.text+" shelf_slat")
			return nil
		}
		r.Path = append(r.Path, Word{t.text, t.At})
		break
	}
	for p.mark('.') {
		t := p.peek()
		if t.kind != 'w' {
			p.unexpected(t)
			return nil
		}
		p.i++
		r.Path = append(r.Path, Word{t.text, t.At})
	}
	if len(r.Path) > 1 {
		for _, w := range [...]string{"edge", "face", "end"} {
			if p.Word(w) {
				r.Check = w
				break
			}
		}
	}
	first := r.Path[0].At
	if len(r.Select) > 0 {
		first = r.Select[0].At
	}
	r.At = At{first.Start, p.toks[p.i-1].End}
	return r
}

// standsAlone are breakers that are a measure by themselves, or an adjective.
var standsAlone = map[string]bool{"middle": true, "floor": true, "plumb": true, "yes": true, "no": true,
	"first": true, "last": true, "other": true}

// stops reports whether the word next ends a name: it belongs to the sentence.
func (p *Parser) stops() bool {
	t := p.peek()
	if t.kind != 'w' {
		return false
	}
	if d, ok := DirOf(t.text); ok {
		return (d == Left || d == Right) && p.ahead(1, "of")
	}
	return breakers[t.text] && !standsAlone[t.text]
}
