package design

import (
	"strings"

	"scantling/internal/expr"
	"scantling/internal/setout"
	"scantling/internal/snag"
	"scantling/internal/source"
	"scantling/internal/span"
	"scantling/internal/spell"
)

// A scope is where names are declared: the file, or one group, which sees the
// file's names too. The file sees a group's by the dot.
type scope struct {
	group *groupDecl // nil of the file
	outer *scope
	names map[string]name
	order []string // of names, as declared
}

func newScope(g *groupDecl, outer *scope) *scope {
	return &scope{group: g, outer: outer, names: map[string]name{}}
}

// find looks a name up here, then outward.
func (s *scope) find(text string) (name, bool) {
	for ; s != nil; s = s.outer {
		if k, ok := s.names[text]; ok {
			return k, true
		}
	}
	return name{}, false
}

// sees lists the names of the given kinds that can be written here.
func (s *scope) sees(kinds ...kind) []string {
	var known []string
	for ; s != nil; s = s.outer {
		for _, o := range s.order {
			for _, k := range kinds {
				if s.names[o].kind == k {
					known = append(known, o)
				}
			}
		}
	}
	return known
}

// nearName offers the known names nearest to a text, of the given kinds.
func (s *scope) nearName(text string, at span.Range, kinds ...kind) []snag.Mend {
	known := s.sees(kinds...)
	if near := spell.Nearest(text, known); len(near) > 0 {
		return []snag.Mend{snag.Replace("did you mean "+near[0]+"?", at, near[0])}
	}
	if len(known) == 0 {
		return []snag.Mend{snag.Say("the file has no names that could stand here: write one first")}
	}
	if len(known) > 12 {
		known = append(known[:12:12], "…")
	}
	return []snag.Mend{snag.Say("there are: " + strings.Join(known, ", "))}
}

// unknownName tells that nothing has this name, with the nearest that has.
func (s *scope) unknownName(n *source.Node, w expr.Word) snag.Snag {
	at := n.Sub(w.Start, w.End)
	what := "nothing here is called “" + w.Text + "”"
	if _, ok := expr.DirOf(w.Text); ok {
		what = "“" + w.Text + "” is a direction, and a name belongs here"
	}
	return snag.Snag{Code: "unknown-name", At: at, What: what,
		Mends: s.nearName(w.Text, at, aSize, aLet, aPart, aRow, aStock, aPlane, aPoint, aChoice, aGroup)}
}

// jointNamed returns the number of a joint said here or outward, -1 if there is
// none.
func (d *Design) jointNamed(s *scope, text string) int {
	for ; s != nil; s = s.outer {
		for i := range d.joints {
			if d.joints[i].name == text && d.joints[i].sc == s {
				return i
			}
		}
	}
	return -1
}

// home is the room a scope speaks in: the piece, or where a use of a group stands.
func (w *world) home(s *scope) room {
	if s == nil || s.group == nil {
		return w.piece()
	}
	return w.groups[s.group.n].home()
}

// home is the room the lot's words are said in when it is in no plane.
func (l *lot) home() room { return l.w.home(l.d.sc) }

// heading is the room directions are read in that pick among copies.
func (l *lot) heading() setout.Room {
	if r := l.home(); r.ok {
		return r.Room
	}
	return setout.Piece()
}
