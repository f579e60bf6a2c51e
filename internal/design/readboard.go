package design

import (
	"strings"

	"scantling/internal/expr"
	"scantling/internal/snag"
	"scantling/internal/source"
	"scantling/internal/span"
	"scantling/internal/spell"
)

// boards reads parts and rows. All names are declared first, so that like may
// look at any of them.
func (r *reader) boards(e *entry) {
	type body struct {
		name string
		at   span.Range
		b    *entry
	}
	var all []body
	bodies := map[string]*entry{}
	for _, section := range []struct {
		key string
		t   *table
		of  kind
	}{{"parts", partTable, aPart}, {"rows", rowTable, aRow}} {
		r.each(e, section.key, func(name string, k, n *source.Node) {
			if b := r.enter(n, section.t); b != nil && r.declare(k, section.of, len(all)) {
				all = append(all, body{name, k.Range, b})
				bodies[name] = b
			}
		})
	}
	for _, b := range all {
		r.like(b.name, b.b, bodies)
	}
	for _, b := range all {
		r.d.boards = append(r.d.boards, r.board(b.name, b.at, b.b))
	}
}

// like resolves what an entry is like, and refuses loops and long chains.
func (r *reader) like(name string, b *entry, bodies map[string]*entry) {
	n := b.scalarHere("like")
	if n == nil {
		return
	}
	base, ok := bodies[n.Text]
	if !ok {
		r.snag("unknown-name", n.Range, "there is no part or row “"+n.Text+"” to be like", "", r.nearName(n, aPart, aRow)...)
		return
	}
	b.base = base
	depth := 1
	for at := base; at.base != nil || at == b; at = at.base {
		if depth++; at == b || depth > maxLike {
			b.base = nil
			b.misspelt("of")
			b.misspelt("place")
			what := "“" + name + "” is like itself, by way of “" + n.Text + "”"
			if at != b {
				what = "the chain of like is over 8 long"
			}
			r.snag("like-loop", n.Range, what, "", snag.Say("write the keys out in one of them"))
			return
		}
	}
}

// scalarHere returns a key's value as written in this entry, not in its base.
func (e *entry) scalarHere(name string) *source.Node {
	return e.r.scalar(e.node.Get(name), "“"+name+"”")
}

// nearName offers the known names nearest to a text, of the given kinds.
func (r *reader) nearName(n *source.Node, kinds ...kind) []snag.Mend {
	return r.d.nearName(n.Text, n.Range, kinds...)
}

func (d *Design) nearName(text string, at span.Range, kinds ...kind) []snag.Mend {
	var known []string
	for _, o := range d.order {
		for _, k := range kinds {
			if d.names[o].kind == k {
				known = append(known, o)
			}
		}
	}
	if near := spell.Nearest(text, known); len(near) > 0 {
		return []snag.Mend{snag.Replace("did you mean "+near[0]+"?", at, near[0])}
	}
	if len(known) == 0 {
		return []snag.Mend{snag.Say("the file has no names that could stand here: write one first")}
	}
	if len(known) > 12 {
		known = append(known[:12], "…")
	}
	return []snag.Mend{snag.Say("there are: " + strings.Join(known, ", "))}
}

func (r *reader) board(name string, at span.Range, b *entry) *boardDecl {
	d := &boardDecl{name: name, at: at, when: b.said("when"), of: b.nameRef("of"), width: b.said("width"), rip: b.word("rip"),
		length: b.said("length"), in: b.nameRef("in")}
	d.unread[1] = len(b.meant) > 0
	if d.of == nil && !b.meant["of"] {
		r.snag("missing-key", at, "“"+name+"” does not say what it is cut from", "", snag.Say("write of: and a name of lumber"))
	}
	d.place = at
	if p := b.sub("place"); p != nil {
		d.place = keyRange(b, "place", at)
		r.placing(d, p)
	} else if b.find("place") == nil && !b.meant["place"] {
		r.snag("missing-key", at, "“"+name+"” has no place", "", snag.Say("write place: {runs: …, faces: …} and what it is held by"))
	}
	r.ends(d, b)
	r.cuts(d, b)
	for _, c := range b.items("copies") {
		if c := r.copy(c); c != nil {
			d.copies = append(d.copies, c)
		}
	}
	if b.t == rowTable {
		d.row = r.row(d, b)
	}
	return d
}

