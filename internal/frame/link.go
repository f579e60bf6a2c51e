package frame

import "scantling/internal/geom"

// An arm is what one end of a link does to its node: the stretch of the link is
// the sum of the node's six movements times these.
type arm struct {
	node int
	by   [6]float64
}

// arms returns the ends of a link that are not on the ground.
func (m *Model) arms(l Link) (out [2]arm, n int) {
	for _, e := range [2]struct {
		node int
		sign float64
	}{{l.A, -1}, {l.B, 1}} {
		if e.node == Ground {
			continue
		}
		way := l.Way.Times(e.sign)
		turn := l.At.Minus(m.Nodes[e.node].At).Cross(way)
		out[n] = arm{e.node, [6]float64{way.X, way.Y, way.Z, turn.X, turn.Y, turn.Z}}
		n++
	}
	return out, n
}

// stretch returns how far the ends of a link part under movements u.
func (m *Model) stretch(l Link, u []float64) float64 {
	ends, n := m.arms(l)
	e := 0.0
	for _, a := range ends[:n] {
		for i, b := range a.by {
			e += float64(b * u[a.node*6+i])
		}
	}
	return e
}

// push adds force times the link's arms to the right side f: a force of 1 parts
// the ends.
func (m *Model) push(l Link, force float64, f []float64) {
	ends, n := m.arms(l)
	for _, a := range ends[:n] {
		for i, b := range a.by {
			if !m.Nodes[a.node].Held[i] {
				f[a.node*6+i] += float64(force * b)
			}
		}
	}
}

// load adds a load to the right side.
func (m *Model) load(l Load, f []float64) {
	turn := l.At.Minus(m.Nodes[l.Node].At).Cross(l.Force).Plus(l.Moment)
	for i, v := range [6]float64{l.Force.X, l.Force.Y, l.Force.Z, turn.X, turn.Y, turn.Z} {
		f[l.Node*6+i] += v
	}
}

// Balance returns what is left over, force in N and moment about the origin in
// N·mm, when all loads, link forces from the ground and forces of held nodes of a
// result are added up: zero but for rounding.
func (m *Model) Balance(c Case, r Result) (force, moment geom.Vec) {
	add := func(at, f geom.Vec) {
		force, moment = force.Plus(f), moment.Plus(at.Cross(f))
	}
	for _, l := range c.Loads {
		add(l.At, l.Force)
		moment = moment.Plus(l.Moment)
	}
	for _, s := range c.Spread {
		b := m.Beams[s.Beam]
		length, _ := m.span(b)
		middle := m.Nodes[b.From].At.Plus(m.Nodes[b.To].At).Times(0.5)
		add(middle, s.PerMM.Times(length))
	}
	for i, l := range m.Links {
		switch {
		case l.A == Ground:
			add(l.At, l.Way.Times(-r.Force[i]))
		case l.B == Ground:
			add(l.At, l.Way.Times(r.Force[i]))
		}
	}
	for i, n := range m.Nodes {
		if n.Held != ([6]bool{}) {
			f, t := m.Reaction(c, r, i)
			add(n.At, f)
			moment = moment.Plus(t)
		}
	}
	return force, moment
}

// Reaction returns the force, N, and moment, N·mm, with which the support of a
// node acts on the frame, in the ways it is held.
func (m *Model) Reaction(c Case, r Result, node int) (force, moment geom.Vec) {
	var f [6]float64
	for i, b := range m.Beams {
		if b.From != node && b.To != node {
			continue
		}
		_, a := m.span(b)
		g := turned([12]float64(r.Ends[i]), a.out)
		at := 0
		if b.To == node {
			at = 6
		}
		for k := range 6 {
			f[k] += g[at+k]
		}
	}
	sum := make([]float64, len(m.Nodes)*6)
	for i, l := range m.Links {
		if l.A == node || l.B == node {
			ends, n := m.arms(l)
			for _, e := range ends[:n] {
				for k := range 6 {
					sum[e.node*6+k] += float64(e.by[k] * r.Force[i])
				}
			}
		}
	}
	for _, l := range c.Loads {
		if l.Node == node {
			one := make([]float64, len(sum))
			m.load(l, one)
			for k := range 6 {
				sum[node*6+k] -= one[node*6+k]
			}
		}
	}
	for k := range 6 {
		f[k] += sum[node*6+k]
		if !m.Nodes[node].Held[k] {
			f[k] = 0
		}
	}
	return geom.Vec{X: f[0], Y: f[1], Z: f[2]}, geom.Vec{X: f[3], Y: f[4], Z: f[5]}
}
