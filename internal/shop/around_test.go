package shop

import (
	"math"
	"strings"
	"testing"

	"scantling/internal/board"
	"scantling/internal/design"
	"scantling/internal/span"
)

// of returns what is said about one kind of thing around a step.
func of(r *Step, kind string) string {
	var out []string
	for _, a := range r.Around {
		if a.Kind == kind {
			out = append(out, a.Words.String())
		}
	}
	return strings.Join(out, " | ")
}

func TestAroundTheJointsOfATable(t *testing.T) {
	r := compute(tableFrame(t))
	for _, c := range []struct {
		step         int
		kind, want   string
		source       string
		notContained bool
	}{
		{2, "clamp", `1 that opens 3" across leg and long apron`, "by hand: one leg; 1 1/2 and 1 1/2, face to face, upright as it stands", false},
		{2, "clamp", `2 that open 24 1/2" across short apron and long apron, moved on from joint to joint`, "by hand: the short apron and the two long ones in line with it", false},
		{3, "clamp", "", "by hand: slats lie on the frame by their weight", false},
		{3, "letter", "D on the face the short apron will cover; E on the face the long apron will cover", "by hand: slats lie on 1 1/2 × 5 1/2 of each long apron; the first on more of the short one", false},
		{3, "sand", "slat (edges", "by hand: 3/16 in between two edges", false},
	} {
		got := of(&r.Steps[c.step-1], c.kind)
		if c.want == "" && got != "" || !strings.Contains(got, c.want) {
			t.Errorf("step %d, %s: %q, want %q (%s)", c.step, c.kind, got, c.want, c.source)
		}
	}
	for _, a := range r.Steps[1].Around {
		if a.Source == "" {
			t.Errorf("%s says not where it comes from", a.Kind)
		}
	}
}

// A line through a joint leaves the wood where the boards end, and a face that is
// not square to it asks for a wedge.
func TestSqueeze(t *testing.T) {
	sides := "left right front back bottom top"
	for _, c := range []struct {
		name    string
		of      []*design.Board
		opening float64 // in
		wedge   float64
		source  string
	}{
		{"face to face", []*design.Board{along("a", "a", "a", 20, 4, 1, right, up, 0, 4, 0, sides), along("b", "b", "b", 20, 4, 2, right, up, 0, 4, 1, sides)}, 3, 0, "by hand: 1 + 2"},
		{"a third beyond a gap", []*design.Board{along("a", "a", "a", 20, 4, 1, right, up, 0, 4, 0, sides), along("b", "b", "b", 20, 4, 2, right, up, 0, 4, 1, sides),
			along("c", "c", "c", 20, 4, 2, right, up, 0, 4, 3.5, sides)}, 3, 0, "by hand: the third is half an inch away"},
		{"a third behind", []*design.Board{along("a", "a", "a", 20, 4, 1, right, up, 0, 4, 0, sides), along("b", "b", "b", 20, 4, 2, right, up, 0, 4, 1, sides),
			along("c", "c", "c", 20, 4, 2, right, up, 0, 4, 3, sides)}, 5, 0, "by hand: 1 + 2 + 2"},
	} {
		p := &design.Piece{Boards: c.of, Joints: []design.Joint{{Name: "j", Sides: [2][]board.ID{{"a"}, {"b"}}, Through: []board.ID{"a"}, With: []design.Fastening{{Phrase: "outdoor glue"}}}}}
		d := design.Step{Name: "All"}
		for _, b := range c.of {
			d.Add = append(d.Add, b.ID)
		}
		p.Steps = []design.Step{d}
		a := compute(p).Steps[0].Around
		i := indexKind(a, "clamp")
		if i < 0 {
			t.Errorf("%s: no clamp (%s)", c.name, c.source)
			continue
		}
		got := a[i].Figures
		if l, _ := got[1].Value.Exact.Length(); math.Abs(l.MM()/25.4-c.opening) > 1e-9 {
			t.Errorf("%s: opens %s, want %v in (%s)", c.name, got[1].Value.Text, c.opening, c.source)
		}
		// 20 in of glue line take a clamp every 8 in; the longest way over it is √(20² + 4²) = 20.4.
		if n, _ := got[0].Value.Exact.Count(); n != 3 {
			t.Errorf("%s: %d clamps, want 3", c.name, n)
		}
		if indexKind(a, "glue") < 0 || indexKind(a, "wait") < 0 {
			t.Errorf("%s: glue or waiting is not told", c.name)
		}
	}
}

func indexKind(all []Around, kind string) int {
	for i, a := range all {
		if a.Kind == kind {
			return i
		}
	}
	return -1
}

func TestLifters(t *testing.T) {
	for _, c := range []struct {
		kg     float64
		want   int
		source string
	}{
		{22.6, 1, "common practice: one person up to 50 lb (22.68 kg)"},
		{22.8, 2, "common practice"},
		{50, 2, "ISO 11228-1: 25 kg each"},
		{50.1, 3, "ISO 11228-1: 25 kg each"},
		{500, 4, "no more than four are asked for"},
	} {
		if got := lifters(c.kg); got != c.want {
			t.Errorf("%v kg: %d people, want %d (%s)", c.kg, got, c.want, c.source)
		}
	}
}