func (r *reader) placing(d *boardDecl, p *entry) {
	d.unread[0] = len(p.meant) > 0
	if n := p.find("runs"); n != nil {
		r.runs(d, p, n)
	} else if !p.meant["runs"] {
		r.snag("missing-key", p.node.Range, "this place does not say which way the board runs", "", snag.Say("write runs: and a direction: the way its grain goes"))
	}
	d.faces, d.facing = p.dir("faces")
	if p.find("faces") == nil && !p.meant["faces"] {
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
		q := phrase(n)
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
		q := phrase(s)
		switch {
		case q.Word("centre"), q.Word("middle"):
			a.centre = true
		case q.Words("upper edge"):
			a.edge = expr.Top
		case q.Words("lower edge"):
			a.edge = expr.Bottom
		case q.Peek() == "tucked":
			r.snag("not-yet", s.Range, "“tucked into” belongs to the language but is not worked out yet by this version", "", snag.Say("say which edge goes through the point: upper edge at …"))
			return nil
		default:
			way, ok := q.Dir()
			if a.edge = way; !ok || !q.Word("edge") {
				q.Fail("phrase-form", "a run between points is said as WHAT at POINT", "write centre, upper edge, lower edge, left edge … and then at")
			}
		}
		if !q.Word("at") {
			q.Fail("phrase-form", "“at” is missing before the point", "write WHAT at POINT")
		}
		r.pointAt(s, q, &a.at)
		if !r.finish(s, q) {
			return nil
		}
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
		p := phrase(n)
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
		t.angle = p.Expr()
		if !p.Word("toward") {
			p.Fail("phrase-form", "“toward” is missing after the angle", "say which way that end moves: toward back")
		}
		if t.toward, ok = p.Dir(); !ok {
			p.Fail("phrase-form", "a direction is missing after “toward”", "write one of: "+strings.Join(directions, ", "))
		}
		if e.r.finish(n, p) {
			out = append(out, t)
		}
	}
	return out
}

