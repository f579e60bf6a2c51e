package start

import (
	"errors"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"scantling/internal/design"
	"scantling/internal/measure"
	"scantling/internal/region"
	"scantling/internal/snag"
	"scantling/internal/source"
	"scantling/internal/tidy"
)

func TestStart(t *testing.T) {
	for _, c := range []struct {
		name string
		a    Answers
		says []string // lines the file holds
	}{
		{"as usual", Answers{What: "bench"}, []string{"piece: Bench", `  length: {is: 48", from: 30", to: 60", by: 1", says: length of the seat}`,
			"  frame_stock: {size: 2x4, wood: southern pine, grade: No. 2, treatment: ground contact}",
			"  seat_stock: {size: 5/4x6 radius edge, wood: southern pine, grade: standard, treatment: above ground}",
			"# It stands on the grass: what is near the earth is treated for ground contact, the rest for use above ground."}},
		{"answered", Answers{What: "Table", Name: "Pressing table", Length: `5'`, Depth: "28", Height: `30 1/2"`, Stands: "terrace", Wood: "treated pine"},
			[]string{"piece: Pressing table", `  length: {is: 60", from: 36", to: 72", by: 1", says: length of the top}`,
				`  depth: {is: 28", from: 24", to: 36", by: 1/2", says: front to back}`, `  height: {is: 30 1/2", from: 29 1/2", to: 36", by: 1/2", says: floor to the top of the slats}`,
				"  frame_stock: {size: 2x4, wood: southern pine, grade: No. 2, treatment: above ground}", "# It stands on a terrace, so treatment for use above ground will do. Coat every cut end."}},
		{"cedar", Answers{What: "planter", Name: "Thyme: box"}, []string{`piece: "Thyme: box"`, "  board_stock: {size: 1x6, wood: western red cedar, treatment: none}",
			"# It stands on the grass and has no preservative in it: put a stone or a pad under each foot, and it lasts."}},
		{"treated for food", Answers{What: "planter", Wood: "treated pine"}, []string{"# It stands on the grass. The wood is treated: grow flowers in it; for anything to eat take a wood that lasts without."}},
		{"a wood by name", Answers{What: "gate", Wood: "white oak"}, []string{"  frame_stock: {size: 2x4, wood: white oak, treatment: none}",
			"# It hangs over the grass and has no preservative in it: this wood lasts in the weather by itself."}},
		{"a wood that decays", Answers{What: "shelf", Stands: "porch", Wood: "SPF"}, []string{"# It stands on a porch. Without treatment this wood decays soon outdoors: keep it under a roof, or paint it well."}},
		{"in centimetres", Answers{What: "shelf", Length: "76.2 cm"}, []string{`  length: {is: 30", from: 24", to: 42", by: 1", says: length over all}`}},
	} {
		t.Run(c.name, func(t *testing.T) {
			src, err := Start(c.a)
			if err != nil {
				t.Fatal(err)
			}
			lines := map[string]bool{}
			for line := range strings.Lines(string(src)) {
				lines[strings.TrimSuffix(line, "\n")] = true
			}
			for _, want := range c.says {
				if !lines[want] {
					t.Errorf("no line %s in\n%s", want, src)
				}
			}
		})
	}
}

