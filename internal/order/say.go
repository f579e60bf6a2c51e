package order

import (
	"math"
	"slices"
	"strings"

	"scantling/internal/geom"
	"scantling/internal/reach"
)

// plain is how far, as the cosine of 30°, a direction may turn from a plain one and
// still be called by its name; aside, the cosine of 70°, is how much of another
// direction there must be to be said beside it.
const (
	plain = 0.866
	aside = 0.342
)

// From says from which side something comes to its place when up is up on the
// bench: "from above", "from the left, then down", "from the front and above". The
// sides are those of the piece, whichever way it lies.
func From(w reach.Way, up geom.Vec) string {
	if len(w.Lines) == 0 {
		return ""
	}
	out := "from " + side(w.Lines[0].Negated(), up)
	for _, line := range w.Lines[1:] {
		out += ", then " + toward(line, up)
	}
	return out
}

// A course is a direction by a name.
type course struct {
	way  geom.Vec
	from string
	to   string
}

// courses returns the names of the directions when up is up.
func courses(up geom.Vec) []course {
	out := []course{{up, "above", "up"}, {up.Negated(), "below", "down"}}
	for _, c := range []course{
		{geom.Vec{X: -1}, "the left", "to the left"}, {geom.Vec{X: 1}, "the right", "to the right"},
		{geom.Vec{Y: -1}, "the front", "to the front"}, {geom.Vec{Y: 1}, "the back", "to the back"},
		{geom.Vec{Z: 1}, "its top", "toward its top"}, {geom.Vec{Z: -1}, "its underside", "toward its underside"},
	} {
		if math.Abs(c.way.Dot(up)) < 0.5 {
			out = append(out, c)
		}
	}
	return out
}

// nearest returns the courses a direction mostly follows: one, or two.
func nearest(d, up geom.Vec) []course {
	all := courses(up)
	slices.SortStableFunc(all, func(a, b course) int {
		switch x, y := a.way.Dot(d), b.way.Dot(d); {
		case x > y+geom.Same:
			return -1
		case y > x+geom.Same:
			return 1
		}
		return 0
	})
	if all[0].way.Dot(d) >= plain || all[1].way.Dot(d) < aside {
		return all[:1]
	}
	return all[:2]
}

func side(d, up geom.Vec) string {
	var words []string
	for _, c := range nearest(d, up) {
		words = append(words, c.from)
	}
	return strings.Join(words, " and ")
}

func toward(d, up geom.Vec) string {
	var words []string
	for _, c := range nearest(d, up) {
		words = append(words, c.to)
	}
	return strings.Join(words, " and ")
}
