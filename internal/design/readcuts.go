package design

import (
	"scantling/internal/expr"
	"scantling/internal/snag"
	"scantling/internal/source"
)

func (r *reader) cuts(d *boardDecl, b *entry) {
	n := b.find("cuts")
	if n == nil {
		return
	}
	if n.Kind != source.Map {
		r.snag("wrong-form", n.Range, "“cuts” holds a name for each cut, and here is "+formOf(n), "", snag.Say("write, for instance, clear_legs: {notch round: leg}"))
		return
	}
	for i, k := range n.Keys {
		e := r.enter(n.Items[i], cutTable)
		if e == nil {
			continue
		}
		if why := expr.Reserved(k.Text); why != "" || !expr.ProperName(k.Text) {
			r.snag("bad-name", k.Range, "“"+k.Text+"” cannot be the name of a cut", "", snag.Say("write small letters, digits and _, and no word measures are made of"))
			continue
		}
		c := &cutDecl{name: k.Text, at: k.Range, node: e.node, when: e.said("when")}
		switch {
		case e.find("taper") != nil:
			c.taper = r.taper(e)
		case e.find("notch round") != nil:
			c.notch = &notchDecl{node: e.node, round: e.refs("notch round"), clearance: e.said("clearance"), open: e.word("open"),
				hole: e.yes("hole"), lean: e.word("follow") == "lean", ifThere: e.yes("if there")}
		case r.edges(c, e), r.recess(c, e), r.curve(c, e):
		default:
			r.unsaidCut(e, k)
			continue
		}
		d.cuts = append(d.cuts, c)
	}
}

// unsaidCut tells of a cut without a kind, unless its kind was refused already.
func (r *reader) unsaidCut(e *entry, k *source.Node) {
	for _, key := range e.node.Keys {
		if e.t.find(key.Text) == nil {
			return
		}
	}
	r.snag("missing-key", k.Range, "this cut does not say what it is", "", snag.Say("write, for instance, taper:, notch round:, housing: or round:"))
}

func (r *reader) taper(e *entry) *taperDecl {
	t := &taperDecl{node: e.node}
	n := e.scalar("taper")
	if n == nil {
		return nil
	}
	p := parser(n)
	if p.Word("both") {
		t.both = true
		p.Word("sides")
		p.Word("edges")
	} else {
		var ok bool
		if t.side, ok = p.Dir(); !ok {
			p.Fail("phrase-form", "a taper names the side it is taken from", "write, for instance, right edge, or both")
		}
		if !p.Word("edge") {
			p.Word("face")
		}
	}
	ok := r.finish(n, p)

	from, to := e.scalar("from"), e.scalar("to")
	if from == nil || to == nil {
		r.snag("missing-key", e.node.Range, "a taper needs where it starts and how wide it ends", "", snag.Say(`write from: 6" below top, to: 2 3/4" wide at bottom`))
		return nil
	}
	if x, prob := expr.Parse(from.Text); prob != nil {
		r.problem(from, prob)
		ok = false
	} else if d, end, good := fromEnd(x); good {
		r.mention(from, d)
		t.from, t.at = &said{from, d, r.sc}, end
	} else {
		r.snag("phrase-form", from.Range, "a taper starts so far from an end", "", snag.Say(`write, for instance, 6" below top`))
		ok = false
	}
	q := parser(to)
	t.wide = &said{to, q.Expr(), r.sc}
	if !q.Words("wide at") {
		q.Fail("phrase-form", "a taper ends so wide at an end", `write, for instance, 2 3/4" wide at bottom`)
	}
	end, good := q.Dir()
	if t.opposite = end; !good {
		q.Fail("phrase-form", "the end is missing", `write, for instance, 2 3/4" wide at bottom`)
	}
	ok = r.finish(to, q) && ok
	if ok && t.opposite != t.at.Opposite() {
		r.snag("phrase-form", to.Range, "a taper starts near one end and is measured at the other", "", snag.Say("name the two ends of the board"))
		ok = false
	}
	if !ok {
		return nil
	}
	r.mention(to, t.wide.x)
	return t
}

// fromEnd takes "D below END" apart.
func fromEnd(x expr.Expr) (d expr.Expr, end expr.Dir, ok bool) {
	s, isShift := x.(*expr.Shift)
	if !isShift {
		return nil, 0, false
	}
	name, isName := s.P.(*expr.Ref)
	if !isName || len(name.Select) > 0 || len(name.Path) != 1 {
		return nil, 0, false
	}
	end, ok = expr.DirOf(name.Path[0].Text)
	return s.D, end, ok && s.Way == end.Opposite()
}
