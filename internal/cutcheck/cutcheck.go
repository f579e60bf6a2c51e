// Package cutcheck judges a cutting plan without knowing how it was made. It
// shares no code with the planner and takes only plain figures: what can be
// bought, which parts are wanted, which boards are sawn where, what that is said
// to cost and what it is said to cost at least.
//
// Start at Check. It measures every piece on every board, counts them, adds up
// the prices, and goes through the argument for the bound again, all in whole
// numbers. Whatever it finds wrong comes back as a sentence; an argument it
// cannot follow to the end is reported as not verified, never as sound.
package cutcheck

import (
	"fmt"
	"slices"

	"scantling/internal/measure"
)

// A Claim is a cutting plan with the job it answers.
type Claim struct {
	Units      measure.Units  // lengths are reckoned in 1/64 in, or in half millimetres
	Kerf, Trim measure.Length // the blade's; what squaring takes off one end
	Reserve    measure.Length // kept free at the far end of every board
	Stocks     []Stock
	Parts      []Part
	Boards     []Board
	Cost       measure.Money
	Bound      measure.Money // no layout costs less
	Optimal    bool          // said to be the cheapest
	Proofs     []Proof       // one for each group of stocks that share parts
}

// A Stock is boards of one section; an Offer one length of them. Limit 0 means
// as many as wanted.
type (
	Stock struct {
		Width  measure.Length
		Offers []Offer
	}
	Offer struct {
		Length measure.Length
		Price  measure.Money
		Limit  int
	}
)

// A Part is wanted Count times. Length runs from first point to last; Start and
// End say how much further along the far edge reaches than the near edge.
type Part struct {
	Stock, Count  int
	Width, Length measure.Length
	Start, End    measure.Length
	Or            []int // further stocks it may come from
}

// from reports whether the part may come from stock s.
func (p *Part) from(s int) bool { return p.Stock == s || slices.Contains(p.Or, s) }

// fits reports whether stock s has boards the part could come from at all: no
// bound need count it there otherwise.
func (c *Claim) fits(p Part, s int) bool {
	return p.from(s) && p.Width <= c.Stocks[s].Width && slices.ContainsFunc(c.Stocks[s].Offers, func(o Offer) bool {
		return p.Length <= o.Length-c.Trim-c.Reserve
	})
}

// A Board is one of an offer, crosscut into sections from the squared end.
type Board struct {
	Stock, Offer int
	Length       measure.Length
	Price        measure.Money
	Sections     []Section
}

// A Section is sawn into lanes from the near edge; Strip is the width left over
// beside them.
type Section struct {
	From, Length measure.Length
	Lanes        []Lane
	Strip        measure.Length
}

// A Lane is a strip of a section, or the whole of it; Left is what remains of
// its length.
type Lane struct {
	Across, Width, Left measure.Length
	Pieces              []Piece
}

// A Piece is a part where it is sawn; see Part for the slants. Turned is end
// for end, Over the other face up.
type Piece struct {
	Part                             int
	Start, End, SlantStart, SlantEnd measure.Length
	Across, Width                    measure.Length
	Turned, Over                     bool
}

// A Proof argues that the boards of some stocks cost at least Bound: no purchase for
// less passes every row and lies outside every tree. Searched says that the
// argument also rests on a search which left no such figures.
type Proof struct {
	Stocks   []int
	Bound    measure.Money
	Rows     []Row
	Trees    []Tree
	Searched bool
}

// A Row weighs parts. Need is what all parts weigh and Holds what one board of
// each offer can hold at most: boards that hold less than Need together do not
// yield the parts.
//
// Shares says by stock and part which share of a board's width, in 1/5040, a
// part counts for, and By how what a board of the stock holds follows from that.
type Row struct {
	By      []Way
	Shares  [][]int64
	Weights []int64 // by part of the job
	Need    int64
	Holds   []int64 // by offer, stock by stock
}

// A Way is an argument for what a board holds at most.
//
// Middle: lines across the board meet parts whose shares add up to all of it at
// most, so that lengths at mid-width times shares add up to its length at most.
// Within: likewise, of the square pieces within parts with sloping ends.
// Lanes: with every width replaced by its share the square pieces could still be
// packed, so that each line along the board meets lengths that add up to the
// board's at most, and a part is met by its share of these lines (S. P. Fekete
// and J. Schepers, Mathematical Programming 91, 2001, theorem on conservative
// scales, from memory).
type Way string

const (
	Middle Way = "middle"
	Within Way = "within"
	Lanes  Way = "lanes"
)

