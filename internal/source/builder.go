package source

import (
	"strings"
)

// A builder joins a scalar's text and keeps where its bytes stand. The first
// part is only copied if another follows: most values are on one line.
type builder struct {
	first  string
	at     int // where first stands
	text   []byte
	pieces []piece
}

// copy appends s[from:to], which stands in the file from byte from.
func (t *builder) copy(s string, from, to int) { t.put(s[from:to], from) }

// put appends text that stands for what is in the file at byte at.
func (t *builder) put(text string, at int) {
	if t.first == "" {
		t.first, t.at = text, at
		return
	}
	if t.pieces == nil {
		t.text, t.pieces = append(t.text, t.first...), append(t.pieces, piece{0, t.at})
	}
	if last := t.pieces[len(t.pieces)-1]; last.src+len(t.text)-last.text != at {
		t.pieces = append(t.pieces, piece{len(t.text), at})
	}
	t.text = append(t.text, text...)
}

// len returns the length of the text so far.
func (t *builder) len() int {
	if t.pieces == nil {
		return len(t.first)
	}
	return len(t.text)
}

// done returns the text and where its pieces stand in a scalar that begins at
// byte start.
func (t *builder) done(start int) (string, []piece) {
	switch {
	case t.pieces != nil:
		return string(t.text), t.pieces
	case t.first == "" || t.at == start:
		return t.first, nil
	}
	return t.first, []piece{{0, t.at}}
}

// fold appends what a line break and so many empty lines stand for.
func (t *builder) fold(empty, at int) {
	if empty == 0 {
		t.put(" ", at)
	} else {
		t.put(strings.Repeat("\n", empty), at)
	}
}

// trim takes trailing blanks off, down to length least.
func (t *builder) trim(least int) {
	for n := t.len() - 1; n >= least; n-- {
		if t.pieces == nil && isBlank(t.first, n) {
			t.first = t.first[:n]
		} else if t.pieces != nil && isBlank(string(t.text[n:n+1]), 0) {
			t.text = t.text[:n]
		} else {
			return
		}
	}
}
