// Package source reads the YAML subset of design files into a tree that knows
// where everything stands, and writes single values back without touching
// another byte.
//
// Values are kept as the text that was written, never as YAML would decode
// them: 010, 1_000, No, ~ and 12:30 stay what they are. Whatever in YAML would
// quietly change or cut a value is refused, each trap with a message of its own.
// Start from Parse; Set changes one value.
//
// The parser is our own, of block and flow mappings and lists, plain, quoted
// and block scalars, and comments, because a general parser neither keeps token
// text and byte offsets throughout nor can say what a carpenter did wrong. Its
// tests hold it against a general YAML parser.
package source

import (
	"sort"

	"scantling/internal/span"
)

// Limits of a design file.
const (
	MaxBytes = 1 << 20 // size of the file
	MaxDepth = 64      // mappings and lists within each other
)

// A Kind is the form of a node.
type Kind uint8

// Kinds of nodes.
const (
	Broken Kind = iota // could not be read; a snag says so, nobody need say more
	Map
	List
	Scalar
)

func (k Kind) String() string {
	return [...]string{"broken", "map", "list", "scalar"}[k]
}

// A Style is how a scalar is written.
type Style uint8

// Styles of scalars.
const (
	Plain   Style = iota
	Single        // 'in single quotes'
	Double        // "in double quotes"
	Folded        // after >, lines joined by blanks
	Literal       // after |, lines kept
)

// A Node is a mapping, a list, a scalar or a key.
type Node struct {
	span.Range // from the first to the last byte of its text, comments and outer blanks left out
	Kind       Kind
	Style      Style // of scalars and keys
	// Raw is the text as written, quotes and line breaks included.
	Raw string
	// Text is what a scalar or key says: quotes taken off, escapes resolved, the
	// lines of a folded or plain text joined, no line break at the end. A plain
	// value on one line has Text equal to Raw.
	Text string
	// Keys and Items of a mapping have equal length; a list has Items only.
	Keys, Items []*Node
	// Ordinal numbers the scalars of a file from 0, in file order; it is -1 for
	// keys and all other nodes. Sets of ordinals (span.Set) say which values a
	// figure was computed from.
	Ordinal int

	pieces []piece // where the bytes of Text stand; nil: at Start
}

// A piece says that Text[text:] stands in the file from byte src on, up to the
// next piece.
type piece struct{ text, src int }

// A Tree is a design file that was read. It always has a Root.
type Tree struct {
	File    string
	Src     []byte
	Root    *Node   // a Map; empty if the file is
	Scalars []*Node // by Ordinal

	mistakes int // how many snags reading it gave
}

// Get returns the value of a key of a mapping, nil if there is none or n is no
// mapping. A nil node has no keys.
func (n *Node) Get(key string) *Node {
	if i := n.index(key); i >= 0 {
		return n.Items[i]
	}
	return nil
}

// Key returns the key node itself, nil if there is none.
func (n *Node) Key(key string) *Node {
	if i := n.index(key); i >= 0 {
		return n.Keys[i]
	}
	return nil
}

func (n *Node) index(key string) int {
	if n != nil && n.Kind == Map {
		for i, k := range n.Keys {
			if k.Text == key {
				return i
			}
		}
	}
	return -1
}

// Offset returns the byte of the file where byte i of Text stands, for i from 0
// to len(Text). For a byte an escape stands for it is a byte of the escape.
func (n *Node) Offset(i int) int {
	if n.pieces == nil {
		return n.Start + i
	}
	at := sort.Search(len(n.pieces), func(k int) bool { return n.pieces[k].text > i }) - 1
	return min(n.pieces[max(at, 0)].src+i-n.pieces[max(at, 0)].text, n.End)
}

// Sub returns the range of the file where Text[start:end] stands. An empty
// range is widened by nothing: carets show its first character.
func (n *Node) Sub(start, end int) span.Range {
	r := span.Range{File: n.File, Start: n.Offset(start)}
	r.End = r.Start
	if end > start {
		r.End = max(r.Start, n.Offset(end-1)+1)
	}
	return r
}

// Whole reports whether all of the file could be read. Where it could not, what
// is missing from the tree may only be what was not understood.
func (t *Tree) Whole() bool { return t.mistakes == 0 }

// Ranges returns where the scalars of a set stand, in file order.
func (t *Tree) Ranges(s span.Set) []span.Range {
	var out []span.Range
	for _, o := range s.Ordinals() {
		if o < len(t.Scalars) {
			out = append(out, t.Scalars[o].Range)
		}
	}
	return out
}
