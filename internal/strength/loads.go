package strength

import (
	"fmt"
	"math"
	"slices"

	"scantling/internal/cite"
	"scantling/internal/design"
	"scantling/internal/frame"
	"scantling/internal/geom"
	"scantling/internal/timber"
)

// Loads, N.
const (
	// person is a heavy person's weight, and the force an accessible bench resists
	// at any point. Source: 2010 ADA Standards for Accessible Design, 903.6: 250 lbf.
	person = 1112
	// lean is the push of a person leaning back. Source: EN 12520:2015, back static
	// load (from memory).
	lean = 450
	// vertical is a load set on a table. Source: EN 581-3:2017, vertical static load
	// for domestic use (from memory).
	vertical = 1000
	// pad is the width, mm, of what presses: a loading pad, or a person sitting or
	// standing. Source: EN 1728:2012, small seat loading pad, 200 mm (from memory).
	pad = 200
	// shove is a push at the edge of a table. Source: EN 581-3:2017, horizontal
	// static load, the greater of 200 to 400 N (from memory).
	shove = 400
)

var (
	accessible = cite.Source{Work: "2010 ADA Standards, 903.6: 250 lbf at any point", Basis: cite.Read}
	seating    = cite.Source{Work: "EN 12520:2015, back static load 450 N", Basis: cite.Memory}
	tables     = cite.Source{Work: "EN 581-3:2017, static loads 1000 N down, 400 N level", Basis: cite.Memory}
	stated     = cite.Source{Work: "the design file", Basis: cite.Read}
	gravity    = cite.Source{Work: "the wood's weight at 19 % moisture", Basis: cite.Computed}
)

// A Case is one way the piece is loaded.
type Case struct {
	Name     string // "a person on the 3rd top slat, at its middle"
	Board    string // id of the board loaded, "" for more than one
	Newton   float64
	Way      geom.Vec // direction of the load; zero when there are several
	At       geom.Vec // where it stands; zero when spread
	Duration timber.Duration
	Sways    bool // a level push, by which sway is measured
	From     cite.Source

	frame.Case
}

// A spot is a place on a board where something may press.
type spot struct {
	member int
	node   int
	at     geom.Vec
	where  string
}

// spots returns where a member can be loaded from a side it turns that way, at
// each of its stations: nil when it has no such face, or others cover it.
func (m *model) spots(i int, way geom.Vec) (out []spot) {
	b := &m.members[i]
	for k := range b.b.Solid.Faces {
		f := &b.b.Solid.Faces[k]
		plane := b.b.Pose.OutPlane(f.Plane)
		if plane.N.Dot(way) < 0.9 || f.Area() < 3000 {
			continue
		}
		covered := 0.0
		for _, t := range m.touches {
			if t.b >= 0 && (t.a == i || t.b == i) && math.Abs(plane.Over(t.mid)) < geom.Touch {
				covered += t.area
			}
		}
		if covered > 0.8*f.Area() {
			continue
		}
		for s, x := range b.at {
			p := m.m.Nodes[b.node+s].At
			t, ok := plane.Hit(p, way)
			if !ok || t < 0 {
				continue
			}
			where := "at its middle"
			switch {
			case len(b.at) > 1 && (s == 0 || s == len(b.at)-1):
				where = "at its end"
			case math.Abs(x-float64((b.at[0]+b.at[len(b.at)-1])/2)) > float64(0.2*(b.at[len(b.at)-1]-b.at[0])):
				where = "nearer one end"
			}
			out = append(out, spot{i, b.node + s, p.Along(way, t), where})
		}
		return out
	}
	return nil
}

// own is the weight of everything.
func (m *model) own() (c frame.Case) {
	for i := range m.members {
		b := &m.members[i]
		if len(b.sections) == 0 {
			c.Loads = append(c.Loads, m.lump(i, b.b.Placed().Middle(), b.density*b.b.Solid.Volume))
			continue
		}
		// Beams carry what lies along them; what is past the stations hangs on the ends.
		rest := b.b.Solid.Volume
		for k, s := range b.sections {
			c.Spread = append(c.Spread, frame.Spread{Beam: b.beam + k, PerMM: geom.Vec{Z: -float64(b.density * s.area)}})
			rest -= float64(s.area * (b.at[k+1] - b.at[k]))
		}
		for _, end := range []int{0, len(b.at) - 1} {
			c.Loads = append(c.Loads, frame.Load{Node: b.node + end, At: m.m.Nodes[b.node+end].At, Force: geom.Vec{Z: -float64(b.density * rest / 2)}})
		}
	}
	return c
}

