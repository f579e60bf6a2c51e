package drawing

import (
	"math"
	"testing"

	"scantling/internal/geom"
)

// seenAt returns the board nearest the eye at a place on the paper, by following
// the line of sight through the solids, and −1 if it meets none.
func seenAt(v View, placed []geom.Placed, at Place) int {
	board, best := -1, math.Inf(-1)
	from := v.Right.Times(at.X).Plus(v.Up.Times(at.Y))
	for i, p := range placed {
		for _, run := range p.Through(p.Pose.In(from), p.Pose.InWay(v.Toward)) {
			if run[1] > best {
				board, best = i, run[1]
			}
		}
	}
	return board
}

// holding returns the boards of all patches whose loops hold the place.
func holding(patches []Patch, at Place) (boards []int) {
	for _, p := range patches {
		in := false
		for _, loop := range p.Loops {
			for i, a := range loop {
				b := loop[(i+1)%len(loop)]
				if (a.Y > at.Y) != (b.Y > at.Y) && at.X < a.X+(b.X-a.X)*(at.Y-a.Y)/(b.Y-a.Y) {
					in = !in
				}
			}
		}
		if in {
			boards = append(boards, p.Board)
		}
	}
	return boards
}

func paperArea(patches []Patch) (sum float64) {
	for _, p := range patches {
		for _, loop := range p.Loops {
			for i, a := range loop {
				b := loop[(i+1)%len(loop)]
				sum += (a.X*b.Y - b.X*a.Y) / 2
			}
		}
	}
	return sum
}

func TestPatchesShowTheNearest(t *testing.T) {
	placed := readScene(t, "../geom/testdata/scene_20.txt")
	for name, v := range map[string]View{"front": Front(), "right": FromRight(), "top": Top(), "isometric": Isometric(), "corner": Corner()} {
		patches := Patches(v, placed)
		low, high := Place{math.Inf(1), math.Inf(1)}, Place{math.Inf(-1), math.Inf(-1)}
		for _, p := range patches {
			for _, loop := range p.Loops {
				for _, c := range loop {
					low = Place{min(low.X, c.X), min(low.Y, c.Y)}
					high = Place{max(high.X, c.X), max(high.Y, c.Y)}
				}
			}
		}
		const n = 60 // places each way, on a grid that meets no edge
		hits := 0
		for i := range n {
			for j := range n {
				at := Place{
					low.X + (high.X-low.X)*(float64(i)+0.4142)/n,
					low.Y + (high.Y-low.Y)*(float64(j)+0.7320)/n,
				}
				want, got := seenAt(v, placed, at), holding(patches, at)
				if want < 0 && len(got) == 0 {
					continue
				}
				hits++
				if len(got) != 1 || got[0] != want {
					t.Errorf("%s: at %.3f, %.3f mm patches of boards %v, the line of sight meets %d", name, at.X, at.Y, got, want)
				}
			}
		}
		if hits < n*n/4 {
			t.Errorf("%s: only %d of %d places show a board", name, hits, n*n)
		}
	}
}

// Four laths that lie over one another in a ring, as no order of painting whole
// faces can show: each patch still shows what is nearest, and all of the paper.
func TestPatchesOfARing(t *testing.T) {
	var s geom.Saw
	s.Blank(100, 10, 2)
	lath := s.Solid()
	var placed []geom.Placed
	for k := range 4 {
		// Each rises 2 mm along its length and passes over the start of the next.
		tilt := geom.Turned(geom.Vec{Y: 1}, -0.03)
		turn := geom.Turned(geom.Vec{Z: 1}, float64(k)*math.Pi/2)
		placed = append(placed, geom.Placed{Solid: lath, Pose: turn.Of(tilt.Moved(geom.Vec{X: -35, Y: -35}))})
	}
	patches := Patches(Top(), placed)
	over := 0
	for i := range 4 {
		for _, x := range []float64{-29.9, 59.9} {
			at := Place{x, -29.9}
			for range i {
				at = Place{-at.Y, at.X}
			}
			if got, want := holding(patches, at), seenAt(Top(), placed, at); len(got) != 1 || got[0] != want {
				t.Errorf("at %v patches of %v, the line of sight meets %d", at, got, want)
			} else if got[0] != i {
				over++
			}
		}
	}
	if over == 0 {
		t.Error("no lath of the ring lies over another")
	}
	one := paperArea(Patches(Top(), placed[:1]))
	if got := paperArea(patches); got >= 4*one || got < 4*one-8*150 {
		t.Errorf("the ring covers %v mm² of paper, four laths apart %v", got, 4*one)
	}
}

