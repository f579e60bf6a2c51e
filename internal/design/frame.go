package design

import (
	"scantling/internal/board"
	"scantling/internal/setout"
	"scantling/internal/snag"
)

func (l *lot) frameOf() frameAt {
	return get(l.w, &l.frame, l.key("runs"), l.d.place, func() frameAt {
		d := l.d
		r := l.w.roomOf(d.in)
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
			l.w.fault(d.place, err, spaced(d.name))
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
	f, across, tie, err := setout.Between(out.room.Room, setout.Dir(l.d.faces),
		setout.Anchor{Centre: b.from.centre, Edge: setout.Dir(b.from.edge), At: from.at},
		setout.Anchor{Centre: b.to.centre, Edge: setout.Dir(b.to.edge), At: to.at}, s.w.MM(), l.words())
	if err != nil {
		l.w.fault(b.at, err, spaced(l.d.name))
		return frameAt{}
	}
	if tie {
		l.w.tell(snag.Snag{Code: "side-words-tie", Severity: snag.Advice, At: b.at,
			What:  spaced(l.d.name) + " lies at 45°: its sides could be called by either of two words, and are called " + f.Words[board.Near].Side() + " and " + f.Words[board.Far].Side(),
			Mends: []snag.Mend{snag.Say("turn it a little, or take care which word you use")}})
	}
	out.Frame, out.across = f, &across
	out.from = out.from.Union(from.from, to.from)
	return out
}
