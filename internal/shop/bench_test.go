package shop

import (
	"fmt"
	"testing"

	"scantling/internal/board"
	"scantling/internal/design"
	"scantling/internal/joint"
	"scantling/internal/part"
)

// deck is n slats on two long rails, each screwed to both: as many boards as one
// likes, all alike.
func deck(n int) *design.Piece {
	length := 5.75 * float64(n)
	p := &design.Piece{Boards: []*design.Board{
		along("rail", "rail", "front rail", length, 3.5, 1.5, right, front, 0, 1.5, 29.5, "left right bottom top back front"),
		along("rail/fb", "rail", "back rail", length, 3.5, 1.5, right, front, 0, 24.5, 29.5, "left right bottom top back front"),
	}}
	var ids []board.ID
	for i := range n {
		id := fmt.Sprint("slat/", i+1)
		b := along(id, "slat", fmt.Sprint(i+1, "th slat"), 27, 5.5, 1, back, up, 5.5+5.75*float64(i), -1.25, 33, "front back right left bottom top")
		b.Row = i + 1
		ids = append(ids, b.ID)
		p.Boards = append(p.Boards, b)
	}
	for _, b := range p.Boards {
		b.Build()
	}
	rails := []board.ID{"rail", "rail/fb"}
	p.Joints = []design.Joint{{Name: "screws", Sides: [2][]board.ID{ids, rails}, Through: ids, With: []design.Fastening{{Phrase: "screw 8 x 2 1/2"}}, Pattern: design.Pattern{Count: 2}}}
	p.Steps = []design.Step{{Name: "Rails", Add: rails}, {Name: "Slats", Add: ids}}
	return p
}

func BenchmarkReadings(b *testing.B) {
	for _, n := range []int{100, 1000, 5000} {
		p := deck(n)
		m := joint.Meet(p)
		joints, _ := joint.Find(p, m)
		parts := part.Sort(p)
		b.Run(fmt.Sprint("meet/", n), func(b *testing.B) {
			for range b.N {
				joint.Meet(p)
			}
		})
		b.Run(fmt.Sprint("joints/", n), func(b *testing.B) {
			for range b.N {
				joint.Find(p, m)
			}
		})
		b.Run(fmt.Sprint("parts/", n), func(b *testing.B) {
			for range b.N {
				part.Sort(p)
			}
		})
		b.Run(fmt.Sprint("shop/", n), func(b *testing.B) {
			for range b.N {
				Compute(p, m, joints, parts, Pen{})
			}
		})
	}
}
