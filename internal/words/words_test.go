package words

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"scantling/internal/region"
)

func TestSay(t *testing.T) {
	for _, c := range []struct {
		concept                      Concept
		america, europe, australasia string
		source                       string
	}{
		{HalfLap, "half lap", "halving joint", "halving joint", "common practice"},
		{Dado, "dado", "housing", "housing", "common practice"},
		{Rabbet, "rabbet", "rebate", "rebate", "common practice"},
		{CarriageBolt, "carriage bolt", "coach bolt", "cup head bolt", "common practice; Australasia from memory"},
		{LagScrew, "lag screw", "coach screw", "coach screw", "common practice"},
		{Lumber, "lumber", "timber", "timber", "common practice"},
		{Yard, "lumberyard", "timber merchant", "timber yard", "common practice"},
		{Miter, "miter", "mitre", "mitre", "common practice"},
		{Apron, "apron", "rail", "rail", "common practice"},
		{StoryStick, "story stick", "rod", "rod", "common practice"},
		{Color, "color", "colour", "colour", "common practice"},
	} {
		for i, want := range []string{c.america, c.europe, c.australasia} {
			if got := For(region.Region(i)).Say(c.concept); got != want {
				t.Errorf("%v: %q, want %q (%s)", region.Region(i), got, want, c.source)
			}
		}
	}
	if got := (Pack{}).Say(Dado); got != "dado" {
		t.Errorf("the zero pack says %q", got)
	}
}

func TestEveryConceptHasItsWords(t *testing.T) {
	for _, r := range region.All() {
		p := For(r)
		if p.Region() != r {
			t.Errorf("%v: the pack is %v's", r, p.Region())
		}
		for _, c := range Concepts() {
			w := p.Say(c)
			if w == "" || w != strings.TrimSpace(w) || !p.Source(c).OK() {
				t.Errorf("%v, concept %d: %q, %v", r, c, w, p.Source(c))
			}
			if p.Spell(w) != w {
				t.Errorf("%v spells its own word %q as %q", r, w, p.Spell(w))
			}
		}
	}
}

// A coach bolt goes through and takes a nut, a coach screw does not: the words
// of the one are nowhere the words of the other, and no way of turning words
// makes one of the other.
func TestBoltsAndScrewsNeverCross(t *testing.T) {
	for _, r := range region.All() {
		p := For(r)
		bolt, screw := p.Say(CarriageBolt), p.Say(LagScrew)
		if !strings.HasSuffix(bolt, " bolt") || !strings.HasSuffix(screw, " screw") || strings.Contains(bolt, "screw") || strings.Contains(screw, "bolt") {
			t.Errorf("%v: %q and %q", r, bolt, screw)
		}
		for _, other := range region.All() {
			if q := For(other); q.Say(LagScrew) == bolt || q.Say(CarriageBolt) == screw {
				t.Errorf("%v's %q is %v's word for the other", r, bolt, other)
			}
		}
		for _, c := range []struct{ name, want string }{
			{"carriage bolt M8 x 100 mm", bolt + " M8 x 100 mm"}, {"carriage bolt 5/16", bolt + " 5/16"}, {"carriage bolt", bolt},
			{"lag screw M8 x 80 mm", screw + " M8 x 80 mm"}, {"lag screw", screw},
			{"deck screw 4.5 x 60 mm", p.Say(DeckScrew) + " 4.5 x 60 mm"}, {"stainless lag screw M8 x 80 mm", "stainless " + screw + " M8 x 80 mm"}, {"carriage bolts", "carriage bolts"}, {"coach bolt M8", "coach bolt M8"},
		} {
			got := p.Fastener(c.name)
			if got != c.want {
				t.Errorf("%v: %q is %q, want %q", r, c.name, got, c.want)
			}
			if p.Fastener(got) != got && r != region.America || strings.Contains(c.name, "bolt") != strings.Contains(got, "bolt") {
				t.Errorf("%v: %q became %q", r, c.name, got)
			}
		}
	}
}

