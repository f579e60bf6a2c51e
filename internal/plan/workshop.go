package plan

import (
	"fmt"
	"slices"
	"strings"

	"scantling/internal/design"
	"scantling/internal/lumber"
	"scantling/internal/measure"
	"scantling/internal/snag"
	"scantling/internal/wood"
)

// What the blade takes, and what squaring one end of a bought board takes, the
// blade included, where nobody has said otherwise. Source: common practice: a
// full-kerf carbide blade cuts 1/8 in; half an inch squares most factory ends.
const (
	usualKerf    = measure.Inch / 8
	usualSquared = measure.Inch / 2
)

// A Measured is what the boards a reader bought of one stock really measure.
// Everything that reads the stock's thickness or width reads these instead.
type Measured struct {
	Lumber      string // its name in the design: leg_stock
	Thick, Wide measure.Length
}

// An OnHand is boards the reader already has, all of one length.
type OnHand struct {
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
	return h.Size == s.Size && h.Wood == s.Wood && h.Treatment == s.Treatment && (h.Grade == "" || s.Grade == "" || h.Grade == s.Grade)
}

// String returns the boards as ParseOnHand reads them.
func (h OnHand) String() string {
	s := lumber.Stock{Size: h.Size, Wood: h.Wood, Grade: h.Grade, Treatment: h.Treatment}
	out := fmt.Sprintf("%d of %s, %s", h.Count, s, h.Length.Exact(measure.Imperial))
	if h.Price != 0 {
		out += ", " + h.Price.String()
	}
	return out
}

// mostOnHand is more boards of one kind than anybody keeps.
const mostOnHand = 1000

// ParseMeasured reads `leg_stock = 1 1/2 x 5 3/8`: the name of a stock and what
// its boards measure, thickness first. A bare number is inches.
func ParseMeasured(text string) (Measured, error) {
	const form = `write the stock, = and both sizes, thickness first: leg_stock=1 1/2 x 5 3/8`
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
	if m.Thick, err = ParseLength(a); err != nil {
		return Measured{}, fmt.Errorf("the thickness in %q: %w", text, err)
	}
	if m.Wide, err = ParseLength(b); err != nil {
		return Measured{}, fmt.Errorf("the width in %q: %w", text, err)
	}
	return m, nil
}

// ParseLength reads a length that is not less than nothing; a bare number is
// inches.
func ParseLength(text string) (measure.Length, error) {
	text = strings.TrimSpace(text)
	q, bad := measure.Parse(text)
	if bad == nil && q.D == measure.DimNone || bad != nil && !strings.HasSuffix(text, measure.InchMark) {
		// 1 1/2 is a length only with its mark.
		if marked, worse := measure.Parse(text + measure.InchMark); worse == nil {
			q, bad = marked, nil
		}
	}
	if bad != nil {
		return 0, fmt.Errorf("%q: %s; %s", text, bad.What, bad.Mend)
	}
	l, ok := q.Length()
	if !ok {
		return 0, fmt.Errorf(`%q is no length; write it in inches or millimetres: 5 3/8", 137 mm`, text)
	}
	if l < 0 {
		return 0, fmt.Errorf("%q is less than nothing", text)
	}
	return l, nil
}

// ParseOnHand reads `2 of 2x6 southern pine, No. 2, ground contact, 50", $4`: how
// many (one unless said), sale size and wood, then in any order grade, treatment,
// the length of each and what one costs (nothing unless said).
func ParseOnHand(text string) (OnHand, error) {
	const form = `write size and wood, treatment, and length: 2 of 2x6 southern pine, ground contact, 50"`
	h := OnHand{Count: 1}
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
			l, err := ParseLength(said)
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
			_, err := ParseLength(said)
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
		size, err := lumber.Lookup(strings.Join(words[:n], " "))
		if err != nil {
			continue
		}
		w, err := wood.Lookup(strings.Join(words[n:], " "))
		if err != nil {
			return err
		}
		h.Size, h.Wood = size.Name, w.Name
		return nil
	}
	if len(words) == 0 {
		return fmt.Errorf("no size is given")
	}
	if _, err := lumber.Lookup(words[0]); err != nil {
		return err
	}
	return fmt.Errorf("%q does not say of what wood", text)
}

// kerf is what the blade takes away.
func (o *Options) kerf() measure.Length {
	if o.Kerf > 0 {
		return o.Kerf
	}
	return usualKerf
}

// squared is what squaring one end of a board takes away.
func (o *Options) squared() measure.Length {
	if o.Squared != nil {
		return *o.Squared
	}
	return usualSquared
}

// check refuses options that make no sense.
func (o *Options) check() error {
	const most = 2 * measure.Inch
	if o.Tape != measure.Sixteenth && o.Tape != measure.ThirtySecond {
		return fmt.Errorf("a plan in inches is written for a tape marked every 1/16 in or every 1/32 in, not every %s; choose one of the two", o.Tape.Step().Exact(measure.Imperial))
	}
	if k := o.kerf(); k > measure.Inch/2 {
		return fmt.Errorf("a kerf of %s is more than any blade takes, which is %s at most; measure a cut in scrap", k.Exact(measure.Imperial), (measure.Inch / 2).Exact(measure.Imperial))
	}
	for _, h := range o.OnHand {
		if h.Length <= 0 || h.Count < 1 || h.Count > mostOnHand || h.Price < 0 {
			return fmt.Errorf("boards on hand are from 1 to %d, of some length and not less than $0.00 each, not %s", mostOnHand, h)
		}
	}
	if s := o.squared(); s < 0 || s > most {
		return fmt.Errorf("squaring an end takes from 0 to %s off a board, not %s", most.Exact(measure.Imperial), s.Exact(measure.Imperial))
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
			asked = append(asked, s.stock.String())
		}
		out = append(out, snag.Snag{Code: "on-hand-unused", Severity: snag.Advice, Tier: snag.Settled,
			What:  "nothing here is cut from your " + h.String(),
			Why:   "boards serve where size, wood and treatment are the same, and the grade where one is asked for; asked for are " + strings.Join(asked, "; "),
			Mends: []snag.Mend{snag.Say("change the lumber in the design to what you have, or keep the board for another piece")}})
	}
	return out
}
