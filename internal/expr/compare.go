package expr

import (
	"math"
	"slices"
	"strings"

	"scantling/internal/measure"
)

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
