package shop

import (
	"strings"

	"scantling/internal/measure"
	"scantling/internal/span"
)

// A Pen writes numbers with the marks of one tape; the zero Pen writes inches
// to 1/16 and angles to half a degree. It is the one place of the program where
// a number is rounded, and what it writes is what the rest of the plan works
// with: see Shown.Printed.
type Pen struct {
	Tape     measure.Graduation
	Currency string // the sign of money; a dollar's when empty
}

// Metric reports whether it writes millimetres.
func (p Pen) Metric() bool { return p.Tape.Units() == measure.Metric }

// pick returns what is said in inches, or in millimetres.
func (p Pen) pick(inch, metric string) string {
	if p.Metric() {
		return metric
	}
	return inch
}

func (p Pen) show(q measure.Quantity, from span.Set) Shown {
	s := Shown{Exact: q, Text: q.Text(p.Tape), From: from}
	if q.D == measure.DimMoney && p.Currency != "" {
		s.Text = strings.Replace(s.Text, "$", p.Currency, 1)
	}
	return s
}

// Length writes mm millimetres as the tape reads.
func (p Pen) Length(mm float64, from span.Set) Shown {
	return p.show(measure.Quantity{V: float64(mm * 1e6), D: measure.DimLength}, from)
}

// Running writes mm millimetres as a mark along a tape reads, in inches however
// far: 105 15/16", not 8' 9 15/16".
func (p Pen) Running(mm float64, from span.Set) Shown {
	s := p.Length(mm, from)
	if l, ok := s.Exact.Length(); ok {
		s.Text = l.Tape(p.Tape).InInches().String()
	}
	return s
}

// Stock writes a length as lumber is sold: whole feet where it is that.
func (p Pen) Stock(l measure.Length, from span.Set) Shown {
	return Shown{Exact: l.Quantity(), Text: l.Stock(p.Tape).String(), From: from}
}

// Bit writes the diameter of a drill bit, which is sold by the 1/64 in, or by
// the tenth of a millimetre.
func (p Pen) Bit(mm float64, from span.Set) Shown {
	l, _ := measure.Quantity{V: float64(mm * 1e6), D: measure.DimLength}.Length()
	return p.Fine(l, from)
}

// Said is a length as the tape reads, in plain text.
func (p Pen) Said(l measure.Length) string { return l.Tape(p.Tape).String() }

// Fine writes a length as it was measured with something finer than a tape: to
// 1/64 in, or to a tenth of a millimetre.
func (p Pen) Fine(l measure.Length, from span.Set) Shown {
	if !p.Metric() {
		return Pen{measure.SixtyFourth, p.Currency}.Length(l.MM(), from)
	}
	return Shown{Exact: l.Quantity(), Text: l.Round(measure.Millimetre / 10).Exact(measure.Metric), From: from}
}

// Fitted is the pen for what must meet its mate: it writes inches to 1/32.
func (p Pen) Fitted() Pen {
	if p.Tape.Units() == measure.Imperial {
		p.Tape = measure.ThirtySecond
	}
	return p
}

// Angle writes degrees to the half degree.
func (p Pen) Angle(degrees float64, from span.Set) Shown {
	return p.show(measure.Quantity{V: float64(degrees * 1e9), D: measure.DimAngle}, from)
}

// Mass writes kilograms.
func (p Pen) Mass(kg float64, from span.Set) Shown {
	return p.show(measure.Quantity{V: kg, D: measure.DimMass}, from)
}

// Area writes mm².
func (p Pen) Area(mm2 float64, from span.Set) Shown {
	return p.show(measure.Quantity{V: float64(mm2 * 1e12), D: measure.DimArea}, from)
}

// Volume writes mm³.
func (p Pen) Volume(mm3 float64, from span.Set) Shown {
	return p.show(measure.Quantity{V: float64(mm3 * 1e18), D: measure.DimVolume}, from)
}

// Money writes cents.
func (p Pen) Money(m measure.Money, from span.Set) Shown { return p.show(m.Quantity(), from) }

// Count writes a whole number of things.
func (p Pen) Count(n int, from span.Set) Shown {
	return p.show(measure.Number(float64(n)), from)
}

// Quantity writes any quantity of the design as a reader sees it.
func (p Pen) Quantity(q measure.Quantity, from span.Set) Shown { return p.show(q, from) }

// Printed returns the length a person reads off s: what he cuts to. It returns
// 0 if s is no length.
func (s Shown) Printed() measure.Length {
	q, err := measure.Parse(s.Text)
	if err != nil {
		return 0
	}
	l, ok := q.Length()
	if !ok {
		return 0
	}
	return l
}

// as returns s with the way it is come by.
func (s Shown) as(o Origin) Shown { s.Origin = o; return s }
