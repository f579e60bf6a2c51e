package plan

import (
	"hash/fnv"

	"scantling/internal/design"
	"scantling/internal/shop"
)

// revision is a code for a design and what the reader set: five letters and
// digits, so that two people can tell by the foot of a page whether they hold
// the same plan. It leaves out what is easily misread: 0 O, 1 I L.
func (s *Session) revision(set []Setting) string {
	h := fnv.New64a()
	h.Write(s.src)
	for _, x := range set {
		h.Write([]byte("\x00" + x.Name + "\x00" + x.Value))
	}
	const letters = "23456789ABCDEFGHJKMNPQRSTUVWXYZ"
	sum := h.Sum64()
	code := make([]byte, 5)
	for i := range code {
		code[i] = letters[sum%uint64(len(letters))]
		sum /= uint64(len(letters))
	}
	return string(code)
}

// changes lists what this plan has otherwise than the design file: every size
// and choice that was set, with both values.
func (s *Session) changes(piece *design.Piece, r *shop.Readings) []shop.Change {
	pen := shop.Pen{}
	var out []shop.Change
	add := func(what shop.Text) {
		out = append(out, shop.Change{Revision: r.Revision, Date: r.Date, What: what})
	}
	for _, z := range piece.Sizes {
		if z.Value != z.Default {
			add(shop.Words(z.Says + " is ").Show(pen.Quantity(z.Value, z.From)).Say(" here; the design says ").Show(pen.Quantity(z.Default, z.From)).Say("."))
		}
	}
	for _, c := range piece.Choices {
		if c.Is != c.Default {
			add(shop.Words(c.Says + ": " + c.Is + " here; the design says " + c.Default + "."))
		}
	}
	if out == nil {
		add(shop.Words("First edition of these sizes: nothing differs from the design."))
	}
	return out
}
