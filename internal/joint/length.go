package joint

import (
	"errors"
	"fmt"
	"math"

	"scantling/internal/measure"
	"scantling/internal/screw"
	"scantling/internal/snag"
)

// choose gives a fastener its length, where none is written.
func (g *group) choose(p *Pair, u *Use) {
	w := u.Fastener
	if len(u.Axes) == 0 {
		return
	}
	through, both := u.stack()
	clamped, _ := measure.FromMM(through[1])
	stack, _ := measure.FromMM(both[1])
	switch {
	case w.Bolted() && g.insert != nil:
		if fit, deep, err := w.ForInsert(*g.insert, clamped, u.behind()); err == nil {
			u.Fastener, u.Fit, u.Behind = fit.Bolt, &fit, deep.MM()
		}
	case w.Bolted():
		if fit, err := w.ForStack(stack); err == nil {
			u.Fastener, u.Fit = fit.Bolt, &fit
		}
	case w.Screwed() && w.Length == 0:
		least, most := bounds(p, u)
		u.Fastener.Length = w.Lengths[len(w.Lengths)-1]
		if l := lengthNear(w, clamped*5/2, least, most); l != 0 {
			u.Fastener.Length = l
		}
	}
}

// behind returns the wood there is for the hole of an insert: all of the far board
// but the cover.
func (u *Use) behind() measure.Length {
	least := math.Inf(1)
	for _, a := range u.Axes {
		least = math.Min(least, a.Stack[1])
	}
	room, _ := measure.FromMM(least)
	return room - coverOf(u.Fastener)/2
}

// bounds returns between which lengths a screw or nail bites enough and leaves
// cover beyond its tip, at every axis of a use.
func bounds(p *Pair, u *Use) (least, most measure.Length) {
	through, both := u.stack()
	clamped, _ := measure.FromMM(through[1])
	all, _ := measure.FromMM(both[0])
	return clamped + biteOf(u.Fastener, p.EndWood), all - coverOf(u.Fastener)
}

// lengthNear returns the length sold nearest to aim between least and most, the
// shorter of two equally near; 0 if none is sold. A screw without a length aims at
// two and a half times the clamped board. Source: common practice.
func lengthNear(w screw.Fastener, aim, least, most measure.Length) measure.Length {
	var best measure.Length
	off := func(l measure.Length) measure.Length { return max(l-aim, aim-l) }
	for _, l := range w.Lengths {
		if l >= least && l <= most && (best == 0 || off(l) < off(best)) {
			best = l
		}
	}
	return best
}

// bolt says why no bolt fits a pair, with the way out.
func (f *finder) bolt(g *group, p *Pair, u *Use) {
	through, both := u.stack()
	clamped, _ := measure.FromMM(through[1])
	stack, _ := measure.FromMM(both[1])
	fits := func(w screw.Fastener) error {
		_, err := w.ForStack(stack)
		if g.insert != nil {
			_, _, err = w.ForInsert(*g.insert, clamped, u.behind())
		}
		return err
	}
	err := fits(g.with)
	if err == nil {
		return
	}
	what, mend := err.Error(), snag.Say("use a screw there, or thinner wood")
	var unfit *screw.FitError
	if errors.As(err, &unfit) {
		what, mend = unfit.What, snag.Say(unfit.Mend)
	}
	if g.with.Length != 0 { // a length that was written; without one the right length is found
		bare := screw.Fastener{Row: g.with.Row, Finish: g.with.Finish}
		if fits(bare) == nil {
			mend = snag.Replace(fmt.Sprintf("write %s, and the length is found", bare.Name()), g.said.At, bare.Name())
		}
	}
	mends := []snag.Mend{mend}
	if mend.Edits == nil {
		mends = append(f.instead(g, func(w screw.Fastener) bool { return f.trial(g, g.joint.Pattern, w, noShort) }), mend)
	}
	f.about(g, p, "bolt-length", snag.Error, what, "common practice: wood, washers, nut and a quarter inch, 6 mm, beyond it", mends...)
}
