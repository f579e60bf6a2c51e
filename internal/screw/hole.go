package screw

import "scantling/internal/measure"

// bit is the step of the drill bits people own: 1/64 in.
const bit = measure.Inch / 64

// bit returns the step of the bits sold for the row: 1/64 in, or half a millimetre.
func (r Row) bit() measure.Length {
	if r.Metric() {
		return mm / 2
	}
	return bit
}

// dense is the specific gravity over which lead holes are drilled full size.
const dense = 0.60

// Clearance returns the bit for the hole through the clamped board, in which a
// screw turns freely so that it draws the boards together: the first 1/64 in at or
// over its body (0.5 mm of a metric one). Of a bolt it is Hole, of a dowel its own
// diameter; a nail or a fitting takes none, and 0 is returned.
//
// Source: common practice (no. 8 11/64, no. 10 13/64, no. 12 7/32 in).
func (f Fastener) Clearance() measure.Length {
	switch {
	case f.Bolted():
		return f.Hole()
	case f.Family == Dowel:
		return f.Shank
	case f.Screwed():
		return f.Shank.Ceil(f.bit())
	}
	return 0
}

// Pilot returns the bit for the thread in the far board, for wood of the given
// specific gravity (oven-dry): the largest 1/64 in that is no larger than the
// standard allows. It is 0 for what takes no lead hole.
//
//	wood and deck screws: 7/8 of the root diameter up to G 0.60, else all of it
//	lag and structural screws: 70 % of the shank up to G 0.50, 75 % up to 0.60, else 85 %
//	nails: 75 % of the shank up to G 0.60, else 90 %
//
// Source: AWC NDS 2018, 12.1.4 (lag screws, from memory: the upper ends of 40-70,
// 60-75 and 65-85 %), 12.1.5 (read in a handbook's copy), 12.1.6.
//
// Metric bits come in steps three halves as wide, so that of a metric fastener the
// nearest bit is taken instead: 2 mm for a 4.0 screw in softwood, 3 mm for a 5.0
// (common practice).
func (f Fastener) Pilot(gravity float64) measure.Length {
	share := func(d measure.Length, percent int64) measure.Length {
		exact := measure.Length(int64(d) * percent / 100)
		if f.Metric() {
			return exact.Round(f.bit())
		}
		return exact.Floor(bit)
	}
	switch {
	case f.Family == Dowel:
		return f.Shank
	case f.Family == DeckScrew || f.Family == WoodScrew:
		if gravity > dense {
			return share(f.Root, 100)
		}
		if f.Metric() {
			return (f.Root * 7 / 8).Round(f.bit())
		}
		return (f.Root * 7 / 8).Floor(bit)
	case f.Family == LagScrew || f.Family == Structural:
		switch {
		case gravity > dense:
			return share(f.Shank, 85)
		case gravity > 0.50:
			return share(f.Shank, 75)
		}
		return share(f.Shank, 70)
	case f.Nailed():
		if gravity > dense {
			return share(f.Shank, 90)
		}
		return share(f.Shank, 75)
	}
	return 0
}

// Countersink returns the diameter of the recess in which a flat head lies flush,
// 0 for a head that stands on the wood or is driven in. Its depth is Sunk.
func (f Fastener) Countersink() measure.Length {
	if f.Family == DeckScrew || f.Family == WoodScrew {
		return f.Head
	}
	return 0
}

// Sunk returns how deep a flat head of 82° goes in, (head − shank) / (2 tan 41°);
// a metric one of 90°, (head − shank) / 2. Source: ASME B18.6.1, DIN 97 (memory).
func (f Fastener) Sunk() measure.Length {
	switch {
	case f.Countersink() == 0:
		return 0
	case f.Metric():
		return (f.Head - f.Shank) / 2
	}
	const twiceTan41 = 1739 // in thousandths
	return (f.Head - f.Shank) * 1000 / twiceTan41
}
