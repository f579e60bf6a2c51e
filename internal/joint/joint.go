// Package joint finds where the boards of a piece meet, and which of those
// meetings are the joints the design declares.
//
// A declaration says only which kinds of board are fastened and with what: "legs
// to long aprons, two carriage bolts". Meet compares every two boards that lie
// near one another and says where they touch, run into one another or nearly
// touch; Find picks from that the pairs each declaration is about, lays their
// fasteners in the area where the two touch, sets brackets beside it, chooses lengths,
// fits bolts to the wood they go through, and says when a fastener is too long, too
// short, too near an end, an edge or another fastener, enters by the wrong face, splits
// the wood or rusts in it. It gives the boards their holes.
//
// Start at Find. A group is the pairs of one joint laid alike (fasten.go); a region is
// their contact seen square (region.go), in which a pattern is laid (pattern.go); the
// thicket knows all fasteners near a place (near.go). What the wood wants is in rules.go;
// judge.go, shortfall.go and depth.go hold what is laid against it. A mend that a program
// can do is offered only when it closes: it is tried on the joints first (close.go).
package joint

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"scantling/internal/board"
	"scantling/internal/design"
	"scantling/internal/geom"
	"scantling/internal/measure"
	"scantling/internal/screw"
	"scantling/internal/snag"
)

// Enough is the area, in mm², two boards must touch over to be fastened there:
// half a square inch. Source: common practice; a smaller one holds no fastener
// with its edge distances.
const Enough = 0.5 * 25.4 * 25.4

// A Joint is one declaration with the pairs of boards it is about.
type Joint struct {
	*design.Joint
	With  []screw.Fastener // as Joint.With; a bolt's length is in each Pair
	Pairs []Pair           // in board order of the first side, then of the second
}

// A Pair is two boards fastened to one another.
type Pair struct {
	A, B    *design.Board // of the first and the second side of the declaration
	Area    float64       // mm² of contact
	Contact geom.Contact  // the largest, its plane that of A
	Through *design.Board // A or B: the one the fastener passes through first
	Stack   [2]float64    // mm of wood along the fastener: in Through, in the other
	EndWood bool          // the other board is entered in its end grain
	Uses    []Use         // what fastens this pair

	gravity [2]float64 // specific gravity of the wood of A and of B
}

// Into returns the board a pair's fastener ends in.
func (p *Pair) Into() *design.Board {
	if p.Through == p.A {
		return p.B
	}
	return p.A
}

// A Use is so many of one fastener.
type Use struct {
	Fastener screw.Fastener // with its length
	Fit      *screw.Fit     // of a bolt
	Count    int            // as many as there are axes, of what is driven
	Axes     []Axis         // where each stands; nil of glue and fittings
	Plates   []Plate        // of brackets: where each is screwed on
	Behind   float64        // of a bolt that goes into an insert: mm its hole goes into the far board
}

// sunk reports whether the heads lie in counterbores.
func (u *Use) sunk() bool { return len(u.Axes) > 0 && u.Axes[0].Sunk[0] > 0 }

// An Axis is one fastener in place.
type Axis struct {
	At    geom.Vec   // where its head bears on the wood of Through: on its face, or on the floor of a counterbore; in the piece
	Way   geom.Vec   // the way it is driven, unit
	Stack [2]float64 // mm of wood along it, counterbores not counted: in Through, in the other board
	Sunk  [2]float64 // mm of counterbore over its head, and over the nut of a bolt

	In board.ID // the only board it stands in, as a bracket's screw does, Stack[1] of wood; "" of all others
}

// Face returns where the fastener enters the face of the first board it stands in.
func (a Axis) Face() geom.Vec { return a.At.Along(a.Way, -a.Sunk[0]) }

// Meet returns where an axis goes from one board into the other, in the piece.
func (a Axis) Meet() geom.Vec { return a.At.Along(a.Way, a.Stack[0]) }

// Total returns how many of the joint's fasteners are needed, all kinds
// together, glue not counted.
func (j *Joint) Total() int {
	n := 0
	for _, p := range j.Pairs {
		for _, u := range p.Uses {
			if u.Fastener.Family != screw.Glue {
				n += u.Count
			}
		}
	}
	return n
}

// bottle is how many mm² of joint a bottle of 8 fl oz (237 cm³) of glue covers,
// 12 sq ft, spread 0.2 mm thick. Source: common practice; the label rules.
const bottle = 12 * 144 * 25.4 * 25.4

