package design

import (
	"slices"
	"strings"
	"testing"

	"scantling/internal/measure"
	"scantling/internal/snag"
	"scantling/internal/source"
	"scantling/internal/span"
)

func evaluate(t *testing.T, text string, set Settings) *Piece {
	t.Helper()
	tree, list := source.Parse("piece.yaml", []byte(text))
	piece, more := Open(tree).Evaluate(set)
	if list = append(list, more...); list.Errors() > 0 {
		t.Fatal(list.Text(snag.Sources{"piece.yaml": []byte(text)}))
	}
	return piece
}

// Boards are named as people point at them; "copy 1" is nobody's word.
func TestSpoken(t *testing.T) {
	p := evaluate(t, prelude+`parts:
  leg:
    of: two_by_four
    length: 10"
    place: {runs: up, faces: front, front: 9" in front of middle, right: 5" left of middle}
    ends: {bottom: floor}
    copies: [mirror: left-right, mirror: front-back]
  seat_rail: {of: two_by_four, length: 10", place: {runs: right, faces: front, front: 9" in front of middle, bottom: 20" above floor}, copies: [mirror: front-back]}
  stay: {of: two_by_four, length: 10", place: {runs: back, faces: up, middle: middle, bottom: 30" above floor}}
  bearer: {of: two_by_four, length: 10", place: {runs: back, faces: up, bottom: 40" above floor}, copies: [marks: {of: middle, from: middle, toward: right, at: [-10", 0", 10"]}]}
  strip: {of: two_by_four, length: 10", place: {runs: back, faces: up, bottom: 50" above floor}, copies: [every: {of: middle, from: 20" left of middle, toward: right, each: 10", to: 20" right of middle}]}
  block: {of: two_by_four, length: 4", place: {runs: back, faces: up, left: 2" right of middle, bottom: 60" above floor}, copies: [{mirror: left-right, call: [hinge, latch]}]}
rows:
  slat: {of: one_by_six, length: 10", place: {runs: back, faces: up, bottom: 70" above floor}, fill: {along: right, count: 2, from: 3" right of middle}, gap: 1", copies: [mirror: left-right]}
  only: {of: one_by_six, length: 10", place: {runs: back, faces: up, bottom: 80" above floor}, fill: {along: right, count: 1, from: 3" right of middle}}
`, nil)
	want := map[string]string{
		"leg": "front left leg", "leg/left-right": "front right leg", "leg/front-back": "back left leg", "leg/left-right/front-back": "back right leg",
		"seat_rail": "front seat rail", "seat_rail/front-back": "back seat rail", "stay": "stay",
		"bearer/1": "left bearer", "bearer/2": "middle bearer", "bearer/3": "right bearer",
		"strip/1": "left strip", "strip/2": "2nd strip", "strip/4": "4th strip", "strip/5": "right strip",
		"block": "hinge block", "block/left-right": "latch block",
		"slat/1": "1st right slat from the left", "slat/2": "2nd right slat from the left",
		"slat/1/left-right": "1st left slat from the right", "only/1": "only",
	}
	for _, b := range p.Boards {
		if w, ok := want[string(b.ID)]; ok && b.Spoken != w {
			t.Errorf("%s is %q, want %q", b.ID, b.Spoken, w)
		}
		delete(want, string(b.ID))
		if p.Board(b.ID) != b {
			t.Errorf("%s is not found by its ID", b.ID)
		}
	}
	for id := range want {
		t.Errorf("there is no %s", id)
	}
}

// Prose keeps its numbers whole, each with the sizes it came from.
func TestProse(t *testing.T) {
	p := evaluate(t, strings.Replace(stand, "units: inch", `units: inch
about: "{width} by {depth}, legs {leg.edge_length}, tie {tie}, shelf at {shelf}, {count(slat)} slats."`, 1), nil)
	var got []string
	sizes := map[string]int{}
	for i, s := range p.Sizes {
		sizes[s.Name] = i
	}
	for _, s := range p.About {
		if s.Value == nil {
			got = append(got, s.Words)
			continue
		}
		v := s.Value.Word
		if v == "" {
			v = s.Value.Q.Text(measure.Sixteenth)
		}
		for _, name := range []string{"width", "height", "tilt"} {
			if from(p.Sizes[sizes[name]].From, s.Value.From) {
				v += "~" + name
			}
		}
		got = append(got, v)
	}
	want := []string{`24"~width`, " by ", `16"`, ", legs ", `12 1/16"~height~tilt`, ", tie ", "one", ", shelf at ", `12"~height`, ", ", "4~width", " slats."}
	if !slices.Equal(got, want) {
		t.Errorf("got  %q\nwant %q", got, want)
	}
}

