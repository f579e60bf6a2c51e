package timber

import (
	"math"

	"scantling/internal/cite"
	"scantling/internal/steady"
)

// A Dowel is a fastener bent sideways: a nail, screw, bolt.
type Dowel struct {
	// Nominal is the shank's diameter, D the one that bears: the shank's where it
	// is whole through both members, else the root's, mm.
	Nominal, D float64
	Yield      float64 // bending yield strength Fyb, MPa
}

// NailYield returns Fyb of a common steel nail or wood screw by its nominal
// diameter in mm.
//
// Source: NDS 2018, appendix I, table I1 (from memory but for 16d, 8d box, no. 10).
func NailYield(nominalMM float64) float64 {
	for _, r := range []struct{ upTo, ksi float64 }{{0.142, 100}, {0.177, 90}, {0.236, 80}, {0.273, 70}, {0.344, 60}} {
		if nominalMM <= float64(r.upTo*inch)+1e-9 {
			return r.ksi * 1000 * psi
		}
	}
	return 45000 * psi
}

// LagYield returns Fyb of a lag screw by its nominal diameter in mm.
//
// Source: NDS 2018, table I1 (from memory; 3/8 in and more read).
func LagYield(nominalMM float64) float64 {
	switch {
	case nominalMM <= float64(0.25*inch)+1e-9:
		return 70000 * psi
	case nominalMM <= float64(0.3125*inch)+1e-9:
		return 60000 * psi
	}
	return 45000 * psi
}

// BoltYield is Fyb of a plain bolt (ASTM A307, SAE J429 grade 1), MPa.
//
// Source: NDS 2018, table I1.
const BoltYield = 45000 * psi

// SteelBearing is the bearing strength of a 33 ksi steel side plate, MPa.
//
// Source: NDS 2018, table 12N notes (ASTM A653 grade 33), as worked in Breyer,
// Design of Wood Structures, example 12.4.
const SteelBearing = 61850 * psi

// DowelBearing returns the strength Fe, MPa, of wood of a gravity against a
// dowel of nominal diameter dMM pushed at an angle to the grain, given by sine
// and cosine. Below 1/4 in the angle does not matter. The standard's tables
// round to 50 psi, and so does this.
//
//	D < 1/4 in: Fe = 16600·G^1.84
//	else: Fe∥ = 11200·G, Fe⊥ = 6100·G^1.45/√D, between them Hankinson's formula
//
// Source: NDS 2018, table 12.3.3 and its notes, 12.3.4.
func DowelBearing(gravity, dMM, sin, cos float64) float64 {
	round := func(v float64) float64 { return math.Round(v/50) * 50 * psi }
	d := dMM / inch
	if d < 0.25-1e-9 {
		return round(16600 * steady.Pow(gravity, 1.84))
	}
	along, across := round(11200*gravity), round(6100*steady.Pow(gravity, 1.45)/math.Sqrt(d))
	switch {
	case sin == 0:
		return along
	case cos == 0:
		return across
	}
	return Slanting(along, across, sin, cos)
}

// A Layer is one member the dowel passes: the length of it that bears, mm, and
// its bearing strength there, MPa. Slant is the angle between force and grain in
// it, as a share of a quarter turn.
type Layer struct{ Length, Strength, Slant float64 }

// A Mode is one way for a connection to yield and the force it takes.
type Mode struct {
	Name  string // "Im", "Is", "II", "IIIm", "IIIs", "IV"
	Force float64
}

// A Lateral is what one dowel holds sideways.
type Lateral struct {
	Modes []Mode  // all that apply
	Mode  string  // the least one
	Force float64 // reference value Z, N
}

