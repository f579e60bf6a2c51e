// Package board holds one wooden member: its blank, its cuts, its place in the
// piece, and the solid that follows from them.
//
// A board lives in a frame of its own. The blank has one corner at the origin,
// its length along x (the grain), its width along y and its thickness along z; z
// points out of the show face, x along the run and y = z × x, so the frame is
// right-handed and so is the pose that puts it in the piece. A mirrored copy is
// never a mirrored pose: Mirrored mirrors the cuts, so that the saw words of a
// left and a right hand come out different, as they must.
//
// Start from Board; Build cuts its solid.
package board

import (
	"scantling/internal/geom"
	"scantling/internal/lumber"
	"scantling/internal/measure"
	"scantling/internal/span"
)

// An ID names a board by the path of copies that made it, so that it survives
// resizing: "leg", "leg/left-right", "top_slat/3/front-back".
type ID string

// A Side is one of the six sides of a blank. It has the number of the geom.Tag
// of its face.
type Side int8

// The sides of a blank of L × W × T. An end lies square to the grain; edges are
// the narrow sides along it, faces the wide ones.
const (
	Start  Side = iota // x = 0, the end where the run starts
	Finish             // x = L
	Near               // y = 0, an edge
	Far                // y = W
	Under              // z = 0, the face away from the show face
	Show               // z = T
)

// Opposite returns the side across the board.
func (s Side) Opposite() Side { return s ^ 1 }

// IsEnd reports whether s is an end.
func (s Side) IsEnd() bool { return s <= Finish }

// IsEdge reports whether s is an edge.
func (s Side) IsEdge() bool { return s == Near || s == Far }

// IsFace reports whether s is a face.
func (s Side) IsFace() bool { return s >= Under }

// Out returns the unit direction out of side s, in the board's frame.
func (s Side) Out() geom.Vec {
	return [...]geom.Vec{{X: -1}, {X: 1}, {Y: -1}, {Y: 1}, {Z: -1}, {Z: 1}}[s]
}

// An Origin says how a length is come by.
type Origin int8

const (
	Reference Origin = iota // follows from other numbers; for checking
	Fixed                   // written by the designer: make it so
	ToFit                   // taken from the work: measure there first, then cut
)

// A Board is one wooden member in place. Its fields are exact; nothing in it is
// rounded for printing.
type Board struct {
	ID     ID
	Part   string // the name of the part or row in the file: "shelf_slat"
	Spoken string // as people say it: "front left leg"

	Stock      *lumber.Stock  // what it is sawn from
	T, W       measure.Length // thickness and width, after ripping
	Rip        Side           // Near or Far: the edge ripped off when W is less than the stock's
	L          float64        // mm, long point to long point along the grain: the length of the blank
	Short      float64        // mm, short point to short point along the grain
	EdgeLength float64        // mm along one edge, equal along all four; 0 unless the ends are parallel
	Cuts       []Cut          // ends first (Start, then Finish), then in file order
	Holes      []Hole
	Edges      []Edge // long edges worked with a router; not part of the solid

	Pose     geom.Pose // puts the board's frame in the piece
	Sides    [6]string // by Side: the room word each answers to, after copying: "left", "top"
	LengthIs Origin

	Wood  *geom.Solid // blank, ends, tapers, snips and rounds only, convex: what notches and laps of other boards are cut by
	Solid *geom.Solid // finished, holes and worked edges apart
}

// A Kind is a kind of cut.
type Kind int8

const (
	EndCut      Kind = iota // crosscut, mitre, bevel or both
	Taper                   // an edge or face sawn off at a small angle to the grain
	Notch                   // a rectangle cut square through the thickness
	Housing                 // let in from one side, as far as another board enters
	Snip                    // a corner sawn off
	HalfLap                 // half of the wood where another board crosses
	Slot                    // long and narrow, by size: its ends round or square
	RoundEnd                // an end sawn round
	RoundCorner             // a corner of the face sawn round
	Arch                    // an edge sawn hollow
)

// String returns the trade's word.
func (k Kind) String() string {
	return [...]string{"end cut", "taper", "notch", "housing", "snip", "half lap", "slot", "round end", "round corner", "arch"}[k]
}

// TakesPrism reports whether the cut takes out the wood inside Waste; the others
// saw off what lies outside a plane or an arc.
func (k Kind) TakesPrism() bool {
	switch k {
	case Notch, Housing, HalfLap, Slot, Arch:
		return true
	}
	return false
}

