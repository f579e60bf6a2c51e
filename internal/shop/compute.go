package shop

import (
	"scantling/internal/board"
	"scantling/internal/design"
	"scantling/internal/geom"
	"scantling/internal/joint"
	"scantling/internal/lumber"
	"scantling/internal/measure"
	"scantling/internal/part"
	"scantling/internal/snag"
	"scantling/internal/span"
	"scantling/internal/wood"
)

// moisture is the moisture content, in percent, that weights are given at: what
// lumber settles to outdoors under cover in most of North America.
// Source: Wood Handbook, FPL-GTR-190 (2010), chapter 13 (12 to 15 %; from memory).
const moisture = 15

// Input is all that the readings of a piece follow from.
type Input struct {
	Piece    *design.Piece
	Meetings *joint.Meetings
	Joints   []joint.Joint
	Parts    []*part.Part
	Snags    snag.List // of every earlier stage
	Pen      Pen
	Kerf     measure.Length // wood one saw cut takes; 0: 1/8 in
	Revision string
	Date     string
}

// Compute returns the readings of a piece, all but what is bought and how it is
// sawn (Buy and Saw), and what it found that stands in the way of building from
// them. Notes holds those snags too.
func Compute(in Input) (*Readings, snag.List) {
	if in.Kerf == 0 {
		in.Kerf = measure.Inch / 8
	}
	s := &shop{Input: in, at: map[board.ID]int{}, partOf: map[board.ID]*part.Part{},
		neighbours: make([][]int, len(in.Piece.Boards)), faces: map[int][]facing{}, firsts: map[string]int{}}
	for i, b := range in.Piece.Boards {
		s.at[b.ID] = i
		if b.Row == 1 {
			s.firsts[withoutNumber(b.ID)] = i
		}
	}
	for _, m := range in.Meetings.All {
		if m.Area > 0 {
			s.neighbours[m.A] = append(s.neighbours[m.A], m.B)
			s.neighbours[m.B] = append(s.neighbours[m.B], m.A)
		}
	}
	for _, p := range in.Parts {
		for _, m := range p.Of {
			s.partOf[m.ID] = p
		}
	}
	p := in.Piece
	s.out = &Readings{Piece: p.Name, About: s.text(p.About), Units: "inches", Revision: in.Revision, Date: in.Date}
	if in.Pen.Tape.Units() == measure.Metric {
		s.out.Units = "millimetres"
	}
	s.sizes()
	for _, q := range in.Parts {
		s.out.Parts = append(s.out.Parts, s.part(q))
	}
	s.boards()
	s.stocks()
	s.joints()
	s.steps()
	s.finish()
	s.facts()
	s.cautions()
	if in.Revision != "" || in.Date != "" {
		s.out.Changes = []Change{{in.Revision, in.Date, Words("First edition.")}}
	}
	all := append(append(snag.List{}, in.Snags...), s.snags...).Sorted()
	s.out.Ready = all.Errors() == 0
	s.notes(all)
	return s.out, s.snags
}

// shop is the state of one Compute.
type shop struct {
	Input
	at     map[board.ID]int
	partOf map[board.ID]*part.Part
	out    *Readings
	snags  snag.List

	neighbours [][]int          // by board: those it shares an area with
	faces      map[int][]facing // by board, once asked for
	firsts     map[string]int   // the first board of each row, by its id without the number
}

// text turns prose of the design into prose of the plan.
func (s *shop) text(t design.Text) Text {
	var out Text
	for _, x := range t {
		switch {
		case x.Value == nil:
			out = out.Say(x.Words)
		case x.Value.Word != "":
			out = out.Say(x.Value.Word)
		default:
			out = out.Show(s.Pen.Quantity(x.Value.Q, x.Value.From))
		}
	}
	return out
}

func (s *shop) sizes() {
	for _, z := range s.Piece.Sizes {
		size := Size{Name: z.Name, Says: z.Says,
			Value: s.Pen.Quantity(z.Value, z.From).as(Fixed),
			Least: s.Pen.Quantity(z.Least, z.From),
			Most:  s.Pen.Quantity(z.Most, z.From)}
		if z.Step.V != 0 {
			size.Step = s.Pen.Quantity(z.Step, z.From)
		}
		s.out.Sizes = append(s.out.Sizes, size)
	}
	for _, c := range s.Piece.Choices {
		s.out.Choices = append(s.out.Choices, Choice{c.Name, c.Says, c.Is, c.Of})
	}
}

