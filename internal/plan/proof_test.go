package plan

import (
	"encoding/json"
	"reflect"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"scantling/internal/proof"
	"scantling/internal/region"
)

// Every example, built again from its pages in three ways, fits within a sixteenth
// of an inch: as its file has it, with every choice, at corners of its sizes, and in
// its editions for the other regions.
func TestExamplesAreProved(t *testing.T) {
	for _, name := range []string{"sorting-table", "pickers-chair", "herb-planter", "yard-gate", "picnic-table"} {
		src := example(t, name)
		first := run(t, src, Live)
		sets := choices(first)
		for i, at := range []int{0b010011, 0b101100, 0b110101} {
			sets = append(sets, append(corner(first, at), sets[i%len(sets)]...))
		}
		for _, set := range sets {
			p := run(t, src, Settled, set...)
			switch called := strings.Join(append([]string{name}, set...), " "); {
			case p.Snags.Errors() > 0:
			default:
				proved(t, called, p)
			}
		}
		proved(t, name, run(t, src, Settled))
		for _, in := range []region.Region{region.Europe, region.Australasia} {
			proved(t, name+", "+in.String(), with(t, src, Options{Want: Settled, Region: &in}))
			if name == "sorting-table" {
				proved(t, name+" panel diagonal, "+in.String(), with(t, src, Options{Want: Settled, Region: &in}, "panel", "diagonal"))
			}
		}
	}
}

func proved(t *testing.T, name string, p *Plan) {
	t.Helper()
	r := p.Proof
	if r == nil {
		t.Errorf("%s: nothing was built", name)
		return
	}
	for _, b := range r.Builds {
		t.Logf("%s %v: gap %.2f, overlap %.2f, holes %.2f mm", name, b.Way, b.Gap, b.Over, b.Hole)
	}
	t.Logf("%s: parts %.2f, joints %.2f mm from the design", name, p.Likeness.Part, p.Likeness.Slip)
	if p.proved() {
		return
	}
	what, _ := p.worst()
	t.Errorf("%s is not proved: %s", name, what)
	for _, u := range r.Unclear {
		t.Errorf("  %s", u)
	}
	for _, f := range append(r.Joints, r.Clashes...) {
		if max(f.Gap, f.Over, f.Hole) > 1.5 {
			t.Errorf("  %s %v: gap %.2f, overlap %.2f, holes %.2f mm", f.Joint, f.Boards, f.Gap, f.Over, f.Hole)
		}
	}
}

// The proof is given text and nothing else: its input has no field that could hold
// an exact value, and a plan.json whose every number is 0, without poses and solids,
// gets the verdict of the whole one.
func TestProofSeesOnlyWhatIsPrinted(t *testing.T) {
	onlyText(t, reflect.TypeFor[proof.Pages](), "Pages")
	for _, name := range []string{"sorting-table", "picnic-table"} {
		p := with(t, example(t, name), Options{Want: Settled})
		given, err := p.printed()
		if err != nil {
			t.Fatal(err)
		}
		whole, err := proof.Read(p.JSON())
		if err != nil {
			t.Fatal(err)
		}
		if d := cmp.Diff(whole, given); d != "" {
			t.Errorf("%s: the plan is proved from other pages than it prints:\n%s", name, d)
		}
		var doc any
		if err := json.Unmarshal(p.JSON(), &doc); err != nil {
			t.Fatal(err)
		}
		text, err := json.Marshal(zeroed(doc))
		if err != nil {
			t.Fatal(err)
		}
		bare, err := proof.Read(text)
		if err != nil {
			t.Fatal(err)
		}
		a, b := proof.Build(whole), proof.Build(bare)
		if !a.Proved || a.Gap != b.Gap || a.Over != b.Over || a.Hole != b.Hole || a.Proved != b.Proved || !reflect.DeepEqual(a.Joints, b.Joints) {
			t.Errorf("%s: %v %v %v, without exact values %v %v %v", name, a.Gap, a.Over, a.Hole, b.Gap, b.Over, b.Hole)
		}
	}
}

func onlyText(t *testing.T, of reflect.Type, path string) {
	switch of.Kind() {
	case reflect.Struct:
		for i := range of.NumField() {
			onlyText(t, of.Field(i).Type, path+"."+of.Field(i).Name)
		}
	case reflect.Slice, reflect.Array, reflect.Pointer:
		onlyText(t, of.Elem(), path)
	case reflect.String, reflect.Bool:
	default:
		t.Errorf("%s is a %v", path, of)
	}
}

// zeroed takes every number, pose and solid out of a plan.json.
func zeroed(v any) any {
	switch v := v.(type) {
	case float64:
		return 0
	case map[string]any:
		delete(v, "pose")
		delete(v, "solid")
		delete(v, "axes")
		for k := range v {
			v[k] = zeroed(v[k])
		}
	case []any:
		for i := range v {
			v[i] = zeroed(v[i])
		}
	}
	return v
}

// The plan says of every part what its length needs. Legs must match, or the table
// rocks; a shelf slat is taken from the work. Source: common practice.
func TestWhereASixteenthMatters(t *testing.T) {
	p := with(t, example(t, "sorting-table"), Options{Want: Book})
	want := map[string]string{"leg": "must match its twin", "upper rail": "must match its twin", "long apron": "must match its twin",
		"stretcher": "take from the work", "shelf slat": "take from the work", "lower rail": "take from the work", "end rim": "take from the work"}
	for _, q := range p.Readings.Parts {
		if w := want[q.Name]; w != "" && q.Need != w {
			t.Errorf("%s %s: %q, want %q", q.Letter, q.Name, q.Need, w)
		}
		if q.Need == "" {
			t.Errorf("%s %s needs nothing said", q.Letter, q.Name)
		}
		if q.Twin != "" {
			for _, o := range p.Readings.Parts {
				if o.Letter == q.Twin && o.Need != q.Need {
					t.Errorf("%s: %q, its twin %s: %q", q.Letter, q.Need, o.Letter, o.Need)
				}
			}
		}
	}
	if len(p.Readings.Care) != 3 || len(p.Hangs.Rows) != 2 || len(p.Hangs.Diagonals) == 0 || len(p.Hangs.Holes) == 0 {
		t.Errorf("%d sentences, %+v", len(p.Readings.Care), p.Hangs)
	}
}
