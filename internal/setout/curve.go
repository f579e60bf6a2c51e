package setout

import (
	"math"

	"scantling/internal/board"
	"scantling/internal/geom"
	"scantling/internal/steady"
)

// RoundEnd returns the cut of `round end: END, radius: R`: an arc about the centre
// line that touches the end. radius 0 is half the width, a half round; a greater one
// leaves a shoulder on either edge. Fault: NotSquare unless the end is one square
// cut; RadiusSmall under half the width.
func (b Blank) RoundEnd(name string, end board.Side, radius float64) (board.Cut, error) {
	p, err := b.plainEnd(end)
	if err != nil {
		return board.Cut{}, err
	}
	if slant := tipped(p.N.Y); slant > parallel {
		return board.Cut{}, &Fault{Kind: NotSquare, Has: slant, Side: end}
	}
	half := float64(b.Width.Size() / 2)
	switch {
	case radius == 0:
		radius = half
	case !(radius >= half-geom.Same):
		return board.Cut{}, &Fault{Kind: RadiusSmall, Has: radius, Want: half, Side: end}
	}
	reach := steady.Asin(math.Min(1, half/radius))
	arc := board.Arc{Centre: geom.Vec{X: radius, Y: half}, Radius: radius, From: math.Pi - reach, To: math.Pi + reach}
	if end == board.Finish {
		arc.Centre.X, arc.From, arc.To = b.L-radius, -reach, reach
	}
	return board.Cut{Kind: board.RoundEnd, Name: name, Side: end, Plane: p, Arcs: []board.Arc{arc}}, nil
}

// RoundCorner returns the cut of a quarter-round corner: an arc that touches an end
// and an edge. The end may be mitred. Fault: Skew if edge is none; NotSquare if the
// end makes a point or is bevelled; RadiusLarge if the arc would reach past the end
// or the edge; RadiusSmall unless it is positive.
func (b Blank) RoundCorner(name string, end, edge board.Side, radius float64) (board.Cut, error) {
	p, err := b.plainEnd(end)
	switch {
	case err != nil:
		return board.Cut{}, err
	case !edge.IsEdge():
		return board.Cut{}, &Fault{Kind: Skew, Side: edge}
	case !(radius > 2*board.Chord):
		return board.Cut{}, &Fault{Kind: RadiusSmall, Has: radius, Want: 2 * board.Chord, Side: end}
	}
	// The arc touches each side tan(turn/2) radii from the corner, turn being the
	// angle between the ways out of the two.
	turn := steady.Acos(p.N.Dot(edge.Out()))
	reach := steady.Tan(turn / 2)
	if most := math.Min(b.Width.Size()/math.Abs(p.N.X), b.L) / reach; radius > most+geom.Same {
		return board.Cut{}, &Fault{Kind: RadiusLarge, Has: radius, Want: most, Side: end}
	}
	side := geom.Plane{N: edge.Out()}
	if edge == board.Far {
		side.D = b.Width.Size()
	}
	centre, _ := geom.Meet(p.Shifted(-radius), side.Shifted(-radius), geom.Plane{N: geom.Vec{Z: 1}})
	arc := board.Arc{Centre: centre, Radius: radius}
	from, to := p.N, side.N
	if from.Cross(to).Z < 0 {
		from, to = to, from
	}
	arc.From = steady.Atan2(from.Y, from.X)
	arc.To = arc.From + turn
	return board.Cut{Kind: board.RoundCorner, Name: name, Side: end, Plane: p, Arcs: []board.Arc{arc}}, nil
}

// RoundCorners returns both corners of an end rounded alike: `round end: END,
// corners: R`. Faults as for RoundCorner; the two together must fit the end.
func (b Blank) RoundCorners(name string, end board.Side, radius float64) ([]board.Cut, error) {
	var out []board.Cut
	reach := 0.0
	for edge := board.Near; edge <= board.Far; edge++ {
		c, err := b.RoundCorner(name, end, edge, radius)
		if err != nil {
			return nil, err
		}
		out = append(out, c)
		reach += steady.Tan((c.Arcs[0].To - c.Arcs[0].From) / 2)
	}
	if most := b.Width.Size() / math.Abs(out[0].Plane.N.X) / reach; radius > most+geom.Same {
		return nil, &Fault{Kind: RadiusLarge, Has: radius, Want: most, Side: end}
	}
	return out, nil
}

// plainEnd returns the one plane of an end, square to the face, in the board's
// frame.
func (b Blank) plainEnd(end board.Side) (geom.Plane, error) {
	if !end.IsEnd() {
		return geom.Plane{}, &Fault{Kind: Skew, Side: end}
	}
	p := b.Pose().InPlane(b.End(end))
	if bevel := tipped(p.N.Z); bevel > parallel || len(b.Ends[end].Planes) > 1 {
		return p, &Fault{Kind: NotSquare, Has: bevel, Side: end}
	}
	return p, nil
}

// Arch returns the cut of an arched edge: an arc from a mm past the edge's corner
// at Start to so many mm short of that at Finish, rising so far into the wood. Its
// radius is (c²/4 + h²)/2h for a chord c and a rise h.
//
// Fault: Skew if edge is none; NoArch if nothing is left to arch or it rises more
// than half the chord; TooDeep if it rises through the board.
func (b Blank) Arch(name string, edge board.Side, start, finish, rise float64) (board.Cut, error) {
	if !edge.IsEdge() {
		return board.Cut{}, &Fault{Kind: Skew, Side: edge}
	}
	from, to := b.cornerOn(edge, board.Start)+start, b.cornerOn(edge, board.Finish)-finish
	half, w := float64((to-from)/2), b.Width.Size()
	switch {
	case !(start >= 0 && finish >= 0 && rise > geom.Touch && rise <= half+geom.Same):
		return board.Cut{}, &Fault{Kind: NoArch, Has: rise, Want: 2 * half, Side: edge}
	case rise >= w-geom.Same:
		return board.Cut{}, &Fault{Kind: TooDeep, Has: rise, Want: w, Side: edge}
	}
	r := (float64(half*half) + float64(rise*rise)) / (2 * rise)
	reach := steady.Asin(math.Min(1, half/r))
	arc := board.Arc{Centre: geom.Vec{X: (from + to) / 2, Y: rise - r}, Radius: r, From: math.Pi/2 - reach, To: math.Pi/2 + reach}
	cut := board.Cut{Kind: board.Arch, Name: name, Side: edge, Depth: rise,
		Low: geom.Vec{X: from}, High: geom.Vec{X: to, Y: rise, Z: b.Thick.Size()}}
	if edge == board.Far {
		arc.Centre.Y, arc.From, arc.To = w-arc.Centre.Y, -arc.To, -arc.From
		cut.Low.Y, cut.High.Y = w-rise, w
	}
	cut.Arcs, cut.Waste = []board.Arc{arc}, arc.Chords()
	return cut, nil
}
