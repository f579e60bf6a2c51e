package page

import (
	"encoding/binary"
	"math"

	"scantling/internal/design"
	"scantling/internal/geom"
)

// Scene returns the solids of a piece as a picture takes them, little-endian: the
// number of boards, then for each, in file order, how many corners its triangles
// and its lines have (both uint32); then for each board its triangle corners, six
// float32 each (place, normal), and its line ends, three float32 each. Places are
// mm: right, back, up. Triangles are anticlockwise seen from outside; lines are
// the edges of faces, each once.
func Scene(p *design.Piece) []byte {
	var head, body []byte
	le := binary.LittleEndian
	put := func(vs ...geom.Vec) {
		for _, v := range vs {
			for _, x := range [3]float64{v.X, v.Y, v.Z} {
				body = le.AppendUint32(body, math.Float32bits(float32(x)))
			}
		}
	}
	head = le.AppendUint32(head, uint32(len(p.Boards)))
	for _, b := range p.Boards {
		corners, ends := 0, 0
		if b.Solid != nil {
			for _, f := range b.Solid.Faces {
				n := b.Pose.OutWay(f.Plane.N)
				for _, piece := range f.Pieces {
					for i := 2; i < len(piece); i++ {
						for _, c := range [3]geom.Vec{piece[0], piece[i-1], piece[i]} {
							put(b.Pose.Out(c), n)
							corners++
						}
					}
				}
			}
			places, loops := b.Solid.Mesh()
			for _, face := range loops {
				for _, loop := range face {
					for i, from := range loop {
						if to := loop[(i+1)%len(loop)]; from < to { // its other face runs it the other way
							put(b.Pose.Out(places[from]), b.Pose.Out(places[to]))
							ends += 2
						}
					}
				}
			}
		}
		head = le.AppendUint32(head, uint32(corners))
		head = le.AppendUint32(head, uint32(ends))
	}
	return append(head, body...)
}
