package joint

import (
	"fmt"
	"strings"

	"scantling/internal/design"
	"scantling/internal/lumber"
	"scantling/internal/screw"
	"scantling/internal/snag"
)

// metals says which fasteners would rust where they stand: plain ones in treated
// wood, zinc near salt water, and two families of metal in one assembly.
func (f *finder) metals(joints []Joint) {
	first := screw.Fastener{}
	coast := strings.Contains(f.piece.Use.Lives, "coast") || strings.Contains(f.piece.Use.Lives, "salt")
	for i := range joints {
		j := &joints[i]
		for k, w := range j.With {
			if w.Finish == screw.Unsaid || len(j.Pairs) == 0 {
				continue
			}
			g := &group{joint: j, with: w, said: j.Joint.With[min(k, len(j.Joint.With)-1)]}
			p := &j.Pairs[0]
			with := func(finish screw.Finish) snag.Mend {
				better := w.As(finish)
				return snag.Replace("use "+better.Name(), g.said.At, better.Name())
			}
			keep := screw.Galvanized
			if first.Finish != screw.Unsaid && first.SuitsTreated() && (!coast || first.Finish.SuitsCoast()) {
				keep = first.Finish
			} else if coast {
				keep = screw.Stainless
			}
			treated := f.treated(j)
			switch {
			case treated != nil && !w.SuitsTreated():
				f.about(g, p, "corrosion", snag.Error,
					fmt.Sprintf("%s rusts in the %s, which is treated (%s): its preservative holds copper", w.Name(), treated.Spoken, treated.Stock.Treatment),
					"IBC 2012, section 2304.9.5: hot-dip galvanized, stainless, silicon bronze or copper in treated wood", with(keep))
			case coast && !w.Finish.SuitsCoast():
				f.about(g, p, "corrosion", snag.Caution,
					fmt.Sprintf("%s does not last by salt water, where the piece is to stand", w.Name()),
					"within about 300 ft of salt water stainless steel (guidance, from memory)", with(screw.Stainless))
			case first.Finish != screw.Unsaid && w.Finish.Metal() != first.Finish.Metal():
				f.about(g, p, "metals-mixed", snag.Caution,
					fmt.Sprintf("%s and %s are of two families of metal; in the wet the one eats the other", w.Name(), first.Name()),
					"SFPA: stainless and galvanized are not mixed in one joint", with(keep))
			}
			if first.Finish == screw.Unsaid {
				first = w
				if treated != nil && !w.SuitsTreated() {
					first.Finish = keep // what it will be once that is mended
				}
			}
		}
	}
}

// treated returns the first board of a joint that is pressure-treated, or nil.
func (f *finder) treated(j *Joint) *design.Board {
	for _, p := range j.Pairs {
		for _, b := range []*design.Board{p.Through, p.Into()} {
			if b.Stock != nil && b.Stock.Treatment != lumber.Untreated {
				return b
			}
		}
	}
	return nil
}
