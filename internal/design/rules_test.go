package design

import (
	"strings"
	"testing"

	"scantling/internal/snag"
	"scantling/internal/source"
)

const prelude = `piece: Test piece
units: inch
lumber:
  two_by_four: {size: 2x4, wood: southern pine}
  two_by_six: {size: 2x6, wood: southern pine}
  one_by_six: {size: 1x6, wood: southern pine}
  cedar: {size: 1x6, wood: western red cedar}
  wet: {size: 1x6, wood: western red cedar, treatment: ground contact}
`

// Each case is a piece and what must be true of it, said in the language itself.
// Expected numbers are worked by hand beside it, never by the program. Rules are
// those of doc/language.md.
var rules = []struct {
	rule, file string
	true       []string // conditions
	source     string
}{
	{"1 counts and ratios", "let: {n: floor(7 / 2), ratio: 1 / 3, slope_angle: 3 in 12, load: 40 psf * 2 ft * 3 ft}", []string{
		"n is 3", "ratio * 3 is 1", "slope_angle > 14.036° and slope_angle < 14.037°", "load is 240 lbf",
	}, "by hand: atan(1/4) = 14.0362°"},
	{"3 positions", `let:
  shelf: 9" above floor
  left_line: 10" left of middle
  front_edge: 3" in front of middle
  depth: (3" behind middle) - front_edge`, []string{
		"shelf is above 8\" above floor", "left_line is left of middle", "front_edge is in front of middle", "depth is 6\"", "left_line is not 10\" right of middle", "shelf - floor is 9\"",
	}, "by hand"},
	{"6a a tilted room", `let: {front_line: 10" in front of middle, back_line: 10" behind middle}
planes:
  seat: {faces: up, through: where front_line meets 17" above floor, slope: back end 6° toward down}
parts:
  slat:
    of: one_by_six
    in: seat
    length: 20"
    place: {runs: right, faces: up, top: flush with seat, front: front_line at slat.top}
  rail:
    of: two_by_four
    in: seat
    place: {runs: back, faces: left, left: 8" left of middle, top: 1" below seat}
    ends: {front: front_line, back: back_line}`, []string{
		// 20 in further back the seat is 20·tan 6° = 2.102 in lower; square to it the rail is 1 in below.
		"round((rail.highest - floor); 1/1000\") is 15.994\"", // 17 − 1/cos 6°
		"round(rail.edge_length; 1/1000\") is 20.110\"",       // 20/cos 6°
		"round(rail.front.setting; 1/10°) is 6°",
		"round((slat.highest - floor); 1/1000\") is 17\"",
	}, "by hand: 1/cos 6° = 1.00551; 20/cos 6° = 20.1102"},
	{"6b a plane on a side", `let: {low: 5" above floor}
planes:
  inner: {side: post.right, zero: floor}
parts:
  post:
    of: two_by_six
    place: {runs: up, faces: front, lean: foot 10° toward left, left: 20" left of middle at level 30" above floor, front: middle}
    ends: {bottom: floor, top: 30" above floor}
  rail:
    of: two_by_four
    in: inner
    length: 12"
    place: {runs: back, faces: right, left: against inner, bottom: low at rail.left}
steps: [{name: All, add: [post, rail], say: Done}]`, []string{
		"rail.left at level 5\" above floor is post.right at level 5\" above floor",
		"rail.bottom at post.right is 5\" above floor",
	}, "by hand: the lower inner corner of the rail lies on the post's edge 5 in above the floor"},
	{"8 sides keep their names", `parts:
  leg:
    of: two_by_four
    place: {runs: up, faces: front, lean: foot 20° toward left, left: 20" left of middle at level floor, front: 5" in front of middle}
    ends: {bottom: floor, top: 30" above floor}
    copies: [mirror: left-right, mirror: front-back]`, []string{
		"front right leg.right at level floor is 20\" right of middle",
		"back left leg.left edge at level floor is 20\" left of middle",
		"front right leg.left at level floor is left of 19\" right of middle",
	}, "by hand: a copy's sides are named by where they look"},
	{"9 a lean", `parts:
  leg:
    of: two_by_six
    width: 4"
    place: {runs: up, faces: front, lean: foot 10° toward left, left: 30" left of middle at level 33" above floor, front: middle}
    ends: {bottom: floor, top: 33" above floor}`, []string{
		"round(leg.edge_length; 1/1000\") is 33.509\"", "round(leg.length; 1/1000\") is 34.214\"",
		"round(leg.top.setting; 1/100°) is 10°", "round((30\" left of middle) - leg.leftmost; 1/1000\") is 5.819\"",
		"round(leg.steepness; 1/100°) is 80°",
	}, "by hand: 33/cos 10° = 33.509; long point 33.509 + 4·tan 10° = 34.214; 33·tan 10° = 5.819"},
	{"9 two leans", `parts:
  leg:
    of: two_by_four
    place:
      runs: up
      faces: front
      lean: [foot 10° toward left, foot 5° toward front]
      left: 10" left of middle at level 33" above floor
      front: 6" in front of middle at level 33" above floor
    ends: {bottom: floor, top: 33" above floor}`, []string{
		"round(leg.edge_length; 1/1000\") is 33.633\"", "round(leg.top.setting; 1/1000°) is 9.963°",
		"leg.left at level floor is 15.8188\" left of middle", "leg.front at level floor is 8.8871\" in front of middle",
		"leg.left at level 33\" above floor is 10\" left of middle",
	}, "by hand: 33·√(1 + tan²10° + tan²5°) = 33.633; atan(tan 10°·cos 5°) = 9.963°; on the show face 33·tan 10° = 5.8188 and 33·tan 5° = 2.8871 further out at the foot"},
	{"9 slope and swing", `parts:
  rafter:
    of: two_by_four
    length: 30"
    place: {runs: back, faces: left, slope: back end 3 in 12 toward up, left: middle, bottom: 10" above floor at 0" behind middle}
  strut:
    of: two_by_four
    length: 30"
    place: {runs: right, faces: up, swing: right end 45° toward back, bottom: floor, front: 5" in front of middle at 0" right of middle}`, []string{
		"round(rafter.steepness; 1/1000°) is 14.036°", "strut.backmost is behind middle", "strut.foremost is in front of 10\" in front of middle",
	}, "by hand"},
	{"10 both sides are read at the level", `let: {low: 5" above floor}
parts:
  post: {of: two_by_four, place: {runs: up, faces: front, lean: foot 10° toward left, left: 10" left of middle at level floor, front: middle}, ends: {bottom: floor, top: 30" above floor}}
  strut: {of: two_by_four, place: {runs: up, faces: front, lean: foot 25° toward right, left: 1/4" right of post.right at level low, front: middle}, ends: {bottom: low, top: 30" above floor}}
  skewed: {of: two_by_four, place: {runs: up, faces: front, lean: [foot 10° toward left, foot 8° toward front], left: 1" right of strut.right at level low, front: 3" in front of middle at level low}, ends: {bottom: floor, top: 30" above floor}}`, []string{
		"round((strut.left at level low) - (post.right at level low); 1/1000\") is 1/4\"",
		"round((skewed.left at level low) - (strut.right at level low); 1/1000\") is 1\"",
		"not strut.left at level 6\" above floor is right of 1/4\" right of post.right at level 6\" above floor",
	}, "by hand: a quarter inch there, less above, since they lean toward one another"},
	{"10 holds in and out of a side", `parts:
  post: {of: two_by_four, length: 20", place: {runs: right, faces: front, front: middle, bottom: floor}}
  near: {of: two_by_four, length: 20", place: {runs: right, faces: front, back: 1" in from post.front, bottom: floor}}
  far: {of: two_by_four, length: 20", place: {runs: right, faces: front, back: 1" out from post.front, bottom: post.top}}`, []string{
		"near.back is 1\" behind middle", "far.back is 1\" in front of middle", "far.bottom is 3 1/2\" above floor", "post.back is 1 1/2\" behind middle",
	}, "by hand: the front of post looks to the front, so its inside lies behind"},
	{"10 corner and centre", `points:
  crossing: where 4" right of middle meets 6" behind middle meets 2" above floor
parts:
  a: {of: two_by_four, length: 20", place: {runs: right, faces: front, corner: front bottom at crossing}}
  b: {of: two_by_four, length: 20", place: {runs: back, faces: up, centre: crossing}}`, []string{
		"a.front is 6\" behind middle", "a.bottom is 2\" above floor", "b.left is 2 1/4\" right of middle", "b.top is 2 3/4\" above floor",
	}, "by hand"},
	{"11 between points", `points:
  low: where 0" right of middle meets 0" behind middle meets 0" above floor
  high: where 30" right of middle meets 0" behind middle meets 40" above floor
parts:
  brace:
    of: two_by_four
    place: {runs: {from: centre at low, to: centre at high}, faces: front, front: middle}
    ends: {bottom: floor, top: 40" above floor}`, []string{
		"round(brace.steepness; 1/1000°) is 53.13°", "round(brace.edge_length; 1/1000\") is 50\"",
	}, "by hand: 3-4-5"},
	{"11 tucked into two corners", `points:
  low_corner: where hinge.right meets low.top
  high_corner: where latch.left meets high.bottom
parts:
  hinge: {of: two_by_four, place: {runs: up, faces: front, front: middle, left: 21" left of middle}, ends: {bottom: 3" above floor, top: 51" above floor}}
  latch: {of: two_by_four, place: {runs: up, faces: front, front: middle, right: 21" right of middle}, ends: {bottom: 3" above floor, top: 51" above floor}}
  low: {of: two_by_four, place: {runs: right, faces: front, front: middle, bottom: 3" above floor}, ends: {left: against hinge.right, right: against latch.left}}
  high: {of: two_by_four, place: {runs: right, faces: front, front: middle, top: 51" above floor}, ends: {left: against hinge.right, right: against latch.left}}
  brace:
    of: two_by_four
    place: {runs: {from: tucked into low_corner, to: tucked into high_corner}, faces: front, front: middle}
    ends: {from: against low.top, to: against high.bottom}`, []string{
		// 35 by 41 in within the frame; ±asin(3.5/53.908) from the diagonal.
		"round(brace.steepness; 1/100°) is 53.24°", "round(brace.leftmost - hinge.right; 1/1000\") is 0\"", "round(latch.left - brace.rightmost; 1/1000\") is 0\"",
		"round(brace.lowest - low.top; 1/1000\") is 0\"", "round(high.bottom - brace.highest; 1/1000\") is 0\"", "round(brace.from.setting; 1/100°) is 36.76°",
	}, "by hand: atan(41/35) + asin(3.5/√(35² + 41²)) = 49.514° + 3.723° = 53.237°"},
	{"12 ends", `parts:
  post: {of: two_by_four, place: {runs: up, faces: front, lean: top 15° toward right, left: 10" left of middle at level floor, front: middle}, ends: {bottom: floor, top: 40" above floor}}
  clear: {of: two_by_four, place: {runs: right, faces: front, front: 3" in front of middle, bottom: 5" above floor}, ends: {left: {to: post.right, clearance: 1"}, right: 20" right of middle}}
  upto: {of: two_by_four, place: {runs: right, faces: front, front: middle, bottom: 5" above floor}, ends: {left: to post, right: 20" right of middle}}
  high: {of: two_by_four, place: {runs: up, faces: front, lean: top 15° toward right, left: 1" right of middle at level floor, front: middle}, ends: {bottom: floor, top: {cut: square, highest: 30" above floor}}}
  low: {of: two_by_four, place: {runs: up, faces: front, lean: top 15° toward right, left: 12" right of middle at level floor, front: 9" behind middle}, ends: {bottom: floor, top: {cut: square, lowest: 30" above floor}}}
  mitred: {of: two_by_four, length: 20", place: {runs: right, faces: front, front: 20" behind middle, bottom: floor}, ends: {left: {mitre: 45°, long point: top}, right: {mitre: 45°, long point: top}}}
  one_end: {of: two_by_four, length: 20", place: {runs: right, faces: front, front: 30" behind middle, bottom: floor}, ends: {left: 3" right of middle}}
  pointed: {of: two_by_four, length: 20", place: {runs: right, faces: front, front: 40" behind middle, bottom: floor}, ends: {left: [{mitre: 45°, long point: top}, {mitre: 45°, long point: bottom}]}}`, []string{
		"round((clear.left at level 5\" above floor) - (post.right at level 5\" above floor); 1/1000\") is 1.035\"", // 1/cos 15°
		"upto.left at level 5\" above floor is post.right at level 5\" above floor",
		"round(high.highest - floor; 1/1000\") is 30\"", "high.top.setting < 0.0001°",
		"round(low.highest - floor; 1/1000\") is 30.906\"", // + 3.5·sin 15°
		"round(mitred.short_length; 1/1000\") is 13\"", "mitred.length is 20\"", "mitred.left.setting > 44.999°",
		"one_end.right is 23\" right of middle", "one_end.length is 20\"",
		"round(clear.left.setting; 1/1000°) is 15°",
	}, "by hand: 3.5·sin 15° = 0.906; 20 − 2·3.5 = 13"},
	{"13 readings", `parts:
  leg:
    of: two_by_six
    width: 4"
    place: {runs: up, faces: front, left: 2" right of middle, front: middle}
    ends: {bottom: floor, top: 30" above floor}
    cuts: {slim: {taper: right edge, from: 6" below top, to: 2 3/4" wide at bottom}}`, []string{
		"leg.thickness is 1 1/2\"", "leg.width is 4\"", "leg.length is 30\"", "two_by_six.width is 5 1/2\"",
		"leg.rightmost is 6\" right of middle", "leg.highest is 30\" above floor", "leg.middle is 4\" right of middle",
		"leg.slim at level floor is 4 3/4\" right of middle", "leg.slim at level 24\" above floor is 6\" right of middle", "leg.right is 6\" right of middle",
	}, "by hand"},
	{"14 marks and every", `parts:
  bearer:
    of: two_by_four
    length: 20"
    place: {runs: back, faces: up, bottom: floor}
    copies: [marks: {of: left, from: 10" left of middle, toward: right, at: [0", 5", 12"], call: [low_one, mid_one, high_one]}]
  strip:
    of: two_by_four
    length: 20"
    place: {runs: back, faces: up, bottom: 10" above floor}
    copies: [every: {of: middle, from: 10" left of middle, toward: right, each: 5", to: 11" right of middle}]`, []string{
		"count(bearer) is 3", "bearer.left is 10\" left of middle", "2nd bearer.left is 5\" left of middle", "last bearer.left is 2\" right of middle",
		"mid_one bearer.left is 5\" left of middle", "right bearer.left is 2\" right of middle", "count(strip) is 5", "last strip.middle is 10\" right of middle",
	}, "by hand"},
	{"14 turn, flip and about", `parts:
  sill:
    of: two_by_four
    length: 10"
    place: {runs: right, faces: front, front: 8" in front of middle, bottom: floor}
    copies: [turn: 180°]
  arm:
    of: two_by_four
    length: 10"
    place: {runs: back, faces: up, left: 3" right of middle, bottom: 8" above floor}
    copies: [flip: left-right, {mirror: left-right, about: 20" left of middle}]`, []string{
		"count(sill) is 2", "other sill.back is 8\" behind middle", "count(arm) is 2",
		"right arm.right is 3\" left of middle", "left arm.left is 37\" left of middle",
	}, "by hand: flipped to 3 … 6 1/2 left; mirrored about 20 left: 40 − 3 = 37"},
	{"14 call words win over directions", `parts:
  leg:
    of: two_by_four
    length: 10"
    place: {runs: up, faces: front, front: 3" in front of middle, right: 5" left of middle}
    ends: {bottom: floor}
    copies: [{mirror: left-right, call: [right, left]}, mirror: front-back]
  stub:
    of: two_by_four
    place: {runs: right, faces: front, front: middle, bottom: 20" above floor}
    ends: {left: front right leg.right, right: front left leg.left}`, []string{
		"stub.length is 10\"", "front right leg.right is left of middle", "count(right leg) is 2",
	}, "by hand: the one called right stands on the left"},
	{"14 along the run copies are told apart by their middles", `parts:
  cleat:
    of: two_by_four
    length: 10"
    place: {runs: right, faces: front, front: middle, bottom: floor}
    ends: {left: 3" right of middle}
    copies: [mirror: left-right]`, []string{"left cleat.right is 3\" left of middle", "right cleat.right is 13\" right of middle"}, "by hand"},
	{"14 several copies on one plane are one", `parts:
  leg:
    of: two_by_four
    place: {runs: up, faces: front, lean: foot 10° toward left, left: 20" left of middle at level 30" above floor, front: 9" in front of middle}
    ends: {bottom: floor, top: 30" above floor}
    copies: [mirror: left-right, mirror: front-back]
  bar:
    of: two_by_four
    place: {runs: right, faces: front, front: against leg.back, top: 20" above floor}
    ends: {left: flush with left leg.left, right: flush with right leg.right}`, []string{"right leg.right at level floor is right of 25\" right of middle"}, "the two left legs lean in one plane"},
	{"15 mirrors of a tilted room stand in the piece", `planes:
  seat: {faces: up, through: where 10" in front of middle meets 17" above floor, slope: back end 6° toward down}
parts:
  rail:
    of: two_by_four
    in: seat
    place: {runs: back, faces: left, left: 8" left of middle, top: 1" below seat}
    ends: {front: 10" in front of middle, back: 10" behind middle}
    copies: [mirror: left-right]`, []string{
		"right rail.right is 8\" right of middle", "right rail.left is 6 1/2\" right of middle",
	}, "by hand"},
	{"17 a hold may read another hold of the same board", `parts:
  rail:
    of: two_by_four
    length: 20"
    place: {runs: right, faces: front, front: 3" in front of middle, top: 5" above floor at rail.front}`, []string{"rail.top is 5\" above floor"}, "one node a quantity"},
	{"20 a notch and a housing", `parts:
  post: {of: two_by_four, length: 20", place: {runs: back, faces: up, middle: middle, bottom: 3" above floor}}
  beam:
    of: two_by_six
    length: 30"
    place: {runs: right, faces: front, front: middle, bottom: floor}
    cuts: {clear: {notch round: post, clearance: 1/8", open: top}}
steps: [{name: All, add: [post, beam], say: "Done {beam.clear.which}"}]`, []string{
		"beam.highest is 5 1/2\" above floor",
	}, "by hand"},
	{"20 a notch that follows a lean", `parts:
  post:
    of: two_by_four
    place: {runs: up, faces: left, lean: top 15° toward back, front: middle at level 20" above floor, left: middle}
    ends: {bottom: floor, top: 40" above floor}
  arm:
    of: two_by_six
    length: 20"
    place: {runs: back, faces: up, top: 20" above floor, left: 1/2" right of middle}
    cuts: {round_post: {notch round: post, follow: lean}}
steps: [{name: All, add: [post, arm]}]`, []string{"arm.leftmost is 1/2\" right of middle"}, "by hand: the post stands half an inch outside the arm"},
	{"20 depths, and readings copies share", `parts:
  post:
    of: two_by_six
    place: {runs: up, faces: front, front: middle, left: 10" left of middle}
    ends: {bottom: floor, top: 30" above floor}
    cuts: {dado: {housing: right, from: 3" below top, wide: 3 1/2", deep: 3/8"}, seat: {notch round: rail}}
    copies: [mirror: left-right]
  rail: {of: two_by_four, place: {runs: right, faces: front, back: 1/4" in from post.front, bottom: 4" above floor}, ends: {left: 10" left of middle, right: 10" right of middle}}
steps: [{name: All, add: [post, rail, wall], say: "{post.dado.depth} and {post.seat.depth}"}]
rows:
  wall: {of: one_by_six, length: 20", place: {runs: right, faces: front, front: 20" in front of middle}, fill: {along: up, from: floor, to: 9"}, gap: {is: 0", leftover: rip last}, copies: [mirror: front-back]}
let: {top_width: last wall.width}`, []string{
		"top_width is 3 1/2\"", "last wall.length is 20\"", "post.seat.depth is 1/4\"", "post.dado.depth is 3/8\"",
	}, "by hand: 9 − 5.5"},
	{"21 half laps", `parts:
  stile: {of: two_by_four, place: {runs: up, faces: front, front: middle, left: 20" left of middle}, ends: {bottom: floor, top: 40" above floor}, copies: [mirror: left-right]}
  rail: {of: two_by_four, place: {runs: right, faces: front, front: middle, bottom: 18" above floor}, ends: {left: 20" left of middle, right: 20" right of middle}}
joints:
  laps: {join: [stile, rail], with: [half lap, outdoor glue], keeps front: stile}
  thin: {join: [low, stile], with: half lap, keeps front: low}
let: {shared: laps.depth}
rows:
  low: {of: one_by_six, length: 40", place: {runs: right, faces: front, front: middle}, fill: {along: up, from: 2" above floor, count: 1}}`, []string{
		"laps.depth is 3/4\"", "shared is 3/4\"", "thin.depth is 3/8\"", "stile.length is 40\"",
	}, "by hand: half of 1 1/2; half of the 3/4 in they share"},
	{"22 mitres", `parts:
  long_cap:
    of: one_by_six
    place: {runs: right, faces: up, bottom: floor, front: 10" in front of middle}
    ends: {left: mitre with short_cap, right: mitre with short_cap}
    copies: [mirror: front-back]
  short_cap:
    of: one_by_six
    width: 2 3/4"
    place: {runs: back, faces: up, bottom: floor, left: 20" left of middle}
    ends: {front: mitre with long_cap, back: mitre with long_cap}
    copies: [mirror: left-right]`, []string{
		"long_cap.length is 40\"", "long_cap.short_length is 34 1/2\"", "short_cap.length is 20\"", "short_cap.short_length is 9\"",
		"round(long_cap.left.setting; 1/100°) is 26.57°", "round(short_cap.front.setting; 1/100°) is 63.43°",
	}, "by hand: 40 − 2·2.75, 20 − 2·5.5; atan(2.75/5.5) = 26.565°, and 90° less it"},
	{"23 rows", `rows:
  evenly: {of: one_by_six, length: 20", place: {runs: back, faces: up, bottom: floor}, fill: {along: right, from: 36" left of middle, to: 36" right of middle}, gap: {about: 1/2", from: 1/4", to: 1", leftover: even}}
  last_ripped: {of: one_by_six, length: 20", place: {runs: back, faces: up, bottom: 2" above floor}, fill: {along: right, from: 36" left of middle, to: 36" right of middle}, gap: {is: 1/4", leftover: rip last, least: 1"}}
  both_ripped: {of: one_by_six, length: 20", place: {runs: back, faces: up, bottom: 4" above floor}, fill: {along: right, from: 36" left of middle, to: 36" right of middle}, gap: {is: 1/4", leftover: rip both}}
  all_ripped: {of: one_by_six, length: 20", place: {runs: back, faces: up, bottom: 6" above floor}, fill: {along: right, from: 36" left of middle, to: 36" right of middle}, gap: {is: 3/16", leftover: rip all}}
  at_end: {of: one_by_six, length: 20", place: {runs: back, faces: up, bottom: 8" above floor}, fill: {along: right, from: 36" left of middle, to: 36" right of middle}, gap: {is: 1/4", leftover: at end}}
  centred: {of: one_by_six, length: 20", place: {runs: back, faces: up, bottom: 10" above floor}, fill: {along: right, count: 3, about: 2" right of middle}, gap: 1"}
  left_out: {of: one_by_six, length: 20", place: {runs: back, faces: up, bottom: 12" above floor}, fill: {along: right, count: 5, from: 10" left of middle}, gap: 1", leave out: [3]}
  excepted: {of: one_by_six, length: 20", place: {runs: back, faces: up, bottom: 14" above floor}, fill: {along: right, count: 3, from: 10" left of middle}, gap: 1", except: {last: {length: 12"}}}
  bare: {of: one_by_six, length: 20", place: {runs: back, faces: up, bottom: 16" above floor}, fill: {along: right, from: -6", to: 6"}, gap: 1"}`, []string{
		"evenly.count is 12", "round(evenly.gap; 1/1000\") is 0.545\"",
		"last_ripped.count is 13", "last last_ripped.width is 3\"", "last_ripped.gap is 1/4\"",
		"both_ripped.count is 13", "first both_ripped.width is 4 1/4\"", "last both_ripped.width is 4 1/4\"",
		"all_ripped.count is 13", "round(2nd all_ripped.width; 1/1000\") is 5.365\"",
		"at_end.count is 12", "at_end.leftover is 3 1/4\"",
		"first centred.left is 7 1/4\" left of middle",
		"count(left_out) is 4", "4th left_out.left is 9 1/2\" right of middle",
		"last excepted.length is 12\"", "first excepted.length is 20\"",
		"bare.count is 2", "bare.leftover is 0\"",
	}, "by hand: (72 − 12·5.5)/11 = 0.545; 72 − 12·5.75 = 3; (72 − 11·5.5 − 12/4)/2 = 4.25; (72 − 12·3/16)/13 = 5.365; 72 − 12·5.5 − 11/4 = 3.25; 2 − 9.25 = −7.25"},
	{"23 gaps once dried", `rows:
  deck: {of: wet, length: 20", place: {runs: back, faces: up, bottom: floor}, fill: {along: right, from: 36" left of middle, to: 36" right of middle}, gap: {is: 1/4", once: dried, leftover: rip both}}
  tight: {of: cedar, length: 20", place: {runs: back, faces: up, bottom: 5" above floor}, fill: {along: right, count: 5, about: middle}, gap: {is: 1/2", once: dried}}
use: {as: table, climate: {built: outdoors, lives: outdoors temperate}}`, []string{
		"round(deck.gap; 1/10000\") is 0.085\"", "round(deck.dried_gap; 1/10000\") is 0.25\"",
		"round(tight.gap; 1/10000\") is 0.4346\"", "round(tight.dried_gap; 1/10000\") is 0.5\"",
	}, "by hand: cedar 5 % tangential: wet, 5.5·0.05·18/30 = 0.165; at 19 %, 5.5·(1 − 0.97/(1 − 0.05·11/30)) = 0.0654"},
	{"24 fields", `fields:
  panel:
    of: one_by_six
    place: {runs: right, faces: up, swing: right end 45° toward back, bottom: 10" above floor}
    outline: {left: 10" left of middle, right: 10" right of middle, front: 10" in front of middle, back: 10" behind middle}
    least: 1"
  spaced:
    of: one_by_six
    place: {runs: right, faces: up, swing: right end 45° toward back, bottom: 20" above floor}
    outline: {left: 10" left of middle, right: 10" right of middle, front: 10" in front of middle, back: 10" behind middle}
    gap: 1/4"
    middle: board
  gable:
    of: one_by_six
    place: {runs: up, faces: front, front: 30" in front of middle}
    corners: [where 12" left of middle meets floor meets middle_plane, low_right, peak]
    leftover: last
points:
  low_right: where 12" right of middle meets floor meets middle_plane
  peak: where 0" right of middle meets 36" above floor meets middle_plane
let: {middle_plane: 0" behind middle}
steps: [{name: All, add: [panel, spaced, gable], say: "{panel.gap} {spaced.count}"}]`, []string{
		"panel.count is 6", "round(panel.leftover; 1/1000\") is 3.142\"", "round(first panel.length; 1/1000\") is 6.284\"", "spaced.count is 5", "count(panel) is 6",
		"round(panel.highest - floor; 1/1000\") is 10.75\"", "gable.count is 5", "3rd gable.highest is 36\" above floor",
	}, "by hand: 20·√2 = 28.284 across; (28.284 − 4·5.5)/2 = 3.142, a corner twice as long at 45°; five strips with a board in the middle: (28.284 − 3·5.5 − 4/4)/2 = 5.392 over; 24 in of gable: four whole boards and 2 in"},
	{"25 groups", `groups:
  frame:
    copies: [mirror: left-right]
    let: {clear: 1/2", side: 20" left of middle}
    points: {toe: where side meets floor}
    parts:
      leg:
        of: two_by_four
        length: 12"
        place: {runs: up, faces: front, left: side, front: 8" in front of middle}
        ends: {bottom: floor}
        copies: [{mirror: front-back, call: [near, far]}]
      stay:
        of: two_by_four
        place: {runs: back, faces: right, left: clear right of leg.right, top: leg.top}
        ends: {front: flush with leg.front, back: flush with far leg.back}
        cuts: {clear: {notch round: post, if there: yes}}
parts:
  rail:
    of: two_by_four
    place: {runs: right, faces: front, front: flush with frame.leg.front, top: frame.leg.top}
    ends: {left: against left frame.stay.right, right: against right frame.stay.left}
  post: {of: two_by_four, length: 20", place: {runs: up, faces: left, left: 15 1/2" right of middle, middle: middle}, ends: {bottom: floor}}
joints:
  ends: {join: [rail, right frame.stay], with: corner bracket 2, expect: 1}
steps:
  - {name: All, add: [frame, rail, post], say: "{frame.clear} {count(frame.leg)}"}`, []string{
		"frame.leg.left is 20\" left of middle", "right frame.leg.right is 20\" right of middle", "right frame.far leg.front is 6 1/2\" behind middle",
		"left frame.back leg.back is 8\" behind middle", "right frame.front leg.left is 16 1/2\" right of middle",
		"right frame.stay.left is 14 1/2\" right of middle", "frame.clear is 1/2\"", "frame.side is 20\" left of middle", "right frame.side is 20\" right of middle",
		"count(frame.leg) is 4", "rail.length is 29\"",
	}, "by hand: 20 − 3.5 − 0.5 − 1.5 = 14.5, twice that is 29; the mirror turns left to right"},
	{"25 uses", `groups:
  bay:
    takes: {w: 20", low: 1"}
    uses:
      left_bay: {at: 30" left of middle, w: 24"}
      right_bay: {at: [30" right of middle, 10" behind middle], turn: 90°}
      far_bay: {at: 10" behind middle, flip: left-right, low: 2"}
    let: {half: w / 2}
    parts:
      sill: {of: two_by_four, length: w, place: {runs: right, faces: up, bottom: low above floor, front: middle}}
      stud:
        of: two_by_four
        length: 10"
        place: {runs: up, faces: front, left: half left of middle, front: middle}
        ends: {bottom: against sill.top}
        copies: [mirror: left-right]
    steps: [{name: Up, add: [sill, stud], say: "{w}"}]
steps:
  - {name: Bays, each: bay, follow: bay.steps}
  - {name: Up, add: [bay]}`, []string{
		"left_bay.sill.length is 24\"", "right_bay.sill.length is 20\"", "left_bay.sill.left is 42\" left of middle", "right_bay.half is 10\"",
		"left_bay.left stud.left is 42\" left of middle", "left_bay.right stud.right is 18\" left of middle",
		"right_bay.sill.right is 20\" behind middle", "right_bay.sill.front is 30\" right of middle", "right_bay.right stud.right is 20\" behind middle",
		"far_bay.sill.front is 10\" behind middle", "far_bay.stud.bottom is 3 1/2\" above floor", "far_bay.stud.left is 10\" right of middle", "count(left_bay.stud) is 2",
	}, "by hand: −30 ∓ 24/2; a use keeps its own words when it is turned or flipped: right is then to the back, or left to the right"},
	{"25 marks, turns and flips of a group", `groups:
  post:
    copies: [marks: {of: middle, from: 30" left of middle, toward: right, at: [0", 20"], call: [hinge, latch]}]
    parts:
      shaft: {of: two_by_four, length: 20", place: {runs: up, faces: front, right: middle, front: middle}, ends: {bottom: floor}}
      cap: {of: one_by_six, length: 6", place: {runs: right, faces: up, bottom: against shaft.top, middle: 0" behind middle}}
  wing:
    copies: [{turn: 90°, call: [north, east, south, west]}]
    parts:
      arm: {of: two_by_four, length: 10", place: {runs: right, faces: up, bottom: 30" above floor, front: 2" in front of middle}, ends: {left: 5" right of middle}}
  handed:
    copies: [flip: left-right]
    parts:
      lug: {of: two_by_four, length: 6", place: {runs: up, faces: front, left: 40" left of middle, front: middle}, ends: {bottom: floor}, copies: [mirror: front-back]}`, []string{
		"post.shaft.right is 30\" left of middle", "hinge post.shaft.right is 30\" left of middle", "latch post.shaft.right is 10\" left of middle", "2nd post.shaft.right is 10\" left of middle", "right post.cap.left is 13\" left of middle",
		"wing.arm.left is 5\" right of middle", "south wing.arm.back is 2\" behind middle", "back wing.arm.front is 5\" behind middle",
		"handed.lug.right is 40\" right of middle", "handed.front lug.back is middle", "count(wing.arm) is 4",
	}, "by hand; a half turn leads front to back, a quarter turn right to back; the flip leads left to right"},
	{"24 a field in a tilted room, mirrored, round a post", `planes:
  seat: {faces: up, through: where 10" in front of middle meets 17" above floor, slope: back end 6° toward down}
parts:
  post: {of: two_by_four, place: {runs: up, faces: front, front: 6" in front of middle, left: 16" left of middle}, ends: {bottom: floor, top: 40" above floor}, copies: [mirror: left-right]}
fields:
  panel:
    of: one_by_six
    in: seat
    place: {runs: right, faces: up, swing: right end 30° toward back, bottom: against seat}
    outline: {left: 30" left of middle, right: 1" left of middle, front: 10" in front of middle, back: 10" behind middle}
    gap: 1/8"
    least: 3"
    cuts:
      ease: {round: 1/8", edges: top}
      clear: {notch round: post, clearance: 1/8"}
    copies: [mirror: left-right]
steps: [{name: All, add: [post, panel], say: "{panel.clear.which}"}]`, []string{
		// 29·sin 30° + 20·cos 30° = 31.821 across; four whole boards and two corners of (31.821 − 22 − 5/8)/2.
		"panel.count is 6", "count(panel) is 12", "round(panel.leftover; 1/1000\") is 4.598\"",
		"round((right 3rd panel.rightmost) - (left 3rd panel.leftmost); 1/1000\") is 60\"",
	}, "by hand: the room leans, and its front is square to the way it leans"},
	{"28 choices", `choices:
  arms: {is: none, of: [flat, none]}
let:
  arm_height: arm.top - floor if arms is flat otherwise 20"
parts:
  arm: {when: arms is flat, of: two_by_four, length: 20", place: {runs: back, faces: up, middle: middle, bottom: 24" above floor}}
  seat: {of: two_by_four, length: 20", place: {runs: back, faces: up, middle: middle, bottom: 16" above floor}}
joints:
  fixed: {join: [arm, seat], with: screw 8 x 2 1/2}
steps:
  - {name: Seat, add: [seat]}
  - {name: Arms, add: [arm]}`, []string{"arm_height is 20\"", "arms is none"}, "by hand"},
	{"30 like", `parts:
  a: {of: two_by_four, length: 20", place: {runs: back, faces: up, middle: middle, bottom: floor}}
  b: {like: a, place: {runs: back, faces: up, middle: middle, bottom: 5" above floor}}
  c: {like: b, length: 12"}`, []string{"b.length is 20\"", "c.length is 12\"", "c.bottom is 5\" above floor"}, "whole keys, never inside"},
}

func TestRules(t *testing.T) {
	for _, c := range rules {
		src := prelude + c.file + "\nneed:\n"
		for _, cond := range c.true {
			src += "  - {that: '" + cond + "', else: '" + strings.ReplaceAll(cond, "'", "") + "'}\n"
		}
		src = strings.Replace(src, "else: '", "else: 'Not so: ", -1)
		tree, list := source.Parse("rule.yaml", []byte(src))
		piece, more := Open(tree).Evaluate(nil)
		if list = append(list, more...); list.Errors()+list.Count(snag.Caution) > 0 {
			t.Errorf("rule %s (%s):\n%s", c.rule, c.source, list.Text(snag.Sources{"rule.yaml": []byte(src)}))
		}
		for _, n := range piece.Needs {
			if !n.Known {
				t.Errorf("rule %s: cannot tell whether %s", c.rule, n.That)
			}
		}
		for _, b := range piece.Boards {
			if err := b.Solid.Check(); err != nil {
				t.Errorf("rule %s: %s: %v", c.rule, b.ID, err)
			}
		}
	}
}
