package expr

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
// name follows it directly; those of a group's part stand after the dot.
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
		for len(r.Path) == 1 && p.adjective() {
			t := p.peek()
			r.Inner = append(r.Inner, Word{t.text, t.At})
			p.i++
		}
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

// adjective reports whether the word next picks copies of the name after it.
func (p *Parser) adjective() bool {
	t := p.peek()
	if t.kind != 'w' && t.kind != 'o' {
		return false
	}
	p.i++
	next := p.peek()
	is := (next.kind == 'w' || next.kind == 'o') && !p.stops()
	p.i--
	return is
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
