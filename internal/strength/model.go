package strength

import (
	"math"
	"slices"
	"strings"

	"scantling/internal/board"
	"scantling/internal/design"
	"scantling/internal/frame"
	"scantling/internal/geom"
	"scantling/internal/joint"
	"scantling/internal/screw"
	"scantling/internal/timber"
	"scantling/internal/wood"
)

// Stiffnesses no standard gives. A verdict that changes when they are halved or
// doubled is "cannot tell".
const (
	acrossShare  = 1.0 / 25 // of the stiffness along the grain, across it: Wood Handbook, FPL-GTR-190 (2010), table 5-1, middle of the softwoods
	boltPull     = 1000.0   // N/mm of a bolt's washers on the wood: assumed
	threadPull   = 250.0    // N/mm of a thread or nail pulled: assumed low, so that an end turning on its bearing is a hinge and not a load on the screw (common practice)
	clamped      = 20.0     // N/mm by which a fastener keeps its two boards from turning on one another: assumed
	glueStiff    = 20000.0  // N/mm at each of the points a glue line is held by: assumed, stiffer than any screw
	footFriction = 2000.0   // N/mm a foot is held sideways by the ground while it presses on it: assumed
	rubbing      = 200.0    // N/mm boards that only lie on one another hold each other by: assumed
	hingeStiff   = 5000.0   // N/mm of a hinge with its screws: assumed
	shearShare   = 1.0 / 16 // of the stiffness along the grain, in shear: Wood Handbook, FPL-GTR-190 (2010), table 5-1, usual
	serviceWater = 19.0     // percent moisture boards are weighed at
)

// together is how close, in mm along the grain, places where others meet a board
// may lie and still share a node of the frame: about the width of a board.
const together = 60.0

// A member is a board as a chain of beams.
type member struct {
	b        *design.Board
	wood     wood.Wood
	strength *timber.Reference // nil: the tables have none, and the board is not judged
	assumed  bool              // the grade is not in the file
	e        float64           // MPa
	density  float64           // N/mm³
	at       []float64         // stations along the grain, mm from the board's start
	held     []float64         // those where other boards hold it
	node     int               // of the first station; the others follow
	beam     int               // of the first beam; there is one less than stations
	sections []section         // of each beam
}

// nearest returns the node of the station nearest x.
func (m *member) nearest(x float64) int {
	best := 0
	for i, at := range m.at {
		if math.Abs(at-x) < math.Abs(m.at[best]-x) {
			best = i
		}
	}
	return m.node + best
}

// A holding is one fastener of a joint in the frame.
type holding struct {
	joint *joint.Joint
	pair  *joint.Pair
	use   *joint.Use
	axis  joint.Axis
	slip  [2]int // links: sideways, two ways square to one another
	pull  int    // link along it; -1: none
}

// A touch is one area where boards, or a foot and the ground, press on one
// another.
type touch struct {
	a, b int // members; b is -1 for the ground
	area float64
	end  [2]bool // whether the face of a, of b is end grain
	push []int   // links
	mid  geom.Vec
}

// A model is the piece as a frame, with the way back from its parts to the
// boards.
type model struct {
	piece    *design.Piece
	m        frame.Model
	members  []member
	of       map[board.ID]int // member of a board
	holdings []holding
	touches  []touch
	ground   []int // the links that bear on the ground
	wet      bool
	weight   float64 // N
}

// build makes the frame. Soft scales the stiffnesses no standard gives.
func build(p *design.Piece, meetings *joint.Meetings, joints []joint.Joint, soft float64) *model {
	m := &model{piece: p, of: map[board.ID]int{}, wet: outdoors(p)}
	place := make([]int, len(p.Boards))
	for i, b := range p.Boards {
		place[i] = -1
		if b.Solid == nil || b.Solid.Volume <= 0 {
			continue
		}
		place[i] = len(m.members)
		m.of[b.ID] = len(m.members)
		m.members = append(m.members, m.member(b))
	}
	m.stations(meetings, joints, place)
	for i := range m.members {
		m.chain(&m.members[i])
	}
	for i := range meetings.All {
		q := &meetings.All[i]
		if a, b := place[q.A], place[q.B]; a >= 0 && b >= 0 {
			for k := range q.Contacts {
				m.press(a, b, &q.Contacts[k], soft)
			}
		}
	}
	for i := range joints {
		m.fasten(&joints[i], soft)
	}
	m.feet(soft)
	m.hinges()
	m.rub(soft)
	return m
}

