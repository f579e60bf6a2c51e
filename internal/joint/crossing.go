package joint

import (
	"fmt"

	"scantling/internal/snag"
)

// crossings tells of fasteners of different pairs that meet or nearly do inside
// the wood, each two groups once, and of knots of many at one place.
func (f *finder) crossings() {
	type key struct {
		a, b *group
	}
	worst := map[key]int{}
	var order []key
	least := map[key]float64{}
	knotted := map[*group]bool{}
	for i := range f.thicket.all {
		n := &f.thicket.all[i]
		for _, k := range n.crowding {
			o := &f.thicket.all[k]
			gap := n.gap(o)
			if gap >= apartBy {
				continue
			}
			id := key{n.group, o.group}
			if had, ok := least[id]; !ok {
				order = append(order, id)
				least[id], worst[id] = gap, i
			} else if gap < had {
				least[id], worst[id] = gap, i
			}
		}
		if len(n.crowding)+1 >= crowdOf && !knotted[n.group] {
			knotted[n.group] = true
			f.about(n.group, n.pair, "fasteners-crowd", snag.Caution,
				fmt.Sprintf("%d fasteners stand within %s of one another where the %s meets the %s", len(n.crowding)+1, f.length(crowd), n.pair.Through.Spoken, n.pair.Into().Spoken),
				"common practice: so many holes at one place leave too little wood between them",
				f.thinned(n.group, snag.Say("use fewer there, or spread them with from edge: and from end:"))...)
		}
	}
	for _, id := range order {
		n := &f.thicket.all[worst[id]]
		gap := least[id]
		other := ""
		for _, k := range n.crowding {
			if o := &f.thicket.all[k]; o.group == id.b && n.gap(o) <= gap {
				other = fmt.Sprintf("%s of %s, between the %s and the %s", o.use.Fastener.Name(), id.b.joint.Name, o.pair.Through.Spoken, o.pair.Into().Spoken)
			}
		}
		code, severity := snag.Code("fasteners-meet"), snag.Error
		how := fmt.Sprintf("runs into %s: they overlap by %s inside the wood", other, f.length(-gap))
		if gap >= 0 {
			code, severity = "fasteners-near", snag.Caution
			how = fmt.Sprintf("passes %s from %s; leave %s of wood between them", f.length(gap), other, f.length(apartBy))
		}
		f.about(n.group, n.pair, code, severity,
			fmt.Sprintf("%s between the %s and the %s %s", n.use.Fastener.Name(), n.pair.Through.Spoken, n.pair.Into().Spoken, how),
			"common practice: a bit wanders an eighth of an inch", f.parted(n.group)...)
	}
}

// parted returns the changes of a group's pattern that take it clear of all
// others.
func (f *finder) parted(g *group) []snag.Mend {
	d := g.joint.Pattern
	ok := anyShort
	var out []snag.Mend
	if !d.EdgeAt.IsZero() {
		out = f.moved(g, d.EdgeAt, ok)
	}
	if out == nil && !d.EndAt.IsZero() {
		out = f.moved(g, d.EndAt, ok)
	}
	for n := d.Count - 1; n > 0 && !d.CountAt.IsZero() && out == nil; n-- {
		e := d
		if e.Count = n; f.trial(g, e, g.with, ok) {
			out = append(out, snag.Replace(fmt.Sprintf("use %d there", n), d.CountAt, fmt.Sprint(n)))
		}
	}
	return append(out, snag.Say("move one of them with from edge: or from end:, or let it go through the other board"))
}

// thinned puts before a mend the next smaller number of a group's fasteners.
func (f *finder) thinned(g *group, otherwise snag.Mend) []snag.Mend {
	d := g.joint.Pattern
	if d.CountAt.IsZero() || d.Count < 2 {
		return []snag.Mend{otherwise}
	}
	return []snag.Mend{snag.Replace(fmt.Sprintf("use %d there", d.Count-1), d.CountAt, fmt.Sprint(d.Count-1)), otherwise}
}
