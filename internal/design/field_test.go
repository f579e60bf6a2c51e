package design

import (
	"math"
	"testing"

	"scantling/internal/snag"
	"scantling/internal/source"
)

// A field without gaps covers its outline: its boards hold as much wood as the
// outline is large, times their thickness, whichever way they run, and where the
// outline looks in too.
func TestFieldsCoverTheirOutlines(t *testing.T) {
	for _, c := range []struct {
		name, shape string
		area        float64 // square inches
		boards      int
	}{
		{"a square, at 45°", `{runs: right, faces: up, swing: right end 45° toward back, bottom: floor}
    outline: {left: 10" left of middle, right: 10" right of middle, front: 10" in front of middle, back: 10" behind middle}`, 400, 7},
		{"a square, along", `{runs: right, faces: up, bottom: floor}
    outline: {left: 10" left of middle, right: 10" right of middle, front: 10" in front of middle, back: 10" behind middle}`, 400, 5},
		{"an L, at 30°", `{runs: back, faces: up, swing: back end 30° toward right, bottom: floor}
    corners: [a, b, c, d, e, f]`, 20*20 - 8*12, 6},
	} {
		src := []byte(prelude + `points:
  a: where 0" right of middle meets 0" behind middle meets floor
  b: where 20" right of middle meets 0" behind middle meets floor
  c: where 20" right of middle meets 12" behind middle meets floor
  d: where 8" right of middle meets 12" behind middle meets floor
  e: where 8" right of middle meets 20" behind middle meets floor
  f: where 0" right of middle meets 20" behind middle meets floor
fields:
  panel:
    of: one_by_six
    place: ` + c.shape + "\n")
		tree, list := source.Parse("field.yaml", src)
		p, more := Open(tree).Evaluate(nil)
		if list = append(list, more...); list.Errors() > 0 {
			t.Fatal(c.name, list.Text(snag.Sources{"field.yaml": src}))
		}
		sum := 0.0
		for _, b := range p.Boards {
			if err := b.Solid.Check(); err != nil {
				t.Errorf("%s: %s: %v", c.name, b.ID, err)
			}
			sum += b.Solid.Volume / (25.4 * 25.4 * 25.4)
		}
		if math.Abs(sum-c.area*0.75) > 1e-9 {
			t.Errorf("%s: %v cu in of wood, want %v (by hand: the outline by 3/4 in)", c.name, sum, c.area*0.75)
		}
		if len(p.Boards) != c.boards || p.Fields[0].Count.Q.V != float64(c.boards) {
			t.Errorf("%s: %d boards, want %d", c.name, len(p.Boards), c.boards)
		}
	}
}
