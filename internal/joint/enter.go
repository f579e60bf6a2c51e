package joint

import (
	"fmt"
	"slices"

	"scantling/internal/board"
	"scantling/internal/screw"
	"scantling/internal/snag"
)

// face checks that the face a design names under from: is the one its fasteners can
// enter by: square to the contact, on the far side of the board gone through. The
// word is that of the first pair; a copy is entered by the same side, carried along.
func (f *finder) face(j *Joint) {
	driven := slices.ContainsFunc(j.With, func(w screw.Fastener) bool { return w.Driven() && w.Family != screw.Dowel })
	if j.From == "" || !driven {
		return
	}
	right := map[string]board.Side{} // by name: the side the first of them is rightly entered by
	for k := range j.Pairs {
		p := &j.Pairs[k]
		t := p.Through
		word := p.faceOf(t)
		side, _ := t.Named(word)
		first, seen := right[t.Name]
		among := j.FromOf == nil || slices.Contains(j.FromOf, t.ID)
		switch {
		case among && word == j.From:
			right[t.Name] = side
			continue
		case among && seen && (side == first || side.IsEdge() && first.IsEdge()):
			continue
		}
		var mends []snag.Mend
		if j.FromOf == nil && j.FromSaid == j.From && len(right) == 0 {
			mends = append(mends, snag.Replace("write from: "+word, j.FromAt, word))
		}
		if into := p.Into(); p.faceOf(into) == j.From && (j.FromOf == nil || slices.Contains(j.FromOf, into.ID)) {
			mends = append(mends, snag.Say(fmt.Sprintf("or let them go through the %s first: through: %s", into.Spoken, into.Name)))
		}
		mends = append(mends, snag.Say("or leave from: out"))
		x := snag.Snag{Code: "from-face", Severity: snag.Error, At: j.FromAt, Tier: snag.Settled, Boards: []string{string(t.ID), string(p.Into().ID)},
			What:  fmt.Sprintf("%s: fasteners into the %s enter the %s by its %s, and from: names %s", j.Name, p.Into().Spoken, t.Spoken, word, named(j, t.Name)),
			Why:   "a fastener enters by the face that looks away from the board it goes into",
			Mends: mends}
		f.snags = append(f.snags, x)
		return
	}
}

// named words the face a joint names.
func named(j *Joint, through string) string {
	if j.FromOf != nil && len(j.FromOf) > 0 {
		return "the " + j.From + " of another board than the " + through + ", or a face it cannot reach"
	}
	return "its " + j.From
}

// alone says that a threaded insert has no bolt to go into it.
func (f *finder) alone(j *Joint, i int) {
	if len(j.Pairs) == 0 {
		return
	}
	w := j.With[i]
	g := &group{joint: j, with: w, said: j.fastening(i)}
	mend := snag.Say("name the bolt beside it: with: [hex bolt " + w.Size + ", " + w.Name() + "]")
	if len(j.With) == 1 {
		both := "[hex bolt " + w.Size + ", " + w.Name() + "]"
		mend = snag.Replace("write "+both, g.said.At, both)
	}
	f.about(g, &j.Pairs[0], "insert-alone", snag.Error, w.Name()+" holds nothing by itself: a bolt of its size goes through the other board into it",
		"an insert takes the place of a nut", mend)
}
