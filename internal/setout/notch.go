package setout

import (
	"math"
	"slices"

	"scantling/internal/board"
	"scantling/internal/geom"
	"scantling/internal/span"
)

// A Notching asks for `notch round X` on one board (rule 20).
type Notching struct {
	Name      string
	Meets     []string // what it clears, in words, by obstacle; may be nil
	From      span.Set
	Clearance float64      // mm, on the obstacle's sides that share no contact with the board
	Follow    bool         // follow: lean
	Hole      bool         // hole: yes
	Open      *board.Side  // the side it must open at; nil: the least wood
	Ties      []board.Side // order in which equal openings are taken: TieOrder; nil: by number
}

// thinnest is the narrowest strip of wood a notch may leave, 1/2 in (rule 20).
const thinnest = 12.7

// TieOrder returns the order in which equal openings are taken: ends, then
// front, then left, by the words of the written board, so that a mirrored copy
// opens at the mirrored side. words are the written board's, mirrored says that
// this copy is a mirror image of it.
func TieOrder(words [6]Dir, mirrored bool) []board.Side {
	rank := func(s board.Side) int {
		r := slices.Index([]Dir{Front, Left, Down, Back, Right, Up}, words[s])
		if !s.IsEnd() {
			r += 6
		}
		return r
	}
	order := []board.Side{board.Start, board.Finish, board.Near, board.Far}
	slices.SortFunc(order, func(a, b board.Side) int { return rank(a) - rank(b) })
	if mirrored {
		for i, s := range order {
			if s.IsEdge() {
				order[i] = s.Opposite()
			}
		}
	}
	return order
}

// A Notched is what NotchRound found for one board.
type Notched struct {
	Cuts   []board.Cut    // notches and housings, in the order of the obstacles; empty if nothing meets it
	Which  []int          // by cut: the index of the obstacle
	Faults []*Fault       // Tongue, Enclosed, Gone; the cuts are given all the same
	Ends   [2]*geom.Plane // an end the notch takes whole: the new end in the board's frame, facing out
}

// NotchRound works out the notches of one board round every given solid, the
// others' Wood in place, from its own Wood (rule 20). It changes nothing: AddCuts
// puts the cuts of all of a board's notchings on it, and must wait until every
// board that is notched round this one has been worked out.
func NotchRound(b *board.Board, round []geom.Placed, n Notching) Notched {
	var out Notched
	if b.Wood == nil || len(b.Wood.Cells) != 1 {
		return out
	}
	var saw geom.Saw
	for i, x := range round {
		e, ok := enter(&saw, b, x, n.Clearance)
		if !ok {
			continue
		}
		cut := board.Cut{Name: n.Name, From: n.From, Low: e.box.Low, High: e.box.High}
		if i < len(n.Meets) {
			cut.Meets = n.Meets[i]
		}
		if e.reaches(board.Show) && e.reaches(board.Under) {
			out.notch(e, cut, n, i)
		} else {
			out.house(e, cut, n, i)
		}
	}
	return out
}

// house lets the board in from one side, as deep as the obstacle enters, with
// the obstacle's own sides for walls: from a face if it comes out at one, else
// from the edge or end where that is shallowest.
func (out *Notched) house(e entry, cut board.Cut, n Notching, which int) {
	cut.Kind, cut.Depth = board.Housing, math.Inf(1)
	for _, s := range append([]board.Side{board.Show, board.Under}, n.ties()...) {
		if !e.reaches(s) {
			continue
		}
		cut.Open = append(cut.Open, s)
		if deep := e.depth(s); deep < cut.Depth-geom.Touch && !(cut.Side.IsFace() && len(cut.Open) > 1) {
			cut.Side, cut.Depth = s, deep
		}
	}
	if len(cut.Open) == 0 {
		out.Faults = append(out.Faults, &Fault{Kind: Enclosed, Want: thinnest, Cut: cut.Name})
		return
	}
	cut.Open = slices.DeleteFunc(cut.Open, func(s board.Side) bool { return s == cut.Side })
	slices.Sort(cut.Open)
	cut.Waste = e.walls
	out.Cuts, out.Which = append(out.Cuts, cut), append(out.Which, which)
}

