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

// Check applies the standard's rules to what one place of the member carries:
// bending with tension or compression, and shear. A use of +Inf means that the
// standard allows nothing at that slenderness.
//
// Source: NDS 2018, 3.3 (bending), 3.4 (shear), 3.6 and 3.7 (columns), 3.8
// (tension), 3.9 (combined).
func (m Member) Check(d Demand) []Check {
	weak := Section{m.Strong.Depth, m.Strong.Breadth}
	area := m.Strong.Area()
	strongB, weakB := m.Bending(m.Strong, m.Conditions), m.Bending(weak, m.Conditions)
	eMin := m.Stability(m.Conditions).Adjusted()
	cl, rb := BeamStability(m.Strong, eMin, strongB.Adjusted(), m.Unbraced)
	if cl != 1 {
		strongB = strongB.with(Factor{"CL", cl, "may roll over sideways", nds("3.3.3", cite.Memory)})
	}
	f1, f2 := math.Abs(d.MomentStrong)/m.Strong.Modulus(), math.Abs(d.MomentWeak)/weak.Modulus()
	fb1, fb2 := strongB.Adjusted(), weakB.Adjusted()
	terms := []Term{{"fb1", f1, "MPa"}, {"fb2", f2, "MPa"}}

	var out []Check
	switch {
	case d.Axial < 0:
		fc := -d.Axial / area
		fcStar := m.Compression(m.Strong, m.Conditions)
		cp1, fcE1 := ColumnStability(m.BuckleStrong, m.Strong.Depth, eMin, fcStar.Adjusted())
		cp2, fcE2 := ColumnStability(m.BuckleWeak, m.Strong.Breadth, eMin, fcStar.Adjusted())
		fcP := fcStar.with(Factor{"CP", math.Min(cp1, cp2), "may bow sideways", nds("3.7.1", cite.Memory)})
		fbE := math.Inf(1)
		if rb > 0 {
			fbE = 1.20 * eMin / (rb * rb)
		}
		use := fc / fcP.Adjusted()
		use = float64(use*use) + bent(f1, float64(fb1*(1-fc/fcE1))) +
			bent(f2, float64(fb2*(1-fc/fcE2-float64((f1/fbE)*(f1/fbE)))))
		// Without bending the plain rule fc ≤ Fc' is the stricter one below 1.
		use = math.Max(use, fc/fcP.Adjusted())
		out = append(out, Check{"bending and compression", use,
			"(fc/Fc')² + fb1/[Fb1'(1 − fc/FcE1)] + fb2/[Fb2'(1 − fc/FcE2 − (fb1/FbE)²)] ≤ 1",
			append(terms, Term{"fc", fc, "MPa"}, Term{"FcE1", fcE1, "MPa"}, Term{"FcE2", fcE2, "MPa"}, Term{"FbE", fbE, "MPa"}),
			[]Value{fcP, strongB, weakB}, nds("3.9.2, equation 3.9-3", cite.Memory)})
	case d.Axial > 0:
		ft, fT := d.Axial/area, m.Tension(m.Strong, m.Conditions)
		out = append(out, Check{"bending and tension", ft/fT.Adjusted() + bent(f1, fb1) + bent(f2, fb2),
			"ft/Ft' + fb1/Fb1' + fb2/Fb2' ≤ 1", append(terms, Term{"ft", ft, "MPa"}),
			[]Value{fT, strongB, weakB}, nds("3.9.1, equation 3.9-1", cite.Memory)})
	default:
		out = append(out, Check{"bending", bent(f1, fb1) + bent(f2, fb2), "fb1/Fb1' + fb2/Fb2' ≤ 1", terms,
			[]Value{strongB, weakB}, nds("3.3.1 and 3.9", cite.Memory)})
	}

	fV := m.Shear(m.Conditions)
	v := math.Sqrt(float64(d.ShearStrong*d.ShearStrong) + float64(d.ShearWeak*d.ShearWeak))
	shear := 1.5 * v / area
	return append(out, Check{"shear", shear / fV.Adjusted(), "fv = 3V/2A ≤ Fv'",
		[]Term{{"V", v, "N"}, {"A", area, "mm²"}, {"fv", shear, "MPa"}}, []Value{fV}, nds("3.4.2, equation 3.4-2", cite.Memory)})
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
