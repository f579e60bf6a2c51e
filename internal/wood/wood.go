// Package wood holds what the plans need to know of the wood itself: how heavy
// it is, how far it moves as it dries, how well it stands the weather.
//
// Start at Lookup. A yard sells construction lumber by group ("southern pine"),
// seldom by species ("loblolly pine"); both are names here, and a group answers
// with its stated design row and, where its species differ, with the least
// favourable of them. A name that fits several woods ("cedar") is an error that
// says which they are.
package wood

import "scantling/internal/cite"

// A Wood is a species or a group of species sold as one.
type Wood struct {
	Name    string   // as the trade says it: "southern pine", "western red cedar"
	Members []string // of a group, its species; nil for a species

	// GreenGravity and DryGravity are specific gravities: oven-dry mass by
	// volume when green and at 12 % moisture. Both are 0 for a group.
	GreenGravity, DryGravity float64

	// DesignGravity is the specific gravity connections are designed by:
	// oven-dry mass by oven-dry volume. DesignGroup is the combination it is
	// tabulated under. 0 and "" when the design standard has none.
	DesignGravity float64
	DesignGroup   string

	// Radial, Tangential and Volumetric are the shrinkage from green to
	// oven-dry, in percent of the green size.
	Radial, Tangential, Volumetric float64

	// RadialPerPoint and TangentialPerPoint are the change of size, as a share
	// of the size in hand, for one point of moisture content between 6 and 14 %.
	RadialPerPoint, TangentialPerPoint float64

	// Green and Dry stiffness in million psi along the grain, and the modulus
	// of rupture at 12 % in psi, of clear wood: for comparison, not for design.
	// All are 0 for a group, and the green one where it is not known.
	GreenStiffness, DryStiffness, DryRupture float64

	Decay Decay // of the heartwood; sapwood of every wood is perishable

	From Sources
}

// Sources says where each kind of figure in a Wood comes from.
type Sources struct{ Shrinkage, PerPoint, Gravity, Decay, Design cite.Source }

// Decay is how well heartwood resists decay, from least to best.
type Decay uint8

const (
	Slight Decay = iota + 1 // slightly or not resistant: treat it, or keep it dry
	Moderate
	Resistant
	VeryResistant
)

// String returns the class as the handbook words it.
func (d Decay) String() string {
	switch d {
	case Slight:
		return "slightly or not resistant"
	case Moderate:
		return "moderately resistant"
	case Resistant:
		return "resistant"
	case VeryResistant:
		return "very resistant"
	}
	return "not known"
}

// fibreSaturation is the moisture content, in percent, below which wood
// shrinks. Source: Wood Handbook, FPL-GTR-190 (2010), chapter 4.
const fibreSaturation = 30

// DensityKgM3 returns the density in kg/m³ at the given moisture content, in
// percent of the oven-dry mass.
//
//	ρ = 1000 · G(M) · (1 + M/100)
//
// G(M) is the specific gravity on the volume at M. The volume a gram of dry wood
// takes up, 1/G, grows in proportion to M up to fibre saturation (30 %). For a
// species the line goes through the two tabulated gravities, green and at 12 %;
// for a group 1/G(M) = 1/G₀ + 0.009·M, with the design gravity G₀.
//
// Preservative is not counted: it adds under 1 % to the mass.
//
// Source: Wood Handbook, FPL-GTR-190 (2010), chapter 4 (density and the linear
// shrinkage below saturation); AWC NDS Supplement 2018, section 3.1.3 (groups,
// from memory).
func (w Wood) DensityKgM3(moisture float64) float64 {
	m := min(moisture, fibreSaturation)
	var volume float64 // of oven-dry mass 1, water displacing 1 per unit
	if w.GreenGravity > 0 {
		green, dry := 1/w.GreenGravity, 1/w.DryGravity
		volume = green - float64((green-dry)*((fibreSaturation-m)/(fibreSaturation-12)))
	} else {
		volume = 1/w.DesignGravity + float64(0.009*m)
	}
	return 1000 / volume * (1 + moisture/100)
}
