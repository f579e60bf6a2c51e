package design

import (
	"strconv"

	"scantling/internal/board"
	"scantling/internal/geom"
	"scantling/internal/lumber"
	"scantling/internal/measure"
	"scantling/internal/phrase"
	"scantling/internal/setout"
	"scantling/internal/snag"
	"scantling/internal/span"
)

// A lot is all boards of one part or row: the written ones and their copies.
type lot struct {
	w *world
	d *boardDecl
	g *group // nil: in no group
	n int    // among the world's

	here       cell[presence]
	section    cell[section]
	frame      cell[frameAt]
	thick      cell[slabAt]
	row        cell[rowAt]
	panel      cell[panelAt]
	written    cell[[]*single]
	copies     cell[[]*copying]
	members    cell[[]*member] // where they are written
	carried    map[*copying][]*member
	everywhere cell[[]*member]
	round      map[roundAt]obstacles // when asked for
	names      cell[map[*member]string]
}

// A presence says whether a when let a thing stand.
type presence struct {
	yes, known bool
	from       span.Set
}

// A section is the stock and the size it is ripped to.
type section struct {
	stock  *lumber.Stock
	lumber string
	t, w   measure.Length // of the whole, all plies together
	plies  int
	ply    measure.Length // thickness of the stock
	from   span.Set       // of t and w
	tFrom  span.Set
	ripped bool
	or     []*lumberDecl // other stocks it may be cut from
	ok     bool
}

// A frameAt is which way the boards run and face.
type frameAt struct {
	setout.Frame
	room   room
	across *setout.Slab // of a board run between points: its hold across the width
	from   span.Set
	ok     bool
}

// A slabAt is one hold: what fixes a board across its thickness or its width.
type slabAt struct {
	setout.Slab
	level *geom.Plane // where it is held, for the home point
	first board.Side  // the side held
	from  span.Set
	ok    bool
}

// A single is one board as written: the only one of a part, or one of a row.
type single struct {
	lot   *lot
	d     *boardDecl // the lot's, or an exception's
	index int        // in the row, from 0; 0 for a part
	ends  [2]cell[endAt]
	wide  cell[slabAt]
	fit   cell[blankAt]
	taper []cell[taperAt]
	wood  cell[*board.Board]
}

// A copying is how the written boards are carried to one copy.
type copying struct {
	setout.Move
	path    []string // of the board's ID
	calls   []string
	number  int // among marks, from 1; 0: none
	written bool
	room    *setout.Room // whose words the boards go by; nil: the piece's
	from    span.Set
}

// A member is one board in place.
type member struct {
	lot  *lot
	one  *single
	copy *copying
	own  *copying // inside its group; copy itself in no group
	at   *copying // of its group; nil where it is written
	id   board.ID
	wood cell[*board.Board] // before notches
	done cell[*board.Board]
	home cell[homeAt]
}

type homeAt struct {
	at geom.Vec
	ok bool
}

func newLot(w *world, d *boardDecl) *lot {
	l := &lot{w: w, d: d, n: len(w.lots)}
	if g := d.sc.group; g != nil {
		l.g = w.groups[g.n]
		l.g.lots = append(l.g.lots, l)
	}
	return l
}

// key names a quantity of the lot in a loop's chain.
func (l *lot) key(what string) string { return l.d.name + "." + what }

// present reports whether the lot's when holds, and its group's.
func (l *lot) present() presence {
	return get(l.w, &l.here, l.key("when"), l.d.at, func() presence {
		yes, from, known := l.w.holds(l.d.when)
		if l.g != nil {
			g := l.g.present()
			yes, known, from = yes && g.yes, known && g.known, from.Union(g.from)
		}
		return presence{yes, known, from}
	})
}

