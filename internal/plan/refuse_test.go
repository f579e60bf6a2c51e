package plan

import (
	"slices"
	"strings"
	"testing"

	"scantling/internal/snag"
	"scantling/internal/span"
)

// bench is a small sound piece: each case below spoils it in one place.
const bench = `piece: Packing bench
units: inch
sizes:
  width: {is: 24", from: 18", to: 36", by: 1"}
let:
  height: 17"
  depth: 12"
lumber:
  frame: {size: 2x4, wood: southern pine}
  board: {size: 5/4x6 radius edge, wood: southern pine}
parts:
  leg:
    of: frame
    place: {runs: up, faces: front, left: width / 2 left of middle, front: depth / 2 in front of middle}
    ends: {bottom: floor, top: height above floor}
    copies: [mirror: left-right, mirror: front-back]
  rail:
    of: frame
    place: {runs: right, faces: front, front: against leg.back, top: height above floor}
    ends: {left: flush with leg.left, right: flush with front right leg.right}
    copies: [mirror: front-back]
rows:
  slat:
    of: board
    length: depth + 1"
    place: {runs: back, faces: up, bottom: height above floor}
    fill: {along: right, from: width / 2 left of middle, to: width / 2 right of middle}
    gap: {about: 1/2", from: 1/8", to: 2", leftover: even}
joints:
  frame_screws: {join: [rail, leg], with: screw 10 x 2 1/2, through: rail, pattern: {count: 2}}
  slat_screws: {join: [slat, rail], with: screw 8 x 2 1/2, through: slat, pattern: {count: 2}}
steps:
  - {name: Frames, add: [leg, rail], fasten: [frame_screws]}
  - {name: Slats, add: slat, fasten: [slat_screws]}
`

// A refusal is one thing a design must be refused for. The new text stands where
// the old one did; what the message must point at stands between « and ».
type refusal struct {
	name     string
	old, new string
	code     snag.Code
	says     []string // in the message: both numbers, with their units
	set      []string // settings, name and value
	more     []string // further changes: old, new, …
	byHand   bool     // only a person can mend it
	given    bool     // the setting is wrong, and no edit of the file mends that
}

// What the language says must be refused, kindly: the message points at the
// place, holds what is wrong in numbers, and where an edit can mend it the first
// such mend makes the message go.
var refusals = []refusal{
	{name: "a cycle", old: `height: 17"`, new: `«height»: depth + 5"`, more: []string{`depth: 12"`, `depth: height - 5"`}, code: "loop", says: []string{"height", "depth"}, byHand: true},
	{name: "an unknown name", old: `length: depth + 1"`, new: `length: «dept» + 1"`, code: "unknown-name", says: []string{"dept"}},
	{name: "an unknown key", old: `    of: board`, new: `    «off»: board`, code: "unknown-key", says: []string{"off"}},
	{name: "a length and a bare number", old: `length: depth + 1"`, new: `length: depth + «1»`, code: "wrong-dimension", says: []string{"length", "no unit"}},
	{name: "a length and an angle", old: `length: depth + 1"`, new: `length: «depth + 1°»`, code: "wrong-dimension", says: []string{"length", "angle"}, byHand: true},
	{name: "a size outside its range", old: `is: 24", from`, new: `is: «40"», from`, code: "out-of-range", says: []string{`40"`, `36"`}},
	{name: "a setting outside its range", set: []string{"width", `40"`}, code: "out-of-range", says: []string{`40"`, `36"`}, given: true},
	{name: "a board wider than its stock", old: `    of: frame
    place: {runs: right`, new: `    of: frame
    width: «4"»
    place: {runs: right`, code: "wider-than-stock", says: []string{`4"`, `3 1/2"`}},
	{name: "a length of nothing", old: `length: depth + 1"`, new: `length: «depth - 12"»`, code: "no-length", says: []string{`0"`}, byHand: true},
	{name: "ends that have passed one another", old: "ends: {bottom: floor, top: height above floor}", new: "ends: {bottom: height above floor, top: floor}", code: "no-length", byHand: true},
	{name: "a notch that parts the board", old: `    copies: [mirror: front-back]
rows`, new: `    copies: [mirror: front-back]
    cuts: {«clear»: {notch round: block}}
  block:
    of: frame
    length: 20"
    place: {runs: up, faces: left, left: 1" left of middle, front: 12" in front of middle}
    ends: {bottom: floor}
rows`, more: []string{"add: [leg, rail]", "add: [leg, rail, block]", "place: {runs: right, faces: front, front: against leg.back,", `place: {runs: right, faces: front, front: 10" in front of middle,`}, code: "notch-parts-board", byHand: true},
	{name: "a copy on itself", old: `    ends: {left: flush with leg.left, right: flush with front right leg.right}
    copies: [mirror: front-back]`, new: `    ends: {left: flush with leg.left, right: flush with front right leg.right}
    copies: [«mirror: left-right»]`, code: "copy-on-copy", byHand: true},
	{name: "a joint of boards apart", old: "joints:\n", new: "joints:\n  far: {join: «[slat, leg]», with: screw 8 x 2}\n", more: []string{"bottom: height above floor}\n    fill", "bottom: height + 3\" above floor}\n    fill"}, code: "joint-apart", says: []string{`3"`}, byHand: true},
	{name: "a step that adds twice", old: "add: slat", new: "add: [slat, «leg»]", code: "added-twice", says: []string{"leg"}},
	{name: "a board never added", old: "add: [leg, rail]", new: "add: [leg]", code: "never-added", says: []string{"2 of 2", "rail"}},
	{name: "a division by nothing", old: `height: 17"`, new: `height: 17" / (2 - 2)`, code: "no-number", byHand: true},
	{name: "a number no tape shows", old: `height: 17"`, new: `height: 17" * «1e300»`, code: "bad-number", says: []string{"1e300"}, byHand: true},
	{name: "a row of a million boards", old: "fill: {along", new: "fill: {count: «1000000», along", code: "absurd-count", says: []string{"1000000"}, byHand: true},
	{name: "a million copies", old: "copies: [mirror: left-right, mirror: front-back]", new: `copies: [every: {of: left, from: 0", toward: right, each: 1/10000", to: 100"}]`, more: []string{"left: width / 2 left of middle, front", "front"}, code: "absurd-count", byHand: true},
	{name: "a length no tree has", old: `length: depth + 1"`, new: `length: depth * 99999999 * 99999999`, more: []string{"  slat:", "  «slat»:"}, code: "absurd-length", says: []string{`4800"`}, byHand: true},
	{name: "anchors", old: `depth: 12"`, new: `depth: «&d 12"»`, code: "anchor"},
	{name: "an alias", old: `depth: 12"`, new: `depth: «*height»`, code: "anchor"},
	{name: "a key twice", old: `depth: 12"`, new: "depth: 12\"\n  «depth»: 13\"", code: "duplicate-key", byHand: true},
	{name: "a comment in a value", old: "with: screw 10 x 2 1/2, through", new: "with: screw «#10» x 2 1/2, through", code: "cut-by-comment", says: []string{"#10"}},
}

