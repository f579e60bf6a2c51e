package cutplan

import (
	"context"
	"testing"

	"pgregory.net/rapid"

	"scantling/internal/measure"
)

// A sawyer saws boards at random and keeps what falls off as parts, so that the
// parts are known to come from those boards.
type sawyer struct {
	t     *rapid.T
	kerf  measure.Length
	parts []Part
}

// saw divides a region by a crosscut or a rip, or makes parts of it.
func (s *sawyer) saw(length, width measure.Length, depth int) {
	if length < 4*in || width < in {
		return
	}
	choice := rapid.IntRange(0, 3).Draw(s.t, "cut")
	switch {
	case depth > 3 || choice == 0:
		s.part(length, width)
	case choice == 1:
		s.nest(length, width)
	case choice == 2 && width >= 2*in:
		at := measure.Length(rapid.IntRange(4, int(width/(in/4))-1).Draw(s.t, "rip")) * in / 4
		s.saw(length, at, depth+1)
		s.saw(length, width-at-s.kerf, depth+1)
	default:
		at := measure.Length(rapid.IntRange(4*4, int(length/(in/4))).Draw(s.t, "crosscut")) * in / 4
		s.saw(at, width, depth+1)
		s.saw(length-at-s.kerf, width, depth+1)
	}
}

func (s *sawyer) part(length, width measure.Length) {
	s.parts = append(s.parts, Part{Name: "part", Count: 1, Width: width, Length: length.Floor(in / 64)})
}

// nest makes two parts of a region, which share a sloping cut; their outer ends
// are square, or slope likewise.
func (s *sawyer) nest(length, width measure.Length) {
	slope := rapid.SampledFrom([]measure.Length{in / 2, in, 3 * in}).Draw(s.t, "slope")
	kerf := measure.Length(along(int(s.kerf/(in/64)), int(width/(in/64)), int(slope/(in/64)))) * in / 64
	outer := rapid.SampledFrom([]measure.Length{0, slope}).Draw(s.t, "outer")
	long := ((length - kerf + slope) / 2).Floor(in / 64)
	if long < slope+outer+in {
		s.part(length, width)
		return
	}
	s.parts = append(s.parts, Part{Name: "nested", Count: 2, Width: width, Length: long, Start: outer, End: slope})
}

// However boards are sawn, what they cost is never below the bound of the parts
// they gave.
func TestNoLayoutBeatsTheBound(t *testing.T) {
	narrow, met := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		job := benchJob(11 * in / 2)
		s := &sawyer{t: t, kerf: job.Kerf}
		var cost measure.Money
		for range rapid.IntRange(1, 3).Draw(t, "boards") {
			o := rapid.SampledFrom(job.Stocks[0].Offers).Draw(t, "offer")
			cost += o.Price
			s.saw(o.Length-job.Trim, job.Stocks[0].Width, 0)
		}
		job.Parts = s.parts
		plan, err := Solve(context.Background(), job, Options{Nodes: 300})
		if err != nil {
			t.Fatal(err)
		}
		if plan.Bound > cost {
			t.Fatalf("bound %d, but boards for %d gave the parts %+v", plan.Bound, cost, job.Parts)
		}
		for _, p := range job.Parts {
			if p.Width < 11*in/4 {
				narrow++
			}
		}
		if plan.Optimal {
			met++
		}
	})
	if narrow == 0 || met == 0 {
		t.Errorf("%d narrow parts, %d bounds met: the property saw nothing", narrow, met)
	}
	t.Logf("%d narrow parts, %d bounds met", narrow, met)
}
