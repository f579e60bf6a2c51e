package steady

import "math"

// Atan returns the angle in radians, from -π/2 to π/2, whose tangent is x.
func Atan(x float64) float64 {
	// Below 7/16 the polynomial answers; above, x is measured from atan of
	// 1/2, 1, 3/2 or ∞, each held as a value and the error of that value.
	a := math.Abs(x)
	var hi, lo, t float64
	switch {
	case a != a:
		return a
	case a < 7.0/16:
		return x - float64(x*atanTail(x))
	case a < 11.0/16:
		hi, lo = 4.63647609000806093515e-01, 2.26987774529616870924e-17
		t = (float64(2*a) - 1) / (2 + a)
	case a < 19.0/16:
		hi, lo = 7.85398163397448278999e-01, 3.06161699786838301793e-17
		t = (a - 1) / (a + 1)
	case a < 39.0/16:
		hi, lo = 9.82793723247329054082e-01, 1.39033110312309984516e-17
		t = (a - 1.5) / (1 + float64(1.5*a))
	default:
		hi, lo = 1.57079632679489655800e+00, 6.12323399573676603587e-17
		t = -1 / a
	}
	r := hi - ((float64(t*atanTail(t)) - lo) - t)
	return math.Copysign(r, x)
}

// atanTail returns 1 - atan(t)/t for |t| ≤ 7/16.
func atanTail(t float64) float64 {
	z := float64(t * t)
	return float64(z * polynomial(z,
		1.62858201153657823623e-02, -3.65315727442169155270e-02, 4.97687799461593236017e-02,
		-5.83357013379057348645e-02, 6.66107313738753120669e-02, -7.69187620504482999495e-02,
		9.09088713343650656196e-02, -1.11111104054623557880e-01, 1.42857142725034663711e-01,
		-1.99999999998764832476e-01, 3.33333333333329318027e-01))
}

// Atan2 returns the angle in radians, from -π to π, of the direction (x, y)
// turned from the x axis toward the y axis. The origin itself counts as
// direction 0 or ±π by the signs of its zeros, as in package math.
func Atan2(y, x float64) float64 {
	const piTail = 1.2246467991473531772e-16
	if x != x || y != y {
		return math.NaN()
	}
	var a float64
	switch ax, ay := math.Abs(x), math.Abs(y); {
	case ay == 0:
		a = 0
	case math.IsInf(ax, 1) && math.IsInf(ay, 1):
		a = math.Pi / 4
	default:
		a = Atan(ay / ax) // ay/0 is +∞, whose arc is π/2
	}
	if math.Signbit(x) {
		a = math.Pi - (a - piTail)
	}
	return math.Copysign(a, y)
}

// Asin returns the angle in radians, from -π/2 to π/2, whose sine is x; NaN
// unless |x| ≤ 1.
func Asin(x float64) float64 {
	a := math.Abs(x)
	if !(a <= 1) {
		return math.NaN()
	}
	if a < 0.5 {
		return x + float64(x*asinTail(float64(x*x)))
	}
	// asin a = π/2 − 2 asin √((1−a)/2), with the root split in a high part,
	// whose square is exact, and a correction.
	z := float64((1 - a) * 0.5)
	s := math.Sqrt(z)
	r := asinTail(z)
	if a == 1 {
		return math.Copysign(math.Pi/2, x)
	}
	const piOver2Tail = 6.12323399573676603587e-17
	high, c := splitRoot(s, z)
	p := float64(2*float64(s*r)) - (piOver2Tail - float64(2*c))
	q := math.Pi/4 - float64(2*high)
	return math.Copysign(math.Pi/4-(p-q), x)
}

// Acos returns the angle in radians, from 0 to π, whose cosine is x; NaN
// unless |x| ≤ 1.
func Acos(x float64) float64 {
	const piOver2Tail = 6.12323399573676603587e-17
	switch {
	case !(math.Abs(x) <= 1):
		return math.NaN()
	case math.Abs(x) < 0.5:
		r := asinTail(float64(x * x))
		return math.Pi/2 - (x - (piOver2Tail - float64(x*r)))
	case x == -1:
		return math.Pi
	case x < 0:
		z := float64((1 + x) * 0.5)
		s := math.Sqrt(z)
		w := float64(asinTail(z)*s) - piOver2Tail
		return math.Pi - float64(2*(s+w))
	case x == 1:
		return 0
	}
	z := float64((1 - x) * 0.5)
	s := math.Sqrt(z)
	high, c := splitRoot(s, z)
	return float64(2 * (high + (float64(asinTail(z)*s) + c)))
}

// splitRoot returns s = √z with its low 32 bits cleared, and what that lost.
func splitRoot(s, z float64) (high, rest float64) {
	high = math.Float64frombits(math.Float64bits(s) &^ 0xffffffff)
	return high, (z - float64(high*high)) / (s + high)
}

// asinTail returns asin(√z)/√z − 1 for 0 ≤ z ≤ 1/4.
func asinTail(z float64) float64 {
	p := float64(z * polynomial(z,
		3.47933107596021167570e-05, 7.91534994289814532176e-04, -4.00555345006794114027e-02,
		2.01212532134862925881e-01, -3.25565818622400915405e-01, 1.66666666666666657415e-01))
	q := polynomial(z,
		7.70381505559019352791e-02, -6.88283971605453293030e-01,
		2.02094576023350569471e+00, -2.40339491173441421878e+00, 1)
	return p / q
}
