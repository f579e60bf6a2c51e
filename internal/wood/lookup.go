package wood

import (
	"fmt"
	"slices"
	"strings"

	"scantling/internal/spell"
)

// A NameError says that what was asked for is no wood known here, or could be
// several.
type NameError struct {
	Asked      string
	Candidates []string // woods the name could mean
	Nearest    []string // nearest names when it fits none; the first is the best mend
}

func (e *NameError) Error() string {
	switch len(e.Candidates) {
	case 0:
		return fmt.Sprintf("%q is no wood known here; did you mean %s?", e.Asked, strings.Join(e.Nearest, " or "))
	case 1:
		return fmt.Sprintf("wood %q says too little; of that name %s is known here", e.Asked, e.Candidates[0])
	default:
		return fmt.Sprintf("wood %q may be any of: %s. Say which", e.Asked, strings.Join(e.Candidates, ", "))
	}
}

// Woods returns every wood: groups first, then species, in table order.
func Woods() []Wood {
	var all []Wood
	for _, g := range groups {
		all = append(all, g.wood())
	}
	for _, s := range species {
		all = append(all, s.wood())
	}
	return all
}

// Lookup returns the wood of the given name, in any case, with or without
// hyphens. "southern pine: loblolly" is "loblolly pine". A name that fits
// several woods ("cedar", "pine") or none is a *NameError. Woods of other
// regions answer to their whole name only: "scots pine".
func Lookup(name string) (Wood, error) {
	asked := fold(name)
	var candidates []string
	for _, g := range groups {
		if asked == fold(g.name) || slices.Contains(g.also, asked) {
			return g.wood(), nil
		}
		if within(asked, fold(g.name)) {
			candidates = append(candidates, g.name)
		}
	}
	for _, s := range species {
		if asked == fold(s.name) || slices.Contains(s.also, asked) {
			return s.wood(), nil
		}
		if within(asked, fold(s.name)) {
			candidates = append(candidates, s.name)
		}
	}
	if w, ok := lookupAbroad(asked); ok {
		return w, nil
	}
	if len(candidates) > 0 {
		return Wood{}, &NameError{Asked: name, Candidates: candidates}
	}
	return Wood{}, &NameError{Asked: name, Nearest: nearest(asked)}
}

// fold brings a name to one spelling: lower case, single spaces, no marks.
func fold(s string) string {
	return strings.Join(strings.Fields(folds.Replace(strings.ToLower(s))), " ")
}

var folds = strings.NewReplacer("-", " ", ":", " ", ",", " ", "_", " ")

// within reports whether every word of asked is a word of name.
func within(asked, name string) bool {
	words := strings.Fields(name)
	for _, w := range strings.Fields(asked) {
		if !slices.Contains(words, w) {
			return false
		}
	}
	return asked != ""
}

// nearest returns the names most like asked, folded; all groups when none is.
func nearest(asked string) []string {
	var folded, names []string
	for _, w := range Woods() {
		folded, names = append(folded, fold(w.Name)), append(names, w.Name)
	}
	near := spell.Nearest(asked, folded)
	if near == nil {
		return names[:len(groups)]
	}
	for i, f := range near {
		near[i] = names[slices.Index(folded, f)]
	}
	return near
}
