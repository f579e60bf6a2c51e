package plan

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"scantling/internal/shop"
)

var update = flag.Bool("update", false, "write golden files anew")

// Every reading of both examples, as the file has them and at one odd corner,
// in text a carpenter can read through. A changed golden file is read by eye
// before it is kept.
func TestGoldenReadings(t *testing.T) {
	for _, c := range []struct {
		name, file string
		set        []string
		guards     string
	}{
		{"sorting-table", "sorting-table", nil, "the table as its file has it"},
		{"sorting-table-small", "sorting-table", []string{"length", `51"`, "depth", `22 1/2"`, "height", `37 1/2"`, "splay", "11°", "shelf_height", `6 1/2"`, "rim", "none"},
			"a short, high table that leans far, without its rim: other boards, fewer slats, one step less"},
		{"pickers-chair", "pickers-chair", nil, "the chair as its file has it"},
		{"pickers-chair-slim", "pickers-chair", []string{"seat_height", `18 1/4"`, "seat_depth", `17 1/4"`, "seat_fall", `5/8"`, "between_arms", `20 1/2"`, "rake", "9°", "back_slats", "4", "arms", "slim"},
			"a high, slim chair with five stretched seat slats and four in the back"},
	} {
		t.Run(c.name, func(t *testing.T) {
			o := Options{Want: Settled, Revision: "golden"}
			got := []byte("This guards " + c.guards + ".\n" + onePage(with(t, example(t, c.file), o, c.set...)))
			path := filepath.Join("testdata", c.name+".txtar")
			if *update {
				if err := os.WriteFile(path, got, 0o644); err != nil {
					t.Fatal(err)
				}
				return
			}
			want, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			if d := cmp.Diff(strings.Split(string(want), "\n"), strings.Split(string(got), "\n")); d != "" {
				t.Errorf("-want +got (see TestGoldenReadings):\n%s", d)
			}
		})
	}
}

