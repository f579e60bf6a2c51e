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
//
// The steps are taken among the links alone. A state that differs from the
// factored one in links D gives movements
//
//	u = u₀ − Σ zⱼqⱼ,  qᵢ = δkᵢ·eᵢ,  eᵢ = e₀ᵢ − Σ Fᵢⱼqⱼ   (i, j in D)
//
// with u₀ the factored frame under the load, zⱼ what a unit force parting link j
// does to it, F the stretches under z (Sherman, Morrison and Woodbury). The z are
// kept from case to case, so that a case costs one substitution and a small
// system.

const (
	steps  = 200  // Newton steps for one case; a dozen are usual
	turns  = 8    // times friction is let go or taken up again
	soft   = 1e-6 // share of its stiffness a link that does not act keeps while stepping, so that each step has an answer
	gone   = 2000 // mm: moved so far that nothing holds it
	widest = 16   // states that differ from the factored one in more links are factored anew
)

// Rest makes the state that carries a case, the piece's own weight say, the one
// later cases are reckoned from: they then differ from it in few links. It
// changes no answer.
func (s *Solver) Rest(ctx context.Context, c Case) {
	r := s.Solve(ctx, c)
	if !r.Settled || r.Mechanism != nil {
		return
	}
	acts := make([]bool, len(s.m.Links))
	for i := range acts {
		acts[i] = true
	}
	for _, i := range s.varying {
		acts[i] = s.m.acts(i, s.ends[i].stretch(r.Moved), nil)
	}
	s.rebase(acts)
}

// rebase makes a state of the links the factored one: exactly, or where that
// leaves something loose with a trace of the idle ones.
func (s *Solver) rebase(acts []bool) {
	for _, idle := range []float64{0, soft} {
		share := make([]float64, len(acts))
		for i, on := range acts {
			if share[i] = idle; on {
				share[i] = 1
			}
		}
		if s.refactor(share); s.f != nil {
			return
		}
	}
}

// acts reports whether a link with that stretch acts; followers do unless they
// are idle.
func (m *Model) acts(i int, stretch float64, idle []bool) bool {
	switch m.Links[i].Acts {
	case Push:
		return stretch <= 0
	case Pull:
		return stretch >= 0
	}
	return idle == nil || !idle[i]
}

