package drawing

import (
	"bufio"
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"testing"

	"scantling/internal/geom"
)

var sceneFolder = flag.String("scenes", "", "folder with scene_N.txt to verify and time")

// readScene reads boards in place; the format stands with package geom's scenes.
// Holes are left out, as in the lengths below.
func readScene(t testing.TB, name string) []geom.Placed {
	file, err := os.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	const inch = 25.4
	var s geom.Saw
	var placed []geom.Placed
	var pose geom.Pose
	tag := geom.FirstCut
	finish := func() {
		if pose != (geom.Pose{}) {
			placed = append(placed, geom.Placed{Solid: s.Solid(), Pose: pose})
		}
	}
	in := bufio.NewScanner(file)
	for in.Scan() {
		var v [5]geom.Vec
		read := func(format string, vs ...*geom.Vec) {
			args := []any{}
			for _, p := range vs {
				args = append(args, &p.X, &p.Y, &p.Z)
				format += " %g %g %g"
			}
			if _, err := fmt.Sscanf(in.Text(), format, args...); err != nil {
				t.Fatalf("%s: %v", in.Text(), err)
			}
		}
		var kind, id, board string
		var cuts int
		fmt.Sscan(in.Text(), &kind, &id, &board, &cuts)
		switch kind {
		case "board":
			finish()
			read(fmt.Sprintf("board %s %s %d", id, board, cuts), &v[0], &v[1], &v[2], &v[3], &v[4])
			s.Blank(v[0].X*inch, v[0].Y*inch, v[0].Z*inch)
			pose = geom.Pose{At: v[1].Times(inch), X: v[2], Y: v[3], Z: v[4]}
		case "plane":
			read("plane", &v[0], &v[1])
			s.Keep(geom.Facing(v[0].Times(inch), v[1]), tag)
		case "notch":
			read("notch", &v[0], &v[1], &v[2], &v[3], &v[4])
			s.Remove(geom.BoxPlanes(geom.Pose{At: v[0].Times(inch), X: v[1], Y: v[2], Z: v[3]}, v[4].Times(inch)),
				[]geom.Tag{tag, tag + 1, tag + 2, tag + 3, tag + 4, tag + 5})
		}
		tag += 6
	}
	finish()
	return placed
}

// sceneLengths are visible lengths on paper, in inches, of scenes whose solids
// package geom verifies: the boards without their holes, each line counted once, a
// line seen exactly along a contact counted as visible.
//
// Source: Open CASCADE 7.6.3, HLRBRep_Algo, with those two conventions put on
// its lines, and a second program of clipping convex pieces; they agree.
var sceneLengths = map[int][2]float64{
	20:   {521.5012, 981.7409},
	40:   {535.9153, 1920.9071},
	120:  {4216.6175, 24751.477},
	500:  {14566.864, 54054.101},
	2000: {40011.95, 217425.24},
}

func visibleInches(v View, placed []geom.Placed) (sum float64) {
	for _, l := range Project(v, placed) {
		if l.Visible {
			sum += l.Length() / 25.4
		}
	}
	return sum
}

func verifyLengths(t testing.TB, n int, placed []geom.Placed) {
	for i, v := range []View{Front(), Isometric()} {
		got, want := visibleInches(v, placed), sceneLengths[n][i]
		if math.Abs(got-want) > 1e-6*want {
			t.Errorf("%d boards, view %d: %.5f in visible, want %.4f", n, i, got, want)
		}
	}
}

func TestVisibleLengths(t *testing.T) {
	verifyLengths(t, 20, readScene(t, "../geom/testdata/scene_20.txt"))
}

func BenchmarkProject(b *testing.B) {
	for _, n := range []int{20, 40, 120, 500, 2000} {
		name := filepath.Join(*sceneFolder, fmt.Sprintf("scene_%d.txt", n))
		if *sceneFolder == "" {
			name = "../geom/testdata/scene_20.txt"
		}
		if _, err := os.Stat(name); err != nil || *sceneFolder == "" && n > 20 {
			continue
		}
		placed := readScene(b, name)
		verifyLengths(b, n, placed)
		for i, v := range []View{Front(), Isometric()} {
			b.Run(fmt.Sprintf("%d/%s", n, []string{"front", "corner"}[i]), func(b *testing.B) {
				for b.Loop() {
					Project(v, placed)
				}
			})
		}
	}
}
