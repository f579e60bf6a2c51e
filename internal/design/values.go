package design

import (
	"strings"

	"scantling/internal/expr"
	"scantling/internal/measure"
	"scantling/internal/phrase"
	"scantling/internal/snag"
	"scantling/internal/span"
)

// size works out a size: the setting, or what the file has, checked against its
// range.
func (w *world) size(i int) expr.Value {
	s := &w.d.sizes[i]
	return get(w, &w.sizes[i], s.name, s.at, func() expr.Value {
		v := w.eval(s.is, w.piece())
		if v.Kind == expr.Unknown {
			return v
		}
		if v.Kind != expr.Number || !v.Q.D.Named() {
			w.error("wrong-kind", s.is.node.Range, "a size is a number, and this is "+v.A(), "", snag.Say("move it to let"))
			return expr.Value{}
		}
		if set, ok := w.set[s.name]; ok {
			q, ok := w.setting(set, v.Q.D)
			if !ok {
				return expr.Value{}
			}
			v.Q = q
		}
		v.Q = v.Q.Rounded()
		w.inRange(s, v.Q)
		return v
	})
}

// setting reads the value of a setting from outside the file.
func (w *world) setting(s Setting, d measure.Dim) (measure.Quantity, bool) {
	q, err := measure.Parse(s.Value)
	if err != nil {
		w.error("bad-setting", w.d.top.names[s.Name].at, s.Name+" was set to “"+s.Value+"”: "+err.What, "", snag.Say(err.Mend))
		return q, false
	}
	if q.D != d {
		if q == measure.Number(0) {
			return measure.Quantity{D: d}, true
		}
		w.error("bad-setting", w.d.top.names[s.Name].at, s.Name+" was set to "+q.D.A()+", and it is "+d.A(), "", snag.Say("give it "+d.A()))
		return q, false
	}
	return q, true
}

// inRange checks a size against from and to, and says both numbers.
func (w *world) inRange(s *sizeDecl, q measure.Quantity) {
	at := s.is.node.Range
	for _, limit := range []struct {
		s    *said
		sign float64
		word string
	}{{s.from, -1, "least"}, {s.to, 1, "most"}} {
		v := w.eval(limit.s, w.piece())
		if v.Kind != expr.Number {
			continue
		}
		if v.Q.D != q.D && v.Q != measure.Number(0) {
			w.error("wrong-dimension", limit.s.node.Range, "the "+limit.word+" of “"+s.name+"” is "+v.Q.D.A()+", and its value "+q.D.A(), "", snag.Say("make both the same kind of measure"))
			continue
		}
		if (q.V-v.Q.V)*limit.sign > 0 {
			says := w.d.print(measure.Quantity{V: v.Q.V, D: q.D})
			w.tell(snag.Snag{Code: "out-of-range", At: at,
				What:    s.name + " is " + w.d.print(q) + ", and the " + limit.word + " it may be is " + says,
				Related: []snag.Related{{At: limit.s.node.Range, Says: "the limit stands here"}},
				Mends:   []snag.Mend{snag.Replace("make it "+says, at, says)}})
		}
	}
}

// print returns a quantity in full, as the file would have it.
func (d *Design) print(q measure.Quantity) string { return q.Exact(d.units) }

// printMM returns a length in mm as a person reads it, to 1/64 in or 0.1 mm.
func (d *Design) printMM(mm float64) string {
	l, ok := measure.FromMM(mm)
	if !ok {
		return "no length"
	}
	g := measure.SixtyFourth
	if d.units == measure.Metric {
		g = measure.WholeMM
	}
	if l != 0 && l.Round(g.Step()) == 0 {
		return l.Exact(d.units)
	}
	return l.Tape(g).String()
}

// choice works out which alternative is taken.
func (w *world) choice(i int) expr.Value {
	c := &w.d.choices[i]
	return get(w, &w.choices[i], c.name, c.at, func() expr.Value {
		if c.isAt == nil {
			return expr.Value{}
		}
		v := expr.Value{Kind: expr.WordKind, Word: c.is, Of: c.of, From: span.Of(c.isAt.Ordinal)}
		if set, ok := w.set[c.name]; ok {
			v.Word = set.Value
			for _, o := range c.of {
				if o == set.Value {
					return v
				}
			}
			w.error("not-offered", c.at, c.name+" was set to “"+set.Value+"”, which it does not offer", "", snag.Say("take one of: "+strings.Join(c.of, ", ")))
			return expr.Value{}
		}
		return v
	})
}

// let works out a named value; lengths and angles are rounded once, here.
func (w *world) let(i int) expr.Value {
	l := &w.d.lets[i]
	return get(w, &w.lets[i], l.name, l.at, func() expr.Value {
		v := w.eval(l.is, w.home(l.is.sc))
		switch {
		case v.Kind == expr.Number && !v.Q.D.Named():
			w.error("wrong-dimension", l.is.node.Range, "“"+l.name+"” comes to "+v.Q.D.A()+", which is no measure anybody knows", "", snag.Say("look for a * or / too many"))
			return expr.Value{}
		case v.Kind == expr.Number:
			v.Q = v.Q.Rounded()
		case v.Kind == expr.Thing:
			w.error("wrong-kind", l.is.node.Range, "a value belongs here, and this is "+v.A(), "", snag.Say("write a measure"))
			return expr.Value{}
		}
		if p, ok := v.Place.(*place); ok && p.says == "" {
			named := *p
			named.says = phrase.Spaced(l.name)
			v.Place = &named
		}
		return v
	})
}
