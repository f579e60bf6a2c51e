package plan

import (
	"fmt"
	"strings"

	"scantling/internal/board"
	"scantling/internal/design"
	"scantling/internal/joint"
	"scantling/internal/measure"
	"scantling/internal/part"
	"scantling/internal/phrase"
	"scantling/internal/shop"
	"scantling/internal/span"
)

// measured says what the measured boards change, against the plan of boards as
// they are sold: the boards themselves first, then every part, row and joint that
// reads another figure, and why. It notes the same with each part.
func (p *Plan) measured(edition *design.Design, set design.Settings) []shop.Text {
	was, _ := edition.Evaluate(set)
	meetings := joint.Meet(was)
	joints, _ := joint.Find(was, meetings)
	before, _ := shop.Compute(was, meetings, joints, part.Sort(was), p.Readings.Pen)
	c := comparison{before, p.Readings, causes(was, p.Piece, p.Readings.Pen)}
	var out []shop.Text
	for _, x := range c.causes {
		out = append(out, x.says)
	}
	out = append(out, c.overall()...)
	out = append(out, c.parts()...)
	out = append(out, c.rows(was, p.Piece)...)
	return append(out, c.joints()...)
}

// A cause is a stock whose boards measure otherwise than it is sold.
type cause struct {
	from span.Set
	says shop.Text // "The boards of leg stock, 2x6, are 5 3/8" wide, not 5 1/2"."
	why  shop.Text // "your 2x6 is 5 3/8" wide"
}

func causes(was, is *design.Piece, pen shop.Pen) []cause {
	var out []cause
	for i, l := range is.Lumber {
		old := was.Lumber[i]
		if l.Stock == nil || old.Stock == nil || l.Stock.T == old.Stock.T && l.Stock.W == old.Stock.W {
			continue
		}
		c := cause{from: l.From, says: shop.Words("Your boards of " + phrase.Spaced(l.Name) + ", " + string(l.Stock.Size) + ", are "),
			why: shop.Words("your " + string(l.Stock.Size) + " is ")}
		first := true
		for _, m := range []struct {
			now, then measure.Length
			word      string
		}{{l.Stock.T, old.Stock.T, "thick"}, {l.Stock.W, old.Stock.W, "wide"}} {
			if m.now == m.then {
				continue
			}
			if !first {
				c.says, c.why = c.says.Say(" and "), c.why.Say(" and ")
			}
			first = false
			now, then := pen.Fine(m.now, l.From), pen.Fine(m.then, l.From)
			c.says = c.says.Show(now).Say(" " + m.word + ", not ").Show(then)
			c.why = c.why.Show(now).Say(" " + m.word)
		}
		c.says = c.says.Say(".")
		out = append(out, c)
	}
	return out
}

// A comparison is two readings of one piece.
type comparison struct {
	was, is *shop.Readings
	causes  []cause
}

// because ends a sentence with the stocks a figure follows from.
func (c *comparison) because(t shop.Text, from span.Set) shop.Text {
	join := ", because "
	for _, x := range c.causes {
		if meets(x.from, from) {
			t = t.Say(join).Add(x.why)
			join = " and "
		}
	}
	return t.Say(".")
}

func meets(a, b span.Set) bool {
	for _, n := range a.Ordinals() {
		if b.Has(n) {
			return true
		}
	}
	return false
}

func (c *comparison) overall() []shop.Text {
	var out []shop.Text
	for i, word := range [3]string{"width", "depth", "height"} {
		was, is := c.was.Overall[i], c.is.Overall[i]
		if was.Text != is.Text {
			out = append(out, c.because(shop.Words("The "+word+" over everything, ").Show(was).Say(", becomes ").Show(is), is.From))
		}
	}
	return out
}

// parts compares every part with the part its first board was cut as before.
func (c *comparison) parts() []shop.Text {
	of := map[board.ID]*shop.Part{}
	for _, q := range c.was.Parts {
		for _, id := range q.Boards {
			of[id] = q
		}
	}
	var out []shop.Text
	for _, p := range c.is.Parts {
		if t := c.part(of[p.Master], p); t != nil {
			p.Changed = t
			name := shop.Words("Part " + p.Letter + ", " + p.Name + ": ")
			out = append(out, name.Add(t))
		}
	}
	return out
}

