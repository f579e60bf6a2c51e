package page

import (
	"strings"

	"scantling/internal/board"
	"scantling/internal/design"
	"scantling/internal/geom"
	"scantling/internal/measure"
	"scantling/internal/shop"
)

// A Glance is what is known at every frame of a drag: what stands on the front,
// and what is wrong.
type Glance struct {
	Title   string    `json:"title"`
	Units   string    `json:"units"`
	Lead    string    `json:"lead"`  // HTML
	Facts   string    `json:"facts"` // HTML: how large it is
	Needs   string    `json:"needs"` // HTML
	Mend    string    `json:"mend"`  // HTML: what keeps the piece from being built, as far as is known
	Care    string    `json:"care"`  // HTML
	Errors  int       `json:"errors"`
	Sizes   []Size    `json:"sizes"`
	Choices []Choice  `json:"choices"`
	Boards  []Board   `json:"boards"` // as Scene has them
	Low     []float64 `json:"low"`    // mm, of the hull of everything
	High    []float64 `json:"high"`
}

// A Size is a number the reader may change. Values are counts of Unit: mm for
// lengths and degrees for angles, exact in decimals.
type Size struct {
	Name    string  `json:"name"`
	Says    string  `json:"says"`
	Unit    string  `json:"unit"` // mm, °, or nothing for a count
	Is      float64 `json:"is"`
	Least   float64 `json:"least"`
	Most    float64 `json:"most"`
	Step    float64 `json:"step"` // 0: any value in the range
	Default float64 `json:"default"`
	Shown   string  `json:"shown"` // HTML
	Text    string  `json:"text"`  // the same in plain letters
	From    string  `json:"from"`  // the least, in plain letters
	To      string  `json:"to"`
	At      [2]int  `json:"at"` // of the scalar in the file
}

// A Choice is an alternative the reader may take.
type Choice struct {
	Name    string   `json:"name"`
	Says    string   `json:"says"`
	Is      string   `json:"is"`
	Default string   `json:"default"`
	Of      []string `json:"of"`
	At      [2]int   `json:"at"`
}

// A Board is one board of the picture.
type Board struct {
	ID     string `json:"id"`
	Called string `json:"called"`
	Name   string `json:"name"` // of its part or row in the file
	At     [2]int `json:"at"`   // of that name
	Top    bool   `json:"top"`  // its show face looks up: a person puts things on it
}

// NewGlance makes the glance of a piece from what package shop says of it.
func NewGlance(p *design.Piece, r *shop.Readings, o Options) *Glance {
	w := &writer{r: r, o: o}
	g := &Glance{Title: r.Piece, Units: r.Units, Lead: w.lead(), Facts: w.facts(), Needs: w.needs(),
		Sizes: []Size{}, Choices: []Choice{}, Boards: []Board{}, Low: []float64{}, High: []float64{}}
	w.notes("Mend this")
	g.Mend = w.b.String()
	w.b.Reset()
	w.care()
	g.Care = w.b.String()
	for _, n := range r.Notes {
		if n.Kind == "Mend this" {
			g.Errors++
		}
	}
	for i, z := range p.Sizes {
		unit, one := unitOf(z.Value.D)
		s := r.Sizes[i]
		g.Sizes = append(g.Sizes, Size{z.Name, z.Says, unit, z.Value.V / one, z.Least.V / one, z.Most.V / one, z.Step.V / one, z.Default.V / one,
			fractions(s.Value.Text), s.Value.Text, s.Least.Text, s.Most.Text, [2]int{z.At.Start, z.At.End}})
	}
	for _, c := range p.Choices {
		g.Choices = append(g.Choices, Choice{c.Name, c.Says, c.Is, c.Default, append([]string{}, c.Of...), [2]int{c.At.Start, c.At.End}})
	}
	box := geom.EmptyBox()
	for _, b := range p.Boards {
		g.Boards = append(g.Boards, Board{string(b.ID), b.Spoken, b.Name, [2]int{b.At.Start, b.At.End}, b.Sides[board.Show] == "top"})
		if b.Solid != nil && len(b.Solid.Cells) > 0 {
			box = box.Union(b.Placed().Around())
		}
	}
	if box.Low.X <= box.High.X {
		g.Low, g.High = vec(box.Low), vec(box.High)
	}
	return g
}

