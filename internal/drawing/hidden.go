package drawing

import (
	"math"

	"scantling/internal/geom"
)

// Project returns every line of the boards as seen along v: visible stretches,
// and hidden ones no visible line covers. Lines that fall together on the paper
// are one. The order is that of the lines' directions and places on the paper.
//
// Exact hidden lines: an edge is hidden where it lies inside the paper outline of
// a face that looks at the eye and behind that face's plane. In the plane is
// not behind, and along the outline is not inside, so a line seen exactly along
// the joint of two boards is visible. Outlines are crossed twice, a hair left
// and a hair right of the edge, and hide where both are inside: an edge that runs
// along a seam needs no case of its own.
func Project(v View, placed []geom.Placed) []Line {
	boards, before := projectAll(v, placed)
	var stretches []stretch
	var hid hiding
	for i := range boards {
		for _, e := range boards[i].edges {
			hid.begin(e)
			for _, j := range before[i] {
				for k := range boards[j].shields {
					hid.behind(&boards[j].shields[k])
				}
			}
			stretches = hid.end(stretches, i)
		}
	}
	return merge(stretches)
}

// projectAll projects every board and lists, for each, the boards that may hide
// some of it: itself, and those that share paper with it and reach nearer the eye
// than its farthest corner.
func projectAll(v View, placed []geom.Placed) (boards []projected, before [][]int) {
	boards = make([]projected, len(placed))
	before = make([][]int, len(placed))
	boxes := make([]geom.Box, len(placed))
	for i, p := range placed {
		boards[i] = project(v, p)
		before[i] = []int{i}
		boxes[i] = boards[i].box
		boxes[i].Low.Z, boxes[i].High.Z = 0, 0
	}
	for _, p := range geom.Pairs(boxes, 0) {
		i, j := p[0], p[1]
		if boards[j].box.High.Z > boards[i].box.Low.Z {
			before[i] = append(before[i], j)
		}
		if boards[i].box.High.Z > boards[j].box.Low.Z {
			before[j] = append(before[j], i)
		}
	}
	return boards, before
}

// projected is a board in the frame of the paper: x right, y up, z at the eye.
type projected struct {
	box     geom.Box
	edges   []paperEdge
	shields []shield
}

// paperEdge is an edge of a board that shows as more than a point.
type paperEdge struct {
	a, b    geom.Vec
	box     geom.Box
	outline bool
}

// shield is all of a board's faces in one plane that look at the eye.
type shield struct {
	plane  geom.Plane
	loops  [][]geom.Vec
	pieces [][]geom.Vec // convex, filling the loops
	box    geom.Box
}

// facingEye is how squarely, as the sine of an angle, a face must look at the eye
// to count as seen: a face seen edge on is off by the roundings of a pose, 1e-15.
const facingEye = 1e-9

func project(v View, p geom.Placed) projected {
	eye := geom.Pose{X: v.Right, Y: v.Up, Z: v.Toward}
	pose := p.Pose.From(eye)
	made := projected{box: geom.EmptyBox()}
	corners, faces := p.Mesh()
	for i, c := range corners {
		corners[i] = pose.Out(c)
		made.box = made.box.With(corners[i])
	}
	open := map[[2]int]int{} // edges run once so far, by their corners: the face that ran it
	for i := range p.Faces {
		h := pose.OutPlane(p.Faces[i].Plane)
		var loops [][]geom.Vec
		for _, loop := range faces[i] {
			points := make([]geom.Vec, len(loop))
			last := loop[len(loop)-1]
			for k, c := range loop {
				points[k] = corners[c]
				back := [2]int{c, last}
				if j, ok := open[back]; ok {
					delete(open, back)
					other := pose.OutPlane(p.Faces[j].Plane)
					if !smooth(&p.Faces[i], &p.Faces[j], h, other) {
						made.edge(corners[last], corners[c], h, other)
					}
				} else {
					open[[2]int{last, c}] = i
				}
				last = c
			}
			loops = append(loops, points)
		}
		if h.N.Z > facingEye {
			var pieces [][]geom.Vec
			for _, piece := range p.Faces[i].Pieces {
				points := make([]geom.Vec, len(piece))
				for k, c := range piece {
					points[k] = pose.Out(c)
				}
				pieces = append(pieces, points)
			}
			made.shield(h, loops, pieces)
		}
	}
	return made
}

// smooth reports whether two faces are chords of one curved cut that look the same
// way, so that no line shows between them. Chords turn by under 30° from one to
// the next (a radius of 1/4 in at 0.1 mm off the arc); walls of a notch, which
// share a tag too, turn by more.
func smooth(f, g *geom.Face, h, i geom.Plane) bool {
	const turn = 0.866 // cos 30°
	return f.Tag == g.Tag && f.Tag >= geom.FirstCut && h.N.Dot(i.N) > turn && (h.N.Z > facingEye) == (i.N.Z > facingEye)
}

// edge adds the edge a–b between faces in planes g and h, unless it is seen end on
// or lies between two faces of one plane.
func (p *projected) edge(a, b geom.Vec, g, h geom.Plane) {
	d := b.Minus(a)
	d.Z = 0
	if d.Length() <= geom.Same || g.N.Distance(h.N) <= geom.Same {
		return
	}
	p.edges = append(p.edges, paperEdge{a, b, geom.EmptyBox().With(a).With(b), (g.N.Z > facingEye) != (h.N.Z > facingEye)})
}

// shield adds a face in plane h.
func (p *projected) shield(h geom.Plane, loops, pieces [][]geom.Vec) {
	var s *shield
	for i := range p.shields {
		if k := p.shields[i].plane; math.Abs(k.D-h.D) <= geom.Same && k.N.Distance(h.N) <= geom.Same {
			s = &p.shields[i]
		}
	}
	if s == nil {
		p.shields = append(p.shields, shield{plane: h, box: geom.EmptyBox()})
		s = &p.shields[len(p.shields)-1]
	}
	s.loops = append(s.loops, loops...)
	s.pieces = append(s.pieces, pieces...)
	for _, loop := range loops {
		for _, c := range loop {
			s.box = s.box.With(c)
		}
	}
}
