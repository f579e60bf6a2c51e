package geom

// Tag names what made a face: a side of the blank, or a cut.
type Tag int32

// The six sides of the blank, which lies with one corner at the origin, its
// length along x, its width along y and its thickness along z. Cuts are tagged
// from FirstCut up, by whoever orders them.
const (
	XLow Tag = iota
	XHigh
	YLow
	YHigh
	ZLow
	ZHigh
	FirstCut
)

// Solid is a board's wood in the board's own frame. It is made by Saw and is not
// changed afterwards.
type Solid struct {
	Cells  []Cell  // convex, apart from one another, together the whole
	Faces  []Face  // outer faces, one for each plane and tag, by tag
	Volume float64 // mm³
	Centre Vec     // centre of mass
	Box    Box     // the smallest in the board's frame
	Bodies int     // connected bodies: more than 1 if the cuts part the board, 0 if nothing is left
}

// Cell is a convex body. Loops[i] is the facet on Planes[i], as indices into
// Verts, counter-clockwise seen from outside. Outer[i] reports whether any of
// that facet is on the outside of the solid; the rest is a seam between cells.
type Cell struct {
	Planes []Plane
	Tags   []Tag
	Outer  []bool
	Verts  []Vec
	Loops  [][]int32
}

// Face is all of the solid's outside that lies in one plane and was made by one
// side or cut. Outer loops run counter-clockwise seen from outside and inner
// loops clockwise; a face in two separate areas has two outer loops. A corner of
// any face that lies on the edge of another is a corner there too, so that
// every edge of the solid is run once each way. Pieces are convex polygons,
// counter-clockwise, which fill the same area.
type Face struct {
	Plane  Plane
	Tag    Tag
	Loops  [][]Vec
	Pieces [][]Vec
}

// Placed is a solid in the piece.
type Placed struct {
	*Solid
	Pose Pose
}

// Contact is where two boards touch on one pair of faces, in piece coordinates.
type Contact struct {
	Kind   Kind
	Plane  Plane   // of the first board's face: N points into the second board
	Loops  [][]Vec // Area: outer counter-clockwise seen from N's head, inner clockwise; Line: two points; Point: one
	Pieces [][]Vec // Area only: convex polygons that fill the loops
	Area   float64 // mm²; 0 unless Kind is Area
	Length float64 // mm; of a Line
	Middle Vec     // centre of area, of the line, or the point
	Apart  float64 // mm between the faces there: at most Touch; negative if they overlap
	A, B   Tag     // the faces, of the first and the second board
}

// Kind is the kind of a contact.
type Kind int

const (
	Area Kind = iota
	AlongLine
	AtPoint
)

// Clash is wood that two boards share, in piece coordinates.
type Clash struct {
	Volume float64 // mm³
	Depth  float64 // mm: least width of the shared wood, along the normals of the faces that bound it
	Across Vec     // the direction in which Depth is measured
	Box    Box     // round the shared wood
}

// Gap is a place where two boards nearly touch: faces that look at one another
// from more than Touch and at most NearReach away.
type Gap struct {
	Apart  float64 // mm
	Middle Vec     // in the piece, on the first board's face
	Toward Vec     // unit, from the first board to the second
	A, B   Tag
}
