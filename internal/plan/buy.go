package plan

import (
	"context"
	"errors"
	"slices"
	"sort"

	"scantling/internal/board"
	"scantling/internal/claim"
	"scantling/internal/cutcheck"
	"scantling/internal/cutplan"
	"scantling/internal/design"
	"scantling/internal/joint"
	"scantling/internal/lumber"
	"scantling/internal/measure"
	"scantling/internal/prices"
	"scantling/internal/screw"
	"scantling/internal/shop"
	"scantling/internal/snag"
	"scantling/internal/span"
)

// buy fills what is bought and how it is sawn into the readings.
func (p *Plan) buy(ctx context.Context, joints []joint.Joint, list *prices.Book, o *Options) (snag.List, error) {
	r := p.Readings
	pen := r.Pen
	job, stocks, unpriced := p.job(list, o)
	snags := append(unpriced, unused(o.OnHand, stocks)...)
	r.Saw = shop.Saw{Kerf: pen.Fine(o.Kerf, span.Set{}), Squared: pen.Fine(*o.Squared, span.Set{})}
	r.Buy.PriceNote = list.Note()

	plan, err := cutplan.Solve(ctx, job, cutplan.Options{Nodes: o.Nodes, FewestCuts: o.FewestCuts})
	var misfit *cutplan.PartError
	switch {
	case errors.As(err, &misfit):
		snags = append(snags, p.misfit(misfit))
	case err != nil:
		return nil, err
	default:
		report := cutcheck.Check(claim.Of(job, plan))
		r.Saw.CostCents, r.Saw.Bound = int64(plan.Cost), int64(plan.Bound)
		r.Saw.Checked = report.OK()
		r.Saw.Optimal = plan.Optimal && report.OK() && report.BoundVerified
		r.Saw.Boards = p.sawn(plan, &job, stocks, r.Parts)
		var from span.Set
		for i := range stocks {
			from = from.Union(stocks[i].from)
		}
		r.Saw.Verdict = verdict(plan, report, len(unpriced) > 0, o.FewestCuts, pen, from)
		r.Buy.Proof = r.Saw.Verdict
		for _, f := range report.Faults {
			snags = append(snags, snag.Snag{Code: "layout-refused", Severity: snag.Error, Tier: snag.Settled,
				What:  "the layout of cuts did not pass its check: " + f,
				Why:   "a plan whose boards do not yield the parts must not be bought from",
				Mends: []snag.Mend{snag.Say("report this: it is a mistake of the program, not of the design")}})
		}
		r.Buy.Boards, r.Buy.OnHand = p.boardLines(plan, &job, stocks)
		r.Buy.Alternatives = p.alternatives(ctx, job, stocks, plan, o)
	}
	r.KeepOffcuts()
	hardware, more := p.hardware(joints, list)
	r.Buy.Hardware = hardware
	r.Buy.Metal = joint.Metal(p.Piece, joints)
	r.Buy.Goods, more = p.goods(list, more)
	snags = append(snags, more...)

	var cost measure.Money
	var from span.Set
	for _, lines := range [][]shop.BuyLine{r.Buy.Boards, r.Buy.Hardware, r.Buy.Goods} {
		for _, l := range lines {
			from = from.Union(l.From)
			if l.Total != nil {
				m, _ := l.Total.Exact.Money()
				cost += m
			}
		}
	}
	r.Buy.Cost = pen.Money(cost, from)
	return snags, nil
}

