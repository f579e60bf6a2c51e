package plan

import (
	"fmt"
	"slices"
	"strings"

	"scantling/internal/design"
	"scantling/internal/lumber"
	"scantling/internal/measure"
	"scantling/internal/region"
	"scantling/internal/shop"
	"scantling/internal/snag"
	"scantling/internal/wood"
)

// What the blade takes, and what squaring one end of a bought board takes, the
// blade included, where nobody has said otherwise. Source: common practice: a
// full-kerf carbide blade cuts 1/8 in; half an inch squares most factory ends.
//
// In millimetres: 3 and 12, rounded down to what is marked.
func (o *Options) usualKerf() measure.Length {
	if o.Region.Metric() {
		return 3 * measure.Millimetre
	}
	return measure.Inch / 8
}

func (o *Options) usualSquared() measure.Length {
	if o.Region.Metric() {
		return 12 * measure.Millimetre
	}
	return measure.Inch / 2
}

// A Measured is what the boards a reader bought of one stock really measure.
// Everything that reads the stock's thickness or width reads these instead.
type Measured struct {
	Lumber      string // its name in the design: leg_stock
	Thick, Wide measure.Length
}

// An OnHand is boards the reader already has, all of one length.
type OnHand struct {
	Region    region.Region
	Size      lumber.Nominal
	Wood      string // as package wood spells it
	Grade     string // "" when it bears no stamp, and then serves for any grade
	Treatment lumber.Treatment
	Length    measure.Length
	Count     int
	Price     measure.Money // what one is worth to him; 0: it costs nothing
}

// is reports whether boards of the kind may be cut as the stock.
func (h OnHand) is(s lumber.Stock) bool {
	return h.Region == s.Region && h.Size == s.Size && h.Wood == s.Wood && h.Treatment == s.Treatment && (h.Grade == "" || s.Grade == "" || h.Grade == s.Grade)
}

// String returns the boards as ParseOnHand reads them.
func (h OnHand) String() string {
	units := measure.Imperial
	if h.Region.Metric() {
		units = measure.Metric
	}
	s := lumber.Stock{Region: h.Region, Size: h.Size, Wood: h.Wood, Grade: h.Grade}
	out := fmt.Sprintf("%d of %s", h.Count, shop.Sold(s))
	if h.Treatment != lumber.Untreated {
		out += ", " + pick(h.Region, h.Treatment.String(), h.Treatment.CodeIn(h.Region))
	}
	out += ", " + h.Length.Exact(units)
	if h.Price != 0 {
		out += ", " + h.Price.String()
	}
	return out
}

// mostOnHand is more boards of one kind than anybody keeps.
const mostOnHand = 1000

// ParseMeasured reads `leg_stock = 1 1/2 x 5 3/8`: the name of a stock and what
// its boards measure, thickness first. A bare number is in inches or millimetres,
// as yards of the region sell.
func ParseMeasured(text string, in region.Region) (Measured, error) {
	form := "write the stock, = and both sizes, thickness first: " + pick(in, "leg_stock=1 1/2 x 5 3/8", "leg_stock=45 x 143")
	name, sizes, ok := strings.Cut(text, "=")
	if !ok {
		return Measured{}, fmt.Errorf("%q has no =; %s", text, form)
	}
	a, b, ok := strings.Cut(strings.ReplaceAll(sizes, "×", "x"), "x")
	if !ok {
		return Measured{}, fmt.Errorf("%q gives one size and a board has two; %s", text, form)
	}
	m := Measured{Lumber: strings.TrimSpace(name)}
	var err error
	if m.Thick, err = ParseLength(a, in); err != nil {
		return Measured{}, fmt.Errorf("the thickness in %q: %w", text, err)
	}
	if m.Wide, err = ParseLength(b, in); err != nil {
		return Measured{}, fmt.Errorf("the width in %q: %w", text, err)
	}
	return m, nil
}

