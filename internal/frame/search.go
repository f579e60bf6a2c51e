package frame

import (
	"context"
	"math"
	"slices"
)

// The one-sided links make the energy of the frame a convex function in pieces
// of parabolas. Its least point is the answer, and is found by Newton steps, each
// cut to its own least point along the step, which is exact: the slope along a
// line is a broken line. A step that goes down for ever is a mechanism.

const (
	steps  = 200  // Newton steps for one case; a dozen are usual
	turns  = 8    // times friction is let go or taken up again
	soft   = 1e-6 // share of its stiffness a link that does not act keeps while stepping, so that each step has an answer
	gone   = 2000 // mm: moved so far that nothing holds it
	widest = 48   // states that differ from the factored one in more links are factored anew
)

// Rest makes the state that carries a case, the piece's own weight say, the one
// later cases are reckoned from: they then differ from it in few links. It
// changes no answer.
func (s *Solver) Rest(ctx context.Context, c Case) {
	r := s.Solve(ctx, c)
	if !r.Settled || r.Mechanism != nil {
		return
	}
	share := make([]float64, len(s.m.Links))
	for i, on := range s.acting(r.Moved, nil) {
		share[i] = soft
		if on {
			share[i] = 1
		}
	}
	s.refactor(share)
	s.from = r.Moved
}

// Solve answers one case.
func (s *Solver) Solve(ctx context.Context, c Case) Result {
	if s.f == nil {
		return Result{Settled: true, Mechanism: s.mech}
	}
	m := s.m
	f, spreads := m.right(c)
	var idle []bool // followers let go
	u := slices.Clone(s.from)
	for turn := range turns {
		acts, way, ok := s.least(ctx, f, u, idle)
		switch {
		case way != nil:
			return Result{Settled: true, Mechanism: mechanism(way)}
		case !ok:
			return Result{}
		}
		again := make([]bool, len(m.Links))
		for i, l := range m.Links {
			if l.Follows > 0 {
				again[i] = !acts[l.Follows-1] || turn > turns/2 && idle[i]
			}
		}
		if idle != nil && slices.Equal(again, idle) || !slices.Contains(again, true) && idle == nil {
			return s.exact(f, acts, spreads)
		}
		idle = again
	}
	return Result{}
}

// acting returns which links act under movements u: one-sided ones by the sign of
// their stretch, followers unless they are idle or, with idle nil, always.
func (s *Solver) acting(u []float64, idle []bool) []bool {
	acts := make([]bool, len(s.ends))
	for i := range s.ends {
		switch s.m.Links[i].Acts {
		case Push:
			acts[i] = s.ends[i].stretch(u) <= 0
		case Pull:
			acts[i] = s.ends[i].stretch(u) >= 0
		default:
			acts[i] = idle == nil || !idle[i]
		}
	}
	return acts
}

// least moves u to the least energy under right side f and returns the links that
// act there, or the way it moves for ever.
func (s *Solver) least(ctx context.Context, f, u []float64, idle []bool) (acts []bool, way []float64, ok bool) {
	fallen := 0.0
	for range steps {
		if ctx.Err() != nil {
			return nil, nil, false
		}
		acts = s.acting(u, idle)
		d, solved := s.solve(s.unbalanced(f, u, acts), acts, soft)
		if !solved {
			return nil, nil, false
		}
		if biggest(d) <= 1e-6*biggest(u) {
			return acts, nil, true // what is left is rounding; exact does the rest
		}
		t, falls, bounded := s.along(f, u, d, idle)
		if !bounded {
			return nil, d, true
		}
		if fallen += falls; falls <= 1e-13*fallen {
			return acts, nil, true // as low as can be told
		}
		for i := range u {
			u[i] += float64(t * d[i])
		}
		if biggest(u) > gone {
			return nil, u, true
		}
	}
	return nil, nil, false
}

// unbalanced returns what the links that act and the beams leave of the loads.
func (s *Solver) unbalanced(f, u []float64, acts []bool) []float64 {
	m := s.m
	rest := s.always.times(u)
	for i := range rest {
		rest[i] = f[i] - rest[i]
	}
	for i, l := range m.Links {
		if acts[i] && (l.Acts != Both || l.Follows > 0) {
			s.ends[i].push(-float64(l.K*s.ends[i].stretch(u)), rest)
		}
	}
	for i, n := range m.Nodes {
		for r, held := range n.Held {
			if held {
				rest[i*6+r] = 0
			}
		}
	}
	return rest
}

