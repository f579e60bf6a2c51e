package lumber

import "scantling/internal/cite"

// A Treatment is how lumber was pressure-treated against decay, by where it may
// be used.
type Treatment uint8

const (
	Untreated     Treatment = iota
	AboveGround             // exposed to weather, clear of the soil
	GroundContact           // in or near soil, or where it stays wet
)

// treatments in the order of the constants.
var treatments = [...]struct {
	words, code string
	from        cite.Source
}{
	{"none", "", cite.Source{Work: "no treatment", Basis: cite.Practice}},
	{"above ground", "UC3B", cite.Source{Work: "AWPA Standard U1 use category 3B, as summarised by treaters", Basis: cite.Read}},
	{"ground contact", "UC4A", cite.Source{Work: "AWPA Standard U1 use category 4A, as summarised by treaters", Basis: cite.Read}},
}

// Treatments returns all treatments, from none upward.
func Treatments() []Treatment { return []Treatment{Untreated, AboveGround, GroundContact} }

// String returns the words of the trade: "none", "above ground", "ground contact".
func (t Treatment) String() string { return treatments[t].words }

// Code returns the use category printed on the end tag, "UC3B" or "UC4A"; "" for none.
func (t Treatment) Code() string { return treatments[t].code }

// Source returns where the use category is defined.
func (t Treatment) Source() cite.Source { return treatments[t].from }

// ParseTreatment reads "none", "above ground", "ground contact" or a use
// category (UC3B, UC4A), in any case. It returns a *NameError otherwise.
func ParseTreatment(s string) (Treatment, error) {
	folded := fold(s)
	var known []string
	for i, t := range treatments {
		if folded == fold(t.words) || t.code != "" && folded == fold(t.code) {
			return Treatment(i), nil
		}
		known = append(known, t.words)
	}
	return Untreated, &NameError{Noun: "treatment", Asked: s, Nearest: known}
}
