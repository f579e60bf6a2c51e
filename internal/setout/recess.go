package setout

import (
	"math"
	"slices"

	"scantling/internal/board"
	"scantling/internal/geom"
	"scantling/internal/span"
)

// A Recess is wood taken out by size: a notch or a slot through the thickness, or
// a housing let in from one side. Across the grain and let into a face a housing
// is a dado, along it a groove, and at an edge or an end a rabbet: one box, which
// may run out of the board anywhere.
type Recess struct {
	Name   string
	From   span.Set
	Kind   board.Kind // Notch, Housing or Slot
	Side   board.Side // what a housing or slot is let into: a face, or an edge; a notch's is Show
	Along  Stretch    // the grain, from Start or Finish
	Across Stretch    // Side a face: from an edge. Side an edge: from a face
	Depth  float64    // mm from Side; 0: all the way through
	Round  bool       // a Slot in a face: its closed ends are round
}

// A Stretch is how far along or across a board something reaches: from Lo to Hi mm
// from a side, or Whole, right through. Along the grain it is measured along the
// edge that Across is measured from, or that is Side, from its corner there on the
// show face; at Lo = 0 it runs out at the end, however that is cut, and so it does
// with Hi infinite at the other.
type Stretch struct {
	From   board.Side
	Lo, Hi float64
	Whole  bool
}

// Recess returns the cut of a recess, in the board's frame; it travels with the
// board's copies (rule 16).
//
// Fault: EndHeld if Side is an end, or the recess takes an end whole; Skew if Along
// is not measured from an end or Across not from a side it may be, or an edge is to
// have round ends; OffBoard if it does not lie on the board (Low, High: asked;
// Want: there is); TooDeep unless a housing leaves wood; RadiusLarge if a round slot
// is shorter than wide; Parted if it cuts the board in two.
func (b Blank) Recess(r Recess) (board.Cut, error) {
	across, edge := board.Near, board.Near
	switch {
	case r.Side.IsEdge():
		across, edge = board.Under, r.Side
	case !r.Across.Whole:
		edge = r.Across.From
	}
	switch {
	case r.Side.IsEnd():
		return board.Cut{}, &Fault{Kind: EndHeld, Side: r.Side}
	case !r.Along.Whole && !r.Along.From.IsEnd(), !r.Across.Whole && r.Across.From&^1 != across, r.Round && !r.Side.IsFace():
		return board.Cut{}, &Fault{Kind: Skew, Side: r.Side}
	}
	size := [3]float64{b.L, b.Width.Size(), b.Thick.Size()}
	deep := Stretch{From: r.Side, Hi: r.Depth, Whole: r.Depth == 0}
	if there := size[r.Side/2]; r.Depth < 0 || r.Depth >= there-geom.Same || deep.Whole && r.Kind == board.Housing {
		return board.Cut{}, &Fault{Kind: TooDeep, Has: r.Depth, Want: there, Side: r.Side}
	}
	var at [6]float64 // by board.Side: where it ends
	var open [6]bool  // whether it runs out of the wood there
	along := [2]float64{b.cornerOn(edge, board.Start), b.cornerOn(edge, board.Finish)}
	err := r.Along.on(board.Start, along, &at, &open)
	if err == nil {
		err = r.Across.on(across, [2]float64{0, size[across/2]}, &at, &open)
	}
	if err != nil {
		return board.Cut{}, err
	}
	_ = deep.on(r.Side&^1, [2]float64{0, size[r.Side/2]}, &at, &open)
	if open[board.Start] {
		at[board.Start] = 0
	}
	if open[board.Finish] {
		at[board.Finish] = b.L
	}
	if through := deep.Whole && r.Side.IsFace(); through && open[board.Near] && open[board.Far] {
		if open[board.Start] || open[board.Finish] {
			return board.Cut{}, &Fault{Kind: EndHeld, Side: r.Along.From}
		}
		return board.Cut{}, &Fault{Kind: Parted, Count: 2}
	}
	cut := board.Cut{Kind: r.Kind, Name: r.Name, From: r.From, Side: r.Side,
		Low: geom.Vec{X: at[0], Y: at[2], Z: at[4]}, High: geom.Vec{X: at[1], Y: at[3], Z: at[5]}}
	cut.Depth = math.Abs(cut.High.Minus(cut.Low).Dot(r.Side.Out()))
	for i, o := range open {
		s := board.Side(i)
		switch {
		case !o:
			d := at[i]
			if s&1 == 0 {
				d = -d
			}
			cut.Waste = append(cut.Waste, geom.Plane{N: s.Out(), D: d})
		case s&^1 != r.Side&^1:
			cut.Open = append(cut.Open, s)
		}
	}
	if r.Round {
		return cut, roundEnds(&cut)
	}
	return cut, nil
}

