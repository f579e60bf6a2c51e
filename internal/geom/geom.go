// Package geom is the solid geometry of boards: planar-faced solids cut from a
// box, where two of them touch, and how far they run into one another.
//
// A board is wood with flat faces. It starts as a box, planes cut pieces off it
// and prisms are taken out of it. The result is held twice: as convex cells that
// fill it without overlapping, which makes volume, clash and contact a matter of
// clipping convex bodies; and as outer faces, in which no seam between cells
// shows, for drawing. Every face carries the tag of the side or cut that made it.
//
// Start from Saw, which makes a Solid; then Placed puts one in the piece, and
// Overlap, Contacts and Near compare two of them. Pairs says which are worth
// comparing.
//
// Lengths are mm as float64 and are never rounded. Products stand in float64( )
// so that no processor fuses them with a sum; see package steady.
package geom

// The three tolerances of the program, in mm. No other is to be found anywhere.
const (
	// Same is how far apart two points or planes of one board may be and still
	// be one. Boards are up to 10 m long, where a float64 is spaced 2e-12 mm; a
	// corner goes through fewer than 100 roundings, so noise stays under 1e-9.
	// The smallest size anybody writes is 1/64 in = 0.4 mm. 1e-6 lies a
	// thousandfold above the one and a hundred-thousandfold below the other.
	Same = 1e-6

	// Alike is how far two boards may differ and still be one part: a fortieth
	// of the finest tape unit (1/64 in = 0.397 mm), below what any saw or rule
	// can tell apart, and far above what turning a board in float64 costs.
	Alike = 0.01

	// Touch is how far apart two faces may be and still be in contact, and how
	// deep an overlap may be and still be no clash. An angle written to 0.001
	// degree is off by 0.0016 mm across a 3 1/2 in board and 0.016 mm over 36
	// in: boards meant to touch lie within this. A sheet of paper is 0.1 mm.
	Touch = 0.02
)

// NearReach is how far apart, in mm, two faces may be and still be reported by
// Near as nearly touching: about a fifth of the finest step on a tape above any
// rounding, and less than any gap left on purpose (1/32 in = 0.8 mm).
const NearReach = 0.5
