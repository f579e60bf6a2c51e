package design

import (
	"errors"
	"math"
	"slices"
	"strconv"
	"strings"

	"scantling/internal/geom"
	"scantling/internal/setout"
	"scantling/internal/snag"
	"scantling/internal/span"
	"scantling/internal/steady"
)

// fault tells what setting out could not do, in a woodworker's words. what names
// the thing that was being set out: "the left of leg".
func (w *world) fault(at span.Range, err error, what string) {
	var f *setout.Fault
	if !errors.As(err, &f) {
		w.error("cannot-set-out", at, what+" cannot be set out: "+err.Error(), "", snag.Say("say it another way"))
		return
	}
	mm := w.d.printMM
	deg := func(r float64) string { return strconv.FormatFloat(math.Round(r/math.Pi*1800)/10, 'f', -1, 64) + "°" }
	n := strconv.Itoa
	type words struct {
		code            snag.Code
		what, why, mend string
	}
	var s words
	switch f.Kind {
	case setout.Skew:
		s = words{"skew-words", what + " is said by words that do not fit together", "a board's show face looks square to its run, and a tilt moves one of its ends sideways", "see that runs, faces and the ends and directions of its tilts are on different axes"}
	case setout.Steep:
		s = words{"too-steep", what + " tilts by " + deg(f.Has) + ", and 89° is the most", "", "let it run another way, and tilt it less"}
	case setout.Short:
		s = words{"points-too-near", what + " runs between points " + mm(f.Has) + " apart, and the board is " + mm(f.Want) + " wide", "", "put the points further apart, or name the same edge at both"}
	case setout.NeedsLevel:
		if f.Has != 0 || f.Want != 0 {
			s = words{"needs-level", what + " leans or meets what leans: it could lie at " + mm(f.Has) + " or at " + mm(f.Want), "", "say where it is read: … at level and a height, or at a side"}
		} else {
			s = words{"needs-level", what + " leans, or meets what leans, so it has no one place", "", "say where it is read: … at level and a height, or at a side"}
		}
	case setout.NoCrossing:
		s = words{"no-crossing", what + " never meets that", "the two are parallel", "name something that lies across it"}
	case setout.Unsteady:
		s = words{"needs-level", what + " meets that along a line, at no single place", "", "say where it is read: … at level and a height, or at a side"}
	case setout.EndHeld:
		s = words{"not-that-side", what + " is an end of the board", "", "say it under ends:"}
	case setout.NotFacing:
		s = words{"meets-askew", what + " does not face that side", "", "say flush with, or name another side"}
	case setout.NotFlush:
		s = words{"meets-askew", what + " does not look the same way as that side", "", "say against, or name another side"}
	case setout.Grazing:
		s = words{"end-grazes", what + " is cut at " + deg(f.Has) + " to the grain, and " + deg(f.Want) + " is the least", "so flat a cut makes a point a yard long", "cut it to something that lies more across it"}
	case setout.Misses:
		s = words{"bad-end", what + " is cut to a part its centre line never meets", "", "name another part, or one of its sides"}
	case setout.TwoSides:
		s = words{"bad-end", what + " meets two sides of that part at once", "", "name the side it is cut to"}
	case setout.NoLength:
		s = words{"no-length", what + " comes to " + mm(f.Has) + " between its ends, and nothing is left of it", "", "see which end has passed the other"}
	case setout.TwoLengths:
		s = words{"length-twice", what + " has both ends and a length", "the ends give the length", "leave length out, or one of the ends"}
	case setout.NoEnd:
		s = words{"no-end", what + " has an end that nothing places", "", "say what the end is cut to, or give length:"}
	case setout.TooWide:
		s = words{"taper-too-big", what + " leaves " + mm(f.Has) + ", and the board is " + mm(f.Want) + " wide", "", "leave less"}
	case setout.BeyondEnd:
		s = words{"taper-too-big", what + " starts " + mm(f.Has) + " from the end, and there are " + mm(f.Want), "", "start it nearer the end"}
	case setout.NoStep:
		s = words{"bad-size", what + " goes on by " + mm(f.Has) + " at a time", "", "make the step longer than nothing"}
	case setout.TooMany:
		s = words{"absurd-count", what + " comes to " + strconv.FormatFloat(f.Has, 'f', -1, 64) + " copies, and there may be " + strconv.FormatFloat(f.Want, 'f', -1, 64), "", "make the steps longer"}
		if f.Count > 0 {
			s = words{"absurd-count", what + " has " + mm(f.Has) + " to fill with boards " + mm(f.Want) + " wide, and at most " + n(f.Count) + " boards may stand in a row", "", "make the boards wider, or the row shorter"}
		}
	case setout.NoRow:
		s = words{"no-room", what + " has " + mm(f.Has) + " to fill, and one board is " + mm(f.Want) + " wide", "", "see that from and to are the right way round, and wide enough"}
	case setout.RowEven:
		s = words{"no-even-gap", what + ": no number of whole boards gives a gap from " + mm(f.Low) + " to " + mm(f.High) + ": " +
			w.nearestRows(f), "", w.evenMend(f)}
	case setout.RowExact:
		s = words{"row-leftover", what + ": boards and gaps leave " + mm(f.Has) + " over", "", "say where it goes: leftover: even, rip last, rip both, at end, …"}
	case setout.RowNarrow:
		s = words{"rip-too-narrow", what + " needs a board ripped to " + mm(f.Has) + ", and " + mm(f.Want) + " is the least", "", "lower least:, or choose another leftover:"}
	case setout.RowCrowded:
		s = words{"no-room", what + ": " + n(f.Count) + " boards need " + mm(f.Want) + ", and there are " + mm(f.Has), "", "take fewer boards"}
	case setout.RowCount:
		s = words{"absurd-count", what + " is to have " + n(f.Count) + " boards", "", "give it one or more: count:"}
	case setout.Tongue:
		s = words{"thin-tongue", what + " leaves a strip of " + mm(f.Has) + " of wood, and under " + mm(f.Want) + " it breaks off", "", "move it, or let the notch open on that side: open:"}
	case setout.Parted:
		s = words{"notch-parts-board", what + " cuts the board into " + n(f.Count) + " pieces", "", "make the notch smaller, or cut the board in two parts"}
	case setout.Enclosed:
		s = words{"notch-enclosed", what + " would be a hole with " + mm(f.Has) + " of wood or more all round", "a saw cannot start there", "write hole: yes if that is meant, or open: and the side it opens to"}
	case setout.NoTuck:
		s = words{"tucks-neither-way", what + " fits its corners no way: lying " + headings(f.Runs) + " from level it enters the wood of one by " + mm(f.Has) + " or more", "an edge of the board should touch each corner, and none of the pairs of edges leaves both free",
			"cut the end to the other side of the corner, or name the edge: upper edge at …"}
	case setout.TwoTucks:
		s = words{"tucks-two-ways", what + " fits its corners two ways: it could lie " + headings(f.Runs) + " from level", "", "name the edge that goes through one of the points: upper edge at …"}
	case setout.Askew:
		s = words{"not-coplanar", what + " lies " + deg(f.Has) + " askew to the board it is cut with", "the two must lie flat in one plane", "see that both face the same way"}
	case setout.Apart:
		s = words{"not-coplanar", what + " lies " + mm(f.Has) + " out of the plane of the board it is cut with", "the two must lie flat in one plane", "hold both by the same side"}
	case setout.UnlikeThick:
		s = words{"not-coplanar", what + " is " + mm(f.Has) + " thick, and the board it is cut with " + mm(f.Want), "the two must be as thick as one another", "saw both from the same stock"}
	case setout.TwoMates:
		s = words{"two-mates", what + " comes as near to " + n(f.Count) + " boards", "", "say which: mitre with left …"}
	case setout.ShutIn:
		s = words{"lap-shut-in", what + " would be let in behind " + mm(f.Has) + " of wood", "a saw reaches a lap from the face of the board only", "keep the other board on that side, or move one of them"}
	case setout.Crosses:
		s = words{"outline-crosses", what + " has an outline that crosses itself", "", "give its corners in the order in which you would walk round it"}
	case setout.OffBoard:
		s = words{"off-the-board", what + " reaches from " + mm(f.Low) + " to " + mm(f.High) + ", and there are " + mm(f.Want) + " of board", "", "move it, or make it smaller"}
	case setout.TooDeep:
		s = words{"cut-too-deep", what + " is " + mm(f.Has) + " deep, and the board measures " + mm(f.Want) + " there", "", "make it less deep"}
	case setout.RadiusSmall:
		s = words{"bad-radius", what + " has a radius of " + mm(f.Has) + ", and " + mm(f.Want) + " is the least that goes round", "", "make the radius larger"}
	case setout.RadiusLarge:
		s = words{"bad-radius", what + " has a radius of " + mm(f.Has) + ", and " + mm(f.Want) + " is the most there is room for", "", "make the radius smaller"}
	case setout.NotSquare:
		s = words{"end-not-square", what + " is at an end that is not cut square: " + deg(f.Has) + " off", "the curve would not meet the end", "cut that end square, or round another"}
	case setout.NoArch:
		s = words{"bad-radius", what + " rises " + mm(f.Has) + " over " + mm(f.Want), "an arch rises at most half as far as it is long", "let it rise less, or leave less straight at its ends"}
	case setout.GapDries:
		s = words{"gap-dries-wider", what + ": boards laid tight dry " + mm(f.Want) + " apart, and gaps of " + mm(f.Has) + " are asked", "", "ask for a wider gap, or lay drier boards"}
	case setout.Gone:
		s = words{"nothing-left", what + " leaves nothing of the board", "", "see what covers all of it"}
	default:
		s = words{"cannot-set-out", what + " cannot be set out", "", "say it another way"}
	}
	sn := snag.Snag{Code: s.code, At: at, What: s.what, Why: s.why, Mends: []snag.Mend{snag.Say(s.mend)}}
	if f.Kind == setout.Tongue {
		sn.Severity = snag.Caution
	}
	w.tell(sn)
}

