package order

import (
	"fmt"
	"slices"
	"strings"

	"scantling/internal/board"
	"scantling/internal/geom"
	"scantling/internal/measure"
	"scantling/internal/reach"
	"scantling/internal/snag"
	"scantling/internal/source"
)

type boardID = board.ID

// Check looks at every step of the piece and says what cannot be done in the order
// written, with the smallest change that mends it, and what could not be told.
func (w *Work) Check(tree *source.Tree) ([]Look, snag.List) {
	steps := w.Piece.Steps
	stages, left, _ := Follow(w.Piece, w.Joints, steps)
	looks := w.Look(steps, stages)
	c := checker{Work: w, tree: tree, looks: looks, now: map[fault]bool{}}
	for i := range looks {
		for _, f := range looks[i].faults() {
			c.now[f] = true
		}
	}
	c.search = search{Work: w, known: map[string][]fault{}, left: left, loose: w.adrift(stages)}
	for i := range looks {
		c.boards(i)
		c.tools(i)
	}
	if len(steps) > 0 && w.proposed {
		c.snags = append(c.snags, snag.Snag{Code: "steps-proposed", Severity: snag.Advice, At: w.Piece.NameAt, Tier: snag.Settled,
			What:  fmt.Sprintf("the file has no steps, and %d are proposed", len(steps)),
			Why:   "they come of taking the piece apart: each says why it comes when it does",
			Mends: []snag.Mend{snag.Say("write steps: of your own after them, with how the work lies and what to say")}})
	}
	return looks, c.snags
}

type checker struct {
	*Work
	tree   *source.Tree
	looks  []Look
	now    map[fault]bool
	search search
	snags  snag.List
}

// add adds a snag on a step with the change that mends a fault; none is what to do
// where no single change does. first is the board in the way.
func (c *checker) add(i int, s snag.Snag, bad fault, about map[int]bool, first int, none string, ways ...string) {
	d := &c.Piece.Steps[i]
	s.At, s.Step, s.Tier = d.At, i+1, snag.Settled
	s.What = fmt.Sprintf("in the step “%s” %s", d.Name, s.What)
	if s.Severity == snag.Error {
		if change, ok := c.search.mend(c.Piece.Steps, c.now, bad, about, first); ok {
			s.Mends = append(s.Mends, change.words(c.Piece.Steps, c.tree))
		} else {
			s.Mends = append(s.Mends, snag.Say(none))
		}
	}
	for _, say := range ways {
		s.Mends = append(s.Mends, snag.Say(say))
	}
	c.snags = append(c.snags, s)
}

// boards tells of what does not come to its place in a step.
func (c *checker) boards(i int) {
	l := &c.looks[i]
	for _, v := range []reach.Verdict{reach.No, reach.CannotTell} {
		about := map[int]bool{}
		first, n := -1, 0
		for k, way := range l.Ways {
			if way.Clear != v {
				continue
			}
			if n++; first < 0 {
				first = k
			}
			for _, b := range append(slices.Clone(l.Items[k]), way.By...) {
				about[b] = true
			}
		}
		if first < 0 {
			continue
		}
		way := &l.Ways[first]
		s := snag.Snag{Boards: c.ids(append(slices.Clone(l.Items[first]), way.By...))}
		who := c.item(l, first)
		more := ""
		if n > 1 {
			more = fmt.Sprintf("; nor do %d more", n-1)
		}
		if v == reach.CannotTell {
			s.Code, s.Severity, s.CannotTell = "way-unknown", snag.Advice, true
			s.What = fmt.Sprintf("how %s comes to its place cannot be told, since it stands in the %s%s", who, c.Piece.Boards[way.By[0]].Spoken, strings.Replace(more, "nor do", "nor can it of", 1))
			c.add(i, s, fault{}, nil, 0, "", "mend the clash first")
			continue
		}
		s.Code, s.Severity = "shut-out", snag.Error
		how := "cannot be moved at all"
		if way.Out > geom.Touch {
			how = "can be drawn back " + c.length(way.Out)
		}
		s.What = fmt.Sprintf("%s does not come to its place by any straight way tried, nor by two in turn: from there it %s before it meets the %s%s", who, how, c.Piece.Boards[way.By[0]].Spoken, more)
		s.Why = "past the boards that stand there by then; whether it could be tilted in is not tried"
		c.add(i, s, fault{"board", l.Items[first][0]}, about, way.By[0], "bring it in before what is in its way", "or cut the notch that holds it open to one side")
	}
}

// item names what comes in: a board, or a sub-assembly.
func (c *checker) item(l *Look, k int) string {
	if l.Names[k] != "" {
		return "the " + strings.ReplaceAll(l.Names[k], "_", " ")
	}
	return "the " + c.Piece.Boards[l.Items[k][0]].Spoken
}

func (c *checker) ids(places []int) []string {
	var out []string
	for _, k := range places {
		out = append(out, string(c.Piece.Boards[k].ID))
	}
	return out
}

// tools tells of fasteners that cannot be driven in a step, once a joint.
func (c *checker) tools(i int) {
	l := &c.looks[i]
	for d := 0; d < len(l.Drives); {
		n := d
		var bad []int
		about := map[int]bool{}
		for ; n < len(l.Drives) && l.Drives[n].Joint == l.Drives[d].Joint; n++ {
			if l.Rooms[n].Clear == reach.Yes {
				continue
			}
			bad = append(bad, n)
			for _, b := range append(l.Rooms[n].By, l.Drives[n].Drive.Boards[:]...) {
				about[b] = true
			}
		}
		if len(bad) > 0 {
			c.tool(i, bad, about)
		}
		d = n
	}
}

func (c *checker) tool(i int, bad []int, about map[int]bool) {
	l := &c.looks[i]
	v, room := &l.Drives[bad[0]], &l.Rooms[bad[0]]
	through, into := v.Pair.Through, v.Pair.Into()
	s := snag.Snag{Code: "tool-room", Severity: snag.Error, Boards: c.ids(append([]int{c.at[through], c.at[into]}, room.By...))}
	job := map[string]string{"head": "drive", "nut": "turn the nut of"}[room.Side]
	if room.Tool == "hand" {
		job = "put in"
	}
	which := "one"
	if len(bad) > 1 {
		which = fmt.Sprintf("%d", len(bad))
	}
	free := c.length(room.Free)
	if room.Free >= room.Needs {
		free = "enough"
	}
	s.What = fmt.Sprintf("there is no room to %s %s of %s, as between the %s and the %s: a %s takes %s along the axis and %s round it; there are %s and %s, for the %s",
		job, which, v.Joint.Name, through.Spoken, into.Spoken, room.Tool, c.length(room.Needs), c.length(room.Wide), free, c.length(room.Beside), c.Piece.Boards[room.By[0]].Spoken)
	s.Why = "tools of the usual size; where yours are smaller say so: --tool \"drill long=6\""
	c.add(i, s, fault{v.Joint.Name + " " + string(into.ID), v.Drive.Boards[0]}, about, room.By[0],
		"drive it before what is in the way goes on", "or move it, or drive it from the other side")
}

// length words mm millimetres for a message, in the units the piece is shown in.
func (w *Work) length(mm float64) string {
	l, _ := measure.FromMM(mm)
	tape := measure.Sixteenth
	if w.Piece.Units == measure.Metric {
		tape = measure.WholeMM
	}
	if l < tape.Step()/2 {
		return "nothing"
	}
	return l.Tape(tape).String()
}
