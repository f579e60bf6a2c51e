package words

import (
	"strings"
	"unicode"

	"scantling/internal/region"
)

// pairs are the words spelt in two ways, in America and elsewhere. Left out are
// those that mean two things in one of the spellings: a meter reads moisture in
// both, and vice is no vise.
var pairs = [...][2]string{
	{"color", "colour"}, {"colors", "colours"}, {"colored", "coloured"}, {"coloring", "colouring"},
	{"miter", "mitre"}, {"miters", "mitres"}, {"mitered", "mitred"}, {"mitering", "mitring"},
	{"center", "centre"}, {"centers", "centres"}, {"centered", "centred"}, {"centering", "centring"},
	{"mold", "mould"}, {"molds", "moulds"}, {"moldy", "mouldy"}, {"molding", "moulding"}, {"moldings", "mouldings"},
	{"gray", "grey"}, {"grays", "greys"}, {"grayed", "greyed"}, {"graying", "greying"},
	{"fiber", "fibre"}, {"fibers", "fibres"}, {"fiberglass", "fibreglass"},
	{"millimeter", "millimetre"}, {"millimeters", "millimetres"}, {"centimeter", "centimetre"}, {"centimeters", "centimetres"},
	{"liter", "litre"}, {"liters", "litres"},
	{"beveled", "bevelled"}, {"beveling", "bevelling"}, {"leveled", "levelled"}, {"leveling", "levelling"},
	{"labeled", "labelled"}, {"labeling", "labelling"}, {"paneled", "panelled"}, {"paneling", "panelling"},
	{"aluminum", "aluminium"}, {"plow", "plough"}, {"catalog", "catalogue"}, {"sulfate", "sulphate"},
	{"neighbor", "neighbour"}, {"favorite", "favourite"}, {"weatherize", "weatherise"},
}

// Spell returns the text as the region spells it. Only whole words are changed,
// and keep their capitals; sizes, names with underscores and everything else
// stay.
func (p Pack) Spell(text string) string {
	from, to := 1, 0
	if p.region != region.America {
		from, to = 0, 1
	}
	var out strings.Builder
	for len(text) > 0 {
		n := strings.IndexFunc(text, func(r rune) bool { return !inWord(r) })
		if n < 0 {
			n = len(text)
		}
		word := text[:n]
		for _, pair := range pairs {
			if strings.EqualFold(word, pair[from]) {
				word = cased(pair[to], word)
				break
			}
		}
		out.WriteString(word)
		text = text[n:]
		m := strings.IndexFunc(text, inWord)
		if m < 0 {
			m = len(text)
		}
		out.WriteString(text[:m])
		text = text[m:]
	}
	return out.String()
}

func inWord(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) || r == '_' }

// cased writes a lower-case word with the capitals of another: all, the first,
// or none.
func cased(word, like string) string {
	switch {
	case like == strings.ToUpper(like):
		return strings.ToUpper(word)
	case like[:1] == strings.ToUpper(like[:1]):
		return strings.ToUpper(word[:1]) + word[1:]
	}
	return word
}
