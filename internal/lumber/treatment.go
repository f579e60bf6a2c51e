package lumber

import (
	"slices"

	"scantling/internal/cite"
	"scantling/internal/region"
)

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

// abroad are the classes of the metric regions, in the order of the constants.
// They say where wood may be used, which is all that is taken for alike here:
// what is in the wood, and how much of it, is each standard's own.
var abroad = map[region.Region][3]struct {
	code, says string
	also       []string
	from       cite.Source
}{
	region.Europe: {
		{"", "untreated", nil, cite.Source{Work: "no treatment", Basis: cite.Practice}},
		{"UC3", "use class 3, above ground", []string{"use class 3", "UC3.2", "use class 3.2"}, cite.Source{Work: "EN 335:2013, use class 3", Basis: cite.Memory}},
		{"UC4", "use class 4, ground contact", []string{"use class 4"}, cite.Source{Work: "EN 335:2013, use class 4", Basis: cite.Memory}},
	},
	region.Australasia: {
		{"", "untreated", nil, cite.Source{Work: "no treatment", Basis: cite.Practice}},
		{"H3", "H3, outdoors above ground", []string{"H3.2"}, cite.Source{Work: "hazard class H3, as the trade in Australia states it (AS 1604; H3.2 of NZS 3640 from memory)", Basis: cite.Read}},
		{"H4", "H4, in the ground", nil, cite.Source{Work: "hazard class H4, as the trade in Australia states it (AS 1604; NZS 3640 from memory)", Basis: cite.Read}},
	},
}

// In returns how yards of a region say the treatment, "use class 3, above
// ground" or "H4, in the ground"; in America it is String.
func (t Treatment) In(r region.Region) string {
	if r == region.America {
		return t.String()
	}
	return abroad[r][t].says
}

// CodeIn returns the class stamped on treated wood in a region: "UC4A", "UC4",
// "H4"; "" for none.
func (t Treatment) CodeIn(r region.Region) string {
	if r == region.America {
		return t.Code()
	}
	return abroad[r][t].code
}

// SourceIn returns where the class of a region is defined.
func (t Treatment) SourceIn(r region.Region) cite.Source {
	if r == region.America {
		return t.Source()
	}
	return abroad[r][t].from
}

// ParseTreatment reads "none", "above ground", "ground contact" or a class by
// its code or name in any region (UC3B, use class 3, H3), in any case. It
// returns a *NameError otherwise.
func ParseTreatment(s string) (Treatment, error) {
	folded := fold(s)
	var known []string
	for i, t := range treatments {
		if folded == fold(t.words) || t.code != "" && folded == fold(t.code) {
			return Treatment(i), nil
		}
		known = append(known, t.words)
	}
	for _, r := range []region.Region{region.Europe, region.Australasia} {
		for i, c := range abroad[r] {
			names := append([]string{c.code, c.says}, c.also...)
			if folded != "" && slices.ContainsFunc(names, func(n string) bool { return folded == fold(n) }) {
				return Treatment(i), nil
			}
		}
	}
	return Untreated, &NameError{Noun: "treatment", Asked: s, Nearest: known}
}
