// Package cite says where a tabulated figure comes from and how it was come
// by. Every row of the lumber, wood and screw tables carries a Source, so that
// a plan can print it beside the figure and a reader can judge it.
package cite

// A Basis is how a figure was come by. Bases are ordered from firm to frail.
type Basis uint8

const (
	Read     Basis = iota + 1 // read in the work named, or in a public copy of it
	Computed                  // follows by the stated formula from figures that are themselves sourced
	Practice                  // common practice of the trade; no single work states it
	Memory                    // recalled, not read again: to be confirmed
	Invented                  // made up for a demonstration; stands for nothing real
)

// String returns the basis as a plan prints it.
func (b Basis) String() string {
	switch b {
	case Read:
		return "read"
	case Computed:
		return "computed"
	case Practice:
		return "common practice"
	case Memory:
		return "memory"
	case Invented:
		return "invented"
	}
	return "no basis"
}

// A Source is a published work (with edition, and table or section) and how
// the figures in hand were come by from it.
type Source struct {
	Work  string
	Basis Basis
}

// String returns the source as printed: "ALSC PS 20-20, table 3 (memory)".
func (s Source) String() string { return s.Work + " (" + s.Basis.String() + ")" }

// OK reports whether s names a work and a basis; a row for which it does not
// has no place in a table.
func (s Source) OK() bool { return s.Work != "" && s.Basis.String() != "no basis" }
