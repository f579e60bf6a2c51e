// Package timber holds the design rules for wood members and their connections:
// what a stick of a grade may carry, and what a screw or bolt between two may.
//
// It is the allowable-stress side of the AWC National Design Specification for
// Wood Construction (NDS 2018) with its Supplement: a reference value, times
// every factor that fits the case, is the capacity; demand over capacity is the
// use. Nothing here knows a piece of furniture. Start at Reference for the
// strength of a grade, at Member.Limits for a stick under load, at SingleShear
// for a fastener.
//
// Forces are N, lengths mm, stresses MPa. The standard's equations hold
// constants in psi and inches; they are converted here, once, by the names psi
// and inch. Every factor that goes into a figure is kept beside it with its
// reason and its source, so that a plan can print the sum.
//
// This is a design aid. The standard's text, the local code and a licensed
// engineer's judgement rule.
package timber

import "scantling/internal/cite"

const (
	inch = 25.4                // mm, exact
	lbf  = 4.4482216152605     // N, exact
	psi  = lbf / (inch * inch) // MPa
)

// A Factor is one adjustment of a reference value: its symbol, what it
// multiplies by, why it has that value, and where it stands.
type Factor struct {
	Symbol string
	Value  float64
	Why    string
	From   cite.Source
}

// A Value is a reference design value and everything it is multiplied by.
type Value struct {
	Symbol    string  // "Fb"
	Reference float64 // MPa
	Factors   []Factor
}

// Adjusted returns the reference value times all its factors, in MPa.
func (v Value) Adjusted() float64 {
	f := v.Reference
	for _, k := range v.Factors {
		f *= k.Value
	}
	return f
}

// with returns v with one more factor; a factor of 1 says nothing and is left
// out.
func (v Value) with(f Factor) Value {
	if f.Value == 1 {
		return v
	}
	v.Factors = append(v.Factors[:len(v.Factors):len(v.Factors)], f)
	return v
}

func nds(where string, b cite.Basis) cite.Source {
	return cite.Source{Work: "AWC NDS 2018, " + where, Basis: b}
}

func supplement(where string, b cite.Basis) cite.Source {
	return cite.Source{Work: "AWC NDS Supplement 2018, " + where, Basis: b}
}
