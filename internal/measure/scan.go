package measure

import (
	"math"
	"strings"
	"unicode/utf8"

	"scantling/internal/steady"
)

// A ParseError says what is wrong in the bytes [Start, End) of a text, and how
// to mend it. What and Mend are whole clauses without a full stop.
type ParseError struct {
	Start, End int
	What, Mend string
}

func (e *ParseError) Error() string { return e.What + "; " + e.Mend }

// Parse reads a text that is one literal and nothing else, with an optional
// minus sign before it and blanks around it. What Quantity.Exact prints, Parse
// reads back. Offsets of the error count from the start of s.
func Parse(s string) (Quantity, *ParseError) {
	p := scanner{s: s}
	p.blanks()
	neg := p.take("-") || p.take("−")
	p.blanks()
	start := p.i
	q, n, err := ScanNumber(s[start:])
	if err != nil {
		err.Start, err.End = err.Start+start, err.End+start
		return Quantity{}, err
	}
	if n == 0 {
		return Quantity{}, &ParseError{start, len(s), quoted(s[start:]) + " is not a measure", `write a number and its unit, such as 5 1/2" or 140 mm`}
	}
	p.i = start + n
	p.blanks()
	if p.i < len(s) {
		return Quantity{}, &ParseError{p.i, len(s), quoted(s[p.i:]) + " cannot follow " + quoted(s[start:start+n]), "write one number and its unit, nothing after it"}
	}
	if neg {
		q.V = -q.V
	}
	return q, nil
}

// StartsNumber reports whether s begins as a literal does: with a digit, a
// point and a digit, a fraction sign or a dollar sign.
func StartsNumber(s string) bool {
	r, _ := utf8.DecodeRuneInString(s)
	_, _, isVulgar := vulgar(r)
	return isDigit(s, 0) || isVulgar || r == '$' || r == '.' && isDigit(s, 1)
}

// ScanNumber reads the longest literal s begins with and returns its value and
// its length n in bytes; n is 0, without an error, if s does not begin with
// one. Signs and blanks before it are the caller's.
//
//	5  2.5  .5  10%            counts, decimals, ratios
//	1/3"  9/16"  ½"            fractions: no blanks round the stroke
//	5 1/2"  5-1/2"  5½"        mixed numbers; the dash without blanks
//	6'  6' 2"  6'-2 1/2"       feet; feet and inches
//	140 mm  14 cm  2 m  6 ft  3 inch
//	20°  20 deg  3 in 12       angles; the last is a slope, rise in run
//	45 lb  12 kg  200 lbf  900 N  40 psf  2 kPa  50 plf
//	$6.50  12 sq ft  3 cu in
//
// A mixed number binds tighter than any operator: 12 / 3/4" divides by three
// quarters of an inch. 5 - 1/2" is a subtraction: ScanNumber stops at the 5.
// So is 6'-2*n: what follows feet and a dash counts as inches only with an inch
// mark. In "5 in from x" the literal is the bare 5.
func ScanNumber(s string) (Quantity, int, *ParseError) {
	if !StartsNumber(s) {
		return Quantity{}, 0, nil
	}
	p := scanner{s: s}
	var q Quantity
	var err *ParseError
	if s[0] == '$' {
		q, err = p.money()
	} else {
		q, err = p.measure()
	}
	if err != nil {
		return Quantity{}, 0, err
	}
	return q, p.i, nil
}

func (p *scanner) measure() (Quantity, *ParseError) {
	n, err := p.numeral()
	if err != nil {
		return Quantity{}, err
	}
	u, err := p.unit(n)
	if err != nil {
		return Quantity{}, err
	}
	switch {
	case u == bare:
		if slope, ok, err := p.slope(n); ok || err != nil {
			return slope, err
		}
		if n.dashed {
			text := p.s[n.start:n.end]
			return Quantity{}, p.wrong(n.start, text+" may be a mixed number or a subtraction",
				"write "+strings.Replace(text, "-", " ", 1)+" for the mixed number, "+strings.Replace(text, "-", " - ", 1)+" for the subtraction")
		}
	case u == feet:
		return p.inchesAfter(n)
	}
	return n.in(u), nil
}

// unit reads the unit after the numeral n, if there is one.
func (p *scanner) unit(n numeral) (unit, *ParseError) {
	end := p.i
	p.blanks()
	if r, size := utf8.DecodeRuneInString(p.s[p.i:]); size > 0 {
		if u, ok := unitMark(r); ok {
			p.i += size
			return u, nil
		}
	}
	at := p.i
	word := p.word()
	if word == "sq" || word == "cu" {
		p.blanks()
		word += " " + p.word()
	}
	if u, ok := unitWord(word); ok {
		return u, nil
	}
	if word == "" || at > end && word != "in" {
		p.i = end // a word after a blank is the caller's
		return bare, nil
	}
	text := p.s[n.start:n.end]
	if word == "in" {
		if at > end && p.afterIn() {
			p.i = end
			return bare, nil
		}
		return bare, p.wrong(n.start, "in is no unit", "write "+text+`" or `+text+" inch")
	}
	if c := word[0]; (c == 'e' || c == 'E') && len(word) > 1 && isDigit(word, 1) || text == "0" && (c == 'x' || c == 'X') {
		return bare, p.wrong(n.start, quoted(text+word)+" is no number a tape shows", "write it out in digits")
	}
	return bare, p.wrong(at, quoted(word)+" is no unit", `write ", inch, ' or ft, mm, cm, m, ° or deg, lb, kg, lbf, N, psf, kPa, plf, or %`)
}

