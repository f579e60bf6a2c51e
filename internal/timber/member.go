package timber

import (
	"math"

	"scantling/internal/cite"
)

// A Member is a stick between the places that hold it.
type Member struct {
	Reference
	Conditions
	// Strong is the section bent on edge, Depth the wide side; the weak way is
	// the same turned over.
	Strong Section
	// Unbraced is the longest stretch of the edge in compression that nothing
	// holds sideways, mm. BuckleStrong and BuckleWeak are the effective column
	// lengths for bowing on edge and flat, mm.
	Unbraced, BuckleStrong, BuckleWeak float64
}

// A Demand is what one place of a member carries, all N and N·mm.
type Demand struct {
	Axial                    float64 // along the grain; tension is positive
	MomentStrong, MomentWeak float64
	ShearStrong, ShearWeak   float64
}

// A Term is one quantity in a check, as `why` prints it.
type Term struct {
	Symbol string
	Value  float64
	Unit   string
}

// A Check is one rule applied: the use is demand over capacity, and 1 is all of
// it.
type Check struct {
	Name     string // "bending", "shear", …
	Use      float64
	Equation string
	Terms    []Term
	Values   []Value // the design values that went in, with their factors
	From     cite.Source
}

// Least returns the check with the greatest use, and false when there is none.
func Least(checks []Check) (Check, bool) {
	if len(checks) == 0 {
		return Check{}, false
	}
	worst := checks[0]
	for _, c := range checks[1:] {
		if c.Use > worst.Use || c.Use != c.Use {
			worst = c
		}
	}
	return worst, true
}

// BeamStability returns the factor CL for bending of a section of value fb
// (Fb*, MPa) unbraced over unbracedMM, with its slenderness RB.
//
//	RB = √(le·d/b²), FbE = 1.20·Emin'/RB², q = FbE/Fb*
//	CL = (1 + q)/1.9 − √[((1 + q)/1.9)² − q/0.95]
//
// le is the table's for any loading: 2.06 lu below lu/d = 7, 1.63 lu + 3d to 14.3,
// 1.84 lu above. A section no deeper than broad does not roll over: CL = 1. Past
// RB = 50 the standard allows nothing: CL = 0.
//
// Source: NDS 2018, 3.3.3, equation 3.3-6 and table 3.3.3 note 1.
func BeamStability(s Section, eMin, fb, unbracedMM float64) (cl, rb float64) {
	if s.Depth <= s.Breadth || unbracedMM <= 0 {
		return 1, 0
	}
	le := 0.0
	switch slender := unbracedMM / s.Depth; {
	case slender < 7:
		le = 2.06 * unbracedMM
	case slender <= 14.3:
		le = float64(1.63*unbracedMM) + float64(3*s.Depth)
	default:
		le = 1.84 * unbracedMM
	}
	return stabilityAt(s, eMin, fb, le)
}

// stabilityAt is BeamStability for a given effective length.
func stabilityAt(s Section, eMin, fb, le float64) (cl, rb float64) {
	rb = math.Sqrt(le * s.Depth / (s.Breadth * s.Breadth))
	if rb > 50 {
		return 0, rb
	}
	q := 1.20 * eMin / (rb * rb) / fb
	a := (1 + q) / 1.9
	return a - math.Sqrt(float64(a*a)-q/0.95), rb
}

// ColumnStability returns the factor CP for compression along the grain of value
// fc (Fc*, MPa), of a column with effective length le and depth d the way it
// bows, both mm.
//
//	FcE = 0.822·Emin'/(le/d)², q = FcE/Fc*, c = 0.8 for sawn lumber
//	CP = (1 + q)/2c − √[((1 + q)/2c)² − q/c]
//
// Past le/d = 50 the standard allows nothing: CP = 0.
//
// Source: NDS 2018, 3.7.1, equation 3.7-1.
func ColumnStability(le, d, eMin, fc float64) (cp, fcE float64) {
	if le <= 0 {
		return 1, math.Inf(1)
	}
	slender := le / d
	if slender > 50 {
		return 0, 0
	}
	const c = 0.8
	fcE = 0.822 * eMin / (slender * slender)
	q := fcE / fc
	a := (1 + q) / (2 * c)
	return a - math.Sqrt(float64(a*a)-q/c), fcE
}

