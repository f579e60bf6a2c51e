// Package cutplan chooses the boards to buy and says how to saw them, so that
// every part comes out and the boards cost as little as possible.
//
// Start at Solve. It works in whole marks, 1/64 in or half a millimetre, on the lengths that are printed,
// counts every kerf and the squaring of one end of every board, rips narrow
// parts from wider boards, and lets parts with equal angled ends share the cut
// between them. (Along a slant a kerf counts in whole marks too, rounded up.)
// Beside a plan it returns a bound: no layout whatever costs less. Where the two
// are equal the plan is the cheapest there is; where they are not, it says by
// how much it might be too dear.
//
// The method. Boards are counted first: of all ways to buy so many of each
// length, the cheapest not yet refuted is tried. Whether the parts can be sawn
// from those boards is a linear program over sawing patterns (Gilmore and
// Gomory 1961), whose columns come from a knapsack over the length of a board.
// Where it has no solution, its prices, rounded to whole numbers, refute every
// purchase in which they add up to too little (Farkas; Benders 1962): one
// integer weight for each part, which a checker can verify without trusting any
// of this. Where it has one, boards are fixed one by one, and if that fails a
// tree of branches is searched, up to a count of nodes, whose leaves are refuted
// in the same way.
//
// Boards that are ripped yield patterns of another kind: sections, ripped into
// strips, sawn into pieces. Those are looked for without a claim to be all there
// are, so that there purchases are refuted only by what no layout can undercut.
//
// The files follow the method: instance (the model), share (what any layout
// takes up), search (bounds), fill, rip and few (patterns), simplex and master
// (pricing), queue, purchase, dive, complete and tree (the search), proof (the
// certificate), wish and lay (the plan), resume (after a mistake).
package cutplan

import (
	"context"
	"slices"

	"scantling/internal/measure"
)

// A Job is what is to be sawn and what can be bought to saw it from.
type Job struct {
	// Units says whether lengths are reckoned in 1/64 in or in half millimetres,
	// and told in inches or in millimetres.
	Units measure.Units
	// Kerf is the width the blade cuts away.
	Kerf measure.Length
	// Trim is taken off one end of every board to square it, kerf included.
	Trim measure.Length
	// Reserve is kept free at the far end of every board, for knots and splits
	// to be cut around.
	Reserve measure.Length
	Stocks  []Stock
	Parts   []Part
}

// A Stock is boards of one section, wood, grade and treatment.
type Stock struct {
	Name   string // for messages: "2x6 southern pine, ground contact"
	Width  measure.Length
	Offers []Offer
}

// An Offer is one length a stock is to be had in.
type Offer struct {
	Length measure.Length
	Price  measure.Money
	// Limit is how many there are; 0 means as many as wanted. What costs
	// nothing must be limited.
	Limit int
}

// A Part is one kind of piece to be sawn. Length is printed, long point to long
// point along the grain; Width is that of the part, at most the stock's.
//
// Start and End say how the ends are mitred across the width: how much further
// along the grain the far edge reaches than the near edge there, 0 for a square
// end. Ends are parallel when Start equals End. A part may be turned end for
// end or over, so only the sizes and relative signs count. Blade tilt does not
// show here; a tilted end is square, with its long point in Length.
type Part struct {
	Name       string // for messages and to break ties
	Stock      int    // index into Job.Stocks
	Or         []int  // further stocks it may come from as well, each in one group with all others so named
	Count      int
	Width      measure.Length
	Length     measure.Length
	Start, End measure.Length
	Together   bool // wished from one board: parts that show side by side
}

// A Plan is boards to buy and how each is sawn. Boards come stock by stock,
// long before short, alike ones together.
type Plan struct {
	Boards []Board
	Cost   measure.Money
	// Bound is what the boards cost at least, whatever the layout, as long as
	// grain runs along the board and any two pieces lie a kerf apart, across the
	// board or along it.
	Bound measure.Money
	// Optimal says that Cost equals Bound: the cheapest, proved.
	Optimal bool
	// BestConsidered says that no layout of the kinds considered here is
	// cheaper: of boards that are not ripped, parts end to end and nested at equal
	// angles; of others it says no more than Optimal.
	BestConsidered bool
	Nodes          int // size of the search: linear programs and tree nodes
	// Proofs hold, for each stock, weights that prove the bound: see Proof.
	Proofs []Proof
}

