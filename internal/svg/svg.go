// Package svg writes a sheet as one SVG file that looks the same everywhere.
//
// Letters are drawn as their outlines, each outline once: a font inside the
// file is ignored by many programs that open drawings, and one not inside it
// may be missing. So that the words are still words to a screen reader and to a
// search, every text carries what it says as a label, and the file its title
// and description. Nothing is left to a renderer's taste: hatching is lines,
// dashes are lengths.
//
// Write is the only function.
package svg

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"sort"
	"strconv"
	"strings"

	"scantling/internal/drawing"
	"scantling/internal/typeset"
)

// Write writes the sheet. The same sheet gives the same bytes. It returns the
// error of w, if any.
func Write(w io.Writer, s *drawing.Sheet) error {
	p := &painter{used: map[glyph]bool{}}
	p.items(s.Items)
	var out bytes.Buffer
	fmt.Fprintf(&out, `<svg xmlns="http://www.w3.org/2000/svg" width="%smm" height="%smm" viewBox="0 0 %s %s" `,
		num(s.W), num(s.H), num(s.W), num(s.H))
	out.WriteString(`role="graphics-document document" aria-roledescription="drawing">` + "\n")
	fmt.Fprintf(&out, "<title>%s</title>\n", escape(s.Title))
	if s.Alt != "" {
		fmt.Fprintf(&out, "<desc>%s</desc>\n", escape(s.Alt))
	}
	p.outlines(&out)
	out.WriteString(`<g stroke-linecap="round" stroke-linejoin="round" fill-rule="evenodd">` + "\n")
	out.Write(p.body.Bytes())
	out.WriteString("</g>\n</svg>\n")
	_, err := w.Write(out.Bytes())
	return err
}

type glyph struct {
	face typeset.Face
	id   uint16
}

func (g glyph) name() string { return fmt.Sprintf("%c%d", "rs"[g.face], g.id) }

type painter struct {
	body bytes.Buffer
	used map[glyph]bool

	joined bool   // strokes of one look that follow each other are one path
	look   string // of the path that is open; empty when none is
}

// shut ends the path that strokes are gathered in.
func (p *painter) shut() {
	if p.look != "" {
		p.body.WriteString("\"" + p.look)
		p.look = ""
	}
}

// outlines writes each outline that is used, once.
func (p *painter) outlines(out *bytes.Buffer) {
	if len(p.used) == 0 {
		return
	}
	var gs []glyph
	for g := range p.used {
		gs = append(gs, g)
	}
	sort.Slice(gs, func(i, j int) bool {
		return gs[i].face < gs[j].face || gs[i].face == gs[j].face && gs[i].id < gs[j].id
	})
	out.WriteString("<defs>\n")
	for _, g := range gs {
		fmt.Fprintf(out, "<path id=\"%s\" d=\"%s\"/>\n", g.name(), g.face.Font().Outline(g.id))
	}
	out.WriteString("</defs>\n")
}

func (p *painter) items(items []drawing.Item) {
	for _, it := range items {
		if _, ok := it.(drawing.Stroke); !ok {
			p.shut()
		}
		switch it := it.(type) {
		case drawing.Fill:
			p.fill(it)
		case drawing.Stroke:
			p.stroke(it)
		case drawing.Text:
			p.text(it)
		case *drawing.Group:
			p.group(it)
		}
	}
	p.shut()
}

func (p *painter) group(g *drawing.Group) {
	switch {
	case g.Role == drawing.RoleArtifact:
		p.body.WriteString(`<g aria-hidden="true">`)
	case g.Alt != "":
		fmt.Fprintf(&p.body, `<g role="graphics-object group" aria-label="%s">`, escape(g.Alt))
	default:
		p.items(g.Items)
		return
	}
	p.body.WriteString("\n")
	p.items(g.Items)
	p.body.WriteString("</g>\n")
}

