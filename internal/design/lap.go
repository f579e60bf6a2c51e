package design

import (
	"math"
	"slices"

	"scantling/internal/board"
	"scantling/internal/expr"
	"scantling/internal/geom"
	"scantling/internal/measure"
	"scantling/internal/phrase"
	"scantling/internal/setout"
	"scantling/internal/snag"
	"scantling/internal/span"
)

// A lapAt is one pair of boards halved over one another.
type lapAt struct {
	of   [2]*member
	cuts [2]board.Cut
}

// lapsOf works out the half laps of a joint, each pair of copies where it lies,
// from their wood before notches.
func (w *world) lapsOf(i int) []lapAt {
	j := &w.d.joints[i]
	return get(w, &w.laps[i], j.name, j.at, func() []lapAt {
		if yes, _, known := w.holds(j.when); !yes || !known {
			return nil
		}
		var out []lapAt
		boards := 0
		for _, st := range w.seats(j.sc) {
			n, ok := w.lapsAt(j, st, &out)
			if !ok {
				return nil
			}
			boards += n
		}
		if len(out) == 0 && boards > 0 && !w.toldAt(j.lap.node.Range) {
			w.error("lap-of-nothing", j.lap.node.Range, "no two boards of "+phrase.Spaced(j.name)+" cross in one another, so there is nothing to lap", "a half lap is what two boards share, halved between them",
				snag.Say("let the boards run through one another, or fasten them otherwise"))
		}
		return out
	})
}

// lapsAt adds the laps of a joint in one copy of its group, and returns of how many
// pairs of boards.
func (w *world) lapsAt(j *jointDecl, st seat, out *[]lapAt) (pairs int, ok bool) {
	var of [2][]*member
	for k, side := range j.join {
		if of[k], ok = w.listedAt(side, st); !ok {
			return 0, false
		}
	}
	keeps, ok := w.listedAt(j.lap.keeps, st)
	if !ok {
		return 0, false
	}
	for _, m := range slices.Concat(of[0], of[1]) {
		if m.lot.isDoubled() {
			w.error("bad-joint", j.lap.node.Range, phrase.Spaced(m.lot.d.name)+" is glued up from plies, and a half lap halves single boards", "",
				snag.Say("let the other board into it: notch round:, or leave doubled: out"))
			return 0, false
		}
	}
	for _, a := range of[0] {
		for _, b := range of[1] {
			if a == b || slices.ContainsFunc(*out, func(l lapAt) bool { return l.of == [2]*member{a, b} || l.of == [2]*member{b, a} }) {
				continue
			}
			if lap, ok := w.lap(j, a, b, keeps, st); ok {
				*out = append(*out, lap)
			}
		}
	}
	return len(of[0]) * len(of[1]), true
}

// lap halves two boards, if they share wood.
func (w *world) lap(j *jointDecl, a, b *member, keeps []*member, st seat) (lapAt, bool) {
	x, y := a.rough(), b.rough()
	if x == nil || y == nil || !x.PlacedWood().Around().Meets(y.PlacedWood().Around(), 0) {
		return lapAt{}, false
	}
	if slices.Contains(keeps, b) != slices.Contains(keeps, a) {
		if slices.Contains(keeps, b) {
			a, b, x, y = b, a, y, x
		}
	} else if _, share := geom.Overlap(x.PlacedWood(), y.PlacedWood()); share {
		w.error("bad-joint", j.lap.node.Range, "of two boards lapped in one another one keeps the "+j.lap.side.Side()+", and "+phrase.Spaced(j.name)+" does not tell which of "+phrase.Spaced(a.lot.d.name)+" and "+phrase.Spaced(b.lot.d.name)+" it is", "",
			snag.Say("name the boards of one side under keeps "+j.lap.side.Side()+":"))
		return lapAt{}, false
	} else {
		return lapAt{}, false
	}
	from := span.Of(j.lap.node.Ordinal).Union(a.fromWood(), b.fromWood())
	cuts, met, err := setout.HalfLap(x, y, setout.Lapping{Name: j.name, Meets: [2]string{phrase.Spaced(b.lot.d.name), phrase.Spaced(a.lot.d.name)}, From: from, Keeps: st.way(w, j.sc, j.lap.side)})
	switch f, _ := err.(*setout.Fault); {
	case f != nil && f.Kind == setout.Skew:
		w.error("skew-words", j.lap.node.Range, "these boards cannot keep the "+j.lap.side.Side()+": their wide faces do not look that way", "", snag.Say("name the way their faces look"))
	case err != nil:
		w.fault(j.lap.node.Range, err, "the half lap "+phrase.Spaced(j.name))
	}
	return lapAt{[2]*member{a, b}, cuts}, met && err == nil
}

// laps returns the cuts of the member's half laps.
func (m *member) laps() (out []setout.Notched, ok bool) {
	for i := range m.lot.w.d.joints {
		if !m.lot.w.d.joints[i].laps(m.lot.d.name) {
			continue
		}
		for _, l := range m.lot.w.lapsOf(i) {
			for k, of := range l.of {
				if of == m {
					out = append(out, setout.Notched{Cuts: []board.Cut{l.cuts[k]}})
				}
			}
		}
	}
	return out, true
}

// laps reports whether the joint is a half lap of boards of that name.
func (j *jointDecl) laps(name string) bool {
	if j.lap == nil {
		return false
	}
	for _, side := range j.join {
		for _, r := range side {
			if r.Path[len(r.Path)-1].Text == name {
				return true
			}
		}
	}
	return false
}

// lapDepth returns how deep the laps of a joint are, nil if they differ.
func (w *world) lapDepth(i int) *Figure {
	var out *Figure
	for _, l := range w.lapsOf(i) {
		for _, c := range l.cuts {
			switch {
			case out == nil:
				out = &Figure{measure.Quantity{V: c.Depth * nmPerMM, D: measure.DimLength}, c.From}
			case math.Abs(out.Q.V-float64(c.Depth*nmPerMM)) > geom.Alike*nmPerMM:
				return nil
			default:
				out.From = out.From.Union(c.From)
			}
		}
	}
	return out
}

// joint reads the depth of a half lap.
func (e *env) joint(r *expr.Ref) (expr.Value, bool) {
	i := e.w.d.jointNamed(e.sc, r.Path[0].Text)
	if i < 0 || len(r.Path) < 2 {
		return expr.Value{}, false
	}
	j := &e.w.d.joints[i]
	switch {
	case len(r.Path) > 2 || r.Path[1].Text != "depth" || j.lap == nil:
		return e.tell("no-such-reading", r.Path[1].At, "“"+j.name+"” is a joint, and a measure reads nothing but the depth of a half lap", snag.Say("read its .depth, or a size of the boards it joins")), true
	case len(r.Select) > 0:
		return e.tell("no-such-copy", r.Select[0].At, "“"+j.name+"” is a joint, of which there is one", snag.Say("leave out “"+r.Select[0].Text+"”")), true
	}
	if d := e.w.lapDepth(i); d != nil {
		return expr.Num(d.Q, d.From), true
	}
	if len(e.w.lapsOf(i)) == 0 {
		return expr.Value{}, true
	}
	return e.tell("no-such-reading", r.At, "the laps of “"+j.name+"” are not all equally deep", snag.Say("read the thickness of a board and halve it")), true
}
