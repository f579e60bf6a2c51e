package design

import (
	"fmt"
	"slices"

	"scantling/internal/measure"
	"scantling/internal/phrase"
	"scantling/internal/snag"
)

// A Section is what the boards somebody bought of one stock really measure.
type Section struct {
	Lumber      string // its name in the file: leg_stock
	Thick, Wide measure.Length
}

// offMost is how much a measured board may differ from its stock before it is
// taken for another. Assumed: rough lumber is half an inch over what it is planed
// to, and wet lumber a few per cent.
const offMost = measure.Inch / 2

// Measured returns the design as it is with boards of the sections given:
// everything that reads a thickness or width of those stocks reads these
// instead. d is not changed. Of two sections of one stock the last holds.
//
// The snags tell a name that is no lumber and a section that cannot be that
// stock; what they are about is left as it was.
func (d *Design) Measured(sections []Section) (*Design, snag.List) {
	out := *d
	out.lumber = slices.Clone(d.lumber)
	var told snag.List
	for _, s := range sections {
		k, ok := d.top.find(s.Lumber)
		if !ok || k.kind != aStock {
			told = append(told, snag.Snag{Code: "bad-setting", At: d.nameAt,
				What:  "there is no lumber “" + s.Lumber + "” to measure",
				Mends: settable(d.top.nearName(s.Lumber, d.nameAt, aStock))})
			continue
		}
		l := &out.lumber[k.n]
		if l.stock == nil {
			continue // its lumber could not be read, which is told
		}
		if x, bad := d.oddSection(&d.lumber[k.n], s); x != nil {
			told = append(told, *x)
			if bad {
				continue
			}
		}
		stock := *d.lumber[k.n].stock
		stock.T, stock.W = s.Thick, s.Wide
		l.stock = &stock
	}
	return &out, told
}

// oddSection tells a section that is the stock's name taken for its size, or,
// which is bad, no section of that stock.
func (d *Design) oddSection(l *lumberDecl, s Section) (told *snag.Snag, bad bool) {
	is := func(t, w measure.Length) string { return t.Exact(d.units) + " x " + w.Exact(d.units) }
	off := max(s.Thick-l.stock.T, l.stock.T-s.Thick, s.Wide-l.stock.W, l.stock.W-s.Wide)
	x := snag.Snag{Code: "measured-off", At: l.at,
		Mends: []snag.Mend{snag.Say("measure the board with a tape, thickness first, and give that"),
			snag.Say("or leave it out, and boards of " + phrase.Spaced(l.name) + " count as " + is(l.stock.T, l.stock.W))}}
	if t, w, ok := l.stock.Size.Inches(); ok && t == s.Thick && w == s.Wide && off > 0 {
		x.Severity = snag.Caution
		x.What = fmt.Sprintf("the boards of %s are said to measure %s, which is what a %s is called; planed it measures %s", phrase.Spaced(l.name), is(s.Thick, s.Wide), l.stock.Size, is(l.stock.T, l.stock.W))
		x.Why = "only lumber as the sawmill left it is as large as its name"
		return &x, false
	}
	if s.Thick <= 0 || s.Wide <= 0 || off > offMost {
		x.What = fmt.Sprintf("the boards of %s are said to measure %s, and a %s measures %s", phrase.Spaced(l.name), is(s.Thick, s.Wide), l.stock.Size, is(l.stock.T, l.stock.W))
		x.Why = "more than half an inch off is another size of lumber"
		return &x, true
	}
	return nil, false
}
