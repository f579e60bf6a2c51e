package expr

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"scantling/internal/measure"
	"scantling/internal/span"
	"scantling/internal/steady"
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

func logic(x *Logic, env Env) Value {
	a := Eval(x.X, env)
	if a.Kind != YesNo {
		return refuse(env, x.X, a, "“and” and “or” join conditions")
	}
	if a.Yes == x.Or {
		return a // the rest may be about a thing that is not there
	}
	b := Eval(x.Y, env)
	if b.Kind != YesNo {
		return refuse(env, x.Y, b, "“and” and “or” join conditions")
	}
	return with(b, a)
}

func compare(x *Compare, env Env) Value {
	a := Eval(x.X, env)
	if a.Kind == Unknown {
		return Value{}
	}
	if x.Op == "is" || x.Op == "is not" {
		if a.Kind == WordKind {
			return isWord(x, env, a)
		}
	}
	b := Eval(x.Y, env)
	if a.Kind == Unknown || b.Kind == Unknown {
		return Value{}
	}
	if x.Op == "way" {
		return with(env.IsPast(x, a, b), a, b)
	}
	answer := Value{Kind: YesNo, From: a.From.Union(b.From)}
	if a.Kind == YesNo && b.Kind == YesNo && (x.Op == "is" || x.Op == "is not") {
		answer.Yes = (a.Yes == b.Yes) == (x.Op == "is")
		return answer
	}
	if a.placed() && b.placed() {
		if x.Op == "is" || x.Op == "is not" {
			same := env.Same(x, a, b)
			if same.Kind == YesNo && x.Op == "is not" {
				same.Yes = !same.Yes
			}
			return with(same, a, b)
		}
		return report(env, x, "wrong-kind", "places are compared by words, not by "+x.Op,
			[]Mend{{Says: "say is above, is below, is left of, is right of, is in front of or is behind"}})
	}
	if a.Kind != Number {
		return refuse(env, x.X, a, "this comparison is between numbers")
	}
	if b.Kind != Number {
		return refuse(env, x.Y, b, "this comparison is between numbers")
	}
	p, q, ok := alike(a.Q, b.Q)
	if !ok {
		return report(env, x, "wrong-dimension", a.A()+" cannot be compared with "+b.A(), []Mend{{Says: "make both the same kind of measure"}})
	}
	answer.Yes = ordered(x.Op, p, q)
	return answer
}

// ordered compares two like quantities. Lengths and angles closer than half a
// count of theirs are one: whoever wrote them cannot have meant the difference.
func ordered(op string, a, b measure.Quantity) bool {
	same := a.V == b.V
	if a.D == measure.DimLength || a.D == measure.DimAngle {
		same = math.Abs(a.V-b.V) < 0.5
	}
	switch op {
	case "<":
		return a.V < b.V && !same
	case "<=":
		return a.V < b.V || same
	case ">":
		return a.V > b.V && !same
	case ">=":
		return a.V > b.V || same
	case "is not":
		return !same
	}
	return same
}

// word returns the word a choice is compared with. The bare word is one of the
// choice's, whatever else bears the name.
func (x *Compare) word() (string, At) {
	switch y := x.Y.(type) {
	case *Quoted:
		return y.Text, y.At
	case *Ref:
		if len(y.Path) != 1 || y.Check != "" {
			break
		}
		word := ""
		for _, s := range y.Select {
			word += s.Text + " "
		}
		return word + y.Path[0].Text, y.At
	}
	return "", At{}
}

// WordOf returns what is wrong when a choice of these words is compared so, or
// nil.
func (x *Compare) WordOf(words []string) *Problem {
	word, at := x.word()
	if word == "" {
		s, e := x.Y.Span()
		return &Problem{Code: "wrong-kind", At: At{s, e}, What: "a choice is compared with one of its words",
			Mends: []Mend{{Says: "its words are: " + strings.Join(words, ", ")}}}
	}
	if slices.Contains(words, word) {
		return nil
	}
	return &Problem{Code: "not-offered", At: at, What: "“" + word + "” is not offered by this choice", Mends: []Mend{nearestMend(word, words, at)}}
}

// isWord answers "panel is straight".
func isWord(x *Compare, env Env, a Value) Value {
	if p := x.WordOf(a.Of); p != nil {
		env.Report(p)
		return Value{}
	}
	word, _ := x.word()
	return Value{Kind: YesNo, Yes: (a.Word == word) == (x.Op == "is"), From: a.From}
}

func wayWords(d Dir) string {
	return [...]string{"left of", "right of", "in front of", "behind", "below", "above"}[d]
}

// degrees are how trigonometry takes and gives angles here.
const radians = math.Pi / 180

func call(x *Call, env Env) Value {
	if x.Func.Text == "count" || x.Func.Text == "diagonal" {
		var args []Value
		for _, a := range x.Args {
			v := Eval(a, env)
			if v.Kind == Unknown {
				return v
			}
			args = append(args, v)
		}
		return with(env.Call(x, args), args...)
	}
	args, from, ok := numbers(x, env)
	if !ok {
		return Value{}
	}
	q, ok := function(x, env, args)
	if !ok {
		return Value{}
	}
	return finite(env, x, q, from)
}

