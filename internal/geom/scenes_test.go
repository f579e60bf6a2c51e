package geom

import (
	"bufio"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// A scene is boards in place with the exact volume of each and of the wood any
// two share, in inches. testdata/scene_20.txt is one; its truth was computed in
// rational arithmetic by clipping convex bodies, inclusion and exclusion over
// notches, and agrees with Open CASCADE 7.6.3 to 1e-12.
//
//	scene NAME COUNT
//	board ID NAME CUTS  length width thick  origin(3)  axes x y z (9)
//	plane  point(3) normal(3)                 all beyond it is cut off
//	notch  corner(3) axes(9) size(3)          the box is taken out
//	hole   point(3) direction(3) radius depth a cylinder is bored
type scene struct {
	boards []sceneBoard
	truth  sceneTruth
}

type sceneBoard struct {
	name string
	size Vec
	pose Pose
	cuts []sceneCut
	bore []sceneHole
}

type sceneCut struct {
	planes []Plane // one: all beyond it goes; six: the box between them goes
	tags   []Tag
}

type sceneHole struct {
	at, way       Vec
	radius, depth float64
}

type sceneTruth struct {
	bored, planar []float64 // volume of each board in mm³, with and without holes
	shared        map[[2]int]float64
}

const inch = 25.4

func readScene(t testing.TB, folder string, boards int) *scene {
	t.Helper()
	s := &scene{}
	lines(t, filepath.Join(folder, fmt.Sprintf("scene_%d.txt", boards)), func(kind string, rest string) {
		var f [15]float64
		read := func(n int) {
			in := strings.Fields(rest)
			for i := range n {
				if _, err := fmt.Sscan(in[i], &f[i]); err != nil {
					t.Fatal(err)
				}
			}
		}
		vec := func(i int) Vec { return Vec{f[i], f[i+1], f[i+2]} }
		mm := func(i int) Vec { return vec(i).Times(inch) }
		switch kind {
		case "board":
			in := strings.Fields(rest)
			rest = strings.Join(in[3:], " ")
			read(15)
			s.boards = append(s.boards, sceneBoard{name: in[1], size: mm(0),
				pose: Pose{X: vec(6), Y: vec(9), Z: vec(12), At: mm(3)}})
			return
		case "scene":
			return
		}
		b := &s.boards[len(s.boards)-1]
		tag := FirstCut + Tag(8*len(b.cuts))
		switch kind {
		case "plane":
			read(6)
			b.cuts = append(b.cuts, sceneCut{[]Plane{Facing(mm(0), vec(3))}, []Tag{tag}})
		case "notch":
			read(15)
			box := BoxPlanes(Pose{X: vec(3), Y: vec(6), Z: vec(9), At: mm(0)}, mm(12))
			b.cuts = append(b.cuts, sceneCut{box, []Tag{tag, tag + 1, tag + 2, tag + 3, tag + 4, tag + 5}})
		case "hole":
			read(8)
			b.bore = append(b.bore, sceneHole{mm(0), vec(3), f[6] * inch, f[7] * inch})
		default:
			t.Fatalf("a scene has no %q", kind)
		}
	})
	if len(s.boards) != boards {
		t.Fatalf("read %d boards, not %d", len(s.boards), boards)
	}
	s.truth = readTruth(t, filepath.Join(folder, fmt.Sprintf("truth_%d.txt", boards)))
	return s
}

// readTruth reads lines "v board bored planar exact" and "i board board volume exact".
func readTruth(t testing.TB, name string) sceneTruth {
	truth := sceneTruth{shared: map[[2]int]float64{}}
	lines(t, name, func(kind, rest string) {
		var i, j int
		var v, w float64
		var err error
		if kind == "v" {
			_, err = fmt.Sscan(rest, &i, &v, &w)
			truth.bored = append(truth.bored, v*inch*inch*inch)
			truth.planar = append(truth.planar, w*inch*inch*inch)
		} else {
			_, err = fmt.Sscan(rest, &i, &j, &v)
			truth.shared[[2]int{i, j}] = v * inch * inch * inch
		}
		if err != nil {
			t.Fatal(err)
		}
	})
	return truth
}

func lines(t testing.TB, name string, each func(kind, rest string)) {
	t.Helper()
	file, err := os.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	in := bufio.NewScanner(file)
	for in.Scan() {
		kind, rest, _ := strings.Cut(in.Text(), " ")
		each(kind, rest)
	}
}

func (b *sceneBoard) saw(s *Saw) *Solid {
	s.Blank(b.size.X, b.size.Y, b.size.Z)
	for _, c := range b.cuts {
		if len(c.planes) == 1 {
			s.Keep(c.planes[0], c.tags[0])
		} else {
			s.Remove(c.planes, c.tags)
		}
	}
	return s.Solid()
}

// bored returns the volume of the board's wood less its holes.
func (b *sceneBoard) bored(s *Solid) float64 {
	v := s.Volume
	for _, h := range b.bore {
		for _, run := range s.Through(h.at, h.way) {
			in := math.Min(run[1], h.depth) - math.Max(run[0], 0)
			v -= math.Pi * h.radius * h.radius * math.Max(in, 0)
		}
	}
	return v
}

func (sc *scene) solids(s *Saw) []Placed {
	placed := make([]Placed, len(sc.boards))
	for i := range sc.boards {
		placed[i] = Placed{sc.boards[i].saw(s), sc.boards[i].pose}
	}
	return placed
}

// shared returns the wood each two boards share deeper than Touch.
func shared(placed []Placed) map[[2]int]float64 {
	boxes := make([]Box, len(placed))
	for i, p := range placed {
		boxes[i] = p.Around()
	}
	found := map[[2]int]float64{}
	for _, pair := range Pairs(boxes, 0) {
		if c, ok := Overlap(placed[pair[0]], placed[pair[1]]); ok && c.Depth > Touch {
			found[pair] = c.Volume
		}
	}
	return found
}

// verify holds solids and overlaps against the truth, to 1e-9 of each.
func (sc *scene) verify(t testing.TB, placed []Placed, found map[[2]int]float64) {
	t.Helper()
	off := func(got, want float64) bool { return math.Abs(got-want) > 1e-9*want }
	for i, p := range placed {
		name := sc.boards[i].name
		if err := p.Check(); err != nil {
			t.Errorf("board %d %s: %v", i, name, err)
		}
		if want := sc.truth.planar[i]; off(p.Volume, want) {
			t.Errorf("board %d %s: volume %v mm³, want %v", i, name, p.Volume, want)
		}
		if got, want := sc.boards[i].bored(p.Solid), sc.truth.bored[i]; off(got, want) {
			t.Errorf("board %d %s: volume %v mm³ less its holes, want %v", i, name, got, want)
		}
	}
	for pair, want := range sc.truth.shared {
		if got, ok := found[pair]; !ok {
			t.Errorf("boards %v share %v mm³: missed", pair, want)
		} else if off(got, want) {
			t.Errorf("boards %v share %v mm³, want %v", pair, got, want)
		}
	}
	for pair, got := range found {
		if _, ok := sc.truth.shared[pair]; !ok {
			t.Errorf("boards %v share %v mm³: invented", pair, got)
		}
	}
}

func TestScene(t *testing.T) {
	sc := readScene(t, "testdata", 20)
	placed := sc.solids(&Saw{})
	sc.verify(t, placed, shared(placed))
}
