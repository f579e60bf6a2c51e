// Package tidy puts the blanks and empty lines of a design file in order and
// changes nothing else: not a value, not a comment, not the order of anything,
// not what somebody lined up by hand.
//
// Start from Tidy. What it does to a file:
//   - blanks at the ends of lines go;
//   - a tab becomes blanks: two in the indentation, as the reader of design
//     files counts it, one elsewhere;
//   - of several empty lines in a row one stays; none at the beginning of the
//     file and none at its end, which is the end of a line;
//   - every section written in lines below its name (parts:, steps:) has an
//     empty line before it and the comment that stands on it.
//
// Texts in quotes and texts below > or | keep every byte, and comments every
// byte but blanks at their ends. Tidying twice does no more than tidying once.
package tidy

import (
	"slices"
	"strings"

	"scantling/internal/snag"
	"scantling/internal/source"
)

// Tidy returns the design file src in order. A file that cannot be read, for
// more than tabs in its indentation, is not touched: Tidy then returns nil and
// what is wrong with it. name becomes the File of every range.
func Tidy(name string, src []byte) ([]byte, snag.List) {
	tree, snags := source.Parse(name, src)
	if len(snags) > 0 {
		for _, s := range snags {
			if s.Code != "tab" {
				return nil, snags
			}
		}
		src = newLayout(tree).untabbed()
		if tree, snags = source.Parse(name, src); len(snags) > 0 {
			return nil, snags
		}
	}
	return newLayout(tree).tidied(), nil
}

// tidied returns the file line by line with its blanks in order.
func (l *layout) tidied() []byte {
	var out []byte
	empty := false // an empty line was passed since the last one written
	ending := "\n"
	for at := 0; at < len(l.src); {
		next := l.lineAfter(at)
		text := l.line(at, next)
		switch {
		case text == "" && l.within(at) == nil:
			empty = true
		default:
			if len(out) > 0 && (empty || l.heads[at]) {
				out = append(out, ending...)
			}
			if strings.HasSuffix(l.src[at:next], "\r\n") {
				ending = "\r\n"
			} else {
				ending = "\n"
			}
			out = append(append(out, text...), ending...)
			empty = false
		}
		at = next
	}
	return out
}

// line returns the line from at to next without its ending, tabs and blanks at
// its end in order.
func (l *layout) line(at, next int) string {
	end := at + len(strings.TrimRight(l.src[at:next], "\r\n"))
	var out strings.Builder
	kept := 0 // bytes of out that stay whatever they are
	for i := at; i < end; {
		if t := l.within(i); t != nil {
			upTo := min(t.end, end)
			out.WriteString(l.src[i:upTo])
			if t.verbatim {
				kept = out.Len()
			}
			i = upTo
			continue
		}
		c := l.src[i]
		if c == '#' && (i == at || isBlank(l.src[i-1])) {
			out.WriteString(l.src[i:end])
			break
		}
		switch {
		case c != '\t':
			out.WriteByte(c)
		case strings.TrimLeft(out.String(), " ") == "":
			out.WriteString("  ")
		default:
			out.WriteByte(' ')
		}
		i++
	}
	text := out.String()
	return text[:kept] + strings.TrimRight(text[kept:], " \t")
}

// untabbed returns the file with two blanks for each tab in an indentation.
func (l *layout) untabbed() []byte {
	var out []byte
	for at := 0; at < len(l.src); {
		next := l.lineAfter(at)
		body := at
		if t := l.within(at); t == nil || !t.verbatim {
			for body < next && isBlank(l.src[body]) {
				body++
			}
			out = append(out, strings.ReplaceAll(l.src[at:body], "\t", "  ")...)
		}
		out = append(out, l.src[body:next]...)
		at = next
	}
	return out
}

func isBlank(c byte) bool { return c == ' ' || c == '\t' }

// A text is the bytes of a key or a value. In verbatim ones blanks count.
type text struct {
	start, end int
	verbatim   bool
}

// A layout is where things stand in a file.
type layout struct {
	src   string
	texts []text       // in file order
	heads map[int]bool // where the lines begin that an empty one comes before
}

func newLayout(t *source.Tree) *layout {
	l := &layout{src: string(t.Src), heads: map[int]bool{}}
	l.collect(t.Root)
	for i, k := range t.Root.Keys {
		if v := t.Root.Items[i]; (v.Kind == source.Map || v.Kind == source.List) && l.src[v.Start] != '{' && l.src[v.Start] != '[' {
			l.heads[l.head(k.Start)] = true
		}
	}
	return l
}

// collect finds the keys and values below n, in file order.
func (l *layout) collect(n *source.Node) {
	if n.Kind == source.Scalar {
		t := text{n.Start, n.End, n.Style != source.Plain}
		if n.Style == source.Folded || n.Style == source.Literal {
			t.start += strings.IndexByte(n.Raw, '\n') + 1 // the line with the sign is no text
		}
		l.texts = append(l.texts, t)
	}
	for i, item := range n.Items {
		if n.Kind == source.Map {
			l.collect(n.Keys[i])
		}
		l.collect(item)
	}
}

// within returns the text that byte i is of, nil if it is of none.
func (l *layout) within(i int) *text {
	at, _ := slices.BinarySearchFunc(l.texts, i, func(t text, i int) int { return t.end - i - 1 })
	if at < len(l.texts) && l.texts[at].start <= i {
		return &l.texts[at]
	}
	return nil
}

// head returns where the comment begins that stands on the line of byte i, or
// that line if there is none. A comment further in belongs to what is above it.
func (l *layout) head(i int) int {
	at := l.lineOf(i)
	for at > 0 {
		above := l.lineOf(at - 1)
		if l.src[above] != '#' {
			break
		}
		at = above
	}
	return at
}

// lineOf returns where the line of byte i begins.
func (l *layout) lineOf(i int) int { return strings.LastIndexByte(l.src[:i], '\n') + 1 }

// lineAfter returns where the line after the one that begins at i does.
func (l *layout) lineAfter(i int) int {
	if n := strings.IndexByte(l.src[i:], '\n'); n >= 0 {
		return i + n + 1
	}
	return len(l.src)
}