func from(size, figure span.Set) bool {
	for _, o := range size.Ordinals() {
		if figure.Has(o) {
			return true
		}
	}
	return false
}

// What a figure does not depend on is not among what it came from: worked out by
// reading the sorting table's file.
func TestFromIsNoMore(t *testing.T) {
	p := evaluate(t, stand, nil)
	known := func(set span.Set) (names []string) {
		for _, s := range p.Sizes {
			if from(s.From, set) {
				names = append(names, s.Name)
			}
		}
		return names
	}
	for _, c := range []struct {
		board, what string
		got         func(*Board) span.Set
		want        []string
	}{
		{"leg", "section", func(b *Board) span.Set { return b.Section }, nil},
		{"leg", "length", func(b *Board) span.Set { return b.LengthFrom }, []string{"height", "tilt"}},
		{"leg", "place", func(b *Board) span.Set { return b.Place }, []string{"width", "height", "tilt"}},
		{"rail", "section", func(b *Board) span.Set { return b.Section }, nil},
		{"rail", "length", func(b *Board) span.Set { return b.LengthFrom }, []string{"width", "height", "tilt"}},
		{"tie_bar", "everything", func(b *Board) span.Set { return b.All() }, nil},
		{"slat/2", "length", func(b *Board) span.Set { return b.LengthFrom }, nil},
		{"slat/2", "section", func(b *Board) span.Set { return b.Section }, nil},
		{"slat/2", "place", func(b *Board) span.Set { return b.Place }, []string{"width", "height"}},
	} {
		for _, b := range p.Boards {
			if string(b.ID) == c.board && !slices.Equal(known(c.got(b)), c.want) {
				t.Errorf("the %s of %s comes from %v, want %v", c.what, c.board, known(c.got(b)), c.want)
			}
		}
	}
}

// Identities outlive a change of size: what is there before and after bears the
// same ID.
func TestIdentitiesOutliveSizes(t *testing.T) {
	before := evaluate(t, stand, nil)
	after := evaluate(t, stand, Settings{{"width", "30\""}, {"height", "15\""}})
	for _, b := range before.Boards {
		if after.Board(b.ID) == nil {
			t.Errorf("%s is gone", b.ID)
		}
	}
	if len(after.Boards) != len(before.Boards)+1 { // 30 in takes a fifth slat: 4 leave 2 2/3 in between, the most is 2
		t.Errorf("%d boards, then %d", len(before.Boards), len(after.Boards))
	}
}

// The words of a board between two points stay as they are at the file's own
// sizes, though it turns past the place where another word would be nearer.
func TestSideWordsStay(t *testing.T) {
	text := prelude + `sizes:
  reach: {is: 10", from: 5", to: 60"}
points:
  low: where 0" right of middle meets 0" behind middle meets 0" above floor
  high: where reach right of middle meets 0" behind middle meets 30" above floor
parts:
  brace:
    of: two_by_four
    length: 20"
    place: {runs: {from: centre at low, to: centre at high}, faces: front, front: middle}
    ends: {from: floor}
`
	text = strings.Replace(text, "where reach right", "where 1 * reach right", 1)
	words := func(set Settings) [6]string { return evaluate(t, text, set).Boards[0].Sides }
	if a, b := words(nil), words(Settings{{"reach", "60\""}}); a != b {
		t.Errorf("the sides were %v and became %v", a, b)
	}
}

// The schema is made of the tables the file is read by: it knows every key and
// says what it is for.
func TestSchemaKnowsEveryKey(t *testing.T) {
	text := string(Schema())
	for _, tab := range []*table{pieceTable, sizeTable, partTable, rowTable, placeTable, endTable, cutTable, copyTable, fillTable, gapTable, jointTable, stepTable, needTable, useTable} {
		for _, k := range tab.keys {
			if !strings.Contains(text, quoted(k.name)+": {") {
				t.Errorf("%s: the schema does not have %q", tab.what, k.name)
			}
			if !strings.Contains(text, quoted(k.doc)) {
				t.Errorf("%s: the schema does not say what %q is for", tab.what, k.name)
			}
		}
	}
	golden(t, "schema.golden", text)
}
