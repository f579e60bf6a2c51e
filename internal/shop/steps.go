package shop

import (
	"fmt"
	"strings"

	"scantling/internal/board"
	"scantling/internal/design"
	"scantling/internal/joint"
	"scantling/internal/measure"
	"scantling/internal/screw"
	"scantling/internal/snag"
	"scantling/internal/span"
)

// heavy is the weight, in kg, over which two people lift: about 50 lb.
// Source: common practice.
const heavy = 22.7

// A bench is what lies on the floor of the workshop as the steps go by: which
// boards are together in one assembly.
type bench struct {
	in      map[board.ID]int // the assembly a board is in; 0: not yet built in
	members map[int][]board.ID
	made    map[string]int // sub-assemblies by name
	next    int
}

// whole is the assembly of every step that makes no sub-assembly.
const whole = 1

// steps says every action of building: what is added and how it is placed, what
// is fastened, who lifts, and what to check.
func (s *shop) steps() {
	b := &bench{map[board.ID]int{}, map[int][]board.ID{}, map[string]int{}, whole}
	left := s.pairs()
	for i := range s.piece.Steps {
		d := &s.piece.Steps[i]
		r := Step{Number: i + 1, Name: d.Name, Lies: d.Lies, Say: s.text(d.Say), Times: 1}
		if d.Each != "" {
			r.Name += ", " + d.Each
		}
		here := whole
		switch name := strings.TrimSpace(d.Each + " " + d.Makes); {
		case d.GoesOn:
			here = b.made[d.Makes]
		case d.Makes != "":
			b.next++
			here = b.next
			b.made[d.Makes], b.made[name] = here, here
		}
		there := append([]board.ID(nil), b.members[here]...)
		var loads []load
		for _, name := range d.AddMade {
			if sub, ok := b.made[name]; ok && sub != here && len(b.members[sub]) > 0 {
				loads = append(loads, load{name, s.ground(b.members[sub]).order})
				r.New = append(r.New, b.members[sub]...)
				b.join(here, sub)
			}
		}
		var added []board.ID
		for _, id := range d.Add {
			if k, ok := s.at[id]; ok && b.in[id] == 0 && s.piece.Boards[k].Solid != nil {
				added = append(added, id)
				loads = append(loads, load{"", []int{k}})
				b.in[id] = here
				b.members[here] = append(b.members[here], id)
			}
		}
		r.Marks = s.place(there, loads)
		r.New = append(r.New, added...)
		r.Add = s.stepParts(added)
		r.Present = append([]board.ID(nil), b.members[here]...)
		left = s.fasten(&r, d, b, here, left)
		r.Checks = s.checks(added)
		r.People = s.people(r.Present)
		s.out.Steps = append(s.out.Steps, r)
	}
	s.unfastened(left, b)
}

// join moves all boards of one assembly into another.
func (b *bench) join(into, from int) {
	for _, id := range b.members[from] {
		b.in[id] = into
	}
	b.members[into] = append(b.members[into], b.members[from]...)
	delete(b.members, from)
}

func (s *shop) people(present []board.ID) int {
	kg := 0.0
	for _, id := range present {
		kg += s.kg[s.at[id]]
	}
	if kg > heavy {
		return 2
	}
	return 1
}

// stepParts counts the boards a step adds, part by part, in the order of their
// letters.
func (s *shop) stepParts(added []board.ID) []StepPart {
	var out []StepPart
	is := map[board.ID]bool{}
	for _, id := range added {
		is[id] = true
	}
	for _, p := range s.out.Parts {
		var spoken []string
		for _, id := range p.Boards {
			if is[id] {
				spoken = append(spoken, s.piece.Boards[s.at[id]].Spoken)
			}
		}
		if spoken != nil {
			out = append(out, StepPart{p.Letter, p.Name, len(spoken), spoken, p.Hand})
		}
	}
	return out
}

// A waiting pair is one that is not fastened yet.
type waiting struct {
	joint *joint.Joint
	pair  *joint.Pair
	held  bool // some step has put it together and left the fastening for later
}

func (s *shop) pairs() []waiting {
	var out []waiting
	for i := range s.declared {
		for k := range s.declared[i].Pairs {
			out = append(out, waiting{&s.declared[i], &s.declared[i].Pairs[k], false})
		}
	}
	return out
}

// fasten gives a step the pairs whose boards are together for the first time,
// less those it only holds, and those held before that it names. It returns the
// pairs still waiting.
func (s *shop) fasten(r *Step, d *design.Step, b *bench, here int, left []waiting) []waiting {
	var still []waiting
	var now []waiting
	for _, w := range left {
		together := b.in[w.pair.A.ID] == here && b.in[w.pair.B.ID] == here
		switch {
		case !together || w.held && !has(d.Fasten, w.joint.Name):
			still = append(still, w)
		case has(d.Hold, w.joint.Name):
			w.held = true
			still = append(still, w)
		default:
			now = append(now, w)
		}
	}
	for len(now) > 0 {
		n := 1
		for n < len(now) && now[n].joint == now[0].joint {
			n++
		}
		r.Fasten = append(r.Fasten, s.stepFasteners(now[:n])...)
		now = now[n:]
	}
	return still
}

