package shop

import (
	"strconv"
	"strings"
)

// Words returns text without numbers.
func Words(s string) Text { return Text(nil).Say(s) }

// Say returns t with words after it.
func (t Text) Say(words string) Text {
	if words == "" {
		return t
	}
	if n := len(t); n > 0 && t[n-1].Shown == nil {
		return append(t[:n-1:n-1], Span{Words: t[n-1].Words + words})
	}
	return append(t[:len(t):len(t)], Span{Words: words})
}

// Show returns t with a number after it.
func (t Text) Show(s Shown) Text { return append(t[:len(t):len(t)], Span{Shown: &s}) }

// Add returns t with u after it.
func (t Text) Add(u Text) Text {
	for _, s := range u {
		if s.Shown != nil {
			t = t.Show(*s.Shown)
		} else {
			t = t.Say(s.Words)
		}
	}
	return t
}

// String returns t as flat words, for lists and terminals.
func (t Text) String() string {
	var b strings.Builder
	for _, s := range t {
		if s.Shown != nil {
			b.WriteString(s.Shown.Text)
		} else {
			b.WriteString(s.Words)
		}
	}
	return b.String()
}

// number spells small counts as prose does.
func number(n int) string {
	words := [...]string{"no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"}
	if n >= 0 && n < len(words) {
		return words[n]
	}
	return strconv.Itoa(n)
}