// Four feet get a step of their own, after the last board and before what is only
// said; three do not.
func TestFourFeetAreLevelled(t *testing.T) {
	post := func(id board.ID, x, y float64) *design.Board {
		return along(string(id), "post", string(id)+" post", 30, 3, 2, up, back, x, y, 0, "bottom top left right front back")
	}
	for _, n := range []int{3, 4} {
		p := &design.Piece{}
		d := design.Step{Name: "Posts"}
		for i, at := range [][2]float64{{0, 0}, {45, 0}, {0, 28}, {45, 28}}[:n] {
			b := post(board.ID(rune('a'+i)), at[0], at[1])
			p.Boards, d.Add = append(p.Boards, b), append(d.Add, b.ID)
		}
		p.Steps = []design.Step{d, {Name: "Fill", Say: design.Text{{Words: "Fill it."}}}}
		r := compute(p)
		if n == 3 {
			if len(r.Steps) != 2 {
				t.Errorf("three feet make %d steps", len(r.Steps))
			}
			continue
		}
		if len(r.Steps) != 3 || r.Steps[1].Name != "Level the feet" || r.Steps[2].Number != 3 {
			t.Fatalf("%d steps, the second %q", len(r.Steps), r.Steps[1].Name)
		}
		// Posts 3 wide, 45 from one to the next: 48 over all, and 48/48 in.
		if got := r.Steps[1].Say.String(); !strings.Contains(got, `it stands 1" lower`) {
			t.Errorf("%s (a terrace falls 1/4 in a foot, 48 in over the feet)", got)
		}
	}
}

// Jigs come from the smallest offcut that will do, the longest first, and none is
// promised twice.
func TestOffcutsAreKept(t *testing.T) {
	inch := func(v float64) Shown { return Pen{}.Length(v*25.4, span.Set{}) }
	left := func(v float64) *Shown { s := inch(v); return &s }
	r := &Readings{Saw: Saw{Kerf: inch(0.125), Boards: []SawBoard{
		{Stock: "2x4", Sections: []SawSection{{Strips: []Strip{{Left: left(40)}}}}},
		{Stock: "1x4", Sections: []SawSection{{Strips: []Strip{{Left: left(13)}, {Left: left(3)}}}}},
	}}}
	thick := inch(0.25)
	r.Steps = []Step{{Number: 1}, {Number: 2}}
	r.Jigs = []Jig{
		{Step: 1, What: "spacer", Count: 2, Long: inch(6), Thick: &thick},
		{Step: 2, What: "brace", Count: 2, Long: inch(18)},
		{Step: 2, What: "scribing block", Count: 1, Long: inch(4)},
		{Step: 2, What: "post", Count: 1, Long: inch(60)},
	}
	r.KeepOffcuts()
	const source = "by hand: two braces of 18 1/8 leave 3 3/4 of 40; the spacers take 6 1/8 of 13, the block 4 1/8 of what is left; 3 in is no offcut"
	if n := len(r.Saw.Offcuts); n != 2 {
		t.Fatalf("%d offcuts, want 2 (%s)", n, source)
	}
	want := [][]string{{"two braces for step 2"}, {"two spacers for step 1", "scribing block for step 2"}}
	for i, w := range want {
		if got := r.Saw.Offcuts[i].Keep; strings.Join(got, ";") != strings.Join(w, ";") {
			t.Errorf("%s becomes %v, want %v (%s)", r.Saw.Offcuts[i].Name, got, w, source)
		}
	}
	if got := of(&r.Steps[0], "jig"); got != `two spacers, 6" long, ripped 1/4" thick, from offcut 2` {
		t.Error(got)
	}
	if got := of(&r.Steps[1], "jig"); !strings.Contains(got, "one post, 60\" long, from wood of your own") && !strings.Contains(got, "5' long, from wood of your own") {
		t.Error(got)
	}
}

// A shut side has a board in front of most of its open wood.
func TestSidesThatCloseUp(t *testing.T) {
	sides := "left right front back bottom top"
	for _, c := range []struct {
		name   string
		apart  float64 // in, between two faces
		want   bool
		source string
	}{
		{"a hand's breadth less", 3.9, true, "common practice: 4 in for a hand and a block"},
		{"a hand's breadth and more", 4.1, false, "common practice: 4 in for a hand and a block"},
		{"touching", 0, false, "by hand: what is covered is not sanded"},
	} {
		p := &design.Piece{Boards: []*design.Board{along("a", "low", "low", 20, 6, 1, right, up, 0, 6, 0, sides), along("b", "high", "high", 20, 6, 1, right, up, 0, 6, 1+c.apart, sides)},
			Steps: []design.Step{{Name: "One", Add: []board.ID{"a"}}, {Name: "Other", Add: []board.ID{"b"}}}}
		r := compute(p)
		if got := of(&r.Steps[1], "sand"); (got != "") != c.want || c.want && !strings.Contains(got, "low (faces) and high (faces)") {
			t.Errorf("%s: %q (%s)", c.name, got, c.source)
		}
		if got := of(&r.Steps[0], "sand"); got != "" {
			t.Errorf("%s: nothing is near yet, but %q", c.name, got)
		}
	}
}