// job says what is to be sawn and what it can be sawn from, stock by stock in
// the order the parts ask for them. A stock the price book does not hold is
// bought by length alone, and said so.
func (p *Plan) job(list *prices.Book, o *Options) (cutplan.Job, []stockUse, snag.List) {
	job := cutplan.Job{Units: o.Tape.Units(), Kerf: o.Kerf, Trim: *o.Squared, Reserve: o.Reserve}
	var stocks []stockUse
	var snags snag.List
	at := map[lumber.Stock]int{}
	number := func(k lumber.Stock, b *design.Board) int {
		if i, ok := at[k]; ok {
			return i
		}
		at[k] = len(stocks)
		use := stockUse{stock: k, priced: true}
		offers := list.Boards(k)
		if len(offers) == 0 {
			use.priced = false
			offers = p.unpriced(k)
			snags = append(snags, p.noPrice(b))
		}
		s := cutplan.Stock{Name: shop.Sold(k), Width: boardWidth(&k)}
		for _, of := range offers {
			if o.Car == 0 || of.Length <= o.Car {
				s.Offers = append(s.Offers, cutplan.Offer{Length: of.Length, Price: of.Price})
			}
		}
		if len(s.Offers) == 0 && len(offers) > 0 {
			snags = append(snags, p.tooLongForCar(b, o))
		}
		use.sold = len(s.Offers)
		for _, h := range o.OnHand {
			if h.is(use.stock) {
				s.Offers = append(s.Offers, cutplan.Offer{Length: h.Length, Price: h.Price, Limit: h.Count})
			}
		}
		job.Stocks = append(job.Stocks, s)
		stocks = append(stocks, use)
		return at[k]
	}
	for _, pt := range p.Readings.Parts {
		b := p.Piece.Board(pt.Master)
		if b == nil || b.Stock == nil {
			continue
		}
		i := number(*b.Stock, b)
		var or []int
		for _, l := range p.Piece.Lumber { // other stocks the file lets it be cut from, if the yard has them
			if slices.Contains(b.Or, l.Name) && *l.Stock != *b.Stock && len(list.Boards(*l.Stock)) > 0 && stocks[i].priced {
				or = append(or, number(*l.Stock, b))
				stocks[i].from = stocks[i].from.Union(l.From)
			}
		}
		stocks[i].parts = append(stocks[i].parts, pt.Letter)
		stocks[i].from = stocks[i].from.Union(pt.Long.From, pt.Wide.From, p.countFrom(b.Name))
		job.Parts = append(job.Parts, cutplan.Part{Name: pt.Letter, Stock: i, Or: or, Count: pt.Count,
			Width: widthOf(pt, b), Length: pt.Long.Printed(),
			Start: slant(pt, b.Board, board.Start), End: slant(pt, b.Board, board.Finish), Together: pt.Hand != ""})
	}
	either(&job, stocks)
	return job, stocks, snags
}

// widthOf returns how wide a part is sawn: as printed when it is ripped, else as
// wide as the board it comes from.
func widthOf(pt *shop.Part, b *design.Board) measure.Length {
	if pt.Rip {
		return min(pt.Wide.Printed(), boardWidth(b.Stock))
	}
	return boardWidth(b.Stock)
}

// boardWidth is a stock's width in whole 1/64 in or half millimetres, which cuts
// are laid out in: a measured board may be any width.
func boardWidth(s *lumber.Stock) measure.Length {
	if s.Region.Metric() {
		return s.W.Floor(measure.Millimetre / 2)
	}
	return s.W.Floor(measure.Inch / 64)
}

// A stockUse is one stock of the job.
type stockUse struct {
	stock  lumber.Stock
	parts  []string // letters
	from   span.Set // what its parts and their numbers follow from, and so every cut of its boards
	priced bool
	sold   int // offers of the yard; those after them the reader has
}

// countFrom returns the scalars that say how many boards of a row there are.
func (p *Plan) countFrom(name string) span.Set {
	var from span.Set
	for _, r := range p.Piece.Rows {
		if r.Name == name {
			from = from.Union(r.Count.From)
		}
	}
	return from
}

// unpriced offers the lengths usually stocked, each at a cent an inch, so that
// the least wood is bought; no such price is ever shown.
func (p *Plan) unpriced(s lumber.Stock) []prices.Offer {
	size, err := lumber.LookupIn(s.Region, string(s.Size))
	if err != nil {
		return nil
	}
	var out []prices.Offer
	for _, l := range size.Lengths {
		out = append(out, prices.Offer{Length: l, Price: measure.Money(l / measure.Inch)})
	}
	return out
}

func (p *Plan) noPrice(b *design.Board) snag.Snag {
	return snag.Snag{Code: "no-price", Severity: snag.Caution, Tier: snag.Settled, At: p.lumberAt(b.Lumber),
		What:  "the price book has no " + shop.Sold(*b.Stock),
		Why:   "the least wood is bought instead of the cheapest, and its cost is not in the total",
		Mends: []snag.Mend{snag.Say("add its lengths and prices to the price book, or choose a stock that is in it")}}
}

