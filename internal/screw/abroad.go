package screw

import (
	"scantling/internal/measure"
	"scantling/internal/region"
)

// SoldIn reports whether shops of a region sell the fastener.
func (f Fastener) SoldIn(r region.Region) bool {
	for _, row := range RowsIn(r) {
		if row.Family == f.Family && row.Size == f.Size {
			return true
		}
	}
	return false
}

// Nearest returns what shops of a region sell that differs least from f: of its
// family, nearest in diameter, then in length. It returns false where they sell
// none of the family. It is something to begin from: another diameter holds and
// splits otherwise.
func (f Fastener) Nearest(r region.Region) (Fastener, bool) {
	off := func(a, b measure.Length) measure.Length { return max(a-b, b-a) }
	best, found := Fastener{}, false
	for _, row := range RowsIn(r) {
		if row.Family == f.Family && (!found || off(row.Shank, f.Shank) < off(best.Shank, f.Shank)) {
			best, found = Fastener{Row: row, Finish: f.Finish}, true
		}
	}
	if f.Length == 0 || !found {
		return best, found
	}
	for _, l := range best.Lengths {
		if best.Length == 0 || off(l, f.Length) < off(best.Length, f.Length) {
			best.Length = l
		}
	}
	return best, true
}
