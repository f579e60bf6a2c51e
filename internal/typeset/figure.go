package typeset

// Parts of the em of a stacked fraction. The small digits are 0.39 em high;
// the bar lies on the middle of a full digit, 0.65 em high.
const (
	smallHeight  = 0.39
	axis         = 0.325
	barThick     = 0.048
	barGap       = 0.052
	barOver      = 0.03  // how far the bar stands out past the wider number
	fractionSide = 0.055 // space on both sides of the bar
	fractionTop  = axis + barThick/2 + barGap + smallHeight
)

// figure sets a figure as one cluster.
func figure(span int, s Span) cluster {
	c := cluster{span: span, text: "", says: s.Says, breaks: false}
	if c.says == "" {
		c.says = s.Text
	}
	p := pen{font: s.Style.Face.Font(), em: s.Style.Size * Point, c: &c}
	rs := []rune(s.Text)
	for i := 0; i < len(rs); {
		if num, den, n := fraction(rs[i:]); n > 0 && !(i > 0 && digit(rs[i-1])) {
			p.stack(num, den)
			i += n
			continue
		}
		r := rs[i]
		after := i > 0 && digit(rs[i-1])
		switch {
		case r == '"' && after:
			r = '″'
		case r == '\'' && after:
			r = '′'
		case r == '-' && i+1 < len(rs) && digit(rs[i+1]) && !after:
			r = '−'
		case r == ' ' && after && i+1 < len(rs) && digit(rs[i+1]):
			if _, _, n := fraction(rs[i+1:]); n > 0 {
				p.x += float64(fractionSide * p.em) // a whole number and its fraction stand close
				c.text += " "
				i++
				continue
			}
			r = '\u00a0'
		}
		p.letter(r)
		i++
	}
	c.width = p.x
	return c
}

// fraction reads n/d at the start of rs and says how many runes it takes, or 0.
func fraction(rs []rune) (num, den []rune, n int) {
	i := 0
	for i < len(rs) && digit(rs[i]) {
		i++
	}
	j := i + 1
	for j < len(rs) && digit(rs[j]) {
		j++
	}
	if i == 0 || j <= i+1 || rs[i] != '/' {
		return nil, nil, 0
	}
	return rs[:i], rs[i+1 : j], j
}

func digit(r rune) bool { return '0' <= r && r <= '9' }

// pen adds letters to a cluster.
type pen struct {
	font *Font
	em   float64 // mm
	x    float64 // mm
	last uint16
	c    *cluster
}

func (p *pen) letter(r rune) {
	g := p.font.glyph(r)
	if len(p.c.glyphs) > 0 && p.last != 0 {
		p.x += float64(float64(p.font.pair(p.last, g)) * p.em / float64(p.font.UnitsPerEm))
	}
	p.c.glyphs = append(p.c.glyphs, Glyph{g, p.x, 0})
	p.c.text += string(r)
	p.x += float64(p.font.Advance(g)) * p.em / float64(p.font.UnitsPerEm)
	p.last = g
}

// stack sets a fraction: numerator over bar over denominator.
func (p *pen) stack(num, den []rune) {
	wide := func(ds []rune) (w float64) {
		for _, d := range ds {
			w += float64(p.font.Advance(p.small(d))) * p.em / float64(p.font.UnitsPerEm)
		}
		return w
	}
	wn, wd := wide(num), wide(den)
	w := max(wn, wd)
	left := p.x + float64(fractionSide*p.em) + float64(barOver*p.em)
	row := func(ds []rune, width, y float64) {
		x := left + float64((w-width)/2)
		for _, d := range ds {
			g := p.small(d)
			p.c.glyphs = append(p.c.glyphs, Glyph{g, x, float64(y * p.em)})
			x += float64(p.font.Advance(g)) * p.em / float64(p.font.UnitsPerEm)
		}
		p.c.text += string(ds)
	}
	row(num, wn, -(axis + barThick/2 + barGap))
	p.c.text += "⁄" // what the bar stands for, so that Text and Says always differ
	row(den, wd, -(axis - barThick/2 - barGap - smallHeight))
	p.c.rules = append(p.c.rules, Rule{
		X: left - float64(barOver*p.em),
		Y: float64(-(axis + barThick/2) * p.em),
		W: w + float64(2*barOver*p.em),
		H: float64(barThick * p.em),
	})
	p.x = left + w + float64(barOver*p.em) + float64(fractionSide*p.em)
	p.last = 0
}

func (p *pen) small(d rune) uint16 { return uint16(p.font.small + int(d-'0')) }
