// Package expr reads and works out the measures a design file is written in:
// "length - 2 * overhang", "7\" above seat_top", "against leg.back", "panel is
// straight".
//
// A Parser turns one text into trees, so that phrases with words of their own
// ("foot splay toward left") can be taken apart by whoever knows the phrase;
// Parse reads a text that is one measure from end to end. Eval works a tree out
// against an Env, which knows what names mean and where planes lie: this
// package has the grammar, the dimensions and the arithmetic, and no geometry.
//
// From loosest to tightest: X if C otherwise Y, or, and, not, comparisons,
// flush with and against, at level and at SIDE, D above P, + -, * /, sign,
// literal. Lengths are float64 counts of nanometres and are never rounded here.
package expr

import (
	"strings"

	"scantling/internal/measure"
	"scantling/internal/spell"
)

// A Dir is one of the six ways of a room.
type Dir uint8

// The six ways; a way and its opposite are neighbours, so d^1 is the opposite.
const (
	Left Dir = iota
	Right
	Front
	Back
	Bottom
	Top
)

var sideWords = [...]string{"left", "right", "front", "back", "bottom", "top"}
var towardWords = [...]string{"left", "right", "front", "back", "down", "up"}

// Side returns the word for the side that looks this way: "left", "top".
func (d Dir) Side() string { return sideWords[d] }

// Toward returns the word for a way one can go: "left", "up".
func (d Dir) Toward() string { return towardWords[d] }

// Axis returns 0 for right, 1 for back and 2 for up.
func (d Dir) Axis() int { return int(d / 2) }

// Sign returns +1 toward right, back or up, else −1.
func (d Dir) Sign() float64 { return float64(int(d&1)*2 - 1) }

// Opposite returns the other way.
func (d Dir) Opposite() Dir { return d ^ 1 }

// DirOf returns the way a direction or side word names.
func DirOf(word string) (Dir, bool) {
	for i := range sideWords {
		if word == sideWords[i] || word == towardWords[i] {
			return Dir(i), true
		}
	}
	return 0, false
}

// An Expr is a node of the tree: one of the pointer types below. Offsets count
// bytes of the text that was parsed.
type Expr interface{ Span() (start, end int) }

// An At is the bytes of a node.
type At struct{ Start, End int }

// Span returns the bytes of the node.
func (a At) Span() (int, int) { return a.Start, a.End }

// A Word is one word of the text.
type Word struct {
	Text string
	At
}

type (
	// Literal is a number with or without a unit.
	Literal struct {
		At
		Q measure.Quantity
	}
	// Quoted is a word in quotes: a choice's value that is no plain name.
	Quoted struct {
		At
		Text string
	}
	// Ref is a name with what picks a copy before it and what is read from it
	// after it: "front right leg.left edge", "right end_frame.front leg.left".
	Ref struct {
		At
		Select []Word // adjectives, in order
		Path   []Word // name, then what follows each dot
		Inner  []Word // adjectives of the second name of Path, which is a group's
		Check  string // "edge", "face" or "end" when said after it
	}
	// Sign is −X.
	Sign struct {
		At
		X Expr
	}
	// Arith is X op Y with op one of + - * /.
	Arith struct {
		At
		Op   byte
		OpAt At
		X, Y Expr
	}
	// Call is a function with its arguments.
	Call struct {
		At
		Func Word
		Args []Expr
	}
	// Shift is "D above P" and its five likes.
	Shift struct {
		At
		D    Expr
		Way  Dir
		WayA At
		P    Expr
	}
	// Inset is "D in from S" or "D out from S".
	Inset struct {
		At
		D   Expr
		Out bool
		S   Expr
	}
	// Level is "P at level L"; with Side it is "P at S".
	Level struct {
		At
		P    Expr
		Side bool
		L    Expr
	}
	// Meet is "flush with P"; with Against it is "against P".
	Meet struct {
		At
		Against bool
		P       Expr
	}
	// Compare is a comparison: Op is one of < <= > >= is "is not", or "way" for
	// "is above P" and its likes, Way then saying which.
	Compare struct {
		At
		Op   string
		Way  Dir
		X, Y Expr
	}
	// Not is "not X".
	Not struct {
		At
		X Expr
	}
	// Logic is "X and Y" or "X or Y".
	Logic struct {
		At
		Or   bool
		X, Y Expr
	}
	// Cond is "X if C otherwise Y".
	Cond struct {
		At
		X, C, Y Expr
	}
)

// A Problem is something wrong in a text: where, what and why as sentences
// without a full stop, and ways to mend it.
type Problem struct {
	Code string
	At
	What, Why string
	Mends     []Mend
}

// A Mend replaces the bytes At of the text by Text; with Text "" and an empty
// At it is advice without an edit.
type Mend struct {
	Says string
	At
	Text string
}

func (p *Problem) Error() string {
	s := p.What
	if p.Why != "" {
		s += ": " + p.Why
	}
	for _, m := range p.Mends {
		s += "; " + m.Says
	}
	return s
}

// nearestMend offers the nearest known name in place of the word at, or lists
// what there is.
func nearestMend(asked string, known []string, at At) Mend {
	if near := spell.Nearest(asked, known); len(near) > 0 {
		return Mend{Says: "did you mean " + near[0] + "?", At: at, Text: near[0]}
	}
	return Mend{Says: "there are: " + strings.Join(known, ", ")}
}
