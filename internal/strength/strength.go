// Package strength answers whether a piece holds: it makes a frame of the boards
// themselves, loads it as people will, and holds what every board and every
// fastener then carries against the design rules.
//
// Start at Check. Nobody models anything: boards become beams along their grain,
// with the sections the saw leaves of them; where two meet, their wood bears on
// one another and only pushes; fasteners are springs; feet stand on ground that
// can let go. Package frame solves it, package timber says what wood and
// fasteners may carry.
//
// What no published value covers is "cannot tell", and so is a verdict that
// changes when a stiffness nobody has published is halved or doubled. This is a
// design aid with its assumptions listed, not a licensed engineer's judgement;
// local codes rule.
package strength

import (
	"context"
	"math"
	"slices"

	"scantling/internal/design"
	"scantling/internal/frame"
	"scantling/internal/geom"
	"scantling/internal/joint"
	"scantling/internal/timber"
)

// A Verdict is what can be said of a use.
type Verdict uint8

const (
	Holds Verdict = iota
	Fails
	CannotTell
)

// String returns the verdict as data files say it.
func (v Verdict) String() string { return [...]string{"holds", "fails", "cannot tell"}[v] }

// A Member is the hardest-worked place of one board.
type Member struct {
	Board   *design.Board
	Use     float64 // demand over capacity; NaN when the wood has no published values
	Case    int     // in Result.Cases
	At      geom.Vec
	Demand  timber.Demand
	Limits  *timber.Limits // nil when there are none
	Grade   string         // the grade its values are of
	Assumed bool           // the file gives no grade
	Verdict Verdict
	Why     string // of CannotTell
}

// A Fastening is the hardest-worked fastener of one joint.
type Fastening struct {
	Joint       *joint.Joint
	Pair        *joint.Pair
	What        string // the fastener
	At          geom.Vec
	Use         float64
	Case        int
	Shear, Pull float64 // N on the fastener
	Holds       Capacity
	Verdict     Verdict
	Why         string // of CannotTell
}

// A Result is what the frame says of a piece.
type Result struct {
	Weight    float64 // N
	Cases     []Case
	Outcomes  []Outcome   // beside Cases
	Members   []Member    // hardest-worked first
	Joints    []Fastening // hardest-worked first
	Sway      [2]Sway     // to the side, front to back
	Mechanism *Loose      // not nil: something moves freely, and nothing else was worked out
}

// An Outcome is what came of one case.
type Outcome struct {
	Settled bool
	Tips    bool    // the piece tips under it; what follows is with its feet held down
	Loose   *Loose  // not nil: the load moves something without resistance
	Moved   float64 // mm, of the place loaded
}

// Loose is a board that nothing holds in one direction.
type Loose struct {
	Board *design.Board
	Way   geom.Vec // unit
	Case  int
}

// LeastMargin returns capacity over demand where it is least, of what has a
// verdict; +Inf when nothing has.
func (r *Result) LeastMargin() float64 {
	worst := 0.0
	for _, m := range r.Members {
		if m.Verdict != CannotTell {
			worst = math.Max(worst, m.Use)
		}
	}
	for _, j := range r.Joints {
		if j.Verdict != CannotTell {
			worst = math.Max(worst, j.Use)
		}
	}
	return 1 / worst
}

// Check works a piece through all its load cases.
func Check(ctx context.Context, p *design.Piece, m *joint.Meetings, joints []joint.Joint) (*Result, error) {
	r, err := solve(ctx, p, m, joints, 1, nil)
	if err != nil || r.Mechanism != nil {
		return r, err
	}
	return r, r.doubt(ctx, p, m, joints)
}

