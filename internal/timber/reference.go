package timber

import (
	"fmt"
	"slices"
	"strings"

	"scantling/internal/cite"
)

// A Reference is what the tables give a grade of a species group, in MPa,
// before any adjustment.
type Reference struct {
	Group, Grade string
	Fb           float64 // bending
	Ft           float64 // tension along the grain
	Fv           float64 // shear along the grain
	FcPerp       float64 // compression across the grain
	Fc           float64 // compression along the grain
	E, Emin      float64 // stiffness: mean, and for stability
	Gravity      float64 // specific gravity connections are designed by
	Sized        bool    // the size factor is in the table already
	From         cite.Source
}

// A GradeError says that the tables have no values for what was asked, and what
// they do have.
type GradeError struct {
	Group, Grade string
	Known        []string // grades of the group; nil when the group itself is not tabulated
}

func (e *GradeError) Error() string {
	if e.Known == nil {
		return fmt.Sprintf("no design values are tabulated for %q", e.Group)
	}
	return fmt.Sprintf("no design values are tabulated for %s graded %q; there are %s", e.Group, e.Grade, strings.Join(e.Known, ", "))
}

// Lookup returns the reference values of a species group (as wood.Wood's
// DesignGroup spells it) in a grade ("No. 2"), for a board that is wideMM wide.
// A width past the table's last row is a *GradeError, as an unknown name is.
//
// Source: AWC NDS Supplement 2018, tables 4A and 4B.
func Lookup(group, name string, wideMM float64) (Reference, error) {
	unknown := &GradeError{Group: group, Grade: name}
	for _, g := range grades {
		if g.group != group {
			continue
		}
		if !slices.Contains(unknown.Known, g.name) {
			unknown.Known = append(unknown.Known, g.name)
		}
		// A nominal 4 is 3 1/2 in at most; the nominal name is never less than the wood.
		if !sameGrade(g.name, name) || g.upTo != 0 && wideMM > float64(g.upTo)*inch {
			continue
		}
		table := "table 4A"
		if g.upTo != 0 {
			table = "table 4B"
		}
		return Reference{
			Group: g.group, Grade: g.name,
			Fb: g.fb * psi, Ft: g.ft * psi, Fv: g.fv * psi, FcPerp: g.fcPerp * psi, Fc: g.fc * psi,
			E: g.e * psi, Emin: g.eMin * psi,
			Gravity: g.gravity, Sized: g.upTo != 0,
			From: supplement(table, g.basis),
		}, nil
	}
	return Reference{}, unknown
}

// sameGrade reports whether a table's grade covers the one asked for: "No. 1/No. 2"
// and "No. 3 and Stud" hold two.
func sameGrade(table, asked string) bool {
	fold := func(s string) string { return strings.ToLower(strings.ReplaceAll(s, " ", "")) }
	if fold(table) == fold(asked) {
		return true
	}
	for _, sep := range []string{"/", " and "} {
		for _, one := range strings.Split(table, sep) {
			if fold(one) == fold(asked) {
				return true
			}
		}
	}
	return false
}
