package pdf

import (
	"fmt"
	"strings"

	"scantling/internal/drawing"
)

// element is a node of the structure tree (14.7.2).
type element struct {
	ref    ref
	role   drawing.Role
	key    string
	tag    string
	alt    string
	actual string     // what is read in place of the glyphs
	box    [4]float64 // of a figure, points
	page   ref
	parent *element
	kids   []kid
}

// kid is an element, a piece of marked content on a page, or an annotation.
type kid struct {
	element *element
	page    ref
	mcid    int
	object  ref
}

// tags gives each role its standard structure type (14.8.4). A name of the
// piece is the one heading of level 1; a note in the margin is a paragraph.
var tags = [...]string{
	drawing.RolePlain:    "",
	drawing.RolePart:     "Part",
	drawing.RoleSection:  "Sect",
	drawing.RoleTitle:    "H1",
	drawing.RoleHeading1: "H2",
	drawing.RoleHeading2: "H3",
	drawing.RolePara:     "P",
	drawing.RoleNote:     "P",
	drawing.RoleTable:    "Table",
	drawing.RoleRow:      "TR",
	drawing.RoleHeadCell: "TH",
	drawing.RoleRowHead:  "TH",
	drawing.RoleCell:     "TD",
	drawing.RoleList:     "L",
	drawing.RoleListItem: "LI",
	drawing.RoleFigure:   "Figure",
	drawing.RoleCaption:  "Caption",
	drawing.RoleArtifact: "",
}

// holdsText reports whether text may stand directly in an element of the tag.
func holdsText(tag string) bool {
	switch tag {
	case "Document", "Part", "Sect", "Table", "TR", "L", "LI":
		return false
	}
	return true
}

// child returns the element of a group within parent: the one that goes on from
// the page before, or a new one.
func (b *builder) child(parent *element, role drawing.Role, key, alt string) *element {
	if n := len(parent.kids); n > 0 && key != "" {
		if e := parent.kids[n-1].element; e != nil && e.role == role && e.key == key {
			return inner(e)
		}
	}
	e := b.element(parent, tags[role])
	e.role, e.key, e.alt = role, key, alt
	if role == drawing.RoleListItem {
		return b.element(e, "LBody")
	}
	return e
}

// inner returns the element that holds the content of e: a list item has a body.
func inner(e *element) *element {
	if e.tag == "LI" {
		return e.kids[0].element
	}
	return e
}

func (b *builder) element(parent *element, tag string) *element {
	e := &element{ref: b.file.reserve(), tag: tag, parent: parent}
	if parent != nil {
		parent.kids = append(parent.kids, kid{element: e})
	}
	b.elements = append(b.elements, e)
	return e
}

// writeStructure writes the tree and the parent tree that leads from marked
// content back to it (14.7.4.4).
func (b *builder) writeStructure(root ref) {
	for _, e := range b.elements {
		var s strings.Builder
		parent := root
		if e.parent != nil {
			parent = e.parent.ref
		}
		fmt.Fprintf(&s, "<</Type/StructElem/S/%s/P %v", e.tag, parent)
		if e.alt != "" {
			fmt.Fprintf(&s, "/Alt%s", text(e.alt))
		}
		if e.actual != "" {
			fmt.Fprintf(&s, "/ActualText%s", text(e.actual))
		}
		switch {
		case e.tag == "Figure":
			fmt.Fprintf(&s, "/A<</O/Layout/Placement/Block/BBox[%s %s %s %s]>>", num(e.box[0]), num(e.box[1]), num(e.box[2]), num(e.box[3]))
		case e.role == drawing.RoleHeadCell:
			s.WriteString("/A<</O/Table/Scope/Column>>")
		case e.role == drawing.RoleRowHead:
			s.WriteString("/A<</O/Table/Scope/Row>>")
		}
		if e.page != 0 {
			fmt.Fprintf(&s, "/Pg %v", e.page)
		}
		s.WriteString("/K[")
		for i, k := range e.kids {
			if i > 0 {
				s.WriteByte(' ')
			}
			switch {
			case k.element != nil:
				s.WriteString(k.element.ref.String())
			case k.object != 0:
				fmt.Fprintf(&s, "<</Type/OBJR/Pg %v/Obj %v>>", k.page, k.object)
			case k.page == e.page:
				fmt.Fprintf(&s, "%d", k.mcid)
			default:
				fmt.Fprintf(&s, "<</Type/MCR/Pg %v/MCID %d>>", k.page, k.mcid)
			}
		}
		s.WriteString("]>>")
		b.file.set(e.ref, "%s", s.String())
	}
	var nums strings.Builder
	for i, es := range b.parents {
		if len(es) == 1 && b.single[i] {
			fmt.Fprintf(&nums, "%d %v ", i, es[0].ref)
			continue
		}
		fmt.Fprintf(&nums, "%d[", i)
		for _, e := range es {
			fmt.Fprintf(&nums, "%v ", e.ref)
		}
		nums.WriteString("]")
	}
	tree := b.file.add("<</Nums[%s]>>", nums.String())
	b.file.set(root, "<</Type/StructTreeRoot/K[%v]/ParentTree %v/ParentTreeNextKey %d>>", b.elements[0].ref, tree, len(b.parents))
}