func TestAnswersThatCannotBe(t *testing.T) {
	for _, c := range []struct {
		a                 Answers
		field, what, mend string
	}{
		{Answers{What: "bensh"}, "what", "“bensh” cannot be begun here", "did you mean bench?"},
		{Answers{}, "what", "“” cannot be begun here", "say table, bench, shelf, planter or gate"},
		{Answers{What: "bench", Length: "9'"}, "length", `a bench cannot be begun with a length of 108"`, `take 30" to 60"; the file can be changed to more`},
		{Answers{What: "bench", Length: "-4'"}, "length", `a bench cannot be begun with a length of -48"`, `take 30" to 60"`},
		{Answers{What: "bench", Length: "long"}, "length", "“long” is not a measure", `write a number and its unit`},
		{Answers{What: "bench", Height: "45 lb"}, "height", "“45 lb” is no length", `write it in inches: 42"`},
		{Answers{What: "gate", Depth: `2"`}, "depth", "a gate has no depth to answer", "leave it out; it asks for length and height"},
		{Answers{What: "bench", Stands: "gras"}, "stands", "“gras” is no place known here", "did you mean grass?"},
		{Answers{What: "bench", Wood: "ceder"}, "wood", `"ceder" is no wood known here`, "or say treated pine or cedar"},
		{Answers{What: "bench", Name: "Bench | seat"}, "name", "the name holds a |", "leave it out"},
		{Answers{What: "bench", Length: "9000", Region: region.Europe}, "length", "a bench cannot be begun with a length of 9000 mm", "take 760 mm to 1520 mm"},
		{Answers{What: "bench", Name: "a\nb"}, "name", "the name holds a sign that cannot be printed", "write it on one line"},
		{Answers{What: "bench", Name: "a\xff"}, "name", "“a\xff” cannot be written as a name", "use letters, digits and blanks"},
	} {
		_, err := Start(c.a)
		var e *Error
		if !errors.As(err, &e) || e.Field != c.field || !strings.HasPrefix(e.What, c.what) || !strings.HasPrefix(e.Mend, c.mend) {
			t.Errorf("%+v:\n got %v\nwant %s: %s; %s", c.a, err, c.field, c.what, c.mend)
		}
	}
}

// The files are good ones as they stand: tidy, and without a mistake.
func TestFilesOfUses(t *testing.T) {
	for _, u := range Uses() {
		src := tree(u.Name, region.America).Src
		if got, snags := tidy.Tidy(u.Name, src); len(snags) > 0 || string(got) != string(src) {
			t.Errorf("%s is not tidy: %v", u.Name, snags)
		}
		if _, snags := design.Open(tree(u.Name, region.America)).Evaluate(nil); len(snags) > 0 {
			t.Errorf("%s:\n%s", u.Name, snags.Text(snag.Sources{u.Name + ".yaml": src}))
		}
		if len(u.Sizes) < 2 || strings.Count(string(src), stands) != 1 || u.Says == "" {
			t.Errorf("%s: %+v", u.Name, u)
		}
		for _, s := range u.Sizes {
			if s.From > s.Is || s.Is > s.To || s.From == s.To || s.Says == "" {
				t.Errorf("%s: %+v", u.Name, s)
			}
		}
	}
}

// Whatever the piece is called and however big it is within its range, the file
// says so and is without a mistake.
func TestAnswersComeBack(t *testing.T) {
	uses := Uses()
	rapid.Check(t, func(t *rapid.T) {
		u := rapid.SampledFrom(uses).Draw(t, "use")
		s := u.Sizes[0]
		l := measure.Length(rapid.Int64Range(int64(s.From), int64(s.To)).Draw(t, "length"))
		if rapid.Bool().Draw(t, "in sixteenths") {
			l = l.Ceil(measure.Inch / 16)
		}
		name := strings.TrimSpace(rapid.StringMatching(`[a-zA-Z0-9 :#'"{}\[\],&*!>%@é½\\-]{0,20}`).Draw(t, "name"))
		src, err := Start(Answers{What: u.Name, Name: name, Length: l.Exact(measure.Imperial)})
		if err != nil {
			t.Fatal(err)
		}
		tree, snags := source.Parse("t.yaml", src)
		if len(snags) > 0 {
			t.Fatal(snags.Text(snag.Sources{"t.yaml": src}))
		}
		piece, snags := design.Open(tree).Evaluate(nil)
		if snags.Errors() > 0 || piece == nil {
			t.Fatal(snags.Text(snag.Sources{"t.yaml": src}))
		}
		if name != "" && piece.Name != name {
			t.Fatalf("called %q, want %q", piece.Name, name)
		}
		if q, err := measure.Parse(tree.Root.Get("sizes").Get("length").Get("is").Text); err != nil || q != l.Quantity() {
			t.Fatalf("%v long, want %v", q, l)
		}
	})
}
