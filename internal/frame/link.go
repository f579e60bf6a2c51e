package frame

import "scantling/internal/geom"

// An arm is what one end of a link does to its node: the stretch of the link is
// the sum of the node's six movements times these.
type arm struct {
	node int
	by   [6]float64
}

// arms returns the ends of a link that are not on the ground.
func (m *Model) arms(l Link) (out lever) {
	for _, e := range [2]struct {
		node int
		sign float64
	}{{l.A, -1}, {l.B, 1}} {
		if e.node == Ground {
			continue
		}
		way := l.Way.Times(e.sign)
		turn := l.At.Minus(m.Nodes[e.node].At).Cross(way)
		out.ends[out.n] = arm{e.node, [6]float64{way.X, way.Y, way.Z, turn.X, turn.Y, turn.Z}}
		out.n++
	}
	return out
}

// A lever is both ends of a link.
type lever struct {
	ends [2]arm
	n    int
}

// stretch returns how far the ends part under movements u.
func (l *lever) stretch(u []float64) float64 {
	e := 0.0
	for k := range l.n {
		a := &l.ends[k]
		v := u[a.node*6 : a.node*6+6 : a.node*6+6]
		e += (float64(a.by[0]*v[0]) + float64(a.by[1]*v[1])) + (float64(a.by[2]*v[2]) + float64(a.by[3]*v[3])) + (float64(a.by[4]*v[4]) + float64(a.by[5]*v[5]))
	}
	return e
}

// push adds a force to the right side f: a force of 1 parts the ends.
func (l *lever) push(force float64, f []float64) {
	for k := range l.n {
		a := &l.ends[k]
		v := f[a.node*6 : a.node*6+6 : a.node*6+6]
		for i, b := range a.by {
			v[i] += float64(force * b)
		}
	}
}

// levers returns the ends of every link, without the ways nodes are held in: those
// neither move nor count.
func (m *Model) levers() []lever {
	out := make([]lever, len(m.Links))
	for i, l := range m.Links {
		out[i] = m.arms(l)
		for k := range out[i].n {
			for w, held := range m.Nodes[out[i].ends[k].node].Held {
				if held {
					out[i].ends[k].by[w] = 0
				}
			}
		}
	}
	return out
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
			q := m.arms(l)
			q.push(r.Force[i], sum)
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
