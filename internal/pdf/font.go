package pdf

import (
	"bytes"
	"fmt"
	"strings"

	"scantling/internal/typeset"
)

// faces are the fonts in the order of their resource names F0 and F1.
var faces = [...]typeset.Face{typeset.Regular, typeset.Semibold}

// addFont embeds a face as a composite font whose codes are glyph numbers
// (9.7.4.2), and returns its number.
func addFont(f *file, face typeset.Face) ref {
	font := face.Font()
	// A subset's name begins with a tag of six letters (9.6.4).
	name := "SCNTLG+" + font.Name
	ttf := f.stream(fmt.Sprintf("/Length1 %d", len(font.TTF())), []byte(font.TTF()))
	scale := func(v int) int { return v * 1000 / font.UnitsPerEm }
	flags := 4 // symbolic: its codes are glyphs, not a Latin encoding (table 123)
	// No table of the font holds the width of its stems; this rule of thumb from
	// the weight is common practice of PDF writers and only matters to a reader
	// that must replace the font.
	stem := 50 + (font.Weight/65)*(font.Weight/65)
	descriptor := f.add("<</Type/FontDescriptor/FontName/%s/Flags %d/FontBBox[%d %d %d %d]/ItalicAngle 0/Ascent %d/Descent %d/CapHeight %d/XHeight %d/StemV %d/FontFile2 %v>>",
		name, flags, scale(font.Box[0]), scale(font.Box[1]), scale(font.Box[2]), scale(font.Box[3]),
		scale(font.Ascent), -scale(font.Descent), scale(font.CapHeight), scale(font.XHeight), stem, ttf)
	var widths strings.Builder
	for g := range font.Glyphs() {
		fmt.Fprintf(&widths, "%d ", scale(font.Advance(uint16(g))))
	}
	cid := f.add("<</Type/Font/Subtype/CIDFontType2/BaseFont/%s/CIDSystemInfo<</Registry(Adobe)/Ordering(Identity)/Supplement 0>>/FontDescriptor %v/CIDToGIDMap/Identity/DW 500/W[0[%s]]>>",
		name, descriptor, strings.TrimSpace(widths.String()))
	return f.add("<</Type/Font/Subtype/Type0/BaseFont/%s/Encoding/Identity-H/DescendantFonts[%v]/ToUnicode %v>>",
		name, cid, f.stream("", toUnicode(font)))
}

// toUnicode maps glyphs to the characters they stand for (9.10.3).
func toUnicode(font *typeset.Font) []byte {
	var b bytes.Buffer
	b.WriteString("/CIDInit/ProcSet findresource begin\n12 dict begin\nbegincmap\n" +
		"/CIDSystemInfo<</Registry(Adobe)/Ordering(UCS)/Supplement 0>>def\n/CMapName/Adobe-Identity-UCS def\n/CMapType 2 def\n" +
		"1 begincodespacerange\n<0000><FFFF>\nendcodespacerange\n")
	const most = 100 // entries in one block
	for from := 1; from < font.Glyphs(); from += most {
		to := min(from+most, font.Glyphs())
		fmt.Fprintf(&b, "%d beginbfchar\n", to-from)
		for g := from; g < to; g++ {
			fmt.Fprintf(&b, "<%04X><%04X>\n", g, font.Rune(uint16(g)))
		}
		b.WriteString("endbfchar\n")
	}
	b.WriteString("endcmap\nCMapName currentdict/CMap defineresource pop\nend\nend\n")
	return b.Bytes()
}
