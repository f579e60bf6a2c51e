package lumber

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"scantling/internal/measure"
	"scantling/internal/spell"
)

// A NameError says that what was asked for is no name of the catalogue, or
// that several rows bear it.
type NameError struct {
	Noun       string   // what was looked for: "sale size", "treatment"
	Asked      string   // as written
	Candidates []string // rows that bear the name, when there are several
	Nearest    []string // nearest names, when there is none; the first is the best mend
	Why        string   // a sentence more, or ""
}

func (e *NameError) Error() string {
	var b strings.Builder
	if len(e.Candidates) > 0 {
		fmt.Fprintf(&b, "%s %q may be any of: %s. Say which", e.Noun, e.Asked, strings.Join(e.Candidates, ", "))
	} else {
		fmt.Fprintf(&b, "%q is no %s", e.Asked, e.Noun)
		if len(e.Nearest) > 0 {
			fmt.Fprintf(&b, "; the nearest: %s", strings.Join(e.Nearest, ", "))
		}
	}
	if e.Why != "" {
		b.WriteString(". " + e.Why)
	}
	return b.String()
}

// Sizes returns the whole catalogue, in the order yards list it: boards, 5/4,
// dimension, timber; thin before thick, narrow before wide.
func Sizes() []Size {
	all := make([]Size, len(rows))
	for i := range rows {
		all[i] = rows[i].size()
	}
	return all
}

// Lookup returns the size sold by the given name. Spaces, case and the sign
// between the two figures are free: "2 X 4" and "2×4" are "2x4". A name that
// fits several rows ("5/4x6", which yards sell with rounded and with square
// edges) or none is a *NameError holding what it may mean or the nearest names.
//
// A name that is no American one is looked up in the metric catalogues too:
// "45x95", "90x45". LookupIn looks in one region only.
func Lookup(name string) (Size, error) {
	here, err := lookupAmerican(name)
	if err != nil {
		if s, abroad, metric := lookupAbroad(name); metric {
			return s, abroad
		}
	}
	return here, err
}

func lookupAmerican(name string) (Size, error) {
	asked := fold(name)
	var fits []string
	var found Size
	for _, r := range rows {
		full, bare := fold(string(r.name())), fold(r.bare)
		if asked == full {
			return r.size(), nil
		}
		if asked == bare {
			found = r.size()
			fits = append(fits, string(r.name()))
		}
	}
	switch len(fits) {
	case 0:
		return Size{}, unknown(name)
	case 1:
		return found, nil
	}
	return Size{}, &NameError{Noun: "sale size", Asked: name, Candidates: fits,
		Why: "They measure the same across but differ at the edges"}
}

// unknown explains a name that no row bears: as a real section taken for a
// name, as a name with a length on it, or as a slip of the pen.
func unknown(name string) error {
	e := &NameError{Noun: "sale size", Asked: name}
	asked := fold(name)
	if figures := strings.Split(asked, "x"); len(figures) == 3 {
		if s, err := lookupAmerican(figures[0] + "x" + figures[1]); err == nil {
			e.Nearest = []string{string(s.Name)}
			e.Why = "A sale size has no length in it; lengths are chosen when the boards are bought"
			return e
		}
	}
	for _, s := range Sizes() {
		if sameSection(asked, s) {
			e.Nearest = append(e.Nearest, string(s.Name))
		}
	}
	if len(e.Nearest) > 0 {
		e.Why = "That is what it measures; write the name it is sold by"
		return e
	}
	e.Nearest = nearest(asked)
	return e
}

// sameSection reports whether asked, folded, spells the actual section of s in
// decimals or fractions: "1.5x3.5", "11/2x31/2".
func sameSection(asked string, s Size) bool {
	asked = strings.NewReplacer(`"`, "", "in", "", "-", "").Replace(asked)
	for _, spell := range []func(measure.Length) string{decimal, fraction} {
		if asked == spell(s.Thick)+"x"+spell(s.Wide) {
			return true
		}
	}
	return false
}

// decimal spells l in inches to as many places as it has: "1.5".
func decimal(l measure.Length) string {
	return strings.TrimSuffix(strings.TrimRight(fmt.Sprintf("%.6f", float64(l)/float64(measure.Inch)), "0"), ".")
}

// fraction spells l, a whole number of quarter inches, without spaces: "31/2".
func fraction(l measure.Length) string {
	whole, quarters := l/measure.Inch, l%measure.Inch/(measure.Inch/4)
	part := [...]string{"", "1/4", "1/2", "3/4"}[quarters]
	if whole == 0 {
		return part
	}
	return fmt.Sprint(int64(whole)) + part
}

// fold brings a name to one spelling: lower case, no spaces, x for every sign
// of multiplication.
func fold(s string) string {
	s = strings.ToLower(strings.TrimSpace(s))
	return folds.Replace(s)
}

var folds = strings.NewReplacer(" ", "", "\t", "", "×", "x", "*", "x")

// nearest returns the names most like asked, folded: two of the same thickness
// and next in width, or else those spelled most alike.
func nearest(asked string) []string {
	thick, wide, _ := strings.Cut(asked, "x")
	type sized struct {
		name string
		off  int
	}
	var same []sized
	var known []string
	for _, r := range rows {
		known = append(known, fold(string(r.name())))
		if t, w, _ := strings.Cut(r.bare, "x"); t == thick {
			if off, ok := apart(w, wide); ok {
				same = append(same, sized{string(r.name()), off})
			}
		}
	}
	var near []string
	slices.SortStableFunc(same, func(a, b sized) int { return a.off - b.off })
	for _, s := range same[:min(2, len(same))] {
		near = append(near, s.name)
	}
	if near != nil {
		return near
	}
	for _, folded := range spell.Nearest(asked, known) {
		near = append(near, string(rows[slices.Index(known, folded)].name()))
	}
	return near
}

// apart returns how far two whole numbers differ.
func apart(a, b string) (int, bool) {
	n, err1 := strconv.Atoi(a)
	m, err2 := strconv.Atoi(b)
	return max(n-m, m-n), err1 == nil && err2 == nil && m < 1000
}