// SingleShear returns the reference value Z of one dowel through a side member
// into a main member, by all six yield modes.
//
//	Re = Fem/Fes, Rt = lm/ls
//	Im  = D·lm·Fem/Rd        Is = D·ls·Fes/Rd        II = k1·D·ls·Fes/Rd
//	IIIm = k2·D·lm·Fem/[(1+2Re)Rd]      IIIs = k3·D·ls·Fem/[(2+Re)Rd]
//	IV  = (D²/Rd)·√[2·Fem·Fyb/3(1+Re)]
//
// Source: NDS 2018, tables 12.3.1A and 12.3.1B.
func SingleShear(d Dowel, main, side Layer) Lateral {
	re, rt := main.Strength/side.Strength, main.Length/side.Length
	sq := func(x float64) float64 { return float64(x * x) }
	k1 := (math.Sqrt(re+float64(2*sq(re)*(1+rt+sq(rt)))+float64(sq(rt)*re*sq(re))) - float64(re*(1+rt))) / (1 + re)
	k2 := -1 + math.Sqrt(float64(2*(1+re))+float64(2*d.Yield*(1+float64(2*re))*sq(d.D))/(3*main.Strength*sq(main.Length)))
	k3 := -1 + math.Sqrt(float64(2*(1+re))/re+float64(2*d.Yield*(2+re)*sq(d.D))/(3*main.Strength*sq(side.Length)))
	i, ii, iii := d.reduction(math.Max(main.Slant, side.Slant))
	return least([]Mode{
		{"Im", d.D * main.Length * main.Strength / i},
		{"Is", d.D * side.Length * side.Strength / i},
		{"II", k1 * d.D * side.Length * side.Strength / ii},
		{"IIIm", k2 * d.D * main.Length * main.Strength / ((1 + float64(2*re)) * iii)},
		{"IIIs", k3 * d.D * side.Length * main.Strength / ((2 + re) * iii)},
		{"IV", sq(d.D) / iii * math.Sqrt(2*main.Strength*d.Yield/(3*(1+re)))},
	})
}

// DoubleShear returns the reference value of one dowel through a main member
// between two alike side members.
//
// Source: NDS 2018, table 12.3.1A.
func DoubleShear(d Dowel, main, side Layer) Lateral {
	s := SingleShear(d, main, side)
	i, _, _ := d.reduction(math.Max(main.Slant, side.Slant))
	force := map[string]float64{}
	for _, m := range s.Modes {
		force[m.Name] = m.Force
	}
	return least([]Mode{
		{"Im", d.D * main.Length * main.Strength / i},
		{"Is", 2 * d.D * side.Length * side.Strength / i},
		{"IIIs", 2 * force["IIIs"]},
		{"IV", 2 * force["IV"]},
	})
}

// reduction returns the divisors Rd of modes I, of mode II, and of modes III and
// IV.
//
// Source: NDS 2018, table 12.3.1B.
func (d Dowel) reduction(slant float64) (i, ii, iii float64) {
	k := 1 + float64(0.25*slant)
	bears := d.D / inch
	if bears >= 0.25-1e-9 {
		return 4 * k, 3.6 * k, 3.2 * k
	}
	kd := 2.2
	if bears > 0.17 {
		kd = float64(10*bears) + 0.5
	}
	if d.Nominal/inch >= 0.25-1e-9 {
		kd *= k
	}
	return kd, kd, kd
}

func least(modes []Mode) Lateral {
	l := Lateral{Modes: modes, Force: math.Inf(1)}
	for _, m := range modes {
		if m.Force < l.Force {
			l.Mode, l.Force = m.Name, m.Force
		}
	}
	return l
}

// Lateral factors of a connection, in the order the standard's table 11.3.1 has
// them: duration, wet service, group action, geometry, end grain, toe-nail.

// LateralWet returns CM sideways, by whether the wood is above 19 % when built
// and in service. A wet joint that dries with several bolts in a line across the
// grain splits: 0.4.
//
// Source: NDS 2018, table 11.3.3.
func LateralWet(nominalMM float64, wetBuilt, wetService, rowAcross bool) Factor {
	f := Factor{"CM", 1, "", nds("table 11.3.3", cite.Memory)}
	switch {
	case wetService:
		f.Value, f.Why = 0.7, "wet in service"
	case wetBuilt && rowAcross && nominalMM >= 0.25*inch:
		f.Value, f.Why = 0.4, "built wet, dries with bolts in a line across the grain"
	}
	return f
}

