package joint

import (
	"errors"
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

// What a screw or nail needs of the wood it ends in. Source: common practice.
const (
	leastBite    = measure.Inch     // in the far board, across its grain
	leastEndBite = 2 * measure.Inch // in the far board's end grain
	tipCover     = measure.Inch / 4 // left beyond the tip
)

// perPair is how many fasteners a pair takes when its pattern names no number:
// two at a crossing. Source: common practice.
const perPair = 2

// fasten works out which board of a pair is gone through first, how much wood
// lies along the fastener, and what fastens the pair.
func (f *finder) fasten(j *Joint, p *Pair) {
	p.Through = throughBoard(j.Joint, p.A, p.B)
	out := p.Contact.Plane.N // from A into B
	woodA := wood(p.A, p.Contact.Middle, out.Negated())
	woodB := wood(p.B, p.Contact.Middle, out)
	if p.Through == nil { // unsaid: the thinner is gone through first
		if p.Through = p.A; woodB < woodA-geom.Alike {
			p.Through = p.B
		}
	}
	p.Stack = [2]float64{woodA, woodB}
	if p.Through == p.B {
		p.Stack = [2]float64{woodB, woodA}
	}
	p.EndWood = math.Abs(p.Into().Pose.X.Dot(out)) > math.Sqrt2/2
	for i, w := range j.With {
		f.use(j, p, w, j.Joint.With[min(i, len(j.Joint.With)-1)])
	}
}

// throughBoard returns the board of a pair a design says the fastener goes
// through first, or nil.
func throughBoard(d *design.Joint, a, b *design.Board) *design.Board {
	for _, first := range [][]board.ID{d.Through, d.Head} {
		switch {
		case slices.Contains(first, a.ID):
			return a
		case slices.Contains(first, b.ID):
			return b
		}
	}
	return nil
}

// wood returns how many mm of wood board b has from a point of its surface
// along way, a direction in the piece: to where the wood first ends.
func wood(b *design.Board, from, way geom.Vec) float64 {
	at, along := b.Pose.In(from), b.Pose.InWay(way)
	for _, s := range b.Solid.Through(at, along) {
		if s[1] > geom.Touch {
			return s[1] - math.Max(0, s[0])
		}
	}
	return 0
}

func (f *finder) use(j *Joint, p *Pair, w screw.Fastener, said design.Fastening) {
	u := Use{Fastener: w, Count: count(j.Pattern, p.Contact)}
	switch {
	case w.Family == screw.Glue:
		u.Count = 1
	case w.Bolted():
		stack, _ := measure.FromMM(p.Stack[0] + p.Stack[1])
		fit, err := w.ForStack(stack)
		if err != nil {
			f.bolt(j, p, w, said, err)
		} else {
			u.Fastener, u.Fit = fit.Bolt, &fit
		}
	case w.Family == screw.Dowel:
	default:
		f.judge(j, p, w, said)
	}
	p.Uses = append(p.Uses, u)
}

// bolt says why no bolt fits a pair, with the way out.
func (f *finder) bolt(j *Joint, p *Pair, w screw.Fastener, said design.Fastening, err error) {
	what, mend := err.Error(), snag.Say("use a screw there, or thinner wood")
	var unfit *screw.FitError
	if errors.As(err, &unfit) {
		what, mend = unfit.What, snag.Say(unfit.Mend)
	}
	if w.Length != 0 { // a length that was written; without one the right length is found
		bare := screw.Fastener{Row: w.Row}
		if stack, _ := measure.FromMM(p.Stack[0] + p.Stack[1]); fits(bare, stack) {
			mend = snag.Replace(fmt.Sprintf("write %s, and the length is found", bare.Name()), said.At, bare.Name())
		}
	}
	f.about(j, p, said, "bolt-length", what, mend)
}

func fits(bolt screw.Fastener, stack measure.Length) bool {
	_, err := bolt.ForStack(stack)
	return err == nil
}

// count returns how many fasteners a pattern asks of one contact: its number, or
// one every so far along the contact's longer way and one more, or two.
func count(p design.Pattern, c geom.Contact) int {
	switch {
	case p.Count > 0:
		return p.Count
	case p.Spacing != nil && p.Spacing.Q.V > 0:
		run := float64(longest(c) * 1e6)
		if p.FromEnd != nil {
			run -= float64(2 * p.FromEnd.Q.V)
		}
		return 1 + max(0, int(math.Floor(run/p.Spacing.Q.V+1e-6)))
	}
	return perPair
}

// longest returns how far a contact runs along its longest side, in mm.
func longest(c geom.Contact) float64 {
	var way geom.Vec
	for _, loop := range c.Loops {
		for i, a := range loop {
			if side := a.Minus(loop[(i+1)%len(loop)]); side.Length() > way.Length()+geom.Same {
				way = side
			}
		}
	}
	way = way.Unit()
	low, high := math.Inf(1), math.Inf(-1)
	for _, loop := range c.Loops {
		for _, a := range loop {
			low, high = math.Min(low, a.Dot(way)), math.Max(high, a.Dot(way))
		}
	}
	return math.Max(0, high-low)
}

// judge says when a screw or nail bites too little or comes too near the far
// side, with the nearest length sold that does neither.
func (f *finder) judge(j *Joint, p *Pair, w screw.Fastener, said design.Fastening) {
	through, _ := measure.FromMM(p.Stack[0])
	into, _ := measure.FromMM(p.Stack[1])
	least := leastBite
	grain := ""
	if p.EndWood {
		least, grain = leastEndBite, " of end grain"
	}
	bite := w.Length - through
	what := ""
	switch {
	case bite < least:
		what = fmt.Sprintf("%s goes through %s of the %s and bites %s%s in the %s; it should bite %s", w.Name(), tape(through), p.Through.Spoken, tape(max(0, bite)), grain, p.Into().Spoken, tape(least))
	case into-bite < 0:
		what = fmt.Sprintf("%s comes out of the %s by %s: the two boards are %s thick together", w.Name(), p.Into().Spoken, tape(bite-into), tape(through+into))
	case into-bite < measure.Inch/64:
		what = fmt.Sprintf("%s comes to the far side of the %s; leave %s of wood beyond its tip", w.Name(), p.Into().Spoken, tape(tipCover))
	case into-bite < tipCover:
		what = fmt.Sprintf("%s ends %s short of the far side of the %s; leave %s", w.Name(), tape(into-bite), p.Into().Spoken, tape(tipCover))
	default:
		return
	}
	code := snag.Code("screw-long")
	if bite < least {
		code = "screw-short"
	}
	fits := lengthFor(w, through+least, through+into-tipCover)
	if fits == 0 {
		f.about(j, p, said, code, what, snag.Say(fmt.Sprintf("no %s sold is from %s to %s long: go through the other board, or use a bolt", w.Family, tape(through+least), tape(through+into-tipCover))))
		return
	}
	better := screw.Fastener{Row: w.Row, Length: fits}
	if fits != w.Length {
		f.about(j, p, said, code, what, snag.Replace("use "+better.Name(), said.At, better.Name()))
	}
}

// lengthFor returns the length sold nearest to w's own between least and most,
// the shorter of two equally near; 0 if none is sold.
func lengthFor(w screw.Fastener, least, most measure.Length) measure.Length {
	var best measure.Length
	off := func(l measure.Length) measure.Length { return max(l-w.Length, w.Length-l) }
	for _, l := range w.Lengths {
		if l >= least && l <= most && (best == 0 || off(l) < off(best)) {
			best = l
		}
	}
	return best
}

// about adds a caution on a fastener, once for a joint and its kinds of board.
func (f *finder) about(j *Joint, p *Pair, said design.Fastening, code snag.Code, what string, mends ...snag.Mend) {
	kinds := p.Through.Name + " " + p.Into().Name
	for _, s := range f.snags {
		if s.Code == code && s.At == said.At && s.Why != "" && len(s.Boards) == 2 && f.kinds(s) == kinds {
			return
		}
	}
	f.snags = append(f.snags, snag.Snag{Code: code, Severity: snag.Caution, At: said.At, Tier: snag.Settled,
		Boards: []string{string(p.Through.ID), string(p.Into().ID)},
		What:   j.Name + ": " + what, Why: "common practice", Mends: mends})
}

func (f *finder) kinds(s snag.Snag) string {
	return f.piece.Boards[f.at[board.ID(s.Boards[0])]].Name + " " + f.piece.Boards[f.at[board.ID(s.Boards[1])]].Name
}

func tape(l measure.Length) string { return length(l.MM()) }