func (r *reader) ends(d *boardDecl, b *entry) {
	n := b.find("ends")
	if n == nil {
		return
	}
	if n.Kind != source.Map {
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
		p := phrase(n)
		if p.Peek() == "mitre" {
			r.snag("not-yet", n.Range, "“mitre with” another part belongs to the language but is not worked out yet by this version", "", snag.Say("write the angle: {mitre: 45°, long point: front}"))
			return w, false
		}
		if p.Word("to") {
			x := p.Expr()
			if !r.finish(n, p) {
				return w, false
			}
			name, ok := x.(*expr.Ref)
			if !ok || len(name.Path) != 1 {
				r.snag("wrong-kind", n.Range, "“to” takes the name of a part here", "", snag.Say("write to and the part, or the side it is cut to without to"))
				return w, false
			}
			w.part = &ref{name, n}
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
		case e.find("round") != nil:
			c.round = &roundDecl{radius: e.said("round"), node: e.node}
			for _, s := range e.scalars("edges") {
				if _, ok := expr.DirOf(s.Text); !ok && s.Text != "all" {
					r.snag("unknown-word", s.Range, "“"+s.Text+"” is no side of a board", "", snag.Say("write all, or sides: "+strings.Join(sides, ", ")))
					continue
				}
				c.round.edges = append(c.round.edges, s.Text)
			}
			if e.find("edges") == nil {
				r.snag("missing-key", k.Range, "“round” needs the edges it is done to", "", snag.Say("write edges: all, or edges: top"))
			}
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
		if known := e.t.find(key.Text); known == nil || known.later != "" {
			return
		}
	}
	r.snag("missing-key", k.Range, "this cut does not say what it is", "", snag.Say("write taper:, notch round: or round:"))
}

func (r *reader) taper(e *entry) *taperDecl {
	t := &taperDecl{node: e.node}
	n := e.scalar("taper")
	if n == nil {
		return nil
	}
	p := phrase(n)
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
		t.from, t.at = &said{from, d}, end
	} else {
		r.snag("phrase-form", from.Range, "a taper starts so far from an end", "", snag.Say(`write, for instance, 6" below top`))
		ok = false
	}
	q := phrase(to)
	t.wide = &said{to, q.Expr()}
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

func (r *reader) copy(e *entry) *copyDecl {
	c := &copyDecl{node: e.node, about: e.said("about"), when: e.said("when")}
	for _, s := range e.scalars("call") {
		c.call = append(c.call, s.Text)
		c.callAt = s.Range
		if why := expr.Reserved(s.Text); !expr.ProperName(s.Text) || why != "" {
			r.snag("bad-name", s.Range, "“"+s.Text+"” cannot be the name of a copy", "", snag.Say("write small letters, digits and _, and no word measures are made of"))
		}
	}
	for _, way := range []string{"mirror", "flip", "turn", "marks", "every"} {
		if e.find(way) == nil {
			continue
		}
		if c.way != "" {
			r.snag("said-twice", e.node.Range, "this copy is "+c.way+" and "+way+" at once", "", snag.Say("make two items of the list"))
			return nil
		}
		c.way = way
	}
	switch c.way {
	case "mirror", "flip":
		if c.pair = e.word(c.way); c.pair == "" {
			return nil
		}
		c.axis, _ = expr.DirOf(strings.SplitN(c.pair, "-", 2)[0])
	case "turn":
		c.angle = e.said("turn")
	case "marks", "every":
		m := e.sub(c.way)
		if m == nil {
			return nil
		}
		c.marks = r.marks(c, m)
		if c.marks == nil {
			return nil
		}
	default:
		r.unsaidCopy(e)
		return nil
	}
	return c
}

func (r *reader) unsaidCopy(e *entry) {
	for _, k := range e.node.Keys {
		if e.t.find(k.Text) == nil {
			return
		}
	}
	r.snag("missing-key", e.node.Range, "this copy does not say how it is made", "", snag.Say("write mirror:, turn:, marks:, every: or flip:"))
}

func (r *reader) marks(c *copyDecl, e *entry) *marksDecl {
	m := &marksDecl{node: e.node, from: e.said("from"), each: e.said("each"), to: e.said("to")}
	of := e.word("of")
	m.middle = of == "middle"
	m.of, _ = expr.DirOf(of)
	var ok bool
	if m.toward, ok = e.dir("toward"); !ok || of == "" || m.from == nil {
		return nil
	}
	if c.way == "marks" {
		m.at = e.saids("at")
		for _, s := range e.scalars("call") {
			c.call = append(c.call, s.Text)
			c.callAt = s.Range
		}
		if len(m.at) == 0 {
			return nil
		}
	}
	if !m.middle && m.of.Axis() != m.toward.Axis() {
		r.snag("skew-words", e.node.Range, "the "+of+" side is not square to "+m.toward.Toward(), "", snag.Say("name a side that looks along the marks"))
		return nil
	}
	return m
}

func (r *reader) row(d *boardDecl, b *entry) *rowDecl {
	f := b.sub("fill")
	if f == nil {
		if b.find("fill") == nil {
			r.snag("missing-key", d.at, "a row needs fill: what its boards fill", "", snag.Say("write fill: {along: right, from: …, to: …}"))
		}
		return nil
	}
	row := &rowDecl{node: f.node, from: f.said("from"), to: f.said("to"), count: f.said("count"), about: f.said("about")}
	var ok bool
	if row.along, ok = f.dir("along"); !ok {
		return nil
	}
	if n := b.find("gap"); n != nil && n.Kind == source.Scalar {
		row.gap = &gapDecl{node: n, is: r.said(n)}
	} else if g := b.sub("gap"); g != nil {
		row.gap = &gapDecl{g.node, g.said("is"), g.said("about"), g.said("from"), g.said("to"), g.word("leftover"), g.said("least"), g.word("outside")}
		if row.gap.is != nil && (row.gap.about != nil || row.gap.from != nil || row.gap.to != nil) {
			r.snag("said-twice", g.node.Range, "this gap is given exactly and as a range at once", "", snag.Say("keep is, or about, from and to"))
		}
	}
	row.leaveOut = b.saids("leave out")
	r.except(d, row, b)
	return row
}

// except reads boards of the row that differ: a board of its own each, like the
// row's.
func (r *reader) except(d *boardDecl, row *rowDecl, b *entry) {
	n := b.find("except")
	if n == nil {
		return
	}
	if n.Kind != source.Map {
		r.snag("wrong-form", n.Range, "“except” says which board differs and how", "", snag.Say("write except: {last: {cuts: {…}}}"))
		return
	}
	single := &table{"a board of the row", partTable.keys}
	for i, k := range n.Keys {
		if k.Text != "first" && k.Text != "last" && !ordinal(k.Text) {
			r.snag("unknown-key", k.Range, "“"+k.Text+"” does not say which board of the row", "", snag.Say("write first, last, or a number such as 2nd"))
			continue
		}
		e := r.enter(n.Items[i], single)
		if e == nil {
			continue
		}
		for _, key := range e.node.Keys {
			if key.Text != "cuts" && key.Text != "ends" && key.Text != "length" && e.t.find(key.Text) != nil {
				r.snag("unknown-key", key.Range, "one board of a row may differ in its ends, length and cuts only", "", snag.Say("make it a part of its own"))
			}
		}
		e.base = &entry{r: r, t: b.t, node: b.node, base: b.base}
		one := *d
		one.length, one.ends, one.cuts = e.said("length"), nil, nil
		r.ends(&one, e)
		r.cuts(&one, e)
		row.except = append(row.except, exceptDecl{k.Text, &one, k.Range})
	}
}

func ordinal(s string) bool {
	digits := strings.TrimRight(s, "stndrh")
	return len(digits) > 0 && len(s) == len(digits)+2 && strings.Trim(digits, "0123456789") == ""
}
