package shop

import (
	"strings"
	"testing"

	"scantling/internal/board"
	"scantling/internal/design"
)

// The frame of the table is measured where its last corner is fastened, on the
// outside of its aprons, and its slats, laid on what is square, are not.
func TestFramesAreSquaredWhereTheyClose(t *testing.T) {
	r := compute(tableFrame(t))
	if n := len(r.Steps[0].Square); n != 0 {
		t.Errorf("step 1 only holds its corners, and squares %d frames", n)
	}
	if n := len(r.Steps[2].Square); n != 0 {
		t.Errorf("the slats' step squares %d frames again", n)
	}
	if len(r.Steps[1].Square) != 1 {
		t.Fatalf("step 2 fastens the corners and squares %d frames, want 1", len(r.Steps[1].Square))
	}
	if got := r.Steps[2].Checks[len(r.Steps[2].Checks)-1].String(); got != `Before you fasten, measure the long aprons once more: 73 11/16" both ways. What this step adds locks them.` {
		t.Errorf("the slats lock the frame, and the step says %s", got)
	}
	q := r.Steps[1].Square[0]
	const source = "geometry: √(69.5² + 24.5²) = 73.692; 2·69.5/73.692/16 = 0.118, and 1/8 is 0.066 out of square"
	want := `over the outer corners of the long aprons, front left to back right, 73 11/16", and the same the other way; up to 1/8" apart may stay (so much is 1/16" out of square across the 24 1/2")`
	if got := q.Words.String(); got != want {
		t.Errorf("%s\nwant %s (%s)", got, want, source)
	}
	if q.Diagonals[1].A != "front right" || q.Diagonals[1].B != "back left" {
		t.Errorf("the other diagonal runs from %s to %s", q.Diagonals[1].A, q.Diagonals[1].B)
	}
}

// Two rails that no corner holds are no frame; a frame out of square on purpose
// has two figures.
func TestFramesThatDifferOnPurpose(t *testing.T) {
	sides := "front back left right bottom top"
	p := &design.Piece{Boards: []*design.Board{
		along("a", "rail", "left rail", 30, 2, 1, back, up, 2, 0, 0, sides),
		along("b", "rail", "right rail", 30, 2, 1, back, up, 42, 6, 0, sides),
		along("c", "bar", "front bar", 42, 2, 1, right, up, 0, 8, 1, "left right front back bottom top"),
		along("d", "bar", "back bar", 42, 2, 1, right, up, 0, 28, 1, "left right front back bottom top"),
	}}
	p.Joints = []design.Joint{{Name: "corners", Sides: [2][]board.ID{{"a", "b"}, {"c", "d"}}, Through: []board.ID{"c", "d"},
		With: []design.Fastening{{Phrase: "screw 8 x 1 1/4"}}}}
	p.Steps = []design.Step{{Name: "Frame", Add: []board.ID{"a", "b", "c", "d"}}}
	q := compute(p).Steps[0].Square
	if len(q) != 1 {
		t.Fatalf("%d frames, want 1", len(q))
	}
	// The rails, 40 apart over all… the right one 6 further back: 42 and 36, 42 and 24.
	const source = "geometry: √(42² + 36²) = 55.317; √(42² + 24²) = 48.374"
	if one, other := q[0].Diagonals[0].Value.Text, q[0].Diagonals[1].Value.Text; one != `55 5/16"` && other != `55 5/16"` || one != `48 3/8"` && other != `48 3/8"` {
		t.Errorf("diagonals %s and %s (%s)", one, other, source)
	}
	if got := q[0].Words.String(); !strings.Contains(got, "they differ on purpose") {
		t.Error(got)
	}
}
