package design

import (
	"math"

	"scantling/internal/expr"
	"scantling/internal/measure"
	"scantling/internal/setout"
	"scantling/internal/snag"
	"scantling/internal/source"
	"scantling/internal/span"
)

// A room is where something is said: its axes and origin, the scalars they follow
// from, and those its axes alone follow from: a tilted room that is moved tilts
// nothing said in it.
type room struct {
	setout.Room
	from, turn span.Set
	ok         bool
}

func (w *world) piece() room { return room{Room: setout.Piece(), ok: true} }

// eval works a measure out in a room. What it was computed from includes the
// scalar it stands in.
func (w *world) eval(s *said, in room) expr.Value {
	if s == nil {
		return expr.Value{}
	}
	v := expr.Eval(s.x, s.env(w, in))
	if v.Kind != expr.Unknown {
		v.From = v.From.Union(span.Of(s.node.Ordinal))
	}
	return v
}

// env is what the measure is read in, in a room.
func (s *said) env(w *world, in room) *env { return &env{w, s.sc, s.node, in} }

// env is what a name is read in, in the room of those who say it.
func (r *ref) env(w *world) *env { return &env{w, r.sc, r.node, w.home(r.sc)} }

// boards returns the copies of a lot a name outside measures means.
func (r *ref) boards(w *world, l *lot) []*member {
	e := r.env(w)
	if l.g == nil || len(r.Path) == 1 {
		return e.among(r.Ref, l, nil)
	}
	_, of := e.groupOf(r.Ref)
	return e.among(&expr.Ref{At: r.At, Select: r.Inner, Path: r.Path[1:]}, l, among(l, of))
}

// A figure is a number worked out, with what it was computed from.
type figure struct {
	v    float64 // nm, 1e-9 degree, or plain
	from span.Set
	ok   bool
}

func (f figure) mm() float64 { return f.v / float64(measure.Millimetre) }

// number works out a measure that must have a dimension; a bare 0 has any.
func (w *world) number(s *said, d measure.Dim, what string) figure {
	if s == nil {
		return figure{}
	}
	return w.numberOf(w.eval(s, w.home(s.sc)), s, d, what)
}

func (w *world) numberOf(v expr.Value, s *said, d measure.Dim, what string) figure {
	if v.Kind == expr.Unknown || s == nil {
		return figure{}
	}
	if v.Kind == expr.Number && (v.Q.D == d || v.Q == measure.Number(0)) {
		return figure{v.Q.V, v.From, true}
	}
	var mends []snag.Mend
	if _, bare := s.x.(*expr.Literal); bare && v.Kind == expr.Number && v.Q.D == measure.DimNone {
		switch d {
		case measure.DimLength:
			mends = append(mends, snag.Replace("write an inch mark after the number", endOf(s.node), `"`))
		case measure.DimAngle:
			mends = append(mends, snag.Replace("write a degree mark after the number", endOf(s.node), "°"))
		}
	}
	if len(mends) == 0 {
		mends = append(mends, snag.Say("write "+d.A()+" here"))
	}
	rule := what + " must be " + d.A()
	if what == d.A() {
		rule = what + " belongs here"
	}
	w.error("wrong-dimension", s.node.Range, rule+", and this is "+v.A(), "", mends...)
	return figure{}
}

func endOf(n *source.Node) span.Range { return n.Sub(len(n.Text), len(n.Text)) }

func (w *world) length(s *said, what string) figure { return w.number(s, measure.DimLength, what) }
func (w *world) angle(s *said, what string) figure  { return w.number(s, measure.DimAngle, what) }

// count works out a whole number from least up.
func (w *world) count(s *said, what string, least int) (int, span.Set, bool) {
	f := w.number(s, measure.DimNone, what)
	if !f.ok {
		return 0, f.from, false
	}
	n := math.Round(f.v)
	if math.Abs(n-f.v) > 1e-9 {
		w.error("not-whole", s.node.Range, what+" comes to "+measure.Number(f.v).Exact(w.d.units)+", and a count must be whole", "",
			snag.Say("round it: floor(…), ceil(…) or round(…)"))
		return 0, f.from, false
	}
	if n < float64(least) || n > maxCount {
		w.error("absurd-count", s.node.Range, what+" comes to "+measure.Number(n).Exact(w.d.units)+", and must be between "+
			measure.Number(float64(least)).Exact(w.d.units)+" and "+measure.Number(maxCount).Exact(w.d.units), "", snag.Say("see that it cannot leave that range"))
		return 0, f.from, false
	}
	return int(n), f.from, true
}

// maxCount bounds what can be counted in one piece of furniture.
const maxCount = 10000

// maxLength bounds a board.
const maxLength = 400 * measure.Foot

// holds works out a condition; unsaid is true.
func (w *world) holds(s *said) (yes bool, from span.Set, known bool) {
	if s == nil {
		return true, span.Set{}, true
	}
	v := w.eval(s, w.home(s.sc))
	if v.Kind == expr.YesNo {
		return v.Yes, v.From, true
	}
	if v.Kind != expr.Unknown {
		w.error("wrong-kind", s.node.Range, "a condition belongs here, and this is "+v.A(), "", snag.Say("write, for instance, panel is straight"))
	}
	return false, v.From, false
}
