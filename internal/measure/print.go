package measure

import (
	"math"
	"strconv"
	"strings"
)

// Exact returns l in full, so that Parse gives l back: in inches a multiple of
// 1/64 in; otherwise, and always when metric, in decimal millimetres.
func (l Length) Exact(u Units) string {
	const sixtyFourth = Inch / 64
	if u == Metric || l%sixtyFourth != 0 {
		return decimals(int64(l), 6) + " mm"
	}
	m := Mixed{Neg: l < 0}
	if m.Neg {
		l = -l
	}
	return inchMixed(m, l, sixtyFourth).String()
}

// Exact returns a in decimal degrees, so that Parse gives a back.
func (a Angle) Exact() string { return decimals(int64(a), 9) + DegreeMark }

// String returns m as a price: $6.50, -$0.05.
func (m Money) String() string {
	sign := ""
	if m < 0 {
		sign, m = "-", -m
	}
	cents := strconv.FormatInt(int64(m%Dollar), 10)
	if len(cents) < 2 {
		cents = "0" + cents
	}
	return sign + "$" + strconv.FormatInt(int64(m/Dollar), 10) + "." + cents
}

// Exact returns q in full. Lengths, angles and money are rounded to their
// counts first (see Rounded); these, counts, ratios, masses and forces then
// read back with Parse exactly, pressures, forces per length, areas and volumes
// to 15 digits. A dimension without a name has no unit to print: its counts are
// printed with the make-up of the dimension, which Parse does not read.
func (q Quantity) Exact(u Units) string {
	switch q.D {
	case DimLength:
		if l, ok := q.Length(); ok {
			return l.Exact(u)
		}
	case DimAngle:
		if a, ok := q.Angle(); ok {
			return a.Exact()
		}
	case DimMoney:
		if m, ok := q.Money(); ok {
			return m.String()
		}
	}
	choices := unitsFor(q.D, u)
	for _, un := range choices {
		for digits := 1; digits <= 17; digits++ {
			text := plain(float64(q.V*un.per)/un.scale, digits) + un.suffix()
			if back, err := Parse(text); err == nil && back == q {
				return text
			}
		}
	}
	if len(choices) == 0 {
		return plain(q.V, 17) + " " + q.D.String()
	}
	un := choices[0]
	return plain(float64(q.V*un.per)/un.scale, 15) + un.suffix()
}

// unitsFor returns the units to print d in, the best first.
func unitsFor(d Dim, u Units) []unit {
	var words []string
	switch d {
	case DimNone:
		return []unit{bare}
	case DimMass:
		words = []string{"lb", "kg"}
	case DimForce:
		words = []string{"lbf", "N"}
	case DimPressure:
		words = []string{"psf", "kPa"}
	case DimForcePerLength:
		words = []string{"plf"}
	case DimArea:
		words = []string{"sq ft", "sq m"}
	case DimVolume:
		words = []string{"cu ft", "cu m"}
	}
	if u == Metric && len(words) == 2 {
		words[0], words[1] = words[1], words[0]
	}
	var units []unit
	for _, w := range words {
		un, _ := unitWord(w)
		units = append(units, un)
	}
	return units
}

func (u unit) suffix() string {
	if u.name == "" {
		return ""
	}
	return " " + u.name
}

// Text returns q rounded for a reader: lengths to the tape, angles to half a
// degree, money to the cent, masses to the pound or kilogram (to a tenth below
// ten), areas to a tenth of a square foot or a hundredth of a square metre,
// volumes to a tenth of a cubic foot, or a cubic inch below one, or a
// thousandth of a cubic metre, loads to the whole unit (kPa to a hundredth).
// Counts and ratios have up to three decimals. Halves go away from zero.
func (q Quantity) Text(g Graduation) string {
	metric := g.Units() == Metric
	in := func(word string, places int) string {
		un, _ := unitWord(word)
		return q.in(un, places) + un.suffix()
	}
	switch q.D {
	case DimNone:
		return strings.TrimSuffix(strings.TrimRight(q.in(bare, 3), "0"), ".")
	case DimLength:
		if l, ok := q.Length(); ok {
			return l.Tape(g).String()
		}
	case DimAngle:
		if a, ok := q.Angle(); ok {
			return a.HalfDegrees().String()
		}
	case DimMoney:
		if m, ok := q.Money(); ok {
			return m.String()
		}
	case DimMass:
		word := "lb"
		if metric {
			word = "kg"
		}
		un, _ := unitWord(word)
		if math.Abs(q.V) < 10*un.scale {
			return in(word, 1)
		}
		return in(word, 0)
	case DimArea:
		if metric {
			return in("sq m", 2)
		}
		return in("sq ft", 1)
	case DimVolume:
		if metric {
			return in("cu m", 3)
		}
		if math.Abs(q.V) < cuFoot {
			return in("cu in", 0)
		}
		return in("cu ft", 1)
	case DimForce:
		if metric {
			return in("N", 0)
		}
		return in("lbf", 0)
	case DimPressure:
		if metric {
			return in("kPa", 2)
		}
		return in("psf", 0)
	case DimForcePerLength:
		return in("plf", 0)
	}
	return q.Exact(g.Units())
}

// in returns q in units un with so many decimal places, halves away from zero.
func (q Quantity) in(un unit, places int) string {
	v := float64(q.V*un.per) / un.scale
	scale := 1.0
	for range places {
		scale *= 10
	}
	n, ok := whole[int64](float64(v * scale))
	if !ok {
		return plain(v, 15)
	}
	return fixed(n, places)
}

// fixed returns n/10^places with all its places.
func fixed(n int64, places int) string {
	sign := ""
	if n < 0 {
		sign, n = "-", -n
	}
	s := strconv.FormatInt(n, 10)
	for len(s) <= places {
		s = "0" + s
	}
	if places == 0 {
		return sign + s
	}
	return sign + s[:len(s)-places] + "." + s[len(s)-places:]
}

// decimals returns n/10^places without trailing zeros.
func decimals(n int64, places int) string {
	return strings.TrimSuffix(strings.TrimRight(fixed(n, places), "0"), ".")
}

// plain returns v with so many significant digits, never with an exponent.
func plain(v float64, digits int) string {
	rounded, _ := strconv.ParseFloat(strconv.FormatFloat(v, 'e', digits-1, 64), 64)
	return strconv.FormatFloat(rounded+0, 'f', -1, 64)
}
