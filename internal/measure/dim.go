package measure

import (
	"math"
	"strconv"
	"strings"
)

// A Dim is a dimension: exponents of length, angle, mass, force and money, one
// balanced base-64 digit each, so that dimensions are constants and compare
// with ==. DimNone is a count or a ratio.
//
// Angle is a dimension of its own here, though the SI has it as a ratio: in a
// design an angle plus a bare number is a mistake. Force too, though it is mass
// times acceleration: no design speaks of accelerations, and 40 lb of crate is
// not 40 lbf of push.
type Dim int64

// The dimensions a design file speaks of.
const (
	DimNone   Dim = 0
	DimLength Dim = 1
	DimAngle  Dim = 1 << 6
	DimMass   Dim = 1 << 12
	DimForce  Dim = 1 << 18
	DimMoney  Dim = 1 << 24

	DimArea           = 2 * DimLength
	DimVolume         = 3 * DimLength
	DimPressure       = DimForce - DimArea
	DimForcePerLength = DimForce - DimLength
)

// maxExponent bounds every exponent, so that digits never run into each other.
const maxExponent = 8

// exponents returns the exponents of length, angle, mass, force and money.
func (d Dim) exponents() (e [5]int) {
	for i := range e {
		digit := (d+32)&63 - 32
		e[i] = int(digit)
		d = (d - digit) >> 6
	}
	return e
}

func (d Dim) bounded() bool {
	for _, e := range d.exponents() {
		if e < -maxExponent || e > maxExponent {
			return false
		}
	}
	return true
}

// Mul returns the dimension of a product. It returns false if an exponent
// passes 8: no measure of furniture needs that.
func (d Dim) Mul(e Dim) (Dim, bool) { return d + e, (d + e).bounded() }

// Div returns the dimension of a quotient; see Mul.
func (d Dim) Div(e Dim) (Dim, bool) { return d - e, (d - e).bounded() }

// Sqrt returns the dimension of a square root, false if there is none.
func (d Dim) Sqrt() (Dim, bool) {
	for _, e := range d.exponents() {
		if e%2 != 0 {
			return d, false
		}
	}
	return d / 2, true
}

// Named reports whether d has a name a person knows: the dimensions a name of
// the design file may be bound to. Products on the way there may have others.
func (d Dim) Named() bool {
	_, ok := d.name()
	return ok
}

func (d Dim) name() (string, bool) {
	switch d {
	case DimNone:
		return "bare number", true
	case DimLength:
		return "length", true
	case DimAngle:
		return "angle", true
	case DimMass:
		return "mass", true
	case DimForce:
		return "force", true
	case DimMoney:
		return "sum of money", true
	case DimArea:
		return "area", true
	case DimVolume:
		return "volume", true
	case DimPressure:
		return "pressure", true
	case DimForcePerLength:
		return "force per length", true
	}
	return "", false
}

// String returns the name of d without an article: "length", "force per
// length", "bare number"; for the unnamed its make-up: "length^4·force^-1".
func (d Dim) String() string {
	if s, ok := d.name(); ok {
		return s
	}
	var parts []string
	for i, e := range d.exponents() {
		base := Dim(1) << (6 * i)
		switch s, _ := base.name(); {
		case e == 1:
			parts = append(parts, s)
		case e != 0:
			parts = append(parts, s+"^"+strconv.Itoa(e))
		}
	}
	return strings.Join(parts, "·")
}

// A returns the name of d with its article: "a length", "an angle".
func (d Dim) A() string {
	if s := d.String(); strings.HasPrefix(s, "a") {
		return "an " + s
	} else {
		return "a " + s
	}
}

// A Quantity is a number with its dimension. V counts nanometres, 1e-9 degrees,
// kilograms, newtons and cents, and products of these: an area is in nm², a
// pressure in N/nm².
type Quantity struct {
	V float64
	D Dim
}

// Number returns the count or ratio v.
func Number(v float64) Quantity { return Quantity{v, DimNone} }

// Quantity returns l as a quantity; exact below 2^53 nm.
func (l Length) Quantity() Quantity { return Quantity{float64(l), DimLength} }

// Quantity returns a as a quantity; exact below 2^53 counts.
func (a Angle) Quantity() Quantity { return Quantity{float64(a), DimAngle} }

// Quantity returns m as a quantity; exact below 2^53 cents.
func (m Money) Quantity() Quantity { return Quantity{float64(m), DimMoney} }

// Length returns q rounded to whole nanometres, halves away from zero; false
// if q is no length, not finite, or beyond 2^53 nm.
func (q Quantity) Length() (Length, bool) {
	l, ok := whole[Length](q.V)
	return l, ok && q.D == DimLength
}

// Angle returns q rounded to 1e-9 degree; false if q is no angle.
func (q Quantity) Angle() (Angle, bool) {
	a, ok := whole[Angle](q.V)
	return a, ok && q.D == DimAngle
}

// Money returns q rounded to whole cents; false if q is no money.
func (q Quantity) Money() (Money, bool) {
	m, ok := whole[Money](q.V)
	return m, ok && q.D == DimMoney
}

// Count returns q as a whole number; false if it is not whole or has a unit.
func (q Quantity) Count() (int, bool) {
	n, ok := whole[int64](q.V)
	return int(n), ok && q.D == DimNone && float64(n) == q.V
}

// Finite reports whether q is a number at all.
func (q Quantity) Finite() bool { return !math.IsNaN(q.V) && !math.IsInf(q.V, 0) }

// Rounded returns q as it is kept once it is bound to a name: lengths to whole
// nanometres, angles to 1e-9 degree, money to the cent, all halves away from
// zero; others as they are.
func (q Quantity) Rounded() Quantity {
	switch q.D {
	case DimLength, DimAngle, DimMoney:
		return Quantity{math.Round(q.V), q.D}
	}
	return q
}
