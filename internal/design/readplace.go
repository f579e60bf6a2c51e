package design

import (
	"strings"

	"scantling/internal/expr"
	"scantling/internal/snag"
	"scantling/internal/source"
)

func (r *reader) placing(d *boardDecl, p *entry) {
	d.unread[0] = len(p.meant) > 0
	if n := p.find("runs"); n != nil {
		r.runs(d, p, n)
	} else if p.meant["runs"] == "" {
		r.snag("missing-key", p.node.Range, "this place does not say which way the board runs", "", snag.Say("write runs: and a direction: the way its grain goes"))
	}
	d.faces, d.facing = p.dir("faces")
	if p.find("faces") == nil && p.meant["faces"] == "" {
		r.snag("missing-key", p.node.Range, "this place does not say which way the board's show face looks", "", snag.Say("write faces: and a direction square to runs"))
	}
	for _, key := range []string{"lean", "slope", "swing"} {
		d.tilts = append(d.tilts, p.tilts(key)...)
	}
	d.onBoard = p.word("measured") == "on the board"
	for i := expr.Left; i <= expr.Top; i++ {
		if s := p.said(i.Side()); s != nil {
			d.holds = append(d.holds, holdDecl{side: i, key: keyRange(p, i.Side(), s.node.Range), to: s})
		}
	}
	for _, s := range p.saids("middle") {
		d.holds = append(d.holds, holdDecl{middle: true, key: keyRange(p, "middle", s.node.Range), to: s})
	}
	if n := p.scalar("centre"); n != nil {
		pt := r.point("", n.Range, n)
		d.centre = &pt
	}
	if n := p.scalar("corner"); n != nil {
		q := parser(n)
		c := &cornerDecl{node: n}
		var okA, okB bool
		if c.a, okA = q.Dir(); okA {
			c.b, okB = q.Dir()
		}
		if !okA || !okB || !q.Word("at") {
			q.Fail("phrase-form", "a corner is held as SIDE SIDE at POINT", "write, for instance, front left at where A meets B meets C")
		}
		r.pointAt(n, q, &c.at)
		if r.finish(n, q) {
			r.mention(n, c.at.meets...)
			d.corner = c
		}
	}
}

func (r *reader) runs(d *boardDecl, p *entry, n *source.Node) {
	if n.Kind == source.Map {
		d.between = r.between(n)
		return
	}
	if n = r.scalar(n, "“runs”"); n == nil {
		return
	}
	if way, ok := expr.DirOf(n.Text); ok {
		d.runs, d.runsSaid = way, true
		return
	}
	if rs := r.refs([]*source.Node{n}); len(rs) == 1 {
		if len(rs[0].Path) != 1 {
			r.snag("unknown-word", n.Range, "“"+n.Text+"” is no direction and no part", "", snag.Say("write one of: "+strings.Join(directions, ", ")+"; or the name of a part it is parallel to"))
			return
		}
		d.runsLike, d.runsSaid = &rs[0], true
	}
}

func (r *reader) between(n *source.Node) *betweenDecl {
	t := &table{"a run between points", []key{
		{name: "from", form: asPhrase, doc: "WHAT at POINT", need: true},
		{name: "to", form: asPhrase, doc: "WHAT at POINT", need: true},
	}}
	e := r.enter(n, t)
	if e == nil {
		return nil
	}
	e.needs()
	b := &betweenDecl{at: n.Range}
	for i, key := range []string{"from", "to"} {
		s := e.scalar(key)
		if s == nil {
			return nil
		}
		a := anchorDecl{node: s}
		q := parser(s)
		switch {
		case q.Word("centre"), q.Word("middle"):
			a.centre = true
		case q.Words("upper edge"):
			a.edge = expr.Top
		case q.Words("lower edge"):
			a.edge = expr.Bottom
		case q.Words("tucked into"):
			a.tucked = true
		default:
			way, ok := q.Dir()
			if a.edge = way; !ok || !q.Word("edge") {
				q.Fail("phrase-form", "a run between points is said as WHAT at POINT", "write centre, upper edge, lower edge, left edge … and then at; or tucked into and the point")
			}
		}
		if !a.tucked && !q.Word("at") {
			q.Fail("phrase-form", "“at” is missing before the point", "write WHAT at POINT")
		}
		r.pointAt(s, q, &a.at)
		if !r.finish(s, q) {
			return nil
		}
		r.mention(s, a.at.meets...)
		if i == 0 {
			b.from = a
		} else {
			b.to = a
		}
	}
	return b
}

// tilts reads END ANGLE toward DIRECTION, or a list of two of them.
func (e *entry) tilts(name string) []tiltDecl {
	var out []tiltDecl
	for _, n := range e.list(name) {
		if n = e.r.scalar(n, "“"+name+"”"); n == nil {
			continue
		}
		p := parser(n)
		t := tiltDecl{key: name, node: n}
		var ok bool
		if p.Word("foot") {
			t.end, ok = expr.Bottom, true
		} else if t.end, ok = p.Dir(); ok {
			p.Word("end")
		}
		if !ok {
			p.Fail("phrase-form", "a tilt begins with the end that moves", "write, for instance, top 10° toward back, or left end 4° toward down")
		}
		t.angle = &said{n, p.Expr(), e.r.sc}
		if !p.Word("toward") {
			p.Fail("phrase-form", "“toward” is missing after the angle", "say which way that end moves: toward back")
		}
		if t.toward, ok = p.Dir(); !ok {
			p.Fail("phrase-form", "a direction is missing after “toward”", "write one of: "+strings.Join(directions, ", "))
		}
		if e.r.finish(n, p) {
			e.r.mention(n, t.angle.x)
			out = append(out, t)
		}
	}
	return out
}
