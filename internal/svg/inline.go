package svg

import (
	"bytes"
	"fmt"
	"io"

	"scantling/internal/drawing"
	"scantling/internal/typeset"
)

// Inline writes the sheet for the middle of a web page. Its letters are those of
// Letters, which the page must hold once; it is one picture to a screen reader,
// named by its title and described by what it shows.
func Inline(w io.Writer, s *drawing.Sheet) error {
	p := &painter{used: map[glyph]bool{}, joined: true}
	p.items(s.Items)
	var out bytes.Buffer
	says := s.Title
	if s.Alt != "" {
		says = s.Alt
	}
	fmt.Fprintf(&out, `<svg viewBox="0 0 %s %s" width="%smm" height="%smm" role="img" aria-label="%s">`,
		num(s.W), num(s.H), num(s.W), num(s.H), escape(says))
	out.WriteString(`<g stroke-linecap="round" stroke-linejoin="round" fill-rule="evenodd" aria-hidden="true">`)
	out.Write(p.body.Bytes())
	out.WriteString("</g></svg>")
	_, err := w.Write(out.Bytes())
	return err
}

// Letters writes the outlines of every letter, for the pictures of a page.
func Letters(w io.Writer) error {
	p := &painter{used: map[glyph]bool{}}
	for _, face := range []typeset.Face{typeset.Regular, typeset.Semibold} {
		for id := range face.Font().Glyphs() {
			if face.Font().Outline(uint16(id)) != "" {
				p.used[glyph{face, uint16(id)}] = true
			}
		}
	}
	var out bytes.Buffer
	out.WriteString(`<svg width="0" height="0" aria-hidden="true" class="letters">`)
	p.outlines(&out)
	out.WriteString("</svg>")
	_, err := w.Write(out.Bytes())
	return err
}
