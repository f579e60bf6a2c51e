package geom

// Saw cuts solids. Blank puts a box on it, Keep and Remove cut it in the order
// they are called, Solid lifts off what is left. One Saw makes any number of
// solids, one after another, and reuses its room; it is not for two goroutines.
type Saw struct{}

// Blank starts a new solid: the box from the origin to (length, width, thick),
// in mm, whose sides are tagged XLow to ZHigh.
func (s *Saw) Blank(length, width, thick float64) { panic("geom: to come") }

// Keep cuts along a plane and keeps the wood inside it. The new face has tag t.
func (s *Saw) Keep(h Plane, t Tag) { panic("geom: to come") }

// Remove takes out the wood inside all the planes of a convex prism. The face
// left by prism[i] has tag tags[i].
func (s *Saw) Remove(prism []Plane, tags []Tag) { panic("geom: to come") }

// Solid returns what is left. It shares no memory with the Saw.
func (s *Saw) Solid() *Solid { panic("geom: to come") }

// BoxPlanes returns the six planes of the box with one corner at a pose's origin
// that runs size along the pose's axes, in the order XLow … ZHigh.
func BoxPlanes(p Pose, size Vec) []Plane { panic("geom: to come") }

// Check returns an error unless the solid is sound: the volume of its cells is
// that inside its faces to 1e-12, every edge is run once each way by the loops of
// its faces, and it is one body.
func (s *Solid) Check() error { panic("geom: to come") }

// Extent returns the least and greatest distance, in mm, of the solid's corners
// from the origin along the unit direction way.
func (s *Solid) Extent(way Vec) (low, high float64) { panic("geom: to come") }

// Through returns the stretches of the line at + t·way that run through wood, as
// pairs of t in order, ends that meet at a seam joined.
func (s *Solid) Through(at, way Vec) [][2]float64 { panic("geom: to come") }

// Mesh returns the faces as loops of indices into one list of corners, each
// corner once; loops[i] belongs to Faces[i].
func (s *Solid) Mesh() (corners []Vec, loops [][][]int) { panic("geom: to come") }

// Around returns the smallest upright box round the board in the piece.
func (p Placed) Around() Box { panic("geom: to come") }

// Extent is Solid.Extent in the piece.
func (p Placed) Extent(way Vec) (low, high float64) { panic("geom: to come") }

// Middle returns the centre of mass in the piece.
func (p Placed) Middle() Vec { panic("geom: to come") }

// Overlap returns the wood a and b share. ok is false if they share none deeper
// than Same; whether Depth is a clash (more than Touch) is the caller's to say.
func Overlap(a, b Placed) (c Clash, ok bool) { panic("geom: to come") }

// Contacts returns where a and b touch within Touch: one Contact for each pair
// of faces that look at one another and share an area; if there is none, where
// their edges or corners touch. The order follows the faces of a, then of b.
func Contacts(a, b Placed) []Contact { panic("geom: to come") }

// Near returns the narrowest place where faces of a and b look at one another
// from more than Touch and at most NearReach apart. ok is false if there is none,
// or if the boards touch or overlap somewhere.
func Near(a, b Placed) (g Gap, ok bool) { panic("geom: to come") }

// Pairs returns, in order, every pair i < j of boxes that lie within reach mm of
// one another. Its time grows near-linearly with the boxes and the pairs found.
func Pairs(boxes []Box, reach float64) [][2]int { panic("geom: to come") }