// EndGrain is the factor of a dowel sideways in end grain.
//
// Source: NDS 2018, 12.5.2.
func EndGrain() Factor { return Factor{"Ceg", 0.67, "into end grain", nds("12.5.2", cite.Memory)} }

// Penetration returns the factor of a screw or nail that reaches reachMM into
// the main member: whole at ten diameters, in proportion down to six, nothing
// below.
//
// Source: NDS 2018, 12.1.5.6 and tables 12L and 12N, note 3.
func Penetration(nominalMM, reachMM float64) Factor {
	f := Factor{"p", math.Min(1, reachMM/(10*nominalMM)), "reach into the second board", nds("12.1.5 and tables 12L and 12N", cite.Memory)}
	if reachMM < 6*nominalMM {
		f.Value, f.Why = 0, "reaches less than six diameters"
	}
	return f
}

// Geometry returns CΔ of a bolt or lag screw from one distance in hand: whole at
// full, in proportion down to half of it, nothing below.
//
// Source: NDS 2018, 12.5.1 and tables 12.5.1A to C.
func Geometry(what string, haveMM, fullMM float64) Factor {
	f := Factor{"CΔ", math.Min(1, haveMM/fullMM), what, nds("12.5.1, tables 12.5.1A to C", cite.Memory)}
	if haveMM < float64(fullMM/2)-1e-9 {
		f.Value = 0
	}
	return f
}

// GroupAction returns Cg of n fasteners in a row, s mm apart, between members
// whose axial stiffness EA is main and side, N; slip is the load/slip modulus of
// one, N/mm. Below 1/4 in, and for one, it is 1.
//
//	u = 1 + γ·(s/2)·[1/EmAm + 1/EsAs], m = u − √(u² − 1)
//	Cg = m(1 − m²ⁿ)/{n[(1 + REA·mⁿ)(1 + m) − 1 + m²ⁿ]}·(1 + REA)/(1 − m)
//
// Source: NDS 2018, equation 11.3-1.
func GroupAction(n int, nominalMM, s, main, side, slip float64) Factor {
	f := Factor{"Cg", 1, "several in a row", nds("11.3.6, equation 11.3-1", cite.Memory)}
	if n < 2 || nominalMM < float64(0.25*inch)-1e-9 {
		return f
	}
	rea := math.Min(main/side, side/main)
	u := 1 + float64(slip*s/2*(1/main+1/side))
	m := u - math.Sqrt(float64(u*u)-1)
	mn := 1.0
	for range n {
		mn *= m
	}
	f.Value = m * (1 - float64(mn*mn)) / (float64(n) * (float64((1+float64(rea*mn))*(1+m)) - 1 + float64(mn*mn))) * (1 + rea) / (1 - m)
	return f
}

// BoltSlip returns the load/slip modulus γ of one bolt or lag screw between wood
// and wood, N/mm.
//
// Source: NDS 2018, 11.3.6: 180 000 D^1.5 lb/in.
func BoltSlip(nominalMM float64) float64 {
	d := nominalMM / inch
	return 180000 * d * math.Sqrt(d) * lbf / inch
}

// ScrewSlip returns the service slip modulus of one screw or prebored nail in a
// shear plane, N/mm, for wood of a mean density; of a nail driven without a hole
// with bored false.
//
//	ρ^1.5·d/23, not bored ρ^1.5·d^0.8/30
//
// Source: EN 1995-1-1:2004, table 7.1 (from memory).
func ScrewSlip(nominalMM, densityKgM3 float64, bored bool) float64 {
	r := densityKgM3 * math.Sqrt(densityKgM3)
	if bored {
		return r * nominalMM / 23
	}
	return r * steady.Pow(nominalMM, 0.8) / 30
}
