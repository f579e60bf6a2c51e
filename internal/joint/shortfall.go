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
	"scantling/internal/steady"
)

// A shortfall is a fastener with less wood round it than it wants.
type shortfall struct {
	code        snag.Code
	pair        *Pair
	use         *Use
	board       *design.Board
	has         float64 // mm
	least, want float64 // what the standard allows, and gives full strength for
}

// worst returns the shortfalls of a group, of each code the one furthest below
// what is allowed.
func worst(g *group, uses []*Use) (out []shortfall) {
	for k, p := range g.pairs {
		for _, s := range shortfalls(p, uses[k]) {
			found := false
			for i, o := range out {
				if o.code == s.code {
					found = true
					if s.has/s.least < o.has/o.least-1e-9 {
						out[i] = s
					}
				}
			}
			if !found {
				out = append(out, s)
			}
		}
	}
	return out
}

// shortfalls measures the wood round each fastener of a pair, to the real ends and
// edges of both boards, half way along its path in each.
func shortfalls(p *Pair, u *Use) (out []shortfall) {
	long := u.Fastener.Length.MM()
	for _, a := range u.Axes {
		if a.In != "" { // a bracket's: its place was found with room for them
			return nil
		}
		rm := roomsOf(u.Fastener, a.Sunk)
		into := a.Stack[1]
		if long > 0 {
			into = math.Max(0, math.Min(into, long-a.Stack[0]))
		}
		for side, b := range []*design.Board{p.Through, p.Into()} {
			at := a.At.Along(a.Way, a.Stack[0]/2)
			if side == 1 {
				at = a.At.Along(a.Way, a.Stack[0]+float64(into/2))
			}
			grain := b.Pose.InWay(a.Way)
			ways := [2]geom.Vec{{X: 1}, grain.Cross(geom.Vec{X: 1})}
			ends := true
			if math.Abs(grain.X) > math.Sqrt2/2 { // along the grain: edges all round
				ways, ends = [2]geom.Vec{{Y: 1}, {Z: 1}}, false
			}
			for i, way := range ways {
				has, ok := toOutside(b, b.Pose.In(at), way.Unit())
				if !ok {
					continue
				}
				s := shortfall{code: "edge-near", pair: p, use: u, board: b, has: has, least: rm[1].edge, want: rm[0].edge}
				if i == 0 && ends {
					s.code, s.least, s.want = "end-near", rm[1].end, rm[0].end
				}
				if has < s.least-geom.Alike {
					out = append(out, s)
				}
			}
		}
	}
	rm := roomsOf(u.Fastener, [2]float64{})
	for i, a := range u.Axes {
		for _, c := range u.Axes[i+1:] {
			for _, b := range []*design.Board{p.Through, p.Into()} {
				d := b.Pose.InWay(a.At.Minus(c.At))
				across := d.Along(geom.Vec{X: 1}, -d.X).Length()
				if math.Abs(d.X) < rm[1].along-geom.Alike && across < rm[1].across-geom.Alike {
					out = append(out, shortfall{"spacing-near", p, u, b, d.Length(), rm[1].across, rm[1].along})
				}
			}
		}
	}
	return out
}

// toOutside returns how far the nearer end of the wood is from a place inside it,
// either way along a line.
func toOutside(b *design.Board, at, way geom.Vec) (float64, bool) {
	for _, s := range b.Solid.Through(at, way) {
		if s[0] <= 0 && s[1] >= 0 {
			return math.Min(-s[0], s[1]), true
		}
	}
	return 0, false
}

// near says that a fastener stands too near an end, an edge or the next one.
func (f *finder) near(g *group, s shortfall) {
	w := s.use.Fastener
	need := s.least
	diameters := fmt.Sprintf("%g diameters", math.Round(need/w.Diameter().MM()*10)/10)
	var what string
	switch s.code {
	case "spacing-near":
		what = fmt.Sprintf("two of %s stand %s apart in the %s, where along its grain %s is wanted, or %s across it", w.Name(), f.length(s.has), s.board.Spoken, f.length(s.want), f.length(s.least))
	default:
		to := map[snag.Code]string{"end-near": "end", "edge-near": "edge"}[s.code]
		what = fmt.Sprintf("%s stands %s from the %s of the %s; %s, %s, keeps it from splitting", w.Name(), f.length(s.has), to, s.board.Spoken, diameters, f.length(need))
	}
	had := map[snag.Code]bool{}
	for _, o := range worst(g, g.uses) {
		had[o.code] = o.code != s.code
	}
	passes := func(o shortfall) bool { return !had[o.code] } // no new fault, and not this one
	var mends []snag.Mend
	d := g.joint.Pattern
	for _, at := range []span.Range{d.EdgeAt, d.EndAt} {
		if !at.IsZero() && mends == nil {
			mends = f.moved(g, at, passes)
		}
	}
	if s.code == "spacing-near" {
		mends = append(mends, f.reset(g, passes)...)
		for n := d.Count - 1; n > 0 && !d.CountAt.IsZero() && mends == nil; n-- {
			e := d
			if e.Count = n; f.trial(g, e, g.with, passes) {
				mends = append(mends, snag.Replace(fmt.Sprintf("use %d there", n), d.CountAt, fmt.Sprint(n)))
			}
		}
	}
	if mends == nil {
		mends = f.instead(g, func(w screw.Fastener) bool { return w.Diameter() < g.with.Diameter() && f.trial(g, d, w, passes) })
	}
	if mends == nil {
		mends = append(mends, snag.Say("drill its hole to the full size the plan gives and drive it by hand, or let the boards meet over a larger area"))
	}
	f.about(g, s.pair, s.code, snag.Caution, what, ruleOf(w), mends...)
}

