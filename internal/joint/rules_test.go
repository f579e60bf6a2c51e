package joint

import (
	"math"
	"slices"
	"strings"
	"testing"

	"scantling/internal/design"
	"scantling/internal/measure"
	"scantling/internal/screw"
	"scantling/internal/snag"
)

func parsed(t *testing.T, phrase string) screw.Fastener {
	t.Helper()
	f, err := screw.Parse(phrase)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// End and edge distances and spacings, in inches: what gives full strength, and the
// least.
func TestPublishedDistances(t *testing.T) {
	for _, c := range []struct {
		phrase            string
		edge, end, minEnd float64
		along, minAlong   float64
		across, minAcross float64
		source            string
	}{
		{"wood screw 8 x 2", 0.410, 1.640, 0.820, 1.640, 0.820, 0.820, 0.492, "NDS commentary, C12.1.5.7 (memory), prebored: edge 2.5, end 10 and 5, in a row 10 and 5, between rows 5 and 3 times 0.164"},
		{"wood screw 10 x 2", 0.475, 1.900, 0.950, 1.900, 0.950, 0.950, 0.570, "the same, times 0.190"},
		{"nail 16d", 0.405, 1.620, 0.810, 1.620, 0.810, 0.810, 0.486, "NDS commentary, C12.1.6.6 (memory), prebored, times 0.162"},
		{"carriage bolt 5/16 x 4", 0.469, 1.250, 0.625, 1.250, 0.9375, 0.9375, 0.9375, "NDS, 12.5.1A to C (memory): edge 1.5, end 4 and 2, in a row 4 and 3 times 0.3125"},
		{"hex bolt 3/8 x 4", 0.5625, 1.500, 0.750, 1.500, 1.125, 1.125, 1.125, "the same, times 0.375"},
		{"lag screw 1/2 x 4", 0.750, 2.000, 1.000, 2.000, 1.500, 1.500, 1.500, "the same, times 0.5"},
	} {
		r := roomsOf(parsed(t, c.phrase), [2]float64{})
		for _, x := range []struct {
			what      string
			got, want float64
		}{{"edge", r[0].edge, c.edge}, {"end", r[0].end, c.end}, {"least end", r[1].end, c.minEnd}, {"along", r[0].along, c.along}, {"least along", r[1].along, c.minAlong},
			{"across", r[0].across, c.across}, {"least across", r[1].across, c.minAcross}} {
			if math.Abs(x.got/inch-x.want) > 0.001 {
				t.Errorf("%s: %s %.4f in, want %.4f (%s)", c.phrase, x.what, x.got/inch, x.want, c.source)
			}
		}
	}
}

func TestPublishedPenetration(t *testing.T) {
	for _, c := range []struct {
		phrase string
		end    bool
		want   float64 // in
		source string
	}{
		{"screw 8 x 2", false, 1, "common practice; 6 · 0.164 = 0.984 is less (NDS 2018, 12.1.5, memory)"},
		{"screw 8 x 2", true, 2, "common practice in end grain"},
		{"screw 10 x 2 1/2", false, 1, "common practice"},
		{"wood screw 12 x 3", false, 1.296, "6 · 0.216 (NDS 2018, 12.1.5, memory)"},
		{"wood screw 14 x 3", false, 1.452, "6 · 0.242"},
		{"nail 16d", false, 1, "6 · 0.162 = 0.972 is less (NDS 2018, 12.1.6, memory)"},
		{"nail 40d", false, 1.350, "6 · 0.225"},
		{"lag screw 1/4 x 3", false, 1, "4 · 1/4 (NDS 2018, 12.1.4, memory)"},
		{"lag screw 1/2 x 4", false, 2, "4 · 1/2"},
		{"structural screw 1/4 x 3", false, 1, "what its maker says, an inch here"},
		{"screw 5 x 80 mm", false, 25 / inch, "common practice: 25 mm"},
		{"screw 6 x 80 mm", false, 36 / inch, "6 · 6 mm"},
		{"coach screw M10 x 100 mm", false, 40 / inch, "4 · 10 mm"},
	} {
		if got := biteOf(parsed(t, c.phrase), c.end); math.Abs(got.Inches()-c.want) > 0.001 {
			t.Errorf("%s, end grain %v: bites %.4f in, want %.4f (%s)", c.phrase, c.end, got.Inches(), c.want, c.source)
		}
	}
}

// Bites by hand: a no. 8 x 2 through a slat of 1 in with its head flush bites 1.00,
// sunk 1/16 in 1.06, and a 2 1/2 bites 1.50; a no. 10 x 3 through 1 1/2 in into end
// grain bites 1.5, short of 2, and a 3 1/2 just 2.0.
func TestBitesByHand(t *testing.T) {
	for _, c := range []struct {
		with    string
		through float64
		sunk    float64
		into    *design.Board
		bite    float64
		code    snag.Code
	}{
		{"screw 8 x 2", 1, 0, at("b", 20, 3.5, 3.5, 0, 0, -3.5), 1.00, ""},
		{"screw 8 x 2", 1, 1. / 16, at("b", 20, 3.5, 3.5, 0, 0, -3.5), 1.0625, ""},
		{"screw 8 x 2 1/2", 1, 0, at("b", 20, 3.5, 3.5, 0, 0, -3.5), 1.50, ""},
		{"screw 8 x 3", 1, 0, at("b", 20, 3.5, 3.5, 0, 0, -3.5), 2.00, ""},
		{"screw 10 x 3", 1.5, 0, upright(at("b", 20, 3.5, 1.5, 0, 0, -20)), 1.5, "screw-short"},
		{"screw 10 x 3 1/2", 1.5, 0, upright(at("b", 20, 3.5, 1.5, 0, 0, -20)), 2.0, ""},
	} {
		p := &design.Piece{Boards: []*design.Board{at("a", 10, 3.5, c.through, 0, 0, 0), c.into}}
		j := declared("a", "b", c.with, 2)
		if c.sunk > 0 {
			j.Counterbore.Head = &design.Figure{Q: inches(c.sunk).Quantity()}
		}
		p.Joints = []design.Joint{j}
		joints, snags := Find(p, Meet(p))
		u := joints[0].Pairs[0].Uses[0]
		if got := u.Fastener.Length.Inches() - u.Axes[0].Stack[0]/inch; math.Abs(got-c.bite) > 1e-6 {
			t.Errorf("%s through %v: bites %.4f, want %.4f", c.with, c.through, got, c.bite)
		}
		if c.code != "" && !slices.ContainsFunc(snags, func(s snag.Snag) bool { return s.Code == c.code }) || c.code == "" && snags.Errors() > 0 {
			t.Errorf("%s through %v: %v, want %q", c.with, c.through, snags, c.code)
		}
	}
}

// Screws driven from both sides into one board stand aside of one another, so that
// their tips do not meet: two 1 in boards on a rail 1 1/2 in thick.
func TestScrewsFromTwoSidesAlternate(t *testing.T) {
	p := &design.Piece{Boards: []*design.Board{at("a", 3.5, 3.5, 1, 10, 0, 0), at("b", 30, 3.5, 1.5, 0, 0, -1.5), at("c", 3.5, 3.5, 1, 10, 0, -2.5)}}
	one, two := declared("a", "b", "screw 8 x 2", 2), declared("c", "b", "screw 8 x 2", 2)
	two.Name = "k"
	p.Joints = []design.Joint{one, two}
	joints, snags := Find(p, Meet(p))
	if len(snags) > 0 {
		t.Errorf("%v", snags)
	}
	upper, lower := joints[0].Pairs[0].Uses[0], joints[1].Pairs[0].Uses[0]
	if len(upper.Axes) != 2 || len(lower.Axes) != 2 || upper.Axes[0].Way.Z != -1 || lower.Axes[0].Way.Z != 1 {
		t.Fatalf("%+v, %+v", upper.Axes, lower.Axes)
	}
	for _, a := range upper.Axes {
		for _, b := range lower.Axes {
			d := a.At.Minus(b.At)
			if gap := math.Hypot(d.X, d.Y) - upper.Fastener.Diameter().MM(); gap < apartBy { // both bite 1 in of 1 1/2: they pass
				t.Errorf("screws from two sides pass %.2f mm apart", gap)
			}
		}
	}
}

// Staggered fasteners stand by turns on two lines along the grain, no two next to one
// another on one line of it.
func TestStagger(t *testing.T) {
	p := &design.Piece{Boards: []*design.Board{at("a", 20, 5.5, 1.5, 0, 0, 0), at("b", 20, 5.5, 3.5, 0, 0, -3.5)}}
	j := declared("a", "b", "screw 10 x 3", 6)
	j.Pattern.Set = "stagger"
	p.Joints = []design.Joint{j}
	joints, snags := Find(p, Meet(p))
	if snags.Errors() > 0 {
		t.Fatal(snags)
	}
	axes := joints[0].Pairs[0].Uses[0].Axes
	if len(axes) != 6 {
		t.Fatal(len(axes))
	}
	for i := range axes[1:] {
		if d := axes[i+1].At.Minus(axes[i].At); math.Abs(d.Y) < inch || d.X*(axes[1].At.X-axes[0].At.X) <= 0 {
			t.Errorf("screws %d and %d stand %.1f mm along and %.1f mm across from one another", i, i+1, d.X, d.Y)
		}
	}
}

// Joints in millimetres are laid and judged as those in inches, and told in
// millimetres.
func TestMetricJoints(t *testing.T) {
	mm := func(id string, length, width, thick, x, y, z float64) *design.Board {
		return at(id, length/inch, width/inch, thick/inch, x/inch, y/inch, z/inch)
	}
	for _, c := range []struct {
		with         string
		through      float64 // mm
		into         float64
		code         snag.Code
		says         string
		clear, pilot float64 // mm; of a bolt, its hole
		name         string  // with its length
		source       string
	}{
		{"screw 5 x 80", 45, 95, "", "", 5, 3, "deck screw 5.0 x 80 mm", "by hand: bite 35; bits 5 and 7/8 · 3.2 → 3 mm"},
		{"screw 5 x 60 mm", 45, 95, "screw-short", "goes through 45 mm of the a and bites 15 mm", 0, 0, "", "by hand: 15 < 25"},
		{"screw 5.0 x 80 mm", 28, 45, "screw-long", "comes out of the b by 7 mm", 0, 0, "", "by hand: 80 − 73"},
		{"screw 4.5", 28, 95, "", "", 4.5, 2.5, "deck screw 4.5 x 70 mm", "by hand: 2.5 · 28 = 70"},
		{"bolt M8 x 110", 45, 45, "", "", 9, 0, "carriage bolt M8 x 110 mm", "by hand: 90 + 2 + 6.8 + 6 = 104.8; thread from 88"},
		{"bolt M8 x 120", 45, 45, "bolt-length", "begins too far from its tip", 0, 0, "", "by hand: thread from 98, past 90 + 3 · 2"},
		{"bolt M8", 45, 45, "", "", 9, 0, "carriage bolt M8 x 110 mm", "by hand: 104.8 → 110"},
		{"bolt M8 x 100", 45, 45, "bolt-length", "must be 104.8 mm long at least", 0, 0, "", "by hand"},
		{"coach screw M8 x 100 mm", 45, 95, "", "", 8, 5.5, "lag screw M8 x 100 mm", "by hand: 55 ≥ 32; 0.7 · 8 → 5.5"},
	} {
		p := &design.Piece{Units: measure.Metric, Boards: []*design.Board{mm("a", 300, 145, c.through, 0, 0, 0), mm("b", 500, 145, c.into, 0, 0, -c.into)}}
		p.Joints = []design.Joint{declared("a", "b", c.with, 2)}
		joints, snags := Find(p, Meet(p))
		if c.code != "" {
			if len(snags) != 1 || snags[0].Code != c.code || !strings.Contains(snags[0].What, c.says) {
				t.Errorf("%s: %v, want %s saying %q (%s)", c.with, snags, c.code, c.says, c.source)
			}
			continue
		}
		if snags.Errors() > 0 {
			t.Errorf("%s: %v", c.with, snags)
			continue
		}
		pair := joints[0].Pairs[0]
		clear, pilot, _ := pair.Bits(pair.Uses[0])
		if math.Abs(clear.MM()-c.clear) > 1e-6 || math.Abs(pilot.MM()-c.pilot) > 1e-6 || pair.Uses[0].Fastener.Name() != c.name {
			t.Errorf("%s: %s in %.2f and %.2f mm, want %s in %.2f and %.2f (%s)", c.with, pair.Uses[0].Fastener.Name(), clear.MM(), pilot.MM(), c.name, c.clear, c.pilot, c.source)
		}
	}
}