// outdoors reports whether the wood gets wet in service. A piece that does not
// say lives outdoors: that is what these pieces are for.
func outdoors(p *design.Piece) bool {
	return p.Use.Lives != "indoors" && p.Use.Lives != "indoors dry"
}

func (m *model) member(b *design.Board) member {
	out := member{b: b}
	w, err := wood.Lookup(b.Stock.Wood)
	if err == nil {
		out.wood = w
	}
	grade := b.Stock.Grade
	if out.assumed = grade == ""; out.assumed {
		grade = "No. 2"
	}
	conditions := timber.Conditions{Wet: m.wet}
	switch r, err := timber.Lookup(out.wood.DesignGroup, grade, math.Max(b.Stock.T.MM(), b.Stock.W.MM())); {
	case err == nil:
		out.strength, out.e = &r, r.Stiffness(conditions).Adjusted()
	case out.wood.DryStiffness > 0:
		out.e = out.wood.DryStiffness * 6894.757
	default:
		out.e = 9000 // MPa, assumed: a middling softwood
	}
	density := 500.0 // kg/m³, assumed where the wood is not known
	if out.wood.DesignGravity > 0 || out.wood.GreenGravity > 0 {
		density = out.wood.DensityKgM3(serviceWater)
	}
	out.density = density * 9.80665e-9
	m.weight += float64(out.density * b.Solid.Volume)
	return out
}

// stations gives every member the places along its grain where others meet it,
// where loads may stand between those, and its ends.
func (m *model) stations(meetings *joint.Meetings, joints []joint.Joint, place []int) {
	add := func(i int, p geom.Vec) {
		b := &m.members[i]
		b.at = append(b.at, b.b.Pose.In(p).X)
	}
	for i := range meetings.All {
		q := &meetings.All[i]
		a, b := place[q.A], place[q.B]
		if a < 0 || b < 0 {
			continue
		}
		for k := range q.Contacts {
			for _, p := range corners(&q.Contacts[k]) {
				add(a, p)
				add(b, p)
			}
		}
	}
	for i := range joints {
		for k := range joints[i].Pairs {
			p := &joints[i].Pairs[k]
			for _, u := range p.Uses {
				for _, x := range u.Axes {
					for _, b := range []*design.Board{p.A, p.B} {
						if at, ok := m.of[b.ID]; ok {
							add(at, x.Meet())
						}
					}
				}
			}
		}
	}
	for i := range m.members {
		b := &m.members[i]
		low, high := b.b.Solid.Box.Low.X, b.b.Solid.Box.High.X
		b.held, b.at = gather(b.at, low, high)
	}
}

// gather draws places together that lie close along the grain, and adds the ends
// and the middles of long stretches, where loads may stand.
func gather(at []float64, low, high float64) (held, full []float64) {
	slices.Sort(at)
	var out []float64
	for i := 0; i < len(at); {
		k, sum := i, 0.0
		for ; k < len(at) && at[k]-at[i] <= together; k++ {
			sum += at[k]
		}
		out = append(out, min(max(sum/float64(k-i), low), high))
		i = k
	}
	held = slices.Clone(out)
	if len(out) == 0 {
		out = []float64{(low + high) / 2}
	}
	if out[0]-low > together {
		out = append([]float64{low}, out...)
	}
	if high-out[len(out)-1] > together {
		out = append(out, high)
	}
	for i, x := range out {
		if i > 0 && x-out[i-1] > 2*together {
			full = append(full, (x+out[i-1])/2)
		}
		full = append(full, x)
	}
	return held, full
}

