package care

import (
	"fmt"
	"math"

	"scantling/internal/board"
	"scantling/internal/lumber"
	"scantling/internal/measure"
	"scantling/internal/snag"
	"scantling/internal/steady"
)

// What can be sawn with the hands out of harm, in mm. Source: common practice:
// a piece shorter than 8 in cannot be held on a mitre saw with the hands 6 in
// from the blade, and a strip narrower than 1 1/2 in does not carry the guide of
// a circular saw.
const (
	leastCrosscut = 8 * inch
	leastRip      = 1.5 * inch
)

// small tells parts too small to be sawn safely as they are.
func (c *checker) small() {
	var short, narrow tally
	for i, b := range c.boards {
		if above(leastCrosscut, b.L) {
			c.add(&short, i, -b.L, func() snag.Snag {
				return snag.Snag{Code: "small-piece", Severity: snag.Caution,
					What: fmt.Sprintf("the %s is %s long; a piece under %s brings the hands too near a mitre saw's blade", b.Spoken, c.length(b.L), c.length(leastCrosscut)),
					Why:  practice,
					Mends: []snag.Mend{snag.Say("cut its angles, notches and holes on the end of a longer board, and part it off last, the board clamped and the short end free"),
						snag.Say("or saw it by hand")}}
			})
		}
		if b.Rip && above(leastRip, b.W.MM()) {
			c.add(&narrow, i, -b.W.MM(), func() snag.Snag {
				mends := []snag.Mend{snag.Say("rip it off the edge of a wide board on a table saw, the wide part against the fence and the strip falling free, with a push stick")}
				if s, ok := soldAs(b.Stock, b.W); ok {
					mends = append(mends, snag.Say(fmt.Sprintf("or buy %s, which is %s wide", s.Name, c.length(s.Wide.MM()))))
				}
				return snag.Snag{Code: "narrow-rip", Severity: snag.Caution,
					What:  fmt.Sprintf("the %s is ripped to %s; under %s there is no room for a circular saw's guide, nor for a hand", b.Spoken, c.length(b.W.MM()), c.length(leastRip)),
					Why:   practice,
					Mends: mends}
			})
		}
	}
	c.tell(&short)
	c.tell(&narrow)
}

// soldAs returns the sale size as thick as a stock and nearest in width to w,
// not wider than the stock.
func soldAs(of *lumber.Stock, w measure.Length) (best lumber.Size, ok bool) {
	off := func(s lumber.Size) measure.Length { return max(s.Wide-w, w-s.Wide) }
	for _, s := range lumber.SizesIn(of.Region) {
		if s.Thick == of.T && s.Wide < of.W && (!ok || off(s) < off(best)) {
			best, ok = s, true
		}
	}
	return best, ok
}

// What common saws reach, in mm. Source: common practice: a 10 in mitre saw
// without slides crosses 5 1/2 in and a little more; a 7 1/4 in circular saw
// cuts 2 1/2 in deep square.
const (
	sawAcross = 5.625 * inch
	sawDeep   = 2.5 * inch
)

// reach tells end cuts that a small mitre saw does not cross or a circular saw
// does not cut through.
func (c *checker) reach() {
	var across, deep tally
	for i, b := range c.boards {
		for k := range b.Cuts {
			cut := &b.Cuts[k]
			if cut.Kind != board.EndCut || cut.Square {
				continue
			}
			n := cut.Plane.N
			run := c.alongCut(b.Board, k)
			if math.Abs(n.Y) > 1e-9 && above(run, sawAcross) {
				angle := steady.Atan2(math.Abs(n.Y), math.Abs(n.X)) * 180 / math.Pi
				c.add(&across, i, run, func() snag.Snag {
					return snag.Snag{Code: "saw-reach", Severity: snag.Advice,
						What: fmt.Sprintf("the cut at %.1f° across the %s, %s wide, is %s long; a small mitre saw crosses about %s", angle, b.Spoken, c.length(b.W.MM()), c.length(run), c.length(sawAcross)),
						Why:  practice,
						Mends: []snag.Mend{snag.Say("ask the saw's widest cut at that angle, or cut it with a circular saw along a guide"),
							snag.Say("or use a narrower board")}}
				})
			}
		}
		if thick := math.Min(b.T.MM(), b.W.MM()); above(thick, sawDeep) {
			c.add(&deep, i, thick, func() snag.Snag {
				return snag.Snag{Code: "saw-reach", Severity: snag.Advice,
					What: fmt.Sprintf("the %s is %s thick; a %s circular saw cuts %s deep", b.Spoken, c.length(thick), c.pick("7 1/4\"", "184 mm"), c.length(sawDeep)),
					Why:  practice,
					Mends: []snag.Mend{snag.Say("square the line round all four sides, cut from one, turn the board over and cut from the other"),
						snag.Say("or use a mitre saw or a handsaw")}}
			})
		}
	}
	c.tell(&across)
	c.tell(&deep)
}

// alongCut returns how long the line of a board's k-th cut is across its face,
// in mm.
func (c *checker) alongCut(b *board.Board, k int) float64 {
	n := b.Cuts[k].Plane.N
	size := math.Sqrt(float64(n.X*n.X) + float64(n.Y*n.Y))
	low, high := math.Inf(1), math.Inf(-1)
	for _, f := range b.Solid.Faces {
		if f.Tag != board.TagOf(k) {
			continue
		}
		for _, loop := range f.Loops {
			for _, p := range loop {
				at := (float64(n.X*p.Y) - float64(n.Y*p.X)) / size
				low, high = math.Min(low, at), math.Max(high, at)
			}
		}
	}
	return math.Max(0, high-low)
}
