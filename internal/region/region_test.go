package region

import "testing"

func TestParse(t *testing.T) {
	for _, r := range All() {
		if got, ok := Parse(r.String()); !ok || got != r {
			t.Errorf("%v reads back as %v, %v", r, got, ok)
		}
	}
	for _, c := range []struct {
		written string
		want    Region
		ok      bool
	}{
		{"us", America, true}, {" New  Zealand ", Australasia, true}, {"UK", Europe, true}, {"Europe", Europe, true}, {"", America, false}, {"Mars", America, false},
	} {
		if got, ok := Parse(c.written); got != c.want || ok != c.ok {
			t.Errorf("%q is read as %v, %v", c.written, got, ok)
		}
	}
	if America.Metric() || !Europe.Metric() || !Australasia.Metric() {
		t.Error("only America sells lumber in inches")
	}
}
