package timber

import (
	"math"

	"scantling/internal/cite"
	"scantling/internal/steady"
)

// Withdrawal values are pulls per length of thread or nail in the main member.

// NailWithdrawal returns W of a smooth nail in side grain, N per mm of reach.
//
//	W = 1380·G^2.5·D lb/in
//
// Source: NDS 2018, equation 12.2-3.
func NailWithdrawal(gravity, dMM float64) float64 {
	return 1380 * float64(gravity*gravity) * math.Sqrt(gravity) * (dMM / inch) * lbf / inch
}

// ScrewWithdrawal returns W of a wood screw in side grain, N per mm of thread in
// the main member. In end grain the standard allows none.
//
//	W = 2850·G²·D lb/in
//
// Source: NDS 2018, equation 12.2-2.
func ScrewWithdrawal(gravity, dMM float64) float64 {
	return 2850 * float64(gravity*gravity) * (dMM / inch) * lbf / inch
}

// LagWithdrawal returns W of a lag screw in side grain, N per mm of thread less
// the tip; in end grain three quarters of it.
//
//	W = 1800·G^1.5·D^0.75 lb/in
//
// Source: NDS 2018, equation 12.2-1.
func LagWithdrawal(gravity, dMM float64) float64 {
	return 1800 * gravity * math.Sqrt(gravity) * steady.Pow(dMM/inch, 0.75) * lbf / inch
}

// HeadThrough returns the pull, N, at which a head of diameter headMM goes
// through a side member thickMM thick.
//
//	690·π·DH·G²·t for t ≤ 2.5·DH, else 1725·π·DH²·G², lb
//
// Source: NDS 2018, equations 12.2-6 (a) and (b) (from memory).
func HeadThrough(gravity, headMM, thickMM float64) float64 {
	head, t := headMM/inch, thickMM/inch
	return 690 * math.Pi * head * float64(gravity*gravity) * math.Min(t, float64(2.5*head)) * lbf
}

// PullWet returns CM for withdrawal of screws; nails that see wet and dry lose
// three quarters.
//
// Source: NDS 2018, table 11.3.3.
func PullWet(nail, wetBuilt, wetService bool) Factor {
	f := Factor{"CM", 1, "", nds("table 11.3.3", cite.Memory)}
	switch {
	case nail && wetBuilt != wetService:
		f.Value, f.Why = 0.25, "a nail in wood that changes between wet and dry"
	case !nail && wetService:
		f.Value, f.Why = 0.7, "wet in service"
	}
	return f
}

// Both returns the use of a lag or wood screw pulled and pushed sideways at
// once: pull and shear in N, with what it holds of either.
//
//	Zα' = W'p·Z'/(W'p·cos²α + Z'·sin²α)
//
// α is the angle between the force and the surface. A nail follows the linear
// rule, which is the sum of the two shares.
//
// Source: NDS 2018, equations 12.4-1 and 12.4-2.
func Both(pull, shear, holdsPull, holdsShear float64, nail bool) float64 {
	if pull <= 0 {
		return bent(shear, holdsShear)
	}
	if nail {
		return bent(pull, holdsPull) + bent(shear, holdsShear)
	}
	if holdsPull <= 0 || holdsShear <= 0 && shear > 0 {
		return math.Inf(1)
	}
	force := steady.Hypot(pull, shear)
	cos, sin := shear/force, pull/force
	return force * (float64(holdsPull*cos*cos) + float64(holdsShear*sin*sin)) / (holdsPull * holdsShear)
}

// WasherPull returns the pull, N, a bolt takes through a round washer that
// presses on the wood across the grain: outer and hole diameters in mm, and the
// wood's Fc⊥'.
//
// Source: NDS 2018, 3.10.2 on the washer's ring (common practice for bolts in
// tension).
func WasherPull(outerMM, holeMM, fcPerp float64) float64 {
	return math.Pi / 4 * (float64(outerMM*outerMM) - float64(holeMM*holeMM)) * fcPerp
}

// RowTearOut returns the force, N, at which a row of n fasteners tears a strip
// out of the end of a member thickMM thick: critical is the least of the end
// distance and the spacings, mm; fv is Fv', MPa.
//
//	ZRTi' = n·Fv'·t·s_critical
//
// Source: NDS 2018, appendix E, equation E.3-2.
func RowTearOut(n int, thickMM, critical, fv float64) float64 {
	return float64(n) * fv * thickMM * critical
}

// BlockTearOut returns the force, N, at which the block between the outermost of
// several rows comes out: the tear-out of the two outer rows, and the tension on
// the wood between them.
//
//	ZGT' = ZRT-1'/2 + ZRT-n'/2 + Ft'·Agroup-net
//
// Source: NDS 2018, appendix E, equation E.4-1.
func BlockTearOut(first, last, netMM2, ft float64) float64 {
	return float64((first+last)/2) + float64(ft*netMM2)
}
