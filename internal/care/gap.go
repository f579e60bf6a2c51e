package care

import (
	"fmt"
	"math"
	"strings"

	"scantling/internal/design"
	"scantling/internal/geom"
	"scantling/internal/joint"
	"scantling/internal/measure"
	"scantling/internal/phrase"
	"scantling/internal/snag"
)

// A gap may come out so far from the one asked for before it is told, in mm: a
// spacer for the one would show in the other.
const gapOff = inch / 8

// gaps tells rows of whole boards whose gap comes out another than was asked
// for, with what would make it come out. A design that says from: and to: beside
// about: has allowed what comes out.
func (c *checker) gaps() {
	for i := range c.piece.Rows {
		r := &c.piece.Rows[i]
		n := len(r.Widths)
		if r.Rule != "even" || r.Wanted.Q.D != measure.DimLength || n < 2 || r.Gap.Q.V <= 0 {
			continue
		}
		const mm = float64(measure.Millimetre)
		wood := 0.0
		for _, w := range r.Widths {
			wood += w.V
		}
		gap, want, wide := r.Gap.Q.V/mm, r.Wanted.Q.V/mm, r.Widths[0].V/mm
		if !above(math.Abs(gap-want), gapOff) {
			continue
		}
		gaps := math.Round((r.Span.Q.V - wood) / r.Gap.Q.V)
		now := r.Span.Q.V / mm
		right := wood/mm + float64(gaps*want)
		s := snag.Snag{Code: "gap-does-not-come-out", Severity: snag.Caution, At: r.At, Tier: snag.Settled,
			What: fmt.Sprintf("%s %s, %s wide, come out %s apart over %s, where about %s is asked for", count(n, "whole board"), "of "+phrase.Spaced(r.Name), c.length(wide), c.length(gap), c.length(now), c.length(want)),
			Why:  "whole boards give whole numbers of boards: another gap takes another length or a rip",
			Mends: []snag.Mend{snag.Say(fmt.Sprintf("make the row %s %s, %s in all, and the gap comes out", c.length(math.Abs(right-now)), plural(int(math.Copysign(1, right-now)), "longer", "shorter"), c.length(right))),
				askFor(r, "or ask for the gap that comes out, "+c.length(gap), c.length(gap)),
				snag.Say(fmt.Sprintf("or say from: and to: about the gap, to allow %s", c.length(gap))),
				snag.Say(fmt.Sprintf("or give the gap leftover: rip both, and the first and the last board are ripped to make it %s", c.length(want)))}}
		if more := now - wood/mm - wide; more > 0 {
			s.Mends = append(s.Mends, snag.Say(fmt.Sprintf("or ask for %s: %d boards stand so far apart", c.length(more/(gaps+1)), n+1)))
		}
		c.snags = append(c.snags, s)
	}
}

// askFor is a mend that writes another gap where the file asks for one.
func askFor(r *design.Row, says, gap string) snag.Mend {
	if r.GapAt.IsZero() {
		return snag.Say(says)
	}
	return snag.Replace(says, r.GapAt, gap)
}

// Openings that catch a child: wider than the first figure and narrower than the
// second, in mm. Source: United States Consumer Product Safety Commission, Public
// Playground Safety Handbook, as given in Caring for Our Children, standard
// 6.2.1.9: fingers 3/8 to 1 in, heads 3 1/2 to 9 in. Furniture for adults is not
// bound by it.
var (
	fingerBand = [2]float64{0.375 * inch, 1 * inch}
	headBand   = [2]float64{3.5 * inch, 9 * inch}
)

// openings tells rows whose gaps catch fingers or heads, and other boards that
// stand so far apart, where children use the piece.
func (c *checker) openings() {
	if c.piece.Use.Who != "children" {
		return
	}
	c.between()
	for i := range c.piece.Rows {
		r := &c.piece.Rows[i]
		gap := r.Gap.Q.V / float64(measure.Millimetre)
		for _, band := range []struct {
			what  string
			limit [2]float64
		}{{"finger", fingerBand}, {"head", headBand}} {
			if !above(gap, band.limit[0]) || !above(band.limit[1], gap) {
				continue
			}
			c.snags = append(c.snags, snag.Snag{Code: "opening-catches", Severity: snag.Caution, At: r.At, Tier: snag.Settled,
				What: fmt.Sprintf("the gaps of %s are %s: between %s and %s an opening catches a child's %s", phrase.Spaced(r.Name), c.length(gap), c.length(band.limit[0]), c.length(band.limit[1]), band.what),
				Why:  c.catches(),
				Mends: []snag.Mend{askFor(r, fmt.Sprintf("make the gap %s or less", c.length(band.limit[0])), c.length(band.limit[0])),
					askFor(r, fmt.Sprintf("or %s or more", c.length(band.limit[1])), c.length(band.limit[1]))}})
		}
	}
}

// catches says which openings catch a child, with the source.
func (c *checker) catches() string {
	return c.pick("openings from 3/8 to 1 in catch fingers and from 3 1/2 to 9 in heads (CPSC Public Playground Safety Handbook, in Caring for Our Children, standard 6.2.1.9)",
		"openings from 10 to 25 mm catch fingers and from 90 to 230 mm heads (CPSC Public Playground Safety Handbook, in Caring for Our Children, standard 6.2.1.9, in whole millimetres; EN 1176-1 has 8 to 25 and 89 to 230, from memory)")
}

