package joint

import (
	"cmp"
	"slices"

	"scantling/internal/measure"
	"scantling/internal/screw"
	"scantling/internal/snag"
)

// instead returns the change of a group's fastener for the first sold that passes,
// of those most like it: of its family before others, and the nearest in diameter,
// then in length. Screws and nails are tried in the lengths that bite and leave
// cover, bolts and lag screws without one, so that it is found.
func (f *finder) instead(g *group, passes func(screw.Fastener) bool) []snag.Mend {
	for _, w := range f.like(g) {
		if passes(w) {
			return []snag.Mend{snag.Replace("use "+w.Name(), g.said.At, w.Name())}
		}
	}
	return nil
}

// kin are the families that may stand for one another.
var kin = [][]screw.Family{{screw.DeckScrew, screw.WoodScrew}, {screw.CommonNail, screw.BoxNail}, {screw.FinishNail},
	{screw.CarriageBolt}, {screw.HexBolt}, {screw.LagScrew}, {screw.Structural}, {screw.Dowel}}

func (f *finder) like(g *group) (out []screw.Fastener) {
	rows := screw.Rows()
	if g.with.Metric() {
		rows = screw.MetricRows()
		if f.piece.Units == measure.Metric {
			rows = screw.RowsIn(f.piece.Region)
		}
	}
	at := slices.IndexFunc(kin, func(k []screw.Family) bool { return slices.Contains(k, g.with.Family) })
	for _, r := range rows {
		if at < 0 || !slices.Contains(kin[at], r.Family) {
			continue
		}
		bare := screw.Fastener{Row: r, Finish: g.with.Finish}
		if bare.Bolted() {
			if r.Size != g.with.Size {
				out = append(out, bare)
			}
			continue
		}
		for _, l := range r.Lengths {
			w := bare
			if w.Length = l; w.Name() != g.with.Name() && f.bites(g, w) {
				out = append(out, w)
			}
		}
	}
	off := func(a, b measure.Length) measure.Length { return max(a-b, b-a) }
	family := func(w screw.Fastener) int {
		if w.Family == g.with.Family {
			return 0
		}
		return 1
	}
	slices.SortStableFunc(out, func(a, b screw.Fastener) int {
		return cmp.Or(cmp.Compare(off(a.Diameter(), g.with.Diameter()), off(b.Diameter(), g.with.Diameter())),
			cmp.Compare(off(a.Length, g.with.Length), off(b.Length, g.with.Length)), cmp.Compare(family(a), family(b)))
	})
	return out
}

// bites reports whether a screw or nail bites enough and leaves cover in every pair
// of a group; what is neither does not need to.
func (f *finder) bites(g *group, w screw.Fastener) bool {
	for k, p := range g.pairs {
		least, most := bounds(p, &Use{Fastener: w, Axes: g.uses[k].Axes})
		if (w.Screwed() || w.Nailed()) && len(g.uses[k].Axes) > 0 && (w.Length < least || w.Length > most) {
			return false
		}
	}
	return true
}
