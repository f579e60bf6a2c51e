package design

import (
	"math"
	"strings"
	"testing"

	"scantling/internal/geom"
	"scantling/internal/snag"
	"scantling/internal/source"
)

// A post 30 in high of two 2x6, 3 in thick in all: what each cut takes of all its
// plies, in cubic inches, ply by ply, and what is read of the whole.
func TestDoubledCuts(t *testing.T) {
	whole := 30 * w * th
	for _, c := range []struct {
		part   string // after "doubled: 2, "
		left   [2]float64
		source string
	}{
		{`ends: {bottom: floor, top: 30" above floor}`, [2]float64{whole, whole}, "by hand"},
		{`ends: {bottom: floor, top: 30" above floor}, cuts: {it: {notch: left edge, from: 2" below top, wide: 3 1/2", deep: 1"}}`,
			[2]float64{whole - 3.5*th, whole - 3.5*th}, "through both: 3 1/2 · 1 · 1 1/2 of each"},
		{`ends: {bottom: floor, top: 30" above floor}, cuts: {it: {housing: front, from: 3" below top, wide: 1 1/2", deep: 3/4"}}`,
			[2]float64{whole - 1.5*0.75*w, whole}, "into the front ply alone: 1 1/2 · 3/4 · 5 1/2"},
		{`ends: {bottom: floor, top: 30" above floor}, cuts: {it: {housing: back, from: 3" below top, wide: 1 1/2", deep: 3/4"}}`,
			[2]float64{whole, whole - 1.5*0.75*w}, "into the back ply alone"},
		{`ends: {bottom: floor, top: 30" above floor}, cuts: {it: {housing: left, from: 1" behind front, wide: 1 1/2", deep: 1/2"}}`,
			[2]float64{whole - 0.5*0.5*30, whole - 1*0.5*30}, "a groove across the glue line: 1/2 in of it in front, 1 in behind"},
		{`ends: {bottom: floor, top: 30" above floor}, cuts: {it: {housing: left, from: 1/2" in front of back, wide: 1/2", deep: 1/2"}}`,
			[2]float64{whole, whole - 0.5*0.5*30}, "a groove in the back ply"},
		{`ends: {bottom: floor, top: 30" above floor}, cuts: {it: {taper: left edge, from: 10" below top, to: 3 1/2" wide at bottom}}`,
			[2]float64{whole - 20*2*th/2, whole - 20*2*th/2}, "20 · 2 / 2 of each"},
		{`length: 30", ends: {bottom: floor, top: {bevel: 45°, long point: front}}`,
			[2]float64{(30 - 0.75) * w * th, (30 - 2.25) * w * th}, "45° over 3 in: the mean of each is 3/4 and 2 1/4 in shorter"},
	} {
		src := prelude + "parts:\n  post: {of: two_by_six, doubled: 2, place: {runs: up, faces: front, front: middle, left: middle}, " + c.part + "}\n" +
			"need: [{that: post.thickness is 3\" and post.length is 30\" and post.back - post.front is 3\", else: Thin}, {that: post.backmost - post.foremost is 3\", else: Shallow}]\n"
		p := plied(t, src)
		if p == nil || len(p.Boards) != 2 {
			t.Fatalf("%s: %d boards", c.part, len(p.Boards))
		}
		for i, b := range p.Boards {
			if got := b.Solid.Volume / (25.4 * 25.4 * 25.4); math.Abs(got-c.left[i]) > 1e-6 {
				t.Errorf("%s: ply %d holds %v cu in, want %v (%s)", c.part, i+1, got, c.left[i], c.source)
			}
			if b.Ply != i+1 || b.T.MM() != 1.5*25.4 {
				t.Errorf("%s: %s is ply %d, %v thick", c.part, b.ID, b.Ply, b.T)
			}
		}
		if glued(p.Boards[0], p.Boards[1]) == 0 {
			t.Errorf("%s: the plies do not touch", c.part)
		}
	}
}

func glued(a, b *Board) (area float64) {
	for _, c := range geom.Contacts(a.Placed(), b.Placed()) {
		area += c.Area
	}
	return area
}

func plied(t *testing.T, src string) *Piece {
	t.Helper()
	tree, list := source.Parse("ply.yaml", []byte(src))
	p, more := Open(tree).Evaluate(nil)
	if list = append(list, more...); list.Errors()+list.Count(snag.Caution) > 0 {
		t.Fatal(list.Text(snag.Sources{"ply.yaml": []byte(src)}))
	}
	return p
}

// Plies have ids and names of their own in every copy, and are glued to one another
// over the whole of their faces and to nothing else.
func TestPliesAndTheirGlue(t *testing.T) {
	p := plied(t, prelude+`parts:
  beam: {of: two_by_six, doubled: 3, length: 40", place: {runs: right, faces: front, front: 10" in front of middle, bottom: floor}, copies: [mirror: front-back],
    cuts: {soft: {round: 1/4", edges: all}}}
steps: [{name: Beams, add: beam}]
need: [{that: count(beam) is 2, else: Plies are counted}]
`)
	var ids, spoken []string
	for _, b := range p.Boards {
		ids, spoken = append(ids, string(b.ID)), append(spoken, b.Spoken)
	}
	if got, want := strings.Join(ids, " "), "beam/ply1 beam/ply2 beam/ply3 beam/front-back/ply1 beam/front-back/ply2 beam/front-back/ply3"; got != want {
		t.Errorf("ids %s, want %s", got, want)
	}
	if got, want := strings.Join(spoken, ", "), "front ply of the front beam, middle ply of the front beam, back ply of the front beam, back ply of the back beam, middle ply of the back beam, front ply of the back beam"; got != want {
		t.Errorf("called %s, want %s", got, want)
	}
	for i, want := range []int{2, 0, 2, 2, 0, 2} { // corners rounded: those of the outer faces alone
		n := 0
		for _, e := range p.Boards[i].Edges {
			n += len(e.Along)
		}
		if n != want {
			t.Errorf("%s: %d corners are rounded, want %d", p.Boards[i].ID, n, want)
		}
	}
	if len(p.Joints) != 1 || p.Joints[0].Name != "beam_plies" || p.Joints[0].With[0].Phrase != "outdoor glue" || p.Joints[0].Expect.Q.V != 4 {
		t.Fatalf("joints %+v", p.Joints)
	}
	area := 0.0
	for _, a := range p.Joints[0].Sides[0] {
		for _, b := range p.Joints[0].Sides[1] {
			area += glued(p.Board(a), p.Board(b))
		}
	}
	if got, want := area/(25.4*25.4), 4*40*w; math.Abs(got-want) > 1e-6 {
		t.Errorf("%v sq in of glue, want %v (four faces of 40 by 5 1/2)", got, want)
	}
}
