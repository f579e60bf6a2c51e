package shop

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"scantling/internal/board"
	"scantling/internal/design"
	"scantling/internal/geom"
	"scantling/internal/joint"
	"scantling/internal/measure"
	"scantling/internal/part"
	"scantling/internal/span"
)

// along returns a board in place: run and face are directions of the piece, at
// is its frame's corner in inches, sides in the order start, finish, near, far,
// under, show.
func along(id, name, spoken string, length, width, thick float64, run, face geom.Vec, x, y, z float64, sides string, cuts ...board.Cut) *design.Board {
	b := &board.Board{ID: board.ID(id), L: length * inch, W: inches(width), T: inches(thick), Cuts: cuts,
		Pose: geom.Pose{X: run, Y: face.Cross(run), Z: face, At: geom.Vec{X: x * inch, Y: y * inch, Z: z * inch}}}
	copy(b.Sides[:], strings.Fields(sides))
	return &design.Board{Board: b, Name: name, Spoken: spoken, Place: span.Of(7)}
}

var (
	right, back, up = geom.Vec{X: 1}, geom.Vec{Y: 1}, geom.Vec{Z: 1}
	front           = back.Negated()
	left            = right.Negated()
)

// tableFrame is a frame 69 1/2 by 24 1/2 of 2x4s on edge, a leg inside its front
// apron, and slats on top.
func tableFrame(t *testing.T) *design.Piece {
	l := leg(t, 10, false)
	// Its top is flush with the apron's, its top left corner 4 in from the end.
	l.Name, l.Spoken = "leg", "front left leg"
	corner := geom.Vec{X: l.L - 4*0.17632698*inch, Y: 4 * inch, Z: 1.5 * inch}
	lean := geom.Turned(back, rad(10)) // turns up toward right
	l.Pose = geom.Pose{X: lean.OutWay(up), Y: lean.OutWay(left), Z: front}
	l.Pose.At = geom.Vec{X: 4 * inch, Y: 1.5 * inch, Z: 33 * inch}.Minus(l.Pose.OutWay(corner))
	p := &design.Piece{Boards: []*design.Board{
		along("long", "long_apron", "front long apron", 69.5, 3.5, 1.5, right, front, 0, 1.5, 29.5, "left right bottom top back front"),
		along("long/fb", "long_apron", "back long apron", 69.5, 3.5, 1.5, right, front, 0, 24.5, 29.5, "left right bottom top back front"),
		along("short", "short_apron", "left short apron", 21.5, 3.5, 1.5, back, left, 1.5, 1.5, 33, "front back top bottom right left"),
		along("short/lr", "short_apron", "right short apron", 21.5, 3.5, 1.5, back, left, 69.5, 1.5, 33, "front back top bottom right left"),
		l,
	}}
	for i := range 3 {
		b := along("slat/"+string(rune('1'+i)), "slat", [...]string{"1st", "2nd", "3rd"}[i]+" slat", 27, 5.5, 1, back, up, 4.25+5.6875*float64(i), -1.25, 33, "front back right left bottom top")
		b.Row = i + 1
		p.Boards = append(p.Boards, b)
	}
	p.Rows = []design.Row{{Name: "slat", Count: design.Figure{Q: measure.Number(3)}, Gap: design.Figure{Q: inches(0.1875).Quantity()}}}
	p.Steps = []design.Step{
		{Name: "Frame", Lies: "top down", Add: []board.ID{"long", "long/fb", "short", "short/lr"}, Hold: []string{"corners"}},
		{Name: "Leg", Add: []board.ID{"leg"}, Fasten: []string{"corners"}},
		{Name: "Top", Add: []board.ID{"slat/1", "slat/2", "slat/3"}},
	}
	p.Joints = []design.Joint{
		{Name: "corners", Sides: [2][]board.ID{{"short", "short/lr"}, {"long", "long/fb"}}, Through: []board.ID{"long", "long/fb"},
			With: []design.Fastening{{Phrase: "screw 10 x 3 1/2"}}, Pattern: design.Pattern{Count: 2}},
		{Name: "leg_bolts", Sides: [2][]board.ID{{"leg"}, {"long", "long/fb"}}, Head: []board.ID{"long", "long/fb"},
			With: []design.Fastening{{Phrase: "carriage bolt 5/16"}}, Pattern: design.Pattern{Count: 2}},
		{Name: "top_screws", Sides: [2][]board.ID{{"slat/1", "slat/2", "slat/3"}, {"long", "long/fb"}}, Through: []board.ID{"slat/1", "slat/2", "slat/3"},
			With: []design.Fastening{{Phrase: "screw 8 x 2 1/2"}}, Pattern: design.Pattern{Count: 2}},
	}
	return p
}

