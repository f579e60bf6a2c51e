package pdf

import (
	"fmt"
	"strings"

	"scantling/internal/drawing"
)

// place is where an anchor stands.
type place struct {
	page ref
	x, y float64 // points
}

type builder struct {
	file          *file
	doc           *drawing.Document
	pages         []ref
	anchors       map[string]place
	used          [len(faces)]bool // faces that some text is set in
	elements      []*element
	parents       [][]*element // by structure-parent key
	single        map[int]bool // the key is of an annotation, not of a page
	catalog, info ref
}

// collect gives each page its number and each anchor its place, since links lead
// forward as well as back, and finds the faces to embed.
func (b *builder) collect() {
	for _, s := range b.doc.Sheets {
		page := b.file.reserve()
		b.pages = append(b.pages, page)
		var walk func([]drawing.Item)
		walk = func(items []drawing.Item) {
			for _, it := range items {
				switch it := it.(type) {
				case *drawing.Group:
					walk(it.Items)
				case drawing.Text:
					for _, r := range it.Line.Runs {
						b.used[r.Style.Face] = true
					}
				case drawing.Anchor:
					b.anchors[it.Name] = place{page, it.At.X * perMM, (s.H - it.At.Y) * perMM}
				}
			}
		}
		walk(s.Items)
	}
	b.single = map[int]bool{}
}

func (b *builder) write() error {
	f := b.file
	var fonts strings.Builder
	for i, face := range faces {
		if !b.used[i] {
			continue
		}
		fmt.Fprintf(&fonts, "/F%d %v", i, addFont(f, face))
	}
	tree, root := f.reserve(), f.reserve()
	document := b.element(nil, "Document")
	b.parents = make([][]*element, len(b.pages))
	for i, s := range b.doc.Sheets {
		p := &pager{b: b, sheet: s, page: b.pages[i]}
		p.items(s.Items, document)
		b.parents[i] = p.mcs
		content := f.stream("", p.out.Bytes())
		annots, err := b.annotations(p)
		if err != nil {
			return err
		}
		f.set(p.page, "<</Type/Page/Parent %v/MediaBox[0 0 %s %s]/Resources<</Font<<%s>>>>/Contents %v/StructParents %d/Tabs/S%s>>",
			tree, num(s.W*perMM), num(s.H*perMM), fonts.String(), content, i, annots)
	}
	b.writeStructure(root)
	kids := make([]string, len(b.pages))
	for i, p := range b.pages {
		kids[i] = p.String()
	}
	f.set(tree, "<</Type/Pages/Count %d/Kids[%s]>>", len(kids), strings.Join(kids, " "))
	outlines, err := b.outlines()
	if err != nil {
		return err
	}
	d := b.doc
	b.info = f.add("<</Title%s/Subject%s/Producer(Scantling)>>", text(d.Title), text(d.Subject))
	b.catalog = f.add("<</Type/Catalog/Pages %v/Lang%s/MarkInfo<</Marked true>>/StructTreeRoot %v/ViewerPreferences<</DisplayDocTitle true>>/Metadata %v%s>>",
		tree, literal(d.Lang), root, b.metadata(), outlines)
	return nil
}

// annotations writes the links of a page and returns the entry of its
// dictionary.
func (b *builder) annotations(p *pager) (string, error) {
	if len(p.links) == 0 {
		return "", nil
	}
	var list []string
	for _, l := range p.links {
		var action string
		if strings.Contains(l.to, "://") {
			action = fmt.Sprintf("/A<</S/URI/URI%s>>", literal(l.to))
		} else {
			dest, err := b.dest(l.to)
			if err != nil {
				return "", err
			}
			action = "/Dest" + dest
		}
		key := len(b.parents)
		b.parents = append(b.parents, []*element{l.element})
		b.single[key] = true
		r := b.file.add("<</Type/Annot/Subtype/Link/F 4/Rect[%s %s %s %s]/Border[0 0 0]/Contents%s/StructParent %d/P %v%s>>",
			num(l.rect[0]), num(l.rect[1]), num(l.rect[2]), num(l.rect[3]), text(l.says), key, p.page, action)
		l.element.kids = append(l.element.kids, kid{page: p.page, object: r})
		list = append(list, r.String())
	}
	return "/Annots[" + strings.Join(list, " ") + "]", nil
}