// chain adds the nodes and beams of a member.
func (m *model) chain(b *member) {
	b.node, b.beam = len(m.m.Nodes), len(m.m.Beams)
	box := b.b.Solid.Box
	whole := cut(b.b.Solid, (box.Low.X+box.High.X)/2)
	for i, x := range b.at {
		m.m.Nodes = append(m.m.Nodes, frame.Node{At: b.b.Pose.Out(geom.Vec{X: x, Y: b.b.W.MM() / 2, Z: b.b.T.MM() / 2})})
		if i == 0 {
			continue
		}
		// The least of three places: a notch anywhere between weakens the beam.
		s := section{area: math.Inf(1)}
		for _, share := range []float64{0.2, 0.5, 0.8} {
			if q := cut(b.b.Solid, b.at[i-1]+float64(share*(x-b.at[i-1]))); q.area > 0 && q.area < s.area {
				s = q
			}
		}
		if math.IsInf(s.area, 1) {
			s = whole
		}
		b.sections = append(b.sections, s)
		m.m.Beams = append(m.m.Beams, frame.Beam{From: b.node + i - 1, To: b.node + i, Section: s.beam(),
			E: b.e, G: b.e * shearShare, Web: b.b.Pose.Y})
	}
}

// corners returns up to four points of a contact that span it: the farthest in
// the four diagonal directions of its own plane, drawn a tenth in.
func corners(c *geom.Contact) []geom.Vec {
	if c.Kind != geom.Area {
		return []geom.Vec{c.Middle}
	}
	// Along the longest side of its outline, and square to that.
	var along geom.Vec
	longest := 0.0
	loop := c.Loops[0]
	for k, p := range loop {
		if d := loop[(k+1)%len(loop)].Minus(p); d.Length() > longest+geom.Same {
			longest, along = d.Length(), d.Unit()
		}
	}
	across := c.Plane.N.Cross(along)
	var out []geom.Vec
	for _, s := range [4][2]float64{{1, 1}, {-1, 1}, {-1, -1}, {1, -1}} {
		way := along.Times(s[0]).Along(across, s[1])
		best := loop[0]
		for _, p := range loop {
			if p.Dot(way) > best.Dot(way)+geom.Same {
				best = p
			}
		}
		p := best.Along(c.Middle.Minus(best), 0.1)
		if !slices.ContainsFunc(out, func(q geom.Vec) bool { return q.Distance(p) < geom.Touch }) {
			out = append(out, p)
		}
	}
	return out
}

// link adds a spring between two members, or a member and the ground, at a point.
func (m *model) link(a, b int, at, way geom.Vec, k float64, acts frame.Acts, follows int) int {
	node := func(i int) int {
		if i < 0 {
			return frame.Ground
		}
		return m.members[i].nearest(m.members[i].b.Pose.In(at).X)
	}
	m.m.Links = append(m.m.Links, frame.Link{A: node(a), B: node(b), At: at, Way: way, K: k, Acts: acts, Follows: follows})
	return len(m.m.Links) - 1
}

// pressed returns the stiffness, N/mm, of so much of a member's wood under
// pressure on a face of that tag: half the board's depth there.
func (b *member) pressed(area float64, tag geom.Tag) (k float64, end bool) {
	box := b.b.Solid.Box
	switch tag {
	case geom.YLow, geom.YHigh:
		return b.e * acrossShare * area / ((box.High.Y - box.Low.Y) / 2), false
	case geom.ZLow, geom.ZHigh:
		return b.e * acrossShare * area / ((box.High.Z - box.Low.Z) / 2), false
	}
	if c := b.b.CutAt(tag); tag == geom.XLow || tag == geom.XHigh || c != nil && (c.Kind == board.EndCut) {
		return b.e * area / (float64(together) * 2), true
	}
	return b.e * acrossShare * area / b.b.T.MM(), false
}

