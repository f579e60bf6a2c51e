package joint

import (
	"fmt"
	"strings"
	"testing"

	"scantling/internal/design"
	"scantling/internal/snag"
	"scantling/internal/source"
)

func TestMetals(t *testing.T) {
	const post = `piece: Post
lumber:
  stock: {size: 2x4, wood: %s%s}
parts:
  rail: {of: stock, length: 36", place: {runs: right, faces: front, front: middle, bottom: 10" above floor}}
  post: {of: stock, length: 24", place: {runs: up, faces: front, front: against rail.back, left: middle}, ends: {bottom: floor}}
joints:
  one: {join: [rail, post], with: %s, through: rail, pattern: {count: 1}}
hardware:
  hinge: {what: hinge, fixed to: rail, with: %s, each: 2}
use: {as: bench, climate: {lives: %s}}
steps: [{name: All, add: [rail, post, hinge]}]
`
	for _, c := range []struct {
		wood, treatment, with, hinge, lives string
		codes                               string
		metal                               string // what the list says of what is left open
		source                              string
	}{
		{"southern pine", "", "screw 8 x 2 1/2", "screw 8 x 1 1/4", "outdoors temperate", "", "", "untreated pine: any"},
		{"southern pine", "ground contact", "screw 8 x 2 1/2", "screw 8 x 1 1/4", "outdoors temperate", "", "hot-dip galvanized, stainless", "IBC 2012, 2304.9.5"},
		{"southern pine", "ground contact", "plated screw 8 x 2 1/2", "galvanized screw 8 x 1 1/4", "outdoors temperate", "corrosion", "", "IBC 2012, 2304.9.5"},
		{"southern pine", "ground contact", "galvanized screw 8 x 2 1/2", "stainless screw 8 x 1 1/4", "outdoors temperate", "metals-mixed", "", "SFPA: not mixed"},
		{"southern pine", "ground contact", "galvanized screw 8 x 2 1/2", "screw 8 x 1 1/4", "outdoors temperate", "", "in galvanized too", "SFPA: not mixed"},
		{"southern pine", "", "galvanized screw 8 x 2 1/2", "stainless screw 8 x 1 1/4", "by the coast", "corrosion", "", "guidance (memory): stainless near salt water; the first is to be stainless"},
		{"southern pine", "", "screw 8 x 2 1/2", "screw 8 x 1 1/4", "by the sea", "", "stainless steel", "guidance (memory)"},
		{"western red cedar", "", "plain screw 8 x 2 1/2", "screw 8 x 1 1/4", "outdoors temperate", "corrosion", "", "common practice: iron and tannin"},
		{"western red cedar", "", "stainless screw 8 x 2 1/2", "stainless screw 8 x 1 1/4", "outdoors temperate", "", "", "common practice"},
	} {
		treatment := ""
		if c.treatment != "" {
			treatment = ", treatment: " + c.treatment
		}
		src := fmt.Sprintf(post, c.wood, treatment, c.with, c.hinge, c.lives)
		tree, _ := source.Parse("t.yaml", []byte(src))
		p, snags := design.Open(tree).Evaluate(nil)
		if p == nil || snags.Errors() > 0 {
			t.Fatal(snags.Text(snag.Sources{"t.yaml": []byte(src)}))
		}
		joints, found := Find(p, Meet(p))
		var codes []string
		for _, s := range found {
			if s.Code == "corrosion" || s.Code == "metals-mixed" {
				codes = append(codes, string(s.Code))
			}
		}
		if got := strings.Join(codes, " "); got != c.codes {
			t.Errorf("%s, %s and %s, %s: %q, want %q (%s)", c.wood, c.with, c.hinge, c.lives, got, c.codes, c.source)
		}
		if got := Metal(p, joints); c.metal == "" && got != "" || !strings.Contains(got, c.metal) {
			t.Errorf("%s, %s and %s, %s: says %q, want %q (%s)", c.wood, c.with, c.hinge, c.lives, got, c.metal, c.source)
		}
	}
}