// pick returns what is said of a region that sells by the inch, or by the
// millimetre.
func pick(in region.Region, inch, metric string) string {
	if in.Metric() {
		return metric
	}
	return inch
}

// ParseLength reads a length that is not less than nothing; a bare number is in
// inches or millimetres, as yards of the region sell.
func ParseLength(text string, in region.Region) (measure.Length, error) {
	text = strings.TrimSpace(text)
	q, bad := measure.Parse(text)
	if unit := pick(in, measure.InchMark, " mm"); bad == nil && q.D == measure.DimNone || bad != nil && !strings.HasSuffix(text, unit) {
		// 1 1/2 is a length only with its mark.
		if marked, worse := measure.Parse(text + unit); worse == nil {
			q, bad = marked, nil
		}
	}
	if bad != nil {
		return 0, fmt.Errorf("%q: %s; %s", text, bad.What, bad.Mend)
	}
	l, ok := q.Length()
	if !ok {
		return 0, fmt.Errorf("%q is no length; write it in inches or millimetres: 5 3/8\", 137 mm", text)
	}
	if l < 0 {
		return 0, fmt.Errorf("%q is less than nothing", text)
	}
	return l, nil
}

// ParseOnHand reads `2 of 2x6 southern pine, No. 2, ground contact, 50", $4`: how
// many (one unless said), sale size and wood, then in any order grade, treatment,
// the length of each and what one costs (nothing unless said).
// Sizes, woods and lengths are the region's.
func ParseOnHand(text string, in region.Region) (OnHand, error) {
	form := "write size and wood, treatment, and length: " + map[region.Region]string{
		region.America:     `2 of 2x6 southern pine, ground contact, 50"`,
		region.Europe:      "2 of 45x145 redwood, use class 4, 1200 mm",
		region.Australasia: "2 of 140x45 treated pine, H4, 1200 mm"}[in]
	h := OnHand{Region: in, Count: 1}
	first, rest, _ := strings.Cut(text, ",")
	first = strings.TrimSpace(first)
	if n, of, ok := strings.Cut(first, " of "); ok {
		q, bad := measure.Parse(n)
		count, whole := q.Count()
		if bad != nil || !whole || count < 1 || count > mostOnHand {
			return OnHand{}, fmt.Errorf("%q is no number of boards from 1 to %d; %s", n, mostOnHand, form)
		}
		h.Count, first = count, strings.TrimSpace(of)
	}
	if err := h.stock(first); err != nil {
		return OnHand{}, fmt.Errorf("%w; %s", err, form)
	}
	for _, said := range strings.Split(rest, ",") {
		said = strings.TrimSpace(said)
		if said == "" {
			continue
		}
		if q, bad := measure.Parse(said); bad == nil {
			if m, ok := q.Money(); ok && m >= 0 {
				h.Price = m
				continue
			}
			l, err := ParseLength(said, in)
			if err != nil {
				return OnHand{}, err
			}
			h.Length = l
			continue
		}
		if t, err := lumber.ParseTreatment(said); err == nil {
			h.Treatment = t
			continue
		}
		if measure.StartsNumber(said) {
			_, err := ParseLength(said, in)
			return OnHand{}, err
		}
		h.Grade = said
	}
	if h.Length == 0 {
		return OnHand{}, fmt.Errorf("%q does not say how long the board is; %s", text, form)
	}
	return h, nil
}

// stock reads a sale size and a wood: as many words as a size has, the others
// name the wood.
func (h *OnHand) stock(text string) error {
	words := strings.Fields(text)
	for n := len(words) - 1; n > 0; n-- {
		size, err := lumber.LookupIn(h.Region, strings.Join(words[:n], " "))
		if err != nil {
			continue
		}
		w, err := wood.LookupIn(h.Region, strings.Join(words[n:], " "))
		if err != nil {
			return err
		}
		h.Size, h.Wood = size.Name, w.Name
		return nil
	}
	if len(words) == 0 {
		return fmt.Errorf("no size is given")
	}
	if _, err := lumber.LookupIn(h.Region, words[0]); err != nil {
		return err
	}
	return fmt.Errorf("%q does not say of what wood", text)
}