// on sets where a stretch ends between a low side of the board and the one
// opposite, the board being there from between[0] to between[1].
func (s Stretch) on(low board.Side, between [2]float64, at *[6]float64, open *[6]bool) error {
	if math.IsInf(s.Hi, 1) {
		s.Hi = between[1] - between[0]
	}
	from, to := between[0]+s.Lo, between[0]+s.Hi
	switch {
	case s.Whole:
		from, to = between[0], between[1]
	case s.From&1 == 1:
		from, to = between[1]-s.Hi, between[1]-s.Lo
	}
	if !(from >= between[0]-geom.Same && to <= between[1]+geom.Same && to > from+geom.Same) {
		return &Fault{Kind: OffBoard, Low: s.Lo, High: s.Hi, Want: between[1] - between[0], Side: s.From}
	}
	if open[low] = from <= between[0]+geom.Same; open[low] {
		from = between[0]
	}
	if open[low|1] = to >= between[1]-geom.Same; open[low|1] {
		to = between[1]
	}
	at[low], at[low|1] = from, to
	return nil
}

// cornerOn returns where along the blank an end meets an edge, on the show face.
func (b Blank) cornerOn(edge, end board.Side) float64 {
	out := b.Out(end)
	at := b.point(b.Low, b.Width.Lo, b.Thick.Hi)
	if edge == board.Far {
		at = b.point(b.Low, b.Width.Hi, b.Thick.Hi)
	}
	return float64(out.Dot(b.Run) * firstHit(b.Ends[end].Planes, at, out))
}

// roundEnds makes the closed ends of a slot half circles.
func roundEnds(c *board.Cut) error {
	r, middle := float64((c.High.Y-c.Low.Y)/2), (c.High.Y+c.Low.Y)/2
	closed := 0
	for _, w := range slices.Clone(c.Waste) {
		if math.Abs(w.N.X) < 1 {
			continue
		}
		arc := board.Arc{Centre: geom.Vec{X: c.Low.X + r, Y: middle}, Radius: r, From: math.Pi / 2, To: 3 * math.Pi / 2}
		if w.N.X > 0 {
			arc = board.Arc{Centre: geom.Vec{X: c.High.X - r, Y: middle}, Radius: r, From: -math.Pi / 2, To: math.Pi / 2}
		}
		closed++
		c.Arcs = append(c.Arcs, arc)
		c.Waste = append(slices.DeleteFunc(c.Waste, func(p geom.Plane) bool { return p == w }), arc.Chords()...)
	}
	if room := c.High.X - c.Low.X; float64(float64(closed)*r) > room+geom.Same {
		return &Fault{Kind: RadiusLarge, Has: r, Want: room / float64(closed)}
	}
	return nil
}

// Tongues returns a Tongue for every strip of wood under 1/2 in that a cut of a
// board through the thickness leaves before a side (rule 20), or between it and
// another.
func Tongues(b *board.Board) []*Fault {
	var out []*Fault
	for _, c := range b.Cuts {
		if c.Kind != board.Notch && c.Kind != board.Slot || c.Depth < b.T.MM()-geom.Same || !c.Side.IsFace() {
			continue
		}
		for s, w := range [4]float64{c.Low.X, b.L - c.High.X, c.Low.Y, b.W.MM() - c.High.Y} {
			if w > geom.Touch && w < thinnest-geom.Same {
				out = append(out, &Fault{Kind: Tongue, Has: w, Want: thinnest, Side: board.Side(s), Cut: c.Name})
			}
		}
	}
	return append(out, tonguesBetween(b)...)
}
