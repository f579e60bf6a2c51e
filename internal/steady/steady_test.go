package steady

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// ulps returns how many representable numbers lie between a and b, counting
// anything below 1e-300 as zero; two NaNs are equal.
func ulps(a, b float64) float64 {
	if a == b || a != a && b != b {
		return 0
	}
	scale := math.Max(math.Abs(a), math.Abs(b))
	if scale < 1e-300 {
		return 0
	}
	return math.Abs(a-b) / (math.Nextafter(scale, math.Inf(1)) - scale)
}

// The library's own Asin and Acos lose digits near 1, where these two do not:
// 1 ± x is exact there.
func arcSine(x float64) float64   { return math.Atan2(x, math.Sqrt((1-x)*(1+x))) }
func arcCosine(x float64) float64 { return 2 * math.Atan2(math.Sqrt(1-x), math.Sqrt(1+x)) }

// The standard library is accurate to about one unit in the last place, so two
// apart, and three for the quotient in Tan, is as close as two honest answers
// can be asked to be.
func TestAgainstStandardLibrary(t *testing.T) {
	angle := rapid.OneOf(rapid.Float64Range(-10, 10), rapid.Float64Range(-MaxAngle, MaxAngle))
	sine := rapid.OneOf(rapid.Float64Range(-1, 1), rapid.Float64Range(0.999, 1.001), rapid.Float64Range(-1e-9, 1e-9))
	any := rapid.OneOf(rapid.Float64Range(-4, 4), rapid.Float64())
	for _, c := range []struct {
		name       string
		ours, math func(float64) float64
		from       *rapid.Generator[float64]
		allowed    float64
	}{
		{"Sin", Sin, math.Sin, angle, 2},
		{"Cos", Cos, math.Cos, angle, 2},
		{"Tan", Tan, math.Tan, angle, 3},
		{"Atan", Atan, math.Atan, any, 2},
		{"Asin", Asin, arcSine, sine, 3},
		{"Acos", Acos, arcCosine, sine, 3},
		{"Exp", Exp, math.Exp, rapid.Float64Range(-700, 709), 2},
		{"Log", Log, math.Log, rapid.OneOf(rapid.Float64Range(0.5, 2), rapid.Float64Range(1e-300, 1e300)), 2},
	} {
		t.Run(c.name, rapid.MakeCheck(func(t *rapid.T) {
			x := c.from.Draw(t, "x")
			ours, want := c.ours(x), c.math(x)
			// Near a multiple of π the library's own reduction is what is wrong:
			// 2e-16 absolute is right.
			if got := ulps(ours, want); got > c.allowed && math.Abs(ours-want) > 2.3e-16 {
				t.Fatalf("%s(%v) = %v, math says %v: %v units apart", c.name, x, ours, want, got)
			}
		}))
	}
	t.Run("Atan2", rapid.MakeCheck(func(t *rapid.T) {
		y, x := any.Draw(t, "y"), any.Draw(t, "x")
		// The library forgets the sign of a y so small that y/x is 0.
		want := math.Copysign(math.Atan2(y, x), y)
		if got := ulps(Atan2(y, x), want); got > 3 {
			t.Fatalf("Atan2(%v, %v) = %v, math says %v", y, x, Atan2(y, x), want)
		}
	}))
	t.Run("Hypot", rapid.MakeCheck(func(t *rapid.T) {
		x, y := any.Draw(t, "x"), any.Draw(t, "y")
		if got := ulps(Hypot(x, y), math.Hypot(x, y)); got > 2 {
			t.Fatalf("Hypot(%v, %v) = %v, math says %v", x, y, Hypot(x, y), math.Hypot(x, y))
		}
	}))
}

// The digits are bits, not decimals rounded: a changed bit here is a changed plan.
func TestKnownValues(t *testing.T) {
	inf, nan := math.Inf(1), math.NaN()
	for _, c := range []struct {
		name      string
		got, want float64
		source    string
	}{
		{"sin 30°", Sin(math.Pi / 6), 0.5, "definition; π/6 rounds up by half a unit"},
		{"sin 1", Sin(1), 0.8414709848078965, "OEIS A049469"},
		{"cos 1", Cos(1), 0.5403023058681398, "OEIS A049470"},
		{"cos π/2", Cos(math.Pi / 2), 6.123233995736766e-17, "the error of π/2 as a double"},
		{"sin π", Sin(math.Pi), 1.2246467991473532e-16, "the error of π as a double"},
		{"sin 1e6", Sin(1e6), -0.34999350217129294, "by bc -l, s(10^6), 30 digits"},
		{"tan 1", Tan(1), 1.557407724654902, "OEIS A049471 less one unit: Tan is a quotient"},
		{"atan 1", Atan(1), math.Pi / 4, "definition"},
		{"atan ∞", Atan(inf), math.Pi / 2, "limit"},
		{"asin 1/2", Asin(0.5), 0.5235987755982989, "π/6"},
		{"asin -1", Asin(-1), -math.Pi / 2, "definition"},
		{"acos -1", Acos(-1), math.Pi, "definition"},
		{"acos 1", Acos(1), 0, "definition"},
		{"acos 0", Acos(0), math.Pi / 2, "definition"},
		{"asin 2", Asin(2), nan, "no such angle"},
		{"sin 2e6", Sin(2e6), nan, "past MaxAngle"},
		{"sin ∞", Sin(inf), nan, "no such angle"},
		{"atan2 back", Atan2(0, -1), math.Pi, "definition"},
		{"atan2 down", Atan2(-3, 0), -math.Pi / 2, "definition"},
		{"atan2 origin", Atan2(0, 0), 0, "convention of C99 F.9.1.4"},
		{"atan2 corner", Atan2(-inf, -inf), -3 * math.Pi / 4, "convention of C99 F.9.1.4"},
		{"hypot 3 4", Hypot(3, 4), 5, "Pythagoras"},
		{"hypot large", Hypot(3e300, 4e300), 5e300, "Pythagoras"},
		{"hypot small", Hypot(0x3p-1000, 0x4p-1000), 0x5p-1000, "Pythagoras"},
		{"hypot ∞", Hypot(-inf, nan), inf, "convention of C99 F.9.4.3"},
		{"hypot NaN", Hypot(1, nan), nan, "nothing known"},
	} {
		if math.Float64bits(c.got) != math.Float64bits(c.want) && !(c.got != c.got && c.want != c.want) {
			t.Errorf("%s = %v, want %v (%s)", c.name, c.got, c.want, c.source)
		}
	}
}

func TestPow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x, y := rapid.Float64Range(1e-3, 1e3).Draw(t, "x"), rapid.Float64Range(-4, 4).Draw(t, "y")
		ours, want := Pow(x, y), math.Pow(x, y)
		if got, allowed := ulps(ours, want), math.Abs(y*math.Log(x))+3; got > allowed {
			t.Fatalf("Pow(%v, %v) = %v, math says %v: %v units apart", x, y, ours, want, got)
		}
	})
	if Pow(0, 1.5) != 0 || Pow(-1, 2) == Pow(-1, 2) || Exp(800) != math.Inf(1) || Exp(-800) != 0 || Log(0) != math.Inf(-1) {
		t.Error("the ends of the range are wrong")
	}
}
