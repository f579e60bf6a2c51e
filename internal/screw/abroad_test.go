package screw

import (
	"testing"

	"scantling/internal/region"
)

func TestSoldElsewhere(t *testing.T) {
	for _, c := range []struct {
		asked  string
		in     region.Region
		want   string // what is nearest there; "" where it is sold itself
		source string
	}{
		{"screw 8 x 2 1/2", region.America, "", "the American table"},
		{"screw 8 x 2 1/2", region.Europe, "deck screw 4.0 x 60 mm", "0.164 in is 4.17 mm, 2 1/2 in 63.5 mm"},
		{"screw 10 x 3", region.Australasia, "deck screw 10g x 75 mm", "3 in is 76 mm"},
		{"screw 5.0 x 80 mm", region.Europe, "", "the European table"},
		{"screw 5.0 x 80 mm", region.Australasia, "deck screw 10g x 75 mm", "a gauge 10 shank is 4.83 mm"},
		{"stainless carriage bolt 5/16", region.Europe, "stainless carriage bolt M8", "5/16 in is 7.94 mm"},
		{"outdoor glue", region.Europe, "", "sold everywhere"},
	} {
		f, err := Parse(c.asked)
		if err != nil {
			t.Fatal(err)
		}
		if f.SoldIn(c.in) != (c.want == "") {
			t.Errorf("%s in %v: sold %v (%s)", c.asked, c.in, f.SoldIn(c.in), c.source)
		}
		near, ok := f.Nearest(c.in)
		if want := c.want; ok && want == "" && near.Name() != f.Name() || ok && want != "" && near.Name() != want || !ok {
			t.Errorf("%s in %v: nearest %q, %v; want %q (%s)", c.asked, c.in, near.Name(), ok, want, c.source)
		}
	}
}