// press adds the bearing of two boards on one contact.
func (m *model) press(a, b int, c *geom.Contact, soft float64) {
	if c.Kind != geom.Area || c.Area < joint.Enough/8 {
		return
	}
	points := corners(c)
	share := c.Area / float64(len(points))
	ka, endA := m.members[a].pressed(share, c.A)
	kb, endB := m.members[b].pressed(share, c.B)
	t := touch{a: a, b: b, area: c.Area, end: [2]bool{endA, endB}, mid: c.Middle}
	for _, p := range points {
		t.push = append(t.push, m.link(a, b, p, c.Plane.N, soft*ka*kb/(ka+kb), frame.Push, 0))
	}
	m.touches = append(m.touches, t)
}

// fasten adds the fasteners of a joint.
func (m *model) fasten(j *joint.Joint, soft float64) {
	for i := range j.Pairs {
		p := &j.Pairs[i]
		a, okA := m.of[p.Through.ID]
		b, okB := m.of[p.Into().ID]
		if !okA || !okB {
			continue
		}
		m.clamp(p, a, b, soft)
		for k := range p.Uses {
			u := &p.Uses[k]
			if u.Fastener.Family == screw.Glue {
				m.glue(p, a, b, soft)
				continue
			}
			for _, x := range u.Axes {
				slip, pull := m.stiffness(u, p, x)
				at := x.Meet()
				one := square(x.Way)
				h := holding{joint: j, pair: p, use: u, axis: x, pull: -1}
				h.slip[0] = m.link(a, b, at, one, slip, frame.Both, 0)
				h.slip[1] = m.link(a, b, at, x.Way.Cross(one), slip, frame.Both, 0)
				if pull > 0 {
					h.pull = m.link(a, b, at, x.Way, soft*pull, frame.Pull, 0)
				}
				m.holdings = append(m.holdings, h)
			}
		}
	}
}

// clamp keeps two fastened boards from turning on one another freely: what is
// screwed together is pressed together.
func (m *model) clamp(p *joint.Pair, a, b int, soft float64) {
	n := p.Contact.Plane.N
	one := square(n)
	two := n.Cross(one)
	at := p.Contact.Middle
	m.link(a, b, at.Along(one, 20), n, soft*clamped, frame.Both, 0)
	m.link(a, b, at.Along(two, 20), n, soft*clamped, frame.Both, 0)
	m.link(a, b, at.Along(one, 20), two, soft*clamped, frame.Both, 0)
}

// square returns a direction square to a unit one.
func square(v geom.Vec) geom.Vec {
	w := geom.Vec{Z: 1}
	if math.Abs(v.Z) > 0.8 {
		w = geom.Vec{X: 1}
	}
	return w.Along(v, -w.Dot(v)).Unit()
}

// stiffness returns what one fastener of a use resists sideways and along itself,
// N/mm.
//
// Sideways: the slip moduli of package timber. Along: assumed, as above.
func (m *model) stiffness(u *joint.Use, p *joint.Pair, x joint.Axis) (slip, pull float64) {
	w := u.Fastener
	density := 450.0
	if q := m.members[m.of[p.Into().ID]].wood; q.DesignGravity > 0 || q.GreenGravity > 0 {
		density = q.DensityKgM3(12)
	}
	d := w.Shank.MM()
	if w.Bolted() {
		return timber.BoltSlip(d), boltPull
	}
	reach := math.Min(w.Length.MM()-x.Stack[0], x.Stack[1])
	if w.Family == screw.Dowel || reach <= 0 {
		return timber.ScrewSlip(d, density, true), 0
	}
	return timber.ScrewSlip(d, density, !w.Nailed()), threadPull
}

// glue holds a pair's contact stiffly at its corners.
func (m *model) glue(p *joint.Pair, a, b int, soft float64) {
	for _, at := range corners(&p.Contact) {
		one := square(p.Contact.Plane.N)
		for _, way := range []geom.Vec{p.Contact.Plane.N, one, p.Contact.Plane.N.Cross(one)} {
			m.link(a, b, at, way, soft*glueStiff, frame.Both, 0)
		}
	}
}

