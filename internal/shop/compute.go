package shop

import (
	"scantling/internal/board"
	"scantling/internal/design"
	"scantling/internal/geom"
	"scantling/internal/joint"
	"scantling/internal/lumber"
	"scantling/internal/measure"
	"scantling/internal/part"
	"scantling/internal/phrase"
	"scantling/internal/snag"
	"scantling/internal/span"
	"scantling/internal/wood"
)

// moisture is the moisture content, in percent, that weights are given at: what
// lumber settles to outdoors under cover in most of North America.
// Source: Wood Handbook, FPL-GTR-190 (2010), chapter 13 (12 to 15 %; from memory).
const moisture = 15

// Kerf is the wood one saw cut takes where nobody has said otherwise: a full
// blade's. Source: common practice.
func (p Pen) Kerf() measure.Length {
	if p.Metric() {
		return 3 * measure.Millimetre
	}
	return measure.Inch / 8
}

// Compute returns the readings of a piece: all but what is bought and how it is
// sawn (Buy and Saw), and what only the caller knows (Ready, Date, Revision,
// Changes, and Notes, which Notes makes of all snags). The snags are what it found
// that stands in the way of building from the plan.
func Compute(p *design.Piece, m *joint.Meetings, joints []joint.Joint, parts []*part.Part, pen Pen) (*Readings, snag.List) {
	s := &shop{piece: p, meetings: m, declared: joints, pen: pen,
		at: map[board.ID]int{}, partOf: map[board.ID]*part.Part{},
		kg: make([]float64, len(p.Boards)), neighbours: make([][]int, len(p.Boards)), faces: map[int][]facing{}, points: map[int][]cornerOf{},
		firsts: map[string]int{}, runs: map[board.ID]*run{}, rowFrom: map[string]span.Set{}}
	for i, b := range p.Boards {
		s.at[b.ID] = i
		if b.Row == 1 {
			s.firsts[withoutNumber(b.ID)] = i
		}
	}
	for _, row := range p.Rows {
		s.rowFrom[row.Name] = s.rowFrom[row.Name].Union(row.Gap.From, row.Count.From)
	}
	for _, x := range m.All {
		if x.Area > 0 {
			s.neighbours[x.A] = append(s.neighbours[x.A], x.B)
			s.neighbours[x.B] = append(s.neighbours[x.B], x.A)
		}
	}
	for _, q := range parts {
		for _, member := range q.Of {
			s.partOf[member.ID] = q
		}
	}
	s.out = &Readings{Piece: p.Name, About: s.text(p.About), Units: pen.pick("inches", "millimetres"), Lang: [...]string{"en-US", "en-GB", "en-AU"}[p.Region], Pen: pen}
	for _, h := range p.Hardware {
		for _, f := range h.Boxes {
			s.out.Fixed = append(s.out.Fixed, f.Placed())
		}
	}
	for _, j := range joints {
		for _, pair := range j.Pairs {
			for _, u := range pair.Uses {
				for i := range u.Plates {
					s.out.Fixed = append(s.out.Fixed, u.Plates[i].Placed()...)
				}
			}
		}
	}
	s.built = map[string]int{}
	for _, step := range p.Steps {
		for _, id := range step.Add {
			if i, ok := s.at[id]; ok {
				if name := phrase.Spaced(p.Boards[i].Name); s.built[name] == 0 {
					s.built[name] = len(s.built) + 1
				}
			}
		}
	}
	s.weigh()
	s.sizes()
	for _, q := range parts {
		s.out.Parts = append(s.out.Parts, s.part(q))
	}
	s.boards()
	s.stocks()
	s.out.Bits, s.sinks = s.bits()
	s.joints()
	s.steps()
	s.finish()
	s.facts()
	s.cautions()
	return s.out, s.snags
}

// shop is the state of one Compute.
type shop struct {
	piece    *design.Piece
	meetings *joint.Meetings
	declared []joint.Joint
	pen      Pen

	at     map[board.ID]int
	partOf map[board.ID]*part.Part
	out    *Readings
	snags  snag.List

	kg         []float64        // by board
	neighbours [][]int          // by board: those it shares an area with
	faces      map[int][]facing // by board, once asked for
	points     map[int][]cornerOf
	firsts     map[string]int      // the first board of each row, by its id without the number
	runs       map[board.ID]*run   // of row boards, once they are placed
	rowFrom    map[string]span.Set // by the name of a row: what its gap and count were computed from
	sinks      bool                // some head is countersunk
	built      map[string]int      // by name, in words: when its first board is built in, from 1
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
			out = out.Show(s.pen.Quantity(x.Value.Q, x.Value.From))
		}
	}
	return out
}

func (s *shop) sizes() {
	for _, z := range s.piece.Sizes {
		size := Size{Name: z.Name, Says: z.Says,
			Value: s.pen.Quantity(z.Value, z.From).as(Fixed),
			Least: s.pen.Quantity(z.Least, span.Set{}),
			Most:  s.pen.Quantity(z.Most, span.Set{})}
		if z.Step.V != 0 {
			size.Step = s.pen.Quantity(z.Step, span.Set{})
		}
		s.out.Sizes = append(s.out.Sizes, size)
	}
	for _, c := range s.piece.Choices {
		s.out.Choices = append(s.out.Choices, Choice{c.Name, c.Says, c.Is, c.Of})
	}
	for _, n := range s.piece.Needs {
		s.out.Needs = append(s.out.Needs, Need{s.text(n.Says), s.text(n.Else), n.Stop, n.Holds, n.Known, n.Sizes})
	}
}

