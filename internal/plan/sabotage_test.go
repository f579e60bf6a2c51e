package plan

import (
	"fmt"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"scantling/internal/measure"
	"scantling/internal/proof"
)

// notNeeded are the printed fields that may be spoiled without the piece coming out
// wrong, with the reason. Every other field is caught.
var notNeeded = []struct{ field, why string }{
	{`boards\[\]\.called`, "the name of a board no mark goes by"},
	{`boards\[\]\.lies\.(end|face)`, "a part that is the same turned round"},
	{`parts\[\]\.drawn\.end`, "a part that is the same turned round"},
	{`joints(\[\]\.(name|pairs))?`, "what is fastened, not where: without it less is measured, and the boards lie as they did"},
	{`parts\[\]\.boards(\[\])?`, "said with the boards too"},
	{`parts\[\]\.(hand|twin|name)`, "for the reader; which part a board is goes by its letter"},
	{`parts\[\]\.length\.how`, "a length that fits as printed"},
	{`parts\[\]\.cuts`, "a rounded edge, which no other board meets"},
	{`parts\[\]\.cuts\[\]\(edge\).*`, "a rounded edge, which no other board meets"},
	{`parts\[\]\.cuts\[\]\(.*\)\.by_marks`, "which of three ways that agree is better; on other cuts nothing"},
	{`parts\[\]\.cuts\[\]\((taper|notch|half lap|slot|arch|round end|round corner)\)\.name`, "the name of a cut in the design"},
	{`parts\[\]\.cuts\[\]\(end\)\.long_face`, "an end sawn without a tilt"},
	{`parts\[\]\.cuts\[\]\(.*\)\.words`, "of a sentence, words between its figures"},
	{`parts\[\]\.cuts\[\]\(.*\)\.words\[\]\.words`, "of a sentence, words beside those that name sides and marks"},
	{`parts\[\]\.cuts\[\]\((taper|round corner|round end|arch)\)\.words\[\]\.number\.shown`, "a figure for checking, or one that the sentence says twice"},
	{`parts\[\]\.cuts\[\]\((round corner|round end)\)\.marks\[\]\.label`, "a radius is told by its place in the sentence"},
	{`(parts\[\]|steps\[\]\.fasten\[\]\.drill\[\])\.holes\[\]\.kind`, "told by the bit"},
	{`steps\[\]\.fasten`, "fasteners whose holes are drilled at the bench"},
	{`steps\[\]\.(name|boards|boards\[\])`, "told with the marks"},
	{`steps\[\](\.again\[\])?\.marks\[\]\.called`, "told by the board it is"},
	{`steps\[\]\.marks\[\]\.words\[\]\[\]\.words`, "a comma in a row of marks"},
}

// Each printed field is spoiled in turn, in a few places, and the piece is built from
// the spoiled pages: a length off by 1/8 in, a mark off by 1/4 in, an angle by two
// degrees, left for right, one of a list missing. Every field that matters to the
// shape is caught: the plan is then not proved.
func TestSabotage(t *testing.T) {
	passed := map[string]string{} // fields spoiled and not caught, with one place
	spoiled := 0
	for _, name := range []string{"sorting-table", "yard-gate", "pickers-chair"} {
		p := with(t, example(t, name), Options{Want: Settled})
		pages, err := proof.Read(p.JSON())
		if err != nil {
			t.Fatal(err)
		}
		d := p.drawn()
		fits := func() bool {
			r := proof.Build(pages)
			return r.Proved && r.Like(d).Alike
		}
		if !fits() {
			t.Fatalf("%s is not proved unspoiled", name)
		}
		all := map[string][]spot{}
		spots(reflect.ValueOf(pages).Elem(), "", all)
		for field, list := range all {
			places := []int{0, len(list) / 2}
			if field == "parts[].cuts" { // few, and of many kinds
				places = places[:0]
				for i := range list {
					places = append(places, i)
				}
			}
			for _, i := range slices.Compact(places) {
				s := list[i]
				if !s.spoil() {
					continue
				}
				spoiled++
				if fits() {
					passed[field] = fmt.Sprintf("%s, %s: %s", name, s.path, s.note)
				}
				s.at.Set(s.was)
			}
		}
	}
	if spoiled < 200 {
		t.Errorf("only %d places were spoiled", spoiled)
	}
	used := map[string]bool{}
	for field, where := range passed {
		ok := false
		for _, n := range notNeeded {
			if regexp.MustCompile("^" + n.field + "$").MatchString(field) {
				ok, used[n.field] = true, true
			}
		}
		if !ok {
			t.Errorf("%s was spoiled and the plan is proved: %s", field, where)
		}
	}
	for _, n := range notNeeded {
		if !used[n.field] {
			t.Errorf("%s is listed as not needed (%s), and is always caught", n.field, n.why)
		}
	}
}

