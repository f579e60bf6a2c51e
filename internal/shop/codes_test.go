package shop

import (
	"testing"

	"scantling/internal/design"
	"scantling/internal/joint"
	"scantling/internal/part"
	"scantling/internal/snag"
	"scantling/internal/source"
)

// The catalogue's example of every code of packages joint and shop brings that
// code about, and nothing worse.
func TestExamplesOfCodes(t *testing.T) {
	for _, code := range []snag.Code{"bolt-length", "clash", "glue-open-time", "glue-wet", "joint-apart", "joint-count", "joint-held", "joint-slight", "nearly-touch", "screw-long", "screw-short"} {
		info, ok := snag.Explain(code)
		if !ok || info.Example == "" {
			t.Errorf("%s has no example", code)
			continue
		}
		tree, snags := source.Parse("t.yaml", []byte(info.Example))
		p, more := design.Open(tree).Evaluate(nil)
		snags = append(snags, more...)
		m := joint.Meet(p)
		snags = append(snags, m.Snags()...)
		joints, more := joint.Find(p, m)
		snags = append(snags, more...)
		_, more = Compute(p, m, joints, part.Sort(p), Pen{})
		snags = append(snags, more...).Sorted()
		if len(snags) != 1 || snags[0].Code != code || len(snags[0].Mends) == 0 {
			t.Errorf("the example of %s gives\n%s", code, snags.Text(snag.Sources{"t.yaml": []byte(info.Example)}))
		}
	}
	if _, ok := snag.Explain("marks-missing"); !ok {
		t.Error("marks-missing is not in the catalogue")
	}
}
