package expr

import (
	"scantling/internal/measure"
	"scantling/internal/span"
)

// A Kind is what sort of thing a measure says.
type Kind uint8

const (
	Unknown  Kind = iota // something it reads went wrong, and was told there
	Number               // a quantity
	WordKind             // a word of a choice
	YesNo
	Position // a number on one axis of one room
	Plane
	Point
	Thing // a part, a row, a joint: nothing to reckon with
)

// A Place is a position, plane, point or thing as the Env knows it.
type Place any

// A Value is what a measure comes to, with the scalars it was computed from.
type Value struct {
	Kind  Kind
	Q     measure.Quantity
	Word  string
	Of    []string // of a choice's word: all it could be
	Yes   bool
	Place Place
	Meet  Meeting // whether it was said with flush with or against
	From  span.Set
}

// A Meeting is what a hold or end asserts beside its place.
type Meeting uint8

const (
	Nothing Meeting = iota
	Flush           // sides looking the same way
	Against         // sides facing one another that touch
)

// Num returns a quantity as a value.
func Num(q measure.Quantity, from span.Set) Value { return Value{Kind: Number, Q: q, From: from} }

// A names the kind with its article, as a message says it: "a length", "a
// position", "a word".
func (v Value) A() string {
	switch v.Kind {
	case Number:
		return v.Q.D.A()
	case WordKind:
		return "a word"
	case YesNo:
		return "a yes or no"
	case Position:
		return "a position"
	case Plane:
		return "a side or plane"
	case Point:
		return "a point"
	case Thing:
		return "the name of a thing"
	}
	return "unknown"
}

// placed reports whether v is somewhere in the piece.
func (v Value) placed() bool { return v.Kind == Position || v.Kind == Plane || v.Kind == Point }

// An Env knows the names of a design and where its planes lie. Its methods
// report what is wrong themselves, through Report, and return the zero Value,
// which propagates in silence. Values they return carry their own From.
type Env interface {
	// Name returns what a name stands for.
	Name(r *Ref) Value
	// Shift returns the position d away from p; p is a Position or Plane.
	Shift(n *Shift, d measure.Quantity, p Value) Value
	// Inset returns the position or plane d into or out of the board with side s.
	Inset(n *Inset, d measure.Quantity, s Value) Value
	// AtLevel returns an Env in which sides and planes that lean are read at
	// level; Held then marks the value read in it.
	AtLevel(n *Level, level Value) Env
	Held(n *Level, level, v Value) Value
	// Apart returns how far position a lies beyond b along their common axis.
	Apart(n *Arith, a, b Value) Value
	// IsPast answers "a is above b" and its likes.
	IsPast(n *Compare, a, b Value) Value
	// Same answers "a is b" for two places.
	Same(n *Compare, a, b Value) Value
	// Call answers the functions that take names: count, diagonal.
	Call(n *Call, args []Value) Value
	// Report tells a problem of the text being worked out.
	Report(p *Problem)
}
