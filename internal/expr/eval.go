package expr

import (
	"math"

	"scantling/internal/measure"
	"scantling/internal/span"
)

// Eval works x out. A problem is reported to env once and makes the value
// Unknown; so does an unknown value read on the way. A nil x is Unknown.
func Eval(x Expr, env Env) Value {
	switch x := x.(type) {
	case *Literal:
		return Num(x.Q, span.Set{})
	case *Quoted:
		return Value{Kind: WordKind, Word: x.Text}
	case *Ref:
		return evalRef(x, env)
	case *Sign:
		v := Eval(x.X, env)
		if v.Kind == Number {
			v.Q.V = -v.Q.V
			return v
		}
		return refuse(env, x.X, v, "a minus sign needs a number")
	case *Arith:
		return arith(x, env)
	case *Call:
		return call(x, env)
	case *Shift:
		d, p := Eval(x.D, env), Eval(x.P, env)
		q, ok := distance(env, x.D, d)
		if !ok || p.Kind == Unknown {
			return Value{}
		}
		if p.Kind != Position && p.Kind != Plane {
			return misplaced(env, x, p)
		}
		return with(env.Shift(x, q, p), d, p)
	case *Inset:
		d, s := Eval(x.D, env), Eval(x.S, env)
		q, ok := distance(env, x.D, d)
		if !ok || s.Kind == Unknown {
			return Value{}
		}
		if s.Kind != Plane {
			return refuse(env, x.S, s, "“in from” and “out from” are said of a board's side")
		}
		return with(env.Inset(x, q, s), d, s)
	case *Level:
		l := Eval(x.L, env)
		if l.Kind == Unknown {
			return Value{}
		}
		if l.Kind != Position && l.Kind != Plane {
			return refuse(env, x.L, l, "what stands after “at” must be a position, a side or a plane")
		}
		v := Eval(x.P, env.AtLevel(x, l))
		if v.Kind == Unknown {
			return v
		}
		return with(env.Held(x, l, v), v, l)
	case *Meet:
		v := Eval(x.P, env)
		if v.Kind == Unknown {
			return v
		}
		if v.Kind != Plane {
			return refuse(env, x.P, v, "“flush with” and “against” are said of a side or a plane")
		}
		v.Meet = Flush
		if x.Against {
			v.Meet = Against
		}
		return v
	case *Compare:
		return compare(x, env)
	case *Not:
		v := Eval(x.X, env)
		if v.Kind == YesNo {
			v.Yes = !v.Yes
			return v
		}
		return refuse(env, x.X, v, "“not” needs a condition")
	case *Logic:
		return logic(x, env)
	case *Cond:
		c := Eval(x.C, env)
		if c.Kind != YesNo {
			return refuse(env, x.C, c, "what stands after “if” must be a condition")
		}
		branch := x.X
		if !c.Yes {
			branch = x.Y
		}
		return with(Eval(branch, env), c)
	}
	return Value{}
}

// with adds what others were computed from to v.
func with(v Value, others ...Value) Value {
	if v.Kind != Unknown {
		for _, o := range others {
			v.From = v.From.Union(o.From)
		}
	}
	return v
}

// refuse reports that x has the wrong kind, unless it is unknown already.
func refuse(env Env, x Expr, v Value, rule string) Value {
	if v.Kind != Unknown && x != nil {
		s, e := x.Span()
		env.Report(&Problem{Code: "wrong-kind", At: At{s, e}, What: rule + ", and this is " + v.A()})
	}
	return Value{}
}

// misplaced tells that D is measured from what is no place; mostly because a
// sum after it was meant to be taken from the whole.
func misplaced(env Env, x *Shift, p Value) Value {
	rule := "what stands after “" + wayWords(x.Way) + "” must be a position, a side or a plane"
	sum, ok := x.P.(*Arith)
	if !ok || p.Kind == Unknown {
		return refuse(env, x.P, p, rule)
	}
	env.Report(&Problem{Code: "wrong-kind", At: sum.At, What: rule + ", and this is " + p.A(), Why: "all that follows belongs to it, sums too",
		Mends: []Mend{{Says: "put the position in brackets: (… " + wayWords(x.Way) + " …) " + string(sum.Op) + " …"}}})
	return Value{}
}

// distance checks that v is a length, or the bare 0.
func distance(env Env, x Expr, v Value) (measure.Quantity, bool) {
	switch {
	case v.Kind == Unknown:
		return v.Q, false
	case v.Kind == Number && v.Q.D == measure.DimLength:
		return v.Q, true
	case v.Kind == Number && v.Q == measure.Number(0):
		return measure.Quantity{D: measure.DimLength}, true
	case v.Kind == Number && v.Q.D == measure.DimNone:
		report(env, x, "wrong-dimension", "a distance needs a unit, and this is a bare number", inchMend(x))
	default:
		refuse(env, x, v, "a distance must be a length")
	}
	return v.Q, false
}

// inchMend offers an inch mark after a bare literal.
func inchMend(x Expr) []Mend {
	if _, ok := x.(*Literal); !ok {
		return []Mend{{Says: "give its numbers units, such as \" or mm"}}
	}
	_, e := x.Span()
	return []Mend{{Says: "write an inch mark after the number", At: At{e, e}, Text: `"`}}
}

func report(env Env, x Expr, code, what string, mends []Mend) Value {
	s, e := x.Span()
	env.Report(&Problem{Code: code, At: At{s, e}, What: what, Mends: mends})
	return Value{}
}

