package screw

// A Finish is what keeps a fastener from rusting, or that nothing does.
type Finish uint8

const (
	Unsaid     Finish = iota // the design leaves it open
	Plain                    // bright steel
	Plated                   // electroplated zinc
	Coated                   // a coating the maker rates for treated wood
	Galvanized               // hot-dip zinc
	Stainless
	Bronze // silicon bronze
)

var finishes = []struct {
	finish Finish
	words  string
}{{Unsaid, ""}, {Plain, "plain"}, {Plated, "zinc plated"}, {Plated, "plated"}, {Coated, "coated"},
	{Galvanized, "hot dip galvanized"}, {Galvanized, "galvanized"}, {Galvanized, "galvanised"}, {Stainless, "stainless"}, {Bronze, "bronze"}}

// String returns the word a fastener's name begins with: "galvanized".
func (f Finish) String() string {
	return [...]string{"", "plain", "plated", "coated", "galvanized", "stainless", "bronze"}[f]
}

// Metal is a family of metals that may touch one another in the wet.
type Metal uint8

const (
	AnyMetal Metal = iota // not said
	Zinc                  // steel and zinc on it
	Steel                 // stainless
	Copper                // bronze
)

// Metal returns the family of the finish. Source: SFPA, fasteners for treated
// wood: stainless and galvanized are not mixed in one joint (read).
func (f Finish) Metal() Metal {
	switch f {
	case Unsaid:
		return AnyMetal
	case Stainless:
		return Steel
	case Bronze:
		return Copper
	}
	return Zinc
}

// SuitsTreated reports whether a fastener so finished may stand in
// preservative-treated wood. A bolt of 1/2 in or more may be plain or plated.
//
// Source: IBC 2012, section 2304.9.5 and SFPA (read): hot-dip zinc-coated,
// stainless, silicon bronze or copper; IRC 2006, R319.3: 1/2 in bolts excepted
// (read). A coating rated by its maker: evaluation reports (memory).
func (f Fastener) SuitsTreated() bool {
	switch f.Finish {
	case Plain, Plated:
		return f.Bolted() && f.Size == "1/2"
	}
	return true
}

// SuitsCoast reports whether it lasts within about 300 ft of salt water:
// stainless and bronze do (guidance, memory).
func (f Finish) SuitsCoast() bool { return f == Unsaid || f == Stainless || f == Bronze }

// As returns f in another finish.
func (f Fastener) As(finish Finish) Fastener {
	f.Finish = finish
	return f
}

func (f Fastener) finished(name string) string {
	if f.Finish == Unsaid {
		return name
	}
	return f.Finish.String() + " " + name
}
