// Package book lays out the plan book: what a builder prints and takes to the
// saw.
//
// A page has a quiet left margin, where chapters have their numbers and notes
// stand, a thin rule, and one column of plan. The book prints readings of package
// shop and pictures of package drawing; it computes nothing but places on paper.
//
// Start from Make. Chapters are written as a list of blocks (flow.go), which know
// their height and what they must stay with; paginate puts them on pages.
package book

import (
	"strings"

	"scantling/internal/drawing"
	"scantling/internal/shop"
)

// Paper is what the book is printed on.
type Paper uint8

const (
	Letter Paper = iota // 8 1/2 × 11 in, ANSI/ASME Y14.1
	A4                  // 210 × 297 mm, ISO 216
)

// Size returns width and height in mm.
func (p Paper) Size() (w, h float64) {
	if p == A4 {
		return 210, 297
	}
	return 215.9, 279.4
}

// Pictures are the drawings of a plan. Any may be absent: its words are printed
// without it.
type Pictures struct {
	Piece *drawing.Figure            // the finished piece, for the front
	Views []*drawing.Figure          // front, side, top, with overall and key sizes
	Parts map[string]*drawing.Figure // a part's sheet, by its letter
	Steps []*drawing.Figure          // Steps[i] shows Readings.Steps[i]
}

// Make lays out the book. The same readings and pictures give the same document.
func Make(r *shop.Readings, pics Pictures, paper Paper) *drawing.Document {
	w, h := paper.Size()
	b := &book{r: r, pics: pics, page: geometry{W: w, H: h}}
	b.front()
	b.mendThis()
	b.readFirst()
	b.yourBoards()
	b.toBuy()
	b.parts()
	b.atTheSaw()
	b.partSheets()
	b.steps()
	b.takeCare()
	b.changes()
	return &drawing.Document{
		Title:     r.Piece,
		Subject:   "A plan to build from: boards to buy, parts, cuts and steps. " + strings.TrimSpace("Revision "+r.Revision),
		Lang:      r.Lang,
		Sheets:    b.sheets(),
		Bookmarks: b.marks,
	}
}

// book gathers the blocks of all chapters.
type book struct {
	r      *shop.Readings
	pics   Pictures
	page   geometry
	blocks []block
	marks  []drawing.Bookmark
	number int // of the chapter that is being written
	tables int // how many tables there are, for their keys
}
