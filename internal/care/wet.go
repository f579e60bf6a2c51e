package care

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"scantling/internal/board"
	"scantling/internal/design"
	"scantling/internal/geom"
	"scantling/internal/lumber"
	"scantling/internal/snag"
	"scantling/internal/wood"
)

// What each thing that touches boards asks of treated wood. Source: the consumer
// information sheet for preservative-treated wood approved by the United States
// Environmental Protection Agency, from memory: not where the preservative may
// become part of food or feed; only visibly clean wood where skin rests on it.
// Of soil it says nothing; a liner is common practice.
var touching = map[string]struct {
	severity snag.Severity
	of       string // what it does, after "bare food lies on"
	why      string
	mend     string
}{
	"food": {snag.Error, "food lies on", "preservative must not come into food: the consumer sheet for treated wood of the United States Environmental Protection Agency, from memory", "lay the food on something else: a crate, a tray, a cloth, and say so by leaving food out of touches"},
	"soil": {snag.Caution, "soil for food lies against", "roots and soil take preservative up, little as it is: " + practice + " is to keep them apart", "line the inside with a sheet that has drain holes below"},
	"skin": {snag.Advice, "skin rests on", "only visibly clean, dry treated wood where skin rests on it: the consumer sheet for treated wood of the United States Environmental Protection Agency, from memory", "buy it clean and dry, and wash and sand it before it is used"},
}

// touched tells treated boards that food, soil for food or skin touches.
func (c *checker) touched() {
	for _, t := range c.piece.Use.Touches {
		rule, ok := touching[t.What]
		if !ok {
			continue
		}
		var said tally
		for i, b := range c.boards {
			if b.Stock == nil || b.Stock.Treatment == lumber.Untreated || !c.touches(t, i) {
				continue
			}
			c.add(&said, i, 0, func() snag.Snag {
				s := snag.Snag{Code: "touches-treated", Severity: rule.severity, At: t.At, Why: rule.why,
					What: fmt.Sprintf("%s the %s, and its wood, %s, is treated with preservative", rule.of, b.Spoken, b.Stock)}
				if l := c.lumberOf(b); l != nil {
					s.Related = []snag.Related{{At: l.At, Says: "its lumber is said here"}}
					s.Mends = append(s.Mends, c.untreated(l, t))
				}
				s.Mends = append(s.Mends, snag.Say("or "+rule.mend))
				return s
			})
		}
		c.tell(&said)
	}
}

// touches reports whether a thing touches board i: one it names, or, of one word
// said of the whole piece, any for soil and for the others those that something
// can lie on.
func (c *checker) touches(t design.Touch, i int) bool {
	if t.All {
		return t.What == "soil" || c.open(i)
	}
	return slices.Contains(t.On, c.boards[i].ID)
}

// untreated is the way out for a stock: its treatment taken away where every
// board of it is touched, else a stock of its own for those that are.
func (c *checker) untreated(l *design.Lumber, t design.Touch) snag.Mend {
	for i, b := range c.boards {
		if b.Lumber == l.Name && !c.touches(t, i) {
			return snag.Say("cut those boards from a stock of their own, untreated, of a wood that lasts by itself: western red cedar, old growth redwood, white oak")
		}
	}
	m := treat(l, lumber.Untreated)
	m.Says += ", of a wood that lasts by itself: western red cedar, old growth redwood, white oak"
	return m
}

// nearGround is how low wood counts as near the soil, in mm. Source: AWPA
// Standard U1, use categories 3B and 4A since 2016, as summarised by treaters:
// wood within 6 in of the ground is treated for ground contact.
const nearGround = 6 * inch

// outdoors reports whether the design says that the piece lives outdoors.
func (c *checker) outdoors() bool { return strings.Contains(c.piece.Use.Lives, "outdoors") }

// low tells boards near the ground whose wood or treatment is not made for it.
func (c *checker) low() {
	use := c.piece.Use
	if !c.outdoors() || use.Stands == "paving" {
		return
	}
	var t tally
	for i, b := range c.boards {
		z := c.box[i].Low.Z
		if b.Stock == nil || b.Stock.Treatment == lumber.GroundContact || !above(nearGround, z) {
			continue
		}
		sold := b.Stock.Region
		is := "treated for above ground (" + b.Stock.Treatment.CodeIn(sold) + ")"
		if b.Stock.Treatment == lumber.Untreated {
			w, err := wood.Lookup(b.Stock.Wood)
			if err != nil || w.Decay >= wood.Resistant {
				continue
			}
			is = "untreated, and its heartwood is " + w.Decay.String()
		}
		c.add(&t, i, -z, func() snag.Snag {
			s := snag.Snag{Code: "treatment-low", Severity: snag.Advice,
				What: fmt.Sprintf("the %s comes within %s of the ground and is %s; under %s above soil or grass it wants treatment for ground contact (%s)", b.Spoken, c.length(math.Max(0, z)), is, c.length(nearGround), lumber.GroundContact.CodeIn(sold)),
				Why:  "rain splashes and grass keeps it wet (" + lumber.GroundContact.SourceIn(sold).Work + "; the " + c.pick("6 in", "150 mm") + " are those of AWPA Standard U1 since 2016; decay from the Wood Handbook, FPL-GTR-190 (2010), table 14-1)"}
			if use.Stands == "soil" {
				s.Severity = snag.Caution
			}
			if l := c.lumberOf(b); l != nil {
				s.Mends = append(s.Mends, treat(l, lumber.GroundContact))
			}
			s.Mends = append(s.Mends, snag.Say("or stand the piece on paving, and say so under climate: stands: paving"))
			return s
		})
	}
	c.tell(&t)
}

// bareTops tells ends of upright boards that look straight up with nothing on
// them: rain stands in the end grain.
func (c *checker) bareTops() {
	if !c.outdoors() {
		return
	}
	slope := math.Sqrt(1 - float64(0.0871557*0.0871557)) // cos 5°
	var t tally
	for i, b := range c.boards {
		if level(b) {
			continue
		}
		for _, f := range b.Solid.Faces {
			cut := b.CutAt(f.Tag)
			if isEnd := f.Tag == geom.XLow || f.Tag == geom.XHigh || cut != nil && cut.Kind == board.EndCut; !isEnd {
				continue
			}
			if b.Pose.OutWay(f.Plane.N).Z < slope-1e-9 {
				continue
			}
			area, covered := f.Area(), 0.0
			for _, h := range c.holds[i] {
				if h.other >= 0 && h.out.Z > slope-1e-9 {
					covered += h.area
				}
			}
			if covered > area/2 {
				continue
			}
			c.add(&t, i, area-covered, func() snag.Snag {
				return snag.Snag{Code: "end-grain-up", Severity: snag.Advice,
					What: fmt.Sprintf("the top end of the %s, %s of it, looks straight up with %s covered: rain stands in the end grain", b.Spoken, c.area(area), c.area(covered)),
					Why:  "end grain drinks water many times faster than a face, and holds it: " + practice,
					Mends: []snag.Mend{snag.Say("cut the top to a slope of 5° or more, so that water runs off"),
						snag.Say("or lay a board or a cap over it, or brush the end with sealer until it drinks no more")}}
			})
		}
	}
	c.tell(&t)
}
