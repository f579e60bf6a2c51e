package proof

import (
	"fmt"
	"math"

	"scantling/internal/geom"
)

// A Design is the piece as it was drawn, to hold what was built against. It is no
// part of the pages: the proof that they close never sees it.
type Design struct {
	Boards []Drawn
	Meets  []Meet
}

// A Drawn is a board of the design, in its own frame: the blank's corner at the
// origin, x along it, z out of its show face.
type Drawn struct {
	ID    string
	Lies  Lies     // what its first end and its show face are called in place
	Size  geom.Vec // of the blank, mm
	Solid *geom.Solid
	Pose  geom.Pose // in the piece
	Holes []Line    // drilled at the bench
	Bolts []Line    // drilled on the work, through the board under the heads
}

// A Line is a hole: where it is drilled, in a board's frame, how wide and how deep
// in mm (0: through), and for which joint.
type Line struct {
	At, Way      geom.Vec
	Across, Deep float64
	Joint        string
}

// A Meet is a place where two boards of a joint are fastened, in the piece.
type Meet struct {
	Joint  string
	Boards [2]string
	At     geom.Vec
}

// An Off is how far a part as built differs from the part as drawn, all ways of
// sawing it together.
type Off struct {
	Letter, Name string
	Worst        float64 // mm, over its corners and holes
	Where        string  // "at the top end", "a hole"
}

// Drift is how far, in mm, a board may lie from where it is drawn on a board it is
// fastened to: an eighth of an inch. Each mark is printed to the nearest sixteenth,
// so it is half of one off at most; from one board of a joint to the other it goes by
// four such marks where a third board and a rounded length stand between.
const Drift = 2 * Allowed

// A Likeness says how what was built resembles the design.
type Likeness struct {
	Alike bool // all boards are there, no part is further off than Allowed, and no joint than Drift
	Parts []Off
	Part  float64 // the worst of them
	Slips []Slip
	Slip  float64 // the worst of them
}

// A Slip is how far from where it was drawn one board of a joint lies on the other,
// in mm.
type Slip struct {
	Joint  string
	Boards [2]string
	Far    float64
}

// Like compares all builds of a proof with the design.
func (p *Proof) Like(d *Design) *Likeness {
	l := &Likeness{}
	drawn := map[string]*Drawn{}
	for i := range d.Boards {
		drawn[d.Boards[i].ID] = &d.Boards[i]
	}
	at := map[string]int{}
	done := map[*sheet]bool{}
	slips := map[[3]string]int{}
	all := true
	for _, build := range p.Builds {
		all = all && len(build.shop.boards) == len(d.Boards)
		for _, b := range build.shop.boards {
			d := drawn[b.board.ID]
			if d == nil || done[b.sheet] && (len(d.Bolts) == 0 && len(b.bolts) == 0 || build.Way != BySetting) {
				continue
			}
			off := b.off(d, !done[b.sheet])
			done[b.sheet] = true
			k, ok := at[off.Letter]
			if !ok {
				k = len(l.Parts)
				at[off.Letter] = k
				l.Parts = append(l.Parts, off)
			}
			if off.Worst > l.Parts[k].Worst {
				l.Parts[k] = off
			}
			l.Part = math.Max(l.Part, off.Worst)
		}
		for _, m := range d.Meets {
			a, b := build.shop.byID[m.Boards[0]], build.shop.byID[m.Boards[1]]
			if a == nil || b == nil || a.in == 0 || a.in != b.in || drawn[m.Boards[0]] == nil || drawn[m.Boards[1]] == nil {
				continue
			}
			far := a.where(drawn[m.Boards[0]], m.At).Distance(b.where(drawn[m.Boards[1]], m.At))
			key := [3]string{m.Joint, m.Boards[0], m.Boards[1]}
			k, ok := slips[key]
			if !ok {
				k = len(l.Slips)
				slips[key] = k
				l.Slips = append(l.Slips, Slip{m.Joint, m.Boards, 0})
			}
			l.Slips[k].Far = math.Max(l.Slips[k].Far, far)
			l.Slip = math.Max(l.Slip, far)
		}
	}
	l.Alike = all && l.Part <= Allowed && l.Slip <= Drift
	return l
}

