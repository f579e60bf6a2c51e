package design

import (
	"scantling/internal/board"
	"scantling/internal/geom"
	"scantling/internal/phrase"
	"scantling/internal/setout"
	"scantling/internal/snag"
	"scantling/internal/span"
)

func (l *lot) frameOf() frameAt {
	return get(l.w, &l.frame, l.key("runs"), l.d.place, func() frameAt {
		d := l.d
		r := l.w.roomOf(d.in, d.sc)
		if !r.ok || !d.facing || !d.runsSaid && d.between == nil {
			return frameAt{}
		}
		out := frameAt{room: r, from: r.turn, ok: true}
		var err error
		switch {
		case d.between != nil:
			return l.between(out)
		case d.runsLike != nil:
			other, ok := l.w.lotOf(d.runsLike)
			if !ok {
				return frameAt{}
			}
			of := other.frameOf()
			if !of.ok {
				return frameAt{}
			}
			out.from = out.from.Union(of.from)
			out.Frame, err = setout.Along(r.Room, of.Run, setout.Dir(d.faces), l.words())
		default:
			tilts, from, ok := l.w.tilts(d.tilts)
			if !ok {
				return frameAt{}
			}
			out.from = out.from.Union(from)
			if !l.tiltWords() {
				return frameAt{}
			}
			out.Frame, err = setout.Orient(r.Room, setout.Dir(d.runs), setout.Dir(d.faces), tilts, d.onBoard)
		}
		if err != nil {
			l.w.fault(d.place, err, phrase.Spaced(d.name))
			return frameAt{}
		}
		return out
	})
}

// tiltWords checks that lean, slope and swing are used as the language has them.
func (l *lot) tiltWords() bool {
	for _, t := range l.d.tilts {
		want := setout.TiltWord(setout.Dir(l.d.runs), setout.Dir(t.toward))
		if want != "" && want != t.key {
			l.w.error("tilt-word", t.node.Range, "a board that runs "+l.d.runs.Toward()+" and tips toward "+t.toward.Toward()+" has a "+want+", not a "+t.key, "", snag.Say("write "+want+": instead of "+t.key+":"))
			return false
		}
	}
	return true
}

// words returns the side words as read at the default sizes, nil there.
func (l *lot) words() *[6]setout.Dir {
	if l.w.initial {
		return nil
	}
	if l.w.first == nil {
		l.w.first = newWorld(l.w.d, nil)
	}
	for _, o := range l.w.first.lots {
		if o.d == l.d {
			if f := o.frameOf(); f.ok {
				return &f.Words
			}
		}
	}
	return nil
}

// between turns the board so that it runs between two points.
func (l *lot) between(out frameAt) frameAt {
	b := l.d.between
	s := l.sectionAt()
	from, to := l.w.point(&b.from.at, out.room), l.w.point(&b.to.at, out.room)
	if !s.ok || !from.ok || !to.ok {
		return frameAt{}
	}
	anchors, more, ok := l.anchors(from, to, out.room)
	if !ok {
		return frameAt{}
	}
	f, across, tie, err := setout.Between(out.room.Room, setout.Dir(l.d.faces), anchors[0], anchors[1], s.w.MM(), l.words())
	if err != nil {
		l.w.fault(b.at, err, phrase.Spaced(l.d.name))
		return frameAt{}
	}
	if tie {
		l.w.tell(snag.Snag{Code: "side-words-tie", Severity: snag.Advice, At: b.at,
			What:  phrase.Spaced(l.d.name) + " lies at 45°: its sides could be called by either of two words, and are called " + f.Words[board.Near].Side() + " and " + f.Words[board.Far].Side(),
			Mends: []snag.Mend{snag.Say("turn it a little, or take care which word you use")}})
	}
	out.Frame, out.across = f, &across
	out.from = out.from.Union(from.from, to.from, more)
	return out
}

// anchors returns what each end of a board between two points is held by.
func (l *lot) anchors(from, to pointAt, in room) (out [2]setout.Anchor, used span.Set, ok bool) {
	b := l.d.between
	for i, a := range []*anchorDecl{&b.from, &b.to} {
		at := []pointAt{from, to}[i]
		out[i] = setout.Anchor{Centre: a.centre, Edge: setout.Dir(a.edge), At: at.at}
		if !a.tucked {
			continue
		}
		way := to.at.Minus(from.at)
		if i == 0 {
			way = way.Negated()
		}
		corner, more, ok := l.corner(a, i, at, way, in)
		if !ok {
			return out, used, false
		}
		out[i].Tucked, used = corner, used.Union(more)
	}
	return out, used, true
}

// corner finds what end i of the board is tucked into: of the two things that
// meet there, the one the end is cut to, and the other. way leads out of that end.
// It may not ask which way the board runs, since that follows from it.
func (l *lot) corner(a *anchorDecl, i int, at pointAt, way geom.Vec, in room) (*setout.Corner, span.Set, bool) {
	name := []string{"from", "to"}[i]
	refuse := func(what string) (*setout.Corner, span.Set, bool) {
		if !l.d.unread[1] {
			l.w.error("tucked-into-what", a.node.Range, what, "a board is tucked into a corner when its end is cut to one of the two sides that make it, and an edge of it touches the other",
				snag.Say("write the point as: where A meets B, and cut the end to A or to B: ends: {"+name+": A}"))
		}
		return nil, span.Set{}, false
	}
	var sides []geom.Plane // seen square to the board's face
	for _, p := range at.meets {
		if p.N.Cross(in.Way(setout.Dir(l.d.faces))).Length() > 1e-6 {
			sides = append(sides, p)
		}
	}
	if len(sides) != 2 {
		return refuse("this point is no corner where two things meet")
	}
	var cut *endDecl
	most := 0.0
	for _, e := range l.d.ends {
		if e.way == name {
			cut = e
			break
		}
		if along := in.Way(setout.Dir(e.word)).Dot(way); e.way == "" && along > most {
			cut, most = e, along
		}
	}
	if cut == nil || len(cut.ways) != 1 || cut.ways[0].to == nil {
		return refuse("nothing says which side of this corner the end of " + phrase.Spaced(l.d.name) + " is cut to")
	}
	v, p := l.placeOf(cut.ways[0].to, in, "the end of "+phrase.Spaced(l.d.name))
	if p == nil {
		return nil, span.Set{}, false
	}
	target := p.onAxis(in, setout.Dir(l.d.faces))
	for k, s := range sides {
		if s.N.Cross(target.N).Length() <= 1e-6 && absf(target.Over(at.at)) <= geom.Touch {
			return &setout.Corner{Cut: s, Other: sides[1-k]}, v.From, true
		}
	}
	return refuse("the end of " + phrase.Spaced(l.d.name) + " is cut to neither side of this corner")
}
