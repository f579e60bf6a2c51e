package care

import (
	"slices"
	"strings"
	"testing"

	"scantling/internal/snag"
	"scantling/internal/span"
)

// bench is two bearers on the floor and two planks across them: nothing is wrong
// with it. Bearers are 1 1/2 thick, outer faces 20 apart; planks are 1 x 5 1/2.
const bench = `piece: Low bench
lumber:
  rail: {size: 2x4, wood: southern pine, treatment: ground contact}
  slat: {size: 5/4x6 square edge, wood: western red cedar, treatment: none}
parts:
  bearer:
    of: rail
    length: 24"
    place: {runs: back, faces: left, left: 10" left of middle, bottom: floor}
    copies: [mirror: left-right]
  plank:
    of: slat
    length: 24"
    place: {runs: right, faces: up, bottom: bearer.top, front: 10" in front of middle}
    copies: [mirror: front-back]
joints:
  down: {join: [plank, bearer], with: screw 8 x 2 1/2, through: plank}
steps:
  - {name: All, add: [bearer, plank], fasten: [down]}
use: {as: bench, climate: {lives: outdoors temperate, stands: soil}}
`

// more puts a part and a joint into the bench.
func more(part, joint string) []string {
	return []string{"joints:\n", "  extra: " + part + "\njoints:\n" + joint, "add: [bearer, plank]", "add: [bearer, plank, extra]"}
}

// slats is the bench with its planks in a row.
func slats(fill, gap string) []string {
	return []string{"  plank:\n    of: slat\n    length: 24\"\n    place: {runs: right, faces: up, bottom: bearer.top, front: 10\" in front of middle}\n    copies: [mirror: front-back]\n",
		"rows:\n  plank:\n    of: slat\n    length: 24\"\n    place: {runs: right, faces: up, bottom: bearer.top}\n    fill: {along: back, " + fill + "}\n    gap: " + gap + "\n"}
}

// mitred is the bench with one end of each plank mitred.
func mitred(angle string) []string {
	return []string{"front: 10\" in front of middle}\n", "front: 10\" in front of middle}\n    ends: {left: {mitre: " + angle + ", long point: front}}\n"}
}

func both(a ...[]string) []string { return slices.Concat(a...) }

// ends makes the bearers end boards as high as a seat, planks screwed to them.
func ends(length string) []string {
	return []string{"rail: {size: 2x4,", "rail: {size: 2x12,", "    length: 24\"\n    place: {runs: back, faces: left, left: 10\" left of middle, bottom: floor}",
		"    place: {runs: up, faces: left, left: 10\" left of middle, front: 5 5/8\" in front of middle}\n    ends: {bottom: floor, top: 16\" above floor}",
		"    length: 24\"\n    place: {runs: right, faces: up, bottom: bearer.top, front: 10\"", "    length: " + length + "\n    place: {runs: right, faces: up, bottom: 16\" above floor, front: 5 5/8\""}
}

// gallows is a rail between two posts, screwed through them into its ends.
const gallows = `piece: Gallows
lumber:
  rail: {size: 2x4, wood: southern pine, treatment: ground contact}
  cleat: {size: 2x2, wood: southern pine, treatment: ground contact}
parts:
  post:
    of: rail
    place: {runs: up, faces: left, left: 12" left of middle, front: 1 3/4" in front of middle}
    ends: {bottom: floor, top: 12" above floor}
    copies: [mirror: left-right]
  bar:
    of: rail
    place: {runs: right, faces: front, front: 3/4" in front of middle, top: 12" above floor}
    ends: {left: against post.right, right: against right post.left}
joints:
  bar_screws: {join: [post, bar], with: screw 10 x 3 1/2, through: post}
steps:
  - {name: All, add: [post, bar], fasten: [bar_screws]}
`