// Solve answers one case.
func (s *Solver) Solve(ctx context.Context, c Case) Result {
	if s.f == nil {
		return Result{Settled: true, Mechanism: s.mech}
	}
	m := s.m
	f, spreads := m.right(c)
	var idle []bool // followers let go
	for turn := range turns {
		acts, way, ok := s.least(ctx, f, idle)
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

// A walk is the search of one case: the forces q by which the state differs from
// the factored one, and the stretches they leave, both beside Solver.varying.
type walk struct {
	s    *Solver
	idle []bool
	e0   []float64 // stretches of the factored state
	q, e []float64
}

// least finds which links act where the energy under right side f is least, or
// the way the frame moves for ever.
func (s *Solver) least(ctx context.Context, f []float64, idle []bool) (acts []bool, way []float64, ok bool) {
	for range 12 {
		u := slices.Clone(f)
		s.f.solve(u)
		w := walk{s: s, idle: idle, e0: s.stretches(u), q: make([]float64, len(s.varying))}
		w.e = slices.Clone(w.e0)
		switch w.run(ctx) {
		case found:
			return w.state(), nil, true
		case fallen:
			return nil, w.movement(nil), true
		case lost:
			return nil, nil, false
		}
		// Too far from the factored state: make this one the factored state.
		if s.rebase(w.state()); s.f == nil {
			return nil, s.mech.Moved, true
		}
	}
	return nil, nil, false
}

// How a walk ended.
type outcome uint8

const (
	found  outcome = iota
	fallen         // no lowest point: the walk's q is the way down
	far            // too many links differ from the factored state
	lost           // cannot tell
)

// run walks to the least energy.
func (w *walk) run(ctx context.Context) outcome {
	down := 0.0
	for range steps {
		if ctx.Err() != nil {
			return lost
		}
		dq, how := w.newton()
		if how != found {
			return how
		}
		de := w.s.parted(dq)
		if biggest(de) <= 1e-6*math.Max(biggest(w.e), biggest(w.e0)) {
			return found // what is left is rounding; exact does the rest
		}
		t, falls, bounded := w.along(dq, de)
		if !bounded {
			w.q = dq
			return fallen
		}
		for i := range w.q {
			w.q[i] += float64(t * dq[i])
			w.e[i] += float64(t * de[i])
		}
		if biggest(w.e) > gone {
			return fallen
		}
		if down += falls; falls <= 1e-13*down {
			return found // as low as can be told
		}
	}
	return lost
}

// on reports whether the k-th varying link acts now.
func (w *walk) on(k int) bool { return w.s.m.acts(w.s.varying[k], w.e[k], w.idle) }

// extra returns how much stiffer than in the factored state the k-th varying link
// is, N/mm.
func (w *walk) extra(k int, on bool) float64 {
	i := w.s.varying[k]
	share := math.Min(soft, w.s.base[i])
	if on {
		share = 1
	}
	return w.s.m.Links[i].K * (share - w.s.base[i])
}

// state returns which of all links act.
func (w *walk) state() []bool {
	acts := make([]bool, len(w.s.m.Links))
	for i := range acts {
		acts[i] = true
	}
	for k, i := range w.s.varying {
		acts[i] = w.on(k)
	}
	return acts
}

// newton returns the step to the answer of the links that act now.
func (w *walk) newton() (dq []float64, how outcome) {
	extra := make([]float64, len(w.q))
	var differ []int
	for k := range w.q {
		if extra[k] = w.extra(k, w.on(k)); extra[k] != 0 {
			differ = append(differ, k)
		}
	}
	if len(differ) > widest {
		return nil, far
	}
	q, ok := w.s.differing(differ, extra, w.e0)
	if !ok {
		return nil, far
	}
	dq = make([]float64, len(w.q))
	for k := range dq {
		dq[k] = -w.q[k]
	}
	for n, k := range differ {
		dq[k] += q[n]
	}
	return dq, found
}

// differing solves for the forces q of the links by which a state differs from
// the factored one, stiffer by extra, from the stretches e0 without them.
func (s *Solver) differing(differ []int, extra, e0 []float64) ([]float64, bool) {
	n := len(differ)
	a := make([][]float64, n)
	room := make([]float64, n*(n+1))
	for i, k := range differ {
		a[i], room = room[:n+1:n+1], room[n+1:]
		for j, other := range differ {
			a[i][j] = s.unit(other).e[k]
		}
		a[i][i] += 1 / extra[k]
		a[i][n] = e0[k]
	}
	return eliminate(a)
}

// along returns how many times the step the energy is least and about how far it
// falls to there; false when it falls for ever.
func (w *walk) along(dq, de []float64) (t, falls float64, bounded bool) {
	m := w.s.m
	// With g the slope of the energy, g·d = Σ de·(δk·e − q) and d·K₀d = −Σ dq·de.
	slope, curve, noise := 0.0, 0.0, 0.0
	type turn struct{ t, by float64 } // where a link comes in or out, and what it does to the curvature
	var bends []turn
	for k, i := range w.s.varying {
		c := -float64(dq[k] * de[k])
		curve += c
		noise += math.Abs(c)
		on := w.on(k)
		if w.e[k] == 0 && m.Links[i].Acts != Both {
			on = m.acts(i, de[k], w.idle)
		}
		share := 0.0
		if on {
			share = 1
		}
		k0 := m.Links[i].K
		extra := float64(k0 * (share - w.s.base[i]))
		slope += float64(de[k] * (float64(extra*w.e[k]) - w.q[k]))
		c = float64(extra * de[k] * de[k])
		curve += c
		noise += math.Abs(c)
		if e, d := w.e[k], de[k]; m.Links[i].Acts != Both && e != 0 && d != 0 && (e < 0) != (d < 0) {
			by := float64(k0 * d * d)
			if on {
				by = -by
			}
			bends = append(bends, turn{-e / d, by})
		}
	}
	// Curvature that is only what rounding left of larger numbers holds nothing.
	noise *= 1e-13
	slices.SortStableFunc(bends, func(a, b turn) int {
		switch {
		case a.t < b.t:
			return -1
		case a.t > b.t:
			return 1
		}
		return 0
	})
	from, first := 0.0, math.Min(slope, 0)
	for _, b := range append(bends, turn{t: math.Inf(1)}) {
		if curve > noise {
			if stop := from - slope/curve; stop <= b.t {
				stop = math.Max(stop, 0)
				return stop, float64(-first * stop / 2), true
			}
		}
		if math.IsInf(b.t, 1) {
			break
		}
		slope += float64(curve * (b.t - from))
		from, curve = b.t, curve+b.by
	}
	return 0, 0, false
}

// movement returns the movements of the walk's forces, on top of those given.
func (w *walk) movement(u []float64) []float64 {
	if u == nil {
		u = make([]float64, len(w.s.m.Nodes)*6)
	}
	for k, q := range w.q {
		if q != 0 {
			z := w.s.unit(k).z
			for i := range u {
				u[i] -= float64(z[i] * q)
			}
		}
	}
	return u
}

// A pulled link: what a force of 1 parting its ends does to the factored frame,
// to its nodes and to the varying links.
type pulled struct{ z, e []float64 }

// unit returns the k-th varying link pulled.
func (s *Solver) unit(k int) *pulled {
	p := s.units[k]
	if p == nil {
		p = &pulled{z: make([]float64, len(s.m.Nodes)*6)}
		s.ends[s.varying[k]].push(1, p.z)
		s.f.solve(p.z)
		p.e = s.stretches(p.z)
		s.units[k] = p
	}
	return p
}

// stretches returns those of the varying links under movements u.
func (s *Solver) stretches(u []float64) []float64 {
	e := make([]float64, len(s.varying))
	for k, i := range s.varying {
		e[k] = s.ends[i].stretch(u)
	}
	return e
}

// parted returns the stretches forces q take away.
func (s *Solver) parted(q []float64) []float64 {
	e := make([]float64, len(q))
	for k, v := range q {
		if v == 0 {
			continue
		}
		for i, x := range s.unit(k).e {
			e[i] -= float64(x * v)
		}
	}
	return e
}

// exact answers a case whose acting links are known, without any share of the
// others, and mends what rounding spoilt once.
func (s *Solver) exact(f []float64, acts []bool, spreads map[int][12]float64) Result {
	u, ok := s.known(f, acts)
	if ok {
		rest := s.unbalanced(f, u, acts)
		if biggest(rest) > 1e-11*biggest(f) {
			var more []float64
			if more, ok = s.known(rest, acts); ok {
				ok = biggest(more) <= 1e-6*biggest(u)
				for i := range u {
					u[i] += more[i]
				}
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

// known returns the movements under right side f with just the links that act;
// false when they leave something loose.
func (s *Solver) known(f []float64, acts []bool) ([]float64, bool) {
	u := slices.Clone(f)
	s.f.solve(u)
	extra := make([]float64, len(s.varying))
	var differ []int
	for k, i := range s.varying {
		share := 0.0
		if acts[i] {
			share = 1
		}
		if extra[k] = s.m.Links[i].K * (share - s.base[i]); extra[k] != 0 {
			differ = append(differ, k)
		}
	}
	if len(differ) == 0 {
		return u, true
	}
	// Links that merely lose their last millionth are many and change nothing that
	// can be seen; past what is worth a system of its own, a factor is cheaper.
	if len(differ) > widest {
		return nil, false
	}
	q, ok := s.differing(differ, extra, s.stretches(u))
	if !ok {
		return nil, false
	}
	w := walk{s: s, q: make([]float64, len(s.varying))}
	for n, k := range differ {
		w.q[k] = q[n]
	}
	return w.movement(u), true
}

// unbalanced returns what the links that act and the beams leave of the loads.
func (s *Solver) unbalanced(f, u []float64, acts []bool) []float64 {
	rest := s.always.times(u)
	for i := range rest {
		rest[i] = f[i] - rest[i]
	}
	for _, i := range s.varying {
		if acts[i] {
			s.ends[i].push(-float64(s.m.Links[i].K*s.ends[i].stretch(u)), rest)
		}
	}
	for i, n := range s.m.Nodes {
		for r, held := range n.Held {
			if held {
				rest[i*6+r] = 0
			}
		}
	}
	return rest
}

// agrees reports whether every one-sided link's stretch goes with whether it
// acts, to a billionth of the greatest force.
func (s *Solver) agrees(u []float64, acts []bool, r Result) bool {
	most := 0.0
	for _, f := range r.Force {
		most = math.Max(most, math.Abs(f))
	}
	for _, i := range s.varying {
		l, e := s.m.Links[i], s.ends[i].stretch(u)
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
