package pdf

import (
	"bytes"
	"fmt"
	"math"
	"strings"

	"scantling/internal/drawing"
	"scantling/internal/typeset"
)

// perMM is points in a millimetre.
const perMM = 1 / typeset.Point

// pager paints one sheet.
type pager struct {
	b      *builder
	sheet  *drawing.Sheet
	page   ref
	out    bytes.Buffer
	mcs    []*element // by marked-content number
	links  []link
	inside *element // the figure whose marked content is open, or nil
	box    [4]float64
}

// link is a rectangle that leads somewhere.
type link struct {
	to, says string
	rect     [4]float64 // points
	element  *element
}

func (p *pager) x(x float64) float64 { return x * perMM }
func (p *pager) y(y float64) float64 { return (p.sheet.H - y) * perMM }

// items paints items that belong to e; e nil means decoration.
func (p *pager) items(items []drawing.Item, e *element) {
	for i, it := range items {
		switch it := it.(type) {
		case drawing.Fill, drawing.Stroke:
			if p.inside == nil {
				p.out.WriteString("/Artifact BMC\n")
			}
			p.mark(it)
			if p.inside == nil {
				p.out.WriteString("EMC\n")
			}
		case drawing.Text:
			if len(it.Line.Runs) == 0 {
				continue
			}
			p.placed(it, e, i+1 < len(items) && isText(items[i+1]))
		case *drawing.Group:
			p.group(it, e)
		}
	}
}

func isText(it drawing.Item) bool { _, ok := it.(drawing.Text); return ok }

func (p *pager) group(g *drawing.Group, e *element) {
	switch {
	case p.inside != nil || e == nil || g.Role == drawing.RolePlain:
		p.items(g.Items, e)
	case g.Role == drawing.RoleArtifact:
		p.items(g.Items, nil)
	case g.Role == drawing.RoleFigure:
		f := p.b.child(e, g.Role, g.Key, g.Alt)
		p.open(f)
		p.inside, p.box = f, [4]float64{1e9, 1e9, -1e9, -1e9}
		p.items(g.Items, f)
		p.inside = nil
		p.out.WriteString("EMC\n")
		if f.page == p.page && p.box[0] <= p.box[2] {
			f.box = [4]float64{p.x(p.box[0]), p.y(p.box[3]), p.x(p.box[2]), p.y(p.box[1])}
		}
	default:
		p.items(g.Items, p.b.child(e, g.Role, g.Key, g.Alt))
	}
}

// open begins marked content that belongs to e.
func (p *pager) open(e *element) {
	n := len(p.mcs)
	p.mcs = append(p.mcs, e)
	if e.page == 0 {
		e.page = p.page
	}
	e.kids = append(e.kids, kid{page: p.page, mcid: n})
	fmt.Fprintf(&p.out, "/%s<</MCID %d>>BDC\n", e.tag, n)
}

// placed paints a text as content of e. A line that goes on in the next one ends
// with a space, so that its last word does not run into the next.
func (p *pager) placed(t drawing.Text, e *element, more bool) {
	switch {
	case p.inside != nil:
		p.text(t, false)
		return
	case e == nil:
		p.out.WriteString("/Artifact BMC\n")
		p.text(t, false)
		p.out.WriteString("EMC\n")
		return
	}
	if !holdsText(e.tag) {
		e = p.b.element(e, "P")
	}
	for i, r := range t.Line.Runs {
		part := t
		part.Line.Runs = t.Line.Runs[i : i+1]
		part.Halo = t.Halo && i == 0
		at := e
		if r.Link != "" {
			at = p.b.element(e, "Link")
			p.links = append(p.links, link{r.Link, r.Says, p.rect(t, r), at})
		}
		if r.Says != r.Text {
			// Copying looks at the marked content, reading aloud at the tree: the
			// words of a fraction stand in both.
			at = p.b.element(at, "Span")
			at.actual = r.Says
		}
		p.open(at)
		p.text(part, more && i == len(t.Line.Runs)-1)
		p.out.WriteString("EMC\n")
	}
}

// rect returns the paper a run covers, in points.
func (p *pager) rect(t drawing.Text, r typeset.Run) [4]float64 {
	t.At = t.Start(r)
	t.Line.Width = r.Width
	c := t.Box()
	x0, y0, x1, y1 := c[0].X, c[0].Y, c[0].X, c[0].Y
	for _, q := range c {
		x0, y0, x1, y1 = min(x0, q.X), min(y0, q.Y), max(x1, q.X), max(y1, q.Y)
	}
	return [4]float64{p.x(x0), p.y(y1), p.x(x1), p.y(y0)}
}

