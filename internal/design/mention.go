package design

import (
	"slices"
	"strings"

	"scantling/internal/expr"
	"scantling/internal/phrase"
	"scantling/internal/snag"
	"scantling/internal/source"
	"scantling/internal/spell"
)

// A mention is a measure of the file whose names are checked once all are known:
// also those that no present choice reads, so that a slip of the pen is told
// before the day somebody takes the other choice.
type mention struct {
	node *source.Node
	x    expr.Expr
	sc   *scope
}

func (r *reader) mention(n *source.Node, xs ...expr.Expr) {
	for _, x := range xs {
		if x != nil {
			r.mentions = append(r.mentions, mention{n, x, r.sc})
		}
	}
}

// checkMentions tells names nobody declared and readings nothing has. Evaluating
// tells them in the same words, and the same words are told once.
func (r *reader) checkMentions() {
	for _, m := range r.mentions {
		expr.Walk(m.x, func(x expr.Expr) bool {
			switch x := x.(type) {
			case *expr.Compare:
				if r.choiceWord(m, x) {
					return false
				}
			case *expr.Ref:
				r.checkRef(m, x)
			}
			return true
		})
	}
}

// choiceWord reports whether x compares a choice with a word, and checks the
// word.
func (r *reader) choiceWord(m mention, x *expr.Compare) bool {
	left, ok := x.X.(*expr.Ref)
	if !ok || len(left.Path) != 1 || x.Op != "is" && x.Op != "is not" {
		return false
	}
	k, ok := m.sc.find(left.Path[0].Text)
	if !ok {
		r.checkRef(m, left) // the word after it may be one of a choice nobody can find
		return true
	}
	if k.kind != aChoice {
		return false
	}
	if p := x.WordOf(r.d.choices[k.n].of); p != nil && !r.d.holes {
		r.problem(m.node, p)
	}
	return true
}

func (r *reader) checkRef(m mention, x *expr.Ref) {
	first := x.Path[0].Text
	k, ok := m.sc.find(first)
	if !ok {
		alone := len(x.Path) == 1 && len(x.Select) == 0
		if alone && slices.Contains([]string{"middle", "floor", "yes", "no"}, first) {
			return
		}
		if len(x.Path) == 2 && r.d.jointNamed(m.sc, first) >= 0 {
			return
		}
		if s := m.sc.unknownName(m.node, x.Path[0]); !r.d.follows(s) {
			r.d.snags = append(r.d.snags, s)
		}
		return
	}
	if f, inner, known := r.d.groupRef(m.sc, x); f != nil && len(x.Path) > 1 && len(f.of) > 0 {
		g := r.d.groups[f.of[0]]
		switch {
		case !known && r.d.jointNamed(g.sc, x.Path[1].Text) < 0:
			if s := r.d.notOfGroup(f, m.node, x); !r.d.follows(s) {
				r.d.snags = append(r.d.snags, s)
			}
		case known && inner.kind.isBoards() && len(x.Path) > 2 && inner.n < len(r.d.boards):
			rest := &expr.Ref{At: x.At, Path: x.Path[1:]}
			if b := r.d.boards[inner.n]; !slices.Contains(b.readable(), x.Path[2].Text) {
				r.d.snags = append(r.d.snags, b.unreadable(m.node, rest))
			}
		}
		return
	}
	if !k.kind.isBoards() || len(x.Path) < 2 || k.n >= len(r.d.boards) {
		return
	}
	b := r.d.boards[k.n]
	if !slices.Contains(b.readable(), x.Path[1].Text) {
		r.d.snags = append(r.d.snags, b.unreadable(m.node, x))
	}
}

// readable lists the words that may stand after the board's dot.
func (b *boardDecl) readable() []string {
	known := append([]string(nil), readings...)
	if b.numbered() {
		known = append(known, rowReadings...)
	}
	if b.between != nil {
		known = append(known, "from", "to")
	}
	for _, c := range b.cuts {
		known = append(known, c.name)
	}
	return known
}

// unreadable tells that a board has nothing to read by the word after its dot.
func (b *boardDecl) unreadable(n *source.Node, r *expr.Ref) snag.Snag {
	word, known := r.Path[1], b.readable()
	at := n.Sub(word.Start, word.End)
	s := snag.Snag{Code: "no-such-reading", At: at, What: phrase.Spaced(b.name) + " has no “" + word.Text + "” to read"}
	if near := spell.Nearest(word.Text, known); len(near) > 0 && near[0] != word.Text {
		s.Mends = []snag.Mend{snag.Replace("did you mean "+near[0]+"?", at, near[0])}
	} else {
		s.Mends = []snag.Mend{snag.Say("read one of: " + strings.Join(known, ", "))}
	}
	return s
}