// Each case brings a snag about, or comes as near to it as may be.
var cases = []struct {
	name    string
	base    string
	change  []string // old, new, …
	code    snag.Code
	says    string // "": the code is not told
	against snag.Severity
	source  string
}{
	{"all rests on the floor", bench, nil, "board-floating", "", 0, ""},
	{"a board in the air", bench, more(`{of: slat, length: 12", place: {runs: right, faces: up, bottom: 1/4" above plank.top, front: 10" in front of middle}}`, ""),
		"board-floating", `the extra hangs in the air, 4 3/4" above the floor: nothing it touches stands there. The nearest board, the front plank, is 1/4" away`, snag.Error, "by hand: 3 1/2 + 1 + 1/4"},
	{"a board on another", bench, more(`{of: slat, length: 12", place: {runs: right, faces: up, bottom: plank.top, front: 10" in front of middle}}`, ""), "board-floating", "", 0, ""},
	{"feet off the floor", bench, []string{"bottom: floor", `bottom: 3" above floor`}, "nothing-stands", `the left bearer, is 3" above it`, snag.Caution, ""},
	{"feet on the floor", bench, nil, "nothing-stands", "", 0, ""},
	{"hung by hinges", bench, []string{"bottom: floor", `bottom: 3" above floor`, "steps:\n", "hardware:\n  hinge: {what: hinge, fixed to: [plank]}\nsteps:\n"}, "nothing-stands", "", 0, ""},

	{"every board is fastened", bench, nil, "board-not-held", "", 0, ""},
	{"planks lie loose", bench, []string{"join: [plank, bearer]", "join: [front plank, bearer]", ", through: plank", ""}, "board-not-held", "no fastener holds the back plank: it lies loose on 2 boards", snag.Caution, ""},
	{"nothing holds a board on edge", bench, more(`{of: rail, length: 12", place: {runs: back, faces: left, right: against left bearer.left, bottom: floor}}`, ""),
		"board-not-held", "no fastener holds the extra: it takes part in no joint", snag.Error, ""},
	{"a post held at its foot only", bench, more(`{of: rail, place: {runs: up, faces: left, right: against left bearer.left, front: 2" in front of middle}, ends: {bottom: floor, top: 15 5/8" above floor}}`, "  stand: {join: [extra, bearer], with: screw 8 x 2 1/2}\n"),
		"board-not-held", `the extra is 15 5/8" long and held by one board only, over 3 1/2" of it`, snag.Caution, "by hand: 15 5/8 − 3 1/2 > 8 · 1 1/2"},
	{"a post just short enough", bench, more(`{of: rail, place: {runs: up, faces: left, right: against left bearer.left, front: 2" in front of middle}, ends: {bottom: floor, top: 15 1/2" above floor}}`, "  stand: {join: [extra, bearer], with: screw 8 x 2 1/2}\n"),
		"board-not-held", "", 0, "by hand: 15 1/2 − 3 1/2 = 8 · 1 1/2"},
	{"held along half of it", bench, more(`{of: rail, length: 48", place: {runs: back, faces: left, right: against left bearer.left, bottom: floor}}`, "  along: {join: [extra, bearer], with: screw 8 x 2 1/2}\n"),
		"board-not-held", "", 0, "by hand: 24 of 48"},
	{"held along less than half", bench, more(`{of: rail, length: 50", place: {runs: back, faces: left, right: against left bearer.left, bottom: floor}}`, "  along: {join: [extra, bearer], with: screw 8 x 2 1/2}\n"),
		"board-not-held", `is 50" long and held by one board only, over 24" of it`, snag.Caution, "by hand: 24 of 50"},

	{"a board that drops in", bench, more(`{of: slat, loose: yes, length: 24", place: {runs: right, faces: up, bottom: plank.top, front: 10" in front of middle}}`, ""), "board-not-held", "", 0, ""},
	{"a board that drops in, in place", bench, more(`{of: slat, loose: yes, length: 24", place: {runs: right, faces: up, bottom: plank.top, front: 10" in front of middle}}`, ""), "loose-board", "", 0, ""},
	{"a loose board on nothing", bench, more(`{of: rail, loose: yes, width: 3", length: 12", place: {runs: back, faces: left, right: against left bearer.left, bottom: 1/2" above floor}}`, ""), "loose-board",
		`the extra is said to be loose, and nothing lies beneath it: it falls 1/2"`, snag.Error, "by hand"},
	{"a loose board past its middle", bench, more(`{of: slat, loose: yes, length: 28 1/4", place: {runs: right, faces: up, bottom: plank.top, front: 10" in front of middle}, ends: {left: 2" left of middle}}`, ""), "loose-board",
		`the extra is loose and lies on less than half of its length: it is 28 1/4" long, and rests from 0" to 14"`, snag.Caution, "by hand: 12 + 2 of 28 1/4"},
	{"a loose board not past its middle", bench, more(`{of: slat, loose: yes, length: 28", place: {runs: right, faces: up, bottom: plank.top, front: 10" in front of middle}, ends: {left: 2" left of middle}}`, ""), "loose-board", "", 0, "by hand: 12 + 2 of 28"},
	{"a loose board on edge", bench, more(`{of: slat, loose: yes, length: 24", place: {runs: right, faces: front, bottom: plank.top, front: 9" in front of middle}}`, ""), "loose-board",
		`the extra is loose and stands 5 1/2" high on wood 1" thick, with no board within 1/4" of both its faces`, snag.Caution, "by hand"},
	{"a loose board low enough on edge", bench, more(`{of: slat, width: 3", loose: yes, length: 24", place: {runs: right, faces: front, bottom: plank.top, front: 9" in front of middle}}`, ""), "loose-board", "", 0, "by hand: 3 = 3 · 1"},
	{"a loose board between stops", bench, both(more(`{of: slat, loose: yes, length: 20", place: {runs: right, faces: front, bottom: plank.top, front: 9" in front of middle}}
  stop: {of: slat, length: 20", place: {runs: right, faces: front, bottom: plank.top, back: 1/8" in front of extra.front}}
  back_stop: {of: slat, length: 20", place: {runs: right, faces: front, bottom: plank.top, front: 1/8" behind extra.back}}`, ""), []string{"plank, extra]", "plank, extra, stop, back_stop]"}), "loose-board", "", 0, ""},
	{"a loose board that is fastened", bench, []string{"  plank:\n", "  plank:\n    loose: yes\n"}, "loose-board", "the front plank is said to be loose, and it is fastened to the left bearer; so is 1 more of them", snag.Caution, ""},

	{"four times the thickness", bench, []string{"of: slat\n    length: 24\"", "of: slat\n    length: 28\""}, "free-end", "", 0, "by hand: (28 − 20) / 2 = 4 · 1"},
	{"past four times the thickness", bench, []string{"of: slat\n    length: 24\"", "of: slat\n    length: 28 1/4\""}, "free-end",
		`the front plank sticks out 4 1/8" past its last support, and 4" is as far as a board 1" thick should; so is 1 more of them`, snag.Caution, "by hand"},

	{"24 in at 1 in", bench, []string{`left: 10"`, `left: 13 1/2"`, "of: slat\n    length: 24\"", "of: slat\n    length: 30\""}, "span-long", "", 0, "by hand: 2 · (13 1/2 − 1 1/2) = 24"},
	{"past 24 in at 1 in", bench, []string{`left: 10"`, `left: 13 9/16"`, "of: slat\n    length: 24\"", "of: slat\n    length: 30\""}, "span-long",
		`the front plank reaches 24 1/8" between what carries it, and boards 1" thick usually reach 24"`, snag.Caution, "by hand"},
	{"16 in at 3/4 in", bench, []string{"5/4x6 square edge", "1x6", `left: 10"`, `left: 9 1/2"`, "of: slat\n    length: 24\"", "of: slat\n    length: 22\""}, "span-long", "", 0, "by hand: 2 · (9 1/2 − 1 1/2) = 16"},
	{"past 16 in at 3/4 in", bench, []string{"5/4x6 square edge", "1x6", "of: slat\n    length: 24\"", "of: slat\n    length: 22\""}, "span-long",
		`reaches 17" between what carries it, and boards 3/4" thick usually reach 16"`, snag.Caution, "by hand: 2 · (10 − 1 1/2)"},
	{"36 in at 1 1/2 in", bench, []string{"5/4x6 square edge", "2x6", `left: 10"`, `left: 19 1/2"`, "of: slat\n    length: 24\"", "of: slat\n    length: 40\""}, "span-long", "", 0, "by hand: 2 · (19 1/2 − 1 1/2) = 36"},

	{"feet flush with the top", bench, ends(`20"`), "feet-past-top", "", 0, "by hand: outer faces 20 apart"},
	{"feet past the top", bench, ends(`19 7/8"`), "feet-past-top", `stands out 1/16" past the top, to the `, snag.Caution, "by hand: (20 − 19 7/8) / 2"},
	{"a low platform has no top", bench, []string{"of: slat\n    length: 24\"", "of: slat\n    length: 18\""}, "feet-past-top", "", 0, ""},

	{"whole boards give another gap", bench, slats(`from: 36" in front of middle, to: 36" behind middle`, `{about: 3/16", leftover: even}`),
		"gap-does-not-come-out", `13 whole boards of plank, 5 1/2" wide, come out 1/16" apart over 72"`, snag.Caution, "by hand: 13 → 0.5/12 = 0.042"},
	{"the gap comes out", bench, slats(`from: 36 7/8" in front of middle, to: 36 7/8" behind middle`, `{about: 3/16", leftover: even}`), "gap-does-not-come-out", "", 0, "by hand: 13 · 5 1/2 + 12 · 3/16 = 73 3/4"},
	{"another gap is allowed", bench, slats(`from: 36" in front of middle, to: 36" behind middle`, `{about: 3/16", from: 0", to: 1", leftover: even}`), "gap-does-not-come-out", "", 0, ""},

	{"fingers pass at 3/8", bench, both(slats(`about: middle, count: 3`, `3/8"`), []string{"as: bench,", "as: bench, who: children,"}), "opening-catches", "", 0, "CPSC, in CFOC 6.2.1.9"},
	{"fingers are caught at 7/16", bench, both(slats(`about: middle, count: 3`, `7/16"`), []string{"as: bench,", "as: bench, who: children,"}), "opening-catches", `the gaps of plank are 7/16": between 3/8" and 1" an opening catches a child's finger`, snag.Caution, "CPSC, in CFOC 6.2.1.9"},
	{"fingers pass at 1", bench, both(slats(`about: middle, count: 3`, `1"`), []string{"as: bench,", "as: bench, who: children,"}), "opening-catches", "", 0, "CPSC, in CFOC 6.2.1.9"},
	{"a head is caught at 4", bench, both(slats(`about: middle, count: 2`, `4"`), []string{"as: bench,", "as: bench, who: children,"}), "opening-catches", `between 3 1/2" and 9" an opening catches a child's head`, snag.Caution, "CPSC, in CFOC 6.2.1.9"},
	{"a head between a bearer and what is no row", bench, both(more(`{of: rail, length: 24", place: {runs: back, faces: left, right: 5" left of left bearer.left, bottom: floor}}`, ""), []string{"as: bench,", "as: bench, who: children,"}), "opening-catches", `the left bearer and the extra are 5" apart: between 3 1/2" and 9" an opening catches a child's head`, snag.Caution, "CPSC, in CFOC 6.2.1.9"},
	{"a foot passes there, a head does not come in", bench, both(more(`{of: rail, length: 24", place: {runs: back, faces: left, right: 3 1/4" left of left bearer.left, bottom: floor}}`, ""), []string{"as: bench,", "as: bench, who: children,"}), "opening-catches", "", 0, "CPSC, in CFOC 6.2.1.9"},
	{"a board stands in the opening", bench, both(more(`{of: rail, length: 24", place: {runs: back, faces: left, right: 5" left of left bearer.left, bottom: floor}}
  stop: {of: rail, length: 24", place: {runs: back, faces: left, right: 2" left of left bearer.left, bottom: floor}}`, ""), []string{"as: bench,", "as: bench, who: children,", "plank, extra]", "plank, extra, stop]"}), "opening-catches", "", 0, "CPSC, in CFOC 6.2.1.9"},
	{"adults are not asked", bench, slats(`about: middle, count: 3`, `7/16"`), "opening-catches", "", 0, ""},

	{"8 in is long enough", bench, more(`{of: slat, length: 8", place: {runs: right, faces: up, bottom: plank.top, front: 10" in front of middle}}`, ""), "small-piece", "", 0, "common practice"},
	{"under 8 in", bench, more(`{of: slat, length: 7 15/16", place: {runs: right, faces: up, bottom: plank.top, front: 10" in front of middle}}`, ""), "small-piece", `the extra is 7 15/16" long; a piece under 8"`, snag.Caution, "common practice"},
	{"1 1/2 in is wide enough", bench, []string{"of: slat\n", "of: slat\n    width: 1 1/2\"\n"}, "narrow-rip", "", 0, "common practice"},
	{"under 1 1/2 in", bench, []string{"of: slat\n", "of: slat\n    width: 1 7/16\"\n"}, "narrow-rip", `the front plank is ripped to 1 7/16"; under 1 1/2"`, snag.Caution, "common practice"},

	{"a saw crosses 5 1/2 at 12°", bench, mitred("12°"), "saw-reach", "", 0, "by hand: 5.5 / cos 12° = 5.623"},
	{"a saw crosses 5 1/2 not at 13°", bench, mitred("13°"), "saw-reach",
		`the cut at 13.0° across the front plank, 5 1/2" wide, is 5 5/8" long`, snag.Advice, "by hand: 5.5 / cos 13° = 5.645"},
	{"a circular saw cuts 2 1/2 through", bench, []string{"rail: {size: 2x4", "rail: {size: 3x4"}, "saw-reach", "", 0, "common practice"},
	{"a 4x4 takes two cuts", bench, []string{"rail: {size: 2x4", "rail: {size: 4x4"}, "saw-reach", `the left bearer is 3 1/2" thick; a 7 1/4" circular saw cuts 2 1/2" deep; so is 1 more of them`, snag.Advice, "common practice"},

	{"food on cedar", bench, []string{"as: bench,", "as: table, touches: food,"}, "touches-treated", "", 0, "EPA consumer sheet, from memory"},
	{"food on treated wood", bench, []string{"as: bench,", "as: table, touches: food,", "treatment: none", "treatment: above ground"}, "touches-treated", "food lies on the front plank, and its wood, 5/4x6 square edge western red cedar, above ground, is treated with preservative", snag.Error, "EPA consumer sheet, from memory"},
	{"soil against treated wood", bench, []string{"as: bench,", "as: planter, touches: {soil: [bearer]},"}, "touches-treated", "soil for food lies against the left bearer", snag.Caution, ""},
	{"skin on treated wood", bench, []string{"as: bench,", "as: bench, touches: {skin: [plank]},", "treatment: none", "treatment: above ground"}, "touches-treated", "skin rests on the front plank", snag.Advice, "EPA consumer sheet, from memory"},
	{"skin beside treated wood", bench, []string{"as: bench,", "as: bench, touches: {skin: [plank]},"}, "touches-treated", "", 0, ""},

	{"6 in from the soil", bench, both(treated, []string{"length: 24\"\n    place: {runs: back", "length: 24\"\n    width: 6\"\n    place: {runs: back"}), "treatment-low", "", 0, "AWPA U1, UC4A, as summarised by treaters"},
	{"under 6 in from the soil", bench, both(treated, []string{"length: 24\"\n    place: {runs: back", "length: 24\"\n    width: 5 15/16\"\n    place: {runs: back"}), "treatment-low",
		`the front plank comes within 5 15/16" of the ground and is treated for above ground (UC3B); under 6"`, snag.Caution, "AWPA U1, UC4A, as summarised by treaters"},
	{"near paving", bench, both(treated, []string{"length: 24\"\n    place: {runs: back", "length: 24\"\n    width: 5\"\n    place: {runs: back", "stands: soil", "stands: paving"}), "treatment-low", "", 0, ""},
	{"indoors", bench, both(treated, []string{"length: 24\"\n    place: {runs: back", "length: 24\"\n    width: 5\"\n    place: {runs: back", "lives: outdoors temperate", "lives: indoors dry"}), "treatment-low", "", 0, ""},
	{"nobody says on what it stands", bench, []string{"treatment: ground contact", "treatment: above ground", ", stands: soil", ""}, "treatment-low", `within 0" of the ground`, snag.Advice, ""},
	{"perishable wood on the soil", bench, []string{"treatment: ground contact", "treatment: none"}, "treatment-low", "is untreated, and its heartwood is slightly or not resistant", snag.Caution, "Wood Handbook, table 14-1"},
	{"durable wood on the soil", bench, []string{"wood: southern pine, treatment: ground contact", "wood: western red cedar, treatment: none"}, "treatment-low", "", 0, "Wood Handbook, table 14-1"},

	{"taken for its name", bench, []string{"bottom: bearer.top", `bottom: 4" above floor`}, "nominal-size",
		`are 1/2" apart, just what a 2x4 measures less than its name: it is 1 1/2" thick, not 2"; it is 3 1/2" wide, not 4"`, snag.Caution, "PS 20: 2x4 is 1 1/2 by 3 1/2"},
	{"apart by something else", bench, []string{"bottom: bearer.top", `bottom: 4 1/16" above floor`}, "nominal-size", "", 0, ""},

	{"a bare post", outdoors, nil, "end-grain-up", "the top end of the left post, 5.3 sq in of it, looks straight up with 0.0 sq in covered", snag.Advice, "by hand: 1 1/2 · 3 1/2 = 5.25"},
	{"a post cut to 5°", outdoors, []string{`top: 12" above floor}`, `top: {mitre: 5°, long point: front}}`, `ends: {bottom`, `length: 12"
    ends: {bottom`}, "end-grain-up", "", 0, ""},
	{"a post cut to 4°", outdoors, []string{`top: 12" above floor}`, `top: {mitre: 4°, long point: front}}`, `ends: {bottom`, `length: 12"
    ends: {bottom`}, "end-grain-up", "looks straight up", snag.Advice, ""},
	{"a post indoors", gallows, nil, "end-grain-up", "", 0, ""},
}

