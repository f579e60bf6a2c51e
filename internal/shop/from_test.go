package shop

import (
	"fmt"
	"os"
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"scantling/internal/board"
	"scantling/internal/design"
	"scantling/internal/geom"
	"scantling/internal/joint"
	"scantling/internal/measure"
	"scantling/internal/part"
	"scantling/internal/source"
)

// open reads an example of the project.
func open(t *testing.T, name string) *design.Design {
	t.Helper()
	src, err := os.ReadFile("../../examples/" + name)
	if err != nil {
		t.Fatal(err)
	}
	tree, snags := source.Parse(name, src)
	if snags.Errors() > 0 {
		t.Fatal(snags)
	}
	return design.Open(tree)
}

func readings(t *testing.T, d *design.Design, set design.Settings) (*design.Piece, *Readings) {
	t.Helper()
	p, snags := d.Evaluate(set)
	if p == nil {
		t.Fatal(snags)
	}
	m := joint.Meet(p)
	joints, _ := joint.Find(p, m)
	r, _ := Compute(p, m, joints, part.Sort(p), Pen{})
	return p, r
}

// numbers gathers every printed number under v by the path to it.
func numbers(path string, v reflect.Value, out map[string]Shown) {
	switch v.Kind() {
	case reflect.Struct:
		if s, ok := v.Interface().(Shown); ok {
			out[path] = s
			return
		}
		for i := range v.NumField() {
			if f := v.Type().Field(i); f.IsExported() && v.Type().PkgPath() == reflect.TypeFor[Shown]().PkgPath() {
				numbers(path+"."+f.Name, v.Field(i), out)
			}
		}
	case reflect.Pointer:
		if !v.IsNil() {
			numbers(path, v.Elem(), out)
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			numbers(fmt.Sprint(path, "[", i, "]"), v.Index(i), out)
		}
	}
}

// shapeOf tells readings apart whose figures cannot be compared one to one.
func shapeOf(r *Readings) string {
	out := ""
	for _, p := range r.Parts {
		out += fmt.Sprintln(p.Letter, p.Name, p.Rip, len(p.Cuts), len(p.Edges))
	}
	return out
}

// A figure that changes when a size changes says that it comes from that size.
func TestFiguresSayWhatTheyComeFrom(t *testing.T) {
	for _, name := range []string{"sorting-table.yaml", "pickers-chair.yaml"} {
		d := open(t, name)
		p, r := readings(t, d, nil)
		base := map[string]Shown{}
		numbers("", reflect.ValueOf(*r), base)
		changed := 0
		for i, z := range p.Sizes {
			for _, by := range []float64{z.Step.V, -z.Step.V} {
				q := z.Value
				if q.V += by; q.V < z.Least.V || q.V > z.Most.V {
					continue
				}
				_, other := readings(t, d, design.Settings{{Name: z.Name, Value: q.Exact(measure.Imperial)}})
				if shapeOf(other) != shapeOf(r) {
					continue
				}
				now := map[string]Shown{}
				numbers("", reflect.ValueOf(*other), now)
				size := r.Sizes[i].Value.From.Ordinals()[0]
				for path, was := range base {
					is, ok := now[path]
					if !ok || is.Text == was.Text {
						continue
					}
					changed++
					if !was.From.Has(size) && !is.From.Has(size) {
						t.Errorf("%s: %s changes %s from %s to %s, which does not say so", name, z.Name, path, was.Text, is.Text)
					}
				}
			}
		}
		if changed < 100 {
			t.Errorf("%s: only %d figures changed: nothing was tried", name, changed)
		}
	}
}

// The mirror image of a board is sawn by the same numbers, the saw swung the
// other way, the other edge against the fence.
func TestMirrorImageSwingsTheOtherWay(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		tan := rapid.SampledFrom([]float64{-0.6, -0.2, 0.1, 0.3})
		n := geom.Vec{X: 1, Y: tan.Draw(r, "y"), Z: rapid.SampledFrom([]float64{-0.3, 0, 0.2}).Draw(r, "z")}
		b := &board.Board{L: 1000, W: inches(3.5), T: inches(1.5), Pose: geom.Unmoved(), Sides: [6]string{"left", "right", "front", "back", "bottom", "top"},
			Cuts: []board.Cut{{Kind: board.EndCut, Side: board.Finish, Plane: geom.Facing(geom.Vec{X: 900, Y: 40, Z: 20}, n)}}}
		b.Build()
		image := b.Mirrored(geom.Facing(geom.Vec{}, geom.Vec{Y: 1}))
		one := (&shop{}).sawCut(&design.Board{Board: b}, b.Cuts[0])
		two := (&shop{}).sawCut(&design.Board{Board: image}, image.Cuts[0])
		if one.Setting.Text != two.Setting.Text || one.Offset.Text != two.Offset.Text || one.Swing == two.Swing || one.Keep != two.Keep {
			r.Fatalf("%+v\nmirrored\n%+v", one, two)
		}
		if (one.Bevel == nil) != (two.Bevel == nil) || one.Bevel != nil && one.Bevel.Text != two.Bevel.Text {
			r.Fatalf("bevels %v and %v", one.Bevel, two.Bevel)
		}
	})
}