// A Proof bounds the cost of the boards of a group of stocks: no purchase for less passes
// every row and lies outside every tree. Searched says that further purchases
// were refuted by a search without a certificate.
type Proof struct {
	Stocks   []int // of the job
	Bound    measure.Money
	Rows     []Row
	Trees    []Tree
	Searched bool
}

// A Row weighs parts: Weights[j] ≥ 0 is what a piece of part j counts for, Need
// what all of them count for together, and Holds the most one board of each
// offer can hold, however it is sawn, stock by stock of the group. Boards that hold less than Need together do
// not yield the parts.
//
// Shares says, by stock of the group and part, which share of a board's width a
// part counts for, in 1/5040, chosen so that parts side by side never count for
// more than the board; By, by stock, how Holds follows from that.
type Row struct {
	By      []Way
	Shares  [][]int64
	Weights []int64 // by part of the job
	Need    int64
	Holds   []int64
}

// A Way is how a row bounds what a board holds.
type Way string

const (
	// Middle: lengths at mid-width times shares add up to the board's length at
	// most. Where parts have sloping ends and lie side by side, a share is that of
	// the width.
	Middle Way = "middle"
	// Within: likewise, of the square piece that lies within a part.
	Within Way = "within"
	// Lanes: along every line of the board the square pieces within the parts
	// add up to its length at most, and a part is met by a share of the lines.
	Lanes Way = "lanes"
)

// A Tree refutes one purchase, so many boards of each offer, and all smaller
// ones: its nodes come parent first. Seal is SealOf its numbers.
type Tree struct {
	Boards []int // by offer
	Nodes  []Node
	Seal   uint64
}

// A Node is a branch or a leaf. Let the pieces on every board lie from long to
// short. A branch then asks how many boards have a piece of the given size
// beginning at a place: at most Most (the subtree that follows) or more (the
// next). Size and At count a kerf to each piece, in half marks.
//
// A leaf refutes all that is left by weights of the sizes, long to short, and of
// the branches above it, from the root: negative for "at most", positive for
// "more". Need is what all pieces and the branches' limits weigh, and Room what
// the boards hold at most when a piece also weighs what the branches at its
// place do.
type Node struct {
	Leaf       bool
	Size, At   int
	Most       int
	Weights    []int64
	Arcs       []int64
	Need, Room int64
}

// A Board is one board and the sections it is crosscut into, from the squared
// end; most boards are one section.
type Board struct {
	Stock, Offer int // indices into the job
	Length       measure.Length
	Price        measure.Money
	Sections     []Section
}

// Pieces returns all pieces of a board.
func (b *Board) Pieces() (out []Piece) {
	for _, s := range b.Sections {
		for _, l := range s.Lanes {
			out = append(out, l.Pieces...)
		}
	}
	return out
}

// A Section is a length of a board and the lanes it is sawn into. From is
// measured from the squared end; the crosscut that begins the next section
// takes a kerf after Length, and the last section reaches to the board's end.
type Section struct {
	From, Length measure.Length
	// Lanes are the strips the section is ripped into, from the near edge; a
	// single one as wide as the board when it is not. Narrower parts on a lane are
	// ripped after they are cut off.
	Lanes []Lane
	// Strip is the width left over beside the lanes, less the kerf; 0 when the
	// section is not ripped.
	Strip measure.Length
}

// A Lane is a strip along a section and the parts sawn from it.
type Lane struct {
	Across, Width measure.Length // near edge of the lane from that of the board
	Pieces        []Piece        // in sawing order
	// Left is what is left at the far end past the last kerf, on the edge where
	// it is shorter.
	Left measure.Length
}

