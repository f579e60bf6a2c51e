package plan

import "testing"

// Every example, built again from its pages in three ways, fits within a sixteenth
// of an inch.
func TestExamplesAreProved(t *testing.T) {
	for _, name := range []string{"sorting-table", "pickers-chair", "herb-planter", "yard-gate", "picnic-table"} {
		p := with(t, example(t, name), Options{Want: Settled})
		proved(t, name, p)
	}
}

func proved(t *testing.T, name string, p *Plan) {
	t.Helper()
	r := p.Proof
	if r == nil {
		t.Errorf("%s: nothing was built", name)
		return
	}
	for _, b := range r.Builds {
		t.Logf("%s %v: gap %.2f, overlap %.2f, holes %.2f mm", name, b.Way, b.Gap, b.Over, b.Hole)
	}
	t.Logf("%s: parts %.2f, joints %.2f mm from the design", name, p.Likeness.Part, p.Likeness.Slip)
	if p.proved() {
		return
	}
	t.Errorf("%s is not proved", name)
	for _, u := range r.Unclear {
		t.Errorf("  %s", u)
	}
	for _, f := range append(r.Joints, r.Clashes...) {
		if max(f.Gap, f.Over, f.Hole) > 1.5 {
			t.Errorf("  %s %v: gap %.2f, overlap %.2f, holes %.2f mm", f.Joint, f.Boards, f.Gap, f.Over, f.Hole)
		}
	}
}
