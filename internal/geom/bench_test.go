package geom

import (
	"flag"
	"fmt"
	"math"
	"path/filepath"
	"testing"
)

var sceneFolder = flag.String("scenes", "", "folder with scene_N.txt and truth_N.txt to verify and time")

// BenchmarkScenes times solids with their volumes and all clashes of a scene,
// parsing apart, with the holes left out and with them; contacts for themselves.
// Each scene is verified first. Without -scenes it is the one in testdata.
func BenchmarkScenes(b *testing.B) {
	folder, counts := "testdata", []int{20}
	if *sceneFolder != "" {
		folder, counts = *sceneFolder, nil
		for _, n := range []int{20, 40, 120, 500, 2000} {
			if found, _ := filepath.Glob(filepath.Join(folder, fmt.Sprintf("scene_%d.txt", n))); found != nil {
				counts = append(counts, n)
			}
		}
	}
	for _, n := range counts {
		sc := readScene(b, folder, n)
		var s Saw
		placed := sc.solids(&s)
		sc.verify(b, placed, shared(placed))
		b.Run(fmt.Sprintf("%d/solids+volumes+clashes", n), func(b *testing.B) {
			for b.Loop() {
				shared(sc.solids(&s))
			}
		})
		b.Run(fmt.Sprintf("%d/the same with holes", n), func(b *testing.B) {
			for b.Loop() {
				placed := sc.solids(&s)
				for i := range sc.boards {
					sc.boards[i].bored(placed[i].Solid)
				}
				shared(placed)
			}
		})
		b.Run(fmt.Sprintf("%d/contacts", n), func(b *testing.B) {
			for b.Loop() {
				touching(placed)
			}
		})
	}
}

// BenchmarkGrowth times generated pieces of more and more boards; near-linear
// means that time per board, reported, hardly grows.
func BenchmarkGrowth(b *testing.B) {
	for _, n := range []int{100, 1000, 5000} {
		sc := decks(n)
		b.Run(fmt.Sprintf("%d boards", n), func(b *testing.B) {
			var s Saw
			for b.Loop() {
				placed := sc.solids(&s)
				shared(placed)
				touching(placed)
			}
			b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N*n), "µs/board")
		})
	}
}

func touching(placed []Placed) (found int) {
	boxes := make([]Box, len(placed))
	for i, p := range placed {
		boxes[i] = p.Around()
	}
	for _, pair := range Pairs(boxes, Touch) {
		found += len(Contacts(placed[pair[0]], placed[pair[1]]))
	}
	return found
}

// decks makes a piece of n boards: decks of four notched joists and sixteen
// mitred slats, each deck turned a little, on a square grid.
func decks(n int) *scene {
	sc := &scene{}
	across := int(math.Ceil(math.Sqrt(float64(n) / 20)))
	for i := range n {
		deck, k := i/20, i%20
		room := Turned(Vec{0, 0, 1}, 0.01*float64(deck)).
			Moved(Vec{float64(deck%across) * 1500, float64(deck/across) * 1500, 0})
		var board sceneBoard
		if k < 4 {
			board.size = Vec{1200, 89, 38}
			board.pose = room.Of(Pose{X: Vec{1, 0, 0}, Y: Vec{0, 0, 1}, Z: Vec{0, -1, 0}, At: Vec{0, 38 + 280*float64(k), 0}})
			for e, x := range []float64{-1, 1160} {
				tag := FirstCut + Tag(6*e)
				board.cuts = append(board.cuts, sceneCut{
					BoxPlanes(Unmoved().Moved(Vec{x, -1, -1}), Vec{41, 41, 40}),
					[]Tag{tag, tag + 1, tag + 2, tag + 3, tag + 4, tag + 5}})
			}
		} else {
			board.size = Vec{900, 64, 19}
			board.pose = room.Of(Pose{X: Vec{0, 1, 0}, Y: Vec{-1, 0, 0}, Z: Vec{0, 0, 1}, At: Vec{64 + 70*float64(k-4), 0, 89}})
			board.cuts = []sceneCut{
				{[]Plane{Facing(Vec{0, 0, 0}, Vec{-1, 0.2, 0})}, []Tag{FirstCut}},
				{[]Plane{Facing(Vec{900, 0, 0}, Vec{1, 0, 0.3})}, []Tag{FirstCut + 1}},
			}
		}
		sc.boards = append(sc.boards, board)
	}
	return sc
}