// Limits are what a member may carry, worked out once for many demands.
type Limits struct {
	strong                           Section
	fb1, fb2, ft, fc, fv             Value
	b1, b2, t, c, v                  float64 // the same, adjusted
	fcE1, fcE2, fbE                  float64 // critical buckling stresses, MPa
	area, strongModulus, weakModulus float64
}

// Limits returns what the standard allows the member.
//
// Source: NDS 2018, 3.3 (bending), 3.4 (shear), 3.6 and 3.7 (columns), 3.8
// (tension).
func (m Member) Limits() Limits {
	weak := Section{m.Strong.Depth, m.Strong.Breadth}
	l := Limits{
		strong: m.Strong, area: m.Strong.Area(), strongModulus: m.Strong.Modulus(), weakModulus: weak.Modulus(),
		fb1: m.Bending(m.Strong, m.Conditions), fb2: m.Bending(weak, m.Conditions),
		ft: m.Tension(m.Strong, m.Conditions), fc: m.Compression(m.Strong, m.Conditions), fv: m.Shear(m.Conditions),
		fbE: math.Inf(1),
	}
	eMin := m.Stability(m.Conditions).Adjusted()
	cl, rb := BeamStability(m.Strong, eMin, l.fb1.Adjusted(), m.Unbraced)
	l.fb1 = l.fb1.with(Factor{"CL", cl, "may roll over sideways", nds("3.3.3", cite.Memory)})
	if rb > 0 {
		l.fbE = 1.20 * eMin / (rb * rb)
	}
	var cp1, cp2 float64
	cp1, l.fcE1 = ColumnStability(m.BuckleStrong, m.Strong.Depth, eMin, l.fc.Adjusted())
	cp2, l.fcE2 = ColumnStability(m.BuckleWeak, m.Strong.Breadth, eMin, l.fc.Adjusted())
	l.fc = l.fc.with(Factor{"CP", math.Min(cp1, cp2), "may bow sideways", nds("3.7.1", cite.Memory)})
	l.b1, l.b2, l.t, l.c, l.v = l.fb1.Adjusted(), l.fb2.Adjusted(), l.ft.Adjusted(), l.fc.Adjusted(), l.fv.Adjusted()
	return l
}

// Use returns the greater use of bending with the force along the grain, and of
// shear: 1 is all the standard allows, +Inf means that it allows nothing at that
// slenderness.
func (l *Limits) Use(d Demand) float64 {
	bending, shear := l.uses(d)
	return math.Max(bending, shear)
}

// uses applies the rules for bending with tension or compression and for shear.
//
// Source: NDS 2018, 3.9.1 and 3.9.2 (combined), 3.4.2 (shear).
func (l *Limits) uses(d Demand) (bending, shear float64) {
	f1, f2 := math.Abs(d.MomentStrong)/l.strongModulus, math.Abs(d.MomentWeak)/l.weakModulus
	switch {
	case d.Axial < 0:
		fc := -d.Axial / l.area
		share := bent(fc, l.c)
		ratio := f1 / l.fbE
		bending = float64(share*share) + bent(f1, float64(l.b1*(1-fc/l.fcE1))) +
			bent(f2, float64(l.b2*(1-fc/l.fcE2-float64(ratio*ratio))))
		// Without bending the plain rule fc ≤ Fc' is the stricter one below 1.
		bending = math.Max(bending, share)
	default:
		bending = bent(d.Axial/l.area, l.t) + bent(f1, l.b1) + bent(f2, l.b2)
	}
	v := math.Sqrt(float64(d.ShearStrong*d.ShearStrong) + float64(d.ShearWeak*d.ShearWeak))
	return bending, 1.5 * v / l.area / l.v
}

