package joint

import (
	"cmp"
	"fmt"
	"slices"

	"scantling/internal/geom"
	"scantling/internal/measure"
	"scantling/internal/screw"
	"scantling/internal/snag"
)

// noPlace says that brackets find no faces to sit on.
func (f *finder) noPlace(j *Joint, i int, p *Pair) {
	w, n := j.With[i], max(1, j.Pattern.Count)
	how := "a side of one board square on the other"
	if w.Family == screw.FlatBracket {
		how = "faces of the two that are flush"
	}
	g := &group{joint: j, with: w, said: j.fastening(i)}
	var mends []snag.Mend
	for fewer := n - 1; fewer > 0 && !j.Pattern.CountAt.IsZero() && mends == nil; fewer-- {
		if f.plates(p, j, w, shortest(w), fewer) != nil {
			mends = append(mends, snag.Replace(fmt.Sprintf("use %d there", fewer), j.Pattern.CountAt, fmt.Sprint(fewer)))
		}
	}
	for _, r := range bracketsLike(w) {
		smaller := screw.Fastener{Row: r, Length: r.Lengths[0], Finish: w.Finish}
		if mends == nil && f.plates(p, j, smaller, shortest(w), n) != nil {
			mends = append(mends, snag.Replace("use "+smaller.Name(), g.said.At, smaller.Name()))
		}
	}
	f.about(g, p, "no-room-to-fasten", snag.Error,
		fmt.Sprintf("there is no place for %d %s where the %s meets the %s: it wants %s, with %s of free face on each for its screws", n, plurals(w, n), p.Through.Spoken, p.Into().Spoken, how, f.tape(w.Length)),
		"common practice: every screw of a bracket a diameter and a half from the edge", append(mends, snag.Say("screw or bolt the two, or let them meet otherwise"))...)
}

// shortest is the shortest screw taken for a bracket.
func shortest(w screw.Fastener) screw.Fastener {
	held := bracketScrew(w)
	held.Length = held.Lengths[0]
	return held
}

// bracketsLike returns the brackets to try instead of one: of its family the smaller
// ones, the largest first, then those of the other family no larger.
func bracketsLike(w screw.Fastener) []screw.Row {
	all := screw.Rows()
	if w.Metric() {
		all = screw.MetricRows()
	}
	all = slices.DeleteFunc(all, func(r screw.Row) bool {
		return r.Family != screw.Corner && r.Family != screw.FlatBracket || r.Lengths[0] > w.Length || r.Size == w.Size && r.Family == w.Family
	})
	slices.SortStableFunc(all, func(a, b screw.Row) int {
		if like := a.Family == w.Family; like != (b.Family == w.Family) {
			return map[bool]int{true: -1, false: 1}[like]
		}
		return cmp.Compare(b.Lengths[0], a.Lengths[0])
	})
	return all
}

// plateScrew says that the screws of a bracket come out of the board behind it.
func (f *finder) plateScrew(g *group, wood measure.Length) {
	most := wood - coverOf(g.with)
	for k := range g.joint.Pairs {
		p := &g.joint.Pairs[k]
		for i := range p.Uses {
			for _, a := range p.Uses[i].Axes {
				if a.In == "" || a.Stack[1] > wood.MM()+geom.Alike {
					continue
				}
				mend := snag.Say(fmt.Sprintf("use a %s up to %s long, or thicker wood", g.with.Family, f.tape(max(0, most))))
				if l := lengthNear(g.with, g.with.Length, 0, most); l != 0 {
					better := screw.Fastener{Row: g.with.Row, Length: l, Finish: g.with.Finish}
					mend = snag.Replace("use "+better.Name(), g.said.At, better.Name())
				}
				f.about(g, p, "screw-long", snag.Error,
					fmt.Sprintf("%s of a bracket goes %s into the %s, which is %s thick there; leave %s beyond its tip", g.with.Name(), f.tape(g.with.Length), p.stands(a)[0].Spoken, f.tape(wood), f.tape(coverOf(g.with))),
					"common practice: a quarter inch of wood beyond the tip", mend)
				return
			}
		}
	}
}