// tooLongForCar says that a stock is sold in no length that can be brought home.
func (p *Plan) tooLongForCar(b *design.Board, o *Options) snag.Snag {
	return snag.Snag{Code: "no-short-boards", Severity: snag.Caution, Tier: snag.Settled, At: p.lumberAt(b.Lumber),
		What:  b.Stock.String() + " is sold in no length of " + p.Readings.Pen.Stock(o.Car, span.Set{}).Text + " or less",
		Why:   "no longer board was to be bought, for the car's sake",
		Mends: []snag.Mend{snag.Say("have the yard crosscut it (“or buy otherwise” says what that costs without --car), or have it delivered")}}
}

func (p *Plan) lumberAt(name string) span.Range {
	for _, l := range p.Piece.Lumber {
		if l.Name == name {
			return l.At
		}
	}
	return span.Range{}
}

// misfit tells of a part that no board on sale yields.
func (p *Plan) misfit(e *cutplan.PartError) snag.Snag {
	s := snag.Snag{Code: "part-too-large", Severity: snag.Error, Tier: snag.Settled, What: e.What,
		Mends: []snag.Mend{snag.Say(e.Mend)}}
	if e.Part < len(p.Readings.Parts) {
		pt := p.Readings.Parts[e.Part]
		s.At = p.lumberAt(pt.Lumber)
		for _, id := range pt.Boards {
			s.Boards = append(s.Boards, string(id))
		}
	}
	return s
}

// verdict says how good the choice of boards is, and no more than was proved.
func verdict(plan *cutplan.Plan, report *cutcheck.Report, unpriced, fewest bool, pen shop.Pen, from span.Set) shop.Text {
	switch {
	case !report.OK():
		return shop.Words("The layout did not pass its check: do not buy by it.")
	case unpriced:
		return shop.Words("Checked board by board. Some boards have no price, so the least wood is bought, not the least cost.")
	case fewest:
		return shop.Words("The fewest boards found, and of those the cheapest, as you asked: fewer cuts, not the least cost. Checked board by board.")
	case plan.Optimal && report.BoundVerified:
		return shop.Words("The cheapest boards that will do, proved: at these prices no other choice costs less. Checked board by board.")
	case plan.Optimal:
		return shop.Words("No cheaper choice of boards was left after a full search. Checked board by board.")
	}
	return shop.Words("The cheapest of the layouts considered, at most ").Show(pen.Money(plan.Cost-plan.Bound, from)).
		Say(" above the best possible. Checked board by board.")
}

// boardLines are the boards to buy, and those the reader has and needs, one line
// for each stock and length.
func (p *Plan) boardLines(plan *cutplan.Plan, job *cutplan.Job, stocks []stockUse) (out, own []shop.BuyLine) {
	pen := p.Readings.Pen
	parts := letters(plan, job)
	for i := range plan.Boards {
		b := &plan.Boards[i]
		use := stocks[b.Stock]
		if i > 0 && plan.Boards[i-1].Stock == b.Stock && plan.Boards[i-1].Offer == b.Offer {
			if b.Offer >= use.sold {
				own[len(own)-1].Count++
			} else {
				out[len(out)-1].Count++
			}
			continue
		}
		length := pen.Stock(b.Length, use.from)
		line := shop.BuyLine{What: job.Stocks[b.Stock].Name, Length: &length, Count: 1, From: use.from, Use: join(parts[b.Stock])}
		if b.Offer >= use.sold {
			own = append(own, line)
			continue
		}
		if use.priced {
			each := pen.Money(b.Price, use.from)
			line.Each = &each
		}
		out = append(out, line)
	}
	for i := range out {
		if out[i].Each != nil {
			m, _ := out[i].Each.Exact.Money()
			total := pen.Money(m*measure.Money(out[i].Count), out[i].From)
			out[i].Total = &total
		}
	}
	return out, own
}

