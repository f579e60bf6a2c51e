package drawing

import (
	"math"
	"sort"

	"scantling/internal/steady"
)

// Hatching returns the hatch lines of an area, already cut off at its
// outline, so that paper and screen show the same lines. It is empty for a tone
// without hatching. Lines keep one grid over the whole sheet.
func (f Fill) Hatching() [][2]Point {
	angle, apart := f.Tone.Hatch()
	if apart == 0 {
		return nil
	}
	rad := angle * (math.Pi / 180)
	dx, dy := steady.Cos(rad), -steady.Sin(rad) // along the lines, y down
	nx, ny := -dy, dx                           // across them
	across := func(p Point) float64 { return float64(p.X*nx) + float64(p.Y*ny) }
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, l := range f.Loops {
		for _, p := range l {
			lo, hi = min(lo, across(p)), max(hi, across(p))
		}
	}
	var out [][2]Point
	for k := math.Ceil(lo / apart); float64(k*apart) <= hi; k++ {
		s := float64(k * apart)
		var cuts []float64
		for _, l := range f.Loops {
			for i, a := range l {
				b := l[(i+1)%len(l)]
				sa, sb := across(a), across(b)
				if (sa > s) == (sb > s) {
					continue
				}
				t := (s - sa) / (sb - sa)
				x, y := a.X+float64((b.X-a.X)*t), a.Y+float64((b.Y-a.Y)*t)
				cuts = append(cuts, float64(x*dx)+float64(y*dy))
			}
		}
		sort.Float64s(cuts)
		for i := 0; i+1 < len(cuts); i += 2 {
			end := func(u float64) Point {
				return Point{float64(s*nx) + float64(u*dx), float64(s*ny) + float64(u*dy)}
			}
			out = append(out, [2]Point{end(cuts[i]), end(cuts[i+1])})
		}
	}
	return out
}
