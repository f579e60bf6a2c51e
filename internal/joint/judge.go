package joint

import (
	"fmt"
	"math"

	"scantling/internal/design"
	"scantling/internal/geom"
	"scantling/internal/measure"
	"scantling/internal/screw"
	"scantling/internal/snag"
	"scantling/internal/span"
)

// judge says what is wrong with the fasteners of a group: each fault once, where
// it is worst. all are the groups its fastener's phrase speaks for.
func (f *finder) judge(g *group, all []*group) {
	for k, p := range g.pairs {
		if len(g.uses[k].Axes) == 0 {
			f.noRoom(g, p, g.areas[k])
			return
		}
	}
	if f.tooDeep(g) {
		return
	}
	if g.with.Bolted() {
		for k, p := range g.pairs {
			if g.uses[k].Fit == nil {
				f.bolt(g, p, g.uses[k])
				return
			}
			if f.blocked(g, p, g.uses[k]) {
				return
			}
		}
	} else if g.with.Family == screw.Dowel {
		f.dowel(g)
	} else {
		f.bite(g, all)
		f.thread(g)
		f.split(g)
		f.endGrain(g)
	}
	for _, s := range worst(g, g.uses) {
		f.near(g, s)
	}
}

// noRoom says that a pattern fits nowhere in a contact, with the nearest pattern
// or fastener that does.
func (f *finder) noRoom(g *group, p *Pair, r *region) {
	n := max(1, g.joint.Pattern.Count)
	if g.joint.Pattern.Count == 0 {
		n = perPair
	}
	least := roomsOf(g.with, g.sunk)[len(rooms[0])-1]
	what := fmt.Sprintf("there is no room for %d %s where the %s meets the %s, an area %s by %s: each stands %s or more from an edge, %s from an end and %s from the next",
		n, plurals(g.with, n), p.Through.Spoken, p.Into().Spoken, f.length(r.high.x-r.low.x), f.length(r.high.y-r.low.y), f.length(least.edge), f.length(least.end), f.length(least.across))
	f.about(g, p, "no-room-to-fasten", snag.Error, what, ruleOf(g.with), append(f.fewer(g), snag.Say("or let the two meet over a larger area"))...)
}

// fewer returns the pattern changes and thinner fasteners that make a group fit:
// with all the wood round each that the standard asks for, else with less.
func (f *finder) fewer(g *group) (out []snag.Mend) {
	d := g.joint.Pattern
	for _, bad := range []func(shortfall) bool{anyShort, noShort} {
		if out == nil {
			out = f.reset(g, bad)
		}
		for n := d.Count - 1; n > 0 && !d.CountAt.IsZero() && out == nil; n-- {
			e := d
			if e.Count = n; f.trial(g, e, g.with, bad) {
				out = append(out, snag.Replace(fmt.Sprintf("use %d there", n), d.CountAt, fmt.Sprint(n)))
			}
		}
		for _, at := range []span.Range{d.EdgeAt, d.EndAt} {
			if !at.IsZero() && out == nil {
				out = f.moved(g, at, bad)
			}
		}
		if out == nil {
			out = f.instead(g, func(w screw.Fastener) bool { return w.Diameter() < g.with.Diameter() && f.trial(g, d, w, bad) })
		}
	}
	return out
}

// bite says when a screw or nail bites too little or comes too near the far side,
// with the nearest length sold that does neither in any pair it is used for.
func (f *finder) bite(g *group, all []*group) {
	at, worst, short := -1, 0.0, false
	for k, p := range g.pairs {
		through, both := g.uses[k].stack()
		l := g.uses[k].Fastener.Length.MM()
		lack, over := biteOf(g.uses[k].Fastener, p.EndWood).MM()-(l-through[1]), l-(both[0]-coverOf(g.with).MM())
		if lack > worst+geom.Alike {
			at, worst, short = k, lack, true
		}
		if over > worst+geom.Alike {
			at, worst, short = k, over, false
		}
	}
	if at < 0 {
		return
	}
	p, u := g.pairs[at], g.uses[at]
	w := u.Fastener
	through, both := u.stack()
	clamped, _ := measure.FromMM(through[1])
	if !short {
		clamped, _ = measure.FromMM(through[0])
	}
	wood, _ := measure.FromMM(both[0])
	bite, left := w.Length-clamped, wood-w.Length
	grain := ""
	if p.EndWood {
		grain = " of end grain"
	}
	var what string
	code, severity := snag.Code("screw-long"), snag.Error
	switch {
	case short:
		code = "screw-short"
		what = fmt.Sprintf("%s goes through %s of the %s and bites %s%s in the %s; it should bite %s", w.Name(), f.tape(clamped), p.Through.Spoken, f.tape(max(0, bite)), grain, p.Into().Spoken, f.tape(biteOf(w, p.EndWood)))
	case left < 0:
		what = fmt.Sprintf("%s comes out of the %s by %s: the two boards are %s thick together", w.Name(), p.Into().Spoken, f.tape(-left), f.tape(wood))
	case left < measure.Inch/64:
		what = fmt.Sprintf("%s comes to the far side of the %s; leave %s of wood beyond its tip", w.Name(), p.Into().Spoken, f.tape(coverOf(w)))
	default:
		severity = snag.Caution
		what = fmt.Sprintf("%s ends %s short of the far side of the %s; leave %s", w.Name(), f.tape(left), p.Into().Spoken, f.tape(coverOf(w)))
	}
	var lowest, highest measure.Length = 0, math.MaxInt64
	for _, g := range all {
		for k, p := range g.pairs {
			if len(g.uses[k].Axes) > 0 {
				least, most := bounds(p, g.uses[k])
				lowest, highest = max(lowest, least), min(highest, most)
			}
		}
	}
	mends := []snag.Mend{snag.Say(fmt.Sprintf("no %s sold is from %s to %s long: go through the other board, or use a bolt", w.Family, f.tape(lowest), f.tape(highest)))}
	if l := lengthNear(w, w.Length, lowest, highest); l != 0 {
		better := screw.Fastener{Row: w.Row, Length: l, Finish: w.Finish}
		mends = []snag.Mend{snag.Replace("use "+better.Name(), g.said.At, better.Name())}
	} else if other := f.instead(g, func(w screw.Fastener) bool { return f.trial(g, g.joint.Pattern, w, noShort) }); other != nil {
		mends = other
	} else if lowest > highest {
		mends = []snag.Mend{snag.Say(fmt.Sprintf("%s to bite and to leave wood beyond the tip takes %s to %s: go through the other board, use thicker wood, or a bolt", w.Family, f.tape(lowest), f.tape(highest)))}
	}
	f.about(g, p, code, severity, what, "common practice: an inch of bite, two in end grain, and a quarter inch of wood beyond the tip", mends...)
}