// boards gives every board its reading, and the piece its overall size and mass.
func (s *shop) boards() {
	box := geom.EmptyBox()
	var extremes [6]span.Set // of the boards that reach furthest left, right, front, …
	mass, from := 0.0, span.Set{}
	for _, b := range s.Piece.Boards {
		r := &BoardReading{ID: b.ID, Spoken: b.Spoken, Board: b.Board, From: b.All()}
		if p := s.partOf[b.ID]; p != nil {
			r.Part = p.Letter
		}
		if b.Solid == nil || len(b.Solid.Cells) == 0 {
			continue
		}
		s.out.Boards = append(s.out.Boards, r)
		mine := b.Placed().Around()
		for i, further := range [6]bool{
			mine.Low.X < box.Low.X-geom.Touch, mine.High.X > box.High.X+geom.Touch,
			mine.Low.Y < box.Low.Y-geom.Touch, mine.High.Y > box.High.Y+geom.Touch,
			mine.Low.Z < box.Low.Z-geom.Touch, mine.High.Z > box.High.Z+geom.Touch,
		} {
			if further {
				extremes[i] = b.All()
			}
		}
		box = box.Union(mine)
		mass += massOf(b)
		from = from.Union(b.All())
	}
	if len(s.out.Boards) > 0 {
		size := box.Size()
		for i, mm := range [3]float64{size.X, size.Y, size.Z} {
			s.out.Overall[i] = s.Pen.Length(mm, extremes[2*i].Union(extremes[2*i+1]))
		}
	}
	s.out.Mass = s.Pen.Mass(mass, from)
}

// massOf returns the mass of a board in kg; 0 when its wood is not known.
func massOf(b *design.Board) float64 {
	if b.Stock == nil || b.Solid == nil {
		return 0
	}
	w, err := wood.Lookup(b.Stock.Wood)
	if err != nil {
		return 0 // package design has said so
	}
	return b.Solid.Volume * 1e-9 * w.DensityKgM3(moisture)
}

// stocks lists the lumber the piece uses, in file order.
func (s *shop) stocks() {
	for _, l := range s.Piece.Lumber {
		var letters []string
		for _, p := range s.out.Parts {
			if p.Lumber == l.Name {
				letters = append(letters, p.Letter)
			}
		}
		if letters == nil || l.Stock == nil {
			continue
		}
		r := StockReading{Name: l.Name, SaleName: string(l.Stock.Size), Wood: l.Stock.Wood, Parts: letters,
			Thick: s.Pen.Length(l.Stock.T.MM(), l.From), Wide: s.Pen.Length(l.Stock.W.MM(), l.From)}
		if l.Stock.Treatment != lumber.Untreated {
			r.Treatment = l.Stock.Treatment.String()
			if c := l.Stock.Treatment.Code(); c != "" {
				r.Treatment += " (" + c + ")"
			}
		}
		if size, err := lumber.Lookup(string(l.Stock.Size)); err == nil {
			r.Source, r.Basis = size.From.Work, size.From.Basis.String()
		}
		s.out.Stocks = append(s.out.Stocks, r)
	}
}

// joints lists the joints with the pairs found for them.
func (s *shop) joints() {
	for i := range s.Joints {
		j := &s.Joints[i]
		r := Joint{Name: j.Name, Total: j.Total(), From: j.Scalars}
		for _, p := range j.Pairs {
			r.Pairs = append(r.Pairs, JointPair{p.A.ID, p.B.ID, s.Pen.Area(p.Area, p.A.All().Union(p.B.All()))})
			n := 0
			for _, u := range p.Uses {
				if !has(r.With, u.Fastener.Name()) {
					r.With = append(r.With, u.Fastener.Name())
				}
				n += u.Count
			}
			r.Fastener = max(r.Fastener, n)
		}
		s.out.Joints = append(s.out.Joints, r)
	}
}

func has(words []string, w string) bool {
	for _, x := range words {
		if x == w {
			return true
		}
	}
	return false
}