func TestLocal(t *testing.T) {
	for _, c := range []struct{ text, america, europe, australasia string }{
		{"Use: 8 carriage bolts M8 × 110 mm, then tighten them with a wrench.", "Use: 8 carriage bolts M8 × 110 mm, then tighten them with a wrench.",
			"Use: 8 coach bolts M8 × 110 mm, then tighten them with a spanner.", "Use: 8 cup head bolts M8 × 110 mm, then tighten them with a spanner."},
		{"Half laps and housings: set the mitre saw", "Half laps and dados: set the miter saw", "Halving joints and housings: set the mitre saw", "Halving joints and housings: set the mitre saw"},
		{"two wrenches; Lumber; a half_lap; the centre", "two wrenches; Lumber; a half_lap; the center", "two spanners; Timber; a half_lap; the centre", "two spanners; Timber; a half_lap; the centre"},
		{"“mitre with leg”: the mitre of the centre", "“mitre with leg”: the miter of the center", "“mitre with leg”: the mitre of the centre", "“mitre with leg”: the mitre of the centre"},
		{"a hardware store", "a hardware store", "an ironmonger", "a hardware store"},
		{"deck screws, lag screws", "deck screws, lag screws", "decking screws, coach screws", "decking screws, coach screws"},
	} {
		for i, want := range []string{c.america, c.europe, c.australasia} {
			if got := For(region.Region(i)).Local(c.text); got != want {
				t.Errorf("%v: %q, want %q", region.Region(i), got, want)
			}
		}
	}
}

func TestManyAndArticles(t *testing.T) {
	us, uk := For(region.America), For(region.Europe)
	for _, c := range []struct{ got, want string }{
		{us.Many(CarriageBolt), "carriage bolts"}, {us.Many(Lumber), "lumber"}, {us.Many(Wrench), "wrenches"}, {uk.Many(Wrench), "spanners"},
		{us.A(Apron), "an apron"}, {uk.A(Apron), "a rail"}, {uk.A(Lumber), "timber"}, {uk.A(SharpEdge), "an arris"},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
}

func TestSpell(t *testing.T) {
	for _, c := range []struct {
		region     region.Region
		text, want string
	}{
		{region.Europe, "Miter the ends; the color is GRAY.", "Mitre the ends; the colour is GREY."},
		{region.Australasia, "centered, 45 millimeters", "centred, 45 millimetres"},
		{region.America, "Mitre the ends; the colour is GREY.", "Miter the ends; the color is GRAY."},
		{region.Europe, "moisture meter, color_chart, miter2 colorful", "moisture meter, color_chart, miter2 colorful"},
		{region.America, "the vice of a centreline", "the vice of a centreline"},
		{region.Europe, "", ""},
	} {
		if got := For(c.region).Spell(c.text); got != c.want {
			t.Errorf("%v: %q, want %q", c.region, got, c.want)
		}
	}
}

// Spelling twice is spelling once, there and back again is there, and what is
// no word of the list stays.
func TestSpellHolds(t *testing.T) {
	var all []string
	for _, p := range pairs {
		all = append(all, p[0], strings.ToUpper(p[1][:1])+p[1][1:])
	}
	all = append(all, " ", ", ", "½\"", "é", "_", "board", "\xff")
	rapid.Check(t, func(t *rapid.T) {
		text := strings.Join(rapid.SliceOf(rapid.SampledFrom(all)).Draw(t, "text"), rapid.SampledFrom([]string{" ", "", "-"}).Draw(t, "between"))
		us, uk := For(region.America), For(region.Europe)
		there := uk.Spell(text)
		if uk.Spell(there) != there || uk.Spell(us.Spell(there)) != there {
			t.Fatalf("%q is spelt %q, then %q, and back %q", text, there, uk.Spell(there), uk.Spell(us.Spell(there)))
		}
	})
	seen := map[string]bool{}
	for _, p := range pairs {
		for _, w := range p {
			if seen[w] {
				t.Errorf("%q stands twice", w)
			}
			seen[w] = true
		}
	}
}
