package plan

import (
	"maps"
	"slices"
	"strings"
	"testing"

	"scantling/internal/design"
	"scantling/internal/geom"
	"scantling/internal/shop"
	"scantling/internal/source"
	"scantling/internal/span"
)

// carried lists, for each size, the parts whose length names the size and yet
// stays as it is when the size changes, and the boards whose place does: what
// their ends meet, or the room they lie in, moves along as a whole, and the moves
// cancel. Nothing else may name a size it does not follow.
var carried = map[string]struct{ lengths, places string }{
	// The lower rails lie on the tapers, whose tilt the sizes turn, and run from leg
	// to leg square to it.
	"sorting-table length": {"lower_rail", "top_slat"}, // slats keep the gap: one stays where another was
	"sorting-table depth":  {"stretcher", ""},          // both ends are cut to legs that move apart to the front and back
	"sorting-table height": {"lower_rail", ""},
	"sorting-table splay":  {"lower_rail shelf_slat upper_rail", ""}, // from leg to leg, across the lean
	// The seat and the back are tilted rooms that rise, and tip about an axis to the
	// right: what runs along that axis keeps its length.
	"pickers-chair seat_height": {"arm arm_rail back_post back_slat front_rail rear_rail seat_slat side_rail", "front_leg rear_leg"},
	"pickers-chair seat_depth":  {"back_slat front_rail rear_rail seat_slat", "rear_leg"},
	"pickers-chair seat_fall":   {"back_slat front_rail rear_rail seat_slat", "arm arm_rail front_leg"},
	"pickers-chair rake":        {"back_slat rear_rail", ""},
	"pickers-chair back_slats":  {"", "back_slat"}, // counted from the lowest
	// Caps and struts are cut from the top down, and the top moves with the height;
	// a cap's length follows the side it mitres to, whose place cancels.
	"herb-planter length": {"short_cap", "floor_slat"}, // slats keep the gap: one stays where another was
	"herb-planter depth":  {"long_cap", ""},
	"herb-planter height": {"long_cap short_cap strut", ""},
	"herb-planter soil":   {"", "long_board side_board"}, // the lowest course moves, the ripped one stays under the cap
	// The leaf hangs as a whole so far above the ground, and its boards go with it.
	"yard-gate clear_below": {"brace hinge_stile latch_stile picket", ""},
	"yard-gate opening":     {"", "picket"}, // the middle one
	// A stay runs from one place of the bearers to one of the cleat, and both rise.
	"picnic-table height": {"stay", ""},
}

// A step of any size changes only what says it comes from that size, and
// everything that says so but for the few in carried: a number's places in the
// file are neither too few nor too many.
func TestResize(t *testing.T) {
	for _, file := range allFive {
		src := example(t, file)
		before := sound(t, src, Settled)
		for _, z := range before.Piece.Sizes {
			of := slices.IndexFunc(before.tree.Scalars, func(n *source.Node) bool { return n.Range == z.At })
			if of < 0 {
				t.Fatalf("%s: no value of the file at %v", z.Name, z.At)
			}
			lengths, places := map[string]bool{}, map[string]bool{}
			stepped := 0
			for _, way := range []float64{1, -1} {
				q := z.Default
				if q.V += way * z.Step.V; q.V < z.Least.V || q.V > z.Most.V {
					continue
				}
				stepped++
				r := resized{t: t, what: file + ", " + z.Name + " " + exact(q), of: of}
				after := sound(t, src, Settled, z.Name, exact(q))
				r.numbers(leaves(before.Readings), leaves(after.Readings))
				r.lengths(before, after, lengths)
				r.boards(before, after, places)
			}
			if stepped == 0 {
				t.Errorf("%s: %s cannot be stepped", file, z.Name)
			}
			want := carried[file+" "+z.Name]
			if got := wordsOf(lengths); got != want.lengths {
				t.Errorf("%s: %s is named by lengths that stay: %q, want %q", file, z.Name, got, want.lengths)
			}
			if got := wordsOf(places); got != want.places {
				t.Errorf("%s: %s is named by boards that stay: %q, want %q", file, z.Name, got, want.places)
			}
		}
	}
}

func wordsOf(set map[string]bool) string { return strings.Join(slices.Sorted(maps.Keys(set)), " ") }

// resized compares a plan before and after one size took a step.
type resized struct {
	t    *testing.T
	what string
	of   int // the scalar that holds the size
}

// numbers checks that no printed number changes that does not say why.
func (r resized) numbers(before, after map[string]leaf) {
	changed := 0
	for path, l := range before {
		m, ok := after[path]
		if !ok || l.number == nil || m.number == nil || l.near(m) {
			continue
		}
		changed++
		if !l.number.From.Has(r.of) && !m.number.From.Has(r.of) {
			r.t.Errorf("%s: %s becomes %v, was %v, and does not say why", r.what, path, m, l)
		}
	}
	if changed < 10 {
		r.t.Errorf("%s: only %d numbers change", r.what, changed)
	}
}

// lengths notes the parts whose length should follow and does not.
func (r resized) lengths(before, after *Plan, still map[string]bool) {
	for _, p := range before.Readings.Parts {
		for _, q := range after.Readings.Parts {
			if p.Master != q.Master {
				continue
			}
			for _, pair := range [][2]*shop.Shown{{&p.Long, &q.Long}, {p.Short, q.Short}, {p.Edge, q.Edge}} {
				if pair[0] == nil || pair[1] == nil || !pair[0].From.Has(r.of) {
					continue
				}
				if (leaf{number: pair[0]}).near(leaf{number: pair[1]}) {
					still[before.Piece.Board(p.Master).Name] = true
				}
			}
		}
	}
}

// boards checks that no board changes or moves that does not say why, and notes
// those that should move and do not.
func (r resized) boards(before, after *Plan, still map[string]bool) {
	for _, b := range before.Piece.Boards {
		c := after.Piece.Board(b.ID)
		if c == nil {
			continue
		}
		moved := b.Pose.At.Distance(c.Pose.At) + b.Pose.X.Distance(c.Pose.X) + b.Pose.Z.Distance(c.Pose.Z)
		switch has := b.Place.Has(r.of) || c.Place.Has(r.of); {
		case moved > geom.Same && !has:
			r.t.Errorf("%s: %s moves by %g mm and does not say why", r.what, b.ID, moved)
		case moved <= geom.Same && has:
			still[b.Name] = true
		}
		if !sameCorners(corners(b.Placed()), corners(c.Placed()), geom.Same) && !all(b).Has(r.of) && !all(c).Has(r.of) {
			r.t.Errorf("%s: %s changes and does not say why", r.what, b.ID)
		}
	}
}

func all(b *design.Board) span.Set { return b.All() }
