package shop

import (
	"scantling/internal/joint"
	"scantling/internal/phrase"
	"scantling/internal/screw"
	"scantling/internal/span"
)

// A driven line is one kind of fastener of one joint in one step.
type driven struct {
	joint         *joint.Joint
	use           joint.Use
	count, pairs  int
	through, into []string
	even          bool // every pair takes the same number
	pair          *joint.Pair
	from          span.Set
}

// how says what goes through what into what, and how it is set.
func (s *shop) how(l *driven, total Shown) Text {
	f := l.use.Fastener
	through, into := "the "+phrase.List(l.through), "the "+phrase.List(l.into)
	t := Text(nil).Show(total).Say(" " + counted(f, l.count))
	sunk, plain := [2]float64{}, true // heads and nuts below the face
	if len(l.use.Axes) > 0 {
		sunk, plain = l.use.Axes[0].Sunk, l.use.Axes[0].In == ""
	}
	fit := l.use.Fit
	switch {
	case f.Family == screw.Glue:
		of := l.pair.A
		switch {
		case of.Name != l.pair.B.Name:
			t = Words(phrase.Begin(string(f.Family)) + " between " + through + " and " + into)
		case of.Ply > 0:
			t = Words(phrase.Begin(string(f.Family)) + " over the whole face, between the plies of the " + phrase.Spaced(of.Name))
		default: // side by side in a row
			t = Words(phrase.Begin(string(f.Family)) + " between one " + phrase.Spaced(of.Name) + " and the next")
		}
	case f.Family == screw.Corner:
		t = t.Say(" in the corner where " + through + " and " + into + " meet")
	case f.Family == screw.FlatBracket:
		t = t.Say(" over the line where " + through + " and " + into + " meet flush")
	case f.Family == screw.Insert:
		t = t.Say(" in " + into)
	case !plain:
		t = t.Say(" through the brackets into " + through + " and " + into)
	case f.Bolted() && fit != nil && fit.Insert != nil:
		t = t.Say(" through ").Show(s.pen.Bit(f.Hole().MM(), l.from)).Say(" holes in " + through + " into the inserts in " + into)
		if fit.Under > 0 {
			t = t.Say(", a washer under each head")
		}
	case f.Bolted():
		washers := "a washer"
		if fit != nil && fit.Washers > 1 {
			washers = number(fit.Washers) + " washers"
		}
		t = t.Say(" in ").Show(s.pen.Bit(f.Hole().MM(), l.joint.Scalars)).
			Say(" holes, heads on " + through + ", nuts on " + into + ", " + washers + " under each nut")
	case f.Family == screw.Dowel && l.use.Pegged():
		t = t.Say(" right through " + through + " and " + into + ", the two clamped, in ").Show(s.pen.Bit(f.Shank.MM(), l.from)).Say(" holes")
	case f.Family == screw.Dowel:
		t = t.Say(" between " + through + " and " + into + ", half in each")
	default:
		t = t.Say(" through " + through + " into " + into)
	}
	for side, what := range []string{"heads", "nuts"} {
		if sunk[side] > 0 {
			t = t.Say(", " + what + " sunk ").Show(s.pen.Length(sunk[side], l.joint.Scalars))
			if side == 0 && l.joint.Counterbore.Plug {
				t = t.Say(" and plugged")
			}
		}
	}
	return t
}

// drill adds what is drilled on the work: the pilot through the hole of the first
// board, through a bracket, or for an insert.
func (s *shop) drill(t Text, l *driven, bits []Shown, deep float64) Text {
	f := l.use.Fastener
	wood := l.from.Union(l.pair.A.Section, l.pair.B.Section)
	into := "the " + phrase.List(l.into)
	switch {
	case f.Screwed() && len(bits) == 1:
		t = t.Say("; mark them through the bracket and drill ").Show(bits[0]).Say(", ").Show(s.pen.Length(deep, wood)).Say(" deep")
	case f.Bolted() && len(bits) == 2:
		t = t.Say("; through each hole mark " + into + " and drill ").Show(bits[1]).Say(", ").Show(s.pen.Length(deep, wood)).Say(" deep, for the insert")
	case f.Screwed() && len(bits) == 2:
		t = t.Say("; through each ").Show(bits[0]).Say(" hole drill ").Show(bits[1]).Say(" into " + into + ", ").Show(s.pen.Length(deep, wood)).Say(" deep, the two clamped")
		if shank := l.pair.Shank(&l.use); shank > 0 {
			t = t.Say(", after ").Show(bits[0]).Say(" for the first ").Show(s.pen.Length(shank, wood))
		}
	}
	return t
}
