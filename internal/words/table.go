package words

import (
	"scantling/internal/cite"
	"scantling/internal/region"
)

// An entry is a concept's word in each region.
type entry struct {
	words [3]string // by region
	mass  bool      // said of no number: lumber, layout
	from  cite.Source
}

var (
	practice = cite.Source{Work: "words of the trade", Basis: cite.Practice}
	recalled = cite.Source{Work: "words of the trade in Australia and New Zealand; the others common practice", Basis: cite.Memory}
)

// say makes an entry.
func say(america, europe, australasia string, from cite.Source) entry {
	return entry{words: [...]string{region.America: america, region.Europe: europe, region.Australasia: australasia}, from: from}
}

func sayMass(america, europe, australasia string, from cite.Source) entry {
	e := say(america, europe, australasia, from)
	e.mass = true
	return e
}

// table is read only.
var table = [conceptsEnd]entry{
	HalfLap:      say("half lap", "halving joint", "halving joint", practice),
	Dado:         say("dado", "housing", "housing", practice),
	Groove:       say("groove", "groove", "groove", practice),
	Rabbet:       say("rabbet", "rebate", "rebate", practice),
	Miter:        say("miter", "mitre", "mitre", practice),
	CarriageBolt: say("carriage bolt", "coach bolt", "cup head bolt", recalled),
	DeckScrew:    say("deck screw", "decking screw", "decking screw", practice),
	LagScrew:     say("lag screw", "coach screw", "coach screw", practice),
	CommonNail:   say("common nail", "round wire nail", "flat head nail", recalled),
	FinishNail:   say("finish nail", "lost head nail", "bullet head nail", recalled),
	Lumber:       sayMass("lumber", "timber", "timber", practice),
	Yard:         say("lumberyard", "timber merchant", "timber yard", recalled),
	Hardware:     say("hardware store", "ironmonger", "hardware store", recalled),
	Apron:        say("apron", "rail", "rail", practice),
	Ledge:        say("rail", "ledge", "rail", recalled),
	Cap:          say("cap rail", "capping", "capping", practice),
	StoryStick:   say("story stick", "rod", "rod", practice),
	Layout:       sayMass("layout", "marking out", "marking out", practice),
	SharpEdge:    say("sharp edge", "arris", "arris", practice),
	RoundOver:    sayMass("rounding over", "rounding over", "rounding over", practice),
	TabletopClip: say("tabletop clip", "button", "expansion plate", recalled),
	Row:          say("course", "row", "row", practice),
	Offcut:       say("scrap", "offcut", "offcut", practice),
	RouterBit:    say("router bit", "router cutter", "router bit", recalled),
	Wrench:       say("wrench", "spanner", "spanner", practice),
	Vise:         say("vise", "vice", "vice", practice),
	Sawhorse:     say("sawhorse", "trestle", "trestle", practice),
	Color:        say("color", "colour", "colour", practice),
}
