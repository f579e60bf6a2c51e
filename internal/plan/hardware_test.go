package plan

import (
	"encoding/json"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"scantling/internal/screw"
)

// What is bought of every fastener is as many as stand in the joints, one for one,
// and what hardware takes; the packs hold them and the spares. It is read from
// plan.json alone, for all examples and every kind of fastener, at the sizes of the
// file and at both ends of their ranges.
func TestHardwareIsWhatIsDriven(t *testing.T) {
	files, err := filepath.Glob("../../examples/*.yaml")
	if err != nil || len(files) < 5 {
		t.Fatal(files, err)
	}
	kinds := map[string]bool{}
	for _, file := range append(files, "testdata/every-fastener.yaml", "testdata/every-metric-fastener.yaml") {
		src, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		n := len(run(t, src, Live).Piece.Sizes)
		for _, set := range [][]string{nil, corner(run(t, src, Live), 0), corner(run(t, src, Live), 1<<n-1)} {
			p := run(t, src, Settled, set...)
			var doc struct {
				Joints []struct {
					Pairs []struct{ Axes []struct{ What string } }
				}
				Hardware []struct {
					What, Packs  string
					Count, Spare int
				}
			}
			if err := json.Unmarshal(p.JSON(), &doc); err != nil {
				t.Fatal(err)
			}
			driven := map[string]int{}
			for _, j := range doc.Joints {
				for _, pair := range j.Pairs {
					for _, a := range pair.Axes {
						driven[a.What]++
					}
				}
			}
			for _, h := range p.Piece.Hardware { // hinges take screws of their own
				n, _ := h.Count.Q.Count()
				for _, w := range h.With {
					f, err := screw.Parse(w.Phrase)
					if err != nil {
						t.Fatal(err)
					}
					driven[f.Name()] += h.Each * n
				}
			}
			for _, l := range doc.Hardware {
				if f, err := screw.Parse(l.What); err == nil {
					l.What = f.Name() // printed in the words of the region
				}
				if want, ok := driven[l.What]; ok && want != l.Count {
					t.Errorf("%s %v: %d of %s are bought, and %d are driven", file, set, l.Count, l.What, want)
				} else if ok {
					kinds[strings.TrimRight(l.What, "0123456789 x/.mMd")] = true
				}
				delete(driven, l.What)
				if packs := strings.Fields(l.Packs); len(packs) == 4 { // 2 boxes of 50
					n, _ := strconv.Atoi(packs[0])
					size, _ := strconv.Atoi(packs[3])
					if n*size < l.Count+l.Spare {
						t.Errorf("%s %v: %s hold fewer than %d and %d spares of %s", file, set, l.Packs, l.Count, l.Spare, l.What)
					}
				}
			}
			for what, n := range driven {
				if n > 0 {
					t.Errorf("%s %v: %d of %s are driven and none are bought", file, set, n, what)
				}
			}
		}
	}
	for _, kind := range []string{"deck screw", "wood screw", "carriage bolt", "hex bolt", "lag screw", "dowel", "finish nail", "galvanized nail"} {
		if !kinds[kind] {
			t.Errorf("no %s was counted; only %v", kind, slices.Sorted(maps.Keys(kinds)))
		}
	}
}
