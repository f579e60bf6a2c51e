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
// known is a snag, so that no price is lost to a slip of the pen. A "basis" line
// of "invented" says that the prices stand for no yard.
//
// Where lumber is sold in millimetres the boards stand under length_mm, a
// "region" line has sizes and woods read by that region's names, and a
// "currency" line gives its sign of money.
package prices

import (
	_ "embed"
	"fmt"
	"strings"

	"scantling/internal/lumber"
	"scantling/internal/measure"
	"scantling/internal/region"
)

// A Book is a parsed price book.
type Book struct {
	Place, Date string // as written; Date is YYYY-MM-DD
	Invented    bool
	Region      region.Region // whose names it is written in; America unless it says
	Currency    string        // the sign before its prices: "$", "£", "€"
	Sold        []Board
	Hardware    []Pack
}

// A Board is one length of one stock and its price.
type Board struct {
	Size      lumber.Nominal
	Wood      string // as package wood spells it
	Grade     string // "" when the yard sells one grade only
	Treatment lumber.Treatment
	Offer
}

// An Offer is a length to be had, and what one costs.
type Offer struct {
	Length measure.Length
	Price  measure.Money
}

// A Pack is Count pieces of hardware sold together.
type Pack struct {
	What  string // as package screw names it: "deck screw 8 x 2 1/2", "nut 5/16"
	Count int
	Price measure.Money
}

//go:embed demo.csv
var demo []byte

//go:embed europe.csv
var europe []byte

//go:embed australasia.csv
var australasia []byte

// DemoCSVIn returns the text of a region's demonstration price book. Its prices are
// invented and stand for no yard.
func DemoCSVIn(r region.Region) []byte {
	return append([]byte(nil), [...][]byte{region.America: demo, region.Europe: europe, region.Australasia: australasia}[r]...)
}

// DemoIn returns a region's demonstration price book.
func DemoIn(r region.Region) *Book {
	b, snags := Parse("demo.csv", DemoCSVIn(r))
	if len(snags) > 0 {
		panic("prices: the demonstration price book of " + r.String() + ": " + snags[0].What)
	}
	return b
}

// Note says in a sentence where and when the prices were asked, or that they
// are invented.
func (b *Book) Note() string {
	switch {
	case b.Invented:
		return "The prices are invented, to show how a plan is priced; ask your own yard."
	case b.Place == "" && b.Date == "":
		return "The price book does not say where and when its prices were asked."
	}
	return strings.TrimSpace(fmt.Sprintf("Prices asked at %s on %s.", or(b.Place, "a yard not named"), or(b.Date, "a day not given")))
}

func or(s, otherwise string) string {
	if s == "" {
		return otherwise
	}
	return s
}

// Boards returns the lengths of a stock the yard sells, in the order of the
// book: same size, wood and treatment, and the grade asked for where both name
// one.
func (b *Book) Boards(s lumber.Stock) []Offer {
	var out []Offer
	for _, o := range b.Sold {
		if o.Size == s.Size && o.Wood == s.Wood && o.Treatment == s.Treatment && (o.Grade == "" || s.Grade == "" || o.Grade == s.Grade) {
			out = append(out, o.Offer)
		}
	}
	return out
}

// Packs are so many packs of one kind.
type Packs struct {
	N    int           // packs
	Per  int           // pieces in each
	Each measure.Money // price of one
}

// Cost returns the price of all.
func (p Packs) Cost() measure.Money { return measure.Money(p.N) * p.Each }

// String returns "2 boxes of 100"; "" for things sold singly.
func (p Packs) String() string {
	switch {
	case p.Per == 1 || p.N == 0:
		return ""
	case p.N == 1:
		return fmt.Sprintf("1 box of %d", p.Per)
	}
	return fmt.Sprintf("%d boxes of %d", p.N, p.Per)
}

// Packs returns the packs, of one kind, that hold at least n of what for the
// least money; of equally cheap ones, those that hold most. It returns false
// when the book does not sell it.
func (b *Book) Packs(what string, n int) (Packs, bool) {
	var best Packs
	found := false
	for _, k := range b.Hardware {
		if k.What != what {
			continue
		}
		p := Packs{(max(n, 0) + k.Count - 1) / k.Count, k.Count, k.Price}
		if !found || p.Cost() < best.Cost() || p.Cost() == best.Cost() && p.N*p.Per > best.N*best.Per {
			best, found = p, true
		}
	}
	return best, found
}
