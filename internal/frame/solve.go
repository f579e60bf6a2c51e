package frame

import (
	"math"

	"scantling/internal/geom"
)

// A Solver holds a model's factored stiffness.
type Solver struct {
	m       *Model
	ends    []lever    // of the links
	varying []int      // the links that do not act in every state
	always  *sparse    // what does: beams and plain links
	plan    *layout    // of the matrix with every link
	base    []float64  // what share of each link's stiffness the factor holds
	f       *factor    // nil when the base state is a mechanism
	mech    *Mechanism // then the way it moves
	units   []*pulled  // beside varying, as they were needed
}

// New factors the model with every link acting.
func New(m *Model) *Solver {
	s := &Solver{m: m, ends: m.levers(), always: m.beams()}
	for i := range m.Links {
		if m.plain(i) {
			s.stiffen(s.always, i, 1)
		} else {
			s.varying = append(s.varying, i)
		}
	}
	all := make([]float64, len(m.Links))
	for i := range all {
		all[i] = 1
	}
	s.plan = s.matrix(all).layout()
	s.refactor(all)
	return s
}

// plain reports whether a link acts in every state.
func (m *Model) plain(i int) bool { return m.Links[i].Acts == Both && m.Links[i].Follows == 0 }

// refactor makes a state the one others are reckoned from.
func (s *Solver) refactor(share []float64) {
	var gone *loose
	s.base, s.units, s.mech = share, make([]*pulled, len(s.varying)), nil
	s.f, gone = s.matrix(share).factorize(s.plan)
	if gone != nil {
		s.mech = mechanism(gone.mode)
	}
}

// sibling returns a solver of the same model in another state.
func (s *Solver) sibling(share []float64) *Solver {
	o := &Solver{m: s.m, ends: s.ends, varying: s.varying, always: s.always, plan: s.plan}
	o.refactor(share)
	return o
}

// matrix returns the stiffness with a share of each link that does not always act.
func (s *Solver) matrix(share []float64) *sparse {
	k := s.always.clone()
	for _, i := range s.varying {
		if share[i] != 0 {
			s.stiffen(k, i, share[i])
		}
	}
	return k
}

// stiffen adds a share of a link to a matrix.
func (s *Solver) stiffen(k *sparse, link int, share float64) {
	stiff, l := s.m.Links[link].K*share, &s.ends[link]
	for i := range l.n {
		for j := range l.n {
			p, q := &l.ends[i], &l.ends[j]
			if q.node > p.node {
				continue
			}
			b := k.at(int32(p.node), int32(q.node))
			for r := range 6 {
				by := float64(stiff * p.by[r])
				for c := range 6 {
					b[r*6+c] += float64(by * q.by[c])
				}
			}
		}
	}
}

func mechanism(mode []float64) *Mechanism {
	most := 0.0
	for i := 0; i < len(mode); i += 6 {
		most = math.Max(most, geom.Vec{X: mode[i], Y: mode[i+1], Z: mode[i+2]}.Length())
	}
	if most == 0 {
		most = 1 // a pure turning of nodes in place
	}
	moved := make([]float64, len(mode))
	for i, v := range mode {
		moved[i] = v / most
	}
	return &Mechanism{moved}
}

// beams assembles the stiffness of the beams. Held ways keep a 1 on the diagonal
// and nothing else.
func (m *Model) beams() *sparse {
	k := newSparse(len(m.Nodes))
	put := func(i, j int, b *block, turn bool) {
		at := k.at(int32(i), int32(j))
		for r := range 6 {
			for c := range 6 {
				v := b[r*6+c]
				if turn {
					v = b[c*6+r]
				}
				if !m.Nodes[i].Held[r] && !m.Nodes[j].Held[c] {
					at[r*6+c] += v
				}
			}
		}
	}
	for _, b := range m.Beams {
		ff, tf, tt := m.global(b)
		put(b.From, b.From, &ff, false)
		put(b.To, b.To, &tt, false)
		if b.To > b.From {
			put(b.To, b.From, &tf, false)
		} else {
			put(b.From, b.To, &tf, true)
		}
	}
	for i, n := range m.Nodes {
		for r, held := range n.Held {
			if held {
				k.diagonal[i][r*7] = 1
			}
		}
	}
	return k
}