func (m *model) lump(i int, at geom.Vec, newton float64) frame.Load {
	b := &m.members[i]
	return frame.Load{Node: b.nearest(b.b.Pose.In(at).X), At: at, Force: geom.Vec{Z: -newton}}
}

// padded returns a force set on a spot over the width of a pad: shared by the
// boards of the surface whose faces lie level with it under the pad, by how much
// of their width does, each part between the two stations beside it by the lever.
func (m *model) padded(surface []int, s spot, way geom.Vec, newton float64) (out []frame.Load) {
	type share struct {
		member int
		at     geom.Vec
		wide   float64
	}
	var shares []share
	sum := 0.0
	for _, i := range surface {
		b := m.members[i].b
		q := b.Pose.In(s.at)
		box := b.Solid.Box
		if math.Abs(q.Z-box.Low.Z) > 5 && math.Abs(q.Z-box.High.Z) > 5 && i != s.member || q.X < box.Low.X-geom.Touch || q.X > box.High.X+geom.Touch {
			continue
		}
		wide := math.Min(box.High.Y, q.Y+pad/2) - math.Max(box.Low.Y, q.Y-pad/2)
		if wide <= 0 {
			continue
		}
		middle := (math.Min(box.High.Y, q.Y+pad/2) + math.Max(box.Low.Y, q.Y-pad/2)) / 2
		shares = append(shares, share{i, b.Pose.Out(geom.Vec{X: q.X, Y: middle, Z: q.Z}), wide})
		sum += wide
	}
	if !slices.Contains(surface, s.member) || way.Z > -0.5 {
		shares, sum = []share{{s.member, s.at, 1}}, 1
	}
	for _, q := range shares {
		out = append(out, m.levered(q.member, q.at, way.Times(newton*q.wide/sum))...)
	}
	return out
}

// levered returns a force on a member as two, on the stations beside it.
func (m *model) levered(i int, at, force geom.Vec) []frame.Load {
	b := &m.members[i]
	x := b.b.Pose.In(at).X
	for k := 1; k < len(b.at); k++ {
		if x > b.at[k] || x < b.at[k-1] {
			continue
		}
		t := (x - b.at[k-1]) / (b.at[k] - b.at[k-1])
		near := at.Along(b.b.Pose.X, b.at[k-1]-x)
		far := at.Along(b.b.Pose.X, b.at[k]-x)
		return []frame.Load{{Node: b.node + k - 1, At: near, Force: force.Times(1 - t)}, {Node: b.node + k, At: far, Force: force.Times(t)}}
	}
	return []frame.Load{{Node: b.nearest(x), At: at, Force: force}}
}

var down, up = geom.Vec{Z: -1}, geom.Vec{Z: 1}

// cases returns the ways the piece is loaded, by its use. The first is its own
// weight alone.
func (m *model) cases() []Case {
	own := m.own()
	out := []Case{{Name: "its own weight", Newton: m.weight, Duration: timber.Permanent, From: gravity, Way: down, Case: own}}
	surface := m.surface()
	at := func(name string, s spot, way geom.Vec, newton float64, d timber.Duration, from cite.Source, with ...frame.Load) {
		c := Case{Name: name, Board: string(m.members[s.member].b.ID), Newton: newton, Way: way, At: s.at, Duration: d, From: from,
			Case: frame.Case{Spread: own.Spread, Loads: append(append([]frame.Load{}, own.Loads...), with...)}}
		c.Loads = append(c.Loads, m.padded(surface, s, way, newton)...)
		out = append(out, c)
	}
	use := m.piece.Use
	what, weight, lasts, by := "a person", float64(person), timber.SevenDays, accessible
	if use.As == "table" {
		what, weight, lasts, by = "a heavy load", vertical, timber.TenMinutes, tables
	}
	for _, i := range surface {
		for _, s := range m.spots(i, up) {
			at(fmt.Sprintf("%s on the %s, %s", what, m.members[i].b.Spoken, s.where), s, down, weight, lasts, by)
		}
	}
	if use.As == "gate" {
		m.gate(at)
	}
	push, from := float64(shove), tables
	if use.As == "seat" {
		push, from = person, accessible
	}
	if use.As != "gate" {
		if s, ok := m.highest(surface); ok {
			for _, w := range []struct {
				way  geom.Vec
				says string
			}{{geom.Vec{X: 1}, "to the right"}, {geom.Vec{X: -1}, "to the left"}, {geom.Vec{Y: 1}, "backward"}, {geom.Vec{Y: -1}, "forward"}} {
				at(fmt.Sprintf("a push %s at the %s", w.says, m.members[s.member].b.Spoken), s, w.way, push, timber.TenMinutes, from)
				out[len(out)-1].Sways = true
			}
		}
	}
	if use.As == "seat" {
		m.backs(surface, at)
	}
	for _, l := range use.Loads {
		if c, ok := m.stated(l, own); ok {
			out = append(out, c)
		}
	}
	if use.As == "planter" {
		if c, ok := m.soil(own); ok {
			out = append(out, c)
		}
	}
	return out
}

