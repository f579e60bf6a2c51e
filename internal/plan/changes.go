package plan

import (
	"fmt"
	"hash/fnv"

	"scantling/internal/design"
	"scantling/internal/measure"
	"scantling/internal/shop"
	"scantling/internal/span"
)

// revision is a code for a design and what the reader set and measured: five
// letters and digits, so that two people can tell by the foot of a page whether
// they hold the same plan. It leaves out what is easily misread: 0 O, 1 I L.
func (s *Session) revision(o *Options) string {
	h := fnv.New64a()
	h.Write(s.src)
	for _, x := range o.Set {
		h.Write([]byte("\x00" + x.Name + "\x00" + x.Value))
	}
	for _, m := range o.Measured {
		fmt.Fprintf(h, "\x01%s\x00%d\x00%d", m.Lumber, m.Thick, m.Wide)
	}
	for _, b := range o.OnHand {
		fmt.Fprintf(h, "\x02%s", b)
	}
	for _, t := range o.Tools {
		fmt.Fprintf(h, "\x06%s\x00%d", t.Name, t.Size)
	}
	if o.Kerf != o.usualKerf() || *o.Squared != o.usualSquared() {
		fmt.Fprintf(h, "\x03%d\x00%d", o.Kerf, *o.Squared)
	}
	if o.Reserve != 0 || o.Car != 0 || o.FewestCuts {
		fmt.Fprintf(h, "\x06%d\x00%d\x00%t", o.Reserve, o.Car, o.FewestCuts)
	}
	if o.Tape == measure.ThirtySecond {
		fmt.Fprintf(h, "\x04%d", o.Tape)
	}
	if *o.Region != s.home {
		fmt.Fprintf(h, "\x05%d", *o.Region)
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
// and choice that was set and what of the workshop was said, with both values;
// then what follows from measured boards.
func (p *Plan) changes(edition *design.Design, set design.Settings, o *Options) []shop.Change {
	pen, r := p.Readings.Pen, p.Readings
	var out []shop.Change
	add := func(what shop.Text) {
		out = append(out, shop.Change{Revision: r.Revision, Date: r.Date, What: what})
	}
	for _, z := range p.Piece.Sizes {
		if z.Value != z.Default {
			add(shop.Words(z.Says + " is ").Show(pen.Quantity(z.Value, z.From)).Say(" here; the design says ").Show(pen.Quantity(z.Default, z.From)).Say("."))
		}
	}
	for _, c := range p.Piece.Choices {
		if c.Is != c.Default {
			add(shop.Words(c.Says + ": " + c.Is + " here; the design says " + c.Default + "."))
		}
	}
	if usual := o.usualKerf(); o.Kerf != usual {
		add(shop.Words("The blade cuts away ").Show(pen.Fine(o.Kerf, span.Set{})).Say(" here; ").Show(pen.Fine(usual, span.Set{})).Say(" is usual."))
	}
	if usual := o.usualSquared(); *o.Squared != usual {
		add(shop.Words("Squaring one end takes ").Show(pen.Fine(*o.Squared, span.Set{})).Say(" off each board here; ").Show(pen.Fine(usual, span.Set{})).Say(" is usual."))
	}
	if o.Reserve != 0 {
		add(shop.Words("The last ").Show(pen.Fine(o.Reserve, span.Set{})).Say(" of every board are kept free for knots and splits."))
	}
	if o.Car != 0 {
		add(shop.Words("No board longer than ").Show(pen.Stock(o.Car, span.Set{})).Say(" is bought, for the car's sake."))
	}
	if o.FewestCuts {
		add(shop.Words("The fewest boards are bought, not the cheapest."))
	}
	if len(o.Measured) > 0 {
		for _, what := range p.measured(edition, set) {
			add(what)
		}
	}
	if out == nil {
		add(shop.Words("First edition of these sizes: nothing differs from the design."))
	}
	return out
}
