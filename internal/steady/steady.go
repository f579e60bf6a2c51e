// Package steady holds the trigonometric functions and powers the engine needs,
// computed to the same bits on every processor.
//
// The standard library answers Sin or Atan2 from assembly on some machines, and
// the compiler may fuse a product and a sum into one rounding on others; either
// way a plan printed on one machine could differ from the same plan printed on
// another. Here every function is plain Go and every product stands in
// float64(x*y), which forbids fusing. Square roots, Floor, Abs and their like
// are exact by IEEE 754 and may be taken from package math.
//
// The methods and coefficients are those of fdlibm 5.3 (Sun Microsystems, 1993:
// k_sin.c, k_cos.c, e_rem_pio2.c, s_atan.c, e_asin.c, e_exp.c, e_log.c), "freely
// granted".
package steady

import "math"

// MaxAngle is the largest angle, in radians, Sin, Cos and Tan accept: about
// 160 000 turns. The three-part reduction by π/2 is exact to there; a piece of
// furniture needs none past one turn.
const MaxAngle = 1 << 20

// Sin returns the sine of x radians. It is NaN for |x| > MaxAngle, for an
// infinity and for NaN.
func Sin(x float64) float64 {
	quarter, hi, lo := reduce(x)
	switch quarter {
	case 0:
		return kernelSin(hi, lo)
	case 1:
		return kernelCos(hi, lo)
	case 2:
		return -kernelSin(hi, lo)
	}
	return -kernelCos(hi, lo)
}

// Cos returns the cosine of x radians, with the limits of Sin.
func Cos(x float64) float64 {
	quarter, hi, lo := reduce(x)
	switch quarter {
	case 0:
		return kernelCos(hi, lo)
	case 1:
		return -kernelSin(hi, lo)
	case 2:
		return -kernelCos(hi, lo)
	}
	return kernelSin(hi, lo)
}

// Tan returns the tangent of x radians, with the limits of Sin.
func Tan(x float64) float64 {
	quarter, hi, lo := reduce(x)
	s, c := kernelSin(hi, lo), kernelCos(hi, lo)
	if quarter&1 == 1 {
		return -c / s
	}
	return s / c
}

// reduce returns which quarter turn x lies nearest (0 to 3) and what is left of
// x past it as an unevaluated sum hi + lo, |hi| ≤ π/4.
func reduce(x float64) (quarter int, hi, lo float64) {
	// π/2 in three pieces of 33 bits, each followed by the rest of π/2 rounded.
	const (
		twoOverPi    = 6.36619772367581382433e-01
		part1, rest1 = 1.57079632673412561417e+00, 6.07710050650619224932e-11
		part2, rest2 = 6.07710050630396597660e-11, 2.02226624879595063154e-21
		part3, rest3 = 2.02226624871116645580e-21, 8.47842766036889956997e-32
	)
	if !(math.Abs(x) <= MaxAngle) {
		return 0, math.NaN(), 0
	}
	if math.Abs(x) <= math.Pi/4 {
		return 0, x, 0
	}
	n := math.Round(float64(x * twoOverPi))
	// n·part1 is exact, for n has 20 bits. Then the second and third pieces,
	// always: a shade slower than asking first whether they matter.
	r := x - float64(n*part1)
	t := r
	w := float64(n * part2)
	r = t - w
	w = float64(n*rest2) - ((t - r) - w)
	if math.Abs(r) < 1e-9 {
		t = r
		w = float64(n * part3)
		r = t - w
		w = float64(n*rest3) - ((t - r) - w)
	}
	hi = r - w
	return int(n) & 3, hi, (r - hi) - w
}

// kernelSin returns sin(x + y) for |x| ≤ π/4 and y the tail of x.
func kernelSin(x, y float64) float64 {
	const (
		s1 = -1.66666666666666324348e-01
		s2 = 8.33333333332248946124e-03
		s3 = -1.98412698298579493134e-04
		s4 = 2.75573137070700676789e-06
		s5 = -2.50507602534068634195e-08
		s6 = 1.58969099521155010221e-10
	)
	z := float64(x * x)
	v := float64(z * x)
	r := polynomial(z, s6, s5, s4, s3, s2)
	if y == 0 {
		return x + float64(v*(s1+float64(z*r)))
	}
	return x - ((float64(z*(float64(0.5*y)-float64(v*r))) - y) - float64(v*s1))
}

// kernelCos returns cos(x + y) for |x| ≤ π/4 and y the tail of x.
func kernelCos(x, y float64) float64 {
	const (
		c1 = 4.16666666666666019037e-02
		c2 = -1.38888888888741095749e-03
		c3 = 2.48015872894767294178e-05
		c4 = -2.75573143513906633035e-07
		c5 = 2.08757232129817482790e-09
		c6 = -1.13596475577881948265e-11
	)
	z := float64(x * x)
	r := float64(z * polynomial(z, c6, c5, c4, c3, c2, c1))
	half := float64(0.5 * z)
	w := 1 - half
	return w + (((1 - w) - half) + (float64(z*r) - float64(x*y)))
}

// polynomial evaluates coefficients, highest power first, at z by Horner's rule.
func polynomial(z float64, coefficients ...float64) float64 {
	sum := 0.0
	for _, c := range coefficients {
		sum = float64(sum*z) + c
	}
	return sum
}

// Hypot returns √(x² + y²) in the unit of x and y, without needless overflow
// or underflow; an infinite side makes an infinite answer.
func Hypot(x, y float64) float64 {
	if math.IsInf(x, 0) || math.IsInf(y, 0) {
		return math.Inf(1)
	}
	scale := 1.0
	switch big := math.Max(math.Abs(x), math.Abs(y)); {
	case big > 0x1p+500:
		scale = 0x1p+600
	case big < 0x1p-450:
		scale = 0x1p-600
	}
	x, y = x/scale, y/scale
	return float64(scale * math.Sqrt(float64(x*x)+float64(y*y)))
}
