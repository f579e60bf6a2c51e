package joint

import (
	"fmt"
	"math"
	"slices"

	"scantling/internal/geom"
	"scantling/internal/measure"
	"scantling/internal/screw"
	"scantling/internal/snag"
	"scantling/internal/span"
)

// underHead is the wood left under a head or nut in its counterbore: half an inch.
// Source: common practice.
const underHead = measure.Inch / 2

// tooDeep says when a counterbore leaves too little wood under the head or the nut,
// with the deepest that does not.
func (f *finder) tooDeep(g *group) bool {
	c := g.joint.Counterbore
	for side := range g.sunk {
		if g.sunk[side] == 0 {
			continue
		}
		at, least := 0, math.Inf(1)
		for k := range g.pairs {
			for _, a := range g.uses[k].Axes {
				if a.Stack[side] < least {
					at, least = k, a.Stack[side]
				}
			}
		}
		if least >= underHead.MM()-1e-6 {
			continue
		}
		p := g.pairs[at]
		b := p.stands(Axis{})[side]
		most, _ := measure.FromMM(least + g.sunk[side])
		mends := []snag.Mend{snag.Say("leave counterbore: out, or use thicker wood")}
		if deep := f.down(most - underHead); deep > 0 && !c.At[side].IsZero() {
			one := snag.Replace("make it "+f.text(deep), c.At[side], f.text(deep))
			bare := screw.Fastener{Row: g.with.Row, Finish: g.with.Finish}
			both := snag.Mend{Says: one.Says + ", and let the length be found: " + bare.Name(), Edits: append(slices.Clone(one.Edits), span.Edit{At: g.said.At, Text: bare.Name()})}
			mends = append([]snag.Mend{one, both}, mends...)
		}
		f.about(g, p, "counterbore-deep", snag.Error,
			fmt.Sprintf("a counterbore %s deep leaves %s of the %s under the %s of %s; leave %s", f.length(g.sunk[side]), f.length(math.Max(0, least)), b.Spoken, []string{"head", "nut"}[side], g.with.Name(), f.tape(underHead)),
			"common practice: half an inch of wood under a head", mends...)
		return true
	}
	return false
}

// dowel says when a dowel's hole would come through a board: its half, the space for
// glue and an eighth of an inch of wood must lie in either.
func (f *finder) dowel(g *group) {
	const floor = measure.Inch / 8
	at, least := -1, math.Inf(1)
	for k := range g.pairs {
		for _, a := range g.uses[k].Axes {
			if w := math.Min(a.Stack[0], a.Stack[1]); w < least {
				at, least = k, w
			}
		}
	}
	wood, _ := measure.FromMM(least)
	room, _ := measure.FromMM(least - spare)
	if most := (room - floor) * 2; at >= 0 && g.with.Length > most && !g.uses[at].Pegged() {
		p := g.pairs[at]
		b := p.Into()
		for _, a := range g.uses[at].Axes {
			if a.Stack[0] <= least {
				b = p.Through
			}
		}
		_, both := g.uses[at].stack()
		mends := append(f.instead(g, func(w screw.Fastener) bool {
			return (w.Length <= most || w.Length.MM() > both[1]-float64(rim/2)) && f.trial(g, g.joint.Pattern, w, noShort)
		}), snag.Say(fmt.Sprintf("use a dowel up to %s long, or thicker wood", f.tape(max(0, most)))))
		deep, _ := measure.FromMM(float64(g.with.Length.MM()/2) + spare)
		f.about(g, p, "dowel-long", snag.Error,
			fmt.Sprintf("the hole for half of %s is %s deep, and the %s is %s thick there; leave %s", g.with.Name(), f.tape(deep), b.Spoken, f.tape(wood), f.tape(floor)),
			"common practice: half a dowel in each board, and 1/16 in for the glue", mends...)
	}
}