// moved returns the changes of a distance of the pattern, the nearest in sixteenths
// of an inch or millimetres first, with which no shortfall that bad names is left: the
// nearest that keeps clear of other fasteners, or else some that others may give way
// to.
func (f *finder) moved(g *group, at span.Range, bad func(shortfall) bool) (out []snag.Mend) {
	const some = 4
	d := g.joint.Pattern
	said := &d.FromEdge
	if at == d.EndAt {
		said = &d.FromEnd
	}
	if *said == nil { // what stands there could not be read
		return nil
	}
	unit := f.step()
	was := measure.Length((*said).Q.V).Round(unit)
	for step := measure.Length(1); step <= 48; step++ {
		for _, l := range []measure.Length{was + step*unit, was - step*unit} {
			if l <= 0 {
				continue
			}
			*said = &design.Figure{Q: l.Quantity()}
			mend := snag.Replace("move it to "+f.text(l), at, f.text(l))
			if f.trial(g, d, g.with, bad) {
				return append([]snag.Mend{mend}, out...)
			}
			f.deaf = true
			if len(out) < some && f.trial(g, d, g.with, bad) {
				out = append(out, mend)
			}
			f.deaf = false
		}
	}
	return out
}

// reset returns the other set of a pattern with which no shortfall that bad names is
// left: a zigzag first, which parts fasteners that stand in one line of the grain.
func (f *finder) reset(g *group, bad func(shortfall) bool) []snag.Mend {
	d := g.joint.Pattern
	if d.SetAt.IsZero() {
		return nil
	}
	was := d.Set
	for _, set := range []string{"stagger", "row", "across", "diagonal"} {
		if d.Set = set; set != was && f.trial(g, d, g.with, bad) {
			return []snag.Mend{snag.Replace("set them "+map[string]string{"stagger": "in a zigzag", "row": "in a row", "across": "across", "diagonal": "from corner to corner"}[set], d.SetAt, set)}
		}
	}
	return nil
}

// trial reports whether a group, laid by another pattern or with another fastener,
// fits everywhere, comes near no other fastener, and leaves no shortfall that bad
// names; and whether those that the same words of the design speak of still fit, with
// no fault they do not have.
func (f *finder) trial(g *group, d design.Pattern, w screw.Fastener, bad func(shortfall) bool) bool {
	if !f.fits(g, g, d, w, bad) {
		return false
	}
	for _, h := range f.groups {
		if h == g || h.joint.At != g.joint.At {
			continue
		}
		with := h.with
		if h.said.At == g.said.At {
			with = w
		}
		had := map[snag.Code]bool{}
		for _, o := range worst(h, h.uses) {
			had[o.code] = true
		}
		if !f.fits(h, g, d, with, func(o shortfall) bool { return !had[o.code] }) {
			return false
		}
	}
	return true
}

// fits is trial for one group, the fasteners of another apart.
func (f *finder) fits(g, apart *group, d design.Pattern, w screw.Fastener, bad func(shortfall) bool) bool {
	for k, p := range g.pairs {
		u := new(Use)
		if *u = g.use(k, d, w, variant{}); u.Axes == nil {
			return false
		}
		if w.Bolted() && u.Fit == nil {
			return false
		}
		for _, s := range shortfalls(p, u) {
			if bad(s) {
				return false
			}
		}
		for _, a := range u.Axes {
			n := newThorn(g, p, u, a)
			if !f.deaf && f.thicket.look(&n, func(o *thorn) bool { return o.group == g || o.group.joint.At == apart.joint.At }) < apartBy {
				return false
			}
		}
	}
	return true
}

// degreesOff returns the angle, in degrees, whose cosine is c.
func degreesOff(c float64) float64 { return steady.Acos(math.Min(1, c)) * 180 / math.Pi }