// feet stands the piece on the ground wherever a face lies on it.
func (m *model) feet(soft float64) {
	for i := range m.members {
		b := &m.members[i]
		for k := range b.b.Solid.Faces {
			f := &b.b.Solid.Faces[k]
			plane := b.b.Pose.OutPlane(f.Plane)
			if plane.N.Z > -0.999 || math.Abs(plane.D) > geom.Touch {
				continue
			}
			c := geom.Contact{Kind: geom.Area, Plane: plane, Area: f.Area()}
			for _, loop := range f.Loops {
				var out []geom.Vec
				for _, v := range loop {
					out = append(out, b.b.Pose.Out(v))
				}
				c.Loops = append(c.Loops, out)
			}
			c.Middle = middle(c.Loops[0])
			points := corners(&c)
			share := c.Area / float64(len(points))
			stiff, end := b.pressed(share, f.Tag)
			t := touch{a: i, b: -1, area: c.Area, end: [2]bool{end, true}, mid: c.Middle}
			for _, p := range points {
				push := m.link(i, -1, p, plane.N, soft*stiff, frame.Push, 0)
				m.ground = append(m.ground, push)
				t.push = append(t.push, push)
				m.link(i, -1, p, geom.Vec{X: 1}, soft*footFriction, frame.Both, push+1)
				m.link(i, -1, p, geom.Vec{Y: 1}, soft*footFriction, frame.Both, push+1)
			}
			m.touches = append(m.touches, t)
		}
	}
}

func middle(loop []geom.Vec) (sum geom.Vec) {
	for _, p := range loop {
		sum = sum.Along(p, 1/float64(len(loop)))
	}
	return sum
}

// hinges hangs what hardware called a hinge is fixed to, where the file says the
// hinge is.
func (m *model) hinges() {
	for _, h := range m.piece.Hardware {
		if !hinge(h.What) {
			continue
		}
		for _, box := range h.Boxes {
			// Bolted through everything behind it, near both ends of its leaf.
			for _, side := range []float64{-0.35, 0.35} {
				at := box.At.At.Along(box.At.X, side*box.Size.X)
				for i := range m.members {
					if !behind(m.members[i].b, at, box.At.Z) {
						continue
					}
					for _, way := range []geom.Vec{{X: 1}, {Y: 1}, {Z: 1}} {
						m.link(i, -1, at, way, hingeStiff, frame.Both, 0)
					}
				}
			}
		}
	}
}

// hinge reports whether hardware of that name is what a leaf hangs on.
func hinge(what string) bool { return strings.Contains(strings.ToLower(what), "hinge") }

// behind reports whether a board lies within a bolt's reach under a point of a
// side that looks toward out.
func behind(b *design.Board, at, out geom.Vec) bool {
	for _, deep := range []float64{5, 25, 45, 65} {
		q, box := b.Pose.In(at.Along(out, -deep)), b.Solid.Box
		if q.Minus(q.Max(box.Low).Min(box.High)).Length() < geom.Touch {
			return true
		}
	}
	return false
}

// rub holds boards nothing fastens, which only lie on or between others, by
// friction.
func (m *model) rub(soft float64) {
	fastened := make([]bool, len(m.members))
	for _, h := range m.holdings {
		fastened[m.of[h.pair.A.ID]], fastened[m.of[h.pair.B.ID]] = true, true
	}
	for _, t := range m.touches {
		if t.b < 0 || fastened[t.a] && fastened[t.b] {
			continue
		}
		for _, push := range t.push {
			l := m.m.Links[push]
			one := square(l.Way)
			m.link(t.a, t.b, l.At, one, soft*rubbing, frame.Both, push+1)
			m.link(t.a, t.b, l.At, l.Way.Cross(one), soft*rubbing, frame.Both, push+1)
		}
	}
}