// nearestRows says what the nearest numbers of whole boards would leave.
func (w *world) nearestRows(f *setout.Fault) string {
	var out []string
	for i, n := range f.Counts {
		if n > 1 {
			out = append(out, strconv.Itoa(n)+" boards leave gaps of "+w.d.printMM(f.Gaps[i]))
		}
	}
	if len(out) == 0 {
		return "there is room for one"
	}
	return listed(out)
}

// evenMend says how whole boards can be made to come out: which lengths of the row
// leave the gap asked for.
func (w *world) evenMend(f *setout.Fault) string {
	var long []string
	for i, n := range f.Counts {
		if n > 1 {
			long = append(long, w.d.printMM(f.Spans[i])+" for "+strconv.Itoa(n)+" boards")
		}
	}
	if len(long) == 0 {
		return "allow one of those gaps, or rip the last board: leftover: rip last"
	}
	return "allow one of those gaps, make the row as long as a gap of " + w.d.printMM(f.Aim) + " asks (" + strings.Join(long, " or ") +
		"), or rip the last board: leftover: rip last"
}

// headings says how far each of several runs lies off level.
func headings(runs []geom.Vec) string {
	var out []string
	for _, r := range runs {
		a := steady.Asin(math.Min(1, math.Abs(r.Z))) / math.Pi * 180
		if says := strconv.FormatFloat(math.Round(a*10)/10, 'f', -1, 64) + "°"; !slices.Contains(out, says) {
			out = append(out, says)
		}
	}
	return strings.Join(out, ", ")
}
