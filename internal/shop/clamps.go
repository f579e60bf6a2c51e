package shop

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"scantling/internal/geom"
	"scantling/internal/joint"
	"scantling/internal/lumber"
	"scantling/internal/measure"
	"scantling/internal/phrase"
	"scantling/internal/screw"
	"scantling/internal/snag"
	"scantling/internal/span"
	"scantling/internal/steady"
)

// Gluing, as the labels of outdoor glues have it. Source: common practice; the
// label rules.
const (
	openMinutes  = 10.0     // from spreading to clamping
	eachMinutes  = 1.5      // to spread, join and clamp one joint
	clampApart   = 8 * 25.4 // mm from clamp to clamp along a glue line
	clampMinutes = 60
	cureHours    = 24
)

// gravity is how level a joint must lie, as the cosine of its slope, for the board
// on top to stay by its weight while it is fastened: 30 degrees.
const gravity = 0.8660254

// A squeeze is what a clamp goes round: the boards a line through a joint, square
// to it, goes through without leaving the wood.
type squeeze struct {
	opening float64 // mm
	wedge   float64 // degrees its jaws stand askew on the outer faces
	from    span.Set
}

// clamps says how many clamps a step takes and how far they open: all at once
// where glue sets, two that move along where boards are only held while they are
// drilled and fastened. A board that lies on another stays by its weight.
func (s *shop) clamps(r *Step, d *doing) []Around {
	up := s.out.Lying(r).InWay(geom.Vec{Z: 1})
	type kind struct {
		opening Shown
		glued   bool
		count   int
		over    []string
		wedge   float64
	}
	var kinds []kind
	for _, w := range d.now {
		glued := slices.ContainsFunc(w.pair.Uses, func(u joint.Use) bool { return u.Fastener.Family == screw.Glue })
		level := math.Abs(w.pair.Contact.Plane.N.Dot(up)) > gravity
		if level && !glued {
			continue
		}
		q := s.squeeze(w.pair, d)
		if q.opening <= 0 {
			continue
		}
		k := kind{opening: s.pen.Length(q.opening, q.from), glued: glued, count: 1, wedge: q.wedge}
		if glued {
			k.count = max(1, int(math.Ceil(longest(w.pair.Contact)/clampApart)))
		}
		name := phrase.Spaced(w.pair.A.Name) + " and " + phrase.Spaced(w.pair.B.Name)
		if w.pair.A.Name == w.pair.B.Name {
			name = phrase.Spaced(w.pair.A.Name) + "s"
		}
		at := slices.IndexFunc(kinds, func(x kind) bool { return x.opening.Text == k.opening.Text && x.glued == glued })
		if at < 0 {
			k.over = []string{name}
			kinds = append(kinds, k)
			continue
		}
		x := &kinds[at]
		x.count += k.count
		x.wedge = math.Max(x.wedge, k.wedge)
		x.opening.From = x.opening.From.Union(k.opening.From)
		if !has(x.over, name) {
			x.over = append(x.over, name)
		}
	}
	var out []Around
	for _, k := range kinds {
		n := k.count
		if !k.glued {
			n = min(n, 2)
		}
		count := s.pen.Count(n, k.opening.From)
		t := Text(nil).Show(count).Say(" that " + map[bool]string{true: "opens ", false: "open "}[n == 1]).Show(k.opening).Say(" across " + strings.Join(k.over, "; across "))
		switch {
		case k.glued && n > 1:
			t = t.Say(", all at once")
		case !k.glued && k.count > n:
			t = t.Say(", moved on from joint to joint")
		}
		figures := []Figure{{"count", count}, {"opening", k.opening}}
		if k.wedge > 0 {
			wedge := s.pen.Angle(k.wedge, k.opening.From)
			t = t.Say("; the faces under its jaws stand askew, so put a wedge of ").Show(wedge).Say(" under one of them")
			figures = append(figures, Figure{"wedge", wedge})
			s.want(Jig{Step: r.Number, What: "wedge", Long: wedgeLong.show(s.pen), Angle: &wedge, Count: 2})
		}
		out = append(out, reading("clamp", t, practice, figures...))
	}
	return out
}

// wedgeLong is how long a wedge under a jaw is.
var wedgeLong = round{6, 150}

// longest is the longer side of the box round a contact, in mm.
func longest(c geom.Contact) float64 {
	out := 0.0
	for _, l := range c.Loops {
		for _, p := range l {
			for _, q := range l {
				out = math.Max(out, p.Distance(q))
			}
		}
	}
	return out
}