// boards gives every board its reading, and the piece its overall size and mass.
func (s *shop) boards() {
	box := geom.EmptyBox()
	var extremes [6]span.Set // of the boards that reach furthest left, right, front, …
	mass, from := 0.0, span.Set{}
	for n, b := range s.piece.Boards {
		r := &BoardReading{ID: b.ID, Spoken: b.Spoken, Board: b.Board, From: b.All()}
		if p := s.partOf[b.ID]; p != nil {
			r.Part = p.Letter
			r.Lies = lies(p, b)
			r.Drawn = Lies{sideName(b.Board, board.Start), sideName(b.Board, board.Show)}
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
		mass += s.kg[n]
		from = from.Union(b.All())
	}
	if len(s.out.Boards) > 0 {
		size := box.Size()
		for i, mm := range [3]float64{size.X, size.Y, size.Z} {
			s.out.Overall[i] = s.pen.Length(mm, extremes[2*i].Union(extremes[2*i+1]))
		}
	}
	s.out.Mass = s.pen.Mass(mass, from)
}

// lies says which way round a part goes as one of its boards.
func lies(p *part.Part, b *design.Board) Lies {
	for _, m := range p.Of {
		if m.Board == b {
			return Lies{sideName(b.Board, m.Turn.Side(board.Start)), sideName(b.Board, m.Turn.Side(board.Show))}
		}
	}
	return Lies{}
}

// goes says as which of its boards a part lies otherwise than its sheet shows it:
// what is called so there is called otherwise in place.
func goes(p *part.Part, drawn Lies) []Text {
	var ways []Lies
	as := map[Lies][]string{}
	for _, m := range p.Of {
		l := lies(p, m.Board)
		if as[l] == nil && l != drawn {
			ways = append(ways, l)
		}
		as[l] = append(as[l], "the "+m.Spoken)
	}
	var out []Text
	for _, l := range ways {
		var turns []string
		if l.End != drawn.End {
			turns = append(turns, "its "+drawn.End+" is the "+l.End)
		}
		if l.Face != drawn.Face {
			turns = append(turns, "its "+drawn.Face+" is the "+l.Face)
		}
		out = append(out, Words("As "+phrase.List(as[l])+" "+phrase.List(turns)+"."))
	}
	return out
}

// weigh works out the mass of every board, in kg; 0 where its wood is not known,
// which package design has said.
func (s *shop) weigh() {
	density := map[string]float64{} // kg/m³
	for i, b := range s.piece.Boards {
		if b.Stock == nil || b.Solid == nil {
			continue
		}
		d, ok := density[b.Stock.Wood]
		if !ok {
			if w, err := wood.Lookup(b.Stock.Wood); err == nil {
				d = w.DensityKgM3(moisture)
			}
			density[b.Stock.Wood] = d
		}
		s.kg[i] = b.Solid.Volume * 1e-9 * d
	}
}

// stocks lists the lumber the piece uses, in file order.
func (s *shop) stocks() {
	for _, l := range s.piece.Lumber {
		var letters []string
		for _, p := range s.out.Parts {
			if p.Lumber == l.Name {
				letters = append(letters, p.Letter)
			}
		}
		if letters == nil || l.Stock == nil {
			continue
		}
		r := StockReading{Name: l.Name, SaleName: string(l.Stock.Size), Wood: woodName(*l.Stock), Parts: letters,
			Thick: s.pen.Length(l.Stock.T.MM(), l.From), Wide: s.pen.Length(l.Stock.W.MM(), l.From)}
		if l.Stock.Treatment != lumber.Untreated {
			r.Treatment = l.Stock.Treatment.In(l.Stock.Region)
			if c := l.Stock.Treatment.CodeIn(l.Stock.Region); c != "" && !l.Stock.Region.Metric() {
				r.Treatment += " (" + c + ")"
			}
		}
		if size, err := lumber.LookupIn(l.Stock.Region, string(l.Stock.Size)); err == nil {
			r.Source, r.Basis = size.From.Work, size.From.Basis.String()
			if size.Thick != l.Stock.T || size.Wide != l.Stock.W {
				r.Source, r.Basis = string(l.Stock.Size)+" as you measured it", "measured"
			}
		}
		s.out.Stocks = append(s.out.Stocks, r)
	}
}

// joints lists the joints with the pairs found for them.
func (s *shop) joints() {
	for i := range s.declared {
		j := &s.declared[i]
		r := Joint{Name: j.Name, Total: j.Total(), From: j.Scalars}
		for _, p := range j.Pairs {
			r.Pairs = append(r.Pairs, JointPair{p.A.ID, p.B.ID, s.pen.Area(p.Area, p.A.All().Union(p.B.All())), nil})
			r.Pairs[len(r.Pairs)-1].Axes = axes(&p)
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

// axes are the fasteners of a pair in place.
func axes(p *joint.Pair) []Axis {
	var out []Axis
	for _, u := range p.Uses {
		for _, a := range u.Axes {
			out = append(out, Axis{u.Fastener.Name(), a, u.Fastener.Length.MM(), u.Fastener.Head.MM()})
		}
	}
	return out
}

func has(words []string, w string) bool {
	for _, x := range words {
		if x == w {
			return true
		}
	}
	return false
}
