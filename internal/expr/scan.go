package expr

import (
	"strings"
	"unicode/utf8"

	"scantling/internal/measure"
)

// maxText bounds the text of one measure, and maxDepth how deep it may nest:
// nothing a person writes comes near, and reading stays bounded.
const (
	maxText  = 4096
	maxDepth = 64
)

// A token is a number, a word, an ordinal ("2nd") or a mark.
type token struct {
	kind byte // 'n' number, 'w' word, 'o' ordinal, 'q' quoted, 'e' end, else the mark itself
	At
	text string
	q    measure.Quantity
}

// Functions, in the order they are listed to people.
var functions = []string{"floor", "ceil", "round", "min", "max", "count", "sqrt",
	"sin", "cos", "tan", "asin", "acos", "atan", "abs", "diagonal"}

// breakers are the words measures are made of, which therefore can be no name.
var breakers = map[string]bool{
	"if": true, "otherwise": true, "or": true, "and": true, "not": true, "is": true,
	"flush": true, "with": true, "against": true, "at": true, "level": true,
	"above": true, "below": true, "behind": true, "in": true, "out": true, "of": true, "from": true,
	"toward": true, "wide": true, "meets": true, "where": true, "to": true, "yes": true, "no": true,
	"first": true, "last": true, "other": true, "edge": true, "face": true, "end": true,
	"middle": true, "floor": true, "plumb": true, "past": true,
}

// units that measure reads; a name may not be one.
var unitWords = map[string]bool{
	"mm": true, "cm": true, "m": true, "ft": true, "foot": true, "feet": true, "inch": true, "inches": true,
	"deg": true, "degree": true, "degrees": true, "lb": true, "kg": true, "lbf": true, "psf": true, "plf": true, "sq": true, "cu": true,
}

// Reserved says why word can be no name of a design file: "a direction", "a
// unit", …; "" when it can.
func Reserved(word string) string {
	if _, ok := DirOf(word); ok {
		return "a direction"
	}
	for _, f := range functions {
		if f == word {
			return "a function"
		}
	}
	switch {
	case breakers[word]:
		return "a word measures are made of"
	case unitWords[word]:
		return "a unit"
	}
	return ""
}

// ProperName reports whether word is spelled as names are: lower case letters,
// digits and underscores, beginning with a letter.
func ProperName(word string) bool {
	if word == "" || word[0] < 'a' || word[0] > 'z' {
		return false
	}
	for i := 0; i < len(word); i++ {
		if !wordByte(word[i]) || word[i] >= 'A' && word[i] <= 'Z' {
			return false
		}
	}
	return true
}

func letter(c byte) bool   { return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c == '_' }
func digit(c byte) bool    { return c >= '0' && c <= '9' }
func wordByte(c byte) bool { return letter(c) || digit(c) }

// fractions written as one character.
const fractions = "½¼¾⅛⅜⅝⅞⅓⅔"

// tokens cuts text up from byte i on. It returns the first thing that is no part
// of a measure as a problem.
func tokens(text string, i int) ([]token, *Problem) {
	if len(text)-i > maxText {
		return nil, &Problem{Code: "measure-too-long", At: At{i, len(text)}, What: "this measure is too long to be read",
			Mends: []Mend{{Says: "give parts of it names under let"}}}
	}
	var out []token
	for {
		for i < len(text) && (text[i] == ' ' || text[i] == '\t' || text[i] == '\n' || text[i] == '\r') {
			i++
		}
		if i == len(text) {
			return append(out, token{kind: 'e', At: At{i, i}}), nil
		}
		t, err := next(text, i)
		if err != nil {
			return nil, err
		}
		out = append(out, t)
		i = t.End
	}
}

func next(text string, i int) (token, *Problem) {
	c := text[i]
	r, size := utf8.DecodeRuneInString(text[i:])
	switch {
	case letter(c):
		j := i
		for j < len(text) && wordByte(text[j]) {
			j++
		}
		return token{kind: 'w', At: At{i, j}, text: text[i:j]}, nil
	case digit(c) && ordinalEnd(text, i) > 0:
		j := ordinalEnd(text, i)
		return token{kind: 'o', At: At{i, j}, text: text[i:j]}, nil
	case digit(c) || c == '$' || strings.ContainsRune(fractions, r) || c == '.' && i+1 < len(text) && digit(text[i+1]):
		q, n, err := measure.ScanNumber(text[i:])
		if err != nil {
			return token{}, &Problem{Code: "bad-number", At: At{i + err.Start, i + max(err.End, err.Start+1)}, What: err.What,
				Mends: []Mend{{Says: err.Mend}}}
		}
		return token{kind: 'n', At: At{i, i + n}, q: q}, nil
	case c == '"' || c == '\'':
		if j := strings.IndexByte(text[i+1:], c); j >= 0 && quotable(text[i+1:i+1+j]) {
			return token{kind: 'q', At: At{i, i + j + 2}, text: text[i+1 : i+1+j]}, nil
		}
		return token{}, &Problem{Code: "stray-mark", At: At{i, i + 1}, What: "an inch or foot mark without a number before it",
			Mends: []Mend{{Says: `write the number first, as in 5 1/2"`}}}
	case r == '−' || r == '–': // a minus or a dash, as text programs write them
		return token{kind: '-', At: At{i, i + size}}, nil
	case r == '×' || r == '·':
		return token{kind: '*', At: At{i, i + size}}, nil
	case r == '÷':
		return token{kind: '/', At: At{i, i + size}}, nil
	case r == '≤' || r == '≥':
		return token{kind: 'c', At: At{i, i + size}, text: map[rune]string{'≤': "<=", '≥': ">="}[r]}, nil
	case c == '<' || c == '>':
		j := i + 1
		if j < len(text) && text[j] == '=' {
			j++
		}
		return token{kind: 'c', At: At{i, j}, text: text[i:j]}, nil
	case strings.IndexByte("+-*/().;", c) >= 0:
		return token{kind: c, At: At{i, i + 1}}, nil
	case c == ',':
		return token{}, &Problem{Code: "stray-mark", At: At{i, i + 1}, What: "a comma has no meaning in a measure",
			Mends: []Mend{{Says: "part the arguments of a function by ;", At: At{i, i + 1}, Text: ";"}}}
	case c == '=':
		j := i + 1
		if j < len(text) && text[j] == '=' {
			j++
		}
		return token{}, &Problem{Code: "stray-mark", At: At{i, j}, What: "= has no meaning in a measure",
			Mends: []Mend{{Says: "compare by the word is", At: At{i, j}, Text: "is"}}}
	}
	return token{}, &Problem{Code: "stray-mark", At: At{i, i + size}, What: "“" + text[i:i+size] + "” has no meaning in a measure",
		Mends: []Mend{{Says: "take it out", At: At{i, i + size}}}}
}

// quotable reports whether s may stand in quotes: words, nothing else, so that
// an inch mark is not taken for the beginning of a quotation.
func quotable(s string) bool {
	for i := 0; i < len(s); i++ {
		if !wordByte(s[i]) && s[i] != ' ' {
			return false
		}
	}
	return s != "" && letter(s[0])
}

// ordinalEnd returns the end of the ordinal ("2nd", "11th") at i, or 0.
func ordinalEnd(text string, i int) int {
	for i < len(text) && digit(text[i]) {
		i++
	}
	if len(text) < i+2 || len(text) > i+2 && wordByte(text[i+2]) {
		return 0
	}
	switch text[i : i+2] {
	case "st", "nd", "rd", "th":
		return i + 2
	}
	return 0
}