func (p *painter) fill(f drawing.Fill) {
	var d strings.Builder
	for _, l := range f.Loops {
		d.WriteString(path(l, true))
	}
	fmt.Fprintf(&p.body, "<path d=\"%s\" fill=\"%s\"/>\n", d.String(), colour(f.Tone.RGB()))
	lines := f.Hatching()
	if len(lines) == 0 {
		return
	}
	d.Reset()
	for _, l := range lines {
		d.WriteString(path(l[:], false))
	}
	fmt.Fprintf(&p.body, "<path d=\"%s\" fill=\"none\" stroke=\"%s\" stroke-width=\"%s\"/>\n",
		d.String(), colour(typeset.Quiet.RGB()), num(drawing.Hair.MM()))
}

func (p *painter) stroke(s drawing.Stroke) {
	look := fmt.Sprintf(" fill=\"none\" stroke=\"%s\" stroke-width=\"%s\"", colour(s.Ink.RGB()), num(s.Weight.MM()))
	if ds := s.Dash.Pattern(s.Weight); ds != nil {
		var b []string
		for _, d := range ds {
			b = append(b, num(d))
		}
		look += fmt.Sprintf(" stroke-dasharray=\"%s\" stroke-linecap=\"butt\"", strings.Join(b, " "))
	}
	look += "/>\n"
	if look != p.look || !p.joined {
		p.shut()
		p.body.WriteString("<path d=\"")
		p.look = look
	}
	p.body.WriteString(path(s.Path, s.Closed))
}

func (p *painter) text(t drawing.Text) {
	if len(t.Line.Runs) == 0 {
		return
	}
	if t.Halo {
		c := t.Cleared()
		fmt.Fprintf(&p.body, "<path d=\"%s\" fill=\"%s\"/>\n", path(c[:], true), colour(drawing.TonePaper.RGB()))
	}
	fmt.Fprintf(&p.body, `<g role="img" aria-label="%s" transform="translate(%s %s)`, escape(t.Line.Says()), num(t.At.X), num(t.At.Y))
	if t.Turn != 0 {
		fmt.Fprintf(&p.body, " rotate(%s)", num(-t.Turn))
	}
	p.body.WriteString("\">")
	for _, r := range t.Line.Runs {
		p.run(r)
	}
	p.body.WriteString("</g>\n")
}

func (p *painter) run(r typeset.Run) {
	unit := r.Style.Size * typeset.Point / float64(r.Style.Face.Font().UnitsPerEm)
	fmt.Fprintf(&p.body, `<g fill="%s" transform="translate(%s 0) scale(%s)">`, colour(r.Style.Ink.RGB()), num(r.X),
		strconv.FormatFloat(unit, 'g', 7, 64))
	font := r.Style.Face.Font()
	for _, g := range r.Glyphs {
		if font.Outline(g.ID) == "" {
			continue
		}
		k := glyph{r.Style.Face, g.ID}
		p.used[k] = true
		fmt.Fprintf(&p.body, `<use href="#%s" x="%s"`, k.name(), num(g.X/unit))
		if g.Y != 0 {
			fmt.Fprintf(&p.body, ` y="%s"`, num(g.Y/unit))
		}
		p.body.WriteString("/>")
	}
	for _, b := range r.Rules {
		fmt.Fprintf(&p.body, `<path d="%s"/>`, path(drawing.Rect(b.X/unit, b.Y/unit, b.W/unit, b.H/unit), true))
	}
	p.body.WriteString("</g>")
}

func path(ps []drawing.Point, closed bool) string {
	var b strings.Builder
	for i, p := range ps {
		if i == 0 {
			b.WriteByte('M')
		} else {
			b.WriteByte('L')
		}
		b.WriteString(num(p.X) + " " + num(p.Y))
	}
	if closed {
		b.WriteByte('Z')
	}
	return b.String()
}

// num writes a number to a thousandth: of a mm on paper, of a unit in a letter.
func num(v float64) string {
	v = math.Round(v*1000) / 1000
	if v == 0 {
		return "0" // not "-0"
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

func colour(c [3]uint8) string { return fmt.Sprintf("#%02x%02x%02x", c[0], c[1], c[2]) }

var escaper = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&quot;")

// escape makes text safe in XML, where control characters have no place and a
// new line within an attribute reads as a space.
func escape(s string) string {
	return escaper.Replace(strings.Map(func(r rune) rune {
		if r < ' ' && r != '\t' || r == 0xfffe || r == 0xffff {
			return ' '
		}
		return r
	}, s))
}
