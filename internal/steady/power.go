package steady

import "math"

// ln2 split so that k·ln2High is exact for every exponent k (fdlibm e_exp.c).
const (
	ln2High = 6.93147180369123816490e-01
	ln2Low  = 1.90821492927058770002e-10
)

// Exp returns e to the power x: 0 below -745, +Inf above 710, NaN for NaN.
//
// The argument is reduced to r = x - k·ln 2, |r| ≤ ln 2 / 2, and e^r is found
// from the rational form of fdlibm 5.3, e_exp.c.
func Exp(x float64) float64 {
	switch {
	case x != x:
		return x
	case x > 709.782712893384:
		return math.Inf(1)
	case x < -745.1332191019411:
		return 0
	}
	k := math.Floor(float64(x*(1/math.Ln2)) + 0.5)
	high, low := x-float64(k*ln2High), float64(k*ln2Low)
	r := high - low
	t := float64(r * r)
	c := r - float64(t*(1.66666666666666019037e-01+float64(t*(-2.77777777770155933842e-03+
		float64(t*(6.61375632143793436117e-05+float64(t*(-1.65339022054652515390e-06+
			float64(t*4.13813679705723846039e-08)))))))))
	y := 1 - ((low - float64(r*c)/(2-c)) - high)
	return math.Ldexp(y, int(k))
}

// Log returns the natural logarithm of x: -Inf for 0, NaN below.
//
// x = 2^k·(1 + f) with √½ ≤ 1 + f < √2, and log(1 + f) follows from the series in
// s = f/(2 + f) of fdlibm 5.3, e_log.c.
func Log(x float64) float64 {
	switch {
	case x != x || x > math.MaxFloat64:
		return x
	case x < 0:
		return math.NaN()
	case x == 0:
		return math.Inf(-1)
	}
	m, e := math.Frexp(x)
	if m < math.Sqrt2/2 {
		m, e = float64(m*2), e-1
	}
	f, k := m-1, float64(e)
	s := f / (2 + f)
	z := float64(s * s)
	w := float64(z * z)
	odd := float64(z * (6.666666666666735130e-01 + float64(w*(2.857142874366239149e-01+
		float64(w*(1.818357216161805012e-01+float64(w*1.479819860511658591e-01)))))))
	even := float64(w * (3.999999999940941908e-01 + float64(w*(2.222219843214978396e-01+
		float64(w*1.531383769920937332e-01)))))
	half := float64(0.5 * float64(f*f))
	return float64(k*ln2High) - ((half - (float64(s*(half+odd+even)) + float64(k*ln2Low))) - f)
}

// Pow returns x to the power y for x > 0; 0 to a positive power is 0; NaN for
// x < 0. It is e^(y·log x): good to |y·log x| + 2 units in the last place, ample
// for the exponents of design equations (G^1.84, D^0.75).
func Pow(x, y float64) float64 {
	if x == 0 && y > 0 {
		return 0
	}
	return Exp(float64(y * Log(x)))
}
