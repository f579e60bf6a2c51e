package plan

import (
	"fmt"
	"maps"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"scantling/internal/drawing"
	"scantling/internal/region"
	"scantling/internal/shop"
)

// Signs that a sentence belongs to the other edition.
var (
	inchSigns = regexp.MustCompile(`[0-9]"|[0-9]'|[0-9] (in|ft|lb|psf|inch|inches|foot|feet|pounds|gallons)\b|\bsq (in|ft)\b|\bcu (in|ft)\b|#[0-9]|\b(inch|inches|carriage bolts?|lag screws?|deck screws?|lumber|miter|center|color|wrench)\b|\$[0-9]`)
	mmSigns   = regexp.MustCompile(`[0-9] mm\b|[0-9] kg\b|\b(millimetres?|litres|coach bolts?|cup head bolts?|coach screws?|decking screws?|timber|mitre|centre|colour|spanner)\b|£`)
)

// Inches in figures, in a mend and in plan.json.
var (
	inchUnits  = regexp.MustCompile(`[0-9]"|[0-9]'|[0-9] (in|ft|lb)\b`)
	inchInJSON = regexp.MustCompile(`[0-9]\\"`)
)

// sources are names of standards and laws, which keep their words.
var sources = regexp.MustCompile(`(American Softwood Lumber Standard|CPSC [^,)]*|Timber Construction|\(AWC NDS[^)]*\))`)

// read returns all a reader of a plan is shown: the book, the lists, plan.json and
// the messages, one text each.
func read(t *testing.T, p *Plan) map[string][]string {
	t.Helper()
	out := map[string][]string{}
	for _, sheet := range p.Book.Sheets {
		out["book"] = append(out["book"], lettered(sheet.Items)...)
	}
	for _, l := range p.Lists() {
		out[l.Path] = strings.Split(string(l.Bytes), "\n")
	}
	for _, s := range p.Snags {
		out["messages"] = append(out["messages"], s.What, s.Why)
	}
	return out
}

func lettered(items []drawing.Item) (out []string) {
	for _, item := range items {
		switch x := item.(type) {
		case drawing.Text:
			out = append(out, x.Line.Says())
		case *drawing.Group:
			out = append(out, lettered(x.Items)...)
		}
	}
	return out
}

// Nothing of an edition is said in the units, with the words or in the money of the
// other, and none has an error.
func TestEditionsSpeakOneTongue(t *testing.T) {
	for _, file := range allFive {
		for _, in := range region.All() {
			t.Run(file+" "+in.String(), func(t *testing.T) {
				t.Parallel()
				p := with(t, example(t, file), Options{Want: Book, Region: &in})
				if p.Snags.Errors() > 0 {
					t.Fatal(p.Messages())
				}
				wrong := mmSigns
				if in.Metric() {
					wrong = inchSigns
				}
				texts := read(t, p)
				told := 0
				for _, where := range slices.Sorted(maps.Keys(texts)) {
					for _, text := range texts[where] {
						bare := sources.ReplaceAllString(text, "")
						if in == region.Australasia {
							bare = strings.ReplaceAll(bare, "$", "")
						}
						if found := wrong.FindString(bare); found != "" && told < 12 {
							told++
							t.Errorf("%s says %q: %s", where, found, text)
						}
					}
				}
				if in.Metric() {
					for _, s := range p.Snags {
						for _, m := range s.Mends {
							if found := inchUnits.FindString(m.Says); found != "" {
								t.Errorf("a mend says %q: %s", found, m.Says)
							}
						}
					}
					if at := inchInJSON.FindIndex(p.JSON()); at != nil {
						t.Errorf("plan.json says inches: %s", p.JSON()[max(0, at[0]-60):at[1]])
					}
				}
				if len(texts["book"]) < 200 {
					t.Fatalf("only %d texts in the book", len(texts["book"]))
				}
			})
		}
	}
}

// What each edition of each piece comes to: its size, its parts and what is bought
// for it, worked out again from what is sold there.
func TestGoldenEditions(t *testing.T) {
	var b strings.Builder
	for _, file := range allFive {
		for _, in := range []region.Region{region.Europe, region.Australasia} {
			p := with(t, example(t, file), Options{Want: Settled, Region: &in})
			r := p.Readings
			fmt.Fprintf(&b, "== %s, %v: %s × %s × %s, %s, %s\n", r.Piece, in, r.Overall[0].Text, r.Overall[1].Text, r.Overall[2].Text, r.Mass.Text, r.Buy.Cost.Text)
			for _, q := range r.Parts {
				fmt.Fprintf(&b, "%-2s %2d × %s, %s × %s × %s of %s\n", q.Letter, q.Count, strings.TrimSpace(q.Name+" "+q.Hand), q.Thick.Text, q.Wide.Text, q.Long.Text, q.Stock)
			}
			for _, list := range [][]shop.BuyLine{r.Buy.Boards, r.Buy.Hardware, r.Buy.Goods} {
				for _, l := range list {
					fmt.Fprintf(&b, "   %3d %s%s%s, %s\n", l.Count, l.What, before(" ", textOf(l.Length)), before(", ", l.Packs), textOf(l.Total))
				}
			}
		}
	}
	const path = "testdata/editions.golden"
	if *update {
		if err := os.WriteFile(path, []byte(b.String()), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(strings.Split(string(want), "\n"), strings.Split(b.String(), "\n")); d != "" {
		t.Errorf("-want +got:\n%s", d)
	}
}
