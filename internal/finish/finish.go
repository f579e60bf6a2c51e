// Package finish reckons what a piece wants painting with: how much area of
// faces and of end grain, how much finish that takes, when the wood is dry enough
// for it, and when to come back.
//
// Start at Lookup for a kind of finish and at Kind.Need for the amounts.
//
// Areas are m² of wood, amounts litres. A tin's own label rules over every figure
// here.
package finish

import (
	"math"
	"strings"

	"scantling/internal/cite"
	"scantling/internal/geom"
)

// A Kind is a sort of finish.
type Kind struct {
	Name   string
	also   []string
	Coats  int        // usual
	Spread [2]float64 // m² a litre and coat covers: rough or weathered wood, smooth wood
	Years  [2]float64 // until it wants doing again, on upright wood; level wood half of it
	Film   bool       // lies on the wood, and peels when the wood was wet
	Again  string     // how the next coat follows
	From   cite.Source
	Lasts  cite.Source
}

const perGallon = 1 / 40.7458 // 1 ft² a US gallon in m² a litre

// Source of the coverage: the finishing guides of the U.S. Forest Products
// Laboratory (from memory). Of the years: Wood Handbook, FPL-GTR-190 (2010), table
// 16-5, upright wood.
var kinds = []Kind{
	kind("penetrating oil", 2, 150, 250, 1, 3, false, "while the first is still wet, within the hour; wipe off what stays on top", "raw linseed oil", "linseed oil", "oil", "tung oil", "teak oil"),
	kind("water repellent", 1, 150, 250, 1, 3, false, "when the first has soaked in", "water-repellent preservative", "sealer"),
	kind("semitransparent stain", 2, 150, 300, 2, 8, false, "within the hour, wet on wet", "stain", "deck stain"),
	kind("solid stain", 2, 200, 400, 6, 15, true, "when dry to the touch", "solid colour stain", "solid color stain"),
	kind("paint", 3, 350, 450, 10, 20, true, "primer first, then two coats, each when the last is dry", "exterior paint"),
}

func kind(name string, coats int, rough, smooth, soon, late float64, film bool, again string, also ...string) Kind {
	return Kind{name, also, coats, [2]float64{rough * perGallon, smooth * perGallon}, [2]float64{soon, late}, film, again,
		cite.Source{Work: "Forest Products Laboratory finishing guides, spread rates", Basis: cite.Memory},
		cite.Source{Work: "Wood Handbook, FPL-GTR-190 (2010), table 16-5", Basis: cite.Read}}
}

// Lookup returns the kind of finish a name means; false for one not known here,
// of which nothing is said.
func Lookup(name string) (Kind, bool) {
	asked := strings.ToLower(strings.TrimSpace(name))
	for _, k := range kinds {
		if asked == k.Name {
			return k, true
		}
		for _, a := range k.also {
			if asked == a {
				return k, true
			}
		}
	}
	return Kind{}, false
}

// Area is what there is to coat, m².
type Area struct{ Faces, EndGrain float64 }

// Of returns the area of a board's solid, faces and end grain apart: a face is end
// grain when its normal lies within 45° of the grain, which runs along x.
func Of(s *geom.Solid) (a Area) {
	for i := range s.Faces {
		f := &s.Faces[i]
		if math.Abs(f.Plane.N.X) > math.Sqrt2/2 {
			a.EndGrain += float64(f.Area() * 1e-6)
		} else {
			a.Faces += float64(f.Area() * 1e-6)
		}
	}
	return a
}

// Plus returns the two areas together.
func (a Area) Plus(b Area) Area { return Area{a.Faces + b.Faces, a.EndGrain + b.EndGrain} }

// thirst is how much more end grain drinks than a face. Source: common practice,
// two to four times.
const thirst = 3

// A Need is what a job takes.
type Need struct {
	Coats       int
	Least, Most float64 // litres, by the spread on smooth and on rough wood
	Waste       float64 // share added for brush and tin
}

// Need returns how much finish an area takes in so many coats; the kind's own
// number when coats is 0. End grain counts three times.
func (k Kind) Need(a Area, coats int) Need {
	if coats == 0 {
		coats = k.Coats
	}
	const waste = 0.1 // common practice
	wood := float64(coats) * (a.Faces + float64(thirst*a.EndGrain)) * (1 + waste)
	return Need{coats, wood / k.Spread[1], wood / k.Spread[0], waste}
}

// Cans returns how many cans of a size hold litres, the fewest.
func Cans(litres, size float64) int { return int(math.Ceil(litres/size - 1e-9)) }

// Wait returns how long to let wood dry before it is coated, by how it was sold.
//
// Source: Southern Forest Products Association, finishing guidance: a week to two
// months for treated lumber not dried again (read); common practice for the drop
// of water.
func (k Kind) Wait(treated bool) string {
	switch {
	case treated && k.Film:
		return "treated wood that was not dried again: two months in dry weather at least, or the film peels"
	case treated:
		return "treated wood that was not dried again: a week to two months in dry weather"
	}
	return "as soon as a drop of water soaks in within ten minutes"
}

// Return says when to look at it again, in years on level and on upright wood.
func (k Kind) Return() (level, upright [2]float64) {
	return [2]float64{k.Years[0] / 2, k.Years[1] / 2}, k.Years
}