// A Piece is one part in its place on a lane. Start and End lie on the near edge
// of the piece, measured from the squared end of the board; SlantStart and
// SlantEnd say how much further the far edge reaches there.
type Piece struct {
	Part                 int // index into Job.Parts
	Start, End           measure.Length
	SlantStart, SlantEnd measure.Length
	Across, Width        measure.Length // near edge of the piece from that of the board
	Turned               bool           // end for end
	Over                 bool           // the other face up
}

// Options steer a search.
type Options struct {
	// Nodes is how much is searched before the best plan so far is returned;
	// 0 means DefaultNodes. It is a count, never a time, so that the same job
	// gives the same plan everywhere.
	Nodes int
	// FewestCuts asks for the fewest boards, each of which is squared and handled,
	// and the cheapest of those; such a plan has no bound.
	FewestCuts bool
	// Progress, when not nil, is told of every better plan or bound.
	Progress func(cost, bound measure.Money, nodes int)
}

// DefaultNodes settles every job of a single piece of furniture tried.
const DefaultNodes = 20000

// A PartError says that a part cannot be sawn from its stock at all.
type PartError struct {
	Part       int
	What, Mend string
}

func (e *PartError) Error() string { return e.What + "; " + e.Mend }

// Solve returns the cheapest boards and cuts it finds. A part that fits no
// board, or a job that limited boards cannot yield, is a *PartError. When ctx
// is cancelled it returns the best plan so far and the context's error.
func Solve(ctx context.Context, job Job, o Options) (*Plan, error) {
	if o.Nodes == 0 {
		o.Nodes = DefaultNodes
	}
	job.Parts = slices.Clone(job.Parts)
	if err := job.check(); err != nil {
		return nil, err
	}
	if o.FewestCuts {
		return job.fewest(ctx, o)
	}
	plan := &Plan{BestConsidered: true}
	for _, group := range job.groups() {
		done := *plan
		report := func(cost, bound measure.Money, nodes int) {
			if o.Progress != nil {
				o.Progress(done.Cost+cost, done.Bound+bound, done.Nodes+nodes)
			}
		}
		if err := plan.add(ctx, &job, group, o.Nodes, report); err != nil {
			return nil, err
		}
	}
	plan.Optimal = plan.Cost == plan.Bound
	return plan, ctx.Err()
}

// fewest solves with so much added to every price that one board less is worth
// any saving.
func (job *Job) fewest(ctx context.Context, o Options) (*Plan, error) {
	o.FewestCuts = false
	var more measure.Money
	pieces := 1
	for _, p := range job.Parts {
		pieces += p.Count
	}
	for _, s := range job.Stocks {
		for _, offer := range s.Offers {
			more = max(more, offer.Price)
		}
	}
	more *= measure.Money(pieces)
	dear := *job
	dear.Stocks = slices.Clone(job.Stocks)
	for i, s := range dear.Stocks {
		dear.Stocks[i].Offers = slices.Clone(s.Offers)
		for k := range dear.Stocks[i].Offers {
			dear.Stocks[i].Offers[k].Price += more
		}
	}
	plan, err := Solve(ctx, dear, o)
	if plan == nil {
		return nil, err
	}
	plan.Cost, plan.Bound, plan.Optimal, plan.BestConsidered = 0, 0, false, false
	for i := range plan.Boards {
		plan.Boards[i].Price -= more
		plan.Cost += plan.Boards[i].Price
	}
	for i, p := range plan.Proofs {
		plan.Proofs[i] = Proof{Stocks: p.Stocks}
	}
	return plan, err
}

// Count returns how many pieces of the given length come from a board:
// n·(length + kerf) ≤ board − trim + kerf, for the last kerf may run off the end.
func Count(board, length, kerf, trim measure.Length) int {
	if length+kerf <= 0 || board < trim {
		return 0
	}
	return int((board - trim + kerf) / (length + kerf))
}

// Largest returns the length of the longest of n equal pieces a board yields,
// not rounded; 0 or less when it yields none.
func Largest(board measure.Length, n int, kerf, trim measure.Length) measure.Length {
	return (board-trim+kerf)/measure.Length(n) - kerf
}