// Check returns the rules as applied to what one place of the member carries,
// with every term and factor.
func (l *Limits) Check(d Demand) []Check {
	bending, shear := l.uses(d)
	f1, f2 := math.Abs(d.MomentStrong)/l.strongModulus, math.Abs(d.MomentWeak)/l.weakModulus
	terms := []Term{{"fb1", f1, "MPa"}, {"fb2", f2, "MPa"}}
	first := Check{"bending", bending, "fb1/Fb1' + fb2/Fb2' ≤ 1", terms, []Value{l.fb1, l.fb2}, nds("3.3.1 and 3.9", cite.Memory)}
	switch {
	case d.Axial < 0:
		first.Name, first.Equation = "bending and compression", "(fc/Fc')² + fb1/[Fb1'(1 − fc/FcE1)] + fb2/[Fb2'(1 − fc/FcE2 − (fb1/FbE)²)] ≤ 1"
		first.Terms = append(terms, Term{"fc", -d.Axial / l.area, "MPa"}, Term{"FcE1", l.fcE1, "MPa"}, Term{"FcE2", l.fcE2, "MPa"}, Term{"FbE", l.fbE, "MPa"})
		first.Values, first.From = append([]Value{l.fc}, first.Values...), nds("3.9.2, equation 3.9-3", cite.Memory)
	case d.Axial > 0:
		first.Name, first.Equation = "bending and tension", "ft/Ft' + fb1/Fb1' + fb2/Fb2' ≤ 1"
		first.Terms = append(terms, Term{"ft", d.Axial / l.area, "MPa"})
		first.Values, first.From = append([]Value{l.ft}, first.Values...), nds("3.9.1, equation 3.9-1", cite.Memory)
	}
	v := math.Sqrt(float64(d.ShearStrong*d.ShearStrong) + float64(d.ShearWeak*d.ShearWeak))
	return []Check{first, {"shear", shear, "fv = 3V/2A ≤ Fv'",
		[]Term{{"V", v, "N"}, {"A", l.area, "mm²"}, {"fv", 1.5 * v / l.area, "MPa"}}, []Value{l.fv}, nds("3.4.2, equation 3.4-2", cite.Memory)}}
}

// bent returns stress over capacity: 0 without stress, +Inf where buckling has
// left no capacity.
func bent(stress, capacity float64) float64 {
	switch {
	case stress == 0:
		return 0
	case capacity <= 0:
		return math.Inf(1)
	}
	return stress / capacity
}

// Notched returns the check of shear at a notch in the tension side at a
// support: of a section cut down from its depth to left mm, under a shear of
// shearN.
//
//	Vr' = (2/3·Fv'·b·dn)·(dn/d)²
//
// Source: NDS 2018, 3.4.3.2(a), equation 3.4-3.
func (r Reference) Notched(s Section, left, shearN float64, c Conditions) Check {
	fV := r.Shear(c)
	share := left / s.Depth
	capacity := float64(2.0/3*fV.Adjusted()*s.Breadth*left) * float64(share*share)
	return Check{"shear at the notch", math.Abs(shearN) / capacity, "V ≤ (2/3 Fv' b dn)(dn/d)²",
		[]Term{{"V", math.Abs(shearN), "N"}, {"b", s.Breadth, "mm"}, {"d", s.Depth, "mm"}, {"dn", left, "mm"}},
		[]Value{fV}, nds("3.4.3.2, equation 3.4-3", cite.Memory)}
}

// DeepestNotch returns how deep, in mm, a notch may be cut into a bending
// member, by where it lies along the span as a share from 0 to 1: a quarter of
// the depth at the ends over a support, a sixth in the outer thirds, none in the
// middle third.
//
// Source: NDS 2018, 4.4.3.
func DeepestNotch(depth, atShare float64, overSupport bool) float64 {
	switch at := math.Min(atShare, 1-atShare); {
	case overSupport:
		return depth / 4
	case at < 1.0/3:
		return depth / 6
	}
	return 0
}

// Crushed returns the check of a force pressing across the grain over
// lengthMM along it by widthMM, fromEndMM from the member's end.
//
// Source: NDS 2018, 3.10.2.
func (r Reference) Crushed(forceN, lengthMM, widthMM, fromEndMM float64, c Conditions) Check {
	v := r.Bearing(c, lengthMM, fromEndMM)
	stress := forceN / (lengthMM * widthMM)
	return Check{"bearing across the grain", stress / v.Adjusted(), "fc⊥ ≤ Fc⊥'",
		[]Term{{"P", forceN, "N"}, {"lb", lengthMM, "mm"}, {"b", widthMM, "mm"}, {"fc⊥", stress, "MPa"}},
		[]Value{v}, nds("3.10.2", cite.Memory)}
}
