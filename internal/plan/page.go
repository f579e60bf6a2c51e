package plan

import (
	"bytes"
	"encoding/json"

	"scantling/internal/page"
	"scantling/internal/picture"
	"scantling/internal/shop"
	"scantling/internal/svg"
)

// A Page is a plan as a web page has it. At the level Live it holds the glance
// alone.
type Page struct {
	Glance   *page.Glance   `json:"glance"` // nil when the file cannot be read as a design
	Revision string         `json:"revision,omitempty"`
	Ready    bool           `json:"ready"`
	Region   string         `json:"region"`
	Chapters []page.Chapter `json:"chapters,omitempty"`
	Model    *page.Model    `json:"model,omitempty"`
	Messages string         `json:"messages,omitempty"` // as a terminal shows them, when there is no glance
}

// PageOptions says how a page is written.
type PageOptions struct {
	Column   float64 // mm of paper a drawing may be wide; 170 when 0
	Editing  bool    // numbers and notes tell where they stand in the file
	Pictures bool    // draw everything that Run draws; else the part sheets alone
}

// Page returns the plan as a web page has it.
func (p *Plan) Page(o PageOptions) *Page {
	out := &Page{Region: p.region.String()}
	if p.Piece == nil {
		out.Messages = p.Messages()
		return out
	}
	po := page.Options{Column: o.Column}
	if o.Editing {
		e := jsonEncoder{p.tree}
		po.Places = func(s shop.Shown) [][2]int { return e.from(s.From) }
		po.Note = func(i int) ([2]int, bool) {
			at := p.Snags[i].At
			return [2]int{at.Start, at.End}, at.End > at.Start
		}
	}
	r := p.Readings
	if r == nil {
		r = shop.Glance(p.Piece, shop.Pen{Tape: p.tape})
		r.Ready = p.Snags.Errors() == 0
		r.Notes = shop.Notes(p.Snags, p.Piece, r)
		out.Ready = r.Ready
		out.Glance = page.NewGlance(p.Piece, r, po)
		return out
	}
	out.Ready, out.Revision = r.Ready, r.Revision
	out.Glance = page.NewGlance(p.Piece, r, po)
	pics := p.Pictures
	switch {
	case pics.Piece != nil:
	case o.Pictures:
		pics = picture.Draw(r)
	default:
		pics = picture.Sheets(r)
	}
	out.Chapters = page.Chapters(r, pics, po)
	out.Model = page.NewModel(r, p.Piece)
	return out
}

// JSON returns the page's bytes, the same for the same plan.
func (p *Page) JSON() []byte {
	var out bytes.Buffer
	enc := json.NewEncoder(&out)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(p); err != nil {
		panic("plan: a page holds a value JSON cannot: " + err.Error())
	}
	return out.Bytes()
}

// HTML returns the chapters as sections that read without a script.
func (p *Page) HTML() string { return page.HTML(p.Chapters, 1) }

// Scene returns the solids for a picture; see page.Scene.
func (p *Plan) Scene() []byte {
	if p.Piece == nil {
		return make([]byte, 4)
	}
	return page.Scene(p.Piece)
}

// Letters returns the outlines of the letters in drawings, which a page holds once.
func Letters() string {
	var b bytes.Buffer
	svg.Letters(&b)
	return b.String()
}