const outdoors = gallows + "use: {as: stand, climate: {lives: outdoors temperate}}\n"

var treated = []string{"rail: {size: 2x4", "rail: {size: 2x8", "treatment: none", "treatment: above ground"}

func changed(t *testing.T, name, src string, pairs []string) string {
	t.Helper()
	for i := 0; i+1 < len(pairs); i += 2 {
		if !strings.Contains(src, pairs[i]) {
			t.Fatalf("%s: %q does not stand in the design", name, pairs[i])
		}
		src = strings.Replace(src, pairs[i], pairs[i+1], 1)
	}
	return src
}

func TestChecks(t *testing.T) {
	for _, c := range cases {
		src := changed(t, c.name, c.base, c.change)
		got, before := look(t, src)
		for _, s := range before {
			if s.Severity == snag.Error {
				t.Errorf("%s: %s", c.name, before.Text(snag.Sources{"t.yaml": []byte(src)}))
			}
		}
		var told []snag.Snag
		for _, s := range got {
			if s.Code == c.code {
				told = append(told, s)
			}
		}
		switch {
		case c.says == "" && len(told) > 0, c.says != "" && len(told) == 0:
			t.Errorf("%s (%s): want %q, got\n%s", c.name, c.source, c.says, got.Text(snag.Sources{"t.yaml": []byte(src)}))
		case c.says != "":
			s := told[0]
			if !strings.Contains(s.What, c.says) || s.Severity != c.against || s.Why == "" || len(s.Mends) == 0 || s.At.IsZero() || len(s.Boards) == 0 && s.Code != "gap-does-not-come-out" && s.Code != "opening-catches" {
				t.Errorf("%s: want %v %q with why, mends, place and boards, got\n%s", c.name, c.against, c.says, told[0].Text(snag.Sources{"t.yaml": []byte(src)}))
			}
			mended(t, c.name, src, s)
		}
	}
}

