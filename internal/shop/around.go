package shop

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"scantling/internal/board"
	"scantling/internal/geom"
	"scantling/internal/phrase"
	"scantling/internal/span"
)

// practice is the source of what the trade does and no book prescribes.
const practice = "common practice"

// around gives each step what goes with its joints: who lifts, what is sanded and
// lettered before it is covered, clamps, glue, what holds the work square until
// it holds itself, and the jigs that help. Everything is computed from the boards.
func (s *shop) around(all [][]*doing) {
	together := s.together(all)
	closed := s.closings(together)
	for n, ds := range all {
		r := &s.out.Steps[n]
		add := func(a ...Around) {
			for _, x := range a {
				if len(x.Words) > 0 {
					r.Around = append(r.Around, x)
				}
			}
		}
		r.People, r.Lift = s.lifts(r, ds)
		add(s.letters(r, ds))
		add(s.sand(closed[n]))
		s.spacers(r, ds)
		add(s.clamps(r, ds[0])...)
		add(s.glue(ds[0])...)
		add(s.brace(n))
	}
	for n := range all {
		s.remeasure(n)
	}
}

// remeasure has the closed frame of a step measured once more in the later step that
// locks it.
func (s *shop) remeasure(n int) {
	for _, q := range s.out.Steps[n].Square {
		lock := s.locks(n, q.Boards)
		if len(q.Boards) < 4 || q.Frame == "feet" || lock < 0 {
			continue
		}
		d := q.Diagonals
		t := Words("Before you fasten, measure the " + q.Frame + " once more: ").Show(d[0].Value)
		if d[0].Value.Text == d[1].Value.Text {
			t = t.Say(" both ways")
		} else {
			t = t.Say(" one way and ").Show(d[1].Value).Say(" the other")
		}
		later := &s.out.Steps[lock]
		later.Checks = append(later.Checks, t.Say(". What this step adds locks them."))
	}
}

// reading returns a sentence about a step with the figures it gives.
func reading(kind string, words Text, source string, figures ...Figure) Around {
	return Around{Kind: kind, Words: words, Source: source, Figures: figures}
}

// together returns, by step, which boards are on the bench with one another once
// it is done: the assembly each is in, 0 for none.
func (s *shop) together(all [][]*doing) [][]int {
	out := make([][]int, len(all))
	now := make([]int, len(s.piece.Boards))
	for n, ds := range all {
		for _, d := range ds {
			for _, id := range d.present {
				now[s.at[id]] = d.here
			}
		}
		out[n] = slices.Clone(now)
	}
	return out
}

// carried is the weight in kg, and the longest side in mm of the box round,
// boards that are moved as one.
func (s *shop) carried(boards []int) (kg, long float64, from span.Set) {
	box := geom.EmptyBox()
	for _, i := range boards {
		kg += s.kg[i]
		box = box.Union(s.piece.Boards[i].Placed().Around())
		from = from.Union(s.piece.Boards[i].All())
	}
	size := box.Size()
	return kg, math.Max(size.X, math.Max(size.Y, size.Z)), from
}

// armful is how long a thing one person carries and sets down where it belongs:
// 8 ft. Source: common practice.
const armful = 96 * 25.4

// lifts says how many people a step takes, and why when it is more than one: the
// heaviest thing brought, or the whole turned over, and sub-assemblies that must
// be held up until they are joined.
func (s *shop) lifts(r *Step, ds []*doing) (people int, why Text) {
	d := ds[0]
	people = 1
	ask := func(boards []int, what string) {
		kg, long, from := s.carried(boards)
		n := lifters(kg)
		if long > armful {
			n = max(n, 2)
		}
		if n = min(n, crew); n > people {
			people = n
			why = Words(what + " weighs about ").Show(s.pen.Mass(kg, from))
			if kg <= heavy {
				why = Words(what + " is ").Show(s.pen.Length(long, from)).Say(" long")
			}
		}
	}
	if d.turned {
		ask(s.ground(d.there).order, "the work is turned over and")
	}
	held := 0
	for _, l := range d.loads {
		what := "the " + phrase.Spaced(l.made)
		if l.made == "" {
			what = "the " + s.piece.Boards[l.boards[0]].Spoken
		} else {
			held++
		}
		ask(l.boards, what)
	}
	if held > 1 && people < 2 {
		people, why = 2, Words("one holds while the other fastens")
	}
	return people, why
}

