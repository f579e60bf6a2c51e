package joint

import (
	"slices"
	"strconv"
	"strings"

	"scantling/internal/design"
	"scantling/internal/measure"
	"scantling/internal/snag"
	"scantling/internal/span"
)

// trials is how many mends of one piece are tried, so that a large piece with many
// faults is still told in good time.
const trials = 48

// closing keeps of the mends a program can do those that close: with one made, the
// snag is gone and no error is there that was not. Each is tried on all joints of
// the piece. Where none closes, what a person can do is left.
func closing(p *design.Piece, m *Meetings, snags snag.List) {
	left := trials
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
			changed, ok := edited(p.Joints, x.Edits)
			if !ok || left == 0 {
				return true
			}
			left--
			f := newFinder(p, m)
			f.find(changed)
			fails := slices.ContainsFunc(f.snags, func(y snag.Snag) bool {
				return sameSnag(y, *s) || y.Severity == snag.Error && !slices.ContainsFunc(snags, func(z snag.Snag) bool { return sameSnag(y, z) })
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

// sameSnag reports whether two snags are of one code and one place.
func sameSnag(a, b snag.Snag) bool { return a.Code == b.Code && a.At == b.At }

// edited returns joints as they would be read after an edit of one of their values;
// false when the edit is of something else.
func edited(joints []design.Joint, edits []span.Edit) ([]design.Joint, bool) {
	out := slices.Clone(joints)
	done := false
	for i := range out {
		for _, e := range edits {
			done = edit(&out[i], e) || done
		}
	}
	return out, done
}

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