// thread says when the smooth shank of a screw takes up so much of the far board that
// its thread holds too little there, or so little of the first that the thread, hole
// or no hole, catches in it and keeps the two apart.
func (f *finder) thread(g *group) {
	if !g.with.Screwed() {
		return
	}
	for k, p := range g.pairs {
		u := g.uses[k]
		through, _ := u.stack()
		clamped, _ := measure.FromMM(through[1])
		holds, smooth := inFar(u.Fastener, clamped), u.Fastener.Length-u.Fastener.Thread()
		want := threadOf(u.Fastener)
		fits := func(w screw.Fastener) bool {
			return inFar(w, clamped) >= want-measure.Inch/64 && (w.Length-w.Thread())*2 >= clamped-measure.Inch/64
		}
		if fits(u.Fastener) || u.Fastener.Length < clamped+biteOf(u.Fastener, p.EndWood) { // too short: said already
			continue
		}
		w := u.Fastener
		code := snag.Code("thread-short")
		what := fmt.Sprintf("the shank of %s is smooth for %s and the %s is %s thick, so that only %s of thread hold in the %s; %s is wanted", w.Name(), f.tape(smooth), p.Through.Spoken, f.tape(clamped), f.tape(holds), p.Into().Spoken, f.tape(want))
		why := "AWC NDS 2018, 12.1.4 and 12.1.5, least penetration of the thread (from memory)"
		if holds >= want-measure.Inch/64 {
			code = "thread-in-both"
			what = fmt.Sprintf("the thread of %s begins %s below its head, and the %s is %s thick: what stands of it there keeps the two apart", w.Name(), f.tape(smooth), p.Through.Spoken, f.tape(clamped))
			why = "common practice: half of the board under the head, or more, is passed by smooth shank"
		}
		mend := snag.Say("sink the head in a counterbore, use a screw with another thread, or a bolt")
		least, most := bounds(p, u)
		for _, l := range w.Lengths {
			if other := (screw.Fastener{Row: w.Row, Length: l, Finish: w.Finish}); l >= least && l <= most && fits(other) {
				mend = snag.Replace("use "+other.Name(), g.said.At, other.Name())
				break
			}
		}
		f.about(g, p, code, snag.Caution, what, why, mend)
		return
	}
}

// inFar returns how much of a screw's thread stands beyond a board so thick.
func inFar(w screw.Fastener, clamped measure.Length) measure.Length {
	return w.Length - max(clamped, w.Length-w.Thread())
}

// threadOf returns how much thread must stand in the far board: six diameters of a
// screw, but no more than an inch up to no. 10, and four of a lag screw.
func threadOf(w screw.Fastener) measure.Length {
	if w.Family == screw.LagScrew {
		return 4 * w.Diameter()
	}
	return min(6*w.Diameter(), biteOf(w, false))
}

// thick is the part of a board's thickness that a screw in its edge may take before
// it splits even when it is drilled for. Source: common practice.
const thick = 0.25

// split says when a screw or nail is too thick for the edge it is driven into.
func (f *finder) split(g *group) {
	d := g.with.Shank.MM()
	for k, p := range g.pairs {
		for _, a := range g.uses[k].Axes {
			for side, b := range p.stands(a) {
				at := a.At.Along(a.Way, a.Stack[0]/2)
				if side == 1 {
					at = a.Meet().Along(a.Way, math.Min(a.Stack[1], 10))
				}
				way := b.Pose.InWay(a.Way).Cross(geom.Vec{X: 1})
				if way.Length() < math.Sqrt2/2 {
					continue // into end grain: said already
				}
				wide := 0.0
				for _, s := range b.Solid.Through(b.Pose.In(at), way.Unit()) {
					if s[0] <= 0 && s[1] >= 0 {
						wide = s[1] - s[0]
					}
				}
				if wide == 0 || d <= float64(thick*wide)+1e-6 {
					continue
				}
				mends := append(f.instead(g, func(w screw.Fastener) bool {
					return w.Shank.MM() <= float64(thick*wide) && f.trial(g, g.joint.Pattern, w, noShort)
				}), snag.Say("use a thinner one, or let it go in where the board is wider"))
				f.about(g, p, "split-risk", snag.Caution,
					fmt.Sprintf("%s is %s thick and stands in wood of the %s only %s wide: it splits", g.with.Name(), f.fine(d), b.Spoken, f.length(wide)),
					"common practice: no thicker than a quarter of the edge it goes into", mends...)
				return
			}
		}
	}
}
