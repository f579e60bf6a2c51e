package design

import (
	"fmt"
	"os"
	"testing"

	"scantling/internal/source"
)

// One evaluation of the sorting table, with another size each time, as a dragged
// slider asks for it; and pieces of many boards, whose time must grow with their
// number and no faster.
func BenchmarkEvaluate(b *testing.B) {
	src, err := os.ReadFile("../../examples/sorting-table.yaml")
	if err != nil {
		b.Fatal(err)
	}
	tree, _ := source.Parse("sorting-table.yaml", src)
	d := Open(tree)
	b.Run("sorting table", func(b *testing.B) {
		for i := 0; b.Loop(); i++ {
			d.Evaluate(Settings{{"length", fmt.Sprintf("%d\"", 60+i%12)}})
		}
	})
	for _, n := range []int{100, 1000, 5000} {
		text := prelude + fmt.Sprintf(`parts:
  post: {of: two_by_four, place: {runs: up, faces: front, front: middle, left: middle}, ends: {bottom: floor, top: 20" above floor}}
rows:
  board: {of: one_by_six, length: 20", place: {runs: back, faces: up, bottom: 2" above floor}, fill: {along: right, count: %d, about: middle}, gap: 1/4", cuts: {clear: {notch round: post, hole: yes}}}
steps: [{name: All, add: [post, board]}]
`, n)
		tree, _ := source.Parse("many.yaml", []byte(text))
		d := Open(tree)
		b.Run(fmt.Sprintf("%d boards", n), func(b *testing.B) {
			for b.Loop() {
				d.Evaluate(nil)
			}
		})
	}
}
