package joint

import (
	"slices"
	"strconv"
	"strings"

	"scantling/internal/board"
	"scantling/internal/design"
	"scantling/internal/measure"
	"scantling/internal/screw"
	"scantling/internal/snag"
	"scantling/internal/span"
)

// trials is how many mends of one piece are tried, so that a large piece with many
// faults is still told in good time.
const trials = 48

// closing keeps of the mends a program can do those that close: with one made, the
// snag is gone and no error is there that was not. Each is tried on the joints it
// changes, those that share a board with them, and those that share one with these:
// no fastener gives way to one further off. Where none closes, what a person can do
// is left.
func closing(p *design.Piece, m *Meetings, snags snag.List) {
	left := trials
	about := map[board.ID][]int{} // the joints of a board
	for i := range p.Joints {
		for _, id := range boardsOf(&p.Joints[i]) {
			about[id] = append(about[id], i)
		}
	}
	for i := range snags {
		s := &snags[i]
		closed := map[span.Range]bool{} // values with a change that closes
		kept := slices.DeleteFunc(slices.Clone(s.Mends), func(x snag.Mend) bool {
			if x.Edits == nil {
				return false
			}
			if at := x.Edits[0].At; closed[at] {
				return true
			}
			touched := spoken(p.Joints, x.Edits)
			if len(touched) == 0 || left == 0 {
				return true
			}
			left--
			f := newFinder(p, m)
			if slices.ContainsFunc(x.Edits, names) {
				f.metals(f.pair(edited(p.Joints, x.Edits)))
			}
			if s.Code != "corrosion" && s.Code != "metals-mixed" {
				f.judged(f.pair(edited(nearby(p.Joints, touched, about), x.Edits)))
			}
			fails := slices.ContainsFunc(f.snags, func(y snag.Snag) bool {
				return sameSnag(y, *s) || y.Severity == snag.Error && !slices.ContainsFunc(snags, func(z snag.Snag) bool { return z.Severity == snag.Error && sameSnag(y, z) })
			})
			closed[x.Edits[0].At] = !fails
			return fails
		})
		if len(kept) == 0 {
			kept = []snag.Mend{snag.Say("change the fastener together with its place: no single change here mends it without another fault")}
		}
		s.Mends = kept
	}
}

// names reports whether an edit names a fastener, which may be of another metal.
func names(e span.Edit) bool {
	_, err := screw.Parse(e.Text)
	return err == nil
}

// nearby returns, in order, the joints touched and those up to two shared boards away.
func nearby(joints []design.Joint, touched []int, about map[board.ID][]int) []design.Joint {
	for range 2 {
		var more []int
		for _, i := range touched {
			for _, id := range boardsOf(&joints[i]) {
				more = append(more, about[id]...)
			}
		}
		slices.Sort(more)
		touched = slices.Compact(more)
	}
	out := make([]design.Joint, len(touched))
	for k, i := range touched {
		out[k] = joints[i]
	}
	return out
}

// sameSnag reports whether two snags are of one code and one place.
func sameSnag(a, b snag.Snag) bool { return a.Code == b.Code && a.At == b.At }

// spoken returns the joints that one of the values edited speaks of.
func spoken(joints []design.Joint, edits []span.Edit) (out []int) {
	for i := range joints {
		j := joints[i]
		if slices.ContainsFunc(edits, func(e span.Edit) bool { return edit(&j, e) }) {
			out = append(out, i)
		}
	}
	return out
}

// edited returns joints as they would be read after edits.
func edited(joints []design.Joint, edits []span.Edit) []design.Joint {
	out := slices.Clone(joints)
	for i := range out {
		for _, e := range edits {
			edit(&out[i], e)
		}
	}
	return out
}

// edit changes what a value of a joint says; false when it is none of the joint's.
func edit(j *design.Joint, e span.Edit) bool {
	for i, w := range j.With {
		if w.At == e.At {
			var with []design.Fastening
			for _, phrase := range strings.Split(strings.Trim(e.Text, "[]"), ", ") {
				with = append(with, design.Fastening{Phrase: phrase, At: w.At, From: w.From})
			}
			j.With = slices.Replace(slices.Clone(j.With), i, i+1, with...)
			return true
		}
	}
	if j.FromAt == e.At {
		j.From, j.FromSaid = e.Text, e.Text
		return true
	}
	if j.Pattern.SetAt == e.At {
		j.Pattern.Set = e.Text
		return true
	}
	if j.Pattern.CountAt == e.At {
		n, err := strconv.Atoi(e.Text)
		j.Pattern.Count = n
		return err == nil
	}
	for _, x := range []struct {
		at   span.Range
		said **design.Figure
	}{{j.Pattern.EdgeAt, &j.Pattern.FromEdge}, {j.Pattern.EndAt, &j.Pattern.FromEnd},
		{j.Counterbore.At[0], &j.Counterbore.Head}, {j.Counterbore.At[1], &j.Counterbore.Nut}} {
		if x.at == e.At {
			q, err := measure.Parse(e.Text)
			*x.said = &design.Figure{Q: q}
			return err == nil
		}
	}
	return false
}

// boardsOf returns the boards of both sides of a joint.
func boardsOf(j *design.Joint) []board.ID { return slices.Concat(j.Sides[0], j.Sides[1]) }
