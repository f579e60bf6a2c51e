package lumber

import (
	"strings"

	"scantling/internal/measure"
)

// Inches returns the figures of an American sale name as if they were inches,
// which they are not: 2 and 4 of "2x4", 1 1/4 and 6 of "5/4x6 radius edge". It
// returns false for names of other regions, whose figures are millimetres.
func (n Nominal) Inches() (thick, wide measure.Length, ok bool) {
	if _, err := lookupAmerican(string(n)); err != nil {
		return 0, 0, false
	}
	bare, _, _ := strings.Cut(string(n), " ")
	t, w, _ := strings.Cut(bare, "x")
	a, err1 := measure.Parse(t + measure.InchMark)
	b, err2 := measure.Parse(w + measure.InchMark)
	if err1 != nil || err2 != nil {
		return 0, 0, false
	}
	thick, ok1 := a.Length()
	wide, ok2 := b.Length()
	return thick, wide, ok1 && ok2
}