func (b *builder) dest(name string) (string, error) {
	a, ok := b.anchors[name]
	if !ok {
		return "", fmt.Errorf("a link leads to %q, and no page has an anchor of that name", name)
	}
	return fmt.Sprintf("[%v/XYZ %s %s null]", a.page, num(a.x), num(a.y)), nil
}

// literal writes an ASCII string in parentheses (7.3.4.2).
func literal(s string) string {
	return "(" + strings.NewReplacer(`\`, `\\`, "(", `\(`, ")", `\)`).Replace(s) + ")"
}

// outlines writes the bookmarks (12.3.3) and returns the entries of the catalog.
func (b *builder) outlines() (string, error) {
	if len(b.doc.Bookmarks) == 0 {
		return "", nil
	}
	root := b.file.reserve()
	first, last, n, err := b.bookmarks(root, b.doc.Bookmarks)
	if err != nil {
		return "", err
	}
	b.file.set(root, "<</Type/Outlines/First %v/Last %v/Count %d>>", first, last, n)
	return fmt.Sprintf("/Outlines %v/PageMode/UseOutlines", root), nil
}

func (b *builder) bookmarks(parent ref, marks []drawing.Bookmark) (first, last ref, n int, err error) {
	refs := make([]ref, len(marks))
	for i := range marks {
		refs[i] = b.file.reserve()
	}
	for i, m := range marks {
		dest, err := b.dest(m.Anchor)
		if err != nil {
			return 0, 0, 0, err
		}
		s := fmt.Sprintf("<</Title%s/Parent %v/Dest%s", text(m.Says), parent, dest)
		if i > 0 {
			s += fmt.Sprintf("/Prev %v", refs[i-1])
		}
		if i+1 < len(refs) {
			s += fmt.Sprintf("/Next %v", refs[i+1])
		}
		if len(m.Under) > 0 {
			f, l, k, err := b.bookmarks(refs[i], m.Under)
			if err != nil {
				return 0, 0, 0, err
			}
			s += fmt.Sprintf("/First %v/Last %v/Count -%d", f, l, k) // closed
		}
		b.file.set(refs[i], "%s>>", s)
	}
	return refs[0], refs[len(refs)-1], len(refs), nil
}

// metadata writes the XMP packet that names the document and claims PDF/UA-1.
func (b *builder) metadata() ref {
	escape := strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;")
	plain := func(r rune) rune { // XML has no place for control characters
		if r < ' ' || r == 0xfffe || r == 0xffff {
			return ' '
		}
		return r
	}
	esc := func(s string) string { return escape.Replace(strings.Map(plain, s)) }
	x := `<?xpacket begin="` + "\ufeff" + `" id="W5M0MpCehiHzreSzNTczkc9d"?>
<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">
<rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:pdfuaid="http://www.aiim.org/pdfua/ns/id/" xmlns:pdf="http://ns.adobe.com/pdf/1.3/">
<pdfuaid:part>1</pdfuaid:part>
<pdf:Producer>Scantling</pdf:Producer>
<dc:title><rdf:Alt><rdf:li xml:lang="x-default">` + esc(b.doc.Title) + `</rdf:li></rdf:Alt></dc:title>
<dc:description><rdf:Alt><rdf:li xml:lang="x-default">` + esc(b.doc.Subject) + `</rdf:li></rdf:Alt></dc:description>
</rdf:Description></rdf:RDF></x:xmpmeta>
<?xpacket end="r"?>`
	return b.file.add("<</Type/Metadata/Subtype/XML/Length %d>>\nstream\n%s\nendstream", len(x), x)
}
