package source

import (
	"errors"
	"slices"
	"strings"

	"scantling/internal/span"
)

// Errors of Set.
var (
	ErrNotScalar = errors.New("only a single value can be set")
	ErrUnwritten = errors.New("this text cannot be written here")
)

// Set returns the edits after which the scalar n of t says text, and nothing
// else in the file has changed: they touch only the bytes of n, and the edited
// file, read again, differs in that scalar alone. The way n is written is kept
// if it can hold the text; otherwise quotes are put round it.
//
// It returns ErrNotScalar for keys, mappings, lists and broken values, and
// ErrUnwritten if no way of writing gives text back (control characters).
func Set(t *Tree, n *Node, text string) ([]span.Edit, error) {
	if n == nil || n.Kind != Scalar || n.Ordinal < 0 {
		return nil, ErrNotScalar
	}
	for _, raw := range spellings(t, n, text) {
		edits := []span.Edit{{At: n.Range, Text: raw}}
		src, ok := span.Apply(t.Src, edits)
		if !ok {
			return nil, ErrNotScalar // n is of another tree
		}
		after, snags := Parse(t.File, src)
		if len(snags) <= t.mistakes && sameBut(t.Root, after.Root, n.Ordinal, text) {
			return edits, nil
		}
	}
	return nil, ErrUnwritten
}

// spellings returns ways to write text in place of n, the best first.
func spellings(t *Tree, n *Node, text string) []string {
	plain := strings.TrimSpace(text)
	single := "'" + strings.ReplaceAll(text, "'", "''") + "'"
	escaped := `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`, "\n", `\n`, "\t", `\t`).Replace(text) + `"`
	switch n.Style {
	case Single:
		return []string{single, escaped}
	case Double:
		return []string{escaped}
	case Folded, Literal:
		if below, ok := blockSpelling(t, n, text); ok {
			return []string{below, quote(text), escaped}
		}
	}
	return []string{plain, quote(text), escaped}
}

// blockSpelling writes text below the header of the block scalar n, as deep as
// the text that stands there.
func blockSpelling(t *Tree, n *Node, text string) (string, bool) {
	header, _, ok := strings.Cut(n.Raw, "\n")
	if !ok {
		return "", false
	}
	newline := "\n"
	if strings.HasSuffix(header, "\r") {
		newline = "\r\n"
	}
	first := n.Offset(len(n.Text) - len(strings.TrimLeft(n.Text, "\n")))
	bol := 1 + strings.LastIndexByte(string(t.Src[:first]), '\n')
	indent := strings.Repeat(" ", first-bol)
	lines := strings.Split(text, "\n")
	if n.Style == Folded {
		lines = strings.Split(strings.ReplaceAll(text, "\n", "\n\n"), "\n")
	}
	for i, line := range lines {
		if line != "" {
			lines[i] = indent + line
		}
	}
	return header + "\n" + strings.Join(lines, newline), true
}

// sameBut reports whether two trees say the same, but for one scalar, which
// must say text in b.
func sameBut(a, b *Node, ordinal int, text string) bool {
	if a.Kind != b.Kind || len(a.Keys) != len(b.Keys) || len(a.Items) != len(b.Items) || a.Ordinal != b.Ordinal {
		return false
	}
	if a.Kind == Scalar {
		if a.Ordinal == ordinal {
			return b.Text == text
		}
		return b.Text == a.Text
	}
	for i, k := range a.Keys {
		if k.Text != b.Keys[i].Text {
			return false
		}
	}
	for i, item := range a.Items {
		if !sameBut(item, b.Items[i], ordinal, text) {
			return false
		}
	}
	return true
}

// Holds reports whether the file still reads after edits that reach inside a text
// in quotes, where a sign may end the text or begin an escape. Others hold.
func (t *Tree) Holds(edits []span.Edit) bool {
	inside := func(e span.Edit) bool {
		for _, n := range t.Scalars {
			if (n.Style == Single || n.Style == Double) && n.Start < e.At.Start && e.At.End < n.End {
				return true
			}
		}
		return false
	}
	if !slices.ContainsFunc(edits, inside) {
		return true
	}
	src, ok := span.Apply(t.Src, edits)
	if !ok {
		return false
	}
	_, snags := Parse(t.File, src)
	return len(snags) <= t.mistakes
}
