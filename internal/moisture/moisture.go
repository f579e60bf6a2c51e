// Package moisture answers how wet wood is and how much it moves: the moisture
// it comes to in air of a temperature and humidity, the driest and wettest months
// of a climate, and what a board's width and thickness do between two moistures.
//
// Start at Equilibrium and at Between. A board moves across the grain only; along
// it, change is a hundredth of that and is left out. Which way its rings run is not
// known before it is bought: Between answers with a range, from quarter-sawn to
// flat-sawn.
//
// Moisture is percent of the dry mass.
package moisture

import (
	"math"

	"scantling/internal/cite"
	"scantling/internal/wood"
)

// Equilibrium returns the moisture wood comes to in air at a temperature in °C
// and a relative humidity from 0 to 1.
//
//	M = (1800/W)·[Kh/(1 − Kh) + (K₁Kh + 2K₁K₂K²h²)/(1 + K₁Kh + K₁K₂K²h²)]
//	W = 349 + 1.29T + 0.0135T², K = 0.805 + 0.000736T − 0.00000273T²
//	K₁ = 6.27 − 0.00938T − 0.000303T², K₂ = 1.91 + 0.0407T − 0.000293T²
//
// Source: Wood Handbook, FPL-GTR-190 (2010), equation 4-5; constants in °C of
// Simpson, FPL-RN-0268 (1998).
func Equilibrium(celsius, humidity float64) float64 {
	t, h := celsius, humidity
	tt := float64(t * t)
	w := 349 + float64(1.29*t) + float64(0.0135*tt)
	k := 0.805 + float64(0.000736*t) - float64(0.00000273*tt)
	k1 := 6.27 - float64(0.00938*t) - float64(0.000303*tt)
	k2 := 1.91 + float64(0.0407*t) - float64(0.000293*tt)
	kh := float64(k * h)
	first, second := float64(k1*kh), float64(k1*k2*kh*kh)
	return 1800 / w * (kh/(1-kh) + (first+float64(2*second))/(1+first+second))
}

// A Climate is what wood comes to outdoors under a roof, month by month from
// January.
type Climate struct {
	Name   string
	Months [12]float64
	From   cite.Source
}

// Extremes returns the driest and wettest month's moisture and which they are.
func (c Climate) Extremes() (dry, wet float64, dryMonth, wetMonth int) {
	dry, wet = math.Inf(1), math.Inf(-1)
	for i, m := range c.Months {
		if m < dry {
			dry, dryMonth = m, i
		}
		if m > wet {
			wet, wetMonth = m, i
		}
	}
	return dry, wet, dryMonth, wetMonth
}

// Of returns the climate a design names: "outdoors temperate", "outdoors dry",
// "outdoors wet", "indoors", "indoors dry"; temperate when it names none. Each is
// one town's row, named in its source.
func Of(lives string) Climate {
	for _, c := range climates {
		if c.Name == lives {
			return c
		}
	}
	return climates[0]
}

// Unroofed is how much wetter boards in the rain get than the air makes them,
// percent moisture: the most a wet season adds where nothing covers them. Source:
// assumed; decks measured at 18 to 22 % in wet winters where the air gives 14 to 16.
const Unroofed = 5

func town(name string, m ...float64) Climate {
	c := Climate{Name: name, From: cite.Source{Work: "Wood Handbook, FPL-GTR-190 (2010), table 13-1", Basis: cite.Memory}}
	copy(c.Months[:], m)
	return c
}

// Washington DC, Phoenix, Portland, and a heated room in the north and the dry
// southwest.
var climates = []Climate{
	town("outdoors temperate", 11.8, 11.5, 11.3, 11.1, 11.6, 11.7, 11.7, 12.3, 12.6, 12.5, 12.2, 12.2),
	town("outdoors dry", 9.4, 8.4, 7.9, 6.1, 5.1, 4.6, 6.2, 6.9, 6.9, 7.0, 8.2, 9.5),
	town("outdoors wet", 16.5, 15.3, 14.2, 13.5, 13.1, 12.4, 11.7, 11.9, 12.6, 15.0, 16.8, 17.4),
	town("indoors", 6, 6, 7, 8, 9, 10, 11, 11, 10, 9, 7, 6),
	town("indoors dry", 5, 5, 5, 6, 6, 6, 7, 7, 6, 6, 5, 5),
}

// A Range is the least and the most of what cannot be known more closely.
type Range struct{ Least, Most float64 }

// Between returns the change of a board's size across the grain, per size in
// hand, from one moisture to another: negative when it dries. Least is that of a
// board with its rings square to the face measured, Most with the rings along it.
//
//	change = [1 − S(30 − M₂)/3000]/[1 − S(30 − M₁)/3000] − 1, S radial or tangential
//
// Source: Wood Handbook, FPL-GTR-190 (2010), equations 4-7 and 13-3.
func Between(w wood.Wood, from, to float64) Range {
	one := func(s float64) float64 {
		size := func(m float64) float64 { return 1 - float64(s/100*(saturated-math.Min(m, saturated))/saturated) }
		return size(to)/size(from) - 1
	}
	return Range{one(w.Radial), one(w.Tangential)}
}

// saturated is the moisture, percent, below which wood moves. Source: Wood
// Handbook, chapter 4.
const saturated = 30

// Small returns the change of a size for a few points of moisture between 6 and
// 14 %, by the coefficients of the handbook: D·C·(M₂ − M₁).
//
// Source: Wood Handbook, FPL-GTR-190 (2010), equation 13-2.
func Small(size, coefficient, from, to float64) float64 {
	return size * coefficient * (to - from)
}

// Construction returns the shrinkage of construction lumber from green to a
// moisture between 8 and 19 %, as a share of the green size: across the width, and
// across the thickness.
//
//	width 6.031 − 0.215M, thickness 5.062 − 0.181M percent
//
// Source: Green, FPL-RP-489 (1989), as in ASTM D1990.
func Construction(moisture float64) (width, thickness float64) {
	return (6.031 - float64(0.215*moisture)) / 100, (5.062 - float64(0.181*moisture)) / 100
}
