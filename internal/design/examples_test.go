package design

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"scantling/internal/board"
	"scantling/internal/measure"
	"scantling/internal/snag"
	"scantling/internal/source"
)

// The boards of every example, one a line, as a person can check them with a tape:
// section and length, where the blank's corner lies, and what is cut.
func TestExamples(t *testing.T) {
	files, err := filepath.Glob("../../examples/*.yaml")
	if err != nil || len(files) < 2 {
		t.Fatalf("%d examples, %v", len(files), err)
	}
	for _, file := range files {
		src, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		tree, list := source.Parse(file, src)
		piece, more := Open(tree).Evaluate(nil)
		if list = append(list, more...); list.Errors() > 0 {
			t.Errorf("%s:\n%s", file, list.Text(snag.Sources{file: src}))
		}
		name := strings.TrimSuffix(filepath.Base(file), ".yaml")
		golden(t, name+".golden", describe(piece))
	}
}

// describe prints a piece for golden files, lengths to 1/1000 in.
func describe(p *Piece) string {
	var b strings.Builder
	in := func(mm float64) string { return strings.TrimSuffix(fmt.Sprintf("%.3f", mm/25.4+1e-12), ".000") }
	for _, x := range p.Boards {
		o := x.Pose.At
		fmt.Fprintf(&b, "%s: %s\n  %s × %s × %s, corner at %s right, %s back, %s up\n", x.ID, x.Spoken,
			x.T.Exact(measure.Imperial), x.W.Exact(measure.Imperial), in(x.L), in(o.X), in(o.Y), in(o.Z))
		for _, c := range x.Cuts {
			switch {
			case c.Square:
			case c.Kind == board.EndCut || c.Kind == board.Taper:
				mitre, bevel := board.Setting(c.Plane)
				fmt.Fprintf(&b, "  %s %s%s: mitre %.3f°, bevel %.3f°, meets %q\n", x.Sides[c.Side], c.Kind, named(c.Name), mitre*57.29577951308232, bevel*57.29577951308232, c.Meets)
			default:
				fmt.Fprintf(&b, "  %s%s round %s: along %s … %s, across %s … %s\n", c.Kind, named(c.Name), c.Meets, in(c.Low.X), in(c.High.X), in(c.Low.Y), in(c.High.Y))
			}
		}
	}
	for _, r := range p.Rows {
		fmt.Fprintf(&b, "row %s: %g boards, gap %s, %s\n", r.Name, r.Count.Q.V, in(r.Gap.Q.V/1e6), r.Rule)
	}
	for _, j := range p.Joints {
		with := "a half lap"
		if len(j.With) > 0 {
			with = j.With[0].Phrase
		}
		fmt.Fprintf(&b, "joint %s: %d and %d boards with %s\n", j.Name, len(j.Sides[0]), len(j.Sides[1]), with)
	}
	for _, s := range p.Steps {
		fmt.Fprintf(&b, "step %s: adds %v %v, makes %q\n", strings.TrimSpace(s.Each+" "+s.Name), s.Add, s.AddMade, s.Makes)
	}
	return b.String()
}

func named(name string) string {
	if name == "" {
		return ""
	}
	return " " + name
}

// Every figure depends on exactly the sizes its From names: changing a size
// changes those boards' quantities and no other.
func TestFromIsExact(t *testing.T) {
	for _, file := range []string{"../../examples/sorting-table.yaml", "../../examples/pickers-chair.yaml"} {
		src, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		tree, _ := source.Parse(file, src)
		d := Open(tree)
		before, _ := d.Evaluate(nil)
		for i, size := range before.Sizes {
			moved := size.Value
			if moved.V += size.Step.V; moved.V > size.Most.V {
				moved.V -= 2 * size.Step.V
			}
			after, list := d.Evaluate(Settings{{size.Name, moved.Exact(d.units)}})
			if list.Errors() > 0 {
				continue // that corner is nobody's; the figures are not comparable
			}
			ordinal := d.sizes[i].is.node.Ordinal
			for _, b := range before.Boards {
				o := after.Board(b.ID)
				if o == nil {
					if b.Row == 0 {
						t.Errorf("%s: changing %s took %s away", file, size.Name, b.ID)
					}
					continue
				}
				for _, q := range []struct {
					what    string
					has     bool
					changed bool
				}{
					{"section", b.Section.Has(ordinal), b.T != o.T || b.W != o.W},
					{"length", b.LengthFrom.Has(ordinal), apart(b.L, o.L)},
					{"place", b.Place.Has(ordinal), b.Pose.At.Distance(o.Pose.At) > 1e-6 || b.Pose.X.Distance(o.Pose.X) > 1e-9 || b.Pose.Z.Distance(o.Pose.Z) > 1e-9},
					{"anything", b.All().Has(ordinal), apart(b.Solid.Volume, o.Solid.Volume)},
				} {
					if q.changed && !q.has {
						t.Errorf("%s: %s changed the %s of %s, which does not know of it", file, size.Name, q.what, b.ID)
					}
				}
			}
			for k, n := range before.Needs {
				if n.Holds != after.Needs[k].Holds && !n.From.Has(ordinal) {
					t.Errorf("%s: %s changed whether %s, which does not know of it", file, size.Name, n.That)
				}
			}
		}
	}
}

func apart(a, b float64) bool { return a-b > 1e-6 || b-a > 1e-6 }