func (l *lot) sectionAt() section {
	return get(l.w, &l.section, l.key("width"), l.d.at, func() section {
		d := l.d
		if d.of == nil {
			return section{}
		}
		k, ok := d.of.sc.find(d.of.text)
		if !ok || k.kind != aStock {
			l.w.error("unknown-name", d.of.node.Range, "there is no lumber “"+d.of.text+"”", "", d.of.sc.nearName(d.of.text, d.of.node.Range, aStock)...)
			return section{}
		}
		decl := &l.w.d.lumber[k.n]
		if decl.stock == nil {
			return section{}
		}
		s := section{stock: decl.stock, lumber: decl.name, ply: decl.stock.T, w: decl.stock.W, ok: true}
		n, more := l.plies()
		s.plies, s.t = n, measure.Length(n)*decl.stock.T
		s.tFrom = decl.from.Union(span.Of(d.of.node.Ordinal), more)
		s.from = s.tFrom
		if d.width == nil {
			l.others(&s)
			return s
		}
		f := l.w.length(d.width, "a width")
		if !f.ok {
			return section{}
		}
		width, ok := measure.Quantity{V: f.v, D: measure.DimLength}.Length()
		at := d.width.node.Range
		switch {
		case !ok || width <= 0:
			l.w.error("bad-size", at, "the width of "+phrase.Spaced(d.name)+" comes to "+l.w.d.print(measure.Quantity{V: f.v, D: measure.DimLength})+", and a board is wider than nothing", "", snag.Say("see what makes it so small"))
			return section{}
		case width > s.w:
			l.w.tell(snag.Snag{Code: "wider-than-stock", At: at,
				What:    phrase.Spaced(d.name) + " is " + width.Exact(l.w.d.units) + " wide, and " + decl.name + " is " + s.w.Exact(l.w.d.units) + " wide",
				Why:     string(s.stock.Size) + " is sold by that name and measures less",
				Related: []snag.Related{{At: decl.at, Says: "the stock is said here"}},
				Mends:   []snag.Mend{snag.Replace("make it "+s.w.Exact(l.w.d.units), at, s.w.Exact(l.w.d.units)), snag.Say("or cut it from wider stock")}})
			return section{}
		}
		s.from = s.from.Union(f.from)
		s.ripped = width < s.w
		s.w = width
		l.others(&s)
		return s
	})
}

// others finds the further stocks the lot may be cut from: as thick as the first,
// and as wide, or where the board is ripped, wide enough. The rest are told.
func (l *lot) others(s *section) {
	for _, n := range l.d.orOf {
		k, ok := n.sc.find(n.text)
		if !ok || k.kind != aStock {
			l.w.error("unknown-name", n.node.Range, "there is no lumber “"+n.text+"”", "", n.sc.nearName(n.text, n.node.Range, aStock)...)
			continue
		}
		o := &l.w.d.lumber[k.n]
		if o.stock == nil {
			continue
		}
		if o.stock.T != s.ply || o.stock.W < s.w || o.stock.W > s.w && l.d.width == nil {
			is := func(t, w measure.Length) string { return t.Exact(l.w.d.units) + " x " + w.Exact(l.w.d.units) }
			l.w.tell(snag.Snag{Code: "stock-unlike", Severity: snag.Caution, At: n.node.Range,
				What:    phrase.Spaced(l.d.name) + " cannot be cut from " + phrase.Spaced(o.name) + ", which measures " + is(o.stock.T, o.stock.W) + ": it is " + is(s.ply, s.w),
				Why:     "the first stock gives a board its size; another must be as thick, and as wide unless the board is ripped",
				Related: []snag.Related{{At: o.at, Says: "the stock is said here"}},
				Mends:   []snag.Mend{snag.Say("leave it out, or rip the board to a width both have: width:")}})
			continue
		}
		s.or = append(s.or, o)
	}
}