// Tally counts what all joints need, with nuts and washers: of what is driven, one
// for each axis; of glue, bottles by the area it goes on.
func Tally(joints []Joint) *screw.Tally {
	var t screw.Tally
	var glue screw.Fastener
	area := 0.0
	for _, j := range joints {
		for _, p := range j.Pairs {
			for _, u := range p.Uses {
				switch {
				case u.Fastener.Family == screw.Glue:
					glue = u.Fastener
					area += p.Area
				case u.Fit != nil:
					t.AddFit(*u.Fit, u.Count)
				default:
					t.Add(u.Fastener, u.Count)
				}
				if j.Counterbore.Plug && u.sunk() {
					t.AddPlugs(u.Fastener, u.Count)
				}
			}
		}
	}
	t.Add(glue, int(math.Ceil(area/bottle)))
	return &t
}

// Find returns the joints of a piece in file order, gives the boards their holes,
// and says what is wrong with them.
// A declaration none of whose boards touch is an error with the distance; pairs
// that touch over less than Enough, and a number of pairs other than expected,
// are said too.
func Find(p *design.Piece, m *Meetings) ([]Joint, snag.List) {
	f := newFinder(p, m)
	joints := f.pair(p.Joints)
	f.judged(joints)
	f.metals(joints)
	f.drillAll(joints)
	closing(p, m, f.snags)
	return joints, f.snags
}

func newFinder(p *design.Piece, m *Meetings) *finder {
	f := &finder{speaker: speaker{p.Units}, piece: p, meetings: m, at: map[board.ID]int{}, gravities: map[string]float64{}, parsed: map[string]screw.Fastener{}, side: make([]uint8, len(p.Boards))}
	for i, b := range p.Boards {
		f.at[b.ID] = i
	}
	return f
}

// pair picks the pairs of the joints declared.
func (f *finder) pair(declared []design.Joint) []Joint {
	joints := make([]Joint, 0, len(declared))
	for i := range declared {
		joints = append(joints, f.joint(&declared[i]))
	}
	return joints
}

// judged lays the fasteners of joints and says what is wrong with them.
func (f *finder) judged(joints []Joint) {
	f.fasten(joints)
	f.crossings()
}

type finder struct {
	speaker
	piece     *design.Piece
	meetings  *Meetings
	at        map[board.ID]int
	side      []uint8 // by board: bit 1 of the first side of the joint in hand, bit 2 of the second
	thicket   thicket
	groups    []*group
	gravities map[string]float64        // by wood
	parsed    map[string]screw.Fastener // by phrase
	deaf      bool                      // trials do not mind other fasteners
	fixed     []thorn                   // the screws of brackets, which stand where the brackets have their holes
	snags     snag.List
}

func (f *finder) joint(d *design.Joint) Joint {
	j := Joint{Joint: d}
	for _, w := range d.With {
		fastener, known := f.parsed[w.Phrase]
		if !known {
			var err error
			if fastener, err = screw.Parse(w.Phrase); err != nil {
				continue // package design has said so
			}
			f.parsed[w.Phrase] = fastener
		}
		j.With = append(j.With, fastener)
	}
	var slight snag.List
	f.mark(d, 1, 2)
	for _, k := range f.between(d) {
		m := &f.meetings.All[k]
		a, b := f.side[m.A], f.side[m.B]
		flipped := !(a&1 != 0 && b&2 != 0)
		if m.Area == 0 || flipped && !(a&2 != 0 && b&1 != 0) {
			continue
		}
		if m.Area < Enough {
			slight = append(slight, f.slight(d, m))
			continue
		}
		pair := Pair{A: f.piece.Boards[m.A], B: f.piece.Boards[m.B], Area: m.Area, Contact: m.Largest(flipped)}
		if flipped {
			pair.A, pair.B = pair.B, pair.A
		}
		j.Pairs = append(j.Pairs, pair)
	}
	f.mark(d, 0, 0)
	slices.SortStableFunc(j.Pairs, func(p, q Pair) int {
		return cmp.Or(cmp.Compare(f.at[p.A.ID], f.at[q.A.ID]), cmp.Compare(f.at[p.B.ID], f.at[q.B.ID]))
	})
	f.snags = append(f.snags, slight...)
	switch {
	case len(d.Sides[0]) == 0 || len(d.Sides[1]) == 0:
	case len(j.Pairs) == 0 && len(slight) == 0:
		f.apart(d)
	case d.Expect != nil && d.Expect.Q.V != float64(len(j.Pairs)):
		f.add(d, "joint-count", snag.Error,
			fmt.Sprintf("%s fastens %s, and %s are expected", d.Name, plural(len(j.Pairs), "pair"), d.Expect.Q.Text(measure.Sixteenth)),
			"",
			fmt.Sprintf("write expect: %d, or move the boards so that they touch", len(j.Pairs)))
	}
	return j
}

