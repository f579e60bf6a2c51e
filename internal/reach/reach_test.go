package reach

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"scantling/internal/geom"
)

// box is a board of x by y by z mm with its low corner at (a, b, c).
func box(a, b, c, x, y, z float64) geom.Placed {
	var s geom.Saw
	s.Blank(x, y, z)
	pose := geom.Unmoved()
	pose.At = geom.Vec{X: a, Y: b, Z: c}
	return geom.Placed{Solid: s.Solid(), Pose: pose}
}

// contactsOf finds the contacts and clashes of boards.
func contactsOf(boards []geom.Placed) (out []Contact, clashes [][2]int) {
	for i := range boards {
		for k := range boards[:i] {
			for _, c := range geom.Contacts(boards[k], boards[i]) {
				if c.Kind == geom.Area {
					out = append(out, Contact{k, i, c.Plane.N, c.Area})
				}
			}
			if c, ok := geom.Overlap(boards[k], boards[i]); ok && c.Depth > geom.Touch {
				clashes = append(clashes, [2]int{k, i})
			}
		}
	}
	return out, clashes
}

func siteOf(boards ...geom.Placed) *Site {
	c, x := contactsOf(boards)
	return NewSite(boards, c, x)
}

var up = geom.Vec{Z: 1}

func TestWays(t *testing.T) {
	floor := box(0, 0, 0, 1000, 1000, 20)
	left, right := box(0, 0, 20, 20, 1000, 100), box(980, 0, 20, 20, 1000, 100)
	front, back := box(20, 0, 20, 960, 20, 100), box(20, 980, 20, 960, 20, 100)
	shelf := box(20, 20, 20, 960, 960, 20)
	lid := box(0, 0, 120, 1000, 1000, 20)
	lip := box(20, 20, 100, 300, 960, 20)   // over the left part of the shelf, 60 mm above it
	narrow := box(20, 20, 20, 600, 960, 20) // goes in right of the lip, then slides left
	tall := box(20, 20, 20, 600, 960, 75)   // has no room to do so: there are 80, but
	wide := box(20, 20, 20, 700, 960, 75)   // 660 are open
	clash := box(10, 20, 20, 600, 960, 20)  // stands in the left wall
	tie := box(400, 300, 200, 50, 50, 300)  // near nothing
	for _, c := range []struct {
		name   string
		there  []geom.Placed
		item   geom.Placed
		want   Verdict
		lines  int
		last   geom.Vec
		source string
	}{
		{"an open box takes a shelf from above", []geom.Placed{floor, left, right, front, back}, shelf, Yes, 1, geom.Vec{Z: -1}, "by eye"},
		{"without its front it would too", []geom.Placed{floor, left, right, back}, shelf, Yes, 1, geom.Vec{Z: -1}, "by eye: off its largest face"},
		{"a lid shuts it out", []geom.Placed{floor, left, right, front, back, lid}, shelf, No, 0, geom.Vec{}, "by eye"},
		{"with a lid and no front it comes from there", []geom.Placed{floor, left, right, back, lid}, shelf, Yes, 1, geom.Vec{Y: 1}, "by eye"},
		{"a lip takes two lines", []geom.Placed{floor, left, right, front, back, lip}, narrow, Yes, 2, geom.Vec{X: -1}, "by eye: down beside the lip, then left"},
		{"a thick board under a lip", []geom.Placed{floor, left, right, front, back, lip}, tall, Yes, 2, geom.Vec{X: -1}, "980 − 320 = 660 open, 600 wide"},
		{"a board wider than the opening", []geom.Placed{floor, left, right, front, back, lip}, wide, No, 0, geom.Vec{}, "980 − 320 = 660 open, 700 wide"},
		{"a board that stands in another", []geom.Placed{floor, left}, clash, CannotTell, 0, geom.Vec{}, "it is not where it could be"},
		{"a board apart from all", []geom.Placed{floor}, tie, Yes, 1, geom.Vec{Z: -1}, "from above when all is free"},
	} {
		boards := append(append([]geom.Placed{}, c.there...), c.item)
		s := siteOf(boards...)
		var there []int
		for i := range c.there {
			there = append(there, i)
		}
		r := s.Step(&Step{There: there, Items: [][]int{{len(boards) - 1}}, Up: up}, &Tools{})
		w := r.Ways[0]
		if w.Clear != c.want || len(w.Lines) != c.lines || c.lines > 0 && w.Lines[c.lines-1].Minus(c.last).Length() > 1e-9 {
			t.Errorf("%s: %v %v, want %v and %v (%s)", c.name, w.Clear, w.Lines, c.want, c.last, c.source)
		}
		if c.want != Yes && len(w.By) == 0 {
			t.Errorf("%s: nothing is said to be in the way", c.name)
		}
	}
}