// unitOf is the unit a size is told in, and how many of its counts make one.
func unitOf(d measure.Dim) (string, float64) {
	switch d {
	case measure.DimLength:
		return "mm", 1e6
	case measure.DimAngle:
		return "°", 1e9
	}
	return "", 1
}

func vec(v geom.Vec) []float64 { return []float64{v.X, v.Y, v.Z} }

// A Model is what the picture needs of a plan beside its solids: who is who, and
// what each step moves and fastens.
type Model struct {
	Letters []string    `json:"letters"` // of each board's part, as Scene has them
	Axes    []Axis      `json:"axes"`
	Steps   []ModelStep `json:"steps"`
}

// An Axis is one fastener in place.
type Axis struct {
	What string    `json:"what"`
	At   []float64 `json:"at"`
	Way  []float64 `json:"way"`
	Long float64   `json:"long"` // mm
	Head float64   `json:"head"` // mm, diameter
}

// A ModelStep is a step as the picture plays it.
type ModelStep struct {
	Number  int         `json:"number"`
	Name    string      `json:"name"`
	Turn    [][]float64 `json:"turn"` // how the work lies on the bench: where right, back and up of the piece point
	Present []int       `json:"present"`
	New     []int       `json:"new"`
	From    [][]float64 `json:"from"` // where each new board comes from: a way, unit or zero
	Axes    []int       `json:"axes"` // driven in this step
}

// NewModel makes the model of a plan.
func NewModel(r *shop.Readings, p *design.Piece) *Model {
	m := &Model{Letters: []string{}, Axes: []Axis{}, Steps: []ModelStep{}}
	at := map[string]int{}
	for i, b := range p.Boards {
		at[string(b.ID)] = i
		m.Letters = append(m.Letters, "")
	}
	for _, b := range r.Boards {
		m.Letters[at[string(b.ID)]] = b.Part
	}
	type pair struct {
		joint string
		a, b  int
		axes  []int
		used  bool
	}
	var pairs []*pair
	for _, j := range r.Joints {
		for _, x := range j.Pairs {
			q := &pair{joint: strings.ReplaceAll(j.Name, "_", " "), a: at[string(x.A)], b: at[string(x.B)]}
			for _, a := range x.Axes {
				q.axes = append(q.axes, len(m.Axes))
				m.Axes = append(m.Axes, Axis{a.What, vec(a.Axis.At), vec(a.Axis.Way), a.Long, a.Head})
			}
			pairs = append(pairs, q)
		}
	}
	for i := range r.Steps {
		s := &r.Steps[i]
		pose := r.Lying(s)
		step := ModelStep{Number: s.Number, Name: s.Name, Turn: [][]float64{vec(pose.X), vec(pose.Y), vec(pose.Z)},
			Present: []int{}, New: []int{}, From: [][]float64{}, Axes: []int{}}
		here, fresh := map[int]bool{}, map[int]bool{}
		for _, id := range s.Present {
			k := at[string(id)]
			step.Present = append(step.Present, k)
			here[k] = true
		}
		for _, id := range s.New {
			k := at[string(id)]
			step.New = append(step.New, k)
			fresh[k] = true
		}
		var driven []*pair
		for _, q := range pairs {
			for _, f := range s.Fasten {
				if f.Joint == q.joint && here[q.a] && here[q.b] && !q.used {
					q.used = true
					driven = append(driven, q)
					step.Axes = append(step.Axes, q.axes...)
				}
			}
		}
		for _, k := range step.New {
			var way geom.Vec
			for _, q := range driven {
				if q.a != k && q.b != k || len(q.axes) == 0 || fresh[q.a] && fresh[q.b] && len(fresh) < len(here) {
					continue
				}
				a := m.Axes[q.axes[0]]
				// A board comes in the way its own fasteners are driven.
				out := geom.Vec{X: -a.Way[0], Y: -a.Way[1], Z: -a.Way[2]}
				middle := p.Boards[k].Placed().Middle()
				other := q.a
				if other == k {
					other = q.b
				}
				if middle.Minus(p.Boards[other].Placed().Middle()).Dot(out) < 0 {
					out = out.Negated()
				}
				way = out
				break
			}
			step.From = append(step.From, vec(way))
		}
		m.Steps = append(m.Steps, step)
	}
	return m
}