// A Tree argues that a purchase, and any smaller one, does not yield the parts.
// Its nodes come parent first; Seal is a sum over its numbers.
type Tree struct {
	Boards []int // by offer
	Nodes  []Node
	Seal   uint64
}

// A Node is a branch or a leaf. With the pieces on every board lying from long
// to short, a branch asks how many boards have a piece of Size beginning at At:
// at most Most (the subtree that follows it) or more (the next one). A leaf
// weighs sizes, long to short, and the branches above it, from the root.
type Node struct {
	Leaf       bool
	Size, At   int // half marks, a kerf counted to each piece
	Most       int
	Weights    []int64
	Arcs       []int64
	Need, Room int64
}

// A Report is what Check found.
type Report struct {
	Faults []string // what is wrong; empty: nothing
	// BoundVerified says that the argument for the bound was followed to its
	// end. When it is false and there are no faults, the bound rests on the
	// planner's search alone.
	BoundVerified bool
}

// OK reports whether nothing is wrong.
func (r *Report) OK() bool { return len(r.Faults) == 0 }

func (r *Report) fault(format string, a ...any) {
	r.Faults = append(r.Faults, fmt.Sprintf(format, a...))
}

// Check judges a claim.
func Check(c Claim) *Report {
	r := &Report{}
	if !sound(c, r) {
		return r
	}
	count := make([]int, len(c.Parts))
	bought := make([][]int, len(c.Stocks))
	costs := make([]measure.Money, len(c.Stocks))
	for s := range c.Stocks {
		bought[s] = make([]int, len(c.Stocks[s].Offers))
	}
	var cost measure.Money
	for i, b := range c.Boards {
		name := fmt.Sprintf("board %d", i+1)
		if b.Stock < 0 || b.Stock >= len(c.Stocks) || b.Offer < 0 || b.Offer >= len(c.Stocks[b.Stock].Offers) {
			r.fault("%s is of no stock and offer there is", name)
			continue
		}
		o := c.Stocks[b.Stock].Offers[b.Offer]
		if b.Length != o.Length || b.Price != o.Price {
			r.fault("%s is %d nm at %d cents; it is sold at %d nm for %d", name, b.Length, b.Price, o.Length, o.Price)
		}
		bought[b.Stock][b.Offer]++
		cost += b.Price
		costs[b.Stock] += b.Price
		checkBoard(&c, b, name, count, r)
	}
	for j, p := range c.Parts {
		if count[j] != p.Count {
			r.fault("part %d is sawn %d times and wanted %d times", j, count[j], p.Count)
		}
	}
	for s, stock := range c.Stocks {
		for o, offer := range stock.Offers {
			if offer.Limit > 0 && bought[s][o] > offer.Limit {
				r.fault("stock %d offer %d: %d taken, %d there", s, o, bought[s][o], offer.Limit)
			}
		}
	}
	if cost != c.Cost {
		r.fault("the boards cost %d cents, not %d", cost, c.Cost)
	}
	checkBound(&c, costs, r)
	return r
}

// each reports whether all indices are below n.
func each(list []int, n int) bool {
	return !slices.ContainsFunc(list, func(i int) bool { return i < 0 || i >= n })
}

// sound reports whether the figures of the job itself can be reckoned with.
func sound(c Claim, r *Report) bool {
	const most = 1 << 40 // nm: a kilometre
	ok := func(ls ...measure.Length) bool {
		for _, l := range ls {
			if l < -most || l > most {
				return false
			}
		}
		return true
	}
	good := c.Units <= measure.Metric && c.Kerf >= 0 && c.Trim >= 0 && c.Reserve >= 0 && ok(c.Kerf, c.Trim, c.Reserve)
	for _, s := range c.Stocks {
		good = good && s.Width > 0 && ok(s.Width)
		for _, o := range s.Offers {
			good = good && ok(o.Length) && o.Price >= 0 && o.Price < 1<<32 && o.Limit >= 0 && o.Limit < 1<<20 && (o.Price > 0 || o.Limit > 0)
		}
	}
	for _, p := range c.Parts {
		good = good && p.Stock >= 0 && p.Stock < len(c.Stocks) && each(p.Or, len(c.Stocks)) && p.Count >= 0 && p.Count < 1<<20 &&
			p.Width > 0 && p.Length > 0 && ok(p.Width, p.Length, p.Start, p.End) &&
			max(p.Start, -p.Start)+max(p.End, -p.End) < 2*p.Length
	}
	if !good {
		r.fault("the job holds a figure that is none: a negative or endless size, price or count")
	}
	return good
}
