// Package prices reads price books: what one yard asks for boards of each
// length and for fasteners by the pack, where and on which day.
//
// Start at Parse. A book is a CSV file in three parts, which a line beginning
// with # may comment anywhere:
//
//	place,Upper yard
//	date,2026-03-01
//	size,wood,grade,treatment,length_ft,price
//	2x4,southern pine,No. 2,above ground,8,5.48
//	hardware,count,price
//	deck screw 8 x 2 1/2,100,11.98
//
// Names are those of packages lumber, wood and screw; a row that names nothing
// known is an error, so that no price is lost to a slip of the pen. A "basis"
// line of "invented" says that the prices stand for no yard.
package prices

import (
	_ "embed"

	"scantling/internal/lumber"
	"scantling/internal/measure"
)

// A Book is a parsed price book.
type Book struct {
	Place, Date string // as written; Date is YYYY-MM-DD
	Invented    bool
	Boards      []Board // as written
	Packs       []Pack
}

// A Board is one length of one stock and its price.
type Board struct {
	Size      lumber.Nominal
	Wood      string // as package wood spells it
	Grade     string // "" when the yard sells one grade only
	Treatment lumber.Treatment
	Length    measure.Length
	Price     measure.Money
}

// A Pack is Count pieces of hardware sold together.
type Pack struct {
	What  string // as package screw names it: "deck screw 8 x 2 1/2", "nut 5/16"
	Count int
	Price measure.Money
}

//go:embed demo.csv
var demo []byte

// DemoCSV returns the text of the demonstration price book. Its prices are
// invented and stand for no yard.
func DemoCSV() []byte { return append([]byte(nil), demo...) }

// Offers returns the boards that answer a stock, in the order of the book: same
// size, wood and treatment, and the grade asked for where both name one.
func (b *Book) Offers(s lumber.Stock) []Board {
	var out []Board
	for _, o := range b.Boards {
		if o.Size == s.Size && o.Wood == s.Wood && o.Treatment == s.Treatment && (o.Grade == "" || s.Grade == "" || o.Grade == s.Grade) {
			out = append(out, o)
		}
	}
	return out
}

// A Take is so many packs of one kind.
type Take struct {
	Pack
	Packs int
}

// Buy returns the cheapest packs that hold at least n of what; of equally cheap
// ones, those that hold most. It returns false when the book does not sell it.
func (b *Book) Buy(what string, n int) (take []Take, cost measure.Money, ok bool) {
	var kinds []Pack
	for _, p := range b.Packs {
		if p.What == what {
			kinds = append(kinds, p)
		}
	}
	if len(kinds) == 0 || n < 0 || n > 1e6 {
		return nil, 0, false
	}
	type best struct {
		cost measure.Money
		held int // pieces in hand
		last int // kind taken last
	}
	need := make([]best, n+1) // by pieces still needed
	for want := 1; want <= n; want++ {
		for k, p := range kinds {
			rest := need[max(0, want-p.Count)]
			try := best{rest.cost + p.Price, rest.held + p.Count, k}
			if k == 0 || try.cost < need[want].cost || try.cost == need[want].cost && try.held > need[want].held {
				need[want] = try
			}
		}
	}
	packs := make([]int, len(kinds))
	for want := n; want > 0; want -= kinds[need[max(0, want)].last].Count {
		packs[need[want].last]++
	}
	for k, p := range kinds {
		if packs[k] > 0 {
			take = append(take, Take{p, packs[k]})
		}
	}
	return take, need[n].cost, true
}
