package design

import (
	"slices"
	"testing"

	"scantling/internal/board"
	"scantling/internal/measure"
	"scantling/internal/snag"
	"scantling/internal/source"
)

func TestUse(t *testing.T) {
	const piece = prelude + `parts:
  leg: {of: two_by_four, length: 20", place: {runs: up, faces: front, front: middle, left: 10" left of middle}, ends: {bottom: floor}, copies: [mirror: left-right]}
steps: [{name: All, add: [leg]}]
use: {as: seat, `
	for _, c := range []struct {
		name, use string
		touches   []Touch
		who       string
		stands    string
		code      snag.Code
	}{
		{"nothing said", "people: 1}", nil, "", "", ""},
		{"one word for all of it", "touches: food}", []Touch{{What: "food", All: true}}, "", "", ""},
		{"some boards", "touches: {skin: left leg, soil: [leg]}}", []Touch{{What: "skin", On: []board.ID{"leg"}}, {What: "soil", On: []board.ID{"leg", "leg/left-right"}}}, "", "", ""},
		{"children, on paving", "who: children, climate: {lives: outdoors wet, stands: paving}}", nil, "children", "paving", ""},
		{"nothing that touches", "touches: rain}", nil, "", "", "unknown-word"},
		{"no such part", "touches: {food: [top]}}", []Touch{{What: "food"}}, "", "", "unknown-name"},
		{"nobody", "who: cats}", nil, "", "", "unknown-word"},
		{"no such key", "touches: {thunder: [leg]}}", nil, "", "", "unknown-key"},
	} {
		tree, _ := source.Parse("t.yaml", []byte(piece+c.use+"\n"))
		p, snags := Open(tree).Evaluate(nil)
		if c.code != "" && !slices.ContainsFunc(snags, func(s snag.Snag) bool { return s.Code == c.code && len(s.Mends) > 0 && !s.At.IsZero() }) ||
			c.code == "" && len(snags) > 0 {
			t.Errorf("%s: want %q, got\n%s", c.name, c.code, snags.Text(snag.Sources{"t.yaml": tree.Src}))
		}
		same := slices.EqualFunc(p.Use.Touches, c.touches, func(a, b Touch) bool {
			return a.What == b.What && a.All == b.All && slices.Equal(a.On, b.On) && !a.At.IsZero()
		})
		if !same || p.Use.Who != c.who || p.Use.Stands != c.stands {
			t.Errorf("%s: %+v", c.name, p.Use)
		}
	}
}

// A measured design reads the measured sections; the design it came from does
// not.
func TestMeasured(t *testing.T) {
	const piece = prelude + `parts:
  leg: {of: two_by_four, length: 20", place: {runs: up, faces: front, front: middle, left: 10" left of middle}, ends: {bottom: floor}}
steps: [{name: All, add: [leg]}]
`
	tree, _ := source.Parse("t.yaml", []byte(piece))
	d := Open(tree)
	wide := func(d *Design) measure.Length { p, _ := d.Evaluate(nil); return p.Boards[0].W }
	was := wide(d)
	m, snags := d.Measured([]Section{{"two_by_four", 3 * measure.Inch / 2, 55 * measure.Inch / 16}})
	if got := wide(m); len(snags) > 0 || was != 7*measure.Inch/2 || got != 55*measure.Inch/16 || wide(d) != was {
		t.Errorf("%v nm wide, measured %v, then %v (%v)", was, got, wide(d), snags)
	}
}
