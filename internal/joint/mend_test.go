package joint

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"scantling/internal/snag"
	"scantling/internal/span"
)

// The first mend of every snag that a program can do takes the snag away and
// brings no new error.
func TestMendsClose(t *testing.T) {
	done := map[snag.Code]bool{}
	for _, file := range wrong(t) {
		src, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		closes(t, src, done)
	}
	for _, code := range []snag.Code{"screw-long", "screw-short", "bolt-length", "edge-near", "spacing-near", "no-room-to-fasten", "bolt-blocked", "corrosion", "metals-mixed",
		"counterbore-deep", "thread-in-both", "from-face", "insert-alone", "split-risk"} {
		if !done[code] {
			t.Errorf("no mend of %s was tried", code)
		}
	}
}

// So does the first mend of every snag of any two boards fastened by anything.
func TestMendsOfAnyJointClose(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		closes(t, []byte(anyJoint(t)), map[snag.Code]bool{})
	})
}

// So do those of the examples, spoiled at every joint in turn by a fastener that does
// not suit it.
func TestMendsOfSpoiledExamplesClose(t *testing.T) {
	files, err := filepath.Glob("../../examples/*.yaml")
	if err != nil || len(files) < 5 {
		t.Fatal(files, err)
	}
	fastener := regexp.MustCompile(`with: (screw|carriage bolt|corner bracket)[^\n,}]*`)
	done := map[snag.Code]bool{}
	for _, file := range files {
		src, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		for i, at := range fastener.FindAllIndex(src, -1) {
			with := []string{"screw 8 x 1 1/4", "screw 10 x 4", "nail 40d", "carriage bolt 1/2 x 4", "plain lag screw 1/2 x 3", "corner bracket 3"}[i%6]
			closes(t, slices.Concat(src[:at[0]], []byte("with: "+with), src[at[1]:]), done)
		}
	}
	if len(done) < 5 {
		t.Errorf("only %v were mended", done)
	}
}

// anyJoint writes a design of a rail, a post behind it and a strip on top, each of a
// stock of its own, with two joints.
func anyJoint(t *rapid.T) string {
	one := func(what string, of ...string) string { return rapid.SampledFrom(of).Draw(t, what) }
	stock := func(what string) string {
		return one(what, "1x3", "1x4", "5/4x6 radius edge", "2x2", "2x4", "2x6", "4x4")
	}
	with := func() string {
		return one("finish", "", "", "", "plain ", "stainless ", "galvanized ") + one("with", "screw 8 x 1 1/4", "screw 8 x 2", "screw 8 x 2 1/2", "screw 10 x 2 1/2", "screw 10 x 3", "screw 10 x 4",
			"screw 8", "wood screw 6 x 1 1/4", "wood screw 12 x 3", "wood screw 14", "deck screw 1/4 x 4", "structural screw 1/4 x 4", "structural screw 5/16", "nail 6d", "nail 8d", "nail 16d", "nail 40d",
			"box nail 10d", "finish nail 4d", "carriage bolt 5/16", "carriage bolt 3/8 x 4", "hex bolt 1/2", "hex bolt 1/4 x 2", "lag screw 1/4 x 3", "lag screw 1/2 x 4", "lag screw 3/8",
			"dowel 3/8 x 2", "dowel 1/2 x 1 1/2", "corner bracket 2", "corner bracket 3", "flat bracket 3", "screw 5 x 80 mm", "screw 4.0 x 40 mm", "bolt M8", "coach screw M8 x 80 mm")
	}
	pattern := func() string {
		out := "count: " + one("count", "1", "2", "3", "4", "6")
		if s := one("set", "", "row", "across", "diagonal", "stagger"); s != "" {
			out += ", set: " + s
		}
		if s := one("edge", "", "", `1/4"`, `1/2"`, `3/4"`, `1"`, `1 3/8"`); s != "" {
			out += ", from edge: " + s
		}
		if s := one("end", "", "", `1/2"`, `3/4"`, `1"`, `2"`); s != "" {
			out += ", from end: " + s
		}
		return out
	}
	extra := func() string { return one("counterbore", "", "", "", `, counterbore: 1/4"`, `, counterbore: 1"`) }
	use := one("lives", "", "use: {as: bench, climate: {lives: by the coast}}\n")
	return fmt.Sprintf(`piece: Any joint
lumber:
  rail_stock: {size: %s, wood: southern pine%s}
  post_stock: {size: %s, wood: southern pine}
  strip_stock: {size: %s, wood: western red cedar}
parts:
  rail: {of: rail_stock, length: 24", place: {runs: right, faces: front, front: middle, bottom: 10" above floor}}
  post: {of: post_stock, length: 24", place: {runs: up, faces: front, front: against rail.back, left: %s}, ends: {bottom: floor}}
  strip: {of: strip_stock, length: 18", place: {runs: right, faces: up, bottom: rail.top, front: flush with rail.front, middle: middle}}
joints:
  first: {join: [rail, post], with: %s, through: %s, pattern: {%s}%s}
  second: {join: [strip, rail], with: %s, pattern: {%s}%s}
%ssteps: [{name: All, add: [rail, post, strip]}]
`, stock("rail"), one("treated", "", ", treatment: ground contact"), stock("post"), stock("strip"), one("left", "middle", `12" left of middle`, `1" left of middle`),
		with(), one("through", "rail", "post"), pattern(), extra(), with(), pattern(), extra(), use)
}

type failing interface {
	Helper()
	Errorf(string, ...any)
	Fatal(...any)
}

// closes applies the first mend of every snag of a design's joints.
func closes(t failing, src []byte, done map[snag.Code]bool) {
	t.Helper()
	snags, before := found(t, src)
	for _, s := range snags {
		if len(s.Mends) == 0 {
			t.Errorf("%s has no mend", s.What)
			continue
		}
		m := s.Mends[0]
		if m.Edits == nil {
			continue
		}
		mended, ok := span.Apply(src, m.Edits)
		if !ok {
			t.Errorf("%s: the edits do not apply", m.Says)
			continue
		}
		left, errors := found(t, mended)
		for _, x := range left {
			if key(x) == key(s) {
				t.Errorf("%s\n%s\n%s: still %s", src, s.What, m.Says, x.What)
			}
		}
		for _, x := range errors {
			if !slices.ContainsFunc(before, func(y snag.Snag) bool { return key(x) == key(y) }) {
				t.Errorf("%s\n%s\n%s: brings %s", src, s.What, m.Says, x.What)
			}
		}
		done[s.Code] = true
	}
}