// Boards of one step come in whatever order lets them: a bar between two posts that
// both hold it in a mortise goes in before the second of them.
func TestOrderWithinAStep(t *testing.T) {
	post := func(x float64) geom.Placed {
		var s geom.Saw
		s.Blank(100, 100, 600)
		hole := 50.0 // deep, from the inner side
		if x > 0 {
			s.Remove([]geom.Plane{{N: geom.Vec{X: 1}, D: hole}, {N: geom.Vec{Y: -1}, D: -40}, {N: geom.Vec{Y: 1}, D: 60}, {N: geom.Vec{Z: -1}, D: -250}, {N: geom.Vec{Z: 1}, D: 350}}, []geom.Tag{6, 6, 6, 6, 6})
		} else {
			s.Remove([]geom.Plane{{N: geom.Vec{X: -1}, D: -hole}, {N: geom.Vec{Y: -1}, D: -40}, {N: geom.Vec{Y: 1}, D: 60}, {N: geom.Vec{Z: -1}, D: -250}, {N: geom.Vec{Z: 1}, D: 350}}, []geom.Tag{6, 6, 6, 6, 6})
		}
		pose := geom.Unmoved()
		pose.At = geom.Vec{X: x}
		return geom.Placed{Solid: s.Solid(), Pose: pose}
	}
	bar := box(50, 40, 250, 900, 20, 100)
	s := siteOf(post(0), post(900), bar)
	r := s.Step(&Step{Items: [][]int{{0}, {1}, {2}}, Up: up}, &Tools{})
	if !r.OK() || r.Order[2] == 2 {
		t.Errorf("order %v, ways %v: the bar must not be last", r.Order, r.Ways)
	}
	if r := s.Step(&Step{There: []int{0, 1}, Items: [][]int{{2}}, Up: up}, &Tools{}); r.OK() {
		t.Errorf("the bar came in between posts that stand: %v", r.Ways)
	}
}

// Where a body moved along a line shares wood with another is what stepping along
// it shows, but for places where they share next to nothing.
func TestSweepAgainstSteps(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := board(t, "a"), board(t, "b")
		u := direction(t)
		p, q := cellOf(&a.Cells[0], a.Pose), cellOf(&b.Cells[0], b.Pose)
		inside := func(at, slack float64) bool {
			from, to, ok := sweep(&p, &q, u, slack)
			return ok && at > from && at < to
		}
		for k := -60; k <= 60; k++ {
			at := float64(k) * 7.3
			moved := a
			moved.Pose = a.Pose.Moved(u.Times(at))
			_, hit := geom.Overlap(moved, b)
			if inside(at, geom.Touch) && !hit || !inside(at, -geom.Touch) && hit {
				t.Fatalf("moved %g along %v: share wood %v; swept, deeper than a touch: %v", at, u, hit, inside(at, geom.Touch))
			}
		}
	})
}

// Where two lines in turn lead past a body is what stepping along both shows.
func TestTurnAgainstSteps(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := board(t, "a"), board(t, "b")
		u, v := direction(t), direction(t)
		if u.Cross(v).Length() < 0.05 {
			return
		}
		p, q := cellOf(&a.Cells[0], a.Pose), cellOf(&b.Cells[0], b.Pose)
		const far = 300.0
		from, to, ok := shadow(&p, &q, u, v, far, 0)
		if !ok {
			from, to = 1, 0
		}
		for k := range 31 {
			at := float64(k) * 10
			moved := a
			moved.Pose = a.Pose.Moved(u.Times(at))
			m := cellOf(&moved.Cells[0], moved.Pose)
			f, g, hit := sweep(&m, &q, v, 0)
			hit = hit && g > 1e-3 && math.Max(f, 0) < g
			if math.Abs(at-from) < 1e-2 || math.Abs(at-to) < 1e-2 || hit && g < 1e-2 {
				continue
			}
			if inside := at > from && at < to; hit != inside {
				t.Fatalf("%g along %v then along %v: hit %v (%g to %g), but shadow from %g to %g", at, u, v, hit, f, g, from, to)
			}
		}
	})
}

// What the tree of boxes finds is what looking at every box finds.
func TestReachedAgainstAll(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 40).Draw(t, "boards")
		var boards []geom.Placed
		for range n {
			boards = append(boards, board(t, "board"))
		}
		s := NewSite(boards, nil, nil)
		for i := range n {
			if rapid.Bool().Draw(t, "there") {
				s.put(i)
			}
		}
		a := board(t, "moved").Around()
		u := direction(t)
		want, got := map[int]bool{}, map[int]bool{}
		for i := range n {
			if s.there[i] && hits(a, s.boards[i].box, u) {
				want[i] = true
			}
		}
		s.reached(a, u, func(i int) bool { got[i] = true; return true })
		if len(want) != len(got) {
			t.Fatalf("found %v, want %v", got, want)
		}
		for i := range want {
			if !got[i] {
				t.Fatalf("missed %d", i)
			}
		}
	})
}

func board(t *rapid.T, name string) geom.Placed {
	size := rapid.Float64Range(5, 120)
	var s geom.Saw
	l, w, h := size.Draw(t, name), size.Draw(t, name), size.Draw(t, name)
	s.Blank(l, w, h)
	if rapid.Bool().Draw(t, "slanted") {
		s.Keep(geom.Facing(geom.Vec{X: l * 0.6, Y: w / 2, Z: h / 2}, direction(t)), geom.FirstCut)
	}
	solid := s.Solid()
	at := rapid.Float64Range(-150, 150)
	pose := geom.Turned(direction(t), rapid.Float64Range(0, 3).Draw(t, "turn"))
	if rapid.Bool().Draw(t, "upright") {
		pose = geom.Unmoved()
	}
	pose.At = geom.Vec{X: at.Draw(t, "x"), Y: at.Draw(t, "y"), Z: at.Draw(t, "z")}
	return geom.Placed{Solid: solid, Pose: pose}
}

func direction(t *rapid.T) geom.Vec {
	if rapid.Bool().Draw(t, "plain") {
		return rapid.SampledFrom([]geom.Vec{{X: 1}, {Y: 1}, {Z: 1}, {X: -1}, {Y: -1}, {Z: -1}}).Draw(t, "axis")
	}
	x := rapid.Float64Range(-1, 1)
	v := geom.Vec{X: x.Draw(t, "u"), Y: x.Draw(t, "v"), Z: x.Draw(t, "w")}
	if v.Length() < 0.1 {
		return geom.Vec{X: 1}
	}
	return v.Unit()
}