// IsRound reports whether the cut saws off what lies outside its Arcs.
func (k Kind) IsRound() bool { return k == RoundEnd || k == RoundCorner }

// A Cut is one saw or router cut. Places and planes are mm in the board's frame;
// every plane has its outside where the waste is (EndCut, Taper, Snip), or is a
// wall of the wood taken out, which lies inside all planes of Waste (those that
// take a prism). Curves are square through the thickness and stay exact in Arcs;
// in the solid they are chords.
type Cut struct {
	Kind  Kind
	Name  string   // the cut's name in the file: "slim"; "" for an end
	Meets string   // what it is cut to, in words: "floor", "long apron, back"; "" if nothing
	From  span.Set // the scalars it was computed from

	Side   Side       // EndCut, Snip, rounds: the end. Taper, Arch: the side sawn. Notch: Show. The rest: the side it is let into
	Plane  geom.Plane // EndCut, Taper, Snip; rounds: the end they are sawn into
	Square bool       // EndCut square to the grain: the blank's own end, nothing to cut off
	Mark   Mark       // Taper: how it is marked out

	Waste  []geom.Plane // a convex prism, of those that take one
	Low    geom.Vec     // the box of the wood so taken out, clipped to the blank
	High   geom.Vec
	Depth  float64 // mm, deepest, square to Side; all the way: the size of the board there
	Open   []Side  // where it runs out of the wood, besides Side and the face it goes through to
	Bevels bool    // Notch: walls follow a lean, not square to the face
	Arcs   []Arc   // RoundEnd, RoundCorner, Arch, Slot with round ends
}

// A Mark is how a taper is marked out: the saw line leaves the edge From mm from
// its corner at end At, measured along that edge, and leaves Wide mm at the other
// end, measured square from the opposite side (Both: between the two tapers).
type Mark struct {
	At   Side
	From float64
	Wide float64
	Both bool
}

// A Hole is a drilled hole.
type Hole struct {
	At, Way  geom.Vec // centre at the surface it is drilled from, unit direction into the wood; mm, board's frame
	Diameter float64  // mm
	Depth    float64  // mm; 0: through
	Kind     HoleKind
	When     When
	Joint    string // name of the joint it serves
	Mate     ID     // the board it is fastened to there
	From     span.Set
}

// When says when a hole is drilled.
type When int8

const (
	Bench    When = iota // at the bench, from its marks
	Together             // clamped to its mate, through both at once
	InPlace              // with the board in place, through the hole of its mate
)

// A HoleKind says what a hole is for.
type HoleKind int8

const (
	Pilot HoleKind = iota
	Clearance
	Countersink
	Counterbore
)

// An Edge is long edges or end edges worked with a router or plane.
type Edge struct {
	Work  EdgeWork
	Name  string         // the cut's name in the file: "ease"
	Size  measure.Length // radius, or width of the chamfer
	Along []Arris
	From  span.Set
}

// EdgeWork is what is done to an edge.
type EdgeWork int8

const (
	Round EdgeWork = iota
	Chamfer
	Bead
)

// An Arris is where two sides meet, the lower first.
type Arris [2]Side

// End returns the cuts of one end: one, or two that make a point.
func (b *Board) End(end Side) []Cut {
	var out []Cut
	for _, c := range b.Cuts {
		if c.Kind == EndCut && c.Side == end {
			out = append(out, c)
		}
	}
	return out
}

// Named returns the side that answers to a room word such as "left".
func (b *Board) Named(word string) (Side, bool) {
	for s, w := range b.Sides {
		if w == word {
			return Side(s), true
		}
	}
	return 0, false
}

// TagOf returns the tag of the faces left by b.Cuts[i].
func TagOf(i int) geom.Tag { return geom.FirstCut + geom.Tag(i) }

// CutAt returns the cut that left a face, or nil for a side of the blank. A
// square end is the blank's own.
func (b *Board) CutAt(t geom.Tag) *Cut {
	if i := int(t - geom.FirstCut); i >= 0 && i < len(b.Cuts) {
		return &b.Cuts[i]
	}
	return nil
}

// Placed returns the finished solid in the piece.
func (b *Board) Placed() geom.Placed { return geom.Placed{Solid: b.Solid, Pose: b.Pose} }

// PlacedWood returns the solid before notches in the piece.
func (b *Board) PlacedWood() geom.Placed { return geom.Placed{Solid: b.Wood, Pose: b.Pose} }
