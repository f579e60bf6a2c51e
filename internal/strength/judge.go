package strength

import (
	"math"
	"slices"

	"scantling/internal/frame"
	"scantling/internal/geom"
	"scantling/internal/joint"
	"scantling/internal/screw"
	"scantling/internal/steady"
	"scantling/internal/timber"
)

// A Capacity is what a fastener may carry, N, with the reasoning.
type Capacity struct {
	Lateral timber.Lateral  // by yield mode, before factors
	Shear   float64         // with factors; NaN: no published value
	Pull    float64         // with factors; NaN: no published value
	Factors []timber.Factor // of the shear
	PullBy  string          // what gives way first when pulled: "thread", "head", "washer"
}

// A judge keeps the hardest-worked place of every board and joint.
type judge struct {
	m      *model
	r      *Result
	limits map[limitKey]*timber.Limits
	worst  []Member // by member
	joints map[*joint.Joint]*Fastening
	order  []*joint.Joint
}

type limitKey struct {
	member, beam int
	duration     timber.Duration
}

func newJudge(m *model, r *Result) *judge {
	j := &judge{m: m, r: r, limits: map[limitKey]*timber.Limits{}, worst: make([]Member, len(m.members)), joints: map[*joint.Joint]*Fastening{}}
	for i := range m.members {
		b := &m.members[i]
		w := Member{Board: b.b, Assumed: b.assumed}
		if b.strength == nil {
			w.Use, w.Verdict, w.Why = math.NaN(), CannotTell, "no design values are published here for "+b.b.Stock.String()
		} else {
			w.Grade = b.strength.Grade
		}
		j.worst[i] = w
	}
	return j
}

// look holds one answer of the frame against the rules.
func (j *judge) look(c int, r frame.Result) {
	for i := range j.m.members {
		j.board(c, i, r)
	}
	for k := range j.m.holdings {
		j.fastener(c, &j.m.holdings[k], r)
	}
}

// board looks at both ends of every beam of a member.
func (j *judge) board(c, i int, r frame.Result) {
	b := &j.m.members[i]
	if b.strength == nil {
		return
	}
	w := &j.worst[i]
	for k := range b.sections {
		t, alongY := b.sections[k].timber()
		l := j.limit(i, k, t, j.r.Cases[c].Duration)
		for _, end := range [2]float64{0, 1} {
			in := j.m.m.Inside(j.r.Cases[c].Case, r, b.beam+k, end)
			d := timber.Demand{Axial: in.Pull, MomentStrong: in.Moment1, MomentWeak: in.Moment2, ShearStrong: in.Shear1, ShearWeak: in.Shear2}
			if !alongY {
				d.MomentStrong, d.MomentWeak, d.ShearStrong, d.ShearWeak = d.MomentWeak, d.MomentStrong, d.ShearWeak, d.ShearStrong
			}
			if use := l.Use(d); use > w.Use || w.Limits == nil {
				w.Use, w.Case, w.Demand, w.Limits = use, c, d, l
				w.At = j.m.m.Nodes[b.node+k+int(end)].At
			}
		}
	}
}

// limit returns what a beam of a member may carry in loads of that duration. It
// bows and rolls over between the places where other boards hold it.
func (j *judge) limit(i, k int, s timber.Section, d timber.Duration) *timber.Limits {
	key := limitKey{i, k, d}
	if l := j.limits[key]; l != nil {
		return l
	}
	b := &j.m.members[i]
	free := 0.0
	held := b.held
	for n := 1; n < len(held); n++ {
		free = math.Max(free, held[n]-held[n-1])
	}
	if len(held) < 2 {
		free = b.b.L
	}
	l := timber.Member{Reference: *b.strength, Strong: s, Unbraced: free, BuckleStrong: free, BuckleWeak: free,
		Conditions: timber.Conditions{Duration: d, Wet: j.m.wet, Treated: b.b.Stock.Treatment != 0}}.Limits()
	j.limits[key] = &l
	return &l
}

