// Package typeset turns words into measured lines of glyphs.
//
// A page, a picture and the test that looks for text over text must agree to
// the last hundredth of a millimetre on where each letter stands, so all three
// read the same Line: runs of glyphs with their places already worked out. The
// widths and kerning pairs come from tables written by tools/fonts when the
// fonts were subset; nothing here opens a font.
//
// Start from Set, which makes one line, and Break, which makes a paragraph.
//
// Places are in millimetres, x to the right and y down (so a raised glyph has
// a negative y); only type sizes are in points.
package typeset

// Point is one point in millimetres: 1/72 in, the point of PDF and of CSS.
const Point = 25.4 / 72

// Face is one of the two fonts of the plan.
type Face uint8

const (
	Regular  Face = iota // body
	Semibold             // headings, letters of parts, what must be seen first
)

// Ink is what a colour means, never the colour itself. Each has a look of its
// own in black and white too: a live number is underlined, a quiet note stands
// in the margin or is set smaller.
type Ink uint8

const (
	Black Ink = iota
	Quiet     // notes in the margin, earlier boards
	Live      // a number or a name that leads somewhere
	White     // letters on a black ground
)

// RGB returns the ink as red, green and blue, 0 to 255 each. Black, quiet and
// live all stand at 7 : 1 or more against white paper, the enhanced contrast of
// WCAG 2.1, success criterion 1.4.6.
func (i Ink) RGB() [3]uint8 {
	switch i {
	case Quiet:
		return [3]uint8{0x54, 0x54, 0x50}
	case Live:
		return [3]uint8{0x1b, 0x4a, 0x8a}
	case White:
		return [3]uint8{0xff, 0xff, 0xff}
	}
	return [3]uint8{0x12, 0x12, 0x12}
}

// Style is the look of a run of letters.
type Style struct {
	Face Face
	Size float64 // points
	Ink  Ink
}

// Kind tells how the text of a span is read.
type Kind uint8

const (
	// Words are broken between lines at spaces, after hyphens and dashes.
	Words Kind = iota
	// Figure is a measured figure such as `33 13/16"` or `1 1/2" × 3 1/2"`. It
	// is never broken, its digits all have one width, n/d in it becomes a
	// stacked fraction, and " and ' after a digit become primes.
	Figure
)

// Span is a stretch of text of one style.
type Span struct {
	Text  string
	Style Style
	Kind  Kind
	Live  bool   // underline it: a number the reader may change
	Link  string // the name of an Anchor this leads to, or a whole https:// address
	Says  string // what is read aloud and copied out; empty means Text itself
}

// Glyph is one letter in its place, measured from the start of its run.
type Glyph struct {
	ID   uint16  // in the subset font of the run's face
	X, Y float64 // mm; y 0 is the baseline
}

// Rule is a filled bar: of a fraction, or under a live number. Its top left
// corner is measured from the start of its run.
type Rule struct{ X, Y, W, H float64 }

// Run is a stretch of glyphs of one style on one line.
type Run struct {
	Text   string // the characters the glyphs stand for, in order
	Says   string // what the run reads as; differs from Text only if the glyphs alone would mislead
	Style  Style
	X      float64 // mm from the start of the line
	Width  float64 // mm
	Glyphs []Glyph
	Rules  []Rule
	Link   string
}

// Line is a set line, from its own start on its own baseline.
type Line struct {
	Runs    []Run
	Width   float64 // mm, without a space at the end
	Ascent  float64 // mm above the baseline that some letter may reach
	Descent float64 // mm below it
}

// Says returns the line as it is read aloud or copied out.
func (l Line) Says() string {
	n := 0
	for _, r := range l.Runs {
		n += len(r.Says)
	}
	b := make([]byte, 0, n)
	for _, r := range l.Runs {
		b = append(b, r.Says...)
	}
	return string(b)
}

// Align tells where short lines stand.
type Align uint8

const (
	Left Align = iota
	Right
	Centre
)

// Format is the shape of a paragraph.
type Format struct {
	Width   float64 // mm
	Align   Align
	Leading float64 // baseline to baseline as a multiple of the largest type size; 0 means 1.35
}

// Paragraph is a broken paragraph. Line i stands with its start at X[i], Y[i]
// from the paragraph's top left corner; Y is its baseline.
type Paragraph struct {
	Lines  []Line
	X, Y   []float64 // mm
	Width  float64   // mm, that of the format
	Height float64   // mm
}
