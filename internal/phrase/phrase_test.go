package phrase

import "testing"

func TestPhrases(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{List(nil), ""}, {List([]string{"a"}), "a"}, {List([]string{"a", "b"}), "a and b"}, {List([]string{"a", "b", "c"}), "a, b and c"},
		{Begin("the leg"), "The leg"}, {Begin("“top” cannot be a name"), "“top” cannot be a name"}, {Begin("3 screws"), "3 screws"}, {Begin(""), ""},
		{Spaced("5th_top_slat"), "5th top slat"},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
}