// fastener looks at one fastener.
func (j *judge) fastener(c int, h *holding, r frame.Result) {
	f := j.joints[h.joint]
	if f == nil {
		f = &Fastening{Joint: h.joint, Use: -1}
		j.joints[h.joint] = f
		j.order = append(j.order, h.joint)
	}
	s0, s1 := r.Force[h.slip[0]], r.Force[h.slip[1]]
	one := j.m.m.Links[h.slip[0]].Way
	push := one.Times(s0).Along(h.axis.Way.Cross(one), s1) // on the board gone through
	shear, pull := push.Length(), 0.0
	if h.pull >= 0 {
		pull = math.Max(0, r.Force[h.pull])
	}
	holds := j.m.holds(h, push, j.r.Cases[c].Duration)
	use := timber.Both(pull, shear, holds.Pull, holds.Shear, h.use.Fastener.Nailed())
	if math.IsNaN(holds.Pull) || math.IsNaN(holds.Shear) {
		use = shear / holds.Shear
	}
	if use > f.Use || f.Use < 0 || f.Verdict != CannotTell && math.IsNaN(holds.Pull) && pull > trifle {
		*f = Fastening{Joint: h.joint, Pair: h.pair, What: h.use.Fastener.Name(), At: h.axis.Meet(), Use: use, Case: c, Shear: shear, Pull: pull, Holds: holds}
		switch {
		case math.IsNaN(holds.Shear):
			f.Verdict, f.Why = CannotTell, "no value is published for this fastener"
		case math.IsNaN(holds.Pull) && pull > trifle:
			f.Verdict, f.Why = CannotTell, "it is pulled out of end grain, for which the standard gives no value"
		}
	}
}

// trifle is a pull, N, that is nothing: a tenth of what a fingertip pushes.
const trifle = 5

// holds returns what one fastener may carry pushed that way.
func (m *model) holds(h *holding, push geom.Vec, d timber.Duration) Capacity {
	w, p := h.use.Fastener, h.pair
	side, main := &m.members[m.of[p.Through.ID]], &m.members[m.of[p.Into().ID]]
	gs, gm := gravityOf(side), gravityOf(main)
	long, dia := w.Length.MM(), w.Shank.MM()
	dowel := timber.Dowel{Nominal: dia, D: dia, Yield: timber.NailYield(dia)}
	reach := h.axis.Stack[1]
	switch {
	case w.Bolted():
		dowel.Yield = timber.BoltYield
	case w.Family == screw.LagScrew:
		dowel.Yield = timber.LagYield(dia)
		fallthrough
	default:
		if w.Root > 0 {
			dowel.D = w.Root.MM()
		}
		reach = math.Min(reach, long-h.axis.Stack[0])
	}
	if w.Family == screw.Dowel || reach <= 0 || !w.Driven() {
		return Capacity{Shear: math.NaN(), Pull: math.NaN()}
	}
	layer := func(b *member, g, length float64) timber.Layer {
		sin, cos := slant(b, push)
		return timber.Layer{Length: length, Strength: timber.DowelBearing(g, dia, sin, cos), Slant: steady.Asin(sin) * 2 / math.Pi}
	}
	c := Capacity{Lateral: timber.SingleShear(dowel, layer(main, gm, reach), layer(side, gs, h.axis.Stack[0]))}
	c.Factors = m.factors(h, push, reach, d)
	c.Shear = c.Lateral.Force
	for _, f := range c.Factors {
		c.Shear *= f.Value
	}
	c.Pull, c.PullBy = m.pulls(h, reach, gs, gm, d)
	return c
}

// factors returns what the lateral value of a fastener is multiplied by.
func (m *model) factors(h *holding, push geom.Vec, reach float64, d timber.Duration) (out []timber.Factor) {
	w, p := h.use.Fastener, h.pair
	dia := w.Shank.MM()
	add := func(f timber.Factor) {
		if f.Value != 1 {
			out = append(out, f)
		}
	}
	add(timber.Conditions{Duration: d}.Lasting())
	add(timber.LateralWet(dia, false, m.wet, false))
	if p.EndWood {
		add(timber.EndGrain())
	}
	if !w.Bolted() {
		add(timber.Penetration(dia, reach))
		return out
	}
	worst := timber.Factor{Value: 1}
	for _, b := range [2]*member{&m.members[m.of[p.A.ID]], &m.members[m.of[p.B.ID]]} {
		x := b.b.Pose.In(h.axis.Meet()).X
		box := b.b.Solid.Box
		end := math.Min(x-box.Low.X, box.High.X-x)
		if f := timber.Geometry("distance to the end of the "+b.b.Spoken, end, 4*dia); f.Value < worst.Value {
			worst = f
		}
	}
	add(worst)
	return out
}