// hardware counts fasteners over all joints and rounds them up to the packs the
// price book sells.
func (p *Plan) hardware(joints []joint.Joint, list *prices.Book) ([]shop.BuyLine, snag.List) {
	where := map[string][]string{}
	from := map[string]span.Set{}
	for _, j := range joints {
		one := joint.Tally([]joint.Joint{j})
		all := j.Scalars
		for _, pair := range j.Pairs {
			all = all.Union(p.countFrom(pair.A.Name), p.countFrom(pair.B.Name)) // as many as there are boards
			for _, u := range pair.Uses {
				if u.Fit != nil { // a bolt and its washers go by the wood between them
					all = all.Union(pair.A.Section, pair.B.Section)
				}
			}
		}
		for _, l := range one.Lines() {
			if name := p.readable(j.Name); !slices.Contains(where[l.What], name) { // once for all copies of a group
				where[l.What] = append(where[l.What], name)
			}
			from[l.What] = from[l.What].Union(all)
		}
	}
	tally := joint.Tally(joints)
	for _, h := range p.Piece.Hardware {
		n, _ := h.Count.Q.Count()
		for _, w := range h.With {
			if f, err := screw.Parse(w.Phrase); err == nil && h.Each*n > 0 {
				tally.Add(f, h.Each*n)
				where[f.Name()] = append(where[f.Name()], p.readable(h.Name))
				from[f.Name()] = from[f.Name()].Union(w.From, h.Count.From)
			}
		}
	}
	var out []shop.BuyLine
	var snags snag.List
	for _, l := range tally.Lines() {
		line := shop.BuyLine{What: l.What, Count: l.Count, Use: join(where[l.What]), From: from[l.What]}
		if f, err := screw.Parse(l.What); err == nil {
			line.Spare = f.Spare(l.Count)
		}
		p.pack(&line, list, &snags)
		out = append(out, line)
	}
	var fixed []shop.BuyLine
	for _, h := range p.Piece.Hardware {
		n, _ := h.Count.Q.Count()
		same := slices.IndexFunc(fixed, func(l shop.BuyLine) bool { return l.What == h.What })
		if same < 0 {
			same = len(fixed)
			fixed = append(fixed, shop.BuyLine{What: h.What})
		}
		fixed[same].Count += n
		fixed[same].From = fixed[same].From.Union(h.From, h.Count.From)
	}
	for _, line := range fixed {
		p.pack(&line, list, &snags)
		out = append(out, line)
	}
	return out, snags
}

// goods are things sold by area, length or count.
func (p *Plan) goods(list *prices.Book, snags snag.List) ([]shop.BuyLine, snag.List) {
	var out []shop.BuyLine
	for _, g := range p.Piece.Goods {
		n, ok := g.Amount.Q.Count()
		line := shop.BuyLine{What: g.What, Count: n, From: g.From}
		if !ok {
			line.Count = 1
			line.Use = p.Readings.Pen.Quantity(g.Amount.Q, g.From).Text
		}
		p.pack(&line, list, &snags)
		out = append(out, line)
	}
	return out, snags
}

// pack rounds a line up to whole packs and prices it. What the price book lacks
// stays without a price and is said.
func (p *Plan) pack(line *shop.BuyLine, list *prices.Book, snags *snag.List) {
	pen := p.Readings.Pen
	packs, ok := list.Packs(line.What, line.Count+line.Spare)
	if !ok {
		*snags = append(*snags, snag.Snag{Code: "no-price", Severity: snag.Advice, Tier: snag.Settled,
			What:  "the price book has no " + line.What,
			Why:   "its cost is not in the total",
			Mends: []snag.Mend{snag.Say("add it to the price book")}})
		return
	}
	line.Packs = packs.String()
	each, total := pen.Money(packs.Each, line.From), pen.Money(packs.Cost(), line.From)
	line.Each, line.Total = &each, &total
}

// readable is the name of a joint as a reader sees it.
func (p *Plan) readable(name string) string {
	out := []byte(name)
	for i, c := range out {
		if c == '_' {
			out[i] = ' '
		}
	}
	return string(out)
}

// join lists words once each, sorted, as a sentence does.
func join(words []string) string {
	sort.Strings(words)
	out := ""
	for i, w := range words {
		if i > 0 && w == words[i-1] {
			continue
		}
		if out != "" {
			out += ", "
		}
		out += w
	}
	return out
}
