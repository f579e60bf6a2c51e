package drawing

import "scantling/internal/typeset"

// Sheet is a page or a picture that knows nothing of PDF, SVG or a screen.
//
// Its origin is the top left corner, x runs right and y runs down, all in
// millimetres of paper. Items are painted in order, later over earlier.
type Sheet struct {
	W, H  float64 // mm
	Name  string  // short, for a file or a bookmark: "front"
	Title string  // what the sheet shows, as a sentence
	Alt   string  // a longer description for somebody who cannot see it
	Items []Item
}

// Item is one of Stroke, Fill, Text, Group and Anchor.
type Item interface{ item() }

// Point is a place on a sheet, mm from its top left corner, y down.
type Point struct{ X, Y float64 }

// Weight is the width class of a line. Widths are in the ratio 1 : 2 that
// ISO 128-2:2020 asks of narrow and wide lines on one drawing, with a hair line
// below them for hatching and the small marks of a tape.
type Weight uint8

const (
	Narrow Weight = iota // dimensions, hidden lines, leaders, folds
	Wide                 // visible edges and outlines
	Hair                 // hatching, tape marks, rules in tables
	Bold                 // what a step adds; the bar under a front heading
)

// MM returns the width of the line in mm.
func (w Weight) MM() float64 {
	switch w {
	case Wide:
		return 0.5
	case Hair:
		return 0.13
	case Bold:
		return 0.7
	}
	return 0.25
}

// Dash is the kind of a line, after ISO 128-2:2020, table 1.
type Dash uint8

const (
	Solid  Dash = iota // visible edges (01)
	Hidden             // edges behind something (02): 12 and 3 line widths
	Axis               // centres and axes (04): 24, 3, dot, 3 line widths
	Dotted             // a tie between two views or a thing to come (07)
)

// Pattern returns the lengths of dash and gap in mm for a line of weight w, nil
// for a solid line. Lengths are multiples of the line's width as ISO 128-2:2020
// gives them, shortened to two thirds, as small drawings need.
func (d Dash) Pattern(w Weight) []float64 {
	u := w.MM()
	switch d {
	case Hidden:
		return []float64{8 * u, 3 * u}
	case Axis:
		return []float64{16 * u, 3 * u, 1 * u, 3 * u}
	case Dotted:
		return []float64{1 * u, 3 * u}
	}
	return nil
}

// Stroke is a line along Path.
type Stroke struct {
	Path   []Point
	Closed bool
	Weight Weight
	Dash   Dash
	Ink    typeset.Ink
}

// Tone is what a filled area means. Each differs from the others in black and
// white: by its lightness, or by hatching.
type Tone uint8

const (
	TonePaper   Tone = iota // covers what lies behind
	ToneNew                 // boards a step adds, boards as they lie at the saw
	ToneNewSide             // the same boards where their face turns from the light
	ToneEarlier             // boards already in place
	ToneWaste               // hatched: falls off and is not kept
	ToneCut                 // hatched the other way: a face made by a section
	ToneTape                // the ground of a tape measure
	ToneDark                // black: kerfs, heads of arrows, marks
	ToneMark                // chalk blue: a running mark
)

// RGB returns the tone's ground, 0 to 255 each.
func (t Tone) RGB() [3]uint8 {
	switch t {
	case ToneNew:
		return [3]uint8{0xf3, 0xe6, 0xc8}
	case ToneNewSide:
		return [3]uint8{0xdf, 0xcc, 0xa2}
	case ToneEarlier:
		return [3]uint8{0xf1, 0xf1, 0xef}
	case ToneTape:
		return [3]uint8{0xfa, 0xf6, 0xea}
	case ToneDark:
		return typeset.Black.RGB()
	case ToneMark:
		return typeset.Live.RGB()
	}
	return [3]uint8{0xff, 0xff, 0xff}
}

// Hatch returns the hatching of the tone: the angle of its lines in degrees
// above the horizontal and their distance in mm, or 0, 0 if it has none.
func (t Tone) Hatch() (angle, apart float64) {
	switch t {
	case ToneWaste:
		return 45, 1.4
	case ToneCut:
		return 135, 1.0
	}
	return 0, 0
}

// Fill is an area within Loops, by the even-odd rule, so that an inner loop is
// a hole.
type Fill struct {
	Loops [][]Point
	Tone  Tone
}

// Text is a set line on the sheet. At is the start of its baseline.
type Text struct {
	At   Point
	Line typeset.Line
	Turn float64 // degrees anticlockwise about At: 0, or 90 for text that reads from the right
	Halo bool    // clear the paper behind it: text on lines of a drawing
}

// Role is the part a group plays, as a tagged document names it.
type Role uint8

const (
	RolePlain    Role = iota // no meaning of its own
	RolePart                 // a chapter
	RoleSection              // a section of a chapter
	RoleTitle                // the name of the piece
	RoleHeading1             // the name of a chapter
	RoleHeading2             // the name of a section
	RolePara                 // a paragraph
	RoleNote                 // a note in the margin
	RoleTable                // rows
	RoleRow                  // cells
	RoleHeadCell             // the head of a column
	RoleRowHead              // the head of a row
	RoleCell
	RoleList
	RoleListItem
	RoleFigure   // a picture: Alt must say what it shows
	RoleCaption  // of a figure or a table
	RoleArtifact // running foot, rules, a head repeated on the next page: no reader needs it
)

// Group is some items with a meaning.
//
// Groups of one Role and one Key that follow each other within the same parent
// group are one element of the document even when they stand on different
// pages: a table that goes on overleaf, a chapter of many pages.
type Group struct {
	Role  Role
	Key   string // empty: stands alone
	Alt   string // of a Figure
	Items []Item
}

// Anchor is a place that links and bookmarks lead to.
type Anchor struct {
	Name string
	At   Point
}

func (Stroke) item() {}
func (Fill) item()   {}
func (Text) item()   {}
func (*Group) item() {}
func (Anchor) item() {}

// Add appends items to the sheet.
func (s *Sheet) Add(items ...Item) { s.Items = append(s.Items, items...) }

// Add appends items to the group.
func (g *Group) Add(items ...Item) { g.Items = append(g.Items, items...) }

// Document is sheets bound together.
type Document struct {
	Title     string
	Subject   string
	Lang      string // BCP 47: "en-US"
	Sheets    []*Sheet
	Bookmarks []Bookmark
}

// Bookmark is an entry of the document's outline.
type Bookmark struct {
	Says   string
	Anchor string // the name of an Anchor on one of the sheets
	Under  []Bookmark
}
