// Package measure reads and prints what stands on a tape, a saw scale, a
// balance and a price tag.
//
// A Length is a whole number of nanometres, because one millimetre and one
// sixty-fourth of an inch are both exact in it: what a person writes comes back
// as written. A Quantity is the same count as a float64 with its dimension, for
// the sums in between; lengths, angles and money stay exact there below 2^53
// counts (9,000 km). Start from Parse, which reads one literal, ScanNumber,
// which reads the literal a longer text begins with, and Quantity.Exact, which
// prints what Parse reads back.
package measure

import "math"

// A Length is a distance in nanometres. Millimetres, and inches down to 1/64,
// are exact; 1/128 in is not.
type Length int64

// Lengths by name. The inch is 25.4 mm exactly (international yard and pound
// agreement, 1959).
const (
	Nanometre  Length = 1
	Millimetre        = 1_000_000 * Nanometre
	Inch              = 25_400_000 * Nanometre
	Foot              = 12 * Inch
)

// An Angle is a count of 1e-9 degree.
type Angle int64

// Degree is one degree.
const Degree Angle = 1_000_000_000

// Money is a sum of money in cents.
type Money int64

// Dollar is a hundred cents.
const Dollar Money = 100

// MM returns l in millimetres, correctly rounded.
func (l Length) MM() float64 { return float64(l) / float64(Millimetre) }

// Inches returns l in inches, correctly rounded.
func (l Length) Inches() float64 { return float64(l) / float64(Inch) }

// FromMM returns the length nearest to mm millimetres, halves away from zero.
// It returns false if mm is not a number or lies beyond what a Length can hold
// exactly as a float64 (2^53 nm).
func FromMM(mm float64) (Length, bool) { return whole[Length](mm * float64(Millimetre)) }

// Degrees returns a in degrees, correctly rounded.
func (a Angle) Degrees() float64 { return float64(a) / float64(Degree) }

// FromDegrees returns the angle nearest to deg degrees, halves away from zero.
// It returns false if deg is not a number or beyond 9e6 degrees.
func FromDegrees(deg float64) (Angle, bool) { return whole[Angle](deg * float64(Degree)) }

// whole rounds v to a whole count, halves away from zero; it refuses what
// float64 cannot count one by one.
func whole[T ~int64](v float64) (T, bool) {
	if !(math.Abs(v) < 1<<53) {
		return 0, false
	}
	return T(math.Round(v)), true
}

// Round returns the multiple of step nearest to l, halves away from zero, so
// that a board and its mirror image print alike. step must be positive.
func (l Length) Round(step Length) Length { return roundTo(l, step) }

// Floor returns the greatest multiple of step that is not above l.
func (l Length) Floor(step Length) Length {
	r := l % step
	if r < 0 {
		r += step
	}
	return l - r
}

// Ceil returns the least multiple of step that is not below l.
func (l Length) Ceil(step Length) Length { return -(-l).Floor(step) }

// Round returns the multiple of step nearest to a, halves away from zero.
func (a Angle) Round(step Angle) Angle { return roundTo(a, step) }

func roundTo[T ~int64](v, step T) T {
	if v < 0 {
		return -roundTo(-v, step)
	}
	return (v + step/2) / step * step
}
