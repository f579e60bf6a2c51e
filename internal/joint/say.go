package joint

import (
	"fmt"

	"scantling/internal/measure"
)

// A speaker words measures for messages, in the units of the piece.
type speaker struct{ units measure.Units }

// length words mm millimetres, finer than the tape where the tape would say
// nothing.
func (s speaker) length(mm float64) string {
	l, _ := measure.FromMM(mm)
	switch {
	case s.units == measure.Metric && l < measure.Millimetre/2:
		return "less than 0.5 mm"
	case s.units == measure.Metric && l < 2*measure.Millimetre:
		return fmt.Sprintf("%.1f mm", l.MM())
	case s.units == measure.Metric:
		return l.Tape(measure.WholeMM).String()
	case l < measure.Inch/128:
		return `less than 1/64"`
	case l < measure.Inch/16:
		return l.Tape(measure.SixtyFourth).String()
	}
	return l.Tape(measure.Sixteenth).String()
}

func (s speaker) tape(l measure.Length) string { return s.length(l.MM()) }

func (s speaker) area(mm2 float64) string {
	if s.units == measure.Metric {
		return fmt.Sprintf("%.1f cm²", mm2/100)
	}
	return fmt.Sprintf("%.2f sq in", mm2/(25.4*25.4))
}

func (s speaker) volume(mm3 float64) string {
	if s.units == measure.Metric {
		return fmt.Sprintf("%.1f cm³", mm3/1000)
	}
	return fmt.Sprintf("%.2f cu in", mm3/(25.4*25.4*25.4))
}

// fine words a thickness of metal: to 1/64 in or a tenth of a millimetre.
func (s speaker) fine(mm float64) string {
	if s.units == measure.Metric {
		return fmt.Sprintf("%.1f mm", mm)
	}
	l, _ := measure.FromMM(mm)
	return l.Tape(measure.SixtyFourth).String()
}

// step is what a mend moves a distance by: a sixteenth of an inch, a millimetre.
func (s speaker) step() measure.Length {
	if s.units == measure.Metric {
		return measure.Millimetre
	}
	return measure.Inch / 16
}

// down returns the greatest whole number of steps in a length.
func (s speaker) down(l measure.Length) measure.Length { return l.Floor(s.step()) }

// text writes a whole number of steps as a design file does.
func (s speaker) text(l measure.Length) string {
	if s.units == measure.Metric {
		return l.Tape(measure.WholeMM).String()
	}
	return l.Tape(measure.Sixteenth).String()
}
