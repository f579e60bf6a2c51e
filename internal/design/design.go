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
	"slices"

	"scantling/internal/measure"
	"scantling/internal/region"
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
	region region.Region // where it is to be built
	home   region.Region // where the file was drawn for
	whole  *source.Tree  // with all editions
	units  measure.Units // of its yards

	top *scope // the file's names

	sizes    []sizeDecl
	choices  []choiceDecl
	lets     []letDecl
	lumber   []lumberDecl
	points   []pointDecl
	planes   []planeDecl
	boards   []*boardDecl
	groups   []*groupDecl // uses each by itself
	families []*familyDecl
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

// Open reads the declarations of a file, for the region it says it was written
// for. What is wrong in them is told by every Evaluate.
func Open(tree *source.Tree) *Design {
	home, told := Home(tree)
	d := OpenIn(tree, home)
	d.snags = append(told, d.snags...)
	return d
}

// OpenIn reads the edition of a file for a region: what its alternatives say
// there, with the lumber, wood and fasteners sold there.
func OpenIn(tree *source.Tree, in region.Region) *Design {
	home, _ := Home(tree)
	edition, told := tree.Edition(in)
	d := &Design{tree: edition, top: newScope(nil, nil), region: in, home: home, whole: tree, snags: told}
	if in.Metric() {
		d.units = measure.Metric
	}
	r := &reader{d: d, sc: d.top, bodies: map[string]*entry{}}
	r.file()
	r.checkMentions()
	d.snags = once(d.snags)
	return d
}

// once leaves out what is told again: the body of a group is read for each of its
// uses.
func once(list snag.List) snag.List {
	told := map[toldKey]bool{}
	return slices.DeleteFunc(list, func(s snag.Snag) bool {
		k := toldKey{s.Code, s.At, s.What}
		defer func() { told[k] = true }()
		return told[k]
	})
}

// A Setting gives a size or choice another value than the file's: Value is a
// measure (`30"`) or a word of the choice.
type Setting struct{ Name, Value string }

// Settings are settings for different names; of two for one name the last holds.
type Settings []Setting