// along returns how many times d from u the energy is least and about how far it
// falls to there; false when it falls for ever.
func (s *Solver) along(f, u, d []float64, idle []bool) (t, falls float64, bounded bool) {
	m := s.m
	at, way := s.always.times(u), s.always.times(d)
	slope, curve, noise := 0.0, 0.0, 0.0
	for i := range d {
		slope += float64(d[i] * (at[i] - f[i]))
		c := float64(d[i] * way[i])
		curve += c
		noise += math.Abs(c)
	}
	// Curvature that is only what rounding left of larger numbers holds nothing.
	noise *= 1e-13
	type turn struct{ t, by float64 } // where a link comes in or out, and what it does to the curvature
	var turns []turn
	for i, l := range m.Links {
		if l.Acts == Both && l.Follows == 0 {
			continue
		}
		e, de := s.ends[i].stretch(u), s.ends[i].stretch(d)
		k := float64(l.K * de * de)
		if l.Acts == Both {
			if idle == nil || !idle[i] {
				slope += float64(l.K * e * de)
				curve += k
			}
			continue
		}
		on := (l.Acts == Push) == (e < 0)
		if e == 0 {
			on = (l.Acts == Push) == (de < 0)
		}
		if on {
			slope += float64(l.K * e * de)
			curve += k
		}
		if e != 0 && de != 0 && (e < 0) != (de < 0) {
			by := k
			if on {
				by = -k
			}
			turns = append(turns, turn{-e / de, by})
		}
	}
	slices.SortStableFunc(turns, func(a, b turn) int {
		switch {
		case a.t < b.t:
			return -1
		case a.t > b.t:
			return 1
		}
		return 0
	})
	from, first := 0.0, math.Min(slope, 0)
	for _, q := range append(turns, turn{t: math.Inf(1)}) {
		if curve > noise {
			if stop := from - slope/curve; stop <= q.t {
				stop = math.Max(stop, 0)
				return stop, float64(-first * stop / 2), true
			}
		}
		if math.IsInf(q.t, 1) {
			break
		}
		slope += float64(curve * (q.t - from))
		from, curve = q.t, curve+q.by
	}
	return 0, 0, false
}

// solve returns the movements under right side f when links that do not act keep
// a share of their stiffness; false when there are none.
func (s *Solver) solve(f []float64, acts []bool, idle float64) ([]float64, bool) {
	want := func(i int) float64 {
		if acts[i] {
			return 1
		}
		return idle
	}
	var differ []int
	for i := range acts {
		if !s.m.plain(i) && want(i) != s.base[i] {
			differ = append(differ, i)
		}
	}
	if len(differ) > widest {
		return s.anew(f, want, idle == soft)
	}
	u := slices.Clone(f)
	s.f.solve(u)
	if len(differ) == 0 {
		return u, true
	}
	// K = K₀ + Σ δk·b·bᵀ: with Z = K₀⁻¹B, u = u₀ − Z(C⁻¹ + BᵀZ)⁻¹Bᵀu₀, C = diag(δk)
	// (Sherman, Morrison and Woodbury).
	n := len(differ)
	a := make([][]float64, n)
	for i, l := range differ {
		end := &s.ends[l]
		a[i] = make([]float64, n+1)
		for j, other := range differ {
			a[i][j] = end.stretch(s.parted(other))
		}
		a[i][i] += 1 / (s.m.Links[l].K * (want(l) - s.base[l]))
		a[i][n] = end.stretch(u)
	}
	q, ok := eliminate(a)
	if !ok {
		return s.anew(f, want, idle == soft)
	}
	for i, l := range differ {
		z := s.parted(l)
		for k := range u {
			u[k] -= float64(z[k] * q[i])
		}
	}
	return u, true
}

// anew is solve by a factor of its own, which becomes the base state if keep.
func (s *Solver) anew(f []float64, want func(link int) float64, keep bool) ([]float64, bool) {
	share := make([]float64, len(s.m.Links))
	for i := range share {
		share[i] = want(i)
	}
	other := s.sibling(share)
	if other.f == nil {
		return nil, false
	}
	if keep {
		s.base, s.f, s.unit = other.base, other.f, other.unit
	}
	u := slices.Clone(f)
	other.f.solve(u)
	return u, true
}

// parted returns what a force of 1 parting the ends of a link does to the base
// state.
func (s *Solver) parted(link int) []float64 {
	z := s.unit[link]
	if z == nil {
		z = make([]float64, len(s.m.Nodes)*6)
		s.ends[link].push(1, z)
		s.f.solve(z)
		s.unit[link] = z
	}
	return z
}

// exact answers a case whose acting links are known, without any share of the
// others, and mends what rounding spoilt once.
func (s *Solver) exact(f []float64, acts []bool, spreads map[int][12]float64) Result {
	u, ok := s.solve(f, acts, 0)
	if ok {
		var more []float64
		if more, ok = s.solve(s.unbalanced(f, u, acts), acts, 0); ok {
			ok = biggest(more) <= 1e-6*biggest(u)
			for i := range u {
				u[i] += more[i]
			}
		}
	}
	if !ok {
		share := make([]float64, len(acts))
		for i, on := range acts {
			if on {
				share[i] = 1
			}
		}
		other := s.sibling(share)
		if other.f == nil {
			return Result{Settled: true, Mechanism: other.mech}
		}
		u = slices.Clone(f)
		other.f.solve(u)
	}
	r := s.answer(u, acts, spreads)
	r.Settled = s.agrees(u, acts, r)
	return r
}

// agrees reports whether every one-sided link's stretch goes with whether it
// acts, to a billionth of the greatest force.
func (s *Solver) agrees(u []float64, acts []bool, r Result) bool {
	most := 0.0
	for _, f := range r.Force {
		most = math.Max(most, math.Abs(f))
	}
	for i, l := range s.m.Links {
		e := s.ends[i].stretch(u)
		if l.Acts == Both || math.Abs(float64(l.K*e)) <= 1e-9*most {
			continue
		}
		if (l.Acts == Push) == (e < 0) != acts[i] {
			return false
		}
	}
	return true
}

func biggest(x []float64) float64 {
	most := 0.0
	for _, v := range x {
		most = math.Max(most, math.Abs(v))
	}
	return most
}
