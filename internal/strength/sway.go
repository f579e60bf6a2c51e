package strength

import "math"

// A Sway is how far the top of a piece goes when pushed one way.
type Sway struct {
	Newton, Height float64 // the push, and how high above the floor, mm
	Moved          float64 // mm
	Racks          bool    // farther than one in stiffEnough of its height, or without end
	Tells          bool    // whether the piece was pushed at all
}

// stiffEnough is the part of its height a piece may sway before it is said to
// rack. Source: assumed; twice what a bookcase's sway is felt at.
const stiffEnough = 60

// sway reads the two pushes off the cases.
func (r *Result) sway(m *model) {
	for i, c := range r.Cases {
		if !c.Sways {
			continue
		}
		axis := 0
		if math.Abs(c.Way.Y) > 0.5 {
			axis = 1
		}
		s := &r.Sway[axis]
		s.Tells, s.Newton, s.Height = true, c.Newton, c.At.Z
		switch o := r.Outcomes[i]; {
		case o.Loose != nil:
			s.Racks = true
		case o.Settled:
			s.Moved = math.Max(s.Moved, o.Moved)
		}
	}
	for i := range r.Sway {
		s := &r.Sway[i]
		s.Racks = s.Racks || s.Moved > s.Height/stiffEnough
	}
}
