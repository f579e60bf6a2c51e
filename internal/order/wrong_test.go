package order

import (
	"strings"
	"testing"

	"scantling/internal/design"
	"scantling/internal/snag"
	"scantling/internal/span"
)

// A wrong is one of the examples with its steps in an order that cannot be done.
type wrong struct {
	name, file string
	old, new   []string
	code       snag.Code
	says       []string // parts of the message
	mend       string   // part of the first mend
}

var wrongs = []wrong{
	{name: "a shelf shut in", file: "sorting-table",
		old:  []string{"add: [shelf_slat, lower_rail]", "    add: [end_frame, long_apron, bearer]\n"},
		new:  []string{"add: [shelf_slat]", "    add: [end_frame, long_apron, bearer, lower_rail]\n"},
		code: "tool-room", says: []string{"Shelf and lower rails", "shelf_screws", "along the axis"}, mend: "add lower_rail in the step “Shelf and lower rails”, not in “Aprons”"},
	{name: "rails after the shelf", file: "sorting-table",
		old:  []string{"add: [shelf_slat, lower_rail]", "    add: [top_slat]\n    fasten: [top_screws]"},
		new:  []string{"add: [shelf_slat]", "    add: [top_slat, lower_rail]\n    fasten: [top_screws, rail_screws]"},
		code: "tool-room", says: []string{"“Top”", "rail_screws"}, mend: "add lower_rail in the step “Shelf and lower rails”, not in “Top”"},
	{name: "seat screws under the arm rails", file: "pickers-chair",
		old:  []string{"    add: [side_rail, front_leg, rear_leg]\n    fasten: [leg_bolts]", "add: [arm_rail, arm]"},
		new:  []string{"    add: [side_rail, front_leg, rear_leg, arm_rail]\n    fasten: [leg_bolts, arm_rail_screws]", "add: [arm]"},
		code: "tool-room", says: []string{"“Seat”", "seat_screws", "a drill takes"}, mend: "add arm_rail in the step “Seat”, not in “Two side frames”"},
	{name: "a tie over the floor to come", file: "herb-planter",
		old:  []string{"add: [long_wall, side_board]", "    add: [tie]\n    fasten: [tie_screws]\n", "add: [long_board, post, cleat]", "add: [strut, floor_slat]"},
		new:  []string{"add: [long_wall, side_board]", "    add: [tie]\n    fasten: [tie_screws]\n", "add: [long_board, post, cleat, strut]", "add: [floor_slat]"},
		code: "tool-room", says: []string{"floor_screws", "strut"}, mend: "add strut in the step “Floor and struts”, not in “Two long walls”"},
	{name: "a leg between bearer and cleat", file: "picnic-table",
		old:  []string{"        add: [leg]\n        fasten: [crossing, crossing_bolt]", "        add: [seat_bearer, cleat]\n"},
		new:  []string{"        add: [front_footed leg, seat_bearer, cleat]\n        fasten: [bearer_bolts]", "        add: [back_footed leg]\n"},
		code: "shut-out", says: []string{"“Bearer and cleat”", "leg"}, mend: "add seat_bearer in the step “Bearer and cleat”, not in “Legs”"},
	{name: "pegs behind the pickets", file: "yard-gate",
		old:  []string{"        add: [hinge_stile, latch_stile, rail]", "        add: [cap]"},
		new:  []string{"        add: [hinge_stile, latch_stile]", "        add: [cap, rail]"},
		code: "tool-room", says: []string{"“Cap”", "lap_pegs"}, mend: "do the step “Pickets” after “Cap”"},
}

// set writes a wrong order into an example.
func (w *wrong) set(t *testing.T) []byte {
	t.Helper()
	src := string(text(t, w.file))
	for i, old := range w.old {
		if strings.Count(src, old) != 1 {
			t.Fatalf("%s: %q stands %d times in the example", w.name, old, strings.Count(src, old))
		}
		src = strings.Replace(src, old, w.new[i], 1)
	}
	return []byte(src)
}

// checked returns what Check says of a design, and how many errors the design has.
func checked(t *testing.T, src []byte) (snag.List, int) {
	t.Helper()
	tree, d := opened(t, src)
	_, faults := d.Evaluate(design.Settings{})
	_, told := worked(d, nil).Check(tree)
	return told, faults.Errors()
}

// A wrong order in each example is caught with the step that works named; the first
// mend, done, leaves nothing to say.
func TestWrongOrders(t *testing.T) {
	for _, w := range wrongs {
		src := w.set(t)
		told, faults := checked(t, src)
		if faults > 0 {
			t.Errorf("%s: the design itself has %d errors", w.name, faults)
		}
		if len(told) == 0 || told[0].Code != w.code || told[0].Step == 0 || told[0].At.IsZero() {
			t.Errorf("%s: got %v, want %s", w.name, told, w.code)
			continue
		}
		for _, part := range w.says {
			if !strings.Contains(told[0].What, part) {
				t.Errorf("%s: %q says nothing of %q", w.name, told[0].What, part)
			}
		}
		m := told[0].Mends[0]
		if !strings.Contains(m.Says, w.mend) {
			t.Errorf("%s: mend is %q, want %q", w.name, m.Says, w.mend)
		}
		after, ok := span.Apply(src, m.Edits)
		if !ok || len(m.Edits) == 0 {
			t.Errorf("%s: %q has no edits that can be made: %v", w.name, m.Says, m.Edits)
			continue
		}
		if left, faults := checked(t, after); len(left) > 0 || faults > 0 {
			t.Errorf("%s: after %q there are %d errors and %v", w.name, m.Says, faults, left)
		}
	}
}

// An example without its steps gets some: every board is added once, every pair
// fastened, every board comes to its place and every fastener has room, and each step
// says why.
func TestProposedSteps(t *testing.T) {
	for _, name := range examples {
		_, d := opened(t, text(t, name))
		w := worked(d, nil)
		w.Piece.Steps = w.Propose()
		stages, left, sound := Follow(w.Piece, w.Joints, w.Piece.Steps)
		if left > 0 || !sound {
			t.Errorf("%s: %d pairs are not fastened, sound %v", name, left, sound)
		}
		added := map[int]int{}
		for i := range stages {
			for k, item := range stages[i].Items {
				if stages[i].Names[k] == "" {
					added[item[0]]++
				}
			}
			if s := &w.Piece.Steps[i]; len(s.Say) == 0 || s.Name == "" {
				t.Errorf("%s: step %d has no reason", name, i+1)
			}
		}
		for i, b := range w.Piece.Boards {
			if added[i] != 1 {
				t.Errorf("%s: %s is added %d times", name, b.ID, added[i])
			}
		}
		_, told := w.Check(nil)
		if len(told) != 1 || told[0].Code != "steps-proposed" {
			t.Errorf("%s: %v", name, told)
		}
	}
}

// Boards that could not be worked out do not stop the search for a mend.
func TestBoardsThatAreNotThere(t *testing.T) {
	tree, d := opened(t, wrongs[0].set(t))
	w := worked(d, nil)
	for i := range w.Piece.Steps {
		w.Piece.Steps[i].Add = append(w.Piece.Steps[i].Add, "nothing/of/the/kind")
	}
	if _, told := w.Check(tree); len(told) == 0 || len(told[0].Mends) == 0 {
		t.Errorf("got %v", told)
	}
}