// surface returns the members people load from above: of a seat those skin
// touches, of a table those food touches or, with neither said, the highest ones;
// and those the file says are loaded at a point.
func (m *model) surface() (out []int) {
	named := map[string]string{"seat": "skin", "table": "food"}[m.piece.Use.As]
	if named == "" {
		return nil
	}
	seen := map[int]bool{}
	add := func(i int) {
		if !seen[i] && m.spots(i, up) != nil {
			seen[i] = true
			out = append(out, i)
		}
	}
	for _, t := range m.piece.Use.Touches {
		if t.What == named {
			for _, id := range t.On {
				if i, ok := m.of[id]; ok {
					add(i)
				}
			}
		}
	}
	if len(out) > 0 {
		return out
	}
	top := 0.0
	for i := range m.members {
		if m.spots(i, up) != nil {
			top = math.Max(top, m.members[i].b.Placed().Around().High.Z)
		}
	}
	for i := range m.members {
		if m.members[i].b.Placed().Around().High.Z > top-60 {
			add(i)
		}
	}
	return out
}

// highest returns the highest end of the surface, where a push sways most.
func (m *model) highest(surface []int) (best spot, ok bool) {
	for _, i := range surface {
		for _, s := range m.spots(i, up) {
			if !ok || s.at.Z > best.at.Z+geom.Touch {
				best, ok = s, true
			}
		}
	}
	return best, ok
}

type adder func(name string, s spot, way geom.Vec, newton float64, d timber.Duration, from cite.Source, with ...frame.Load)

// backs leans a person on every board of the back, sitting on the middle of the
// seat.
func (m *model) backs(surface []int, at adder) {
	var sit *spot
	for _, i := range surface {
		if all := m.spots(i, up); len(all) > 0 {
			s := all[len(all)/2]
			if sit == nil || s.at.Z < sit.at.Z {
				sit = &s
			}
		}
	}
	if sit == nil {
		return
	}
	weight := m.padded(surface, *sit, down, person)
	for _, t := range m.piece.Use.Touches {
		if t.What != "skin" {
			continue
		}
		for _, id := range t.On {
			i, ok := m.of[id]
			if !ok {
				continue
			}
			for _, way := range []geom.Vec{{Y: 1}, {Y: -1}, {X: 1}, {X: -1}} {
				// The face a sitter's back lies on looks at the sitter, and lies above the seat.
				toward := way.Negated()
				for _, s := range m.leaning(i, toward, sit.at) {
					at(fmt.Sprintf("a person sits and leans on the %s, %s", m.members[i].b.Spoken, s.where), s, way, lean, timber.TenMinutes, seating, weight...)
				}
			}
		}
	}
}

// leaning returns the spots of a member on a steep face that looks toward the
// seat: up to half a right angle off the level.
func (m *model) leaning(i int, toward, seat geom.Vec) (out []spot) {
	b := &m.members[i]
	for k := range b.b.Solid.Faces {
		f := &b.b.Solid.Faces[k]
		plane := b.b.Pose.OutPlane(f.Plane)
		if plane.N.Dot(toward) < 0.7 || f.Area() < 8000 {
			continue
		}
		for s := range b.at {
			p := m.m.Nodes[b.node+s].At
			t, ok := plane.Hit(p, toward)
			if !ok || t < 0 || p.Z < seat.Z || seat.Minus(p).Dot(toward) < 0 {
				continue
			}
			where := "at its middle"
			if s == 0 || s == len(b.at)-1 {
				where = "at its end"
			}
			out = append(out, spot{i, b.node + s, p.Along(toward, t), where})
		}
		return out
	}
	return nil
}

// gate hangs a person on the end of the leaf farthest from the hinges.
func (m *model) gate(at adder) {
	var hinges geom.Vec
	n := 0.0
	for _, h := range m.piece.Hardware {
		if hinge(h.What) {
			for _, b := range h.Boxes {
				hinges, n = hinges.Plus(b.At.At), n+1
			}
		}
	}
	if n == 0 {
		return
	}
	hinges = hinges.Times(1 / n)
	best, far := spot{}, -1.0
	for i := range m.members {
		b := &m.members[i]
		if math.Abs(b.b.Pose.X.Z) < 0.7 {
			continue // not an upright
		}
		for s := range b.at {
			if p := m.m.Nodes[b.node+s].At; math.Abs(p.X-hinges.X)+p.Z > far+geom.Touch {
				best, far = spot{member: i, node: b.node + s, at: p}, math.Abs(p.X-hinges.X)+p.Z
			}
		}
	}
	if far > 0 {
		at("a person stands on the gate at its latch end", best, down, person, timber.SevenDays, accessible)
		at("a person pushes the gate at its latch end", best, geom.Vec{Y: 1}, lean, timber.TenMinutes, seating)
	}
}

