package design

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"scantling/internal/snag"
	"scantling/internal/source"
	"scantling/internal/span"
)

var update = flag.Bool("update", false, "write golden files anew")

// stand is a small sound piece: a crate stand of two frames under three slats.
// Every case below spoils one line of it.
const stand = `piece: Crate stand
units: inch
sizes:
  width: {is: 24", from: 18", to: 36", by: 1"}
  height: {is: 12", from: 8", to: 18"}
  tilt: {is: 6°, from: 0°, to: 10°}
choices:
  tie: {is: one, of: [one, none]}
let:
  depth: 16"
  shelf: height above floor
lumber:
  frame: {size: 2x4, wood: southern pine}
  board: {size: 1x6, wood: southern pine}
parts:
  leg:
    of: frame
    place: {runs: up, faces: front, lean: foot tilt toward left, left: width / 2 left of middle at level shelf, front: depth / 2 in front of middle}
    ends: {bottom: floor, top: shelf}
    copies: [mirror: left-right, mirror: front-back]
  rail:
    of: frame
    place: {runs: right, faces: front, front: against leg.back, top: shelf}
    ends: {left: flush with leg.left, right: flush with front right leg.right}
    copies: [mirror: front-back]
  tie_bar:
    when: tie is one
    of: frame
    length: 10"
    place: {runs: back, faces: up, middle: middle, bottom: 2" above floor}
rows:
  slat:
    of: board
    length: depth + 1"
    place: {runs: back, faces: up, bottom: shelf}
    fill: {along: right, from: width / 2 left of middle, to: width / 2 right of middle}
    gap: {about: 1/2", from: 1/8", to: 2", leftover: even}
steps:
  - {name: Frames, add: [leg, rail]}
  - {name: Slats, add: [slat, tie_bar], say: "The slats lie {slat.gap} apart."}
need:
  - {that: rail.length < 36", else: Too wide}
`

// A spoiling replaces the first text, which stands once in stand, by the second.
type spoiling struct {
	name, old, new string
	set            Settings
	also           [][2]string
}

