package shop

import (
	"math"

	"scantling/internal/geom"
	"scantling/internal/steady"
)

// A blade is how a saw is set for one plane across a board that lies on its
// table, face up, one edge against the fence at the back.
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
	mitre, bevel float64  // degrees off square, not negative
	swing        string   // "left", "right"; "" when square across
	fence        geom.Tag // the edge against the fence
	keepRight    bool     // the part lies right of the blade
	step, lean   float64  // mm along the board that the line runs over the width, and over the thickness
	long         geom.Tag // the edge with the long point; valid when step > 0
	longFace     geom.Tag // the face with the long point; valid when lean > 0
	line         float64  // mm of cut line across the face
}

// way returns the direction a side of the blank looks in.
func way(side geom.Tag) geom.Vec {
	switch side {
	case geom.XLow:
		return geom.Vec{X: -1}
	case geom.XHigh:
		return geom.Vec{X: 1}
	case geom.YLow:
		return geom.Vec{Y: -1}
	case geom.YHigh:
		return geom.Vec{Y: 1}
	case geom.ZLow:
		return geom.Vec{Z: -1}
	case geom.ZHigh:
		return geom.Vec{Z: 1}
	}
	return geom.Vec{}
}

// sideTo returns the side of the blank that looks most nearly toward v.
func sideTo(v geom.Vec) geom.Tag {
	best, at := math.Inf(-1), geom.XLow
	for s := geom.XLow; s <= geom.ZHigh; s++ {
		if d := way(s).Dot(v); d > best+1e-9 {
			best, at = d, s
		}
	}
	return at
}

// opposite returns the side across from s.
func opposite(s geom.Tag) geom.Tag { return s ^ 1 }

// setBlade returns the setting for the plane with outward normal n, in the
// board's own frame, at the given end (XLow or XHigh) of a board width × thick
// mm whose face up (ZLow or ZHigh) lies up.
//
//	mitre = atan(y/x), bevel = asin z
//
// for the unit normal (x, y, z) in the saw's directions: the trace of the plane
// on the table has the direction (−y, x), and a blade tilted by the bevel about
// that trace has z as the sine of its tilt.
func setBlade(n geom.Vec, end, up geom.Tag, width, thick float64) blade {
	right, high := way(end), way(up)
	back := high.Cross(right)
	n = n.Unit()
	x, y, z := n.Dot(right), n.Dot(back), n.Dot(high)
	if math.Abs(y) < 1e-9 {
		y = 0
	}
	if math.Abs(z) < 1e-9 {
		z = 0
	}
	b := blade{
		mitre: degrees(steady.Atan2(math.Abs(y), x)),
		bevel: degrees(steady.Asin(math.Abs(z))),
		fence: sideTo(back),
		step:  width * math.Abs(y) / x,
		lean:  thick * math.Abs(z) / x,
	}
	b.line = steady.Hypot(width, b.step)
	b.long, b.longFace = sideTo(back), up
	if y > 0 {
		b.swing, b.long = "right", opposite(b.long)
	} else if y < 0 {
		b.swing = "left"
	}
	if z > 0 {
		b.longFace = opposite(up)
	} else if z < 0 {
		b.keepRight, b.fence = true, opposite(b.fence)
	}
	return b
}

func degrees(radians float64) float64 { return radians * 180 / math.Pi }
