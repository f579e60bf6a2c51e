package design

import (
	"slices"
	"strings"

	"scantling/internal/board"
	"scantling/internal/expr"
	"scantling/internal/snag"
)

// edges reads corners worked with a router or a plane; false if the cut is none.
func (r *reader) edges(c *cutDecl, e *entry) bool {
	for i, key := range []string{"round", "chamfer", "bead"} {
		if e.find(key) == nil {
			continue
		}
		c.edges = &edgesDecl{work: board.EdgeWork(i), size: e.said(key), node: e.node}
		if e.find("edges") == nil {
			c.edges.unread = true
			r.snag("missing-key", c.at, "“"+key+"” needs the edges it is done to", "", snag.Say("write edges: all, or edges: top"))
		}
		for _, s := range e.scalars("edges") {
			for _, word := range strings.Split(s.Text, " and ") {
				switch _, ok := expr.DirOf(word); {
				case ok, word == "all":
					c.edges.of = append(c.edges.of, word)
				case word == "ends":
					c.edges.of = append(c.edges.of, "ends")
				default:
					c.edges.unread = true
					r.snag("unknown-word", s.Range, "“"+word+"” is no side of a board", "", snag.Say("write all, ends, or sides: "+strings.Join(sides, ", ")))
				}
			}
		}
		return true
	}
	return false
}

// recess reads a notch, a housing or a slot by its sizes.
func (r *reader) recess(c *cutDecl, e *entry) bool {
	for i, key := range []string{"notch", "housing", "slot"} {
		if e.find(key) == nil {
			continue
		}
		d := &recessDecl{kind: []board.Kind{board.Notch, board.Housing, board.Slot}[i], from: r.start(e, "from"), stop: r.start(e, "to"), aside: r.start(e, "aside"),
			wide: e.said("wide"), deep: e.said("deep"), long: e.said("long")}
		side, ok := r.sideWord(e, key)
		need, not := []string{"from", "wide", "deep"}, []string{"long", "aside", "to"}
		switch d.kind {
		case board.Housing:
			not = not[:2]
		case board.Slot:
			need, not = []string{"from", "long", "wide"}, []string{"deep", "to"}
		}
		if ok = r.hasKeys(e, key, need, not) && ok && d.from != nil; ok {
			d.side, c.recess = side, d
		}
		return true
	}
	return false
}

// curve reads a snip, a round end, an arch or round corners.
func (r *reader) curve(c *cutDecl, e *entry) bool {
	for _, k := range []struct {
		key       string
		kind      board.Kind
		need, not []string
	}{
		{"snip", board.Snip, []string{"corner", "along", "across"}, []string{"radius", "rise", "clear", "of"}},
		{"round end", board.RoundEnd, nil, []string{"corner", "along", "across", "rise", "clear", "of"}},
		{"corners", board.RoundCorner, []string{"radius"}, []string{"corner", "along", "across", "rise", "clear"}},
		{"arch", board.Arch, []string{"rise"}, []string{"radius", "corner", "along", "across", "of"}},
	} {
		if e.find(k.key) == nil {
			continue
		}
		d := &curveDecl{kind: k.kind, radius: e.said("radius"), along: e.said("along"), across: e.said("across")}
		ok := r.hasKeys(e, k.key, k.need, k.not)
		if k.kind == board.Arch {
			side, good := r.sideWord(e, k.key)
			d.sides, d.radius, d.along, ok = []expr.Dir{side}, e.said("rise"), e.said("clear"), ok && good
		} else if n := e.scalar(k.key); n != nil && n.Text == "both ends" {
			d.sides = nil
		} else {
			side, good := r.sideWord(e, k.key)
			d.sides, ok = []expr.Dir{side}, ok && good
		}
		for _, key := range []string{"corner", "of"} {
			if e.find(key) != nil {
				side, good := r.sideWord(e, key)
				d.corner, d.cornered, ok = side, true, ok && good
			}
		}
		if ok {
			c.curve = d
		}
		return true
	}
	return false
}

// hasKeys tells the keys a cut needs and does not have, and those it has and
// cannot use.
func (r *reader) hasKeys(e *entry, cut string, need, not []string) bool {
	ok := true
	for _, key := range need {
		if e.find(key) == nil {
			ok = false
			if e.meant[key] == "" {
				r.snag("missing-key", e.node.Range, "a “"+cut+"” needs the key “"+key+"”: "+e.t.find(key).doc, "", snag.Say("write "+key+": and its value"))
			}
		}
	}
	for _, k := range e.node.Keys {
		if slices.Contains(not, k.Text) {
			ok = false
			r.snag("unknown-key", k.Range, "“"+k.Text+"” is not said of a “"+cut+"”", "", snag.Say("take it out"))
		}
	}
	return ok
}

// sideWord reads SIDE, SIDE edge, SIDE end or SIDE face.
func (r *reader) sideWord(e *entry, key string) (expr.Dir, bool) {
	n := e.scalar(key)
	if n == nil {
		return 0, false
	}
	p := parser(n)
	d, ok := p.Dir()
	if !ok {
		p.Fail("phrase-form", "“"+key+"” names a side of the board", "write one of: "+strings.Join(sides, ", "))
	}
	for _, kind := range []string{"edge", "end", "face"} {
		if p.Word(kind) {
			break
		}
	}
	return d, r.finish(n, p)
}

// start reads D WAY P: so far from a side of the board, or from a place.
func (r *reader) start(e *entry, key string) *startDecl {
	n := e.scalar(key)
	if n == nil {
		return nil
	}
	x, p := expr.Parse(n.Text)
	if p != nil {
		r.problem(n, p)
		return nil
	}
	out := &startDecl{node: n}
	switch x := x.(type) {
	case *expr.Ref:
		if d, ok := sideOf(x); ok {
			out.side, out.way = d, d.Opposite()
			return out
		}
	case *expr.Shift:
		d, ok := sideOf(x.P)
		if ok && x.Way == d.Opposite() {
			r.mention(n, x.D)
			out.d, out.side, out.way = &said{n, x.D, r.sc}, d, x.Way
			return out
		}
		if !ok {
			r.mention(n, x)
			out.from, out.way = &said{n, x, r.sc}, x.Way
			return out
		}
		r.snag("phrase-form", n.Range, "this goes out of the board: its inside lies "+wayWords[d.Opposite()]+" its "+d.Side(), "", snag.Say("write … "+wayWords[d.Opposite()]+" "+d.Side()))
		return nil
	}
	r.snag("phrase-form", n.Range, "“"+key+"” says how far from a side of the board", "", snag.Say(`write, for instance, 3" below top, 1/4" behind front or 0" right of left`))
	return nil
}

// sideOf returns the side a bare side word names.
func sideOf(x expr.Expr) (expr.Dir, bool) {
	name, ok := x.(*expr.Ref)
	if !ok || len(name.Select) > 0 || len(name.Path) != 1 {
		return 0, false
	}
	return expr.DirOf(name.Path[0].Text)
}
