// Package snag holds what is wrong, doubtful or worth knowing in a design: the
// messages a person sees, and how to mend each.
//
// Every package that reads or computes something collects Snags in a List and
// carries on; nothing stops at the first mistake. Text prints a list for a
// terminal, with the source line and a caret; JSON gives the same as plain data.
// Codes lists every code with its meaning and a smallest bad example.
package snag

import (
	"cmp"
	"slices"

	"scantling/internal/span"
)

// A Code names one kind of snag for good: "unknown-name". It never changes its
// meaning. Codes tells what each means.
type Code string

// Severity says what a snag asks of the reader.
type Severity uint8

// Severities, the gravest first.
const (
	Error   Severity = iota // the piece cannot be built as written
	Caution                 // it can be built, but with care
	Advice                  // worth knowing
)

// String returns the word terminals and programs use: "error", "caution",
// "advice".
func (s Severity) String() string {
	switch s {
	case Error:
		return "error"
	case Caution:
		return "caution"
	}
	return "advice"
}

// Title returns the heading readers see: "Mend this", "Take care", "Worth
// knowing".
func (s Severity) Title() string {
	switch s {
	case Error:
		return "Mend this"
	case Caution:
		return "Take care"
	}
	return "Worth knowing"
}

// A Tier says how much must be computed before a snag can be told.
type Tier uint8

// Tiers, the quickest first.
const (
	Live    Tier = iota // parse, values, solids, contacts
	Settled             // joints, parts, cutting
	Book                // drawings, pages
)

// A Snag is one message.
type Snag struct {
	Code     Code
	Severity Severity
	// CannotTell marks a question the program could not answer. It is never a
	// pass: terminals and pages print "cannot tell".
	CannotTell bool
	At         span.Range // the zero Range if no place in a file is to blame
	Related    []Related
	Boards     []string // ids of the boards it is about
	Step       int      // the step it is about, counted from 1; 0: none
	What       string   // one sentence without a full stop: both numbers, with units
	Why        string   // the reason, where it is not plain; may be empty
	Mends      []Mend
	Tier       Tier
}

// Related points to another place that explains a snag.
type Related struct {
	At   span.Range
	Says string // "the leg gets its thickness here"
}

// A Mend is one way out, a sentence in the imperative. With edits a program can
// do it: they apply to the file together.
type Mend struct {
	Says  string
	Edits []span.Edit
}

// Say returns a mend that only a person can do.
func Say(says string) Mend { return Mend{Says: says} }

// Replace returns a mend that writes text in place of the bytes at.
func Replace(says string, at span.Range, text string) Mend {
	return Mend{says, []span.Edit{{At: at, Text: text}}}
}

// A List is a set of snags, in any order until Sorted.
type List []Snag

// Errors returns the number of errors.
func (l List) Errors() int { return l.Count(Error) }

// Count returns the number of snags of one severity.
func (l List) Count(s Severity) int {
	n := 0
	for _, x := range l {
		if x.Severity == s {
			n++
		}
	}
	return n
}

// Sorted returns the snags gravest first, then in file order, each once: of
// snags with the same code, place and words the first is kept. Snags that tie
// keep the order they were found in.
func (l List) Sorted() List {
	out := slices.Clone(l)
	slices.SortStableFunc(out, compare)
	return slices.CompactFunc(out, func(a, b Snag) bool { return compare(a, b) == 0 })
}

func compare(a, b Snag) int {
	return cmp.Or(
		cmp.Compare(a.Severity, b.Severity),
		cmp.Compare(a.At.File, b.At.File),
		cmp.Compare(a.At.Start, b.At.Start),
		cmp.Compare(a.At.End, b.At.End),
		cmp.Compare(a.Code, b.Code),
		cmp.Compare(a.What, b.What),
	)
}
