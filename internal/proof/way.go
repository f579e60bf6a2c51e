package proof

import (
	"math"
	"strings"

	"scantling/internal/geom"
)

const degree = math.Pi / 180

// A Way is how the angled ends are sawn.
type Way int

const (
	BySetting  Way = iota // the saw swung and tilted as its card says
	ByIncluded            // the angle of the tip taken with a bevel gauge
	ByOffset              // a pencil line, stepped off with a rule
)

func (w Way) String() string {
	return [...]string{"by the saw's setting", "by the angle of the tip", "by offset and rule"}[w]
}

// toward gives the direction a word of the room points in, standing at the front:
// right, back, up.
func toward(word string) (geom.Vec, bool) {
	switch word {
	case "left":
		return geom.Vec{X: -1}, true
	case "right":
		return geom.Vec{X: 1}, true
	case "front":
		return geom.Vec{Y: -1}, true
	case "back":
		return geom.Vec{Y: 1}, true
	case "bottom":
		return geom.Vec{Z: -1}, true
	case "top":
		return geom.Vec{Z: 1}, true
	}
	return geom.Vec{}, false
}

// pose returns how a board lies in the room: x from its first end to the other, z
// out of its show face, y square to both.
func (l Lies) pose() (p geom.Pose, ok bool) {
	end, kind, ok := side(l.End)
	face, _, fine := side(l.Face)
	x := end.Negated()
	return geom.Pose{X: x, Y: face.Cross(x), Z: face}, ok && fine && kind == "end" && end.Dot(face) == 0
}

// called names what looks in a direction of the room.
func called(way geom.Vec) string {
	for _, word := range []string{"left", "right", "front", "back", "bottom", "top"} {
		if v, _ := toward(word); v.Distance(way) < 0.5 {
			return word
		}
	}
	return ""
}

// side reads the words for a side: "left edge" looks left and is an edge.
func side(words string) (out geom.Vec, kind string, ok bool) {
	word, kind, _ := strings.Cut(words, " ")
	out, ok = toward(word)
	return out, kind, ok && (kind == "end" || kind == "edge" || kind == "face")
}
