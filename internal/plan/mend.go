package plan

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"scantling/internal/claim"
	"scantling/internal/cutcheck"
	"scantling/internal/cutplan"
	"scantling/internal/measure"
	"scantling/internal/shop"
	"scantling/internal/span"
)

// Mend says what to do about a piece of a part, by its letter, that came out too
// short: which other parts it still yields, what one more piece costs, and which
// size of the design would make the part that short. The error says what was
// not understood.
func (s *Session) Mend(ctx context.Context, o Options, letter string, length measure.Length) (string, error) {
	if err := o.settle(s.home); err != nil {
		return "", err
	}
	o.Want = Settled
	p, err := s.Run(ctx, o)
	if err != nil {
		return "", err
	}
	if p.Readings == nil {
		return "", fmt.Errorf("%s has errors that keep it from being computed; see scantling check %s", s.file, s.file)
	}
	list, _ := p.priceBook(o)
	job, stocks, _ := p.job(list, &o)
	at := slices.IndexFunc(job.Parts, func(part cutplan.Part) bool { return strings.EqualFold(part.Name, letter) })
	if at < 0 {
		var names []string
		for _, part := range job.Parts {
			names = append(names, part.Name)
		}
		return "", fmt.Errorf("%s has no part %s; its parts are %s", s.file, letter, strings.Join(names, ", "))
	}
	part, said := job.Parts[at], p.Readings.Pen.Said
	if length >= part.Length {
		return "", fmt.Errorf("a piece of %s is no shorter than part %s, which is %s long: cut it again to that", said(length), part.Name, said(part.Length))
	}
	plan, err := cutplan.Solve(ctx, job, cutplan.Options{Nodes: o.Nodes})
	if err != nil {
		return "", err
	}
	m := &mending{p: p, job: job, stocks: stocks, plan: plan, at: at, length: length}
	var b strings.Builder
	fmt.Fprintf(&b, "Part %s is to be %s long; this piece is %s, %s short.\n", part.Name, said(part.Length), said(length), said(part.Length-length))
	m.yields(&b)
	if err := m.again(ctx, &b); err != nil {
		return "", err
	}
	if err := s.absorb(ctx, o, p, part.Name, length, &b); err != nil {
		return "", err
	}
	return b.String(), nil
}

type mending struct {
	p      *Plan
	job    cutplan.Job
	stocks []stockUse
	plan   *cutplan.Plan
	at     int
	length measure.Length
}

// yields tells which other parts can be cut from the short piece. Its own ends
// may slope, so that only what lies between them counts.
func (m *mending) yields(b *strings.Builder) {
	short, said := m.job.Parts[m.at], m.p.Readings.Pen.Said
	square := m.length - max(short.Start, -short.Start) - max(short.End, -short.End)
	found := false
	for i, other := range m.job.Parts {
		if i == m.at || other.Width > short.Width || m.stocks[other.Stock].stock.T != m.stocks[short.Stock].stock.T ||
			m.stocks[other.Stock].stock.Wood != m.stocks[short.Stock].stock.Wood || m.stocks[other.Stock].stock.Treatment != m.stocks[short.Stock].stock.Treatment {
			continue
		}
		n := cutplan.Count(square, other.Length, m.job.Kerf, 0)
		if n == 0 {
			continue
		}
		found = true
		rip := ""
		if other.Width < short.Width {
			rip = ", ripped to " + said(other.Width)
		}
		fmt.Fprintf(b, "It still yields %d of part %s, %s long%s.\n", min(n, other.Count), other.Name, said(other.Length), rip)
	}
	if !found {
		b.WriteString("No other part comes from it.\n")
	}
}

