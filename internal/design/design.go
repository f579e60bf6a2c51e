// Package design turns one design file into one piece of furniture: every board
// in place, and everything else the file says about them.
//
// The file's values form a graph with one node a quantity: a name, a board's
// direction, each hold, each end, each cut, each row figure. A node is worked
// out when somebody reads it and kept; a node read while it is being worked out
// is a loop, and is told as the chain of names a carpenter would see as one.
// Start at Open, then Evaluate.
package design

import (
	"scantling/internal/measure"
	"scantling/internal/snag"
	"scantling/internal/source"
	"scantling/internal/span"
)

// A Design is a file that was read into declarations. It is not changed by
// evaluating it, so one Design serves any number of settings.
type Design struct {
	tree   *source.Tree
	name   string
	nameAt span.Range
	about  *prose
	units  measure.Units

	names map[string]name
	order []string // of names, as declared

	sizes    []sizeDecl
	choices  []choiceDecl
	lets     []letDecl
	lumber   []lumberDecl
	points   []pointDecl
	planes   []planeDecl
	boards   []*boardDecl
	joints   []jointDecl
	hardware []hardwareDecl
	goods    []goodsDecl
	steps    []stepDecl
	needs    []needDecl
	use      *useDecl
	finish   *finishDecl

	snags snag.List // found while reading
	holes bool      // part of the file could not be read, so that names may be missing
}

// Open reads the declarations of a file. What is wrong in them is told by every
// Evaluate.
func Open(tree *source.Tree) *Design {
	d := &Design{tree: tree, names: map[string]name{}}
	r := &reader{d: d}
	r.file()
	r.checkMentions()
	return d
}

// A Setting gives a size or choice another value than the file's: Value is a
// measure (`30"`) or a word of the choice.
type Setting struct{ Name, Value string }

// Settings are settings for different names; of two for one name the last holds.
type Settings []Setting
