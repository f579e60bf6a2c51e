package examples_test

import (
	"math"
	"testing"

	"scantling/internal/board"
	"scantling/internal/design"
	"scantling/internal/geom"
	"scantling/internal/joint"
	"scantling/internal/screw"
)

// A bore is one hole as it lies in the piece.
type bore struct {
	board *design.Board
	board.Hole
	at, way geom.Vec
	exit    geom.Vec // where it comes out, or its floor
	taken   bool
}

// bores finds where each hole goes in and where it ends, from the solid of its board
// alone.
func bores(t *testing.T, b built) (out []bore) {
	for _, x := range b.Boards {
		for _, h := range x.Holes {
			r := bore{board: x, Hole: h, at: x.Pose.Out(h.At), way: x.Pose.OutWay(h.Way)}
			far := h.Depth
			for _, s := range x.Solid.Through(h.At, h.Way) {
				if math.Abs(s[0]) > geom.Touch {
					continue
				}
				if far == 0 {
					far = s[1]
				}
				if far > s[1]+geom.Same {
					t.Errorf("%s: a hole of %s is %.2f mm deep in %.2f mm of wood", x.Spoken, h.Joint, h.Depth, s[1])
				}
			}
			if far == 0 {
				t.Errorf("%s: a hole of %s starts outside its wood", x.Spoken, h.Joint)
			}
			r.exit = r.at.Along(r.way, far)
			out = append(out, r)
		}
	}
	return out
}

// drilled checks that every fastener has its holes, one for one, and every hole its
// fastener; that the two halves of every bolted joint are one line, the second hole
// going on where the first comes out; and that what is bought is what is drilled for.
func drilled(t *testing.T, set design.Settings, b built) {
	t.Helper()
	holes := bores(t, b)
	// take finds the one hole of a board on an axis and marks it taken.
	take := func(j *joint.Joint, in *design.Board, kind board.HoleKind, a joint.Axis) *bore {
		var found *bore
		for i := range holes {
			h := &holes[i]
			off := h.at.Minus(a.At)
			if a.In != "" && off.Length() > geom.Same { // its bracket has a twin on the other side
				continue
			}
			if h.taken || h.board != in || h.Kind != kind || h.Joint != j.Name || math.Abs(h.way.Dot(a.Way)) < 1-1e-9 || off.Along(a.Way, -off.Dot(a.Way)).Length() > geom.Same {
				continue
			}
			if found != nil {
				t.Errorf("%v: %s has two holes of a kind on one line in the %s", set, j.Name, in.Spoken)
			}
			found = h
		}
		if found == nil {
			t.Errorf("%v: %s: the %s has no hole on the line of its fastener", set, j.Name, in.Spoken)
			return nil
		}
		found.taken = true
		return found
	}
	driven := map[string]int{}
	for i := range b.joints {
		j := &b.joints[i]
		for k := range j.Pairs {
			p := &j.Pairs[k]
			for _, u := range p.Uses {
				for _, a := range u.Axes {
					driven[u.Fastener.Name()]++
					switch w := u.Fastener; {
					case w.Nailed():
					case w.Bolted():
						one, two := take(j, p.Through, board.Clearance, a), take(j, p.Into(), board.Clearance, a)
						if one != nil && two != nil && (one.exit.Distance(two.at) > geom.Touch || one.Diameter != two.Diameter) {
							t.Errorf("%v: %s: one half of a bolt's hole ends %.3f mm from where the other begins, %.2f and %.2f mm wide", set, j.Name, one.exit.Distance(two.at), one.Diameter, two.Diameter)
						}
						if long := u.Fastener.Length.MM() - a.Stack[0] - a.Stack[1]; long <= 0 {
							t.Errorf("%v: %s: a bolt ends inside the wood", set, j.Name)
						}
					case w.Family == screw.Dowel && u.Pegged():
						take(j, p.Through, board.Clearance, a)
						take(j, p.Into(), board.Clearance, a)
					case w.Family == screw.Dowel:
						one, two := take(j, p.Through, board.Pilot, a), take(j, p.Into(), board.Pilot, a)
						if one != nil && two != nil && one.at.Distance(two.at) > geom.Same {
							t.Errorf("%v: %s: the holes of a dowel begin %.3f mm apart", set, j.Name, one.at.Distance(two.at))
						}
					case a.In != "":
						for _, x := range []*design.Board{p.A, p.B} {
							if x.ID == a.In {
								take(j, x, board.Pilot, a)
							}
						}
					default:
						one, two := take(j, p.Through, board.Clearance, a), take(j, p.Into(), board.Pilot, a)
						if one != nil && two != nil && one.exit.Distance(two.at) > geom.Touch {
							t.Errorf("%v: %s: a screw's pilot begins %.3f mm from where its clearance hole ends", set, j.Name, one.exit.Distance(two.at))
						}
						if w.Countersink() > 0 {
							take(j, p.Through, board.Countersink, a)
						}
					}
				}
			}
		}
	}
	for _, h := range holes {
		if !h.taken {
			t.Errorf("%v: a hole of %s in the %s has no fastener", set, h.Joint, h.board.Spoken)
		}
	}
	for _, l := range joint.Tally(b.joints).Lines() {
		if f, err := screw.Parse(l.What); err == nil && f.Driven() && l.Count != driven[l.What] {
			t.Errorf("%v: %d of %s are bought, and %d are driven", set, l.Count, l.What, driven[l.What])
		}
		delete(driven, l.What)
	}
	for what, n := range driven {
		t.Errorf("%v: %d of %s are driven and none bought", set, n, what)
	}
}
