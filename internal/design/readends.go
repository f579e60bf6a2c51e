package design

import (
	"strings"

	"scantling/internal/expr"
	"scantling/internal/snag"
	"scantling/internal/source"
	"scantling/internal/spell"
)

func (r *reader) ends(d *boardDecl, b *entry) {
	n := b.find("ends")
	if n == nil {
		return
	}
	if n.Kind != source.Map {
		d.unread[1] = true
		r.snag("wrong-form", n.Range, "“ends” says for each end what it is cut to, and here is "+formOf(n), "", snag.Say("write ends: {top: …, bottom: …}"))
		return
	}
	for i, k := range n.Keys {
		way, ok := expr.DirOf(k.Text)
		v := n.Items[i]
		along := ""
		if d.between != nil && (k.Text == "from" || k.Text == "to") {
			along, ok = k.Text, true
		}
		if !ok {
			d.unread[1] = true
			mend := snag.Say("an end is one of: " + strings.Join(sides, ", "))
			if near := spell.Nearest(k.Text, sides); len(near) > 0 {
				mend = snag.Replace("did you mean "+near[0]+"?", k.Range, near[0])
			}
			r.snag("unknown-key", k.Range, "“"+k.Text+"” is no end of a board", "", mend)
			continue
		}
		if v.Kind == source.Broken {
			continue
		}
		end := &endDecl{word: way, way: along, key: k.Range}
		items := []*source.Node{v}
		if v.Kind == source.List {
			items = v.Items
			if len(items) != 2 {
				d.unread[1] = true
				r.snag("bad-end", v.Range, "a list of cuts makes a point of an end, and a point has two", "", snag.Say("write two cuts"))
				continue
			}
		}
		for _, item := range items {
			if w, ok := r.end(item); ok {
				end.ways = append(end.ways, w)
			}
		}
		if len(end.ways) == len(items) {
			d.ends = append(d.ends, end)
		} else {
			d.unread[1] = true
		}
	}
}

// end reads one way of cutting an end.
func (r *reader) end(n *source.Node) (endWay, bool) {
	w := endWay{node: n}
	switch n.Kind {
	case source.Broken, source.List:
		return w, false
	case source.Scalar:
		p := parser(n)
		if mitred := p.Words("mitre with"); mitred || p.Word("to") {
			x := p.Expr()
			if !r.finish(n, p) {
				return w, false
			}
			name, ok := x.(*expr.Ref)
			if !ok || len(name.Path) != 1 {
				r.snag("wrong-kind", n.Range, "the name of a part belongs here, after “"+map[bool]string{true: "mitre with", false: "to"}[mitred]+"”", "", snag.Say("write the part alone; or the side it is cut to, without “to”"))
				return w, false
			}
			r.mention(n, name)
			if mitred {
				w.mate = &ref{name, n, r.sc}
			} else {
				w.part = &ref{name, n, r.sc}
			}
			return w, true
		}
		if n.Text == "square" {
			w.loosely = true
			return w, true
		}
		w.to = r.said(n)
		return w, true
	}
	e := r.enter(n, endTable)
	if e == nil {
		return w, false
	}
	w.to, w.clearance, w.mitre, w.bevel = e.said("to"), e.said("clearance"), e.said("mitre"), e.said("bevel")
	for _, k := range []string{"highest", "lowest", "past"} {
		if s := e.said(k); s != nil {
			if w.square != nil {
				r.snag("said-twice", s.node.Range, "a square cut lies at one place", "", snag.Say("keep one of highest, lowest and past"))
			}
			w.reach, w.square = k, s
		}
	}
	square := e.word("cut") == "square"
	w.longPoint, w.hasLongPoint = e.dir("long point")
	angled := w.mitre != nil || w.bevel != nil
	switch {
	case w.to != nil && (square || w.square != nil || angled):
		r.snag("said-twice", n.Range, "this end is cut to something and square or at an angle at once", "", snag.Say("keep one of them"))
		return w, false
	case angled && !w.hasLongPoint:
		r.snag("missing-key", n.Range, "an angled end needs the side that keeps its length", "", snag.Say("write long point: and a side"))
		return w, false
	case square && w.square == nil:
		w.loosely = true
	case w.to == nil && w.square == nil && !angled && !square:
		r.snag("missing-key", n.Range, "this end does not say what it is cut to", "", snag.Say("write to: a side, cut: square, or mitre: an angle"))
		return w, false
	}
	return w, true
}