// page writes a plan as a txtar archive, one file a chapter.
func onePage(p *Plan) string {
	var b strings.Builder
	chapter := func(name string) { fmt.Fprintf(&b, "-- %s --\n", name) }
	line := func(format string, args ...any) {
		b.WriteString(strings.TrimRight(fmt.Sprintf(format, args...), " ;") + "\n")
	}
	r := p.Readings
	chapter("overall")
	line("%s", r.Piece)
	line("%s", r.About)
	line("%s wide, %s deep, %s high, %s", r.Overall[0].Text, r.Overall[1].Text, r.Overall[2].Text, r.Mass.Text)
	for _, s := range r.Sizes {
		line("%s: %s, from %s to %s by %s (%s)", s.Name, s.Value.Text, s.Least.Text, s.Most.Text, s.Step.Text, s.Says)
	}
	for _, c := range r.Choices {
		line("%s: %s of %s (%s)", c.Name, c.Is, strings.Join(c.Of, ", "), c.Says)
	}
	for _, f := range r.Facts {
		line("%s", f)
	}
	chapter("first read this")
	for _, c := range r.Cautions {
		line("%s: %s", c.Title, c.Text)
	}
	chapter("parts")
	for _, q := range r.Parts {
		line("%s %d × %s%s: %s × %s × %s%s, %s; %s", q.Letter, q.Count, q.Name, before(" ", q.Hand), q.Thick.Text, q.Wide.Text, q.Long.Text, come(q.Long), q.Stock, q.CutNote)
		line("  %s, %s%s%s; show face %s", q.Volume.Text, q.Mass.Text, before(", short point to short point ", textOf(q.Short)), before(", along an edge ", textOf(q.Edge)), q.ShowFace)
		for _, e := range q.Ends {
			if e != nil {
				line("  %s", e.Words)
				if e.Note != "" {
					line("    %s", e.Note)
				}
			}
		}
		for _, x := range q.Cuts {
			line("  %s %s: %s%s", x.Kind, x.Name, x.Words, marks(x.Marks))
		}
		for _, x := range q.Edges {
			line("  edge: %s", x.Words)
		}
	}
	chapter("buy")
	buy := func(list []shop.BuyLine) {
		for _, l := range list {
			line("%d × %s%s%s, %s each, %s%s", l.Count, l.What, before(" ", textOf(l.Length)), before(", ", l.Packs), textOf(l.Each), textOf(l.Total), before(", for ", l.Use))
		}
	}
	buy(r.Buy.Boards)
	line("%s", r.Buy.Proof)
	chapter("hardware")
	buy(r.Buy.Hardware)
	buy(r.Buy.Goods)
	line("%s for everything. %s", r.Buy.Cost.Text, r.Buy.PriceNote)
	chapter("cuts")
	line("kerf %s, squared %s", r.Saw.Kerf.Text, r.Saw.Squared.Text)
	for _, s := range r.Saw.Boards {
		line("%d alike: %s", s.Same, s.Title)
		for _, strip := range s.Strips() {
			line("  strip of %.4g mm:%s%s", strip.Wide, pieces(strip.Pieces), before(" | over ", textOf(strip.Left)))
		}
	}
	chapter("joints")
	for _, j := range r.Joints {
		line("%s: %d pairs, %d a pair, %d in all: %s", j.Name, len(j.Pairs), j.Fastener, j.Total, strings.Join(j.With, ", "))
	}
	chapter("steps")
	for _, s := range r.Steps {
		line("%d. %s, lies %s, %d people, %d times", s.Number, s.Name, s.Lies, s.People, s.Times)
		if s.Times > 1 {
			line("  %s", s.Hands)
		}
		for _, a := range s.Add {
			line("  take %d × %s %s: %s", a.Count, a.Letter, a.Name, strings.Join(a.Spoken, ", "))
		}
		for _, f := range s.Fasten {
			line("  fasten: %s", f.Words)
		}
		if len(s.Reach.In) > 0 {
			line("  goes in: %s", s.Reach.In)
		}
		for _, m := range s.Reach.Mind {
			line("  mind: %s", m)
		}
		line("  %s", s.Say)
		for _, m := range s.Marks {
			line("  %s: %s", m.Spoken, sentences(m.Words, "; "))
		}
		for _, d := range s.Square {
			line("  square: %s", d.Words)
		}
		for _, x := range s.Checks {
			line("  check: %s", x)
		}
		if len(s.Lift) > 0 {
			line("  people: %s", s.Lift)
		}
		for _, a := range s.Around {
			line("  %s: %s (%s)", a.Kind, a.Words, a.Source)
		}
	}
	chapter("finish")
	line("%s", r.Finish)
	chapter("notes")
	for _, n := range r.Notes {
		line("%s: %s%s%s", n.Kind, n.What, before(" | ", n.Why), before(" | ", n.Where))
	}
	chapter("messages")
	b.WriteString(p.Messages())
	chapter("summary")
	b.WriteString(p.Summary())
	return b.String()
}

func before(words, text string) string {
	if text == "" {
		return ""
	}
	return words + text
}

func come(s shop.Shown) string {
	return map[shop.Origin]string{shop.ToFit: " (cut to fit)", shop.Reference: " (follows)"}[s.Origin]
}

func marks(list []shop.Mark) string {
	out := ""
	for _, m := range list {
		out += " | " + m.Label + " " + m.At.Text
	}
	return out
}

func pieces(list []shop.SawPiece) string {
	out := ""
	for _, x := range list {
		out += fmt.Sprintf(" | %s %s at %s", x.Letter, x.Label, x.Mark.Text)
		if x.SlantStart != 0 || x.SlantEnd != 0 {
			out += fmt.Sprintf(" (%+.1f, %+.1f mm)", x.SlantStart, x.SlantEnd)
		}
	}
	return out
}

func sentences(list []shop.Text, between string) string {
	var out []string
	for _, t := range list {
		out = append(out, t.String())
	}
	return strings.Join(out, between)
}