func TestRefusedKindly(t *testing.T) {
	if p := run(t, []byte(bench), Settled); p.Snags.Errors() > 0 {
		t.Fatalf("the bench is not sound:\n%s", p.Messages())
	}
	for _, c := range refusals {
		t.Run(c.name, func(t *testing.T) {
			pairs := c.more
			if c.old != "" {
				pairs = append([]string{c.old, c.new}, c.more...)
			}
			text := string(without(t, []byte(bench), pairs...))
			start := strings.Index(text, "«")
			end := strings.Index(text, "»") - len("«")
			text = strings.NewReplacer("«", "", "»", "").Replace(text)
			p := run(t, []byte(text), Settled, c.set...)
			i := slices.IndexFunc(p.Snags, func(s snag.Snag) bool { return s.Code == c.code && s.Severity == snag.Error })
			if i < 0 {
				t.Fatalf("not refused as %s:\n%s", c.code, p.Messages())
			}
			s := p.Snags[i]
			if start >= 0 && (s.At.Start != start || s.At.End != end) {
				t.Errorf("points at %q, want %q:\n%s", text[s.At.Start:s.At.End], text[start:end], p.Messages())
			}
			for _, w := range c.says {
				if !strings.Contains(s.What, w) {
					t.Errorf("%q does not say %q", s.What, w)
				}
			}
			if len(s.Mends) == 0 {
				t.Errorf("%q has no mend", s.What)
			}
			m := slices.IndexFunc(s.Mends, func(m snag.Mend) bool { return len(m.Edits) > 0 })
			if c.byHand {
				if m >= 0 {
					t.Errorf("an edit can mend it after all: %q", s.Mends[m].Says)
				}
				return
			}
			if c.given {
				return
			}
			if m < 0 {
				t.Fatalf("no edit mends it:\n%s", p.Messages())
			}
			mended, ok := span.Apply([]byte(text), s.Mends[m].Edits)
			if !ok {
				t.Fatalf("the edits of %q do not apply", s.Mends[m].Says)
			}
			after := run(t, mended, Settled, c.set...)
			if slices.ContainsFunc(after.Snags, func(s snag.Snag) bool { return s.Code == c.code && s.Severity == snag.Error }) {
				t.Errorf("after %q it is still refused:\n%s", s.Mends[m].Says, after.Messages())
			}
		})
	}
}

// A file past its limit is refused before anything is read of it.
func TestRefusedForItsSize(t *testing.T) {
	big := []byte(bench + "# " + strings.Repeat("x", 1<<20))
	p := run(t, big, Settled)
	if len(p.Snags) != 1 || p.Snags[0].Code != "file-too-large" || !strings.Contains(p.Snags[0].What, "1048576") {
		t.Errorf("%.300s", p.Messages())
	}
}
