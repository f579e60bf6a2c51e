package design

import (
	"scantling/internal/board"
	"scantling/internal/geom"
	"scantling/internal/phrase"
	"scantling/internal/setout"
	"scantling/internal/snag"
	"scantling/internal/span"
)

// notch works out one notch round, where the member lies.
func (m *member) notch(b *board.Board, c *cutDecl) (setout.Notched, bool) {
	l := m.lot
	n := setout.Notching{Name: c.name, Follow: c.notch.lean, Hole: c.notch.hole,
		Ties: setout.TieOrder(l.frameOf().Words, m.copy.Mirrors())}
	for i := range c.notch.round {
		n.From = n.From.Union(span.Of(c.notch.round[i].node.Ordinal))
	}
	if c.notch.clearance != nil {
		f := l.w.length(c.notch.clearance, "a clearance")
		if !f.ok {
			return setout.Notched{}, false
		}
		n.Clearance, n.From = f.mm(), n.From.Union(f.from)
	}
	if c.notch.open != "" {
		for side, w := range l.frameOf().Words {
			if w.Side() == c.notch.open {
				s := board.Side(side)
				if m.copy.Mirrors() && s.IsEdge() {
					s = s.Opposite()
				}
				n.Open = &s
			}
		}
	}
	all := m.obstaclesOf(c)
	if !all.ok {
		return setout.Notched{}, false
	}
	var round []geom.Placed
	var who []*member
	mine := b.PlacedWood().Around()
	for _, o := range all.of {
		if mine.Meets(o.box, n.Clearance) {
			round = append(round, o.wood)
			n.Meets = append(n.Meets, phrase.Spaced(o.lot.d.name))
			who = append(who, o.member)
		}
	}
	if len(round) == 0 {
		return setout.Notched{}, true
	}
	out := setout.NotchRound(b, round, n)
	for _, f := range out.Faults {
		l.w.fault(c.at, f, "the notch "+phrase.Spaced(c.name)+" of "+phrase.Spaced(l.d.name))
	}
	for i := range out.Cuts {
		k := out.Which[i]
		out.Cuts[i].From = n.From.Union(who[k].fromWood(), m.fromWood())
	}
	return out, true
}

// obstacles are the boards one notch goes round, in place.
type obstacles struct {
	of []obstacle
	ok bool
}

type obstacle struct {
	*member
	wood geom.Placed
	box  geom.Box
}

// A roundAt is one notch in one copy of the boards' group.
type roundAt struct {
	cut *cutDecl
	at  *copying
}

// obstaclesOf lists what a cut is notched round; every board of the lot asks.
func (m *member) obstaclesOf(c *cutDecl) obstacles {
	l, key := m.lot, roundAt{c, m.at}
	if l.round == nil {
		l.round = map[roundAt]obstacles{}
	}
	if known, ok := l.round[key]; ok {
		return known
	}
	out := obstacles{ok: !l.mutual(c)}
	others, ok := l.w.listedAt(c.notch.round, m.seat())
	out.ok = out.ok && ok
	for _, o := range others {
		if o.lot == l {
			continue
		}
		b := o.rough()
		if b == nil {
			out.ok = false
			break
		}
		wood := b.PlacedWood()
		out.of = append(out.of, obstacle{o, wood, wood.Around()})
	}
	l.round[key] = out
	return out
}

// mutual refuses two parts that are each notched round the other.
func (l *lot) mutual(c *cutDecl) bool {
	for _, r := range c.notch.round {
		other, ok := l.w.lotOf(&r)
		if !ok {
			continue
		}
		for _, oc := range other.d.cuts {
			if oc.notch == nil {
				continue
			}
			for _, back := range oc.notch.round {
				if len(back.Path) == 1 && back.Path[0].Text == l.d.name && back.sc == l.d.sc {
					if l.n < other.n {
						return true // told of the later one
					}
					l.w.tell(snag.Snag{Code: "notch-mutual", At: c.at, What: phrase.Spaced(l.d.name) + " and " + phrase.Spaced(other.d.name) + " are each notched round the other",
						Related: []snag.Related{{At: oc.at, Says: "the other notch"}}, Mends: []snag.Mend{snag.Say("let one of them give way, and leave the other whole")}})
					return true
				}
			}
		}
	}
	return false
}