// squeeze follows the line through the middle of a joint, square to it, both ways
// through the boards of a step until it comes out of the wood.
func (s *shop) squeeze(p *joint.Pair, d *doing) squeeze {
	at, way := p.Contact.Middle, p.Contact.Plane.N
	type stretch struct {
		lo, hi  float64
		in, out geom.Vec // outward normals where the line comes out
		board   int
		used    bool
	}
	var all []stretch
	for _, id := range d.present {
		i := s.at[id]
		b := s.piece.Boards[i]
		here, along := b.Pose.In(at), b.Pose.InWay(way)
		for _, c := range b.Solid.Cells {
			x := stretch{lo: math.Inf(-1), hi: math.Inf(1), board: i}
			for _, h := range c.Planes {
				slope, over := h.N.Dot(along), h.Over(here)
				switch {
				case slope > geom.Same:
					if t := -over / slope; t < x.hi {
						x.hi, x.out = t, b.Pose.OutWay(h.N)
					}
				case slope < -geom.Same:
					if t := -over / slope; t > x.lo {
						x.lo, x.in = t, b.Pose.OutWay(h.N)
					}
				case over > geom.Touch:
					x.hi = math.Inf(-1)
				}
			}
			if x.hi > x.lo+geom.Touch {
				all = append(all, x)
			}
		}
	}
	lo, hi := -geom.Touch, geom.Touch
	q := squeeze{}
	var in, out geom.Vec
	for grew := true; grew; {
		grew = false
		for k := range all {
			x := &all[k]
			if x.used || x.lo > hi+geom.Touch || x.hi < lo-geom.Touch {
				continue
			}
			x.used, grew = true, true
			q.from = q.from.Union(s.piece.Boards[x.board].All())
			if x.lo < lo {
				lo, in = x.lo, x.in
			}
			if x.hi > hi {
				hi, out = x.hi, x.out
			}
		}
	}
	q.opening = hi - lo
	for _, n := range []geom.Vec{in, out} {
		if c := math.Abs(n.Dot(way)); c < steepest {
			q.wedge = math.Max(q.wedge, degrees(steady.Acos(math.Min(1, c))))
		}
	}
	if q.wedge > 45 {
		q.wedge = 0 // no clamp goes there; the fasteners hold it
	}
	return q
}

// steepest is the cosine of the slope, 2 degrees, at which a clamp still sits flat.
const steepest = 0.9993908

// glue says how a step's glue is used, and warns of more joints than can be put
// together before it skins over, and of wet lumber.
func (s *shop) glue(d *doing) []Around {
	var pairs []waiting
	for _, w := range d.now {
		if slices.ContainsFunc(w.pair.Uses, func(u joint.Use) bool { return u.Fastener.Family == screw.Glue }) {
			pairs = append(pairs, w)
		}
	}
	if pairs == nil {
		return nil
	}
	from := span.Set{}
	for _, w := range pairs {
		from = from.Union(w.joint.Scalars, s.rowFrom[w.pair.A.Name], s.rowFrom[w.pair.B.Name])
	}
	n := len(pairs)
	minutes := float64(n) * eachMinutes
	count := s.pen.Count(n, from)
	t := Words("use a glue made for outdoors, of class D4 (EN 204) or Type I (ANSI/HPVA HP-1). ").Show(count).
		Say(map[bool]string{true: " joint takes", false: " joints take"}[n == 1] + " about ").Show(s.pen.Count(int(math.Ceil(minutes)), from)).
		Say(" minutes to spread, join and clamp; the glue stays open for ").Show(s.pen.Count(int(openMinutes), span.Set{})).
		Say(". Glue nothing under " + s.cold() + ", and no wet wood")
	out := []Around{reading("glue", t, "EN 204:2016 and ANSI/HPVA HP-1 (from memory); times: "+practice+", the label rules", Figure{"joints", count})}
	out = append(out, reading("wait", Words("leave the clamps on for an hour, and put no load on the joints for ").Show(s.pen.Count(cureHours, span.Set{})).Say(" hours"), practice+"; the label rules"))
	if minutes > openMinutes {
		most := int(math.Floor(openMinutes / eachMinutes))
		s.snags = append(s.snags, snag.Snag{Code: "glue-open-time", Severity: snag.Caution, At: pairs[0].joint.At, Tier: snag.Settled,
			What:  fmt.Sprintf("the step “%s” glues %d joints, which take about %.0f minutes; the glue stays open for %.0f", d.Name, n, math.Ceil(minutes), openMinutes),
			Why:   "about a minute and a half a joint (" + practice + ")",
			Mends: []snag.Mend{snag.Say(fmt.Sprintf("part the step, no more than %d glued joints in each", most)), snag.Say("use a glue that stays open longer, and say so to the reader")}})
	}
	s.wetGlue(pairs)
	return out
}

func (s *shop) cold() string {
	if s.pen.Tape.Units() == measure.Metric {
		return "10 °C"
	}
	return "50 °F"
}

// wetGlue warns of glue on lumber that comes wet: treated lumber does, unless it
// was dried again, as a shop that builds indoors would have it.
func (s *shop) wetGlue(pairs []waiting) {
	if s.piece.Use.Built == "indoors dry" {
		return
	}
	said := map[string]bool{}
	for _, w := range pairs {
		for _, b := range [2]int{s.at[w.pair.A.ID], s.at[w.pair.B.ID]} {
			x := s.piece.Boards[b]
			if x.Stock == nil || x.Stock.Treatment == lumber.Untreated || said[x.Lumber+w.joint.Name] {
				continue
			}
			said[x.Lumber+w.joint.Name] = true
			s.snags = append(s.snags, snag.Snag{Code: "glue-wet", Severity: snag.Caution, At: w.joint.At, Tier: snag.Settled, Boards: []string{string(x.ID)},
				What:  fmt.Sprintf("%s glues the %s, of treated lumber, which is sold wet (about 30 %% moisture); glue wants 16 %% or less", w.joint.Name, x.Spoken),
				Why:   "treated lumber comes over fibre saturation unless it was dried again (American Softwood Lumber Standard, PS 20, and " + practice + ")",
				Mends: []snag.Mend{snag.Say("fasten it with screws or bolts instead"), snag.Say("use lumber dried after treatment and let it lie until it is dry: use: {climate: {built: indoors dry}}")}})
		}
	}
}