var spoilings = []spoiling{
	{"sound", "", "", nil, nil},
	{"steps of a group nobody follows", "need:\n", "groups:\n  box:\n    parts:\n      lid: {of: board, length: 9\", place: {runs: right, faces: up, bottom: 20\" above floor, middle: 0\" behind middle}}\n    steps: [{name: Lid, add: [lid]}]\nneed:\n", nil, [][2]string{{"add: [leg, rail]", "add: [leg, rail, box]"}}},
	{"a point a choice took away", "let:\n", "points:\n  low: {is: where shelf meets 2\" left of middle, when: tie is none}\nlet:\n", nil, [][2]string{{"- {that: rail.length <", "- {that: peg.length < 3\", else: Long}\n  - {that: rail.length <"}, {"rows:\n", "  peg: {of: frame, length: 2\", place: {runs: up, faces: front, centre: low}, ends: {bottom: floor}}\nrows:\n"}}},
	{"a point without its place", "let:\n", "points: {low: {when: tie is none}}\nlet:\n", nil, nil},
	{"a part of one ply", "    length: 10\"\n", "    length: 10\"\n    doubled: 1\n", nil, nil},
	{"a part of very many plies", "    length: 10\"\n", "    length: 10\"\n    doubled: 9\n", nil, nil},
	{"a row glued up", "    length: depth + 1\"\n", "    length: depth + 1\"\n    doubled: 2\n", nil, nil},
	{"a half lap of plies", "steps:\n", "joints: {laps: {join: [rail, tie_bar], with: half lap, keeps top: rail}}\nsteps:\n", nil, [][2]string{{"    length: 10\"\n", "    length: 10\"\n    doubled: 2\n"}}},
	{"loose that is no yes or no", "    length: 10\"\n", "    length: 10\"\n    loose: maybe\n", nil, nil},
	{"a loop of names", `depth: 16"`, `depth: 2 * deep` + "\n  deep: depth / 2", nil, nil},
	{"a loop of ends", "left: flush with leg.left, right: flush with front right leg.right", "left: 24\" left of rail.right, right: 24\" right of rail.left", nil, nil},
	{"a lean that reads the board", "lean: foot tilt toward", "lean: foot atan((leg.highest - floor) / 400\") toward", nil, nil},
	{"a plane on a post held on that plane", "lumber:\n", "planes:\n  tipped: {side: tie_bar.left}\nlumber:\n", nil, [][2]string{
		{"    length: 10\"\n", "    length: 10\"\n    in: tipped\n"}}},
	{"an unknown name", "front: depth / 2 in", "front: deph / 2 in", nil, nil},
	{"an unknown key", "    ends: {bottom: floor", "    endz: {bottom: floor", nil, nil},
	{"an unknown key between braces", "faces: front, lean", "face: front, lean", nil, nil},
	{"an unknown reading", "rail.length <", "rail.lenght <", nil, nil},
	{"gaps that dry wider than asked", `gap: {about: 1/2", from: 1/8", to: 2", leftover: even}`, `gap: {is: 1/16", once: dried, leftover: rip both}`, nil, nil},
	{"a field without an outline", "need:\n", "fields:\n  deck: {of: board, place: {runs: right, faces: up, bottom: shelf}}\nneed:\n", nil, nil},
	{"a field with a side missing", "need:\n", "fields:\n  deck: {of: board, place: {runs: right, faces: up, bottom: shelf}, outline: {left: leg.left at level shelf, right: middle, front: middle}}\nneed:\n", nil, nil},
	{"a field that crosses itself", "need:\n", "points: {a: where 9\" left of middle meets 9\" behind middle meets floor, b: where 9\" right of middle meets 9\" behind middle meets floor, c: where 9\" left of middle meets 0\" behind middle meets floor, d: where 5\" right of middle meets 1\" behind middle meets floor}\nfields:\n  deck: {of: board, place: {runs: right, faces: up, bottom: shelf}, corners: [a, b, c, d]}\nneed:\n", nil, nil},
	{"a field with a small corner", "need:\n", "fields:\n  deck: {of: board, place: {runs: right, faces: up, bottom: 20\" above floor}, outline: {left: middle, right: 9\" right of middle, front: middle, back: 5 3/4\" behind middle}, leftover: last}\nneed:\n", nil, [][2]string{{"add: [leg, rail]", "add: [leg, rail, deck]"}}},
	{"a group of which there is nothing such", "need:\n", "groups:\n  box:\n    parts:\n      lid: {of: board, length: 9\", place: {runs: right, faces: up, bottom: 20\" above floor, middle: 0\" behind middle}}\nneed:\n", nil, [][2]string{{"add: [leg, rail]", "add: [leg, rail, box]"}, {"- {that: rail.length <", "- {that: box.lidd.length < 9\", else: Long}\n  - {that: rail.length <"}}},
	{"a group read as a measure", "need:\n", "groups:\n  box:\n    parts:\n      lid: {of: board, length: 9\", place: {runs: right, faces: up, bottom: 20\" above floor, middle: 0\" behind middle}}\nneed:\n", nil, [][2]string{{"add: [leg, rail]", "add: [leg, rail, box]"}, {"- {that: rail.length <", "- {that: box < 9\", else: Long}\n  - {that: rail.length <"}}},
	{"a group marked by a side", "need:\n", "groups:\n  box:\n    parts:\n      lid: {of: board, length: 9\", place: {runs: right, faces: up, bottom: 20\" above floor, middle: 0\" behind middle}}\n    copies: [marks: {of: left, from: middle, toward: right, at: [0\", 9\"]}]\nneed:\n", nil, [][2]string{{"add: [leg, rail]", "add: [leg, rail, box]"}}},
	{"a group that takes and is not used", "need:\n", "groups:\n  box:\n    parts:\n      lid: {of: board, length: 9\", place: {runs: right, faces: up, bottom: 20\" above floor, middle: 0\" behind middle}}\n    takes: {deep: 9\"}\nneed:\n", nil, [][2]string{{"add: [leg, rail]", "add: [leg, rail, box]"}}},
	{"a use of a length", "need:\n", "groups:\n  box:\n    parts:\n      lid: {of: board, length: 9\", place: {runs: right, faces: up, bottom: 20\" above floor, middle: 0\" behind middle}}\n    uses: {low_box: {at: 9\"}}\nneed:\n", nil, [][2]string{{"add: [leg, rail]", "add: [leg, rail, box]"}}},
	{"a use that gives what is not taken", "need:\n", "groups:\n  box:\n    parts:\n      lid: {of: board, length: 9\", place: {runs: right, faces: up, bottom: 20\" above floor, middle: 0\" behind middle}}\n    takes: {deep: 9\"}\n    uses: {low_box: {depp: 9\"}}\nneed:\n", nil, [][2]string{{"add: [leg, rail]", "add: [leg, rail, box]"}}},
	{"a group used twice and read once", "need:\n", "groups:\n  box:\n    parts:\n      lid: {of: board, length: 9\", place: {runs: right, faces: up, bottom: 20\" above floor, middle: 0\" behind middle}}\n    uses: {low_box: {at: 9\" left of middle}, high_box: {at: 9\" right of middle}}\nneed:\n", nil, [][2]string{{"add: [leg, rail]", "add: [leg, rail, box]"}, {"- {that: rail.length <", "- {that: box.lid.length < 19\", else: Long}\n  - {that: rail.length <"}}},
	{"a group that takes a name of the file", "need:\n", "groups:\n  box:\n    parts:\n      lid: {of: board, length: 9\", place: {runs: right, faces: up, bottom: 20\" above floor, middle: 0\" behind middle}}\n    let: {depth: 9\"}\nneed:\n", nil, [][2]string{{"add: [leg, rail]", "add: [leg, rail, box]"}}},
	{"steps followed of another group", "need:\n", "groups:\n  box:\n    parts:\n      lid: {of: board, length: 9\", place: {runs: right, faces: up, bottom: 20\" above floor, middle: 0\" behind middle}}\n    steps: [{name: Lid, add: [lid]}]\nneed:\n", nil, [][2]string{{"add: [leg, rail]", "add: [leg, rail, box]"}, {"  - {name: Slats", "  - {name: Box, each: box, follow: bin.steps}\n  - {name: Slats"}}},
	{"a copy of a group on itself", "need:\n", "groups:\n  box:\n    parts:\n      lid: {of: board, length: 9\", place: {runs: right, faces: up, bottom: 20\" above floor, middle: 0\" behind middle}}\n    copies: [mirror: left-right]\nneed:\n", nil, [][2]string{{"add: [leg, rail]", "add: [leg, rail, box]"}}},
	{"a group a choice took away", "need:\n", "groups:\n  box:\n    parts:\n      lid: {of: board, length: 9\", place: {runs: right, faces: up, bottom: 20\" above floor, middle: 0\" behind middle}}\n    when: tie is none\nneed:\n", nil, [][2]string{{"add: [leg, rail]", "add: [leg, rail, box]"}, {"- {that: rail.length <", "- {that: box.lid.length < 19\", else: Long}\n  - {that: rail.length <"}}},
	{"a box held out of its side", "need:\n", "hardware:\n  bolt: {what: barrel bolt, fixed to: rail.front, at: {front: leg.front}, box: {along: right 6\", across: up 1\", thick: 1/2\"}}\nneed:\n", nil, [][2]string{{"add: [leg, rail]", "add: [leg, rail, bolt]"}}},
	{"a box on no side", "need:\n", "hardware:\n  bolt: {what: barrel bolt, fixed to: rail, box: {along: right 6\", across: up 1\", thick: 1/2\"}}\nneed:\n", nil, [][2]string{{"add: [leg, rail]", "add: [leg, rail, bolt]"}}},
	{"a box the one way", "need:\n", "hardware:\n  bolt: {what: barrel bolt, fixed to: rail.front, box: {along: right 6\", across: left 1\", thick: 1/2\"}}\nneed:\n", nil, [][2]string{{"add: [leg, rail]", "add: [leg, rail, bolt]"}}},
	{"a box that lies in a board", "need:\n", "hardware:\n  bolt: {what: barrel bolt, fixed to: leg.right, at: {top: shelf}, box: {along: back 6\", across: up 1\", thick: 1/2\"}}\nneed:\n", nil, [][2]string{{"add: [leg, rail]", "add: [leg, rail, bolt]"}}},
	{"a place for a thing without a size", "need:\n", "hardware:\n  bolt: {what: barrel bolt, fixed to: rail.front, at: {top: shelf}}\nneed:\n", nil, [][2]string{{"add: [leg, rail]", "add: [leg, rail, bolt]"}}},
	{"goods without an amount", "need:\n", "goods:\n  oil: {what: oil}\nneed:\n", nil, [][2]string{{"add: [leg, rail]", "add: [leg, rail, oil]"}}},
	{"goods that cover a board", "need:\n", "goods:\n  oil: {what: oil, covers: rail}\nneed:\n", nil, [][2]string{{"add: [leg, rail]", "add: [leg, rail, oil]"}}},
	{"goods sold by another measure", "need:\n", "goods:\n  oil: {what: oil, amount: 3 sq in, sold by: length}\nneed:\n", nil, [][2]string{{"add: [leg, rail]", "add: [leg, rail, oil]"}}},
	{"a stock of another thickness", "  rail:\n    of: frame", "  rail:\n    of: [frame, board]", nil, nil},
	{"a second stock nobody has", "  rail:\n    of: frame", "  rail:\n    of: [frame, bord]", nil, nil},
	{"a length and a bare number", "length: depth + 1\"", "length: depth + 1", nil, nil},
	{"a length and an angle", "length: depth + 1\"", "length: depth + 1°", nil, nil},
	{"an angle where a length belongs", "length: 10\"", "length: 10°", nil, nil},
	{"a bare number where a length belongs", "length: 10\"", "length: 10", nil, nil},
	{"a subtraction meant as a mixed number", `depth: 16"`, `depth: 15 - 1/2"`, nil, nil},
	{"in is no unit", `depth: 16"`, `depth: 16 in`, nil, nil},
	{"a word too many", `depth: 16"`, `depth: width height`, nil, nil},
	{"a position plus a length", "top: shelf}\n    ends: {left", "top: shelf + 1\"}\n    ends: {left", nil, nil},
	{"a height used for front", "front: against leg.back", "front: shelf", nil, nil},
	{"a length used for a place", "bottom: 2\" above floor", "bottom: 2\"", nil, nil},
	{"a leaning side without a level", " at level shelf", "", nil, nil},
	{"a leaning side read as a number", "rail.length <", "leg.left - tie_bar.left <", nil, nil},
	{"a size outside its range", "width: {is: 24\"", "width: {is: 44\"", nil, nil},
	{"a setting outside its range", "", "", Settings{{"width", "44\""}}, nil},
	{"a setting of the wrong kind", "", "", Settings{{"width", "4°"}}, nil},
	{"a setting of nothing", "", "", Settings{{"widht", "20\""}}, nil},
	{"a choice of what is not offered", "", "", Settings{{"tie", "two"}}, nil},
	{"a board wider than its stock", "  rail:\n    of: frame", "  rail:\n    of: frame\n    width: 4\"", nil, nil},
	{"a board of no width", "  rail:\n    of: frame", "  rail:\n    of: frame\n    width: 3\" - 3\"", nil, nil},
	{"a length of nothing", "length: 10\"", "length: 10\" - width", nil, nil},
	{"ends that have passed one another", "ends: {bottom: floor, top: shelf}", "ends: {bottom: shelf, top: floor}", nil, nil},
	{"a notch that parts the board", "    length: 10\"\n", "    length: 30\"\n    cuts: {round_block: {notch round: block}}\n", nil, [][2]string{
		{"rows:\n", "  block:\n    of: frame\n    length: 8\"\n    place: {runs: right, faces: front, middle: 0\" behind middle, bottom: 1\" above floor}\nrows:\n"},
		{"add: [leg, rail]", "add: [leg, rail, block]"}}},
	{"a notch that meets nothing", "    length: 10\"\n", "    length: 10\"\n    cuts: {clear: {notch round: leg}}\n", nil, nil},
	{"two parts notched round one another", "    length: 10\"\n", "    length: 30\"\n    cuts: {clear: {notch round: leg}}\n", nil, [][2]string{
		{"    ends: {bottom: floor", "    cuts: {clear_tie: {notch round: tie_bar}}\n    ends: {bottom: floor"}}},
	{"a copy on itself", "    length: 10\"\n", "    length: 10\"\n    copies: [mirror: left-right]\n", nil, nil},
	{"a step that adds twice", "add: [slat, tie_bar]", "add: [slat, tie_bar, front left leg]", nil, nil},
	{"a board never added", "add: [leg, rail]", "add: [leg]", nil, nil},
	{"a step of an unknown thing", "add: [leg, rail]", "add: [leg, raill]", nil, nil},
	{"a division by nothing", `depth: 16"`, `depth: 16" / (1 - 1)`, nil, nil},
	{"a count that is not whole", "fill: {along: right,", "fill: {count: 5 / 2, along: right,", nil, nil},
	{"a row of a million boards", "of: board\n", "of: board\n    width: 0.00001\"\n", nil, [][2]string{
		{`gap: {about: 1/2", from: 1/8", to: 2", leftover: even}`, `gap: {is: 0", leftover: at end}`}}},
	{"a count of a million", "fill: {along", "fill: {count: 1000000, along", nil, nil},
	{"a million copies", "    length: 10\"\n", "    length: 10\"\n    copies: [every: {of: left, from: 0\", toward: right, each: 1/10000\", to: 100\"}]\n", nil, [][2]string{
		{"middle: middle, bottom: 2", "bottom: 2"}}},
	{"turns that do not come round", "    length: 10\"\n", "    length: 10\"\n    copies: [turn: 50°]\n", nil, nil},
	{"no even gap", `gap: {about: 1/2", from: 1/8", to: 2", leftover: even}`, `gap: {from: 1/8", to: 1/4", leftover: even}`, nil, nil},
	{"a gap with a rest nobody takes", `gap: {about: 1/2", from: 1/8", to: 2", leftover: even}`, `gap: 1/4"`, nil, nil},
	{"an unknown sale size", "size: 2x4", "size: 2x5", nil, nil},
	{"a sale size that is several", "size: 1x6", "size: 5/4x6", nil, nil},
	{"a wood that is several", "board: {size: 1x6, wood: southern pine}", "board: {size: 1x6, wood: cedar}", nil, nil},
	{"a stock that is not there", "of: board\n", "of: bord\n", nil, nil},
	{"a removed part in a measure", "that: rail.length < 36\"", "that: rail.length < tie_bar.length", Settings{{"tie", "none"}}, nil},
	{"flush with a side that faces it", "left: flush with leg.left", "left: flush with leg.right", nil, nil},
	{"against a side that looks the same way", "front: against leg.back", "front: against leg.front", nil, nil},
	{"against what it does not touch", "against leg.back, top: shelf", "against leg.back, bottom: 40\" above floor", nil, nil},
	{"a board held nowhere", "middle: middle, bottom: 2\" above floor", "bottom: 2\" above floor", nil, nil},
	{"a board held twice", "top: shelf}\n    ends: {left", "top: shelf, bottom: floor}\n    ends: {left", nil, nil},
	{"an end held as a side", "top: shelf}\n    ends: {left", "top: shelf, left: middle}\n    ends: {left", nil, nil},
	{"a side cut as an end", "ends: {left: flush with leg.left", "ends: {top: floor, left: flush with leg.left", nil, nil},
	{"both ends and a length", "  rail:\n    of: frame", "  rail:\n    of: frame\n    length: 16\"", nil, nil},
	{"no end and no length", "    length: 10\"\n", "", nil, nil},
	{"an end under 10° to the grain", "ends: {bottom: floor, top: shelf}", "ends: {bottom: floor, top: flush with tie_bar.left}", nil, nil},
	{"copies told apart by nothing", "flush with front right leg.right", "flush with top right leg.right", nil, nil},
	{"one copy and a word for several", "length: 10\"\n", "length: left tie_bar.width\n", nil, nil},
	{"several copies in a measure", "right: flush with front right leg.right", "right: left leg.middle", nil, nil},
	{"a lean of a level board", "faces: up, middle", "faces: up, lean: front 5° toward right, middle", nil, nil},
	{"a tilt of 90°", "lean: foot tilt toward left", "lean: foot 90° toward left", nil, nil},
	{"a face along the run", "place: {runs: right, faces: front,", "place: {runs: right, faces: left,", nil, nil},
	{"a name that is a direction", "let:\n", "let:\n  left: 3\"\n", nil, nil},
	{"a name used twice", "let:\n", "let:\n  slat: 3\"\n", nil, nil},
	{"a name with capitals", "let:\n", "let:\n  Shelf Depth: 3\"\n", nil, nil},
	{"a part like itself", "  rail:\n    of: frame", "  rail:\n    like: rail", nil, nil},
	{"a need that fails", "that: rail.length < 36\", else: Too wide", "that: rail.length < 12\", else: \"The rails are {rail.length} long\"", nil, nil},
	{"a word a choice has not", "tie is one", "tie is oen", nil, nil},
	{"an if without otherwise", `depth: 16"`, `depth: 16" if width > 20"`, nil, nil},
	{"prose with a brace left open", "{slat.gap} apart", "{slat.gap apart", nil, nil},
	{"an unknown fastener", "steps:\n", "joints:\n  j: {join: [rail, leg], with: scrw 10 x 3}\nsteps:\n", nil, nil},
	{"a head on a part not joined", "steps:\n", "joints:\n  j: {join: [rail, leg], with: carriage bolt 5/16, head: slat}\nsteps:\n", nil, nil},
	{"three sides to a joint", "steps:\n", "joints:\n  j: {join: [rail, leg, slat], with: screw 8 x 2}\nsteps:\n", nil, nil},
	{"a list of three cuts at an end", "ends: {bottom: floor, top: shelf}", "ends: {bottom: floor, top: [shelf, shelf, shelf]}", nil, nil},
	{"an end to a part it never meets", "ends: {bottom: floor, top: shelf}", "ends: {bottom: floor, top: to tie_bar}", nil, nil},
	{"two names for four copies", "mirror: front-back]\n  rail", "{turn: 90°, call: [a_one, b_one]}]\n  rail", nil, nil},
	{"a part without a place", "    place: {runs: back, faces: up, middle: middle, bottom: 2\" above floor}\n", "", nil, nil},
	{"a part of nothing", "    when: tie is one\n    of: frame\n", "    when: tie is one\n", nil, nil},
	{"planes that do not cross", "lumber:\n", "points:\n  corner: where floor meets shelf\nlumber:\n", nil, nil},
	{"a row the wrong way round", "from: width / 2 left of middle, to: width / 2 right of middle", "from: width / 2 right of middle, to: width / 2 left of middle", nil, nil},
	{"a row with too many boards", "fill: {along", "fill: {count: 9, along", nil, nil},
	{"a notch with wood all round", "    length: 10\"\n", "    length: 30\"\n    cuts: {round_peg: {notch round: peg}}\n", nil, [][2]string{
		{"rows:\n", "  peg:\n    of: frame\n    width: 1\"\n    place: {runs: up, faces: front, middle: [0\" behind middle, 0\" right of middle]}\n    ends: {bottom: floor, top: 9\" above floor}\nrows:\n"},
		{"add: [leg, rail]", "add: [leg, rail, peg]"}}},
	{"a notch that takes all", "    length: 10\"\n", "    length: 3\"\n    cuts: {round_block: {notch round: block}}\n", nil, [][2]string{
		{"rows:\n", "  block:\n    of: frame\n    length: 20\"\n    place: {runs: right, faces: front, middle: 0\" behind middle, bottom: 1\" above floor}\nrows:\n"},
		{"add: [leg, rail]", "add: [leg, rail, block]"}, {"middle: middle, bottom: 2", "middle: middle, bottom: 2 1/4"}, {"length: 3\"\n", "length: 1\"\n"}}},
	{"a lean without a direction", "lean: foot tilt toward left", "lean: tilt toward left", nil, nil},
	{"edges that lie crosswise on points too near", "place: {runs: back, faces: up, middle: middle,", "place: {runs: {from: left edge at low, to: right edge at near}, faces: up,", nil, [][2]string{
		{"lumber:\n", "points:\n  low: where 0\" right of middle meets 0\" behind middle meets floor\n  near: where 0\" right of middle meets 2\" behind middle meets floor\nlumber:\n"}}},
	{"a board at 45°", "    length: 10\"\n    place: {runs: back, faces: up, middle: middle,", "    length: 10\"\n    ends: {from: square}\n    place: {runs: {from: centre at low, to: centre at far}, faces: up,", nil, [][2]string{
		{"lumber:\n", "points:\n  low: where 0\" right of middle meets 0\" behind middle meets floor\n  far: where 20\" right of middle meets 20\" behind middle meets floor\nlumber:\n"}}},
	{"a rip too narrow", `gap: {about: 1/2", from: 1/8", to: 2", leftover: even}`, `gap: {is: 5/8", leftover: rip last, least: 5 1/4"}`, nil, nil},
	{"a gap said twice", `gap: {about: 1/2", from`, `gap: {is: 1/2", about: 1/2", from`, nil, nil},
	{"a taper longer than the board", "    copies: [mirror: left-right, mirror: front-back]", "    cuts: {slim: {taper: right edge, from: 30\" below top, to: 2\" wide at bottom}}\n    copies: [mirror: left-right, mirror: front-back]", nil, nil},
	{"a taper wider than the board", "    copies: [mirror: left-right, mirror: front-back]", "    cuts: {slim: {taper: right edge, from: 3\" below top, to: 4\" wide at bottom}}\n    copies: [mirror: left-right, mirror: front-back]", nil, nil},
	{"a word the key has not", "leftover: even", "leftover: evn", nil, nil},
	{"a list for a single value", "    length: 10\"\n", "    length: [10\", 12\"]\n", nil, nil},
	{"one value for a set of keys", "    ends: {bottom: floor, top: shelf}", "    ends: floor", nil, nil},
	{"metric, of lumber sold in inches", "units: inch", "units: metric", nil, nil},
	{"tucked where nothing meets", "    length: 10\"\n    place: {runs: back, faces: up, middle: middle, bottom: 2\" above floor}", "    place: {runs: {from: tucked into low, to: centre at far}, faces: front, front: middle}\n    ends: {from: 3\" above floor, to: shelf}", nil, [][2]string{
		{"lumber:\n", "points:\n  low: where 3\" right of middle meets floor\n  far: where 9\" right of middle meets shelf\nlumber:\n"}}},
	{"tucked where no edge fits", "    length: 10\"\n    place: {runs: back, faces: up, middle: middle, bottom: 2\" above floor}", "    place: {runs: {from: tucked into low, to: tucked into far}, faces: front, front: middle}\n    ends: {from: floor, to: rail.bottom}", nil, [][2]string{
		{"lumber:\n", "points:\n  low: where 3\" right of middle meets floor\n  far: where 0\" right of middle meets rail.bottom\nlumber:\n"}}},
	{"a mitre with a board that lies otherwise", "    length: 10\"\n", "    length: 10\"\n    ends: {front: mitre with rail}\n", nil, nil},
	{"a half lap that keeps nothing", "steps:\n", "joints:\n  j: {join: [rail, leg], with: half lap}\nsteps:\n", nil, nil},
	{"a half lap of boards that do not cross", "steps:\n", "joints:\n  j: {join: [rail, leg], with: half lap, keeps front: leg}\nsteps:\n", nil, nil},
	{"a half lap that keeps both", "front: against leg.back, top: shelf", "front: 1/2\" in from leg.back, top: shelf", nil, [][2]string{
		{"steps:\n", "joints:\n  j: {join: [rail, leg], with: half lap, keeps front: [leg, rail]}\nsteps:\n"}}},
	{"a lap behind wood", "front: against leg.back, top: shelf", "front: 1/2\" in from leg.back, top: shelf", nil, [][2]string{
		{"steps:\n", "joints:\n  j: {join: [rail, leg], with: half lap, keeps back: leg}\nsteps:\n"}}},
	{"wood kept by no lap", "steps:\n", "joints:\n  j: {join: [rail, leg], with: screw 8 x 2, keeps front: leg}\nsteps:\n", nil, nil},
	{"the depth of what is no lap", "that: rail.length <", "that: j.depth <", nil, [][2]string{
		{"steps:\n", "joints:\n  j: {join: [rail, leg], with: screw 8 x 2}\nsteps:\n"}}},
	{"a notch off the board", "    length: 10\"\n", "    length: 10\"\n    cuts: {seat: {notch: right edge, from: 9\" behind front, wide: 2\", deep: 1\"}}\n", nil, nil},
	{"a slot without a length", "    length: 10\"\n", "    length: 10\"\n    cuts: {hole: {slot: top, from: 3\" behind front, wide: 1\"}}\n", nil, nil},
	{"a cut of no kind", "    length: 10\"\n", "    length: 10\"\n    cuts: {hole: {wide: 1\"}}\n", nil, nil},
	{"a plane of a removed part", "lumber:\n", "planes:\n  tipped: {side: tie_bar.top, when: tie is one}\nlumber:\n", Settings{{"tie", "none"}}, [][2]string{{"add: [slat, tie_bar]", "add: [slat]"}}},
}

