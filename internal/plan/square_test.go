//go:build !js

package plan

import (
	"encoding/json"
	"math"
	"slices"
	"testing"
)

// Every diagonal in plan.json is the distance between two corners of the boards it
// is said of, one not at the same board as the other, read from the vertices by a
// reader of its own; and work done again is told with boards of its own.
func TestDiagonalsAreDistances(t *testing.T) {
	type number struct{ Mm float64 }
	type doc struct {
		Boards []struct {
			ID    string
			Solid struct{ Vertices_mm [][3]float64 }
		}
		Steps []struct {
			Name   string
			Times  int
			Boards []string
			Again  []struct{ Boards []string }
			Add    []struct{ Count int }
			Square []struct {
				Boards    []string
				Diagonals [2]struct {
					A, B  string
					Value number
				}
				Allowed, Racked, Across number
			}
		}
	}
	const source = "geometry: the distance of two points"
	frames, doings := 0, 0
	for _, file := range allFive {
		var d doc
		if err := json.Unmarshal(run(t, example(t, file), Settled).JSON(), &d); err != nil {
			t.Fatal(err)
		}
		at := map[string][][3]float64{}
		for _, b := range d.Boards {
			at[b.ID] = b.Solid.Vertices_mm
		}
		for _, s := range d.Steps {
			if s.Times != 1+len(s.Again) {
				t.Errorf("%s, %s: done %d times and told %d times", file, s.Name, s.Times, 1+len(s.Again))
			}
			for _, a := range s.Again {
				doings++
				for _, id := range a.Boards {
					if !slices.Contains(s.Boards, id) {
						t.Errorf("%s, %s: %s is not among its boards", file, s.Name, id)
					}
				}
			}
			for _, q := range s.Square {
				frames++
				for _, g := range q.Diagonals {
					nearest := math.Inf(1)
					for _, a := range q.Boards {
						for _, b := range q.Boards {
							if a == b {
								continue
							}
							for _, v := range at[a] {
								for _, w := range at[b] {
									long := math.Sqrt((v[0]-w[0])*(v[0]-w[0]) + (v[1]-w[1])*(v[1]-w[1]) + (v[2]-w[2])*(v[2]-w[2]))
									nearest = min(nearest, math.Abs(long-g.Value.Mm))
								}
							}
						}
					}
					if nearest > 1e-6 {
						t.Errorf("%s, %s: no two corners lie %v mm apart, from %s to %s (%s)", file, s.Name, g.Value.Mm, g.A, g.B, source)
					}
				}
				if q.Allowed.Mm <= 0 || q.Racked.Mm > q.Allowed.Mm+1e-9 || q.Across.Mm > q.Diagonals[0].Value.Mm {
					t.Errorf("%s, %s: %v allowed, %v out of square over %v", file, s.Name, q.Allowed.Mm, q.Racked.Mm, q.Across.Mm)
				}
			}
		}
	}
	if frames < 10 || doings < 4 {
		t.Errorf("only %d frames and %d doings again were looked at", frames, doings)
	}
}
