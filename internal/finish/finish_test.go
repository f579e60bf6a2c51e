package finish

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"scantling/internal/geom"
)

const squareFoot = 0.09290304 // m²

func TestAmounts(t *testing.T) {
	oil, ok := Lookup("Raw linseed oil")
	if !ok || oil.Name != "penetrating oil" {
		t.Fatalf("raw linseed oil is %v, %v", oil, ok)
	}
	if _, ok := Lookup("unicorn milk"); ok {
		t.Error("unicorn milk is known")
	}
	const gallon = 3.785411784
	for _, c := range []struct {
		source    string
		got, want float64
	}{
		// A picnic table's 79.3 ft² twice is 158.6 ft²: 1.06 gal at 150 ft²/gal (worked by hand), and a tenth for waste.
		{"158.6 ft² at 150 ft²/gal, gallons", oil.Need(Area{Faces: 79.3 * squareFoot}, 2).Most / gallon / 1.1, 158.6 / 150},
		{"at 250", oil.Need(Area{Faces: 79.3 * squareFoot}, 2).Least / gallon / 1.1, 158.6 / 250},
		{"end grain drinks three times", oil.Need(Area{EndGrain: 1}, 1).Most, oil.Need(Area{Faces: 3}, 1).Most},
		{"usual coats", float64(oil.Need(Area{}, 0).Coats), 2},
	} {
		if math.Abs(c.got/c.want-1) > 1e-5 {
			t.Errorf("%s: %v, want %v", c.source, c.got, c.want)
		}
	}
	if Cans(1, 1) != 1 || Cans(1.01, 1) != 2 || Cans(0, 1) != 0 {
		t.Error("cans are rounded up and never bought for nothing")
	}
}

// The faces of a box add up to its surface, whatever its size; a mitre's face is
// end grain up to 45°.
func TestAreaOfABox(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l, w, h := rapid.Float64Range(100, 3000).Draw(t, "l"), rapid.Float64Range(20, 300).Draw(t, "w"), rapid.Float64Range(10, 90).Draw(t, "h")
		var saw geom.Saw
		saw.Blank(l, w, h)
		a := Of(saw.Solid())
		if want := 2 * w * h * 1e-6; math.Abs(a.EndGrain-want) > 1e-12 {
			t.Fatalf("ends %v, want %v", a.EndGrain, want)
		}
		if want := 2 * l * (w + h) * 1e-6; math.Abs(a.Faces-want) > 1e-12 {
			t.Fatalf("faces %v, want %v", a.Faces, want)
		}
	})
}