// pulls returns what a fastener holds along itself, and what gives way first.
func (m *model) pulls(h *holding, reach, gs, gm float64, d timber.Duration) (float64, string) {
	w, p := h.use.Fastener, h.pair
	lasting := timber.Conditions{Duration: d}.Lasting().Value
	if w.Bolted() {
		b := &m.members[m.of[p.Into().ID]]
		if b.strength == nil {
			return math.NaN(), ""
		}
		across := b.strength.Bearing(timber.Conditions{Wet: m.wet}, 0, 0).Adjusted()
		// The square neck or head of the other side presses on no less.
		return timber.WasherPull(2.5*w.Shank.MM(), w.Hole().MM(), across), "washer"
	}
	thread := math.Min(reach, w.Thread().MM())
	if w.Nailed() {
		thread = reach
	}
	var perMM float64
	switch {
	case p.EndWood && w.Family != screw.LagScrew:
		return math.NaN(), ""
	case w.Family == screw.LagScrew:
		perMM = timber.LagWithdrawal(gm, w.Shank.MM())
		if p.EndWood {
			perMM *= 0.75
		}
	case w.Nailed():
		perMM = timber.NailWithdrawal(gm, w.Shank.MM())
	default:
		perMM = timber.ScrewWithdrawal(gm, w.Shank.MM())
	}
	pull, by := perMM*thread, "thread"
	if head := w.Head.MM(); head > 0 && !w.Nailed() {
		if through := timber.HeadThrough(gs, head, h.axis.Stack[0]); through < pull {
			pull, by = through, "head"
		}
	}
	return pull * lasting * timber.PullWet(w.Nailed(), false, m.wet).Value, by
}

// slant returns the sine and cosine of the angle between a force and the grain.
func slant(b *member, push geom.Vec) (sin, cos float64) {
	l := push.Length()
	if l == 0 {
		return 0, 1
	}
	cos = math.Min(1, math.Abs(push.Dot(b.b.Pose.X))/l)
	return math.Sqrt(1 - float64(cos*cos)), cos
}

// gravityOf returns the gravity connections in a board are designed by.
func gravityOf(b *member) float64 {
	if b.wood.DesignGravity > 0 {
		return b.wood.DesignGravity
	}
	return softest
}

// softest is the gravity taken for a wood the standard does not list: the least
// of those it does. Source: NDS 2018, table 12.3.3A, northern white cedar.
const softest = 0.31

// finish sorts what was found, hardest-worked first.
func (j *judge) finish() {
	for i := range j.worst {
		w := j.worst[i]
		if w.Verdict != CannotTell && w.Use > 1 {
			w.Verdict = Fails
		}
		j.r.Members = append(j.r.Members, w)
	}
	slices.SortStableFunc(j.r.Members, func(a, b Member) int { return harder(a.Use, b.Use) })
	for _, k := range j.order {
		f := *j.joints[k]
		if f.Verdict != CannotTell && f.Use > 1 {
			f.Verdict = Fails
		}
		j.r.Joints = append(j.r.Joints, f)
	}
	slices.SortStableFunc(j.r.Joints, func(a, b Fastening) int { return harder(a.Use, b.Use) })
}

// harder orders uses, the greater first and those nobody knows last.
func harder(a, b float64) int {
	switch {
	case math.IsNaN(a) && math.IsNaN(b):
		return 0
	case math.IsNaN(a):
		return 1
	case math.IsNaN(b):
		return -1
	case a > b:
		return -1
	case a < b:
		return 1
	}
	return 0
}