func evalRef(r *Ref, env Env) Value {
	if len(r.Path) == 1 && len(r.Select) == 0 {
		switch r.Path[0].Text {
		case "yes", "no":
			return Value{Kind: YesNo, Yes: r.Path[0].Text == "yes"}
		}
	}
	return env.Name(r)
}

func arith(x *Arith, env Env) Value {
	a, b := Eval(x.X, env), Eval(x.Y, env)
	if a.Kind == Unknown || b.Kind == Unknown {
		return Value{}
	}
	if x.Op == '-' && a.placed() && b.placed() {
		return with(env.Apart(x, a, b), a, b)
	}
	if a.placed() || b.placed() {
		return placeSum(x, env, a, b)
	}
	if a.Kind != Number {
		return refuse(env, x.X, a, "one can only reckon with numbers")
	}
	if b.Kind != Number {
		return refuse(env, x.Y, b, "one can only reckon with numbers")
	}
	from := a.From.Union(b.From)
	switch x.Op {
	case '+', '-':
		p, q, ok := alike(a.Q, b.Q)
		if !ok {
			return unlike(x, env, a, b)
		}
		if x.Op == '-' {
			q.V = -q.V
		}
		return finite(env, x, measure.Quantity{V: p.V + q.V, D: p.D}, from)
	case '*':
		d, ok := a.Q.D.Mul(b.Q.D)
		if !ok {
			return report(env, x, "wrong-dimension", "this product has no meaning: "+a.A()+" times "+b.A(), nil)
		}
		return finite(env, x, measure.Quantity{V: a.Q.V * b.Q.V, D: d}, from)
	}
	if b.Q.V == 0 {
		return report(env, x.Y, "no-number", "this is zero, and nothing can be divided by it", []Mend{{Says: "see that it cannot become zero"}})
	}
	d, ok := a.Q.D.Div(b.Q.D)
	if !ok {
		return report(env, x, "wrong-dimension", "this quotient has no meaning: "+a.A()+" over "+b.A(), nil)
	}
	return finite(env, x, measure.Quantity{V: a.Q.V / b.Q.V, D: d}, from)
}

// alike brings a bare 0 to the dimension of what it stands beside.
func alike(a, b measure.Quantity) (measure.Quantity, measure.Quantity, bool) {
	if a.D != b.D {
		if zero := measure.Number(0); a == zero {
			a.D = b.D
		} else if b == zero {
			b.D = a.D
		}
	}
	return a, b, a.D == b.D
}

// unlike tells that two dimensions cannot be added, and how a person most
// likely came to write it.
func unlike(x *Arith, env Env, a, b Value) Value {
	verb := "added"
	if x.Op == '-' {
		verb = "subtracted"
	}
	p := &Problem{Code: "wrong-dimension", At: x.At, What: a.A() + " and " + b.A() + " cannot be " + verb}
	lit, bare := x.X, a.Q.D == measure.DimNone
	other := b
	if b.Q.D == measure.DimNone {
		lit, bare, other = x.Y, true, a
	}
	l, isLit := lit.(*Literal)
	right, isRight := x.Y.(*Literal)
	left, isLeft := x.X.(*Literal)
	switch {
	case x.Op == '-' && isLeft && isRight && left.Q.D == measure.DimNone && right.Q.D == measure.DimLength:
		p.Why = "5 - 1/2\" is a subtraction; 5-1/2\" and 5 1/2\" are five and a half inches"
		p.Mends = []Mend{{Says: "for a mixed number write it without the dash", At: At{left.End, right.Start}, Text: " "}}
	case bare && isLit && other.Q.D == measure.DimLength:
		p.At = l.At
		p.What = "this number has no unit, and what it is " + verb + " to or from is a length"
		p.Mends = []Mend{{Says: "write an inch mark after it", At: At{l.End, l.End}, Text: `"`}}
	case bare && isLit && other.Q.D == measure.DimAngle:
		p.At = l.At
		p.What = "this number has no unit, and what it is " + verb + " to or from is an angle"
		p.Mends = []Mend{{Says: "write a degree mark after it", At: At{l.End, l.End}, Text: "°"}}
	default:
		p.Mends = []Mend{{Says: "make both the same kind of measure"}}
	}
	env.Report(p)
	return Value{}
}

// placeSum tells why a place and a number cannot be added.
func placeSum(x *Arith, env Env, a, b Value) Value {
	place, other := a, b
	if !a.placed() {
		place, other = b, a
	}
	p := &Problem{Code: "place-plus-length", At: x.At, What: place.A() + " plus or minus " + other.A() + " says no direction"}
	if x.Op == '*' || x.Op == '/' {
		p.What = place.A() + " cannot be multiplied or divided"
		p.Mends = []Mend{{Says: "reckon with lengths, and say above, below, left of, … last"}}
	} else {
		p.Mends = []Mend{{Says: "say how far and which way from it: 2\" above …, 2\" left of …"}}
	}
	env.Report(p)
	return Value{}
}

func finite(env Env, x Expr, q measure.Quantity, from span.Set) Value {
	if !q.Finite() || math.Abs(q.V) > 1e300 {
		return report(env, x, "no-number", "this comes to no number at all", []Mend{{Says: "look for a division by almost nothing"}})
	}
	return Num(q, from)
}
