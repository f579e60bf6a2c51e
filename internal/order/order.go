// Package order goes through the steps of a design and says whether they can be
// done in that order: whether every board can still come to its place, and every
// fastener still be driven. Where not, it looks for the smallest change of the steps
// that mends it. A design without steps gets some.
//
// Follow tells what each step does. Look asks package reach about each of them;
// Check turns the answers into snags, with mends found by trying the steps in
// other orders (search.go). Propose makes steps for a design without any, by taking
// the piece apart (propose.go).
package order

import (
	"slices"

	"scantling/internal/design"
	"scantling/internal/geom"
	"scantling/internal/joint"
	"scantling/internal/reach"
	"scantling/internal/screw"
)

// A Work is a piece ready to be looked at: its boards on a site, its joints.
type Work struct {
	Piece  *design.Piece
	Joints []joint.Joint
	Tools  *reach.Tools

	at       map[*design.Board]int
	site     *reach.Site
	proposed bool     // the steps are ours
	touches  [][]int  // by board: those it touches
	low      geom.Vec // of everything
	high     geom.Vec
}

// NewWork returns a piece with its joints ready to be looked at.
func NewWork(p *design.Piece, m *joint.Meetings, joints []joint.Joint, tools *reach.Tools) *Work {
	w := &Work{Piece: p, Joints: joints, Tools: tools, at: make(map[*design.Board]int, len(p.Boards)), touches: make([][]int, len(p.Boards))}
	placed := make([]geom.Placed, len(p.Boards))
	all := geom.EmptyBox()
	for i, b := range p.Boards {
		w.at[b] = i
		placed[i] = b.Placed()
		if b.Solid != nil {
			all = all.Union(placed[i].Around())
		}
	}
	w.low, w.high = all.Low, all.High
	var contacts []reach.Contact
	var clashes [][2]int
	for _, x := range m.All {
		if x.Clash != nil {
			clashes = append(clashes, [2]int{x.A, x.B})
		}
		if x.Area > 0 {
			w.touches[x.A] = append(w.touches[x.A], x.B)
			w.touches[x.B] = append(w.touches[x.B], x.A)
		}
		for _, c := range x.Contacts {
			if c.Kind == geom.Area {
				contacts = append(contacts, reach.Contact{A: x.A, B: x.B, N: c.Plane.N, Area: c.Area})
			}
		}
	}
	w.site = reach.NewSite(placed, contacts, clashes)
	return w
}

// A Driven is one fastener of a step.
type Driven struct {
	Paired
	What  string // as a shopping list says it
	Drive reach.Drive
}

// A Look is what one step comes to.
type Look struct {
	Stage
	Drives []Driven
	reach.Report
	Up    geom.Vec // what is up on the bench, in the piece
	Lands []bool   // by item: it comes up against something that is there by then
}

// Look looks at every stage of the steps.
func (w *Work) Look(steps []design.Step, stages []Stage) []Look {
	out := make([]Look, len(stages))
	for i := range stages {
		out[i] = w.look(&steps[i], stages[i])
	}
	return out
}

func (w *Work) look(d *design.Step, st Stage) Look {
	l := Look{Stage: st, Up: w.up(d.Lies, &st)}
	in := reach.Step{There: st.There, Items: st.Items, Up: l.Up}
	for _, p := range st.Pairs {
		boards := [2]int{w.at[p.Pair.Through], w.at[p.Pair.Into()]}
		for i := range p.Pair.Uses {
			u := &p.Pair.Uses[i]
			for _, a := range u.Axes {
				v := reach.Drive{Boards: boards, Kind: kindOf(u), At: a.Face(), Way: a.Way, Long: u.Fastener.Length.MM(),
					Wood: a.Stack[0] + a.Stack[1] + a.Sunk[0] + a.Sunk[1], Sunk: a.Sunk, Round: roundOf(u.Fastener)}
				l.Drives = append(l.Drives, Driven{p, u.Fastener.Name(), v})
				in.Drives = append(in.Drives, v)
			}
		}
	}
	l.Report = w.site.Step(&in, w.Tools)
	l.Lands = w.lands(&l)
	return l
}

// lands tells which items of a step touch what is there when they come.
func (w *Work) lands(l *Look) []bool {
	out := make([]bool, len(l.Items))
	here := map[int]bool{}
	for _, i := range l.There {
		here[i] = true
	}
	for _, k := range l.Order {
		for _, i := range l.Items[k] {
			out[k] = out[k] || slices.ContainsFunc(w.touches[i], func(o int) bool { return here[o] })
		}
		for _, i := range l.Items[k] {
			here[i] = true
		}
	}
	return out
}

// roundOf returns the radius of a head, or of the washer under a nut, in mm.
func roundOf(f screw.Fastener) float64 {
	if _, washer := f.Nut(); washer > 0 {
		return washer.MM() / 2
	}
	return f.Head.MM() / 2
}

// kindOf says how a fastener is driven. A bolt that ends in a threaded insert is
// turned by its head.
func kindOf(u *joint.Use) reach.Kind {
	f := u.Fastener
	switch {
	case f.Bolted() && u.Behind > 0:
		return reach.Lag
	case f.Bolted():
		return reach.Bolt
	case f.Family == screw.LagScrew:
		return reach.Lag
	case f.Nailed():
		return reach.Nail
	case f.Family == screw.Dowel && u.Pegged():
		return reach.Peg
	case f.Family == screw.Dowel:
		return reach.Dowel
	case f.Screwed():
		return reach.Screw
	}
	return reach.ByHand
}

// up returns what is up on the bench, as a direction in the piece, when the work
// lies so.
func (w *Work) up(lies string, st *Stage) geom.Vec {
	side, _, _ := cut(lies)
	switch side {
	case "top", "upside":
		return geom.Vec{Z: -1}
	case "back":
		return geom.Vec{Y: -1}
	case "front":
		return geom.Vec{Y: 1}
	case "left":
		return geom.Vec{X: 1}
	case "right":
		return geom.Vec{X: -1}
	case "outside":
		return w.outside(st).Negated()
	case "inside":
		return w.outside(st)
	}
	return geom.Vec{Z: 1}
}

func cut(lies string) (side, rest string, ok bool) {
	for i := range lies {
		if lies[i] == ' ' {
			return lies[:i], lies[i+1:], true
		}
	}
	return lies, "", false
}

// outside returns the direction out of the side of the piece the work of a stage
// belongs to.
func (w *Work) outside(st *Stage) geom.Vec {
	var sum geom.Vec
	n := 0
	for _, item := range append(slices.Clone(st.Items), st.There) {
		for _, k := range item {
			sum = sum.Plus(w.Piece.Boards[k].Placed().Middle().Minus(w.low.Plus(w.high).Times(0.5)))
			n++
		}
	}
	switch x, y := sum.X, sum.Y; {
	case abs(x) >= abs(y) && x < 0:
		return geom.Vec{X: -1}
	case abs(x) >= abs(y):
		return geom.Vec{X: 1}
	case y < 0:
		return geom.Vec{Y: -1}
	}
	return geom.Vec{Y: 1}
}

func abs(x float64) float64 {
	if x < 0 {
		return -x
	}
	return x
}