// stepFasteners says what one joint takes in one step, a line for each kind of
// fastener.
func (s *shop) stepFasteners(ws []waiting) []StepFastener {
	var out []StepFastener
	type line struct {
		use           joint.Use
		count, pairs  int
		through, into []string
		even          bool // every pair takes the same number
		pair          *joint.Pair
		from          span.Set
	}
	var lines []*line
	for _, w := range ws {
		for _, u := range w.pair.Uses {
			var l *line
			for _, x := range lines {
				if x.use.Fastener.Name() == u.Fastener.Name() {
					l = x
				}
			}
			if l == nil {
				l = &line{use: u, even: true, pair: w.pair, from: w.joint.Scalars}
				lines = append(lines, l)
			}
			l.count += u.Count
			l.pairs++
			l.from = l.from.Union(s.rowFrom[w.pair.A.Name], s.rowFrom[w.pair.B.Name]) // how many boards there are
			l.even = l.even && u.Count == l.use.Count
			if n := called(w.pair.Through.Name); !has(l.through, n) {
				l.through = append(l.through, n)
			}
			if n := called(w.pair.Into().Name); !has(l.into, n) {
				l.into = append(l.into, n)
			}
		}
	}
	for _, l := range lines {
		f := l.use.Fastener
		total := s.pen.Count(l.count, l.from)
		t := Text(nil).Show(total).Say(" " + counted(f, l.count) + " through the " + list(l.through) + " into the " + list(l.into))
		switch {
		case f.Family == screw.Glue:
			t = Words(upper(string(f.Family)) + " between the " + list(l.through) + " and the " + list(l.into))
		case f.Bolted():
			washers := "a washer"
			if l.use.Fit != nil && l.use.Fit.Washers > 1 {
				washers = number(l.use.Fit.Washers) + " washers"
			}
			t = Text(nil).Show(total).Say(" " + counted(f, l.count) + " in ").Show(s.pen.Bit(f.Hole().MM(), ws[0].joint.Scalars)).
				Say(" holes, heads on the " + list(l.through) + ", nuts on the " + list(l.into) + ", " + washers + " under each nut")
		}
		if l.even && l.pairs > 1 && f.Family != screw.Glue {
			t = t.Say(": " + number(l.use.Count) + " where each two meet")
		}
		clear, pilot, deep := l.pair.Bits(l.use)
		var bits []Shown
		for _, b := range []measure.Length{clear, pilot} {
			if b > 0 {
				bits = append(bits, s.pen.Bit(b.MM(), l.from))
			}
		}
		if f.Screwed() && len(bits) == 2 {
			t = t.Say("; through each ").Show(bits[0]).Say(" hole drill ").Show(bits[1]).Say(" into the " + list(l.into) + ", ").
				Show(s.pen.Length(deep, l.from.Union(l.pair.A.Section, l.pair.B.Section))).Say(" deep, the two clamped")
		}
		out = append(out, StepFastener{What: f.Name(), Count: l.count, Joint: called(ws[0].joint.Name), Words: t, Bits: bits})
	}
	return out
}

// counted names n fasteners: "deck screws 8 x 2 1/2", "nail 8d".
func counted(f screw.Fastener, n int) string {
	if n == 1 {
		return f.Name()
	}
	return string(f.Family) + "s" + strings.TrimPrefix(f.Name(), string(f.Family))
}

// unfastened tells of joints no step ever fastens.
func (s *shop) unfastened(left []waiting, b *bench) {
	said := map[string]bool{}
	for _, w := range left {
		if said[w.joint.Name] || b.in[w.pair.A.ID] == 0 || b.in[w.pair.B.ID] == 0 {
			continue // a board no step adds is said elsewhere
		}
		said[w.joint.Name] = true
		x := snag.Snag{Code: "joint-held", Severity: snag.Caution, At: w.joint.At, Tier: snag.Settled,
			Boards: []string{string(w.pair.A.ID), string(w.pair.B.ID)},
			What:   fmt.Sprintf("no step fastens %s, for one between the %s and the %s", w.joint.Name, w.pair.A.Spoken, w.pair.B.Spoken),
			Mends:  []snag.Mend{snag.Say(fmt.Sprintf("write fasten: [%s] in the step that does it", w.joint.Name))}}
		if !w.held {
			x.What += ": they are never on the bench together"
			x.Mends = []snag.Mend{snag.Say("add what a step makes to a later step")}
		}
		s.snags = append(s.snags, x)
	}
}

// spacerRun is how many gaps in a row a spacer may be trusted for: past it the
// 1/64 in a spacer is off by comes to more than the trade tolerance of 1/16.
const spacerRun = 4

// checks says what is right after a step: the gaps of the rows it lays.
func (s *shop) checks(added []board.ID) []Text {
	out := s.dropped(added)
	for i := range s.piece.Rows {
		row := &s.piece.Rows[i]
		n := 0
		for _, id := range added {
			if b := s.piece.Boards[s.at[id]]; b.Row > 0 && b.Name == row.Name {
				n++
			}
		}
		count, ok := row.Count.Q.Count()
		if n == 0 || !ok || count < 2 {
			continue
		}
		t := Words("The gaps between the " + called(row.Name) + "s come to ").Show(s.pen.Quantity(row.Gap.Q, row.Gap.From)).Say(".")
		if gaps := count - 1; gaps > spacerRun {
			off := s.pen.Length(float64(gaps)*25.4/64, row.Count.From)
			t = t.Say(" Set them by the running marks, not by a spacer alone: one only ").Show(s.pen.Bit(25.4/64, row.Count.From)).
				Say(" too thick would push the last board ").Show(off).Say(" along.")
		}
		out = append(out, t)
	}
	for i := range s.piece.Fields {
		f := &s.piece.Fields[i]
		n := 0
		for _, id := range added {
			if b := s.piece.Boards[s.at[id]]; b.Field > 0 && b.Name == f.Name {
				n++
			}
		}
		if n > 1 {
			out = append(out, Words("The gaps between the "+called(f.Name)+"s come to ").Show(s.pen.Quantity(f.Gap.Q, f.Gap.From)).
				Say("; square across the boards the whole measures ").Show(s.pen.Quantity(f.Across.Q, f.Across.From)).Say("."))
		}
	}
	return out
}
