package wood

import (
	"slices"

	"scantling/internal/cite"
	"scantling/internal/region"
)

// Works the rows below name.
const (
	europeanFigures  = "figures usually given for the species in European handbooks; gravity at 12 % from a density of "
	handbookImported = "Wood Handbook, FPL-GTR-190 (2010), tables 4-4 and 5-5b"
	perThirtyPoints  = "shrinkage over 30 points of moisture; no table at hand"
	noDesignGravity  = "none: American connection tables do not hold this wood"
)

// abroad is the table of species that American yards do not stock. It is
// searched after the American names, so that those mean what they always did.
var abroad = []line{
	{"scots pine", []string{"european redwood", "pinus sylvestris"}, 4.0, 7.7, 12.4, 0.00133, 0.00257, 0.42, 0.455, 0, 1.46, 12100, Slight, 0, "", [5]cite.Basis{m, c, m, m, m}},
	{"norway spruce", []string{"european whitewood", "picea abies"}, 3.6, 7.8, 11.9, 0.00120, 0.00260, 0.38, 0.405, 0, 1.40, 9500, Slight, 0, "", [5]cite.Basis{m, c, m, m, m}},
	{"european larch", []string{"larix decidua"}, 3.3, 7.8, 11.4, 0.00110, 0.00260, 0.48, 0.525, 0, 1.71, 13100, Moderate, 0, "", [5]cite.Basis{m, c, m, m, m}},
	{"radiata pine", []string{"monterey pine", "pinus radiata"}, 3.4, 6.7, 10.7, 0.00113, 0.00223, 0.42, 0.45, 1.18, 1.48, 11700, Slight, 0, "", [5]cite.Basis{m, c, m, m, m}},
}

// densities at 12 % moisture, in kg/m³, the gravities of abroad are made from.
var densities = map[string]string{"scots pine": "510 kg/m³", "norway spruce": "455 kg/m³", "european larch": "590 kg/m³"}

// abroadWood returns a species of abroad with its sources.
func abroadWood(l line) Wood {
	w := l.wood()
	if d := densities[l.name]; d != "" {
		w.From.Shrinkage.Work, w.From.Gravity.Work, w.From.Decay.Work = europeanFigures+d, europeanFigures+d, "EN 350:2016, annex B, brought to the handbook's groups"
	} else {
		w.From.Shrinkage.Work, w.From.Gravity.Work = handbookImported, handbookImported
	}
	w.From.PerPoint = cite.Source{Work: perThirtyPoints, Basis: c}
	w.From.Design.Work = noDesignGravity
	return w
}

// lookupAbroad returns the wood whose whole name is asked for, folded.
func lookupAbroad(asked string) (Wood, bool) {
	for _, l := range abroad {
		if asked == fold(l.name) || slices.Contains(l.also, asked) {
			return abroadWood(l), true
		}
	}
	return Wood{}, false
}

// A trade is what a region's yards call a wood. The same word may mean another
// wood elsewhere: redwood is Scots pine in Europe, a sequoia in America.
type trade struct {
	region region.Region
	says   string // folded
	name   string
	from   cite.Source
}

var (
	timberTrade = cite.Source{Work: "names of the timber trade", Basis: cite.Practice}
	recalled    = cite.Source{Work: "names of the timber trade", Basis: cite.Memory}
)

var trades = []trade{
	{region.Europe, "redwood", "scots pine", timberTrade},
	{region.Europe, "pine", "scots pine", recalled},
	{region.Europe, "whitewood", "norway spruce", timberTrade},
	{region.Europe, "spruce", "norway spruce", recalled},
	{region.Europe, "larch", "european larch", timberTrade},
	{region.Europe, "douglas fir", "douglas fir-larch", timberTrade},
	{region.Europe, "columbian pine", "douglas fir-larch", recalled},
	{region.Europe, "western red cedar", "western red cedar", timberTrade},
	{region.Europe, "cedar", "western red cedar", timberTrade},
	{region.Australasia, "treated pine", "radiata pine", timberTrade},
	{region.Australasia, "pine", "radiata pine", timberTrade},
	{region.Australasia, "oregon", "douglas fir-larch", recalled},
	{region.Australasia, "douglas fir", "douglas fir-larch", timberTrade},
	{region.Australasia, "baltic pine", "scots pine", recalled},
	{region.Australasia, "larch", "european larch", recalled},
	{region.Australasia, "western red cedar", "western red cedar", timberTrade},
	{region.Australasia, "cedar", "western red cedar", recalled},
}

// LookupIn is Lookup with the names of a region's trade first: "redwood" in
// Europe, "treated pine" in Australasia. In America it is Lookup.
func LookupIn(r region.Region, name string) (Wood, error) {
	asked := fold(name)
	for _, t := range trades {
		if t.region == r && t.says == asked {
			return Lookup(t.name)
		}
	}
	return Lookup(name)
}

// WoodsIn returns the woods the yards of a region have a name for; in America
// all of Woods.
func WoodsIn(r region.Region) []Wood {
	if r == region.America {
		return Woods()
	}
	var all []Wood
	for _, t := range trades {
		if w, err := Lookup(t.name); t.region == r && err == nil && !slices.ContainsFunc(all, func(o Wood) bool { return o.Name == w.Name }) {
			all = append(all, w)
		}
	}
	return all
}

// NameIn returns what a region's yards call a wood, "redwood"; its own name
// where they have no other word.
func (w Wood) NameIn(r region.Region) string {
	for _, t := range trades {
		if t.region == r && t.name == w.Name {
			return t.says
		}
	}
	return w.Name
}
