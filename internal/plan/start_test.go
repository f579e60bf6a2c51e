package plan_test

import (
	"context"
	"strings"
	"testing"

	"scantling/internal/design"
	"scantling/internal/measure"
	"scantling/internal/plan"
	"scantling/internal/region"
	"scantling/internal/snag"
	"scantling/internal/source"
	"scantling/internal/start"
)

// begun runs a begun piece as far as is wanted and returns what it tells but
// for prices a book lacks.
func begun(t *testing.T, src []byte, o plan.Options) snag.List {
	t.Helper()
	p, err := plan.Open("begun.yaml", src).Run(context.Background(), o)
	if err != nil {
		t.Fatal(err)
	}
	var told snag.List
	for _, s := range p.Snags {
		if s.Code != "no-price" {
			told = append(told, s)
		}
	}
	return told
}

// What is begun checks clean: nothing to mend and nothing to take care of, as
// written and at every corner of its ranges under every choice.
func TestBegunPiecesCheckClean(t *testing.T) {
	for _, u := range start.Uses() {
		t.Run(u.Name, func(t *testing.T) {
			src, err := start.Start(start.Answers{What: u.Name})
			if err != nil {
				t.Fatal(err)
			}
			tree, snags := source.Parse("begun.yaml", src)
			if len(snags) > 0 {
				t.Fatal(snags.Text(snag.Sources{"begun.yaml": src}))
			}
			cases, sampled := design.Open(tree).Cases()
			if sampled || len(cases) < 5 {
				t.Errorf("%d cases, sampled %v", len(cases), sampled)
			}
			for _, c := range cases {
				var set []plan.Setting
				for _, s := range c {
					set = append(set, plan.Setting{Name: s.Name, Value: s.Value})
				}
				if told := begun(t, src, plan.Options{Set: set, Want: plan.Settled}); told.Errors() > 0 || told.Count(snag.Caution) > 0 {
					t.Errorf("%v:\n%s", set, told.Text(snag.Sources{"begun.yaml": src}))
				}
			}
		})
	}
}

// Between the corners too: rows of whole boards come out at every inch.
func TestBegunPiecesAtEverySize(t *testing.T) {
	for _, u := range start.Uses() {
		src, err := start.Start(start.Answers{What: u.Name})
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range u.Sizes {
			for l := s.From; l <= s.To; l += measure.Inch {
				set := plan.Setting{Name: s.Name, Value: l.Exact(measure.Imperial)}
				if told := begun(t, src, plan.Options{Set: []plan.Setting{set}, Want: plan.Live}); told.Errors() > 0 || told.Count(snag.Caution) > 0 {
					t.Errorf("%s, %v:\n%s", u.Name, set, told.Text(snag.Sources{"begun.yaml": src}))
				}
			}
		}
	}
}

// And so it does for every answer.
func TestEveryAnswerChecksClean(t *testing.T) {
	for _, u := range start.Uses() {
		for i, p := range start.Places() {
			a := start.Answers{What: u.Name, Name: "The " + u.Name + ", by the gate: {1}", Stands: p.Name, Wood: start.Woods()[i%2]}
			for k, s := range u.Sizes {
				l := []measure.Length{s.From, s.To, (s.From + s.To) / 2}[(i+k)%3].Exact(measure.Imperial)
				switch s.Name {
				case "length":
					a.Length = l
				case "depth":
					a.Depth = l
				case "height":
					a.Height = l
				}
			}
			src, err := start.Start(a)
			if err != nil {
				t.Errorf("%+v: %v", a, err)
				continue
			}
			told := begun(t, src, plan.Options{Want: plan.Settled})
			if told.Errors() > 0 || told.Count(snag.Caution) > 0 {
				t.Errorf("%+v:\n%s", a, told.Text(snag.Sources{"begun.yaml": src}))
			}
			if !strings.Contains(string(src), "# It ") || strings.Contains(string(src), "STANDS") {
				t.Errorf("%+v: the file does not say where it stands", a)
			}
		}
	}
}

// In other regions what is begun is lumber, fasteners and sizes of their own, and
// checks as clean.
func TestBegunElsewhere(t *testing.T) {
	for _, in := range []region.Region{region.Europe, region.Australasia} {
		for i, u := range start.UsesIn(in) {
			for _, wood := range []string{start.Woods()[(i+int(in))%2]} {
				src, err := start.Start(start.Answers{What: u.Name, Wood: wood, Region: in})
				if err != nil {
					t.Fatal(err)
				}
				tree, _ := source.Parse("begun.yaml", src)
				cases, _ := design.Open(tree).Cases()
				for _, c := range append(cases, nil) {
					var set []plan.Setting
					for _, s := range c {
						set = append(set, plan.Setting{Name: s.Name, Value: s.Value})
					}
					if told := begun(t, src, plan.Options{Set: set, Want: plan.Settled}); told.Errors() > 0 || told.Count(snag.Caution) > 0 || strings.Contains(string(src), "|") {
						t.Errorf("%s of %s in %v, %v:\n%s", u.Name, wood, in, set, told.Text(snag.Sources{"begun.yaml": src}))
						break
					}
				}
			}
		}
	}
}
