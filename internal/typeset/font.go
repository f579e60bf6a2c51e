package typeset

import "sort"

// Font is a subset font with the tables that setting type needs. Figures are
// in font units; UnitsPerEm of them make the type size. Ascent and Descent are
// both positive. Its numbers come from the font's own tables, read by
// tools/fonts.
type Font struct {
	Name            string // PostScript name
	UnitsPerEm      int
	Ascent, Descent int
	CapHeight       int
	XHeight         int
	Weight          int // 400 regular, 600 semibold
	Box             [4]int

	small               int // the glyph of a small 0; nine more follow
	runes               []char
	advances            []uint16
	kernLeft, kernRight []uint8 // classes of glyphs, indexes into kern
	kern                [][]int16
	outlines            []string
}

type char struct {
	r   rune
	gid uint16
}

// TTF returns the font as a file, TrueType outlines. It is a function so that a
// program that never writes the file does not carry it.
func (f *Font) TTF() string {
	if f == &semiboldFont {
		return semiboldTTF
	}
	return regularTTF
}

// Font returns the font of a face.
func (f Face) Font() *Font {
	if f == Semibold {
		return &semiboldFont
	}
	return &regularFont
}

// Glyphs returns how many glyphs the font has.
func (f *Font) Glyphs() int { return len(f.advances) }

// Advance returns the width of a glyph in font units.
func (f *Font) Advance(gid uint16) int { return int(f.advances[gid]) }

// Outline returns a glyph's outline as the data of an SVG path, in font units
// with y down; empty for a space.
func (f *Font) Outline(gid uint16) string { return f.outlines[gid] }

// Rune returns the character a glyph stands for: the small digits of fractions
// stand for digits. It is U+FFFD for the glyph of an unknown character.
func (f *Font) Rune(gid uint16) rune {
	if int(gid) >= f.small {
		return '0' + rune(int(gid)-f.small)
	}
	// Glyphs below the small digits were numbered in the order of letters,
	// which is nearly that of characters, so only a few places are off.
	for _, c := range f.runes {
		if c.gid == gid {
			return c.r
		}
	}
	return '\uFFFD'
}

// glyph returns the glyph of a character, or 0.
func (f *Font) glyph(r rune) uint16 {
	i := sort.Search(len(f.runes), func(i int) bool { return f.runes[i].r >= r })
	if i < len(f.runes) && f.runes[i].r == r {
		return f.runes[i].gid
	}
	return 0
}

// pair returns the kerning between two glyphs in font units.
func (f *Font) pair(left, right uint16) int {
	return int(f.kern[f.kernLeft[left]][f.kernRight[right]])
}
