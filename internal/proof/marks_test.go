package proof

import (
	"strings"
	"testing"
)

func prose(text string) Prose { // #1/8"# is a figure
	var p Prose
	for i, s := range strings.Split(text, "#") {
		if i%2 == 0 {
			p = append(p, Span{Words: s})
		} else {
			p = append(p, Span{Number: figure(s)})
		}
	}
	return p
}

// The sentences of the steps, as they are read. Source: by hand.
func TestMarksAreRead(t *testing.T) {
	names := map[string]string{"left leg": "leg", "rail": "", "1st slat from the left": "slat/1"}
	for _, c := range []struct {
		text string
		want rule
		fail string
	}{
		{"left face against the right edge of the left leg", rule{mine: spot{"left face"}, theirs: spot{"right edge"}, board: "leg", against: true}, ""},
		{"back face flush with the bottom of the notch of the left leg", rule{mine: spot{"back face"}, theirs: spot{"bottom of the notch"}, board: "leg"}, ""},
		{`left end #1"# out past the left face of the left leg`, rule{mine: spot{"left end"}, theirs: spot{"left face"}, board: "leg", off: 25.4}, ""},
		{`left end #1"# in from the left face of the left leg`, rule{mine: spot{"left end"}, theirs: spot{"left face"}, board: "leg", off: -25.4}, ""},
		{`top edge #1/2"# below the top right corner of the left leg`, rule{mine: spot{"top edge"}, theirs: spot{"top right corner"}, board: "leg", off: 12.7, beyond: "bottom"}, ""},
		{`top left corner #2"# from the bottom left corner of the left leg`, rule{mine: spot{"top left corner"}, theirs: spot{"bottom left corner"}, board: "leg", off: 50.8, tips: true}, ""},
		{`left edge from the left edge of the 1st slat from the left, running: #1"#, #2"#`, rule{mine: spot{"left edge"}, theirs: spot{"left edge"}, board: "slat/1", row: []float64{-25.4, -50.8}}, ""},
		{"left face against the right edge of the rail", rule{}, "more than one board"},
		{"left face against the right edge of the shelf", rule{}, "no board"},
		{`left face #1"# somewhere near the right edge of the left leg`, rule{}, "which side"},
		{"left face near the left leg", rule{}, "cannot be read"},
	} {
		got, err := readMark(prose(c.text), names)
		switch {
		case c.fail != "":
			if err == nil || !strings.Contains(err.Error(), c.fail) {
				t.Errorf("%s: %v, want %q", c.text, err, c.fail)
			}
		case err != nil:
			t.Errorf("%s: %v", c.text, err)
		default:
			for i := range got.row {
				if d := got.row[i] - c.want.row[i]; d > 1e-9 || d < -1e-9 {
					t.Errorf("%s: row %v", c.text, got.row)
				}
			}
			got.row, c.want.row = nil, nil
			if d := got.off - c.want.off; d > 1e-9 || d < -1e-9 {
				t.Errorf("%s: off %g, want %g", c.text, got.off, c.want.off)
			}
			got.off = c.want.off
			if got.mine != c.want.mine || got.theirs != c.want.theirs || got.board != c.want.board || got.against != c.want.against || got.beyond != c.want.beyond || got.tips != c.want.tips {
				t.Errorf("%s: %+v", c.text, *got)
			}
		}
	}
	for _, says := range []string{"comes first; the rest is placed from it", "go by its left leg"} {
		if r, err := readMark(prose(says), names); r != nil || err != nil {
			t.Errorf("%s: %v %v", says, r, err)
		}
	}
}

// Whatever the pages say, they are read and built, or told to be unclear, without a
// panic; and nothing is proved that joins nothing.
func FuzzRead(f *testing.F) {
	f.Add([]byte(`{"boards":[{"id":"a","part":"A","called":"rail","lies":{"end":"left end","face":"top face"}}],"parts":[{"letter":"A","thickness":{"shown":"1\""},"width":{"shown":"4\""},"length":{"shown":"24\""},"drawn":{"end":"left end","face":"top face"}}],"steps":[{"marks":[{"boards":["a"],"words":[[{"words":"comes first; the rest is placed from it"}]]}]}]}`))
	f.Add([]byte(`{"boards":[{}],"parts":[{}],"steps":[{"marks":[{"boards":["x"],"words":[[{"number":{"shown":"1\""}}]]}]}]}`))
	f.Fuzz(func(t *testing.T, src []byte) {
		p, err := Read(src)
		if err != nil {
			return
		}
		if r := Build(p); r.Proved && len(r.Joints) == 0 {
			t.Error("proved, and nothing was joined")
		}
	})
}
