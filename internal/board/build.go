package board

import (
	"math"

	"scantling/internal/geom"
	"scantling/internal/steady"
)

// Build cuts Wood and Solid from the blank and Cuts; all faces of one cut, the
// chords of a curve too, have one tag. They are nil if L is not positive, and hold no cell if the cuts leave nothing. Solid.Bodies is more
// than 1 if they part the board.
func (b *Board) Build() {
	b.Wood, b.Solid = nil, nil
	if !(b.L > 0) {
		return
	}
	var saw geom.Saw
	saw.Blank(b.L, b.W.MM(), b.T.MM())
	for i, c := range b.Cuts {
		switch {
		case c.Kind.IsRound():
			for _, a := range c.Arcs {
				for _, p := range a.Chords() {
					saw.Keep(p, TagOf(i))
				}
			}
		case !c.Kind.TakesPrism() && !c.Square:
			saw.Keep(c.Plane, TagOf(i))
		}
	}
	b.Wood = saw.Solid()
	b.Solid = b.Wood
	notched := false
	for i, c := range b.Cuts {
		if !c.Kind.TakesPrism() {
			continue
		}
		tags := make([]geom.Tag, len(c.Waste))
		for k := range tags {
			tags[k] = TagOf(i)
		}
		saw.Remove(c.Waste, tags)
		notched = true
	}
	if notched {
		b.Solid = saw.Solid()
	}
}

// Setting returns the saw's setting for a plane of the board's frame that cuts
// across the grain, in radians from a square crosscut: mitre is how far the blade
// swings across the show face (positive when the waste side looks toward Far),
// bevel how far it tips (positive when it looks toward Show).
//
// With the plane's normal n turned so that n points out of the end: mitre =
// atan(n.y/|n.x|), bevel = asin(n.z): the blade swings about z first, then tips
// about its own foot line. This is the compound mitre saw's order, and that of
// the joiner's splayed work: a leg that leans α in one view and β in the other,
// its face tipped by β, has mitre atan(tan α·cos β) and bevel β.
func Setting(p geom.Plane) (mitre, bevel float64) {
	return steady.Atan2(p.N.Y, math.Abs(p.N.X)), steady.Asin(math.Max(-1, math.Min(1, p.N.Z)))
}