// solve runs the cases, all of them when only is nil, with stiffnesses no
// standard gives scaled by soft.
func solve(ctx context.Context, p *design.Piece, meetings *joint.Meetings, joints []joint.Joint, soft float64, only []int) (*Result, error) {
	m := build(p, meetings, joints, soft)
	r := &Result{Weight: m.weight, Cases: m.cases()}
	r.Outcomes = make([]Outcome, len(r.Cases))
	s, held := frame.New(&m.m), frame.New(m.heldDown())
	s.Rest(ctx, r.Cases[0].Case)
	held.Rest(ctx, r.Cases[0].Case)
	judge := newJudge(m, r)
	for i := range r.Cases {
		if only != nil && !slices.Contains(only, i) {
			continue
		}
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		c := &r.Cases[i]
		solver := s
		if c.Sways {
			solver = held
		}
		got := solver.Solve(ctx, c.Case)
		o := &r.Outcomes[i]
		if got.Mechanism != nil && solver == s && i > 0 {
			if again := held.Solve(ctx, c.Case); again.Mechanism == nil {
				o.Tips, got = true, again
			}
		}
		o.Settled = got.Settled
		switch {
		case got.Mechanism != nil:
			o.Loose = m.loose(got.Mechanism, i)
			if i == 0 {
				r.Mechanism = o.Loose
				return r, nil
			}
		case got.Settled:
			if c.Board != "" {
				l := c.Loads[len(c.Loads)-1]
				o.Moved = math.Abs(geom.Vec{X: got.Moved[l.Node*6], Y: got.Moved[l.Node*6+1], Z: got.Moved[l.Node*6+2]}.Dot(c.Way))
			}
			judge.look(i, got)
		}
	}
	judge.finish()
	r.sway(m)
	return r, nil
}

// heldDown returns the frame with its feet kept on the ground, as a test of sway
// keeps them: whether it would tip is another question.
func (m *model) heldDown() *frame.Model {
	f := m.m
	f.Links = slices.Clone(f.Links)
	for _, i := range m.ground {
		f.Links[i].Acts = frame.Both
	}
	return &f
}

// loose says which board a mechanism moves most.
func (m *model) loose(q *frame.Mechanism, c int) *Loose {
	node, way := q.Most()
	for i := range m.members {
		b := &m.members[i]
		if node >= b.node && node < b.node+len(b.at) {
			return &Loose{Board: b.b, Way: way.Unit(), Case: c}
		}
	}
	return nil
}

// doubt turns verdicts that change when the unpublished stiffnesses are halved or
// doubled into "cannot tell". Only the cases that govern something are run again.
func (r *Result) doubt(ctx context.Context, p *design.Piece, m *joint.Meetings, joints []joint.Joint) error {
	var only []int
	for _, x := range r.Members {
		if x.Use > 0.6 && x.Use < 1.7 && !slices.Contains(only, x.Case) {
			only = append(only, x.Case)
		}
	}
	for _, x := range r.Joints {
		if x.Use > 0.6 && x.Use < 1.7 && !slices.Contains(only, x.Case) {
			only = append(only, x.Case)
		}
	}
	if only == nil {
		return nil
	}
	const why = "the verdict changes when stiffnesses that no standard gives are halved or doubled"
	for _, soft := range []float64{0.5, 2} {
		other, err := solve(ctx, p, m, joints, soft, only)
		if err != nil {
			return err
		}
		for i := range r.Members {
			x := &r.Members[i]
			for _, y := range other.Members {
				if y.Board == x.Board && x.Verdict != CannotTell && y.Verdict != CannotTell && (y.Use > 1) != (x.Use > 1) && slices.Contains(only, x.Case) {
					x.Verdict, x.Why = CannotTell, why
				}
			}
		}
		for i := range r.Joints {
			x := &r.Joints[i]
			for _, y := range other.Joints {
				if y.Joint.Name == x.Joint.Name && x.Verdict != CannotTell && y.Verdict != CannotTell && (y.Use > 1) != (x.Use > 1) && slices.Contains(only, x.Case) {
					x.Verdict, x.Why = CannotTell, why
				}
			}
		}
	}
	return nil
}
