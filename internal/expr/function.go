package expr

import (
	"math"
	"strconv"

	"scantling/internal/measure"
	"scantling/internal/span"
	"scantling/internal/steady"
)

// radians of one degree.
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