// lotOf returns the lot a list or phrase names.
func (w *world) lotOf(r *ref) (*lot, bool) {
	first := r.Path[0]
	k, ok := r.sc.find(first.Text)
	if ok && k.kind == aGroup && len(r.Path) == 2 && len(w.d.families[k.n].of) > 0 {
		g := w.d.groups[w.d.families[k.n].of[0]]
		if inner, known := g.sc.names[r.Path[1].Text]; known && inner.kind.isBoards() {
			return w.lots[inner.n], true
		}
	}
	if !ok || !k.kind.isBoards() {
		at := r.node.Sub(first.Start, first.End)
		w.error("unknown-name", at, "there is no part or row “"+first.Text+"”", "", r.sc.nearName(first.Text, at, aPart, aRow, aField)...)
		return nil, false
	}
	return w.lots[k.n], true
}

// singles returns the boards as written: one of a part, those of a row.
func (l *lot) singles() []*single {
	return get(l.w, &l.written, l.key("count"), l.d.at, func() []*single {
		n := 1
		if l.d.row != nil {
			n = len(l.rowOf().Boards)
		}
		if l.d.field != nil {
			n = len(l.panelOf().Pieces)
		}
		if l.d.doubled != nil {
			n = l.sectionAt().plies
		}
		out := make([]*single, n)
		for i := range out {
			out[i] = &single{lot: l, index: i, d: l.exceptFor(i, n)}
			out[i].taper = make([]cell[taperAt], len(out[i].d.cuts))
		}
		return out
	})
}

// exceptFor returns the declaration of board i of n of a row.
func (l *lot) exceptFor(i, n int) *boardDecl {
	if l.d.row != nil {
		for _, e := range l.d.row.except {
			k, _ := strconv.Atoi(trimOrdinal(e.which))
			if e.which == "first" && i == 0 || e.which == "last" && i == n-1 || k == i+1 {
				return e.board
			}
		}
	}
	return l.d
}

func trimOrdinal(s string) string {
	for i := range s {
		if s[i] < '0' || s[i] > '9' {
			return s[:i]
		}
	}
	return s
}

// all returns every board of the lot where it is written, in the order of copies,
// then of the row: of a group, the boards of one copy.
func (l *lot) all() []*member {
	return get(l.w, &l.members, l.key("copies"), l.d.at, func() []*member {
		var out []*member
		if n := len(l.copyings()) * len(l.singles()); n > maxCount {
			l.w.error("absurd-count", l.d.at, phrase.Spaced(l.d.name)+" comes to "+strconv.Itoa(n)+" boards, and a piece has at most "+strconv.Itoa(maxCount), "", snag.Say("make fewer copies"))
			return nil
		}
		left := l.leftOut()
		for _, c := range l.copyings() {
			for _, s := range l.singles() {
				if left[s.index+1] {
					continue
				}
				out = append(out, &member{lot: l, one: s, copy: c, own: c, id: l.id(s, c, nil)})
			}
		}
		return out
	})
}

// leftOut returns the numbers a row leaves out.
func (l *lot) leftOut() map[int]bool {
	out := map[int]bool{}
	if l.d.row != nil {
		for _, s := range l.d.row.leaveOut {
			if n, _, ok := l.w.count(s, "the number of a board", 1); ok {
				out[n] = true
				if n > len(l.singles()) {
					l.w.error("no-such-copy", s.node.Range, "there is no board "+strconv.Itoa(n)+" in this row of "+strconv.Itoa(len(l.singles())), "", snag.Say("leave out one that is there"))
				}
			}
		}
	}
	return out
}

// countFrom returns what the number of boards was computed from.
func (l *lot) countFrom() span.Set {
	from := l.present().from
	if l.d.row != nil {
		from = from.Union(l.rowOf().from)
	}
	if l.d.field != nil {
		from = from.Union(l.panelOf().from)
	}
	for _, c := range l.copyings() {
		from = from.Union(c.from)
	}
	if l.g != nil {
		for _, c := range l.g.copyings() {
			from = from.Union(c.from)
		}
	}
	return from
}
