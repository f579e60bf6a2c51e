package order

import (
	"fmt"
	"testing"

	"scantling/internal/joint"
	"scantling/internal/reach"
)

// BenchmarkCheck is reach for every step of an example, fasteners laid already.
func BenchmarkCheck(b *testing.B) {
	for _, name := range examples {
		tree, d := opened(b, text(b, name))
		w := worked(d, nil)
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				w.Check(tree)
			}
		})
	}
}

// racks writes a design of so many bays of a rack: posts in pairs, a rail behind each
// bay's, and slats across all of them, about twelve boards a bay.
func racks(bays int) []byte {
	return fmt.Appendf(nil, `piece: Rack
let:
  run: %d * 30"
lumber:
  frame: {size: 2x4, wood: southern pine}
  deck: {size: 1x4, wood: southern pine}
parts:
  post:
    of: frame
    place: {runs: up, faces: front, front: 12" in front of middle}
    ends: {bottom: floor, top: 30" above floor}
    copies: [every: {of: left, from: run / 2 left of middle, toward: right, each: 30", to: run - 30"}, mirror: front-back]
  rail:
    of: frame
    length: 29 7/8"
    place: {runs: right, faces: front, front: against post.back, top: 30" above floor}
    copies: [every: {of: left, from: run / 2 left of middle, toward: right, each: 30", to: run - 30"}, mirror: front-back]
rows:
  slat:
    of: deck
    length: 26"
    place: {runs: back, faces: up, bottom: 30" above floor}
    fill: {along: right, from: run / 2 left of middle, to: run / 2 right of middle}
    gap: {about: 1/4", from: 1/8", to: 1", leftover: even}
joints:
  posts: {join: [post, rail], with: screw 10 x 2 1/2, through: rail, pattern: {count: 2}}
  slats: {join: [slat, rail], with: screw 8 x 2, through: slat, pattern: {count: 2}}
steps:
  - {name: Frame, add: [post, rail], fasten: [posts]}
  - {name: Deck, add: slat, fasten: [slats]}
`, bays)
}

// BenchmarkGrowth is joints, holes and reach of a board in racks of about 100, 1,000
// and 4,000 boards: near-linear growth keeps ns/board level.
func BenchmarkGrowth(b *testing.B) {
	for _, bays := range []int{8, 80, 320} {
		tree, d := opened(b, racks(bays))
		p, _ := d.Evaluate(nil)
		m := joint.Meet(p)
		tools := reach.Usual()
		b.Run(fmt.Sprint(len(p.Boards)), func(b *testing.B) {
			for b.Loop() {
				joints, _ := joint.Find(p, m)
				if _, told := NewWork(p, m, joints, &tools).Check(tree); len(told) > 0 {
					b.Fatal(told[0].What)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(len(p.Boards)), "ns/board")
		})
	}
}