// afterIn reports whether the word in, just read, belongs to a slope, to "in
// from" or to "in front of".
func (p *scanner) afterIn() bool {
	rest := scanner{s: p.s, i: p.i}
	rest.blanks()
	if isDigit(p.s, rest.i) {
		return rest.i > p.i
	}
	word := rest.word()
	return word == "from" || word == "front"
}

// slope reads " in RUN" after the rise n: the angle whose tangent is rise/run.
func (p *scanner) slope(rise numeral) (q Quantity, ok bool, err *ParseError) {
	at := p.i
	p.blanks()
	if p.word() != "in" || !p.afterIn() {
		p.i = at
		return q, false, nil
	}
	p.blanks()
	if !isDigit(p.s, p.i) { // in from, in front of
		p.i = at
		return q, false, nil
	}
	run, err := p.numeral()
	if err != nil {
		return q, false, err
	}
	if u, err := p.unit(run); err != nil {
		return q, false, err
	} else if u != bare {
		return q, false, p.wrong(rise.start, "a slope is written with two bare numbers, and in is no unit",
			"write "+p.s[rise.start:rise.end]+" in "+p.s[run.start:run.end]+", or an inch mark after the first number")
	}
	if run.num == 0 {
		return q, false, p.wrong(rise.start, "a slope cannot rise in a run of zero", "write 90° for upright")
	}
	tangent := float64(rise.num*run.den) / float64(rise.den*run.num)
	deg := float64(steady.Atan(tangent) * (180 / math.Pi))
	return Quantity{math.Round(deg * float64(Degree)), DimAngle}, true, nil
}

// inchesAfter reads the inches that may follow feet: 6' 2", 6'-2 1/2".
func (p *scanner) inchesAfter(n numeral) (Quantity, *ParseError) {
	feetEnd := p.i
	dash := p.take("-")
	if !dash {
		p.blanks()
	}
	if r, _ := utf8.DecodeRuneInString(p.s[p.i:]); !isDigit(p.s, p.i) && !isVulgar(r) {
		p.i = feetEnd
		return n.in(feet), nil
	}
	in, err := p.numeral()
	if err != nil {
		return Quantity{}, err
	}
	u, err := p.unit(in)
	if err != nil && !dash {
		return Quantity{}, err
	}
	foot, inch := p.s[n.start:n.end], p.s[in.start:in.end]
	switch {
	case (err != nil || u != inches) && dash: // 6'-2*n subtracts
		p.i = feetEnd
		return n.in(feet), nil
	case u != inches:
		return Quantity{}, p.wrong(n.start, "the number after feet needs an inch mark", "write "+foot+"' "+inch+`"`)
	case dash && in.fraction:
		return Quantity{}, p.wrong(n.start, foot+"'-"+inch+`" may be feet and inches or a subtraction`,
			"write "+foot+"' "+inch+`" for the sum, `+foot+"' - "+inch+`" for the difference`)
	case !n.whole:
		return Quantity{}, p.wrong(n.start, "feet that are followed by inches must be whole", "write it all in inches")
	case in.num >= 12*in.den:
		return Quantity{}, p.wrong(in.start, "after feet there are fewer than 12 inches", "carry the feet over, or write it all in inches")
	}
	sum := numeral{num: float64(float64(n.num*12)*in.den) + in.num, den: in.den}
	return sum.in(inches), nil
}

// money reads a dollar sign and dollars and cents.
func (p *scanner) money() (Quantity, *ParseError) {
	p.i++
	p.blanks()
	if !isDigit(p.s, p.i) {
		return Quantity{}, p.wrong(0, "a number must follow the dollar sign", "write a price such as $6.50")
	}
	n, err := p.numeral()
	if err != nil {
		return Quantity{}, err
	}
	if word := p.word(); word != "" {
		return Quantity{}, p.wrong(0, quoted(word)+" cannot follow a price", "write the dollar sign and the number alone")
	}
	if !n.whole && (n.den != 10 && n.den != 100 || strings.ContainsAny(p.s[n.start:n.end], "/⁄")) {
		return Quantity{}, p.wrong(0, "a price goes to the cent", "write two digits after the point, such as $6.50")
	}
	return n.in(dollars), nil
}
