package expr

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