// numbers evaluates the arguments of x and checks how many there are.
func numbers(x *Call, env Env) (args []measure.Quantity, from span.Set, ok bool) {
	least, most := 1, 1
	switch x.Func.Text {
	case "min", "max":
		least, most = 2, 16
	case "round", "floor", "ceil":
		most = 2
	}
	if len(x.Args) < least || len(x.Args) > most {
		report(env, x, "argument-count", x.Func.Text+" takes "+counted(least, most)+", and here are "+strconv.Itoa(len(x.Args)), []Mend{{Says: "part them by ;"}})
		return nil, from, false
	}
	ok = true
	for _, a := range x.Args {
		v := Eval(a, env)
		if v.Kind != Number {
			refuse(env, a, v, x.Func.Text+" takes numbers")
			ok = false
		}
		args, from = append(args, v.Q), from.Union(v.From)
	}
	return args, from, ok
}

func counted(least, most int) string {
	switch {
	case most == 1:
		return "one number"
	case least == most:
		return strconv.Itoa(least) + " numbers"
	case most > 9:
		return strconv.Itoa(least) + " or more numbers"
	}
	return strconv.Itoa(least) + " or " + strconv.Itoa(most) + " numbers"
}

// function computes f of its arguments, whose number is right.
func function(x *Call, env Env, args []measure.Quantity) (measure.Quantity, bool) {
	a := args[0]
	wrong := func(i int, want string) (measure.Quantity, bool) {
		report(env, x.Args[i], "wrong-dimension", x.Func.Text+" takes "+want+", and this is "+args[i].D.A(), nil)
		return a, false
	}
	switch f := x.Func.Text; f {
	case "min", "max":
		for i, b := range args[1:] {
			p, q, ok := alike(a, b)
			if !ok {
				return wrong(i+1, "numbers of one kind, as "+a.D.A()+" before it")
			}
			if a = p; f == "min" == (q.V < p.V) && q.V != p.V {
				a = q
			}
		}
		return a, true
	case "abs":
		a.V = math.Abs(a.V)
		return a, true
	case "floor", "ceil", "round":
		step := measure.Number(1)
		if len(args) == 2 {
			step = args[1]
			if step.D != a.D {
				return wrong(1, "a step of the same kind as its number")
			}
			if step.V <= 0 {
				report(env, x.Args[1], "no-number", "one rounds to a step above zero", nil)
				return a, false
			}
		} else if a.D != measure.DimNone {
			report(env, x, "wrong-dimension", f+" of "+a.D.A()+" needs the step to round to", []Mend{{Says: "write it after a semicolon: " + f + "(x; 1/16\")"}})
			return a, false
		}
		return measure.Quantity{V: whole(f, a.V/step.V) * step.V, D: a.D}, true
	case "sqrt":
		d, ok := a.D.Sqrt()
		if !ok {
			return wrong(0, "a bare number or an area")
		}
		if a.V < 0 {
			report(env, x.Args[0], "no-number", "a number below zero has no square root", nil)
			return a, false
		}
		return measure.Quantity{V: math.Sqrt(a.V), D: d}, true
	case "sin", "cos", "tan":
		if a == measure.Number(0) {
			a.D = measure.DimAngle
		}
		if a.D != measure.DimAngle {
			return wrong(0, "an angle")
		}
		r := a.V / float64(measure.Degree) * radians
		s, c := steady.Sin(r), steady.Cos(r)
		switch f {
		case "sin":
			return measure.Number(s), true
		case "cos":
			return measure.Number(c), true
		}
		if math.Abs(c) < 1e-9 {
			report(env, x.Args[0], "no-number", "a right angle has no tangent", nil)
			return a, false
		}
		return measure.Number(s / c), true
	}
	if a.D != measure.DimNone {
		return wrong(0, "a ratio")
	}
	var r float64
	switch x.Func.Text {
	case "asin", "acos":
		if math.Abs(a.V) > 1 {
			report(env, x.Args[0], "no-number", "no angle has a sine or cosine beyond 1", nil)
			return a, false
		}
		if r = steady.Asin(a.V); x.Func.Text == "acos" {
			r = steady.Acos(a.V)
		}
	case "atan":
		r = steady.Atan(a.V)
	}
	return measure.Quantity{V: r / radians * float64(measure.Degree), D: measure.DimAngle}, true
}

// whole rounds v; a count within 1e-9 of a whole one is that one, so that five
// boards which fill a span exactly do not become four by the last bit.
func whole(f string, v float64) float64 {
	if n := math.Round(v); math.Abs(v-n) < 1e-9 || f == "round" {
		return n
	}
	if f == "floor" {
		return math.Floor(v)
	}
	return math.Ceil(v)
}
