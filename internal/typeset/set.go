package typeset

import "unicode"

// cluster is what is never parted: one letter with its place, or a whole
// figure with its fractions.
type cluster struct {
	span   int
	text   string
	says   string
	glyphs []Glyph // from the start of the cluster
	rules  []Rule
	width  float64 // mm, with the font's own space on both sides
	kern   float64 // mm between this cluster and the next
	space  bool    // vanishes at the end of a line
	breaks bool    // a line may end after it
	ends   bool    // a line must end after it
}

// Set returns the spans as one line, however long. A "\n" counts as a space.
func Set(spans ...Span) Line {
	cs := shape(spans)
	return line(spans, cs, 0, len(cs))
}

// Width returns the width in mm of the spans set as one line.
func Width(spans ...Span) float64 { return Set(spans...).Width }

// shape turns spans into clusters, kerned within a span.
func shape(spans []Span) []cluster {
	var cs []cluster
	for i, s := range spans {
		if s.Kind == Figure {
			cs = append(cs, figure(i, s))
			continue
		}
		font, em := s.Style.Face.Font(), s.Style.Size*Point
		unit := em / float64(font.UnitsPerEm)
		says := s.Says
		var last uint16
		letter := false // the character before is one
		for at, r := range s.Text {
			c := cluster{span: i, text: string(r), says: string(r)}
			if r == '\'' && letter {
				r = '’' // an apostrophe; it reads as it is written
				c.text = string(r)
			}
			letter = unicode.IsLetter(r)
			g := font.glyph(r)
			switch r {
			case ' ':
				c.space, c.breaks = true, true
			case '\u00a0': // copied out, it is a space like others
				g = font.glyph(' ')
				c.text, c.says = " ", " "
			case '\n':
				g = font.glyph(' ')
				c.text, c.says, c.space, c.breaks, c.ends = " ", " ", true, true, true
			case '-', '–', '—':
				c.breaks = at > 0 && last != font.glyph(' ')
			}
			if s.Says != "" {
				c.says, says = says, "" // the whole reading goes with the first letter
				c.breaks = false
			}
			c.glyphs = []Glyph{{ID: g}}
			c.width = float64(float64(font.Advance(g)) * unit)
			if at > 0 {
				cs[len(cs)-1].kern = float64(float64(font.pair(last, g)) * unit)
			}
			last = g
			cs = append(cs, c)
		}
	}
	return cs
}

// line gathers clusters from start to end, one run for each span.
func line(spans []Span, cs []cluster, start, end int) Line {
	for end > start && cs[end-1].space {
		end--
	}
	var l Line
	x := 0.0
	for i := start; i < end; {
		at := cs[i].span
		s := spans[at]
		r := Run{Style: s.Style, X: x, Link: s.Link}
		for ; i < end && cs[i].span == at; i++ {
			c := cs[i]
			from := x - r.X
			for _, g := range c.glyphs {
				r.Glyphs = append(r.Glyphs, Glyph{g.ID, from + g.X, g.Y})
			}
			for _, b := range c.rules {
				r.Rules = append(r.Rules, Rule{from + b.X, b.Y, b.W, b.H})
			}
			r.Text += c.text
			r.Says += c.says
			x += c.width
			if i+1 < end {
				x += c.kern
			}
		}
		r.Width = x - r.X
		em := s.Style.Size * Point
		if s.Live {
			r.Rules = append(r.Rules, Rule{0, float64(underlineDrop * em), r.Width, float64(underlineThick * em)})
		}
		f := s.Style.Face.Font()
		up := em / float64(f.UnitsPerEm)
		l.Ascent = max(l.Ascent, float64(f.CapHeight)*up, float64(fractionTop*em)*figures(s))
		l.Descent = max(l.Descent, float64(descent*em))
		l.Runs = append(l.Runs, r)
	}
	l.Width = x
	return l
}

// figures is 1 for a figure and 0 for words.
func figures(s Span) float64 {
	if s.Kind == Figure {
		return 1
	}
	return 0
}

// Parts of the em, measured on the outlines of the subset fonts: p and y reach
// 0.205 below the baseline; accents on capitals are let into the leading.
const (
	descent        = 0.21
	underlineDrop  = 0.165
	underlineThick = 0.055
)