// between tells level and upright boards, not of one row, that look at one another
// across an opening which catches: long enough to put the finger or head in, with
// nothing else in it. Leaning boards are not looked at. Each two parts are told
// once.
func (c *checker) between() {
	told := map[[2]string]bool{}
	for i, a := range c.boards {
		for k := i + 1; k < len(c.boards); k++ {
			b := c.boards[k]
			names := [2]string{a.Name, b.Name}
			if told[names] || a.Row > 0 && a.Name == b.Name || !upright(a) || !upright(b) || !c.box[i].Meets(c.box[k], headBand[1]) {
				continue
			}
			open, gap, long, ok := facing(c.box[i], c.box[k])
			if !ok {
				continue
			}
			for _, band := range []struct {
				what  string
				limit [2]float64
			}{{"finger", fingerBand}, {"head", headBand}} {
				if !above(gap, band.limit[0]) || !above(band.limit[1], gap) || long < band.limit[1] || c.filled(open, i, k) {
					continue
				}
				told[names] = true
				c.say(snag.Snag{Code: "opening-catches", Severity: snag.Caution, At: a.At, Boards: []string{string(a.ID), string(b.ID)},
					What: fmt.Sprintf("the %s and the %s are %s apart: between %s and %s an opening catches a child's %s",
						a.Spoken, b.Spoken, c.length(gap), c.length(band.limit[0]), c.length(band.limit[1]), band.what),
					Why:   c.catches(),
					Mends: []snag.Mend{snag.Say(fmt.Sprintf("bring them to %s or less, or %s or more, or put a board between", c.length(band.limit[0]), c.length(band.limit[1])))}}, i)
			}
		}
	}
}

// upright reports whether a board's own axes are those of the room.
func upright(b *design.Board) bool {
	for _, v := range []geom.Vec{b.Pose.X, b.Pose.Y} {
		if max(math.Abs(v.X), math.Abs(v.Y), math.Abs(v.Z)) < 1-1e-9 {
			return false
		}
	}
	return true
}

// facing returns the space between two boxes that look at one another along one
// axis, how wide it is and how long the longer of its other sides.
func facing(a, b geom.Box) (open geom.Box, gap, long float64, ok bool) {
	low, high := a.Low.Max(b.Low), a.High.Min(b.High)
	across := 0
	for _, axis := range []struct{ low, high *float64 }{{&low.X, &high.X}, {&low.Y, &high.Y}, {&low.Z, &high.Z}} {
		if d := *axis.low - *axis.high; d > geom.Touch {
			*axis.low, *axis.high = *axis.high, *axis.low
			gap, across = d, across+1
		} else if -d < fingerBand[0] {
			return open, 0, 0, false // they hardly overlap: no tunnel
		} else {
			long = math.Max(long, -d)
		}
	}
	return geom.Box{Low: low, High: high}, gap, long, across == 1
}

// filled reports whether another board stands in an opening.
func (c *checker) filled(open geom.Box, a, b int) bool {
	for i, box := range c.box {
		if i != a && i != b && box.Meets(open, -geom.NearReach) {
			return true
		}
	}
	return false
}

// nominal tells boards of a joint that miss one another by just what some lumber
// of the piece measures less than its name says: somebody reckoned with the name.
func (c *checker) nominal() {
	for i := range c.joints {
		j := &c.joints[i]
		if len(j.Pairs) > 0 {
			continue
		}
		a, b, gap := c.nearest(j)
		if a < 0 || gap <= 0 {
			continue
		}
		for k := range c.piece.Lumber {
			l := &c.piece.Lumber[k]
			less := c.lessThanName(l, gap)
			if less == nil {
				continue
			}
			c.say(snag.Snag{Code: "nominal-size", Severity: snag.Caution, At: j.JoinAt,
				Boards: []string{string(c.boards[a].ID), string(c.boards[b].ID)},
				What: fmt.Sprintf("the %s and the %s are %s apart, just what a %s measures less than its name: %s",
					c.boards[a].Spoken, c.boards[b].Spoken, c.length(gap), l.Stock.Size, strings.Join(less, "; ")),
				Why:     "lumber is sold by the size it had before it was dried and planed (American Softwood Lumber Standard, PS 20)",
				Related: []snag.Related{{At: l.At, Says: "this lumber is said here"}},
				Mends:   []snag.Mend{snag.Say(fmt.Sprintf("write %s.thickness or %s.width where a figure stands for it", l.Name, l.Name))}}, a)
			break
		}
	}
}

// nearest returns the two boards of a joint's sides that are nearest to one
// another and how far apart they are in mm; -1 when there are none.
func (c *checker) nearest(j *joint.Joint) (a, b int, gap float64) {
	a, b, gap = -1, -1, math.Inf(1)
	for _, x := range j.Sides[0] {
		for _, y := range j.Sides[1] {
			i, ok1 := c.at[x]
			k, ok2 := c.at[y]
			if !ok1 || !ok2 || i == k || !c.box[i].Meets(c.box[k], math.Min(gap, 2*inch)) {
				continue
			}
			if d := joint.Apart(c.boards[i].Placed(), c.boards[k].Placed()); d < gap {
				a, b, gap = i, k, d
			}
		}
	}
	return a, b, gap
}

// lessThanName says which of a stock's thickness and width are less than its name
// by gap, in mm.
func (c *checker) lessThanName(l *design.Lumber, gap float64) []string {
	thick, wide, ok := l.Stock.Size.Inches()
	if !ok {
		return nil
	}
	var out []string
	for _, m := range []struct {
		what     string
		name, is measure.Length
	}{{"thick", thick, l.Stock.T}, {"wide", wide, l.Stock.W}} {
		if less := (m.name - m.is).MM(); less > 0 && !above(math.Abs(less-gap), 0) {
			out = append(out, fmt.Sprintf("it is %s %s, not %s", c.length(m.is.MM()), m.what, c.length(m.name.MM())))
		}
	}
	return out
}
