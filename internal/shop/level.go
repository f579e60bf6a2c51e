package shop

import (
	"math"

	"scantling/internal/geom"
	"scantling/internal/lumber"
	"scantling/internal/measure"
	"scantling/internal/span"
	"scantling/internal/square"
)

// terrace is how much a paved terrace falls, so that water runs off: 1/4 in a
// foot. Source: common practice.
const terrace = 1.0 / 48

// rim is what is taken off the edges of a foot, so that it does not splinter when
// it is dragged. Source: common practice.
var rim = round{0.125, 3}

// level adds the step in which four feet or more are made to stand: right after
// the last board is in, before anything is filled, tightened for good or used.
func (s *shop) level() {
	feet := square.Feet(s.piece)
	if len(feet) < 4 {
		return
	}
	last := -1
	for n, r := range s.out.Steps {
		if len(r.New) > 0 {
			last = n
		}
	}
	if last < 0 {
		return
	}
	box, from, treated := geom.EmptyBox(), span.Set{}, false
	for _, f := range feet {
		box = box.Union(f.Box)
		for _, i := range f.Boards {
			b := s.piece.Boards[i]
			from = from.Union(b.All())
			treated = treated || b.Stock != nil && b.Stock.Treatment != lumber.Untreated
		}
	}
	size := box.Size()
	fall := s.pen.Length(float64(terrace*math.Max(size.X, size.Y)), from)
	bevel := rim.show(s.pen)
	count := s.pen.Count(len(feet), from)
	t := Words("Stand it on something flat: a level floor, or a sheet of plywood wedged level. If it rocks, push thin wedges under the feet that hang until all ").
		Show(count).Say(" bear. Make a block as high as the widest gap, slide it round every foot with a pencil on it, and saw or plane to the line. Take ").
		Show(bevel).Say(" off the lower edges of the feet all round, so that they do not splinter")
	if treated {
		t = t.Say(", and brush the fresh wood with end-cut preservative")
	}
	slope := "a quarter of an inch in a foot"
	if s.pen.Tape.Units() == measure.Metric {
		slope = "20 mm in a metre"
	}
	t = t.Say(". On a terrace that falls " + slope + " it stands ").Show(fall).Say(" lower at one end: put pads under the lower feet.")
	r := Step{Name: "Level the feet", Lies: "upright", Times: 1, Say: t, Present: s.out.Steps[last].Present}
	var all []int
	for _, id := range r.Present {
		all = append(all, s.at[id])
	}
	if kg, _, of := s.carried(all); kg > heavy {
		r.People = lifters(kg)
		r.Lift = Words("it weighs about ").Show(s.pen.Mass(kg, of))
	}
	r.People = max(1, r.People)
	r.Around = []Around{reading("level", Words("it stands when a sheet of paper goes under no foot"), practice, Figure{"feet", count}, Figure{"fall", fall}, Figure{"edge", bevel})}
	s.want(Jig{Step: last + 2, What: "scribing block", Count: 1, Long: blockLong.show(s.pen)})
	s.out.Steps = append(s.out.Steps[:last+1:last+1], append([]Step{r}, s.out.Steps[last+1:]...)...)
	for n := range s.out.Steps {
		s.out.Steps[n].Number = n + 1
	}
}