// again tells what one more piece costs when every board of the plan is sawn.
func (m *mending) again(ctx context.Context, b *strings.Builder) error {
	sawn := make([]int, len(m.plan.Boards))
	for i := range sawn {
		sawn[i] = i
	}
	lost := make([]int, len(m.job.Parts))
	lost[m.at] = 1
	job := cutplan.Resume(m.job, m.plan, sawn, lost)
	plan, err := cutplan.Solve(ctx, job, cutplan.Options{})
	if err != nil {
		return err
	}
	if report := cutcheck.Check(claim.Of(job, plan)); !report.OK() {
		return fmt.Errorf("the layout for one more piece did not pass its check: %s", report.Faults[0])
	}
	name, pen := m.job.Parts[m.at].Name, m.p.Readings.Pen
	for _, board := range plan.Boards {
		stock := job.Stocks[board.Stock].Name
		switch {
		case board.Price == 0:
			fmt.Fprintf(b, "One more %s comes from what is left of the boards: %s of %s.\n", name, pen.Said(board.Length), stock)
		case m.stocks[min(board.Stock, len(m.stocks)-1)].priced:
			fmt.Fprintf(b, "No leftover is long enough for one more %s: a further board, %s, %s long, costs %s.\n", name, stock, pen.Stock(board.Length, span.Set{}).Text, pen.Money(board.Price, span.Set{}).Text)
		default:
			fmt.Fprintf(b, "No leftover is long enough for one more %s: buy a further board, %s, %s long.\n", name, stock, pen.Stock(board.Length, span.Set{}).Text)
		}
	}
	return nil
}

// absorb tells which sizes of the design make the part as short as the piece:
// each is tried where a straight line through two lengths says, and then for
// certain.
func (s *Session) absorb(ctx context.Context, o Options, p *Plan, letter string, length measure.Length, b *strings.Builder) error {
	o.Nodes = 1 // only lengths matter here
	pen := p.Readings.Pen
	part := p.Readings.Parts[slices.IndexFunc(p.Readings.Parts, func(q *shop.Part) bool { return q.Letter == letter })]
	long := func(name string, value measure.Length) (measure.Length, error) {
		with := o
		with.Set = append(slices.Clone(o.Set), Setting{name, value.Exact(pen.Tape.Units())})
		other, err := s.Run(ctx, with)
		if err != nil || other.Readings == nil || other.Snags.Errors() > p.Snags.Errors() {
			return 0, err
		}
		for _, q := range other.Readings.Parts {
			if q.Name == part.Name && q.Hand == part.Hand && q.Lumber == part.Lumber {
				return q.Long.Printed(), nil
			}
		}
		return 0, nil
	}
	now := part.Long.Printed()
	found := false
	for _, size := range p.Readings.Sizes {
		value, ok := lengthOf(size.Value)
		if !ok {
			continue
		}
		least, _ := lengthOf(size.Least)
		most, bounded := lengthOf(size.Most)
		step := now - length
		tried, err := long(size.Name, value-step)
		if err != nil {
			return err
		}
		if tried == 0 || tried == now {
			if tried, err = long(size.Name, value+step); err != nil {
				return err
			}
			step = -step
		}
		if tried == 0 || tried == now {
			continue
		}
		want := value - measure.Length(float64(step)*float64(now-length)/float64(now-tried))
		want = want.Round(min(pen.Tape.Step(), measure.Inch/32))
		if want < least || bounded && want > most || want <= 0 {
			continue
		}
		got, err := long(size.Name, want)
		if err != nil {
			return err
		}
		if got > 0 && got <= length && got > length-measure.Inch/16 {
			found = true
			fmt.Fprintf(b, "With %s %s instead of %s, part %s is %s long: cut all its %d pieces so, and print the plan again (--set %s=%s).\n", size.Name, pen.Said(want), size.Value.Text,
				part.Letter, pen.Said(got), part.Count, size.Name, want.Exact(pen.Tape.Units()))
		}
	}
	if !found {
		fmt.Fprintf(b, "No single size of the design makes part %s just that short.\n", part.Letter)
	}
	return nil
}

// lengthOf returns a printed size that is a length.
func lengthOf(s shop.Shown) (measure.Length, bool) { return s.Exact.Length() }