// mended makes the edits of a snag and sees that it is gone.
func mended(t *testing.T, name, src string, s snag.Snag) {
	t.Helper()
	for _, m := range s.Mends {
		if m.Edits == nil {
			continue
		}
		out, ok := span.Apply([]byte(src), m.Edits)
		if !ok {
			t.Errorf("%s: the edits of %q overlap", name, m.Says)
		}
		again, _ := look(t, string(out))
		for _, x := range again {
			if x.Code == s.Code && x.What == s.What {
				t.Errorf("%s: after %q it is still told: %s", name, m.Says, x.What)
			}
		}
	}
}

// The bench that cases change has nothing wrong with it.
func TestBenchIsSound(t *testing.T) {
	if got, before := look(t, bench); len(got)+len(before) > 0 {
		t.Error(append(got, before...).Text(snag.Sources{"t.yaml": []byte(bench)}))
	}
}

func TestUsualSpan(t *testing.T) {
	for _, c := range []struct{ thick, span float64 }{{0.75, 16}, {1, 24}, {1.25, 30}, {1.5, 36}, {3.5, 84}, {0.375, 8}} {
		if got := usualSpan(c.thick*inch) / inch; got < c.span-1e-9 || got > c.span+1e-9 {
			t.Errorf("%v in thick: %v, want %v", c.thick, got, c.span)
		}
	}
}

// A piece and its mirror image are told the same.
func TestMirrorImages(t *testing.T) {
	swap := strings.NewReplacer("left-right", "left-right", "left", "right", "right", "left")
	for _, c := range cases {
		src := changed(t, c.name, c.base, c.change)
		codes := func(src string) []string {
			got, _ := look(t, src)
			var out []string
			for _, s := range got {
				out = append(out, s.Severity.String()+" "+string(s.Code))
			}
			slices.Sort(out)
			return out
		}
		if here, there := codes(src), codes(swap.Replace(src)); !slices.Equal(here, there) {
			t.Errorf("%s: %v, and mirrored %v", c.name, here, there)
		}
	}
}
