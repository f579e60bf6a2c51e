package shop

import (
	"math"

	"scantling/internal/board"
	"scantling/internal/geom"
	"scantling/internal/steady"
)

// A blade is how a saw is set for one plane across a board that lies on its
// table, show face up, one edge against the fence at the back.
//
// The saw's own directions are right, back (toward the fence) and up. A board
// lies with the end that is cut pointing right, so that what is kept is left of
// the blade. Seen from above, a cut line that comes toward the right as it comes
// away from the fence is a swing to the right: the saw's handle, which is in
// front, is moved right. A blade tilts left, as on nearly every saw that tilts
// one way only (common practice); where that lie would need it to tilt right,
// the board is turned end for end and the part is kept right of the blade. The
// swing stays the same then, since half a turn leaves a line parallel.
type blade struct {
	mitre, bevel float64    // degrees off square, not negative
	swing        string     // "left", "right"; "" when square across
	fence        board.Side // the edge against the fence
	keepRight    bool       // the part lies right of the blade
	step, lean   float64    // mm along the board that the line runs over the width, and over the thickness
	long         board.Side // the edge with the long point; valid when step > 0
	longFace     board.Side // the face with the long point; valid when lean > 0
	line         float64    // mm of cut line across the face
}

// setBlade returns the setting for a plane of the board's frame that cuts the
// given end of a board width × thick mm.
func setBlade(p geom.Plane, end board.Side, width, thick float64) blade {
	right := end.Out()
	back := sideTo(board.Show.Out().Cross(right))
	mitre, bevel := board.Setting(p)
	b := blade{
		mitre: degrees(math.Abs(mitre)),
		bevel: degrees(math.Abs(bevel)),
		fence: back,
		step:  math.Abs(float64(width*p.N.Y) / p.N.X),
		lean:  math.Abs(float64(thick*p.N.Z) / p.N.X),
		long:  back, longFace: board.Show,
	}
	b.line = steady.Hypot(width, b.step)
	if b.step > geom.Same {
		if b.swing = "left"; (mitre > 0) == (back == board.Far) {
			b.swing, b.long = "right", back.Opposite()
		}
	}
	if b.lean > geom.Same {
		if bevel > 0 {
			b.longFace = board.Under
		} else {
			b.keepRight, b.fence = true, back.Opposite()
		}
	}
	return b
}

// sideTo returns the side of the blank that looks most nearly toward v.
func sideTo(v geom.Vec) board.Side {
	best, at := math.Inf(-1), board.Start
	for s := board.Start; s <= board.Show; s++ {
		if d := s.Out().Dot(v); d > best {
			best, at = d, s
		}
	}
	return at
}

func degrees(radians float64) float64 { return radians * 180 / math.Pi }
