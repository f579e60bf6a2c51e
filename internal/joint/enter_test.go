package joint

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"scantling/internal/snag"
)

// The face named under from: is the one the fasteners enter by, on the first pair as
// said and on its copies carried along; without through: it also says which board is
// gone through.
func TestFaceEntered(t *testing.T) {
	const frame = `piece: Frame
lumber:
  stock: {size: 2x4, wood: southern pine}
parts:
  post: {of: stock, place: {runs: up, faces: front, front: 10" in front of middle, left: 12" left of middle}, ends: {bottom: floor, top: 16" above floor}, copies: [mirror: left-right, mirror: front-back]}
  rail: {of: stock, place: {runs: right, faces: front, front: against post.back, top: flush with post.top}, ends: {left: flush with post.left, right: flush with front right post.right}, copies: [mirror: front-back]}
joints:
  screws: {join: [rail, post], with: screw 10 x 2 1/2, %s, pattern: {count: 2}}
steps: [{name: All, add: [post, rail]}]
`
	for _, c := range []struct {
		says    string
		through string // the board the first pair's screws go through
		wrong   bool
	}{
		{"through: rail", "rail", false},
		{"through: rail, from: back", "rail", false},
		{"through: post, from: front", "post", false},
		{"through: rail, from: front", "rail", true},
		{"through: rail, from: top", "rail", true},
		{"from: back", "rail", false},
		{"from: front", "post", false},
		{"from: rail.back", "rail", false},
		{"from: rail.front", "rail", true},
		{"from: left", "rail", true},
	} {
		src := fmt.Sprintf(frame, c.says)
		snags, _ := found(t, []byte(src))
		if got := slices.ContainsFunc(snags, func(s snag.Snag) bool { return s.Code == "from-face" }); got != c.wrong {
			t.Errorf("%s: %v, want a wrong face: %v", c.says, snags, c.wrong)
		}
		joints := laidOut(t, src)
		if got := joints[0].Pairs[0].Through.Name; len(joints[0].Pairs) != 4 || got != c.through {
			t.Errorf("%s: through the %s, want the %s", c.says, got, c.through)
		}
	}
}

// A corner where three rails are screwed to one post from three sides is told as a
// knot.
func TestKnot(t *testing.T) {
	src := `piece: Corner
lumber:
  thin: {size: 1x4, wood: southern pine}
  post_stock: {size: 2x2, wood: southern pine}
parts:
  post: {of: post_stock, place: {runs: up, faces: front, front: middle, left: middle}, ends: {bottom: floor, top: 24" above floor}}
  front_rail: {of: thin, length: 20", place: {runs: right, faces: front, back: against post.front, bottom: 10" above floor}, ends: {left: flush with post.left}}
  side_rail: {of: thin, length: 20", place: {runs: back, faces: left, right: against post.left, bottom: 10" above floor}, ends: {front: flush with post.front}}
joints:
  one: {join: [front_rail, post], with: screw 8 x 2, through: front_rail, pattern: {count: 4, set: across}}
  two: {join: [side_rail, post], with: screw 8 x 2, through: side_rail, pattern: {count: 4, set: across}}
steps: [{name: All, add: [post, front_rail, side_rail]}]
`
	snags, _ := found(t, []byte(src))
	if !slices.ContainsFunc(snags, func(s snag.Snag) bool { return s.Code == "fasteners-crowd" && strings.Contains(s.What, "stand within") }) {
		t.Error(snags)
	}
}