// mark gives the boards of a joint's sides their marks, or takes them away.
func (f *finder) mark(d *design.Joint, first, second uint8) {
	for k, ids := range d.Sides {
		for _, id := range ids {
			if i, ok := f.at[id]; ok && first == 0 {
				f.side[i] = 0
			} else if ok {
				f.side[i] |= []uint8{first, second}[k]
			}
		}
	}
}

// between returns the places in Meetings.All that touch the joint's shorter side,
// in order, each once.
func (f *finder) between(d *design.Joint) []int {
	ids := d.Sides[0]
	if len(d.Sides[1]) < len(ids) {
		ids = d.Sides[1]
	}
	var out []int
	for _, id := range ids {
		if i, ok := f.at[id]; ok {
			out = append(out, f.meetings.of[i]...)
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

func (f *finder) add(d *design.Joint, code snag.Code, s snag.Severity, what, why string, mends ...string) {
	x := snag.Snag{Code: code, Severity: s, At: d.JoinAt, What: what, Why: why, Tier: snag.Settled}
	if x.At.IsZero() {
		x.At = d.At
	}
	for _, m := range mends {
		x.Mends = append(x.Mends, snag.Say(m))
	}
	f.snags = append(f.snags, x)
}

func (f *finder) slight(d *design.Joint, m *Meeting) snag.Snag {
	a, b := f.piece.Boards[m.A], f.piece.Boards[m.B]
	return snag.Snag{Code: "joint-slight", Severity: snag.Advice, At: d.JoinAt, Tier: snag.Settled,
		Boards: []string{string(a.ID), string(b.ID)},
		What:   fmt.Sprintf("the %s and the %s touch over %s only, so %s does not fasten them", a.Spoken, b.Spoken, f.area(m.Area), d.Name),
		Why:    "a joint takes half a square inch of contact or more",
		Mends:  []snag.Mend{snag.Say("let them meet over a larger area, or leave it so")}}
}

// apart says how far the two nearest boards of a joint are from one another.
func (f *finder) apart(d *design.Joint) {
	least := math.Inf(1)
	var a, b *design.Board
	for _, ia := range d.Sides[0] {
		for _, ib := range d.Sides[1] {
			i, ok := f.at[ia]
			k, also := f.at[ib]
			if !ok || !also || i == k {
				continue
			}
			x, y := f.piece.Boards[i], f.piece.Boards[k]
			if x.Solid == nil || y.Solid == nil {
				continue
			}
			if gap := Apart(x.Placed(), y.Placed()); gap < least {
				least, a, b = gap, x, y
			}
		}
	}
	if a == nil {
		return
	}
	how := fmt.Sprintf("the nearest two, the %s and the %s, are %s apart", a.Spoken, b.Spoken, f.length(least))
	if least <= geom.Touch {
		how = fmt.Sprintf("the %s and the %s meet in no flat area", a.Spoken, b.Spoken)
	}
	f.add(d, "joint-apart", snag.Error, d.Name+" joins boards that do not touch: "+how, "",
		"move one of them until they touch (against, flush with), or take the joint out")
}

// Apart returns how far two solids stand apart, in mm, along the direction, of their
// outer faces' normals and the crosses of their runs, in which they stand
// furthest apart: the distance itself where face looks at face, and never more
// than it. It is 0 or less where no such direction parts them.
func Apart(a, b geom.Placed) float64 {
	best := math.Inf(-1)
	try := func(n geom.Vec) {
		if n.Length() < 1e-9 {
			return
		}
		n = n.Unit()
		lowA, highA := a.Extent(n)
		lowB, highB := b.Extent(n)
		best = math.Max(best, math.Max(lowB-highA, lowA-highB))
	}
	for _, s := range []geom.Placed{a, b} {
		for _, face := range s.Faces {
			try(s.Pose.OutWay(face.Plane.N))
		}
	}
	try(a.Pose.X.Cross(b.Pose.X))
	return best
}

func plural(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