// endGrain says what fasteners along the grain of their receiver cannot carry.
func (f *finder) endGrain(g *group) {
	for k, p := range g.pairs {
		way := g.uses[k].Axes[0].Way
		along := math.Abs(p.Into().Pose.X.Dot(way))
		if along < math.Sqrt2/2 {
			continue
		}
		f.about(g, p, "end-grain", snag.Caution,
			fmt.Sprintf("%s enters the end grain of the %s, %.0f° from along its grain: it carries two thirds of a side load there and counts for nothing against being pulled out", g.uses[k].Fastener.Name(), p.Into().Spoken, degreesOff(along)),
			"AWC NDS 2018, 12.2 and 12.5.2 (from memory): end grain factor 0.67 across, no withdrawal for screws and nails",
			snag.Say(fmt.Sprintf("let nothing pull the %s off, put a block in the corner to screw into, or bolt the two where they lap", p.Through.Spoken)))
		return
	}
}

// An obstacle is another board where a bolt's nut or head should be.
type obstacle struct {
	board, outside *design.Board
	what           string
	need, free     float64
}

// inTheWay returns the board that leaves a bolt's nut or head the least room, when
// that is too little: looked for along its axis and round the rim of its washer.
func (f *finder) inTheWay(p *Pair, u *Use) (worst obstacle, found bool) {
	nut, washer := u.Fastener.Nut()
	if u.Fit != nil && u.Fit.Insert != nil {
		nut = 0
	}
	for _, a := range u.Axes {
		for _, x := range []struct {
			at, way geom.Vec
			need    float64
			round   float64
			of      *design.Board
			what    string
		}{{a.Meet().Along(a.Way, a.Stack[1]+a.Sunk[1]), a.Way, nut.MM() - a.Sunk[1], washer.MM() / 2, p.Into(), "nut"},
			{a.Face(), a.Way.Negated(), u.Fastener.Rise.MM() - a.Sunk[0], u.Fastener.Head.MM() / 2, p.Through, "head"}} {
			if x.need <= 0 {
				continue
			}
			side := x.way.Cross(x.of.Pose.X).Unit()
			rim := [5]geom.Vec{x.at, x.at.Along(side, x.round), x.at.Along(side, -x.round),
				x.at.Along(x.of.Pose.X, x.round), x.at.Along(x.of.Pose.X, -x.round)}
			for _, b := range f.beside(x.of) {
				if b == p.Through || b == p.Into() {
					continue
				}
				for _, at := range rim {
					for _, s := range b.Solid.Through(b.Pose.In(at), b.Pose.InWay(x.way)) {
						free := math.Max(0, s[0])
						if s[1] > geom.Touch && free < x.need && (!found || free < worst.free) {
							worst, found = obstacle{b, x.of, x.what, x.need, free}, true
						}
					}
				}
			}
		}
	}
	return worst, found
}

// blocked says when a bolt's nut or head has another board in its way.
func (f *finder) blocked(g *group, p *Pair, u *Use) bool {
	o, found := f.inTheWay(p, u)
	if found {
		f.about(g, p, "bolt-blocked", snag.Error,
			fmt.Sprintf("the %s of %s needs %s outside the %s, and the %s leaves %s there", o.what, u.Fastener.Name(), f.length(o.need), o.outside.Spoken, o.board.Spoken, f.length(o.free)),
			"a bolt needs room for its head and its nut", append(f.without(g), snag.Say("move the bolt, use a screw, or take the other board away from there"))...)
	}
	return found
}

// without returns the screw that may stand for a bolt whose nut has no room.
func (f *finder) without(g *group) []snag.Mend {
	for _, name := range []string{"structural screw 1/4", "screw 10"} {
		w, err := screw.Parse(name)
		if err != nil {
			continue
		}
		w.Finish = g.with.Finish
		for _, l := range w.Lengths {
			if long := (screw.Fastener{Row: w.Row, Length: l, Finish: w.Finish}); f.bites(g, long) && f.trial(g, g.joint.Pattern, long, anyShort) {
				return []snag.Mend{snag.Replace("use "+w.Name()+" instead", g.said.At, w.Name())}
			}
		}
	}
	return nil
}

// beside returns the boards that meet a board.
func (f *finder) beside(b *design.Board) []*design.Board {
	var out []*design.Board
	i := f.at[b.ID]
	for _, k := range f.meetings.of[i] {
		m := &f.meetings.All[k]
		out = append(out, f.piece.Boards[m.A+m.B-i])
	}
	return out
}

func plurals(w screw.Fastener, n int) string {
	if n == 1 {
		return w.Name()
	}
	return string(w.Family) + "s " + w.Size
}

func anyShort(shortfall) bool { return true }

func noShort(shortfall) bool { return false }
