package wood

import (
	"fmt"

	"scantling/internal/cite"
	"scantling/internal/region"
)

// A Durability is the class a standard gives untreated heartwood: the lower the
// better. The classes of two standards are no measure of one another.
type Durability struct {
	Standard    string // "EN 350", "AS 5604 above ground"
	Best, Worst int    // equal unless the standard gives a range
	Of          int    // the class of wood that does not last
	From        cite.Source
}

// String returns the class as printed: "EN 350 class 3 to 4 of 5".
func (d Durability) String() string {
	if d.Best == d.Worst {
		return fmt.Sprintf("%s class %d of %d", d.Standard, d.Best, d.Of)
	}
	return fmt.Sprintf("%s class %d to %d of %d", d.Standard, d.Best, d.Worst, d.Of)
}

var (
	en350  = cite.Source{Work: "EN 350:2016, annex B, resistance to fungi", Basis: cite.Memory}
	as5604 = cite.Source{Work: "AS 5604:2005, table A1, above ground", Basis: cite.Memory}
)

// classes are those the two standards give the woods at hand.
var classes = []struct {
	name string
	Durability
}{
	{"scots pine", Durability{"EN 350", 3, 4, 5, en350}},
	{"norway spruce", Durability{"EN 350", 4, 4, 5, en350}},
	{"european larch", Durability{"EN 350", 3, 4, 5, en350}},
	{"douglas fir-larch", Durability{"EN 350", 3, 4, 5, en350}}, // grown in Europe; American wood is class 3
	{"western red cedar", Durability{"EN 350", 2, 3, 5, en350}}, // American wood; grown in Britain it is class 3
	{"white oak", Durability{"EN 350", 2, 3, 5, en350}},
	{"black locust", Durability{"EN 350", 1, 2, 5, en350}},
	{"teak", Durability{"EN 350", 1, 1, 5, en350}},
	{"radiata pine", Durability{"EN 350", 4, 5, 5, en350}},

	{"radiata pine", Durability{"AS 5604 above ground", 4, 4, 4, as5604}},
	{"scots pine", Durability{"AS 5604 above ground", 4, 4, 4, as5604}},
	{"douglas fir-larch", Durability{"AS 5604 above ground", 4, 4, 4, as5604}},
	{"western red cedar", Durability{"AS 5604 above ground", 2, 2, 4, as5604}},
	{"teak", Durability{"AS 5604 above ground", 1, 1, 4, as5604}},
}

// DurabilityIn returns the class the standard of a region gives the wood. It
// returns false where none is known here, which says nothing good of the wood;
// America has no such classes, see Decay.
func (w Wood) DurabilityIn(r region.Region) (Durability, bool) {
	standard := map[region.Region]string{region.Europe: "EN 350", region.Australasia: "AS 5604 above ground"}[r]
	for _, c := range classes {
		if c.name == w.Name && c.Standard == standard {
			return c.Durability, true
		}
	}
	return Durability{}, false
}