func TestMarksFixEveryBoard(t *testing.T) {
	r := compute(tableFrame(t))
	var got []string
	for _, s := range r.Steps {
		for _, m := range s.Marks {
			var words []string
			for _, w := range m.Words {
				words = append(words, w.String())
			}
			got = append(got, m.Spoken+": "+strings.Join(words, "; "))
		}
	}
	want := []string{
		"front long apron: comes first; the rest is placed from it",
		"left short apron: front end against the back face of the front long apron; top edge flush with the top edge of the front long apron; left face flush with the left end of the front long apron",
		"back long apron: front face against the back end of the left short apron; left end flush with the left face of the left short apron; top edge flush with the top edge of the left short apron",
		"right short apron: front end against the back face of the front long apron; top edge flush with the top edge of the front long apron; right face flush with the right end of the front long apron",
		`front left leg: front face against the back face of the front long apron; top end flush with the top edge of the front long apron; top left corner 4" in from the left end of the front long apron; bottom left corner 1 13/16" out past the left end of the front long apron`,
		`1st slat: bottom face against the top edge of the left short apron; front end 1 1/4" out past the front face of the front long apron; left edge 1 1/4" out past the left face of the left short apron`,
		// By hand: 5 1/2 + 3/16 and twice that.
		`2nd to 3rd slat: bottom face against the top edge of the front long apron; left edge from the left edge of the 1st slat, running: 5 11/16", 11 3/8"; front end flush with the front end of the 1st slat`,
	}
	for i, w := range want {
		if i >= len(got) || got[i] != w {
			t.Errorf("marks %d\n got %s\nwant %s", i, append(got, "")[min(i, len(got))], w)
		}
	}
	if n := len(got); n != 7 {
		t.Errorf("%d lines of marks, want 7: the boards of a row are said together", n)
	}
	if slats := r.Steps[2].Marks[1]; len(slats.Boards) != 2 || slats.Board != "slat/2" {
		t.Errorf("the row's marks are for %v", slats.Boards)
	}
}

func TestStepsCountWhatTheyUse(t *testing.T) {
	r := compute(tableFrame(t))
	type use struct {
		step  int
		words string
	}
	var got []use
	for _, s := range r.Steps {
		for _, f := range s.Fasten {
			got = append(got, use{s.Number, f.Words.String()})
		}
	}
	want := []use{
		{2, "8 deck screws 10 x 3 1/2 through the long apron into the short apron: two where each two meet; through each 13/64\" hole drill 7/64\" into the short apron, 2\" deep, the two clamped"}, // held in step 1
		{2, `2 carriage bolts 5/16 x 4 in 11/32" holes, heads on the long apron, nuts on the leg, two washers under each nut`},
		{3, "12 deck screws 8 x 2 1/2 through the slat into the long apron: two where each two meet; through each 11/64\" hole drill 3/32\" into the long apron, 1 1/2\" deep, the two clamped"},
	}
	if diff := cmp.Diff(want, got, cmp.AllowUnexported(use{})); diff != "" {
		t.Error(diff)
	}
	if n := len(r.Steps[2].Present); n != 8 {
		t.Errorf("%d boards present at the end, want 8", n)
	}
	if got, want := r.Steps[2].Checks[0].String(), `The gaps between the slats come to 3/16".`; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}

// Fact: twelve gaps with a spacer 1/64 too thick end 3/16 off (by hand: 12/64).
func TestSpacerRunsOff(t *testing.T) {
	p := tableFrame(t)
	p.Rows[0].Count.Q = measure.Number(13)
	got := compute(p).Steps[2].Checks[0].String()
	if want := `by a spacer alone: one only 1/64" too thick would push the last board 3/16" along.`; !strings.HasSuffix(got, want) {
		t.Errorf("got %s, want %s", got, want)
	}
}

func TestAJointNeverFastenedIsSaid(t *testing.T) {
	p := tableFrame(t)
	p.Steps[1].Fasten = nil
	for _, b := range p.Boards {
		b.Build()
	}
	m := joint.Meet(p)
	joints, _ := joint.Find(p, m)
	r, snags := Compute(p, m, joints, part.Sort(p), Pen{})
	if len(snags) != 1 || snags[0].Code != "joint-held" {
		t.Errorf("%+v", snags)
	}
	notes := Notes(snags, p, r)
	if len(notes) != 1 || notes[0].Kind != "Take care" || !strings.Contains(notes[0].Where, "the left short apron (B)") {
		t.Errorf("%+v", notes)
	}
}

func TestSubAssemblies(t *testing.T) {
	p := tableFrame(t)
	p.Steps[0].Makes, p.Steps[0].Hold = "frame", nil
	p.Steps[1] = design.Step{Name: "Leg", Add: []board.ID{"leg"}, AddMade: []string{"frame"}}
	r := compute(p)
	if got := r.Steps[0].Fasten[0].Count; got != 8 {
		t.Errorf("the frame takes %d screws where it is made, want 8", got)
	}
	if got := len(r.Steps[1].Present); got != 5 {
		t.Errorf("%d boards are there once the frame is in, want 5", got)
	}
	if got := r.Steps[1].Marks[0].Words[0].String(); got != "comes first; the rest is placed from it" {
		t.Error(got)
	}
}
