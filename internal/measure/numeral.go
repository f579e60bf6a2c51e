package measure

import (
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// A scanner stands at byte i of s.
type scanner struct {
	s string
	i int
}

// A numeral is a number without its unit, num/den, with den a power of ten or
// a fraction's denominator, so that a unit can be applied in one rounding.
type numeral struct {
	start, end int
	num, den   float64
	whole      bool // digits only
	fraction   bool // nothing but a fraction, as in 1/3
	dashed     bool // 5-1/2: a mixed number only if a unit follows
}

// in returns n in units u. Where the denominator divides the unit, as it does
// on a tape, the result is exact below 2^53 counts.
func (n numeral) in(u unit) Quantity {
	if step := u.scale / n.den; step == math.Trunc(step) && u.per == 1 {
		return Quantity{float64(n.num * step), u.dim}
	}
	return Quantity{float64(n.num*u.scale) / float64(n.den*u.per), u.dim}
}

// numeral reads digits, a decimal, a fraction or a mixed number.
func (p *scanner) numeral() (numeral, *ParseError) {
	n := numeral{start: p.i, den: 1}
	digits := p.digits()
	switch {
	case p.i < len(p.s) && p.s[p.i] == '.' && isDigit(p.s, p.i+1):
		p.i++
		places := p.digits()
		n.num, n.den = decimal(digits, places)
	case digits == "":
		n.num, n.den, _ = p.vulgar()
		n.fraction = true
	default:
		n.num, n.den = decimal(digits, "")
		n.whole = true
		if num, den, ok, err := p.fractionPart(&n, digits); err != nil {
			return n, err
		} else if ok {
			n.num, n.den, n.whole = float64(n.num*den)+num, den, false
		}
	}
	n.end = p.i
	if n.end-n.start > 40 {
		return n, p.wrong(n.start, "this number has more digits than any measure needs", "round it")
	}
	return n, p.noMore(n.start)
}

// fractionPart reads what may follow the whole number n: a stroke and a
// denominator, which makes n itself a numerator, or the fraction of a mixed
// number. It returns the fraction to add to n.
func (p *scanner) fractionPart(n *numeral, digits string) (num, den float64, ok bool, err *ParseError) {
	whole := p.i
	if den, ok, err = p.stroke(n.start); ok || err != nil {
		n.num, n.fraction = 0, true
		num, _ = decimal(digits, "")
		return num, den, ok, err
	}
	if p.i < len(p.s) && p.s[p.i] == '-' {
		p.i++
		n.dashed = true
	} else {
		p.blanks()
	}
	start := p.i
	if num, den, ok = p.vulgar(); ok {
		return num, den, true, nil
	}
	if digits := p.digits(); digits != "" {
		if den, ok, err = p.stroke(start); err != nil {
			return 0, 0, false, err
		} else if ok {
			num, _ = decimal(digits, "")
			if num >= den {
				text := p.s[start:p.i]
				return 0, 0, false, p.wrong(start, "the fraction "+text+" of a mixed number is not below one", "carry the whole into the number before it")
			}
			return num, den, true, nil
		}
	}
	p.i, n.dashed = whole, false
	return 0, 0, false, nil
}

// stroke reads the stroke of a fraction and its denominator.
func (p *scanner) stroke(start int) (den float64, ok bool, err *ParseError) {
	at := p.i
	if !p.take("/") && !p.take("⁄") || !isDigit(p.s, p.i) {
		p.i = at
		return 0, false, nil
	}
	den, _ = decimal(p.digits(), "")
	if den == 0 {
		return 0, false, p.wrong(start, "the fraction "+p.s[start:p.i]+" divides by zero", "write a denominator such as 2, 4, 8 or 16")
	}
	return den, true, nil
}

// noMore refuses what looks like the rest of the number but is none.
func (p *scanner) noMore(start int) *ParseError {
	if p.i >= len(p.s) || !isDigit(p.s, p.i+1) {
		return nil
	}
	text := p.s[start:p.i]
	switch p.s[p.i] {
	case ',':
		p.i++
		p.digits()
		return p.wrong(start, "a comma cannot stand in a number", "write a decimal point, and nothing between thousands; between arguments stands ;")
	case '.':
		p.i++
		p.digits()
		return p.wrong(start, "a number has one decimal point", "write "+text+" or mend the digits")
	case '_':
		p.i++
		p.digits()
		return p.wrong(start, "digits are not parted by _", "write them together")
	}
	return nil
}

// wrong returns an error about the bytes from start to where p stands.
func (p *scanner) wrong(start int, what, mend string) *ParseError {
	return &ParseError{start, p.i, what, mend}
}

func (p *scanner) take(s string) bool {
	if strings.HasPrefix(p.s[p.i:], s) {
		p.i += len(s)
		return true
	}
	return false
}

func (p *scanner) blanks() {
	for p.i < len(p.s) && strings.IndexByte(" \t\r\n", p.s[p.i]) >= 0 {
		p.i++
	}
}

func (p *scanner) digits() string {
	start := p.i
	for isDigit(p.s, p.i) {
		p.i++
	}
	return p.s[start:p.i]
}

func (p *scanner) word() string {
	start := p.i
	for p.i < len(p.s) {
		r, size := utf8.DecodeRuneInString(p.s[p.i:])
		if r != '_' && !unicode.IsLetter(r) && !(p.i > start && unicode.IsDigit(r)) {
			break
		}
		p.i += size
	}
	return p.s[start:p.i]
}

func (p *scanner) vulgar() (num, den float64, ok bool) {
	r, size := utf8.DecodeRuneInString(p.s[p.i:])
	if num, den, ok = vulgar(r); ok {
		p.i += size
	}
	return num, den, ok
}

func isVulgar(r rune) bool {
	_, _, ok := vulgar(r)
	return ok
}

func isDigit(s string, i int) bool { return i < len(s) && '0' <= s[i] && s[i] <= '9' }

// decimal returns digits.places as a quotient of floats: exact if the digits
// count below 2^53 and there are at most 22 places, else correctly rounded.
func decimal(digits, places string) (num, den float64) {
	num, _ = strconv.ParseFloat(digits+places, 64)
	if num < 1<<53 && len(places) <= 22 {
		den, _ = strconv.ParseFloat("1e"+strconv.Itoa(len(places)), 64)
		return num, den
	}
	num, _ = strconv.ParseFloat(digits+"."+places, 64)
	return num, 1
}

// quoted returns s in quotation marks, cut short if it is long.
func quoted(s string) string {
	const most = 24
	if r := []rune(s); len(r) > most {
		s = string(r[:most-1]) + "…"
	}
	return "“" + s + "”"
}