// mark paints a fill or a stroke.
func (p *pager) mark(it drawing.Item) {
	switch it := it.(type) {
	case drawing.Fill:
		fmt.Fprintf(&p.out, "%s rg\n", colour(it.Tone.RGB()))
		for _, l := range it.Loops {
			p.path(l)
			p.out.WriteString("h\n")
		}
		p.out.WriteString("f*\n")
		if lines := it.Hatching(); len(lines) > 0 {
			fmt.Fprintf(&p.out, "q 1 J %s RG %s w\n", colour(typeset.Quiet.RGB()), num(drawing.Hair.MM()*perMM))
			for _, l := range lines {
				p.path(l[:])
			}
			p.out.WriteString("S Q\n")
		}
	case drawing.Stroke:
		p.out.WriteString("q 1 j ")
		if ds := it.Dash.Pattern(it.Weight); ds == nil {
			p.out.WriteString("1 J ")
		} else {
			var b []string
			for _, d := range ds {
				b = append(b, num(d*perMM))
			}
			fmt.Fprintf(&p.out, "[%s] 0 d ", strings.Join(b, " "))
		}
		fmt.Fprintf(&p.out, "%s RG %s w\n", colour(it.Ink.RGB()), num(it.Weight.MM()*perMM))
		p.path(it.Path)
		if it.Closed {
			p.out.WriteString("h ")
		}
		p.out.WriteString("S Q\n")
	}
}

func (p *pager) path(ps []drawing.Point) {
	for i, q := range ps {
		op := "l"
		if i == 0 {
			op = "m"
		}
		p.grow(q)
		fmt.Fprintf(&p.out, "%s %s %s\n", num(p.x(q.X)), num(p.y(q.Y)), op)
	}
}

// grow widens the box of the figure that is being painted.
func (p *pager) grow(q drawing.Point) {
	p.box = [4]float64{min(p.box[0], q.X), min(p.box[1], q.Y), max(p.box[2], q.X), max(p.box[3], q.Y)}
}

// text paints the runs of a line.
func (p *pager) text(t drawing.Text, more bool) {
	box := t.Box()
	for _, q := range box {
		p.grow(q)
	}
	if t.Halo {
		p.out.WriteString("1 g\n")
		clear := t.Cleared()
		p.path(clear[:])
		p.out.WriteString("h f\n")
	}
	c, s := t.Direction()
	for i, r := range t.Line.Runs {
		at := t.Start(r)
		fmt.Fprintf(&p.out, "q %s %s %s %s %s %s cm %s rg\n", num(c), num(s), num(-s), num(c), num(p.x(at.X)), num(p.y(at.Y)), colour(r.Style.Ink.RGB()))
		if r.Says != r.Text {
			fmt.Fprintf(&p.out, "/Span<</ActualText%s>>BDC\n", text(r.Says))
		}
		p.run(r)
		if r.Says != r.Text {
			p.out.WriteString("EMC\n")
		}
		if more && i == len(t.Line.Runs)-1 {
			fmt.Fprintf(&p.out, "BT /F%d %s Tf 1 0 0 1 %s 0 Tm <%04X> Tj ET\n", r.Style.Face, num(r.Style.Size), num(r.Width*perMM), space(r.Style.Face))
		}
		p.out.WriteString("Q\n")
	}
}

// space is the glyph of a space.
func space(f typeset.Face) uint16 {
	return typeset.Set(typeset.Span{Text: "a b", Style: typeset.Style{Face: f, Size: 1}}).Runs[0].Glyphs[1].ID
}

// run shows glyphs one stretch of equal height after another, and then the bars.
func (p *pager) run(r typeset.Run) {
	font := r.Style.Face.Font()
	thousandth := r.Style.Size / 1000 // points
	fmt.Fprintf(&p.out, "BT /F%d %s Tf\n", r.Style.Face, num(r.Style.Size))
	for i := 0; i < len(r.Glyphs); {
		y := r.Glyphs[i].Y
		start := float64(r.Glyphs[i].X * perMM)
		fmt.Fprintf(&p.out, "1 0 0 1 %s %s Tm [<", num(start), num(-y*perMM))
		pen := 0.0 // thousandths of the size from start
		for ; i < len(r.Glyphs) && r.Glyphs[i].Y == y; i++ {
			g := r.Glyphs[i]
			want := (float64(g.X*perMM) - start) / thousandth
			if move := math.Round(want - pen); move != 0 {
				fmt.Fprintf(&p.out, ">%s<", num(-move))
				pen += move
			}
			fmt.Fprintf(&p.out, "%04X", g.ID)
			pen += float64(font.Advance(g.ID)*1000) / float64(font.UnitsPerEm)
		}
		p.out.WriteString(">]TJ\n")
	}
	p.out.WriteString("ET\n")
	for _, b := range r.Rules {
		fmt.Fprintf(&p.out, "%s %s %s %s re f\n", num(b.X*perMM), num(-(b.Y+b.H)*perMM), num(b.W*perMM), num(b.H*perMM))
	}
}

func colour(c [3]uint8) string {
	return num(float64(c[0])/255) + " " + num(float64(c[1])/255) + " " + num(float64(c[2])/255)
}
