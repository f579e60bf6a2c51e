package screw

import (
	"strings"
	"unicode/utf8"

	"scantling/internal/measure"
)

type kind uint8

const (
	word   kind = iota
	number      // digits with slash or point, M and digits, or a fraction in one letter
	times       // x between two figures
	hash
	dot
	dash
	mark // of inches
	end
)

// A token is a lower-cased piece of a phrase and the bytes it stands at.
type token struct {
	kind       kind
	text       string
	start, end int
}

var vulgar = map[rune]string{'½': "1/2", '¼': "1/4", '¾': "3/4", '⅛': "1/8", '⅜': "3/8", '⅝': "5/8", '⅞': "7/8"}

func isDigit(r rune) bool  { return '0' <= r && r <= '9' }
func isLetter(r rune) bool { return 'a' <= r|0x20 && r|0x20 <= 'z' }

// tokens splits a phrase; the last token is of kind end.
func tokens(s string) ([]token, error) {
	var out []token
	for i := 0; i < len(s); {
		r, size := utf8.DecodeRuneInString(s[i:])
		t := token{start: i, end: i + size}
		switch {
		case r == ' ' || r == '\t' || r == '\n':
			i += size
			continue
		case r == '#':
			t.kind = hash
		case r == '.':
			t.kind = dot
		case r == '-':
			t.kind = dash
		case r == '"' || r == '″':
			t.kind = mark
		case r == '×':
			t.kind = times
		case vulgar[r] != "":
			t.kind, t.text = number, vulgar[r]
		case isDigit(r):
			t.kind = number
			t.end = numberEnd(s, t.end)
			t.text = s[t.start:t.end]
		case isLetter(r):
			for t.end < len(s) && isLetter(rune(s[t.end])) {
				t.end++
			}
			t.text = strings.ToLower(s[t.start:t.end])
			if t.text == "m" && t.end < len(s) && isDigit(rune(s[t.end])) { // M8
				t.end = numberEnd(s, t.end)
				t.kind, t.text = number, "M"+s[t.start+1:t.end]
			}
			switch t.text {
			case "x":
				t.kind = times
			case "in", "inch", "inches":
				t.kind = mark
			}
		default:
			return nil, &PhraseError{Start: t.start, End: t.end,
				What: "\"" + s[t.start:t.end] + "\" does not belong in a fastener's name", Mend: "write it like: screw 8 x 2 1/2"}
		}
		out = append(out, t)
		i = t.end
	}
	return append(out, token{kind: end, start: len(s), end: len(s)}), nil
}

// numberEnd returns the end of the number that goes on at i: digits, a slash, and
// a point between digits.
func numberEnd(s string, i int) int {
	for ; i < len(s); i++ {
		decimal := s[i] == '.' && isDigit(rune(s[i-1])) && i+1 < len(s) && isDigit(rune(s[i+1]))
		if !isDigit(rune(s[i])) && s[i] != '/' && !decimal {
			break
		}
	}
	return i
}

// scanInches reads a whole number, a fraction, or both with a space between,
// exact in 1/64 in and below 1,000 in, and returns what follows it.
func scanInches(s string) (l measure.Length, rest string, ok bool) {
	n, rest, ok := scanWhole(s)
	if !ok {
		return 0, s, false
	}
	if strings.HasPrefix(rest, "/") {
		return scanFraction(n, rest[1:])
	}
	l = measure.Length(n) * measure.Inch
	tail, spaced := strings.CutPrefix(rest, " ")
	if !spaced {
		return l, rest, true
	}
	n, tail, ok = scanWhole(tail)
	if !ok || !strings.HasPrefix(tail, "/") {
		return l, rest, true
	}
	part, tail, ok := scanFraction(n, tail[1:])
	return l + part, tail, ok && part < measure.Inch
}

func scanFraction(n int64, s string) (measure.Length, string, bool) {
	d, rest, ok := scanWhole(s)
	if !ok || d == 0 || 64%d != 0 {
		return 0, s, false
	}
	return measure.Length(n) * (measure.Inch / 64) * measure.Length(64/d), rest, true
}

func scanWhole(s string) (int64, string, bool) {
	var n int64
	i := 0
	for ; i < len(s) && isDigit(rune(s[i])); i++ {
		if n = n*10 + int64(s[i]-'0'); n >= 1000 {
			return 0, s, false
		}
	}
	return n, s[i:], i > 0
}
