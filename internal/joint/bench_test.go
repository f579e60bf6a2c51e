package joint

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"scantling/internal/design"
	"scantling/internal/source"
)

// BenchmarkExamples lays the joints and holes of every example.
func BenchmarkExamples(b *testing.B) {
	files, err := filepath.Glob("../../examples/*.yaml")
	if err != nil || len(files) == 0 {
		b.Fatal(files, err)
	}
	for _, file := range files {
		src, err := os.ReadFile(file)
		if err != nil {
			b.Fatal(err)
		}
		p := piece(b, file, string(src))
		b.Run(filepath.Base(file), func(b *testing.B) {
			for range b.N {
				Find(p, Meet(p))
			}
		})
	}
}

// BenchmarkManyBoards finds the meetings, joints and holes of benches side by side,
// each of 8 boards with 24 screws: the time a board takes stays nearly the same.
func BenchmarkManyBoards(b *testing.B) {
	for _, boards := range []int{125, 250, 500, 1000, 2000} {
		p := piece(b, "benches.yaml", benches(boards/8))
		b.Run(fmt.Sprint(len(p.Boards)), func(b *testing.B) {
			holes := 0
			for range b.N {
				Find(p, Meet(p))
			}
			for _, x := range p.Boards {
				holes += len(x.Holes)
			}
			b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N*len(p.Boards)), "µs/board")
			b.ReportMetric(float64(holes), "holes")
		})
	}
}

// benches writes a design of n benches in a row: two bearers, a rail between them and
// five slats across.
func benches(n int) string {
	var parts, joints strings.Builder
	for i := range n {
		fmt.Fprintf(&parts, `  bearer%d: {of: stock, length: 22", place: {runs: back, faces: left, left: %d" right of middle, bottom: floor}}
  far_bearer%d: {of: stock, length: 22", place: {runs: back, faces: left, left: %d" right of middle, bottom: floor}}
  rail%d: {of: stock, place: {runs: right, faces: front, middle: middle, bottom: floor}, ends: {left: against bearer%d.right, right: against far_bearer%d.left}}
`, i, 30*i, i, 30*i+20, i, i, i)
		for k := range 5 {
			fmt.Fprintf(&parts, "  slat%d_%d: {of: board, length: 23\", place: {runs: right, faces: up, bottom: bearer%d.top, front: %d\" behind middle}, ends: {left: flush with bearer%d.left}}\n", k, i, i, 4*k-10, i)
		}
		fmt.Fprintf(&joints, "  slat_screws%d: {join: [[slat0_%d, slat1_%d, slat2_%d, slat3_%d, slat4_%d], [bearer%d, far_bearer%d]], with: screw 8 x 2 1/2, pattern: {count: 2}, expect: 10}\n", i, i, i, i, i, i, i, i)
		fmt.Fprintf(&joints, "  rail_screws%d: {join: [[bearer%d, far_bearer%d], rail%d], with: screw 10 x 4, through: [bearer%d, far_bearer%d], pattern: {count: 2}, expect: 2}\n", i, i, i, i, i, i)
	}
	return "piece: Benches\nlumber:\n  stock: {size: 2x4, wood: southern pine}\n  board: {size: 1x4, wood: western red cedar}\nparts:\n" + parts.String() + "joints:\n" + joints.String()
}

func piece(b *testing.B, file, src string) *design.Piece {
	tree, _ := source.Parse(file, []byte(src))
	p, snags := design.Open(tree).Evaluate(nil)
	if p == nil || len(p.Joints) == 0 {
		b.Fatal(snags)
	}
	return p
}