// share is what each of several people lifts, in kg. Source: ISO 11228-1 (from
// memory): 25 kg, the reference mass for most grown people.
const share = 25

// lifters is how many people lift a weight in kg.
func lifters(kg float64) int {
	if kg <= heavy {
		return 1
	}
	return min(crew, max(2, int(math.Ceil(kg/share))))
}

// crew is the most people a step asks for; what is heavier wants a machine.
const crew = 4

// letters says which letter to pencil where: on a face another board will cover.
func (s *shop) letters(r *Step, ds []*doing) Around {
	var places []string
	on := map[string][]string{}
	for _, p := range r.Add {
		b := s.first(p, ds)
		if b < 0 {
			continue
		}
		if side, other, ok := s.covered(b); ok {
			place := "on the " + side + " the " + phrase.Spaced(s.piece.Boards[other].Name) + " will cover"
			if on[place] == nil {
				places = append(places, place)
			}
			on[place] = append(on[place], p.Letter)
		}
	}
	if places == nil {
		return Around{}
	}
	for i, place := range places {
		places[i] = phrase.List(on[place]) + " " + place
	}
	words := strings.Join(places, "; ")
	if strings.Contains(words, "on the face ") {
		words += "; the better face looks the other way"
	}
	return reading("letter", Words(words), practice)
}

// first returns the first board of a part that a step adds, -1 if there is none.
func (s *shop) first(p StepPart, ds []*doing) int {
	for _, d := range ds {
		for _, id := range d.added {
			if q := s.partOf[id]; q != nil && q.Letter == p.Letter {
				return s.at[id]
			}
		}
	}
	return -1
}

// covered returns the kind of side of a board that another board covers most of,
// and that other.
func (s *shop) covered(b int) (side string, other int, ok bool) {
	best := 0.0
	for _, k := range s.neighbours[b] {
		m, flipped := s.meetings.Between(b, k)
		c := m.Largest(flipped)
		of, plain := sideOf(s.piece.Boards[b].Board, c.A)
		if c.Area <= best+geom.Alike || !plain {
			continue
		}
		best, other, ok = c.Area, k, true
		switch {
		case of.IsEnd():
			side = "end"
		case of.IsEdge():
			side = "edge"
		default:
			side = "face"
		}
	}
	return side, other, ok
}

// brace keeps a frame square that a later step will lock: a strip across two
// corners of it, as long as half its narrow side is, laid at 45 degrees.
func (s *shop) brace(n int) Around {
	r := &s.out.Steps[n]
	for _, q := range r.Square {
		lock := s.locks(n, q.Boards)
		if len(q.Boards) < 4 || q.Frame == "feet" || lock <= n+1 {
			continue // open frames stiffen one another; what the next step locks needs no strip
		}
		half := s.pen.Length(q.Across.Exact.V/1e6/2*math.Sqrt2, q.Across.From)
		later := s.out.Steps[lock]
		s.want(Jig{Step: r.Number, What: "brace", Long: half, Count: 2})
		return reading("brace", Words("to keep the "+q.Frame+" square, screw a strip ").Show(half).Say(" long across two corners, and take it away after step "+strconv.Itoa(later.Number)+", "+later.Name),
			practice, Figure{"length", half}, Figure{"until step", s.pen.Count(later.Number, span.Set{})})
	}
	return Around{}
}

// locks returns the first later step that adds a board joined to two boards of a
// frame: it cannot rack any more. -1 if there is none.
func (s *shop) locks(n int, frame []board.ID) int {
	for m := n + 1; m < len(s.out.Steps); m++ {
		for _, id := range s.out.Steps[m].New {
			i, of := s.at[id], 0
			if slices.Contains(s.out.Steps[n].together(), id) {
				continue
			}
			for _, f := range frame {
				if slices.Contains(s.neighbours[i], s.at[f]) {
					of++
				}
			}
			if of > 1 {
				return m
			}
		}
	}
	return -1
}