// onto returns the pose of a drawn board's frame in the frame of the sheet: the
// corner that the sheet is measured from lies on the same corner of both.
func (b *standing) onto(d *Drawn) geom.Pose {
	lies, _ := d.Lies.pose()
	p := geom.Unmoved()
	p.X, p.Y, p.Z = b.rough.InWay(lies.X), b.rough.InWay(lies.Y), b.rough.InWay(lies.Z)
	low := geom.Vec{}
	for _, v := range []geom.Vec{{}, d.Size} {
		low = low.Min(p.Out(v))
	}
	return p.Moved(low.Negated())
}

// where returns where a point of the drawn piece lies in what was built, as a point
// of this board.
func (b *standing) where(d *Drawn, at geom.Vec) geom.Vec {
	return b.pose.Out(b.onto(d).Out(d.Pose.In(at)))
}

// off compares a board with the board as drawn: its bolts, and unless its sheet was
// compared before, its wood and the holes drilled at the bench.
func (b *standing) off(d *Drawn, wood bool) Off {
	o := Off{Letter: b.sheet.part.Letter, Name: b.sheet.part.Name}
	worse := func(mm float64, where string) {
		if mm > o.Worst {
			o.Worst, o.Where = mm, where
		}
	}
	onto := b.onto(d)
	holes := func(of []Line, mine []bore) {
		var drawn []bore
		for _, h := range of {
			drawn = append(drawn, bore{onto.Out(h.At), onto.OutWay(h.Way), h.Across / 2, h.Deep, h.Joint})
		}
		for _, pair := range [2][2][]bore{{drawn, mine}, {mine, drawn}} {
			for _, h := range pair[0] {
				least := b.sheet.size.X // as far off as can be, when there is none
				for _, g := range pair[1] {
					if g.joint == h.joint && g.way.Dot(h.way) > 0.9 {
						least = math.Min(least, max(g.at.Distance(h.at), 2*abs(g.radius-h.radius), abs(g.deep-h.deep)))
					}
				}
				worse(least, "a hole for "+h.joint)
			}
		}
	}
	holes(d.Bolts, b.bolts)
	if !wood {
		return o
	}
	holes(d.Holes, b.sheet.holes)
	for _, c := range d.Solid.Cells {
		for _, v := range c.Verts {
			at := onto.Out(v)
			worse(away(b.sheet.solid, at), b.sheet.near(at))
		}
	}
	for _, c := range b.sheet.solid.Cells {
		for _, v := range c.Verts {
			worse(away(d.Solid, onto.In(v)), b.sheet.near(v))
		}
	}
	return o
}

// near says where on a part a point lies.
func (s *sheet) near(at geom.Vec) string {
	end := firstEnd
	if at.X > s.size.X/2 {
		end = otherEnd
	}
	return fmt.Sprintf("toward the %s", s.names[end])
}

// away returns how far a point is from the surface of a solid, in mm; a corner
// inside, where cells meet, counts as on it.
func away(s *geom.Solid, at geom.Vec) float64 {
	least := math.Inf(1)
	for i := range s.Cells {
		c := &s.Cells[i]
		for k, loop := range c.Loops {
			if len(loop) < 3 {
				continue
			}
			h := c.Planes[k]
			over := h.Over(at)
			if abs(over) >= least {
				continue
			}
			foot := at.Along(h.N, -over)
			inside, rim := true, math.Inf(1)
			for e := range loop {
				p, q := c.Verts[loop[e]], c.Verts[loop[(e+1)%len(loop)]]
				if q.Minus(p).Cross(foot.Minus(p)).Dot(h.N) < 0 {
					inside = false
				}
				rim = math.Min(rim, geom.NearestOn(p, q, at).Distance(at))
			}
			if inside {
				least = math.Min(least, abs(over))
			} else {
				least = math.Min(least, rim)
			}
		}
	}
	return least
}