// stated returns the case of a load the file gives.
func (m *model) stated(l design.Load, own frame.Case) (Case, bool) {
	c := Case{Duration: timber.TenYears, From: stated, Way: down, Case: frame.Case{Spread: append([]frame.Spread{}, own.Spread...), Loads: append([]frame.Load{}, own.Loads...)}}
	name := ""
	for _, id := range l.On {
		i, ok := m.of[id]
		if !ok {
			continue
		}
		b := &m.members[i]
		name = b.b.Name
		all := m.spots(i, up)
		if len(all) == 0 {
			continue
		}
		total := 0.0
		switch {
		case l.Spread != nil:
			total = float64(l.Spread.Q.V * 1e12 * m.upward(i)) // N/nm² to N/mm²
		case l.Line != nil:
			total = float64(l.Line.Q.V * 1e6 * b.b.L) // N/nm to N/mm
		case l.Point != nil:
			total = l.Point.Q.V
		}
		c.Newton += total
		if l.Point != nil {
			s := all[len(all)/2]
			c.Loads = append(c.Loads, frame.Load{Node: s.node, At: s.at, Force: geom.Vec{Z: -total}})
			continue
		}
		m.spread(&c.Case, i, total)
	}
	c.Name = fmt.Sprintf("the load the file puts on the %s", name)
	if m.piece.Use.As == "planter" {
		c.Duration = timber.Permanent
	}
	return c, c.Newton > 0
}

// spread lays a total load evenly along a member.
func (m *model) spread(c *frame.Case, i int, total float64) {
	b := &m.members[i]
	long := b.at[len(b.at)-1] - b.at[0]
	if len(b.sections) == 0 || long <= 0 {
		c.Loads = append(c.Loads, m.lump(i, b.b.Placed().Middle(), total))
		return
	}
	for k := range b.sections {
		c.Spread = append(c.Spread, frame.Spread{Beam: b.beam + k, PerMM: geom.Vec{Z: -total / long}})
	}
}

// upward returns the area of a member's upward faces, mm² seen from above.
func (m *model) upward(i int) (area float64) {
	b := m.members[i].b
	for k := range b.Solid.Faces {
		if n := b.Pose.OutPlane(b.Solid.Faces[k].Plane).N.Z; n > 0.5 {
			area += float64(b.Solid.Faces[k].Area() * n)
		}
	}
	return area
}

// soil presses wet soil outward on the upright boards it touches: half its own
// head, the pressure at rest of loose soil.
//
// Source: K₀ = 0.5, Jaky's 1 − sin φ at 30° (from memory); wet soil 100 lb/ft³.
func (m *model) soil(own frame.Case) (Case, bool) {
	const dense, rest = 100 * 157.0874606e-9, 0.5 // N/mm³
	c := Case{Name: "wet soil pressing outward", Duration: timber.Permanent,
		From: cite.Source{Work: "earth pressure at rest, K₀ 0.5, soil 100 lb/ft³", Basis: cite.Memory},
		Case: frame.Case{Spread: append([]frame.Spread{}, own.Spread...), Loads: append([]frame.Load{}, own.Loads...)}}
	box := geom.EmptyBox()
	var walls []int
	for _, t := range m.piece.Use.Touches {
		if t.What != "soil" {
			continue
		}
		for _, id := range t.On {
			if i, ok := m.of[id]; ok {
				box = box.Union(m.members[i].b.Placed().Around())
				walls = append(walls, i)
			}
		}
	}
	centre, top := box.Middle(), box.High.Z
	for _, i := range walls {
		b := &m.members[i]
		for k := range b.b.Solid.Faces {
			f := &b.b.Solid.Faces[k]
			n := b.b.Pose.OutPlane(f.Plane).N
			if math.Abs(n.Z) > 0.3 || f.Area() < 20000 || n.Dot(centre.Minus(b.b.Placed().Middle())) <= 0 {
				continue
			}
			depth := top - b.b.Placed().Middle().Z
			total := float64(rest * dense * depth * f.Area())
			c.Newton += total
			long := b.at[len(b.at)-1] - b.at[0]
			for s := range b.sections {
				c.Spread = append(c.Spread, frame.Spread{Beam: b.beam + s, PerMM: n.Times(-total / long)})
			}
		}
	}
	return c, c.Newton > 0
}