// settle says what was left unsaid, for a file drawn for the region home, and
// refuses options that make no sense.
func (o *Options) settle(home region.Region) error {
	if o.Region == nil {
		o.Region = &home
	}
	units, paper, thickest, most := measure.Imperial, "letter", measure.Inch/2, 2*measure.Inch
	if o.Region.Metric() {
		units, paper, thickest, most = measure.Metric, "a4", 12*measure.Millimetre, 50*measure.Millimetre
		if o.Tape == measure.Sixteenth {
			o.Tape = measure.WholeMM
		}
	}
	if o.Paper == "" {
		o.Paper = paper
	}
	if o.Kerf <= 0 {
		o.Kerf = o.usualKerf()
	}
	if o.Squared == nil {
		usual := o.usualSquared()
		o.Squared = &usual
	}
	switch {
	case units == measure.Metric && o.Tape != measure.WholeMM:
		return fmt.Errorf("a metric plan is written for a tape marked every millimetre, not every %s; leave the tape out", o.Tape.Step().Exact(measure.Imperial))
	case units == measure.Imperial && o.Tape != measure.Sixteenth && o.Tape != measure.ThirtySecond:
		return fmt.Errorf("a plan in inches is written for a tape marked every 1/16 in or every 1/32 in, not every %s; choose one of the two", o.Tape.Step().Exact(measure.Imperial))
	case o.Kerf > thickest:
		return fmt.Errorf("a kerf of %s is more than any blade takes, which is %s at most; measure a cut in scrap", o.Kerf.Exact(units), thickest.Exact(units))
	}
	for _, h := range o.OnHand {
		if h.Length <= 0 || h.Count < 1 || h.Count > mostOnHand || h.Price < 0 {
			return fmt.Errorf("boards on hand are from 1 to %d, of some length, and cost nothing or more, not %s", mostOnHand, h)
		}
	}
	if s := *o.Squared; s < 0 || s > most {
		return fmt.Errorf("squaring an end takes from 0 to %s off a board, not %s", most.Exact(units), s.Exact(units))
	}
	if o.Reserve < 0 || o.Reserve > measure.Foot {
		return fmt.Errorf("%s kept free on every board is more than the %s a knot or a split takes; leave such boards at the yard", o.Reserve.Exact(units), measure.Foot.Exact(units))
	}
	if o.Car < 0 || o.Car > 0 && o.Car < 2*measure.Foot {
		return fmt.Errorf("a car that takes boards of %s is shorter than any board is sold; give the length that fits between dashboard and hatch", o.Car.Exact(units))
	}
	return nil
}

// sections are the measured boards as package design has them.
func (o *Options) sections() []design.Section {
	var out []design.Section
	for _, m := range o.Measured {
		out = append(out, design.Section(m))
	}
	return out
}

// unused tells boards on hand that no part can be cut from.
func unused(have []OnHand, stocks []stockUse) snag.List {
	var out snag.List
	for _, h := range have {
		if slices.ContainsFunc(stocks, func(s stockUse) bool { return h.is(s.stock) }) {
			continue
		}
		var asked []string
		for _, s := range stocks {
			asked = append(asked, shop.Sold(s.stock))
		}
		out = append(out, snag.Snag{Code: "on-hand-unused", Severity: snag.Advice, Tier: snag.Settled,
			What:  "nothing here is cut from your " + h.String(),
			Why:   "boards serve where size, wood and treatment are the same, and the grade where one is asked for; asked for are " + strings.Join(asked, "; "),
			Mends: []snag.Mend{snag.Say("change the lumber in the design to what you have, or keep the board for another piece")}})
	}
	return out
}