// part says what differs between a part and what it was, nil if nothing does.
func (c *comparison) part(was, is *shop.Part) shop.Text {
	if was == nil {
		return c.because(shop.Words("it is needed now"), is.Long.From)
	}
	var t shop.Text
	var from span.Set
	differ := func(word string, a, b *shop.Shown) {
		if a == nil || b == nil || a.Text == b.Text {
			return
		}
		if t != nil {
			t = t.Say("; ")
		}
		t = t.Say(word).Show(*a).Say(" becomes ").Show(*b)
		from = from.Union(a.From, b.From)
	}
	differ("", &was.Thick, &is.Thick)
	if t != nil {
		t = t.Say(" thick")
	}
	differ("its width, ", &was.Wide, &is.Wide)
	differ("its length, ", &was.Long, &is.Long)
	differ("along the short edge, ", was.Short, is.Short)
	if was.Count != is.Count {
		if t != nil {
			t = t.Say("; ")
		}
		t = t.Say(fmt.Sprintf("there are %d of it, not %d", is.Count, was.Count))
		from = from.Union(is.Long.From, is.Wide.From)
	}
	if cuts(was) != cuts(is) {
		if t != nil {
			t = t.Say("; ")
		}
		t = t.Say("the marks of its cuts move")
		for _, x := range is.Cuts {
			for _, m := range x.Marks {
				from = from.Union(m.At.From)
			}
		}
		from = from.Union(is.Long.From, is.Wide.From)
	}
	if t == nil {
		return nil
	}
	return c.because(t, from)
}

// cuts is all that is said of how a part is cut.
func cuts(p *shop.Part) string {
	var b strings.Builder
	for _, e := range p.Ends {
		if e != nil {
			b.WriteString(e.Words.String() + "\n")
		}
	}
	for _, x := range p.Cuts {
		b.WriteString(x.Words.String() + "\n")
		for _, m := range x.Marks {
			b.WriteString(m.Label + m.At.Text + "\n")
		}
	}
	return b.String()
}

func (c *comparison) rows(was, is *design.Piece) []shop.Text {
	pen := c.is.Pen
	old := map[string]design.Row{}
	for _, r := range was.Rows {
		old[r.Name] = r
	}
	var out []shop.Text
	for _, r := range is.Rows {
		o, ok := old[r.Name]
		if !ok {
			continue
		}
		t := shop.Words("Row of " + phrase.Spaced(r.Name) + ": ")
		said := false
		for _, f := range []struct {
			words    string
			old, now design.Figure
		}{{"", o.Count, r.Count}, {"the gap, ", o.Gap, r.Gap}} {
			a, b := pen.Quantity(f.old.Q, f.old.From), pen.Quantity(f.now.Q, f.now.From)
			if a.Text == b.Text {
				continue
			}
			if said {
				t = t.Say("; ")
			}
			said = true
			becomes := ", becomes "
			if f.words == "" {
				becomes = " boards become "
			}
			t = t.Say(f.words).Show(a).Say(becomes).Show(b)
		}
		if said {
			out = append(out, c.because(t, r.Gap.From.Union(r.Count.From)))
		}
	}
	return out
}

// joints compares what each joint is made with.
func (c *comparison) joints() []shop.Text {
	old := map[string]string{}
	for _, j := range c.was.Joints {
		old[j.Name] = strings.Join(j.With, ", ")
	}
	var out []shop.Text
	for _, j := range c.is.Joints {
		if was, now := old[j.Name], strings.Join(j.With, ", "); was != now && was != "" {
			from := j.From
			for _, p := range j.Pairs {
				from = from.Union(p.Area.From)
			}
			out = append(out, c.because(shop.Words("Joint "+phrase.Spaced(j.Name)+": "+was+" becomes "+now), from))
		}
	}
	return out
}
