package shop

import (
	"fmt"
	"strings"
	"testing"

	"scantling/internal/board"
	"scantling/internal/design"
	"scantling/internal/geom"
)

// An L of two sticks is made again, turned or mirrored; what is told of it.
func TestStepsDoneAgain(t *testing.T) {
	const source = "by hand: an L lying flat turns over onto its mirror image; with a third stick on its face it does not"
	for _, c := range []struct {
		name      string
		mirror    bool
		third     bool
		longer    float64
		times     int
		says      string
		wantHands bool
	}{
		{"turned", false, true, 0, 2, "all alike: left and right", false},
		{"mirrored", true, true, 0, 2, "the second a mirror image of the first", true},
		{"flat", true, false, 0, 2, "all alike: left and right", false},
		{"another length", false, true, 1, 1, "", false},
	} {
		p := &design.Piece{}
		steps := []design.Step{{Name: "Corner", Each: "left", Makes: "corner"}, {Name: "Corner", Each: "right", Makes: "corner"}}
		add := func(step int, b *design.Board) {
			b.Build()
			b.ID = board.ID(fmt.Sprint(step, len(p.Boards)))
			p.Boards = append(p.Boards, b)
			steps[step].Add = append(steps[step].Add, b.ID)
		}
		sides := "front back left right bottom top"
		for n := range 2 {
			away, side := 0.0, 1.0
			longer := 0.0
			if n == 1 {
				away, longer = 50, c.longer
				if c.mirror {
					side = -1
				}
			}
			// A stick to the back, one to the side from its front end, one up at their corner.
			add(n, along("", "long", "long", 20+longer, 2, 1, back, up, away, 0, 0, sides))
			x := away // right edge of the long stick is at away, its left at away − 2: see along
			if side < 0 {
				x = away - 2 - 8
			}
			add(n, along("", "short", "short", 8, 3, 1, right, up, x, 0, 0, sides))
			if c.third {
				add(n, along("", "peg", "peg", 5, 1, 1, up, right, away-1.5, 4, 1, sides))
			}
		}
		p.Steps = append(steps, design.Step{Name: "All", AddMade: []string{"left corner", "right corner"}})
		r := compute(p)
		first := r.Steps[0]
		if first.Times != c.times || c.times == 1 && len(r.Steps) != 3 {
			t.Errorf("%s: done %d times in %d steps, want %d times (%s)", c.name, first.Times, len(r.Steps), c.times, source)
			continue
		}
		if c.times == 1 {
			continue
		}
		if got := first.Hands.String(); !strings.Contains(got, c.says) {
			t.Errorf("%s: %q does not say %q (%s)", c.name, got, c.says, source)
		}
		if first.Again[0].Mirrored != c.wantHands || len(first.Again[0].New) != len(first.New) {
			t.Errorf("%s: %+v", c.name, first.Again[0])
		}
		if n := first.Add[0].Count; n != 2 {
			t.Errorf("%s: takes %d long sticks for both, want 2", c.name, n)
		}
		if last := r.Steps[1]; last.Number != 2 || len(last.New) != len(p.Boards) {
			t.Errorf("%s: the last step is %d and handles %d boards", c.name, last.Number, len(last.New))
		}
	}
}

// A step that needs what is built after its twin stays where it is.
func TestStepsInBetween(t *testing.T) {
	sides := "front back left right bottom top"
	p := &design.Piece{Boards: []*design.Board{
		along("a", "rail", "left rail", 20, 2, 1, back, up, 0, 0, 0, sides),
		along("b", "rail", "right rail", 20, 2, 1, back, up, 30, 0, 0, sides),
		along("c", "bar", "bar", 20, 2, 1, right, up, 0, 30, 0, sides),
	}}
	p.Steps = []design.Step{
		{Name: "Rails", Each: "left", Add: []board.ID{"a"}},
		{Name: "Bar", Add: []board.ID{"c"}},
		{Name: "Rails", Each: "right", Add: []board.ID{"b"}},
	}
	if r := compute(p); len(r.Steps) != 3 || r.Steps[2].Name != "Rails, right" {
		t.Errorf("%d steps, the last %q", len(r.Steps), r.Steps[len(r.Steps)-1].Name)
	}
}

// The middle of a motion goes where it says.
func TestMotionsCarryBlanks(t *testing.T) {
	a := along("a", "rail", "rail", 20, 2, 1, back, up, 3, 4, 5, "front back left right bottom top")
	b := along("b", "rail", "rail", 20, 2, 1, up, front, 30, 4, 5, "front back left right bottom top")
	a.Build()
	b.Build()
	for k := range 8 {
		m, isTurn := onto(a.Board, b.Board, k)
		box := geom.EmptyBox()
		corners, _ := a.Solid.Mesh()
		for _, v := range corners {
			box = box.With(m.carry(a.Pose.Out(v)))
		}
		want := b.Placed().Around()
		if box.Low.Distance(want.Low) > geom.Same || box.High.Distance(want.High) > geom.Same {
			t.Errorf("way %d: %v, want %v", k, box, want)
		}
		flips := k&1 + k>>1&1 + k>>2&1
		if isTurn != (flips%2 == 0) {
			t.Errorf("way %d with %d axes reversed is a turn: %v", k, flips, isTurn)
		}
	}
}