// Every mistake the language must refuse gets its message: place, line with a
// caret, what is wrong with both numbers, and a mend. The golden file is read by
// a person when it changes.
func TestRefusals(t *testing.T) {
	var b strings.Builder
	for _, c := range spoilings {
		b.WriteString("== " + c.name + "\n")
		if c.old != "" && strings.Count(stand, c.old) != 1 {
			t.Fatalf("%s: the text to spoil stands %d times in the piece", c.name, strings.Count(stand, c.old))
		}
		src := []byte(strings.Replace(stand, c.old, c.new, 1))
		for _, a := range c.also {
			if strings.Count(string(src), a[0]) != 1 {
				t.Fatalf("%s: the second text to spoil stands %d times", c.name, strings.Count(string(src), a[0]))
			}
			src = []byte(strings.Replace(string(src), a[0], a[1], 1))
		}
		tree, list := source.Parse("stand.yaml", src)
		_, more := Open(tree).Evaluate(c.set)
		list = append(list, more...).Sorted()
		for _, s := range list {
			checkSnag(t, c.name, src, s)
		}
		b.WriteString(list.Text(snag.Sources{"stand.yaml": src}) + "\n")
	}
	golden(t, "refusals.golden", b.String())
}

// checkSnag asserts what is true of every message: it has a mend, its code is
// explained, its place and its edits lie inside the file, and edits leave a file
// that reads.
func checkSnag(t *testing.T, name string, src []byte, s snag.Snag) {
	t.Helper()
	if s.Severity == snag.Error && len(s.Mends) == 0 {
		t.Errorf("%s: no mend for %q", name, s.What)
	}
	if _, ok := snag.Explain(s.Code); !ok {
		t.Errorf("%s: the code %q is not explained", name, s.Code)
	}
	if s.At.Start < 0 || s.At.End < s.At.Start || s.At.End > len(src) {
		t.Errorf("%s: the place %v lies outside the file", name, s.At)
	}
	for _, m := range s.Mends {
		if m.Says == "" {
			t.Errorf("%s: a mend without words for %q", name, s.What)
		}
		if out, ok := span.Apply(src, m.Edits); !ok {
			t.Errorf("%s: the edits of %q cannot be made", name, m.Says)
		} else if _, list := source.Parse("stand.yaml", out); len(list) > 0 {
			t.Errorf("%s: the mend %q leaves a file that does not read", name, m.Says)
		}
	}
}

func golden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		if err := os.WriteFile(path, []byte(got), 0o666); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), got); diff != "" {
		t.Errorf("%s (-want +got):\n%s", name, diff)
	}
}
