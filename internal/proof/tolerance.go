package proof

import (
	"math"

	"scantling/internal/geom"
	"scantling/internal/measure"
)

// A Stack is what small errors come to together, in mm: at the worst, when all fall
// the same way, and most likely, when they fall as they may. The likely sum is the
// root of the sum of squares, as is usual for errors that do not know of one another.
// Source: common practice.
type Stack struct{ Worst, Likely float64 }

// Chain is the sum of n errors of t mm: marks or boards laid one from another.
//
//	worst n·t, likely √n·t
func Chain(n int, t float64) Stack {
	return Stack{float64(n) * t, math.Sqrt(float64(n)) * t}
}

// LastGap is how far the last gap of a row of n boards may be off when every board
// and every mark is off by t mm. By running marks from one datum it hangs on two
// marks and one width, however long the row is; by a spacer, from board to board, what
// is left at the end hangs on all widths and all spacers.
func LastGap(n int, t float64) (byMarks, bySpacer Stack) {
	return Chain(3, t), Chain(2*max(n-1, 0), t)
}

// Diagonal is how far the diagonal of a frame of two sides may be off when each side
// is off by t mm.
//
//	d = √(a² + b²), ∂d/∂a = a/d: worst t·(a + b)/d, likely t
func Diagonal(a, b, t float64) Stack {
	d := math.Sqrt(float64(a*a) + float64(b*b))
	if d == 0 {
		return Stack{}
	}
	return Stack{t * (a + b) / d, t}
}

// HoleRow is how far the last of n holes may be from where the first puts it: all
// marked from one end, or each from the one before.
func HoleRow(n int, t float64) (fromEnd, fromEach Stack) {
	return Chain(min(n, 2), t), Chain(max(n-1, 0), t)
}

// A Need says what the length of a part needs.
type Need string

const (
	FromWork Need = "take from the work" // the page says to measure there first
	Match    Need = "must match its twin"
	AsMarked Need = "as marked"
	AnyNear  Need = "anywhere near"
)

// A Care is how much hangs on the length of a part.
type Care struct {
	Letter string
	Need   Need
	Moves  float64 // mm that a joint or the outline moves at most when one such board is Allowed too long
}

// Careful says for every part how much hangs on its length: one board of it alone is
// made Allowed too long, the first or the last, the piece is built again, and the joint
// that moves most tells, or the outline of the whole. A joint of the longer board
// itself may hold on to either of its ends. An upright board is never free: it stands
// on its foot, and its head is seen.
func Careful(p *Pages) []Care {
	base := buildOne(p)
	points, hull := base.points(p), base.hull()
	var out []Care
	for i := range p.Parts {
		part := &p.Parts[i]
		c := Care{Letter: part.Letter, Need: FromWork}
		if part.Long.How != "cut to fit" {
			for n, id := range part.Boards {
				if longer, ok := p.longer(i, id); ok && (n == 0 || n == len(part.Boards)-1) {
					built := buildOne(longer)
					c.Moves = max(c.Moves, built.moved(points, id), built.hull().Low.Distance(hull.Low), built.hull().High.Distance(hull.High))
				}
			}
			upright := part.Drawn.End == "bottom end" || part.Drawn.End == "top end"
			switch {
			case c.Moves <= Allowed/2 && !upright:
				c.Need = AnyNear
			case len(part.Boards) > 1 || part.Twin != "":
				c.Need = Match
			default:
				c.Need = AsMarked
			}
		}
		out = append(out, c)
	}
	for i := range out { // of twins, what one needs the other needs
		for k := range out {
			if p.Parts[k].Twin == out[i].Letter && out[k].Need == Match {
				out[i].Need = Match
			}
		}
	}
	return out
}

// buildOne builds the piece by the saw's settings only.
func buildOne(p *Pages) *shop {
	sheets := map[string]*sheet{}
	for i := range p.Parts {
		if s, err := saw(&p.Parts[i], BySetting); err == nil {
			sheets[p.Parts[i].Letter] = s
		}
	}
	return assemble(p, sheets)
}

// longer returns the pages with one board of a part made Allowed too long: it is a
// part of its own then.
func (p *Pages) longer(part int, board string) (*Pages, bool) {
	q := *p
	own := p.Parts[part]
	own.Letter += " longer"
	for _, f := range []**Figure{&own.Edge, &own.Short} {
		if *f != nil {
			g, ok := (*f).plus(Allowed)
			if !ok {
				return nil, false
			}
			*f = &g
		}
	}
	long, ok := own.Long.plus(Allowed)
	own.Long = long
	q.Parts = append(p.Parts[:len(p.Parts):len(p.Parts)], own)
	q.Boards = append([]Board(nil), p.Boards...)
	for i := range q.Boards {
		if q.Boards[i].ID == board {
			q.Boards[i].Part = own.Letter
		}
	}
	return &q, ok
}

// plus returns a figure that is so much longer.
func (f Figure) plus(mm float64) (Figure, bool) {
	was, err := f.mm()
	l, ok := measure.FromMM(was + mm)
	return Figure{l.Exact(measure.Metric), f.How}, ok && err == nil
}

// A point is the middle of a joint, as either board has it.
type point struct {
	boards [2]string
	at     [2]geom.Vec // in the frames of their sheets
}

// hull returns the box round everything, as the first board lies.
func (s *shop) hull() geom.Box {
	box := geom.EmptyBox()
	for _, b := range s.boards {
		if b.in != 0 {
			box = box.Union(b.placed().Around())
		}
	}
	return box
}

// points returns the middles of all joints.
func (s *shop) points(p *Pages) []point {
	var out []point
	for _, j := range p.Joints {
		for _, pair := range j.Pairs {
			a, b := s.byID[pair.Boards[0]], s.byID[pair.Boards[1]]
			if a == nil || b == nil || a.in == 0 || a.in != b.in {
				continue
			}
			if m, ok := facing(a.placed(), b.placed()); ok {
				out = append(out, point{pair.Boards, [2]geom.Vec{a.pose.In(m.middle), b.pose.In(m.middle)}})
			}
		}
	}
	return out
}

// moved returns how far the joint has moved that moved most since points were taken;
// longer is the board that was made longer.
func (s *shop) moved(points []point, longer string) float64 {
	worst := 0.0
	for _, p := range points {
		a, b := s.byID[p.boards[0]], s.byID[p.boards[1]]
		if a == nil || b == nil || a.in == 0 || a.in != b.in {
			continue
		}
		least := math.Inf(1)
		for _, by := range [2]float64{0, Allowed} {
			at := p.at
			for k, id := range p.boards {
				if id == longer {
					at[k].X += by
				}
			}
			least = math.Min(least, a.pose.Out(at[0]).Distance(b.pose.Out(at[1])))
		}
		worst = math.Max(worst, least)
	}
	return worst
}
