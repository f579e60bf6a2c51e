package wood

import (
	"fmt"
	"slices"
	"strings"
)

// A NameError says that what was asked for is no wood known here, or could be
// several.
type NameError struct {
	Asked      string
	Candidates []string // woods the name could mean
	Nearest    []string // nearest names when it fits none; the first is the best mend
}

func (e *NameError) Error() string {
	if len(e.Candidates) > 0 {
		return fmt.Sprintf("wood %q may be any of: %s. Say which", e.Asked, strings.Join(e.Candidates, ", "))
	}
	return fmt.Sprintf("%q is no wood known here; the nearest: %s", e.Asked, strings.Join(e.Nearest, ", "))
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
// several woods ("cedar", "pine") or none is a *NameError.
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
	if len(candidates) > 0 {
		return Wood{}, &NameError{Asked: name, Candidates: candidates}
	}
	return Wood{}, &NameError{Asked: name, Nearest: nearest(asked)}
}

// fold brings a name to one spelling: lower case, single spaces, no marks.
func fold(s string) string {
	s = strings.NewReplacer("-", " ", ":", " ", ",", " ", "_", " ").Replace(strings.ToLower(s))
	return strings.Join(strings.Fields(s), " ")
}

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

// nearest returns the three names sharing most letter pairs with asked; of
// equals, those first in the table.
func nearest(asked string) []string {
	type scored struct {
		name  string
		score float64
	}
	var all []scored
	for _, w := range Woods() {
		all = append(all, scored{w.Name, alike(asked, fold(w.Name))})
	}
	slices.SortStableFunc(all, func(a, b scored) int {
		switch {
		case a.score > b.score:
			return -1
		case a.score < b.score:
			return 1
		}
		return 0
	})
	return []string{all[0].name, all[1].name, all[2].name}
}

// alike returns the share of neighbouring letter pairs two names have in
// common, 0 to 1 (Dice's coefficient).
func alike(a, b string) float64 {
	pairs := map[string]int{}
	for i := 0; i+2 <= len(a); i++ {
		pairs[a[i:i+2]]++
	}
	shared := 0
	for i := 0; i+2 <= len(b); i++ {
		if p := b[i : i+2]; pairs[p] > 0 {
			pairs[p]--
			shared++
		}
	}
	return float64(2*shared) / float64(max(1, len(a)+len(b)-2))
}