// A left and a right that change places do not fit.
func TestSwappedHands(t *testing.T) {
	p := with(t, example(t, "sorting-table"), Options{Want: Settled})
	pages, err := proof.Read(p.JSON())
	if err != nil {
		t.Fatal(err)
	}
	twins := map[string]string{}
	for _, q := range pages.Parts {
		if q.Twin != "" {
			twins[q.Letter] = q.Twin
		}
	}
	if len(twins) == 0 {
		t.Fatal("the table has no twins any more: take another piece")
	}
	for i := range pages.Boards {
		if other := twins[pages.Boards[i].Part]; other != "" {
			pages.Boards[i].Part = other
		}
	}
	if r := proof.Build(pages); r.Proved && r.Like(p.drawn()).Alike {
		t.Error("hands changed places, and the plan is proved")
	}
}

// A spot is one place in the pages that can be spoiled.
type spot struct {
	path, note string
	mark       bool // a figure of a step
	at, was    reflect.Value
}

var index = regexp.MustCompile(`\[\d+\]`)

// spots lists every text, flag and list of the pages by the name of the field.
func spots(v reflect.Value, path string, out map[string][]spot) {
	add := func() {
		field := index.ReplaceAllString(path, "[]")
		out[field] = append(out[field], spot{path: path, mark: strings.HasPrefix(path, "steps"), at: v})
	}
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			spots(v.Elem(), path, out)
		}
	case reflect.Struct:
		if c, ok := v.Interface().(proof.Cut); ok {
			path += "(" + c.Kind + ")"
		}
		for i := range v.NumField() {
			name, _, _ := strings.Cut(v.Type().Field(i).Tag.Get("json"), ",")
			spots(v.Field(i), strings.TrimPrefix(path+"."+name, "."), out)
		}
	case reflect.Slice:
		if v.Len() > 0 {
			add()
		}
		for i := range v.Len() {
			spots(v.Index(i), fmt.Sprintf("%s[%d]", path, i), out)
		}
	case reflect.Array:
		for i := range v.Len() {
			spots(v.Index(i), path, out)
		}
	case reflect.String, reflect.Bool:
		add()
	}
}

// contrary says the contrary.
var contrary = strings.NewReplacer("left", "right", "right", "left", "top", "bottom", "bottom", "top", "front", "back", "back", "front",
	"out past", "in from", "in from", "out past", "above", "below", "below", "above")

// spoil makes the spot wrong, and reports false if there is nothing to spoil.
func (s *spot) spoil() bool {
	s.was = reflect.New(s.at.Type()).Elem()
	s.was.Set(s.at)
	switch s.at.Kind() {
	case reflect.Bool:
		s.at.SetBool(!s.at.Bool())
	case reflect.Slice: // the middle one is missing
		less := reflect.MakeSlice(s.at.Type(), 0, s.at.Len())
		for i := range s.at.Len() {
			if i != s.at.Len()/2 {
				less = reflect.Append(less, s.at.Index(i))
			}
		}
		s.at.Set(less)
	case reflect.String:
		was := s.at.String()
		if was == "" || strings.HasPrefix(was, "either ") {
			return false
		}
		now := contrary.Replace(was)
		if q, err := measure.Parse(was); err == nil {
			switch q.D {
			case measure.DimLength:
				l, _ := q.Length()
				by := measure.Inch / 8
				if s.mark {
					by = measure.Inch / 4
				}
				now = (l + by).Exact(measure.Imperial)
			case measure.DimAngle:
				q.V += 2e9
				now = q.Text(measure.Sixteenth)
			}
		} else if now == was {
			now += "x"
		}
		s.at.SetString(now)
		s.note = was + " became " + now
	}
	return true
}
