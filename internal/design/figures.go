package design

import (
	"math"
	"strconv"

	"scantling/internal/expr"
	"scantling/internal/geom"
	"scantling/internal/measure"
	"scantling/internal/phrase"
	"scantling/internal/snag"
	"scantling/internal/span"
	"scantling/internal/steady"
)

// cut returns the named cut of the member and its number.
func (m *member) cut(name string) (*cutDecl, int) {
	for i, c := range m.one.d.cuts {
		if c.name == name {
			return c, i
		}
	}
	return nil, 0
}

// cutReading reads the plane of a taper, or which boards of a row a notch meets.
func (e *env) cutReading(r *expr.Ref, m *member, c *cutDecl, i int) expr.Value {
	switch {
	case len(r.Path) == 2 && c.taper != nil && !c.taper.both:
		t := m.one.taperAt(i)
		if !t.ok {
			return expr.Value{}
		}
		side, _, _ := m.one.taperSide(c.taper)
		p := &place{plane: m.copy.Plane(t.planes[0]), of: m, side: side, turn: t.from, says: phrase.Spaced(m.lot.d.name) + ", " + phrase.Spaced(c.name)}
		return expr.Value{Kind: expr.Plane, Place: p, From: t.from.Union(m.copy.from)}
	case len(r.Path) == 3 && r.Path[2].Text == "which" && c.notch != nil:
		return e.which(m.lot, c.name)
	case len(r.Path) == 3 && r.Path[2].Text == "depth" && (c.notch != nil || c.recess != nil):
		return e.cutDepth(r, m, c)
	}
	return e.tell("no-such-reading", r.At, "this cut has nothing to read there", snag.Say("read a taper's plane, .depth of a notch or housing, or .which of a notch in a row"))
}

// cutDepth reads how deep a notch or a housing is, in the finished board.
func (e *env) cutDepth(r *expr.Ref, m *member, c *cutDecl) expr.Value {
	b := m.finished()
	if b == nil {
		return expr.Value{}
	}
	var out expr.Value
	for _, k := range b.Cuts {
		if k.Name != c.name {
			continue
		}
		v := expr.Num(measure.Quantity{V: k.Depth * nmPerMM, D: measure.DimLength}, m.from())
		if out.Kind == expr.Number && math.Abs(out.Q.V-v.Q.V) > geom.Alike*nmPerMM {
			return e.tell("no-such-reading", r.At, "the cuts of "+phrase.Spaced(c.name)+" are not all equally deep", snag.Say("leave the reading out, or give the cuts names of their own"))
		}
		out = v
	}
	if out.Kind != expr.Number {
		return e.tell("no-such-reading", r.At, phrase.Spaced(c.name)+" meets nothing on this board, so it has no depth", snag.Say("read it of a board that is cut"))
	}
	return out
}

// which lists the numbers of the boards of a row a notch meets.
func (e *env) which(l *lot, cut string) expr.Value {
	var numbers []string
	from := span.Set{}
	seen := map[int]bool{}
	for _, m := range l.all() {
		b := m.finished()
		if b == nil {
			return expr.Value{}
		}
		from = from.Union(m.from())
		for _, c := range b.Cuts {
			if c.Name == cut && !seen[m.number()] {
				seen[m.number()] = true
				numbers = append(numbers, strconv.Itoa(m.number()))
			}
		}
	}
	return expr.Value{Kind: expr.WordKind, Word: listed(numbers), From: from}
}

// listed joins words as a sentence does: "1, 2 and 13", "none".
func listed(words []string) string {
	if len(words) == 0 {
		return "none"
	}
	return phrase.List(words)
}

// diagonal returns the longest straight line across the rectangle two parts
// frame: along the first's run, and square to it in the plane of both.
func (e *env) diagonal(n *expr.Call, things []*thing) expr.Value {
	if len(things) != 2 {
		return e.tell("argument-count", n.At, "diagonal takes two names", snag.Say("name the two parts whose rectangle it is, parted by ;"))
	}
	var corners []geom.Vec
	from := span.Set{}
	for _, t := range things {
		of := t.of
		if t.whole {
			of = t.lot.all()
		}
		for _, m := range of {
			b := m.rough()
			if b == nil || b.Wood == nil {
				return expr.Value{}
			}
			for _, c := range b.Wood.Cells {
				for _, v := range c.Verts {
					corners = append(corners, b.Pose.Out(v))
				}
			}
			from = from.Union(m.from())
		}
	}
	a, b := things[0].lot.frameOf(), things[1].lot.frameOf()
	if !a.ok || !b.ok || len(corners) == 0 {
		return expr.Value{}
	}
	across := b.Run.Along(a.Run, -b.Run.Dot(a.Run))
	if across.Length() < 1e-6 {
		return e.tell("wrong-kind", n.At, "these two parts run the same way, so they frame no rectangle", snag.Say("name two parts that run across one another"))
	}
	u, v := spread(corners, a.Run), spread(corners, across.Unit())
	return expr.Num(measure.Quantity{V: steady.Hypot(u, v) * nmPerMM, D: measure.DimLength}, from)
}

// spread returns how far points lie apart along a unit direction.
func spread(points []geom.Vec, way geom.Vec) float64 {
	low, high := math.Inf(1), math.Inf(-1)
	for _, p := range points {
		low, high = math.Min(low, p.Dot(way)), math.Max(high, p.Dot(way))
	}
	return high - low
}
