package measure

import (
	"strconv"
	"strings"
)

// Units says which units are printed first. What is read never depends on it.
type Units uint8

// The two families of units.
const (
	Imperial Units = iota // inches, pounds
	Metric                // millimetres, kilograms
)

// A Graduation is the finest mark of a tape.
type Graduation uint8

// Tapes. The zero Graduation is the common one.
const (
	Sixteenth    Graduation = iota // 1/16 in
	ThirtySecond                   // 1/32 in, for fitted joints
	Eighth                         // 1/8 in
	SixtyFourth                    // 1/64 in
	WholeMM                        // 1 mm
)

// Step returns the distance between two marks of the tape.
func (g Graduation) Step() Length {
	switch g {
	case ThirtySecond:
		return Inch / 32
	case Eighth:
		return Inch / 8
	case SixtyFourth:
		return Inch / 64
	case WholeMM:
		return Millimetre
	}
	return Inch / 16
}

// Units returns the family of units the tape belongs to.
func (g Graduation) Units() Units {
	if g == WholeMM {
		return Metric
	}
	return Imperial
}

// A Mixed is a number as a person writes it: feet, a whole number, a reduced
// fraction and a unit. It comes in parts so that a page can stack the fraction.
type Mixed struct {
	Neg         bool
	Feet, Whole int64
	Num, Den    int64  // Num 0: no fraction
	Unit        string // as set right after the number: `"`, " mm", "°", " ft"
}

// Unit marks of a Mixed.
const (
	InchMark   = `"`
	FootMark   = `'`
	DegreeMark = "°"
)

// String returns m as text that Parse reads: 33 13/16", 8' 0", 1/2°, -5 mm.
func (m Mixed) String() string {
	var b strings.Builder
	if m.Neg {
		b.WriteByte('-')
	}
	if m.Feet != 0 {
		b.WriteString(strconv.FormatInt(m.Feet, 10) + FootMark + " ")
	}
	if m.Whole != 0 || m.Feet != 0 || m.Num == 0 {
		b.WriteString(strconv.FormatInt(m.Whole, 10))
		if m.Num != 0 {
			b.WriteByte(' ')
		}
	}
	if m.Num != 0 {
		b.WriteString(strconv.FormatInt(m.Num, 10) + "/" + strconv.FormatInt(m.Den, 10))
	}
	return b.String() + m.Unit
}

// InInches returns m with its feet turned into inches.
func (m Mixed) InInches() Mixed {
	m.Whole, m.Feet = m.Whole+12*m.Feet, 0
	return m
}

// Tape returns l rounded to the nearest mark of the tape, halves away from
// zero. An inch tape reads in inches under 8 ft and in feet and inches from
// there, as is common practice for furniture parts.
func (l Length) Tape(g Graduation) Mixed {
	r := l.Round(g.Step())
	m := Mixed{Neg: r < 0}
	if m.Neg {
		r = -r
	}
	if g == WholeMM {
		m.Whole, m.Unit = int64(r/Millimetre), " mm"
		return m
	}
	m = inchMixed(m, r, g.Step())
	if r >= 8*Foot {
		m.Feet, m.Whole = m.Whole/12, m.Whole%12
	}
	return m
}

// inchMixed fills m with r, a multiple of step, in inches.
func inchMixed(m Mixed, r, step Length) Mixed {
	m.Whole, m.Unit = int64(r/Inch), InchMark
	m.Num, m.Den = reduce(int64(r%Inch/step), int64(Inch/step))
	return m
}

// Stock returns l as lumber is sold: in whole feet, 12 ft, where l is that, and
// as the tape reads it otherwise.
func (l Length) Stock(g Graduation) Mixed {
	if g.Units() == Imperial && l%Foot == 0 && l > 0 {
		return Mixed{Whole: int64(l / Foot), Unit: " ft"}
	}
	return l.Tape(g)
}

// HalfDegrees returns a rounded to half a degree, halves away from zero: most
// saw scales read no finer (common practice).
func (a Angle) HalfDegrees() Mixed {
	r := a.Round(Degree / 2)
	m := Mixed{Neg: r < 0, Unit: DegreeMark}
	if m.Neg {
		r = -r
	}
	m.Whole = int64(r / Degree)
	m.Num, m.Den = reduce(int64(r%Degree/(Degree/2)), 2)
	return m
}

func reduce(num, den int64) (int64, int64) {
	if num == 0 {
		return 0, 0
	}
	for num%2 == 0 && den%2 == 0 {
		num, den = num/2, den/2
	}
	return num, den
}
