package picture

import (
	"math"
	"sort"
	"strings"

	"scantling/internal/board"
	"scantling/internal/drawing"
	"scantling/internal/geom"
	"scantling/internal/shop"
)

// step draws the work as it lies on the bench: the boards the step adds in wood
// tone with bold lines and their letters, earlier ones light. It is seen from the
// front right corner, or from the first place after it that shows every part the
// step adds.
func (s *scene) step(st *shop.Step) *drawing.Figure {
	if len(st.New) == 0 {
		return nil
	}
	w := s.work(st)
	var best *drawing.Figure
	var most int
	for _, from := range []drawing.View{drawing.Corner(), drawing.Corner().Higher(), drawing.Corner().FromLeft(), drawing.Corner().FromLeft().Higher()} {
		f, shown := s.seen(st, &w, from.Turned(s.r.Lying(st)))
		if best == nil || shown > most {
			best, most = f, shown
		}
		if most == len(w.letters) {
			break
		}
	}
	return best
}

// A work is the boards in place after a step.
type work struct {
	placed  []geom.Placed
	isNew   []bool
	letter  []string
	letters map[string]bool // of the parts the step adds
}

func (s *scene) work(st *shop.Step) work {
	w := work{letters: map[string]bool{}}
	fresh := map[board.ID]bool{}
	for _, id := range st.New {
		fresh[id] = true
	}
	for _, id := range st.Present {
		i := s.index[id]
		w.placed = append(w.placed, s.placed[i])
		w.isNew = append(w.isNew, fresh[id])
		w.letter = append(w.letter, s.r.Boards[i].Part)
		if fresh[id] {
			w.letters[s.r.Boards[i].Part] = true
		}
	}
	return w
}

// seen draws the work from one place, and counts the new parts that show.
func (s *scene) seen(st *shop.Step, w *work, v drawing.View) (f *drawing.Figure, shown int) {
	f = &drawing.Figure{Name: "step", Title: st.Name, Alt: "Step: " + st.Name + ". " + adds(st)}
	places := map[string]letterPlace{}
	for _, p := range drawing.Patches(v, w.placed) {
		tone := drawing.ToneEarlier
		if w.isNew[p.Board] {
			tone = drawing.ToneNew
			if p.Light < 0.5 {
				tone = drawing.ToneNewSide
			}
			letter := w.letter[p.Board]
			if at, area := middle(p.Loops); area > places[letter].area {
				places[letter] = letterPlace{at, area}
			}
		}
		f.Areas = append(f.Areas, drawing.Area{Loops: p.Loops, Tone: tone})
	}
	for _, l := range drawing.Project(v, w.placed) {
		if !l.Visible {
			continue
		}
		e := drawing.Edge{A: l.A, B: l.B, Weight: drawing.Narrow}
		if w.isNew[l.Board] && l.Outline {
			e.Weight = drawing.Wide
		}
		f.Lines = append(f.Lines, e)
	}
	shown = len(places)
	driven(f, st, w, v)
	for _, q := range st.Square {
		for i, d := range q.Diagonals {
			a, b := v.Place(q.Corners[i]), v.Place(q.Corners[i+2])
			f.Lines = append(f.Lines, drawing.Edge{A: a, B: b, Weight: drawing.Narrow, Dash: drawing.Axis})
			third := drawing.Place{X: a.X + float64((b.X-a.X)/3), Y: a.Y + float64((b.Y-a.Y)/3)}
			places[d.Value.Text] = letterPlace{at: third}
		}
	}
	f.Notes = notes(f, places)
	return f, shown
}

// A letterPlace is where a part's letter points, the middle of the largest face of
// it that can be seen; or a diagonal's figure.
type letterPlace struct {
	at   drawing.Place
	area float64
}

// notes puts the letters left or right of the figure, whichever is nearer, from
// the top down.
func notes(f *drawing.Figure, seen map[string]letterPlace) []drawing.Note {
	var letters []string
	lo, hi := math.Inf(1), math.Inf(-1)
	for l := range seen {
		letters = append(letters, l)
	}
	for _, e := range f.Lines {
		lo, hi = math.Min(lo, math.Min(e.A.X, e.B.X)), math.Max(hi, math.Max(e.A.X, e.B.X))
	}
	sort.Slice(letters, func(i, j int) bool {
		a, b := seen[letters[i]].at, seen[letters[j]].at
		if a.Y != b.Y {
			return a.Y > b.Y
		}
		return letters[i] < letters[j]
	})
	var out []drawing.Note
	for _, l := range letters {
		n := drawing.Note{At: seen[l].at, Side: drawing.LeftOf, Text: l}
		if n.At.X > (lo+hi)/2 {
			n.Side = drawing.RightOf
		}
		out = append(out, n)
	}
	return out
}

func adds(st *shop.Step) string {
	var words []string
	for _, a := range st.Add {
		words = append(words, a.Letter+", "+a.Name)
	}
	return "It adds " + strings.Join(words, "; ") + "."
}

// middle returns the centroid and area of a patch.
func middle(loops [][]drawing.Place) (drawing.Place, float64) {
	var a, x, y float64
	for _, l := range loops {
		for i := range l {
			p, q := l[i], l[(i+1)%len(l)]
			c := float64(p.X*q.Y) - float64(q.X*p.Y)
			a += c
			x += float64((p.X + q.X) * c)
			y += float64((p.Y + q.Y) * c)
		}
	}
	if a == 0 {
		return drawing.Place{}, 0
	}
	return drawing.Place{X: x / float64(3*a), Y: y / float64(3*a)}, math.Abs(a) / 2
}
