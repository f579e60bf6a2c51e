package snag

import (
	"bytes"
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"scantling/internal/span"
)

// Sources holds the text of the files snags point into, by File name.
type Sources map[string][]byte

// A Place is a byte offset as editors count: line and column from 1, the column
// in characters. A tab is one character.
type Place struct{ Line, Column int }

// PlaceOf returns the place of a byte offset of src. Offsets beyond the end
// give the end. A byte order mark is no character.
func PlaceOf(src []byte, offset int) Place {
	offset = min(max(offset, 0), len(src))
	start := bytes.LastIndexByte(src[:offset], '\n') + 1
	line := 1 + bytes.Count(src[:start], []byte{'\n'})
	text := src[start:offset]
	if start == 0 {
		text = bytes.TrimPrefix(text, []byte("\uFEFF"))
	}
	return Place{line, 1 + utf8.RuneCount(text)}
}

// Text returns the list as a terminal shows it, each snag as Snag.Text with an
// empty line between. It does not sort.
func (l List) Text(src Sources) string {
	parts := make([]string, len(l))
	for i, s := range l {
		parts[i] = s.Text(src)
	}
	return strings.Join(parts, "\n")
}

// Text returns the snag as a terminal shows it:
//
//	bench.yaml:14:14: error: the mortise is 40 mm deep but the leg is 38 mm thick [too-deep]
//	 14 | mortise leg1 depth 40
//	    |              ^^^^^^^^
//	bench.yaml:6:1: note: leg1 gets its thickness here
//	why: the wood behind the mortise would break out
//	mend: use depth 25 mm or less
//
// Long lines are cut to the part around the range; the range is marked on its
// first line only. Control characters are not passed on to the terminal.
func (s Snag) Text(src Sources) string {
	var b strings.Builder
	word := s.Severity.String()
	if s.CannotTell {
		word += ": cannot tell"
	}
	b.WriteString(where(s.At, src) + word + ": " + clean(s.What) + " [" + string(s.Code) + "]\n")
	b.WriteString(excerpt(s.At, src))
	for _, r := range s.Related {
		b.WriteString(where(r.At, src) + "note: " + clean(r.Says) + "\n")
	}
	if s.Why != "" {
		b.WriteString(wrapped("why: ", s.Why))
	}
	for _, m := range s.Mends {
		b.WriteString(wrapped("mend: ", m.Says))
	}
	return b.String()
}

// where returns "file:line:column: ", or nothing for the zero range.
func where(at span.Range, src Sources) string {
	if at.IsZero() {
		return ""
	}
	text, ok := src[at.File]
	if !ok {
		return at.File + ": "
	}
	p := PlaceOf(text, at.Start)
	return fmt.Sprintf("%s:%d:%d: ", at.File, p.Line, p.Column)
}

// excerpt returns the source line of at and carets under the range.
func excerpt(at span.Range, src Sources) string {
	text, ok := src[at.File]
	if at.IsZero() || !ok {
		return ""
	}
	const before, width = 60, 100 // characters
	start, end := min(max(at.Start, 0), len(text)), min(at.End, len(text))
	from := bytes.LastIndexByte(text[:start], '\n') + 1
	to := len(text)
	if n := bytes.IndexByte(text[start:], '\n'); n >= 0 {
		to = start + n
	}
	end = max(start, min(end, to))
	head := []rune(strings.TrimPrefix(string(text[from:start]), "\uFEFF"))
	mark := []rune(string(text[start:end]))
	tail := []rune(string(text[end:to]))
	if to > start && text[to-1] == '\r' && len(tail) > 0 {
		tail = tail[:len(tail)-1]
	}
	if len(head) > before && len(head)+len(mark)+len(tail) > width {
		head = append([]rune("…"), head[len(head)-before+1:]...)
	}
	if room := max(1, width-len(head)); len(mark) > room {
		mark, tail = append(mark[:room:room], '…'), nil
	}
	if room := max(0, width-len(head)-len(mark)); len(tail) > room {
		tail = append(tail[:room:room], '…')
	}
	number := fmt.Sprintf(" %d", PlaceOf(text, start).Line)
	pad := make([]rune, len(head))
	for i, r := range head {
		pad[i] = ' '
		if r == '\t' {
			pad[i] = '\t' // so that the caret stands below its character
		}
	}
	line := clean(string(head) + string(mark) + string(tail))
	return strings.TrimRight(number+" | "+line, " ") + "\n" +
		strings.Repeat(" ", len(number)) + " | " + string(pad) + strings.Repeat("^", max(1, len(mark))) + "\n"
}

// clean replaces what a terminal would obey instead of show.
func clean(s string) string {
	return strings.Map(func(r rune) rune {
		if r != '\t' && (unicode.IsControl(r) || r == utf8.RuneError) {
			return '·'
		}
		return r
	}, s)
}

// wrapped returns label and text in lines of up to 100 characters, the later
// ones indented below the text.
func wrapped(label, text string) string {
	const width = 100
	var b strings.Builder
	line := label
	empty := true
	for _, word := range strings.Fields(clean(text)) {
		if !empty && utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) > width {
			b.WriteString(line + "\n")
			line, empty = strings.Repeat(" ", len(label)), true
		}
		if !empty {
			line += " "
		}
		line, empty = line+word, false
	}
	return b.String() + line + "\n"
}
