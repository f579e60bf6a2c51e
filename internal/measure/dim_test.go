package measure

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestDimNames(t *testing.T) {
	for _, c := range []struct {
		d    Dim
		want string
	}{
		{DimLength, "a length"}, {DimAngle, "an angle"}, {DimNone, "a bare number"}, {DimArea, "an area"},
		{DimPressure, "a pressure"}, {DimForcePerLength, "a force per length"}, {DimMoney, "a sum of money"},
		{2 * DimArea, "a length^4"}, {-DimLength, "a length^-1"}, {DimMoney - DimMass, "a mass^-1·sum of money"},
	} {
		if got := c.d.A(); got != c.want {
			t.Errorf("%d is %q, want %q", c.d, got, c.want)
		}
	}
}

// Dimensions multiply as vectors of exponents add.
func TestDimAlgebra(t *testing.T) {
	exponent := rapid.IntRange(-maxExponent, maxExponent)
	rapid.Check(t, func(t *rapid.T) {
		var a, b [5]int
		for i := range a {
			a[i], b[i] = exponent.Draw(t, "a"), exponent.Draw(t, "b")
		}
		var sum, difference [5]int
		fits, differs := true, true
		for i := range a {
			sum[i], difference[i] = a[i]+b[i], a[i]-b[i]
			fits = fits && max(sum[i], -sum[i]) <= maxExponent
			differs = differs && max(difference[i], -difference[i]) <= maxExponent
		}
		da, db := dimOf(a), dimOf(b)
		if da.exponents() != a {
			t.Fatalf("%v has exponents %v", a, da.exponents())
		}
		if p, ok := da.Mul(db); ok != fits || p.exponents() != sum {
			t.Fatalf("%v times %v = %v, %v", a, b, p.exponents(), ok)
		}
		if q, ok := da.Div(db); ok != differs || q.exponents() != difference {
			t.Fatalf("%v over %v = %v, %v", a, b, q.exponents(), ok)
		}
		if square, ok := da.Mul(da); ok {
			if root, ok := square.Sqrt(); !ok || root != da {
				t.Fatalf("root of the square of %v is %v", a, root.exponents())
			}
		}
	})
	if _, ok := DimVolume.Sqrt(); ok {
		t.Error("a volume has a square root")
	}
}

func dimOf(e [5]int) Dim {
	var d Dim
	for i, x := range e {
		d += Dim(x) << (6 * i)
	}
	return d
}

func TestWholeCounts(t *testing.T) {
	if l, ok := (Quantity{0.5, DimLength}).Length(); !ok || l != 1 {
		t.Errorf("half a nanometre rounds to %d, %v", l, ok)
	}
	if l, ok := (Quantity{-0.5, DimLength}).Length(); !ok || l != -1 {
		t.Errorf("minus half a nanometre rounds to %d, %v", l, ok)
	}
	for _, q := range []Quantity{{1 << 53, DimLength}, {math.NaN(), DimLength}, {math.Inf(1), DimLength}, {1, DimAngle}} {
		if l, ok := q.Length(); ok {
			t.Errorf("%v gives the length %d", q, l)
		}
	}
	if n, ok := Number(3).Count(); !ok || n != 3 {
		t.Errorf("3 counts as %d, %v", n, ok)
	}
	if _, ok := Number(2.5).Count(); ok {
		t.Error("2.5 is a count")
	}
	if _, ok := FromMM(1e20); ok {
		t.Error("1e20 mm is a length")
	}
	if l, ok := FromMM(25.4); !ok || l != Inch {
		t.Errorf("25.4 mm = %d", l)
	}
	if a, ok := FromDegrees(12.5); !ok || a != 25*Degree/2 {
		t.Errorf("12.5° = %d", a)
	}
}
