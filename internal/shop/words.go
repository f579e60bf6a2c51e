package shop

import (
	"strings"

	"scantling/internal/board"
	"scantling/internal/geom"
	"scantling/internal/lumber"
	"scantling/internal/wood"
)

// sideName returns a side of a board as people call it: "top end", "left edge",
// "front face".
func sideName(b *board.Board, s board.Side) string {
	word := "face"
	if s.IsEnd() {
		word = "end"
	} else if s.IsEdge() {
		word = "edge"
	}
	if b.Sides[s] == "" {
		return word
	}
	return b.Sides[s] + " " + word
}

// faceName returns what people call the face a tag stands for.
func faceName(b *board.Board, t geom.Tag) string {
	c := b.CutAt(t)
	switch {
	case c == nil:
		return sideName(b, board.Side(t))
	case c.Kind == board.EndCut:
		if p, ok := pointOf(b, *c); ok {
			return sideName(b, c.Side) + " toward the " + sideName(b, p.edge)
		}
		return sideName(b, c.Side)
	case c.Kind == board.Taper:
		return "tapered " + sideName(b, c.Side)
	}
	return c.Kind.String()
}

// sideOf returns the side a face belongs to: its own, or that of the end or taper
// which made it. ok is false for the walls of notches, housings and snips.
func sideOf(b *board.Board, t geom.Tag) (side board.Side, ok bool) {
	c := b.CutAt(t)
	if c == nil {
		return board.Side(t), true
	}
	return c.Side, c.Kind == board.EndCut || c.Kind == board.Taper
}

// meets says what an end is cut to: "the floor"; "long apron, back" is the back
// of the long apron.
func meets(what string) string {
	thing, side, ok := strings.Cut(what, ", ")
	switch {
	case what == "":
		return ""
	case ok:
		return "the " + side + " of the " + thing
	case strings.HasPrefix(what, "the "):
		return what
	}
	return "the " + what
}

// Sold returns a stock as a yard of its region says it: "45x95 redwood, C24".
func Sold(s lumber.Stock) string { return s.Of(woodName(s)) }

// woodName returns what yards of its region call the wood of a stock.
func woodName(s lumber.Stock) string {
	w, err := wood.Lookup(s.Wood)
	if err != nil {
		return s.Wood
	}
	return w.NameIn(s.Region)
}
