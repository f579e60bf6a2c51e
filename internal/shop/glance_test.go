package shop

import (
	"reflect"
	"testing"

	"scantling/internal/design"
	"scantling/internal/joint"
	"scantling/internal/part"
	"scantling/internal/source"
)

// What a glance says is said again, the same, by the whole computation.
func TestAGlanceSaysNothingElse(t *testing.T) {
	tree, _ := source.Parse("a.yaml", []byte(`piece: Shelf board
about: It is {length} long.
units: inch
sizes:
  length: {is: 30", from: 20", to: 40", by: 1", says: length}
lumber:
  deck: {size: 1x6, wood: western redcedar}
parts:
  shelf: {of: deck, length: length, place: {runs: right, faces: up, front: 3" in front of middle, bottom: floor}}
need:
  - {that: length < 36", else: It sags., says: "Longer ones sag."}
`))
	piece, _ := design.Open(tree).Evaluate(nil)
	meetings := joint.Meet(piece)
	joints, _ := joint.Find(piece, meetings)
	whole, _ := Compute(piece, meetings, joints, part.Sort(piece), Pen{})
	glance := Glance(piece, Pen{})
	for _, x := range []struct {
		what        string
		glance, all any
	}{
		{"about", glance.About, whole.About}, {"sizes", glance.Sizes, whole.Sizes}, {"needs", glance.Needs, whole.Needs},
		{"overall", glance.Overall, whole.Overall}, {"mass", glance.Mass, whole.Mass}, {"first fact", glance.Facts[0], whole.Facts[0]},
	} {
		if !reflect.DeepEqual(x.glance, x.all) {
			t.Errorf("%s: at a glance %v, computed %v", x.what, x.glance, x.all)
		}
	}
	if len(glance.Boards) != 1 || glance.Overall[0].Text != `30"` {
		t.Errorf("one board, 30 in wide; got %d, %s", len(glance.Boards), glance.Overall[0].Text)
	}
}