// right returns the right side of a case and what its spread loads put on each
// beam's ends.
func (m *Model) right(c Case) (f []float64, ends map[int][12]float64) {
	f = make([]float64, len(m.Nodes)*6)
	for _, l := range c.Loads {
		m.load(l, f)
	}
	ends = map[int][12]float64{}
	for _, s := range c.Spread {
		b := m.Beams[s.Beam]
		length, a := m.span(b)
		q := spread(a.in(s.PerMM), length)
		sum := ends[s.Beam]
		for i := range q {
			sum[i] += q[i]
		}
		ends[s.Beam] = sum
		g := turned(q, a.out)
		for i := range 6 {
			f[b.From*6+i] += g[i]
			f[b.To*6+i] += g[6+i]
		}
	}
	for i, n := range m.Nodes {
		for r, held := range n.Held {
			if held {
				f[i*6+r] = 0
			}
		}
	}
	return f, ends
}

// eliminate solves the square system whose last column is its right side; false
// when it has no single solution to eight digits.
func eliminate(a [][]float64) ([]float64, bool) {
	n := len(a)
	scale := make([]float64, n)
	for i := range a {
		for _, v := range a[i][:n] {
			scale[i] = math.Max(scale[i], math.Abs(v))
		}
	}
	for c := range n {
		best := c
		for r := c + 1; r < n; r++ {
			if math.Abs(a[r][c])*scale[best] > math.Abs(a[best][c])*scale[r] {
				best = r
			}
		}
		a[c], a[best], scale[c], scale[best] = a[best], a[c], scale[best], scale[c]
		if !(math.Abs(a[c][c]) > 1e-8*scale[c]) {
			return nil, false
		}
		for r := c + 1; r < n; r++ {
			q := a[r][c] / a[c][c]
			for k := c; k <= n; k++ {
				a[r][k] -= float64(q * a[c][k])
			}
		}
	}
	x := make([]float64, n)
	for r := n - 1; r >= 0; r-- {
		v := a[r][n]
		for k := r + 1; k < n; k++ {
			v -= float64(a[r][k] * x[k])
		}
		x[r] = v / a[r][r]
	}
	return x, true
}

// answer turns movements into forces.
func (s *Solver) answer(u []float64, acts []bool, spreads map[int][12]float64) Result {
	m := s.m
	r := Result{Moved: u, Ends: make([]Ends, len(m.Beams)), Force: make([]float64, len(m.Links)), Settled: true}
	for i, l := range m.Links {
		if acts[i] {
			r.Force[i] = float64(l.K * s.ends[i].stretch(u))
			// What rounding leaves of a force the wrong way round is none.
			if l.Acts == Push && r.Force[i] > 0 || l.Acts == Pull && r.Force[i] < 0 {
				r.Force[i] = 0
			}
		}
	}
	for i, b := range m.Beams {
		length, a := m.span(b)
		var v [12]float64
		copy(v[:6], u[b.From*6:])
		copy(v[6:], u[b.To*6:b.To*6+6])
		v = turned(v, a.in)
		k := b.stiffness(length)
		load := spreads[i]
		for row := range 12 {
			sum := -load[row]
			for c := range 12 {
				sum += float64(k[row][c] * v[c])
			}
			r.Ends[i][row] = sum
		}
	}
	return r
}

// Inside returns what the cross-section of a beam feels, at atShare of its
// length from From: the pull along it, the shears along its web and across, the
// twist, and the moments about across and about the web, in a case with those
// spread loads.
func (m *Model) Inside(c Case, r Result, beam int, atShare float64) Inner {
	b, e := m.Beams[beam], r.Ends[beam]
	length, a := m.span(b)
	var q geom.Vec
	for _, s := range c.Spread {
		if s.Beam == beam {
			q = q.Plus(a.in(s.PerMM))
		}
	}
	x := float64(atShare * length)
	return Inner{
		Pull:   -e[0] - float64(q.X*x),
		Shear1: e[1] + float64(q.Y*x), Shear2: e[2] + float64(q.Z*x),
		Twist: -e[3],
		// Moments grow by shear times the way.
		Moment1: -e[5] + float64(e[1]*x) + float64(q.Y*x*x/2),
		Moment2: e[4] + float64(e[2]*x) + float64(q.Z*x*x/2),
	}
}

// Inner is what a cross-section feels, N and N·mm. Moment1 bends the beam along
// its web direction, Moment2 across.
type Inner struct{ Pull, Shear1, Shear2, Twist, Moment1, Moment2 float64 }
