package joint

import (
	"fmt"
	"slices"
	"strings"

	"scantling/internal/board"
	"scantling/internal/design"
	"scantling/internal/lumber"
	"scantling/internal/screw"
	"scantling/internal/snag"
)

// A metal is one fastener the design names, and the boards it stands in.
type metal struct {
	with   screw.Fastener
	said   design.Fastening
	name   string // of the joint or the hardware
	boards []*design.Board
}

// fastened lists the fasteners of the joints and of the hardware, in file order.
func (f *finder) fastened(joints []Joint) (out []metal) {
	for i := range joints {
		j := &joints[i]
		var in []*design.Board
		for _, p := range j.Pairs {
			in = append(in, p.A, p.B)
		}
		for k, w := range j.With {
			if w.Family != screw.Glue && w.Family != screw.Dowel && len(in) > 0 {
				out = append(out, metal{w, j.fastening(k), j.Name, in})
			}
		}
	}
	for _, h := range f.piece.Hardware {
		var in []*design.Board
		for _, id := range h.Fixed {
			if i, ok := f.at[id]; ok {
				in = append(in, f.piece.Boards[i])
			}
		}
		for _, said := range h.With {
			if w, err := screw.Parse(said.Phrase); err == nil && len(in) > 0 {
				out = append(out, metal{w, said, h.Name, in})
			}
		}
	}
	return out
}

// coast reports whether the piece is to stand by salt water.
func coast(p *design.Piece) bool {
	return slices.ContainsFunc([]string{"coast", "salt", "sea"}, func(word string) bool { return strings.Contains(p.Use.Lives, word) })
}

// metals says which fasteners would rust where they stand or stain the wood: plain
// and plated ones in treated wood, plain ones in woods full of tannin, zinc near salt
// water, and two families of metal in one assembly.
func (f *finder) metals(joints []Joint) {
	first := metal{}
	sea := coast(f.piece)
	for _, x := range f.fastened(joints) {
		w := x.with
		if w.Finish == screw.Unsaid {
			continue
		}
		lasts := func(w screw.Fastener) bool { return w.SuitsTreated() && (!sea || w.Finish.SuitsCoast()) }
		keep := screw.Galvanized
		if first.with.Finish != screw.Unsaid && lasts(first.with) {
			keep = first.with.Finish
		} else if sea {
			keep = screw.Stainless
		}
		tell := func(code snag.Code, s snag.Severity, what, why string) {
			better := w.As(keep)
			f.snags = append(f.snags, snag.Snag{Code: code, Severity: s, At: x.said.At, Tier: snag.Settled, Boards: []string{string(x.boards[0].ID)},
				What: x.name + ": " + what, Why: why, Mends: []snag.Mend{snag.Replace("use "+better.Name(), x.said.At, better.Name())}})
		}
		treated, tannic := x.among(treated), x.among(tannic)
		ruined := true
		switch {
		case treated != nil && !w.SuitsTreated():
			tell("corrosion", snag.Error, fmt.Sprintf("%s rusts in the %s, which is treated (%s): its preservative holds copper", w.Name(), treated.Spoken, treated.Stock.Treatment),
				"IBC 2012, section 2304.9.5: hot-dip galvanized, stainless, silicon bronze or copper in treated wood")
		case sea && !w.Finish.SuitsCoast():
			tell("corrosion", snag.Caution, w.Name()+" does not last by salt water, where the piece is to stand",
				"within about 300 ft of salt water stainless steel (guidance, from memory)")
		case tannic != nil && w.Finish == screw.Plain:
			tell("corrosion", snag.Caution, fmt.Sprintf("%s turns the %s black round its head: bare iron and the tannin of %s make ink", w.Name(), tannic.Spoken, tannic.Stock.Wood),
				"common practice: galvanized or stainless fasteners in cedar, redwood and oak")
		case first.with.Finish != screw.Unsaid && w.Finish.Metal() != first.with.Finish.Metal():
			tell("metals-mixed", snag.Caution, fmt.Sprintf("%s and %s, of %s, are of two families of metal; in the wet the one eats the other", w.Name(), first.with.Name(), first.name),
				"SFPA: stainless and galvanized are not mixed in one joint")
			ruined = false
		default:
			ruined = false
		}
		if first.with.Finish == screw.Unsaid {
			if first = x; ruined {
				first.with.Finish = keep // what it will be once that is mended
			}
		}
	}
}

// among returns the first board a fastener stands in that is so, or nil.
func (x metal) among(is func(*design.Board) bool) *design.Board {
	if i := slices.IndexFunc(x.boards, is); i >= 0 {
		return x.boards[i]
	}
	return nil
}

func treated(b *design.Board) bool { return b.Stock != nil && b.Stock.Treatment != lumber.Untreated }

// tannic reports whether a board's wood holds tannin that bare iron stains.
// Source: common practice.
func tannic(b *design.Board) bool {
	return b.Stock != nil && slices.ContainsFunc([]string{"cedar", "redwood", "oak"}, func(word string) bool { return strings.Contains(b.Stock.Wood, word) })
}

// Metal says which finish to buy the fasteners in that the design leaves open; "" when
// it leaves none open or nothing there makes them rust sooner than elsewhere.
func Metal(p *design.Piece, joints []Joint) string {
	f := finder{piece: p, at: map[board.ID]int{}}
	for i, b := range p.Boards {
		f.at[b.ID] = i
	}
	open, wet, said := false, false, screw.Unsaid
	for _, x := range f.fastened(joints) {
		if x.with.Finish == screw.Unsaid {
			open = true
			wet = wet || x.among(treated) != nil
		} else if said == screw.Unsaid {
			said = x.with.Finish
		}
	}
	switch {
	case !open:
		return ""
	case coast(p):
		return "Buy the fasteners in stainless steel, washers and nuts too: within about 300 ft of salt water zinc does not last."
	case said > screw.Plated:
		return "Buy the fasteners whose finish is not named in " + said.String() + " too: two metals together eat one another in the wet."
	case wet:
		return "Buy the fasteners hot-dip galvanized, stainless or with a coating rated for treated wood, all of one metal, washers and nuts too: the preservative eats plain and zinc plated steel."
	}
	return ""
}
