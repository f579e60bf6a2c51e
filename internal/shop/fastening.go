package shop

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"scantling/internal/joint"
	"scantling/internal/measure"
	"scantling/internal/phrase"
	"scantling/internal/screw"
	"scantling/internal/snag"
)

// A waiting pair is one that is not fastened yet.
type waiting struct {
	number int // of its joint in the file
	joint  *joint.Joint
	pair   *joint.Pair
	again  bool // of a further doing of a step, elsewhere
	held   bool // some step has put it together and left the fastening for later
}

func (s *shop) pairs() []waiting {
	var out []waiting
	for i := range s.declared {
		for k := range s.declared[i].Pairs {
			out = append(out, waiting{i, &s.declared[i], &s.declared[i].Pairs[k], false, false})
		}
	}
	return out
}

// fastenNow returns the pairs a doing fastens: those whose boards are together
// for the first time, less those it only holds, and those held before that it
// names; and the pairs still waiting.
func (s *shop) fastenNow(d *doing, b *bench, left []waiting) (now, still []waiting) {
	for _, w := range left {
		together := b.in[w.pair.A.ID] == d.here && b.in[w.pair.B.ID] == d.here
		switch {
		case !together || w.held && !has(d.Fasten, w.joint.Name):
			still = append(still, w)
		case has(d.Hold, w.joint.Name):
			w.held = true
			still = append(still, w)
		default:
			now = append(now, w)
		}
	}
	return now, still
}

// fastened says what a step's pairs take, joint by joint in file order; a group's
// copies have joints of one name, which are told together.
func (s *shop) fastened(now []waiting) []StepFastener {
	byName := map[string][]waiting{}
	for _, w := range now {
		byName[w.joint.Name] = append(byName[w.joint.Name], w)
	}
	var out []StepFastener
	for i := range s.declared {
		name := s.declared[i].Name
		if ws := byName[name]; ws != nil {
			slices.SortStableFunc(ws, func(a, b waiting) int { return cmp.Compare(a.number, b.number) })
			out = append(out, s.stepFasteners(ws)...)
			delete(byName, name)
		}
	}
	return out
}

// stepFasteners says what one joint takes in one step, a line for each kind of
// fastener.
func (s *shop) stepFasteners(ws []waiting) []StepFastener {
	var out []StepFastener
	var lines []*driven
	for _, w := range ws {
		for _, u := range w.pair.Uses {
			var l *driven
			for _, x := range lines {
				if x.use.Fastener.Name() == u.Fastener.Name() {
					l = x
				}
			}
			if l == nil {
				l = &driven{joint: w.joint, use: u, even: true, pair: w.pair, from: w.joint.Scalars}
				lines = append(lines, l)
			}
			l.count += u.Count
			l.pairs++
			l.from = l.from.Union(w.joint.Scalars)
			l.from = l.from.Union(s.rowFrom[w.pair.A.Name], s.rowFrom[w.pair.B.Name]) // how many boards there are
			if w.joint.Pattern.Spacing != nil {
				l.from = l.from.Union(w.pair.A.LengthFrom, w.pair.B.LengthFrom) // how many go into the length
			}
			l.even = l.even && u.Count == l.use.Count
			if n := phrase.Spaced(w.pair.Through.Name); !has(l.through, n) {
				l.through = append(l.through, n)
			}
			if n := phrase.Spaced(w.pair.Into().Name); !has(l.into, n) {
				l.into = append(l.into, n)
			}
		}
	}
	for _, l := range lines {
		f := l.use.Fastener
		total := s.pen.Count(l.count, l.from)
		t := s.how(l, total)
		if l.even && l.pairs > 1 && f.Family != screw.Glue {
			t = t.Say(": " + number(l.use.Count) + " where each two meet")
		}
		clear, pilot, deep := l.pair.Bits(l.use)
		var bits []Shown
		for _, b := range []measure.Length{clear, pilot} {
			if b > 0 {
				bits = append(bits, s.pen.Bit(b.MM(), l.from))
			}
		}
		t = s.drill(t, l, bits, deep)
		out = append(out, StepFastener{What: f.Name(), Count: l.count, Joint: phrase.Spaced(ws[0].joint.Name), Words: t, Bits: bits, Driven: drivenFrom(ws, f.Name())})
		if f.Driven() {
			out[len(out)-1].Drill = s.drills(ws)
		}
	}
	return out
}

// drivenFrom names the sides of the piece that fasteners of one kind are driven
// from; none when one of them goes in at a slant of 30 degrees or more, or when
// they go in all round.
func drivenFrom(ws []waiting, what string) []string {
	var out []string
	for _, w := range ws {
		for _, u := range w.pair.Uses {
			if w.again || u.Fastener.Name() != what || u.Fastener.Family == screw.Glue {
				continue
			}
			for _, a := range u.Axes {
				side := ""
				for k, along := range [3]float64{a.Way.X, a.Way.Y, a.Way.Z} {
					if math.Abs(along) > slant {
						side = [3][2]string{{"left", "right"}, {"front", "back"}, {"underside", "top"}}[k][map[bool]int{true: 0, false: 1}[along > 0]]
					}
				}
				if side == "" {
					return nil
				}
				if !has(out, side) {
					out = append(out, side)
				}
				if len(out) > 2 {
					return nil // from all round
				}
			}
		}
	}
	return out
}

// slant is the cosine of 30 degrees.
const slant = 0.8660254

// counted names n fasteners: "deck screws 8 x 2 1/2", "nail 8d".
func counted(f screw.Fastener, n int) string {
	if n == 1 {
		return f.Name()
	}
	return strings.Replace(f.Name(), string(f.Family), string(f.Family)+"s", 1)
}

// unfastened tells of joints no step ever fastens.
func (s *shop) unfastened(left []waiting, b *bench) {
	said := map[string]bool{}
	for _, w := range left {
		if said[w.joint.Name] || b.in[w.pair.A.ID] == 0 || b.in[w.pair.B.ID] == 0 {
			continue // a board no step adds is said elsewhere
		}
		said[w.joint.Name] = true
		x := snag.Snag{Code: "joint-held", Severity: snag.Caution, At: w.joint.At, Tier: snag.Settled,
			Boards: []string{string(w.pair.A.ID), string(w.pair.B.ID)},
			What:   fmt.Sprintf("no step fastens %s, for one between the %s and the %s", w.joint.Name, w.pair.A.Spoken, w.pair.B.Spoken),
			Mends:  []snag.Mend{snag.Say(fmt.Sprintf("write fasten: [%s] in the step that does it", w.joint.Name))}}
		if !w.held {
			x.What += ": they are never on the bench together"
			x.Mends = []snag.Mend{snag.Say("add what a step makes to a later step")}
		}
		s.snags = append(s.snags, x)
	}
}