// Hidden lines of a few boards, by hand.
func TestProjectByHand(t *testing.T) {
	var s geom.Saw
	block := func(l, w, h, x, y, z float64) geom.Placed {
		s.Blank(l, w, h)
		return geom.Placed{Solid: s.Solid(), Pose: geom.Unmoved().Moved(geom.Vec{X: x, Y: y, Z: z})}
	}
	for _, c := range []struct {
		says            string
		placed          []geom.Placed
		visible, hidden float64
	}{
		{"a block: its four edges once, those behind fall on them",
			[]geom.Placed{block(100, 20, 50, 0, 0, 0)}, 300, 0},
		{"a smaller block behind it is dashed all round",
			[]geom.Placed{block(100, 20, 50, 0, 0, 0), block(40, 20, 30, 10, 30, 10)}, 300, 140},
		{"one that stands out: 20 mm of two edges and all of one seen, the rest dashed",
			[]geom.Placed{block(100, 20, 50, 0, 0, 0), block(40, 20, 30, 80, 30, 10)}, 300 + 20 + 20 + 30, 20 + 20 + 30},
		{"side by side and flush, the joint is one line",
			[]geom.Placed{block(100, 20, 50, 0, 0, 0), block(100, 20, 50, 100, 0, 0)}, 500 + 50, 0},
		{"a line behind the joint of two boards counts as seen, and falls on it",
			[]geom.Placed{block(100, 20, 50, 0, 0, 0), block(100, 20, 50, 100, 0, 0), block(100, 20, 50, 100, 40, 0)}, 500 + 50, 0},
	} {
		var visible, hidden float64
		for _, l := range Project(Front(), c.placed) {
			if l.Visible {
				visible += l.Length()
			} else {
				hidden += l.Length()
			}
		}
		if math.Abs(visible-c.visible) > 1e-9 || math.Abs(hidden-c.hidden) > 1e-9 {
			t.Errorf("%s: %v mm visible and %v hidden, want %v and %v", c.says, visible, hidden, c.visible, c.hidden)
		}
	}
}

// A notched face is cut into convex pieces; the line where they meet neither
// shows nor lets anything behind it show.
func TestSeamsHide(t *testing.T) {
	var s geom.Saw
	s.Blank(100, 20, 50)
	s.Remove(geom.BoxPlanes(geom.Unmoved().Moved(geom.Vec{X: 40, Y: -1, Z: 30}), geom.Vec{X: 20, Y: 22, Z: 30}), []geom.Tag{10, 11, 12, 13, 14, 15})
	front := geom.Placed{Solid: s.Solid(), Pose: geom.Unmoved()}
	s.Blank(20, 5, 10) // behind, its ends in line with the notch's sides
	behind := geom.Placed{Solid: s.Solid(), Pose: geom.Unmoved().Moved(geom.Vec{X: 40, Y: 40, Z: 10})}
	var visible, hidden float64
	for _, l := range Project(Front(), []geom.Placed{front, behind}) {
		if l.Visible {
			visible += l.Length()
		} else {
			hidden += l.Length()
		}
	}
	if visible != 340 || hidden != 60 {
		t.Errorf("%v mm visible and %v hidden, want 340 round the notched board and 60 behind it", visible, hidden)
	}
}

func BenchmarkPatches(b *testing.B) {
	placed := readScene(b, "../geom/testdata/scene_20.txt")
	for b.Loop() {
		Patches(Corner(), placed)
	}
}
