package wood

import "math"

// WidthRatio returns the width of a board at one moisture content over its width
// at another, both in percent: under 1 when it dries. The board is taken as sawn
// flat, along the rings, which is how it moves most.
//
//	w(M) ∝ 1 − S·(30 − M)/30 below fibre saturation (30 %), 1 above it
//
// S is the tangential shrinkage from green to oven-dry, as a share of the green
// width.
//
// Source: Wood Handbook, FPL-GTR-190 (2010), chapter 4, "Shrinkage": shrinkage is
// taken as proportional to the moisture lost below saturation.
func (w Wood) WidthRatio(from, to float64) float64 {
	size := func(m float64) float64 {
		dry := (fibreSaturation - math.Min(m, fibreSaturation)) / fibreSaturation
		return 1 - float64(w.Tangential/100*dry)
	}
	return size(to) / size(from)
}