// ties returns the order in which equal openings are taken.
func (n Notching) ties() []board.Side {
	if n.Ties != nil {
		return n.Ties
	}
	return []board.Side{board.Start, board.Finish, board.Near, board.Far}
}

// notch cuts through the thickness: the smallest rectangle along and across the
// grain that holds the crossing, opened where that takes the least wood.
func (out *Notched) notch(e entry, cut board.Cut, n Notching, which int) {
	cut.Kind, cut.Side = board.Notch, board.Show
	r := rectangle{e.box.Low.X, e.box.High.X, e.box.Low.Y, e.box.High.Y}
	outline := silhouette(e.wood.Verts)
	var open [4]bool
	least, side, shut := math.Inf(1), board.Start, true
	for _, s := range n.ties() {
		wood := area(r.beyond(s, outline))
		if open[s] = wood <= float64(geom.Touch*r.along(s)); open[s] {
			shut = false
		}
		if wood < least-float64(geom.Touch*r.along(s)) {
			least, side = wood, s
		}
	}
	strip := least / r.along(side) // its mean width
	switch {
	case n.Open != nil:
		open[*n.Open&3] = true
	case n.Hole || !shut:
	case strip < thinnest-geom.Same:
		open[side] = true
	default:
		out.Faults = append(out.Faults, &Fault{Kind: Enclosed, Has: strip, Want: thinnest, Side: side, Cut: cut.Name})
	}
	for s, o := range open {
		s := board.Side(s)
		if o {
			cut.Open = append(cut.Open, s)
		} else if w := r.strip(s, outline); w > geom.Touch && w < thinnest-geom.Same {
			out.Faults = append(out.Faults, &Fault{Kind: Tongue, Has: w, Want: thinnest, Side: s, Cut: cut.Name})
		}
	}
	size := [4]float64{0, e.b.L, 0, e.b.W.MM()}
	for s := range r {
		if open[s] {
			r[s] = size[s]
		}
	}
	if open[board.Near] && open[board.Far] && (open[board.Start] || open[board.Finish]) {
		out.wholeEnd(open, r, cut.Name)
		return
	}
	cut.Low, cut.High, cut.Depth = geom.Vec{X: r[0], Y: r[2]}, geom.Vec{X: r[1], Y: r[3], Z: e.b.T.MM()}, e.b.T.MM()
	cut.Waste = r.walls(open)
	if n.Follow {
		cut.Waste, cut.Bevels = e.following(open)
	}
	out.Cuts, out.Which = append(out.Cuts, cut), append(out.Which, which)
}

// wholeEnd shortens the board by a notch that takes one end whole.
func (out *Notched) wholeEnd(open [4]bool, r rectangle, name string) {
	switch {
	case open[board.Start] && open[board.Finish]:
		out.Faults = append(out.Faults, &Fault{Kind: Gone, Cut: name})
	case open[board.Start]:
		if p := out.Ends[0]; p == nil || -p.D < r[1] {
			out.Ends[0] = &geom.Plane{N: board.Start.Out(), D: -r[1]}
		}
	default:
		if p := out.Ends[1]; p == nil || p.D > r[0] {
			out.Ends[1] = &geom.Plane{N: board.Finish.Out(), D: r[0]}
		}
	}
}

// following returns the obstacle's own sides as walls, without those toward open
// sides, and whether any is not square to the face.
func (e *entry) following(open [4]bool) (walls []geom.Plane, bevels bool) {
	const toward = 0.7 // cos 45°
next:
	for _, p := range e.walls {
		for s, o := range open {
			if o && p.N.Dot(board.Side(s).Out()) > toward {
				continue next
			}
		}
		walls = append(walls, p)
		bevels = bevels || math.Abs(p.N.Z) > parallel
	}
	return walls, bevels
}
